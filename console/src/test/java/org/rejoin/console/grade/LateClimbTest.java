package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.function.DoubleUnaryOperator;

import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.ocean.ClosedFormFlight;
import org.rejoin.bridge.ocean.Ocean;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * "Climb and maintain 7000" at 6000, flown late, slowly, or not levelled off. A climb is begun promptly and made at 500 ft a
 * minute or more (AIM 4-4-10); 100 ft are kept (FAA-S-ACS-8C, IR.V.A.S5).
 */
class LateClimbTest {

    private static final double CLEARED_S = 2;

    /** Two flights that differ by two seconds, or by what no instrument shows, differ by no more, points. */
    private static final double LARGEST_STEP = 12;

    private static Flown fly(DoubleUnaryOperator feet) {
        ClosedFormFlight level = new ClosedFormFlight(new Position(30.3, -44.9), 100, 120, Ocean.CALM).seconds(500);
        return Flown.fly(level.altitude(feet).sample(1), List.of(Ocean.say(CLEARED_S, "climb and maintain 7000")));
    }

    private static DoubleUnaryOperator climb(double afterS, double feetPerMin) {
        return t -> Math.min(7000, 6000 + Math.max(0, t - CLEARED_S - afterS) * feetPerMin / 60);
    }

    private static double score(Flown flown) {
        return flown.grade().score().orElseThrow();
    }

    private static void falls(double before, Flown now, String as) {
        assertThat(before - score(now))
                .as(
                        "%s: %s",
                        as,
                        now.grade().criteria().stream()
                                .map(each -> each.code() + " " + each.points())
                                .toList())
                .isBetween(-0.2, LARGEST_STEP);
    }

    /** Who reads it back and then begins, a quarter of a minute after the first word, is prompt; AIM 4-4-10: 500 ft a minute. */
    @ParameterizedTest
    @ValueSource(doubles = {0, 5, 10, 15, 18})
    void whoReadsItBackFirstIsPrompt(double late) {
        Flown flown = fly(climb(late, 500));
        assertThat(flown.grade().verdict()).as("%s", flown.grade()).isEqualTo(Verdict.MET);
        assertThat(flown.faults()).isEmpty();
    }

    /** At 500 ft a minute the last moment to begin is the time to react; at more there is time in hand. */
    @ParameterizedTest
    @ValueSource(doubles = {500, 700, 1000})
    void begunTwoSecondsLaterItCostsALittleMoreDownToWhoNeverClimbs(double rate) {
        double never = score(fly(t -> 6000));
        double before = 100;
        for (double late = 0; late <= 240; late += 2) {
            Flown flown = fly(climb(late, rate));
            falls(before, flown, "begun after " + late);
            before = score(flown);
        }
        assertThat(before).isBetween(never, never + 10);
        assertThat(never).isLessThan(5);
    }

    @Test
    void tenFeetAMinuteLessCostALittleMoreDownToWhoNeverClimbs() {
        double before = 100;
        for (double rate = 600; rate >= 0; rate -= 10) {
            Flown flown = fly(climb(10, rate));
            falls(before, flown, rate + " ft a minute");
            // Begun after 10 s of the 20 that there are: 900 ft in 118 s, and 5 s to be off.
            assertThat(rate < 430 && flown.grade().verdict() == Verdict.MET).isFalse();
            before = score(flown);
        }
        assertThat(before).isLessThan(5);
    }

    /** Levelled off later and later, then back down. */
    @ParameterizedTest
    @ValueSource(doubles = {500, 1000})
    void carriedFartherPastItCostsALittleMore(double rate) {
        double before = 100;
        for (double lateS = 0; lateS <= 60; lateS += 2) {
            double top = 7000 + lateS * rate / 60;
            double topS = CLEARED_S + 10 + (top - 6000) * 60 / rate;
            Flown flown = fly(t -> t < topS
                    ? 6000 + Math.max(0, t - CLEARED_S - 10) * rate / 60
                    : Math.max(7000, top - (t - topS) * rate / 60));
            falls(before, flown, lateS + " s late");
            before = score(flown);
        }
        assertThat(before).isLessThan(60);
    }

    @ParameterizedTest
    @CsvSource({"10, 300", "20, 400", "100, 700"})
    void whatIsSaidIsWhatWasFlown(double late, double rate) {
        Flown flown = fly(climb(late, rate));
        assertThat(flown.faults()).containsExactly(FaultCode.ALTITUDE_NOT_HELD);
        String text = flown.grade().faults().get(0).text();
        assertThat(number(text, "began (\\d+) s after")).isBetween(late, late + 60 * 60 / rate);
        assertThat(number(text, "at (\\d+) ft a minute:?")).isBetween(rate * 0.95, rate * 1.05);
        assertThat(text).contains("tell ATC").doesNotContain("scan");
    }

    @Test
    void whoNeverClimbedIsToldSoOnce() {
        Flown flown = fly(t -> 6000);
        assertThat(flown.faults()).containsExactly(FaultCode.NOT_ACHIEVED);
        assertThat(flown.grade().faults().get(0).text())
                .contains("did not reach 7000 ft", "no climb had begun", "tell ATC");
        assertThat(flown.criterion("COMPLETED").met()).isFalse();
    }

    @Test
    void carriedPastItIsALevelOffAndLeftLaterIsTheScan() {
        Flown past = fly(t -> t < 150
                ? climb(10, 500).applyAsDouble(t) + Math.max(0, t - 132) * 500 / 60
                : Math.max(7000, 7150 - (t - 150) * 5));
        assertThat(past.faults()).containsExactly(FaultCode.ALTITUDE_NOT_HELD);
        assertThat(past.grade().faults().get(0).text()).contains("carried past it", "level-off");
        Flown left = fly(t -> climb(10, 700).applyAsDouble(t) - Math.max(0, Math.min(300, (t - 130) * 5)));
        assertThat(left.faults()).containsExactly(FaultCode.ALTITUDE_NOT_HELD);
        assertThat(left.grade().faults().get(0).text()).contains("keep altitude in the scan");
    }

    private static double number(String text, String pattern) {
        java.util.regex.Matcher found = java.util.regex.Pattern.compile(pattern).matcher(text);
        assertThat(found.find()).as(text).isTrue();
        return Double.parseDouble(found.group(1));
    }
}
