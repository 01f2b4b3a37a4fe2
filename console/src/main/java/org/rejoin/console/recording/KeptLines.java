package org.rejoin.console.recording;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;

/**
 * What was said in a flight, an object a line, each with its time and its seat. A line is on the disk before the next is
 * written; one that a crash tore is written over.
 *
 * @param file one of a recording
 */
record KeptLines(Path file) {

    private static final ObjectMapper JSON = new ObjectMapper();

    /** Only what can be read again: a line with another time would make the whole recording unreadable. */
    static ObjectNode line(double elapsedS, String seat) {
        if (!isTime(elapsedS)) {
            throw new IllegalArgumentException(
                    "the time " + elapsedS + " s is none of the flight: seconds since its first sample, 0 or more");
        }
        return JSON.createObjectNode().put("elapsed_s", elapsedS).put("seat", seat);
    }

    private static boolean isTime(double elapsedS) {
        return elapsedS >= 0 && Double.isFinite(elapsedS);
    }

    /** Adds a line; returns when it is on the disk. */
    void append(ObjectNode line) throws IOException {
        Durable.add(file, JSON.writeValueAsString(line));
    }

    /**
     * The lines; one that was torn is left out.
     *
     * @param text the member, beside the time and the seat, that a line must have
     * @throws IOException if it cannot be read, or a line is another; one line
     */
    List<JsonNode> read(String text) throws IOException {
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
                            && isTime(each.path("elapsed_s").asDouble())
                            && each.path("seat").isTextual()
                            && each.path(text).isTextual())
                    .orElse(null);
            if (node == null) {
                throw new IOException(file + " line " + number + " is not {\"elapsed_s\": 0 or more, \"seat\": text, \""
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
