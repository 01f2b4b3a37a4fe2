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

    /** What they say is held, and no flood fills the memory. */
    private static final int MOST_NEWCOMERS = 64;
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
     * @param firstFault of the first malformed piece, what was found and what was expected; empty if there was none
     */
    public record SenderReport(
            InetSocketAddress sender,
            Optional<String> format,
            long datagrams,
            long samples,
            long notPositions,
            long malformed,
            long unrecognised,
            Optional<String> firstFault) {}

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
        settleNewcomers();
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
                control(sender, control, nowMicros);
            }
        }
    }

    private static void control(Sender sender, Decoded.Control control, long nowMicros) {
        for (Aircraft aircraft : List.copyOf(sender.aircraft().values())) {
            if (control.aircraft().isEmpty()
                    || control.aircraft().equals(aircraft.key().aircraft())) {
                aircraft.control(control.what(), nowMicros);
            }
        }
        sender.newcomers().forEach((name, newcomer) -> {
            if (control.aircraft().isEmpty() || control.aircraft().equals(name)) {
                newcomer.hold(control, nowMicros);
            }
        });
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
        oldest.aircraft().clear();
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
        Newcomer newcomer = sender.newcomers().get(sample.aircraft());
        if (newcomer == null && seatCount >= MOST) {
            leftOut++;
            return null;
        }
        if (newcomer == null) {
            boolean full = senders.values().stream()
                            .mapToInt(each -> each.newcomers().size())
                            .sum()
                    >= MOST_NEWCOMERS;
            newcomer = Newcomer.after(full ? List.of() : elders(sender, sample.aircraft()), receivedMicros);
        }
        if (newcomer.isOpen(receivedMicros)) {
            newcomer.hold(sample, receivedMicros);
            sender.newcomers().put(sample.aircraft(), newcomer);
            return null;
        }
        return settled(sender, newcomer, key, sample, receivedMicros);
    }

    /** Whose sample this is; what was held is given first. */
    private @Nullable Aircraft settled(
            Sender sender, Newcomer newcomer, SeatKey key, Decoded.Sample sample, long receivedMicros) {
        sender.newcomers().remove(key.aircraft());
        Optional<Newcomer.Elder> same = newcomer.same();
        if (same.isEmpty() && seatCount >= MOST) {
            leftOut++;
            return null;
        }
        Aircraft aircraft = same.map(Newcomer.Elder::taken).orElseGet(() -> new Aircraft(key, sink));
        sender.aircraft().put(key.aircraft(), aircraft);
        if (same.isPresent()) {
            aircraft.note("its sender went on from port " + sender.address().getPort(), receivedMicros);
        } else {
            seatCount++;
            sink.heard(key, sample.marking(), sender.report().format().orElse(""));
        }
        newcomer.giveTo(aircraft);
        return aircraft;
    }

    /** At the end: who has stayed silent is the one who came back. */
    private void settleNewcomers() {
        for (Sender sender : List.copyOf(senders.values())) {
            for (Map.Entry<String, Newcomer> each :
                    List.copyOf(sender.newcomers().entrySet())) {
                SeatKey key = new SeatKey(sender.address(), each.getKey());
                each.getValue().first().ifPresent(first -> settled(sender, each.getValue(), key, first, latestMicros));
            }
        }
    }

    /** The aircraft of that name on other ports of the same address. */
    private List<Newcomer.Elder> elders(Sender sender, String name) {
        List<Newcomer.Elder> elders = new ArrayList<>();
        for (Sender other : senders.values()) {
            Aircraft aircraft = other.aircraft().get(name);
            if (aircraft != null
                    && other != sender
                    && other.address().getAddress().equals(sender.address().getAddress())) {
                elders.add(new Newcomer.Elder(other, aircraft, aircraft.heardMicros()));
            }
        }
        return elders;
    }
}
