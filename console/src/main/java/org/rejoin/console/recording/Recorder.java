package org.rejoin.console.recording;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Consumer;

import org.rejoin.protocol.Datagram;

import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Records datagrams on a thread of its own, so that a slow disk never holds up the socket. What the disk cannot take in
 * time is counted and marked in the recording. A disk that refuses is said and tried again, with all that fits into memory
 * meanwhile; a capture that is deleted is made again.
 *
 * <p>A datagram is handed to the system as soon as the thread gets to it, and then survives the end of this program; a
 * second thread forces it to the disk, at most 250 ms later if the disk is quick enough, and then it survives the end of
 * the system.
 */
public final class Recorder implements AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(Recorder.class);
    private static final int QUEUED_DATAGRAMS = 16_384;
    /** An eighth of the memory where that is less. */
    private static final long QUEUED_OCTETS =
            Math.min(32L << 20, Runtime.getRuntime().maxMemory() / 8);

    private static final long FORCE_EVERY_MILLIS = 100;
    private static final long TRY_EVERY_NANOS = TimeUnit.MILLISECONDS.toNanos(500);
    private static final int FLUSH_EVERY = 64;
    private static final long CLOSE_MILLIS = 10_000;

    /** Of a disk that is full again and again, more would only be noise. */
    private static final int MOST_TROUBLES = 10;

    /** A datagram, and how many that came just before it found no room. */
    private record Queued(Datagram datagram, long missing) {}

    private final CaptureWriter writer;
    private final Consumer<String> warnings;
    private final BlockingQueue<Queued> queue;
    private final AtomicLong queuedOctets = new AtomicLong();
    private final AtomicLong recorded = new AtomicLong();
    private final AtomicLong overflowed = new AtomicLong();
    private final AtomicLong stopped = new AtomicLong();
    private final AtomicLong refused = new AtomicLong();
    private final AtomicLong unmarked = new AtomicLong();
    private final Thread thread;
    private final Thread forcing;
    private volatile boolean closing;
    private volatile String failure = "";
    private volatile boolean failing;
    private volatile boolean gone;
    private volatile boolean ended;
    private volatile boolean unforced;
    private @Nullable Queued held;
    private long buffered;
    private long latestMicros;
    private int troubles;
    private long stoppedBefore;

    /**
     * Starts recording.
     *
     * @param writer closed by {@link #close}, used by no one else from now on
     * @param warnings takes a line when there is trouble and when it is over, a few of each kind at most; called on the
     *     threads of the recorder or the closing one
     */
    public Recorder(CaptureWriter writer, Consumer<String> warnings) {
        this(writer, warnings, QUEUED_DATAGRAMS);
    }

    Recorder(CaptureWriter writer, Consumer<String> warnings, int queued) {
        this.writer = writer;
        this.warnings = warnings;
        this.queue = new ArrayBlockingQueue<>(queued);
        this.thread = new Thread(this::run, "recorder");
        this.forcing = new Thread(this::force, "recorder-disk");
        thread.setDaemon(true);
        forcing.setDaemon(true);
        thread.start();
        forcing.start();
    }

    /**
     * Takes a datagram. Never blocks, never throws; what finds no room is counted. For one thread.
     *
     * @param datagram its octets must not change any more
     */
    public void record(Datagram datagram) {
        if (closing) {
            refused.incrementAndGet();
            return;
        }
        long missing = unmarked.get();
        if (queuedOctets.get() > QUEUED_OCTETS || !queue.offer(new Queued(datagram, missing))) {
            (failing ? stopped : overflowed).incrementAndGet();
            unmarked.incrementAndGet();
        } else {
            queuedOctets.addAndGet(datagram.length());
            unmarked.addAndGet(-missing);
        }
    }

    /** Datagrams handed to the system. */
    long recorded() {
        return recorded.get();
    }

    /** {@return how many are missing because the disk was slow, or failed, or they came after {@link #close}} */
    public long missing() {
        return overflowed.get() + stopped.get() + refused.get();
    }

    /** {@return why nothing is written just now; empty where all is; may be asked from any thread} */
    public String refusing() {
        return failing || gone ? failure : "";
    }

    /** {@return why datagrams are missing; for the end of a line; empty where none are} */
    public String whyMissing() {
        List<String> reasons = new ArrayList<>();
        if (overflowed.get() > 0) {
            reasons.add("the disk was too slow");
        }
        if (stopped.get() > 0) {
            reasons.add("recording had stopped (" + failure + ")");
        }
        if (refused.get() > 0) {
            reasons.add("they came too late or were too long");
        }
        return String.join("; ", reasons);
    }

    /**
     * Writes what is queued, forces it to the disk and ends. Waits 10 s at most for a disk that does not answer. May be
     * called again.
     */
    @Override
    public void close() {
        closing = true;
        try {
            thread.join(CLOSE_MILLIS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        if (thread.isAlive()) {
            warn("the recording " + writer.file() + " is still being written after " + CLOSE_MILLIS / 1000
                    + " s; its end may be missing");
        }
    }

    private void run() {
        boolean overflowSaid = false;
        long triedNs = System.nanoTime();
        try {
            while (!closing || (!failing && (held != null || !queue.isEmpty()))) {
                boolean again = System.nanoTime() - triedNs >= TRY_EVERY_NANOS;
                if (gone && again) {
                    triedNs = System.nanoTime();
                    makeAgain();
                }
                if (!failing) {
                    held = held == null ? queue.poll(20, TimeUnit.MILLISECONDS) : held;
                    step();
                } else if (again) {
                    triedNs = System.nanoTime();
                    tryAgain();
                } else {
                    Thread.sleep(20);
                }
                if (!overflowSaid && overflowed.get() > 0) {
                    overflowSaid = true;
                    warn("the disk is too slow for the feed: datagrams are missing from " + writer.file());
                }
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } finally {
            end();
        }
    }

    /** Writes all that waits. */
    private void step() {
        try {
            held = held == null ? queue.poll() : held;
            boolean some = held != null;
            int written = 0;
            while (held != null) {
                write(held);
                held = queue.poll();
                if (++written == FLUSH_EVERY) {
                    written = 0;
                    flush();
                }
            }
            if (some) {
                flush();
            }
        } catch (IOException e) {
            fail(e);
        } catch (RuntimeException e) { // else the thread would be gone without a word
            LOG.debug("a datagram could not be recorded", e);
            held = null;
            refused.incrementAndGet();
        }
    }

    private void write(Queued next) throws IOException {
        if (next.missing() > 0) {
            writer.gap(next.missing(), next.datagram().receivedMicros());
            held = new Queued(next.datagram(), 0);
        }
        try {
            writer.write(next.datagram());
            buffered++;
            latestMicros = next.datagram().receivedMicros();
        } catch (IllegalArgumentException e) { // longer than any packet; cannot come from a socket
            refused.incrementAndGet();
        }
        queuedOctets.addAndGet(-next.datagram().length());
    }

    private void flush() throws IOException {
        writer.flush();
        recorded.addAndGet(buffered);
        buffered = 0;
        unforced = true;
    }

    /** What the disk refused, once more, as far as the disk itself. */
    private void tryAgain() {
        try {
            flush();
            writer.sync();
        } catch (IOException e) {
            LOG.debug("the disk still refuses", e);
            return;
        }
        failing = false; // what waits follows at once
        long lost = stopped.get() - stoppedBefore;
        stoppedBefore = stopped.get();
        trouble("recording goes on (" + writer.file() + "); "
                + (lost > 0 ? lost + " datagrams are missing, and it is marked where" : "nothing is missing"));
    }

    private void makeAgain() {
        try {
            flush();
            writer.restore();
            gone = false;
            unforced = true;
            trouble(writer.file()
                    + " was deleted, moved away or replaced: it is made again, with all that was recorded");
        } catch (IOException e) {
            if (!failure.equals(Durable.bare(e))) {
                failure = Durable.bare(e);
                trouble(writer.file() + " was deleted, moved away or replaced, and cannot be made again: " + failure
                        + "; the flight goes on, and it is tried again");
            }
        }
    }

    /** On a thread of its own: some disks take seconds. */
    private void force() {
        while (!ended) {
            try {
                Thread.sleep(FORCE_EVERY_MILLIS);
                if (unforced && !failing) {
                    unforced = false;
                    writer.sync();
                    gone = gone || writer.isGone();
                }
            } catch (IOException e) {
                if (!ended) {
                    fail(e);
                }
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                return;
            }
        }
    }

    private synchronized void fail(IOException e) {
        if (failing) {
            return;
        }
        failure = Durable.bare(e);
        failing = true;
        trouble("recording stopped: " + failure + " (" + writer.file()
                + "); the flight goes on, and it is tried again");
    }

    private void end() {
        if (failing) {
            tryAgain();
        }
        if (!failing) {
            step(); // nothing comes any more
        }
        if (gone || (!failing && writer.isGone())) {
            makeAgain();
        }
        ended = true;
        long left = (long) queue.size() + (held == null ? 0 : 1);
        stopped.addAndGet(left);
        queue.clear();
        try {
            if (!failing && unmarked.get() > 0) {
                writer.gap(unmarked.get(), latestMicros);
            }
            writer.close();
            recorded.addAndGet(buffered);
        } catch (IOException e) {
            stopped.addAndGet(buffered);
            if (!failing) {
                fail(e);
            }
        }
        if (overflowed.get() > 0) {
            warn(overflowed.get() + " datagrams are missing from " + writer.file() + ": the disk was too slow");
        }
    }

    private synchronized void trouble(String line) {
        if (troubles++ < MOST_TROUBLES) {
            warn(line);
        }
    }

    private void warn(String line) {
        try {
            warnings.accept(line);
        } catch (RuntimeException e) {
            LOG.warn("{} (and it could not be shown)", line, e);
        }
    }
}
