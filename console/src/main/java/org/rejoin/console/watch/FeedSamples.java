package org.rejoin.console.watch;

import java.net.InetSocketAddress;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

import org.rejoin.bridge.feed.FaultKinds;
import org.rejoin.bridge.feed.SentMotion;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.SourceTime;
import org.rejoin.protocol.WireFormat;

import org.jspecify.annotations.Nullable;

/** Decodes datagrams in one format, a decoder for each sender, and counts what was no sample. */
public final class FeedSamples implements Decoded.Reader {

    /** More than any decoder waits for the rest of a state, microseconds. */
    private static final long WAIT_MICROS = 10_000_000;

    private static final int MOST_SENDERS = 4096;

    private final WireFormat format;
    private final Map<InetSocketAddress, WireFormat.Decoder> decoders = new LinkedHashMap<>();
    private final Map<String, Clock> clocks = new HashMap<>();
    private final List<String> remarks = new ArrayList<>();
    private double firstReceivedS = Double.NaN;
    private long lastMicros = Long.MIN_VALUE;
    private long datagrams;
    private long samples;
    private long notOurs;
    private long malformed;
    private long notPositions;
    private boolean understood;
    private boolean clock;
    private Decoded.@Nullable Malformed firstFault;
    private final FaultKinds faults = new FaultKinds();

    public FeedSamples(WireFormat format) {
        this.format = format;
    }

    /** One aircraft: the time of its last sample, and its motion as sent. */
    private record Clock(double timeS, Decoded.Sample sample, SentMotion motion) {}

    public List<FeedSample> accept(Datagram datagram) {
        datagrams++;
        lastMicros = Math.max(lastMicros, datagram.receivedMicros());
        WireFormat.Decoder decoder = decoders.get(datagram.sender());
        if (decoder == null) {
            if (decoders.size() >= MOST_SENDERS) {
                notOurs++;
                return List.of();
            }
            decoder = format.newDecoder();
            decoders.put(datagram.sender(), decoder);
        }
        List<Decoded> decoded = new ArrayList<>(decoder.advanceTo(datagram.receivedMicros()));
        List<Decoded> found = decoder.decode(datagram);
        understood = found.isEmpty() || !found.stream().allMatch(Decoded.Malformed.class::isInstance);
        if (understood || format.recognises(datagram)) {
            decoded.addAll(found);
        } else {
            notOurs++;
            found.stream().map(Decoded.Malformed.class::cast).forEach(this::remember);
        }
        return take(decoded, datagram.sender());
    }

    /** What waited for more that did not come. */
    public List<FeedSample> finish() {
        List<FeedSample> last = new ArrayList<>();
        if (datagrams > 0) {
            decoders.forEach(
                    (sender, decoder) -> last.addAll(take(decoder.advanceTo(lastMicros + WAIT_MICROS), sender)));
        }
        return last;
    }

    public long samples() {
        return samples;
    }

    /** Whether the last datagram held anything but faults. */
    boolean understoodLast() {
        return understood;
    }

    /** Whether the last sample carried the sender's clock. */
    boolean hasClock() {
        return clock;
    }

    public String counts() {
        return datagrams + " datagrams: " + samples + " samples, " + notOurs + " not ours, " + malformed + " malformed"
                + (notPositions > 0 ? ", " + notPositions + " messages beside them that carry no position" : "");
    }

    /** Why nothing was decoded, in one line. */
    public String why() {
        if (datagrams == 0) {
            return "there are no datagrams";
        }
        String fault = firstFault == null
                ? notPositions > 0 ? "no datagram has a position" : "no datagram could be read"
                : "found " + firstFault.found() + " at byte " + firstFault.offset() + ", expected "
                        + firstFault.expected();
        return "nothing decodes as \"" + format.name() + "\": " + fault + " (" + counts() + ")";
    }

    private List<FeedSample> take(List<Decoded> decoded, InetSocketAddress sender) {
        List<FeedSample> out = new ArrayList<>();
        for (Decoded one : decoded) {
            if (one instanceof Decoded.Sample sample) {
                samples++;
                clock = sample.source().isPresent();
                out.add(new FeedSample(timeS(sample, sender), sample.aircraft(), sample.state()));
            } else if (one instanceof Decoded.Other other) {
                other.readBy(this);
            }
        }
        return out;
    }

    @Override
    public void notAPosition(Decoded.NotAPosition message) {
        notPositions++;
    }

    @Override
    public void control(Decoded.Control control) {
        notPositions++;
    }

    @Override
    public void remark(Decoded.Remark remark) {
        remarks.add(remark.text());
    }

    @Override
    public void malformed(Decoded.Malformed fault) {
        malformed++;
        remember(fault);
    }

    /** What is to be said of what was read, one line each. */
    public List<String> remarks() {
        return Stream.concat(remarks.stream(), faults().stream()).toList();
    }

    /** The first of each kind of what could not be read, and what would be right. */
    List<String> faults() {
        return faults.said();
    }

    private void remember(Decoded.Malformed fault) {
        firstFault = firstFault == null ? fault : firstFault;
        faults.add(fault);
    }

    private double timeS(Decoded.Sample sample, InetSocketAddress sender) {
        String aircraft = sender + " " + sample.aircraft();
        double receivedS = sample.state().timeS();
        if (Double.isNaN(firstReceivedS)) {
            firstReceivedS = receivedS;
        }
        Clock last = clocks.get(aircraft);
        double timeS = last == null ? receivedS - firstReceivedS : last.timeS() + passed(last.sample(), sample);
        if (last != null || clocks.size() < MOST_SENDERS) {
            SentMotion motion = last == null ? new SentMotion() : last.motion();
            clocks.put(aircraft, new Clock(timeS, sample, motion));
            motion.used(sample.state().withTimeS(timeS));
            motion.said().ifPresent(remarks::add);
        }
        return timeS;
    }

    private static double passed(Decoded.Sample from, Decoded.Sample to) {
        if (from.source().isPresent() && to.source().isPresent()) {
            SourceTime earlier = from.source().get();
            return to.source().get().since(earlier);
        }
        return to.state().timeS() - from.state().timeS();
    }
}
