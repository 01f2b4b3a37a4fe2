package org.rejoin.console.book;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;

import org.rejoin.console.recording.Durable;

import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Signing, and what a signature vouches for. */
@Timeout(value = 120, unit = TimeUnit.SECONDS)
class SignatureTest {

    private static final Signature.Words WORDS =
            new Signature.Words("C. F. Reef", "0000 CFII", "2027-01", "Intercepting and tracking", "Lead the turn.");
    private static final Instant NOW = Instant.parse("2026-06-01T15:00:00Z");

    @TempDir
    private Path folder;

    private HomeFolder home;
    private RecordBook book;
    private AttemptFolder attempt;

    @BeforeEach
    void fly() throws IOException {
        home = HomeFolder.open(folder);
        book = new RecordBook(home, note -> {});
        attempt = new GeneratedBook(book)
                .add(new Pilot("0000000a", "Ann"), "Heading", Instant.parse("2026-06-01T14:00:00Z"), 88, false);
    }

    private AttemptRow row() throws IOException {
        return book.list(AttemptQuery.ALL, (done, all) -> {}).rows().get(0);
    }

    private List<String> changedSince(Signature signature) throws IOException {
        return attempt.checked().stream()
                .filter(each -> each.signature().equals(signature))
                .findFirst()
                .orElseThrow()
                .changed();
    }

    @Test
    void signingAgainAddsAndOverwritesNothing() throws IOException {
        Signature first = attempt.sign(WORDS, NOW);
        Signature second = attempt.sign(new Signature.Words("D. P. Shoal", "", "", "", ""), NOW.plusSeconds(60));
        assertThat(attempt.signatures()).containsExactly(first, second);
        assertThat(first.files()).containsOnlyKeys("attempt.json", "chart", "flight.pcap", "grade.json", "lesson.yaml");
        assertThat(row().signedBy()).contains("D. P. Shoal");
        assertThat(row().signatureMatches()).isTrue();
    }

    /** The hash of an empty file from FIPS 180-4's example values. */
    @Test
    void hashesAreThoseOfTheStandard() throws IOException {
        Path empty = Files.createFile(folder.resolve("empty"));
        assertThat(AttemptFolder.sha256(empty))
                .isEqualTo("e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    }

    @Test
    void whatWasChangedAfterwardsNoLongerMatches() throws IOException {
        Signature signature = attempt.sign(WORDS, NOW);
        assertThat(changedSince(signature)).isEmpty();
        assertThat(row().signatureMatches()).isTrue();
        byte[] capture = Files.readAllBytes(attempt.place().resolve("flight.pcap"));
        capture[capture.length / 2] ^= 1;
        Files.write(attempt.place().resolve("flight.pcap"), capture);
        GeneratedBook.writeGrade(attempt.place(), 99, List.of());
        assertThat(changedSince(signature)).containsExactly("flight.pcap", "grade.json");
        assertThat(row().signatureMatches()).isFalse();
        assertThat(row().signedBy()).contains("C. F. Reef");
        Signature again = attempt.sign(WORDS, NOW.plusSeconds(60));
        assertThat(changedSince(again)).isEmpty();
        assertThat(row().signatureMatches()).isTrue();
        attempt.keep(attempt.attempt().flownBy(new Pilot("0000000b", "Bo")));
        assertThat(changedSince(again)).as("another pilot").containsExactly("attempt.json");
    }

    @Test
    void thereIsNothingToSignBeforeThereIsAGrade() throws IOException {
        Files.delete(attempt.place().resolve("grade.json"));
        assertThatThrownBy(() -> attempt.sign(WORDS, NOW)).hasMessageContaining("has no grade yet");
        assertThat(attempt.signatures()).isEmpty();
    }

    @Test
    void anAttemptThatIsNotClosedIsNotSignedBecauseClosingItChangesIt() throws IOException {
        Path file = attempt.place().resolve("attempt.json");
        Files.writeString(
                file, Files.readString(file).replaceFirst("\"duration_s\" : [0-9.]+", "\"duration_s\" : null"));
        assertThatThrownBy(() -> attempt.sign(WORDS, NOW)).hasMessageContaining("is not closed yet");
        assertThat(attempt.signatures()).isEmpty();
    }

    @Test
    void theInstructorsOwnMarkStandsBesideTheComputedOne() throws IOException {
        attempt.mark(new OwnMark(70, "C. F. Reef", "the wind was wrong in the lesson", NOW));
        attempt.mark(new OwnMark(75, "C. F. Reef", "read again", NOW.plusSeconds(5)));
        assertThat(row().ownMark()).contains(75.0);
        assertThat(row().grade().score()).hasValue(88);
        assertThat(Durable.lines(attempt.place().resolve("marks.jsonl"))).hasSize(2);
        assertThatThrownBy(() -> new OwnMark(75, "", " ", NOW)).hasMessageContaining("needs a reason");
        assertThatThrownBy(() -> new OwnMark(101, "", "x", NOW)).hasMessageContaining("not in 0 to 100");
    }

    /** Another program that signs and says so, over and over, until it is killed. */
    static final class Signing {
        public static void main(String[] args) throws Exception {
            RecordBook book = new RecordBook(HomeFolder.open(Path.of(args[0])), note -> {});
            AttemptFolder attempt = book.attempt(args[1]);
            for (int i = 0; ; i++) {
                attempt.sign(new Signature.Words(args[2] + "-" + i, "0000", "", "", "x".repeat(i % 900)), NOW);
                System.out.println(args[2] + "-" + i);
                book.list(AttemptQuery.ALL, (done, all) -> {});
            }
        }
    }

    /** A signature must not vanish without a word. */
    @Test
    void aLineThatIsCutOrDamagedIsSaidAndTheOthersStand() throws IOException {
        attempt.sign(WORDS, NOW);
        attempt.sign(new Signature.Words("D. P. Shoal", "", "", "", ""), NOW.plusSeconds(60));
        assertThat(attempt.damage()).isEmpty();
        Path file = attempt.place().resolve("signatures.jsonl");
        byte[] whole = Files.readAllBytes(file);
        Files.write(file, Arrays.copyOf(whole, whole.length - 20));
        assertThat(attempt.signatures()).extracting(each -> each.words().name()).containsExactly("C. F. Reef");
        assertThat(attempt.damage())
                .singleElement()
                .asString()
                .contains("signatures.jsonl", "a line is cut or damaged");
        byte[] damaged = whole.clone();
        for (int i = 10; i < 40; i++) {
            damaged[i] = (byte) 0xFF;
        }
        Files.write(file, damaged);
        assertThat(attempt.signatures()).extracting(each -> each.words().name()).containsExactly("D. P. Shoal");
        assertThat(book.list(AttemptQuery.ALL, (done, all) -> {}).troubles())
                .singleElement()
                .asString()
                .contains("a line is cut or damaged");
        Files.delete(file);
        Files.createDirectory(file);
        assertThat(attempt.signatures()).isEmpty();
        assertThat(attempt.damage()).singleElement().asString().contains("signatures.jsonl cannot be read");
        assertThat(row().signedBy()).isEmpty();
    }

    @Test
    void aProgramKilledWhileItSignsLosesNoSignatureThatItSaidWasGiven() throws Exception {
        List<String> said = new ArrayList<>();
        SplittableRandom random = new SplittableRandom(3);
        for (int kill = 0; kill < 5; kill++) {
            Path output = folder.resolve("said-" + kill);
            Process signing = OtherProgram.start(
                    Signing.class, output, folder.toString(), attempt.attempt().id(), "k" + kill);
            await().atMost(Duration.ofSeconds(60)).until(() -> Files.size(output) > 0 || !signing.isAlive());
            Thread.sleep(random.nextLong(300));
            signing.destroyForcibly();
            assertThat(signing.waitFor(30, TimeUnit.SECONDS)).isTrue();
            Files.readAllLines(output).stream()
                    .filter(line -> line.matches("k\\d+-\\d+"))
                    .forEach(said::add);
            List<String> kept = attempt.signatures().stream()
                    .map(signature -> signature.words().name())
                    .toList();
            // A line that the kill cut short is the name of an earlier one, or none.
            assertThat(kept).containsAll(said);
            assertThat(row().signatureMatches()).isTrue();
        }
        // One at least was given before each kill.
        assertThat(said).hasSizeGreaterThanOrEqualTo(5);
    }
}
