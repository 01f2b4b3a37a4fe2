package org.rejoin.protocol;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.OptionalDouble;

import org.rejoin.protocol.earth.GroundPoint;

import org.junit.jupiter.api.Test;

/** The aircraft between two samples. */
class BetweenSamplesTest {

    private static final GroundPoint HERE = GroundPoint.at(38, 179.999);
    private static final OptionalDouble UNSENT = OptionalDouble.empty();

    private static OptionalDouble sent(double value) {
        return OptionalDouble.of(value);
    }

    private static AircraftState between(AircraftState a, AircraftState b, double share) {
        return AircraftState.between(a, b, share, HERE);
    }

    private static AircraftState sample(
            double timeS,
            OptionalDouble altitudeFt,
            OptionalDouble headingTrueDeg,
            OptionalDouble headingMagneticDeg,
            OptionalDouble rollDeg) {
        return new AircraftState(
                timeS,
                38,
                179.999,
                altitudeFt,
                headingTrueDeg,
                headingMagneticDeg,
                UNSENT,
                sent(120),
                UNSENT,
                UNSENT,
                rollDeg,
                UNSENT,
                false);
    }

    @Test
    void everyQuantityIsInProportionAndDirectionsGoTheShortWayRound() {
        AircraftState between = between(
                sample(10, sent(6000), sent(350), sent(5), sent(170)),
                sample(12, sent(6100), sent(10), sent(355), sent(-170)),
                0.25);
        assertThat(between.timeS()).isEqualTo(10.5);
        assertThat(between.place()).isEqualTo(HERE);
        assertThat(between.altitudeMslFt()).hasValue(6025);
        assertThat(between.headingTrueDeg()).hasValue(355);
        assertThat(between.headingMagneticDeg()).hasValue(2.5);
        assertThat(between.rollDeg()).hasValue(175);
        assertThat(between.groundSpeedKt()).hasValue(120);
    }

    @Test
    void whatWasNotSentBeforeIsThatOfTheSampleAfter() {
        AircraftState between = between(
                sample(10, UNSENT, UNSENT, UNSENT, UNSENT), sample(12, sent(6100), sent(10), UNSENT, UNSENT), 0.5);
        assertThat(between.altitudeMslFt()).hasValue(6100);
        assertThat(between.headingTrueDeg()).hasValue(10);
        assertThat(between.headingMagneticDeg()).isEmpty();
    }

    @Test
    void whatWasCarriedInEitherIsCarried() {
        AircraftState before = sample(8, sent(6000), UNSENT, UNSENT, UNSENT);
        AircraftState unsent = sample(10, UNSENT, UNSENT, UNSENT, UNSENT);
        AircraftState carried = unsent.carrying(before, before, before);
        AircraftState after = sample(12, sent(6100), UNSENT, UNSENT, UNSENT);
        assertThat(between(carried, after, 0.5).altitudeCarried()).isTrue();
        assertThat(between(before, after, 0.5).altitudeCarried()).isFalse();
    }
}
