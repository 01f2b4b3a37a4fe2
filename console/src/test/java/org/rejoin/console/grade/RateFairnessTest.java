package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.TreeSet;

import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.ocean.ClosedFormFlight;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.protocol.AircraftState;

import org.assertj.core.data.Offset;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Flights in closed form drawn at random (fixed seeds): at 1, 5, 20 and 50 samples a second the same events, within
 * 0.3 s. No number in them is a whole second, so that nothing falls on a sample by design.
 */
class RateFairnessTest {
    /** Heading off and back, altitude off and back, the needle chased or not, the turn at the fix late or early. */
    private static ClosedFormFlight flight(Random random, boolean weaving) {
        double angle = 35 + 25 * random.nextDouble();
        Ocean.Leg leg =
                new Ocean.Leg(angle, random.nextBoolean() ? 1 : -1, 100 + 60 * random.nextDouble(), Ocean.CALM, 11);
        double off = (13 + 9 * random.nextDouble()) * -leg.side;
        leg.flight.seconds(24.3 + 5 * random.nextDouble()).turn(off);
        leg.flight.seconds(15.4 + 9 * random.nextDouble()).turn(-off);
        double toLine = Math.abs(leg.crossNm()) / Math.sin(Math.toRadians(angle));
        double lead = leg.flight.radiusNm() * Math.tan(Math.toRadians(angle / 2));
        leg.flight.miles(Math.max(0.2, toLine - lead + 0.25 * random.nextDouble()));
        leg.turnOn().flight.seconds(11.3);
        leg.sidestep();
        if (weaving) {
            double swing = 14 + 6 * random.nextDouble();
            double straight = 12 + 4 * random.nextDouble();
            leg.flight.turn(swing).seconds(straight);
            for (int i = 0; i < 4; i++) {
                leg.flight.turn(i % 2 == 0 ? -2 * swing : 2 * swing).seconds(i == 3 ? straight : 2 * straight);
            }
            leg.turnOn().sidestep();
        }
        double late = (random.nextDouble() - 0.4) * 0.6;
        leg.toFixLessNm(leg.flight.radiusNm() - late).ontoAirway();
        double climb = 4 + 3 * random.nextDouble();
        double fromS = 61.7 + 20 * random.nextDouble();
        leg.flight.altitude(t -> 6000 + climb * Math.max(0, Math.min(40.3, Math.min(t - fromS, fromS + 130.6 - t))));
        return leg.flight;
    }

    private static Flown fly(ClosedFormFlight flight, double hz) {
        List<AircraftState> states = flight.sample(hz);
        return Flown.fly(
                states,
                List.of(
                        Ocean.at(2.37, Ocean.radialClearance(states.get(0)), 6000),
                        Ocean.say(300.41, "maintain 7000")));
    }

    private static List<String> names(Flown flown) {
        return new ArrayList<>(
                new TreeSet<>(flown.events().stream().map(FlightEvent::name).toList()));
    }

    private static List<FlightEvent> named(Flown flown, String name) {
        return flown.events().stream()
                .filter(event -> event.name().equals(name))
                .toList();
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4})
    void theRateChangesNothing(long seed) {
        ClosedFormFlight flight = flight(new Random(seed), seed % 2 == 0);
        Flown reference = fly(flight, 10);
        assertThat(names(reference))
                .contains(
                        "heading_deviation_began",
                        "heading_deviation_ended",
                        "altitude_deviation_began",
                        "altitude_deviation_ended",
                        "turn_at_fix");
        assertThat(names(reference).contains("weaving")).isEqualTo(seed % 2 == 0);
        for (double hz : new double[] {1, 5, 20, 50}) {
            Flown other = fly(flight, hz);
            assertThat(names(other)).as("seed %d, %s Hz", seed, hz).isEqualTo(names(reference));
            for (String name : names(reference)) {
                List<FlightEvent> expected = named(reference, name);
                List<FlightEvent> found = named(other, name);
                assertThat(found).as("%s, seed %d, %s Hz", name, seed, hz).hasSameSizeAs(expected);
                for (int i = 0; i < found.size(); i++) {
                    // The last sample's own time is the feed's, and so is what ends with it.
                    boolean atTheEnd = expected.get(i).timeS() > flight.endS() - 1.5;
                    assertThat(found.get(i).timeS())
                            .as("%s, seed %d, %s Hz", name, seed, hz)
                            .isCloseTo(expected.get(i).timeS(), Offset.offset(atTheEnd ? 1.01 : 0.3));
                }
            }
        }
    }
}
