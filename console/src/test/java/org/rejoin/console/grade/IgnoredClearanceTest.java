package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Locale;

import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.ocean.ClosedFormFlight;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.bridge.ocean.Ocean.Leg;
import org.rejoin.protocol.AircraftState;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
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

    /** South on V40, past where the AAA 102 radial comes to it; heading 102 leads along that radial, and does not meet it. */
    private static Flown pastTheRadial(double turnDeg) {
        Position start = Ocean.V40.pointAt(
                Ocean.V40.offset(Ocean.RADIAL.pointAt(Ocean.FIX_NM)).alongTrackNm() + 5);
        ClosedFormFlight flight =
                new ClosedFormFlight(start, Ocean.V40.offset(start).course().deg(), 120, Ocean.CALM);
        flight.seconds(10).turn(turnDeg).seconds(600);
        List<AircraftState> states = flight.sample(2);
        int heading = Math.floorMod(Ocean.magneticHeading(states.get(0)) - 90, 360);
        String say = String.format(
                Locale.ROOT, "turn left heading %03d, intercept the AAA 102 radial, join V40, then as filed", heading);
        return Flown.fly(states, List.of(Ocean.say(2, say)));
    }

    @Test
    void whoIgnoresAHeadingThatLeadsToNoCourseNeverBeganTheTurn() {
        Flown flown = pastTheRadial(0);
        assertThat(flown.faults()).as("%s", flown.events()).containsExactly(FaultCode.HEADING_NOT_HELD);
        assertThat(flown.grade().faults().get(0).text()).contains("was never begun");
        assertThat(flown.criterion("HEADING").judged()).isTrue();
        assertThat(flown.criterion("HEADING").met()).isFalse();
        assertThat(flown.all(FlightEvent.AmendmentComplete.class)).isEmpty();
        assertThat(flown.grade().verdict()).isEqualTo(Verdict.NOT_MET);
    }

    @Test
    void whoHoldsAHeadingThatLeadsToNoCourseHasDoneAsHeWasTold() {
        Flown flown = pastTheRadial(-90);
        assertThat(flown.faults()).as("%s", flown.events()).isEmpty();
        assertThat(flown.criterion("HEADING").met()).isTrue();
        assertThat(flown.criterion("INTERCEPT").judged()).isFalse();
    }

    /** The airway is crossed while he reacts, and the heading leads away from it: what he did wrong is not to turn to it. */
    @Test
    void aLineThatNobodyHadTimeToMeetIsNotFlownThrough() {
        Position abeam = Ocean.V40.pointAt(40);
        Position start = abeam.destination(new TrueDirection(75), 0.3);
        ClosedFormFlight flight =
                new ClosedFormFlight(start, start.to(abeam).initial().deg(), 120, Ocean.CALM);
        flight.seconds(900);
        List<AircraftState> states = flight.sample(2);
        int heading = Math.floorMod(Ocean.magneticHeading(states.get(0)) - 135, 360);
        Flown flown = Flown.fly(
                states, List.of(Ocean.say(2, String.format(Locale.ROOT, "fly heading %03d, intercept V40", heading))));
        assertThat(flown.routes().get(0).warnings())
                .extracting(warning -> warning.code().name())
                .contains("HEADING_DOES_NOT_REACH_COURSE");
        assertThat(flown.all(FlightEvent.CourseCrossed.class)).hasSize(1);
        assertThat(flown.faults()).as("%s", flown.events()).hasSize(1).doesNotContain(FaultCode.FLOWN_THROUGH);
        assertThat(flown.grade().faults().get(0).text()).contains("was never begun");
        assertThat(flown.criterion("HEADING").judged()).isTrue();
        assertThat(flown.criterion("HEADING").met()).isFalse();
    }

    /**
     * The old heading meets the same airway as the one that was said. The airway is joined, the vector was never flown: the heading
     * is not held, and of the clearance a part was not done (FAA-S-ACS-8C, IR.V.B.S4, comply with the clearance).
     */
    @Test
    void whoIgnoresAVectorAndMeetsTheAirwayAllTheSameHasNotDoneAllOfIt() {
        Position abeam = Ocean.V40.pointAt(40);
        Position start = abeam.destination(new TrueDirection(275), 9);
        ClosedFormFlight flight =
                new ClosedFormFlight(start, start.to(abeam).initial().deg(), 120, Ocean.CALM);
        flight.miles(9 - flight.radiusNm());
        flight.turnTo(Ocean.V40.courseAt(40).deg()).seconds(180);
        List<AircraftState> states = flight.sample(2);
        String say = heading(Ocean.magneticHeading(states.get(0)) + 45) + ", intercept V40, then as filed";
        Flown flown = Flown.fly(states, List.of(Ocean.at(2, say, 6000)));
        assertThat(flown.all(FlightEvent.AmendmentComplete.class)).hasSize(1);
        assertThat(flown.faults()).as("%s", flown.events()).containsExactly(FaultCode.HEADING_NOT_HELD);
        assertThat(flown.grade().faults().get(0).text()).contains("never on the assigned heading");
        assertThat(flown.criterion("COMPLETED").met()).isFalse();
        assertThat(flown.criterion("COMPLETED").points()).isZero();
    }

    /**
     * 420 kt, and the radial is met 2 NM before its fix: with 25 degrees of bank the turn onto it takes 2.1 NM and the one at the fix
     * more than 4 (radius 5.1 NM, R tan(turn / 2)). Nobody can be established between them, half a mile sooner or later: that is no
     * fault of the pilot's, and not judged.
     */
    @ParameterizedTest
    @ValueSource(doubles = {0, 0.1, 0.3, 0.6})
    void aCourseWithNoRoomToTurnOntoItIsNotJudged(double lateNm) {
        Position met = Ocean.RADIAL.pointAt(Ocean.FIX_NM - 2);
        double trackDeg = Ocean.RADIAL.courseAt(Ocean.FIX_NM).deg() - 45;
        Position start = met.destination(new TrueDirection(Angles.circle(trackDeg + 180)), 16);
        ClosedFormFlight flight =
                new ClosedFormFlight(start, start.to(met).initial().deg(), 420, Ocean.CALM);
        double leadNm = flight.radiusNm() * Math.tan(Math.toRadians(22.5));
        flight.miles(16 - leadNm + lateNm).turn(45).turn(90).seconds(60);
        List<AircraftState> states = flight.sample(2);
        String say = heading(Ocean.magneticHeading(states.get(0)))
                + ", intercept the AAA 102 radial, join V40, then as filed";
        Flown flown = Flown.fly(states, List.of(Ocean.at(2, say, 6000)));
        assertThat(flown.routes().get(0).warnings())
                .extracting(warning -> warning.code().name())
                .contains("NO_ROOM_TO_TURN");
        assertThat(flown.faults()).as("%s", flown.events()).isEmpty();
        assertThat(flown.criterion("INTERCEPT").notJudged())
                .hasValueSatisfying(why -> assertThat(why).contains("no room"));
        assertThat(flown.grade().verdict()).as("%s", flown.grade()).isEqualTo(Verdict.NOT_JUDGED);
    }

    /** Direct by direct to a limit: who goes on by the airway at the first fix has not gone on as cleared. */
    @Test
    void aRouteOfDirectsIsNotCompleteAtItsFirst() {
        Position benda = new Position(30.4, -44.8);
        Position start = benda.destination(new TrueDirection(0), 9);
        ClosedFormFlight flight =
                new ClosedFormFlight(start, start.to(benda).initial().deg(), 120, Ocean.CALM);
        flight.miles(60);
        Flown flown = Flown.fly(
                flight.sample(1), List.of(Ocean.say(2, "cleared to SOUTH via BENDA direct BENDB direct SOUTH")));
        assertThat(flown.faults()).as("%s", flown.events()).containsExactly(FaultCode.SEQUENCE_MISSED);
        assertThat(flown.all(FlightEvent.AmendmentComplete.class)).isEmpty();
        assertThat(flown.criterion("COMPLETED").met()).isFalse();
        assertThat(flown.grade().verdict()).isEqualTo(Verdict.NOT_MET);
    }

    /** By BENDA, where the route turns left, to BENDB, where it turns right by 28 degrees: so many degrees turned there, and on. */
    private static Flown turningAtTheSecondFix(double deg) {
        Position benda = new Position(30.4, -44.8);
        Position bendb = new Position(30.0, -44.4);
        Position start = benda.destination(new TrueDirection(0), 9);
        ClosedFormFlight flight =
                new ClosedFormFlight(start, start.to(benda).initial().deg(), 120, Ocean.CALM);
        flight.miles(9 - 0.3);
        for (int i = 0; i < 2; i++) {
            flight.turnTo(flight.end().position().to(bendb).initial().deg());
        }
        flight.miles(flight.end().position().distanceNm(bendb)).turn(deg);
        flight.turnTo(
                flight.end().position().to(new Position(29.2, -44.2)).initial().deg());
        return Flown.fly(
                flight.miles(20).sample(1),
                List.of(Ocean.say(2, "cleared to SOUTH via BENDA direct BENDB direct SOUTH")));
    }

    /** Right by the way of BENDB, left by that of BENDA: a wrong turn is measured from the courses at the fix where it is made. */
    @ParameterizedTest
    @CsvSource({
        "360, went round again at BENDB",
        "-360, went round again at BENDB",
        "-90, 'turned the wrong way at BENDB, by 89 degrees'",
        "-60, 'turned the wrong way at BENDB, by 59 degrees'"
    })
    void aWrongTurnAtALaterFixIsMeasuredThere(double deg, String text) {
        assertThat(turningAtTheSecondFix(0).faults()).isEmpty();
        assertThat(turningAtTheSecondFix(deg).grade().faults()).singleElement().satisfies(fault -> {
            assertThat(fault.code()).isEqualTo(FaultCode.WRONG_TURN);
            assertThat(fault.text()).startsWith(text);
            assertThat(fault.severity()).isGreaterThan(0.9);
        });
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

    private static final Position NORTH = new Position(30.9, -44.2);

    /** Outbound in a hold north of NORTH, right turns: cleared direct and on by V40, and flies the hold on. */
    private static Flown holdsOn(double outboundS, int laps, double onS) {
        double twoRadii = 2 * new ClosedFormFlight(NORTH, 180, 120, Ocean.CALM).radiusNm();
        Position abeam = NORTH.destination(new TrueDirection(270), twoRadii);
        ClosedFormFlight flight = new ClosedFormFlight(abeam, 0, 120, Ocean.CALM);
        flight.seconds(outboundS).turn(180).seconds(outboundS);
        for (int i = 0; i < laps; i++) {
            flight.turn(180).seconds(outboundS).turn(180).seconds(outboundS);
        }
        return Flown.fly(
                flight.seconds(onS).sample(2), List.of(Ocean.at(15, "cleared direct NORTH, V40, then as filed", 6000)));
    }

    /** Over the fix the hold turns right and the route goes straight on: a turn of a full circle is no turn of 30 degrees. */
    @ParameterizedTest
    @ValueSource(doubles = {10, 60, 90})
    void whoHoldsOnWhenClearedDirectHasTurnedTheWrongWayAtTheFix(double outboundS) {
        Flown gone = holdsOn(outboundS, 0, 300);
        Flown late = holdsOn(outboundS, 1, 300);
        Flown never = holdsOn(outboundS, 2, 0);
        assertThat(late.grade().faults())
                .as("%s", late.grade())
                .filteredOn(fault -> fault.code() == FaultCode.WRONG_TURN)
                .singleElement()
                .satisfies(fault -> assertThat(fault.severity()).isEqualTo(1));
        assertThat(late.score()).isLessThan(gone.score() - 25);
        assertThat(never.score()).isLessThan(late.score() - 9);
        assertThat(never.criterion("COMPLETED").points()).isZero();
        assertThat(never.grade().verdict()).isEqualTo(Verdict.NOT_MET);
    }

    /**
     * Outbound in a hold at NORTH with this inbound course: cleared direct and on by V40, south from there. He flies so many
     * circuits more, and then goes on.
     */
    private static Flown holdsOn(double inboundDeg, int way, double legS, int laps) {
        double twoRadii = 2 * new ClosedFormFlight(NORTH, 180, 120, Ocean.CALM).radiusNm();
        Position abeam = NORTH.destination(new TrueDirection(Angles.circle(inboundDeg + 90 * way)), twoRadii);
        ClosedFormFlight flight = new ClosedFormFlight(abeam, Angles.circle(inboundDeg + 180), 120, Ocean.CALM);
        for (int i = 0; i <= laps; i++) {
            flight.turn(i == 0 ? 0 : 180 * way).seconds(legS).turn(180 * way).seconds(legS);
        }
        flight.turnTo(180).seconds(300);
        return Flown.fly(flight.sample(2), List.of(Ocean.at(3, "cleared direct NORTH, V40, then as filed", 6000)));
    }

    /** The way of the hold may be that of the route, and its legs of any length: a circuit more is a circuit more. */
    @ParameterizedTest
    @CsvSource({"90, 1", "90, -1", "250, -1", "250, 1", "180, 1"})
    void whoFliesACircuitMoreIsToldThatHeDidNotGoOn(double inboundDeg, int way) {
        double[] before = {100, 100, 100};
        for (double legS : new double[] {0, 10, 20, 30, 45, 60}) {
            Flown gone = holdsOn(inboundDeg, way, legS, 0);
            assertThat(gone.faults()).as("%.0f s: %s", legS, gone.grade()).isEmpty();
            for (int laps = 1; laps <= 2; laps++) {
                Flown stayed = holdsOn(inboundDeg, way, legS, laps);
                String as = String.format(Locale.ROOT, "%.0f s, %d: %s", legS, laps, stayed.grade());
                assertThat(stayed.grade().faults()).as(as).singleElement().satisfies(fault -> {
                    assertThat(fault.code()).isEqualTo(FaultCode.WRONG_TURN);
                    assertThat(fault.severity()).isEqualTo(1);
                    assertThat(fault.text())
                            .startsWith("went round again at NORTH and did not go on from it as cleared");
                });
                assertThat(gone.score() - stayed.score()).as(as).isBetween(25.0, 42.0);
                assertThat(before[laps] - stayed.score()).as(as).isBetween(0.0, legS == 0 ? 100 : 12.0);
                before[laps] = stayed.score();
            }
            // Late by another circuit, and no more than COMPLETED, 10 of 90 points and what else they leave.
            assertThat(before[1] - before[2]).as("%.0f s", legS).isBetween(2.0, 12.0);
        }
    }

    /** The hold lies on the airway that he is to leave by, and leads to the fix against it: nothing of that is the airway yet. */
    @ParameterizedTest
    @ValueSource(doubles = {0, 10, 20, 30, 45, 60})
    void whoGoesToTheFixAgainstTheAirwayHasNotFlownTheAirwayTheWrongWay(double legS) {
        for (int way : new int[] {1, -1}) {
            Flown gone = holdsOn(0, way, legS, 0);
            assertThat(gone.faults()).as("%s %s", gone.grade(), gone.events()).isEmpty();
        }
    }

    /** Round and round, each time over the fix: he came to it, not direct, and the longer he stays the less he has gone on. */
    @Test
    void whoCirclesOverTheFixOfADirectHasNotGoneOn() {
        double radiusNm = new ClosedFormFlight(NORTH, 180, 120, Ocean.CALM).radiusNm();
        Position abeam = NORTH.destination(new TrueDirection(270), 2 * radiusNm);
        double before = 100;
        for (int circles = 1; circles <= 4; circles++) {
            ClosedFormFlight flight = new ClosedFormFlight(abeam, 0, 120, Ocean.CALM).turn(180 + 360 * circles);
            Flown flown =
                    Flown.fly(flight.sample(2), List.of(Ocean.at(2, "cleared direct NORTH, V40, then as filed", 6000)));
            String as = String.format(Locale.ROOT, "%d: %s %s", circles, flown.grade(), flown.events());
            assertThat(flown.all(FlightEvent.InterceptAchieved.class)).as(as).isEmpty();
            assertThat(flown.all(FlightEvent.FixSequenced.class)).as(as).isNotEmpty();
            assertThat(flown.score()).as(as).isBetween(before == 100 ? 0 : before - 12, before);
            before = flown.score();
            assertThat(flown.grade().verdict()).as(as).isEqualTo(Verdict.NOT_MET);
            assertThat(flown.grade().faults())
                    .as(as)
                    .singleElement()
                    .satisfies(fault ->
                            assertThat(fault.text()).contains("went round again at NORTH and did not go on from it"));
        }
        assertThat(before).isLessThan(45);
    }

    /** Right by 70 degrees was said; turned so far, and held for four minutes. */
    private static Flown turned(double deg) {
        return turned(10, 70, deg);
    }

    private static Flown turned(double atS, double orderedDeg, double deg) {
        ClosedFormFlight flight = new ClosedFormFlight(new Position(30.3, -44.9), 100, 120, Ocean.CALM);
        List<AircraftState> states = flight.seconds(atS).turn(deg).seconds(240).sample(2);
        int heading = Math.floorMod((int) Math.round(Ocean.magneticHeading(states.get(0)) + orderedDeg), 360);
        return Flown.fly(
                states, List.of(Ocean.at(2, String.format(Locale.ROOT, "turn right heading %03d", heading), 6000)));
    }

    /**
     * A heading held wrong by so many degrees is a heading not held (more than 10 degrees, FAA-S-ACS-8C, IR.V.B.S7), short of it
     * or past it; a clearance that was not complied with is that of who made less than half of the turn.
     */
    @ParameterizedTest
    @ValueSource(doubles = {58, 50, 40, 82, 90, 100})
    void whoTurnedToItAndHoldsAnotherHasNotHeldIt(double deg) {
        Flown flown = turned(deg);
        assertThat(flown.faults()).as("%s", flown.grade()).containsExactly(FaultCode.HEADING_NOT_HELD);
    }

    @ParameterizedTest
    @ValueSource(doubles = {30, 20, 5, 0, -30})
    void whoMadeLessThanHalfOfTheTurnHasNotTurnedToIt(double deg) {
        assertThat(turned(deg).faults())
                .doesNotContain(FaultCode.HEADING_NOT_HELD)
                .hasSize(1);
    }

    /** Turned past it he made the turn that was said, however far that was: the heading that he holds is as far off as it is. */
    @ParameterizedTest
    @ValueSource(doubles = {40, 70, 120})
    void pastTheHeadingItIsNoTurnThatWasNotMade(double orderedDeg) {
        for (double pastDeg : new double[] {25, 45}) {
            Flown flown = turned(10, orderedDeg, orderedDeg + pastDeg);
            assertThat(flown.grade().faults())
                    .as("%s", flown.grade())
                    .singleElement()
                    .satisfies(fault -> assertThat(fault.text())
                            .contains(String.format(
                                    Locale.ROOT, "turned %.0f degrees past the assigned heading", pastDeg)));
            assertThat(flown.score()).isCloseTo(turned(10, 70, 70 + pastDeg).score(), within(0.3));
        }
    }

    /**
     * "Fly heading 200" to who flies 190 and goes on so. A selected heading is one held within 5 degrees (FAA-S-ACS-8C, IR.V.A.S5);
     * up to 10 (IR.V.B.S7) it is no fault, and the heading has not been taken up: the grade goes by how far off it is.
     */
    @Test
    void whoGoesOnBesideTheHeadingThatIsSaidHasNotTakenItUp() {
        double before = 100;
        for (int off = 0; off <= 20; off++) {
            Flown flown = turned(10, off, 0);
            String as = String.format(Locale.ROOT, "%d degrees: %s", off, flown.grade());
            // The heading that is said is a whole degree.
            boolean takenUp = off <= 5;
            assertThat(flown.all(FlightEvent.AmendmentComplete.class)).as(as).hasSize(takenUp ? 1 : 0);
            assertThat(flown.all(FlightEvent.HeadingEstablished.class)).as(as).hasSize(takenUp ? 1 : 0);
            assertThat(flown.criterion("COMPLETED").met()).as(as).isEqualTo(takenUp);
            assertThat(flown.criterion("HEADING").measured()).as(as).isCloseTo(off, within(0.6));
            assertThat(flown.faults()).as(as).hasSize(off <= 10 ? 0 : 1);
            assertThat(before - flown.score()).as(as).isBetween(off == 0 ? 0 : 0.5, 6.5);
            before = flown.score();
        }
    }

    /** Nearly on the heading that is said, and away from it: how near he was when it was said is not what he held. */
    @ParameterizedTest
    @CsvSource({"0, -90", "0, 90", "4, -60", "8, -40"})
    void whoTurnsAwayFromAHeadingHeWasNearlyOnHasNotFlownIt(double orderedDeg, double deg) {
        Flown flown = turned(3, orderedDeg, deg);
        assertThat(flown.criterion("COMPLETED").points())
                .as("%s", flown.grade())
                .isZero();
        assertThat(flown.grade().faults())
                .as("%s", flown.grade())
                .isNotEmpty()
                .allSatisfy(fault -> assertThat(fault.severity()).isBetween(0.5, 1.0));
    }

    /** Begun 25 s late the old heading was held for a while, and is not the one held in place of the assigned one. */
    @Test
    void whoTurnsPastItLateTurnedPastItAllTheSame() {
        assertThat(turned(27, 40, 85).grade().faults())
                .singleElement()
                .satisfies(fault -> assertThat(fault.text()).contains("turned 45 degrees past the assigned heading"));
    }

    @ParameterizedTest
    @ValueSource(ints = {-1, 1})
    void aHeadingADegreeWorseCostsLittle(int side) {
        double before = 100;
        for (double off = 0; off <= 70; off += off < 40 ? 1 : 3) {
            Flown flown = turned(70 + side * off);
            assertThat(before - flown.score())
                    .as("%.0f degrees off, %.1f before: %s", side * off, before, flown.grade())
                    .isBetween(-0.5, 12.0);
            before = flown.score();
        }
        assertThat(before).isLessThan(25);
    }

    /** Along the radial and just beside it a vector onto it is over before he could turn: that he stays is no heading left. */
    @ParameterizedTest
    @ValueSource(doubles = {0.1, 0.2, 0.3, 0.4})
    void aVectorOntoTheCourseHeIsOnIsNotJudged(double besideNm) {
        Position start = Ocean.RADIAL.pointAt(8).destination(new TrueDirection(180), besideNm);
        ClosedFormFlight flight = new ClosedFormFlight(start, 90, 140, Ocean.CALM);
        flight.miles(Ocean.FIX_NM - 8 - flight.radiusNm()).turnTo(180).seconds(180);
        List<AircraftState> states = flight.sample(2);
        int heading = Math.floorMod(Ocean.magneticHeading(states.get(0)) - 45, 360);
        String say = String.format(
                Locale.ROOT, "fly heading %03d, intercept the AAA 102 radial, join V40, then as filed", heading);
        Flown flown = Flown.fly(states, List.of(Ocean.at(2, say, 6000)));
        assertThat(flown.faults()).as("%s", flown.events()).isEmpty();
        assertThat(flown.criterion("HEADING").judged()).isFalse();
        assertThat(flown.grade().verdict()).as("%s", flown.grade()).isEqualTo(Verdict.NOT_JUDGED);
    }

    /** The altitude is held because it was held before; turn and course were not due when the next one came 25 s later. */
    @Test
    void whatWasNotDueOfAClearanceLeavesItNotJudgedThoughItsAltitudeWasKept() {
        Leg leg = Ocean.toRadial(45, -1, 120, Ocean.CALM);
        int flown = Ocean.magneticHeading(leg.flight.seconds(600).sample(1).get(0));
        String first = heading(flown + 60) + ", intercept the AAA 102 radial, join V40, then as filed";
        String second = heading(flown + 30) + ", intercept the AAA 102 radial, join V40, then as filed";
        Flown ignored = Flown.fly(leg.flight.sample(1), List.of(Ocean.at(2, first, 6000), Ocean.at(27, second, 6000)));
        List<AmendmentGrade> amendments = ignored.grade().last().amendments();
        assertThat(amendments.get(0).verdict()).isEqualTo(Verdict.NOT_JUDGED);
        assertThat(amendments.get(0).notJudged())
                .contains("what was not due when the next clearance came is not judged");
        assertThat(amendments.get(1).verdict()).isEqualTo(Verdict.NOT_MET);
        assertThat(ignored.grade().verdict()).isEqualTo(Verdict.NOT_MET);
    }

    private static String heading(int magnetic) {
        return String.format(Locale.ROOT, "fly heading %03d", (magnetic + 359) % 360 + 1);
    }
}
