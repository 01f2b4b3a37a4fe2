package org.rejoin.protocol;

import org.rejoin.protocol.earth.GroundPoint;

/**
 * One sample as its decoder holds it, read without making an object. It is good only until {@link StateSink#sample}
 * returns: the decoder uses it again for the next one. Take a {@link #snapshot} of what is to last.
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

    /** {@return callsign or marking as sent, characters that are not seen replaced by '?'; empty text where unsent} */
    String marking();

    /** {@return where the aircraft is, in the way its sender says it; an object that lasts} */
    GroundPoint place();

    /** A quantity, in its unit and range; NaN where the sender did not send it, of the track also while standing still. */
    double value(StateRange what);

    /** {@return whether the sender says that the simulation stands still; false where it says nothing} */
    boolean paused();

    /** This sample as a state that lasts. */
    default AircraftState snapshot(double timeS) {
        return AircraftState.of(this, timeS, null);
    }
}
