package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.File;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import java.util.zip.ZipOutputStream;

import org.rejoin.console.book.Attempt;
import org.rejoin.console.book.HomeFolder;
import org.rejoin.console.book.RecordBook;
import org.rejoin.console.drill.AttemptFolders;
import org.rejoin.console.table.Cell;
import org.rejoin.console.xapi.StrictStore;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The record book from the command line, with real recordings. */
@Timeout(value = 180, unit = TimeUnit.SECONDS)
class AttemptsCommandTest {

    private static final Path RECORDINGS = Path.of("..", "recordings");
    private static final ObjectMapper JSON = new ObjectMapper();

    @TempDir
    private Path folder;

    private String out = "";
    private String err = "";

    private int run(String... arguments) {
        StringWriter printed = new StringWriter();
        StringWriter said = new StringWriter();
        int exit = Rejoin.run(new PrintWriter(printed, true), new PrintWriter(said, true), arguments);
        out = printed.toString();
        err = said.toString();
        return exit;
    }

    private String home() {
        return folder.resolve("home").toString();
    }

    private List<String> add(String pilot, String... recordings) {
        List<String> arguments = new ArrayList<>(List.of("attempts", "add", "--home", home(), "--pilot", pilot));
        for (String each : recordings) {
            arguments.add(RECORDINGS.resolve(each).toString());
        }
        assertThat(run(arguments.toArray(String[]::new))).as(err).isZero();
        return out.lines().toList();
    }

    private List<JsonNode> list(String... more) throws Exception {
        List<String> arguments = new ArrayList<>(List.of("attempts", "--home", home(), "--json"));
        arguments.addAll(List.of(more));
        assertThat(run(arguments.toArray(String[]::new))).as(err).isZero();
        List<JsonNode> rows = new ArrayList<>();
        for (String line : out.lines().toList()) {
            rows.add(JSON.readTree(line));
        }
        return rows;
    }

    @Test
    void theListHasOneObjectAnAttemptOldestFirst() throws Exception {
        List<String> ids = add("Ann", "airway-weaving", "airway-good");
        add("Bo", "outbound-good");
        List<JsonNode> rows = list();
        assertThat(rows).hasSize(3);
        List<String> names = new ArrayList<>();
        rows.get(0).fieldNames().forEachRemaining(names::add);
        assertThat(names)
                .startsWith(
                        "id",
                        "pilot",
                        "aircraft",
                        "lesson",
                        "began_utc",
                        "duration_s",
                        "score",
                        "met",
                        "faults",
                        "signed_by",
                        "recording");
        assertThat(rows).extracting(row -> row.path("began_utc").asText()).isSorted();
        JsonNode weaving = list("--pilot", "ann").stream()
                .filter(row -> row.path("id").asText().equals(ids.get(0)))
                .findFirst()
                .orElseThrow();
        JsonNode grade = JSON.readTree(
                Path.of(weaving.path("recording").asText(), "grade.json").toFile());
        assertThat(weaving.path("score").decimalValue())
                .isEqualByComparingTo(grade.path("score").decimalValue());
        assertThat(weaving.path("met").isBoolean()).isTrue();
        assertThat(weaving.path("faults")).extracting(JsonNode::asText).contains("WEAVING");
        assertThat(weaving.path("signed_by").isNull()).isTrue();
        assertThat(weaving.path("duration_s").asDouble()).isBetween(60.0, 3600.0);
        assertThat(list("--lesson", weaving.path("lesson").asText().toUpperCase(Locale.ROOT)))
                .hasSize(2);
        assertThat(list("--lesson", "heading-to-airway")).hasSize(2);
        assertThat(list("--pilot", "nobody")).isEmpty();
        assertThat(err).contains("none with nobody; pilots here: Ann, Bo");
        assertThat(run("attempts", "--home", home(), "--least-score", "101")).isEqualTo(2);
        assertThat(err).contains("--least-score 101.0 is not in 0 to 100");

        assertThat(run("attempts", "--home", home(), "--csv")).isZero();
        assertThat(out.lines()).hasSize(4).first().asString().startsWith("id,pilot,aircraft,lesson,began_utc");
        assertThat(run("attempts", "--home", home())).isZero();
        assertThat(out.lines()).hasSize(4).first().asString().startsWith("began (UTC)");
    }

    @Test
    void oneAttemptIsSaidForOtherProgramsTooAndOneOfNoOrderIsRefused() throws Exception {
        String id = add("Ann", "airway-good").get(0);
        assertThat(run("attempts", "mark", "--home", home(), id, "--score", "80.55555", "--reason", "smooth"))
                .as(err)
                .isZero();
        assertThat(run("attempts", "show", "--home", home(), id, "--json"))
                .as(err)
                .isZero();
        JsonNode shown = JSON.readTree(out);
        assertThat(shown.path("id").asText()).isEqualTo(id);
        assertThat(shown.path("grade").path("score").decimalValue())
                .isEqualByComparingTo(list().get(0).path("score").decimalValue());
        assertThat(shown.path("own_mark").path("score").asText()).isEqualTo("80.6");
        assertThat(list().get(0).path("own_mark").asText()).isEqualTo("80.6");
        assertThat(run("attempts", "show", "--home", home(), id)).isZero();
        assertThat(out).contains("Own mark: 80.6: smooth");
        assertThat(run("attempts", "--home", home(), "--sort", "foo")).isEqualTo(2);
        assertThat(err).contains("rejoin: --sort foo is not one of date, pilot, lesson, score (");
        assertThat(run("progress", "--home", home(), "--pilot", "aNN", "--json"))
                .as(err)
                .isZero();
        assertThat(JSON.readTree(out).path("pilot").asText()).isEqualTo("Ann");
    }

    @Test
    void whyThereIsNoStatementIsTheTrueReasonAndWhatIsNotOverIsInFlight() throws Exception {
        add("Ann", "airway-good");
        String paper;
        String flying;
        try (RecordBook book = new RecordBook(HomeFolder.open(Path.of(home())), note -> {})) {
            paper = new AttemptFolders(book)
                    .keep(new AttemptFolders.Unflown(
                            "Ann",
                            "Paper: a heading",
                            Instant.now(),
                            OptionalDouble.of(60),
                            "test",
                            JSON.createObjectNode().put("kind", "paper"),
                            List.of()))
                    .getFileName()
                    .toString();
            flying = Attempt.newId(Instant.now(), new SecureRandom());
            book.begin(new Attempt(
                    flying, "Ann", "", "REJOIN", "Hold", Instant.now(), OptionalDouble.empty(), "test", "", "", ""));
        }
        assertThat(run(
                        "attempts",
                        "export",
                        "--home",
                        home(),
                        paper,
                        flying,
                        "--xapi",
                        folder.resolve("x.json").toString()))
                .as(err)
                .isZero();
        assertThat(err)
                .contains(
                        paper + " is left out: a drill that was answered and not flown has no statement",
                        flying + " is left out: it is in flight");
        assertThat(run("attempts", "--home", home())).as(err).isZero();
        assertThat(out.lines().filter(line -> line.endsWith(flying)))
                .singleElement()
                .asString()
                .contains("  in flight  ")
                .doesNotContain("not graded", "not judged");
        assertThat(run("attempts", "show", "--home", home(), flying)).as(err).isZero();
        assertThat(out).contains("Score: in flight");
    }

    @Test
    void aRecordingIsInTheBookOnce() {
        String id = add("Ann", "airway-good").get(0);
        assertThat(run(
                        "attempts",
                        "add",
                        "--home",
                        home(),
                        "--pilot",
                        "Bo",
                        RECORDINGS.resolve("airway-good").toString()))
                .isEqualTo(2);
        assertThat(err).hasLineCount(1).contains("is in the record book already, as " + id);
    }

    @Test
    void aRecordingThatSeveralBringAtOnceIsInTheBookOnce() throws Exception {
        Path recording = RECORDINGS.resolve("airway-good");
        add("Bo", "outbound-good");
        ExecutorService several = Executors.newFixedThreadPool(3);
        try {
            List<Callable<Integer>> adding = Collections.nCopies(
                    3,
                    () -> Rejoin.run(
                            new PrintWriter(new StringWriter()),
                            new PrintWriter(new StringWriter()),
                            "attempts",
                            "add",
                            recording.toString(),
                            "--pilot",
                            "Ann",
                            "--home",
                            home()));
            List<Integer> exits = new ArrayList<>();
            for (Future<Integer> each : several.invokeAll(adding)) {
                exits.add(each.get());
            }
            assertThat(exits).containsExactlyInAnyOrder(0, 2, 2);
        } finally {
            several.shutdownNow();
        }
        assertThat(list()).hasSize(2);
    }

    /** As books have it into which several programs brought one flight before they waited for one another. */
    @Test
    void aFlightThatIsInTheBookTwiceIsOneStatement() throws Exception {
        String id = add("Ann", "airway-good").get(0);
        Path first = Path.of(list().get(0).path("recording").asText());
        String other = id.substring(0, 17) + "zzzzzz";
        Path second = Files.createDirectory(first.resolveSibling(other));
        try (Stream<Path> files = Files.list(first)) {
            for (Path file : files.filter(Files::isRegularFile).toList()) {
                Files.copy(file, second.resolve(file.getFileName()));
            }
        }
        Path kept = second.resolve("attempt.json");
        Files.writeString(kept, Files.readString(kept).replace(id, other));
        Path file = folder.resolve("statements.json");
        assertThat(run("attempts", "export", id, other, "--home", home(), "--xapi", file.toString()))
                .as(err)
                .isZero();
        assertThat(JSON.readTree(file.toFile())).hasSize(1);
        assertThat(err).contains(other + " is left out: it is the same flight as " + id);
        assertThat(run("attempts", "send", "--home", home(), "--to", "https://store.example", "--dry-run"))
                .as(err)
                .isZero();
        assertThat(JSON.readTree(out)).hasSize(1);
    }

    @Test
    void anAttemptThatIsDamagedDoesNotKeepTheOthersFromBeingSent() throws Exception {
        String id = add("Ann", "airway-good").get(0);
        add("Bo", "outbound-good");
        Files.delete(Path.of(list("--pilot", "Ann").get(0).path("recording").asText(), "flight.pcap"));
        assertThat(run("attempts", "send", "--home", home(), "--to", "https://store.example", "--dry-run"))
                .as(err)
                .isZero();
        assertThat(JSON.readTree(out)).hasSize(1);
        assertThat(err).contains(id + " is left out: ", "flight.pcap cannot be read");
    }

    @Test
    void aFlightIsRecordedStraightIntoTheBook() throws Exception {
        assertThat(run("fly", "heading-to-airway", "--hz", "1", "--home", home(), "--as", "Ann"))
                .as(err)
                .isZero();
        assertThat(err).contains("Flown by the practice aircraft (good), not by a person.");
        JsonNode row = list().get(0);
        assertThat(row.path("pilot").asText()).isEqualTo("Ann");
        assertThat(row.path("score").isNumber()).isTrue();
        assertThat(row.path("duration_s").isNumber()).isTrue();
        assertThat(run("debrief", row.path("recording").asText())).as(err).isZero();
        assertThat(run("fly", "--home", home(), "--out", folder.resolve("x").toString()))
                .isEqualTo(2);
        assertThat(err).contains("--out and the record book");
    }

    /** What the program flew itself shows nobody's skill, whoever's name it is kept under and however it came into the book. */
    @Test
    void aFlightOfThePracticeAircraftIsNobodysProgressAndNoStatement() throws Exception {
        assertThat(run("fly", "heading-to-airway", "--hz", "1", "--home", home(), "--as", "Otto"))
                .as(err)
                .isZero();
        Path homework = folder.resolve("homework");
        assertThat(run("fly", "heading-to-airway", "--hz", "1", "--pilot", "late", "--out", homework.toString()))
                .as(err)
                .isZero();
        assertThat(run("attempts", "add", homework.toString(), "--home", home(), "--pilot", "Otto"))
                .as(err)
                .isZero();
        assertThat(err)
                .contains("Flown by the practice aircraft (late), not by a person. It counts for nobody's progress");
        String late = out.strip();
        assertThat(list())
                .extracting(row -> row.path("practice_pilot").asText())
                .containsExactlyInAnyOrder("good", "late");
        assertThat(run("attempts", "--home", home())).isZero();
        assertThat(out.lines().skip(1)).hasSize(2).allMatch(line -> line.contains("Otto (practice aircraft)"));
        assertThat(run("attempts", "show", late, "--home", home())).isZero();
        assertThat(out).contains("Flown by the practice aircraft (late), not by a person.");
        Path file = folder.resolve("statement.json");
        assertThat(run("attempts", "export", late, "--home", home(), "--xapi", file.toString()))
                .isZero();
        assertThat(err).contains("is left out: the practice aircraft flew it");
        assertThat(JSON.readTree(file.toFile())).isEmpty();
        try (RecordBook book = new RecordBook(HomeFolder.open(Path.of(home())), note -> {})) {
            assertThat(new AttemptFolders(book).of("Otto")).isEmpty();
        }
        // On the report too, in the book and outside of it.
        assertThat(run(
                        "debrief",
                        homework.toString(),
                        "--out",
                        folder.resolve("report").toString()))
                .as(err)
                .isZero();
        assertThat(folder.resolve("report").resolve("report.html"))
                .content()
                .contains("Flown by the practice aircraft (late), not by a person.");
    }

    @Test
    void anAttemptIsNotAddedUnderAnEmptyName() throws Exception {
        for (String nobody : List.of("", " ")) {
            assertThat(run(
                            "attempts",
                            "add",
                            RECORDINGS.resolve("airway-good").toString(),
                            "--home",
                            home(),
                            "--pilot",
                            nobody))
                    .isEqualTo(2);
            assertThat(err).contains("--pilot is empty; name whoever flew, a nickname will do");
            assertThat(run("fly", "heading-to-airway", "--hz", "1", "--home", home(), "--as", nobody))
                    .isEqualTo(2);
            assertThat(err).contains("--as is empty; name whoever flies");
        }
        add("Ann", "airway-good");
        assertThat(run(
                        "attempts",
                        "add",
                        RECORDINGS.resolve("airway-good").toString(),
                        "--home",
                        home(),
                        "--pilot",
                        "Bo"))
                .isEqualTo(2);
        assertThat(err).contains("is in the record book already", "give it to him on its debrief page");
    }

    /** Ten minutes flown in a second are over now: statements and marks are dated so. */
    @Test
    void aFlightFasterThanTimeIsNotDatedInTheFuture() throws Exception {
        Path recording = folder.resolve("flown");
        assertThat(run("fly", "heading-to-airway", "--hz", "1", "--out", recording.toString()))
                .as(err)
                .isZero();
        DrillFlownTest.flownByAPerson(recording);
        assertThat(run("attempts", "add", recording.toString(), "--home", home(), "--pilot", "Ann"))
                .as(err)
                .isZero();
        Path file = folder.resolve("statement.json");
        assertThat(run(
                        "attempts",
                        "export",
                        list().get(0).path("id").asText(),
                        "--home",
                        home(),
                        "--xapi",
                        file.toString()))
                .as(err)
                .isZero();
        JsonNode statement = JSON.readTree(file.toFile()).get(0);
        Instant flown = Instant.parse(statement.path("timestamp").asText());
        assertThat(flown).isBeforeOrEqualTo(Instant.now());
        assertThat(statement.at("/result/duration").asText()).startsWith("PT1");
        try (RecordBook book = new RecordBook(HomeFolder.open(Path.of(home())), note -> {})) {
            assertThat(new AttemptFolders(book).of("Ann"))
                    .singleElement()
                    .satisfies(attempt -> assertThat(attempt.at()).isEqualTo(flown));
        }
    }

    @Test
    void aFlightEndsByItsLastSampleWithPausesOrNow() {
        BookEntry.Length length = new BookEntry.Length(60, 90);
        Instant began = Instant.parse("2026-06-01T14:00:00Z");
        assertThat(length.end(began, began.plusSeconds(200))).isEqualTo(began.plusSeconds(90));
        assertThat(length.end(began, began.plusSeconds(5))).isEqualTo(began.plusSeconds(5));
    }

    @Test
    void rebuildGradesWhatAKilledProgramLeft() throws Exception {
        String id = add("Ann", "airway-good").get(0);
        Path attempt = Path.of(list().get(0).path("recording").asText());
        String graded = Files.readString(attempt.resolve("grade.json"));
        String began = list().get(0).path("began_utc").asText();
        // As it is after a kill in the flight: no grade, no end, the index gone with the disk's cache.
        Files.delete(attempt.resolve("grade.json"));
        Files.delete(attempt.resolve("log.jsonl"));
        Files.writeString(
                attempt.resolve("attempt.json"),
                Files.readString(attempt.resolve("attempt.json"))
                        .replaceFirst("\"duration_s\" : [0-9.]+", "\"duration_s\" : null"));
        Files.delete(Path.of(home(), "index.db"));
        assertThat(list().get(0).path("score").isNull()).isTrue();
        assertThat(list().get(0).path("met").isNull()).isTrue();
        assertThat(run("attempts", "rebuild", "--home", home())).as(err).isZero();
        assertThat(out).startsWith("1 attempts indexed").contains("1 of them graded now");
        assertThat(attempt.resolve("grade.json")).content().isEqualTo(graded);
        JsonNode row = list().get(0);
        assertThat(row.path("id").asText()).isEqualTo(id);
        assertThat(row.path("began_utc").asText()).isEqualTo(began);
        assertThat(row.path("duration_s").isNumber()).isTrue();
    }

    /** Nothing of a flight that ended right after its clearance can be judged: its grade has no score. */
    @Test
    void rebuildLeavesWhatWasSignedAsItIs() throws Exception {
        String id = add("Ann", "airway-good").get(0);
        Path attempt = Path.of(list().get(0).path("recording").asText());
        Path grade = attempt.resolve("grade.json");
        Files.writeString(grade, Files.readString(grade).replaceFirst("\"score\" : [0-9.]+", "\"score\" : null"));
        assertThat(run("attempts", "sign", id, "--home", home(), "--name", "C. F. Reef"))
                .as(err)
                .isZero();
        assertThat(run("attempts", "rebuild", "--home", home())).as(err).isZero();
        assertThat(out).doesNotContain("graded now");
        assertThat(list().get(0).path("signature").asText()).isEqualTo("matches");
        // As an earlier version left an attempt whose flight was interrupted, and let it be signed.
        Path kept = attempt.resolve("attempt.json");
        Files.writeString(
                kept, Files.readString(kept).replaceFirst("\"duration_s\" : [0-9.]+", "\"duration_s\" : null"));
        String open = Files.readString(kept);
        assertThat(run("attempts", "rebuild", "--home", home())).as(err).isZero();
        assertThat(err).contains("was signed before it was closed, and stays as it was signed");
        assertThat(kept).content().isEqualTo(open);
    }

    @Test
    void aSignatureIsShownAndSaysWhenWhatWasSignedHasChanged() throws Exception {
        String id = add("Ann", "airway-good").get(0);
        assertThat(run("attempts", "sign", id, "--home", home(), "--name", "C. F. Reef", "--certificate", "0000"))
                .as(err)
                .isZero();
        assertThat(run(
                        "attempts",
                        "mark",
                        id,
                        "--home",
                        home(),
                        "--score",
                        "70",
                        "--reason",
                        "wrong wind",
                        "--by",
                        "C. F."))
                .isZero();
        JsonNode row = list().get(0);
        assertThat(row.path("signed_by").asText()).isEqualTo("C. F. Reef");
        assertThat(row.path("signature").asText()).isEqualTo("matches");
        assertThat(row.path("own_mark").asInt()).isEqualTo(70);
        Path lesson = Path.of(row.path("recording").asText(), "lesson.yaml");
        Files.writeString(lesson, Files.readString(lesson) + "# changed\n");
        assertThat(list().get(0).path("signature").asText()).isEqualTo("changed");
        assertThat(run("attempts", "show", id, "--home", home())).isZero();
        assertThat(out).contains("by C. F. Reef, 0000 (NO LONGER MATCHES: changed since: lesson.yaml)", "Own mark: 70");
        assertThat(run("attempts", "--home", home())).isZero();
        assertThat(out).contains("C. F. Reef, CHANGED SINCE");
        Path file = folder.resolve("statement.json");
        assertThat(run("attempts", "export", id, "--home", home(), "--xapi", file.toString()))
                .isZero();
        assertThat(err).contains(id + " is left out: lesson.yaml changed since C. F. Reef signed it");
        assertThat(JSON.readTree(file.toFile())).isEmpty();
        assertThat(run("attempts", "sign", id, "--home", home(), "--name", "D. P. Shoal"))
                .as(err)
                .isZero();
        assertThat(list().get(0).path("signature").asText()).isEqualTo("matches");
        assertThat(list().get(0).path("changed_for"))
                .extracting(JsonNode::asText)
                .containsExactly("C. F. Reef");
        assertThat(run("attempts", "--home", home())).isZero();
        assertThat(out).contains("D. P. Shoal; C. F. Reef, CHANGED SINCE");
        assertThat(run("attempts", "send", "--home", home(), "--to", "https://store.example", "--dry-run"))
                .isZero();
        assertThat(JSON.readTree(out)).hasSize(1);
        assertThat(run("attempts", "sign", "20260601T140312Z-aaaaaa", "--home", home(), "--name", "X"))
                .isEqualTo(2);
        assertThat(err).hasLineCount(1).contains("there is no attempt");
    }

    @Test
    void statementsGoToAFileAndToAStoreOnce() throws Exception {
        List<String> ids = add("Ann Example", "airway-weaving", "outbound-good");
        Path file = folder.resolve("statements.json");
        Path archive = folder.resolve("whole.zip");
        assertThat(run(
                        "attempts",
                        "export",
                        ids.get(0),
                        "--home",
                        home(),
                        "--xapi",
                        file.toString(),
                        "--archive",
                        archive.toString()))
                .as(err)
                .isZero();
        assertThat(JSON.readTree(file.toFile())).hasSize(1);
        assertThat(file).content().doesNotContain("Ann Example");
        try (ZipFile zip = new ZipFile(archive.toFile())) {
            assertThat(zip.stream().map(Object::toString)).anyMatch(name -> name.endsWith("/flight.pcap"));
        }
        Path credentials = Files.writeString(folder.resolve("credentials"), "rejoin:secret\n");
        try (StrictStore store = new StrictStore("rejoin", "secret", "1.0.3")) {
            String[] send = {
                "attempts", "send", "--home", home(), "--to", store.endpoint(), "--credentials", credentials.toString()
            };
            assertThat(run(with(send, "--dry-run"))).as(err).isZero();
            assertThat(JSON.readTree(out)).hasSize(2);
            assertThat(store.answers()).as("nobody is connected to").isEmpty();
            assertThat(run(send)).as(err).isZero();
            assertThat(out).startsWith("2 statements sent, 0 refused, 0 waiting");
            assertThat(store.kept()).hasSize(2);
            assertThat(store.kept().values())
                    .contains(JSON.readTree(file.toFile()).get(0));
            assertThat(run(send)).isZero();
            assertThat(out).startsWith("0 statements sent");
            assertThat(run(with(send, "--dry-run"))).isZero();
            assertThat(JSON.readTree(out)).isEmpty();
            Files.writeString(credentials, "rejoin:wrong\n");
            add("Ann Example", "inbound-good");
            assertThat(run(send)).isEqualTo(2);
            assertThat(err).contains("1 statements wait").doesNotContain("wrong");
            store.trouble(StrictStore.Trouble.of(503));
            Files.writeString(credentials, "rejoin:secret\n");
            assertThat(run(with(send, "--tries", "1"))).isEqualTo(1);
            assertThat(run(send)).isZero();
            assertThat(store.kept()).hasSize(3);
        }
    }

    @Test
    void whatAStoreHasRefusedIsSaidUntilItIsSentAgain() throws Exception {
        List<String> ids = add("Ann", "airway-weaving", "outbound-good");
        Path credentials = Files.writeString(folder.resolve("credentials"), "rejoin:secret\n");
        try (StrictStore store = new StrictStore("rejoin", "secret", "1.0.3")) {
            String[] send = {
                "attempts", "send", "--home", home(), "--to", store.endpoint(), "--credentials", credentials.toString()
            };
            store.trouble(StrictStore.Trouble.of(400), StrictStore.Trouble.of(400), StrictStore.Trouble.of(400));
            assertThat(run(send)).isEqualTo(1);
            assertThat(out).startsWith("0 statements sent, 2 refused, 0 waiting");
            assertThat(run(send)).isZero();
            assertThat(out).startsWith("0 statements sent, 0 refused, 0 waiting");
            assertThat(err).contains("2 statements refused earlier", "--again");
            assertThat(run(with(send, "--again", "--dry-run"))).isZero();
            assertThat(JSON.readTree(out)).hasSize(2);
            assertThat(run(with(send, "--again", ids.get(0)))).as(err).isZero();
            assertThat(out).startsWith("1 statements sent");
            assertThat(err).contains("1 statement refused earlier");
            assertThat(run(with(send, "--again"))).isZero();
            assertThat(err).doesNotContain("refused earlier");
            assertThat(store.kept()).hasSize(2);
        }
    }

    @Test
    void whatIsWrongInAnArchiveIsSaidOfItsMember() throws Exception {
        Path zip = folder.resolve("back.zip");
        try (ZipOutputStream packed = new ZipOutputStream(Files.newOutputStream(zip))) {
            for (String name : List.of("flight.pcap", "lesson.yaml", "chart")) {
                packed.putNextEntry(new ZipEntry("day 1/" + name));
                packed.write(
                        name.equals("lesson.yaml")
                                ? "title: [".getBytes(StandardCharsets.UTF_8)
                                : Files.readAllBytes(
                                        RECORDINGS.resolve("airway-good").resolve(name)));
                packed.closeEntry();
            }
        }
        assertThat(run("attempts", "add", zip.toString(), "--pilot", "Ann", "--home", home()))
                .isEqualTo(2);
        assertThat(err).hasLineCount(1).contains(zip + ": day 1" + File.separator + "lesson.yaml");
        assertThat(err).doesNotContain("rejoin-brought");
    }

    @Test
    void anOwnMarkThatNobodySignedIsShownWithoutAName() {
        String id = add("Ann", "airway-good").get(0);
        assertThat(run("attempts", "mark", id, "--home", home(), "--score", "50", "--reason", "wind"))
                .isZero();
        assertThat(run("attempts", "show", id, "--home", home())).isZero();
        assertThat(out).contains("Own mark: 50.0: wind");
    }

    private static String[] with(String[] arguments, String... more) {
        return Stream.concat(Stream.of(arguments), Stream.of(more)).toArray(String[]::new);
    }

    @Test
    void aPilotIsForgottenAfterAYes() throws Exception {
        add("Ann", "airway-good");
        add("Bo", "outbound-good");
        Path archive = folder.resolve("ann.zip");
        assertThat(run("pilots", "export", "Ann", "--home", home(), "--archive", archive.toString()))
                .as(err)
                .isZero();
        assertThat(archive).isNotEmptyFile();
        InputStream before = System.in;
        try {
            System.setIn(new ByteArrayInputStream("no\n".getBytes(StandardCharsets.UTF_8)));
            assertThat(run("pilots", "forget", "Ann", "--home", home())).isEqualTo(2);
            assertThat(err).contains("Remove 1 attempt of Ann and all else");
            assertThat(run("pilots", "forget", "Nobody", "--home", home())).isEqualTo(2);
            assertThat(err).hasLineCount(1).contains("nothing is known of a pilot Nobody");
            assertThat(list()).hasSize(2);
            System.setIn(new ByteArrayInputStream("yes\n".getBytes(StandardCharsets.UTF_8)));
            assertThat(run("pilots", "forget", "Ann", "--home", home())).as(err).isZero();
        } finally {
            System.setIn(before);
        }
        assertThat(list())
                .singleElement()
                .satisfies(row -> assertThat(row.path("pilot").asText()).isEqualTo("Bo"));
        assertThat(run("pilots", "--home", home(), "--json")).isZero();
        assertThat(out.lines()).singleElement().asString().contains("\"name\":\"Bo\"", "\"attempts\":1");
        assertThat(run("pilots", "forget", "Ann", "--home", home(), "--yes")).isEqualTo(2);
        assertThat(err).hasLineCount(1).contains("nothing is known of a pilot Ann");
    }

    @Test
    void aFolderThatCannotBeUsedIsOneLine() throws Exception {
        assertThat(run("attempts", "--home", folder.resolve("none").toString())).isEqualTo(2);
        assertThat(err).hasLineCount(1).contains("there is no data folder");
        Path newer = Files.createDirectories(folder.resolve("newer"));
        Files.writeString(newer.resolve("folder.json"), "{\"format\": 7}");
        for (String[] command : List.of(
                new String[] {"attempts"}, new String[] {"attempts", "rebuild"}, new String[] {"pilots"}, new String[] {
                    "fly", "--hz", "1"
                })) {
            assertThat(run(with(command, "--home", newer.toString()))).isEqualTo(2);
            assertThat(err).hasLineCount(1).contains("was written by a newer version");
        }
        assertThat(run("attempts", "mark", "ID", "again", "--score", "5", "--reason", "x"))
                .isEqualTo(2);
        assertThat(err).hasLineCount(1).startsWith("rejoin: nothing is expected here: 'again'");
        Path file = Files.writeString(folder.resolve("file"), "");
        assertThat(run("attempts", "--home", file.toString())).isEqualTo(2);
        assertThat(err).hasLineCount(1).contains("is a file");
    }

    @Test
    void pilotsAndProgressAreTablesForASpreadsheetTooWithTheSameNumbersAsInJson() throws Exception {
        add("Ann, the elder", "airway-good");
        add("Bo", "airway-late");
        assertThat(run("pilots", "--home", home(), "--csv")).isZero();
        assertThat(out.lines().toList())
                .hasSize(3)
                .startsWith("id,name,attempts,last_utc")
                .anyMatch(line -> line.contains("\"Ann, the elder\",1,2026-"));
        assertThat(run("pilots", "--home", home())).isZero();
        assertThat(out.lines().skip(1))
                .allSatisfy(line -> assertThat(line).containsPattern(" 2026-\\d\\d-\\d\\d \\d\\d:\\d\\d  "));
        assertThat(run("progress", "--pilot", "Bo", "--home", home(), "--json")).isZero();
        JsonNode skill = JSON.readTree(out).path("skills").get(3);
        assertThat(run("progress", "--pilot", "Bo", "--home", home(), "--csv")).isZero();
        assertThat(out.lines().toList())
                .startsWith("skill,p,low,high,words,marks,last,due")
                .contains(String.join(
                        ",",
                        List.of(
                                skill.path("skill").asText(),
                                skill.path("p").asText(),
                                skill.path("low").asText(),
                                skill.path("high").asText(),
                                skill.path("words").asText(),
                                skill.path("marks").asText(),
                                skill.path("last").asText(""),
                                skill.path("due").asText())));
        assertThat(run("progress", "--pilot", "Bo", "--home", home(), "--csv", "--json"))
                .isEqualTo(2);
        assertThat(err).contains("exclude each other");
    }

    @Test
    void aCellThatASpreadsheetWouldWorkOutIsText() {
        assertThat(new Cell.Text("=1+1").csv()).isEqualTo("'=1+1");
        assertThat(new Cell.Text("a,\"b\"").csv()).isEqualTo("\"a,\"\"b\"\"\"");
    }
}
