package org.rejoin.bridge.feed;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Consumer;

import org.rejoin.protocol.Datagram;

import io.netty.util.concurrent.EventExecutor;
import io.netty.util.concurrent.Future;

/**
 * Work on the thread that also reads the socket, in the order in which it came. Usually it is done at once. Where it takes
 * long (a clearance worked out for each of a thousand aircraft in one second), the rest waits here and the thread goes back
 * to the socket every few milliseconds, because the system keeps only a fraction of a second of such traffic. Used on that
 * thread only, but for {@link #taken}, {@link #dropped}, {@link #behindS} and {@link #close}.
 */
final class Backlog {

    /** So long is worked before the socket is looked at again. */
    private static final long SLICE_NANOS = TimeUnit.MILLISECONDS.toNanos(5);

    /** What Java adds to each datagram. */
    private static final long OVERHEAD_OCTETS = 128;

    /** Most that waits, octets with that: a quarter of the memory there is. */
    private final long mostOctets = Runtime.getRuntime().maxMemory() / 4;

    private final EventExecutor thread;
    private final Consumer<Throwable> failed;
    private final Deque<Work> waiting = new ArrayDeque<>();
    private final AtomicLong dropped = new AtomicLong();
    private final AtomicLong taken = new AtomicLong();
    private long waitingOctets;
    private long sliceBeganNanos;
    private boolean inSlice;
    private volatile boolean closed;

    /** When the oldest that waits came, by the system's steady clock; 0 while nothing waits. */
    private volatile long oldestNanos;

    private record Work(Runnable run, long octets, long cameNanos) {}

    /**
     * Nothing waits.
     *
     * @param thread that reads the socket
     * @param failed told what a piece of work throws; the next one goes on
     */
    Backlog(EventExecutor thread, Consumer<Throwable> failed) {
        this.thread = thread;
        this.failed = failed;
    }

    /** A datagram to be taken by the sink: now, or in its turn. */
    void take(Datagram datagram, DatagramSink sink) {
        long octets = datagram.length() + OVERHEAD_OCTETS;
        if (waiting.isEmpty() && !sliceIsOver()) {
            run(() -> give(datagram, sink));
        } else if (waitingOctets + octets > mostOctets) {
            dropped.incrementAndGet();
        } else {
            add(new Work(() -> give(datagram, sink), octets, System.nanoTime()));
        }
    }

    private void give(Datagram datagram, DatagramSink sink) {
        try {
            sink.accept(datagram);
        } finally {
            taken.incrementAndGet();
        }
    }

    /** Datagrams that the sink has taken. */
    long taken() {
        return taken.get();
    }

    /** Anything else that is to be done after the datagrams that came before it. */
    void take(Runnable work) {
        if (waiting.isEmpty()) {
            run(work);
        } else {
            add(new Work(work, 0, System.nanoTime()));
        }
    }

    private void add(Work work) {
        if (waiting.isEmpty()) {
            oldestNanos = work.cameNanos();
            goOnLater();
        }
        waiting.addLast(work);
        waitingOctets += work.octets();
    }

    /** The socket has been read as far as there was anything: the next datagram begins a new slice. */
    void endOfReading() {
        inSlice = false;
    }

    boolean isEmpty() {
        return waiting.isEmpty();
    }

    /** Datagrams that found no room. */
    long dropped() {
        return dropped.get();
    }

    /** Nothing of it is done any more. */
    void close() {
        closed = true;
    }

    private boolean sliceIsOver() {
        long now = System.nanoTime();
        if (!inSlice) {
            inSlice = true;
            sliceBeganNanos = now;
        }
        return now - sliceBeganNanos > SLICE_NANOS;
    }

    /** A scheduled task, even one that is due, runs after the next look at the socket; a plain one would run before it. */
    private void goOnLater() {
        Future<?> unused = thread.schedule(this::goOn, 1, TimeUnit.NANOSECONDS);
    }

    private void goOn() {
        long began = System.nanoTime();
        for (Work next = waiting.pollFirst(); next != null; next = waiting.pollFirst()) {
            waitingOctets -= next.octets();
            oldestNanos = next.cameNanos();
            run(next.run());
            if (System.nanoTime() - began > SLICE_NANOS) {
                break;
            }
        }
        if (waiting.isEmpty()) {
            oldestNanos = 0;
        } else {
            goOnLater();
        }
    }

    /** How long the oldest has waited, seconds; 0 while nothing waits. */
    double behindS() {
        long oldest = oldestNanos;
        return oldest == 0 ? 0 : (System.nanoTime() - oldest) * 1e-9;
    }

    private void run(Runnable work) {
        if (closed) {
            return;
        }
        try {
            work.run();
        } catch (RuntimeException | Error e) { // a datagram, not the feed
            failed.accept(e);
        }
    }
}
