package org.rejoin.bridge.tracker;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;

import org.rejoin.bridge.flight.EventKind;
import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.ocean.ClosedFormFlight;
import org.rejoin.bridge.ocean.Habit;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.bridge.ocean.Ocean.Leg;
import org.rejoin.protocol.AircraftState;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** One flight, whatever the feed makes of it: the same events at the same times, and no fault of the feed's making. */
class RateFairnessTest {

    private static Leg leg(Habit habit) {
        Leg leg = habit.leg();
        leg.flight.altitude(t -> t < 500 ? 6000 + 140 * Math.sin(t / 20) : 6000);
        return leg;
    }

    /** Events by name, the how-manieth of that name, and time; the last sample's own time is the feed's. */
    private static Map<String, Double> named(Flown flown) {
        Map<String, Double> named = new LinkedHashMap<>();
        for (FlightEvent event : flown.events()) {
            int n = 1;
            while (named.containsKey(event.name() + n)) {
                n++;
            }
            named.put(event.name() + n, event.timeS());
        }
        named.remove(EventKind.FLIGHT_ENDED.logName() + 1);
        named.remove(EventKind.AMENDMENT_NOT_ACHIEVED.logName() + 1);
        return named;
    }

    @ParameterizedTest
    @EnumSource(Habit.class)
    void theRateChangesNothing(Habit habit) {
        Leg leg = leg(habit);
        Map<String, Double> expected = named(Flown.fly(leg.flight.sample(20)));
        for (double hz : new double[] {1, 5, 50}) {
            Flown other = Flown.fly(leg.flight.sample(hz));
            Map<String, Double> found = named(other);
            assertThat(other.events()).extracting(FlightEvent::timeS).isSorted().doesNotContain(Double.NaN);
            assertThat(found.keySet()).as("%s Hz", hz).containsExactlyInAnyOrderElementsOf(expected.keySet());
            expected.forEach((name, timeS) ->
                    assertThat(found.get(name)).as("%s at %s Hz", name, hz).isCloseTo(timeS, Offset.offset(0.3)));
        }
    }

    @ParameterizedTest
    @EnumSource(Habit.class)
    void neitherDoLossNoiseAndDeadReckoning(Habit habit) {
        Leg leg = leg(habit);
        List<FaultCode> expected = Flown.fly(leg.flight.sample(5)).faults();
        assertThat(expected.contains(FaultCode.ALTITUDE_NOT_HELD)).isTrue();
        assertThat(expected).hasSize(habit == Habit.SOUND ? 1 : 2);
        for (long seed = 1; seed <= 2; seed++) {
            assertThat(Flown.fly(leg.flight.sample(leg.flight.lossy(1, seed), ClosedFormFlight.Noise.NONE))
                            .faults())
                    .as("1 Hz, a quarter lost, seed %d", seed)
                    .isEqualTo(expected);
            assertThat(Flown.fly(leg.flight.sample(leg.flight.lossy(5, seed), ClosedFormFlight.Noise.usual(seed)))
                            .faults())
                    .as("5 Hz, noise, a quarter lost, seed %d", seed)
                    .isEqualTo(expected);
            assertThat(Flown.fly(leg.flight.sample(leg.flight.deadReckoned(seed), ClosedFormFlight.Noise.NONE))
                            .faults())
                    .as("dead reckoning, seed %d", seed)
                    .isEqualTo(expected);
        }
    }

    private static UnaryOperator<AircraftState> bare(double resolutionDeg) {
        return s -> AircraftState.at(
                s.timeS(), round(s.latitudeDeg(), resolutionDeg), round(s.longitudeDeg(), resolutionDeg));
    }

    private static double round(double deg, double step) {
        return step == 0 ? deg : Math.round(deg / step) * step;
    }

    /** Positions alone, at a ten-thousandth of a degree (0.006 NM): the track is taken over a base that is long enough. */
    @ParameterizedTest
    @EnumSource(
            names = {"SOUND", "LATE", "FLOWN_THROUGH", "WRONG_TURN", "SEQUENCE_MISSED", "ROUTE_LEFT"},
            value = Habit.class)
    void coarsePositionsGiveTheSameFaults(Habit habit) {
        Leg leg = leg(habit);
        List<AircraftState> fine = leg.flight.sample(2);
        List<FaultCode> expected = new ArrayList<>(Flown.fly(fine).faults());
        expected.remove(FaultCode.ALTITUDE_NOT_HELD);
        for (double step : new double[] {0, 1e-5, 1e-4}) {
            List<AircraftState> coarse = fine.stream().map(bare(step)).toList();
            Flown flown = Flown.fly(coarse, List.of(Ocean.say(2, Ocean.radialClearance(fine.get(0)))));
            assertThat(flown.session().quality().canJudgeTrack()).isTrue();
            assertThat(flown.faults()).as("%s: %s", step, flown.events()).isEqualTo(expected);
        }
    }

    /** A thousandth of a degree (0.06 NM) would take 35 s: nothing is judged by such a track. */
    @Test
    void tooCoarseIsSaid() {
        List<AircraftState> fine = leg(Habit.SOUND).flight.sample(2);
        Flown flown = Flown.fly(
                fine.stream().map(bare(1e-3)).toList(), List.of(Ocean.say(2, Ocean.radialClearance(fine.get(0)))));
        assertThat(flown.session().quality().canJudgeTrack()).isFalse();
        assertThat(flown.session().quality().resolutionNm()).isCloseTo(0.06, Offset.offset(0.001));
        assertThat(flown.all(FlightEvent.Repositioned.class)).isEmpty();
    }
}
