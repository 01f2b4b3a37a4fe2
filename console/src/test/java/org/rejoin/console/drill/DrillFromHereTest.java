package org.rejoin.console.drill;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.console.grade.Grade;
import org.rejoin.console.grade.Grader;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.grade.Verdict;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;

import org.junit.jupiter.api.Test;

/** A drill that begins where the aircraft is, or the reason why not now. */
class DrillFromHereTest {

    private static final Wind WIND = new Wind(new TrueDirection(270), 15);

    private static DrillFromHere.Aircraft at(
            Position position, double speedKt, double bankDeg, double turnDegPerS, double fpm) {
        return new DrillFromHere.Aircraft(
                position, 6000, new MagneticDirection(140), speedKt, bankDeg, turnDegPerS, fpm, WIND);
    }

    private static DrillFromHere.Answer ask(DrillFromHere.Aircraft aircraft) throws Exception {
        return after(aircraft, "");
    }

    private static DrillFromHere.Answer after(DrillFromHere.Aircraft aircraft, String last) throws Exception {
        return DrillFromHere.of(
                aircraft, new DrillChart(DrillCharts.ours(), ""), Optional.empty(), DrillFromHere.usual(3), last);
    }

    @Test
    void levelAndStraightNearTheAirwaysADrillIsSpokenAtOnce() throws Exception {
        Position here = new Position(38.25, -49.75);
        DrillFromHere.Answer answer = ask(at(here, 120, 0, 0, 0));
        assertThat(answer).isInstanceOf(DrillFromHere.Answer.Now.class);
        Drill drill = ((DrillFromHere.Answer.Now) answer).drill();
        assertThat(drill.heard()).isEqualTo(here);
        assertThat(drill.heardS()).isZero();
        assertThat(drill.route().warnings()).isEmpty();
        assertThat(drill.features().angleDeg()).isBetween(25.0, 90.0);
        assertThat(drill.features().minutes()).isBetween(1.5, 8.0);
        DrillFromHere.Answer again = ask(at(here, 120, 0, 0, 0));
        assertThat(((DrillFromHere.Answer.Now) again).drill().say()).isEqualTo(drill.say());
        DrillFromHere.Answer after = after(at(here, 120, 0, 0, 0), drill.say());
        assertThat(((DrillFromHere.Answer.Now) after).drill().say())
                .as("what ATC said last is not said again")
                .isNotEqualTo(drill.say());
    }

    @Test
    void onTheGroundInATurnInAClimbOrOutOfTheChartItWaitsAndSaysWhy() throws Exception {
        Position here = new Position(38.25, -49.75);
        assertThat(because(at(here, 12, 0, 0, 0))).contains("on the ground");
        assertThat(because(at(here, 120, 20, 0, 0))).contains("in a turn");
        assertThat(because(at(here, 120, 0, -3, 0))).contains("in a turn");
        assertThat(because(at(here, 120, 0, 0, 700))).contains("climbing or descending");
        assertThat(because(at(new Position(10, 10), 120, 0, 0, 0))).contains("no airway of chart");
    }

    @Test
    void onADayOfAnotherMagneticModelItSaysWhichDaysWouldDo() throws Exception {
        DrillFromHere.Answer answer = DrillFromHere.of(
                at(new Position(38.25, -49.75), 120, 0, 0, 0),
                new DrillChart(DrillCharts.ours(), ""),
                Optional.empty(),
                DrillRequest.usual(3).on(LocalDate.of(2031, 5, 1)),
                "");
        assertThat(((DrillFromHere.Answer.NotNow) answer).because()).contains("2025-01-01 to 2029-12-31");
    }

    private static String because(DrillFromHere.Aircraft aircraft) throws Exception {
        DrillFromHere.Answer answer = ask(aircraft);
        assertThat(answer).isInstanceOf(DrillFromHere.Answer.NotNow.class);
        return ((DrillFromHere.Answer.NotNow) answer).because();
    }

    /** The pilot of the program hears each drill in the flight of the lesson, flies it, and is graded on each. */
    @Test
    void oneDrillFollowsAnotherInTheSameFlightAndEachIsFlownAndGraded() throws Exception {
        Lesson lesson = LessonReader.read("heading-to-airway");
        DrillChart chart = new DrillChart(lesson.chart(), "");
        ToleranceSet set = ToleranceSet.read(lesson.standard());
        Grader grader = new Grader(set);
        LatelyFlown lately = new LatelyFlown();
        FlightRecord record = FlightRecord.withoutPoints();
        record.tell(entry -> {
            entry.readBy(grader);
            entry.readBy(lately);
        });
        FlightSession session = new FlightSession(
                new FlightSession.Setting(
                        lesson.chart(),
                        lesson.filed(),
                        lesson.amendments(),
                        lesson.date().orElseThrow(),
                        lesson.wind(),
                        set.limits(),
                        12),
                record);
        PracticeFlight flight = new PracticeFlight(lesson, lesson.date().orElseThrow(), Habit.GOOD);
        List<String> spoken = new ArrayList<>();
        List<String> waited = new ArrayList<>();
        boolean[] vectored = new boolean[1];
        double[] looked = new double[1];
        flight.fly(1, state -> {
            session.accept(state);
            Optional<DrillFromHere.Aircraft> aircraft = spoken.size() < 2
                            && state.timeS() - looked[0] >= 20
                            && lately.completeForS().orElse(0) >= 45
                    ? lately.aircraft(lesson.wind())
                    : Optional.empty();
            if (aircraft.isPresent()) {
                looked[0] = state.timeS();
                DrillFromHere.Answer answer = DrillFromHere.of(
                        aircraft.get(),
                        chart,
                        Optional.of(lesson.filed()),
                        DrillFromHere.usual(spoken.size()),
                        lesson.lastSaid());
                if (answer instanceof DrillFromHere.Answer.Now now) {
                    spoken.add(now.drill().say());
                    speak(session, flight, now.drill().say());
                    vectored[0] = false;
                } else if (answer instanceof DrillFromHere.Answer.NotNow wait) {
                    waited.add(wait.because());
                    if (wait.noLine() && !vectored[0]) {
                        vectored[0] = true;
                        speak(session, flight, DrillFromHere.vector(aircraft.get(), spoken.size()));
                    }
                }
            }
        });
        session.finish();
        Grade grade = grader.grade();
        assertThat(spoken).as("%s", waited).hasSize(2);
        assertThat(grade.attempts().get(0).amendments())
                .hasSizeGreaterThanOrEqualTo(3)
                .allSatisfy(each -> {
                    assertThat(each.verdict()).as(each.say()).isEqualTo(Verdict.MET);
                    assertThat(each.faults()).as(each.say()).isEmpty();
                });
    }

    private static void speak(FlightSession session, PracticeFlight flight, String words) {
        try {
            session.issue(words, OptionalDouble.empty());
            flight.speak(words, OptionalDouble.empty());
        } catch (ClearanceException e) {
            throw new AssertionError(e);
        }
    }
}
