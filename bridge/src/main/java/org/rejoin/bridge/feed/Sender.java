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
final class Sender {

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
    private @Nullable String firstFault;
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
                Optional.ofNullable(firstFault));
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
        boolean sense = false;
        boolean nonsense = false;
        for (Decoded one : found) {
            if (one instanceof Decoded.Malformed bad) {
                nonsense = true;
                if (malformed++ == 0) {
                    firstFault = "found " + bad.found() + ", expected " + bad.expected();
                    LOG.debug(
                            "{}: octet {}: found {}, expected {}: {}",
                            address,
                            bad.offset(),
                            bad.found(),
                            bad.expected(),
                            datagram == null ? "" : hex(datagram));
                }
            } else {
                sense = true;
                samples += one instanceof Decoded.Sample ? 1 : 0;
                notPositions += one instanceof Decoded.NotAPosition ? 1 : 0;
            }
        }
        failures = sense ? 0 : nonsense ? failures + 1 : failures;
    }

    private static String hex(Datagram datagram) {
        byte[] start = new byte[Math.min(SHOWN, datagram.length())];
        datagram.payload().get(0, start);
        String more = datagram.length() > SHOWN ? " ... (" + datagram.length() + " octets)" : "";
        return HexFormat.ofDelimiter(" ").formatHex(start) + more;
    }
}
