package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;

/** A command that was run in this process: its exit code, and what it printed. */
record Ran(int exit, String out, String err) {

    static Ran run(String... args) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        int exit = Rejoin.run(new PrintWriter(out, true), new PrintWriter(err, true), args);
        return new Ran(exit, out.toString(), err.toString());
    }

    /** One that must end well. */
    static Ran well(String... args) {
        Ran ran = run(args);
        assertThat(ran.exit()).as(ran.err()).isZero();
        return ran;
    }

    /** With this to read. */
    static Ran typing(String typed, String... args) {
        return fed(typed.getBytes(StandardCharsets.UTF_8), args);
    }

    static Ran fed(byte[] input, String... args) {
        InputStream before = System.in;
        System.setIn(new ByteArrayInputStream(input));
        try {
            return run(args);
        } finally {
            System.setIn(before);
        }
    }

    /** {@return the names of the events that were printed} */
    List<String> events() {
        return out.lines()
                .map(Ran::json)
                .filter(line -> line.has("event"))
                .map(line -> line.get("event").asText())
                .toList();
    }

    JsonNode json() {
        return json(out);
    }

    static JsonNode json(String text) {
        try {
            return new ObjectMapper().readTree(text);
        } catch (IOException e) {
            throw new UncheckedIOException(text, e);
        }
    }
}
