package org.rejoin.console.speech;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

import org.rejoin.bridge.clearance.Readback;
import org.rejoin.console.speech.WrittenReadbacks.Written;

import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/**
 * Readbacks spoken by synthetic voices that the limits were not found on (they were found on slt of flite and en-us of
 * espeak-ng), into a microphone with noise 20 dB below the voice, heard by the real recogniser. The build hears eight;
 * {@code -Drejoin.hear.all=true} all of them by three voices, {@code -Drejoin.hear.db=10} with more noise.
 */
class HearingTest {

    private static final List<String> VOICES = List.of("rms", "awb", "kal16");
    private static final boolean ALL = Boolean.getBoolean("rejoin.hear.all");
    private static final double DB = Double.parseDouble(System.getProperty("rejoin.hear.db", "20"));

    private static String path = "";
    private static WrittenReadbacks written;
    private static Listener listener;
    private static Path flite = Path.of("");

    @BeforeAll
    static void program() throws Exception {
        path = Optional.ofNullable(System.getenv("PATH")).orElse("");
        Optional<Path> found = Programs.find(List.of("flite"), path);
        assumeTrue(found.isPresent(), "no flite on this machine");
        assumeTrue(Programs.find(List.of("pocketsphinx_batch"), path).isPresent(), "no recogniser on this machine");
        flite = found.get();
        written = new WrittenReadbacks(WrittenReadbacks.KNOWN);
        listener = new Listener(Recogniser.of(Optional.empty(), Optional.empty(), path), path);
    }

    private static Listener.Result hear(String voice, Written each) throws IOException {
        Sound clean = new Speaker(new Voice(Voice.Kind.FLITE, flite, voice)).say(each.text(), 150);
        Sound sound =
                Microphone.noisy(Microphone.padded(clean, 0.4), DB, each.text().hashCode());
        return listener.hear(voice, sound, expected(each), PilotVoice.STRANGER);
    }

    private static Listener.Expected expected(Written each) {
        return new Listener.Expected(written.lesson.chart(), written.lesson.filed(), each.clearance(), written.own);
    }

    @Test
    void ninetyFiveOfAHundredElementsAreMarkedAsAnInstructorWouldAndNoWrongOneIsCalledRight() throws Exception {
        int right = 0;
        int all = 0;
        List<String> calledRight = new ArrayList<>();
        List<String> others = new ArrayList<>();
        int step = ALL ? 1 : 24;
        for (int v = 0; v < VOICES.size(); v++) {
            for (int i = ALL ? 0 : 8 * v; i < written.readbacks.size(); i += step) {
                Written each = written.readbacks.get(i);
                Listener.Result result = hear(VOICES.get(v), each);
                List<String> marks = WrittenReadbacks.marks(result.elements());
                for (int e = 0; e < each.marks().size(); e++) {
                    String wanted = each.marks().get(e);
                    String got = e < marks.size() ? marks.get(e) : "";
                    all++;
                    right += wanted.equals(got) ? 1 : 0;
                    if (wanted.endsWith(" wrong") && got.endsWith(" right")) {
                        calledRight.add(each.text() + ": " + got + ", heard " + result.words());
                    }
                }
                if (!marks.equals(each.marks())) {
                    others.add(VOICES.get(v) + ": " + each.text() + "\n    heard " + result.words() + "\n    " + marks);
                }
            }
        }
        if (ALL) {
            System.out.println(
                    DB + " dB: " + right + " of " + all + " elements; wrong called right " + calledRight.size());
            others.forEach(System.out::println);
        }
        assertThat(calledRight).isEmpty();
        if (DB >= 20) {
            assertThat(right).as("of %d: %s", all, others).isGreaterThanOrEqualTo((int)
                    Math.ceil((ALL ? 0.95 : 0.9) * all));
        }
    }

    @Test
    void speechThatIsNoReadbackIsRefused() throws Exception {
        for (int i = 0; i < written.others.size(); i += ALL ? 1 : 5) {
            Written each = written.others.get(i);
            Listener.Result result = hear(VOICES.get(i % VOICES.size()), each);
            assertThat(result.doubt()).as(each.text()).isTrue();
            assertThat(result.elements())
                    .as("%s, heard %s", each.text(), result.words())
                    .allMatch(element -> element.verdict() == Readback.Verdict.UNCLEAR);
        }
    }

    @Test
    void aKnownSentenceTellsHowAVoiceFits() throws Exception {
        Sound known = new Speaker(new Voice(Voice.Kind.FLITE, flite, "rms")).say(Listener.KNOWN_SENTENCE, 150);
        assertThat(listener.calibrate("rms", Microphone.padded(known, 0.4))).hasValueSatisfying(voice -> {
            assertThat(voice.lower()).isBetween(-8.0, 0.0);
            assertThat(voice.warp()).isLessThan(1);
            assertThat(PilotVoice.of(voice.text())).isPresent();
        });
        Sound other = new Speaker(new Voice(Voice.Kind.FLITE, flite, "rms")).say("good morning to you", 150);
        assertThat(listener.calibrate("rms", other)).isEmpty();
    }

    @Test
    void nothingOfTheSoundStaysBehind() throws Exception {
        Set<String> before = folders();
        hear("kal16", written.readbacks.get(24));
        assertThat(folders()).isEqualTo(before);
    }

    private static Set<String> folders() throws IOException {
        Set<String> names = new TreeSet<>();
        Path temp = Path.of(System.getProperty("java.io.tmpdir"));
        try (DirectoryStream<Path> all = Files.newDirectoryStream(
                temp, "rejoin-sound-" + ProcessHandle.current().pid() + "-*")) {
            for (Path each : all) {
                if (Files.exists(each.resolve("sound.wav")) || Files.exists(each.resolve("said.wav"))) {
                    names.add(each.toString());
                }
            }
        }
        return names;
    }
}
