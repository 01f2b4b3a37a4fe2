package org.rejoin.bridge.tracker;

import static org.assertj.core.api.Assertions.assertThat;

import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.ocean.ClosedFormFlight;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.bridge.ocean.Ocean.Leg;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Which turn is the one at the fix: it comes from along the old course and begins about R tan(turn / 2) before the fix, the
 * lead of a tangent arc. Others of the same size, far from the fix, are something else.
 */
class FixTurnTest {

    private static double turnDeg() {
        double atFix = Ocean.V40.offset(Ocean.RADIAL.pointAt(Ocean.FIX_NM)).alongTrackNm();
        return Angles.turn(Ocean.V40.courseAt(atFix).deg()
                - Ocean.RADIAL.courseAt(Ocean.FIX_NM).deg());
    }

    private static double leadNm(ClosedFormFlight flight) {
        return flight.radiusNm() * Math.tan(Math.toRadians(Math.abs(turnDeg()) / 2));
    }

    /** Meets the course from the right at 45 degrees, so far before the fix; still straight, 6 NM long. */
    private static ClosedFormFlight meeting(double toFixNm, double kt) {
        double alongNm = Ocean.FIX_NM - toFixNm;
        Position meets = Ocean.RADIAL.pointAt(alongNm);
        Position start = meets.destination(
                new TrueDirection(Ocean.RADIAL.courseAt(alongNm).deg() + 135), 6);
        return new ClosedFormFlight(start, start.to(meets).initial().deg(), kt, Ocean.CALM).miles(6);
    }

    private static org.rejoin.bridge.geo.Offset here(ClosedFormFlight flight) {
        return Ocean.RADIAL.offset(flight.end().position());
    }

    /** Through the course 10 NM before the fix, and back at an angle with a turn the way of the one at the fix. */
    private static ClosedFormFlight cutBack(double beyondNm, double cutDeg, double kt) {
        ClosedFormFlight flight = meeting(10, kt);
        flight.miles(beyondNm / Math.sin(Math.toRadians(45)));
        flight.turnTo(here(flight).course().deg() + cutDeg);
        double rollOutNm = flight.radiusNm() * (1 - Math.cos(Math.toRadians(cutDeg)));
        flight.miles((-here(flight).crossTrackNm() - rollOutNm) / Math.sin(Math.toRadians(cutDeg)));
        return flight.turnTo(here(flight).course().deg());
    }

    @ParameterizedTest
    @CsvSource({"0.7, 60, 120", "1.2, 60, 120", "1.2, 80, 120", "1.5, 85, 120", "1.5, 95, 90", "2.5, 85, 160"})
    void aCutBackToTheCourseIsNotTheTurnAtTheFix(double beyondNm, double cutDeg, double kt) {
        ClosedFormFlight flight = cutBack(beyondNm, cutDeg, kt);
        double doneS = flight.endS();
        double leadNm = leadNm(flight);
        flight.miles(Ocean.FIX_NM - leadNm - here(flight).alongTrackNm());
        flight.turnTo(Ocean.V40.offset(flight.end().position()).course().deg()).seconds(60);
        assertThat(Flown.fly(flight.sample(4)).all(FlightEvent.TurnAtFix.class))
                .singleElement()
                .satisfies(turn -> {
                    assertThat(turn.timeS()).isGreaterThan(doneS);
                    assertThat(turn.beganNm()).isCloseTo(leadNm, Offset.offset(0.02));
                    assertThat(turn.lateS()).isCloseTo(0, Offset.offset(0.5));
                    assertThat(turn.inFlyByArea()).isTrue();
                });
    }

    /** A fix may be off by full scale along the track, 2 NM: begun farther than that before its lead it is another turn. */
    @ParameterizedTest
    @CsvSource({"1.8, 1", "2.2, 0", "5, 0"})
    void aTurnFarBeforeItsLeadIsNotTheTurnAtTheFix(double earlyNm, int turns) {
        Leg leg = Ocean.toRadial(45, 1, 120, Ocean.CALM).toLead().turnOn();
        leg.toFixLessNm(leadNm(leg.flight) + earlyNm).ontoAirway();
        leg.flight.seconds(60);
        assertThat(Flown.fly(leg.flight.sample(4)).all(FlightEvent.TurnAtFix.class))
                .hasSize(turns);
    }

    /** Parallel to the course six miles to its side, and a turn of the same size abeam of the fix or past it. */
    @ParameterizedTest
    @CsvSource({"0", "3", "9"})
    void aTurnFarBesideTheCourseIsNotTheTurnAtTheFix(double pastNm) {
        Leg leg = new Leg(45, 1, 120, Ocean.CALM, 9);
        leg.flight.seconds(20);
        leg.turnOn().toFixLessNm(-pastNm);
        leg.flight.turn(turnDeg()).seconds(120);
        assertThat(Math.abs(leg.crossNm())).isGreaterThan(5);
        assertThat(Flown.fly(leg.flight.sample(4)).all(FlightEvent.TurnAtFix.class))
                .isEmpty();
    }

    /** Turned through the direction of the course without ever flying it: there is no turn from it onto the next. */
    @Test
    void whoNeverFliesTheOldCourseDoesNotTurnFromIt() {
        ClosedFormFlight flight = meeting(0.5, 120);
        flight.turnTo(here(flight).course().deg() + turnDeg()).seconds(90);
        assertThat(Flown.fly(flight.sample(4)).all(FlightEvent.TurnAtFix.class)).isEmpty();
    }
}
