package org.rejoin.bridge.geo;

/**
 * Where a point lies as seen from a course line.
 *
 * @param crossTrackNm distance from the line, nautical miles, right of course positive
 * @param alongTrackNm from the start of the line to the foot of the perpendicular, nautical miles; negative before the
 *     start
 * @param course of the line at the foot, true
 */
public record Offset(double crossTrackNm, double alongTrackNm, TrueDirection course) {}
