package org.rejoin.console.flight;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Consumer;

import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Hands lines to a slow taker (a terminal, a disk) on a thread of its own. The queue is bounded: what finds no room is
 * counted, and the flight is never held up.
 *
 * @param <T> what a line is made of
 */
public final class OutputQueue<T> implements AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(OutputQueue.class);
    private static final int ROOM = 10_000;

    private final BlockingQueue<T> lines = new ArrayBlockingQueue<>(ROOM);
    private final AtomicLong dropped = new AtomicLong();
    private final Consumer<T> taker;
    private final Thread thread;
    private volatile boolean closing;

    /** Starts the thread; it alone calls {@code taker}, which takes the lines in order. */
    public OutputQueue(String name, Consumer<T> taker) {
        this.taker = taker;
        this.thread = new Thread(this::run, name);
        thread.setDaemon(true);
        thread.start();
    }

    /** Hands over a line; returns at once. */
    public void offer(T line) {
        if (!lines.offer(line)) {
            dropped.incrementAndGet();
        }
    }

    /** Lines, 0 or more, that found no room, made the taker fail, or still waited when {@link #close} gave up. */
    public long dropped() {
        return dropped.get();
    }

    private void run() {
        try {
            while (!closing || !lines.isEmpty()) {
                T line = lines.poll(50, TimeUnit.MILLISECONDS);
                if (line != null) {
                    give(line);
                }
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private void give(T line) {
        try {
            taker.accept(line);
        } catch (RuntimeException e) { // costs this line, not all that follow
            dropped.incrementAndGet();
            LOG.warn("a line could not be given out: {}", e.toString());
            LOG.debug("why", e);
        }
    }

    /** Gives out what is queued and ends; waits 5 s at most, and what has not been given out then never is. */
    @Override
    public void close() {
        closing = true;
        try {
            thread.join(5_000);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        List<T> left = new ArrayList<>();
        dropped.addAndGet(lines.drainTo(left));
    }
}
