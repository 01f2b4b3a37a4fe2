package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.UnaryOperator;

import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.ocean.ClosedFormFlight;
import org.rejoin.bridge.ocean.ClosedFormFlight.Noise;
import org.rejoin.bridge.ocean.Habit;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.protocol.AircraftState;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** One flight, whatever the feed makes of it: the same events, the same score, no fault of the feed's making. */
class FeedFairnessTest {

    static ClosedFormFlight flight(Habit habit) {
        ClosedFormFlight flight = habit.leg().flight;
        flight.altitude(t -> 6000 + 60 * Math.sin(t / 20));
        return flight;
    }

    static void inOrder(Flown flown) {
        List<Double> times = flown.events().stream().map(FlightEvent::timeS).toList();
        assertThat(times).isSorted().doesNotContain(Double.NaN);
        for (FlightEvent event : flown.events()) {
            event.writeTo(new FlightEvent.Fields() {
                @Override
                public FlightEvent.Fields number(String field, double value) {
                    assertThat(value).as("%s of %s", field, event).isFinite();
                    return this;
                }

                @Override
                public FlightEvent.Fields text(String field, String value) {
                    return this;
                }

                @Override
                public FlightEvent.Fields flag(String field, boolean value) {
                    return this;
                }
            });
        }
        for (Point progress : flown.progress()) {
            assertThat(progress.trackTrueDeg()).isFinite();
            assertThat(Double.isInfinite(progress.crossTrackNm())).isFalse();
            assertThat(Double.isInfinite(progress.toGoNm())).isFalse();
        }
        for (Criterion criterion : flown.grade().criteria()) {
            if (criterion.measurable()) {
                assertThat(criterion.measured()).as(criterion.code()).isFinite();
            } else {
                assertThat(criterion.met()).isFalse();
                assertThat(criterion.points()).isZero();
            }
            assertThat(criterion.limit()).as(criterion.code()).isFinite().isNotNegative();
            assertThat(criterion.points()).isBetween(0.0, criterion.maxPoints());
        }
    }

    /** The tracker's own test compares the events. */
    @ParameterizedTest
    @EnumSource(Habit.class)
    void theRateChangesNoScore(Habit habit) {
        ClosedFormFlight flight = flight(habit);
        Flown reference = Flown.fly(flight.sample(20));
        List<Double> rates = habit == Habit.LATE ? List.of(1.0, 5.0, 50.0) : List.of(1.0, 5.0);
        for (double hz : rates) {
            Flown other = Flown.fly(flight.sample(hz));
            inOrder(other);
            assertThat(other.faults()).as("%s Hz", hz).isEqualTo(reference.faults());
            assertThat(other.score())
                    .as("%s Hz", hz)
                    .isCloseTo(reference.score(), org.assertj.core.data.Offset.offset(1.0));
        }
    }

    @ParameterizedTest
    @EnumSource(Habit.class)
    void neitherDoLossNoiseAndDeadReckoning(Habit habit) {
        ClosedFormFlight flight = flight(habit);
        List<FaultCode> expected = Flown.fly(flight.sample(5)).faults();
        if (habit == Habit.SOUND) {
            assertThat(expected).isEmpty();
        } else {
            assertThat(expected).hasSizeGreaterThan(0);
        }
        for (long seed = 1; seed <= 3; seed++) {
            assertThat(Flown.fly(flight.sample(flight.lossy(1, seed), Noise.NONE))
                            .faults())
                    .as("1 Hz, a quarter lost, seed %d", seed)
                    .isEqualTo(expected);
            assertThat(Flown.fly(flight.sample(flight.lossy(5, seed), Noise.usual(seed)))
                            .faults())
                    .as("5 Hz, noise, a quarter lost, seed %d", seed)
                    .isEqualTo(expected);
            Flown reckoned = Flown.fly(flight.sample(flight.deadReckoned(seed), Noise.NONE));
            inOrder(reckoned);
            assertThat(reckoned.faults()).as("dead reckoning, seed %d", seed).isEqualTo(expected);
        }
    }

    static AircraftState strip(AircraftState s, boolean heading, boolean motion, boolean altitude) {
        OptionalDouble none = OptionalDouble.empty();
        return new AircraftState(
                s.timeS(),
                s.latitudeDeg(),
                s.longitudeDeg(),
                altitude ? none : s.altitudeMslFt(),
                heading ? none : s.headingTrueDeg(),
                none,
                motion ? none : s.trackTrueDeg(),
                motion ? none : s.groundSpeedKt(),
                none,
                none,
                none,
                none,
                false);
    }

    private static Flown fly(List<AircraftState> states, AircraftState first) {
        return Flown.fly(states, List.of(Ocean.at(2, Ocean.radialClearance(first), 6000)));
    }

    @Test
    void whatTheFeedLeavesOutIsNotGradedAndIsNoFault() {
        List<AircraftState> full = flight(Habit.SOUND).sample(2);
        UnaryOperator<AircraftState> noHeading = s -> strip(s, true, false, false);
        UnaryOperator<AircraftState> noAltitude = s -> strip(s, false, false, true);
        UnaryOperator<AircraftState> onlyPosition = s -> strip(s, true, true, true);
        for (UnaryOperator<AircraftState> each : List.of(noHeading, noAltitude, onlyPosition)) {
            Flown flown = fly(full.stream().map(each).toList(), full.get(0));
            inOrder(flown);
            assertThat(flown.faults()).as("%s", flown.events()).isEmpty();
            assertThat(flown.grade().notJudged()).isPresent();
            assertThat(flown.all(FlightEvent.AmendmentComplete.class)).hasSize(1);
        }
    }

    /** A 30 s gap anywhere, and a pause anywhere: no fault that was not flown. */
    @Test
    void gapsAndPausesAreNobodysFault() {
        List<AircraftState> full = flight(Habit.SOUND).sample(1);
        for (int from = 20; from < full.size() - 40; from += 37) {
            int at = from;
            List<AircraftState> gap = new ArrayList<>(full.subList(0, at));
            gap.addAll(full.subList(at + 30, full.size()));
            Flown flown = fly(gap, full.get(0));
            inOrder(flown);
            assertThat(flown.faults()).as("gap at %d: %s", at, flown.events()).isEmpty();
            assertThat(flown.all(FlightEvent.FeedLost.class)).hasSize(1);
            assertThat(flown.all(FlightEvent.FeedResumed.class)).hasSize(1);

            List<AircraftState> paused = new ArrayList<>(full.subList(0, at));
            for (int i = 1; i <= 40; i++) {
                paused.add(full.get(at - 1).withTimeS(at - 1 + i));
            }
            full.subList(at, full.size()).forEach(s -> paused.add(s.withTimeS(s.timeS() + 40)));
            Flown still = fly(paused, full.get(0));
            inOrder(still);
            assertThat(still.faults()).as("pause at %d: %s", at, still.events()).isEmpty();
            assertThat(still.all(FlightEvent.SimPaused.class)).hasSize(1);
            assertThat(still.all(FlightEvent.SimResumed.class)).hasSize(1);
        }
    }

    @Test
    void repositioningStartsAfresh() {
        List<AircraftState> full = flight(Habit.SOUND).sample(1);
        // Established, then set back to the start of the intercept and flown again.
        List<AircraftState> states = new ArrayList<>(full.subList(0, 400));
        full.subList(40, full.size()).forEach(s -> states.add(s.withTimeS(s.timeS() + 360)));
        Flown flown = fly(states, full.get(0));
        inOrder(flown);
        assertThat(flown.all(FlightEvent.Repositioned.class)).hasSize(1);
        assertThat(flown.faults()).as("%s", flown.events()).isEmpty();
        assertThat(flown.all(FlightEvent.AmendmentComplete.class)).hasSize(1);
    }

    @Test
    void aRecordingThatBeginsLateOrEndsInATurn() {
        List<AircraftState> full = flight(Habit.SOUND).sample(2);
        for (int from : new int[] {420, 900, full.size() - 200}) {
            List<AircraftState> late = full.subList(from, full.size()).stream()
                    .map(s -> s.withTimeS(s.timeS() - full.get(from).timeS()))
                    .toList();
            Flown flown = fly(late, full.get(0));
            inOrder(flown);
            assertThat(flown.faults()).as("from %d: %s", from, flown.events()).isEmpty();
        }
        // The turn onto the course lasts from about 176 to 193 s.
        Flown cut = fly(full.subList(0, 370), full.get(0));
        inOrder(cut);
        // What was not due when the recording stopped is nobody's fault, and not judged.
        assertThat(cut.faults()).isEmpty();
        assertThat(cut.grade().verdict()).isEqualTo(Verdict.NOT_JUDGED);
        assertThat(cut.all(FlightEvent.AmendmentNotDue.class).get(0).reason())
                .contains("never established on the AAA 102 radial");
    }

    @Test
    void theSameFlightGivesTheSameBytes() throws Exception {
        List<AircraftState> states =
                flight(Habit.LATE).sample(flight(Habit.LATE).lossy(5, 3), Noise.usual(9));
        assertThat(json(fly(states, states.get(0)).grade()))
                .isEqualTo(json(fly(states, states.get(0)).grade()));
    }

    static String json(Grade grade) throws Exception {
        java.io.StringWriter text = new java.io.StringWriter();
        try (var json = new com.fasterxml.jackson.core.JsonFactory().createGenerator(text)) {
            GradeJson.write(grade, json);
        }
        return text.toString();
    }
}
