package org.rejoin.bridge.route;

import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Turn;

/**
 * The turn that begins an amendment: from the heading flown to the one assigned, or to the one that leads direct to a
 * fix.
 *
 * @param heading to turn to, by the compass
 * @param degrees how far, [0, 360)
 */
public record TurnToHeading(MagneticDirection heading, boolean right, double degrees) {

    /** {@return how long it takes, seconds at standard rate} */
    public double seconds() {
        return degrees / Turn.STANDARD_RATE_DEG_PER_S;
    }

    /**
     * {@return whether it goes the long way round; true for more than half a circle, as it is said: half a degree more is
     * none}
     */
    public boolean longWay() {
        return Math.rint(degrees) > 180;
    }
}
