package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Turn;
import org.rejoin.bridge.ocean.ClosedFormFlight;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.protocol.AircraftState;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The turn at a bend of the airway, against plane geometry: begun x past the fix it ends x sin(turn) + R (1 - cos(turn))
 * outside the next leg. It is to be led (AIM 5-3-5), by a turn that is flown: 3 degrees a second or 25 degrees of bank.
 */
class BendTest {

    private static final GeodesicLine FIRST =
            GeodesicLine.between(new Position(30.4, -44.8), new Position(30.0, -44.4));
    private static final GeodesicLine NEXT = GeodesicLine.between(new Position(30.0, -44.4), new Position(29.3, -44.4));
    private static final double TURN_DEG =
            Angles.turn(NEXT.courseAt(0).deg() - FIRST.finalCourse().deg());
    private static final double ANGLE_DEG = 45;

    /** Onto V50, and the turn at its bend begun so far past the fix; less than nothing before it. */
    private static Flown turning(double kt, double pastNm) {
        Position meets = FIRST.pointAt(10);
        double track = FIRST.courseAt(10).deg() + ANGLE_DEG;
        Position start = meets.destination(new TrueDirection(track + 180), 7);
        ClosedFormFlight flight =
                new ClosedFormFlight(start, start.to(meets).initial().deg(), kt, Ocean.CALM);
        double rate = Turn.standardTurnRateDegPerS(kt);
        flight.miles(7 - Turn.standardTurnLeadNm(kt, ANGLE_DEG));
        turnTo(flight, FIRST.courseAt(10).deg(), rate);
        flight.miles(FIRST.lengthNm()
                + pastNm
                - FIRST.offset(flight.end().position()).alongTrackNm());
        turnTo(flight, NEXT.courseAt(0).deg(), rate);
        flight.seconds(150);
        List<AircraftState> states = flight.sample(1);
        String say = String.format(
                Locale.ROOT, "fly heading %03d, intercept V50, then as filed", Ocean.magneticHeading(states.get(0)));
        return Flown.fly(states, List.of(Ocean.at(2, say, 6000)), "XNOR DCT BENDA V50 BENDC DCT XSOU");
    }

    private static void turnTo(ClosedFormFlight flight, double courseDeg, double rateDegPerS) {
        flight.turn(Angles.turn(courseDeg - flight.end().trackDeg()), rateDegPerS);
    }

    @ParameterizedTest
    @CsvSource({"110, 0.3", "110, 1", "140, 2", "250, 0", "250, 1.2"})
    void howFarOutsideTheAirwayItSwingsIsMeasured(double kt, double pastNm) {
        double turn = Math.toRadians(TURN_DEG);
        double outside = pastNm * Math.sin(turn) + Turn.standardTurnRadiusNm(kt) * (1 - Math.cos(turn));
        Flown flown = turning(kt, pastNm);
        assertThat(flown.criterion("FIX").measured()).isCloseTo(outside, Offset.offset(0.05));
    }

    /** At 250 kt 25 degrees of bank make less than 3 degrees a second. */
    @ParameterizedTest
    @CsvSource({"110", "170", "250", "320"})
    void aSoundLeadCostsNothing(double kt) {
        Flown flown = turning(kt, -Turn.standardTurnLeadNm(kt, TURN_DEG));
        assertThat(flown.criterion("FIX").measured()).isLessThan(0.1);
        assertThat(flown.criterion("COURSE").measured()).isLessThan(0.1);
        assertThat(flown.grade().verdict()).isEqualTo(Verdict.MET);
    }

    @ParameterizedTest
    @CsvSource({"110", "250", "320"})
    void whoFliesOverTheFixAndSwingsWideNeverBeatsWhoLeads(double kt) {
        assertThat(turning(kt, 0).score())
                .isLessThan(turning(kt, -Turn.standardTurnLeadNm(kt, TURN_DEG)).score() - 0.5);
    }

    @Test
    void theLaterItIsBegunTheLessItScoresAndNoTenthMakesMuch() {
        double lead = Turn.standardTurnLeadNm(140, TURN_DEG);
        double before = turning(140, -lead).score();
        for (double late = 0.1; late < 5; late += 0.1) {
            double now = turning(140, late - lead).score();
            assertThat(before - now).as("%.1f NM late", late).isBetween(-0.1, 12.0);
            before = now;
        }
    }

    /**
     * Straight from so far before the bend to as far behind it, which is no turn at the fix. The more is cut the less it earns,
     * also where the fix is so far off that it is not passed at all.
     */
    @Test
    void theMoreOfTheCornerIsCutTheLessItEarns() {
        double before = 100;
        for (int cutNm = 1; cutNm <= 14; cutNm++) {
            Flown flown = cutting(cutNm);
            assertThat(flown.score()).as("%d NM: %s", cutNm, flown.grade()).isLessThanOrEqualTo(before);
            before = flown.score();
            if (cutNm >= 8) {
                assertThat(flown.grade().faults())
                        .as("%d NM", cutNm)
                        .singleElement()
                        .satisfies(fault -> assertThat(fault.text()).startsWith("cut the corner at BENDB"));
                assertThat(flown.criterion("FIX").points()).isZero();
            }
        }
        assertThat(before).isLessThan(50);
    }

    private static Flown cutting(double nm) {
        Position meets = FIRST.pointAt(6);
        Position start = meets.destination(new TrueDirection(FIRST.courseAt(6).deg() - ANGLE_DEG + 180), 6);
        ClosedFormFlight flight =
                new ClosedFormFlight(start, start.to(meets).initial().deg(), 120, Ocean.CALM);
        flight.miles(6 - Turn.standardTurnLeadNm(120, ANGLE_DEG));
        flight.turnTo(FIRST.offset(flight.end().position()).course().deg());
        flight.miles(
                FIRST.lengthNm() - nm - FIRST.offset(flight.end().position()).alongTrackNm());
        Position behind = NEXT.pointAt(nm);
        for (int i = 0; i < 3; i++) {
            flight.turnTo(flight.end().position().to(behind).initial().deg());
        }
        double turn =
                Math.abs(Angles.turn(NEXT.courseAt(nm).deg() - flight.end().trackDeg()));
        flight.miles(Math.max(0, flight.end().position().distanceNm(behind) - Turn.standardTurnLeadNm(120, turn)));
        flight.turnTo(NEXT.offset(flight.end().position()).course().deg()).seconds(200);
        List<AircraftState> states = flight.sample(1);
        String say = String.format(
                Locale.ROOT, "fly heading %03d, intercept V50, then as filed", Ocean.magneticHeading(states.get(0)));
        return Flown.fly(states, List.of(Ocean.say(2, say)), "XNOR DCT BENDA V50 BENDC DCT XSOU");
    }
}
