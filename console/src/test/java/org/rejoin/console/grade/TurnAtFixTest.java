package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.ocean.ClosedFormFlight;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.bridge.ocean.Ocean.Leg;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The turn at the computed fix against its closed form: the lead is R tan(turn / 2); a standard-rate turn begun x beyond
 * it ends x sin(turn) past the new course, one begun x before it the same inside (plane geometry).
 */
class TurnAtFixTest {

    private static double turnDeg() {
        double onAirway = Ocean.V40
                .courseAt(Ocean.V40.offset(Ocean.RADIAL.pointAt(Ocean.FIX_NM)).alongTrackNm())
                .deg();
        return Math.abs(
                Angles.turn(onAirway - Ocean.RADIAL.courseAt(Ocean.FIX_NM).deg()));
    }

    private static Leg turning(double kt, double lateS) {
        Leg leg = Ocean.toRadial(45, -1, kt, Ocean.CALM).toLead().turnOn();
        double lead = leg.flight.radiusNm() * Math.tan(Math.toRadians(turnDeg() / 2));
        return leg.toFixLessNm(lead - lateS * kt / 3600);
    }

    @ParameterizedTest
    @CsvSource({
        "90, 0, 1",
        "120, 0, 20",
        "120, 4, 1",
        "120, 9, 5",
        "120, 20, 50",
        "180, 14, 1",
        "120, -7, 1",
        "120, -20, 10",
        "180, -12, 5"
    })
    void hasItsClosedForm(double kt, double lateS, double hz) {
        Leg leg = turning(kt, lateS).ontoAirway();
        Flown flown = Flown.fly(leg.flight.sample(hz));
        assertThat(flown.all(FlightEvent.TurnAtFix.class)).hasSize(1);
        FlightEvent.TurnAtFix turn = flown.all(FlightEvent.TurnAtFix.class).get(0);
        double turnRad = Math.toRadians(turnDeg());
        double lead = leg.flight.radiusNm() * Math.tan(turnRad / 2);
        double late = lateS * kt / 3600;
        Offset<Double> close = Offset.offset(0.01);
        assertThat(turn.computed()).isTrue();
        assertThat(turn.leadNm()).isCloseTo(lead, close);
        assertThat(turn.beganNm()).isCloseTo(lead - late, close);
        assertThat(turn.lateS()).isCloseTo(lateS, Offset.offset(0.3));
        assertThat(turn.outsideNm()).isCloseTo(Math.max(0, late * Math.sin(turnRad)), close);
        assertThat(turn.insideNm()).isCloseTo(Math.max(0, -late * Math.sin(turnRad)), Offset.offset(0.02));
        assertThat(turn.inFlyByArea()).isEqualTo(Math.abs(late) * Math.sin(turnRad) < 0.5);
    }

    /** Along the radial, but 3.8 NM beside it, full scale being 2 NM. */
    @Test
    void whoWasNeverOnTheLegHasNoTurnAtItsEnd() {
        Leg beside = new Leg(45, -1, 120, Ocean.CALM, 14);
        beside.flight.miles((Math.abs(beside.crossNm()) - 3.8) / Math.sin(Math.toRadians(45)));
        beside.flight.turnTo(beside.courseHere());
        beside.toFixLessNm(1).ontoAirway();
        assertThat(Flown.fly(beside.flight.sample(2)).all(FlightEvent.TurnAtFix.class))
                .isEmpty();
    }

    /** The turn at the fix leaves the course: of a flight led into both turns the log tells no crossing there. */
    @Test
    void theTurnAtTheFixIsNoCrossingOfTheOldCourse() {
        Leg leg = turning(120, 0);
        double turnsAtS = leg.flight.endS();
        Flown flown = Flown.fly(leg.ontoAirway().flight.sample(2));
        assertThat(flown.all(FlightEvent.TurnAtFix.class)).hasSize(1);
        assertThat(flown.all(FlightEvent.CourseCrossed.class))
                .allSatisfy(crossed -> assertThat(crossed.timeS()).isLessThan(turnsAtS - 60));
    }

    @ParameterizedTest
    @CsvSource({"1", "5", "20", "50"})
    void noiseHardlyMovesIt(double hz) {
        Leg leg = turning(120, 6).ontoAirway();
        var noise = ClosedFormFlight.Noise.usual(11);
        Flown flown = Flown.fly(leg.flight.sample(leg.flight.times(hz), noise));
        assertThat(flown.all(FlightEvent.TurnAtFix.class)).hasSize(1);
        assertThat(flown.all(FlightEvent.TurnAtFix.class).get(0).lateS()).isCloseTo(6, Offset.offset(1.0));
    }

    /** Out and back by most of the turn, twice as far to the other side: over the line again after 4 R sin(swing). */
    @Test
    void aSwingAboutTheCourseIsNotTheTurn() {
        double swing = 0.9 * turnDeg();
        Leg leg = Ocean.toRadial(45, -1, 120, Ocean.CALM).toLead().turnOn();
        double radius = leg.flight.radiusNm();
        double lead = radius * Math.tan(Math.toRadians(turnDeg() / 2));
        leg.toFixLessNm(lead + 0.3 + 4 * radius * Math.sin(Math.toRadians(swing)));
        double way = Math.signum(Angles.turn(Ocean.V40
                        .courseAt(Ocean.V40
                                .offset(Ocean.RADIAL.pointAt(Ocean.FIX_NM))
                                .alongTrackNm())
                        .deg()
                - Ocean.RADIAL.courseAt(Ocean.FIX_NM).deg()));
        leg.flight.turn(way * swing).turn(-2 * way * swing).turn(way * swing).miles(0.3);
        leg.ontoAirway();
        Flown flown = Flown.fly(leg.flight.sample(5));
        assertThat(flown.all(FlightEvent.TurnAtFix.class)).singleElement().satisfies(turn -> {
            assertThat(turn.beganNm()).isCloseTo(lead, Offset.offset(0.02));
            assertThat(turn.inFlyByArea()).isTrue();
        });
    }

    @Test
    void theWrongWayRoundHasNoLead() {
        Leg leg = turning(120, 0);
        leg.flight.turn(-(360 - turnDeg())).seconds(60);
        assertThat(Flown.fly(leg.flight.sample(2)).all(FlightEvent.TurnAtFix.class))
                .isEmpty();
    }

    @Test
    void noTurnIsNoTurn() {
        Leg leg = turning(120, 0);
        leg.flight.seconds(200);
        assertThat(Flown.fly(leg.flight.sample(2)).all(FlightEvent.TurnAtFix.class))
                .isEmpty();
    }
}
