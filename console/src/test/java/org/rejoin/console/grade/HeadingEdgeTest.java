package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;

import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.ocean.ClosedFormFlight;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.protocol.AircraftState;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;

/** An assigned heading that is all but taken up, and left again in a slow turn. */
class HeadingEdgeTest {

    /** Twenty degrees right of the assigned heading at first: turned through it at a rate, and back to where he was. */
    private static List<AircraftState> touched(double byDeg, double rateDegPerS, double hz) {
        Ocean.Leg leg = new Ocean.Leg(45, -1, 120, Ocean.CALM, 8);
        ClosedFormFlight flight =
                leg.flight.seconds(10).turn(-byDeg, rateDegPerS).turn(23 + byDeg, rateDegPerS);
        double offLineNm = Math.abs(leg.crossNm());
        double angle = Math.toRadians(68);
        flight.miles((offLineNm - flight.radiusNm() * (1 - Math.cos(angle))) / Math.sin(angle));
        leg.turnOn().asCleared();
        return flight.sample(hz);
    }

    private static Flown flown(double byDeg, double rateDegPerS, double hz) {
        List<AircraftState> states = touched(byDeg, rateDegPerS, hz);
        int assigned = (Ocean.magneticHeading(states.get(0)) + 340) % 360;
        return Flown.fly(
                states,
                List.of(Ocean.at(
                        2, Words.heading(assigned) + ", intercept the AAA 102 radial, join V40, then as filed", 6000)));
    }

    private static final class Words {
        static String heading(int deg) {
            return String.format(java.util.Locale.ROOT, "fly heading %03d", deg == 0 ? 360 : deg);
        }
    }

    /** Turned to within 8 degrees of it, and on to 2 degrees past it, by half a degree a flight. */
    @Test
    void theScoreFallsWithoutAStepWithHowNearlyTheHeadingWasTakenUp() {
        List<Double> scores = new ArrayList<>();
        boolean taken = false;
        boolean not = false;
        for (double by = 12; by <= 22; by += 0.5) {
            Flown flown = flown(by, 3, 5);
            boolean on = !flown.all(FlightEvent.HeadingEstablished.class).isEmpty();
            taken |= on;
            not |= !on;
            scores.add(flown.score());
        }
        assertThat(taken && not).as("on either side of the edge").isTrue();
        for (int i = 1; i < scores.size(); i++) {
            assertThat(scores.get(i)).as("%s", scores).isCloseTo(scores.get(i - 1), Offset.offset(2.0));
        }
    }

    @Test
    void theEndOfJudgingIsTheSameAtAnyRateAndWhetherItWasTakenUpOrNot() {
        List<Double> ends = new ArrayList<>();
        for (double rate : new double[] {1.3, 1.45, 1.5, 1.55, 1.7}) {
            for (double hz : new double[] {1, 5}) {
                Flown flown = flown(22, rate, hz);
                FlightEvent.HeadingDeviationEnded ended =
                        flown.all(FlightEvent.HeadingDeviationEnded.class).get(0);
                FlightEvent.InterceptAchieved met =
                        flown.all(FlightEvent.InterceptAchieved.class).get(0);
                ends.add(met.timeS() - ended.timeS());
            }
        }
        assertThat(ends).allSatisfy(each -> assertThat(each).as("%s", ends).isCloseTo(ends.get(0), Offset.offset(3.0)));
    }
}
