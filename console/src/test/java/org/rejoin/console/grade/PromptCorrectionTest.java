package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.function.DoubleUnaryOperator;

import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.bridge.ocean.Ocean.Leg;
import org.rejoin.protocol.AircraftState;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * What is unsatisfactory is "failure to take prompt corrective action when tolerances are exceeded" (FAA-S-ACS-8C): the same
 * deviation costs more the longer it lasts. How far and how long is what the altitude of each flight is made of.
 */
class PromptCorrectionTest {

    private static final double LARGEST_STEP = 12;
    private static final double SAMPLING = 0.2;

    private static final double FROM_S = 60;

    private static Leg leg() {
        return Ocean.toRadial(45, 1, 120, Ocean.CALM).toLead().turnOn().asCleared();
    }

    private static Flown flown(DoubleUnaryOperator feet) {
        Leg leg = leg();
        leg.flight.altitude(feet);
        return Flown.fly(leg.flight.sample(2));
    }

    /** So far off, at 25 ft a second there and back, for so long in all beyond 100 ft. */
    private static DoubleUnaryOperator off(double feet, double seconds) {
        double upS = feet / 25;
        double beyondS = (feet - 100) / 25;
        double stayS = Math.max(0, seconds - 2 * beyondS);
        return t -> {
            double at = t - FROM_S;
            return 6000 + Math.max(0, Math.min(Math.min(feet, at * 25), (upS + stayS - at) * 25 + feet));
        };
    }

    private static double score(Flown flown) {
        return flown.grade().score().orElseThrow();
    }

    @ParameterizedTest
    @ValueSource(doubles = {130, 200, 300, 500})
    void theLongerTheDearer(double feet) {
        double shortest = 2 * (feet - 100) / 25 + 1;
        double before = Double.NaN;
        double prompt = Double.NaN;
        for (double seconds = shortest; seconds < 420; seconds += seconds < 40 ? 3 : 20) {
            Flown flown = flown(off(feet, seconds));
            double score = score(flown);
            if (!Double.isNaN(before)) {
                assertThat(score)
                        .as("%.0f s: %s", seconds, flown.grade())
                        .isBetween(before - LARGEST_STEP, before + SAMPLING);
            }
            prompt = Double.isNaN(prompt) && seconds >= 10 ? score : prompt;
            before = score;
        }
        // 12.5 points of 90 is all that the fault may cost. Back from 500 ft nobody is in 20 s.
        double mayCost = 12.5 / 90 * 100 * Math.min(1, feet / 100 - 1);
        assertThat(prompt - before).as("%.0f ft", feet).isGreaterThan(shortest < 20 ? mayCost / 2 : mayCost / 4);
    }

    @Test
    void theFartherTheDearer() {
        double before = 100;
        for (double feet = 0; feet <= 900; feet += 25) {
            Flown flown = flown(off(feet, 80));
            assertThat(score(flown))
                    .as("%.0f ft: %s", feet, flown.grade())
                    .isBetween(before - LARGEST_STEP, before + SAMPLING);
            before = score(flown);
        }
    }

    /** 8000 is the altitude; the descent to 7000 that comes with the route is never begun, or ends short of it. */
    @Test
    void anAltitudeSaidWithTheRouteIsAPartOfIt() {
        double before = Double.NaN;
        for (double left = 0; left <= 1000; left += 100) {
            double stays = 7000 + left;
            Leg leg = leg();
            leg.flight.altitude(t -> Math.max(stays, 8000 - Math.max(0, t - 10) * 10));
            List<AircraftState> states = leg.flight.sample(2);
            String say = Ocean.radialClearance(states.get(0)) + ", descend and maintain 7000";
            Flown flown = Flown.fly(states, List.of(Ocean.say(2, say)));
            boolean there = left <= 100;
            assertThat(flown.criterion("COMPLETED").met())
                    .as("%s", flown.grade())
                    .isEqualTo(there);
            assertThat(flown.faults())
                    .as("%.0f ft left: %s", left, flown.grade())
                    .hasSize(there ? 0 : 1)
                    .allMatch(code -> code == FaultCode.NOT_ACHIEVED || code == FaultCode.ALTITUDE_NOT_HELD);
            if (!Double.isNaN(before)) {
                assertThat(score(flown))
                        .as("%.0f ft left: %s", left, flown.grade())
                        .isLessThanOrEqualTo(before + SAMPLING);
            }
            before = score(flown);
        }
    }
}
