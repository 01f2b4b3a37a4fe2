package org.rejoin.console.truth;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.SplittableRandom;

import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Variation;
import org.rejoin.console.practice.PracticeAircraft;
import org.rejoin.console.recording.CaptureWriter;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.dis.DisFormat;
import org.rejoin.protocol.json.JsonFormat;
import org.rejoin.protocol.nmea.NmeaFormat;

/** Eight ways in which one flight reaches the program. */
enum Feed {
    DIS_5("DIS, 5 a second", false),
    NMEA_1("NMEA, 1 a second", false),
    JSON_20("JSON, 20 a second", false),
    JSON_2("JSON, 2 a second", false),
    JSON_COARSE("JSON, 1 a second, positions to 0.0001 degree, no track", true),
    NMEA_COARSE("NMEA, 1 a second, positions to 0.01 minute, whole degrees and knots", true),
    DIS_LOSSY("DIS, 5 a second, a quarter lost", false),
    JSON_JITTER("JSON, about 1 a second, irregular", false);

    /** Feeds by turns; the ones that send most come seldom, the coarse ones often. */
    static final List<Feed> BY_TURNS = List.of(
            DIS_5,
            NMEA_1,
            JSON_2,
            JSON_COARSE,
            NMEA_COARSE,
            DIS_LOSSY,
            JSON_JITTER,
            JSON_20,
            NMEA_1,
            JSON_2,
            JSON_COARSE,
            NMEA_COARSE,
            JSON_JITTER,
            DIS_5,
            NMEA_COARSE,
            JSON_COARSE,
            JSON_JITTER);

    private static final InetSocketAddress SENDER = new InetSocketAddress(InetAddress.getLoopbackAddress(), 41_000);
    private static final InetSocketAddress RECEIVER = new InetSocketAddress(InetAddress.getLoopbackAddress(), 3000);
    private static final long EPOCH_MICROS = 1_780_315_200_000_000L;

    /** The variation is looked up every half minute of the flight, where it has changed by some hundredths of a degree. */
    private static final int VARIATION_EVERY = 30 * Flown.HZ;

    private final String words;
    private final boolean coarse;

    Feed(String words, boolean coarse) {
        this.words = words;
        this.coarse = coarse;
    }

    String words() {
        return words;
    }

    boolean coarse() {
        return coarse;
    }

    /**
     * A state and when it arrives.
     *
     * @param receivedS seconds since the first
     * @param state sent; its own time may differ, as in a pause
     */
    record Sent(double receivedS, AircraftState state) {}

    void write(Flown flown, Path file) throws IOException {
        write(sent(flown.states()), file);
    }

    /** What a simulator would send of a flight at this feed's rate, nothing lost yet. */
    List<Sent> sent(List<PracticeAircraft> states) {
        SplittableRandom random = new SplittableRandom(states.size() * 8L + List.of(values()).indexOf(this));
        List<Sent> all = new ArrayList<>();
        Variation variation = new Variation(0);
        int variationOf = -VARIATION_EVERY;
        for (int i = 0; i < states.size(); i += every()) {
            int index = i;
            double lateS = 0;
            if (this == JSON_JITTER && i > 0) {
                index = Math.min(states.size() - 1, i + random.nextInt(9) - 4);
                lateS = 0.12 * random.nextDouble();
            }
            if (this == DIS_LOSSY && i > 0 && random.nextInt(4) == 0) {
                continue;
            }
            PracticeAircraft aircraft = states.get(index);
            if (index - variationOf >= VARIATION_EVERY) {
                variationOf = index;
                variation = MagneticModel.WMM2025.variation(aircraft.position(), aircraft.altitudeFt(), Task.DATE);
            }
            AircraftState state = aircraft.state(variation);
            all.add(new Sent(state.timeS() + lateS, state));
        }
        return all;
    }

    void write(List<Sent> all, Path file) throws IOException {
        WireFormat.Encoder encoder = format().newEncoder();
        try (CaptureWriter writer = CaptureWriter.create(file, RECEIVER)) {
            for (Sent each : all) {
                long micros = EPOCH_MICROS + Math.round(each.receivedS() * 1e6);
                for (byte[] payload : payloads(encoder, each.state())) {
                    writer.write(Datagram.of(micros, SENDER, payload));
                }
            }
        }
    }

    private WireFormat format() {
        return switch (this) {
            case DIS_5, DIS_LOSSY -> new DisFormat();
            case NMEA_1, NMEA_COARSE -> new NmeaFormat();
            case JSON_20, JSON_2, JSON_COARSE, JSON_JITTER -> new JsonFormat();
        };
    }

    private int every() {
        return switch (this) {
            case JSON_20 -> 1;
            case DIS_5, DIS_LOSSY -> 4;
            case JSON_2 -> 10;
            case NMEA_1, NMEA_COARSE, JSON_COARSE, JSON_JITTER -> 20;
        };
    }

    private List<byte[]> payloads(WireFormat.Encoder encoder, AircraftState state) {
        return switch (this) {
            case JSON_COARSE -> encoder.encode(coarse(state));
            case NMEA_COARSE -> List.of(sentences(state).getBytes(StandardCharsets.US_ASCII));
            default -> encoder.encode(state);
        };
    }

    private static AircraftState coarse(AircraftState s) {
        OptionalDouble none = OptionalDouble.empty();
        return new AircraftState(
                s.timeS(),
                Math.round(s.latitudeDeg() * 1e4) / 1e4,
                Task.wrapped(Math.round(s.longitudeDeg() * 1e4) / 1e4),
                s.altitudeMslFt(),
                s.headingTrueDeg(),
                s.headingMagneticDeg(),
                none,
                none,
                none,
                none,
                s.rollDeg(),
                none,
                s.paused());
    }

    private static String sentences(AircraftState s) {
        long second = Math.round(s.timeS());
        String utc = String.format(Locale.ROOT, "%02d%02d%02d.00", second / 3600 % 24, second / 60 % 60, second % 60);
        String position = minutes(s.latitudeDeg(), 2)
                + (s.latitudeDeg() < 0 ? ",S," : ",N,")
                + minutes(s.longitudeDeg(), 3)
                + (s.longitudeDeg() < 0 ? ",W" : ",E");
        List<String> bodies = new ArrayList<>();
        bodies.add(String.format(
                Locale.ROOT,
                "GPRMC,%s,A,%s,%d,%d,,,,S",
                utc,
                position,
                Math.round(s.groundSpeedKt().orElse(0)),
                Math.round(s.trackTrueDeg().orElse(0)) % 360));
        bodies.add(String.format(
                Locale.ROOT,
                "GPGGA,%s,%s,8,10,0.9,%d,M,,M,,",
                utc,
                position,
                Math.round(s.altitudeMslFt().orElse(0) * 0.3048)));
        bodies.add("HEHDT," + Math.round(s.headingTrueDeg().orElse(0)) % 360 + ",T");
        StringBuilder out = new StringBuilder();
        for (String body : bodies) {
            int sum = 0;
            for (int i = 0; i < body.length(); i++) {
                sum ^= body.charAt(i);
            }
            out.append('$')
                    .append(body)
                    .append('*')
                    .append(String.format(Locale.ROOT, "%02X", sum))
                    .append("\r\n");
        }
        return out.toString();
    }

    private static String minutes(double degrees, int digits) {
        long hundredths = Math.round(Math.abs(degrees) * 6000);
        return String.format(
                Locale.ROOT,
                "%0" + digits + "d%02d.%02d",
                hundredths / 6000,
                hundredths % 6000 / 100,
                hundredths % 100);
    }
}
