package org.rejoin.console.recording;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import java.util.stream.Stream;

import org.rejoin.bridge.clearance.Readback;
import org.rejoin.bridge.flight.FlightEvent;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;

/**
 * What the instructor said, heard and wrote in a flight, beside its datagrams: {@code spoken.jsonl} with the clearances,
 * {@code readbacks.jsonl} with how they were read back, {@code again.jsonl} with what was asked to be said again, {@code
 * remarks.jsonl} with the remarks. Each line is on the disk before the next is written, so that a debrief gives the same
 * flight even after a crash.
 */
public final class InstructorFile {

    private static final ObjectMapper JSON = new ObjectMapper();
    static final String SPOKEN = "spoken.jsonl";
    static final String REMARKS = "remarks.jsonl";
    static final String READBACKS = "readbacks.jsonl";
    static final String AGAIN = "again.jsonl";

    private static final int MOST_SOUNDS = 100;

    private final Path directory;

    /**
     * A clearance issued in flight.
     *
     * @param elapsedS time of the sample it was issued at, seconds since the first
     * @param seat label of the seat's key
     * @param say in ATC's words
     * @param altitudeFt assigned with it, feet; empty to take the one in the words
     */
    public record Spoken(double elapsedS, String seat, String say, OptionalDouble altitudeFt) {}

    /**
     * A remark.
     *
     * @param elapsedS moment it is about, seconds since the first sample
     * @param seat label of the seat's key; empty for one that was made after the flight
     * @param text free
     */
    public record Remark(double elapsedS, String seat, String text) {}

    /**
     * The pilot asked to hear a clearance again.
     *
     * @param elapsedS when, seconds since the first sample
     * @param seat label of the seat's key
     * @param number of the clearance, 1 for the first issued
     */
    public record Again(double elapsedS, String seat, int number) {

        /**
         * As the flight's record tells it.
         *
         * @return the event
         */
        public FlightEvent event() {
            return new FlightEvent.SaidAgain(elapsedS, number);
        }
    }

    /**
     * The sound of a readback.
     *
     * @param clearance 1 for the first issued
     * @param wav file
     */
    public record Sound(int clearance, byte[] wav) {}

    /**
     * How a clearance was read back.
     *
     * @param elapsedS when, seconds since the first sample
     * @param seat label of the seat's key
     * @param heard what was read back, in words; empty text where the elements were tapped
     * @param talk of which clearance, how and when it came
     * @param elements of the clearance, each with its verdict
     */
    public record ReadBack(double elapsedS, String seat, String heard, Talk talk, List<Element> elements) {
        /** Copies the list. */
        public ReadBack {
            elements = List.copyOf(elements);
        }

        /**
         * How a readback came.
         *
         * @param number of the clearance, 1 for the first issued; 0 in recordings of before it was kept
         * @param how heard, tapped, typed, or marked where the instructor changed the marks of one
         * @param recognised what the recogniser heard; empty text where none listened
         * @param issuedS when the clearance was issued, seconds since the first sample; empty where not known
         * @param beganS when the pilot began to talk, likewise
         * @param endedS when he ended, likewise
         */
        public record Talk(
                int number,
                String how,
                String recognised,
                OptionalDouble issuedS,
                OptionalDouble beganS,
                OptionalDouble endedS) {}

        /**
         * One element.
         *
         * @param what it is, as heading or altitude
         * @param cleared in ATC's words
         * @param found as read back, in ATC's words; empty text where missing or not known
         * @param verdict right, wrong, missing or unclear
         */
        public record Element(String what, String cleared, String found, String verdict) {}

        /**
         * What it is worth as a whole.
         *
         * @return right, wrong or unclear
         */
        public Readback.Outcome outcome() {
            return Readback.outcome(elements.stream()
                    .map(each ->
                            new Readback.Element(each.what(), verdict(each.verdict()), each.cleared(), each.found()))
                    .toList());
        }

        private static Readback.Verdict verdict(String word) {
            return switch (word) {
                case "right" -> Readback.Verdict.RIGHT;
                case "missing" -> Readback.Verdict.MISSING;
                case "unclear" -> Readback.Verdict.UNCLEAR;
                default -> Readback.Verdict.WRONG;
            };
        }

        /**
         * As the flight's record tells it.
         *
         * @return the event
         */
        public FlightEvent event() {
            return new FlightEvent.ReadBack(
                    elapsedS,
                    talk.number(),
                    talk.how(),
                    outcome().name().toLowerCase(Locale.ROOT),
                    elements.stream()
                            .map(each -> each.what() + " " + each.verdict())
                            .collect(Collectors.joining(", ")),
                    between(talk.issuedS(), talk.beganS()),
                    between(talk.beganS(), talk.endedS()));
        }

        private static OptionalDouble between(OptionalDouble from, OptionalDouble to) {
            return from.isPresent() && to.isPresent() && to.getAsDouble() >= from.getAsDouble()
                    ? OptionalDouble.of(to.getAsDouble() - from.getAsDouble())
                    : OptionalDouble.empty();
        }
    }

    /**
     * All that was said and written.
     *
     * @param spoken in the order issued
     * @param remarks in the order made
     * @param readbacks in the order made
     * @param again in the order asked
     */
    public record Said(List<Spoken> spoken, List<Remark> remarks, List<ReadBack> readbacks, List<Again> again) {

        /** Nothing was. */
        public static final Said NOTHING = new Said(List.of(), List.of());

        /** Copies the lists. */
        public Said {
            spoken = List.copyOf(spoken);
            remarks = List.copyOf(remarks);
            readbacks = List.copyOf(readbacks);
            again = List.copyOf(again);
        }

        /**
         * Nothing was read back.
         *
         * @param spoken in the order issued
         * @param remarks in the order made
         */
        public Said(List<Spoken> spoken, List<Remark> remarks) {
            this(spoken, remarks, List.of(), List.of());
        }

        /**
         * What was said on the radio, as the flight's record tells it.
         *
         * @return in order of time
         */
        public List<FlightEvent> talk() {
            return Stream.concat(
                            again.stream().map(Again::event), readbacks.stream().map(ReadBack::event))
                    .sorted(Comparator.comparingDouble(FlightEvent::timeS))
                    .toList();
        }

        /**
         * The part for one seat.
         *
         * @param seat label of the seat's key
         * @return likewise in order
         */
        public Said to(String seat) {
            return new Said(
                    spoken.stream().filter(each -> each.seat().equals(seat)).toList(),
                    remarks.stream()
                            .filter(each ->
                                    each.seat().equals(seat) || each.seat().isEmpty())
                            .toList(),
                    readbacks.stream().filter(each -> each.seat().equals(seat)).toList(),
                    again.stream().filter(each -> each.seat().equals(seat)).toList());
        }
    }

    /**
     * The files of a recording.
     *
     * @param directory of the recording
     */
    public InstructorFile(Path directory) {
        this.directory = directory;
    }

    /**
     * Keeps a clearance; returns when it is on the disk.
     *
     * @param spoken to keep
     * @throws IOException if it cannot be written
     */
    public void keep(Spoken spoken) throws IOException {
        ObjectNode line = JSON.createObjectNode();
        line.put("elapsed_s", spoken.elapsedS());
        line.put("seat", spoken.seat());
        line.put("say", spoken.say());
        spoken.altitudeFt().ifPresent(feet -> line.put("altitude_ft", feet));
        append(SPOKEN, line);
    }

    /**
     * Keeps a remark; returns when it is on the disk.
     *
     * @param remark to keep
     * @throws IOException if it cannot be written
     */
    public void keep(Remark remark) throws IOException {
        ObjectNode line = JSON.createObjectNode();
        line.put("elapsed_s", remark.elapsedS());
        line.put("seat", remark.seat());
        line.put("text", remark.text());
        append(REMARKS, line);
    }

    /**
     * Keeps how a clearance was read back; returns when it is on the disk.
     *
     * @param readback to keep
     * @throws IOException if it cannot be written
     */
    public void keep(ReadBack readback) throws IOException {
        ObjectNode line = JSON.createObjectNode();
        line.put("elapsed_s", readback.elapsedS());
        line.put("seat", readback.seat());
        line.put("heard", readback.heard());
        ReadBack.Talk talk = readback.talk();
        line.put("clearance", talk.number());
        line.put("how", talk.how());
        if (!talk.recognised().isEmpty()) {
            line.put("recognised", talk.recognised());
        }
        talk.issuedS().ifPresent(time -> line.put("issued_s", time));
        talk.beganS().ifPresent(time -> line.put("began_s", time));
        talk.endedS().ifPresent(time -> line.put("ended_s", time));
        ArrayNode elements = line.putArray("elements");
        readback.elements()
                .forEach(each -> elements.addObject()
                        .put("what", each.what())
                        .put("cleared", each.cleared())
                        .put("found", each.found())
                        .put("verdict", each.verdict())
                        .put("must", Readback.isDue(each.what())));
        append(READBACKS, line);
    }

    /**
     * Keeps that a clearance was asked for again; returns when it is on the disk.
     *
     * @param again to keep
     * @throws IOException if it cannot be written
     */
    public void keep(Again again) throws IOException {
        ObjectNode line = JSON.createObjectNode();
        line.put("elapsed_s", again.elapsedS());
        line.put("seat", again.seat());
        line.put("clearance", again.number());
        append(AGAIN, line);
    }

    /**
     * Keeps the sound of a readback, as {@code readback-1-1.wav}, the clearance and the next number that is free; returns when
     * it is on the disk.
     *
     * @param sound to keep
     * @throws IOException if it cannot be written
     */
    public void keep(Sound sound) throws IOException {
        for (int n = 1; n <= MOST_SOUNDS; n++) {
            Path file = directory.resolve("readback-" + sound.clearance() + "-" + n + ".wav");
            try (FileChannel channel = FileChannel.open(
                    file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE, LinkOption.NOFOLLOW_LINKS)) {
                ByteBuffer buffer = ByteBuffer.wrap(sound.wav());
                while (buffer.hasRemaining()) {
                    channel.write(buffer);
                }
                channel.force(true);
                return;
            } catch (FileAlreadyExistsException e) {
                // Another readback of the same clearance.
            }
        }
        throw new IOException("this clearance was read back " + MOST_SOUNDS + " times already");
    }

    private void append(String name, ObjectNode line) throws IOException {
        byte[] octets = (JSON.writeValueAsString(line) + "\n").getBytes(StandardCharsets.UTF_8);
        try (FileChannel channel = FileChannel.open(
                directory.resolve(name),
                StandardOpenOption.CREATE,
                StandardOpenOption.READ,
                StandardOpenOption.WRITE,
                LinkOption.NOFOLLOW_LINKS)) {
            channel.position(endOfLastLine(channel));
            ByteBuffer buffer = ByteBuffer.wrap(octets);
            while (buffer.hasRemaining()) {
                channel.write(buffer);
            }
            channel.truncate(channel.position());
            channel.force(true);
        }
    }

    /** A line that was torn by a crash is written over; it was left out before, too. */
    private static long endOfLastLine(FileChannel channel) throws IOException {
        ByteBuffer octet = ByteBuffer.allocate(1);
        for (long end = channel.size(); end > 0; end--) {
            octet.clear();
            if (channel.read(octet, end - 1) == 1 && octet.get(0) == '\n') {
                return end;
            }
        }
        return 0;
    }

    /**
     * All that was kept.
     *
     * @return a last line that was torn is left out
     * @throws IOException if it cannot be read; the message names the line
     */
    public Said read() throws IOException {
        return new Said(spoken(), remarks(), readbacks(), again());
    }

    private List<Spoken> spoken() throws IOException {
        List<Spoken> all = new ArrayList<>();
        for (JsonNode line : lines(SPOKEN, "say")) {
            JsonNode feet = line.path("altitude_ft");
            all.add(new Spoken(
                    line.path("elapsed_s").asDouble(),
                    line.path("seat").asText(),
                    line.path("say").asText(),
                    feet.isNumber() ? OptionalDouble.of(feet.asDouble()) : OptionalDouble.empty()));
        }
        return all;
    }

    private List<Remark> remarks() throws IOException {
        List<Remark> all = new ArrayList<>();
        for (JsonNode line : lines(REMARKS, "text")) {
            all.add(new Remark(
                    line.path("elapsed_s").asDouble(),
                    line.path("seat").asText(),
                    line.path("text").asText()));
        }
        return all;
    }

    private List<ReadBack> readbacks() throws IOException {
        List<ReadBack> all = new ArrayList<>();
        for (JsonNode line : lines(READBACKS, "heard")) {
            List<ReadBack.Element> elements = new ArrayList<>();
            for (JsonNode each : line.path("elements")) {
                elements.add(new ReadBack.Element(
                        each.path("what").asText(),
                        each.path("cleared").asText(),
                        each.path("found").asText(""),
                        each.path("verdict").asText()));
            }
            String heard = line.path("heard").asText();
            all.add(new ReadBack(
                    line.path("elapsed_s").asDouble(),
                    line.path("seat").asText(),
                    heard,
                    new ReadBack.Talk(
                            line.path("clearance").asInt(0),
                            line.path("how").asText(heard.isEmpty() ? "tapped" : "typed"),
                            line.path("recognised").asText(""),
                            time(line, "issued_s"),
                            time(line, "began_s"),
                            time(line, "ended_s")),
                    elements));
        }
        return all;
    }

    private static OptionalDouble time(JsonNode line, String name) {
        JsonNode time = line.path(name);
        return time.isNumber() && Double.isFinite(time.asDouble())
                ? OptionalDouble.of(time.asDouble())
                : OptionalDouble.empty();
    }

    private List<Again> again() throws IOException {
        List<Again> all = new ArrayList<>();
        for (JsonNode line : lines(AGAIN, "seat")) {
            all.add(new Again(
                    line.path("elapsed_s").asDouble(),
                    line.path("seat").asText(),
                    line.path("clearance").asInt(0)));
        }
        return all;
    }

    private List<JsonNode> lines(String name, String text) throws IOException {
        Path file = directory.resolve(name);
        if (!Files.isRegularFile(file)) {
            return List.of();
        }
        String content = new String(Files.readAllBytes(file), StandardCharsets.UTF_8);
        // What has no line end was torn.
        String whole = content.substring(0, content.lastIndexOf('\n') + 1);
        List<JsonNode> nodes = new ArrayList<>();
        int number = 0;
        for (String line : whole.lines().toList()) {
            number++;
            JsonNode node = parsed(line)
                    .filter(each -> each.path("elapsed_s").isNumber()
                            && Double.isFinite(each.path("elapsed_s").asDouble())
                            && each.path("elapsed_s").asDouble() >= 0
                            && each.path("seat").isTextual()
                            && each.path(text).isTextual())
                    .orElse(null);
            if (node == null) {
                throw new IOException(file + " line " + number + " is not {\"elapsed_s\": number, \"seat\": text, \""
                        + text + "\": text}");
            }
            nodes.add(node);
        }
        return nodes;
    }

    private static Optional<JsonNode> parsed(String line) {
        try {
            return Optional.ofNullable(JSON.readTree(line));
        } catch (JsonProcessingException e) {
            return Optional.empty();
        }
    }
}
