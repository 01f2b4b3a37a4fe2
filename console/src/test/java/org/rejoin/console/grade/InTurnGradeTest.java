package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;

import org.rejoin.bridge.Amendment;
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
 * Altitudes and speeds that a clearance assigns one after the other (FAA Order JO 7110.65, 4-5-7, 5-7-2 and 5-9-4; Aeronautical
 * Information Manual 4-4-10 and 4-4-12): all of them are to be flown, each from where it is in force, within 100 ft and 10 kt
 * (FAA-S-ACS-8C, IR.V.A.S5), at 500 ft a minute at least (Aeronautical Information Manual 4-4-10).
 */
class InTurnGradeTest {

    private static final Position NORTH = new Position(30.9, -44.2);

    /** Feet a second of a climb of 500 ft a minute. */
    private static final double CLIMB = 500 / 60.0;

    /** NORTH is passed then, on the way south from 10 NM before it at 120 kt. */
    private static final double NORTH_S = 300;

    private static DoubleUnaryOperator steady(double value) {
        return t -> value;
    }

    /** From one value to another at a rate, begun at a time. */
    private static DoubleUnaryOperator from(double one, double other, double perS, double atS) {
        return t ->
                one + Math.signum(other - one) * Math.min(Math.abs(other - one), Math.max(0, t - atS) * Math.abs(perS));
    }

    /** Straight down the filed route over NORTH, for so long. */
    private static List<AircraftState> south(DoubleUnaryOperator feet, DoubleUnaryOperator knots, double seconds) {
        Position start = NORTH.destination(new TrueDirection(0), 10);
        ClosedFormFlight flight = new ClosedFormFlight(start, 180, 120, Ocean.CALM);
        return withSpeed(flight.seconds(seconds).altitude(feet).sample(2), knots);
    }

    private static List<AircraftState> withSpeed(List<AircraftState> states, DoubleUnaryOperator knots) {
        return states.stream()
                .map(s -> Ocean.sending(s, s.altitudeMslFt(), OptionalDouble.of(knots.applyAsDouble(s.timeS()))))
                .toList();
    }

    private static List<AircraftState> altitudeLost(List<AircraftState> states, double fromS, double toS) {
        return states.stream()
                .map(s -> s.timeS() < fromS || s.timeS() > toS
                        ? s
                        : Ocean.sending(s, OptionalDouble.empty(), s.indicatedAirspeedKt()))
                .toList();
    }

    private static Flown fly(List<AircraftState> states, String... said) {
        List<Amendment> amendments = new ArrayList<>();
        for (int i = 0; i < said.length; i++) {
            amendments.add(Ocean.say(2 + 90 * i, said[i]));
        }
        return Flown.fly(states, amendments);
    }

    private static void isMet(Flown flown) {
        assertThat(flown.grade().verdict())
                .as("%s %s %s", flown.grade().notJudged(), flown.grade(), flown.events())
                .isEqualTo(Verdict.MET);
    }

    private static void isNotMet(Flown flown, FaultCode fault) {
        assertThat(flown.grade().verdict())
                .as("%s %s", flown.grade(), flown.events())
                .isEqualTo(Verdict.NOT_MET);
        // Who never came to it has not done what was cleared: the same mistake, and one fault.
        assertThat(flown.faults())
                .filteredOn(each -> each == fault || each == FaultCode.NOT_ACHIEVED)
                .hasSize(1);
    }

    private static void isNotJudged(Flown flown) {
        assertThat(flown.grade().verdict())
                .as("%s %s", flown.grade(), flown.events())
                .isEqualTo(Verdict.NOT_JUDGED);
        assertThat(flown.faults()).isEmpty();
    }

    /** On a heading to the radial, established at about 330 s, along it and onto the airway. */
    private static List<AircraftState> toRadial(DoubleUnaryOperator feet) {
        Ocean.Leg leg = new Ocean.Leg(45, 1, 120, Ocean.CALM, 11);
        leg.toLead().turnOn().asCleared().flight.altitude(feet);
        return leg.flight.sample(2);
    }

    private static String toRadial(List<AircraftState> states, String then) {
        return Ocean.radialClearance(states.get(0)) + ", maintain 6000 until established, then " + then;
    }

    @Test
    void whoStaysAtTheFirstAltitudeOnceEstablishedHasNotMetTheStandard() {
        List<AircraftState> never = toRadial(steady(6000));
        Flown flown = fly(never, toRadial(never, "climb and maintain 8000"));
        isNotMet(flown, FaultCode.ALTITUDE_NOT_HELD);
        assertThat(flown.criterion("ALTITUDE").verdict()).isEqualTo(Verdict.NOT_MET);
        assertThat(flown.criterion("INTERCEPT").met()).isTrue();
        assertThat(flown.all(FlightEvent.AmendmentComplete.class)).isEmpty();
        double establishedS =
                flown.all(FlightEvent.InterceptAchieved.class).get(0).timeS();
        List<AircraftState> climbs = toRadial(from(6000, 8000, CLIMB, establishedS + 10));
        isMet(fly(climbs, toRadial(climbs, "climb and maintain 8000")));
    }

    @ParameterizedTest
    @ValueSource(strings = {"resume own navigation, maintain", "maintain"})
    void whoNeverClimbsPastTheFixHasNotMetTheStandard(String words) {
        String said = words + " 6000 until NORTH, then climb and maintain 8000";
        isNotMet(fly(south(steady(6000), steady(120), 800), said), FaultCode.ALTITUDE_NOT_HELD);
        isMet(fly(south(from(6000, 8000, CLIMB, NORTH_S + 10), steady(120), 800), said));
    }

    @Test
    void whoNeverChangesTheSpeedPastTheFixHasNotMetTheStandard() {
        String said = "maintain 120 knots until NORTH, then maintain 150 knots";
        Flown never = fly(south(steady(6000), steady(120), 700), said);
        isNotMet(never, FaultCode.SPEED_NOT_HELD);
        assertThat(never.criterion("SPEED").verdict()).isEqualTo(Verdict.NOT_MET);
        isMet(fly(south(steady(6000), from(120, 150, 0.5, NORTH_S + 10), 700), said));
    }

    /** At 500 ft a minute 2000 ft take four minutes: until then nobody can say that they were not flown. */
    @ParameterizedTest
    @CsvSource({"310, 6000", "400, 6000", "400, 6700"})
    void endedBeforeTheSecondWasDueNothingIsMet(double endS, double feet) {
        String said = "resume own navigation, maintain 6000 until NORTH, then climb and maintain 8000";
        Flown flown = fly(south(from(6000, feet, CLIMB, NORTH_S + 10), steady(120), endS), said);
        isNotJudged(flown);
        assertThat(flown.criterion("ALTITUDE").judged()).isFalse();
    }

    /** The next clearance takes back what was not due of the one before. */
    @Test
    void anotherAltitudeBeforeTheSecondWasDueTakesItBack() {
        isMet(fly(
                south(from(6000, 6500, CLIMB, 100), steady(120), 500),
                "resume own navigation, maintain 6000 until NORTH, then climb and maintain 8000",
                "climb and maintain 6500"));
    }

    /** No step of more than 12 points for 2 s of delay, and never more for who climbs later. */
    @Test
    void theLaterTheClimbTheLessItEarnsAndNoStepIsSteep() {
        double before = 101;
        for (double late = 0; late <= 330; late += late < 30 || late > 130 ? 10 : 2) {
            Flown flown = fly(
                    south(from(6000, 8000, CLIMB, NORTH_S + late), steady(120), 1000),
                    "resume own navigation, maintain 6000 until NORTH, then climb and maintain 8000");
            double score = flown.score();
            assertThat(score).as("%.0f s late", late).isLessThanOrEqualTo(before + 0.2);
            if (late > 30 && late <= 130) {
                assertThat(score).as("%.0f s late", late).isGreaterThanOrEqualTo(before - 12);
            }
            before = score;
        }
        assertThat(before).isLessThan(60);
    }

    /** Level so many feet short of it: what was left of the climb is what is missing. */
    @Test
    void theFartherFromTheSecondTheLessItEarns() {
        double before = -1;
        for (double feet = 6000; feet <= 8000; feet += feet < 7700 ? 100 : 10) {
            double score = fly(
                            south(from(6000, feet, CLIMB, NORTH_S + 5), steady(120), 800),
                            "resume own navigation, maintain 6000 until NORTH, then climb and maintain 8000")
                    .grade()
                    .score()
                    .orElseThrow();
            assertThat(score).as("%.0f ft", feet).isBetween(before - 0.2, before < 0 ? 100 : before + 12);
            before = score;
        }
        assertThat(before).isGreaterThan(95);
    }

    /** "Then" (7110.65, 4-5-7): up to the crossing nothing but the crossing is asked for. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "cross NORTH at or above 6000, then descend and maintain 5000",
                "cross NORTH at or above 6000, descend and maintain 5000",
                "cross NORTH at 6000, then descend and maintain 5000",
                "cross NORTH at and maintain 6000, then descend and maintain 5000",
                "maintain 6000, cross NORTH at or above 6000, then descend and maintain 5000"
            })
    void pastACrossingTheNextAltitudeIsInForce(String said) {
        isMet(fly(south(from(6000, 5000, CLIMB, NORTH_S + 5), steady(120), 700), said));
        isNotMet(fly(south(steady(6000), steady(120), 700), said), FaultCode.ALTITUDE_NOT_HELD);
        isNotMet(fly(south(from(6000, 5000, CLIMB, NORTH_S - 60), steady(120), 700), said), FaultCode.CROSSING_MISSED);
    }

    @Test
    void climbingToCrossAndThenOnIsJudgedFromTheCrossing() {
        String said = "cross NORTH at or above 6500, then climb and maintain 7000";
        DoubleUnaryOperator sound = t -> t < 250
                ? from(6000, 6500, CLIMB, 150).applyAsDouble(t)
                : from(6500, 7000, CLIMB, NORTH_S + 10).applyAsDouble(t);
        isMet(fly(south(sound, steady(120), 700), said));
        isNotMet(fly(south(from(6000, 6500, CLIMB, 150), steady(120), 700), said), FaultCode.ALTITUDE_NOT_HELD);
        isNotMet(fly(south(from(6000, 7000, CLIMB, NORTH_S), steady(120), 700), said), FaultCode.CROSSING_MISSED);
    }

    /** A climb that is said before its crossing is begun at once (Aeronautical Information Manual 4-4-10). */
    @Test
    void anAltitudeSaidBeforeItsCrossingIsInForceAtOnce() {
        isNotMet(
                fly(
                        south(from(6000, 7000, CLIMB, 220), steady(120), 700),
                        "climb and maintain 7000, cross NORTH at or above 6500"),
                FaultCode.ALTITUDE_NOT_HELD);
    }

    /** Within a block, in a cruise and above a lowest altitude the height is the pilot's: 7110.65, 4-5-7, from memory. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "maintain block 6000 through 8000",
                "cruise 8000",
                "maintain at or above 6000 until SOUTH",
                "maintain at least 6000"
            })
    void theAltitudeBeforeIsNotJudgedAnyMoreWhereAnotherIsLeftToThePilot(String open) {
        List<AircraftState> climbing = south(from(6000, 7000, CLIMB, 150), steady(120), 700);
        assertThat(fly(climbing, "direct NORTH, then as filed, maintain 6000").faults())
                .contains(FaultCode.ALTITUDE_NOT_HELD);
        assertThat(fly(climbing, "direct NORTH, then as filed, maintain 6000", open)
                        .faults())
                .isEmpty();
    }

    @ParameterizedTest
    @ValueSource(strings = {"reduce speed by 20 knots", "maintain slowest practical speed"})
    void theSpeedBeforeIsNotJudgedAnyMoreWhereAnotherIsSaidWithoutItsKnots(String open) {
        List<AircraftState> slowing = south(steady(6000), from(120, 95, 1, 110), 700);
        assertThat(fly(slowing, "direct NORTH, then as filed, maintain 120 knots")
                        .faults())
                .contains(FaultCode.SPEED_NOT_HELD);
        assertThat(fly(slowing, "direct NORTH, then as filed, maintain 120 knots", open)
                        .faults())
                .isEmpty();
    }

    /** FAA Order JO 7110.65, 4-5-7; ICAO Doc 4444, 12.3.1.2, both from memory. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "cancel altitude restriction at NORTH",
                "delete altitude restrictions",
                "altitude restriction at NORTH is cancelled, report reaching"
            })
    void aCrossingThatIsCancelledIsNotAskedForAnyMore(String cancelled) {
        String said = "descend and maintain 5000, cross NORTH at 5500";
        List<AircraftState> down = south(from(6000, 5000, CLIMB, 10), steady(120), 700);
        isNotMet(fly(down, said), FaultCode.CROSSING_MISSED);
        Flown flown = fly(down, said, cancelled);
        isMet(flown);
        assertThat(flown.grade().criteria()).noneMatch(each -> each.code().equals("CROSSING"));
        assertThat(flown.grade().notes()).noneMatch(note -> note.contains("NORTH"));
        // What it held up is due now.
        isNotMet(
                fly(south(from(6000, 5500, CLIMB, 10), steady(120), 700), said, cancelled),
                FaultCode.ALTITUDE_NOT_HELD);
        // Taken back, the crossing is asked for again.
        isNotMet(fly(down, said, cancelled, "disregard"), FaultCode.CROSSING_MISSED);
        // Of another fix it says nothing.
        isNotMet(fly(down, said, "cancel altitude restriction at SOUTH"), FaultCode.CROSSING_MISSED);
    }

    /**
     * Nobody can be at 5000 and cross at or above 5500: up to the crossing the descent is at the pilot's discretion, and 5000
     * is due behind it (Aeronautical Information Manual 4-4-10; "authorizes pilots to descend whenever they choose, as long
     * as they cross at or above", Instrument Procedures Handbook, FAA-H-8083-16, of descent clearances).
     */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "descend and maintain 5000, cross NORTH at or above 5500",
                "descend and maintain 5000, cross NORTH at 5500"
            })
    void aCrossingOnTheWayIsKeptUntilItIsMade(String said) {
        DoubleUnaryOperator levelled = t -> t < 250
                ? from(6000, 5500, CLIMB, 10).applyAsDouble(t)
                : from(5500, 5000, CLIMB, NORTH_S + 10).applyAsDouble(t);
        isMet(fly(south(levelled, steady(120), 700), said));
        isNotMet(fly(south(from(6000, 5000, CLIMB, 10), steady(120), 700), said), FaultCode.CROSSING_MISSED);
        isNotMet(fly(south(from(6000, 5500, CLIMB, 10), steady(120), 700), said), FaultCode.ALTITUDE_NOT_HELD);
        DoubleUnaryOperator stayed = from(6000, 5000, CLIMB, NORTH_S + 5);
        if (said.contains("above")) {
            isMet(fly(south(stayed, steady(120), 700), said));
        } else {
            isNotMet(fly(south(stayed, steady(120), 700), said), FaultCode.CROSSING_MISSED);
        }
        isNotMet(fly(south(steady(6000), steady(120), 700), said), FaultCode.NOT_ACHIEVED);
    }

    /**
     * "Cross Lakeview VOR at or below one zero thousand, descend and maintain 6,000": at the pilot's discretion until the
     * crossing, then at the suggested rates (Aeronautical Information Manual 4-4-10), whichever is said first.
     */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "descend and maintain 5000, cross NORTH at or below 5500",
                "cross NORTH at or below 5500, descend and maintain 5000",
                "cross NORTH at or below 5500 and maintain 5000",
                "cross NORTH at or below 5500, maintain 5000",
                "resume own navigation, descend and maintain 5000, cross NORTH at or below 5500"
            })
    void toACrossingAtOrBelowTheDescentIsAtThePilotsDiscretion(String said) {
        // 5450 at NORTH, and on.
        isMet(fly(south(from(6000, 5000, CLIMB, NORTH_S - 66), steady(120), 700), said));
        isMet(fly(south(from(6000, 5000, CLIMB, 10), steady(120), 700), said));
        // At NORTH by AIM 4-4-10 the rest is to be begun: who stays at 5500 has not gone on.
        Flown stayed = fly(south(from(6000, 5500, CLIMB, NORTH_S - 70), steady(120), 700), said);
        assertThat(stayed.faults()).as("%s", stayed.grade()).hasSize(1);
        assertThat(stayed.grade().faults().get(0).text())
                .containsPattern("levelled at 5500 ft, cleared 5000|no descent had begun");
        isNotMet(fly(south(from(6000, 5000, CLIMB, NORTH_S - 20), steady(120), 700), said), FaultCode.CROSSING_MISSED);
    }

    /** Such a crossing leaves nothing open to who is below it already, or was down and climbed again. */
    @Test
    void aCrossingAtOrBelowIsNoLicenceAboveTheAltitude() {
        isNotMet(
                fly(
                        south(from(6000, 5000, CLIMB, 220), steady(120), 700),
                        "descend and maintain 5000, cross NORTH at or below 7000"),
                FaultCode.ALTITUDE_NOT_HELD);
        DoubleUnaryOperator again = t ->
                from(6000, 5000, CLIMB, 10).applyAsDouble(t) + (t < 200 || t > 700 ? 0 : Math.min(400, 5 * (t - 200)));
        isNotMet(
                fly(south(again, steady(120), 600), "descend and maintain 5000", "cross NORTH at or below 5200"),
                FaultCode.ALTITUDE_NOT_HELD);
    }

    /** At discretion to the crossing (AIM 4-4-10): when the descent was begun is no mistake, what is too slow behind it is. */
    @Test
    void aSlowDescentAtDiscretionIsNotCountedFromItsClearance() {
        String said = "descend and maintain 4500, cross NORTH at or below 5500";
        DoubleUnaryOperator slow = t -> t < NORTH_S
                ? from(6000, 5500, CLIMB, NORTH_S - 70).applyAsDouble(t)
                : Math.max(4500, 5500 - (t - NORTH_S) * 150 / 60);
        Flown flown = fly(south(slow, steady(120), 900), said);
        assertThat(flown.grade().faults())
                .as("%s", flown.events())
                .singleElement()
                .satisfies(fault -> assertThat(fault.text())
                        .contains("a minute", "too late", "tell ATC")
                        .doesNotContain("after it was assigned", "when it is assigned"));
    }

    /** The higher over NORTH, the less; up to who flies on at 6000, and no step that a pilot could not see (verdicts.md). */
    @Test
    void theHigherAboveACrossingAtOrBelowTheLess() {
        double before = 100;
        for (double lateS = -5; lateS <= 67; lateS += 2) {
            // 500 ft at 500 ft a minute take a minute.
            Flown flown = fly(
                    south(from(6000, 5000, CLIMB, NORTH_S - 60 + lateS), steady(120), 900),
                    "descend and maintain 5000, cross NORTH at or below 5500");
            double now = flown.score();
            assertThat(before - now)
                    .as("%.0f s late: %s %s", lateS, now, flown.faults())
                    // Past 200 ft, where the criterion has no points left, the fault goes on growing.
                    .isBetween(lateS > 26 && lateS < 60 ? 0.2 : -0.2, 12.0);
            assertThat(flown.faults())
                    .as("%.0f s late", lateS)
                    .isEqualTo(lateS * CLIMB > 100 ? List.of(FaultCode.CROSSING_MISSED) : List.of());
            before = now;
        }
        assertThat(before).isLessThan(70);
    }

    /** After the crossing at 5500 the rest comes later and later, down to who never goes on. */
    @Test
    void theLaterTheRestIsBegunBehindACrossingTheLess() {
        double before = 100;
        for (double lateS = 0; lateS <= 240; lateS += 4) {
            double begunS = NORTH_S + lateS;
            DoubleUnaryOperator feet = t -> t < begunS
                    ? from(6000, 5500, CLIMB, NORTH_S - 70).applyAsDouble(t)
                    : from(5500, 5000, CLIMB, begunS).applyAsDouble(t);
            Flown flown = fly(south(feet, steady(120), 900), "descend and maintain 5000, cross NORTH at or below 5500");
            assertThat(before - flown.score())
                    .as("%.0f s late: %s %s", lateS, flown.grade(), flown.faults())
                    .isBetween(-0.2, 12.0);
            before = flown.score();
        }
        assertThat(before).isLessThan(60);
    }

    /** "At pilot's discretion" asks for the crossing and for nothing else of the descent (Aeronautical Information Manual 4-4-10). */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "descend at pilot's discretion maintain 5000, cross NORTH at or below 5500",
                "cross NORTH at or below 5500, descend at pilot's discretion maintain 5000",
                "descend at pilot's discretion maintain 5000, cross NORTH at 5500",
                "descend at pilot's discretion maintain 5000, cross NORTH at or above 5500"
            })
    void atPilotsDiscretionACrossingAsksForItsOwnAltitude(String said) {
        double bound = said.contains("below") ? -40 : said.contains("above") ? 40 : 0;
        DoubleUnaryOperator through = from(6000, 5000, CLIMB, NORTH_S - (500 - bound) / CLIMB);
        isMet(fly(south(through, steady(120), 700), said));
        // He may stop over NORTH for as long as he likes.
        DoubleUnaryOperator rested = t -> t < NORTH_S + 150
                ? from(6000, 5500 + bound, CLIMB, NORTH_S - 80).applyAsDouble(t)
                : from(5500 + bound, 5000, CLIMB, NORTH_S + 150).applyAsDouble(t);
        isMet(fly(south(rested, steady(120), 700), said));
        DoubleUnaryOperator busted = from(6000, 4700, CLIMB, NORTH_S - (500 - bound) / CLIMB);
        isNotMet(fly(south(busted, steady(120), 700), said), FaultCode.ALTITUDE_NOT_HELD);
        double missed = said.contains("above") ? -120 : 0;
        isNotMet(
                fly(south(missed < 0 ? from(6000, 5000, CLIMB, 100) : steady(6000), steady(120), 700), said),
                FaultCode.CROSSING_MISSED);
    }

    /** Of two crossings the one that asks for the altitude makes it due. */
    @Test
    void anAltitudeForItsCrossingIsNotDueAtAnotherBeforeIt() {
        String said = "cross 5 miles north of NORTH at or below 5800, cross NORTH at 5000, maintain 5000";
        isMet(fly(south(from(6000, 5000, CLIMB, NORTH_S - 180), steady(120), 600), said));
        isNotMet(
                fly(south(from(6000, 5800, CLIMB, NORTH_S - 180), steady(120), 600), said),
                FaultCode.ALTITUDE_NOT_HELD);
    }

    /** A descent that is never begun is one mistake to its end, whenever the next clearance comes that leaves it in force. */
    @Test
    void aDescentNeverBegunIsOneMistakeWheneverTheNextClearanceComes() {
        List<Double> scores = new ArrayList<>();
        // 20 s to read it back and begin, and 900 ft at 500 ft a minute: due 128 s after it was said.
        for (double afterS : new double[] {120, 127, 129, 131, 133, 136, 150}) {
            Flown flown = Flown.fly(
                    south(steady(6000), steady(120), 600),
                    List.of(
                            Ocean.say(2, "resume own navigation, descend and maintain 5000"),
                            Ocean.say(2 + afterS, "resume own navigation")));
            assertThat(flown.faults()).as("%s", flown.grade()).hasSize(1);
            assertThat(flown.grade().faults().get(0).text())
                    .contains("no descent had begun 128 s after it was assigned");
            scores.add(flown.grade().score().orElseThrow());
        }
        // verdicts.md, principle 3.
        assertThat(Collections.max(scores) - Collections.min(scores))
                .as("%s", scores)
                .isLessThan(12);
    }

    /** Who climbs through the altitude that he is told to maintain is no later to level off than before: it is not read back first. */
    @ParameterizedTest
    @CsvSource({"1000, 35", "1500, 50"})
    void whoClimbsOnThroughItIsNotGivenTheTimeToReadItBack(double feetPerMin, double levelAfterS) {
        double topFt = 6000 + levelAfterS * feetPerMin / 60;
        Flown flown = fly(
                south(
                        t -> t < 2 + levelAfterS
                                ? 6000 + (t - 2) * feetPerMin / 60
                                : Math.max(6000, topFt - (t - 2 - levelAfterS) * 1000 / 60),
                        steady(120),
                        300),
                "resume own navigation, maintain 6000");
        assertThat(flown.faults()).as("%s", flown.grade()).containsExactly(FaultCode.ALTITUDE_NOT_HELD);
    }

    /**
     * What is assigned from a fix on is judged once it is reached, also where all else was complete long before: down at 500
     * ft a minute, from 50 ft on as the rest fades (Instrument Flying Handbook, FAA-H-8083-15B, chapter 7).
     */
    @ParameterizedTest
    @ValueSource(doubles = {0, 10, 30})
    void aDescentAfterAFixIsJudged(double afterS) {
        double begunS = 300 + afterS;
        double leadFt = 50;
        double leadS = (1000 - leadFt) * 60 / 500;
        Flown flown = Flown.fly(
                south(
                        t -> t < begunS + leadS
                                ? 6000 - Math.max(0, t - begunS) * 500 / 60
                                : 5000 + leadFt * Math.exp(-(t - begunS - leadS) / 6),
                        steady(120),
                        600),
                List.of(
                        Ocean.say(2, "resume own navigation, maintain 6000"),
                        Ocean.say(100, "after passing NORTH, descend and maintain 5000")));
        isMet(flown);
        assertThat(flown.criterion("ALTITUDE").judged()).isTrue();
    }

    /** Who goes down at 800 ft a minute and levels off has done it, and is judged by how he keeps it. */
    @Test
    void aPromptDescentIsJudgedOnceItIsReached() {
        Flown flown = fly(
                south(from(6000, 5000, 800 / 60.0, 5), steady(120), 300),
                "resume own navigation, descend and maintain 5000");
        isMet(flown);
        assertThat(flown.criterion("ALTITUDE").judged()).isTrue();
    }

    /** One level that is wrong is one mistake, at the crossing and behind it, and the text tells the level. */
    @ParameterizedTest
    @ValueSource(doubles = {5300, 5700})
    void aWrongLevelFromBeforeTheCrossingIsOneMistake(double feet) {
        Flown flown = fly(south(from(6000, feet, CLIMB, 10), steady(120), 700), "cross NORTH at and maintain 5500");
        assertThat(flown.faults()).as("%s", flown.grade()).hasSize(1);
        assertThat(flown.grade().faults().get(0).text())
                .contains(String.format(Locale.ROOT, "levelled at %.0f ft, cleared 5500", feet));
    }

    /** What was not due of the one before takes no standard away, though a second or two of its altitude was judged. */
    @ParameterizedTest
    @ValueSource(doubles = {10, 12, 14, 16, 18})
    void theNextClearanceMayComeAtAnyTime(double afterS) {
        List<Amendment> amendments = List.of(
                Ocean.say(2, "resume own navigation, maintain 6000"),
                Ocean.say(2 + afterS, "resume own navigation, climb and maintain 7000"));
        List<AircraftState> states = south(from(6000, 7000, CLIMB, 2 + afterS + 8), steady(120), 700);
        isMet(Flown.fly(states, amendments));
    }

    /** Said later than the altitude, and not on the way to it: the crossing is what counts. */
    @ParameterizedTest
    @CsvSource({"cross NORTH at 5500, 5500", "cross NORTH at or below 5500, 5500", "cross NORTH at or below 5500, 5200"
    })
    void aCrossingSaidLaterMayBeFlownFromTheAltitudeHeld(String said, double feet) {
        isMet(fly(south(from(6000, feet, CLIMB, 100), steady(120), 700), "maintain 6000", said));
        isNotMet(fly(south(steady(6000), steady(120), 700), "maintain 6000", said), FaultCode.CROSSING_MISSED);
    }

    @Test
    void aSpeedBehindACrossingIsInForceFromThere() {
        String said = "cross NORTH at or above 6000, then reduce speed to 100";
        isMet(fly(south(steady(6000), from(120, 100, 0.5, NORTH_S + 10), 600), said));
        isNotMet(fly(south(steady(6000), steady(120), 600), said), FaultCode.SPEED_NOT_HELD);
    }

    /** The crossing is beside a fix: 5 miles north of it, 150 s before it is passed. */
    @Test
    void aPlaceBesideAFixIsPassedAbeam() {
        String said = "cross 5 miles north of NORTH at or above 6000, then descend and maintain 5000";
        Flown flown = fly(south(from(6000, 5000, CLIMB, 160), steady(120), 600), said);
        isMet(flown);
        assertThat(flown.all(FlightEvent.ChangeOver.class).get(0).timeS()).isBetween(149.0, 151.0);
        isNotMet(fly(south(steady(6000), steady(120), 600), said), FaultCode.ALTITUDE_NOT_HELD);
    }

    /** One after the other (7110.65, 5-7-2; Aeronautical Information Manual 4-4-12): the second once the first is reached. */
    @Test
    void firstReducedAndThenDescended() {
        String said = "resume own navigation, reduce speed to 100, then descend and maintain 5000";
        DoubleUnaryOperator slows = from(140, 100, 0.5, 10);
        isMet(fly(south(from(6000, 5000, CLIMB, 95), slows, 600), said));
        isNotMet(fly(south(steady(6000), slows, 600), said), FaultCode.ALTITUDE_NOT_HELD);
        // Who descends first was still to keep what was assigned before.
        isNotMet(
                fly(south(from(6000, 5000, CLIMB, 95), steady(140), 600), "maintain 6000", said),
                FaultCode.SPEED_NOT_HELD);
    }

    @Test
    void firstDescendedAndThenReduced() {
        String said = "resume own navigation, descend and maintain 5000, then reduce speed to 100";
        DoubleUnaryOperator down = from(6000, 5000, CLIMB, 10);
        isMet(fly(south(down, from(130, 100, 0.5, 140), 700), said));
        isNotMet(fly(south(down, steady(130), 700), said), FaultCode.SPEED_NOT_HELD);
    }

    /** Whoever does not slow down is waited for no longer than it takes: then the descent is due. */
    @Test
    void theSecondIsDueWhenTheFirstShouldHaveBeenReached() {
        Flown flown = fly(
                south(steady(6000), steady(140), 600),
                "resume own navigation, reduce speed to 100, then descend and maintain 5000");
        assertThat(flown.grade().verdict()).isEqualTo(Verdict.NOT_MET);
        // Two things said and neither done.
        assertThat(flown.faults()).containsExactlyInAnyOrder(FaultCode.SPEED_NOT_HELD, FaultCode.NOT_ACHIEVED);
    }

    /** Without an airspeed nobody can say when the descent is due. */
    @Test
    void withoutAnAirspeedWhatComesAfterASpeedIsNotJudged() {
        List<AircraftState> none = south(steady(6000), steady(140), 600).stream()
                .map(s -> Ocean.sending(s, s.altitudeMslFt(), OptionalDouble.empty()))
                .toList();
        isNotJudged(fly(none, "resume own navigation, reduce speed to 100, then descend and maintain 5000"));
    }

    /**
     * Climbing at 500 ft a minute through 6750, "descend and maintain 6000" at 92 s: 10 s to react, the climb stopped and
     * turned round with 50 ft a minute in each second, and down at 500 ft a minute.
     */
    private static DoubleUnaryOperator reversed(double reactionS) {
        double turnS = 92 + reactionS;
        double perS2 = 50 / 60.0;
        double wholeS = 2 * CLIMB / perS2;
        return t -> {
            double since = Math.max(0, t - turnS);
            double in = Math.min(since, wholeS);
            double up = CLIMB * in - perS2 * in * in / 2 - CLIMB * Math.max(0, since - wholeS);
            return Math.max(
                    6000,
                    Math.min(6000 + Math.max(0, Math.min(t, turnS) - 2) * CLIMB, 6000 + (turnS - 2) * CLIMB) + up);
        };
    }

    @ParameterizedTest
    @CsvSource({"3, true", "8, true", "10, true", "60, false"})
    void aClimbThatIsToBeReversedHasTimeToBeReversed(double reactionS, boolean met) {
        Flown flown = fly(
                south(reversed(reactionS), steady(120), 600),
                "resume own navigation, climb and maintain 8000",
                "descend and maintain 6000");
        assertThat(flown.faults().contains(FaultCode.ALTITUDE_NOT_HELD))
                .as("%s", flown.events())
                .isEqualTo(!met);
    }

    @Test
    void soHasAClimbThatIsTakenBack() {
        Flown flown = fly(south(reversed(10), steady(120), 600), "resume own navigation, maintain 6000", "disregard");
        assertThat(flown.grade().verdict()).isNotEqualTo(Verdict.MET);
        List<Amendment> said = List.of(
                Ocean.say(0.5, "resume own navigation, maintain 6000"),
                Ocean.say(1, "climb and maintain 8000"),
                Ocean.say(92, "disregard"));
        Flown back = Flown.fly(south(reversed(10), steady(120), 600), said);
        assertThat(back.faults()).as("%s", back.events()).isEmpty();
    }

    /** Gaining a knot a second at 110 kt, "maintain 100 knots" at 92 s: 10 s go by, and half a knot a second is enough. */
    @ParameterizedTest
    @CsvSource({"10, true", "60, false"})
    void soHasASpeed(double reactionS, boolean met) {
        double turnS = 92 + reactionS;
        DoubleUnaryOperator knots = t -> t <= turnS
                ? Math.max(90, 110 + t - 92)
                : Math.max(100, 110 + turnS - 92 + Math.min(t - turnS, 2) - 0.5 * Math.max(0, t - turnS - 2));
        Flown flown =
                fly(south(steady(6000), knots, 500), "resume own navigation, maintain 160 knots", "maintain 100 knots");
        assertThat(flown.faults().contains(FaultCode.SPEED_NOT_HELD))
                .as("%s", flown.events())
                .isEqualTo(!met);
    }

    private static final String UNTIL_NORTH = "maintain 6000 until NORTH, then climb and maintain 8000";

    /** Left six miles early, where no altitude came: nobody saw whether the first was kept. */
    @Test
    void whatWasFlownWhileTheAltitudeWasNotSentIsNotMet() {
        List<AircraftState> early = south(from(6000, 8000, CLIMB, NORTH_S - 180), steady(120), 800);
        isNotJudged(fly(altitudeLost(early, 0, 295), UNTIL_NORTH));
        isNotMet(fly(early, UNTIL_NORTH), FaultCode.ALTITUDE_NOT_HELD);
    }

    @ParameterizedTest
    @CsvSource({"270, 350", "290, 310", "295, 420"})
    void anAltitudeThatNobodySawReachedCompletesNothing(double fromS, double toS) {
        List<AircraftState> never = south(steady(6000), steady(120), 900);
        Flown flown = fly(altitudeLost(never, fromS, toS), UNTIL_NORTH);
        assertThat(flown.all(FlightEvent.AmendmentComplete.class))
                .as("%s", flown.events())
                .isEmpty();
        isNotMet(flown, FaultCode.ALTITUDE_NOT_HELD);
        assertThat(flown.criterion("ALTITUDE").verdict()).isEqualTo(Verdict.NOT_MET);
    }

    /** From the change-over on no altitude comes any more: neither reached nor missed. */
    @Test
    void lostForGoodAtTheChangeOverItIsNotJudged() {
        Flown flown = fly(altitudeLost(south(steady(6000), steady(120), 900), 280, 900), UNTIL_NORTH);
        assertThat(flown.all(FlightEvent.AmendmentComplete.class)).isEmpty();
        isNotJudged(flown);
    }

    @Test
    void anAltitudeAloneIsNotReachedWhileItIsNotSent() {
        Flown lost = fly(altitudeLost(south(steady(6000), steady(120), 600), 0, 600), "climb and maintain 8000");
        assertThat(lost.all(FlightEvent.AmendmentComplete.class)).isEmpty();
        isNotJudged(lost);
        Flown seen = fly(
                altitudeLost(south(from(6000, 8000, CLIMB, 10), steady(120), 600), 20, 60), "climb and maintain 8000");
        assertThat(seen.all(FlightEvent.AmendmentComplete.class))
                .singleElement()
                .satisfies(done -> assertThat(done.timeS()).isBetween(235.0, 241.0));
    }

    private static final String OVER_NORTH_LOWER = "maintain 8000, then cross NORTH at 7000, then maintain 9000";

    /** From 8000 to another altitude at NORTH, begun two minutes before it; on to a last one from ten seconds after it. */
    private static DoubleUnaryOperator overNorth(double there, double last) {
        return t -> t < NORTH_S + 10
                ? from(8000, there, CLIMB, NORTH_S - 150).applyAsDouble(t)
                : from(there, last, CLIMB, NORTH_S + 10).applyAsDouble(t);
    }

    private static Flown overNorth(DoubleUnaryOperator feet) {
        return fly(south(feet, steady(120), NORTH_S + 420), OVER_NORTH_LOWER);
    }

    @Test
    void threeAltitudesWithACrossingBetweenAreFlownOneAfterTheOther() {
        Flown right = overNorth(overNorth(7000, 9000));
        isMet(right);
        assertThat(right.score()).isGreaterThan(99);
    }

    /** Each is blamed where it was flown wrong: before the place, at it, behind it. */
    @Test
    void eachOfThemIsBlamedWhereItWasFlownWrong() {
        Flown before =
                overNorth(t -> t > 40 && t < 100 ? 8300 : overNorth(7000, 9000).applyAsDouble(t));
        assertThat(before.faults())
                .as("%s %s", before.grade(), before.events())
                .containsExactly(FaultCode.ALTITUDE_NOT_HELD);
        assertThat(before.grade().faults().get(0).text()).startsWith("up to 300 ft off");
        assertThat(before.grade().faults().get(0).atS()).isLessThan(100);
        assertThat(before.criterion("CROSSING").met()).isTrue();

        Flown there = overNorth(overNorth(7400, 9000));
        assertThat(there.faults()).containsExactly(FaultCode.CROSSING_MISSED);
        assertThat(there.grade().faults().get(0).text()).startsWith("crossed NORTH 400 ft high");
        assertThat(there.criterion("ALTITUDE").met()).isTrue();

        Flown behind = overNorth(overNorth(7000, 8000));
        isNotMet(behind, FaultCode.ALTITUDE_NOT_HELD);
        assertThat(behind.grade().faults().get(0).text()).contains("8000", "9000");
        assertThat(behind.criterion("CROSSING").met()).isTrue();
    }

    /** Left 7000 for 9000 before the place: above 8000 and high at the place is one mistake. */
    @Test
    void whoClimbsBeforeThePlaceHasMadeOneMistake() {
        Flown early = overNorth(t -> t < NORTH_S - 140
                ? from(8000, 7000, 2 * CLIMB, 40).applyAsDouble(t)
                : from(7000, 9000, 1.5 * CLIMB, NORTH_S - 140).applyAsDouble(t));
        assertThat(early.faults())
                .as("%s %s", early.grade(), early.events())
                .containsExactly(FaultCode.CROSSING_MISSED);
    }

    /** Off the filed route, where its leg is passed already: what nobody could see is not met. */
    @Test
    void aCrossingThatWasNotSeenIsNotJudged() {
        Position start = NORTH.destination(new TrueDirection(270), 12);
        ClosedFormFlight flight =
                new ClosedFormFlight(start, start.to(NORTH).initial().deg(), 120, Ocean.CALM);
        flight.miles(12 - flight.radiusNm()).turnTo(180).seconds(420).altitude(t -> t < 400 ? 8000 : 9000);
        Flown high = fly(flight.sample(1), OVER_NORTH_LOWER);
        isNotJudged(high);
        assertThat(high.grade().notJudged())
                .hasValueSatisfying(why ->
                        assertThat(why).contains("the altitude at NORTH is not judged: it was not seen to be passed"));
    }
}
