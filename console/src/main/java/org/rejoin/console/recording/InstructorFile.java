package org.rejoin.console.recording;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;

/**
 * What the instructor said, heard and wrote in a flight, beside its datagrams: {@code spoken.jsonl} with the clearances,
 * {@code readbacks.jsonl} with how they were read back, {@code remarks.jsonl} with the remarks. Each line is on the disk before the next is written, so that a debrief gives the same
 * flight even after a crash.
 */
public final class InstructorFile {

    private static final ObjectMapper JSON = new ObjectMapper();
    static final String SPOKEN = "spoken.jsonl";
    static final String REMARKS = "remarks.jsonl";
    static final String READBACKS = "readbacks.jsonl";

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
     * How a clearance was read back, as the instructor heard it or as it was typed.
     *
     * @param elapsedS when, seconds since the first sample
     * @param seat label of the seat's key
     * @param heard what was read back, typed; empty text where the elements were tapped
     * @param elements of the clearance, each with its verdict
     */
    public record ReadBack(double elapsedS, String seat, String heard, List<Element> elements) {
        /** Copies the list. */
        public ReadBack {
            elements = List.copyOf(elements);
        }

        /**
         * One element.
         *
         * @param what it is, as heading or altitude
         * @param cleared in ATC's words
         * @param verdict right, wrong or missing
         */
        public record Element(String what, String cleared, String verdict) {}
    }

    /**
     * All that was said and written.
     *
     * @param spoken in the order issued
     * @param remarks in the order made
     */
    public record Said(List<Spoken> spoken, List<Remark> remarks) {

        /** Nothing was. */
        public static final Said NOTHING = new Said(List.of(), List.of());

        /** Copies the lists. */
        public Said {
            spoken = List.copyOf(spoken);
            remarks = List.copyOf(remarks);
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
                            .filter(each -> each.seat().equals(seat) || each.seat().isEmpty())
                            .toList());
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
        ArrayNode elements = line.putArray("elements");
        readback.elements()
                .forEach(each -> elements.addObject()
                        .put("what", each.what())
                        .put("cleared", each.cleared())
                        .put("verdict", each.verdict()));
        append(READBACKS, line);
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
        return new Said(spoken(), remarks());
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
