package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;

import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.ocean.ClosedFormFlight;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.protocol.AircraftState;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * "Resume own navigation" gives the responsibility for his navigation back to the pilot (Pilot/Controller Glossary): how he comes
 * back to the filed route is his. Off V40 on a vector he may go direct to its next fix, or join the leg that leads there.
 */
class OwnNavigationTest {

    private static final Position SOUTH = new Position(29.2, -44.2);
    private static final double KT = 120;
    private static final double OFF_NM = 5;

    /** From 5 NM west of V40, 40 NM before SOUTH, on a vector that would meet it at an angle. */
    private static ClosedFormFlight vectored(double angleDeg) {
        Position start = Ocean.V40.pointAt(Ocean.V40.lengthNm() - 40).destination(new TrueDirection(270), OFF_NM);
        return new ClosedFormFlight(start, 180 - angleDeg, KT, Ocean.CALM);
    }

    /** Onto V40 with its lead, or so much later; along it past SOUTH. */
    private static ClosedFormFlight ontoLeg(double angleDeg, double lateNm) {
        ClosedFormFlight flight = vectored(angleDeg);
        double angle = Math.toRadians(angleDeg);
        flight.miles(OFF_NM / Math.sin(angle) - flight.radiusNm() * Math.tan(angle / 2) + lateNm);
        flight.turnTo(180);
        double toGo =
                Ocean.V40.lengthNm() - Ocean.V40.offset(flight.end().position()).alongTrackNm();
        return flight.miles(toGo + 4);
    }

    private static ClosedFormFlight direct() {
        ClosedFormFlight flight = vectored(45).seconds(70);
        for (int i = 0; i < 3; i++) {
            flight.turnTo(flight.end().position().to(SOUTH).initial().deg());
        }
        flight.miles(flight.end().position().distanceNm(SOUTH) - 0.1);
        return flight.turnTo(180).miles(4);
    }

    private static Flown fly(ClosedFormFlight flight, String words) {
        List<AircraftState> states = flight.sample(2);
        String heading = String.format(Locale.ROOT, "fly heading %03d", Ocean.magneticHeading(states.get(0)));
        return Flown.fly(states, List.of(Ocean.say(2, heading), Ocean.say(60, words)));
    }

    @ParameterizedTest
    @ValueSource(doubles = {30, 45, 60, 80})
    void joiningTheFiledLegIsOwnNavigation(double angleDeg) {
        Flown flown = fly(ontoLeg(angleDeg, 0), "resume own navigation");
        assertThat(flown.faults()).as("%s", flown.events()).isEmpty();
        assertThat(flown.all(FlightEvent.RouteResumed.class)).hasSize(1);
        assertThat(flown.grade().verdict()).as("%s", flown.grade()).isEqualTo(Verdict.MET);
        assertThat(flown.score()).isGreaterThan(95);
    }

    @Test
    void soIsGoingDirectToItsFix() {
        Flown flown = fly(direct(), "resume own navigation");
        assertThat(flown.faults()).as("%s", flown.events()).isEmpty();
        assertThat(flown.grade().verdict()).as("%s", flown.grade()).isEqualTo(Verdict.MET);
    }

    /** Joined late, the leg is overshot as any course is. */
    @ParameterizedTest
    @CsvSource({"0.2, true", "1.2, false"})
    void theFiledLegIsACourseAsAnyOther(double lateNm, boolean met) {
        Grade grade = fly(ontoLeg(45, lateNm), "resume own navigation").grade();
        assertThat(grade.verdict()).isEqualTo(met ? Verdict.MET : Verdict.NOT_MET);
        assertThat(grade.criteria())
                .filteredOn(criterion -> criterion.code().equals("INTERCEPT"))
                .singleElement()
                .satisfies(criterion -> assertThat(criterion.title()).contains("past the line"));
    }

    @Test
    void whoSaidDirectMeansDirect() {
        assertThat(fly(ontoLeg(30, 0), "proceed direct SOUTH, then as filed").faults())
                .containsExactly(FaultCode.NOT_ACHIEVED);
    }

    /** On the vector so long after the words, then round to the fix and over it. */
    private static Flown directAfter(double s) {
        ClosedFormFlight flight = vectored(-20).seconds(60 + s);
        for (int i = 0; i < 4; i++) {
            flight.turnTo(flight.end().position().to(SOUTH).initial().deg());
        }
        flight.miles(flight.end().position().distanceNm(SOUTH) - 0.1);
        return fly(flight.turnTo(180).miles(4), "resume own navigation");
    }

    /** Two seconds more of doing nothing are no other flight; what was done late was done. */
    @Test
    void theLaterHeActsTheLessHeHasAndNoTwoSecondsCostMuch() {
        double before = 100;
        for (double s = 4; s <= 260; s += s < 90 || s > 170 ? 8 : 2) {
            Flown flown = directAfter(s);
            String when = String.format(Locale.ROOT, "%.0f s: %s", s, flown.grade());
            assertThat(before - flown.score()).as(when).isBetween(-1.0, 12.0);
            before = flown.score();
            assertThat(flown.all(FlightEvent.AmendmentComplete.class)).as(when).isNotEmpty();
            flown.grade()
                    .faults()
                    .forEach(fault ->
                            assertThat(fault.text()).as(when).contains("late").contains("s after the clearance"));
        }
        assertThat(before).isLessThan(60);
        assertThat(directAfter(150).criterion("COMPLETED").title()).contains("late");
    }

    @Test
    void whoGoesNeitherWayIsNotBack() {
        Flown flown = fly(vectored(-20).seconds(900), "resume own navigation");
        assertThat(flown.grade().faults())
                .singleElement()
                .satisfies(
                        fault -> assertThat(fault.text()).contains("neither direct to SOUTH nor onto the filed leg"));
    }
}
