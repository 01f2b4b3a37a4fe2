package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.ocean.Points;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.HeadingPlan;
import org.rejoin.console.LessonFlight;
import org.rejoin.console.lesson.BuiltInLesson;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.protocol.AircraftState;

import org.junit.jupiter.api.Test;

/** The first turn of a feed that sends magnetic headings in whole degrees. */
class FirstTurnMeasuresTest {

    private static final int GROUND_SPEED_KT = 120;

    /** On the very heading that is said, and then steadily 40 degrees off it: as far from flown as can be, and a number. */
    @Test
    void whoWasOnTheVeryHeadingAndTurnedAwayHasNotFlownIt() throws Exception {
        Lesson lesson = LessonReader.read(BuiltInLesson.HEADING_TO_AIRWAY.lessonName());
        AmendedRoute route = LessonFlight.route(lesson, GROUND_SPEED_KT, lesson.wind());
        double assigned =
                route.assignedHeading().map(HeadingPlan::magnetic).orElseThrow().deg();
        FirstTurnMeasures turn = new FirstTurnMeasures(route);
        for (int second = 0; second <= 60; second++) {
            turn.point(closing(second, second < 5 ? assigned : assigned + 40));
        }
        assertThat(turn.notMade()).isEqualTo(1);
        assertThat(turn.notDone()).isEqualTo(1);
    }

    private static Point closing(double timeS, double headingMagneticDeg) {
        AircraftState state = AircraftState.at(timeS, 30, -45);
        return Points.onLeg(
                Points.instant(state, headingMagneticDeg, GROUND_SPEED_KT, 0, headingMagneticDeg),
                Point.Phase.CLOSING,
                0,
                Double.NaN,
                Double.NaN,
                Double.NaN,
                0);
    }
}
