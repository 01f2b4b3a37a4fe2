package org.rejoin.bridge.tracker;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;

import org.rejoin.bridge.flight.EventKind;
import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.bridge.ocean.ClosedFormFlight;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.bridge.ocean.Ocean.Leg;
import org.rejoin.protocol.AircraftState;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Each fault just inside and just outside its definition, on flights in closed form. The definitions are those of
 * bridge/docs/tracker.md; where that page names no source there is none.
 */
class FaultDefinitionsTest {

    static List<FaultCode> faults(Leg leg) {
        return fly(leg).faults();
    }

    static Flown fly(Leg leg) {
        return Flown.fly(leg.flight.sample(2));
    }

    static Leg from(double angle, int side) {
        return Ocean.toRadial(angle, side, 120, Ocean.CALM);
    }

    @ParameterizedTest
    @CsvSource({
        "30, -1, 90, 0, 0", "45, 1, 120, 0, 0", "60, -1, 180, 0, 0", "90, 1, 120, 0, 0", "90, -1, 180, 0, 0",
        "30, 1, 120, 240, 25", "45, -1, 90, 10, 20", "60, 1, 120, 130, 30", "90, -1, 90, 300, 20", "45, 1, 180, 90, 40",
        "60, -1, 250, 0, 0", "90, 1, 300, 0, 0"
    })
    void aSoundLeadHasNone(double angle, int side, double kt, double windFrom, double windKt) {
        Wind wind = new Wind(new TrueDirection(windFrom), windKt);
        Leg leg = Ocean.toRadial(angle, side, kt, wind).toLead().turnOn().asCleared();
        for (var times : List.of(leg.flight.times(1), leg.flight.times(10))) {
            for (boolean noisy : new boolean[] {false, true}) {
                var noise = noisy ? ClosedFormFlight.Noise.usual(7) : ClosedFormFlight.Noise.NONE;
                Flown flown = Flown.fly(leg.flight.sample(times, noise), wind);
                assertThat(flown.faults()).as("%s %s", noisy, flown.events()).isEmpty();
                assertThat(flown.all(FlightEvent.AmendmentComplete.class)).hasSize(1);
            }
        }
    }

    /** 45 degrees at 120 kt: half a mile past the line 21 s after it; 10 s is the time to begin the turn. */
    @ParameterizedTest
    @CsvSource({
        "45, 9, false",
        "45, 14, true",
        "16, 9, false",
        "16, 70, true",
        "14, 70, false",
        "120, 9, false",
        "120, 10.8, true",
        "60, 9, false",
        "60, 10.8, true"
    })
    void flownThrough(double angle, double seconds, boolean fault) {
        Leg leg = from(angle, -1).toCourse(seconds).turnOn();
        leg.flight.seconds(12);
        leg.sidestep().asCleared();
        Flown flown = fly(leg);
        assertThat(flown.faults().contains(FaultCode.FLOWN_THROUGH))
                .as("%s", flown.events())
                .isEqualTo(fault);
        if (fault) {
            assertThat(flown.faults()).containsExactly(FaultCode.FLOWN_THROUGH);
        }
    }

    /** A turn begun 12 s after the line and over before half a mile is late, and not flown through. */
    @Test
    void flownThroughNeedsToBeCarriedPastTheLimit() {
        Leg leg = Ocean.toRadial(20, -1, 90, Ocean.CALM).toCourse(14).turnOn();
        leg.flight.seconds(10);
        Flown flown = fly(leg.sidestep().asCleared());
        assertThat(flown.faults()).as("%s", flown.events()).isEmpty();
        assertThat(flown.all(FlightEvent.Overshoot.class)).hasSize(1);
    }

    /** A turn of a degree a second begun 18 s before the line at 60 degrees: late, not "did not turn". */
    @Test
    void aTurnBegunBeforeTheLineThatEndsLateIsAnOvershoot() {
        Leg leg = from(60, -1);
        leg.flight.miles(6 - 18 * 120 / 3600.0);
        leg.flight.turn(-60, 0.8).seconds(12);
        Flown flown = fly(leg.turnOn().sidestep().asCleared());
        assertThat(flown.faults()).as("%s", flown.events()).doesNotContain(FaultCode.FLOWN_THROUGH);
        assertThat(flown.all(FlightEvent.Overshoot.class)).hasSize(1);
    }

    /** The nose turned toward the course for a moment and swung back: a gust, no turn. */
    @Test
    void aGustIsNoTurn() {
        Leg leg = from(45, -1).toCourse(60);
        leg.flight.noseOff(t -> t > 182 && t < 188 ? -9 * Math.sin(Math.PI * (t - 182) / 6) : 0);
        Flown flown = fly(leg.turnOn().sidestep().asCleared());
        assertThat(flown.faults()).as("%s", flown.events()).contains(FaultCode.FLOWN_THROUGH);
    }

    @ParameterizedTest
    @CsvSource({"170, 60, 0.5, false", "170, 60, 1.5, true", "120, 90, 0, true", "120, 45, 9, false"})
    void overshoot(double kt, double angle, double late, boolean fault) {
        Leg leg = Ocean.toRadial(angle, 1, kt, Ocean.CALM).toCourse(late).turnOn();
        leg.flight.seconds(12);
        assertThat(faults(leg.sidestep().asCleared())).isEqualTo(fault ? List.of(FaultCode.OVERSHOOT) : List.of());
    }

    /** Carried R (1 - cos a) past the line, and V sin(a) a second of delay more. */
    @ParameterizedTest
    @CsvSource({"90, 30, 0", "90, 45, 5", "120, 30, 8", "120, 60, 3", "180, 45, 6", "180, 90, 2"})
    void overshootHasItsClosedForm(double kt, double angle, double late) {
        for (double hz : new double[] {1, 10}) {
            Leg leg = Ocean.toRadial(angle, -1, kt, Ocean.CALM).toCourse(late).turnOn();
            double a = Math.toRadians(angle);
            double expected = leg.flight.radiusNm() * (1 - Math.cos(a)) + late * kt * Math.sin(a) / 3600;
            leg.flight.seconds(12);
            leg.sidestep().asCleared();
            var overshoots = Flown.fly(leg.flight.sample(hz)).all(FlightEvent.Overshoot.class);
            if (expected < 0.1) {
                assertThat(overshoots).isEmpty();
            } else {
                assertThat(overshoots).hasSize(1);
                assertThat(overshoots.get(0).maxCrossTrackNm()).isCloseTo(expected, Offset.offset(0.002));
            }
        }
    }

    /** Established 5 s after the mean track came within 10 degrees, not turning then: rolled out for some 3 s or more. */
    @ParameterizedTest
    @CsvSource({"1, false", "6.5, true"})
    void established(double seconds, boolean achieved) {
        Leg leg = from(45, -1).toLead().turnOn();
        leg.flight.seconds(seconds).turn(-60);
        assertThat(!fly(leg).all(FlightEvent.InterceptAchieved.class).isEmpty()).isEqualTo(achieved);
    }

    /** Parallel between half and three quarters of the scale (2 NM): good enough after half a minute. */
    @ParameterizedTest
    @CsvSource({"1.45, 12, false", "1.45, 36, true", "1.55, 60, false"})
    void establishedLoosely(double offNm, double seconds, boolean achieved) {
        Leg leg = from(45, -1);
        double a = Math.toRadians(45);
        leg.flight.miles(6 - leg.flight.radiusNm() * Math.tan(a / 2) - offNm / Math.sin(a));
        leg.turnOn().flight.seconds(seconds).turn(-90);
        assertThat(!fly(leg).all(FlightEvent.InterceptAchieved.class).isEmpty())
                .as("%s", fly(leg).events())
                .isEqualTo(achieved);
    }

    /** Closing at 20 degrees through the outer half of the scale is going across the course, not along it. */
    @Test
    void closingOnTheCourseIsNotGoingAlongIt() {
        Leg leg = Ocean.toRadial(20, -1, 90, Ocean.CALM).toLead();
        double turnS = leg.flight.endS();
        leg.turnOn().asCleared();
        assertThat(fly(leg).all(FlightEvent.InterceptAchieved.class).get(0).timeS())
                .isGreaterThan(turnS);
    }

    @ParameterizedTest
    @CsvSource({"1.2, 8, false", "1.2, 20, true", "0.9, 40, false", "1.1, 20, true"})
    void turnedEarly(double shortNm, double seconds, boolean fault) {
        Leg leg = from(45, -1);
        double radius = leg.flight.radiusNm();
        double a = Math.toRadians(45);
        leg.flight.miles(6 - radius * Math.tan(a / 2) - shortNm / Math.sin(a));
        leg.turnOn().flight.seconds(seconds);
        leg.sidestep().asCleared();
        Flown flown = fly(leg);
        assertThat(flown.faults())
                .as("%s", flown.events())
                .isEqualTo(fault ? List.of(FaultCode.TURNED_EARLY) : List.of());
    }

    /** Rolled out on the reciprocal for some seconds; the way round through it is a part of the turn. */
    @ParameterizedTest
    @CsvSource({"5, 12, false", "5, 20, true", "25, 1, false", "5, 0, false"})
    void wrongDirection(double offReciprocal, double seconds, boolean fault) {
        Leg leg = from(60, 1);
        double radius = leg.flight.radiusNm();
        // A lead for the long way round.
        leg.flight.miles(6 - radius / Math.tan(Math.toRadians(30)));
        leg.flight.turn(-(120 - offReciprocal)).seconds(seconds);
        leg.flight.turn(offReciprocal > 20 ? 120 - offReciprocal : -(180 + offReciprocal));
        leg.turnOn();
        leg.flight.seconds(12);
        leg.sidestep().asCleared();
        Flown flown = fly(leg);
        assertThat(flown.faults().contains(FaultCode.WRONG_DIRECTION))
                .as("%s", flown.events())
                .isEqualTo(fault);
        assertThat(flown.faults()).doesNotContain(FaultCode.HEADING_NOT_HELD);
    }

    @ParameterizedTest
    @CsvSource({"90, true", "33, true", "27, false"})
    void wrongTurn(double left, boolean fault) {
        Leg leg = from(45, -1).toLead().turnOn().toFixLessNm(0.5);
        leg.flight.turn(-left).seconds(5);
        leg.ontoAirway().flight.seconds(30);
        assertThat(faults(leg).contains(FaultCode.WRONG_TURN)).isEqualTo(fault);
    }

    /** The airway flown back the wrong way is where the wrong turn led: one mistake, one fault. */
    @Test
    void theReciprocalAfterAWrongTurnIsNoSecondFault() {
        Leg leg = from(45, -1).toLead().turnOn().toFixLessNm(0.3);
        double wrongWay = Ocean.V40.offset(leg.flight.end().position()).course().deg() + 180;
        leg.flight.turn(-40).turnTo(wrongWay).seconds(60);
        Flown flown = Flown.fly(leg.flight.sample(2));
        assertThat(flown.names()).contains("wrong_turn", "wrong_direction");
        assertThat(flown.faults()).contains(FaultCode.WRONG_TURN).doesNotContain(FaultCode.WRONG_DIRECTION);
    }

    @ParameterizedTest
    @CsvSource({"22, false", "28, true", "50, true", "0, false"})
    void sequenceMissed(double after, boolean fault) {
        Leg leg = from(45, -1).toLead().turnOn().toFixLessNm(0);
        leg.flight.seconds(after);
        leg.ontoAirway();
        assertThat(faults(leg).contains(FaultCode.SEQUENCE_MISSED)).isEqualTo(fault);
    }

    @ParameterizedTest
    @CsvSource({"8, -12, false", "11, -12, true", "8, 12, false", "11, 12, true", "60, 8, false"})
    void headingNotHeld(double seconds, double off, boolean fault) {
        Leg leg = new Leg(45, -1, 120, Ocean.CALM, 9);
        leg.flight.seconds(30).turn(off).seconds(seconds).turn(-off).seconds(10);
        // Back on the heading, beside the planned line: the lead is counted from where it now meets the course.
        double toLine = Math.abs(leg.crossNm()) / Math.sin(Math.toRadians(45));
        leg.flight.miles(toLine - leg.flight.radiusNm() * Math.tan(Math.toRadians(22.5)));
        leg.turnOn().asCleared();
        Flown flown = fly(leg);
        assertThat(flown.faults())
                .as("%s", flown.events())
                .isEqualTo(fault ? List.of(FaultCode.HEADING_NOT_HELD) : List.of());
    }

    /** Off the heading toward the course, ten miles before it: not the turn onto it, and judged until it is. */
    @Test
    void aHeadingLeftFarFromTheLineIsJudged() {
        Leg leg = new Leg(60, -1, 120, Ocean.CALM, 14);
        leg.flight.seconds(60).turn(-25).seconds(60);
        double toLine = Math.abs(leg.crossNm()) / Math.sin(Math.toRadians(35));
        leg.flight.miles(toLine - leg.flight.radiusNm() * Math.tan(Math.toRadians(17.5)));
        leg.turnOn();
        leg.flight.seconds(30);
        Flown flown = fly(leg);
        assertThat(flown.faults()).as("%s", flown.events()).containsExactly(FaultCode.HEADING_NOT_HELD);
        assertThat(flown.all(FlightEvent.HeadingDeviationBegan.class)).hasSize(1);
        assertThat(flown.all(FlightEvent.HeadingDeviationEnded.class)).hasSize(1);
    }

    /** A compass in whole degrees, and a pilot who stays on the old heading: 10 degrees off is within 10 degrees. */
    @Test
    void aHeadingOnTheLimitIsNoDeviationHoweverLong() {
        Leg leg = new Leg(45, -1, 120, Ocean.CALM, 9);
        leg.flight.seconds(90);
        List<AircraftState> straight = leg.flight.sample(5);
        int flown = Ocean.magneticHeading(straight.get(0));
        String tenOff = String.format(
                Locale.ROOT, "fly heading %03d, intercept the AAA 102 radial, join V40, then as filed", flown + 10);
        List<AircraftState> sent = straight.stream()
                .map(state -> Ocean.sendingMagnetic(state, OptionalDouble.of(flown)))
                .toList();
        Flown told = Flown.fly(sent, Ocean.CALM, Rules.STANDARD, List.of(Ocean.at(2, tenOff, 6000)));
        assertThat(told.all(FlightEvent.HeadingDeviationBegan.class)).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({"120, 2", "120, 5", "-120, 5"})
    void altitudeLeft(double off, double seconds) {
        Leg leg = from(45, 1).toLead().turnOn().asCleared();
        double ramp = Math.abs(off) / 20;
        leg.flight.altitude(t -> 6000
                + Math.signum(off) * 20 * Math.max(0, Math.min(ramp, Math.min(t - 40, 40 + 2 * ramp + seconds - t))));
        Flown flown = fly(leg);
        // 20 ft a second: 100 ft off one second before the top, and one second after it.
        assertThat(flown.all(FlightEvent.AltitudeDeviationEnded.class).get(0).timeS()
                        - flown.all(FlightEvent.AltitudeDeviationBegan.class)
                                .get(0)
                                .timeS())
                .isCloseTo(seconds + 2, Offset.offset(1e-6));
        assertThat(flown.all(FlightEvent.AltitudeDeviationEnded.class).get(0).errorFt())
                .isCloseTo(off, Offset.offset(1e-6));
    }

    @ParameterizedTest
    @CsvSource({"99, false", "101, true", "-99, false", "-101, true"})
    void altitude(double off, boolean told) {
        Leg leg = from(45, 1).toLead().turnOn().asCleared();
        leg.flight.altitude(t -> t < 60 ? 6000 : 6000 + off);
        assertThat(faults(leg).contains(FaultCode.ALTITUDE_NOT_HELD)).isEqualTo(told);
    }

    /** A thousand feet at 1,000 ft a minute to a lead of 100 ft, then with a time constant of 6 s: nothing to say. */
    @ParameterizedTest
    @CsvSource({"500", "1000", "1500"})
    void aSoundLevelOffIsNoDeviation(double fpm) {
        Leg leg = from(45, 1).toLead().turnOn().asCleared();
        double lead = fpm / 10;
        double toLeadS = 12 + (1000 - lead) / fpm * 60;
        leg.flight.altitude(t ->
                t < 12 ? 5000 : t < toLeadS ? 5000 + (t - 12) * fpm / 60 : 6000 - lead * Math.exp(-(t - toLeadS) / 6));
        Flown flown = fly(leg);
        assertThat(flown.faults()).as("%s", flown.events()).isEmpty();
    }

    /** Levelled off 150 ft short: told when the level-off should have been over, not a minute and a half later. */
    @Test
    void levelledOffShortIsToldWhenTheLevelOffShouldBeOver() {
        Leg leg = from(45, 1).toLead().turnOn().asCleared();
        leg.flight.altitude(t -> t < 12 ? 5000 : Math.min(5850, 5000 + (t - 12) * 1000 / 60));
        Flown flown = fly(leg);
        // Within 200 ft at 60 s, 100 ft more to the lead take 6 s, three time constants 18 s.
        assertThat(flown.all(FlightEvent.AltitudeDeviationBegan.class))
                .singleElement()
                .satisfies(began -> assertThat(began.timeS()).isCloseTo(84, Offset.offset(0.5)));
    }

    /** Climbed through it without levelling off: the far side counts at once. */
    @Test
    void climbedThroughIsToldAHundredFeetAbove() {
        Leg leg = from(45, 1).toLead().turnOn().asCleared();
        leg.flight.altitude(t -> t < 12 ? 5000 : Math.min(6400, 5000 + (t - 12) * 1000 / 60));
        assertThat(fly(leg).all(FlightEvent.AltitudeDeviationBegan.class))
                .singleElement()
                .satisfies(began -> assertThat(began.timeS()).isCloseTo(12 + 66, Offset.offset(0.1)));
    }

    @ParameterizedTest
    @CsvSource({"12, 3, true", "12, 2, false", "4.5, 5, false"})
    void weaving(double deg, int crossings, boolean fault) {
        Leg leg = from(30, -1).toLead().turnOn();
        leg.flight.seconds(10);
        double side = 1;
        leg.flight.turn(deg).seconds(30);
        for (int i = 0; i < crossings; i++) {
            leg.flight.turn(-2 * side * deg);
            side = -side;
            leg.flight.seconds(i == crossings - 1 ? 33 : 60);
        }
        leg.turnOn().sidestep().asCleared();
        Flown flown = fly(leg);
        assertThat(flown.faults()).as("%s", flown.events()).isEqualTo(fault ? List.of(FaultCode.WEAVING) : List.of());
    }

    /** The nose swings by 30 degrees, the aircraft stays within a tenth of a mile of full scale 2 NM: gusts. */
    @Test
    void whatNoInstrumentShowsIsNoWeaving() {
        Leg leg = from(30, -1).toLead().turnOn();
        leg.flight.seconds(10);
        double side = 1;
        leg.flight.turn(15).seconds(2);
        for (int i = 0; i < 8; i++) {
            leg.flight.turn(-2 * side * 15).seconds(4);
            side = -side;
        }
        leg.turnOn().sidestep().asCleared();
        assertThat(faults(leg)).isEmpty();
    }

    /** Off the radial seven miles before the fix. */
    @ParameterizedTest
    @CsvSource({"35, 28, true", "35, 15, false", "27, 60, false"})
    void routeLeft(double off, double seconds, boolean fault) {
        Leg leg = from(45, -1).toLead().turnOn();
        leg.toFixLessNm(8);
        leg.flight.turn(-off).seconds(seconds).turn(off);
        leg.sidestep().asCleared();
        Flown flown = fly(leg);
        assertThat(flown.faults().contains(FaultCode.ROUTE_LEFT))
                .as("%s", flown.events())
                .isEqualTo(fault);
    }

    /** Within the lead and half a mile of the fix the route is not left, the turn is made. */
    @Test
    void aTurnAtTheFixLeavesNothing() {
        Leg leg = from(45, -1).toLead().turnOn();
        leg.toFixLessNm(leg.flight.radiusNm() + 0.4).ontoAirway();
        assertThat(faults(leg)).doesNotContain(FaultCode.ROUTE_LEFT);
    }

    /** Left by more than full scale, and back: one mistake, told once; the way back is not another. */
    @Test
    void theWayBackFromAMistakeIsNoSecondOne() {
        Leg leg = from(45, -1).toCourse(40);
        leg.flight.seconds(10).turn(-90).seconds(20);
        double toLine = Math.abs(leg.crossNm()) / Math.sin(Math.toRadians(45));
        leg.flight.miles(toLine).seconds(30);
        Flown flown = fly(leg.turnOn().sidestep().asCleared());
        assertThat(flown.faults()).as("%s", flown.events()).containsExactly(FaultCode.FLOWN_THROUGH);
    }

    @Test
    void whatWasNotDueIsNotJudged() {
        Leg leg = from(45, -1).toLead().turnOn();
        leg.toFixLessNm(2);
        Flown flown = fly(leg);
        assertThat(flown.faults()).isEmpty();
        assertThat(flown.names()).contains(EventKind.AMENDMENT_NOT_DUE.logName());
    }

    /** A minute past the fix, or past the line, it was due. */
    @ParameterizedTest
    @CsvSource({"55, false", "66, true"})
    void notAchieved(double seconds, boolean due) {
        Leg leg = from(45, -1).toCourse(0);
        leg.flight.seconds(seconds);
        assertThat(fly(leg).names().contains(EventKind.AMENDMENT_NOT_ACHIEVED.logName()))
                .isEqualTo(due);
        Leg past = from(45, -1).toLead().turnOn().toFixLessNm(0);
        past.flight.seconds(seconds);
        assertThat(fly(past).names().contains(EventKind.AMENDMENT_NOT_ACHIEVED.logName()))
                .isEqualTo(due);
    }
}
