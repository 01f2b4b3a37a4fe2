package org.rejoin.console.grade;

import java.util.regex.Pattern;

import org.rejoin.bridge.flight.FaultCode;

/**
 * Something that went wrong.
 *
 * @param atS when, seconds since the first sample
 * @param text what happened, and what to practise
 * @param severity 0 at the threshold that makes it a fault, 1 from twice the threshold on
 */
public record Fault(FaultCode code, double atS, String text, double severity) {

    private static final String PRACTISE = ". Practise: ";

    /** A fault with what to practise against it. */
    static Fault of(FaultCode code, double atS, String what, double severity) {
        return of(code, atS, what, severity, practise(code));
    }

    /** The same, where the cause is known and what to practise with it. */
    static Fault of(FaultCode code, double atS, String what, double severity, String practise) {
        return new Fault(code, atS, what + PRACTISE + practise + ".", severity);
    }

    /** What happened, without the figures beside it and what to practise. */
    String shortly() {
        return text.split(Pattern.quote(PRACTISE) + "|;", 2)[0];
    }

    /** The same with more of what happened. */
    Fault adding(String how) {
        return new Fault(code, atS, text.replace(PRACTISE, how + PRACTISE), severity);
    }

    /** The same with something else to practise. */
    Fault practising(String practise) {
        return of(code, atS, text.substring(0, text.indexOf(PRACTISE)), severity, practise);
    }

    /**
     * How grave something is, from 0 at its threshold to 1 at twice the threshold: two flights that a pilot could not tell
     * apart differ little. The shape is common practice, no source.
     */
    static double severity(double value, double threshold) {
        return Math.min(1, Math.max(0, value / threshold - 1));
    }

    /** Share of the points for flying without faults that it costs: all of them where it is grave, else half. */
    double cost() {
        return severity * (code.grave() ? 1 : 0.5);
    }

    private static String practise(FaultCode code) {
        return switch (code) {
            case FLOWN_THROUGH ->
                "watch the distance to the line shrink and begin the turn at the lead, before the line";
            case WRONG_DIRECTION ->
                "say the course and TO or FROM aloud before turning; compare heading with course after it";
            case TURNED_EARLY ->
                "work the lead out beforehand, turn radius times tan(angle/2), at 120 kt 0.64 NM for 90 degrees; hold the"
                        + " heading until then";
            case WRONG_TURN -> "before the fix say which way and to what course the turn goes";
            case WEAVING -> "set one correction, wait for it to work, then halve it";
            case HEADING_NOT_HELD ->
                "fly the assigned heading until the turn onto the course; trim, and scan the heading";
            case COURSE_NOT_HELD ->
                "correct while the needle is near the middle: a heading that brings it back, then one that holds it there";
            case ALTITUDE_NOT_HELD -> "keep altitude in the scan while working the route out";
            case SPEED_NOT_HELD -> "set power and pitch for the assigned speed first, then trim; keep it in the scan";
            case OVERSHOOT -> "begin the turn earlier, at the lead for this speed and angle";
            case ROUTE_LEFT -> "stay on the cleared course to its fix; know the distance to go before you turn";
            case NOT_ACHIEVED -> "brief the amended route on paper first, then fly it again";
            case HOLD_WRONG_SIDE ->
                "draw the hold before you reach it: the inbound course to the fix, the turns, the side they go round";
            case HOLD_NOT_ENTERED ->
                "know the entry and its first heading before the fix; over the fix turn, time, twist, report";
            case CROSSING_MISSED ->
                "work out the feet a minute when you hear the crossing, and begin the climb or the descent then";
            case SEQUENCE_MISSED -> "know the distance to the fix, and what comes after it, before you get there";
        };
    }
}
