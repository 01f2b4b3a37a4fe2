package org.rejoin.protocol;

/**
 * One sample as its decoder holds it, read without making an object. It is good only until {@link StateSink#sample}
 * returns: the decoder uses it again for the next one. Take a {@link #snapshot} of what is to last.
 *
 * <p>NaN means that the sender did not send the value. Ranges are those of {@link AircraftState}; {@link StateRange}
 * holds them.
 */
public interface StateView {

    /**
     * Time of receipt.
     *
     * @return seconds since 1970-01-01 UTC
     */
    double receivedS();

    /**
     * The sender's own clock; only differences of it mean anything.
     *
     * @return seconds, NaN where it sends none
     */
    double sourceS();

    /**
     * After how much the sender's clock starts again at 0.
     *
     * @return seconds; positive infinity where it never does
     */
    double sourceWrapS();

    /**
     * Which aircraft of this sender: DIS "site:application:entity", JSON callsign.
     *
     * @return empty text where the sender names none
     */
    String aircraft();

    /**
     * Callsign or marking as sent, control characters replaced by '?'.
     *
     * @return empty text where unsent
     */
    String marking();

    /**
     * First component of the upward unit normal of the WGS 84 ellipsoid at the position, earth-centred axes: toward 0 N 0 E.
     *
     * @return [-1, 1]
     */
    double normalX();

    /**
     * Second component of the same normal, toward 0 N 90 E.
     *
     * @return [-1, 1]
     */
    double normalY();

    /**
     * Third component of the same normal, toward the North Pole.
     *
     * @return [-1, 1]
     */
    double normalZ();

    /**
     * WGS 84 geodetic latitude.
     *
     * @return degrees, north positive
     */
    double latitudeDeg();

    /**
     * WGS 84 longitude.
     *
     * @return degrees, east positive
     */
    double longitudeDeg();

    /**
     * Altitude above mean sea level.
     *
     * @return feet
     */
    double altitudeMslFt();

    /**
     * Heading from true north.
     *
     * @return degrees
     */
    double headingTrueDeg();

    /**
     * Heading from magnetic north.
     *
     * @return degrees
     */
    double headingMagneticDeg();

    /**
     * Track over the ground from true north; also NaN while standing still.
     *
     * @return degrees
     */
    double trackTrueDeg();

    /**
     * Ground speed.
     *
     * @return knots
     */
    double groundSpeedKt();

    /**
     * Vertical speed.
     *
     * @return feet a minute, up positive
     */
    double verticalSpeedFpm();

    /**
     * Pitch.
     *
     * @return degrees, nose up positive
     */
    double pitchDeg();

    /**
     * Roll.
     *
     * @return degrees, right wing down positive
     */
    double rollDeg();

    /**
     * Indicated airspeed.
     *
     * @return knots
     */
    double indicatedAirspeedKt();

    /**
     * Whether the sender says that the simulation stands still.
     *
     * @return false where it says nothing
     */
    boolean paused();

    /**
     * This sample as a state that lasts.
     *
     * @param timeS its time, see {@link AircraftState#timeS}, finite
     * @return a new state
     */
    default AircraftState snapshot(double timeS) {
        return AircraftState.of(this, timeS, null);
    }
}
