package org.rejoin.console.book;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Stream;

import org.rejoin.console.recording.Durable;
import org.rejoin.console.recording.Sha256;

import com.fasterxml.jackson.databind.JsonNode;

/**
 * The folder of one attempt: the recording, {@code attempt.json}, {@code grade.json}, and, one line each, {@code
 * signatures.jsonl} and {@code marks.jsonl}.
 */
@SuppressWarnings("try") // a lock is held, not used
public final class AttemptFolder {

    static final String ATTEMPT = "attempt.json";
    static final String GRADE = "grade.json";
    static final String SIGNATURES = "signatures.jsonl";
    static final String MARKS = "marks.jsonl";

    /** A line for each mark of a drill that was answered and not flown: in place of a recording. */
    public static final String PAPER = "paper.jsonl";

    /** What makes the flight and the grade what they are; the log follows from them. */
    private static final List<String> SIGNED = List.of(
            ATTEMPT,
            "flight.pcap",
            "lesson.yaml",
            "chart",
            "standard.yaml",
            "feed.yaml",
            "spoken.jsonl",
            "readbacks.jsonl",
            "again.jsonl",
            PAPER);

    /** Octets of a capture without a datagram. */
    private static final int EMPTY_CAPTURE = 24;

    private final HomeFolder home;
    private final Path place;

    AttemptFolder(HomeFolder home, Path place) {
        this.home = home;
        this.place = place;
    }

    /** Where it lies: a recording's folder. */
    public Path place() {
        return place;
    }

    /**
     * Who flew what when, its pilot under the name that he has now.
     *
     * @throws IOException if {@code attempt.json} cannot be read; one line
     */
    public Attempt attempt() throws IOException {
        return Roster.calledNow(kept(), new Roster(home).byIdIfReadable());
    }

    private Attempt kept() throws IOException {
        Path file = place.resolve(ATTEMPT);
        try {
            Attempt attempt = Attempt.read(Files.readAllBytes(file));
            if (!place.endsWith(attempt.id())) {
                throw new IOException("it is of the attempt " + attempt.id());
            }
            return attempt;
        } catch (IOException e) {
            throw new IOException(file + " cannot be read: " + Durable.why(e), e);
        }
    }

    /** Keeps who flew what when, in place of what was kept. */
    public void keep(Attempt attempt) throws IOException {
        Durable.write(place.resolve(ATTEMPT), attempt.json());
    }

    /**
     * A lock, to be closed, that is held while the attempt is flown, and while it is graded.
     *
     * @throws IOException if another program flies it; one line
     */
    public HomeLock flying() throws IOException {
        return HomeLock.hold(place.resolve(".flying.lock"), "flying this attempt", Duration.ZERO);
    }

    /** Whether a datagram was recorded. */
    public boolean isRecorded() throws IOException {
        Path capture = place.resolve("flight.pcap");
        return Files.isRegularFile(capture) && Files.size(capture) > EMPTY_CAPTURE;
    }

    /** {@return whether it is a drill that was answered, on paper or by ear, and not flown; true if its marks lie here} */
    public boolean isAnswered() {
        return Files.isRegularFile(place.resolve(PAPER));
    }

    /** The grade as it stands in the folder; empty if the flight has not been graded. */
    public Optional<JsonNode> grade() throws IOException {
        return grade(kept().seat());
    }

    /** The same where the attempt has been read already, and its {@link Attempt#seat()} is known. */
    public Optional<JsonNode> grade(String seat) throws IOException {
        Path file = place.resolve(seat).resolve(GRADE);
        try {
            return Optional.of(BookJson.read(Files.readAllBytes(file)));
        } catch (NoSuchFileException e) {
            return Optional.empty();
        } catch (IOException e) {
            throw new IOException(file + " cannot be read: " + Durable.why(e), e);
        }
    }

    /**
     * The signatures under it, in the order given, the last one counts. What of them is cut or damaged is left out, and
     * {@link #damage} says so.
     */
    public List<Signature> signatures() {
        return keptSignatures().all();
    }

    /** Whether somebody signed it, also where what is left of the signature cannot be read. */
    boolean isSigned() {
        Kept<Signature> signatures = keptSignatures();
        return !signatures.all().isEmpty() || signatures.damage().isPresent();
    }

    private Kept<Signature> keptSignatures() {
        return kept(SIGNATURES, Signature::read);
    }

    private Kept<OwnMark> keptMarks() {
        return kept(MARKS, OwnMark::read);
    }

    /** Lines that were kept, and what became of those that cannot be read. */
    private record Kept<T>(List<T> all, Optional<String> damage) {}

    /** Of signatures and of marks the last one counts; empty where there is none. */
    public static <T> Optional<T> last(List<T> all) {
        return all.isEmpty() ? Optional.empty() : Optional.of(all.get(all.size() - 1));
    }

    private <T> Kept<T> kept(String name, Function<String, Optional<T>> reader) {
        Path file = place.resolve(name);
        try {
            Durable.Lines lines = Durable.linesOfDamaged(file);
            List<T> all = lines.whole().stream()
                    .flatMap(line -> reader.apply(line).stream())
                    .toList();
            int lost = lines.whole().size() - all.size() + (lines.torn() ? 1 : 0);
            return new Kept<>(
                    all,
                    lost == 0
                            ? Optional.empty()
                            : Optional.of(file + ": " + (lost == 1 ? "a line is" : lost + " lines are")
                                    + " cut or damaged and left out; a backup may have it whole"));
        } catch (IOException e) {
            return new Kept<>(List.of(), Optional.ofNullable(e.getMessage()));
        }
    }

    /**
     * {@return what of its signatures and marks cannot be read; a line for each file that is damaged, none if all is whole}
     */
    public List<String> damage() {
        return damage(keptSignatures(), keptMarks());
    }

    private static List<String> damage(Kept<?>... files) {
        return Stream.of(files).flatMap(each -> each.damage().stream()).toList();
    }

    /**
     * Signs it; the signature is on the disk when this returns.
     *
     * @throws IOException if it is neither answered nor over and graded, or cannot be written; one line, and earlier
     *     signatures are as they were
     */
    public Signature sign(Signature.Words words, Instant at) throws IOException {
        try (HomeLock ignored = home.change("signing")) {
            Attempt attempt = kept();
            boolean graded = grade(attempt.seat()).isPresent();
            if (!(graded && attempt.durationS().isPresent()) && !isAnswered()) {
                throw new IOException("the attempt " + attempt.id()
                        + (graded ? " is not closed yet" : " has no grade yet")
                        + ": end the flight, or run attempts rebuild, then sign");
            }
            Signature signature = new Signature(words, at, hashes());
            Durable.append(place.resolve(SIGNATURES), signature.line());
            return signature;
        }
    }

    /**
     * A signature as it stands.
     *
     * @param changed names of files that are other, missing or new since; none if all is as it was signed
     */
    public record Checked(Signature signature, List<String> changed) {

        /** The list does not change any more. */
        public Checked {
            changed = List.copyOf(changed);
        }
    }

    /**
     * The signatures under it, in the order given, each with what has changed since; the files are read once for all of
     * them.
     */
    public List<Checked> checked() throws IOException {
        return checked(signatures());
    }

    private List<Checked> checked(List<Signature> signatures) throws IOException {
        if (signatures.isEmpty()) {
            return List.of();
        }
        Map<String, String> now = hashes();
        return signatures.stream()
                .map(each -> new Checked(each, changed(each, now)))
                .toList();
    }

    private static List<String> changed(Signature signature, Map<String, String> now) {
        TreeSet<String> names = new TreeSet<>(now.keySet());
        names.addAll(signature.files().keySet());
        List<String> changed = new ArrayList<>();
        for (String name : names) {
            if (!now.getOrDefault(name, "").equals(signature.files().getOrDefault(name, ""))) {
                changed.add(name);
            }
        }
        return changed;
    }

    /** {@return the instructor's own mark; the last one given that can be read; empty if there is none} */
    public Optional<OwnMark> ownMark() {
        return last(keptMarks().all());
    }

    /**
     * Gives it a mark of one's own, beside the computed one.
     *
     * @throws IOException if it cannot be written; one line, and earlier marks are as they were
     */
    public void mark(OwnMark mark) throws IOException {
        try (HomeLock ignored = home.change("marking")) {
            Durable.append(place.resolve(MARKS), mark.line());
        }
    }

    private Map<String, String> hashes() throws IOException {
        Map<String, String> hashes = new TreeMap<>();
        for (String name : SIGNED) {
            hash(name, hashes);
        }
        String seat = kept().seat();
        hash(seat.isEmpty() ? GRADE : seat + "/" + GRADE, hashes);
        Path profiles = place.resolve("profiles");
        if (Files.isDirectory(profiles)) {
            try (Stream<Path> files = Files.list(profiles)) {
                for (Path file : files.toList()) {
                    hash("profiles/" + file.getFileName(), hashes);
                }
            }
        }
        return hashes;
    }

    private void hash(String name, Map<String, String> hashes) throws IOException {
        Path file = place.resolve(name);
        if (Files.isRegularFile(file)) {
            hashes.put(name, sha256(file));
        }
    }

    /** The SHA-256 of a file, 64 hexadecimal digits in lower case. */
    public static String sha256(Path file) throws IOException {
        try {
            return Sha256.hex(file);
        } catch (IOException e) {
            throw new IOException(file + " cannot be read: " + Durable.why(e), e);
        }
    }

    /** What lists show of it under the names of these pilots, and what it cannot show, a line each, for {@code troubles}. */
    AttemptRow row(Map<String, Pilot> pilots, List<String> troubles) throws IOException {
        Attempt attempt = Roster.calledNow(kept(), pilots);
        GradeSummary grade = GradeSummary.NONE;
        try {
            grade = grade(attempt.seat()).map(GradeSummary::of).orElse(GradeSummary.NONE);
        } catch (IOException e) {
            troubles.add(e.getMessage() + "; debrief grades the recording again");
        }
        Kept<Signature> signatures = keptSignatures();
        Kept<OwnMark> marks = keptMarks();
        troubles.addAll(damage(signatures, marks));
        List<Checked> checked = checked(signatures.all());
        Optional<Checked> last = last(checked);
        return new AttemptRow(
                attempt,
                grade,
                last.map(each -> each.signature().words().name()),
                last.isPresent() && last.get().changed().isEmpty(),
                checked.stream()
                        .limit(Math.max(0, checked.size() - 1))
                        .filter(each -> !each.changed().isEmpty())
                        .map(each -> each.signature().words().name())
                        .toList(),
                last(marks.all()).map(OwnMark::score),
                isAnswered() ? Optional.of(attempt.answered()) : Optional.empty(),
                place);
    }
}
