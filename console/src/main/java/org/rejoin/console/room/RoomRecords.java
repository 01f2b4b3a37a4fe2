package org.rejoin.console.room;

import java.io.IOException;
import java.nio.file.Files;
import java.security.SecureRandom;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Consumer;

import org.rejoin.bridge.feed.AircraftKey;
import org.rejoin.console.book.Attempt;
import org.rejoin.console.book.AttemptFolder;
import org.rejoin.console.book.AttemptQuery;
import org.rejoin.console.book.AttemptRow;
import org.rejoin.console.book.HomeLock;
import org.rejoin.console.book.Pilot;
import org.rejoin.console.book.RecordBook;
import org.rejoin.console.book.SeatsKept;
import org.rejoin.console.flight.Debrief;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.page.PageServer;
import org.rejoin.console.speech.PilotVoice;
import org.rejoin.console.words.CleanText;
import org.rejoin.console.words.Words;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;

/**
 * What the room keeps: attempts, pilots, and how it is set up (names of seats, who sits there, who instructs, what pilots see). May be
 * used by several threads; each waits for the other.
 */
@SuppressWarnings("try") // a lock is held, not used
public final class RoomRecords {

    private static final int MOST_AGAIN = 4;
    private static final int LONGEST_NAME = 40;

    /** A day's teaching: who sat at a seat for longer ago has gone home (common practice, no source). */
    private static final Duration SITS_FOR = Duration.ofHours(12);

    /** Grades what was recorded, the same way whether its flight ended, was ended, or the program was. */
    public interface Grading {

        /** An attempt flown again. */
        record Again(Lesson lesson, Debrief debrief, String report) {

            /** What a page is told of it before its flight. */
            PageServer.Setting setting() {
                return new PageServer.Setting(lesson, debrief.set(), debrief::date, Words.CAUTION, false);
            }
        }

        /** Ends an attempt: writes log, grade and duration, or says in one line why it cannot be graded. */
        void end(AttemptFolder folder) throws Exception;

        /** Flies an attempt again, or says in one line why it cannot be graded. */
        Again again(AttemptFolder folder) throws Exception;
    }

    private final RecordBook book;
    private final Grading grading;
    private final String program;
    private final Consumer<String> warn;
    private final SeatsKept seats;
    /** Guarded by itself: a flight must not wait for a grade to ask for a name. */
    private final ObjectNode kept;

    /** Who sat where when the room was closed, by what the seat is known by; guarded by {@code kept}. */
    private final Map<String, Sat> sat = new HashMap<>();

    /** Who sat at a seat, and what was flown there last; an empty text where that is not known. */
    record Sat(Pilot pilot, String lesson) {}

    private volatile boolean shown;
    /** The roster as it was last looked at, by identifier. */
    private volatile Map<String, Pilot> known = Map.of();

    private final Object looking = new Object();
    private volatile List<Attempt> interrupted = List.of();

    private final Map<String, Grading.Again> again = new LinkedHashMap<>(8, 0.75f, true);

    /**
     * The records of a data folder.
     *
     * @param program name and version
     * @param warn takes one line
     */
    public RoomRecords(RecordBook book, Grading grading, String program, Consumer<String> warn) throws IOException {
        this.book = book;
        this.grading = grading;
        this.program = program;
        this.warn = warn;
        this.seats = new SeatsKept(book.home());
        this.kept = seats.read();
        this.shown = kept.path("shown").asBoolean();
        this.known = book.roster().byId();
        sat(Instant.now());
    }

    private void sat(Instant now) throws IOException {
        Set<Map.Entry<String, JsonNode>> seats = kept.path("pilots").properties();
        Map<String, Pilot> roster = seats.isEmpty() ? Map.of() : book.roster().byId();
        for (Map.Entry<String, JsonNode> each : seats) {
            Instant since =
                    Instant.ofEpochSecond(each.getValue().path("since_s").asLong());
            if (Duration.between(since, now).compareTo(SITS_FOR) < 0) {
                Pilot pilot = roster.get(each.getValue().path("id").asText());
                if (pilot != null) {
                    sat.put(
                            each.getKey(),
                            new Sat(pilot, each.getValue().path("lesson").asText()));
                }
            }
        }
    }

    /** What a seat is called: as it was named, else as it calls itself, else by number. */
    String nameOf(AircraftKey key, String marking, int number) {
        String named;
        synchronized (kept) {
            named = kept.path("seats").path(who(key, marking)).asText("");
        }
        return named.isEmpty() ? ownName(marking, number) : named;
    }

    /** What a seat calls itself, else its number. */
    static String ownName(String marking, int number) {
        String own =
                marking.replaceAll("[^\\p{IsAlphabetic}\\p{IsDigit}._ -]+", " ").strip();
        return own.isEmpty() ? "Seat " + number : own.substring(0, Math.min(LONGEST_NAME, own.length()));
    }

    /** By callsign, or else by address: the port of a simulator changes with each start. */
    static String who(AircraftKey key, String marking) {
        return marking.isBlank() ? key.sender().getAddress().getHostAddress() + " " + key.aircraft() : marking.strip();
    }

    /** Keeps what a seat is called; nothing where it shares what it is known by with another, which would be called so later. */
    void name(AircraftKey key, String marking, Optional<String> name) throws IOException {
        synchronized (kept) {
            ObjectNode seats = kept.withObject("/seats");
            name.ifPresentOrElse(given -> seats.put(who(key, marking), given), () -> seats.remove(who(key, marking)));
            keep();
        }
    }

    /** Who sat there when the room was closed, a few hours ago at most; told once, for two may have one callsign. */
    Optional<Sat> sat(AircraftKey key, String marking) {
        synchronized (kept) {
            return Optional.ofNullable(sat.remove(who(key, marking)));
        }
    }

    /** Keeps who sits there and what is flown, for when the room is opened again. */
    void sits(AircraftKey key, String marking, Optional<Pilot> pilot, String lesson) throws IOException {
        synchronized (kept) {
            ObjectNode pilots = kept.withObject("/pilots");
            String seat = who(key, marking);
            if (pilot.isPresent()) {
                pilots.putObject(seat)
                        .put("id", pilot.get().id())
                        .put("lesson", lesson)
                        .put("since_s", Instant.now().getEpochSecond());
            } else if (pilots.remove(seat) == null) {
                return;
            }
            keep();
        }
    }

    String instructor() {
        synchronized (kept) {
            return kept.path("instructor").asText("");
        }
    }

    /** Keeps who gives the lessons. */
    public void instructor(String name) throws IOException {
        synchronized (kept) {
            kept.put("instructor", CleanText.line(name).strip());
            keep();
        }
    }

    boolean shown() {
        return shown;
    }

    void shown(boolean visible) throws IOException {
        shown = visible;
        synchronized (kept) {
            kept.put("shown", visible);
            keep();
        }
    }

    private void keep() throws IOException {
        seats.write(kept);
    }

    synchronized List<Pilot> pilots() throws IOException {
        return book.roster().pilots();
    }

    synchronized Pilot pilot(String nameOrId) throws IOException {
        Pilot pilot = book.roster().findOrAdd(nameOrId);
        know(pilot);
        return pilot;
    }

    /** Only adds: whoever is missing in the roster is to be found as forgotten. */
    private void know(Pilot pilot) {
        synchronized (looking) {
            Map<String, Pilot> more = new HashMap<>(known);
            more.put(pilot.id(), pilot);
            known = Map.copyOf(more);
        }
    }

    /** Calls a pilot by another name. */
    synchronized RecordBook.Renamed rename(String nameOrId, String name) throws IOException {
        RecordBook.Renamed renamed = book.rename(nameOrId, name);
        letGo();
        know(renamed.pilot());
        return renamed;
    }

    /** A pilot as he is called now; the same where the roster knows him no more. */
    Pilot calledNow(Pilot pilot) {
        return known.getOrDefault(pilot.id(), pilot);
    }

    /** Whether a pilot was in the roster when it was last looked at; does not wait for the disk. */
    boolean knows(String pilotId) {
        return known.containsKey(pilotId);
    }

    /** Identifiers of those who were forgotten, and whether anybody is called otherwise now. */
    record Looked(Set<String> gone, boolean renamed) {}

    /**
     * Looks whether somebody was forgotten or renamed since, as by a command beside the room: who is forgotten sits
     * nowhere any more.
     *
     * @throws IOException if the roster cannot be read, or what is kept of the room not be written; one line
     */
    Looked look() throws IOException {
        Set<String> gone;
        boolean renamed;
        synchronized (looking) {
            gone = new HashSet<>(known.keySet());
            Map<String, Pilot> now = book.roster().byId();
            if (now.isEmpty() && !Files.isDirectory(book.home().place())) {
                return new Looked(Set.of(), false); // a disk that went away forgets nobody
            }
            gone.removeAll(now.keySet());
            renamed = known.values().stream()
                    .anyMatch(each -> !now.getOrDefault(each.id(), each).equals(each));
            known = now;
        }
        if (!gone.isEmpty()) {
            synchronized (kept) {
                sat.values().removeIf(each -> gone.contains(each.pilot().id()));
                boolean sat = false;
                for (String each : gone) {
                    sat |= SeatsKept.leave(kept, each);
                }
                if (sat) {
                    keep();
                }
            }
        }
        return new Looked(gone, renamed);
    }

    /** What was flown again is let go: of attempts that are removed, and under names that are not in use any more. */
    synchronized void letGo() {
        again.clear();
    }

    synchronized Optional<Pilot> find(String nameOrId) throws IOException {
        return book.roster().find(nameOrId);
    }

    /** The name of a pilot, by name or identifier; as given where the roster has neither. */
    String name(String nameOrId) throws IOException {
        return find(nameOrId).map(Pilot::name).orElse(nameOrId);
    }

    /** What was learnt of a pilot's voice; empty where nothing was. */
    Optional<PilotVoice> voice(Pilot pilot) throws IOException {
        return book.roster().voice(pilot).flatMap(PilotVoice::of);
    }

    void keepVoice(Pilot pilot, PilotVoice voice) throws IOException {
        book.roster().keepVoice(pilot, voice.text());
    }

    synchronized AttemptFolder begin(Optional<Pilot> pilot, String aircraft, String lesson) throws IOException {
        Instant now = Instant.now();
        Map<String, Pilot> roster = book.roster().byId(); // he may have been forgotten a moment ago
        Optional<Pilot> flies = pilot.map(Pilot::id).map(roster::get);
        return book.begin(new Attempt(
                Attempt.newId(now, new SecureRandom()),
                flies.map(Pilot::name).orElse(""),
                flies.map(Pilot::id).orElse(""),
                aircraft,
                lesson,
                now,
                OptionalDouble.empty(),
                program,
                instructor(),
                "",
                ""));
    }

    synchronized void discard(AttemptFolder folder) throws IOException {
        if (!folder.isRecorded()) {
            book.discard(folder);
        }
    }

    /** Log, grade, duration; the name of the seat stays. */
    synchronized void end(AttemptFolder folder) throws IOException {
        Attempt before = folder.attempt();
        try {
            grading.end(folder);
        } catch (IOException e) {
            throw e;
        } catch (Exception e) {
            throw new IOException(before.id() + " was recorded and could not be graded: " + e.getMessage(), e);
        }
        Attempt after = folder.attempt();
        if (!before.aircraft().isEmpty() && !before.aircraft().equals(after.aircraft())) {
            folder.keep(after.flownIn(before.aircraft()));
        }
        again.remove(before.id());
    }

    /** Grades the attempts in whose flight the program was ended, and returns them in order of time. */
    public synchronized List<Attempt> endInterrupted() throws IOException {
        List<Attempt> ended = new ArrayList<>();
        for (AttemptRow row : list(AttemptQuery.ALL)) {
            if (row.attempt().durationS().isEmpty()) {
                AttemptFolder folder = book.attempt(row.attempt().id());
                try (HomeLock ignored = folder.flying()) {
                    if (folder.isRecorded()) {
                        end(folder);
                        ended.add(folder.attempt());
                    } else {
                        book.discard(folder);
                    }
                } catch (IOException e) {
                    warn.accept(String.valueOf(e.getMessage()));
                }
            }
        }
        interrupted = List.copyOf(ended);
        return interrupted;
    }

    /** Attempts in whose flight the program was ended before it was opened this time. */
    List<Attempt> interrupted() {
        return interrupted;
    }

    synchronized List<AttemptRow> list(AttemptQuery query) throws IOException {
        return book.list(query, (done, all) -> {}).rows();
    }

    synchronized boolean has(String id) {
        return book.has(id);
    }

    /** Whether neither the roster nor an attempt names somebody so. */
    boolean nobody(String nameOrId) throws IOException {
        return find(nameOrId).isEmpty() && list(AttemptQuery.ALL.of(nameOrId)).isEmpty();
    }

    synchronized AttemptFolder attempt(String id) throws IOException {
        return book.attempt(id);
    }

    /** An attempt flown again; the last few are kept. */
    synchronized Grading.Again again(String id) throws IOException {
        Grading.Again known = again.get(id);
        if (known != null) {
            return known;
        }
        try {
            Grading.Again fresh = grading.again(book.attempt(id));
            again.put(id, fresh);
            if (again.size() > MOST_AGAIN) {
                again.remove(again.keySet().iterator().next());
            }
            return fresh;
        } catch (IOException e) {
            throw e;
        } catch (Exception e) {
            throw new IOException(id + " cannot be flown again: " + e.getMessage(), e);
        }
    }

    /** What was changed of an attempt is read anew. */
    synchronized void forgetAgain(String id) {
        again.remove(id);
    }
}
