package org.rejoin.bridge.learn;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.function.Function;
import java.util.stream.Stream;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.earth.Geodetic;
import org.rejoin.protocol.earth.LocalAxes;
import org.rejoin.protocol.earth.Vector3;
import org.rejoin.protocol.profile.Profile;
import org.rejoin.protocol.profile.Quantity;
import org.rejoin.protocol.yaml.YamlException;

import org.junit.jupiter.api.Named;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

/** Feeds as somebody writes them who wants to read them himself: tags, units, lines, degrees and minutes. */
class HandWrittenLayoutsTest {

    private static final InetSocketAddress SENDER = new InetSocketAddress(InetAddress.getLoopbackAddress(), 40_000);

    private static Named<Function<FlownScript.Moment, String>> layout(
            String name, Function<FlownScript.Moment, String> line) {
        return Named.of(name, line);
    }

    private static String text(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }

    /** Latitude, longitude, altitude, heading, ground speed and vertical speed, in this order. */
    private static String all(String format, FlownScript.Moment m) {
        return text(format, m.latitude(), m.longitude(), m.altitude(), m.heading(), m.groundSpeed(), m.verticalSpeed());
    }

    private static String minutes(double deg, char positive, char negative, boolean before) {
        double whole = Math.floor(Math.abs(deg));
        char letter = deg < 0 ? negative : positive;
        String number = text("%.0f %07.4f", whole, (Math.abs(deg) - whole) * 60);
        return before ? letter + number : number + " " + letter;
    }

    static Stream<Named<Function<FlownScript.Moment, String>>> layouts() {
        return Stream.of(
                layout(
                        "attributes of tags",
                        m -> all(
                                "<state id=\"1\"><pos lat=\"%.7f\" lon=\"%.7f\" alt=\"%.1f\"/><att h=\"%.2f\"/><v g=\"%.1f\" s=\"%.0f\"/></state>",
                                m)),
                layout(
                        "a tag on each line",
                        m -> all(
                                "<?xml version=\"1.0\"?>\r\n<a>\r\n<lat>%.7f</lat>\r\n<lon>%.7f</lon>\r\n<alt>%.1f</alt>\r\n<h>%.2f</h>\r\n<g>%.1f</g>\r\n<s>%.0f</s>\r\n</a>\r\n",
                                m)),
                layout(
                        "a name on each line",
                        m -> all("lat: %.7f\nlon: %.7f\nalt: %.1f\nheading: %.2f\nspeed: %.1f\nclimb: %.0f\n", m)),
                layout(
                        "units behind the numbers",
                        m -> text(
                                "[12:%02.0f:%04.1f] at %.6fdeg, %.6fdeg; %.0fft HDG%.1fdeg GS %.1fkt %+.0ffpm",
                                Math.floor(m.timeS() / 60),
                                m.timeS() % 60,
                                m.latitude(),
                                m.longitude(),
                                m.altitude(),
                                m.heading(),
                                m.groundSpeed(),
                                m.verticalSpeed())),
                layout(
                        "degrees and minutes, letters behind",
                        m -> text(
                                "POS %s %s ALT %.0f HDG %05.1f GS %.1f VS %.0f",
                                minutes(m.latitude(), 'N', 'S', false),
                                minutes(m.longitude(), 'E', 'W', false),
                                m.altitude(),
                                m.heading(),
                                m.groundSpeed(),
                                m.verticalSpeed())),
                layout(
                        "degrees and minutes, letters before",
                        m -> text(
                                "%s %s ALT%.0fFT HDG%05.1f GS%.1fKT VS%+.0f",
                                minutes(m.latitude(), 'N', 'S', true),
                                minutes(m.longitude(), 'E', 'W', true),
                                m.altitude(),
                                m.heading(),
                                m.groundSpeed(),
                                m.verticalSpeed())),
                layout(
                        "whole numbers of millionths and tenths",
                        m -> text(
                                "%d|%d|%d|%d|%d|%d",
                                Math.round(m.latitude() * 1e6),
                                Math.round(m.longitude() * 1e6),
                                Math.round(m.altitude()),
                                Math.round(m.heading() * 10),
                                Math.round(m.groundSpeed() * 10),
                                Math.round(m.verticalSpeed()))));
    }

    @ParameterizedTest
    @MethodSource("layouts")
    void isReadAsItWasFlown(Function<FlownScript.Moment, String> line) throws YamlException {
        List<FlownScript.Moment> flown = new FlownScript(new Random(8), 5, 18).moments();
        List<Datagram> sent = sent(flown, moment -> line.apply(moment).getBytes(StandardCharsets.UTF_8));
        Learned learned = learn(sent);
        assertThat(learned.missing()).as(learned.yaml("x")).isEmpty();
        WireFormat.Decoder decoder = Profile.parse(learned.yaml("x")).newDecoder();
        for (int i = 0; i < sent.size(); i += 11) {
            AircraftState state = decoder.decode(sent.get(i)).stream()
                    .filter(Decoded.Sample.class::isInstance)
                    .map(sample -> ((Decoded.Sample) sample).state())
                    .findFirst()
                    .orElseThrow();
            FlownScript.Moment moment = flown.get(i);
            assertThat(state.latitudeDeg()).isCloseTo(moment.latitude(), within(1e-5));
            assertThat(state.longitudeDeg()).isCloseTo(moment.longitude(), within(1e-5));
            assertThat(state.altitudeMslFt()).hasValueCloseTo(moment.altitude(), within(1.0));
            assertThat(Math.IEEEremainder(state.headingTrueDeg().orElseThrow() - moment.heading(), 360))
                    .isCloseTo(0, within(0.1));
            assertThat(state.groundSpeedKt()).hasValueCloseTo(moment.groundSpeed(), within(0.1));
        }
    }

    /** How a position and the rest are sent apart. */
    private enum Apart {
        BY_NAMES,
        BY_LENGTH,
        BY_AN_OCTET;

        byte[] position(FlownScript.Moment m) {
            return this == BY_NAMES
                    ? text("{\"la\":%.7f,\"lo\":%.7f,\"al\":%.1f}", m.latitude(), m.longitude(), m.altitude())
                            .getBytes(StandardCharsets.UTF_8)
                    : record(1, 0)
                            .putDouble(m.latitude())
                            .putDouble(m.longitude())
                            .putFloat((float) m.altitude())
                            .array();
        }

        byte[] rest(FlownScript.Moment m) {
            return this == BY_NAMES
                    ? text("{\"h\":%.2f,\"g\":%.1f,\"v\":%.0f}", m.heading(), m.groundSpeed(), m.verticalSpeed())
                            .getBytes(StandardCharsets.UTF_8)
                    : record(2, 8)
                            .putFloat((float) m.heading())
                            .putFloat((float) m.groundSpeed())
                            .putFloat((float) m.verticalSpeed())
                            .array();
        }

        private ByteBuffer record(int kind, int shorter) {
            return ByteBuffer.allocate(this == BY_LENGTH ? 24 - shorter : 24)
                    .putShort((short) 0xBEEF)
                    .putShort((short) kind);
        }
    }

    private static List<Datagram> apart(Apart how) {
        List<Datagram> sent = new ArrayList<>();
        for (FlownScript.Moment m : new FlownScript(new Random(8), 5, 18).moments()) {
            long micros = 1_780_000_000_000_000L + Math.round(m.timeS() * 1e6);
            sent.add(Datagram.of(micros, SENDER, how.position(m)));
            sent.add(Datagram.of(micros + 3000, SENDER, how.rest(m)));
        }
        return sent;
    }

    /** A position and, in another kind of datagram, the rest. */
    @ParameterizedTest
    @EnumSource
    void aHeadingThatIsSentApartIsFound(Apart how) throws YamlException {
        List<Datagram> sent = apart(how);
        Learned learned = learn(sent);
        assertThat(learned.missing()).as(learned.yaml("x")).isEmpty();
        Profile profile = Profile.parse(learned.yaml("x"));
        assertThat(profile.messages()).hasSize(2);
        WireFormat.Decoder decoder = profile.newDecoder();
        List<AircraftState> states = sent.stream()
                .flatMap(datagram -> decoder.decode(datagram).stream())
                .filter(Decoded.Sample.class::isInstance)
                .map(sample -> ((Decoded.Sample) sample).state())
                .toList();
        List<FlownScript.Moment> flown = new FlownScript(new Random(8), 5, 18).moments();
        assertThat(states).hasSameSizeAs(flown);
        for (int i = 1; i < flown.size(); i += 9) { // what was sent apart is of the moment before
            assertThat(Math.IEEEremainder(
                            states.get(i).headingTrueDeg().orElseThrow()
                                    - flown.get(i - 1).heading(),
                            360))
                    .isCloseTo(0, within(0.01));
            assertThat(states.get(i).groundSpeedKt())
                    .hasValueCloseTo(flown.get(i - 1).groundSpeed(), within(0.06));
            assertThat(states.get(i).altitudeMslFt())
                    .hasValueCloseTo(flown.get(i).altitude(), within(0.06));
        }
    }

    /** More datagrams than are looked at, two kinds in turn: every second one left out would leave out a kind. */
    @Test
    void kindsThatTakeTurnsAreAllLookedAt() {
        List<Datagram> sent = new ArrayList<>();
        for (FlownScript.Moment m : new FlownScript(new Random(8), 20, 18).moments()) {
            long micros = 1_780_000_000_000_000L + Math.round(m.timeS() * 1e6);
            for (int again = 0; again < 3; again++) {
                sent.add(Datagram.of(micros + again * 6000L, SENDER, Apart.BY_LENGTH.rest(m)));
                sent.add(Datagram.of(micros + again * 6000L + 3000, SENDER, Apart.BY_LENGTH.position(m)));
            }
        }
        assertThat(sent.size()).isGreaterThan(20_000);
        assertThat(learn(sent).missing()).isEmpty();
    }

    /** Half a degree south of the equator is -0 degrees and 30 minutes. */
    @Test
    void minusNoDegreesAreSouth() {
        List<FlownScript.Moment> flown = new FlownScript(new Random(8), 5, 18).moments();
        double latitude = flown.get(0).latitude();
        double longitude = flown.get(0).longitude();
        Learned learned = learn(sent(
                flown,
                m -> text(
                                "P,-0,%.5f,%s,%.1f,%.2f,%.1f,%.0f",
                                30 - (m.latitude() - latitude) * 60,
                                signed(longitude + (m.longitude() - longitude) * Math.cos(Math.toRadians(latitude))),
                                m.altitude(),
                                m.heading(),
                                m.groundSpeed(),
                                m.verticalSpeed())
                        .getBytes(StandardCharsets.UTF_8)));
        assertThat(learned.yaml("x"))
                .contains("{is: latitude, at: 1, unit: deg, minutes: 2}", "{is: true_heading, at: 6");
    }

    private static String signed(double deg) {
        double whole = Math.floor(Math.abs(deg));
        return text("%s%.0f,%.5f", deg < 0 ? "-" : "", whole, (Math.abs(deg) - whole) * 60);
    }

    /** Earth-centred X and Y exchanged are the same flight, mirrored; nobody sends Y first. */
    @Test
    void earthCentredCoordinatesWithNothingButTheirVelocityAreSure() {
        Learned learned = learn(sent(new FlownScript(new Random(9), 5, 18).moments(), m -> {
            Geodetic place = new Geodetic(m.latitude(), m.longitude(), m.altitude() * 0.3048);
            Vector3 at = place.toGeocentric();
            double track = Math.toRadians(m.track());
            double mps = m.groundSpeed() * 1852 / 3600;
            Vector3 velocity = LocalAxes.at(place)
                    .toGeocentric(mps * Math.cos(track), mps * Math.sin(track), -m.verticalSpeed() * 0.3048 / 60);
            return ByteBuffer.allocate(56)
                    .putLong(Math.round(m.timeS() * 1000))
                    .putDouble(at.x())
                    .putDouble(at.y())
                    .putDouble(at.z())
                    .putDouble(velocity.x())
                    .putDouble(velocity.y())
                    .putDouble(velocity.z())
                    .array();
        }));
        assertThat(learned.missing()).as(learned.yaml("x")).isEmpty();
        assertThat(learned.profile("x")
                        .orElseThrow()
                        .value(Quantity.ECEF_X)
                        .orElseThrow()
                        .at())
                .isEqualTo(8);
    }

    /** A magnetic model of ten years ago: what is seven degrees off true is no true heading. */
    @Test
    void aMagneticHeadingByAnOldModelIsMagnetic() {
        Learned learned = learn(sent(
                new FlownScript(new Random(8), 5, 18).moments(),
                m -> text(
                                "%.7f,%.7f,%.1f,%.2f,%.1f,%.0f",
                                m.latitude(),
                                m.longitude(),
                                m.altitude(),
                                (m.magneticHeading() + 357.6) % 360,
                                m.groundSpeed(),
                                m.verticalSpeed())
                        .getBytes(StandardCharsets.UTF_8)));
        assertThat(learned.sure(Quantity.MAGNETIC_HEADING))
                .as(learned.yaml("x"))
                .isTrue();
        assertThat(learned.notes()).anyMatch(note -> note.contains("the simulator's own variation is"));
    }

    /** Minutes of arc alone move like a position too, a small one at the equator: nothing else in the record follows it. */
    @Test
    void aPositionThatNoDirectionAndNoSpeedFollowsIsNotSure() {
        Learned learned = learn(sent(
                new FlownScript(new Random(8), 5, 18).moments(),
                m -> text("%.7f;%.7f;%.2f", m.latitude(), m.longitude(), m.roll())
                        .getBytes(StandardCharsets.UTF_8)));
        assertThat(learned.missing()).contains("position");
    }

    private static List<Datagram> sent(List<FlownScript.Moment> flown, Function<FlownScript.Moment, byte[]> octets) {
        List<Datagram> sent = new ArrayList<>();
        for (FlownScript.Moment moment : flown) {
            long micros = 1_780_000_000_000_000L + Math.round(moment.timeS() * 1e6);
            sent.add(Datagram.of(micros, SENDER, octets.apply(moment)));
        }
        return sent;
    }

    private static Learned learn(List<Datagram> datagrams) {
        return new Learner(new Known(OptionalDouble.empty(), OptionalDouble.empty(), FlownScript.YEAR))
                .learn(datagrams);
    }
}
