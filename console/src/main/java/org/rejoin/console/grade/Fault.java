package org.rejoin.console.grade;

/**
 * Something that went wrong.
 *
 * @param code for machines
 * @param atS when, seconds since the first sample
 * @param text what happened, and what to practise
 */
public record Fault(Code code, double atS, String text) {

    /** The faults, with what to practise against each. */
    public enum Code {
        /** Crossed the line and flew on. */
        FLOWN_THROUGH("watch the distance to the line shrink and begin the turn at the lead, before the line", true),
        /** Flew the reciprocal. */
        WRONG_DIRECTION(
                "say the course and TO or FROM aloud before turning; compare heading with course after it", true),
        /** Rolled out short of the line. */
        TURNED_EARLY(
                "work the lead out beforehand, turn radius times tan(angle/2), at 120 kt 0.64 NM for 90 degrees; hold the heading"
                        + " until then"),
        /** Turned the wrong way at the fix. */
        WRONG_TURN("before the fix say which way and to what course the turn goes", true),
        /** Chased the needle. */
        WEAVING("set one correction, wait for it to work, then halve it"),
        /** Did not hold the assigned heading. */
        HEADING_NOT_HELD("fly the assigned heading until the turn onto the course; trim, and scan the heading"),
        /** Did not hold the assigned altitude. */
        ALTITUDE_NOT_HELD("keep altitude in the scan while working the route out"),
        /** Did not hold the assigned speed. */
        SPEED_NOT_HELD("set power and pitch for the assigned speed first, then trim; keep it in the scan"),
        /** Turned late. */
        OVERSHOOT("begin the turn earlier: at the lead for this speed and angle"),
        /** The amendment was not complete. */
        NOT_ACHIEVED("brief the amended route on paper first, then fly it again", true),
        /** Flew past the fix on the old course. */
        SEQUENCE_MISSED("know the distance to the fix and what comes after it; sequencing must be on again by then");

        private final String practise;
        private final boolean grave;

        Code(String practise) {
            this(practise, false);
        }

        Code(String practise, boolean grave) {
            this.practise = practise;
            this.grave = grave;
        }

        /** Whether the aircraft was somewhere or going somewhere the controller did not expect. */
        boolean grave() {
            return grave;
        }

        String practise() {
            return practise;
        }
    }
}
