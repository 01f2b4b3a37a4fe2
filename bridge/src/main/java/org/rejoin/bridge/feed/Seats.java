package org.rejoin.bridge.feed;

import java.net.InetSocketAddress;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.WireFormat;

import org.jspecify.annotations.Nullable;

/**
 * Tells the aircraft on one port apart: a decoder for each sender, a {@link SampleClock} for each of its aircraft.
 * Confined to one thread, the feed's or, for a recording, the caller's. What it gives for a seat depends on the
 * datagrams and their times of receipt alone, never on when {@link #advanceTo} is called.
 */
public final class Seats implements DatagramSink {

    /** Senders and aircraft remembered at most; more are counted and left out, so that no flood fills the memory. */
    public static final int MOST = 4096;

    /** A simulator started again often sends from another port; wire-formats 1.9: an aircraft is gone after 12 s. */
    private static final long GONE_MICROS = 12_000_000;
    /** After so long a sender makes room for another when there is none left. */
    private static final long FORGOTTEN_MICROS = 60_000_000;
    /** More than any decoder waits for the rest of a state. */
    private static final long WAIT_MICROS = 10_000_000;

    private static final long TICK_MICROS = 50_000;

    private final List<WireFormat> formats;
    private final SeatChoice choice;
    private final SeatSink sink;
    private final Map<InetSocketAddress, Sender> senders = new LinkedHashMap<>(16, 0.75f, true);
    private int seatCount;
    private long advancedMicros;
    private long latestMicros = Long.MIN_VALUE;
    private long leftOut;

    /**
     * One sender so far.
     *
     * @param sender address and port
     * @param format name of the format it speaks; empty if none was recognised
     * @param datagrams received
     * @param samples decoded
     * @param notPositions well formed pieces that are no samples
     * @param malformed pieces that are not what their format asks for
     * @param unrecognised datagrams in no known format
     */
    public record SenderReport(
            InetSocketAddress sender,
            Optional<String> format,
            long datagrams,
            long samples,
            long notPositions,
            long malformed,
            long unrecognised) {}

    /**
     * One seat so far.
     *
     * @param seat its key
     * @param marking callsign or marking last heard; empty text where unsent
     * @param samples received for it
     * @param late of these, left out because a later one had come before, or the same one twice
     * @param timeBase the clock of its times; empty until chosen
     */
    public record SeatReport(SeatKey seat, String marking, long samples, long late, Optional<TimeBase> timeBase) {}

    /**
     * No sender yet.
     *
     * @param formats to recognise, in this order
     * @param choice which aircraft to follow
     * @param sink takes what they do
     */
    public Seats(List<WireFormat> formats, SeatChoice choice, SeatSink sink) {
        this.formats = List.copyOf(formats);
        this.choice = choice;
        this.sink = sink;
    }

    @Override
    public void accept(Datagram datagram) {
        long now = datagram.receivedMicros();
        latestMicros = Math.max(latestMicros, now);
        Sender sender = sender(datagram.sender(), now);
        if (sender == null) {
            leftOut++;
            return;
        }
        // First, as a tick would have: a recording has no ticks between its datagrams.
        if (now - advancedMicros >= TICK_MICROS) {
            advanceTo(now);
        } else {
            route(sender, sender.advanceTo(now), now);
        }
        route(sender, sender.decode(datagram), now);
    }

    @Override
    public void advanceTo(long nowMicros) {
        latestMicros = Math.max(latestMicros, nowMicros);
        advancedMicros = nowMicros;
        for (Sender sender : senders.values()) {
            route(sender, sender.advanceTo(nowMicros), nowMicros);
        }
    }

    /** Gives out all that is still held, at the end of the feed. */
    public void finish() {
        if (latestMicros != Long.MIN_VALUE) {
            advanceTo(latestMicros + WAIT_MICROS);
        }
        for (Sender sender : senders.values()) {
            sender.aircraft().values().forEach(Aircraft::flush);
        }
    }

    /**
     * The senders heard, the longest silent first.
     *
     * @return a copy
     */
    public List<SenderReport> senders() {
        return senders.values().stream().map(Sender::report).toList();
    }

    /**
     * The seats, the longest silent sender's first, each sender's in order of appearance.
     *
     * @return a copy
     */
    public List<SeatReport> seats() {
        return senders.values().stream()
                .flatMap(sender -> sender.aircraft().values().stream())
                .map(Aircraft::report)
                .toList();
    }

    /**
     * Datagrams and samples left out because {@value #MOST} senders or aircraft are known already.
     *
     * @return 0 or more
     */
    public long leftOut() {
        return leftOut;
    }

    private void route(Sender sender, List<Decoded> found, long nowMicros) {
        for (Decoded one : found) {
            if (one instanceof Decoded.Sample sample) {
                // Not the time of decoding, which for a sample that waited is earlier live than in a recording.
                long receivedMicros = Math.round(sample.state().timeS() * 1e6);
                Aircraft aircraft = aircraft(sender, sample, receivedMicros);
                if (aircraft != null) {
                    aircraft.accept(sample, receivedMicros);
                }
            } else if (one instanceof Decoded.Control control) {
                for (Aircraft aircraft : List.copyOf(sender.aircraft().values())) {
                    if (control.aircraft().isEmpty()
                            || control.aircraft().equals(aircraft.key().aircraft())) {
                        aircraft.control(control.what(), nowMicros);
                    }
                }
            }
        }
    }

    private @Nullable Sender sender(InetSocketAddress address, long nowMicros) {
        Sender known = senders.get(address);
        if (known != null) {
            return known;
        }
        if (senders.size() >= MOST && !forgetOldest(nowMicros)) {
            return null;
        }
        Sender fresh = new Sender(address, formats);
        senders.put(address, fresh);
        return fresh;
    }

    private boolean forgetOldest(long nowMicros) {
        Iterator<Sender> oldestFirst = senders.values().iterator();
        Sender oldest = oldestFirst.next();
        if (nowMicros - oldest.heardMicros() < FORGOTTEN_MICROS) {
            return false;
        }
        oldestFirst.remove();
        oldest.aircraft().values().forEach(Aircraft::flush);
        seatCount -= oldest.aircraft().size();
        return true;
    }

    private @Nullable Aircraft aircraft(Sender sender, Decoded.Sample sample, long receivedMicros) {
        Aircraft known = sender.aircraft().get(sample.aircraft());
        if (known != null) {
            return known;
        }
        SeatKey key = new SeatKey(sender.address(), sample.aircraft());
        if (!choice.follows(key, sample)) {
            return null;
        }
        if (seatCount >= MOST) {
            leftOut++;
            return null;
        }
        Aircraft aircraft = movedFromElsewhere(sender, sample.aircraft(), receivedMicros);
        if (aircraft == null) {
            seatCount++;
            aircraft = new Aircraft(key, sink);
            sink.heard(key, sample.marking(), sender.report().format().orElse(""));
        }
        sender.aircraft().put(sample.aircraft(), aircraft);
        return aircraft;
    }

    /** The aircraft of the same name that fell silent on another port of the same address, if there is just one. */
    private @Nullable Aircraft movedFromElsewhere(Sender sender, String name, long receivedMicros) {
        List<Sender> silent = new ArrayList<>();
        for (Sender other : senders.values()) {
            Aircraft aircraft = other.aircraft().get(name);
            if (aircraft != null
                    && other != sender
                    && other.address().getAddress().equals(sender.address().getAddress())
                    && receivedMicros - aircraft.heardMicros() >= GONE_MICROS) {
                silent.add(other);
            }
        }
        if (silent.size() != 1) {
            return null;
        }
        Aircraft moved = silent.get(0).aircraft().remove(name);
        if (moved != null) {
            moved.note("its sender went on from port " + sender.address().getPort(), receivedMicros);
        }
        return moved;
    }
}
