package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.security.MessageDigest;
import java.util.HexFormat;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

import org.rejoin.console.recording.Captured;
import org.rejoin.console.recording.FolderLock;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Nobody's recording and nobody's own files are touched. */
@Timeout(value = 120, unit = TimeUnit.SECONDS)
class NobodysFilesTest {

    @TempDir
    private Path folder;

    private final StringWriter said = new StringWriter();

    private int run(String... args) {
        return Rejoin.run(new PrintWriter(said, true), new PrintWriter(said, true), args);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "lesson.yaml",
                "chart",
                "log.jsonl",
                "grade.json",
                "standard.yaml",
                "feed.yaml",
                "flight.pcap",
                "spoken.jsonl",
                "remarks.jsonl"
            })
    void aFlightIsNotRecordedOverTheUsersOwnFile(String name) throws Exception {
        Path own = Files.writeString(folder.resolve(name), "mine");
        assertThat(run("fly", "heading-to-airway", "--hz", "1", "--out", folder.toString()))
                .isEqualTo(2);
        assertThat(said.toString()).startsWith("rejoin: ").contains(name).hasLineCount(1);
        assertThat(own).hasContent("mine");
        try (Stream<Path> files = Files.list(folder)) {
            assertThat(files).containsExactly(own);
        }
    }

    @Test
    void aSecondProgramDoesNotWriteTheRecordingOfTheFirst() throws Exception {
        Path recording = folder.resolve("flight");
        try (RealProgram first =
                RealProgram.listen(folder, "heading-to-airway", "--out", recording.toString(), "--idle", "3")) {
            List<byte[]> flight = RealProgram.flight();
            first.send(flight.subList(0, 100));
            String port = String.valueOf(RealProgram.freePort());
            assertThat(run("listen", "--resume", recording.toString(), "--port", port, "--idle", "1"))
                    .as("the user's to mend")
                    .isEqualTo(2);
            assertThat(said.toString())
                    .startsWith("rejoin: ")
                    .contains("is in use")
                    .hasLineCount(1);
            first.send(flight.subList(100, 200));
            assertThat(first.awaitEnd()).as(first.said()).isZero();
        }
        Captured contents = Captured.in(recording.resolve("flight.pcap"));
        assertThat(contents.tear()).isEmpty();
        assertThat(contents.datagrams()).hasSize(200);
        // Afterwards it is free again, and nothing of the lock is left.
        assertThat(recording.resolve("in-use.lock")).doesNotExist();
        FolderLock.take(recording).close();
    }

    @Test
    void aProgramThatWasKilledLocksNothing() throws Exception {
        Path recording = folder.resolve("flight");
        try (RealProgram killed = RealProgram.listen(folder, "heading-to-airway", "--out", recording.toString())) {
            killed.kill();
        }
        assertThat(recording.resolve("in-use.lock")).exists();
        String port = String.valueOf(RealProgram.freePort());
        run("listen", "--resume", recording.toString(), "--port", port, "--idle", "0.5");
        assertThat(said.toString()).contains("listening on").doesNotContain("is in use");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "log.jsonl",
                "grade.json",
                "report.html",
                "track.geojson",
                "track.gpx",
                "track.kml",
                "events.csv",
                "samples.csv",
                "debrief.sha256"
            })
    void aDebriefIsNotWrittenOverTheUsersOwnFile(String name) throws Exception {
        Path own = Files.writeString(folder.resolve(name), "mine");
        assertThat(run("debrief", KeptFlight.PLACE.toString(), "--out", folder.toString()))
                .isEqualTo(2);
        assertThat(said.toString().lines().filter(line -> line.startsWith("rejoin: ")))
                .hasSize(1)
                .first()
                .asString()
                .contains(name + " was not written by this program");
        assertThat(own).hasContent("mine");
        try (Stream<Path> files = Files.list(folder)) {
            assertThat(files).containsExactly(own);
        }
    }

    @Test
    void aDebriefLeavesAUsersLessonAndChartAloneAndIsWrittenAgainWhereNobodyChangedIt() throws Exception {
        Path lesson = Files.writeString(folder.resolve("lesson.yaml"), "mine");
        Path chart = Files.writeString(folder.resolve("chart"), "mine");
        String[] first = {"debrief", KeptFlight.PLACE.toString(), "--out", folder.toString()};
        assertThat(run(first)).as(said.toString()).isZero();
        assertThat(run(first)).as(said.toString()).isZero();
        // Another recording may follow into the same folder: what lies there is the program's own.
        String other = Path.of("..", "recordings", "outbound-fly-through").toString();
        assertThat(run("debrief", other, "--out", folder.toString()))
                .as(said.toString())
                .isZero();
        assertThat(folder.resolve("grade.json")).content().contains("FLOWN_THROUGH");
        // The checksums are the ones any tool computes.
        for (String line : Files.readAllLines(folder.resolve("debrief.sha256"))) {
            byte[] octets = Files.readAllBytes(folder.resolve(line.substring(66)));
            assertThat(HexFormat.of()
                            .formatHex(MessageDigest.getInstance("SHA-256").digest(octets)))
                    .isEqualTo(line.substring(0, 64));
        }
        Files.writeString(folder.resolve("report.html"), "<!-- my own remark -->", StandardOpenOption.APPEND);
        assertThat(run(first)).isEqualTo(2);
        assertThat(said.toString()).contains("report.html was not written by this program, or was changed since");
        assertThat(folder.resolve("grade.json")).content().contains("FLOWN_THROUGH");
        assertThat(lesson).hasContent("mine");
        assertThat(chart).hasContent("mine");
    }

    @Test
    void aRecordingTakesItsOwnReportAndItsGradeIsNotReplacedByAnother() throws Exception {
        Path recording = folder.resolve("flight");
        assertThat(run("fly", "heading-to-airway", "--hz", "1", "--out", recording.toString()))
                .isZero();
        assertThat(run("debrief", recording.toString(), "--out", recording.toString()))
                .as(said.toString())
                .isZero();
        assertThat(recording.resolve("report.html")).exists();
        String grade = Files.readString(recording.resolve("grade.json"));
        assertThat(run("debrief", KeptFlight.PLACE.toString(), "--out", folder.toString()))
                .isZero();
        Path mine = folder.resolve("mine");
        assertThat(run("fly", "heading-to-airway", "--hz", "1", "--pilot", "late", "--out", mine.toString()))
                .isZero();
        assertThat(run("debrief", KeptFlight.PLACE.toString(), "--out", mine.toString()))
                .isEqualTo(2);
        assertThat(recording.resolve("grade.json")).hasContent(grade);
        // A directory of recordings, each with its report beside it.
        Path all = Files.createDirectory(folder.resolve("all"));
        Files.move(recording, all.resolve("one"));
        Files.move(mine, all.resolve("two"));
        assertThat(run("debrief", all.toString(), "--out", all.toString()))
                .as(said.toString())
                .isZero();
        assertThat(all.resolve("two/report.html")).exists();
    }

    @Test
    void aDrillIsNotWrittenOverTheUsersOwnLessonOrChart() throws Exception {
        Path lesson = folder.resolve("lesson.yaml");
        Path chart = Files.writeString(folder.resolve("open-ocean.yaml"), "mine");
        assertThat(run("drill", "make", "--seed", "1", "--out", lesson.toString()))
                .isEqualTo(2);
        assertThat(said.toString()).contains("open-ocean.yaml exists already").hasLineCount(1);
        assertThat(lesson).doesNotExist();
        assertThat(chart).hasContent("mine");
        Files.delete(chart);
        assertThat(run("drill", "make", "--seed", "1", "--out", lesson.toString()))
                .as(said.toString())
                .isZero();
        assertThat(run("drill", "make", "--seed", "2", "--out", lesson.toString()))
                .isEqualTo(2);
    }

    @Test
    void noDrawingSoundOrListIsWrittenOverTheUsersOwnFile() throws Exception {
        Path home = folder.resolve("home");
        assertThat(run("attempts", "add", KeptFlight.PLACE.toString(), "--pilot", "Ann", "--home", home.toString()))
                .as(said.toString())
                .isZero();
        String id = said.toString().strip();
        Path own = Files.writeString(folder.resolve("own"), "mine");
        for (String[] each : List.of(
                new String[] {"attempts", "export", id, "--home", home.toString(), "--xapi"},
                new String[] {"progress", "--pilot", "Ann", "--home", home.toString(), "--svg"},
                new String[] {
                    "brief",
                    "--chart",
                    "src/main/resources/org/rejoin/console/lesson/open-ocean.yaml",
                    "--filed",
                    "XSKU DCT SKU V40 FUL DCT XFUL",
                    "--clearance",
                    "fly heading 190, intercept V40, resume own navigation",
                    "--at",
                    "38.45,-49.9",
                    "--svg"
                })) {
            said.getBuffer().setLength(0);
            assertThat(run(with(each, own))).isEqualTo(2);
            assertThat(said.toString()).hasLineCount(1).contains(own + " exists already and is left as it is");
            assertThat(own).hasContent("mine");
        }
        String[] export = {"attempts", "export", id, "--home", home.toString(), "--xapi"};
        Path fresh = folder.resolve("fresh.json");
        assertThat(run(with(export, fresh))).isZero();
        assertThat(run(with(export, fresh))).as("nothing in it would change").isZero();
    }

    private static String[] with(String[] arguments, Path file) {
        return Stream.concat(Stream.of(arguments), Stream.of(file.toString())).toArray(String[]::new);
    }

    @Test
    @EnabledOnOs({OS.LINUX, OS.MAC})
    void nothingIsWrittenThroughASymbolicLink() throws Exception {
        Path own = Files.writeString(folder.resolve("own"), "mine");
        for (String name : List.of("lesson.yaml", "chart", "log.jsonl", "flight.pcap", "spoken.jsonl")) {
            Path recording = Files.createDirectories(folder.resolve("to-" + name));
            Files.createSymbolicLink(recording.resolve(name), own);
            assertThat(run("fly", "heading-to-airway", "--hz", "1", "--out", recording.toString()))
                    .isNotZero();
        }
        for (String name : List.of(".lesson.yaml.part", "in-use.lock")) {
            Path recording = Files.createDirectories(folder.resolve("through" + name));
            Files.createSymbolicLink(recording.resolve(name), own);
            run("fly", "heading-to-airway", "--hz", "1", "--out", recording.toString());
        }
        assertThat(own).hasContent("mine");
    }
}
