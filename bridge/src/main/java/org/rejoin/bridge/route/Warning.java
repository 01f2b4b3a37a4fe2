package org.rejoin.bridge.route;

/** Something the pilot should know before flying the amendment. */
public record Warning(Code code, String text) {

    /** The kinds of warning. */
    public enum Code {
        /** The track on the heading never meets the course. */
        HEADING_DOES_NOT_REACH_COURSE,
        /** The intercept angle is under 20 degrees. */
        SHALLOW_INTERCEPT,
        /** The intercept angle is over 90 degrees. */
        STEEP_INTERCEPT,
        /** What is to be reached lies behind. */
        CROSSING_BEHIND,
        /** A radial is used outside its station's standard service volume. */
        OUT_OF_SERVICE_VOLUME,
        /** The lines that make the fix cross at under 30 degrees. */
        WEAK_FIX_GEOMETRY,
        /** The altitude is below the minimum of the airway. */
        BELOW_MINIMUM_ALTITUDE,
        /** The airway has a minimum altitude that the chart does not tell: whether it is kept cannot be judged. */
        MINIMUM_ALTITUDE_UNKNOWN,
        /** The altitude is above the maximum of the airway. */
        ABOVE_MAXIMUM_ALTITUDE,
        /** The lead is longer than the leg. */
        NO_ROOM_TO_TURN,
        /** The words left a choice; the text says which way it was taken and why. */
        CHOICE_MADE,
        /** The cleared route ends at a fix from which nothing is filed, and how it goes on is not said. */
        ROUTE_ENDS_SHORT,
        /** Part of the clearance is understood and shown, and the pilot is not watched in it. */
        NOT_FOLLOWED,
        /** The wind carries the aircraft far off its heading; the text says how far. */
        STRONG_WIND,
        /** A crossing altitude takes more than the aircraft climbs or descends. */
        CROSSING_STEEP,
        /** The place of a crossing altitude is not ahead on the amended route. */
        CROSSING_NOT_ON_ROUTE,
        /** The fix of a report is not ahead on the amended route. */
        REPORT_NOT_ON_ROUTE,
        /** Altitudes of the clearance contradict each other, or a climb goes down, or a descent up. */
        ALTITUDES_CONFLICT,
        /** The turn goes round by more than half a circle. */
        LONG_WAY_ROUND,
        /** The assigned speed cannot be flown here. */
        SPEED_NOT_POSSIBLE,
        /** A time of the clearance, such as that of further clearance, is over already. */
        TIME_IN_THE_PAST,
        /** The aircraft is so far from the route that its position, or the chart, is likely wrong. */
        FAR_FROM_ROUTE,
        /** The magnetic model cannot be trusted here or on this day. */
        MAGNETIC_MODEL
    }
}
