package org.rejoin.console.skill;

import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What makes a drill easy or hard, as the program worked it out, not as it was wished for.
 *
 * @param shape of the line
 * @param angleDeg between track and course where they meet, degrees, (0, 180)
 * @param minutes from the clearance to the line
 * @param crosswindKt across the course, knots, 0 or more
 * @param tailwindKt along the track to the line, knots; negative from ahead
 * @param turnAtFixDeg at the end of the line, degrees, right positive; empty where the route ends there
 * @param turnOntoCourseDeg from the track to the course, degrees, right positive
 * @param firstTurnDeg from the present heading to the assigned one, degrees, right positive
 * @param reciprocalTrap whether the present heading lies within 60 degrees of the wrong way along the line
 * @param ndb whether the line is a bearing of an NDB, which no course can be set for
 * @param lookAlike whether a station that sounds alike is near
 * @param outNm farthest from the station that gives the course, nautical miles; empty where none does
 * @param extras assigned altitudes and speeds, and "until established", each one
 * @param entry of the hold that it ends in; empty where it ends in none
 */
public record Features(
        Shape shape,
        double angleDeg,
        double minutes,
        double crosswindKt,
        double tailwindKt,
        OptionalDouble turnAtFixDeg,
        double turnOntoCourseDeg,
        double firstTurnDeg,
        boolean reciprocalTrap,
        boolean ndb,
        boolean lookAlike,
        OptionalDouble outNm,
        int extras,
        Optional<Entry> entry) {

    /** How a hold is entered. */
    public enum Entry {
        /** Turning to follow the pattern. */
        DIRECT,
        /** Thirty degrees toward the holding side first. */
        TEARDROP,
        /** Along the inbound course first. */
        PARALLEL;

        /** {@return the word, lower case} */
        public String word() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /** {@return which way the line is flown; "TO" or "FROM" the station; empty on an airway} */
    public Optional<String> direction() {
        return shape.direction();
    }
}
