package org.rejoin.bridge.geo;

/**
 * Where two course lines cross.
 *
 * @param position of the crossing
 * @param alongFirstNm from the start of the first line, nautical miles; negative behind it
 * @param alongSecondNm from the start of the second line, nautical miles; negative behind it
 * @param firstCourse of the first line at the crossing, true
 * @param secondCourse of the second line at the crossing, true
 */
public record Crossing(
        Position position,
        double alongFirstNm,
        double alongSecondNm,
        TrueDirection firstCourse,
        TrueDirection secondCourse) {

    /** {@return the turn from the first course onto the second; degrees, right positive, [-180, 180)} */
    public double turnDeg() {
        return firstCourse.turnTo(secondCourse);
    }

    /** {@return the acute angle at which the lines cross, whichever way each is flown; degrees, [0, 90]} */
    public double acuteAngleDeg() {
        return Angles.acute(turnDeg());
    }
}
