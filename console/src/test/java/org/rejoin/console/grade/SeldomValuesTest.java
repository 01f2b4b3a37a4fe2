package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.util.ArrayList;
import java.util.List;

import org.rejoin.bridge.feed.AircraftChoice;
import org.rejoin.bridge.feed.AircraftKey;
import org.rejoin.bridge.feed.AircraftSink;
import org.rejoin.bridge.feed.AircraftSorter;
import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.json.JsonFormat;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;

/**
 * A receiver gives positions five times a second, a compass or an altimeter beside it once a second. The flight is drawn
 * in closed form: 22 degrees off the heading, 161.2 ft off the altitude, so what is measured is known beforehand.
 */
class SeldomValuesTest {

    private static final InetSocketAddress SENDER = new InetSocketAddress(InetAddress.getLoopbackAddress(), 40_000);

    private static final int HZ = 5;

    private static List<AircraftState> flight() {
        Ocean.Leg leg = new Ocean.Leg(45, 1, 120, Ocean.CALM, 11);
        leg.flight.seconds(25).turn(-22).seconds(60).turn(22);
        double toLine = Math.abs(leg.crossNm()) / Math.sin(Math.toRadians(45));
        leg.flight.miles(toLine - leg.flight.radiusNm() * Math.tan(Math.toRadians(22.5)));
        leg.turnOn().flight.seconds(200);
        // Down for 30 s, held for 10 s, up again.
        leg.flight.altitude(t -> 6000 - 161.2 * Math.max(0, Math.min(1, Math.min(t - 200, 270 - t) / 30)));
        return leg.flight.sample(HZ);
    }

    /** Heading and altitude in every so manieth sample only, until they are not sent any more. */
    private static Flown fly(int headingEvery, int altitudeEvery, double headingUntilS) {
        List<AircraftState> given = new ArrayList<>();
        AircraftSorter sorter = new AircraftSorter(List.of(new JsonFormat()), AircraftChoice.all(), new AircraftSink() {
            @Override
            public void state(AircraftKey aircraft, AircraftState state) {
                given.add(state);
            }
        });
        var encoder = new JsonFormat().newEncoder();
        int count = 0;
        for (AircraftState each : flight()) {
            boolean heading = count % headingEvery == 0 && each.timeS() <= headingUntilS;
            AircraftState sent = FeedFairnessTest.strip(each, !heading, false, count % altitudeEvery != 0);
            long micros = 1_800_000_000_000_000L + Math.round(each.timeS() * 1e6);
            encoder.encode(sent).forEach(octets -> sorter.accept(Datagram.of(micros, SENDER, octets)));
            count++;
        }
        sorter.finish();
        return Flown.fly(given);
    }

    @Test
    void aCompassAndAnAltimeterOnceASecondAreGradedAsAlways() {
        Flown always = fly(1, 1, 1000);
        assertThat(always.faults()).contains(FaultCode.HEADING_NOT_HELD, FaultCode.ALTITUDE_NOT_HELD);
        for (int every : new int[] {2, HZ, 2 * HZ}) {
            Flown seldom = fly(every, every, 1000);
            assertThat(seldom.faults()).as("every %d", every).isEqualTo(always.faults());
            assertThat(seldom.criterion("HEADING").measured()).isCloseTo(22, Offset.offset(0.6));
            assertThat(seldom.criterion("ALTITUDE").measured()).isCloseTo(161.2, Offset.offset(3.0));
            assertThat(seldom.score()).isCloseTo(always.score(), Offset.offset(1.0));
            List<Double> began = times(always);
            assertThat(times(seldom)).hasSameSizeAs(began);
            for (int i = 0; i < began.size(); i++) {
                assertThat(times(seldom).get(i)).isCloseTo(began.get(i), Offset.offset(0.7));
            }
        }
    }

    private static List<Double> times(Flown flown) {
        return flown.events().stream()
                .filter(event -> event.name().contains("deviation"))
                .map(event -> event.timeS())
                .toList();
    }

    @Test
    void whatIsSentEveryTenSecondsIsNotJudged() {
        Flown seldom = fly(1, 10 * HZ, 1000);
        assertThat(seldom.criterion("ALTITUDE").judged()).isFalse();
        assertThat(seldom.criterion("HEADING").judged()).isTrue();
        assertThat(seldom.criterion("ALTITUDE").points()).isZero();
    }

    @Test
    void aCompassThatFallsSilentLeavesTheHeadingUnjudged() {
        Criterion heading = fly(1, 1, 22).criterion("HEADING");
        assertThat(heading.judged()).isFalse();
        assertThat(heading.points()).isZero();
    }
}
