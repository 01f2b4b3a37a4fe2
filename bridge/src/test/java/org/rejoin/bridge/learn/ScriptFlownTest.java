package org.rejoin.bridge.learn;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.offset;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.function.ToDoubleFunction;

import org.rejoin.bridge.geo.StandardAtmosphere;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.profile.Quantity;
import org.rejoin.protocol.profile.Unit;

import org.junit.jupiter.api.Test;

/** The learner says what it has seen of the flight and what to fly next. */
class ScriptFlownTest {

    private static final InetSocketAddress SENDER = new InetSocketAddress(InetAddress.getLoopbackAddress(), 40_000);

    /** The flight of a clock, position, altitude, heading and ground speed, up to a time. */
    private static Learned upTo(double endS) {
        List<Datagram> datagrams = new ArrayList<>();
        for (FlownScript.Moment m : new FlownScript(new Random(12), 5, 18).moments()) {
            if (m.timeS() <= endS) {
                String line = String.format(
                        Locale.ROOT,
                        "%.2f;%.7f;%.7f;%.2f;%.2f;%.2f;%.0f\n",
                        1000 + m.timeS(),
                        m.latitude(),
                        m.longitude(),
                        m.altitude(),
                        m.heading(),
                        m.groundSpeed(),
                        m.verticalSpeed());
                datagrams.add(Datagram.of(
                        1_780_000_000_000_000L + Math.round(m.timeS() * 1e6),
                        SENDER,
                        line.getBytes(StandardCharsets.UTF_8)));
            }
        }
        return new Learner(new Known(OptionalDouble.empty(), OptionalDouble.empty(), FlownScript.YEAR))
                .learn(datagrams);
    }

    @Test
    void theScriptIsFollowedStepByStep() {
        assertThat(upTo(45).flown().next())
                .hasValueSatisfying(next -> assertThat(next).contains("full turn"));
        ScriptFlown turning = upTo(65).flown();
        assertThat(turning.seen()).startsWith("65 s: ");
        ScriptFlown turned = upTo(135).flown();
        assertThat(turned.turned()).isTrue();
        assertThat(turned.wind()).isTrue();
        assertThat(turned.seen()).contains("a full turn");
        Learned all = upTo(1000);
        assertThat(all.flown().whole()).as(all.flown().toString()).isTrue();
        assertThat(all.settled()).isTrue();
        assertThat(all.flown().seen()).contains("a full turn", "a climb", "a change of speed", "a turn the other way");
    }

    /** Thirty seconds into a flight a clock was taken for an altitude, and the altimeter was asked for. */
    @Test
    void aClockIsNoAltitudeBeforeTheClimb() {
        for (double endS : new double[] {62, 80, 100}) {
            Learned learned = upTo(endS);
            assertThat(String.join(" ", learned.questions())).doesNotContain("--altimeter");
        }
    }

    /**
     * The density of the ICAO standard atmosphere at 10,000 ft is 0.7385 of that at sea level (table of ICAO Doc 7488,
     * from memory); 120 kt true are then 103 kt indicated.
     */
    @Test
    void theStandardAtmosphereThinsWithHeight() {
        assertThat(Math.pow(StandardAtmosphere.rootOfDensity(10_000), 2)).isCloseTo(0.7385, offset(2e-4));
        assertThat(StandardAtmosphere.rootOfDensity(0)).isEqualTo(1);
    }

    /** One sends the indicated, the other the true airspeed, in knots and in km/h. */
    @Test
    void theIndicatedAirspeedIsLearntAndTheTrueOneNotTakenForIt() {
        int learnt = 0;
        for (int seed = 20; seed < 28; seed++) {
            for (double unit : new double[] {1, 1.852}) {
                Learned indicated =
                        airspeeds(seed, m -> StandardAtmosphere.rootOfDensity(m.altitude()) * m.airspeed() * unit);
                learnt += indicated.sure(Quantity.INDICATED_AIRSPEED) ? 1 : 0;
                indicated
                        .profile("x")
                        .flatMap(profile -> profile.value(Quantity.INDICATED_AIRSPEED))
                        .ifPresent(value -> {
                            assertThat(value.at()).isEqualTo(6);
                            assertThat(value.unit()).isEqualTo(unit == 1 ? Unit.KT : Unit.KM_PER_H);
                        });
                assertThat(airspeeds(seed, m -> m.airspeed() * unit).sure(Quantity.INDICATED_AIRSPEED))
                        .isFalse();
            }
        }
        assertThat(learnt).isGreaterThan(8);
    }

    private static Learned airspeeds(int seed, ToDoubleFunction<FlownScript.Moment> airspeed) {
        List<Datagram> datagrams = new ArrayList<>();
        for (FlownScript.Moment m : new FlownScript(new Random(seed), 5, 18).moments()) {
            String line = String.format(
                    Locale.ROOT,
                    "%.7f;%.7f;%.2f;%.2f;%.2f;%.0f;%.1f;%.2f\n",
                    m.latitude(),
                    m.longitude(),
                    m.altitude(),
                    m.heading(),
                    m.groundSpeed(),
                    m.verticalSpeed(),
                    airspeed.applyAsDouble(m),
                    m.pitch());
            datagrams.add(Datagram.of(
                    1_780_000_000_000_000L + Math.round(m.timeS() * 1e6),
                    SENDER,
                    line.getBytes(StandardCharsets.UTF_8)));
        }
        return new Learner(new Known(OptionalDouble.empty(), OptionalDouble.empty(), FlownScript.YEAR))
                .learn(datagrams);
    }
}
