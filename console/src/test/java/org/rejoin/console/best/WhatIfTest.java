package org.rejoin.console.best;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.console.LessonFlight;
import org.rejoin.console.lesson.BuiltInLesson;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;
import org.rejoin.protocol.AircraftState;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Another flight than the one that was flown, against closed forms of turns and of drift. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class WhatIfTest {

    private static final Wind WEST = new Wind(new TrueDirection(270), 15);

    private final Map<List<Object>, WhatIf> kept = new HashMap<>();

    /** Each is flown once. */
    private WhatIf flown(BuiltInLesson name, Habit habit, Wind wind) throws Exception {
        List<Object> key = List.of(name, habit, wind);
        if (!kept.containsKey(key)) {
            kept.put(key, fly(name, habit, wind));
        }
        return kept.get(key);
    }

    private static WhatIf fly(BuiltInLesson name, Habit habit, Wind wind) throws Exception {
        Lesson read = LessonReader.read(name.lessonName());
        Lesson lesson = read.in(wind);
        FlightRecord record = FlightRecord.whole();
        FlightSession seat = LessonFlight.seat(lesson, lesson.amendments(), record);
        new PracticeFlight(lesson, lesson.date().orElseThrow(), habit).fly(2, seat::accept);
        seat.finish();
        List<WhatIf> all = WhatIf.all(record);
        assertThat(all).hasSize(1);
        return all.get(0);
    }

    private static Position at(AircraftState state) {
        return new Position(state.latitudeDeg(), state.longitudeDeg());
    }

    private static double cross(WhatIf.Movable turn, AircraftState state) {
        return turn.near() * turn.line().offset(at(state)).crossTrackNm();
    }

    /** The farthest past the line before it is on it again: within three minutes of the turn's begin. */
    private static double pastNm(WhatIf.Movable turn, WhatIf.Flight flight) {
        return flight.states().stream()
                .filter(state -> state.timeS() >= flight.beginsS() && state.timeS() < flight.beginsS() + 180)
                .mapToDouble(state -> -cross(turn, state))
                .max()
                .orElseThrow();
    }

    /**
     * R = V^2 / (11.26 tan(bank)) feet, V in knots (Pilot's Handbook of Aeronautical Knowledge, FAA-H-8083-25, chapter 5; with
     * exact constants 11.294, so within 0.4 of 100).
     * In still air the turn's samples lie on a circle of that radius around a point square to the heading.
     */
    @ParameterizedTest
    @ValueSource(doubles = {10, 20, 30, 45})
    void theTurnIsACircleOfTheRadiusOfItsBank(double bankDeg) throws Exception {
        WhatIf whatIf = flown(BuiltInLesson.RADIAL_OUTBOUND, Habit.GOOD, Wind.CALM);
        WhatIf.Movable turn = whatIf.turns().get(0);
        WhatIf.Flight flight = whatIf.flight(new WhatIf.Choice(turn.leg(), 1, bankDeg, Wind.CALM))
                .orElseThrow();
        double handbookNm = turn.trueAirspeedKt()
                * turn.trueAirspeedKt()
                / (11.26 * Math.tan(Math.toRadians(bankDeg)))
                * 0.3048
                / 1852;
        assertThat(flight.radiusNm()).isCloseTo(handbookNm, within(0.004 * handbookNm));
        AircraftState first = flight.states().stream()
                .filter(state -> state.timeS() >= flight.beginsS())
                .findFirst()
                .orElseThrow();
        Position middle = at(first)
                .destination(
                        new TrueDirection(first.headingTrueDeg().getAsDouble()
                                + 90 * Math.signum(first.rollDeg().getAsDouble())),
                        handbookNm);
        assertThat(Math.abs(first.rollDeg().getAsDouble())).isCloseTo(bankDeg, within(1e-6));
        long onCircle = flight.states().stream()
                .filter(state -> state.timeS() >= first.timeS() && state.timeS() < first.timeS() + 15)
                .takeWhile(state -> Math.signum(state.rollDeg().getAsDouble())
                        == Math.signum(first.rollDeg().getAsDouble()))
                .peek(state -> assertThat(at(state).distanceNm(middle))
                        .isCloseTo(handbookNm, within(0.003 + 0.004 * handbookNm)))
                .count();
        assertThat(onCircle).isGreaterThan(3);
    }

    /** A turn of d degrees begun on the line carries R (1 - cos d) past it: geometry of a circle. */
    @ParameterizedTest
    @CsvSource({"15", "25"})
    void begunOnTheLineItCarriesPastByTheGeometryOfACircle(double bankDeg) throws Exception {
        WhatIf whatIf = flown(BuiltInLesson.RADIAL_OUTBOUND, Habit.GOOD, Wind.CALM);
        WhatIf.Movable turn = whatIf.turns().get(0);
        WhatIf.Flight flight = whatIf.flight(new WhatIf.Choice(turn.leg(), 0, bankDeg, Wind.CALM))
                .orElseThrow();
        AircraftState first = flight.states().stream()
                .filter(state -> state.timeS() >= flight.beginsS())
                .findFirst()
                .orElseThrow();
        double angle = Math.toRadians(turn.line()
                .offset(flight.begins())
                .course()
                .turnTo(new TrueDirection(first.headingTrueDeg().getAsDouble())));
        assertThat(pastNm(turn, flight)).isCloseTo(flight.radiusNm() * (1 - Math.cos(angle)), within(0.02));
        // And is on the line again before its end.
        AircraftState end = flight.states().get(flight.states().size() - 1);
        assertThat(end.timeS()).isGreaterThan(flight.beginsS() + 300);
    }

    /** In another wind, on the same headings, the aircraft is carried by wind difference times time, and no more. */
    @Test
    void onTheSameHeadingsAnotherWindCarriesByItsDifferenceTimesTheTime() throws Exception {
        WhatIf whatIf = flown(BuiltInLesson.RADIAL_OUTBOUND, Habit.GOOD, Wind.CALM);
        WhatIf.Movable turn = whatIf.turns().get(0);
        Wind north = new Wind(new TrueDirection(360), 30);
        double before = turn.flownBeforeNm().orElseThrow();
        WhatIf.Flight calm = whatIf.flight(new WhatIf.Choice(turn.leg(), before, 20, Wind.CALM))
                .orElseThrow();
        WhatIf.Flight windy =
                whatIf.flight(new WhatIf.Choice(turn.leg(), before, 20, north)).orElseThrow();
        double atS = whatIf.heardS() + 60;
        Position there = at(sample(calm, atS));
        Position carried = at(sample(windy, atS));
        // 30 kt from the north: half a mile south a minute.
        double minutes = (sample(calm, atS).timeS() - whatIf.heardS()) / 60;
        assertThat(there.distanceNm(carried)).isCloseTo(0.5 * minutes, within(0.001));
        assertThat(there.to(carried).initial().deg()).isCloseTo(180, within(0.5));
        assertThat(windy.differsS()).isEqualTo(whatIf.heardS());
        assertThat(calm.differsS()).isEqualTo(calm.beginsS());
        // The ground vector is that of heading and wind: air vector + wind.
        AircraftState moving = sample(windy, atS);
        double heading = Math.toRadians(moving.headingTrueDeg().getAsDouble());
        double northKt = turn.trueAirspeedKt() * Math.cos(heading) - 30;
        double eastKt = turn.trueAirspeedKt() * Math.sin(heading);
        assertThat(moving.groundSpeedKt().getAsDouble()).isCloseTo(Math.hypot(northKt, eastKt), within(1.0));
    }

    private static AircraftState sample(WhatIf.Flight flight, double atS) {
        return flight.states().stream()
                .filter(state -> state.timeS() >= atS)
                .findFirst()
                .orElseThrow();
    }

    /** Begun where the best path begins it and with its bank, the turn rolls out on the line. */
    @ParameterizedTest
    @EnumSource(BuiltInLesson.class)
    void begunAsTheBestPathDoesItRollsOutOnTheLine(BuiltInLesson lesson) throws Exception {
        WhatIf whatIf = flown(lesson, Habit.LATE, WEST);
        WhatIf.Movable turn = whatIf.turns().get(0);
        WhatIf.Flight flight = whatIf.flight(
                        new WhatIf.Choice(turn.leg(), turn.bestBeforeNm(), turn.bankDeg(), whatIf.wind()))
                .orElseThrow();
        // Onto an arc it matters where the heading meets it; the pilot's was not quite the predicted one.
        assertThat(pastNm(turn, flight)).isLessThan(lesson == BuiltInLesson.ARC_TO_AIRWAY ? 0.15 : 0.05);
        // The late pilot was late: he began nearer to the line, or past it.
        assertThat(turn.flownBeforeNm().orElseThrow()).isLessThan(turn.bestBeforeNm() - 0.1);
        // Up to there nothing is different.
        assertThat(flight.states().get(0).timeS()).isZero();
        assertThat(flight.differsS()).isEqualTo(flight.beginsS());
    }

    @ParameterizedTest
    @EnumSource(BuiltInLesson.class)
    void eachMomentFollowsTheOneBeforeAtTheSpeedOfTheAircraft(BuiltInLesson lesson) throws Exception {
        Wind gale = new Wind(new TrueDirection(310), 35);
        WhatIf whatIf = flown(lesson, Habit.LATE, WEST);
        for (WhatIf.Movable turn : whatIf.turns()) {
            Optional<WhatIf.Flight> flight =
                    whatIf.flight(new WhatIf.Choice(turn.leg(), turn.bestBeforeNm() - 0.5, 18, gale));
            assertThat(flight).isPresent();
            List<AircraftState> states = flight.orElseThrow().states();
            for (int i = 1; i < states.size(); i++) {
                double seconds = states.get(i).timeS() - states.get(i - 1).timeS();
                double nm = at(states.get(i - 1)).distanceNm(at(states.get(i)));
                assertThat(seconds).isBetween(1e-9, 1.01);
                assertThat(nm)
                        .as("at " + states.get(i).timeS())
                        .isLessThan((turn.trueAirspeedKt() + 40) * seconds / 3600 + 0.003);
            }
        }
    }

    @Test
    void aTurnBegunFarTooEarlyClosesOnTheLineAgainAtThirtyDegrees() throws Exception {
        WhatIf whatIf = flown(BuiltInLesson.RADIAL_OUTBOUND, Habit.GOOD, Wind.CALM);
        WhatIf.Movable turn = whatIf.turns().get(0);
        WhatIf.Flight flight =
                whatIf.flight(new WhatIf.Choice(turn.leg(), 2, 20, Wind.CALM)).orElseThrow();
        double course = turn.line().offset(flight.begins()).course().deg();
        assertThat(flight.states().stream()
                        .filter(state -> state.timeS() > flight.beginsS() && cross(turn, state) > 0.3)
                        .mapToDouble(state -> Math.abs(new TrueDirection(course)
                                .turnTo(new TrueDirection(state.headingTrueDeg().getAsDouble()))))
                        .min()
                        .orElseThrow())
                .isCloseTo(30, within(0.5));
        assertThat(pastNm(turn, flight)).isLessThan(0.03);
    }

    @Test
    void whatCannotBeFlownIsEmptyAndWhatIsNoTurnIsRefused() throws Exception {
        WhatIf whatIf = flown(BuiltInLesson.RADIAL_OUTBOUND, Habit.GOOD, Wind.CALM);
        int leg = whatIf.turns().get(0).leg();
        assertThat(whatIf.flight(new WhatIf.Choice(leg, 0.3, 20, new Wind(new TrueDirection(0), 250))))
                .isEmpty();
        assertThatThrownBy(() -> new WhatIf.Choice(leg, 0.3, 80, Wind.CALM)).hasMessageContaining("5 to 45");
        assertThatThrownBy(() -> new WhatIf.Choice(leg, Double.NaN, 20, Wind.CALM))
                .hasMessageContaining("20 NM");
    }
}
