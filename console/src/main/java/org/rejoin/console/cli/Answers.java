package org.rejoin.console.cli;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.Optional;

/** Answers as they are typed, one a line. */
final class Answers {

    private final BufferedReader in = new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8));

    /**
     * The next answer, and how long it took.
     *
     * @param text as typed; empty for an empty line
     */
    record Answer(String text, double seconds) {}

    /** The next line; empty where the input has ended: that is no answer. */
    Optional<Answer> next() throws IOException {
        long began = System.nanoTime();
        String line = in.readLine();
        return Optional.ofNullable(line).map(text -> new Answer(text.trim(), (System.nanoTime() - began) / 1e9));
    }
}
