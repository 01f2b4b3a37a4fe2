package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.File;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
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
import org.rejoin.console.recording.Capture;
import org.rejoin.console.recording.CaptureWriter;
import org.rejoin.console.table.Cell;
import org.rejoin.console.xapi.StrictStore;
import org.rejoin.protocol.Datagram;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The record book from the command line, with real recordings. */
@Timeout(value = 180, unit = TimeUnit.SECONDS)
class AttemptsCommandTest extends CommandsInTurn {

    private static final Path RECORDINGS = Path.of("..", "recordings");
    private static final ObjectMapper JSON = new ObjectMapper();

    @TempDir
    private Path folder;

    private String home() {
        return folder.resolve("home").toString();
    }

    private List<String> add(String pilot, String... recordings) {
        List<String> arguments = new ArrayList<>(List.of("attempts", "add", "--home", home(), "--pilot", pilot));
        for (String each : recordings) {
            arguments.add(RECORDINGS.resolve(each).toString());
        }
        done(arguments.toArray(String[]::new));
        return out.lines().toList();
    }

    private List<JsonNode> list(String... more) throws Exception {
        List<String> arguments = new ArrayList<>(List.of("attempts", "--home", home(), "--json"));
        arguments.addAll(List.of(more));
        done(arguments.toArray(String[]::new));
        return out.lines().map(Ran::json).toList();
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
        refused("attempts", "--home", home(), "--least-score", "101");
        assertThat(err).contains("--least-score 101.0 is not in 0 to 100");

        done("attempts", "--home", home(), "--csv");
        assertThat(out.lines()).hasSize(4).first().asString().startsWith("id,pilot,aircraft,lesson,began_utc");
        done("attempts", "--home", home());
        assertThat(out.lines()).hasSize(4).first().asString().startsWith("began (UTC)");
    }

    @Test
    void oneAttemptIsSaidForOtherProgramsTooAndOneOfNoOrderIsRefused() throws Exception {
        String id = add("Ann", "airway-good").get(0);
        done("attempts", "mark", "--home", home(), id, "--score", "80.55555", "--reason", "smooth");
        done("attempts", "show", "--home", home(), id, "--json");
        JsonNode shown = json();
        assertThat(shown.path("id").asText()).isEqualTo(id);
        assertThat(shown.path("grade").path("score").decimalValue())
                .isEqualByComparingTo(list().get(0).path("score").decimalValue());
        assertThat(shown.path("own_mark").path("score").asText()).isEqualTo("80.6");
        assertThat(list().get(0).path("own_mark").asText()).isEqualTo("80.6");
        done("attempts", "show", "--home", home(), id);
        assertThat(out).contains("Own mark: 80.6: smooth");
        refused("attempts", "--home", home(), "--sort", "foo");
        assertThat(err).contains("rejoin: --sort foo is not one of date, pilot, lesson, score (");
        done("progress", "--home", home(), "--pilot", "aNN", "--json");
        assertThat(json().path("pilot").asText()).isEqualTo("Ann");
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
        done(
                "attempts",
                "export",
                "--home",
                home(),
                paper,
                flying,
                "--xapi",
                folder.resolve("x.json").toString());
        assertThat(err)
                .contains(
                        paper + " is left out: a drill that was answered and not flown has no statement",
                        flying + " is left out: it is in flight");
        done("attempts", "--home", home());
        assertThat(out.lines().filter(line -> line.endsWith(flying)))
                .singleElement()
                .asString()
                .contains("  in flight  ")
                .doesNotContain("not graded", "not judged");
        done("attempts", "show", "--home", home(), flying);
        assertThat(out).contains("Score: in flight");
    }

    @Test
    void aRecordingIsInTheBookOnce() {
        String id = add("Ann", "airway-good").get(0);
        refused(
                "attempts",
                "add",
                "--home",
                home(),
                "--pilot",
                "Bo",
                RECORDINGS.resolve("airway-good").toString());
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
                    () -> Ran.run("attempts", "add", recording.toString(), "--pilot", "Ann", "--home", home())
                            .exit());
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
        RealRoom.copied(first, other);
        Path file = folder.resolve("statements.json");
        done("attempts", "export", id, other, "--home", home(), "--xapi", file.toString());
        assertThat(JSON.readTree(file.toFile())).hasSize(1);
        assertThat(err).contains(other + " is left out: it is the same flight as " + id);
        done("attempts", "send", "--home", home(), "--to", "https://store.example", "--dry-run");
        assertThat(json()).hasSize(1);
    }

    @Test
    void anAttemptThatIsDamagedDoesNotKeepTheOthersFromBeingSent() throws Exception {
        String id = add("Ann", "airway-good").get(0);
        add("Bo", "outbound-good");
        Files.delete(Path.of(list("--pilot", "Ann").get(0).path("recording").asText(), "flight.pcap"));
        done("attempts", "send", "--home", home(), "--to", "https://store.example", "--dry-run");
        assertThat(json()).hasSize(1);
        assertThat(err).contains(id + " is left out: ", "flight.pcap cannot be read");
    }

    @Test
    void aFlightIsRecordedStraightIntoTheBook() throws Exception {
        done("fly", "heading-to-airway", "--hz", "1", "--home", home(), "--as", "Ann");
        assertThat(err).contains("Flown by the practice aircraft (good), not by a person.");
        JsonNode row = list().get(0);
        assertThat(row.path("pilot").asText()).isEqualTo("Ann");
        assertThat(row.path("score").isNumber()).isTrue();
        assertThat(row.path("duration_s").isNumber()).isTrue();
        done("debrief", row.path("recording").asText());
        refused("fly", "--home", home(), "--out", folder.resolve("x").toString());
        assertThat(err).contains("--out and the record book");
    }

    /** What the program flew itself shows nobody's skill, whoever's name it is kept under and however it came into the book. */
    @Test
    void aFlightOfThePracticeAircraftIsNobodysProgressAndNoStatement() throws Exception {
        done("fly", "heading-to-airway", "--hz", "1", "--home", home(), "--as", "Otto");
        Path homework = folder.resolve("homework");
        done("fly", "heading-to-airway", "--hz", "1", "--pilot", "late", "--out", homework.toString());
        done("attempts", "add", homework.toString(), "--home", home(), "--pilot", "Otto");
        assertThat(err)
                .contains("Flown by the practice aircraft (late), not by a person. It counts for nobody's progress");
        String late = out.strip();
        assertThat(list())
                .extracting(row -> row.path("practice_pilot").asText())
                .containsExactlyInAnyOrder("good", "late");
        done("attempts", "--home", home());
        assertThat(out.lines().skip(1)).hasSize(2).allMatch(line -> line.contains("Otto (practice aircraft)"));
        done("attempts", "show", late, "--home", home());
        assertThat(out).contains("Flown by the practice aircraft (late), not by a person.");
        Path file = folder.resolve("statement.json");
        done("attempts", "export", late, "--home", home(), "--xapi", file.toString());
        assertThat(err).contains("is left out: the practice aircraft flew it");
        assertThat(JSON.readTree(file.toFile())).isEmpty();
        try (RecordBook book = new RecordBook(HomeFolder.open(Path.of(home())), note -> {})) {
            assertThat(new AttemptFolders(book).of("Otto")).isEmpty();
        }
        // On the report too, in the book and outside of it.
        done("debrief", homework.toString(), "--out", folder.resolve("report").toString());
        assertThat(folder.resolve("report").resolve("report.html"))
                .content()
                .contains("Flown by the practice aircraft (late), not by a person.");
    }

    @Test
    void anAttemptIsNotAddedUnderAnEmptyName() throws Exception {
        for (String nobody : List.of("", " ")) {
            refused(
                    "attempts",
                    "add",
                    RECORDINGS.resolve("airway-good").toString(),
                    "--home",
                    home(),
                    "--pilot",
                    nobody);
            assertThat(err).contains("--pilot is empty; name whoever flew, a nickname will do");
            refused("fly", "heading-to-airway", "--hz", "1", "--home", home(), "--as", nobody);
            assertThat(err).contains("--as is empty; name whoever flies");
        }
        add("Ann", "airway-good");
        refused("attempts", "add", RECORDINGS.resolve("airway-good").toString(), "--home", home(), "--pilot", "Bo");
        assertThat(err).contains("is in the record book already", "give it to him on its debrief page");
    }

    /** Ten minutes flown in a second are over now: statements and marks are dated so. */
    @Test
    void aFlightFasterThanTimeIsNotDatedInTheFuture() throws Exception {
        Path recording = folder.resolve("flown");
        done("fly", "heading-to-airway", "--hz", "1", "--out", recording.toString());
        DrillFlownTest.flownByAPerson(recording);
        done("attempts", "add", recording.toString(), "--home", home(), "--pilot", "Ann");
        Path file = folder.resolve("statement.json");
        done("attempts", "export", list().get(0).path("id").asText(), "--home", home(), "--xapi", file.toString());
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

    /** Whatever the clock of the computer that brings it in says: here the flight is yet to come. */
    @Test
    void aFlightIsDatedByTheEndOfItsRecordingAndNotByWhenItIsBroughtIn() throws Exception {
        assertThat(datedOf(flownUntil("2099-03-15T10:25:00Z", 1))).isEqualTo("2099-03-15T10:25:00.000Z");
    }

    /** By its sender's clock it lasted four times as long as it took. */
    @Test
    void aFlightInFourfoldTimeIsDatedWhenTheLastWasHeardOfIt() throws Exception {
        assertThat(datedOf(flownUntil("2024-03-15T10:25:00Z", 4))).isEqualTo("2024-03-15T10:25:00.000Z");
    }

    /** A recording whose last datagram came then, and whose others came so many times as fast one after the other. */
    private Path flownUntil(String then, int times) throws Exception {
        Path recording = Files.createDirectories(folder.resolve("flown"));
        Path from = RECORDINGS.resolve("airway-good");
        try (Stream<Path> files = Files.list(from)) {
            for (Path file : files.filter(Files::isRegularFile).toList()) {
                Files.copy(file, recording.resolve(file.getFileName()));
            }
        }
        List<Datagram> datagrams = new ArrayList<>();
        try (Capture capture = Capture.open(from.resolve("flight.pcap"))) {
            for (Optional<Datagram> next = capture.next(); next.isPresent(); next = capture.next()) {
                datagrams.add(next.get());
            }
        }
        long last = datagrams.get(datagrams.size() - 1).receivedMicros();
        long wanted = ChronoUnit.MICROS.between(Instant.EPOCH, Instant.parse(then));
        Files.delete(recording.resolve("flight.pcap"));
        try (CaptureWriter writer = CaptureWriter.create(
                recording.resolve("flight.pcap"), new InetSocketAddress(InetAddress.getLoopbackAddress(), 49100))) {
            for (Datagram datagram : datagrams) {
                writer.write(new Datagram(
                        wanted - (last - datagram.receivedMicros()) / times, datagram.sender(), datagram.payload()));
            }
        }
        return recording;
    }

    /** Brings it in, and tells the time of its statement, which is that of its attempt. */
    private String datedOf(Path recording) throws Exception {
        done("attempts", "add", recording.toString(), "--home", home(), "--pilot", "Ann");
        JsonNode listed = list().get(0);
        Path file = folder.resolve("statement.json");
        done("attempts", "export", listed.path("id").asText(), "--home", home(), "--xapi", file.toString());
        String dated = JSON.readTree(file.toFile()).get(0).path("timestamp").asText();
        JsonNode kept = JSON.readTree(Path.of(listed.path("recording").asText())
                .resolve("attempt.json")
                .toFile());
        assertThat(Instant.parse(kept.path("ended_utc").asText())).isEqualTo(Instant.parse(dated));
        assertThat(Instant.parse(kept.path("began_utc").asText())).isBefore(Instant.parse(dated));
        return dated;
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
        done("attempts", "rebuild", "--home", home());
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
        done("attempts", "sign", id, "--home", home(), "--name", "C. F. Reef");
        done("attempts", "rebuild", "--home", home());
        assertThat(out).doesNotContain("graded now");
        assertThat(list().get(0).path("signature").asText()).isEqualTo("matches");
        // As an earlier version left an attempt whose flight was interrupted, and let it be signed.
        Path kept = attempt.resolve("attempt.json");
        Files.writeString(
                kept, Files.readString(kept).replaceFirst("\"duration_s\" : [0-9.]+", "\"duration_s\" : null"));
        String open = Files.readString(kept);
        done("attempts", "rebuild", "--home", home());
        assertThat(err).contains("was signed before it was closed, and stays as it was signed");
        assertThat(kept).content().isEqualTo(open);
    }

    @Test
    void aSignatureIsShownAndSaysWhenWhatWasSignedHasChanged() throws Exception {
        String id = add("Ann", "airway-good").get(0);
        done("attempts", "sign", id, "--home", home(), "--name", "C. F. Reef", "--certificate", "0000");
        done("attempts", "mark", id, "--home", home(), "--score", "70", "--reason", "wrong wind", "--by", "C. F.");
        JsonNode row = list().get(0);
        assertThat(row.path("signed_by").asText()).isEqualTo("C. F. Reef");
        assertThat(row.path("signature").asText()).isEqualTo("matches");
        assertThat(row.path("own_mark").asInt()).isEqualTo(70);
        Path lesson = Path.of(row.path("recording").asText(), "lesson.yaml");
        Files.writeString(lesson, Files.readString(lesson) + "# changed\n");
        assertThat(list().get(0).path("signature").asText()).isEqualTo("changed");
        done("attempts", "show", id, "--home", home());
        assertThat(out).contains("by C. F. Reef, 0000 (NO LONGER MATCHES: changed since: lesson.yaml)", "Own mark: 70");
        done("attempts", "--home", home());
        assertThat(out).contains("C. F. Reef, CHANGED SINCE");
        Path file = folder.resolve("statement.json");
        done("attempts", "export", id, "--home", home(), "--xapi", file.toString());
        assertThat(err).contains(id + " is left out: lesson.yaml changed since C. F. Reef signed it");
        assertThat(JSON.readTree(file.toFile())).isEmpty();
        done("attempts", "sign", id, "--home", home(), "--name", "D. P. Shoal");
        assertThat(list().get(0).path("signature").asText()).isEqualTo("matches");
        assertThat(list().get(0).path("changed_for"))
                .extracting(JsonNode::asText)
                .containsExactly("C. F. Reef");
        done("attempts", "--home", home());
        assertThat(out).contains("D. P. Shoal; C. F. Reef, CHANGED SINCE");
        done("attempts", "send", "--home", home(), "--to", "https://store.example", "--dry-run");
        assertThat(json()).hasSize(1);
        refused("attempts", "sign", "20260601T140312Z-aaaaaa", "--home", home(), "--name", "X");
        assertThat(err).hasLineCount(1).contains("there is no attempt");
    }

    @Test
    void statementsGoToAFileAndToAStoreOnce() throws Exception {
        List<String> ids = add("Ann Example", "airway-weaving", "outbound-good");
        Path file = folder.resolve("statements.json");
        Path archive = folder.resolve("whole.zip");
        done(
                "attempts",
                "export",
                ids.get(0),
                "--home",
                home(),
                "--xapi",
                file.toString(),
                "--archive",
                archive.toString());
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
            done(with(send, "--dry-run"));
            assertThat(json()).hasSize(2);
            assertThat(store.answers()).as("nobody is connected to").isEmpty();
            done(send);
            assertThat(out).startsWith("2 statements sent, 0 refused, 0 waiting");
            assertThat(store.kept()).hasSize(2);
            assertThat(store.kept().values())
                    .contains(JSON.readTree(file.toFile()).get(0));
            done(send);
            assertThat(out).startsWith("0 statements sent");
            done(with(send, "--dry-run"));
            assertThat(json()).isEmpty();
            Files.writeString(credentials, "rejoin:wrong\n");
            add("Ann Example", "inbound-good");
            refused(send);
            assertThat(err).contains("1 statements wait").doesNotContain("wrong");
            store.trouble(StrictStore.Trouble.of(503));
            Files.writeString(credentials, "rejoin:secret\n");
            assertThat(run(with(send, "--tries", "1"))).isEqualTo(1);
            done(send);
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
            done(send);
            assertThat(out).startsWith("0 statements sent, 0 refused, 0 waiting");
            assertThat(err).contains("2 statements refused earlier", "--again");
            done(with(send, "--again", "--dry-run"));
            assertThat(json()).hasSize(2);
            done(with(send, "--again", ids.get(0)));
            assertThat(out).startsWith("1 statements sent");
            assertThat(err).contains("1 statement refused earlier");
            done(with(send, "--again"));
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
        refused("attempts", "add", zip.toString(), "--pilot", "Ann", "--home", home());
        assertThat(err).hasLineCount(1).contains(zip + ": day 1" + File.separator + "lesson.yaml");
        assertThat(err).doesNotContain("rejoin-brought");
    }

    @Test
    void anOwnMarkThatNobodySignedIsShownWithoutAName() {
        String id = add("Ann", "airway-good").get(0);
        done("attempts", "mark", id, "--home", home(), "--score", "50", "--reason", "wind");
        assertThat(out).contains(id + " marked 50.0 beside the computed mark");
        done("attempts", "show", id, "--home", home());
        assertThat(out).contains("Own mark: 50.0: wind");
    }

    /** What the list says of a flight is not missing where one looks closer. */
    @Test
    void oneAttemptSaysWhetherTheStandardWasMetAndItsFaults() throws Exception {
        done("attempts", "show", add("Ann", "airway-good").get(0), "--home", home());
        assertThat(out).contains("Standard: instrument-rating, met");
        String id = add("Ann", "outbound-wrong-turn").get(0);
        JsonNode row = list().stream()
                .filter(each -> each.path("id").asText().equals(id))
                .findFirst()
                .orElseThrow();
        done("attempts", "show", id, "--home", home());
        assertThat(row.path("met").asBoolean(true)).isFalse();
        assertThat(out)
                .contains("Standard: instrument-rating, not met; "
                        + row.path("faults").get(0).asText());
    }

    @Test
    void aPilotWhoseNameIsMistypedIsToldWhoThereIs() throws Exception {
        add("Ann", "airway-good");
        done("progress", "--pilot", "Amn", "--home", home());
        assertThat(err).contains("nothing that Amn flew or answered himself").contains("(pilots here: Ann)");
        done("progress", "--pilot", "Amn", "--home", folder.resolve("elsewhere").toString());
        assertThat(err).contains("elsewhere, which is not there yet");
    }

    private static String[] with(String[] arguments, String... more) {
        return Stream.concat(Stream.of(arguments), Stream.of(more)).toArray(String[]::new);
    }

    @Test
    void aPilotIsCalledOtherwiseInEveryList() throws Exception {
        add("Ann", "airway-good");
        add("Bo", "outbound-good");
        done("pilots", "rename", "ann", "Anneke", "--home", home());
        assertThat(out).contains("  Anneke");
        assertThat(list()).extracting(row -> row.path("pilot").asText()).containsExactlyInAnyOrder("Anneke", "Bo");
        done("progress", "--pilot", "Anneke", "--home", home());
        refused("pilots", "rename", "Anneke", "BO", "--home", home());
        assertThat(err).hasLineCount(1).contains("another pilot is called Bo already: give a name");
        refused("pilots", "rename", "Ann", "Anna", "--home", home());
        assertThat(err).hasLineCount(1).contains("nothing is known of a pilot Ann");
    }

    @Test
    void aPilotIsForgottenAfterAYes() throws Exception {
        add("Ann", "airway-good");
        add("Bo", "outbound-good");
        Path archive = folder.resolve("ann.zip");
        done("pilots", "export", "Ann", "--home", home(), "--archive", archive.toString());
        assertThat(archive).isNotEmptyFile();
        String[] forget = {"pilots", "forget", "Ann", "--home", home()};
        assertThat(answering("no\n", forget)).isEqualTo(2);
        assertThat(err).contains("Remove 1 attempt of Ann and all else");
        refused("pilots", "forget", "Nobody", "--home", home());
        assertThat(err).hasLineCount(1).contains("nothing is known of a pilot Nobody");
        assertThat(list()).hasSize(2);
        assertThat(answering("yes\n", forget)).as(err).isZero();
        assertThat(list())
                .singleElement()
                .satisfies(row -> assertThat(row.path("pilot").asText()).isEqualTo("Bo"));
        done("pilots", "--home", home(), "--json");
        assertThat(out.lines()).singleElement().asString().contains("\"name\":\"Bo\"", "\"attempts\":1");
        refused("pilots", "forget", "Ann", "--home", home(), "--yes");
        assertThat(err).hasLineCount(1).contains("nothing is known of a pilot Ann");
    }

    @Test
    void aFolderThatCannotBeUsedIsOneLine() throws Exception {
        refused("attempts", "--home", folder.resolve("none").toString());
        assertThat(err).hasLineCount(1).contains("there is no data folder");
        Path newer = Files.createDirectories(folder.resolve("newer"));
        Files.writeString(newer.resolve("folder.json"), "{\"format\": 7}");
        for (String[] command : List.of(
                new String[] {"attempts"}, new String[] {"attempts", "rebuild"}, new String[] {"pilots"}, new String[] {
                    "fly", "--hz", "1"
                })) {
            refused(with(command, "--home", newer.toString()));
            assertThat(err).hasLineCount(1).contains("was written by a newer version");
        }
        refused("attempts", "mark", "ID", "again", "--score", "5", "--reason", "x");
        assertThat(err).hasLineCount(1).startsWith("rejoin: nothing is expected here: 'again'");
        Path file = Files.writeString(folder.resolve("file"), "");
        refused("attempts", "--home", file.toString());
        assertThat(err).hasLineCount(1).contains("is a file");
    }

    @Test
    void pilotsAndProgressAreTablesForASpreadsheetTooWithTheSameNumbersAsInJson() throws Exception {
        add("Ann, the elder", "airway-good");
        add("Bo", "airway-late");
        done("pilots", "--home", home(), "--csv");
        assertThat(out.lines().toList())
                .hasSize(3)
                .startsWith("id,name,attempts,last_utc")
                .anyMatch(line -> line.contains("\"Ann, the elder\",1,2026-"));
        done("pilots", "--home", home());
        assertThat(out.lines().skip(1))
                .allSatisfy(line -> assertThat(line).containsPattern(" 2026-\\d\\d-\\d\\d \\d\\d:\\d\\d  "));
        done("progress", "--pilot", "Bo", "--home", home(), "--json");
        JsonNode skill = json().path("skills").get(3);
        done("progress", "--pilot", "Bo", "--home", home(), "--csv");
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
        refused("progress", "--pilot", "Bo", "--home", home(), "--csv", "--json");
        assertThat(err).contains("exclude each other");
    }

    @Test
    void aCellThatASpreadsheetWouldWorkOutIsText() {
        assertThat(Cell.of("=1+1").csv()).isEqualTo("'=1+1");
        assertThat(Cell.of("a,\"b\"").csv()).isEqualTo("\"a,\"\"b\"\"\"");
    }
}
