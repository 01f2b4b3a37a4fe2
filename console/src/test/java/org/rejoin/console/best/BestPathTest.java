package org.rejoin.console.best;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.Offset;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.console.LessonFlight;
import org.rejoin.console.lesson.BuiltInLesson;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** The best flyable path against closed forms of turns, and the cost of habits whose size is known. */
class BestPathTest {

    private static final double TAS_KT = 120;
    private static final Wind CALM = Wind.CALM;
    private static final Wind GALE = new Wind(new TrueDirection(310), 35);

    private static AmendedRoute route(BuiltInLesson name, Wind wind) throws Exception {
        return LessonFlight.route(LessonReader.read(name.lessonName()), TAS_KT, wind);
    }

    /** Begun on the assigned heading, so that only the turn onto the course is left. */
    private static BestPath path(AmendedRoute route) {
        TrueDirection heading = route.assignedHeading().orElseThrow().headingTrue();
        return BestPath.of(
                        route,
                        0,
                        route.situation().position(),
                        GroundVector.onHeading(
                                heading, TAS_KT, route.situation().wind()))
                .orElseThrow();
    }

    private static Offset offset(AmendedRoute route, Position position) {
        GroundPath line = route.legs().get(route.courseLeg()).groundPath().orElseThrow();
        return line.offset(position);
    }

    /** R tan(d/2) before the meeting in still air, R = V / (60 pi) at standard rate: the geometry of a level turn. */
    @ParameterizedTest
    @EnumSource(BuiltInLesson.class)
    void inStillAirTheTurnBeginsAtTheLead(BuiltInLesson lesson) throws Exception {
        AmendedRoute route = route(lesson, CALM);
        BestPath.TurnOnto turn = path(route).ontoCourse().orElseThrow();
        double radiusNm = TAS_KT / (60 * Math.PI);
        double angle = Math.toRadians(route.intercept().orElseThrow().angleDeg());
        double leadNm = turn.begins().distanceNm(route.intercept().orElseThrow().position());
        assertThat(offset(route, turn.rollsOut()).crossTrackNm()).isCloseTo(0, within(1e-5));
        if (lesson == BuiltInLesson.ARC_TO_AIRWAY) {
            // An arc bends away while it is turned onto: here by some hundredths of a mile.
            assertThat(leadNm).isCloseTo(radiusNm * Math.tan(angle / 2), within(0.03));
            return;
        }
        assertThat(leadNm).isCloseTo(radiusNm * Math.tan(angle / 2), within(0.001));
        // Square to the line the turn uses R (1 - cos d); rolled out on it.
        assertThat(turn.toLineNm()).isCloseTo(radiusNm * (1 - Math.cos(angle)), within(0.001));
        assertThat(offset(route, turn.rollsOut()).crossTrackNm()).isCloseTo(0, within(1e-5));
        assertThat(turn.rollsOutS() - turn.beginsS()).isCloseTo(Math.toDegrees(angle) / 3, within(0.02));
        double onHeadingNm = TAS_KT * turn.beginsS() / 3600;
        assertThat(onHeadingNm).isCloseTo(route.intercept().orElseThrow().distanceNm() - leadNm, within(0.001));
    }

    /** In the wind a turn is no circle: the ground vector is integrated in small steps, apart from the closed form. */
    @ParameterizedTest
    @EnumSource(BuiltInLesson.class)
    void inTheWindTheTurnRollsOutOnTheCourseWithItsDrift(BuiltInLesson lesson) throws Exception {
        AmendedRoute route = route(lesson, GALE);
        BestPath.TurnOnto turn = path(route).ontoCourse().orElseThrow();
        Position at = turn.begins();
        // The predicted track is a geodesic, along which true north turns.
        Geodesics.Inverse way = route.situation().position().to(at);
        double heading = route.assignedHeading().orElseThrow().headingTrue().deg()
                + way.initial().turnTo(way.onward());
        double seconds = turn.rollsOutS() - turn.beginsS();
        int steps = 2000;
        double rate = turn.turnDeg() / seconds;
        for (int i = 0; i < steps; i++) {
            GroundVector ground = GroundVector.onHeading(
                    new TrueDirection(heading + rate * seconds * (i + 0.5) / steps), TAS_KT, GALE);
            at = at.destination(ground.track(), ground.groundSpeedKt() * seconds / steps / 3600);
        }
        assertThat(Math.abs(rate)).isCloseTo(3, within(1e-9));
        assertThat(at.distanceNm(turn.rollsOut())).isLessThan(0.001);
        Offset end = offset(route, at);
        assertThat(end.crossTrackNm()).isCloseTo(0, within(0.001));
        double track = GroundVector.onHeading(new TrueDirection(heading + turn.turnDeg()), TAS_KT, GALE)
                .track()
                .deg();
        assertThat(end.course().turnTo(new TrueDirection(track))).isCloseTo(0, within(0.02));
    }

    /** A fly-by of the computed fix in still air begins R tan(d/2) before it and ends as far beyond. */
    @Test
    void theFixIsPassedByAFlyBy() throws Exception {
        AmendedRoute route = route(BuiltInLesson.RADIAL_OUTBOUND, CALM);
        BestPath path = path(route);
        BestPath.TurnOnto turn = path.turns().get(path.turns().size() - 1);
        Position fix = route.computedFix().orElseThrow().fix().position();
        double lead = TAS_KT
                / (60 * Math.PI)
                * Math.tan(Math.toRadians(
                                Math.abs(route.computedFix().orElseThrow().turnDeg()))
                        / 2);
        assertThat(turn.begins().distanceNm(fix)).isCloseTo(lead, within(0.001));
        assertThat(turn.rollsOut().distanceNm(fix)).isCloseTo(lead, within(0.001));
        assertThat(path.completeS()).isEqualTo(turn.rollsOutS());
    }

    @Test
    void thePathIsOneLineThroughTimeAtTheSpeedOfTheAircraft() throws Exception {
        BestPath path = path(route(BuiltInLesson.RADIAL_OUTBOUND, CALM));
        List<BestPath.Point> points = path.points();
        for (int i = 1; i < points.size(); i++) {
            double seconds = points.get(i).timeS() - points.get(i - 1).timeS();
            double nm = points.get(i - 1).position().distanceNm(points.get(i).position());
            assertThat(nm).isCloseTo(TAS_KT * seconds / 3600, within(0.001));
        }
        assertThat(path.lengthNm()).isCloseTo(TAS_KT * path.completeS() / 3600, within(0.001));
    }

    @Test
    void aLineThatIsMetBeforeThereIsTimeToTurnHasNoBestPath() throws Exception {
        AmendedRoute route = route(BuiltInLesson.RADIAL_OUTBOUND, CALM);
        TrueDirection heading = route.assignedHeading().orElseThrow().headingTrue();
        Position close =
                route.intercept().orElseThrow().position().destination(new TrueDirection(heading.deg() + 180), 0.1);
        assertThat(BestPath.of(route, 0, close, new GroundVector(heading, TAS_KT)))
                .isEmpty();
    }

    @ParameterizedTest
    @EnumSource(BuiltInLesson.class)
    void whoFliesWellLosesNothingAndEachHabitCosts(BuiltInLesson lesson) throws Exception {
        Comparison good = flown(lesson, Habit.GOOD);
        assertThat(good.sentence()).contains("in time").contains("no time lost").doesNotContain("past the line");
        assertThat(good.cost().lost().orElseThrow().seconds()).isBetween(-3.0, 6.0);

        Comparison through = flown(lesson, Habit.FLY_THROUGH);
        // He crosses the line and holds the heading for 40 s; the lead comes before that.
        assertThat(through.cost().turnedLateS().orElseThrow()).isBetween(40.0, 60.0);
        assertThat(through.cost().pastLineNm()).isGreaterThan(0.5);
        assertThat(through.cost().lost().orElseThrow().nm()).isGreaterThan(0.3);
        assertThat(through.sentence())
                .contains("late onto")
                .contains("past the line")
                .contains("lost");

        Comparison late = flown(lesson, Habit.LATE);
        assertThat(late.cost().turnedLateS().orElseThrow()).isBetween(3.0, 30.0);
        assertThat(late.cost().pastLineNm())
                .isGreaterThan(0.5)
                .isLessThan(through.cost().pastLineNm() + 0.5);

        OptionalDouble early = flown(lesson, Habit.EARLY).cost().turnedLateS();
        // Ten degrees from his heading he turns through the assigned one, not from it: there is nothing to be early by.
        assertThat(early.isPresent()).isEqualTo(lesson != BuiltInLesson.HOLD_AT_FIX);
        assertThat(early.orElse(-4)).isLessThan(-3);
    }

    private static Comparison flown(BuiltInLesson name, Habit habit) throws Exception {
        Lesson lesson = LessonReader.read(name.lessonName());
        FlightRecord record = FlightRecord.whole();
        FlightSession seat = LessonFlight.seat(lesson, lesson.amendments(), record);
        new PracticeFlight(lesson, lesson.date().orElseThrow(), habit).fly(2, seat::accept);
        seat.finish();
        assertThat(record.entries()).noneMatch(Entry.NotIssued.class::isInstance);
        assertThat(Comparison.all(record)).hasSize(1);
        return Comparison.all(record).get(0);
    }
}
