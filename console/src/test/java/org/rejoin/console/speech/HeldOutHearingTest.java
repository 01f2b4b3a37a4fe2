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
import java.util.stream.Collectors;

import org.rejoin.bridge.clearance.Readback;
import org.rejoin.console.speech.WrittenReadbacks.Written;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.api.io.TempDir;

/**
 * The readbacks and voices of {@code readbacks-held-out.txt}, which no rule and no limit was adjusted on: heard by hand with
 * {@code -Drejoin.hear.held-out=0}, once and when nothing will be changed any more; {@code 5} begins at the sixth. Needs mbrola
 * with its voice us2 (free of charge, not in Debian main), RHVoice with its voices bdl and clb, and festival with rab_diphone (festvox-rablpc16k).
 * {@code -Drejoin.hear.db=10} with more noise, {@code -Drejoin.hear.step=6} hears each sixth. {@code -Drejoin.hear.held-out=voices} makes
 * the sound and measures it, and nothing hears it.
 */
class HeldOutHearingTest {

    private static final double DB = Double.parseDouble(System.getProperty("rejoin.hear.db", "20"));
    private static final int FIRST = Integer.getInteger("rejoin.hear.held-out", 0);
    private static final int STEP = Integer.getInteger("rejoin.hear.step", 1);

    /**
     * Of each voice the program and its arguments; the file to be written comes last, the words on the standard input. Each says
     * the list at 140 to 165 words a minute.
     */
    private static final Map<String, List<String>> VOICES = new TreeMap<>(Map.of(
            "mb-us2", List.of("espeak-ng", "--stdin", "-v", "mb-us2", "-s", "140", "-w"),
            "RHVoice bdl", List.of("RHVoice-test", "-p", "bdl", "-r", "90", "-o"),
            "RHVoice clb", List.of("RHVoice-test", "-p", "clb", "-r", "100", "-o"),
            "festival rab_diphone",
                    List.of(
                            "text2wave",
                            "-eval",
                            "(voice_rab_diphone)",
                            "-eval",
                            "(Parameter.set 'Duration_Stretch 1.05)",
                            "-o")));

    @TempDir
    private Path folder;

    private final Map<String, int[]> counts = new TreeMap<>();
    private final List<String> calledRight = new ArrayList<>();
    private final List<String> notRefused = new ArrayList<>();

    private Sound said(String voice, String words) throws IOException, InterruptedException {
        return Microphone.noisy(Microphone.padded(spoken(voice, words), 0.4), DB, words.hashCode());
    }

    private Sound spoken(String voice, String words) throws IOException, InterruptedException {
        Path wav = folder.resolve("said.wav");
        List<String> command = new ArrayList<>(VOICES.getOrDefault(voice, List.of()));
        command.add(wav.toString());
        Process program = new ProcessBuilder(command).redirectErrorStream(true).start();
        try (OutputStream in = program.getOutputStream()) {
            in.write(words.getBytes(StandardCharsets.US_ASCII));
        }
        program.getInputStream().readAllBytes();
        assertThat(program.waitFor()).as(voice).isZero();
        return Sound.read(Files.readAllBytes(wav), 30);
    }

    private static List<Written> all(WrittenReadbacks written) {
        List<Written> all = new ArrayList<>(written.readbacks);
        all.addAll(written.others);
        return all;
    }

    /** What is measured later is a voice, at the pace of a pilot: no sound is empty, cut off or driven over its limits. */
    @Test
    @EnabledIfSystemProperty(named = "rejoin.hear.held-out", matches = "voices")
    void eachVoiceSaysTheListAsAPilotWould() throws Exception {
        for (String voice : VOICES.keySet()) {
            double seconds = 0;
            int words = 0;
            float loudest = 0;
            for (Written each : all(new WrittenReadbacks(WrittenReadbacks.HELD_OUT))) {
                Sound sound = spoken(voice, each.text());
                int count = each.text().split("[, ]+", -1).length;
                float peak = 0;
                for (float sample : sound.samples()) {
                    peak = Math.max(peak, Math.abs(sample));
                }
                assertThat(peak).as("%s: %s", voice, each.text()).isBetween(0.1f, 0.999f);
                assertThat(Microphone.rms(sound))
                        .as("%s: %s", voice, each.text())
                        .isGreaterThan(0.01);
                assertThat(count / sound.seconds() * 60)
                        .as("words a minute, %s: %s", voice, each.text())
                        .isBetween(80.0, 300.0);
                seconds += sound.seconds();
                words += count;
                loudest = Math.max(loudest, peak);
            }
            System.out.printf(
                    Locale.ROOT,
                    "%s: %d words in %.1f s, %.0f words a minute, peak %.2f%n",
                    voice,
                    words,
                    seconds,
                    words / seconds * 60,
                    loudest);
            assertThat(words / seconds * 60).as(voice).isBetween(140.0, 165.0);
        }
    }

    /** Each voice is learnt by the known sentence first, as a pilot's is. */
    @Test
    @EnabledIfSystemProperty(named = "rejoin.hear.held-out", matches = "\\d+")
    void whatWasHeldOutIsMarkedAsAnInstructorWouldAndNoWrongElementIsCalledRight() throws Exception {
        String path = Optional.ofNullable(System.getenv("PATH")).orElse("");
        WrittenReadbacks written = new WrittenReadbacks(WrittenReadbacks.HELD_OUT);
        Listener listener = new Listener(Recogniser.of(Optional.empty(), Optional.empty(), path), path);
        List<Written> all = all(written);
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
        System.out.println("Held out, heard to the end at " + DB + " dB: " + summary());
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

    /** Right of all elements by each voice, in one line. */
    private String summary() {
        Map<String, int[]> all = new TreeMap<>(counts);
        all.put("together", sum());
        return all.entrySet().stream()
                        .map(each -> String.format(
                                Locale.ROOT,
                                "%s %d of %d (%.1f %%)",
                                each.getKey(),
                                each.getValue()[0],
                                each.getValue()[1],
                                100.0 * each.getValue()[0] / Math.max(1, each.getValue()[1])))
                        .collect(Collectors.joining("; "))
                + "; wrong called right " + calledRight.size() + ", not refused " + notRefused.size();
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
