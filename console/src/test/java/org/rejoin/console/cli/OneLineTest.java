package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedWriter;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.TimeUnit;

import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.recording.Captured;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Files that are not what they should be, or too much: one line that says so, never a stack trace. */
@Timeout(value = 120, unit = TimeUnit.SECONDS)
class OneLineTest {

    /** A waypoint of the invented ocean, columns of ARINC 424: ident from 14, latitude and longitude from 33. */
    private static final String WAYPOINT = "SPACEAENRT   %5s XA0    C   L N%02d%02d0000W%03d%02d0000"
            + "                       E0127     WGE        P  %5s                    000082606";

    @TempDir
    private Path folder;

    private final StringWriter said = new StringWriter();

    private int run(String... args) {
        return Rejoin.run(new PrintWriter(said, true), new PrintWriter(said, true), args);
    }

    private Path recording() throws Exception {
        return KeptFlight.copied(KeptFlight.PLACE, folder.resolve("flight"));
    }

    @Test
    void aChartThatDoesNotFitIntoMemoryIsSaidInOneLine() throws Exception {
        Path chart = folder.resolve("large.424");
        try (BufferedWriter out = Files.newBufferedWriter(chart)) {
            for (int i = 0; i < 400_000; i++) {
                String ident = Integer.toString(26 * 26 * 26 * 26 + i, 26).toUpperCase(Locale.ROOT);
                String letters = ident.chars()
                        .map(c -> c <= '9' ? 'A' + c - '0' : c + 10)
                        .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
                        .toString();
                out.write(String.format(
                        Locale.ROOT, WAYPOINT + "\r\n", letters, i % 70, i % 60, i % 170, i / 170 % 60, letters));
            }
        }
        assertThat(Files.size(chart)).isGreaterThan(50_000_000);
        try (RealProgram program =
                RealProgram.start(folder, 0, List.of("-Xmx64m"), Map.of(), List.of("chart", chart.toString()))) {
            assertThat(program.awaitEnd()).isEqualTo(1);
            assertThat(program.said())
                    .startsWith("rejoin: this needs more memory than the 6")
                    .hasLineCount(1);
        }
    }

    /** As in a file that was cut off or changed on its way: a class that nothing can be made of is met first. */
    @Test
    void aDamagedProgramIsSaidInOneLineAndInFullWhereThatIsAskedFor() throws Exception {
        Path damaged = folder.resolve("damaged").resolve("org/rejoin/bridge/chart/io/ChartReader.class");
        Files.createDirectories(damaged.getParent());
        Files.write(damaged, new byte[] {1, 2, 3});
        List<String> java = List.of("-Xshare:off", "-Xbootclasspath/a:" + folder.resolve("damaged"));
        List<String> chart = List.of("chart", "any.yaml", "--json");
        try (RealProgram program = RealProgram.start(folder, 0, java, Map.of(), chart)) {
            assertThat(program.awaitEnd()).isEqualTo(1);
            assertThat(program.said().lines().filter(line -> !line.startsWith("{")))
                    .singleElement()
                    .asString()
                    .startsWith("rejoin: a part of the program is missing or damaged: ")
                    .endsWith("(run again with --verbose for details)");
            assertThat(program.said()).contains("{\"error\":{\"code\":\"FAILED\"");
        }
        try (RealProgram program =
                RealProgram.start(folder, 0, java, Map.of(), List.of("chart", "any.yaml", "--verbose"))) {
            assertThat(program.awaitEnd()).isEqualTo(1);
            assertThat(program.said()).contains("\tat org.rejoin.console.cli.ChartCommand");
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"", "[1, 2]", "only words", "name: x\ntitle: y\nheading_deg: ten\n", "\u0000", "{", "a: *b"})
    void aToleranceSetThatIsNoneGivesOneLine(String text) throws Exception {
        for (String name : List.of("heading-to-airway.yaml", "open-ocean.yaml")) {
            try (var resource = LessonReader.class.getResourceAsStream(name)) {
                Files.write(folder.resolve(name), resource.readAllBytes());
            }
        }
        Path set = Files.writeString(folder.resolve("mine.yaml"), text);
        Path lesson = folder.resolve("lesson.yaml");
        Files.writeString(
                lesson,
                Files.readString(folder.resolve("heading-to-airway.yaml"))
                        .replaceAll("(?m)^standard:.*$", "standard: mine.yaml"));
        assertThat(run("fly", lesson.toString(), "--hz", "1")).isEqualTo(2);
        assertThat(said.toString())
                .startsWith("rejoin: ")
                .contains(set.getFileName().toString())
                .doesNotContain("org.rejoin", "com.fasterxml", "Exception")
                .hasLineCount(1);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"", "[1, 2]", "only words", "aircraft: {a: b}", "formats: 7", "other: 1", "\u0000", "a: *b"})
    void aFeedFileThatIsNoneGivesOneLine(String text) throws Exception {
        Path recording = recording();
        Files.writeString(recording.resolve("feed.yaml"), text);
        assertThat(run("debrief", recording.toString())).isEqualTo(2);
        assertThat(said.toString())
                .startsWith("rejoin: ")
                .contains("feed.yaml")
                .doesNotContain("org.rejoin", "com.fasterxml", "Exception")
                .hasLineCount(1);
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 4, 23})
    void aCaptureTornInsideItsHeaderIsGoneOnWith(int octets) throws Exception {
        Path recording = recording();
        Path capture = recording.resolve("flight.pcap");
        Files.write(capture, Arrays.copyOf(Files.readAllBytes(capture), octets));
        try (RealProgram program = RealProgram.listen(folder, "--resume", recording.toString(), "--idle", "2")) {
            for (byte[] payload : RealProgram.flight().subList(0, 200)) {
                program.send(payload);
                Thread.sleep(0, 300_000);
            }
            assertThat(program.awaitEnd()).as(program.said()).isZero();
        }
        assertThat(Captured.in(capture).datagrams()).hasSize(200);
    }
}
