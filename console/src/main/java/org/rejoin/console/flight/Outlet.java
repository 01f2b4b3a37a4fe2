package org.rejoin.console.flight;

import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Consumer;

/**
 * Hands lines to a slow taker (a terminal, a disk) on a thread of its own. The queue is bounded: what finds no room is
 * counted, and the flight is never held up.
 *
 * @param <T> what a line is made of
 */
public final class Outlet<T> implements AutoCloseable {

    private static final int ROOM = 10_000;

    private final BlockingQueue<T> lines = new ArrayBlockingQueue<>(ROOM);
    private final AtomicLong dropped = new AtomicLong();
    private final Consumer<T> taker;
    private final Thread thread;
    private volatile boolean closing;

    /**
     * Starts the thread.
     *
     * @param name of the thread
     * @param taker takes the lines in order; called on that thread only
     */
    public Outlet(String name, Consumer<T> taker) {
        this.taker = taker;
        this.thread = new Thread(this::run, name);
        thread.setDaemon(true);
        thread.start();
    }

    /**
     * Hands over a line; returns at once.
     *
     * @param line any
     */
    public void offer(T line) {
        if (!lines.offer(line)) {
            dropped.incrementAndGet();
        }
    }

    /**
     * Lines that found no room.
     *
     * @return 0 or more
     */
    public long dropped() {
        return dropped.get();
    }

    private void run() {
        try {
            while (!closing || !lines.isEmpty()) {
                T line = lines.poll(50, TimeUnit.MILLISECONDS);
                if (line != null) {
                    taker.accept(line);
                }
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** Gives out what is queued and ends; waits 5 s at most. */
    @Override
    public void close() {
        closing = true;
        try {
            thread.join(5_000);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
