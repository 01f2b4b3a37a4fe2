package org.rejoin.console.best;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.bridge.Amendment;
import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.console.LessonFlight;
import org.rejoin.console.lesson.BuiltInLesson;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;
import org.rejoin.protocol.AircraftState;

import org.junit.jupiter.api.Test;

/** What comes between does not count as the pilot's choice: a pause, an altitude, a clearance taken back, a jump. */
class InterruptedComparisonsTest {

    /** What one flight gave. */
    private record Flown(List<Comparison> comparisons, List<AmendedRoute> routes) {}

    private static List<AircraftState> states() throws Exception {
        Lesson lesson = LessonReader.read(BuiltInLesson.RADIAL_OUTBOUND.lessonName());
        List<AircraftState> states = new ArrayList<>();
        new PracticeFlight(lesson, lesson.date().orElseThrow(), Habit.GOOD).fly(2, states::add);
        return states;
    }

    private static Flown fly(List<AircraftState> states, Amendment... more) throws Exception {
        Lesson lesson = LessonReader.read(BuiltInLesson.RADIAL_OUTBOUND.lessonName());
        List<Amendment> amendments = new ArrayList<>(lesson.amendments());
        amendments.addAll(List.of(more));
        FlightRecord record = FlightRecord.whole();
        FlightSession seat = LessonFlight.seat(lesson, amendments, record);
        states.forEach(seat::accept);
        seat.finish();
        return new Flown(
                Comparison.all(record),
                record.issued().stream().map(Entry.Issued::route).toList());
    }

    private static Amendment at(double elapsedS, String say) {
        return new Amendment(new Amendment.When.ElapsedS(elapsedS), say, OptionalDouble.empty());
    }

    @Test
    void anAltitudeOrASpeedLeavesRouteAndComparisonAsTheyWere() throws Exception {
        Flown plain = fly(states());
        Flown more = fly(states(), at(100, "maintain 7000"), at(150, "maintain 6000, maintain 140 knots"));
        assertThat(more.routes()).hasSize(3);
        assertThat(more.routes())
                .allSatisfy(route ->
                        assertThat(route.legs()).isEqualTo(more.routes().get(0).legs()));
        assertThat(more.routes().get(1).clearance().text()).isEqualTo("maintain 7000");
        assertThat(more.comparisons()).hasSize(1);
        assertThat(more.comparisons().get(0).sentence())
                .isEqualTo(plain.comparisons().get(0).sentence());
    }

    @Test
    void aPauseIsNoTimeLost() throws Exception {
        List<AircraftState> paused = new ArrayList<>();
        for (AircraftState state : states()) {
            if (state.timeS() <= 100) {
                paused.add(state);
            } else {
                AircraftState stood = paused.get(paused.size() - 1);
                while (paused.get(paused.size() - 1).timeS() < 159.9) {
                    paused.add(stood.withTimeS(paused.get(paused.size() - 1).timeS() + 0.5)
                            .asPaused());
                }
                paused.add(state.withTimeS(state.timeS() + 60));
            }
        }
        double plain =
                fly(states()).comparisons().get(0).cost().lost().orElseThrow().seconds();
        assertThat(fly(paused).comparisons().get(0).cost().lost().orElseThrow().seconds())
                .isCloseTo(plain, within(1.0));
    }

    @Test
    void whatIsTakenBackIsNotCompared() throws Exception {
        assertThat(fly(states(), at(60, "disregard")).comparisons()).isEmpty();
    }

    @Test
    void aJumpOnTheWayIsNotTimeLost() throws Exception {
        List<AircraftState> all = states();
        List<AircraftState> back = new ArrayList<>();
        for (AircraftState state : all) {
            back.add(
                    state.timeS() < 120
                            ? state
                            : all.get((int) (2 * state.timeS()) - 120).withTimeS(state.timeS()));
        }
        assertThat(fly(back).comparisons().get(0).cost().lost()).isEmpty();
    }
}
