package org.rejoin.bridge.feed;

import java.net.InetSocketAddress;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.WireFormat;

import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** One sender: the format it speaks, the decoder that remembers its last words, and what came of its datagrams. */
final class Sender implements Decoded.Reader {

    private static final Logger LOG = LoggerFactory.getLogger(Sender.class);
    /** A format once recognised is kept until so many datagrams in a row make no sense in it. */
    private static final int FAILURES = 20;

    private static final int SHOWN = 64;

    private final InetSocketAddress address;
    private final List<WireFormat> formats;
    private final Map<String, Aircraft> aircraft = new LinkedHashMap<>();
    private final Map<String, Unidentified> unidentified = new LinkedHashMap<>();
    private @Nullable WireFormat format;
    private WireFormat.@Nullable Decoder decoder;
    private int failures;
    private long heardMicros;
    private long datagrams;
    private long samples;
    private long notPositions;
    private long malformed;
    private final FaultKinds faults = new FaultKinds();
    private long unrecognised;

    Sender(InetSocketAddress address, List<WireFormat> formats) {
        this.address = address;
        this.formats = formats;
    }

    List<Decoded> decode(Datagram datagram) {
        datagrams++;
        heardMicros = datagram.receivedMicros();
        if (format == null || failures >= FAILURES) {
            recognise(datagram);
        }
        if (decoder == null) {
            if (unrecognised++ == 0) {
                LOG.debug("{}: in no format known here: {}", address, hex(datagram));
            }
            return List.of();
        }
        List<Decoded> found = decoder.decode(datagram);
        count(found, datagram);
        return found;
    }

    /** What became complete by waiting. */
    List<Decoded> advanceTo(long nowMicros) {
        if (decoder == null) {
            return List.of();
        }
        List<Decoded> found = decoder.advanceTo(nowMicros);
        count(found, null);
        return found;
    }

    InetSocketAddress address() {
        return address;
    }

    long heardMicros() {
        return heardMicros;
    }

    /** By their names in this sender's format. */
    Map<String, Aircraft> aircraft() {
        return aircraft;
    }

    /** Aircraft of which it is not known yet whether they are new, by the same names. */
    Map<String, Unidentified> unidentified() {
        return unidentified;
    }

    /** Whether its clock tells the time of day. */
    boolean tellsUtc() {
        return format != null && format.tellsUtc();
    }

    AircraftSorter.SenderReport report() {
        return new AircraftSorter.SenderReport(
                address,
                Optional.ofNullable(format).map(WireFormat::name),
                datagrams,
                samples,
                notPositions,
                malformed,
                unrecognised,
                faults.said());
    }

    private void recognise(Datagram datagram) {
        failures = 0;
        for (WireFormat candidate : formats) {
            if (candidate.recognises(datagram)) {
                if (candidate != format) {
                    LOG.debug("{}: {}", address, candidate.name());
                    format = candidate;
                    decoder = candidate.newDecoder();
                }
                return;
            }
        }
    }

    private void count(List<Decoded> found, @Nullable Datagram datagram) {
        if (found.isEmpty()) {
            return;
        }
        long before = malformed;
        for (Decoded one : found) {
            if (one instanceof Decoded.Other other) {
                other.readBy(this);
            } else {
                samples++;
            }
        }
        long bad = malformed - before;
        if (before == 0 && bad > 0 && datagram != null) {
            LOG.debug("{}: {}: {}", address, faults.said(), hex(datagram));
        }
        failures = bad < found.size() ? 0 : failures + 1;
    }

    @Override
    public void notAPosition(Decoded.NotAPosition message) {
        notPositions++;
    }

    @Override
    public void control(Decoded.Control control) {}

    @Override
    public void remark(Decoded.Remark remark) {}

    @Override
    public void malformed(Decoded.Malformed fault) {
        malformed++;
        faults.add(fault);
    }

    private static String hex(Datagram datagram) {
        byte[] start = new byte[Math.min(SHOWN, datagram.length())];
        datagram.payload().get(0, start);
        String more = datagram.length() > SHOWN ? " ... (" + datagram.length() + " octets)" : "";
        return HexFormat.ofDelimiter(" ").formatHex(start) + more;
    }
}
