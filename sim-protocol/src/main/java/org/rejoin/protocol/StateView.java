package org.rejoin.protocol;

/**
 * One sample as its decoder holds it, read without making an object. It is good only until {@link StateSink#sample}
 * returns: the decoder uses it again for the next one. Take a {@link #snapshot} of what is to last.
 *
 * <p>NaN means that the sender did not send the value. Ranges are those of {@link AircraftState}; {@link StateRange}
 * holds them.
 */
public interface StateView {

    /** {@return time of receipt, seconds since 1970-01-01 UTC} */
    double receivedS();

    /** {@return the sender's own clock; only differences of it mean anything; seconds, NaN where it sends none} */
    double sourceS();

    /** After how much the sender's clock starts again at 0, seconds; positive infinity where it never does. */
    double sourceWrapS();

    /**
     * Which aircraft of this sender: DIS "site:application:entity", JSON callsign; empty text where the sender names
     * none.
     */
    String aircraft();

    /** {@return number of the exercise of DIS it takes part in; {@link Decoded#NO_EXERCISE} where none is named} */
    default int exercise() {
        return Decoded.NO_EXERCISE;
    }

    /** {@return callsign or marking as sent, control characters replaced by '?'; empty text where unsent} */
    String marking();

    /**
     * First component of the upward unit normal of the WGS 84 ellipsoid at the position, earth-centred axes: toward 0 N
     * 0 E; [-1, 1].
     */
    double normalX();

    /** Second component of the same normal, toward 0 N 90 E; [-1, 1]. */
    double normalY();

    /** Third component of the same normal, toward the North Pole; [-1, 1]. */
    double normalZ();

    /** WGS 84 geodetic latitude, degrees, north positive. */
    double latitudeDeg();

    /** WGS 84 longitude, degrees, east positive. */
    double longitudeDeg();

    /** {@return altitude above mean sea level, feet} */
    double altitudeMslFt();

    /** {@return heading from true north, degrees} */
    double headingTrueDeg();

    /** {@return heading from magnetic north, degrees} */
    double headingMagneticDeg();

    /** {@return track over the ground from true north; also NaN while standing still, degrees} */
    double trackTrueDeg();

    /** {@return ground speed, knots} */
    double groundSpeedKt();

    /** {@return vertical speed; feet a minute, up positive} */
    double verticalSpeedFpm();

    /** Pitch, degrees, nose up positive. */
    double pitchDeg();

    /** Roll, degrees, right wing down positive. */
    double rollDeg();

    /** {@return indicated airspeed, knots} */
    double indicatedAirspeedKt();

    /** {@return whether the sender says that the simulation stands still; false where it says nothing} */
    boolean paused();

    /** This sample as a state that lasts. */
    default AircraftState snapshot(double timeS) {
        return AircraftState.of(this, timeS, null);
    }
}
