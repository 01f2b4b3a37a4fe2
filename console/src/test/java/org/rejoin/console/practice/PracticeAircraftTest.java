package org.rejoin.console.practice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.function.DoubleFunction;

import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The practice aircraft against turn figures: rate 1091 tan(bank) / V and radius V^2 / (11.26 tan(bank)) of the Pilot's
 * Handbook of Aeronautical Knowledge, FAA-H-8083-25, chapter 5 (rounded constants, hence 0.4 %; from memory), standard rate of
 * the Instrument Flying Handbook, FAA-H-8083-15B, chapter 5.
 */
class PracticeAircraftTest {

    private static final double STEP_S = 0.05;

    private static PracticeAircraft at(double bankDeg, double speedKt, Wind wind) {
        return new PracticeAircraft(
                0,
                new Position(38, -50),
                6000,
                new TrueDirection(0),
                bankDeg,
                0,
                speedKt,
                wind,
                PracticeAircraft.Gusted.NOT);
    }

    private static PracticeAircraft fly(
            PracticeAircraft from, PracticeAircraft.Controls wanted, DoubleFunction<Wind> winds, double seconds) {
        PracticeAircraft now = from;
        for (int i = 0; i < Math.round(seconds / STEP_S); i++) {
            now = now.after(STEP_S, wanted, winds, DrydenGusts.Gust.NONE);
        }
        return now;
    }

    @ParameterizedTest
    @CsvSource({"120, 30", "240, 30", "90, 15", "180, 25"})
    void turnsAtTheRateAndRadiusOfTheHandbook(double speedKt, double bankDeg) {
        PracticeAircraft start = at(bankDeg, speedKt, Wind.CALM);
        double rate = 1091 * Math.tan(Math.toRadians(bankDeg)) / speedKt;
        double half = 180 / rate;
        PracticeAircraft now =
                fly(start, new PracticeAircraft.Controls(bankDeg, 6000, speedKt), feet -> Wind.CALM, half);
        assertThat(now.heading().deg()).isCloseTo(180, within(1.5));
        double radiusFt = speedKt * speedKt / (11.26 * Math.tan(Math.toRadians(bankDeg)));
        assertThat(start.position().distanceNm(now.position()) * 1852 / 0.3048)
                .isCloseTo(2 * radiusFt, within(2 * radiusFt * 0.01));
    }

    @ParameterizedTest
    @CsvSource({"70", "120", "160"})
    void atTheStandardBankATurnRoundTakesTwoMinutes(double speedKt) {
        double bank = at(0, speedKt, Wind.CALM).standardBankDeg();
        PracticeAircraft now = fly(
                at(bank, speedKt, Wind.CALM),
                new PracticeAircraft.Controls(bank, 6000, speedKt),
                feet -> Wind.CALM,
                120);
        assertThat(Math.abs(new TrueDirection(0).turnTo(now.heading()))).isLessThan(0.5);
    }

    @Test
    void aFastAircraftTurnsWith25DegreesOfBank() {
        assertThat(at(0, 250, Wind.CALM).standardBankDeg()).isEqualTo(25);
    }

    @Test
    void rollsNoFasterThanItCanAndSettlesOnTheBank() {
        PracticeAircraft now = at(-20, 140, Wind.CALM);
        PracticeAircraft.Controls right = new PracticeAircraft.Controls(20, 6000, 140);
        for (int i = 0; i < 200; i++) {
            PracticeAircraft next = now.after(STEP_S, right, feet -> Wind.CALM, DrydenGusts.Gust.NONE);
            assertThat(next.bankDeg() - now.bankDeg()).isBetween(0.0, PracticeAircraft.ROLL_DEG_PER_S * STEP_S + 1e-9);
            now = next;
        }
        assertThat(now.bankDeg()).isCloseTo(20, within(0.01));
    }

    @Test
    void levelsOffAtTheAltitudeAndSettlesAtTheSpeed() {
        PracticeAircraft now =
                fly(at(0, 140, Wind.CALM), new PracticeAircraft.Controls(0, 7000, 120), feet -> Wind.CALM, 60);
        assertThat(now.verticalSpeedFpm()).isCloseTo(700, within(1.0));
        PracticeAircraft level = fly(now, new PracticeAircraft.Controls(0, 7000, 120), feet -> Wind.CALM, 120);
        assertThat(level.altitudeFt()).isCloseTo(7000, within(1.0));
        assertThat(level.trueAirspeedKt()).isCloseTo(120, within(0.1));
    }

    @Test
    void climbsIntoTheWindOfTheNewHeight() {
        WindProfile winds = new WindProfile(new Wind(new TrueDirection(270), 20), 6000, 10, 5);
        PracticeAircraft now =
                fly(at(0, 140, winds.at(6000)), new PracticeAircraft.Controls(0, 8000, 140), winds::at, 240);
        assertThat(now.wind().from().deg()).isCloseTo(290, within(0.1));
        assertThat(now.wind().speedKt()).isCloseTo(30, within(0.1));
    }

    @Test
    void aSteadyGustFromTheRightFirstSwingsTheNoseRightAndThenCarriesTheAircraft() {
        DrydenGusts.Gust fromRight = new DrydenGusts.Gust(0, -10, 0, 0);
        PracticeAircraft now = at(0, 100, Wind.CALM);
        PracticeAircraft.Controls level = new PracticeAircraft.Controls(0, 6000, 100);
        for (int i = 0; i < 20; i++) {
            now = now.after(STEP_S, level, feet -> Wind.CALM, fromRight);
        }
        assertThat(new TrueDirection(0).turnTo(now.nose())).isPositive();
        for (int i = 0; i < 600; i++) {
            now = now.after(STEP_S, level, feet -> Wind.CALM, fromRight);
        }
        // Carried along: the track is that of a wind of 10 kt, the nose is back on the path.
        assertThat(new TrueDirection(0).turnTo(now.ground().track())).isCloseTo(-5.71, within(0.1));
        assertThat(new TrueDirection(0).turnTo(now.nose())).isCloseTo(0, within(0.1));
    }
}
