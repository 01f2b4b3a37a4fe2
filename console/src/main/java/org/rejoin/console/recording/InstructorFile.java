package org.rejoin.console.recording;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.bridge.flight.FlightEvent;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;

/**
 * What the instructor said, heard and wrote in a flight, beside its datagrams: {@code spoken.jsonl} with the clearances,
 * {@code readbacks.jsonl} with how they were read back, {@code again.jsonl} with what was asked to be said again, {@code
 * remarks.jsonl} with the remarks. Each line is on the disk before the next is written, so that a debrief gives the same
 * flight even after a crash.
 */
public final class InstructorFile {

    static final String SPOKEN = "spoken.jsonl";
    static final String REMARKS = "remarks.jsonl";
    static final String READBACKS = "readbacks.jsonl";
    static final String AGAIN = "again.jsonl";

    private static final int MOST_SOUNDS = 100;

    private final Path directory;

    /** What is kept beside a flight, one at a time. */
    public sealed interface Note permits Spoken, Remark, Again, Sound, ReadBack {

        /** {@return what is said where it cannot be kept, as "the remark cannot be kept"; the reason comes after it} */
        String lost();

        void writeTo(InstructorFile file) throws IOException;
    }

    /**
     * A clearance issued in flight.
     *
     * @param elapsedS time of the sample it was issued at, seconds since the first
     * @param say in ATC's words
     * @param altitudeFt assigned with it, feet; empty to take the one in the words
     */
    public record Spoken(double elapsedS, String seat, String say, OptionalDouble altitudeFt) implements Note {
        @Override
        public String lost() {
            return "the clearance cannot be kept, so a debrief will not have it";
        }

        @Override
        public void writeTo(InstructorFile file) throws IOException {
            ObjectNode line = KeptLines.line(elapsedS, seat).put("say", say);
            altitudeFt.ifPresent(feet -> line.put("altitude_ft", feet));
            file.file(SPOKEN).append(line);
        }
    }

    /**
     * A remark.
     *
     * @param elapsedS moment it is about, seconds since the first sample
     * @param seat label of the seat's key; empty for one that was made after the flight
     */
    public record Remark(double elapsedS, String seat, String text) implements Note {
        @Override
        public String lost() {
            return "the remark cannot be kept";
        }

        @Override
        public void writeTo(InstructorFile file) throws IOException {
            file.file(REMARKS).append(KeptLines.line(elapsedS, seat).put("text", text));
        }
    }

    /**
     * The pilot asked to hear a clearance again.
     *
     * @param elapsedS when, seconds since the first sample
     * @param number of the clearance, 1 for the first issued
     */
    public record Again(double elapsedS, String seat, int number) implements Note {

        /** As the flight's record tells it. */
        public FlightEvent event() {
            return new FlightEvent.SaidAgain(elapsedS, number);
        }

        @Override
        public String lost() {
            return "what was asked for again cannot be kept";
        }

        @Override
        public void writeTo(InstructorFile file) throws IOException {
            file.file(AGAIN).append(KeptLines.line(elapsedS, seat).put("clearance", number));
        }
    }

    /**
     * The sound of a readback, kept as {@code readback-1-1.wav}: the clearance and the next number that is free.
     *
     * @param clearance 1 for the first issued
     */
    public record Sound(int clearance, byte[] wav) implements Note {
        @Override
        public String lost() {
            return "the sound cannot be kept";
        }

        @Override
        public void writeTo(InstructorFile file) throws IOException {
            for (int n = 1; n <= MOST_SOUNDS; n++) {
                Path sound = file.directory.resolve("readback-" + clearance + "-" + n + ".wav");
                try (FileChannel channel = FileChannel.open(
                        sound, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE, LinkOption.NOFOLLOW_LINKS)) {
                    Durable.writeAll(channel, wav);
                    return;
                } catch (FileAlreadyExistsException e) {
                    // Another readback of the same clearance.
                }
            }
            throw new IllegalArgumentException("this clearance was read back " + MOST_SOUNDS + " times already");
        }
    }

    public InstructorFile(Path directory) {
        this.directory = directory;
    }

    KeptLines file(String name) {
        return new KeptLines(directory.resolve(name));
    }

    /** Keeps it; returns when it is on the disk. */
    public void keep(Note note) throws IOException {
        note.writeTo(this);
    }

    /**
     * All that was kept.
     *
     * @return a last line that was torn is left out
     * @throws IOException if it cannot be read; the message names the line
     */
    public Said read() throws IOException {
        return new Said(
                all(SPOKEN, "say", InstructorFile::spoken),
                all(
                        REMARKS,
                        "text",
                        (line, atS, seat) ->
                                new Remark(atS, seat, line.path("text").asText())),
                all(READBACKS, "heard", InstructorFile::readback),
                all(
                        AGAIN,
                        "seat",
                        (line, atS, seat) ->
                                new Again(atS, seat, line.path("clearance").asInt(0))));
    }

    /** Makes what was kept of its line. */
    private interface Made<T> {
        T of(JsonNode line, double elapsedS, String seat);
    }

    private <T> List<T> all(String name, String member, Made<T> made) throws IOException {
        List<T> all = new ArrayList<>();
        for (JsonNode line : file(name).read(member)) {
            all.add(made.of(
                    line, line.path("elapsed_s").asDouble(), line.path("seat").asText()));
        }
        return all;
    }

    private static Spoken spoken(JsonNode line, double elapsedS, String seat) {
        JsonNode feet = line.path("altitude_ft");
        return new Spoken(
                elapsedS,
                seat,
                line.path("say").asText(),
                feet.isNumber() ? OptionalDouble.of(feet.asDouble()) : OptionalDouble.empty());
    }

    private static ReadBack readback(JsonNode line, double elapsedS, String seat) {
        List<ReadBack.Element> elements = new ArrayList<>();
        for (JsonNode each : line.path("elements")) {
            elements.add(new ReadBack.Element(
                    each.path("what").asText(),
                    each.path("cleared").asText(),
                    each.path("found").asText(""),
                    each.path("verdict").asText()));
        }
        String heard = line.path("heard").asText();
        ReadBack.Talk talk = new ReadBack.Talk(
                line.path("clearance").asInt(0),
                line.path("how").asText(heard.isEmpty() ? "tapped" : "typed"),
                line.path("recognised").asText(""),
                time(line, "issued_s"),
                time(line, "began_s"),
                time(line, "ended_s"));
        return new ReadBack(elapsedS, seat, heard, talk, elements);
    }

    private static OptionalDouble time(JsonNode line, String name) {
        JsonNode time = line.path(name);
        return time.isNumber() && Double.isFinite(time.asDouble())
                ? OptionalDouble.of(time.asDouble())
                : OptionalDouble.empty();
    }
}
