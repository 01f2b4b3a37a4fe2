package org.rejoin.console.practice;

import java.util.OptionalDouble;

import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Turn;
import org.rejoin.bridge.geo.Variation;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.protocol.AircraftState;

/**
 * A point mass in the wind: constant true airspeed, coordinated turns by bank, limited bank and roll rate, steady climb.
 * Immutable; {@link #after} is the aircraft a moment later.
 *
 * @param timeS simulation time, seconds, from 0
 * @param position WGS 84
 * @param altitudeFt above mean sea level
 * @param heading true
 * @param bankDeg right positive
 * @param verticalSpeedFpm up positive
 * @param trueAirspeedKt knots
 * @param wind of the place
 */
record PracticeAircraft(
        double timeS,
        Position position,
        double altitudeFt,
        TrueDirection heading,
        double bankDeg,
        double verticalSpeedFpm,
        double trueAirspeedKt,
        Wind wind) {

    /** Largest bank, degrees: what a holding pattern allows (ICAO Doc 8168). */
    static final double LARGEST_BANK_DEG = 25;

    /** Roll rate, degrees a second; common practice, no source. */
    static final double ROLL_DEG_PER_S = 8;

    private static final double CLIMB_FPM = 700;

    GroundVector ground() {
        return GroundVector.onHeading(heading, trueAirspeedKt, wind);
    }

    /** Bank that turns at standard rate, or the largest. */
    double standardBankDeg() {
        return Math.min(LARGEST_BANK_DEG, Turn.bankDeg(trueAirspeedKt, Turn.STANDARD_RATE_DEG_PER_S));
    }

    /**
     * The aircraft a moment later.
     *
     * @param stepS seconds, small against a roll
     * @param wantedBankDeg right positive; limited to {@link #LARGEST_BANK_DEG}
     * @param wantedAltitudeFt to climb or descend to
     * @return a new state
     */
    PracticeAircraft after(double stepS, double wantedBankDeg, double wantedAltitudeFt) {
        double wanted = Math.max(-LARGEST_BANK_DEG, Math.min(LARGEST_BANK_DEG, wantedBankDeg));
        double roll = Math.max(-ROLL_DEG_PER_S * stepS, Math.min(ROLL_DEG_PER_S * stepS, wanted - bankDeg));
        double bank = bankDeg + roll;
        double rate = Turn.rateDegPerS(trueAirspeedKt, (bank + bankDeg) / 2);
        double climb = Math.max(-CLIMB_FPM, Math.min(CLIMB_FPM, (wantedAltitudeFt - altitudeFt) * 6));
        TrueDirection middle = new TrueDirection(heading.deg() + rate * stepS / 2);
        GroundVector ground = GroundVector.onHeading(middle, trueAirspeedKt, wind);
        return new PracticeAircraft(
                timeS + stepS,
                position.destination(ground.track(), ground.groundSpeedKt() * stepS / 3600),
                altitudeFt + climb * stepS / 60,
                new TrueDirection(heading.deg() + rate * stepS),
                bank,
                climb,
                trueAirspeedKt,
                wind);
    }

    /** What a simulator would send. */
    AircraftState state(Variation variation) {
        GroundVector ground = ground();
        MagneticDirection magnetic = heading.toMagnetic(variation);
        return new AircraftState(
                timeS,
                position.latitudeDeg(),
                position.longitudeDeg(),
                OptionalDouble.of(altitudeFt),
                OptionalDouble.of(heading.deg()),
                OptionalDouble.of(magnetic.deg()),
                OptionalDouble.of(ground.track().deg()),
                OptionalDouble.of(ground.groundSpeedKt()),
                OptionalDouble.of(verticalSpeedFpm),
                OptionalDouble.of(0),
                OptionalDouble.of(bankDeg),
                OptionalDouble.empty(),
                false);
    }
}
