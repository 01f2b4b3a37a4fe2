package org.rejoin.bridge.route;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.rejoin.bridge.chart.Station;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

final class ServiceVolumeTest {

    /** Aeronautical Information Manual 1-1-8, table 1-1-1. */
    @ParameterizedTest
    @CsvSource({
        "T, 5000, 25, true",
        "T, 5000, 25.1, false",
        "T, 13000, 10, false",
        "T, 900, 10, false",
        "L, 6000, 40, true",
        "L, 6000, 41, false",
        "L, 18000, 40, true",
        "VL, 4999, 41, false",
        "VL, 5000, 70, true",
        "VL, 5000, 70.1, false",
        "H, 10000, 41, false",
        "H, 14500, 40, true",
        "H, 15000, 100, true",
        "H, 17999, 101, false",
        "H, 18000, 130, true",
        "H, 45000, 130, true",
        "H, 45001, 101, false",
        "H, 60000, 100, true",
        "VH, 6000, 69, true",
        "VH, 14500, 100, true"
    })
    void insideOrOutside(Station.ServiceClass serviceClass, double heightFt, double distanceNm, boolean inside) {
        assertThat(distanceNm <= serviceClass.radiusNm(heightFt)).isEqualTo(inside);
        assertThat(serviceClass.radiusNm(heightFt)).isLessThanOrEqualTo(serviceClass.largestRadiusNm());
    }

    /** FAA Order JO 7110.65, 4-1-5 b4. */
    @ParameterizedTest
    @CsvSource({"25, 30", "30, 30", "40, 40", "45, 45", "60, 45"})
    void leastAngleBetweenRadials(double distanceNm, double leastDeg) {
        assertThat(FixDefinitions.minimumDivergenceDeg(distanceNm)).isEqualTo(leastDeg);
    }

    /** Instrument Flying Handbook, FAA-H-8083-15B, chapter 9; the vectors are our own arithmetic by it. */
    @ParameterizedTest
    @CsvSource({"5, 20", "10, 20", "22, 44", "45, 90", "60, 90", "-22, 44"})
    void doubleTheAngle(double offDeg, double interceptDeg) {
        assertThat(HeadingPlan.doubleTheAngle(offDeg)).isCloseTo(interceptDeg, within(1e-12));
    }
}
