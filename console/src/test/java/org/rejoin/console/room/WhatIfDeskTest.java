package org.rejoin.console.room;

import static org.assertj.core.api.Assertions.assertThat;

import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The page shows whole degrees and knots: a flight as flown is in the lesson's wind all the same. */
class WhatIfDeskTest {

    private static Wind wind(double fromDeg, double kt) {
        return new Wind(new TrueDirection(fromDeg), kt);
    }

    @ParameterizedTest
    @CsvSource({"247.5, 12.5, 248, 13", "247.4, 12.4, 247, 12", "359.6, 20, 360, 20", "270, 15, 270, 15"})
    void theLessonsWindInWholeNumbersIsTheLessonsWind(double deg, double kt, double shownDeg, double shownKt) {
        assertThat(WhatIfDesk.asGiven(wind(shownDeg, shownKt), wind(deg, kt))).isEqualTo(wind(deg, kt));
    }

    @ParameterizedTest
    @CsvSource({"249, 13", "248, 14", "246, 12", "270, 15"})
    void anotherWindStaysAnother(double deg, double kt) {
        assertThat(WhatIfDesk.asGiven(wind(deg, kt), wind(247.5, 12.5))).isEqualTo(wind(deg, kt));
    }
}
