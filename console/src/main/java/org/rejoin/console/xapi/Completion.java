package org.rejoin.console.xapi;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

import org.rejoin.console.recording.Durable;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.MissingNode;

/**
 * Whether a flight was flown to the end of what was cleared, from its grade; from its log where the grade does not judge
 * it, as where the line was met in a gap of the feed.
 */
final class Completion {

    private static final ObjectMapper LINES = new ObjectMapper();

    private Completion() {}

    /**
     * Looks at the last try in which a clearance was in force, as the card does.
     *
     * @param log of the flight, may be missing
     * @return false where a clearance was not done, and where none was issued; one that was taken back asks for nothing
     */
    static boolean of(JsonNode grade, Path log) throws IOException {
        List<JsonNode> amendments = new ArrayList<>();
        for (JsonNode attempt : grade.path("attempts")) {
            if (!attempt.path("amendments").isEmpty()) {
                amendments.clear();
                attempt.path("amendments").forEach(amendments::add);
            }
        }
        for (int i = 0; i < amendments.size(); i++) {
            JsonNode done = completed(amendments.get(i));
            double fromS = amendments.get(i).path("at_s").asDouble();
            double toS = i + 1 < amendments.size()
                    ? amendments.get(i + 1).path("at_s").asDouble()
                    : Double.POSITIVE_INFINITY;
            boolean wanted = !done.isMissingNode();
            if (wanted && !done.path("met").asBoolean() && (done.path("met").isBoolean() || !told(log, fromS, toS))) {
                return false;
            }
        }
        return !amendments.isEmpty();
    }

    private static JsonNode completed(JsonNode amendment) {
        for (JsonNode each : amendment.path("criteria")) {
            if (each.path("code").asText().equals("COMPLETED")) {
                return each;
            }
        }
        return MissingNode.getInstance();
    }

    private static boolean told(Path log, double fromS, double toS) throws IOException {
        for (String line : Durable.lines(log)) {
            JsonNode event;
            try {
                event = LINES.readTree(line);
            } catch (JsonProcessingException e) {
                throw new IOException(log + " has a line that is not JSON; debrief writes it again", e);
            }
            double atS = event.path("time_s").asDouble();
            if (event.path("event").asText().equals("amendment_complete") && atS >= fromS && atS < toS) {
                return true;
            }
        }
        return false;
    }
}
