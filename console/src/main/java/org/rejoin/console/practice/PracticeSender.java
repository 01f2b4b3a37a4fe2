package org.rejoin.console.practice;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.DatagramPacket;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.time.LocalTime;
import java.util.OptionalDouble;
import java.util.concurrent.locks.LockSupport;

import org.rejoin.console.lesson.LessonException;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.WireFormat;

/** Sends a practice flight over UDP, as a simulator would. */
public final class PracticeSender {

    private final InetSocketAddress target;
    private final WireFormat.Encoder encoder;
    private final OptionalDouble rate;
    private final double startS;
    private final Pace pace;
    private long sent;

    /** Keeps the sender in step with whoever listens. */
    public interface Pace {
        /** The flight has come to this simulation time, seconds; what is sent next is sent now. */
        void at(double timeS);

        /** So many datagrams went out until now; may wait until they have arrived. */
        void sent(long count);

        /** {@return whether the flight is to end early; true to stop sending} */
        boolean stopped();
    }

    /**
     * A sender.
     *
     * @param rate seconds of simulation a second of real time, above 0; empty for as fast as the pace allows
     * @param start time of day at the first state, Coordinated Universal Time, for a format that tells it
     * @param pace told of every step
     */
    public PracticeSender(
            InetSocketAddress target, WireFormat format, OptionalDouble rate, LocalTime start, Pace pace) {
        this.target = target;
        this.startS = format.tellsUtc() ? start.toSecondOfDay() : 0;
        this.encoder = format.newEncoder();
        this.rate = rate;
        this.pace = pace;
    }

    private static final class Stopped extends RuntimeException {
        private static final long serialVersionUID = 1L;
    }

    /**
     * Flies, at so many states a second of simulation time, and sends; returns the number of datagrams when the flight
     * is over.
     *
     * @throws LessonException if a clearance cannot be worked out
     * @throws IOException if the socket fails
     */
    public long send(PracticeFlight flight, double hz) throws LessonException, IOException {
        try (DatagramSocket socket = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            long startNs = System.nanoTime();
            flight.fly(hz, state -> {
                if (pace.stopped()) {
                    throw new Stopped();
                }
                rate.ifPresent(times -> waitUntil(startNs + (long) (state.timeS() / times * 1e9)));
                pace.at(state.timeS());
                send(socket, state);
            });
        } catch (Stopped e) {
            // The flight was ended from outside: what was sent stands.
            return sent;
        } catch (UncheckedIOException e) {
            throw new IOException("cannot send to " + target + ": " + e.getCause(), e);
        }
        return sent;
    }

    private void send(DatagramSocket socket, AircraftState state) {
        try {
            for (byte[] payload : encoder.encode(state.withTimeS(state.timeS() + startS))) {
                socket.send(new DatagramPacket(payload, payload.length, target));
                sent++;
                pace.sent(sent);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static void waitUntil(long dueNs) {
        long ahead = dueNs - System.nanoTime();
        while (ahead > 0) {
            LockSupport.parkNanos(ahead);
            ahead = dueNs - System.nanoTime();
        }
    }
}
