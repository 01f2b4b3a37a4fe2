package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;

import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
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

    /**
     * East of the bend, on a heading that meets the leg behind it; turned so many seconds after the clearance to one that meets
     * the leg before it, and onto that with its lead. On the way the aircraft crosses the line of the leg behind the bend,
     * drawn on to the north, where no airway is.
     */
    private static Flown acrossTheLineDrawnOn(double reactionS) {
        ClosedFormFlight flight =
                new ClosedFormFlight(new Position(30.15, -44.3), 200, 140, Ocean.CALM).seconds(30 + reactionS);
        flight.turnTo(250);
        double side = FIRST.offset(flight.end().position()).crossTrackNm();
        double angle = Math.toRadians(250 - FIRST.finalCourse().deg());
        flight.miles(Math.abs(side) / Math.sin(angle) - flight.radiusNm() * Math.tan(angle / 2));
        flight.turnTo(FIRST.finalCourse().deg());
        flight.miles(FIRST.lengthNm()
                - Turn.standardTurnLeadNm(140, TURN_DEG)
                - FIRST.offset(flight.end().position()).alongTrackNm());
        flight.turnTo(NEXT.courseAt(0).deg()).seconds(120);
        List<AircraftState> states = flight.sample(2);
        double variation = Ocean.magneticHeading(states.get(0)) - 200;
        String say =
                String.format(Locale.ROOT, "turn right heading %03.0f, intercept V50, then as filed", 250 + variation);
        return Flown.fly(states, List.of(Ocean.at(30, say, 6000)), "XNOR DCT BENDA V50 BENDC DCT XSOU");
    }

    @ParameterizedTest
    @CsvSource({"5", "11", "20", "40", "60", "90"})
    void theLegThatIsMetIsTheOneTheAircraftTurnsTo(double reactionS) {
        Flown flown = acrossTheLineDrawnOn(reactionS);
        assertThat(flown.faults()).as("%s", flown.events()).isSubsetOf(List.of(FaultCode.HEADING_NOT_HELD));
        assertThat(flown.all(FlightEvent.InterceptAchieved.class))
                .singleElement()
                .satisfies(met -> assertThat(met.courseTrueDeg())
                        .isCloseTo(FIRST.finalCourse().deg(), Offset.offset(1.0)));
        assertThat(flown.criterion("INTERCEPT").measured()).isLessThan(0.1);
    }

    @Test
    void noSecondOfReactionMakesMuch() {
        double before = acrossTheLineDrawnOn(2).score();
        for (double reactionS = 5; reactionS <= 95; reactionS += 3) {
            double now = acrossTheLineDrawnOn(reactionS).score();
            assertThat(before - now)
                    .as("%.0f s, %s", reactionS, acrossTheLineDrawnOn(reactionS).grade())
                    .isBetween(-1.0, 12.0);
            before = now;
        }
    }

    /** The airway begins at BENDA: ten miles before it there is nothing to cross and nothing to fly through. */
    @Test
    void whereNoAirwayIsNothingIsFlownThrough() {
        ClosedFormFlight flight = new ClosedFormFlight(new Position(30.3, -45.2), 90, 140, Ocean.CALM).seconds(10);
        List<AircraftState> states = flight.turnTo(45).seconds(1200).sample(2);
        String say = String.format(
                Locale.ROOT, "fly heading %03d, intercept V50, then as filed", Ocean.magneticHeading(states.get(0)));
        Flown flown = Flown.fly(states, List.of(Ocean.at(2, say, 6000)), "XNOR DCT BENDA V50 BENDC DCT XSOU");
        assertThat(flown.all(FlightEvent.CourseCrossed.class)).isEmpty();
        assertThat(flown.faults()).contains(FaultCode.HEADING_NOT_HELD).doesNotContain(FaultCode.FLOWN_THROUGH);
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
