package org.rejoin.bridge.feed.learn;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.Random;

import org.rejoin.protocol.Datagram;

import org.junit.jupiter.api.Test;

/** The learner says what it has seen of the flight and what to fly next. */
class FlownTest {

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
        assertThat(upTo(45).flown().next()).hasValueSatisfying(next -> assertThat(next).contains("full turn"));
        Flown turning = upTo(65).flown();
        assertThat(turning.seen()).startsWith("65 s: ");
        Flown turned = upTo(135).flown();
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
}
