package org.rejoin.bridge.tracker;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalTime;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;

import org.rejoin.bridge.TimeOfDay;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.ocean.ClosedFormFlight;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.bridge.route.Warning;
import org.rejoin.protocol.AircraftState;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Two altitudes or speeds with a place between them (FAA Order JO 7110.65, 4-5-7 and 5-9-4: "maintain until established"): the
 * first is in force up to it, the second from there, and nobody has a fault for flying what was cleared.
 */
class ChangeOverTest {

    private static final Position NORTH = new Position(30.9, -44.2);
    private static final double KT = 120;

    /** Descends at 500 ft a minute from 6000 to 5000 from some second on. */
    private static DoubleUnaryOperator downAt(double fromS) {
        return t -> 6000 - Math.min(1000, Math.max(0, (t - fromS) * 500 / 60));
    }

    /** Straight from 10 NM west to NORTH, which is passed at about 300 s, and along V40. */
    private static ClosedFormFlight viaNorth() {
        Position start = NORTH.destination(new TrueDirection(270), 10);
        ClosedFormFlight flight =
                new ClosedFormFlight(start, start.to(NORTH).initial().deg(), KT, Ocean.CALM);
        flight.miles(10 - flight.radiusNm());
        return flight.turnTo(180).miles(15);
    }

    private static Flown via(DoubleUnaryOperator altitude, String said) {
        return Flown.fly(
                viaNorth().altitude(altitude).sample(2), List.of(Ocean.say(2, "direct NORTH, then as filed, " + said)));
    }

    private static List<FaultCode> faults(Flown flown) {
        return flown.faults().stream()
                .filter(FaultCode.ALTITUDE_NOT_HELD::equals)
                .toList();
    }

    @ParameterizedTest
    @CsvSource({
        "maintain 6000 until NORTH, 295",
        "maintain 6000 until passing NORTH, 295",
        "maintain 6000 until 5 miles before NORTH, 150",
        "maintain 6000 until 5 miles past NORTH, 450",
        "maintain 6000 until the AAA 046 radial, 150",
        "maintain 6000 until AAA 65 DME, 150",
        "maintain 6000 until established on V40, 310",
        "maintain 6000 until established, 310",
        "'maintain 6000, at NORTH', 295"
    })
    void theSecondAltitudeIsInForceFromThePlaceSaid(String first, double passedS) {
        String words = first.endsWith("NORTH") && first.startsWith("maintain 6000,")
                ? first + " descend and maintain 5000"
                : first + ", then descend and maintain 5000";
        Flown flown = via(downAt(passedS + 5), words);
        assertThat(faults(flown)).as("%s", flown.events()).isEmpty();
        assertThat(flown.all(FlightEvent.ChangeOver.class))
                .as("%s", flown.events())
                .singleElement()
                .satisfies(over -> {
                    assertThat(over.timeS()).isCloseTo(passedS, Offset.offset(25.0));
                    assertThat(over.altitudeFt()).hasValue(5000);
                });
        FlightRecord record = flown.record();
        double overS = flown.all(FlightEvent.ChangeOver.class).get(0).timeS();
        assertThat(record.inForce(overS - 1).assigned().altitudeFt()).hasValue(6000);
        assertThat(record.inForce(overS + 1).assigned().altitudeFt()).hasValue(5000);
        assertThat(flown.points().get(flown.points().size() - 1).altitudeErrorFt())
                .as("judged at the end")
                .isCloseTo(0, Offset.offset(1.0));
    }

    @ParameterizedTest
    @CsvSource({"100, true", "240, true", "285, false", "320, false", "700, true"})
    void whoLeavesTheFirstBeforeThePlaceOrDoesNotGoToTheSecondIsOffIt(double fromS, boolean off) {
        Flown flown = via(downAt(fromS), "maintain 6000 until NORTH, then descend and maintain 5000");
        assertThat(faults(flown).isEmpty()).as("%s", flown.events()).isEqualTo(!off);
    }

    /** The second clearance leads onto a radial first: V40 is another leg of it, by its number, than of the first route. */
    @Test
    void aPlaceOfTheFirstClearanceIsFoundOnTheRouteOfTheSecond() {
        Ocean.Leg leg = new Ocean.Leg(45, 1, KT, Ocean.CALM, 6);
        leg.toLead().turnOn().toFixLessNm(3);
        List<AircraftState> states = leg.flight.altitude(t -> 6000).sample(2);
        Flown flown = Flown.fly(
                states,
                List.of(
                        Ocean.say(
                                2,
                                "direct NORTH, then as filed, maintain 6000 until established on V40, then descend and maintain"
                                        + " 5000"),
                        Ocean.say(10, Ocean.radialClearance(states.get(0)))));
        assertThat(flown.all(FlightEvent.InterceptAchieved.class))
                .as("%s", flown.events())
                .isNotEmpty();
        assertThat(flown.all(FlightEvent.ChangeOver.class)).as("not on V40 yet").isEmpty();
        assertThat(flown.record().inForce().assigned().altitudeFt()).hasValue(6000);
    }

    @Test
    void theAmendmentIsNotCompleteBeforeThePlaceIsPassed() {
        Flown flown = via(
                t -> 6000 - Math.min(1000, Math.max(0, (t - 460) * 500 / 60)),
                "maintain 6000 until 5 miles past NORTH, then descend and maintain 5000");
        double overS = flown.all(FlightEvent.ChangeOver.class).get(0).timeS();
        assertThat(flown.all(FlightEvent.AmendmentComplete.class))
                .singleElement()
                .satisfies(done -> assertThat(done.timeS()).isGreaterThanOrEqualTo(overS - 1));
    }

    @Test
    void atATimeOfTheDay() {
        Flown flown = Flown.at(
                new TimeOfDay(LocalTime.of(15, 0), true),
                viaNorth().altitude(downAt(245)).sample(2),
                List.of(Ocean.say(
                        2, "direct NORTH, then as filed, maintain 6000 until 1504, then descend and maintain 5000")));
        assertThat(faults(flown)).as("%s", flown.events()).isEmpty();
        assertThat(flown.all(FlightEvent.ChangeOver.class))
                .singleElement()
                .satisfies(over -> assertThat(over.timeS()).isCloseTo(240, Offset.offset(0.6)));
    }

    @ParameterizedTest
    @CsvSource({"until advised", "until further advised", "until SOUTH VOR 1504", "until BENDA", "until 1504"})
    void whereThePlaceCannotBeToldNoAltitudeIsJudgedAndTheRouteSaysSo(String until) throws ClearanceException {
        String said = "maintain 6000 " + until.replace("SOUTH VOR ", "") + ", then descend and maintain 5000";
        for (double fromS : new double[] {50, 300, 2000}) {
            Flown flown = via(downAt(fromS), said);
            assertThat(faults(flown)).as("%s", flown.events()).isEmpty();
        }
        Flown flown = via(t -> 6000, said);
        assertThat(flown.record().issued().get(0).route().warnings())
                .extracting(Warning::code)
                .contains(Warning.Code.NOT_FOLLOWED);
        assertThat(flown.record().inForce().assigned().altitudeFt()).isEmpty();
    }

    /** No other altitude is cleared, so leaving it is off it. */
    @Test
    void anAltitudeWithNoneAfterItHoldsOn() {
        Flown flown = via(downAt(400), "maintain 6000 until NORTH");
        assertThat(faults(flown)).containsExactly(FaultCode.ALTITUDE_NOT_HELD);
        assertThat(flown.record().issued().get(0).clearance().notes()).anyMatch(note -> note.contains("holds on"));
    }

    @Test
    void threeAltitudesOneAfterTheOther() {
        Flown flown = via(
                t -> t < 300
                        ? 6000
                        : t < 450
                                ? Math.max(5500, 6000 - (t - 300) * 500 / 60)
                                : Math.max(5000, 5500 - (t - 450) * 500 / 60),
                "maintain 6000 until NORTH, then descend and maintain 5500 until 5 miles past NORTH, then descend and"
                        + " maintain 5000");
        assertThat(faults(flown)).as("%s", flown.events()).isEmpty();
        assertThat(flown.all(FlightEvent.ChangeOver.class))
                .extracting(FlightEvent.ChangeOver::altitudeFt)
                .containsExactly(OptionalDouble.of(5500), OptionalDouble.of(5000));
    }

    @Test
    void theSecondClearanceForAnAltitudeEndsThem() {
        Flown flown = Flown.fly(
                viaNorth().altitude(t -> 6000).sample(2),
                List.of(
                        Ocean.say(
                                2,
                                "direct NORTH, then as filed, maintain 6000 until NORTH, then descend and maintain 5000"),
                        Ocean.say(100, "maintain 6000")));
        assertThat(flown.all(FlightEvent.ChangeOver.class)).isEmpty();
        assertThat(faults(flown)).isEmpty();
    }

    @Test
    void takenBackTheFirstIsInForceAgainAndTheSecondFollows() {
        Flown flown = Flown.fly(
                viaNorth().altitude(downAt(305)).sample(2),
                List.of(
                        Ocean.say(
                                2,
                                "direct NORTH, then as filed, maintain 6000 until NORTH, then descend and maintain 5000"),
                        Ocean.say(100, "maintain 7000"),
                        Ocean.say(104, "disregard")));
        assertThat(flown.all(FlightEvent.ChangeOver.class)).hasSize(1);
        assertThat(faults(flown)).as("%s", flown.events()).isEmpty();
    }

    /** The fix of a hold is where one gives way to the other: when it is passed for the first time. */
    @Test
    void theFixOfAHoldIsAPlaceLikeAnyOther() {
        Ocean.Leg leg = new Ocean.Leg(45, 1, KT, Ocean.CALM, 6);
        leg.toLead().turnOn();
        double fromS = leg.flight.endS();
        double fixS = fromS + (Ocean.FIX_NM - leg.alongNm()) / KT * 3600;
        leg.toFixLessNm(-0.2).flight.turn(180).seconds(60).turn(180).miles(1.5);
        List<AircraftState> states = leg.flight.altitude(downAt(fixS + 5)).sample(2);
        String said = String.format(
                Locale.ROOT,
                "fly heading %03d, intercept the AAA 102 radial, hold west of AAA102%03.0f on the AAA 102 radial, maintain"
                        + " 6000 until AAA102%03.0f, then descend and maintain 5000",
                Ocean.magneticHeading(states.get(0)),
                Ocean.FIX_NM,
                Ocean.FIX_NM);
        Flown flown = Flown.fly(states, List.of(Ocean.say(2, said)));
        assertThat(flown.record().issued().get(0).route().warnings())
                .extracting(Warning::code)
                .doesNotContain(Warning.Code.NOT_FOLLOWED);
        assertThat(flown.all(FlightEvent.ChangeOver.class))
                .as("%s", flown.events())
                .singleElement()
                .satisfies(over -> assertThat(over.timeS()).isCloseTo(fixS, Offset.offset(1.0)));
        assertThat(faults(flown)).as("%s", flown.events()).isEmpty();
    }

    /** Not heard from 20 s before the fix to 20 s after it: it was passed, and the time to react is counted from there. */
    @ParameterizedTest
    @CsvSource({"320, false", "700, true"})
    void aFixPassedInAGapIsPassed(double fromS, boolean off) {
        List<AircraftState> heard = viaNorth().altitude(downAt(fromS)).sample(2).stream()
                .filter(state -> state.timeS() < 275 || state.timeS() > 315)
                .toList();
        Flown flown = Flown.fly(
                heard,
                List.of(Ocean.say(
                        2, "direct NORTH, then as filed, maintain 6000 until NORTH, then descend and maintain 5000")));
        assertThat(flown.all(FlightEvent.ChangeOver.class))
                .as("%s", flown.events())
                .hasSize(1);
        assertThat(faults(flown).isEmpty()).as("%s", flown.events()).isEqualTo(!off);
    }

    /** From 140 kt to within 10 of 100 at half a knot a second: 60 s; the log says so whatever the rate of the feed. */
    @ParameterizedTest
    @ValueSource(doubles = {0.5, 1, 4, 20})
    void whatFollowsASpeedBeginsWhenItIsReached(double hz) {
        List<AircraftState> states = viaNorth().altitude(downAt(95)).sample(hz).stream()
                .map(s -> Ocean.sending(
                        s, s.altitudeMslFt(), OptionalDouble.of(Math.max(100, 140 - Math.max(0, s.timeS() - 6) / 2))))
                .toList();
        Flown flown = Flown.fly(
                states,
                List.of(Ocean.say(
                        2, "direct NORTH, then as filed, reduce speed to 100, then descend and maintain 5000")));
        assertThat(flown.all(FlightEvent.ChangeOver.class))
                .singleElement()
                .satisfies(over -> assertThat(over.timeS()).isCloseTo(66, Offset.offset(0.3)));
        assertThat(faults(flown)).isEmpty();
    }

    /** FAA Order JO 7110.65, 4-5-7: "now" is now, and the rest is the pilot's; who never begins has not held the first. */
    @Test
    void theFirstIsDueNowAndTheSecondInThePilotsOwnTime() {
        String said = "descend now to 5500, then descend at pilot's discretion maintain 5000";
        Flown begun = via(t -> Math.max(5500, 6000 - Math.max(0, t - 10) * 500 / 60), said);
        assertThat(begun.all(FlightEvent.ChangeOver.class))
                .as("%s", begun.events())
                .singleElement()
                .satisfies(over -> assertThat(over.altitudeFt()).hasValue(5000));
        assertThat(faults(begun)).as("%s", begun.events()).isEmpty();
        Flown never = via(t -> 6000, said);
        assertThat(never.all(FlightEvent.ChangeOver.class)).isEmpty();
        assertThat(faults(never)).as("%s", never.events()).isNotEmpty();
    }

    /** A minute after it was due it is waited for no longer, and how much of the descent was left is told. */
    @Test
    void whoNeverGoesToTheSecondHasNotAchievedIt() {
        Flown flown = via(t -> t < 310 ? 6000 : 5600, "maintain 6000 until NORTH, then descend and maintain 5000");
        FlightEvent.ChangeOver over = flown.all(FlightEvent.ChangeOver.class).get(0);
        double dueS = over.timeS() + 30 + 20 + 900 / (500 / 60.0);
        assertThat(flown.all(FlightEvent.AmendmentNotAchieved.class))
                .as("%s", flown.events())
                .singleElement()
                .satisfies(not -> {
                    assertThat(not.timeS()).isCloseTo(dueS + 60, Offset.offset(1.0));
                    assertThat(not.reason()).isEqualTo("did not reach 5000 ft");
                    assertThat(not.leftShare().orElseThrow()).isCloseTo(500 / 900.0, Offset.offset(0.01));
                });
        assertThat(flown.all(FlightEvent.AmendmentComplete.class)).isEmpty();
        assertThat(flown.all(FlightEvent.GradedPartEnded.class))
                .singleElement()
                .satisfies(end -> assertThat(end.timeS()).isCloseTo(dueS + 90, Offset.offset(1.0)));
    }

    @Test
    void aSpeedUntilAPlaceIsNotHeldBeyondIt() {
        Flown flown = via(t -> 6000, "maintain 120 knots until NORTH, then maintain 140 knots");
        assertThat(flown.all(FlightEvent.ChangeOver.class))
                .singleElement()
                .satisfies(over -> assertThat(over.speedKt()).hasValue(140));
        Flown alone = via(t -> 6000, "maintain 120 knots until NORTH");
        assertThat(alone.all(FlightEvent.ChangeOver.class))
                .singleElement()
                .satisfies(over -> assertThat(over.speedKt()).isEmpty());
        assertThat(alone.record().inForce().assigned().speed()).isEmpty();
    }
}
