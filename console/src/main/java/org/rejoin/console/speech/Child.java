package org.rejoin.console.speech;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;

/**
 * Runs a program once: never through a shell, each argument by itself, with a limit on its time and on what it may answer. It
 * is ended by its handle, after the programs that it started; so it is when the thread that waits for it is interrupted. It
 * gets no more of this program's environment than it needs, so no token and no password.
 */
final class Child {

    /** What a program on one of the known systems needs to start and to find its own files. */
    private static final List<String> ENVIRONMENT =
            List.of("PATH", "HOME", "LANG", "LC_ALL", "LC_CTYPE", "SystemRoot", "TMPDIR", "TEMP", "ESPEAK_DATA_PATH");

    private static final long LOOK_MS = 50;

    /** On a machine that is busy a program may take so many times its limit by the clock. */
    private static final double TIMES = 6;

    private static final ScheduledExecutorService WATCH = Executors.newSingleThreadScheduledExecutor(work -> {
        Thread thread = new Thread(work, "child-watch");
        thread.setDaemon(true);
        return thread;
    });

    private Child() {}

    /** By the time it worked, where the system tells it, and by the clock. */
    private static boolean isLate(Process process, long startedNs, double mostS) {
        double worked =
                process.info().totalCpuDuration().map(Duration::toMillis).orElse(0L) / 1000.0;
        return worked > mostS || (System.nanoTime() - startedNs) * 1e-9 > TIMES * mostS;
    }

    /** The programs that it started first: once it is gone nobody knows whose they were. */
    private static void end(Process process) {
        process.descendants().toList().forEach(ProcessHandle::destroyForcibly);
        process.destroyForcibly();
    }

    /**
     * Runs it to its end.
     *
     * @param command program and arguments
     * @param input all it is given on its standard input
     * @param mostS it is ended after it worked for so long, seconds; or after six times as long by the clock
     * @param mostOctets it is ended where it answers more
     * @return its standard output
     * @throws IOException if it cannot be started, fails, goes beyond a limit, or the thread is interrupted; one line
     */
    static byte[] run(List<String> command, byte[] input, double mostS, int mostOctets) throws IOException {
        String name = command.get(0);
        Thread waits = Thread.currentThread();
        if (waits.isInterrupted()) {
            throw new IOException(name + " is not begun because this program ends");
        }
        ProcessBuilder builder = new ProcessBuilder(command);
        Map<String, String> all = new TreeMap<>(builder.environment());
        builder.environment().clear();
        for (String each : ENVIRONMENT) {
            String value = all.get(each);
            if (value != null) {
                builder.environment().put(each, value);
            }
        }
        builder.redirectError(ProcessBuilder.Redirect.DISCARD);
        long started = System.nanoTime();
        Process process = builder.start();
        AtomicBoolean late = new AtomicBoolean();
        ScheduledFuture<?> watch = WATCH.scheduleWithFixedDelay(
                () -> {
                    if (waits.isInterrupted()) { // which does not end its reading
                        end(process);
                    } else if (isLate(process, started, mostS)) {
                        late.set(true);
                        end(process);
                    }
                },
                LOOK_MS,
                LOOK_MS,
                TimeUnit.MILLISECONDS);
        try {
            give(process, input);
            ByteArrayOutputStream answer = new ByteArrayOutputStream();
            try (InputStream out = process.getInputStream()) {
                byte[] piece = new byte[8_192];
                for (int read = out.read(piece); read >= 0; read = out.read(piece)) {
                    if (answer.size() + read > mostOctets) {
                        throw new IOException(name + " answered more than " + mostOctets + " octets and was ended");
                    }
                    answer.write(piece, 0, read);
                }
            }
            int code = process.waitFor();
            // A program that has ended already is waited for without a look at the interruption that ended it.
            if (waits.isInterrupted()) {
                throw new InterruptedException();
            }
            if (late.get()) {
                throw new IOException(
                        name + " did not answer in " + Math.round(mostS) + " s of its own time and was ended");
            }
            if (code != 0) {
                throw new IOException(name + " ended with code " + code);
            }
            return answer.toByteArray();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IOException(name + " was ended because this program ends", e);
        } catch (IOException e) {
            if (late.get()) {
                throw new IOException(
                        name + " did not answer in " + Math.round(mostS) + " s of its own time and was ended", e);
            }
            throw e;
        } finally {
            watch.cancel(false);
            end(process);
        }
    }

    /** A few hundred octets fit into any pipe, so this never waits for the program to read. */
    private static void give(Process process, byte[] input) {
        try (OutputStream in = process.getOutputStream()) {
            in.write(input);
        } catch (IOException e) {
            // It ended without reading; its code says why.
        }
    }
}
