package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.bridge.ocean.Ocean.Leg;

import org.junit.jupiter.api.Test;

/**
 * Turned off a leg and back onto it. Three quarters of the scale, 1.5 NM, are kept as the standard asks (FAA-S-ACS-8C,
 * IR.V.A.S6), whatever the angle.
 */
class WanderTest {

    /** Two flights that a pilot can't tell apart differ by no more, points. */
    private static final double LARGEST_STEP = 12;

    /** Score may rise so little: the turns back are of different lengths. */
    private static final double NOISE = 0.5;

    private static Flown wander(double deg, double seconds) {
        Leg leg = Ocean.toRadial(45, -1, 120, Ocean.CALM).toLead().turnOn().toFixLessNm(16);
        leg.flight.turn(-deg).seconds(seconds).turn(deg);
        return Flown.fly(leg.sidestep().asCleared().flight.sample(1));
    }

    private static void fallsInSteps(List<Flown> flights) {
        for (int i = 1; i < flights.size(); i++) {
            double fell = flights.get(i - 1).score() - flights.get(i).score();
            assertThat(fell).as("%d: %s", i, flights.get(i).grade()).isBetween(-NOISE, LARGEST_STEP);
        }
    }

    @Test
    void whoComesBackFromInsideTheLimitOfTheCourseHasNotLeftTheRoute() {
        Flown flown = wander(31, 55);
        assertThat(flown.all(FlightEvent.RouteLeft.class)).hasSize(1);
        assertThat(flown.faults()).isEmpty();
        assertThat(flown.grade().verdict()).isEqualTo(Verdict.MET);
    }

    @Test
    void whoLeavesTheLegSteeplyAndFarHasLeftIt() {
        Flown flown = wander(60, 90);
        assertThat(flown.faults()).containsExactly(FaultCode.ROUTE_LEFT);
        assertThat(flown.score()).isLessThan(70);
    }

    @Test
    void oneDegreeMoreCostsLittle() {
        fallsInSteps(
                IntStream.rangeClosed(27, 45).mapToObj(deg -> wander(deg, 60)).toList());
        fallsInSteps(
                IntStream.rangeClosed(27, 45).mapToObj(deg -> wander(deg, 100)).toList());
    }

    @Test
    void twoSecondsMoreCostLittle() {
        List<Flown> flights = new ArrayList<>();
        for (int seconds = 10; seconds <= 130; seconds += 2) {
            flights.add(wander(40, seconds));
        }
        fallsInSteps(flights);
    }

    /** A wander that is no fault is nothing that a later one could follow from. */
    @Test
    void aFixMissedAfterAWanderIsAMistakeOfItsOwn() {
        Leg leg = Ocean.toRadial(45, -1, 120, Ocean.CALM).toLead().turnOn().toFixLessNm(2.9);
        leg.flight.turn(-35).seconds(62).turn(35);
        leg.toFixLessNm(0).flight.seconds(50);
        Flown flown = Flown.fly(leg.ontoAirway().flight.sample(1));
        assertThat(flown.all(FlightEvent.RouteLeft.class)).hasSize(1);
        assertThat(flown.faults()).containsExactly(FaultCode.SEQUENCE_MISSED);
    }

    /** On and on along the radial: in the end the aircraft is where nobody expects it, and that costs all of it. */
    @Test
    void whoNeverTurnsAtTheFixLosesMoreTheLongerHeFliesOn() {
        double before = 0;
        for (double seconds : new double[] {45, 60, 90, 120, 180, 240, 300, 420}) {
            Ocean.Leg leg = Ocean.toRadial(45, -1, 120, Ocean.CALM).toLead().turnOn();
            leg.toFixLessNm(0).flight.seconds(seconds);
            Flown flown = Flown.fly(leg.flight.sample(1));
            double cost = flown.grade().faults().stream()
                    .filter(fault -> fault.code() == FaultCode.SEQUENCE_MISSED)
                    .mapToDouble(Fault::cost)
                    .sum();
            assertThat(cost)
                    .as("%.0f s", seconds)
                    .isGreaterThanOrEqualTo(before)
                    .isLessThan(before + 0.49);
            before = cost;
        }
        assertThat(before).isEqualTo(1);
    }
}
