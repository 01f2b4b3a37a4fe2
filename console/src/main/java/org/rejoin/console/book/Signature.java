package org.rejoin.console.book;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.format.DateTimeParseException;
import java.time.temporal.ChronoUnit;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;

/**
 * A signature under an attempt: who, when, with what words, and the hashes of what was signed. Nothing is ever
 * overwritten; signing again is one more.
 *
 * @param words as typed
 * @param at when, UTC, to the second
 * @param files SHA-256 of each file of recording, attempt and grade, hexadecimal, by its name in the attempt's folder;
 *     what {@code sha256sum} of the GNU core utilities prints
 */
public record Signature(Words words, Instant at, Map<String, String> files) {

    /** Sorts by name, and takes whole seconds: nobody signs by the nanosecond. */
    public Signature {
        at = at.truncatedTo(ChronoUnit.SECONDS);
        files = new TreeMap<>(files);
    }

    /**
     * What whoever signs types.
     *
     * @param name never empty
     * @param certificate number as typed; empty if none
     * @param certificateEnds expiration or end of recent experience as typed (14 CFR 61.51(h)); empty if none
     * @param training description of the training given; empty if none
     * @param remark free; empty if none
     */
    public record Words(String name, String certificate, String certificateEnds, String training, String remark) {

        /** Takes no nameless one. */
        public Words {
            if (name.isBlank()) {
                throw new IllegalArgumentException("a signature needs a name");
            }
        }
    }

    String line() throws IOException {
        ObjectNode json = BookJson.object();
        json.put("at_utc", at.toString());
        json.put("name", words.name());
        json.put("certificate", words.certificate());
        json.put("certificate_ends", words.certificateEnds());
        json.put("training", words.training());
        json.put("remark", words.remark());
        ObjectNode hashes = json.putObject("sha256");
        files.forEach(hashes::put);
        return BookJson.line(json);
    }

    /** Empty for a line that is none. */
    static Optional<Signature> read(String line) {
        try {
            JsonNode json = BookJson.read(line.getBytes(StandardCharsets.UTF_8));
            Map<String, String> files = new TreeMap<>();
            json.path("sha256")
                    .properties()
                    .forEach(each -> files.put(each.getKey(), each.getValue().asText()));
            return Optional.of(new Signature(
                    new Words(
                            BookJson.textOrEmpty(json, "name"),
                            BookJson.textOrEmpty(json, "certificate"),
                            BookJson.textOrEmpty(json, "certificate_ends"),
                            BookJson.textOrEmpty(json, "training"),
                            BookJson.textOrEmpty(json, "remark")),
                    Instant.parse(BookJson.textOrEmpty(json, "at_utc")),
                    files));
        } catch (IOException | DateTimeParseException | IllegalArgumentException e) {
            return Optional.empty();
        }
    }
}
