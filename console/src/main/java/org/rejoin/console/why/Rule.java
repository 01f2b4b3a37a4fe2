package org.rejoin.console.why;

import java.util.List;

import org.rejoin.bridge.flight.FlightEvent;

/** The rules of the tracker, in the words of its page, {@code bridge/docs/tracker.md}: a test holds the two together. */
public enum Rule {
    /** Established. */
    ESTABLISHED(
            "established",
            "within half scale, track within 10 deg of the course, turning less than 1 deg/s, for 5 s",
            "half scale: ICAO Doc 8168 Vol I (from memory); the rest no source"),
    /** Full scale. */
    FULL_SCALE(
            "full scale",
            "2 NM en route, 1 NM terminal; 10 deg of a VOR, not less than at 1 NM from it",
            "AIM 1-1-17, AC 20-138; AIM 1-1-3; the last no source"),
    /** Course deviation. */
    COURSE_DEVIATION("course deviation", "3/4 of full scale once established", "FAA-S-ACS-8C, IR.V.A.S6"),
    /** Heading. */
    HEADING(
            "heading",
            "10 deg off for 10 s, from 10 s + (angle to turn)/3 after the clearance until the turn "
                    + "onto the course",
            "the project's contract; FAA-S-ACS-8C, IR.V.B.S7; reaction as in ICAO Doc 8168"),
    /** Turn onto the course. */
    TURN_ONTO_THE_COURSE(
            "turn onto the course",
            "off the heading toward the course and within half scale or along the course to 10 deg; "
                    + "while such a turn goes on (0.5 deg/s) nothing is judged; near the line also onto the "
                    + "reciprocal",
            "no source"),
    /** Heading taken up. */
    HEADING_TAKEN_UP("heading taken up", "within 5 deg for 3 s", "FAA-S-ACS-8C, IR.V.A.S5; the time no source"),
    /** Altitude. */
    ALTITUDE(
            "altitude",
            "100 ft, from when first reached or should have been at 500 ft/min after 10 s",
            "FAA-S-ACS-8C; AIM 4-4-10; 10 s no source"),
    /** Speed. */
    SPEED(
            "speed",
            "10 kt indicated, from when first reached or should have been at 0.5 kt a second after 10"
                    + " s; nothing said where the feed has none; \"or greater\" and \"do not exceed\" count on "
                    + "one side only; a fault after 10 s",
            "FAA-S-ACS-8C, IR.V.B.S7; the rate and the time no source"),
    /** Crossing logged. */
    CROSSING_LOGGED("crossing logged", "more than 5 deg to the line, after at least 0.01 NM off it", "no source"),
    /** Flown through. */
    FLOWN_THROUGH(
            "flown through",
            "crossed at more than 15 deg, no turn toward the course within 10 s: neither 2 deg "
                    + "closer, nor 0.75 deg closer and turning at 0.5 deg/s",
            "the project's contract; what a turn is: no source"),
    /** Overshoot. */
    OVERSHOOT("overshoot", "from 0.1 NM on the far side", "the project's contract"),
    /** Turned early. */
    TURNED_EARLY(
            "turned early",
            "closing before (12 deg), then parallel to 10 deg and not turning, beyond half scale on "
                    + "the near side, for 15 s",
            "the project's contract; 12 deg no source"),
    /** Wrong direction. */
    WRONG_DIRECTION(
            "wrong direction",
            "within half scale and 30 deg of the reciprocal for 15 s; who flies it when cleared has "
                    + "70 s to turn round",
            "the project's contract; 70 s = 10 s + 180 deg at standard rate"),
    /** Another course tracked. */
    ANOTHER_COURSE_TRACKED(
            "another course tracked",
            "until the cleared one is achieved: for 60 s along (10 deg) another radial of the cleared"
                    + " station, 4 deg or more from the cleared one, or within half scale of the radial of the "
                    + "same number of another station within 130 NM; the way of that minute within 3 deg of it "
                    + "(and within a third of the angle between the radials); beyond half scale from the "
                    + "cleared course, 10 deg off the heading that meets it, and once turned 15 deg from the "
                    + "track at the clearance",
            "no source"),
    /** Weaving. */
    WEAVING(
            "weaving",
            "3 crossings in 3 min with swings of more than 10 deg, each flatter than 60 deg",
            "the project's contract; 60 deg no source"),
    /** Fix sequenced. */
    FIX_SEQUENCED(
            "fix sequenced",
            "on the bisector of its legs once the turn is begun (10 deg) or due (its lead), else abeam; within 4 NM; "
                    + "not while on an assigned heading that has not met the leg",
            "RTCA DO-236 (from memory); FAA Order JO 7400.2 ch. 20; 10 deg no source"),
    /** Turn at the fix. */
    TURN_AT_THE_FIX(
            "turn at the fix",
            "began: worked back from a quarter and six tenths of a turn of 20 to 150 deg; lead "
                    + "R·tan(turn/2), R at standard rate; over when within 10 deg of the new course for 3 s; "
                    + "fly-by area: between the courses and the led arc, with 0.5 NM (or 3/4 of the scale) on "
                    + "both sides",
            "lead: the project's contract; area: RTCA DO-236 (from memory); the rest no source"),
    /** Wrong turn. */
    WRONG_TURN(
            "wrong turn",
            "30 deg the wrong way and away from the old line, from lead + 0.7 NM before the fix to 90 s after it",
            "the project's contract; values no source"),
    /** Sequence missed. */
    SEQUENCE_MISSED(
            "sequence missed",
            "within 15 deg of the old course 30 s after abeam, where the route turns by more than 15 "
                    + "deg and no wrong turn was made",
            "the project's contract"),
    /** Direct. */
    DIRECT(
            "direct",
            "the course begins where the aircraft points at the fix (5 deg, level), at the latest 20 "
                    + "s + turn time after the clearance",
            "no source"),
    /** Feed lost. */
    FEED_LOST(
            "feed lost",
            "no sample for the timeout of the feed; 12 s for DIS",
            "IEEE 1278.1, 2.4 times the 5 s heartbeat"),
    /** Pause. */
    PAUSE("pause", "the same position for 2 s after flying at 30 kt or more", "no source"),
    /** Repositioned. */
    REPOSITIONED("repositioned", "more than 0.5 NM and three times what 200 kt or the speed explains", "no source");

    private final String title;
    private final String definition;
    private final String source;

    Rule(String title, String definition, String source) {
        this.title = title;
        this.definition = definition;
        this.source = source;
    }

    /**
     * What it defines.
     *
     * @return a few words
     */
    public String title() {
        return title;
    }

    /**
     * Its conditions and thresholds.
     *
     * @return one line
     */
    public String definition() {
        return definition;
    }

    /**
     * Where the thresholds come from.
     *
     * @return document and paragraph, or "no source"
     */
    public String source() {
        return source;
    }

    /**
     * The rules that decide an event.
     *
     * @param event any
     * @return the deciding one first; empty for an event that follows from no rule: the begin and end of a flight, a
     *     clearance, and what is complete when its parts are
     */
    public static List<Rule> of(FlightEvent event) {
        return switch (event.name()) {
            case "heading_established" -> List.of(HEADING_TAKEN_UP);
            case "heading_deviation_began", "heading_deviation_ended" -> List.of(HEADING, TURN_ONTO_THE_COURSE);
            case "intercept_achieved", "airway_joined", "route_resumed", "amendment_complete" ->
                List.of(ESTABLISHED, FULL_SCALE);
            case "course_crossed" -> List.of(CROSSING_LOGGED);
            case "overshoot" -> List.of(OVERSHOOT, ESTABLISHED);
            case "flown_through" -> List.of(FLOWN_THROUGH);
            case "course_deviation_began", "course_deviation_ended" -> List.of(COURSE_DEVIATION, FULL_SCALE);
            case "turned_early" -> List.of(TURNED_EARLY, FULL_SCALE);
            case "wrong_direction" -> List.of(WRONG_DIRECTION, FULL_SCALE);
            case "other_course_tracked" -> List.of(ANOTHER_COURSE_TRACKED);
            case "wrong_turn" -> List.of(WRONG_TURN);
            case "sequence_missed" -> List.of(SEQUENCE_MISSED);
            case "weaving" -> List.of(WEAVING);
            case "altitude_deviation_began", "altitude_deviation_ended" -> List.of(ALTITUDE);
            case "speed_deviation_began", "speed_deviation_ended" -> List.of(SPEED);
            case "fix_sequenced" -> List.of(FIX_SEQUENCED);
            case "turn_at_fix" -> List.of(TURN_AT_THE_FIX);
            case "feed_lost", "feed_resumed" -> List.of(FEED_LOST);
            case "sim_paused", "sim_resumed" -> List.of(PAUSE);
            case "repositioned" -> List.of(REPOSITIONED);
            default -> List.of();
        };
    }
}
