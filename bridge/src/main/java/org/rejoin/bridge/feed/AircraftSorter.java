package org.rejoin.bridge.feed;

import java.net.InetSocketAddress;
import java.util.ArrayList;
import java.util.HashMap;
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
 * Confined to one thread, the feed's or, for a recording, the caller's. What it gives for an aircraft depends on the
 * datagrams and their times of receipt alone, never on when {@link #advanceTo} is called.
 */
public final class AircraftSorter implements DatagramSink {

    /** Senders and aircraft remembered at most; more are counted and left out, so that no flood fills the memory. */
    public static final int MOST = 4096;

    /** What they say is held, and no flood fills the memory. */
    private static final int MOST_UNIDENTIFIED = 64;
    /** After so long a sender makes room for another when there is none left. */
    private static final long FORGOTTEN_MICROS = 60_000_000;
    /** More than any decoder waits for the rest of a state. */
    private static final long WAIT_MICROS = 10_000_000;

    private static final long TICK_MICROS = 50_000;

    private final List<WireFormat> formats;
    private final AircraftChoice choice;
    private final AircraftSink sink;
    private final Map<InetSocketAddress, Sender> senders = new LinkedHashMap<>(16, 0.75f, true);
    /** Aircraft that go on from another port, by the ports that lost them. */
    private final Map<AircraftKey, Aircraft> lost = new HashMap<>();

    private int aircraftCount;
    private long advancedMicros;
    private long latestMicros = Long.MIN_VALUE;
    private long leftOut;

    /**
     * One sender so far.
     *
     * @param format name of the format it speaks; empty if none was recognised
     * @param notPositions well formed pieces that are no samples
     * @param malformed pieces that are not what their format asks for
     * @param unrecognised datagrams in no known format
     * @param faults of the first malformed piece of each kind, what was found and what was expected
     */
    public record SenderReport(
            InetSocketAddress sender,
            Optional<String> format,
            long datagrams,
            long samples,
            long notPositions,
            long malformed,
            long unrecognised,
            List<String> faults) {

        /** The first of them; empty where all was well formed. */
        public Optional<String> firstFault() {
            return faults.stream().findFirst();
        }
    }

    /**
     * One aircraft so far.
     *
     * @param marking callsign or marking last heard; empty text where unsent
     * @param late of these, left out because a later one had come before, or the same one twice
     * @param timeBase the clock of its times; empty until chosen
     */
    public record AircraftReport(
            AircraftKey aircraft, String marking, long samples, long late, Optional<TimeBase> timeBase) {}

    /** No sender yet. */
    public AircraftSorter(List<WireFormat> formats, AircraftChoice choice, AircraftSink sink) {
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
        settleUnidentified();
        for (Sender sender : senders.values()) {
            sender.aircraft().values().forEach(Aircraft::flush);
        }
    }

    /** {@return whether a sender is heard of whose aircraft it is not known yet whether they are others' that go on there} */
    public boolean isOpen(InetSocketAddress sender) {
        Sender known = senders.get(sender);
        return known != null && !known.unidentified().isEmpty();
    }

    /** {@return whether an aircraft was heard from a sender, its own or perhaps another's that goes on there} */
    public boolean flies(InetSocketAddress sender) {
        Sender known = senders.get(sender);
        return known != null && !manages(known);
    }

    /** {@return the senders heard, the longest silent first, a copy} */
    public List<SenderReport> senders() {
        return senders.values().stream().map(Sender::report).toList();
    }

    /** {@return a copy: the aircraft of the longest silent sender first, each sender's in order of appearance} */
    public List<AircraftReport> aircraft() {
        return senders.values().stream()
                .flatMap(sender -> sender.aircraft().values().stream())
                .map(Aircraft::report)
                .toList();
    }

    /** Datagrams and samples left out because {@value #MOST} senders or aircraft are known already. */
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
            } else if (one instanceof Decoded.Other other) {
                other.readBy(new Routing(sender, nowMicros));
            }
        }
    }

    /** Where a sender's words go that are no sample; those without an aircraft are counted by the sender alone. */
    private final class Routing implements Decoded.Reader {
        private final Sender sender;
        private final long nowMicros;

        Routing(Sender sender, long nowMicros) {
            this.sender = sender;
            this.nowMicros = nowMicros;
        }

        @Override
        public void notAPosition(Decoded.NotAPosition message) {}

        @Override
        public void control(Decoded.Control control) {
            if (manages(sender)) {
                List.copyOf(senders.values()).forEach(each -> AircraftSorter.control(each, control, nowMicros));
            } else {
                AircraftSorter.control(sender, control, nowMicros);
            }
        }

        @Override
        public void remark(Decoded.Remark remark) {
            Aircraft whose = sender.aircraft().get(remark.aircraft());
            if (whose != null) {
                whose.note(remark.text(), nowMicros);
            }
        }

        @Override
        public void malformed(Decoded.Malformed fault) {}
    }

    /** Who flies nothing speaks for the exercise; who flies, for what it flies. */
    private static boolean manages(Sender sender) {
        return sender.aircraft().isEmpty() && sender.unidentified().isEmpty();
    }

    private static void control(Sender sender, Decoded.Control control, long nowMicros) {
        for (Aircraft aircraft : List.copyOf(sender.aircraft().values())) {
            if (control.concerns(aircraft.key().aircraft(), aircraft.exercise())) {
                aircraft.control(control.what(), nowMicros);
            }
        }
        sender.unidentified().forEach((name, one) -> {
            if (control.concerns(name, one.exercise())) {
                one.hold(control.what(), nowMicros);
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
        aircraftCount -= oldest.aircraft().size();
        lost.values().removeIf(oldest.aircraft()::containsValue);
        oldest.aircraft().clear();
        return true;
    }

    private @Nullable Aircraft aircraft(Sender sender, Decoded.Sample sample, long receivedMicros) {
        Aircraft known = sender.aircraft().get(sample.aircraft());
        if (known != null) {
            return known;
        }
        AircraftKey key = new AircraftKey(sender.address(), sample.aircraft());
        Aircraft own = lost.get(key);
        if (own != null) {
            return takenBack(sender, own, receivedMicros);
        }
        if (!choice.follows(key, sample)) {
            return null;
        }
        Unidentified one = sender.unidentified().get(sample.aircraft());
        if (one == null && aircraftCount >= MOST) {
            leftOut++;
            return null;
        }
        if (one == null) {
            boolean full = senders.values().stream()
                            .mapToInt(each -> each.unidentified().size())
                            .sum()
                    >= MOST_UNIDENTIFIED;
            one = Unidentified.among(full ? List.of() : candidates(sender, sample, receivedMicros), receivedMicros);
        }
        if (one.isOpen(receivedMicros)) {
            one.hold(sample, receivedMicros);
            sender.unidentified().put(sample.aircraft(), one);
            return null;
        }
        return settled(sender, one, key, sample, receivedMicros);
    }

    /** Whose sample this is; what was held is given first. */
    private @Nullable Aircraft settled(
            Sender sender, Unidentified one, AircraftKey key, Decoded.Sample sample, long receivedMicros) {
        sender.unidentified().remove(key.aircraft());
        Optional<Unidentified.Candidate> same = one.same();
        if (same.isEmpty() && aircraftCount >= MOST) {
            leftOut++;
            return null;
        }
        Aircraft aircraft;
        if (same.isPresent()) {
            aircraft = same.get().aircraft();
            same.get().from().aircraft().values().remove(aircraft);
            lost.put(new AircraftKey(aircraft.speaker(), key.aircraft()), aircraft);
            aircraft.goesOnFrom(sender.address(), receivedMicros);
        } else {
            aircraft = new Aircraft(
                    key,
                    sample.exercise(),
                    sink.heard(
                            key,
                            sample.marking(),
                            sender.report().format().orElse(""),
                            DayClock.of(one.first().orElse(sample), sender.tellsUtc())));
            aircraftCount++;
        }
        sender.aircraft().put(key.aircraft(), aircraft);
        one.giveTo(aircraft);
        return aircraft;
    }

    /**
     * A port whose aircraft was taken to go on from another port is heard again: it has its aircraft back, and whoever
     * spoke for it meanwhile is another one, told from its own beginning, if it ever speaks again.
     */
    private Aircraft takenBack(Sender sender, Aircraft aircraft, long receivedMicros) {
        String name = aircraft.key().aircraft();
        lost.values().removeIf(aircraft::equals);
        if (!sender.address().equals(aircraft.key().sender())) {
            lost.put(aircraft.key(), aircraft); // the first port of all may still come back
        }
        Said said = aircraft.backTo(sender.address(), receivedMicros);
        for (Sender other : senders.values()) {
            if (other.aircraft().remove(name, aircraft)) {
                other.unidentified().put(name, Unidentified.displaced(said));
            }
        }
        sender.aircraft().put(name, aircraft);
        return aircraft;
    }

    /** At the end: who has stayed silent is the one who came back. */
    private void settleUnidentified() {
        for (Sender sender : List.copyOf(senders.values())) {
            for (Map.Entry<String, Unidentified> each :
                    List.copyOf(sender.unidentified().entrySet())) {
                AircraftKey key = new AircraftKey(sender.address(), each.getKey());
                each.getValue().first().ifPresent(first -> settled(sender, each.getValue(), key, first, latestMicros));
            }
        }
    }

    /** The aircraft of that name on other ports of the same address from which a flight leads to this sample. */
    private List<Unidentified.Candidate> candidates(Sender sender, Decoded.Sample sample, long receivedMicros) {
        List<Unidentified.Candidate> candidates = new ArrayList<>();
        for (Sender other : senders.values()) {
            Aircraft aircraft = other.aircraft().get(sample.aircraft());
            if (aircraft != null
                    && other != sender
                    && other.address().getAddress().equals(sender.address().getAddress())
                    && aircraft.leadsTo(sample, receivedMicros)) {
                candidates.add(new Unidentified.Candidate(other, aircraft, aircraft.heardMicros()));
            }
        }
        return candidates;
    }
}
