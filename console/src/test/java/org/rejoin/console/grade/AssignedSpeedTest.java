package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;

import org.rejoin.bridge.Amendment;
import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.ocean.Habit;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.protocol.AircraftState;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Assigned speeds, 10 kt either way (FAA-S-ACS-8C, area V), on a sound flight with a made-up airspeed indicator. */
class AssignedSpeedTest {

    /** The clearance at 2 s, "say" at 40 s; the indicator as a function of time. */
    private static Flown fly(double hz, DoubleUnaryOperator knots, String... say) {
        List<AircraftState> states = FeedFairnessTest.flight(Habit.SOUND).sample(hz).stream()
                .map(s -> Ocean.sending(s, s.altitudeMslFt(), OptionalDouble.of(knots.applyAsDouble(s.timeS()))))
                .toList();
        List<Amendment> amendments = new java.util.ArrayList<>();
        amendments.add(Ocean.at(2, Ocean.radialClearance(states.get(0)), 6000));
        for (int i = 0; i < say.length; i++) {
            amendments.add(Ocean.say(40 + 60 * i, say[i]));
        }
        return Flown.fly(states, amendments);
    }

    private static List<FlightEvent.SpeedDeviationBegan> began(Flown flown) {
        return flown.all(FlightEvent.SpeedDeviationBegan.class);
    }

    /** 130 kt until 45 s, then 1 kt a second down to 110, and off by so many knots from 100 to 130 s. */
    private static DoubleUnaryOperator slowing(double off) {
        return t ->
                Math.max(110, 130 - Math.max(0, t - 45)) + off * Math.max(0, Math.min(1, Math.min(t - 100, 130 - t)));
    }

    @ParameterizedTest
    @CsvSource({"8, false", "12, true", "-8, false", "-12, true"})
    void tenKnotsEitherWay(double off, boolean deviation) {
        Flown flown = fly(2, slowing(off), "maintain 110 knots");
        assertThat(began(flown)).hasSize(deviation ? 1 : 0);
        assertThat(flown.all(FlightEvent.SpeedDeviationEnded.class)).hasSize(deviation ? 1 : 0);
        assertThat(flown.all(FlightEvent.AmendmentReplaced.class)).isEmpty();
        assertThat(flown.all(FlightEvent.AmendmentComplete.class)).hasSize(1);
    }

    @ParameterizedTest
    @CsvSource({"or greater, 20, false", "or greater, -20, true"})
    void aLimitCountsOnItsOwnSide(String words, double off, boolean deviation) {
        assertThat(began(fly(2, slowing(off), "maintain 110 knots " + words))).hasSize(deviation ? 1 : 0);
    }

    /** 10 kt for more than 10 s (FAA-S-ACS-8C, IR.V.B.S7; the time: common practice, no source). */
    @ParameterizedTest
    @CsvSource({"0, 30, false", "8, 30, false", "15, 8, false", "15, 13, true", "15, 30, true"})
    void offForLongerThanTenSecondsIsAFault(double off, double forS, boolean fault) {
        Flown flown = fly(
                2,
                t -> Math.max(110, 130 - Math.max(0, t - 45))
                        + off * Math.max(0, Math.min(1, Math.min(2 * (t - 100), 2 * (100 + forS - t)))),
                "maintain 110 knots");
        assertThat(flown.faults()).isEqualTo(fault ? List.of(FaultCode.SPEED_NOT_HELD) : List.of());
        Criterion speed = flown.criterion("SPEED");
        assertThat(speed.limit()).isEqualTo(10);
        assertThat(speed.met()).isEqualTo(!fault);
        assertThat(speed.measured()).isCloseTo(fault || off == 8 ? off : 0, Offset.offset(0.5));
    }

    /** A larger error held as long never scores higher; a speed that is not counted on its side costs nothing. */
    @Test
    void worseNeverScoresHigher() {
        double before = 101;
        for (double off : new double[] {0, 3, 6, 9, 12, 16, 25}) {
            double score = fly(2, slowing(off), "maintain 110 knots").score();
            assertThat(score).isLessThanOrEqualTo(before);
            before = score;
        }
        assertThat(fly(2, slowing(30), "maintain 110 knots or greater")
                        .criterion("SPEED")
                        .measured())
                .isZero();
    }

    @Test
    void withoutASpeedOrAnIndicatorItIsLeftOut() {
        assertThat(fly(2, slowing(30)).grade().criteria())
                .noneMatch(each -> each.code().equals("SPEED"));
    }

    @Test
    void notExceeding() {
        assertThat(began(fly(2, slowing(-20), "do not exceed 110 knots"))).isEmpty();
        assertThat(began(fly(2, slowing(20), "do not exceed 110 knots"))).hasSize(1);
    }

    /** From 130 kt to within 10 of 110: 10 s to react and 20 s at half a knot a second; judged from 70 s on. */
    @Test
    void timeToSlowDownIsGiven() {
        Flown never = fly(2, t -> 130, "maintain 110 knots");
        assertThat(began(never)).hasSize(1);
        assertThat(began(never).get(0).timeS()).isCloseTo(70, Offset.offset(0.3));
        assertThat(began(fly(2, t -> t < 65 ? 130 : 110, "maintain 110 knots"))).isEmpty();
    }

    @Test
    void presentSpeedIsTheOneThen() {
        assertThat(began(fly(2, t -> t < 70 ? 121 : 121 + Math.min(15, t - 70), "maintain present speed")))
                .hasSize(1);
        assertThat(began(fly(2, t -> 121, "maintain present speed"))).isEmpty();
    }

    /** FAA Order JO 7110.65, 5-7-4. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "resume normal speed",
                "delete speed restrictions",
                "cancel speed restriction",
                "no speed restrictions, maintain 6000"
            })
    void normalSpeedEndsIt(String words) {
        Flown flown = fly(2, t -> t < 110 ? 110 : 150, "maintain 110 knots", words);
        assertThat(began(flown)).isEmpty();
        Flown open = fly(2, t -> t < 60 ? 110 : 150, "maintain 110 knots", words);
        assertThat(began(open)).hasSize(1);
        assertThat(open.all(FlightEvent.SpeedDeviationEnded.class)).hasSize(1);
        assertThat(open.all(FlightEvent.SpeedDeviationEnded.class).get(0).timeS())
                .isCloseTo(100, Offset.offset(0.01));
    }

    @Test
    void aNewClearanceLeavesItInForce() {
        Flown flown = fly(2, t -> t < 120 ? 110 : 150, "maintain 110 knots", "maintain 6000");
        assertThat(began(flown)).hasSize(1);
    }

    @Test
    void withoutAnIndicatorNothingIsSaid() {
        List<AircraftState> states = FeedFairnessTest.flight(Habit.SOUND).sample(2);
        Flown flown = Flown.fly(
                states,
                List.of(Ocean.at(2, Ocean.radialClearance(states.get(0)), 6000), Ocean.say(40, "maintain 250 knots")));
        assertThat(began(flown)).isEmpty();
        assertThat(flown.faults()).isEmpty();
        assertThat(flown.grade().criteria())
                .filteredOn(criterion -> criterion.code().equals("SPEED"))
                .singleElement()
                .satisfies(speed -> assertThat(speed.notJudged()).contains("the feed carries no indicated airspeed"));
        assertThat(flown.grade().verdict()).isNotEqualTo(Verdict.MET);
    }

    @ParameterizedTest
    @ValueSource(doubles = {1, 5, 20, 50})
    void theRateChangesNothing(double hz) {
        // 110 kt is crossed by 10 kt in slopes of 1 kt a second: at 110 s and 150 s.
        DoubleUnaryOperator knots = t -> 110 + Math.max(0, Math.min(20, Math.min(t - 100, 160 - t)));
        Flown flown = fly(hz, knots, "maintain 110 knots");
        assertThat(began(flown).get(0).timeS()).isCloseTo(110, Offset.offset(0.3));
        FlightEvent.SpeedDeviationEnded ended =
                flown.all(FlightEvent.SpeedDeviationEnded.class).get(0);
        assertThat(ended.timeS()).isCloseTo(150, Offset.offset(0.3));
        assertThat(ended.errorKt()).isCloseTo(20, Offset.offset(0.1));
    }
}
