package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.rejoin.console.lesson.LessonReader;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What {@code debrief} says on the terminal. */
class DebriefCommandTest extends CommandsInTurn {

    /** Escape, bell, a C1 control (ECMA-48) and an override of the writing direction (UAX 9), as YAML writes them. */
    private static final String HOSTILE = "A\\u001b[31mRED\\u0007 \\u009b2J \\u202E\\nEND";

    @TempDir
    Path folder = Path.of("");

    private Path hostile() throws Exception {
        for (String name : List.of("flight.pcap", "chart")) {
            Files.copy(KeptFlight.PLACE.resolve(name), folder.resolve(name));
        }
        String lesson = Files.readString(KeptFlight.PLACE.resolve("lesson.yaml"))
                .replaceFirst("title: .*", "title: \"" + Matcher.quoteReplacement(HOSTILE) + "\"");
        return Files.writeString(folder.resolve("lesson.yaml"), lesson);
    }

    private static void assertHarmless(String text) {
        assertThat(text.codePoints()
                        .filter(c -> (c < ' ' && c != '\n' && c != '\r') || (c >= 0x7F && c <= 0x9F) || c == 0x202E)
                        .mapToObj(Integer::toHexString)
                        .toList())
                .as(text)
                .isEmpty();
    }

    @Test
    void controlCharactersOfALessonDoNotReachTheTerminal() throws Exception {
        hostile();
        done("debrief", folder.toString());
        assertThat(out).contains("[31mRED");
        assertThat(out.lines().filter(line -> line.startsWith("Lesson: ")))
                .singleElement()
                .asString()
                .as("the title is one line")
                .endsWith("END");
        assertHarmless(out);
        assertHarmless(err);
    }

    @Test
    void norDoThoseOfALessonThatIsNotTheOneKept() throws Exception {
        hostile();
        Path other = Path.of("..", "recordings", "outbound-good", "lesson.yaml");
        done("debrief", folder.toString(), "--lesson", other.toString());
        assertThat(err).contains("is graded with", "RED");
        assertHarmless(err);
    }

    @Test
    void norThroughWhatIsSaidBeforeTheFlight() throws Exception {
        List<String> lines = LessonCommand.sheet(LessonReader.readFile(hostile()));
        assertThat(lines.get(0)).startsWith("Lesson: A").endsWith("END");
        lines.forEach(line -> assertHarmless(line.replace('\n', '\u0007')));
    }

    @Test
    void theHelpSaysWhichSamplesTheTableLeavesOut() {
        done("debrief", "--help");
        assertThat(out.replaceAll("\\s+", " "))
                .contains("samples.csv has no row for samples sent while the simulator was paused");
    }

    /** Feet are whole, points have one decimal, a count has no unit, and a fault is found in the log by its clock. */
    @ParameterizedTest
    @ValueSource(strings = {"outbound-fly-through", "hold-wrong-side", "airway-weaving"})
    void figuresAreAsAnInstructorReadsThem(String recording) {
        done("debrief", KeptFlight.PLACE.resolveSibling(recording).toString());
        String said = out;
        assertThat(said)
                .doesNotContainPattern("\\d\\.\\d+ ft")
                .doesNotContainPattern("\\d count")
                .contains(" points");
        assertThat(said.lines().filter(line -> line.contains(" points")))
                .allSatisfy(line -> assertThat(line).containsPattern(" \\d+\\.\\d of +\\d+ points$"));
        Pattern fault = Pattern.compile("fault at (\\d\\d:\\d\\d\\.\\d) ");
        assertThat(said.lines().map(fault::matcher).filter(Matcher::find).map(found -> found.group(1)))
                .isNotEmpty()
                .allSatisfy(clock -> assertThat(said.lines()).anyMatch(line -> line.startsWith(clock + "  ")));
    }
}
