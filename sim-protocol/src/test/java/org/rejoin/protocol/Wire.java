package org.rejoin.protocol;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.OptionalDouble;

/** The reference state of the wire format tables, and short ways to write datagrams down. */
public final class Wire {

    /** Loopback, so that no name is looked up. */
    public static final InetSocketAddress SENDER = new InetSocketAddress(InetAddress.getLoopbackAddress(), 49_000);

    /** 2026-06-01 21:14:34 UTC, microseconds. */
    public static final long T0 = 1_780_348_474_000_000L;

    private Wire() {}

    /** 30.5 N 145.25 W in open ocean, 6000 ft, heading 270, track 262, 118 kt, -700 ft/min, pitch 3, roll -20. */
    public static AircraftState referenceState(double timeS) {
        return new AircraftState(
                timeS,
                30.5,
                -145.25,
                OptionalDouble.of(6000),
                OptionalDouble.of(270),
                OptionalDouble.of(256.8),
                OptionalDouble.of(262),
                OptionalDouble.of(118),
                OptionalDouble.of(-700),
                OptionalDouble.of(3),
                OptionalDouble.of(-20),
                OptionalDouble.empty(),
                false);
    }

    /** A turn at standard rate over open ocean from the reference position, with numbers of all their digits. */
    public static List<AircraftState> flight(int samples, double hz) {
        List<AircraftState> flight = new ArrayList<>();
        double latitude = 30.5;
        double longitude = -145.25;
        for (int i = 0; i < samples; i++) {
            double track = (262 + 3 * i / hz) % 360;
            flight.add(new AircraftState(
                    754.5 + i / hz,
                    latitude,
                    longitude,
                    OptionalDouble.of(6000 - 700 / 60.0 * i / hz),
                    OptionalDouble.of((track + 8) % 360),
                    OptionalDouble.of((track + 354.8) % 360),
                    OptionalDouble.of(track),
                    OptionalDouble.of(118),
                    OptionalDouble.of(-700),
                    OptionalDouble.of(3),
                    OptionalDouble.of(-20),
                    OptionalDouble.of(104.3),
                    false));
            latitude += 118 / 3600.0 / hz / 60 * Math.cos(Math.toRadians(track));
            longitude += 118 / 3600.0 / hz / 60 * Math.sin(Math.toRadians(track)) / Math.cos(Math.toRadians(latitude));
        }
        return flight;
    }

    /** The first three sentences that our encoder writes. */
    public static Datagram rmcGgaHdt(long micros, byte[] sentences) {
        List<String> lines =
                new String(sentences, StandardCharsets.US_ASCII).lines().toList();
        return text(micros, String.join("\r\n", lines.subList(0, 3)) + "\r\n");
    }

    public static byte[] hex(String octets) {
        return HexFormat.of().parseHex(octets.replaceAll("\\s", ""));
    }

    public static byte[] join(byte[]... parts) {
        int length = 0;
        for (byte[] part : parts) {
            length += part.length;
        }
        byte[] all = new byte[length];
        int at = 0;
        for (byte[] part : parts) {
            System.arraycopy(part, 0, all, at, part.length);
            at += part.length;
        }
        return all;
    }

    public static Datagram datagram(byte[] octets) {
        return Datagram.of(T0, SENDER, octets);
    }

    public static Datagram datagram(long micros, byte[] octets) {
        return Datagram.of(micros, SENDER, octets);
    }

    public static Datagram text(String text) {
        return text(T0, text);
    }

    public static Datagram text(long micros, String text) {
        return Datagram.of(micros, SENDER, text.getBytes(StandardCharsets.UTF_8));
    }

    /** The samples among what was decoded. */
    public static List<Decoded.Sample> samples(List<Decoded> decoded) {
        return only(decoded, Decoded.Sample.class);
    }

    public static List<Decoded.Malformed> faults(List<Decoded> decoded) {
        return only(decoded, Decoded.Malformed.class);
    }

    public static <T extends Decoded> List<T> only(List<Decoded> decoded, Class<T> type) {
        return decoded.stream().filter(type::isInstance).map(type::cast).toList();
    }

    /** The only sample. */
    public static AircraftState state(List<Decoded> decoded) {
        List<Decoded.Sample> samples = samples(decoded);
        if (samples.size() != 1) {
            throw new AssertionError("expected one sample, got " + decoded);
        }
        return samples.get(0).state();
    }

    /** What is said of bad input is printable, concise and has a place. */
    public static void requirePlainFaults(List<Decoded> decoded) {
        for (Decoded.Malformed fault : faults(decoded)) {
            // Plain conditions: a describing assertion for each of so many costs more than the decoding.
            boolean printable = fault.found().chars().allMatch(c -> c >= ' ' && c <= '~');
            boolean concise = fault.found().length() + fault.expected().length() < 400;
            if (fault.offset() < 0 || !printable || !concise) {
                throw new AssertionError(fault.toString());
            }
        }
    }
}
