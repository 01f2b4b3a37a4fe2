package org.rejoin.console.cli;

import java.net.DatagramPacket;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.locks.LockSupport;

import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.dis.DisFormat;

/**
 * A simulator on the same machine: flies a practice flight over and over, faster than real time by its own time stamps,
 * with a socket of its own. What it sends next can be chosen while it runs.
 */
final class Simulator implements AutoCloseable {

    private static final LocalDate DATE = LocalDate.of(2026, 6, 1);

    private final DatagramSocket socket;
    private final int port;
    private final double rate;
    private final Thread thread;
    private final AtomicBoolean closed = new AtomicBoolean();
    private final WireFormat.Encoder encoder = new DisFormat().newEncoder();
    private volatile List<AircraftState> states = List.of();
    private final AtomicInteger next = new AtomicInteger();
    private volatile boolean silent;

    Simulator(int port, double rate) throws Exception {
        this.socket = new DatagramSocket(0, InetAddress.getLoopbackAddress());
        this.port = port;
        this.rate = rate;
        this.thread = new Thread(this::send, "simulator");
        thread.setDaemon(true);
        thread.start();
    }

    /** From the start of a lesson on. */
    Simulator fly(Lesson lesson, Habit habit) throws Exception {
        List<AircraftState> flown = new ArrayList<>();
        new PracticeFlight(lesson, DATE, habit).fly(2, flown::add);
        states = flown;
        next.set(0);
        return this;
    }

    void silent(boolean now) {
        silent = now;
    }

    /** Whether all of the flight was sent. */
    boolean over() {
        return next.get() >= states.size();
    }

    private void send() {
        double clockS = 0;
        try {
            while (!closed.get()) {
                LockSupport.parkNanos((long) (0.5e9 / rate));
                clockS += 0.5;
                List<AircraftState> flown = states;
                if (silent || flown.isEmpty()) {
                    continue;
                }
                AircraftState state = flown.get(Math.min(next.getAndIncrement(), flown.size() - 1));
                // Its clock runs on through every flight.
                for (byte[] payload : encoder.encode(state.withTimeS(clockS))) {
                    socket.send(new DatagramPacket(payload, payload.length, InetAddress.getLoopbackAddress(), port));
                }
            }
        } catch (Exception e) {
            if (!closed.get()) {
                throw new AssertionError(e);
            }
        }
    }

    @Override
    public void close() {
        closed.set(true);
        socket.close();
    }
}
