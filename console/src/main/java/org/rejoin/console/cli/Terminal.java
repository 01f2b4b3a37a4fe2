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
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.IntSupplier;

/** The terminal: whether there is one, what is said there while something lasts, what is typed, what Ctrl-C ends. */
final class Terminal {

    private static final long FIRST_S = 2;
    private static final long EVERY_S = 5;

    private static final AtomicReference<Thread> HOOK = new AtomicReference<>();

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

    /** Ends the program with exit code 0 at Ctrl-C or TERM, in order: that is how a flight ends. */
    static void endOnInterrupt(Runnable end) {
        onInterrupt(end, () -> Rejoin.DONE);
    }

    /** Ends the program when it is interrupted, once all is written, with an exit code that is known only then. */
    static void onInterrupt(Runnable end, IntSupplier code) {
        Thread hook = new Thread(
                () -> {
                    try {
                        end.run();
                    } finally {
                        // The code of a program that a signal ends would be 130 or 143, as if it had failed.
                        Runtime.getRuntime().halt(code.getAsInt());
                    }
                },
                "interrupt");
        try {
            Runtime.getRuntime().addShutdownHook(hook);
            HOOK.set(hook);
        } catch (IllegalStateException e) {
            // Interrupted already: what was to be done then is being done.
        }
    }

    /** The flight ended by itself: it is not ended at an interrupt any more. */
    static void endedByItself() {
        Thread hook = HOOK.getAndSet(null);
        if (hook != null) {
            try {
                Runtime.getRuntime().removeShutdownHook(hook);
            } catch (IllegalStateException e) {
                // Already shutting down: the hook runs, and closing twice does nothing.
            }
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
