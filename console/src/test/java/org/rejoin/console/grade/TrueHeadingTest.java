package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;

import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.ocean.ClosedFormFlight;
import org.rejoin.bridge.ocean.Ocean;

import org.assertj.core.data.Offset;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Heading 180, flown as 180 true, which runs along V40 miles beside it. It is off by the variation, of the world magnetic
 * model, and an assigned heading is magnetic (AIM 4-2-10).
 */
class TrueHeadingTest {

    private static final double VARIATION_DEG = MagneticModel.WMM2025
            .field(new Position(30.7, -44.3), 6000, MagneticModel.decimalYear(Ocean.DATE))
            .variation()
            .eastDeg();

    /** On the heading already, so far west of the airway, and left so long after it was said. */
    private static Flown flown(double besideNm, double afterS) {
        Position start = Ocean.V40.pointAt(8).destination(new TrueDirection(270), besideNm);
        ClosedFormFlight flight = new ClosedFormFlight(start, 180 + VARIATION_DEG, 120, Ocean.CALM).seconds(2 + afterS);
        flight.turnTo(Ocean.V40.offset(flight.end().position()).course().deg()).seconds(400);
        return Flown.fly(flight.sample(2), List.of(Ocean.say(2, "fly heading 180, intercept V40, then as filed")));
    }

    @ParameterizedTest
    @CsvSource({"2.5, 4", "3, 8", "4.3, 2", "4.3, 5", "4.3, 9", "6, 5", "9, 5"})
    void aMagneticHeadingFlownAsTrueIsAHeadingNotHeld(double besideNm, double afterS) {
        Flown flown = flown(besideNm, afterS);
        assertThat(Math.abs(VARIATION_DEG)).isGreaterThan(12);
        assertThat(flown.all(FlightEvent.TurnedEarly.class)).isEmpty();
        assertThat(flown.faults()).contains(FaultCode.HEADING_NOT_HELD).doesNotContain(FaultCode.TURNED_EARLY);
        assertThat(flown.criterion("HEADING").measured()).isCloseTo(Math.abs(VARIATION_DEG), Offset.offset(1.5));
        assertThat(flown.criterion("HEADING").met()).isFalse();
    }

    /** Held for a minute first, it is the turn onto the course that came too early. */
    @ParameterizedTest
    @CsvSource({"3, 60"})
    void heldFirstItIsATurnTooEarly(double besideNm, double afterS) {
        assertThat(flown(besideNm, afterS).all(FlightEvent.TurnedEarly.class)).hasSize(1);
    }
}
