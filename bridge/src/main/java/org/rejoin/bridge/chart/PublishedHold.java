package org.rejoin.bridge.chart;

import java.util.OptionalDouble;

import org.rejoin.bridge.geo.Radial;

/**
 * A holding pattern that the chart shows.
 *
 * @param fix where it is held
 * @param inboundMagnetic inbound course as published: by the station that guides it, or by the variation of its day; where
 *     it is published in true, the number is that one and {@code inboundTrueDeg} counts
 * @param inboundTrueDeg inbound course, true, where it is published so; empty where it is magnetic
 * @param right whether turns are to the right
 * @param legMinutes length of the inbound leg, minutes; empty where it is a distance, or not published
 * @param legNm length of the legs, nautical miles; empty where it is a time
 * @param minimumAltitudeFt feet above mean sea level; empty where none is published
 * @param maximumAltitudeFt feet above mean sea level; empty where none is published
 * @param maximumSpeedKt indicated airspeed, knots; empty where none is published
 */
public record PublishedHold(
        Waypoint fix,
        Radial inboundMagnetic,
        OptionalDouble inboundTrueDeg,
        boolean right,
        OptionalDouble legMinutes,
        OptionalDouble legNm,
        OptionalDouble minimumAltitudeFt,
        OptionalDouble maximumAltitudeFt,
        OptionalDouble maximumSpeedKt) {}
