package org.rejoin.console.speech;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.TreeSet;

/**
 * A speech program that is installed on this machine, and exactly how it is run.
 *
 * @param kind which of those that are known
 * @param program its file
 * @param name of its voice, letters, figures, hyphens, underlines
 */
public record Voice(Kind kind, Path program, String name) {

    /** The programs that are known. */
    public enum Kind {
        /** Small, with recorded speakers inside. */
        FLITE("flite", "slt"),
        /** Smaller, a synthesizer by rule. */
        ESPEAK_NG("espeak-ng", "en-us");

        private final String program;
        private final String usual;

        Kind(String program, String usual) {
            this.program = program;
            this.usual = usual;
        }
    }

    /** What to install where there is none. */
    public static final String INSTALL = "install flite or espeak-ng (on Debian: apt install flite)";

    /** The voices of flite say so many words a minute of a clearance when nothing is set: measured on 29 words. */
    private static final double FLITE_WORDS_A_MINUTE = 157;

    /** espeak-ng counts words of another length; the same 29 words at 150 took 13.1 s. */
    private static final double ESPEAK_FACTOR = 150 / 133.0;

    /** To ask it for its voices. */
    private static final double MOST_S = 5;

    private static final int MOST_OCTETS = 65_536;

    private static final List<String> NAMES = List.of(Kind.FLITE.program, Kind.ESPEAK_NG.program);

    /**
     * Checks the name of the voice: it becomes an argument.
     *
     * @throws IllegalArgumentException if it is none
     */
    public Voice {
        if (!name.matches("[A-Za-z0-9][A-Za-z0-9_+-]{0,31}")) {
            throw new IllegalArgumentException("\"" + name + "\" is not the name of a voice");
        }
    }

    /**
     * The speech program of this machine.
     *
     * @param given as the user named it; empty to look for one
     * @param voice as the user named it; empty for the program's usual one
     * @param searchPath as in the environment variable PATH
     * @return empty where none was named and none is there
     * @throws IOException if the one that was named is not known or not there; one line
     */
    public static Optional<Voice> of(Optional<String> given, Optional<String> voice, String searchPath)
            throws IOException {
        Optional<Path> program = given.isPresent()
                ? Optional.of(Programs.named(given.get(), NAMES, searchPath))
                : Programs.find(NAMES, searchPath);
        if (program.isEmpty()) {
            return Optional.empty();
        }
        String name = Programs.nameOf(program.get());
        Kind kind = name.equals(Kind.FLITE.program) ? Kind.FLITE : Kind.ESPEAK_NG;
        Voice chosen;
        try {
            chosen = new Voice(kind, program.get(), voice.orElse(kind.usual));
        } catch (IllegalArgumentException e) {
            throw new IOException(e.getMessage() + "; letters, figures, hyphens and underlines would be right", e);
        }
        if (voice.isPresent()) {
            chosen.check();
        }
        return Optional.of(chosen);
    }

    /** One of the two speaks with another voice where it has none of a name, and says nothing of it. */
    private void check() throws IOException {
        String missing = "--voice " + name + " is not a voice of " + program;
        switch (kind) {
            case FLITE -> {
                String listed = new String(
                        Child.run(List.of(program.toString(), "-lv"), new byte[0], MOST_S, MOST_OCTETS),
                        StandardCharsets.US_ASCII);
                List<String> voices =
                        List.of(listed.replaceFirst("(?s)^[^:]*:", "").strip().split("\\s+", -1));
                if (!voices.contains(name)) {
                    throw new IOException(missing + "; it has " + String.join(", ", new TreeSet<>(voices)));
                }
            }
            case ESPEAK_NG -> {
                try {
                    Child.run(
                            List.of(program.toString(), "-q", "-v", name, "--stdin"),
                            "a".getBytes(StandardCharsets.US_ASCII),
                            MOST_S,
                            MOST_OCTETS);
                } catch (IOException e) {
                    throw new IOException(missing + "; " + kind.program + " --voices lists them", e);
                }
            }
        }
    }

    /** {@return what it is called, "flite" or "espeak-ng"} */
    public String programName() {
        return kind.program;
    }

    /** Program and arguments; the sound goes into a file. */
    List<String> command(String text, int wordsAMinute, Path wav) {
        return switch (kind) {
            case FLITE ->
                List.of(
                        program.toString(),
                        "-voice",
                        name,
                        "--setf",
                        String.format(Locale.ROOT, "duration_stretch=%.3f", FLITE_WORDS_A_MINUTE / wordsAMinute),
                        "-t",
                        text,
                        "-o",
                        wav.toString());
            case ESPEAK_NG ->
                List.of(
                        program.toString(),
                        "-v",
                        name,
                        "-s",
                        Long.toString(Math.round(wordsAMinute * ESPEAK_FACTOR)),
                        "-w",
                        wav.toString(),
                        "--stdin");
        };
    }

    /** What it reads. */
    byte[] input(String text) {
        return switch (kind) {
            case FLITE -> new byte[0];
            case ESPEAK_NG -> text.getBytes(StandardCharsets.US_ASCII);
        };
    }
}
