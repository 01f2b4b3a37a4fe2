package org.rejoin.bridge.geo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;

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
                assertThat(Angles.turn(
                                map.eastDegAt(place, feet) - field.variation().eastDeg()))
                        .as("%s %s", place, feet)
                        .isCloseTo(0, within(0.01));
            }
        }
        assertThat(judged).isGreaterThan(15_000);
    }

    @Test
    void polesAndTheAntimeridianAreNoEdge() {
        VariationMap map = new VariationMap(MagneticModel.WMM2025, 2026.41);
        assertThat(map.eastDegAt(new Position(20, -180), 0))
                .isCloseTo(map.eastDegAt(new Position(20, 179.999999), 0), within(1e-4));
        assertThat(map.eastDegAt(new Position(90, 0), 5000)).isFinite();
        assertThat(map.eastDegAt(new Position(-90, 0), 5000)).isFinite();
    }

    @Test
    void theAnswerDoesNotDependOnWhatWasAskedBefore() {
        Position place = new Position(38.2, -49.92);
        VariationMap map = new VariationMap(MagneticModel.WMM2025, 2026.41);
        double first = map.eastDegAt(place, 6000);
        SplittableRandom random = new SplittableRandom(1);
        for (int i = 0; i < 3000; i++) {
            map.eastDegAt(new Position(random.nextDouble(-90, 90), random.nextDouble(-180, 180)), 6000);
        }
        assertThat(map.eastDegAt(place, 6000)).isEqualTo(first);
    }
}
