package org.rejoin.bridge.chart;

import static org.assertj.core.api.Assertions.assertThat;

import java.lang.reflect.RecordComponent;
import java.util.Arrays;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.geo.Declination;
import org.rejoin.bridge.geo.Position;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** When two points of a chart are the same point. */
class SamePointTest {

    private static final Position HERE = new Position(38.2, -49.9);
    private static final Position THERE = new Position(38.3, -49.9);

    /** Two of a kind that share nothing. */
    private record Pair(Record one, Record other) {}

    static Pair[] pairs() {
        return new Pair[] {
            new Pair(new Fix("ABCDE", HERE), new Fix("FGHIJ", THERE)),
            new Pair(
                    new Airport("XSKU", "Skua", HERE, OptionalDouble.of(10)),
                    new Airport("XFUL", "Fulmar", THERE, OptionalDouble.of(20))),
            new Pair(
                    new Station(
                            "PTL",
                            "Petrel",
                            Station.Kind.VOR,
                            Optional.of(Station.ServiceClass.H),
                            OptionalDouble.of(113.2),
                            HERE,
                            Optional.of(new Declination(-18)),
                            OptionalDouble.of(50),
                            Optional.of(HERE)),
                    new Station(
                            "SKU",
                            "Skua",
                            Station.Kind.VORDME,
                            Optional.empty(),
                            OptionalDouble.empty(),
                            THERE,
                            Optional.empty(),
                            OptionalDouble.of(60),
                            Optional.empty()))
        };
    }

    @ParameterizedTest
    @MethodSource("pairs")
    void aPointReadTwiceIsOnePoint(Pair pair) throws Exception {
        Record again = with(pair.one(), -1, pair.other());
        assertThat(again).isNotSameAs(pair.one()).isEqualTo(pair.one()).hasSameHashCodeAs(pair.one());
    }

    @ParameterizedTest
    @MethodSource("pairs")
    void aPointThatDiffersInAnyOneThingIsAnother(Pair pair) throws Exception {
        for (int i = 0; i < pair.one().getClass().getRecordComponents().length; i++) {
            assertThat(with(pair.one(), i, pair.other())).isNotEqualTo(pair.one());
        }
    }

    /** A copy of one, a single component of it taken from the other; of none where the index is -1. */
    private static Record with(Record one, int index, Record other) throws ReflectiveOperationException {
        RecordComponent[] parts = one.getClass().getRecordComponents();
        Object[] values = new Object[parts.length];
        for (int i = 0; i < parts.length; i++) {
            values[i] = parts[i].getAccessor().invoke(i == index ? other : one);
        }
        Class<?>[] types = Arrays.stream(parts).map(RecordComponent::getType).toArray(Class<?>[]::new);
        return one.getClass().getDeclaredConstructor(types).newInstance(values);
    }
}
