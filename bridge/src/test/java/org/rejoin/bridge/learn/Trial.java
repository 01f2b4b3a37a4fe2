package org.rejoin.bridge.learn;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.profile.Profile;
import org.rejoin.protocol.profile.Quantity;
import org.rejoin.protocol.yaml.YamlException;

/** One random layout, flown, learnt and compared with the truth by what both decode. */
record Trial(
        long seed, RandomLayout.Kind kind, Profile truth, Learned learned, List<String> wrong, List<String> absent) {

    private static final List<RandomLayout.Kind> KINDS = List.of(
            RandomLayout.Kind.BINARY,
            RandomLayout.Kind.TEXT,
            RandomLayout.Kind.BINARY,
            RandomLayout.Kind.KEYED,
            RandomLayout.Kind.BINARY,
            RandomLayout.Kind.JSON,
            RandomLayout.Kind.RECORDS,
            RandomLayout.Kind.BINARY,
            RandomLayout.Kind.LETTERED,
            RandomLayout.Kind.NESTED,
            RandomLayout.Kind.BINARY,
            RandomLayout.Kind.WIDE,
            RandomLayout.Kind.LINES);

    static Trial run(long seed, double windKt) {
        Random random = new Random(seed);
        RandomLayout.Kind kind = KINDS.get((int) (seed % KINDS.size()));
        RandomLayout layout = new RandomLayout(random, kind);
        FlownScript flight = new FlownScript(random, 5, windKt);
        List<Datagram> datagrams = new ArrayList<>();
        InetSocketAddress sender = new InetSocketAddress(InetAddress.getLoopbackAddress(), 40_000);
        for (FlownScript.Moment moment : flight.moments()) {
            long micros = 1_780_000_000_000_000L + Math.round(moment.timeS() * 1e6) + Math.abs(random.nextInt(8000));
            datagrams.add(Datagram.of(micros, sender, layout.send(moment)));
        }
        Known known = new Known(OptionalDouble.empty(), OptionalDouble.empty(), FlownScript.YEAR);
        Learned learned = new Learner(known).learn(datagrams);
        return compare(seed, kind, layout.truth(), learned, datagrams);
    }

    boolean right() {
        return wrong.isEmpty() && absent.isEmpty();
    }

    private static Trial compare(
            long seed, RandomLayout.Kind kind, Profile truth, Learned learned, List<Datagram> datagrams) {
        List<String> wrong = new ArrayList<>();
        List<String> absent = new ArrayList<>(learned.missing());
        Optional<Profile> profile = learned.profile("learned");
        if (profile.isPresent()) {
            Profile back = readBack(learned);
            List<AircraftState> expected = decode(truth, datagrams);
            List<AircraftState> got = decode(back, datagrams);
            if (expected.size() != got.size()) {
                wrong.add(got.size() + " samples of " + expected.size());
            } else {
                for (var value : back.values()) {
                    if (value.is() != Quantity.TIME && !same(value.is(), expected, got)) {
                        wrong.add(value.is().text());
                    }
                }
            }
        }
        return new Trial(seed, kind, truth, learned, wrong, absent);
    }

    private static Profile readBack(Learned learned) {
        try {
            return Profile.parse(learned.yaml("learned"));
        } catch (YamlException e) {
            throw new AssertionError(learned.yaml("learned"), e);
        }
    }

    private static List<AircraftState> decode(Profile profile, List<Datagram> datagrams) {
        WireFormat.Decoder decoder = profile.newDecoder();
        return datagrams.stream()
                .flatMap(d -> decoder.decode(d).stream())
                .filter(Decoded.Sample.class::isInstance)
                .map(d -> ((Decoded.Sample) d).state())
                .toList();
    }

    private static boolean same(Quantity is, List<AircraftState> expected, List<AircraftState> got) {
        for (int i = 0; i < expected.size(); i += 7) {
            AircraftState a = expected.get(i);
            AircraftState b = got.get(i);
            double off = switch (is) {
                case LATITUDE -> 1e4 * (a.latitudeDeg() - b.latitudeDeg());
                case LONGITUDE -> 1e4 * (a.longitudeDeg() - b.longitudeDeg());
                case ALTITUDE_MSL -> off(a.altitudeMslFt(), b.altitudeMslFt()) / 50;
                case TRUE_HEADING -> turn(off(a.headingTrueDeg(), b.headingTrueDeg()));
                case MAGNETIC_HEADING -> turn(off(a.headingMagneticDeg(), b.headingMagneticDeg()));
                case TRUE_TRACK -> turn(off(a.trackTrueDeg(), b.trackTrueDeg()));
                case GROUND_SPEED -> off(a.groundSpeedKt(), b.groundSpeedKt());
                case VELOCITY_NORTH, VELOCITY_EAST, ECEF_VELOCITY_X, ECEF_VELOCITY_Y, ECEF_VELOCITY_Z ->
                    Math.max(
                            Math.abs(off(a.groundSpeedKt(), b.groundSpeedKt())),
                            Math.abs(turn(off(a.trackTrueDeg(), b.trackTrueDeg()))));
                case VERTICAL_SPEED, VELOCITY_DOWN -> off(a.verticalSpeedFpm(), b.verticalSpeedFpm()) / 20;
                case ECEF_X, ECEF_Y, ECEF_Z ->
                    Math.abs(1e4 * (a.latitudeDeg() - b.latitudeDeg()))
                            + Math.abs(1e4 * (a.longitudeDeg() - b.longitudeDeg()))
                            + Math.abs(off(a.altitudeMslFt(), b.altitudeMslFt()) / 50);
                case ROLL -> off(a.rollDeg(), b.rollDeg()) * 5;
                case PITCH -> off(a.pitchDeg(), b.pitchDeg()) * 5;
                case INDICATED_AIRSPEED -> 0; // a decoy here; its own test has the figures
                default -> 2;
            };
            if (!(Math.abs(off) <= 1)) {
                return false;
            }
        }
        return true;
    }

    private static double off(OptionalDouble a, OptionalDouble b) {
        return a.isPresent() == b.isPresent() ? a.orElse(0) - b.orElse(0) : Double.NaN;
    }

    private static double turn(double off) {
        return Math.IEEEremainder(off, 360) * 10;
    }
}
