package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.geo.GeodesicLine;
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
 * A DME arc is to be kept within 1 NM (FAA-S-ACS-8C, IR.V.A.S6): flown beside it within that, on whichever side and whichever
 * way round, it is met; beyond it the score falls with every tenth of a mile and nowhere by more than a pilot could see.
 */
class ArcInterceptTest {

    private static final Position AAA = new Position(30, -45);
    private static final double ARC_NM = 15;
    private static final double KT = 120;

    /** Of AAA, degrees. */
    private static final double DECLINATION = -12;

    /** The arc is joined on this bearing of the station. */
    private static final double JOINED = 340;

    private static final double ROUND = 50;

    /** Onto a circle about the station, so much outside the arc (inside negative), round it, off it inbound and on as filed. */
    private static ClosedFormFlight flight(int clockwise, double offNm) {
        Position start = AAA.destination(new TrueDirection(JOINED), ARC_NM + 6);
        ClosedFormFlight flight =
                new ClosedFormFlight(start, start.to(AAA).initial().deg(), KT, Ocean.CALM);
        flight.miles(6 - offNm - flight.radiusNm());
        for (int i = 0; i < 3; i++) {
            flight.turnTo(bearing(flight) + clockwise * 90);
        }
        return round(flight, clockwise);
    }

    /** The same, with the turn onto the arc begun so much too late, and then back onto the arc. */
    private static ClosedFormFlight late(int clockwise, double lateNm) {
        Position start = AAA.destination(new TrueDirection(JOINED), ARC_NM + 6);
        ClosedFormFlight flight =
                new ClosedFormFlight(start, start.to(AAA).initial().deg(), KT, Ocean.CALM);
        flight.miles(6 - flight.radiusNm() + lateNm);
        flight.turnTo(bearing(flight) + clockwise * 60);
        double out = ARC_NM - AAA.distanceNm(flight.end().position());
        flight.miles(Math.max(0, out / Math.sin(Math.toRadians(30))));
        for (int i = 0; i < 3; i++) {
            flight.turnTo(bearing(flight) + clockwise * 90);
        }
        return round(flight, clockwise);
    }

    private static ClosedFormFlight round(ClosedFormFlight flight, int clockwise) {
        double out = AAA.distanceNm(flight.end().position());
        double left = ROUND - Math.abs(turned(flight)) - Math.toDegrees(flight.radiusNm() / out);
        flight.turn(clockwise * left, Math.toDegrees(KT / 3600 / out));
        flight.turnTo(bearing(flight) + 180);
        Position xsou = new Position(28.9, -44.2);
        double onward = AAA.to(xsou).initial().deg();
        double turn = Math.abs(new TrueDirection(flight.end().trackDeg()).turnTo(new TrueDirection(onward)));
        flight.miles(AAA.distanceNm(flight.end().position()) - flight.radiusNm() * Math.tan(Math.toRadians(turn / 2)));
        flight.turnTo(onward);
        return flight.turnTo(GeodesicLine.between(AAA, xsou)
                        .offset(flight.end().position())
                        .course()
                        .deg())
                .seconds(90);
    }

    /** Of the flight from the station, degrees true. */
    private static double bearing(ClosedFormFlight flight) {
        return AAA.to(flight.end().position()).initial().deg();
    }

    private static double turned(ClosedFormFlight flight) {
        return new TrueDirection(JOINED).turnTo(new TrueDirection(bearing(flight)));
    }

    private static Flown fly(ClosedFormFlight flight, int clockwise) {
        List<AircraftState> states = flight.sample(2);
        double radial = (JOINED + clockwise * ROUND - DECLINATION + 360) % 360;
        String say = String.format(
                Locale.ROOT,
                "fly heading %03d, intercept the AAA 15 mile arc, arc %s to the AAA %03.0f radial, inbound, then as filed",
                Ocean.magneticHeading(states.get(0)),
                clockwise > 0 ? "clockwise" : "counterclockwise",
                radial);
        return Flown.fly(states, List.of(Ocean.say(2, say)), "XNOR DCT AAA DCT XSOU");
    }

    @ParameterizedTest
    @CsvSource({"1, -0.9", "1, -0.5", "1, 0", "1, 0.5", "1, 0.9", "-1, -0.9", "-1, -0.5", "-1, 0", "-1, 0.5", "-1, 0.9"
    })
    void besideItWithinItsLimitItIsMet(int clockwise, double offNm) {
        Flown flown = fly(flight(clockwise, offNm), clockwise);
        assertThat(flown.faults()).as("%s", flown.events()).isEmpty();
        assertThat(flown.grade().verdict()).as("%s", flown.grade()).isEqualTo(Verdict.MET);
    }

    /** His end of the arc lies as far beside the fix as he was beside the arc: that has been charged. */
    @ParameterizedTest
    @ValueSource(ints = {1, -1})
    void besideItHeIsChargedForTheArcAndNotForItsEndAgain(int clockwise) {
        double on = fly(flight(clockwise, 0), clockwise).criterion("FIX").measured();
        for (double offNm : new double[] {-0.9, -0.5, 0.5, 0.9}) {
            double beside =
                    fly(flight(clockwise, offNm), clockwise).criterion("FIX").measured();
            assertThat(beside).as("%.1f NM beside it", offNm).isLessThan(on + 0.4);
        }
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.2, 0.6, 0.9})
    void turnedOntoItLateWithinItsLimitItIsMet(double lateNm) {
        for (int clockwise : new int[] {-1, 1}) {
            Flown flown = fly(late(clockwise, lateNm), clockwise);
            assertThat(flown.faults()).as("%s", flown.events()).isEmpty();
        }
    }

    @ParameterizedTest
    @CsvSource({"1, -1.3", "1, 1.3", "-1, -1.3", "-1, 1.3"})
    void besideItBeyondItsLimitItIsOneFault(int clockwise, double offNm) {
        Flown flown = fly(flight(clockwise, offNm), clockwise);
        assertThat(flown.grade().verdict()).isEqualTo(Verdict.NOT_MET);
        assertThat(flown.faults()).as("%s", flown.events()).hasSize(1);
        assertThat(flown.faults().get(0))
                .isIn(
                        offNm > 0
                                ? List.of(FaultCode.TURNED_EARLY)
                                : List.of(FaultCode.OVERSHOOT, FaultCode.FLOWN_THROUGH));
    }

    /** So far off that he was never on it: what he flew is told by the DME, and the score goes on falling. */
    @ParameterizedTest
    @CsvSource({"1, -1.6", "1, 1.6", "-1, -1.6", "-1, 1.6", "1, 2.4", "-1, -2.4"})
    void farBesideItIsJudgedAndSaysWhatWasFlown(int clockwise, double offNm) {
        Flown flown = fly(flight(clockwise, offNm), clockwise);
        assertThat(flown.faults()).as("%s", flown.events()).hasSize(1);
        assertThat(flown.grade().faults().get(0).text())
                .as("%s", flown.events())
                .containsAnyOf(
                        String.format(Locale.ROOT, "flew the arc at %.1f DME, cleared 15", ARC_NM + offNm),
                        // Slant range.
                        String.format(Locale.ROOT, "flew the arc at %.1f DME, cleared 15", ARC_NM + offNm + 0.1));
        assertThat(flown.criterion("INTERCEPT").judged()).isTrue();
        assertThat(flown.score()).isLessThan(60);
    }

    /** Clockwise and counterclockwise, inside and outside: within what the lead of the turn off it makes of the side. */
    @Test
    void bothSidesAndBothWaysRoundAreAlike() {
        for (double offNm : new double[] {0.4, 0.8}) {
            List<Double> scores = new ArrayList<>();
            for (int clockwise : new int[] {-1, 1}) {
                scores.add(fly(flight(clockwise, offNm), clockwise).score());
                scores.add(fly(flight(clockwise, -offNm), clockwise).score());
            }
            double most = scores.stream().max(Double::compare).orElseThrow();
            assertThat(scores)
                    .as("%.1f", offNm)
                    .allSatisfy(each -> assertThat(each).isGreaterThan(most - 6));
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {-1, 1})
    void fartherOffItNeverScoresHigherAndNoTenthOfAMileIsACliff(int side) {
        for (int clockwise : new int[] {-1, 1}) {
            Map<Double, Double> scores = new TreeMap<>();
            for (double offNm = 0.2; offNm < 3.05; offNm += 0.1) {
                scores.put(
                        offNm, fly(flight(clockwise, side * offNm), clockwise).score());
            }
            Double before = null;
            for (double each : scores.values()) {
                if (before != null) {
                    assertThat(each)
                            .as("%s", scores)
                            .isLessThanOrEqualTo(before + 0.5)
                            .isGreaterThanOrEqualTo(before - 12);
                }
                before = each;
            }
        }
    }

    /** "TO or FROM" is no question on an arc: which way round is. */
    @Test
    void theWrongWayRoundItIsAnswered() {
        Position start = AAA.destination(new TrueDirection(JOINED), ARC_NM + 6);
        ClosedFormFlight flight =
                new ClosedFormFlight(start, start.to(AAA).initial().deg(), KT, Ocean.CALM);
        flight.miles(6 - flight.radiusNm());
        for (int i = 0; i < 3; i++) {
            flight.turnTo(bearing(flight) - 90);
        }
        flight.turn(-40, Math.toDegrees(KT / 3600 / AAA.distanceNm(flight.end().position())));
        assertThat(fly(flight, 1).grade().faults())
                .filteredOn(fault -> fault.code() == FaultCode.WRONG_DIRECTION)
                .singleElement()
                .satisfies(fault -> assertThat(fault.text())
                        .contains("which way round the arc")
                        .doesNotContain("TO or FROM"));
    }
}
