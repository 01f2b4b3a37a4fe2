package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.io.ChartReader;
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
import org.junit.jupiter.params.provider.ValueSource;

/**
 * A turn from a radial onto an airway begun early or late, and the new course flown beside the airway to the end. Begun x from its
 * lead R tan(turn / 2) it ends x sin(turn) beside it (plane geometry). That is what it costs by, whatever the angle: three
 * quarters of the scale, 1.5 NM, are the limit (FAA-S-ACS-8C, IR.V.A.S6).
 */
class CornerTest {

    private static final Position FIX = new Position(30.0, -44.4);
    private static final Position STATION = FIX.destination(new TrueDirection(270), 30);
    private static final GeodesicLine RADIAL = GeodesicLine.between(STATION, FIX);

    private static Position onAirway(double turnDeg, double nm) {
        double course = nm < 0 ? 270 + turnDeg : 90 + turnDeg;
        return FIX.destination(new TrueDirection(Angles.circle(course)), Math.abs(nm));
    }

    /** The airway crosses the radial at the fix, at an angle. */
    private static Chart chart(double turnDeg) throws IOException {
        Position first = onAirway(turnDeg, -60);
        Position last = onAirway(turnDeg, 60);
        String yaml = String.format(
                Locale.ROOT,
                """
                name: invented
                stations:
                  - {ident: AAA, name: Alpha, kind: VORTAC, class: H, frequency_mhz: 113.4, latitude_deg: %.9f, longitude_deg: %.9f, declination_deg: %.6f, elevation_ft: 0}
                fixes:
                  - {ident: BENDA, latitude_deg: %.9f, longitude_deg: %.9f}
                  - {ident: BENDB, latitude_deg: %.9f, longitude_deg: %.9f}
                  - {ident: BENDC, latitude_deg: %.9f, longitude_deg: %.9f}
                airports:
                  - {ident: XNOR, name: North, latitude_deg: 31.2, longitude_deg: -46.2, elevation_ft: 0}
                  - {ident: XSOU, name: South, latitude_deg: 28.9, longitude_deg: -42.2, elevation_ft: 0}
                airways:
                  - {ident: V50, points: [BENDA, BENDB, BENDC], minimum_altitude_ft: 3000}
                """,
                STATION.latitudeDeg(),
                STATION.longitudeDeg(),
                RADIAL.courseAt(0).deg() - 102,
                first.latitudeDeg(),
                first.longitudeDeg(),
                FIX.latitudeDeg(),
                FIX.longitudeDeg(),
                last.latitudeDeg(),
                last.longitudeDeg());
        return ChartReader.read(new ByteArrayInputStream(yaml.getBytes(StandardCharsets.UTF_8)), "corner.yaml")
                .chart();
    }

    /** Onto the radial, and along it until so far from the fix. */
    private static ClosedFormFlight toFix(double kt, ToDoubleFunction<ClosedFormFlight> shortNm) {
        Position meets = RADIAL.pointAt(12);
        Position start = meets.destination(new TrueDirection(RADIAL.courseAt(12).deg() + 40 + 180), 5);
        ClosedFormFlight flight =
                new ClosedFormFlight(start, start.to(meets).initial().deg(), kt, Ocean.CALM);
        flight.miles(5 - flight.radiusNm() * Math.tan(Math.toRadians(20)));
        flight.turnTo(RADIAL.courseAt(12).deg());
        return flight.miles(RADIAL.lengthNm()
                - shortNm.applyAsDouble(flight)
                - RADIAL.offset(flight.end().position()).alongTrackNm());
    }

    private static Flown flown(ClosedFormFlight flight, double turnDeg) throws IOException {
        return flown(flight.sample(1), turnDeg);
    }

    private static Flown flown(List<AircraftState> states, double turnDeg) throws IOException {
        String say = String.format(
                Locale.ROOT,
                "fly heading %03d, intercept the AAA 102 radial, join V50, then as filed",
                Ocean.magneticHeading(states.get(0)));
        return Flown.fly(states, List.of(Ocean.at(2, say, 6000)), "XNOR DCT BENDA V50 BENDC DCT XSOU", chart(turnDeg));
    }

    /** The turn begun so far before its lead, less than nothing after it; then on beside the airway, or back to it. */
    private static Flown turning(double turnDeg, double earlyNm, double kt, boolean back) throws IOException {
        GeodesicLine airway = GeodesicLine.between(FIX, onAirway(turnDeg, 60));
        double ofRadius = Math.tan(Math.toRadians(turnDeg / 2));
        ClosedFormFlight flight = toFix(kt, at -> at.radiusNm() * ofRadius + earlyNm);
        double radiusNm = flight.radiusNm();
        flight.turnTo(airway.courseAt(0).deg());
        if (back) {
            double offNm = airway.offset(flight.end().position()).crossTrackNm();
            double straightNm =
                    Math.abs(offNm) / Math.sin(Math.toRadians(30)) - 2 * radiusNm * Math.tan(Math.toRadians(15));
            flight.turn(-Math.copySign(30, offNm)).miles(Math.max(0, straightNm));
            flight.turnTo(airway.offset(flight.end().position()).course().deg());
        }
        return flown(flight.seconds(400), turnDeg);
    }

    /** The turn at the fix made by so many degrees, led as such a turn is, and straight on. */
    private static Flown made(double turnDeg, double madeDeg, double seconds) throws IOException {
        return made(turnDeg, madeDeg, madeDeg, seconds);
    }

    /** The same, led as a turn of another angle is. */
    private static Flown made(double turnDeg, double ledDeg, double madeDeg, double seconds) throws IOException {
        double ofRadius = Math.tan(Math.toRadians(Math.min(ledDeg, Turn.SHARPEST_LED_DEG) / 2));
        return flown(toFix(120, at -> at.radiusNm() * ofRadius).turn(madeDeg).seconds(seconds), turnDeg);
    }

    /** A quarter of a mile makes no more than ten points, and nothing is lost by flying better but what noise there is. */
    @ParameterizedTest
    @CsvSource({
        "20, 120",
        "40, 120",
        "60, 120",
        "80, 120",
        "100, 120",
        "120, 120",
        "80, 90",
        "40, 200",
        "70, 200",
        "90, 250"
    })
    void theFartherBesideTheAirwayTheLessItEarns(double turnDeg, double kt) throws IOException {
        for (int way : new int[] {1, -1}) {
            double before = 100;
            for (double nm = 0; nm <= 3; nm += 0.25) {
                Flown flown = turning(turnDeg, way * nm, kt, false);
                String as = String.format(Locale.ROOT, "%.2f NM: %s %s", way * nm, flown.grade(), flown.events());
                double besideNm = nm * Math.sin(Math.toRadians(turnDeg));
                assertThat(before - flown.score()).as(as).isBetween(-0.7, 10.0);
                assertThat(flown.criterion("FIX").judged()).as(as).isTrue();
                if (way > 0) {
                    assertThat(flown.faults()).as(as).doesNotContain(FaultCode.SEQUENCE_MISSED);
                }
                if (besideNm < 0.8 && way > 0) {
                    assertThat(flown.grade().verdict()).as(as).isEqualTo(Verdict.MET);
                } else if (besideNm > 1.6) {
                    assertThat(flown.grade().verdict()).as(as).isEqualTo(Verdict.NOT_MET);
                    assertThat(flown.faults()).as(as).hasSize(1);
                }
                before = flown.score();
            }
        }
    }

    /** As far beside is as bad, at any angle: what is cut of the corner differs, and so does the fix. */
    @Test
    void asFarBesideIsAsBadAtAnyAngle() throws IOException {
        for (double besideNm : new double[] {0.8, 1.4, 1.9}) {
            double least = 100;
            double most = 0;
            for (double turnDeg = 50; turnDeg <= 110; turnDeg += 20) {
                double score = turning(turnDeg, besideNm / Math.sin(Math.toRadians(turnDeg)), 120, false)
                        .score();
                least = Math.min(least, score);
                most = Math.max(most, score);
            }
            assertThat(most - least).as("%.1f NM beside it", besideNm).isLessThan(6);
        }
    }

    /** Who came back to the airway is never graded worse than who stayed beside it. */
    @ParameterizedTest
    @ValueSource(doubles = {40, 70, 100})
    void whoComesBackToTheAirwayIsNotGradedWorse(double turnDeg) throws IOException {
        for (double nm : new double[] {-2.5, -1, 1, 2, 3}) {
            Flown back = turning(turnDeg, nm, 120, true);
            assertThat(back.all(FlightEvent.AirwayJoined.class)).hasSize(1);
            assertThat(back.score())
                    .as("%.1f NM: %s", nm, back.grade())
                    .isGreaterThan(turning(turnDeg, nm, 120, false).score() - 0.5);
        }
    }

    /** Turned 3 NM too early and back to the airway by the old course: the fix is passed, and the turn there was made before. */
    @Test
    void whoTurnedTooEarlyHasNotFlownOnPastTheFix() throws IOException {
        Flown flown = turning(40, 3, 120, true);
        assertThat(flown.all(FlightEvent.SequenceMissed.class)).isEmpty();
        assertThat(flown.all(FlightEvent.FixSequenced.class)).hasSize(1);
        assertThat(flown.faults()).isEmpty();
    }

    /** On beside the airway for eleven minutes is not on it: the fault says how far beside. */
    @Test
    void whoNeverJoinsTheAirwayIsToldHowFarBesideItHeWent() throws IOException {
        Flown flown = turning(90, -2.5, 250, false);
        assertThat(flown.grade().faults())
                .as("%s", flown.grade())
                .singleElement()
                .satisfies(fault -> {
                    assertThat(fault.text()).contains("did not join V50, and went along 2.5 NM beside it");
                    // Once to twice full scale, 2 to 4 NM.
                    assertThat(fault.severity()).isCloseTo(0.33, Offset.offset(0.05));
                });
        assertThat(flown.criterion("COURSE").measured()).isCloseTo(2.5, Offset.offset(0.1));
    }

    /**
     * Turned by another angle than the route turns he goes away from the airway, and has not joined it. The next angle costs no
     * step (verdicts.md, principle 3: 12 points for 2 degrees), down to no turn at all, which has another name.
     */
    @ParameterizedTest
    @CsvSource({"40, 600", "60, 200", "80, 600"})
    void theFartherFromTheAngleOfTheRouteHeTurnsTheLessItEarns(double turnDeg, double seconds) throws IOException {
        for (int way : new int[] {1, -1}) {
            double before = 100;
            // Flown on for 200 s the missed turn is not yet as grave as it can be.
            for (double off = 0; off <= turnDeg - (way > 0 || seconds > 300 ? 0 : 15); off += 2) {
                Flown flown = made(turnDeg, turnDeg + way * off, seconds);
                String as = String.format(
                        Locale.ROOT, "made %.0f: %s %s", turnDeg + way * off, flown.grade(), flown.events());
                assertThat(before - flown.score()).as(as).isBetween(-0.5, 12.0);
                before = flown.score();
            }
        }
    }

    /** 12 or 14 degrees short of it he goes away from the airway: as grave as he is far beside it in the end. */
    @ParameterizedTest
    @ValueSource(doubles = {64, 66, 68})
    void whoGoesAwayALittleIsFarBesideItInTheEnd(double madeDeg) throws IOException {
        double near = made(80, madeDeg, 200).score();
        assertThat(made(80, madeDeg, 600).score()).isLessThan(near - 3).isLessThan(87);
        // Never more than who turned less well.
        assertThat(made(80, madeDeg, 400).score())
                .isBetween(made(80, madeDeg, 600).score() - 0.5, near + 0.5);
    }

    /** Turned round short of the fix and flown back beside the radial, 1.3 NM off it or across it: no wander. */
    @ParameterizedTest
    @CsvSource({"180, 600", "180, 60", "190, 60", "210, 60", "230, 60"})
    void whoTurnsRoundAndFliesBackBesideTheCourseHasLeftIt(double madeDeg, double seconds) throws IOException {
        Flown flown = made(100, madeDeg, seconds);
        assertThat(flown.faults()).as("%s", flown.grade()).containsExactly(FaultCode.ROUTE_LEFT);
        assertThat(flown.score()).isLessThan(60);
    }

    /** A few degrees the other way is farther from the airway than none. */
    @ParameterizedTest
    @CsvSource({"40, 600", "80, 600", "40, 60"})
    void aLittleTheWrongWayEarnsNoMoreThanNoTurn(double turnDeg, double seconds) throws IOException {
        double none = made(turnDeg, 0, seconds).score();
        for (double wrongDeg = 2; wrongDeg <= 14; wrongDeg += 2) {
            assertThat(made(turnDeg, -wrongDeg, seconds).score())
                    .as("%.0f the wrong way", wrongDeg)
                    .isLessThan(none + 0.5);
        }
    }

    /** 40 degrees the wrong way, or 190 on past the airway, and straight on for ten minutes: no better than 30 or 170. */
    @Test
    void whoTurnsWrongAndNeverComesBackIsGradedByWhatCameOfIt() throws IOException {
        for (double[] pair : new double[][] {{80, -30, -40}, {40, 210, 230}, {60, 220, 250}}) {
            Flown wrong = made(pair[0], pair[0], pair[2], 600);
            assertThat(wrong.faults()).as("%s", wrong.grade()).containsExactly(FaultCode.WRONG_TURN);
            assertThat(wrong.score())
                    .isLessThan(made(pair[0], pair[0], pair[1], 600).score() + 0.5);
        }
    }

    /** The same wrong turn, and on the way back to the airway when the lesson ends after three minutes: he is held to the turn. */
    @Test
    void whoIsOnHisWayBackWhenTheLessonEndsIsGradedByHisTurn() throws IOException {
        Flown back = flown(
                toFix(120, at -> at.radiusNm() * Math.tan(Math.toRadians(40)))
                        .turn(-45)
                        .seconds(60)
                        .turn(165)
                        .seconds(60),
                80);
        assertThat(back.faults()).as("%s", back.grade()).containsExactly(FaultCode.WRONG_TURN);
        // 30 to 60 degrees.
        assertThat(back.grade().faults().get(0).severity()).isCloseTo(0.5, Offset.offset(0.05));
    }

    /** 15 degrees of 40: he goes away from the airway, and how near he was to it at the fix does not count. */
    @Test
    void whoMakesHalfOfTheTurnHasNotGoneAlongTheAirway() throws IOException {
        Flown half = made(40, 15, 600);
        assertThat(half.score()).as("%s", half.grade()).isLessThan(76);
        assertThat(made(80, 45, 600).score()).isLessThan(56);
        assertThat(half.criterion("COMPLETED").points()).isLessThan(6);
    }

    /** Turned 68 degrees instead of 40, and back past the airway: he is where he is last, not where he crossed it. */
    @Test
    void whoCrossesTheAirwayAndGoesAlongFarBesideItIsFarBesideIt() throws IOException {
        ClosedFormFlight flight = toFix(120, at -> 0)
                .turn(68)
                .miles(6)
                .turn(-56)
                .miles(15)
                .turn(28)
                .miles(4);
        Flown flown = flown(flight, 40);
        assertThat(flown.faults()).as("%s", flown.grade()).containsExactly(FaultCode.NOT_ACHIEVED);
        assertThat(flown.grade().faults().get(0).severity()).isGreaterThan(0.5);
    }

    /** By the radial to the fix and back out beside it: to the left or to the right, and 30 degrees more to come back to it. */
    @ParameterizedTest
    @ValueSource(doubles = {176, 178, -178, -176})
    void halfATurnIsMadeToEitherSide(double turnDeg) throws IOException {
        for (int way : new int[] {1, -1}) {
            ClosedFormFlight flight = toFix(120, at -> 0).turn(way * 180).miles(0.5);
            flight.turn(way * 30).miles(2.1).turn(-way * 30).seconds(60);
            Flown flown = flown(flight, turnDeg);
            assertThat(flown.faults())
                    .as("%s %s", flown.grade(), flown.events())
                    .isEmpty();
        }
    }

    /**
     * Cut the corner by 2 NM, back to the airway with 30 degrees, and the recording ends, sooner or later: flown on he joins it, so
     * that he had not joined it yet is no fault.
     */
    @Test
    void theEndOfARecordingMakesNoFaultForWhoIsNearlyOnTheAirway() throws IOException {
        GeodesicLine airway = GeodesicLine.between(FIX, onAirway(80, 60));
        ClosedFormFlight flight = toFix(120, at -> at.radiusNm() * Math.tan(Math.toRadians(40)) + 2);
        flight.turnTo(airway.courseAt(0).deg());
        double offNm = Math.abs(airway.offset(flight.end().position()).crossTrackNm());
        flight.turn(-30)
                .miles(offNm / Math.sin(Math.toRadians(30)) - flight.radiusNm() * 2 * Math.tan(Math.toRadians(15)));
        double joinsS = flight.endS();
        flight.turnTo(airway.courseAt(0).deg()).seconds(60);
        Flown joined = flown(flight, 80);
        assertThat(joined.all(FlightEvent.AirwayJoined.class)).isNotEmpty();
        for (double endS = joinsS - 40; endS < joinsS + 20; endS += 2) {
            double lastS = endS;
            Flown ended = flown(
                    flight.sample(1).stream()
                            .filter(state -> state.timeS() <= lastS)
                            .toList(),
                    80);
            assertThat(ended.faults())
                    .as("%.0f s: %s", endS - joinsS, ended.events())
                    .doesNotContain(FaultCode.NOT_ACHIEVED);
        }
    }
}
