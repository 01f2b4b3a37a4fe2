package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;
import static org.rejoin.console.cli.Ran.run;

import java.io.InputStream;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

import org.rejoin.bridge.feed.AircraftChoice;
import org.rejoin.bridge.feed.AircraftKey;
import org.rejoin.bridge.feed.AircraftSink;
import org.rejoin.bridge.feed.AircraftSorter;
import org.rejoin.bridge.feed.DayClock;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.recording.Captured;

import com.fasterxml.jackson.databind.ObjectMapper;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/** A recording holds all that its debrief needs, and a disk in trouble costs the recording only. */
@Timeout(value = 120, unit = TimeUnit.SECONDS)
class RecordingKeepsAllTest {

    @TempDir
    private Path folder;

    private static void copy(Class<?> beside, String resource, Path file) throws Exception {
        try (InputStream in = Objects.requireNonNull(beside.getResourceAsStream(resource))) {
            Files.copy(in, file);
        }
    }

    private Path mine() {
        return folder.resolve("mine");
    }

    @BeforeEach
    void aLessonOfTheUsersOwn() throws Exception {
        Files.createDirectories(mine());
        Path lesson = mine().resolve("my-lesson.yaml");
        copy(LessonReader.class, "heading-to-airway.yaml", lesson);
        String text = Files.readString(lesson);
        String chart = text.lines()
                .filter(line -> line.startsWith("chart:"))
                .findFirst()
                .orElseThrow()
                .substring("chart:".length())
                .strip();
        copy(LessonReader.class, chart, mine().resolve("my chart.yaml"));
        copy(ToleranceSet.class, "strict.yaml", mine().resolve("my-standard.yaml"));
        copy(RecordingKeepsAllTest.class, "profiles/p1.yaml", mine().resolve("my-profile.yaml"));
        Files.writeString(
                lesson,
                text.replaceFirst("(?m)^chart:.*$", "\"chart\": 'my chart.yaml' # mine")
                                .replaceFirst("(?m)^standard:.*\\n", "")
                        + "\nstandard: ./my-standard.yaml\n");
    }

    @Test
    void whatTheUserBroughtIsKeptAndGivesTheSameBytes() throws Exception {
        Path recording = folder.resolve("flight");
        Ran flown = run(
                "fly",
                mine().resolve("my-lesson.yaml").toString(),
                "--format",
                mine().resolve("my-profile.yaml").toString(),
                "--hz",
                "2",
                "--out",
                recording.toString());
        assertThat(flown.exit()).as(flown.err()).isZero();
        assertThat(flown.out()).contains("amendment complete").contains("SCORE");
        // First what ATC says, then what it comes to.
        assertThat(flown.out()).containsSubsequence("ATC: \"", "you meet the course in");
        assertThat(flown.out().indexOf("ATC: \"")).isLessThan(flown.out().indexOf("you meet the course in"));
        try (Stream<Path> files = Files.list(mine())) {
            for (Path file : files.toList()) {
                Files.delete(file);
            }
        }
        Path moved = Files.move(recording, folder.resolve("moved"));
        Path again = folder.resolve("again");
        Ran debrief = run("debrief", moved.toString(), "--out", again.toString());
        assertThat(debrief.exit()).as(debrief.err()).isZero();
        assertThat(again.resolve("log.jsonl")).hasSameTextualContentAs(moved.resolve("log.jsonl"));
        assertThat(again.resolve("grade.json")).hasSameTextualContentAs(moved.resolve("grade.json"));
        assertThat(new ObjectMapper()
                        .readTree(Files.readString(moved.resolve("grade.json")))
                        .get("standard")
                        .asText())
                .isEqualTo("strict");
        // The clearance and what it comes to are shown as they were in flight.
        assertThat(debrief.out().lines().filter(line -> line.contains("you meet the course in")))
                .containsExactlyElementsOf(flown.out()
                        .lines()
                        .filter(line -> line.contains("you meet the course in"))
                        .toList())
                .isNotEmpty();
    }

    @Test
    void manyRecordingsAreGradedAsEachIsAlone() throws Exception {
        Ran all = run("debrief", Path.of("..", "recordings").toString(), "--json");
        assertThat(all.exit()).as(all.err()).isZero();
        ObjectMapper json = new ObjectMapper();
        var rows = json.readTree(all.out()).get("recordings");
        assertThat(rows).hasSizeGreaterThanOrEqualTo(8);
        for (var row : rows) {
            Path alone = Path.of("..", "recordings", row.get("recording").asText(), "grade.json");
            assertThat(row.get("score"))
                    .isEqualTo(json.readTree(Files.readString(alone)).get("score"));
        }
        Ran csv = run("debrief", Path.of("..", "recordings").toString());
        assertThat(csv.out().lines()).hasSize(rows.size() + 1);
        assertThat(csv.out()).contains("outbound-fly-through,").contains("FLOWN_THROUGH");
        Path out = folder.resolve("out");
        assertThat(run("debrief", Path.of("..", "recordings").toString(), "--out", out.toString())
                        .exit())
                .isZero();
        Path one = folder.resolve("one");
        run("debrief", KeptFlight.PLACE.toString(), "--out", one.toString());
        try (Stream<Path> files = Files.list(one)) {
            for (Path file : files.toList()) {
                assertThat(out.resolve("airway-good").resolve(file.getFileName()))
                        .as("%s", file.getFileName())
                        .hasSameBinaryContentAs(file);
            }
        }
        assertThat(one.resolve("report.html")).exists();
    }

    @Test
    void oneBrokenRecordingAmongManyIsSaidAndTheOthersAreGraded() throws Exception {
        Path all = Files.createDirectories(folder.resolve("all/broken"));
        Files.writeString(all.resolve("flight.pcap"), "this is no capture at all, but it is long enough");
        Files.writeString(all.resolve("lesson.yaml"), "title: x\n");
        KeptFlight.copied(KeptFlight.PLACE, folder.resolve("all/good"));
        Ran ran = run("debrief", folder.resolve("all").toString());
        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.out().lines()).hasSize(2).anyMatch(line -> line.startsWith("good,"));
        assertThat(ran.err()).startsWith("rejoin: broken: ").doesNotContain("\tat ");
    }

    /** A folder's name comes from anywhere; a spreadsheet works out a field that begins with an equals sign. */
    @Test
    void aNameOfAFormulaIsNotOneInTheTable() throws Exception {
        KeptFlight.copied(KeptFlight.PLACE, folder.resolve("all/=1+1"));
        Ran ran = run("debrief", folder.resolve("all").toString());
        assertThat(ran.exit()).as(ran.err()).isZero();
        assertThat(ran.out().lines().skip(1)).singleElement().asString().startsWith("'=1+1,");
    }

    /** A mistake of the program's own in one recording is said, with the others graded and exit code 1. */
    @Test
    void whateverHappensInOneRecordingIsALineAboutIt() {
        var broken = ManyRecordings.Outcome.of("one", () -> {
            throw new IllegalStateException("as intended by this test");
        });
        assertThat(broken.refused()).contains("unexpected").contains("as intended by this test");
        assertThat(broken.exit()).isEqualTo(1);
        var full = ManyRecordings.Outcome.of("two", () -> {
            throw new java.io.IOException("No space left on device");
        });
        assertThat(full.refused()).isEqualTo("No space left on device");
        assertThat(full.exit()).isEqualTo(1);
        var refused = ManyRecordings.Outcome.of("three", () -> {
            throw new BadInput("no capture");
        });
        assertThat(refused.refused()).isEqualTo("no capture");
        assertThat(refused.exit()).isEqualTo(2);
        var good = ManyRecordings.Outcome.of("four", List::of);
        assertThat(good.refused()).isNull();
        assertThat(good.exit()).isZero();
    }

    @Test
    void aDirectoryThatCannotBeReadIsSaidAndTheOthersAreLookedThrough() throws Exception {
        var search = new ManyRecordings.Found.Search();
        Path shut = folder.resolve("shut");
        assertThat(search.visitFileFailed(shut, new AccessDeniedException(shut.toString())))
                .isEqualTo(FileVisitResult.CONTINUE);
        assertThat(search.postVisitDirectory(shut, new java.io.IOException("Input/output error")))
                .isEqualTo(FileVisitResult.CONTINUE);
        assertThat(search.found().unreadable())
                .containsExactly(
                        shut + " cannot be looked into: Input/output error; recordings in it are left out",
                        shut + " cannot be looked into: no permission; recordings in it are left out");

        KeptFlight.copied(KeptFlight.PLACE, folder.resolve("all/good"));
        Path closed = Files.createDirectories(folder.resolve("all/shut"));
        assumeTrue(closed.toFile().setReadable(false) && !Files.isReadable(closed), "this user may read everything");
        Ran ran = run("debrief", folder.resolve("all").toString());
        assertThat(closed.toFile().setReadable(true)).isTrue();
        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.out().lines()).hasSize(2);
        assertThat(ran.err()).contains(closed + " cannot be looked into: no permission");
    }

    /** The capture of a recording named itself brings along what lies beside it; one that was moved away does not. */
    @Test
    void theCaptureOfARecordingIsTheRecording() throws Exception {
        Path recording = KeptFlight.copied(KeptFlight.PLACE, folder.resolve("flight"));
        List<String> seats = new ArrayList<>();
        AircraftSorter heard = new AircraftSorter(Formats.with(List.of()), AircraftChoice.all(), new AircraftSink() {
            @Override
            public AircraftSink heard(AircraftKey key, String marking, String format, DayClock clock) {
                seats.add(key.label());
                return this;
            }
        });
        Captured.in(recording.resolve("flight.pcap")).datagrams().forEach(heard::accept);
        String seat = seats.get(0);
        Files.writeString(
                recording.resolve("spoken.jsonl"),
                "{\"elapsed_s\":100,\"seat\":\"" + seat + "\",\"say\":\"maintain 7000\"}\n");
        Ran whole = run("debrief", recording.toString());
        Ran capture = run("debrief", recording.resolve("flight.pcap").toString());
        assertThat(whole.out()).contains("maintain 7000");
        assertThat(capture.out()).isEqualTo(whole.out());
        Path moved = Files.copy(recording.resolve("flight.pcap"), folder.resolve("flight.pcap"));
        assertThat(run("debrief", moved.toString()).exit()).isEqualTo(2);
        assertThat(run(
                                "debrief",
                                moved.toString(),
                                "--lesson",
                                recording.resolve("lesson.yaml").toString())
                        .out())
                .doesNotContain("maintain 7000");
    }

    @Test
    void aPlaceThatCannotBeWrittenToIsNamedAnew() throws Exception {
        Path file = Files.createFile(folder.resolve("file"));
        Ran ran = run("debrief", KeptFlight.PLACE.toString(), "--out", file.toString());
        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.err()).contains("a file of that name is in the way");
    }

    @Test
    @EnabledOnOs(OS.LINUX)
    void nothingIsWrittenThroughALinkInTheOutput() throws Exception {
        Path out = Files.createDirectories(folder.resolve("out"));
        Files.createSymbolicLink(out.resolve("grade.json"), Path.of("/dev/full"));
        Ran ran = run("debrief", KeptFlight.PLACE.toString(), "--out", out.toString());
        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.err())
                .startsWith("rejoin: ")
                .contains("grade.json was not written by this program")
                .doesNotContain("\tat ")
                .hasLineCount(1);
    }
}
