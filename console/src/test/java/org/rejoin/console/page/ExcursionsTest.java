package org.rejoin.console.page;

import static org.assertj.core.api.Assertions.assertThat;

import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.flight.Point;
import org.rejoin.protocol.AircraftState;

import org.junit.jupiter.api.Test;

/** How far off a pilot is, said while he is: as it is now, not as it was when it began. */
class ExcursionsTest {

    private static Point low(double timeS, double errorFt) {
        return new Point(
                AircraftState.at(timeS, 38, -50),
                timeS,
                90,
                140,
                0,
                Double.NaN,
                Point.Phase.AS_FILED,
                -1,
                Double.NaN,
                Double.NaN,
                Double.NaN,
                2,
                Double.NaN,
                errorFt,
                Double.NaN,
                false,
                false,
                false);
    }

    @Test
    void theFeetThatHeIsLowAreThoseOfThisMoment() {
        Excursions excursions = new Excursions(Limits.INSTRUMENT_RATING);
        assertThat(excursions.of(low(10, -99))).isEmpty();
        assertThat(excursions.of(low(11, -105))).containsExactly(new Tile.LimitOff("105 ft low", 11));
        assertThat(excursions.of(low(20, -240.6))).containsExactly(new Tile.LimitOff("241 ft low", 11));
        assertThat(excursions.of(low(30, -120))).containsExactly(new Tile.LimitOff("120 ft low", 11));
        assertThat(excursions.of(low(40, -20))).isEmpty();
        assertThat(excursions.of(low(50, 130))).containsExactly(new Tile.LimitOff("130 ft high", 50));
    }
}
