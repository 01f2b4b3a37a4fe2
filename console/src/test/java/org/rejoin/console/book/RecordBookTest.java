package org.rejoin.console.book;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.Statement;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import java.util.zip.ZipFile;

import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The record book with real files and a real database. */
@SuppressWarnings("try") // a lock is held, not used
class RecordBookTest {

    private static final Pilot ANN = new Pilot("0000000a", "Ann");
    private static final Pilot BO = new Pilot("0000000b", "Bø");
    private static final Instant MAY = Instant.parse("2026-05-01T10:00:00Z");

    @TempDir
    private Path folder;

    private final List<String> notes = new ArrayList<>();
    private HomeFolder home;
    private RecordBook book;
    private GeneratedBook school;

    @BeforeEach
    void open() throws IOException {
        home = HomeFolder.open(folder.resolve("home"));
        reopen();
    }

    private void reopen() throws IOException {
        if (book != null) {
            book.close();
        }
        book = new RecordBook(home, notes::add);
        school = new GeneratedBook(book);
    }

    @AfterEach
    void close() throws IOException {
        book.close();
    }

    private List<String> ids(AttemptQuery query) throws IOException {
        return book.list(query, (done, all) -> {}).rows().stream()
                .map(row -> row.attempt().id())
                .toList();
    }

    private static String id(AttemptFolder attempt) throws IOException {
        return attempt.attempt().id();
    }

    private AttemptFolder attempt(Pilot pilot, String lesson, long days, double score) throws IOException {
        return school.add(pilot, lesson, MAY.plusSeconds(days * 86_400), score, false);
    }

    @Test
    void attemptsAreListedOldestFirstWhateverTheOrderTheyCameIn() throws IOException {
        String late = id(attempt(ANN, "Radial inbound", 3, 90));
        String early = id(attempt(BO, "Radial inbound", 1, 70));
        assertThat(ids(AttemptQuery.ALL)).containsExactly(early, late);
        String between = id(attempt(ANN, "Heading", 2, 50));
        assertThat(ids(AttemptQuery.ALL)).as("seen without a new index").containsExactly(early, between, late);
        AttemptRow row = book.list(AttemptQuery.ALL, (done, all) -> {}).rows().get(0);
        assertThat(row.attempt()).isEqualTo(book.attempt(early).attempt());
        assertThat(row.grade().score()).hasValue(70);
        assertThat(row.grade().met()).contains(false);
        assertThat(row.grade().faults()).hasSize(1);
    }

    @Test
    void aListIsNarrowedAndSortedByPilotLessonDateAndScore() throws IOException {
        String one = id(attempt(ANN, "Radial inbound", 1, 90));
        String two = id(attempt(BO, "Radial inbound", 2, 70));
        String three = id(attempt(ANN, "Heading", 3, 50));
        assertThat(ids(AttemptQuery.ALL.of("bØ"))).as("name, whatever the case").containsExactly(two);
        assertThat(ids(AttemptQuery.ALL.of("0000000a"))).as("identifier").containsExactly(one, three);
        assertThat(ids(query("RADIAL INBOUND", AttemptQuery.Order.DATE, false))).containsExactly(one, two);
        assertThat(ids(AttemptQuery.ALL.of("' OR 1=1 --"))).isEmpty();
        assertThat(ids(query("", AttemptQuery.Order.SCORE, false))).containsExactly(three, two, one);
        assertThat(ids(query("", AttemptQuery.Order.PILOT, true))).containsExactly(two, three, one);
        assertThat(ids(query("", AttemptQuery.Order.LESSON, false))).containsExactly(three, one, two);
        AttemptQuery narrow = new AttemptQuery(
                "",
                "",
                "radial 100%",
                Optional.empty(),
                Optional.empty(),
                OptionalDouble.empty(),
                AttemptQuery.Order.DATE,
                false);
        assertThat(ids(narrow)).as("a per cent sign stands for itself").isEmpty();
        AttemptQuery typed = new AttemptQuery(
                "",
                "",
                "rad ann",
                Optional.of(MAY),
                Optional.of(MAY.plusSeconds(86_400 * 2)),
                OptionalDouble.of(80),
                AttemptQuery.Order.DATE,
                false);
        assertThat(ids(typed)).containsExactly(one);
    }

    /** An open practice room has looked at the book; the command line adds to it and looks, and the room looks again. */
    @Test
    void anAttemptIsFoundByAnyPartOfWhatStandsInTheBookAndByItsDate() throws IOException {
        String one = id(attempt(ANN, "Radial inbound", 1, 90));
        String two = id(attempt(ANN, "Radial inbound", 8, 70));
        String other = id(attempt(BO, "Heading", 8, 70));
        String day = MAY.plusSeconds(8 * 86_400).toString().substring(0, 10);
        assertThat(ids(words("ann"))).containsExactly(one, two);
        assertThat(ids(words(day))).containsExactlyInAnyOrder(two, other);
        assertThat(ids(words("inbound " + day))).containsExactly(two);
        assertThat(ids(words("inbound 1999"))).isEmpty();
    }

    private static AttemptQuery words(String typed) {
        return new AttemptQuery(
                "",
                "",
                typed,
                Optional.empty(),
                Optional.empty(),
                OptionalDouble.empty(),
                AttemptQuery.Order.DATE,
                false);
    }

    @Test
    void whoHasLookedAtTheListKeepsNobodyElseFromLooking() throws IOException {
        String first = id(attempt(ANN, "Heading", 1, 50));
        assertThat(ids(AttemptQuery.ALL)).containsExactly(first);
        try (RecordBook other = new RecordBook(home, notes::add)) {
            String second = id(new GeneratedBook(other).add(BO, "Heading", MAY.plusSeconds(2 * 86_400), 60, false));
            assertThat(other.list(AttemptQuery.ALL, (done, all) -> {}).rows()).hasSize(2);
            assertThat(ids(AttemptQuery.ALL)).containsExactly(first, second);
        }
    }

    @Test
    void aNewGradeIsSeenAtTheNextLook() throws IOException {
        AttemptFolder attempt = attempt(ANN, "Heading", 1, 50);
        ids(AttemptQuery.ALL);
        Files.writeString(
                attempt.place().resolve("grade.json"),
                "{\"score\": 61.5, \"standard\": \"strict\", \"met\": null, \"not_judged\": [\"taken back\"], \"faults\": []}");
        AttemptRow row = book.list(AttemptQuery.ALL, (done, all) -> {}).rows().get(0);
        assertThat(row.grade())
                .isEqualTo(new GradeSummary(OptionalDouble.of(61.5), "strict", Optional.empty(), List.of()));
    }

    @Test
    void anIndexThatIsMissingDamagedOrOfAnotherVersionIsMadeAgain() throws Exception {
        school.add(30, 4);
        List<String> before = ids(AttemptQuery.ALL);
        assertThat(before).hasSize(30);
        Path index = home.place().resolve("index.db");

        book.close();
        Files.delete(index);
        reopen();
        assertThat(ids(AttemptQuery.ALL)).isEqualTo(before);

        book.close();
        Files.writeString(
                index, "this is no database, and it is longer than the header of one by some octets .........");
        reopen();
        assertThat(ids(AttemptQuery.ALL)).isEqualTo(before);
        assertThat(notes)
                .singleElement()
                .asString()
                .contains("is not usable", "nothing is lost")
                .doesNotContain("SQLITE_");

        book.close();
        try (RandomAccessFile damaged = new RandomAccessFile(index.toFile(), "rw")) {
            long size = damaged.length();
            for (long at = 4096 + 7; at < size; at += 512) {
                damaged.seek(at);
                damaged.write(0xA5);
            }
        }
        reopen();
        assertThat(ids(AttemptQuery.ALL)).isEqualTo(before);
        assertThat(notes).hasSize(2);

        book.close();
        try (Connection other = DriverManager.getConnection("jdbc:sqlite:" + index);
                Statement statement = other.createStatement()) {
            statement.execute("DROP TABLE attempt");
            statement.execute("CREATE TABLE attempt(id TEXT)");
            statement.execute("PRAGMA user_version = 999");
        }
        reopen();
        assertThat(ids(AttemptQuery.ALL)).isEqualTo(before);
        assertThat(book.rebuild((done, all) -> {})).isEqualTo(30);
        assertThat(ids(AttemptQuery.ALL)).isEqualTo(before);

        book.close();
        Files.delete(index);
        Files.createDirectories(index.resolve("something"));
        reopen();
        assertThat(ids(AttemptQuery.ALL)).isEqualTo(before);
        assertThat(notes).last().asString().contains("is a folder where the index", "nothing is lost");
    }

    @Test
    void anAttemptThatCannotBeReadIsSaidAndTheOthersAreListed() throws IOException {
        AttemptFolder bad = attempt(ANN, "Heading", 1, 50);
        AttemptFolder ungraded = attempt(ANN, "Heading", 2, 50);
        String good = id(attempt(ANN, "Heading", 3, 50));
        String second = id(ungraded);
        Files.writeString(bad.place().resolve("attempt.json"), "{\"id\": ");
        Files.writeString(ungraded.place().resolve("grade.json"), "[]");
        RecordBook.Listing listing = book.list(AttemptQuery.ALL, (done, all) -> {});
        assertThat(listing.rows().stream().map(row -> row.attempt().id())).containsExactly(second, good);
        assertThat(listing.rows().get(0).grade()).isEqualTo(GradeSummary.NONE);
        assertThat(listing.troubles())
                .hasSize(2)
                .allSatisfy(line -> assertThat(line).hasLineCount(1))
                .anySatisfy(line -> assertThat(line)
                        .contains("attempt.json cannot be read: it is not JSON (it breaks off, line 1)")
                        .contains("its recording is as it was"))
                .anySatisfy(line -> assertThat(line).contains("grade.json cannot be read", "it is not a JSON object"));
    }

    @Test
    void anAttemptThatWasMovedToAnotherMonthIsListedAndUsedThere() throws IOException {
        AttemptFolder attempt = attempt(ANN, "Heading", 0, 80);
        String id = id(attempt);
        assertThat(ids(AttemptQuery.ALL)).containsExactly(id);
        Path other = home.attempts().resolve("2026").resolve("04").resolve(id);
        Files.createDirectories(other.resolveSibling(""));
        Files.move(attempt.place(), other);
        assertThat(book.list(AttemptQuery.ALL, (done, all) -> {}).rows())
                .singleElement()
                .satisfies(row -> assertThat(row.folder()).isEqualTo(other));
        assertThat(book.attempt(id).place()).isEqualTo(other);
        assertThat(book.attempt(id).grade()).isPresent();
    }

    @Test
    void anAttemptIsInTheBookWholeOrNotAtAll() throws IOException {
        Attempt attempt = attempt(ANN, "Heading", 1, 50).attempt();
        Attempt other = new Attempt(
                Attempt.newId(MAY, new java.util.SplittableRandom(1)),
                "Ann",
                ANN.id(),
                "",
                "Heading",
                MAY,
                OptionalDouble.empty(),
                "Rejoin 0.1.0",
                "",
                "",
                "");
        assertThatThrownBy(() -> book.put(other, place -> {
                    throw new IOException("No space left on device");
                }))
                .hasMessageContaining("the disk is full")
                .hasMessageNotContaining("\n");
        assertThat(ids(AttemptQuery.ALL)).containsExactly(attempt.id());
        try (Stream<Path> left = Files.walk(home.place())) {
            assertThat(left.map(Path::toString)).noneMatch(name -> name.endsWith(".part"));
        }
        AttemptFolder begun = book.begin(other);
        assertThat(begun.attempt()).isEqualTo(other);
        book.discard(begun);
        assertThat(ids(AttemptQuery.ALL)).containsExactly(attempt.id());
    }

    @Test
    void whatWasLearntOfAVoiceIsKeptWithItsPilot() throws Exception {
        Pilot ann = book.roster().findOrAdd("Ann");
        assertThat(book.roster().voice(ann)).isEmpty();
        book.roster().keepVoice(ann, "-3.25 0.94 with r");
        book.roster().findOrAdd("Bo");
        assertThat(book.roster().voice(ann)).hasValue("-3.25 0.94 with r");
        assertThat(book.roster().pilots()).hasSize(2);
    }

    @Test
    void aPilotWhoIsRenamedKeepsAttemptsSignaturesAndVoice() throws Exception {
        Pilot ann = book.roster().findOrAdd("Ann");
        Pilot bo = book.roster().findOrAdd("Bo");
        book.roster().keepVoice(ann, "-3.25 0.94 with r");
        AttemptFolder signed = attempt(ann, "Heading", 1, 50);
        signed.sign(new Signature.Words("C. F. Reef", "", "", "", ""), MAY);
        AttemptFolder byName = attempt(new Pilot("", "ANN"), "Heading", 2, 60);
        AttemptFolder his = attempt(bo, "Heading", 3, 70);
        assertThat(ids(AttemptQuery.ALL.of("Ann"))).containsExactly(id(signed), id(byName));

        RecordBook.Renamed renamed = book.rename("ann", " Zoë ");
        assertThat(renamed.pilot()).isEqualTo(new Pilot(ann.id(), "Zoë"));
        assertThat(renamed.left()).isEmpty();
        assertThat(ids(AttemptQuery.ALL.of("zoë"))).containsExactly(id(signed), id(byName));
        assertThat(ids(AttemptQuery.ALL.of(ann.id()))).containsExactly(id(signed), id(byName));
        assertThat(ids(AttemptQuery.ALL.of("Ann"))).isEmpty();
        assertThat(ids(query("", AttemptQuery.Order.PILOT, false)))
                .as("in the order of the names they have now")
                .containsExactly(id(his), id(signed), id(byName));
        assertThat(book.attempt(id(signed)).attempt().pilot()).isEqualTo("Zoë");
        assertThat(signed.checked())
                .singleElement()
                .satisfies(each -> assertThat(each.changed()).isEmpty());
        assertThat(book.roster().voice(ann)).hasValue("-3.25 0.94 with r");

        assertThatThrownBy(() -> book.rename("Zoë", "BO"))
                .hasMessageContaining("another pilot is called Bo already: give a name that tells the two apart");
        assertThatThrownBy(() -> book.rename("Zoë", "")).hasMessageContaining("1 to 80 characters");
        assertThatThrownBy(() -> book.rename("Zoë", "12345678")).hasMessageContaining("look like an identifier");
        assertThatThrownBy(() -> book.rename("Ann", "Anna")).hasMessageContaining("nothing is known of a pilot Ann");
        assertThat(book.rename("zoë", "ZOË").pilot().name())
                .as("her own, in capitals")
                .isEqualTo("ZOË");
        book.rebuild((done, all) -> {});
        assertThat(ids(AttemptQuery.ALL.of("zoë")))
                .as("made anew from the folders")
                .hasSize(2);
        assertThat(book.forget("Zoë")).isEqualTo(2);
        book.close();
        nothingIsLeftOf("Ann", "ZOË", ann.id());
    }

    @Test
    void aSignedAttemptThatOnlyNamesThePilotStaysAsItWasSigned() throws Exception {
        Pilot ann = book.roster().findOrAdd("Ann");
        AttemptFolder signed = attempt(new Pilot("", "ANN"), "Heading", 1, 50);
        signed.sign(new Signature.Words("C. F. Reef", "", "", "", ""), MAY);
        AttemptFolder open = attempt(new Pilot("", "ann"), "Heading", 2, 60);

        RecordBook.Renamed renamed = book.rename("Ann", "Zoë");
        assertThat(renamed.left())
                .hasValueSatisfying(line -> assertThat(line).startsWith("one signed attempt names Ann without"));
        assertThat(ids(AttemptQuery.ALL.of(ann.id()))).containsExactly(id(open));
        assertThat(ids(AttemptQuery.ALL.of("Ann"))).containsExactly(id(signed));
        assertThat(signed.checked())
                .singleElement()
                .satisfies(each -> assertThat(each.changed()).isEmpty());
    }

    /** Another program lists the attempts by the old roster, or by none, while the name is changed. */
    @Test
    void aRowOfANameBeforeIsReadAnewWhoeverWroteIt() throws Exception {
        Pilot ann = book.roster().findOrAdd("Ann");
        AttemptFolder hers = attempt(ann, "Heading", 1, 50);
        assertThat(ids(AttemptQuery.ALL.of("Ann"))).containsExactly(id(hers));
        book.roster().rename(new Pilot(ann.id(), "Zoë"));
        assertThat(ids(AttemptQuery.ALL.of("Zoë"))).containsExactly(id(hers));
        assertThat(ids(AttemptQuery.ALL.of("Ann"))).isEmpty();

        byte[] roster = Files.readAllBytes(home.roster());
        Files.writeString(home.roster(), "{");
        AttemptFolder next = attempt(ann, "Heading", 2, 60);
        assertThat(ids(AttemptQuery.ALL.of("Ann")))
                .as("no roster can be read: as the attempts name her")
                .hasSize(2);
        Files.write(home.roster(), roster);
        assertThat(ids(AttemptQuery.ALL.of("Zoë"))).containsExactly(id(hers), id(next));
    }

    @Test
    void aPilotGoesFromTheRosterByTheIdentifierWhateverTheName() throws Exception {
        Pilot ann = book.roster().findOrAdd("Ann");
        book.roster().remove(new Pilot(ann.id(), "Anna, as another page still calls her"));
        assertThat(book.roster().pilots()).isEmpty();
    }

    @Test
    void aPilotIsExportedWithEverythingAndForgottenWithEverything() throws Exception {
        Pilot ann = book.roster().findOrAdd("Ann");
        Pilot bo = book.roster().findOrAdd("Bo");
        assertThat(book.roster().findOrAdd(" aNN ")).isEqualTo(ann);
        AttemptFolder hers = attempt(ann, "Heading", 1, 50);
        AttemptFolder his = attempt(bo, "Heading", 2, 60);
        hers.sign(new Signature.Words("C. F. Reef", "", "", "", ""), MAY);
        Path waiting = Files.createDirectories(home.statements().resolve("x/waiting"));
        Files.writeString(waiting.resolve(id(hers) + "_1.json"), "{}");
        Files.writeString(waiting.resolve(id(his) + "_2.json"), "{}");

        String gone = id(hers);
        String stays = id(his);
        Path archive = folder.resolve("ann.zip");
        assertThat(book.export("ANN", archive)).isEqualTo(1);
        try (ZipFile zip = new ZipFile(archive.toFile())) {
            List<String> names = zip.stream().map(Object::toString).toList();
            assertThat(names).contains("pilot.json", "statements/x/waiting/" + id(hers) + "_1.json");
            assertThat(names).anyMatch(name -> name.endsWith(gone + "/flight.pcap"));
            assertThat(names).anyMatch(name -> name.endsWith("signatures.jsonl"));
            assertThat(names).noneMatch(name -> name.contains(stays));
        }
        assertThatThrownBy(() -> book.export("Ann", archive)).hasMessageContaining("never overwritten");

        Path sent = Files.createDirectories(home.statements().resolve("y/sent"));
        Files.writeString(home.statements().resolve("y/endpoint"), "https://store.example/xapi\n");
        Files.writeString(sent.resolve(id(hers) + "_3.json"), "{}");
        assertThat(book.storesWithStatementsOf("Ann")).containsExactly("https://store.example/xapi");
        assertThat(book.storesWithStatementsOf("Bo")).as("his wait only").isEmpty();
        assertThat(book.forget("Ann")).isEqualTo(1);
        assertThat(ids(AttemptQuery.ALL)).containsExactly(stays);
        book.close();
        nothingIsLeftOf(gone, "Ann", ann.id());
        assertThatThrownBy(() -> book.forget("Ann")).hasMessageContaining("nothing is known of a pilot Ann");
    }

    @Test
    void withAPilotGoTheCopiesThatNoListHasAndHisSeat() throws Exception {
        Pilot ann = book.roster().findOrAdd("Ann");
        AttemptFolder hers = attempt(ann, "Heading", 1, 50);
        AttemptFolder given = attempt(ann, "Heading", 3, 50);
        AttemptFolder his = attempt(book.roster().findOrAdd("Bo"), "Heading", 2, 60);
        // Moved by hand and put back from a backup: of two copies the lists have one.
        for (String elsewhere : List.of(
                "attempts/2025/01/" + id(hers),
                "attempts/old/" + id(hers),
                "attempts/2025/01/." + id(hers) + ".part",
                "attempts/2025/02/" + id(given))) {
            copy(
                    elsewhere.contains(id(given)) ? given.place() : hers.place(),
                    home.place().resolve(elsewhere));
        }
        given.keep(given.attempt().flownBy(book.roster().findOrAdd("Bo")));
        Files.writeString(
                home.place().resolve("room.json"),
                "{\"seats\":{\"REJOIN\":\"Left\"},\"pilots\":{\"REJOIN\":{\"id\":\"" + ann.id()
                        + "\",\"lesson\":\"hold-at-fix\",\"since_s\":1}}}");
        assertThat(book.forget("Ann")).isEqualTo(1);
        assertThat(ids(AttemptQuery.ALL)).containsExactlyInAnyOrder(id(his), id(given));
        book.close();
        nothingIsLeftOf("Ann", ann.id());
        assertThat(home.place().resolve("room.json")).content().contains("Left");
    }

    private void nothingIsLeftOf(String... words) throws IOException {
        try (Stream<Path> left = Files.walk(home.place())) {
            for (Path file : left.filter(Files::isRegularFile).toList()) {
                String text = new String(Files.readAllBytes(file), java.nio.charset.StandardCharsets.ISO_8859_1);
                assertThat(home.place().relativize(file) + "\n" + text)
                        .as(file.toString())
                        .doesNotContain(words);
            }
        }
    }

    private static void copy(Path from, Path to) throws IOException {
        Files.createDirectories(to);
        try (Stream<Path> files = Files.list(from)) {
            for (Path file : files.filter(Files::isRegularFile).toList()) {
                Files.copy(file, to.resolve(file.getFileName().toString()));
            }
        }
    }

    @Test
    void aForgottenPilotDoesNotComeBackUnderHisIdentifier() throws Exception {
        Pilot ann = book.roster().findOrAdd("Ann");
        book.forget("Ann");
        assertThatThrownBy(() -> book.roster().findOrAdd(ann.id()))
                .hasMessageContaining("the roster has no pilot " + ann.id() + " any more");
        assertThat(book.roster().pilots()).isEmpty();
    }

    @Test
    void aPilotWhoFliesIsNotForgotten() throws IOException {
        AttemptFolder flown = attempt(ANN, "Heading", 1, 50);
        try (HomeLock ignored = flown.flying()) {
            assertThatThrownBy(() -> book.forget("Ann")).hasMessageContaining("in use by another program (flying");
        }
        assertThat(book.forget("Ann")).isEqualTo(1);
    }

    @Test
    void aForgettingThatWasKilledGoesOn() throws IOException {
        Pilot ann = book.roster().findOrAdd("Ann");
        AttemptFolder first = attempt(ann, "Heading", 1, 50);
        attempt(ann, "Heading", 2, 50);
        // As it is left between two attempts: one is out of the book, its files not yet gone.
        Path removed = Files.createDirectories(home.place().resolve("removed"));
        Files.move(first.place(), removed.resolve(id(first)));
        assertThat(book.forget("Ann")).isEqualTo(1);
        assertThat(removed).doesNotExist();
        assertThat(book.roster().pilots()).isEmpty();
    }

    @Test
    void namesThatBreakLinesAreNotTaken() {
        for (String name : List.of("", "   ", "a\nb", "a\u0007", "a\u202Eb", "x".repeat(81))) {
            assertThatThrownBy(() -> book.roster().findOrAdd(name)).hasMessageContaining("a pilot's name has");
        }
    }

    private static AttemptQuery query(String lesson, AttemptQuery.Order order, boolean backward) {
        AttemptQuery all = AttemptQuery.ALL;
        return new AttemptQuery("", lesson, "", all.from(), all.until(), all.leastScore(), order, backward);
    }
}
