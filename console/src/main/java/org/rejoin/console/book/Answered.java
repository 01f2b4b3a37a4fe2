package org.rejoin.console.book;

import com.fasterxml.jackson.databind.JsonNode;

/** What lists show of a drill that was answered, on paper or by ear, in place of a score. */
final class Answered {

    private Answered() {}

    /**
     * What was right of it, as "7 of 8 right" or "read back right": of {@link Attempt#more()} of a drill on paper
     * {@code right} and {@code asked}, of one by ear {@code outcome}, or {@code right} alone as earlier versions kept
     * it.
     */
    static String words(JsonNode more) {
        JsonNode right = more.path("right");
        if (right.isInt() && more.path("asked").isInt()) {
            return right.asInt() + " of " + more.path("asked").asInt() + " right";
        }
        if (more.path("outcome").asText().equals("unclear")) {
            return "readback not clear";
        }
        return right.isBoolean() ? "read back " + (right.asBoolean() ? "right" : "wrong") : "answers not kept";
    }
}
