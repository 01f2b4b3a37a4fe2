package org.rejoin.bridge.feed;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Angles;

import org.jspecify.annotations.Nullable;

/**
 * Carries heading, altitude and indicated airspeed of one aircraft from sample to sample where its sender sends them less
 * often than the position: a compass once a second beside positions five times a second. Confined to one thread.
 */
final class HeldValues {

    /** What is sent every two seconds is carried, late as it may come; what is older is not known any more, seconds. */
    static final double LONGEST_S = 2.5;

    /** Variation changes by less than a degree in so long, seconds. */
    private static final double VARIATION_S = 300;

    private @Nullable AircraftState heading;
    private @Nullable AircraftState altitude;
    private @Nullable AircraftState airspeed;
    private double variationDeg = Double.NaN;
    private double variationAtS;

    /** The next sample, with what it lacks and was sent a moment before. */
    AircraftState with(AircraftState sent) {
        AircraftState next = oneHeading(sent);
        heading = next.hasHeading() ? next : young(heading, next);
        altitude = Double.isNaN(next.altitudeMslFtOrNaN()) ? young(altitude, next) : next;
        airspeed = Double.isNaN(next.indicatedAirspeedKtOrNaN()) ? young(airspeed, next) : next;
        return next.carrying(or(heading, next), or(altitude, next), or(airspeed, next));
    }

    /** Both headings wherever there is one: a variation sent more seldom must not make it true now and magnetic then. */
    private AircraftState oneHeading(AircraftState sent) {
        double trueDeg = sent.headingTrueDegOrNaN();
        double magneticDeg = sent.headingMagneticDegOrNaN();
        if (!Double.isNaN(trueDeg - magneticDeg)) {
            variationDeg = Angles.difference(trueDeg - magneticDeg);
            variationAtS = sent.timeS();
            return sent;
        }
        return Double.isNaN(variationDeg) || sent.timeS() - variationAtS > VARIATION_S
                ? sent
                : sent.withVariation(variationDeg);
    }

    private static AircraftState or(@Nullable AircraftState held, AircraftState next) {
        return held == null ? next : held;
    }

    private static @Nullable AircraftState young(@Nullable AircraftState held, AircraftState next) {
        return held != null && next.timeS() - held.timeS() <= LONGEST_S ? held : null;
    }
}
