package org.rejoin.bridge.geo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;

import org.rejoin.protocol.earth.GroundPoint;

import org.junit.jupiter.api.Test;

/** The lattice against the model it is made of (which is checked against the published values of WMM2025). */
class VariationMapTest {

    @Test
    void withinAHundredthOfADegreeWhereACompassIsOfUse() {
        VariationMap map = new VariationMap(MagneticModel.WMM2025, 2026.41);
        SplittableRandom random = new SplittableRandom(2025);
        int judged = 0;
        for (int i = 0; i < 20_000; i++) {
            Position place = new Position(random.nextDouble(-90, 90), random.nextDouble(-180, 180));
            double feet = random.nextDouble(-1000, 60_000);
            MagneticModel.Field field = MagneticModel.WMM2025.field(place, feet, 2026.41);
            if (field.cautions().isEmpty()) {
                judged++;
                assertThat(Angles.turn(map.eastDegAt(GroundPoint.at(place.latitudeDeg(), place.longitudeDeg()), feet)
                                - field.variation().eastDeg()))
                        .as("%s %s", place, feet)
                        .isCloseTo(0, within(0.01));
            }
        }
        assertThat(judged).isGreaterThan(15_000);
    }

    @Test
    void polesAndTheAntimeridianAreNoEdge() {
        VariationMap map = new VariationMap(MagneticModel.WMM2025, 2026.41);
        assertThat(map.eastDegAt(GroundPoint.at(20, -180), 0))
                .isCloseTo(map.eastDegAt(GroundPoint.at(20, 179.999999), 0), within(1e-4));
        assertThat(map.eastDegAt(GroundPoint.at(90, 0), 5000)).isFinite();
        assertThat(map.eastDegAt(GroundPoint.at(-90, 0), 5000)).isFinite();
    }

    /** Sines alone do not tell one side of the Earth from the other: beside a pole, and from pole to pole. */
    @Test
    void whatWasAskedOnTheOtherSideOfTheEarthIsAnotherPlace() {
        for (GroundPoint[] pair : new GroundPoint[][] {
            {GroundPoint.at(89.9, 10.1), GroundPoint.at(89.9, -170.1)},
            {GroundPoint.at(89.8, 10.1), GroundPoint.at(-89.9, 10.1)},
            {GroundPoint.at(0.1, 10.1), GroundPoint.at(0.1, -170.1)}
        }) {
            VariationMap map = new VariationMap(MagneticModel.WMM2025, 2026.41);
            map.eastDegAt(pair[0], 3000);
            assertThat(map.eastDegAt(pair[1], 3000))
                    .as(pair[1].toString())
                    .isEqualTo(new VariationMap(MagneticModel.WMM2025, 2026.41).eastDegAt(pair[1], 3000));
        }
    }

    @Test
    void theAnswerDoesNotDependOnWhatWasAskedBefore() {
        GroundPoint place = GroundPoint.at(38.2, -49.92);
        VariationMap map = new VariationMap(MagneticModel.WMM2025, 2026.41);
        double first = map.eastDegAt(place, 6000);
        SplittableRandom random = new SplittableRandom(1);
        for (int i = 0; i < 3000; i++) {
            map.eastDegAt(GroundPoint.at(random.nextDouble(-90, 90), random.nextDouble(-180, 180)), 6000);
        }
        assertThat(map.eastDegAt(place, 6000)).isEqualTo(first);
    }
}
