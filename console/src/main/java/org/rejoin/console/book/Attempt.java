package org.rejoin.console.book;

import java.io.IOException;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.random.RandomGenerator;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;

/**
 * An attempt: one pilot, one lesson, one aircraft, from start to end. What it was worth stands in its grade, who vouches
 * for it in its signatures.
 *
 * @param id as {@link #newId} makes it; names the folder
 * @param pilot as typed, may be a nickname; in {@code attempt.json} as he was called then; empty if nobody said
 * @param pilotId the roster's, never changes and says whose it is; empty if the roster does not know him
 * @param aircraft label of the seat
 * @param lesson its title
 * @param began when its sender was first heard, UTC, to the millisecond
 * @param durationS seconds from first to last sample, pauses left out; empty while it is flown or if the program was
 *     killed in it
 * @param ended when the last was heard of its aircraft, by the clock of began: a flight faster than time lasts longer than
 *     it took; UTC, to the millisecond; empty while it is flown, and where nobody said
 * @param program that recorded and graded it, with version
 * @param instructor who gave the lesson; empty if nobody said
 * @param device identification of the training device as the user states it; empty if nobody said
 * @param seat folder of log and grade below the attempt's, for an aircraft of a recording of several; empty for the
 *     attempt's own
 * @param more members of {@code attempt.json} that are not the book's own, as what made a drill hard; kept as they are
 */
public record Attempt(
        String id,
        String pilot,
        String pilotId,
        String aircraft,
        String lesson,
        Instant began,
        OptionalDouble durationS,
        Optional<Instant> ended,
        String program,
        String instructor,
        String device,
        String seat,
        ObjectNode more) {

    private static final Set<String> OWN = Set.of(
            "format",
            "id",
            "pilot",
            "pilot_id",
            "aircraft",
            "lesson",
            "began_utc",
            "duration_s",
            "ended_utc",
            "program",
            "instructor",
            "device",
            "seat");

    private static final String PRACTICE_PILOT = "practice_pilot";

    private static final DateTimeFormatter STAMP =
            DateTimeFormatter.ofPattern("uuuuMMdd'T'HHmmss'Z'", Locale.ROOT).withZone(ZoneOffset.UTC);
    static final String ID = "[0-9]{8}T[0-9]{6}Z-[0-9a-z]{6}";
    private static final String SEAT = "|seats/[A-Za-z0-9][A-Za-z0-9_-]*";

    /** Takes times to the millisecond. */
    public Attempt {
        if (!isId(id)) {
            throw new IllegalArgumentException("id " + id + " is not a time and six characters");
        }
        if (!seat.matches(SEAT)) {
            throw new IllegalArgumentException("seat " + seat + " is not a folder below seats/");
        }
        if (durationS.isPresent() && !(durationS.getAsDouble() >= 0)) {
            throw new IllegalArgumentException("duration " + durationS.getAsDouble() + " s is not 0 or more");
        }
        began = began.truncatedTo(ChronoUnit.MILLIS);
        ended = ended.map(at -> at.truncatedTo(ChronoUnit.MILLIS));
        more = more.deepCopy();
        more.remove(OWN);
    }

    /** An attempt of which the book alone knows, and nobody said when it was over. */
    public Attempt(
            String id,
            String pilot,
            String pilotId,
            String aircraft,
            String lesson,
            Instant began,
            OptionalDouble durationS,
            String program,
            String instructor,
            String device,
            String seat) {
        this(
                id,
                pilot,
                pilotId,
                aircraft,
                lesson,
                began,
                durationS,
                Optional.empty(),
                program,
                instructor,
                device,
                seat,
                BookJson.object());
    }

    /** The same attempt with other members beside the book's own; each takes the place of one of its name. */
    public Attempt with(ObjectNode members) {
        ObjectNode all = more.deepCopy();
        all.setAll(members);
        return changed(pilot, pilotId, aircraft, durationS, ended, all);
    }

    private Attempt changed(
            String who, String whoId, String flown, OptionalDouble seconds, Optional<Instant> over, ObjectNode beside) {
        return new Attempt(
                id, who, whoId, flown, lesson, began, seconds, over, program, instructor, device, seat, beside);
    }

    /** A copy of the members that are not the book's own. */
    @Override
    public ObjectNode more() {
        return more.deepCopy();
    }

    /** What says in {@code attempt.json} that the practice aircraft flew it, by its habit. */
    public static ObjectNode flownByPractice(String habit) {
        return BookJson.object().put(PRACTICE_PILOT, habit);
    }

    /** {@return the habit of the practice aircraft that flew it; empty of a person's: nobody's skill is seen in it} */
    public Optional<String> practicePilot() {
        return BookJson.text(more, PRACTICE_PILOT);
    }

    /**
     * What was right of a drill that was answered and not flown, as "7 of 8 right" or "read back right"; "answers not
     * kept" of anything else.
     */
    public String answered() {
        // Of a drill on paper right and asked, of one by ear outcome, or right alone as earlier versions kept it.
        JsonNode right = more.path("right");
        if (right.isInt() && more.path("asked").isInt()) {
            return right.asInt() + " of " + more.path("asked").asInt() + " right";
        }
        if (more.path("outcome").asText().equals("unclear")) {
            return "readback not clear";
        }
        return right.isBoolean() ? "read back " + (right.asBoolean() ? "right" : "wrong") : "answers not kept";
    }

    /** A new name for an attempt, as {@code 20260601T140312Z-k3x0v9}: sorted by name they stand in order of time. */
    public static String newId(Instant began, RandomGenerator random) {
        return STAMP.format(began) + '-' + newDigits(random);
    }

    /** {@return six digits and small letters, by which two things of one name are told apart} */
    public static String newDigits(RandomGenerator random) {
        StringBuilder digits = new StringBuilder();
        for (int i = 0; i < 6; i++) {
            digits.append(Character.forDigit(random.nextInt(36), 36));
        }
        return digits.toString();
    }

    static boolean isId(String text) {
        return text.matches(ID);
    }

    /**
     * The same attempt, over: seconds flown, pauses left out, and when it was, by the clock that it began by.
     */
    public Attempt ended(double seconds, Instant at) {
        return changed(pilot, pilotId, aircraft, OptionalDouble.of(seconds), Optional.of(at), more);
    }

    /** The same attempt, given to a pilot of the roster. */
    public Attempt flownBy(Pilot known) {
        return changed(known.name(), known.id(), aircraft, durationS, ended, more);
    }

    /** The same attempt, under another name of its aircraft. */
    public Attempt flownIn(String label) {
        return changed(pilot, pilotId, label, durationS, ended, more);
    }

    /**
     * When it was over; where nobody said, its duration after it began, which is too late where it was flown faster than
     * time; its begin while it is flown.
     */
    public Instant end() {
        return ended.orElseGet(() -> began.plusMillis(Math.round(durationS.orElse(0) * 1000)));
    }

    /**
     * As it stands in {@code attempt.json}.
     *
     * @throws IOException never
     */
    public byte[] json() throws IOException {
        ObjectNode json = BookJson.object();
        json.put("format", HomeFolder.FORMAT);
        json.put("id", id);
        json.put("pilot", pilot);
        json.put("pilot_id", pilotId);
        json.put("aircraft", aircraft);
        json.put("lesson", lesson);
        json.put("began_utc", began.toString());
        if (durationS.isPresent()) {
            json.put("duration_s", Math.round(durationS.getAsDouble() * 100) / 100.0);
        } else {
            json.putNull("duration_s");
        }
        ended.ifPresent(at -> json.put("ended_utc", at.toString()));
        json.put("program", program);
        json.put("instructor", instructor);
        json.put("device", device);
        json.put("seat", seat);
        json.setAll(more);
        return BookJson.pretty(json);
    }

    /** Reads {@code attempt.json}; the message of the exception says what is wrong with it. */
    static Attempt read(byte[] octets) throws IOException {
        JsonNode json = BookJson.read(octets);
        if (json.path("format").asInt(HomeFolder.FORMAT) > HomeFolder.FORMAT) {
            throw new IOException("it was written by a newer version");
        }
        try {
            return new Attempt(
                    needed(json, "id"),
                    BookJson.textOrEmpty(json, "pilot"),
                    BookJson.textOrEmpty(json, "pilot_id"),
                    BookJson.textOrEmpty(json, "aircraft"),
                    BookJson.textOrEmpty(json, "lesson"),
                    Instant.parse(needed(json, "began_utc")),
                    BookJson.number(json, "duration_s"),
                    BookJson.text(json, "ended_utc").map(Instant::parse),
                    BookJson.textOrEmpty(json, "program"),
                    BookJson.textOrEmpty(json, "instructor"),
                    BookJson.textOrEmpty(json, "device"),
                    BookJson.textOrEmpty(json, "seat"),
                    (ObjectNode) json);
        } catch (DateTimeException | IllegalArgumentException e) {
            throw new IOException(e.getMessage(), e);
        }
    }

    private static String needed(JsonNode json, String name) throws IOException {
        Optional<String> text = BookJson.text(json, name);
        if (text.isEmpty()) {
            throw new IOException("it has no \"" + name + "\"");
        }
        return text.get();
    }
}
