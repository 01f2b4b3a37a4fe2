package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;

import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.ocean.ClosedFormFlight;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.protocol.AircraftState;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * A pilot flies the heading he is given, and asks where it is in doubt (14 CFR 91.123); where it leads is the controller's. By
 * the closed form of a straight flight in still air a heading leads to a line where it points to it.
 */
class HeadingReachTest {

    private static final double NORTH = 0;

    /** From so far north of the radial that is flown eastward. */
    private static ClosedFormFlight from(double northNm, double headingTrueDeg) {
        Position start = Ocean.RADIAL.pointAt(5).destination(new TrueDirection(NORTH), northNm);
        return new ClosedFormFlight(start, headingTrueDeg, 120, Ocean.CALM);
    }

    private static Flown cleared(ClosedFormFlight flight) {
        List<AircraftState> states = flight.sample(2);
        String say = String.format(
                Locale.ROOT,
                "fly heading %03d, intercept the AAA 102 radial, join V40, then as filed",
                Ocean.magneticHeading(states.get(0)));
        return Flown.fly(states, List.of(Ocean.at(2, say, 6000)));
    }

    @ParameterizedTest
    @ValueSource(doubles = {1.5, 3, 6})
    void whoHoldsAHeadingThatLeadsAwayFromTheCourseHasDoneAsHeWasTold(double northNm) {
        Flown flown = cleared(from(northNm, 75).seconds(1800));
        assertThat(flown.faults()).as("%s", flown.grade()).isEmpty();
        assertThat(flown.criterion("HEADING").verdict()).isEqualTo(Verdict.MET);
        for (String code : List.of("INTERCEPT", "COURSE", "COMPLETED")) {
            assertThat(flown.criterion(code).notJudged().orElseThrow())
                    .contains("did not take you to the course: say so");
        }
        assertThat(flown.grade().verdict()).isEqualTo(Verdict.NOT_JUDGED);
    }

    /** The heading would have met the radial after 6 NM; he turned along it before that and stayed there. */
    @Test
    void whoTurnsOffAHeadingThatLeadsToTheCourseHasMissedIt() {
        Flown flown = cleared(from(5, 120).seconds(60).turnTo(85).seconds(1800));
        assertThat(flown.faults()).as("%s", flown.grade()).contains(FaultCode.NOT_ACHIEVED);
        assertThat(flown.criterion("INTERCEPT").verdict()).isEqualTo(Verdict.NOT_MET);
        assertThat(flown.grade().verdict()).isEqualTo(Verdict.NOT_MET);
    }
}
