package org.rejoin.bridge.tracker;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;

import org.rejoin.bridge.Amendment;
import org.rejoin.bridge.TimeOfDay;
import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Turn;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.bridge.ocean.Carried;
import org.rejoin.bridge.ocean.ClosedFormFlight;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.bridge.route.Holding;
import org.rejoin.bridge.route.Warning;
import org.rejoin.protocol.AircraftState;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Holds in closed form: straight legs and standard turns in still air, where a minute out and half a circle make a minute
 * in (Aeronautical Information Manual 5-3-8). Inbound course 090 true to AAA.
 */
class HoldWatchTest {

    private static final Position AAA = new Position(30, -45);
    private static final double KT = 120;

    /** Straight to the fix on a track this much off the inbound course; right positive. */
    private static ClosedFormFlight arriving(double offDeg) {
        return arriving(offDeg, 8);
    }

    private static ClosedFormFlight arriving(double offDeg, double nm) {
        Position start = AAA.destination(new TrueDirection(270 + offDeg), nm);
        return new ClosedFormFlight(start, start.to(AAA).initial().deg(), KT, Ocean.CALM).miles(nm);
    }

    private static Flown fly(ClosedFormFlight flight, String turns, double hz) {
        return Flown.fly(
                flight.sample(hz),
                List.of(Ocean.say(2, "direct AAA, hold west of AAA on the 282 radial, " + turns + " turns")));
    }

    private static Flown fly(ClosedFormFlight flight) {
        return fly(flight, "right", 2);
    }

    /** Half a circle, a minute, half a circle, a minute. */
    private static ClosedFormFlight circuit(ClosedFormFlight flight, int way) {
        return flight.turn(180.0 * way).seconds(60).turn(180.0 * way).seconds(60);
    }

    @ParameterizedTest
    @CsvSource({"1, right", "10, right", "1, left", "10, left"})
    void inStillAirTheInboundLegTakesItsMinute(double hz, String turns) {
        int way = turns.equals("right") ? 1 : -1;
        ClosedFormFlight flight = arriving(0);
        circuit(circuit(circuit(flight, way), way), way).seconds(5);
        Flown flown = fly(flight, turns, hz);
        List<FlightEvent.HoldInbound> legs = flown.all(FlightEvent.HoldInbound.class);
        assertThat(legs)
                .as("%s", flown.events())
                .extracting(FlightEvent.HoldInbound::n)
                .containsExactly(1, 2, 3);
        assertThat(legs)
                .allSatisfy(leg -> assertThat(leg.seconds().orElseThrow()).isCloseTo(60, Offset.offset(0.7)));
        assertThat(flown.all(FlightEvent.HoldEntered.class))
                .singleElement()
                .satisfies(entered -> assertThat(entered.entry()).isEqualTo(Holding.Entry.DIRECT));
        assertThat(flown.faults()).isEmpty();
        assertThat(flown.all(FlightEvent.AmendmentComplete.class))
                .singleElement()
                .satisfies(
                        done -> assertThat(done.timeS()).isCloseTo(legs.get(0).timeS(), Offset.offset(0.1)));
        assertThat(flown.names()).doesNotContain("graded_part_ended", "hold_left", "route_left");
    }

    /** Turns of the entries: AIM 5-3-8; sectors: ICAO Doc 8168 volume I (figures from memory), 5 degrees either side. */
    @ParameterizedTest(name = "arriving {0} off, turning {1} to fly out: {2}, by the sector {3}")
    @CsvSource({
        "0, 180, DIRECT, true",
        "-65, 245, DIRECT, true",
        "105, 75, DIRECT, true",
        "113, 67, DIRECT, true",
        "120, 60, DIRECT, false",
        "170, -20, TEARDROP, true",
        "115, 35, TEARDROP, true",
        "107, 43, TEARDROP, true",
        "150, 0, TEARDROP, true",
        "0, 150, DIRECT, true",
        "-100, -80, PARALLEL, true",
        "-170, -10, PARALLEL, true",
        "-67, -113, PARALLEL, true",
        "-60, -120, PARALLEL, false",
        "-178, -32, TEARDROP, true",
        "-160, -50, TEARDROP, false",
        "170, 10, PARALLEL, false",
        "-130, 310, DIRECT, false"
    })
    void theEntryIsToldByWhatIsFlown(double off, double turn, Holding.Entry entry, boolean bySector) {
        for (int way : new int[] {1, -1}) {
            ClosedFormFlight flight = arriving(way * off).turn(way * turn).seconds(60);
            Flown flown = fly(flight, way > 0 ? "right" : "left", 2);
            assertThat(flown.all(FlightEvent.HoldEntered.class))
                    .as("%s", flown.events())
                    .singleElement()
                    .satisfies(entered -> {
                        assertThat(entered.entry()).isEqualTo(entry);
                        assertThat(entered.bySector()).isEqualTo(bySector);
                    });
            assertThat(flown.faults()).isEmpty();
        }
    }

    /**
     * Half a circle takes a minute, and with the wind W behind it outbound the aircraft is carried 2 W minutes out by its two
     * turns: (V - W) 60 s inbound = (V + W) t outbound + W 120 s. Nothing is left of t where the wind is a third of the
     * airspeed (geometry of the pattern in the wind; timing of the inbound leg: AIM 5-3-8).
     */
    @ParameterizedTest
    @CsvSource({"41, 1", "41, 10", "40, 2", "38, 1", "38, 10", "35, 2", "30, 1", "30, 10"})
    void theWindMayLeaveNothingToFlyOutbound(double windKt, double hz) {
        double airKt = 123;
        double outboundS = ((airKt - windKt) * 60 - windKt * 120) / (airKt + windKt);
        ClosedFormFlight air = inWind(0, airKt, windKt);
        for (int i = 0; i < 3; i++) {
            air.turn(180).seconds(outboundS).turn(180).seconds(60);
        }
        Flown flown = Flown.fly(
                Carried.by(wind(windKt), air.seconds(5).sample(hz)),
                List.of(Ocean.say(2, "direct AAA, hold west of AAA on the 282 radial")));
        assertThat(flown.all(FlightEvent.HoldEntered.class))
                .as("%s", flown.events())
                .singleElement()
                .satisfies(entered -> {
                    assertThat(entered.entry()).isEqualTo(Holding.Entry.DIRECT);
                    assertThat(entered.bySector()).isTrue();
                });
        assertThat(flown.all(FlightEvent.HoldInbound.class))
                .hasSize(3)
                .allSatisfy(leg -> assertThat(leg.seconds().orElseThrow()).isCloseTo(60, Offset.offset(1.5)));
        assertThat(flown.faults()).isEmpty();
    }

    /** The other entries in such a wind: out for so many seconds, then in, a teardrop round the way of the pattern. */
    @ParameterizedTest
    @CsvSource({
        "-110, -70, 0, -225, PARALLEL",
        "-110, -70, 5, -225, PARALLEL",
        "-80, -100, 4, -225, PARALLEL",
        "-80, -100, 0, -225, PARALLEL",
        "-170, -10, 6, -225, PARALLEL",
        "130, 20, 5, 210, TEARDROP",
        "150, 0, 0, 210, TEARDROP",
        "175, -25, 6, 210, TEARDROP"
    })
    void soMayItForTheOtherEntries(double off, double out, double outboundS, double in, Holding.Entry entry) {
        ClosedFormFlight air =
                inWind(off, 123, 41).turn(out).seconds(outboundS).turn(in).seconds(20);
        Flown flown = Flown.fly(
                Carried.by(wind(41), air.sample(2)),
                List.of(Ocean.say(2, "direct AAA, hold west of AAA on the 282 radial")));
        assertThat(flown.all(FlightEvent.HoldEntered.class))
                .as("%s", flown.events())
                .singleElement()
                .satisfies(entered -> {
                    assertThat(entered.entry()).isEqualTo(entry);
                    assertThat(entered.bySector()).isTrue();
                });
        assertThat(flown.faults()).isEmpty();
    }

    /** The side counts after a short outbound leg as after a long one: 90 degrees the wrong way; common practice, no source. */
    @ParameterizedTest
    @CsvSource({"0, 4", "0, 15", "1, 4", "1, 15"})
    void aTurnToTheWrongSideAfterAShortOutboundLeg(int circuits, double outboundS) {
        ClosedFormFlight flight = arriving(0);
        for (int i = 0; i < circuits; i++) {
            circuit(flight, 1);
        }
        Flown flown = fly(flight.turn(180).seconds(outboundS).turn(-180).seconds(30));
        assertThat(flown.faults()).as("%s", flown.events()).containsExactly(FaultCode.HOLD_WRONG_SIDE);
        assertThat(flown.all(FlightEvent.HoldWrongSide.class))
                .singleElement()
                .satisfies(wrong -> assertThat(wrong.timeS()).isCloseTo(flight.endS() - 60, Offset.offset(0.5)));
    }

    /** Who turns through outbound and flies off elsewhere has not entered. */
    @Test
    void aTurnThatLeadsElsewhereIsNoEntry() {
        Flown flown = fly(arriving(0).turn(265).seconds(120));
        assertThat(flown.faults()).as("%s", flown.events()).startsWith(FaultCode.HOLD_NOT_ENTERED);
        assertThat(flown.names()).doesNotContain("hold_entered");
    }

    private static Wind wind(double kt) {
        return new Wind(new TrueDirection(90), kt);
    }

    /** Straight over the fix on a heading this much off the inbound course, the wind from where that leads. */
    private static ClosedFormFlight inWind(double offDeg, double airKt, double windKt) {
        double overS = 240;
        return new ClosedFormFlight(
                        Carried.startOver(AAA, 90 + offDeg, airKt, overS, wind(windKt)), 90 + offDeg, airKt, Ocean.CALM)
                .seconds(overS);
    }

    /** A parallel entry turns back over the holding side; the other way is the wrong side. */
    @ParameterizedTest
    @CsvSource({"-225, false", "225, true"})
    void aParallelEntryTurnsBackOverTheHoldingSide(double turn, boolean wrong) {
        Flown flown = fly(arriving(-150).turn(-30).seconds(60).turn(turn).seconds(30));
        assertThat(flown.faults().contains(FaultCode.HOLD_WRONG_SIDE))
                .as("%s", flown.events())
                .isEqualTo(wrong);
    }

    /** 90 degrees the wrong way in the pattern, 135 at the fix of the entry; common practice, no source. */
    @ParameterizedTest
    @CsvSource({"87, false", "93, true"})
    void theWrongSideInThePattern(double wrongWay, boolean fault) {
        ClosedFormFlight flight = circuit(arriving(0), 1);
        flight.turn(-wrongWay).turn(wrongWay).turn(180).seconds(60);
        assertThat(fly(flight).faults().contains(FaultCode.HOLD_WRONG_SIDE)).isEqualTo(fault);
    }

    @ParameterizedTest
    @CsvSource({"132, false", "138, true"})
    void theWrongSideAtTheEntry(double wrongWay, boolean fault) {
        Flown flown = fly(arriving(0).turn(-wrongWay).seconds(40));
        assertThat(flown.faults().contains(FaultCode.HOLD_WRONG_SIDE))
                .as("%s", flown.events())
                .isEqualTo(fault);
    }

    @Test
    void theOutboundLegEndsWithATurnTheWayOfThePattern() {
        Flown flown = fly(arriving(0).turn(180).seconds(60).turn(-180).seconds(30));
        assertThat(flown.faults()).containsExactly(FaultCode.HOLD_WRONG_SIDE);
    }

    /** 10 s, 90 s for 270 degrees and 30 s: outbound and steady before then is entered; common practice, no source. */
    @ParameterizedTest
    @CsvSource({"53, false", "62, true"})
    void notEntered(double seconds, boolean fault) {
        Flown flown = fly(arriving(0).seconds(seconds).turn(180).seconds(30));
        assertThat(flown.faults().contains(FaultCode.HOLD_NOT_ENTERED))
                .as("%s", flown.events())
                .isEqualTo(fault);
        assertThat(flown.all(FlightEvent.HoldEntered.class)).hasSize(1);
    }

    @Test
    void whoFliesOnAfterHoldingHasLeftTheRoute() {
        Flown flown = fly(circuit(arriving(0), 1).seconds(200));
        assertThat(flown.faults()).containsExactly(FaultCode.ROUTE_LEFT);
        assertThat(flown.all(FlightEvent.HoldLeft.class))
                .singleElement()
                .satisfies(left -> assertThat(left.cleared()).isFalse());
    }

    /**
     * A clearance limit is left at the time of further clearance (14 CFR 91.185 (c)(3)); a minute before is at that time
     * (common practice, no source). The hold ends over its fix so many seconds after 1530.
     */
    @ParameterizedTest
    @CsvSource({"-75, true", "-50, false", "0, false", "300, false"})
    void theHoldIsLeftAtTheTimeOfFurtherClearance(double afterS, boolean fault) {
        ClosedFormFlight flight = circuit(arriving(0), 1);
        double overS = flight.endS();
        flight.seconds(200);
        Flown flown = Flown.at(
                endingAt(overS - afterS),
                flight.sample(2),
                List.of(Ocean.say(2, "direct AAA, hold west of AAA on the 282 radial, expect further clearance 1530")));
        assertThat(flown.faults().contains(FaultCode.ROUTE_LEFT))
                .as("%s", flown.events())
                .isEqualTo(fault);
        assertThat(flown.all(FlightEvent.HoldLeft.class)).singleElement().satisfies(left -> {
            assertThat(left.cleared()).isFalse();
            assertThat(left.afterEfcS().orElseThrow()).isCloseTo(afterS, Offset.offset(0.5));
        });
    }

    /** 1530 is so many seconds after the first sample. */
    private static TimeOfDay endingAt(double seconds) {
        return new TimeOfDay(LocalTime.of(15, 30).minusNanos(Math.round(seconds * 1e9)), true);
    }

    /** Said again with another time, the last one counts; in minutes it needs no clock. */
    @ParameterizedTest
    @CsvSource({
        "expect further clearance 1540, true",
        "expect further clearance in 20 minutes, true",
        "maintain 7000, false"
    })
    void theLastTimeOfFurtherClearanceCounts(String later, boolean fault) {
        ClosedFormFlight flight = circuit(arriving(0), 1);
        double overS = flight.endS();
        flight.seconds(200);
        Flown flown = Flown.at(
                endingAt(overS),
                flight.sample(2),
                List.of(
                        Ocean.say(2, "direct AAA, hold west of AAA on the 282 radial, expect further clearance 1530"),
                        Ocean.say(overS - 60, later)));
        assertThat(flown.faults().contains(FaultCode.ROUTE_LEFT))
                .as("%s", flown.events())
                .isEqualTo(fault);
    }

    @Test
    void aTimeOfFurtherClearanceThatIsOverIsSaidWhenItIsIssued() {
        ClosedFormFlight flight = arriving(0);
        List<Amendment> late =
                List.of(Ocean.say(20, "direct AAA, hold west of AAA on the 282 radial, expect further clearance 1530"));
        Flown flown = Flown.at(new TimeOfDay(LocalTime.of(15, 34), true), flight.sample(2), late);
        assertThat(flown.record().issued())
                .singleElement()
                .satisfies(issued -> assertThat(issued.route().warnings())
                        .filteredOn(warning -> warning.code() == Warning.Code.TIME_IN_THE_PAST)
                        .singleElement()
                        .satisfies(warning ->
                                assertThat(warning.text()).contains("1530 was 4 minutes ago", "it is 1534 UTC")));
        assertThat(Flown.fly(flight.sample(2), late)
                        .record()
                        .issued()
                        .get(0)
                        .route()
                        .warnings())
                .extracting(Warning::code)
                .doesNotContain(Warning.Code.TIME_IN_THE_PAST);
    }

    /** Set back to the start the lesson begins again, at its own time; the day of a real clock goes on. */
    @ParameterizedTest
    @CsvSource({"true, 15:00:00", "false, 15:01:40"})
    void theExerciseFlownAgainBeginsAtTheLessonsTime(boolean ofLesson, LocalTime expected) {
        List<AircraftState> states = new ArrayList<>(arriving(0).sample(2).stream()
                .filter(state -> state.timeS() < 100)
                .toList());
        arriving(0).sample(2).stream()
                .filter(state -> state.timeS() < 7)
                .map(state -> state.withTimeS(state.timeS() + 100))
                .forEach(states::add);
        Flown flown = Flown.at(
                new TimeOfDay(LocalTime.of(15, 0), ofLesson),
                states,
                List.of(Ocean.say(0, "direct AAA, hold west of AAA on the 282 radial")));
        assertThat(flown.record().issued()).hasSize(2);
        assertThat(flown.record().issued().get(1).route().situation().utc()).contains(expected);
    }

    /**
     * The first outbound leg is a minute from wings level, however the wind blows; the ones after it are adjusted (AIM 5-3-8).
     * With a wind W behind it, the airspeed V and half circles of a minute it ends W min past where the turn began, and the
     * way in is as long as the way out and both turns' drift.
     */
    @ParameterizedTest
    @CsvSource({"140, 0", "140, 25", "140, 35", "140, 40", "140, 45", "140, 50", "90, 30", "200, 30"})
    void whoTimesTheFirstOutboundLegInATailWindStaysInTheHold(double airKt, double windKt) {
        double outKt = airKt + windKt;
        double inKt = airKt - windKt;
        double turnsS = 2 * Turn.standardTurnS(airKt, 180);
        ClosedFormFlight air = inWind(0, airKt, windKt);
        for (int lap = 0; lap < 3; lap++) {
            double outS = lap == 0 ? 60 : Math.max(0, (inKt * 60 - turnsS * windKt) / outKt);
            air.turn(180).seconds(outS).turn(180).seconds((outKt * outS + turnsS * windKt) / inKt);
        }
        Flown flown = inKnownWind(air.seconds(5), windKt);
        assertThat(flown.faults()).as("%s", flown.events()).isEmpty();
        assertThat(flown.names()).contains("hold_entered", "amendment_complete").doesNotContain("hold_left");
        assertThat(flown.all(FlightEvent.HoldInbound.class)).hasSize(3);
    }

    /** A minute at 175 kt is 2.9 NM; twice that and 4 NM from the fix it is left, and the turn outbound leads 0.6 NM out. */
    @ParameterizedTest
    @CsvSource({"165, false", "200, true"})
    void theOutboundLegHasAnEndInATailWindToo(double outboundS, boolean left) {
        Flown flown =
                inKnownWind(inWind(0, 140, 35).turn(180).seconds(outboundS).turn(180), 35);
        assertThat(flown.faults().contains(FaultCode.ROUTE_LEFT))
                .as("%s", flown.events())
                .isEqualTo(left);
    }

    private static Flown inKnownWind(ClosedFormFlight air, double windKt) {
        return Flown.fly(
                Carried.by(wind(windKt), air.sample(2)),
                wind(windKt),
                Rules.STANDARD,
                List.of(Ocean.say(2, "direct AAA, hold west of AAA on the 282 radial, right turns")));
    }

    /** Outbound for 60 s is 2 NM: twice that and 4 NM. */
    @ParameterizedTest
    @CsvSource({"7.7, false", "8.3, true"})
    void theOutboundLegHasAnEnd(double miles, boolean left) {
        Flown flown = fly(arriving(0).turn(180).miles(miles));
        assertThat(flown.faults().contains(FaultCode.ROUTE_LEFT))
                .as("%s", flown.events())
                .isEqualTo(left);
    }

    @Test
    void theNextClearanceIsTheWayOut() {
        ClosedFormFlight flight = circuit(arriving(0), 1);
        double overS = flight.endS();
        flight.seconds(60);
        Flown flown = Flown.fly(
                flight.sample(2),
                List.of(
                        Ocean.say(2, "direct AAA, hold west of AAA on the 282 radial"),
                        Ocean.say(overS - 20, "direct NORTH, then as filed")));
        assertThat(flown.all(FlightEvent.HoldLeft.class))
                .singleElement()
                .satisfies(left -> assertThat(left.cleared()).isTrue());
        assertThat(flown.faults()).isEmpty();
    }

    /** HF (ARINC 424-18, 5.21): the hold ends at its fix, after one circuit or once the entry has reversed the course. */
    @ParameterizedTest
    @CsvSource({"0, DIRECT", "180, TEARDROP"})
    void aHoldThatIsFlownOnceIsLeftAtItsFix(double off, Holding.Entry entry) {
        ClosedFormFlight flight = arriving(off);
        if (entry == Holding.Entry.DIRECT) {
            circuit(flight, 1);
        } else {
            // 270 inbound of the arrival, out on 240, round to the right and in on 090.
            flight.turn(-30).seconds(60).turn(210).seconds(90);
        }
        double insideS = flight.endS();
        flight.seconds(90);
        Flown flown = Flown.fly(
                flight.sample(2),
                List.of(Ocean.say(
                        2,
                        "direct AAA, hold west of AAA on the 282 radial, one circuit, depart AAA on the 102 radial")));
        assertThat(flown.all(FlightEvent.HoldEntered.class))
                .as("%s", flown.events())
                .extracting(FlightEvent.HoldEntered::entry)
                .containsExactly(entry);
        assertThat(flown.all(FlightEvent.HoldLeft.class)).singleElement().satisfies(left -> {
            assertThat(left.cleared()).isTrue();
            assertThat(left.timeS()).isCloseTo(insideS, Offset.offset(entry == Holding.Entry.DIRECT ? 0.5 : 40));
        });
        assertThat(flown.all(FlightEvent.HoldInbound.class)).hasSize(1);
        assertThat(flown.faults()).isEmpty();
        assertThat(flown.names()).contains("amendment_complete", "graded_part_ended");
    }

    @Test
    void whatFellIntoAGapIsNotJudged() {
        ClosedFormFlight flight = arriving(0);
        double fixS = flight.endS();
        flight.turn(-180).seconds(60).turn(180).seconds(60);
        var states = flight.sample(2).stream()
                .filter(state -> state.timeS() < fixS + 5 || state.timeS() > fixS + 60)
                .toList();
        Flown flown = Flown.fly(states, List.of(Ocean.say(2, "direct AAA, hold west of AAA on the 282 radial")));
        assertThat(flown.faults()).as("%s", flown.events()).isEmpty();
    }

    @Test
    void theCircuitOnTheWayTakesItsTimeSoAnEndInItIsNobodysFault() {
        Flown flown = Flown.fly(
                arriving(0, 4).turn(180).seconds(60).turn(180).seconds(50).sample(2),
                List.of(Ocean.say(
                        2,
                        "direct AAA, hold west of AAA on the 282 radial, one circuit, depart AAA on the 102 radial")));
        assertThat(flown.faults()).as("%s", flown.events()).isEmpty();
        assertThat(flown.names()).contains("hold_entered", "amendment_not_due");
    }

    @Test
    void anEndBeforeTheFirstInboundLegIsNobodysFault() {
        Flown flown = fly(arriving(0).turn(180).seconds(40));
        assertThat(flown.faults()).isEmpty();
        assertThat(flown.names()).contains("hold_entered", "amendment_not_due");
    }

    @Test
    void overTheFixAlreadyTheHoldBeginsAtOnce() {
        ClosedFormFlight flight =
                new ClosedFormFlight(AAA.destination(new TrueDirection(270), 0.02), 90, KT, Ocean.CALM);
        flight.turn(180).seconds(60).turn(180).seconds(70);
        Flown flown = Flown.fly(
                flight.sample(2), List.of(Ocean.say(0, "fly present heading, hold west of AAA on the 282 radial")));
        assertThat(flown.names()).as("%s", flown.events()).contains("hold_entered", "hold_inbound");
        assertThat(flown.faults()).isEmpty();
    }
}
