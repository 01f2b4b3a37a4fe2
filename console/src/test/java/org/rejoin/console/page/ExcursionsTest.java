package org.rejoin.console.page;

import static org.assertj.core.api.Assertions.assertThat;

import org.rejoin.bridge.flight.FlightInstant;
import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.ocean.Points;
import org.rejoin.protocol.AircraftState;

import org.junit.jupiter.api.Test;

/** How far off a pilot is, said while he is: as it is now, not as it was when it began. */
class ExcursionsTest {

    private static Point low(double timeS, double errorFt) {
        FlightInstant here = Points.instant(AircraftState.at(timeS, 38, -50), 90, 140, 0, Double.NaN);
        return Point.asFiled(here, errorFt, Double.NaN, false);
    }

    private static Point toTheLine(double timeS, double crossTrackNm) {
        FlightInstant here = Points.instant(AircraftState.at(timeS, 38, -50), 150, 140, 0, 150);
        return Points.onLeg(here, Point.Phase.CLOSING, 0, crossTrackNm, 30, 66, Double.NaN);
    }

    /** The crossing fell into a gap of the data: nobody saw it, and he flies on. */
    @Test
    void whoFliesOnBeyondTheLineIsSaidToGoAwayWhateverWasReceivedAtTheCrossing() {
        Excursions excursions = new Excursions(Limits.INSTRUMENT_RATING);
        for (double s = 0; s <= 20; s++) {
            assertThat(excursions.of(toTheLine(s, -3 + s * 0.04))).isEmpty();
        }
        double heardAgainS = 91;
        for (double s = heardAgainS; s < heardAgainS + 60; s++) {
            assertThat(excursions.of(toTheLine(s, 0.6 + (s - heardAgainS) * 0.04)))
                    .as("%s", s)
                    .isEmpty();
        }
        assertThat(excursions.of(toTheLine(heardAgainS + 90, 4.2)))
                .containsExactly(new Tile.LimitOff("4.2 NM right of the line, going away", heardAgainS));
        // He turns back to it.
        excursions.of(toTheLine(heardAgainS + 120, 4.4));
        assertThat(excursions.of(toTheLine(heardAgainS + 140, 4.2))).isEmpty();
    }

    /** Late, he carries past the line and comes back: the crossing was seen, and the turn takes its time. */
    @Test
    void whoCarriesPastTheLineAndTurnsBackIsNotSaidToGoAway() {
        Excursions excursions = new Excursions(Limits.INSTRUMENT_RATING);
        for (double s = 0; s <= 60; s++) {
            assertThat(excursions.of(toTheLine(s, -2.4 + s * 0.04))).isEmpty();
        }
        // Out for 50 s, then back.
        for (double s = 60; s <= 110; s++) {
            assertThat(excursions.of(toTheLine(s, (s - 60) * 0.03))).as("%s", s).isEmpty();
        }
        for (double s = 110; s <= 150; s++) {
            assertThat(excursions.of(toTheLine(s, 1.5 - (s - 110) * 0.03)))
                    .as("%s", s)
                    .isEmpty();
        }
    }

    /** The next clearance leads to another line, far ahead: how near he was to the one before says nothing of it. */
    @Test
    void anotherClearanceBeginsAnew() {
        Excursions excursions = new Excursions(Limits.INSTRUMENT_RATING);
        for (double s = 0; s <= 30; s++) {
            excursions.of(toTheLine(s, -2 + s * 0.04));
        }
        excursions.rerouted();
        for (double s = 100; s <= 400; s++) {
            assertThat(excursions.of(toTheLine(s, 20 - (s - 100) * 0.04))).isEmpty();
        }
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
