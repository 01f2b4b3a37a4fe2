package org.rejoin.bridge.tracker;

import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.geo.Position;

/**
 * Where the flight stands, once for each sample: for the status line, the page and the grade.
 *
 * @param timeS seconds since the first sample
 * @param position WGS 84
 * @param trackTrueDeg over the ground, true
 * @param groundSpeedKt knots
 * @param phase what the pilot is about
 * @param legIndex of the leg whose line is measured, in the amended route; -1 before any clearance
 * @param crossTrackNm from that line, right positive; empty without a line
 * @param toGoNm along that line to its end; empty without a line
 * @param trackErrorDeg track less course; empty without a line
 * @param headingErrorDeg heading less assigned, while one is judged
 * @param altitudeErrorFt altitude less assigned, while one is judged
 * @param speedErrorKt indicated airspeed less assigned, while one is judged; 0 on the side where more, or less, is allowed
 * @param established whether the aircraft is established on that line
 * @param nextFix where that leg ends
 */
public record Progress(
        double timeS,
        Position position,
        double trackTrueDeg,
        double groundSpeedKt,
        Phase phase,
        int legIndex,
        OptionalDouble crossTrackNm,
        OptionalDouble toGoNm,
        OptionalDouble trackErrorDeg,
        OptionalDouble headingErrorDeg,
        OptionalDouble altitudeErrorFt,
        OptionalDouble speedErrorKt,
        boolean established,
        Optional<String> nextFix) {

    /** What the pilot is about. */
    public enum Phase {
        /** No amendment yet. */
        AS_FILED("as filed"),
        /** On a heading, toward the course. */
        CLOSING("closing on the course"),
        /** On the course to intercept. */
        ON_COURSE("on the course"),
        /** Past its end, toward the route. */
        JOINING("joining the route"),
        /** The amendment is done. */
        COMPLETE("amendment complete");

        private final String words;

        Phase(String words) {
            this.words = words;
        }

        /**
         * For a status line.
         *
         * @return a few words
         */
        public String words() {
            return words;
        }
    }
}
