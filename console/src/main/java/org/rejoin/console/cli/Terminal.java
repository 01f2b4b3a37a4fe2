package org.rejoin.console.cli;

import java.io.BufferedReader;
import java.io.Console;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.lang.reflect.InvocationTargetException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;

/** Whether there is a terminal to draw on, and what is said there while something takes its time. */
final class Terminal {

    private static final long FIRST_S = 2;
    private static final long EVERY_S = 5;

    private Terminal() {}

    /** {@return what the terminal shows; its character set; UTF-8 where there is no terminal} */
    @SuppressWarnings("SystemConsoleNull")
    static Charset charset() {
        Console console = System.console();
        return console == null ? StandardCharsets.UTF_8 : console.charset();
    }

    /** {@return whether standard input and output are a terminal; false when either is a file or a pipe} */
    @SuppressWarnings("SystemConsoleNull") // up to Java 21 null is the answer; later ones are asked below
    static boolean attached() {
        Console console = System.console();
        if (console == null) {
            return false;
        }
        try {
            // Java 22 and later give a console for a pipe, too, and this method to tell; compiled for 17 it is not
            // known.
            return (boolean) Console.class.getMethod("isTerminal").invoke(console);
        } catch (NoSuchMethodException e) {
            return true;
        } catch (IllegalAccessException | InvocationTargetException e) {
            return false;
        }
    }

    /** What may take its time. */
    interface Work<T, E extends Exception> {
        T done() throws E;
    }

    /** Says on a terminal what is being done, after two seconds and then every few: nobody sits before silence. */
    static <T, E extends Exception> T patiently(String what, PrintWriter err, Work<T, E> work) throws E {
        ScheduledExecutorService patience = Executors.newSingleThreadScheduledExecutor();
        long startNs = System.nanoTime();
        if (attached()) {
            Runnable say = () -> err.println("rejoin: " + what + ", "
                    + TimeUnit.NANOSECONDS.toSeconds(System.nanoTime() - startNs) + " s so far");
            Future<?> unused = patience.scheduleAtFixedRate(say, FIRST_S, EVERY_S, TimeUnit.SECONDS);
        }
        try {
            return work.done();
        } finally {
            patience.shutdownNow();
        }
    }

    /** Answers as they are typed, one a line. */
    static final class Answers {

        private final BufferedReader in = new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8));

        /** What was typed, empty for an empty line, and how long that took. */
        record Answer(String text, double seconds) {}

        /** The next line; empty where the input has ended: that is no answer. */
        Optional<Answer> next() throws IOException {
            long began = System.nanoTime();
            String line = in.readLine();
            return Optional.ofNullable(line).map(text -> new Answer(text.trim(), (System.nanoTime() - began) / 1e9));
        }
    }
}
