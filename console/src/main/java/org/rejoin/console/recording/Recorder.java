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
 * time is counted; what it refuses is said once, and the flight goes on without a recording.
 *
 * <p>A datagram is handed to the system as soon as the thread gets to it, and then survives the end of this program; a
 * second thread forces it to the disk, at most 250 ms later if the disk is quick enough, and then it survives the end of
 * the system.
 */
public final class Recorder implements AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(Recorder.class);
    private static final int QUEUED_DATAGRAMS = 16_384;
    private static final long QUEUED_OCTETS = 32L << 20;
    private static final long FORCE_EVERY_MILLIS = 100;
    private static final int FLUSH_EVERY = 64;
    private static final long CLOSE_MILLIS = 10_000;

    private final CaptureWriter writer;
    private final Consumer<String> warnings;
    private final BlockingQueue<Datagram> queue;
    private final AtomicLong queuedOctets = new AtomicLong();
    private final AtomicLong recorded = new AtomicLong();
    private final AtomicLong overflowed = new AtomicLong();
    private final AtomicLong refused = new AtomicLong();
    private final Thread thread;
    private final Thread forcing;
    private volatile boolean closing;
    private volatile String failure = "";
    private volatile boolean failed;
    private volatile boolean ended;
    private volatile boolean unforced;

    /**
     * Starts recording.
     *
     * @param writer closed by {@link #close}, used by no one else from now on
     * @param warnings takes one line for each kind of trouble, at most one of each kind; called on the recorder's thread
     *     or the closing one
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
     * Takes a datagram. Never blocks, never throws; what finds no room is counted.
     *
     * @param datagram its octets must not change any more
     */
    public void record(Datagram datagram) {
        if (closing || failed) {
            refused.incrementAndGet();
        } else if (queuedOctets.get() > QUEUED_OCTETS || !queue.offer(datagram)) {
            overflowed.incrementAndGet();
        } else {
            queuedOctets.addAndGet(datagram.length());
        }
    }

    /**
     * Datagrams handed to the system.
     *
     * @return 0 or more
     */
    long recorded() {
        return recorded.get();
    }

    /**
     * Datagrams missing from the recording because the disk was slow, or failed, or they came after {@link #close}.
     *
     * @return 0 or more
     */
    public long missing() {
        return overflowed.get() + refused.get();
    }

    /**
     * Why datagrams are missing.
     *
     * @return for the end of a line; empty where none are
     */
    public String whyMissing() {
        List<String> reasons = new ArrayList<>();
        if (overflowed.get() > 0) {
            reasons.add("the disk was too slow");
        }
        if (refused.get() > 0) {
            reasons.add(failed ? "recording had stopped (" + failure + ")" : "they came too late or were too long");
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
        while (!failed) {
            try {
                Datagram next = queue.poll(20, TimeUnit.MILLISECONDS);
                if (next == null && closing) {
                    break;
                }
                step(next);
            } catch (IOException e) {
                fail(e);
            } catch (RuntimeException e) { // else the thread would be gone without a word
                fail(new IOException(e.toString(), e));
            } catch (InterruptedException e) {
                break;
            }
            if (!overflowSaid && overflowed.get() > 0) {
                overflowSaid = true;
                warn("the disk is too slow for the feed: datagrams are missing from " + writer.file());
            }
        }
        end();
    }

    private void step(@Nullable Datagram first) throws IOException {
        int written = 0;
        for (Datagram next = first; next != null; next = queue.poll()) {
            queuedOctets.addAndGet(-next.length());
            try {
                writer.write(next);
                recorded.incrementAndGet();
            } catch (IllegalArgumentException e) { // longer than any packet; cannot come from a socket
                refused.incrementAndGet();
            }
            if (++written == FLUSH_EVERY) {
                written = 0;
                writer.flush();
            }
        }
        if (first != null) {
            writer.flush();
            unforced = true;
        }
    }

    /** On a thread of its own: some disks take seconds. */
    private void force() {
        while (!ended && !failed) {
            try {
                Thread.sleep(FORCE_EVERY_MILLIS);
                if (unforced) {
                    unforced = false;
                    writer.sync();
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
        if (failed) {
            return;
        }
        failure = RecordingFolder.why(e);
        failed = true;
        warn("recording stopped: " + failure + " (" + writer.file() + "); the flight goes on without it");
    }

    private void end() {
        ended = true;
        refused.addAndGet(queue.size());
        queue.clear();
        try {
            writer.close();
        } catch (IOException e) {
            if (!failed) {
                fail(e);
            }
        }
        if (overflowed.get() > 0) {
            warn(overflowed.get() + " datagrams are missing from " + writer.file() + ": the disk was too slow");
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
