package org.rejoin.console.page;

import java.util.OptionalDouble;

import org.rejoin.console.json.JsonNumbers;

/**
 * One sample as the page draws it.
 *
 * @param timeS seconds since the first sample
 * @param eastNm from the centre of the plan, to the right
 * @param southNm from the centre of the plan, downward
 * @param trackDeg over the ground, true
 * @param groundSpeedKt knots
 * @param altitudeFt above mean sea level
 * @param headingDeg by the compass
 * @param headingErrorDeg heading less assigned, while one is judged
 * @param altitudeErrorFt altitude less assigned, while one is judged
 * @param apart whether no line leads here from the row before
 * @param line where it stands against the amended route
 */
record Row(
        double timeS,
        double eastNm,
        double southNm,
        double trackDeg,
        double groundSpeedKt,
        OptionalDouble altitudeFt,
        OptionalDouble headingDeg,
        OptionalDouble headingErrorDeg,
        OptionalDouble altitudeErrorFt,
        boolean apart,
        Line line) {

    /**
     * Where a sample stands against the line it is measured from.
     *
     * @param clearance number of the clearance, from 1; 0 before any
     * @param leg index in its route; -1 for none
     * @param crossNm right of the line positive
     * @param toGoNm to the end of the leg
     * @param limitNm allowed either side
     * @param route number of the clearance that the route in force is of, another only where one left it as it was
     */
    record Line(int clearance, int leg, OptionalDouble crossNm, OptionalDouble toGoNm, double limitNm, int route) {}

    boolean follows(Row before) {
        return !apart && line.clearance == before.line.clearance && line.leg == before.line.leg;
    }

    /** As an array, in the order of the page's own table of columns (model.js). */
    void write(StringBuilder json, boolean withLine) {
        json.append('[');
        number(json, timeS, 2).append(',');
        number(json, eastNm, 4).append(',');
        number(json, southNm, 4).append(',');
        number(json, trackDeg, 1).append(',');
        number(json, groundSpeedKt, 1).append(',');
        number(json, altitudeFt, 0).append(',');
        number(json, headingDeg, 1).append(',');
        number(json, headingErrorDeg, 1).append(',');
        number(json, altitudeErrorFt, 0).append(',');
        json.append(apart ? 1 : 0);
        if (withLine) {
            json.append(',').append(line.clearance).append(',').append(line.leg).append(',');
            number(json, line.crossNm, 4).append(',');
            number(json, line.toGoNm, 3).append(',');
            number(json, line.limitNm, 3).append(',').append(line.route);
        }
        json.append(']');
    }

    private static StringBuilder number(StringBuilder json, OptionalDouble value, int digits) {
        return value.isPresent() ? number(json, value.getAsDouble(), digits) : json.append("null");
    }

    private static StringBuilder number(StringBuilder json, double value, int digits) {
        return Double.isFinite(value)
                ? json.append(JsonNumbers.rounded(value, digits).toPlainString())
                : json.append("null");
    }
}
