package org.rejoin.bridge.flight;

/** What an examiner would write down as a fault. */
public enum FaultCode {
    /** Crossed the line and flew on. */
    FLOWN_THROUGH(true),
    /** Flew the reciprocal. */
    WRONG_DIRECTION(true),
    /** Rolled out short of the line. */
    TURNED_EARLY(false),
    /** Turned the wrong way at the fix. */
    WRONG_TURN(true),
    /** Chased the needle. */
    WEAVING(false),
    /** Did not hold the assigned heading. */
    HEADING_NOT_HELD(false),
    /** Did not keep to the course once established on it. */
    COURSE_NOT_HELD(false),
    /** Did not hold the assigned altitude. */
    ALTITUDE_NOT_HELD(true),
    /** Did not hold the assigned speed. */
    SPEED_NOT_HELD(false),
    /** Turned late. */
    OVERSHOOT(false),
    /** Left the cleared route. */
    ROUTE_LEFT(true),
    /** The amendment was not complete. */
    NOT_ACHIEVED(true),
    /** Flew past the fix on the old course. */
    SEQUENCE_MISSED(true),
    /** Turned to the side of the hold that is not for it. */
    HOLD_WRONG_SIDE(true),
    /** Flew on past the fix to hold at. */
    HOLD_NOT_ENTERED(true),
    /** Not at the altitude of a crossing. */
    CROSSING_MISSED(true);

    private final boolean grave;

    FaultCode(boolean grave) {
        this.grave = grave;
    }

    /**
     * {@return whether the aircraft was somewhere, or going somewhere, the controller did not expect; false where it was
     * only flown badly}
     */
    public boolean grave() {
        return grave;
    }
}
