package org.rejoin.console.book;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.security.SecureRandom;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

import org.rejoin.console.recording.Durable;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;

/** The pilots known here: {@code roster.json}. */
@SuppressWarnings("try") // a lock is held, not used
public final class Roster {

    private static final int LONGEST = 80;

    /** What the hearing learnt of his voice. */
    private static final String VOICE = "voice";

    private final HomeFolder home;

    Roster(HomeFolder home) {
        this.home = home;
    }

    /** A pilot, and what was learnt of his voice; empty where it never was. */
    private record Line(Pilot pilot, Optional<String> voice) {

        boolean isOf(Pilot other) {
            return pilot.id().equals(other.id());
        }
    }

    /** All pilots in the order they were added. */
    public List<Pilot> pilots() throws IOException {
        return lines().stream().map(Line::pilot).toList();
    }

    private List<Line> lines() throws IOException {
        try {
            List<Line> lines = new ArrayList<>();
            for (JsonNode each :
                    BookJson.read(Files.readAllBytes(home.roster())).path("pilots")) {
                Optional<String> id = BookJson.text(each, "id");
                Optional<String> name = BookJson.text(each, "name");
                if (id.isEmpty() || name.isEmpty()) {
                    throw new IOException("one of its pilots has no \"id\" or no \"name\"");
                }
                lines.add(new Line(new Pilot(id.get(), name.get()), BookJson.text(each, VOICE)));
            }
            return lines;
        } catch (NoSuchFileException e) {
            return List.of();
        } catch (IOException e) {
            throw new IOException(
                    home.roster() + " cannot be read: " + Durable.why(e)
                            + "; mend it, or move it away: the attempts keep their names",
                    e);
        }
    }

    /** All pilots by identifier. */
    public Map<String, Pilot> byId() throws IOException {
        return pilots().stream().collect(Collectors.toUnmodifiableMap(Pilot::id, each -> each, (first, next) -> first));
    }

    /** The same; none where the roster cannot be read: attempts keep their names. */
    Map<String, Pilot> byIdIfReadable() {
        try {
            return byId();
        } catch (IOException e) {
            return Map.of();
        }
    }

    /** An attempt under the name that its pilot has now; under its own where none of these pilots flew it. */
    static Attempt calledNow(Attempt attempt, Map<String, Pilot> pilots) {
        Pilot now = pilots.get(attempt.pilotId());
        return now == null ? attempt : attempt.flownBy(now);
    }

    /** A pilot by name or identifier, whatever the case; empty if the roster does not know him. */
    public Optional<Pilot> find(String nameOrId) throws IOException {
        String folded = AttemptIndex.folded(nameOrId.strip());
        return pilots().stream()
                .filter(each -> AttemptIndex.folded(each.name()).equals(folded)
                        || each.id().equals(folded))
                .findFirst();
    }

    /**
     * A pilot, put into the roster if he is not in it; his name as typed has 1 to 80 characters, none of them a
     * control.
     *
     * @throws IOException if the name will not do, or the roster cannot be read or written; one line
     */
    public Pilot findOrAdd(String name) throws IOException {
        String typed = typed(name);
        try (HomeLock ignored = home.change("changing the roster")) {
            Optional<Pilot> known = find(typed);
            if (known.isPresent()) {
                return known.get();
            }
            // Perhaps of a page that knew him before he was forgotten.
            noIdentifier(typed, "the roster has no pilot " + typed + " any more, and ");
            byte[] id = new byte[4];
            new SecureRandom().nextBytes(id);
            Pilot fresh = new Pilot(HexFormat.of().formatHex(id), typed);
            write(Stream.concat(lines().stream(), Stream.of(new Line(fresh, Optional.empty()))));
            return fresh;
        }
    }

    private static String typed(String name) throws IOException {
        String typed = name.strip();
        if (typed.length() > LONGEST || !typed.matches("[^\\p{Cc}\\p{Cf}\\p{Zl}\\p{Zp}]+")) {
            throw new IOException("a pilot's name has 1 to " + LONGEST + " characters and no line breaks");
        }
        return typed;
    }

    private static void noIdentifier(String typed, String before) throws IOException {
        if (typed.matches("[0-9a-f]{8}")) {
            throw new IOException(before
                    + "a name of eight hexadecimal digits would look like an identifier: give a name or nickname");
        }
    }

    /**
     * The pilot as he would be called by another name.
     *
     * @throws IOException if the name will not do, or another pilot has it; one line
     */
    Pilot called(Pilot pilot, String name) throws IOException {
        String typed = typed(name);
        noIdentifier(typed, "");
        Optional<Pilot> other = find(typed).filter(each -> !each.id().equals(pilot.id()));
        if (other.isPresent()) {
            throw new IOException("another pilot is called " + other.get().name()
                    + " already: give a name that tells the two apart, as with a surname or an initial");
        }
        return new Pilot(pilot.id(), typed);
    }

    /** A pilot under a name of {@link #called}. The caller holds the lock. */
    void rename(Pilot pilot) throws IOException {
        write(lines().stream().map(each -> each.isOf(pilot) ? new Line(pilot, each.voice()) : each));
    }

    /**
     * What was learnt of a pilot's voice, a text of {@code console.speech.PilotVoice}; empty where his voice was never
     * learnt.
     */
    public Optional<String> voice(Pilot pilot) throws IOException {
        return lines().stream().filter(each -> each.isOf(pilot)).findFirst().flatMap(Line::voice);
    }

    /** Keeps it. */
    public void keepVoice(Pilot pilot, String voice) throws IOException {
        try (HomeLock ignored = home.change("changing the roster")) {
            write(lines().stream().map(each -> each.isOf(pilot) ? new Line(each.pilot(), Optional.of(voice)) : each));
        }
    }

    /** The caller holds the lock. */
    void remove(Pilot pilot) throws IOException {
        write(lines().stream().filter(each -> !each.isOf(pilot)));
    }

    private void write(Stream<Line> lines) throws IOException {
        ObjectNode json = BookJson.object();
        ArrayNode list = json.putArray("pilots");
        lines.forEach(each -> {
            ObjectNode pilot = list.addObject()
                    .put("id", each.pilot().id())
                    .put("name", each.pilot().name());
            each.voice().ifPresent(voice -> pilot.put(VOICE, voice));
        });
        Durable.write(home.roster(), BookJson.pretty(json));
    }
}
