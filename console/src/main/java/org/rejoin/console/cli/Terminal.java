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
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;

/** Whether there is a terminal to draw on, and what is said there while something takes its time. */
final class Terminal {

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

    /** Says on a terminal what is being done, once it has taken two seconds and then every few: nobody sits before silence. */
    static final class WaitNotice {

        private static final long FIRST_S = 2;
        private static final long EVERY_S = 5;

        private final CountDownLatch done = new CountDownLatch(1);

        private WaitNotice() {}

        /**
         * Begins to wait.
         *
         * @param what is being done, as "reading chart.424"
         * @param err told, where it is a terminal
         * @return to be told when it is done
         */
        static WaitNotice with(String what, PrintWriter err) {
            WaitNotice patience = new WaitNotice();
            if (attached()) {
                patience.start(what, err, FIRST_S, EVERY_S);
            }
            return patience;
        }

        private void start(String what, PrintWriter err, long firstS, long everyS) {
            Thread thread = new Thread(
                    () -> {
                        long seconds = firstS;
                        try {
                            while (!done.await(seconds == firstS ? firstS : everyS, TimeUnit.SECONDS)) {
                                err.println("rejoin: " + what + ", " + seconds + " s so far");
                                seconds += everyS;
                            }
                        } catch (InterruptedException e) {
                            Thread.currentThread().interrupt();
                        }
                    },
                    "patience");
            thread.setDaemon(true);
            thread.start();
        }

        void over() {
            done.countDown();
        }
    }

    /** Answers as they are typed, one a line. */
    static final class Answers {

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
}
