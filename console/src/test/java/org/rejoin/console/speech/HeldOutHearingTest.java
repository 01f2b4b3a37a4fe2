package org.rejoin.console.speech;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

import org.rejoin.bridge.clearance.Readback;
import org.rejoin.console.speech.WrittenReadbacks.Written;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.api.io.TempDir;

/**
 * The readbacks and voices of {@code readbacks-held-out.txt}, which no rule and no limit was adjusted on: heard by hand with
 * {@code -Drejoin.hear.held-out=0}, once and when nothing will be changed any more; {@code 5} begins at the sixth. Needs pico
 * (libttspico-utils) and mbrola with its voices en1, us1, us3: free of charge, not in Debian main. {@code -Drejoin.hear.db=10} with more noise, {@code -Drejoin.hear.step=6} hears each sixth.
 */
@EnabledIfSystemProperty(named = "rejoin.hear.held-out", matches = "\\d+")
class HeldOutHearingTest {

    private static final double DB = Double.parseDouble(System.getProperty("rejoin.hear.db", "20"));
    private static final int FIRST = Integer.getInteger("rejoin.hear.held-out", 0);
    private static final int STEP = Integer.getInteger("rejoin.hear.step", 1);

    /** Of each voice the program and its arguments; the words come last or on the standard input. */
    private static final Map<String, List<String>> VOICES = new TreeMap<>(Map.of(
            "pico en-US", List.of("pico2wave", "-l", "en-US", "-w"),
            "pico en-GB", List.of("pico2wave", "-l", "en-GB", "-w"),
            "mb-en1", List.of("espeak-ng", "--stdin", "-v", "mb-en1", "-s", "140", "-w"),
            "mb-us1", List.of("espeak-ng", "--stdin", "-v", "mb-us1", "-s", "150", "-w"),
            "mb-us3", List.of("espeak-ng", "--stdin", "-v", "mb-us3", "-s", "155", "-w")));

    @TempDir
    private Path folder;

    private final Map<String, int[]> counts = new TreeMap<>();
    private final List<String> calledRight = new ArrayList<>();
    private final List<String> notRefused = new ArrayList<>();

    private Sound said(String voice, String words) throws IOException, InterruptedException {
        Path wav = folder.resolve("said.wav");
        List<String> command = new ArrayList<>(VOICES.getOrDefault(voice, List.of()));
        command.add(wav.toString());
        if (command.contains("-l")) {
            command.add(words);
        }
        Process program = new ProcessBuilder(command).redirectErrorStream(true).start();
        try (OutputStream in = program.getOutputStream()) {
            in.write(words.getBytes(StandardCharsets.US_ASCII));
        }
        program.getInputStream().readAllBytes();
        assertThat(program.waitFor()).as(voice).isZero();
        Sound clean = Sound.read(Files.readAllBytes(wav), 30);
        return RadioSound.microphone(clean.padded(0.4), DB, words.hashCode());
    }

    /** Each voice is learnt by the known sentence first, as a pilot's is. */
    @Test
    void whatWasHeldOutIsMarkedAsAnInstructorWouldAndNoWrongElementIsCalledRight() throws Exception {
        String path = Optional.ofNullable(System.getenv("PATH")).orElse("");
        WrittenReadbacks written = new WrittenReadbacks(WrittenReadbacks.HELD_OUT);
        Listener listener = new Listener(Recogniser.of(Optional.empty(), Optional.empty(), path), path);
        List<Written> all = new ArrayList<>(written.readbacks);
        all.addAll(written.others);
        Map<String, PilotVoice> learnt = new TreeMap<>();
        for (String voice : VOICES.keySet()) {
            Optional<PilotVoice> fit = listener.calibrate(voice, said(voice, Listener.KNOWN_SENTENCE));
            System.out.println(voice + ": the known sentence " + fit);
            learnt.put(voice, fit.orElse(PilotVoice.STRANGER));
            counts.put(voice, new int[5]);
        }
        for (int i = FIRST; i < all.size(); i += STEP) {
            for (String voice : VOICES.keySet()) {
                Written each = all.get(i);
                Listener.Result result = listener.hear(
                        voice,
                        said(voice, each.text()),
                        expected(written, each),
                        learnt.getOrDefault(voice, PilotVoice.STRANGER));
                count(voice, i, each, result);
            }
            System.out.println(i + 1 + " of " + all.size() + " at " + DB + " dB: " + figures());
        }
        assertThat(calledRight).isEmpty();
        assertThat(notRefused).isEmpty();
        int[] sum = sum();
        assertThat(sum[0] / (double) sum[1]).as(figures()).isGreaterThanOrEqualTo(DB >= 20 ? 0.95 : 0);
    }

    private static Listener.Expected expected(WrittenReadbacks written, Written each) {
        return new Listener.Expected(written.lesson.chart(), written.lesson.filed(), each.clearance(), written.own);
    }

    private void count(String voice, int index, Written each, Listener.Result result) {
        List<String> marks = WrittenReadbacks.marks(result.elements());
        int[] count = counts.getOrDefault(voice, new int[5]);
        if (each.marks().isEmpty()) {
            if (!result.elements().stream().allMatch(element -> element.verdict() == Readback.Verdict.UNCLEAR)) {
                notRefused.add(voice + ": " + each.text());
                System.out.println("    not refused: " + voice + ": " + each.text() + ", heard " + result.words());
            }
            return;
        }
        for (int e = 0; e < each.marks().size(); e++) {
            String wanted = each.marks().get(e);
            String got = e < marks.size() ? marks.get(e) : "";
            count[0] += wanted.equals(got) ? 1 : 0;
            count[1]++;
            count[2] += got.endsWith(" unclear") ? 1 : 0;
            count[3] += got.endsWith(" wrong") && !wanted.endsWith(" wrong") ? 1 : 0;
            if (wanted.endsWith(" wrong") && got.endsWith(" right")) {
                count[4]++;
                calledRight.add(voice + ": " + each.text() + ": " + got + ", heard " + result.words());
            }
        }
        if (!marks.equals(each.marks())) {
            System.out.println("    " + (index + 1) + " " + voice + ": " + each.text() + "\n        heard "
                    + result.words() + "\n        " + marks);
        }
    }

    private int[] sum() {
        int[] sum = new int[5];
        counts.values().forEach(each -> {
            for (int i = 0; i < sum.length; i++) {
                sum[i] += each[i];
            }
        });
        return sum;
    }

    private String figures() {
        StringBuilder out = new StringBuilder();
        Map<String, int[]> all = new TreeMap<>(counts);
        all.put("together", sum());
        all.forEach((voice, count) -> out.append(String.format(
                Locale.ROOT,
                "\n  %-20s %d of %d right (%.1f %%), %d unclear, %d called wrong, %d called right",
                voice,
                count[0],
                count[1],
                100.0 * count[0] / Math.max(1, count[1]),
                count[2],
                count[3],
                count[4])));
        return out.append("\n  not refused: ").append(notRefused.size()).toString();
    }
}
