package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;

import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.bridge.ocean.Ocean.Leg;
import org.rejoin.protocol.AircraftState;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The first clearance is flown soundly to the end, and the second, that leads elsewhere, as if it had not been said. What the
 * old route has in common with it, a heading turned through or a fix on the way, is not the clearance.
 */
class IgnoredClearanceTest {

    /** Along the AAA 102 radial, at the fix south onto V40 (192 by the compass), and on. */
    private static List<AircraftState> asFirstCleared() {
        Leg leg = Ocean.toRadial(45, -1, 120, Ocean.CALM).toLead().turnOn().asCleared();
        leg.flight.seconds(900);
        return leg.flight.sample(2);
    }

    private static AmendmentGrade second(List<AircraftState> states, double atS, String say) {
        return flown(states, atS, say).grade().last().amendments().get(1);
    }

    private static Flown flown(List<AircraftState> states, double atS, String say) {
        return Flown.fly(states, List.of(Ocean.at(2, Ocean.radialClearance(states.get(0)), 6000), Ocean.say(atS, say)));
    }

    private static List<FaultCode> codes(AmendmentGrade grade) {
        return grade.faults().stream().map(Fault::code).toList();
    }

    /** The turn at the fix goes from 102 to 192, through 160 at 3 degrees a second: within 5 degrees of it for 3.3 s. */
    @Test
    void aHeadingThatIsTurnedThroughIsNotTakenUp() {
        List<AircraftState> states = asFirstCleared();
        Flown flown = flown(states, 900, "fly heading 160");
        assertThat(flown.all(FlightEvent.HeadingEstablished.class))
                .noneMatch(event -> event.assignedMagneticDeg() == 160);
        assertThat(codes(flown.grade().last().amendments().get(1))).containsExactly(FaultCode.NOT_ACHIEVED);
    }

    /** The 130 radial meets V40 farther south; who comes down V40 from the 102 passes that fix and never flew the radial. */
    @ParameterizedTest
    @ValueSource(doubles = {250, 600, 850, 930})
    void whoComesToTheEndOfTheCourseByTheAirwayHasNotFlownTheCourse(double atS) {
        List<AircraftState> states = asFirstCleared();
        AmendmentGrade grade =
                second(states, atS, "fly heading 160, intercept the AAA 130 radial, join V40, then as filed");
        assertThat(codes(grade)).containsExactly(FaultCode.NOT_ACHIEVED);
        assertThat(grade.criteria())
                .filteredOn(each -> each.code().equals("INTERCEPT"))
                .singleElement()
                .satisfies(intercept -> assertThat(intercept.points()).isZero());
        assertThat(grade.verdict()).isEqualTo(Verdict.NOT_MET);
    }

    /** Never met, whatever is ignored. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "direct NORTH, then as filed",
                "direct SOUTH, then as filed",
                "direct XSOU",
                "direct BENDA",
                "direct AAA, hold west of AAA on the 282 radial",
                "fly heading 350",
                "fly heading 350, intercept the AAA 075 radial, join V40, then as filed",
                "turn left heading 320, direct NORTH when able, then as filed"
            })
    void anIgnoredClearanceIsNotMet(String say) {
        List<AircraftState> states = asFirstCleared();
        for (double atS : new double[] {150, 400, 850}) {
            AmendmentGrade grade = second(states, atS, say);
            assertThat(grade.verdict()).as("%s at %.0f", say, atS).isEqualTo(Verdict.NOT_MET);
            // At 850 s the turn at the fix, which leads to SOUTH, comes soon: that is a direct begun a minute late.
            boolean late = atS == 850 && say.matches("direct X?SOU.*");
            assertThat(grade.score().orElse(0)).as("%s at %.0f", say, atS).isLessThan(late ? 45 : 30);
        }
    }
}
