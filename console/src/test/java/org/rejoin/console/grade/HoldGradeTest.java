package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;

import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.clearance.FiledRouteReader;
import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.ocean.ClosedFormFlight;
import org.rejoin.bridge.ocean.Interrupted;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.protocol.AircraftState;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Holds and crossings in closed form, against their limits. Inbound course 090 true to AAA, still air, 120 kt. */
class HoldGradeTest {

    private static final Position AAA = new Position(30, -45);

    private static ClosedFormFlight arriving() {
        return arriving(0);
    }

    /** Straight to the fix on a track this much off the inbound course; right positive. */
    private static ClosedFormFlight arriving(double offDeg) {
        Position start = AAA.destination(new TrueDirection(270 + offDeg), 8);
        return new ClosedFormFlight(start, start.to(AAA).initial().deg(), 120, Ocean.CALM).miles(8);
    }

    private static ClosedFormFlight circuit(ClosedFormFlight flight, double outboundS) {
        return flight.turn(180).seconds(outboundS).turn(180).seconds(outboundS);
    }

    private static Flown fly(ClosedFormFlight flight, String say) {
        return fly(flight.sample(2), say);
    }

    private static Flown hold(List<AircraftState> states) {
        return fly(states, "direct AAA, hold west of AAA on the 282 radial");
    }

    private static Flown fly(List<AircraftState> states, String say) {
        return Flown.fly(states, List.of(Ocean.say(2, say)));
    }

    private static Flown hold(ClosedFormFlight flight) {
        return fly(flight, "direct AAA, hold west of AAA on the 282 radial");
    }

    /** The minute: AIM 5-3-8. Ten seconds of it: common practice, no source. The first leg is not judged. */
    @ParameterizedTest
    @CsvSource({"60, true", "69, true", "51, true", "71, false", "49, false"})
    void theInboundLegAgainstItsMinute(double seconds, boolean met) {
        ClosedFormFlight flight = circuit(arriving(), 85);
        Flown flown = hold(circuit(flight, seconds).seconds(5));
        Criterion times = flown.criterion("HOLD");
        assertThat(times.met()).isEqualTo(met);
        assertThat(times.measured()).isCloseTo(Math.abs(seconds - 60), Offset.offset(0.8));
        assertThat(times.source()).contains("IR.III.B");
        assertThat(flown.faults()).isEmpty();
        assertThat(flown.grade().verdict()).isEqualTo(met ? Verdict.MET : Verdict.NOT_MET);
    }

    /**
     * A turn out from a heading x toward the holding side ends R sin x farther out than a half circle (geometry of the turn),
     * so its first inbound leg is that much longer than those after it, and who takes it off the next outbound leg, as
     * AIM 5-3-8 has it, flies that one so much too short: the third shows whether he is right.
     */
    @ParameterizedTest
    @CsvSource({"60, 60, 0, true", "90, 60, 0, true", "105, 60, 0, true", "60, 82, 22, false", "60, 48, 12, false"})
    void afterAnEntryFromTheSideTheThirdLegTells(double off, double third, double measured, boolean met) {
        Flown flown = hold(fromTheSide(off, corrected(off), third));
        Criterion times = flown.criterion("HOLD");
        assertThat(times.measured()).isCloseTo(measured, Offset.offset(1.0));
        assertThat(times.met()).isEqualTo(met);
        assertThat(flown.grade().verdict()).isEqualTo(met ? Verdict.MET : Verdict.NOT_MET);
    }

    /** Nobody passes for not having had the time to be found out, nor with a second leg that no entry explains. */
    @ParameterizedTest
    @CsvSource({
        "60, 43.5, NOT_JUDGED",
        "60, 60, MET",
        "60, 68, MET",
        "60, 100, NOT_MET",
        "60, 20, NOT_MET",
        "5, 48, NOT_MET"
    })
    void theSecondLegAloneTellsLittleAfterAnEntryFromTheSide(double off, double second, Verdict verdict) {
        assertThat(hold(fromTheSide(off, second)).grade().verdict()).isEqualTo(verdict);
        Flown third = hold(fromTheSide(off, second, 60));
        assertThat(third.grade().verdict()).isEqualTo(verdict == Verdict.NOT_JUDGED ? Verdict.MET : verdict);
    }

    /** Who turns out from the other side is abeam the fix when his time begins: his first leg tells what the next ones need. */
    @Test
    void afterALongerTurnOutTheSecondLegTells() {
        ClosedFormFlight flight = arriving(-60).turn(240);
        double abeamS = Math.toDegrees(1) / 3 * Math.sin(Math.toRadians(60));
        flight.seconds(abeamS + 60).turn(180).seconds(60);
        Criterion times = hold(circuit(circuit(flight, 45), 60).seconds(5)).criterion("HOLD");
        assertThat(times.measured()).isCloseTo(15, Offset.offset(1.0));
        assertThat(times.met()).isFalse();
    }

    /** The outbound time of one who flew a minute after his entry and takes off by how much the inbound leg was too long. */
    private static double corrected(double off) {
        return 60 - Math.toDegrees(1) / 3 * Math.sin(Math.toRadians(off));
    }

    /** A minute out after the entry, then circuits with legs of so many seconds, which in still air are as long inbound. */
    private static ClosedFormFlight fromTheSide(double off, double... seconds) {
        ClosedFormFlight flight =
                arriving(off).turn(180 - off).seconds(60).turn(180).seconds(120 - corrected(off));
        for (double each : seconds) {
            circuit(flight, each);
        }
        return flight.seconds(5);
    }

    private static final String MILES = "direct AAA, hold west of AAA on the 282 radial, 5 mile legs";

    /**
     * The outbound leg ends where the DME or the along-track distance shows its length (AIM 5-3-8). So many miles straight out
     * after half a circle are as many along the course, and with the diameter of the turn and the 6000 ft above the station
     * the slant range that its DME shows. One mile: common practice, no source.
     */
    @ParameterizedTest
    @CsvSource({"5, true", "4.73, true", "5.9, true", "6.1, false", "3.75, true", "3.55, false", "2, false"})
    void theOutboundLegAgainstItsMiles(double along, boolean met) {
        ClosedFormFlight flight = arriving();
        double slant =
                Math.sqrt(along * along + Math.pow(2 * flight.radiusNm(), 2) + Math.pow(6000 * 0.3048 / 1852, 2));
        double off = Math.max(0, Math.max(along - 5, 5 - slant));
        flight.turn(180).miles(along);
        double turnS = flight.endS();
        flight.turn(180).miles(along).seconds(5);
        Flown flown = fly(flight, MILES);
        Criterion length = flown.criterion("HOLD_LENGTH");
        assertThat(length.measured()).isCloseTo(off, Offset.offset(0.03));
        assertThat(length.met()).isEqualTo(met);
        assertThat(length.source()).contains("IR.III.B", "AIM 5-3-8");
        if (off > 0.1) {
            assertThat(length.moment().orElseThrow()).isCloseTo(turnS, Offset.offset(0.7));
        }
        assertThat(flown.grade().criteria()).noneMatch(each -> each.code().equals("HOLD"));
        assertThat(flown.faults()).isEmpty();
        assertThat(flown.grade().verdict()).isEqualTo(met ? Verdict.MET : Verdict.NOT_MET);
    }

    /** Each leg of it, the worst counts; and what was not seen leaves the standard not judged. */
    @Test
    void theMilesOfEachLegCount() {
        ClosedFormFlight flight =
                arriving().turn(180).miles(5).turn(180).miles(5).turn(180).miles(2);
        double turnS = flight.endS();
        List<AircraftState> states = flight.turn(180).miles(2).seconds(5).sample(2);
        assertThat(fly(states, MILES).criterion("HOLD_LENGTH").met()).isFalse();
        Grade unseen =
                fly(Interrupted.unheard(states, turnS - 10, turnS + 10), MILES).grade();
        assertThat(unseen.verdict()).isEqualTo(Verdict.NOT_JUDGED);
        Grade afterwards =
                fly(Interrupted.unheard(states, turnS + 15, turnS + 30), MILES).grade();
        assertThat(afterwards.verdict()).isEqualTo(Verdict.NOT_MET);
    }

    /** Two half circles and next to nothing between them are no leg of five miles. */
    @Test
    void anOutboundLegOfSecondsIsNoneOfMiles() {
        ClosedFormFlight flight = arriving().turn(180).seconds(7).turn(180).seconds(7);
        Criterion length = fly(flight.seconds(20), MILES).criterion("HOLD_LENGTH");
        assertThat(length.met()).isFalse();
        assertThat(length.measured()).isBetween(3.0, 5.0);
    }

    @Test
    void whatWasNotDueIsNotJudged() {
        Flown first = hold(circuit(arriving(), 60).seconds(5));
        assertThat(first.grade().criteria()).noneMatch(each -> each.code().equals("HOLD"));
        assertThat(first.grade().notes()).anyMatch(note -> note.contains("only the first was flown"));
        assertThat(first.grade().verdict()).isEqualTo(Verdict.MET);
        Flown outbound = hold(arriving().turn(180).seconds(40));
        assertThat(outbound.faults()).isEmpty();
        assertThat(outbound.grade().verdict()).isEqualTo(Verdict.NOT_JUDGED);
    }

    /** The turn outbound fell into a gap: how the hold was entered nobody saw, and the standard is not met without it. */
    @Test
    void anEntryThatNobodySawLeavesTheStandardNotJudged() {
        ClosedFormFlight flight = circuit(circuit(arriving(), 60), 60).seconds(5);
        Flown flown = Flown.fly(
                flight.sample(2).stream()
                        .filter(state -> state.timeS() < 245 || state.timeS() > 290)
                        .toList(),
                List.of(Ocean.say(2, "direct AAA, hold west of AAA on the 282 radial")));
        assertThat(flown.criterion("HOLD").met()).isTrue();
        assertThat(flown.criterion("HOLD_ENTRY").verdict()).isEqualTo(Verdict.NOT_JUDGED);
        assertThat(flown.grade().verdict()).isEqualTo(Verdict.NOT_JUDGED);
    }

    /** A hold goes on until ATC says more: a silence in it is no end of the flight, as it is once a lesson is through. */
    @Test
    void aHoldIsNotOverWhenItIsComplete() throws Exception {
        FlightSession held = session("direct AAA, hold west of AAA on the 282 radial");
        circuit(circuit(arriving(), 60), 60).seconds(5).sample(2).forEach(held::accept);
        assertThat(held.complete()).isTrue();
        assertThat(held.over()).isFalse();
        FlightSession through = session("fly heading 100, climb and maintain 6000");
        arriving().sample(2).forEach(through::accept);
        assertThat(through.over()).isFalse();
    }

    private static FlightSession session(String say) throws Exception {
        return new FlightSession(
                new FlightSession.Setting(
                        Ocean.CHART,
                        FiledRouteReader.read(Ocean.FILED, Ocean.CHART),
                        List.of(Ocean.say(2, say)),
                        LocalDate.of(2026, 6, 1),
                        Ocean.CALM,
                        Limits.INSTRUMENT_RATING,
                        12),
                FlightRecord.whole());
    }

    /** An entry that the heading does not ask for costs points; AIM 5-3-8 recommends the entries and forbids none. */
    @Test
    void anotherEntryCostsPointsAndIsNoFault() {
        ClosedFormFlight flight = arriving().turn(-120).seconds(70);
        Criterion entry = hold(flight).criterion("HOLD_ENTRY");
        assertThat(entry.measured()).isEqualTo(1);
        assertThat(entry.met()).isTrue();
        assertThat(entry.points()).isLessThan(entry.maxPoints());
    }

    @Test
    void theWrongSideWeighsBySize() {
        Flown little = hold(circuit(arriving(), 60).turn(-95).turn(95).turn(180).seconds(60));
        Flown all = hold(circuit(arriving(), 60).turn(-180).seconds(60));
        assertThat(little.faults()).containsExactly(FaultCode.HOLD_WRONG_SIDE);
        assertThat(all.faults()).containsExactly(FaultCode.HOLD_WRONG_SIDE);
        assertThat(little.grade().faults().get(0).severity()).isBetween(0.0, 0.12);
        assertThat(all.grade().faults().get(0).severity()).isGreaterThan(0.9);
    }

    /** The entry is over with the first inbound leg: what is turned later is no matter of it. */
    @Test
    void aWrongTurnInThePatternTakesNothingFromTheEntry() {
        Criterion later = hold(circuit(arriving(), 60).turn(-180).seconds(60)).criterion("HOLD_ENTRY");
        assertThat(later.measured()).isZero();
        assertThat(later.met()).isTrue();
        assertThat(later.points()).isEqualTo(later.maxPoints());
        Criterion first =
                hold(arriving().turn(180).seconds(60).turn(-180).seconds(60)).criterion("HOLD_ENTRY");
        assertThat(first.measured()).isEqualTo(2);
        assertThat(first.met()).isFalse();
    }

    /** Lap 2 begins 240 s after the fix: out until 371 s, in from 431 s, over the fix at 502 s. */
    @ParameterizedTest
    @CsvSource({
        "310, 5, 0",
        "366, 40, 0",
        "400, 5, 0",
        "431, 5, 0",
        "470, 40, 0",
        "310, 0, 20",
        "470, 0, 20",
        "431, 0, 20"
    })
    void aPauseOrAGapChangesNothingThatWasSeen(double afterFixS, double pauseS, double gapS) {
        ClosedFormFlight flight = circuit(arriving(), 60);
        flight = circuit(flight, 71).seconds(5);
        double fixS = arriving().endS();
        List<AircraftState> states = flight.sample(2);
        Grade whole = hold(states).grade();
        Flown cut = hold(
                gapS > 0
                        ? Interrupted.unheard(states, fixS + afterFixS - gapS / 2, fixS + afterFixS + gapS / 2)
                        : Interrupted.standing(states, fixS + afterFixS, pauseS, 2));
        assertThat(cut.faults()).isEmpty();
        if (gapS > 0 && afterFixS == 431) {
            assertThat(cut.criterion("HOLD").verdict()).isEqualTo(Verdict.NOT_JUDGED);
            assertThat(cut.grade().verdict()).isEqualTo(Verdict.NOT_JUDGED);
            assertThat(cut.grade().notes()).noneMatch(note -> note.contains("only the first was flown"));
        } else {
            assertThat(cut.criterion("HOLD").measured()).isCloseTo(11, Offset.offset(0.8));
            assertThat(cut.grade().verdict()).isEqualTo(Verdict.NOT_MET);
            assertThat(cut.score()).isCloseTo(whole.score().orElseThrow(), Offset.offset(0.5));
        }
    }

    /** Nothing was flown while it stood: the fix is passed between the sample before and the one after. */
    @ParameterizedTest
    @CsvSource({"-1.2", "-0.6", "-0.1", "0", "0.1", "0.6", "1.2"})
    void aPauseOverTheFixLeavesTheEntryJudged(double afterFixS) {
        List<AircraftState> states =
                circuit(circuit(arriving(), 60), 60).seconds(5).sample(2);
        Grade whole = hold(states).grade();
        for (double seconds : new double[] {1, 5, 40}) {
            Flown cut = hold(Interrupted.standing(states, arriving().endS() + afterFixS, seconds, 2));
            assertThat(cut.criterion("HOLD_ENTRY").met())
                    .as("%s", cut.grade().criteria())
                    .isTrue();
            assertThat(cut.criterion("FIX").measured()).isLessThan(0.05);
            assertThat(cut.grade().verdict()).as("%s", cut.grade().criteria()).isEqualTo(Verdict.MET);
            assertThat(cut.score()).isCloseTo(whole.score().orElseThrow(), Offset.offset(0.5));
        }
    }

    /** What the feed lost in the pattern takes nothing from the direct that was over before it. */
    @ParameterizedTest
    @CsvSource({"300, 340", "250, 420", "20, 220"})
    void aGapInThePatternTakesNothingFromTheDirectBefore(double fromS, double toS) {
        List<AircraftState> states =
                circuit(circuit(circuit(arriving(), 60), 60), 60).seconds(5).sample(2);
        double fixS = arriving().endS();
        Grade whole = hold(states).grade();
        Flown cut = hold(Interrupted.unheard(states, fixS + fromS, fixS + toS));
        for (String code : List.of("INTERCEPT", "COURSE", "FIX")) {
            Criterion seen = cut.criterion(code);
            assertThat(seen.met()).as("%s: %s", code, seen).isTrue();
            assertThat(seen.points())
                    .isCloseTo(
                            whole.criteria().stream()
                                    .filter(each -> each.code().equals(code))
                                    .findFirst()
                                    .orElseThrow()
                                    .points(),
                            Offset.offset(0.1));
        }
    }

    /** The part of the inbound leg before a pause is tracked too. */
    @Test
    void theInboundCourseIsLookedAtFromBeforeAPause() {
        ClosedFormFlight flight = arriving().turn(180).seconds(60).turn(150).seconds(30);
        double crossS = flight.endS();
        flight.turn(30).seconds(60);
        Flown whole = hold(flight.sample(2));
        Flown cut = hold(Interrupted.standing(flight.sample(2), crossS + 20, 40, 2));
        assertThat(cut.criterion("HOLD_COURSE").measured())
                .isCloseTo(whole.criterion("HOLD_COURSE").measured(), Offset.offset(0.01));
    }

    /** A turn of 150 degrees is a third of the way from 135 to a half circle, also where most of it fell into a gap. */
    @ParameterizedTest
    @CsvSource({"0, 0", "20, 46", "35, 48", "10, 35"})
    void aGapMakesAWrongTurnNoLarger(double fromS, double toS) {
        ClosedFormFlight flight = arriving().turn(-150).seconds(60).turn(-210).seconds(40);
        double fixS = arriving().endS();
        List<AircraftState> states = flight.sample(2);
        Flown flown = hold(toS > 0 ? Interrupted.unheard(states, fixS + fromS, fixS + toS) : states);
        assertThat(flown.faults()).containsExactly(FaultCode.HOLD_WRONG_SIDE);
        assertThat(flown.grade().faults().get(0).severity()).isCloseTo(1.0 / 3, Offset.offset(0.04));
    }

    /** A pause in the turn leaves it as grave as it is. */
    @ParameterizedTest
    @CsvSource({"260", "272", "285"})
    void aPauseMakesAWrongTurnNoSmaller(double afterFixS) {
        ClosedFormFlight flight = circuit(arriving(), 60).turn(-180).seconds(60);
        Flown cut = hold(Interrupted.standing(flight.sample(2), arriving().endS() + afterFixS, 5, 2));
        assertThat(cut.faults()).containsExactly(FaultCode.HOLD_WRONG_SIDE);
        assertThat(cut.grade().faults().get(0).severity()).isGreaterThan(0.9);
    }

    /** A parallel entry turns up to 110 degrees that way; a half circle leads out on the side that is not protected. */
    @ParameterizedTest
    @CsvSource({"140, 0, 0.2", "180, 0.95, 1"})
    void theWrongSideAtTheEntryWeighsWholeAtAHalfCircle(double wrongWay, double least, double most) {
        Flown flown =
                hold(arriving().turn(-wrongWay).seconds(60).turn(wrongWay - 360).seconds(40));
        assertThat(flown.faults()).containsExactly(FaultCode.HOLD_WRONG_SIDE);
        assertThat(flown.grade().faults().get(0).severity()).isBetween(least, most);
        double said =
                Double.parseDouble(flown.grade().faults().get(0).text().replaceFirst(".* by (\\d+) degrees.*", "$1"));
        assertThat(said).isCloseTo(wrongWay, Offset.offset(2.0));
        Criterion entry = flown.criterion("HOLD_ENTRY");
        assertThat(entry.title()).isEqualTo("Hold, turned to the wrong side of it");
        assertThat(entry.measured()).isGreaterThan(entry.limit());
        assertThat(entry.met()).isFalse();
    }

    /** Who flew on past the fix has not flown the hold, however the lesson ended: it was due. */
    @Test
    void aHoldNeverEnteredIsAPartNotDone() {
        Flown never = hold(arriving().seconds(200));
        assertThat(never.faults()).containsExactly(FaultCode.HOLD_NOT_ENTERED);
        assertThat(never.criterion("COMPLETED").measured()).isEqualTo(1);
        assertThat(never.criterion("HOLD").points()).isZero();
        assertThat(never.criterion("FIX").title()).isEqualTo("Over AAA, distance from it");
        assertThat(never.grade().verdict()).isEqualTo(Verdict.NOT_MET);
    }

    @Test
    void aHoldNotEnteredWeighsByTime() {
        Flown late = hold(arriving().seconds(64).turn(180).seconds(30));
        Flown never = hold(arriving().seconds(300));
        assertThat(late.faults()).containsExactly(FaultCode.HOLD_NOT_ENTERED);
        assertThat(late.grade().faults().get(0).severity()).isLessThan(0.15);
        assertThat(never.faults()).startsWith(FaultCode.HOLD_NOT_ENTERED);
        assertThat(never.grade().faults().get(0).severity()).isEqualTo(1);
    }

    /** 100 ft: FAA-S-ACS-8C, IR.V.B.S7. Half of it at twice that, all of it a vertical separation off: FAA Order JO 7110.65, 4-5-1. */
    @ParameterizedTest
    @CsvSource({"5095, true, 0", "5105, false, 0.025", "4800, false, 0.5", "5600, false, 0.75", "4000, false, 1"})
    void aCrossing(double feet, boolean met, double severity) {
        Position north = new Position(30.9, -44.2);
        Position start = north.destination(new TrueDirection(270), 10);
        ClosedFormFlight flight =
                new ClosedFormFlight(start, start.to(north).initial().deg(), 120, Ocean.CALM);
        flight.miles(10 - flight.radiusNm()).turnTo(180).miles(5).altitude(t -> feet);
        Flown flown = fly(flight, "direct NORTH, then as filed, cross NORTH at 5000");
        Criterion crossing = flown.criterion("CROSSING");
        assertThat(crossing.met()).isEqualTo(met);
        assertThat(crossing.measured()).isCloseTo(Math.abs(feet - 5000), Offset.offset(0.5));
        assertThat(flown.faults().contains(FaultCode.CROSSING_MISSED)).isEqualTo(!met);
        if (!met) {
            assertThat(flown.grade().faults().get(0).severity()).isCloseTo(severity, Offset.offset(0.005));
        }
    }

    /** Three quarters of the scale on the way in: FAA-S-ACS-8C, IR.III.B; on an arc 1 NM: IR.V.A.S6. */
    @Test
    void theInboundCourse() {
        Criterion course = hold(circuit(circuit(arriving(), 60), 60).seconds(5)).criterion("HOLD_COURSE");
        assertThat(course.limit()).isCloseTo(1.5, Offset.offset(1e-9));
        assertThat(course.measured()).isLessThan(0.05);
    }
}
