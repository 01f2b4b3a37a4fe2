package org.rejoin.bridge.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Turn;

/**
 * A hold, worked out (Aeronautical Information Manual 5-3-8; entry sectors of ICAO Doc 8168, volume I).
 *
 * @param fix where
 * @param line on which it is kept, in words: "the AAA 270 radial"
 * @param inbound course toward the fix to set: by the station whose line it is, else by the variation of the fix
 * @param inboundTrue the same at the fix, true
 * @param right whether turns are to the right
 * @param legMinutes time of the inbound leg, minutes; empty where the leg is a distance
 * @param legNm length of the outbound leg, nautical miles; empty where the leg is a time
 * @param entry how it is entered
 * @param orEntry the other entry that may be flown, within 5 degrees of a sector's boundary
 * @param arrivalHeading on which the fix is reached, magnetic
 * @param entryHeadings to fly one after the other, magnetic, to the inbound leg
 * @param inboundHeading that holds the inbound course in the wind, magnetic; empty where the wind is too strong
 * @param outboundHeading with three times the drift correction of the inbound leg, magnetic
 * @param correctionDeg wind correction on the inbound leg, degrees, right positive
 * @param outboundSeconds from abeam the fix, or from wings level where that is later, so that the inbound leg comes out as
 *     long as it should; empty where the wind is too strong
 * @param maximumSpeedKt indicated airspeed, knots
 * @param published whether the chart shows it
 * @param expectFurtherClearance time as said, four digits; empty where unsaid
 * @param once whether it is left when its fix is passed inbound for the first time (HF), not when ATC says so (HM)
 */
public record Holding(
        Waypoint fix,
        String line,
        Radial inbound,
        TrueDirection inboundTrue,
        boolean right,
        OptionalDouble legMinutes,
        OptionalDouble legNm,
        Entry entry,
        Optional<Entry> orEntry,
        MagneticDirection arrivalHeading,
        List<MagneticDirection> entryHeadings,
        Optional<MagneticDirection> inboundHeading,
        MagneticDirection outboundHeading,
        double correctionDeg,
        OptionalDouble outboundSeconds,
        double maximumSpeedKt,
        boolean published,
        Optional<String> expectFurtherClearance,
        boolean once) {

    /** Length of {@link #inboundLine}, nautical miles: longer than any way in. */
    public static final double INBOUND_LINE_NM = 60;

    /** Points of a half circle of {@link #racetrack}, degrees apart. */
    private static final int STEP_DEG = 15;

    public Holding {
        entryHeadings = List.copyOf(entryHeadings);
    }

    /** The inbound course as a line that ends at the fix; {@link #INBOUND_LINE_NM} long. */
    public GeodesicLine inboundLine() {
        return GeodesicLine.from(fix.position(), inboundTrue.reciprocal(), INBOUND_LINE_NM)
                .reversed();
    }

    /** The pattern in still air at standard rate, two legs and two half circles, from the start of the inbound leg round to it again. */
    public List<Position> racetrack(double trueAirspeedKt) {
        double length = legNm.orElseGet(() -> legMinutes.orElse(1) / 60 * trueAirspeedKt);
        double radius = Turn.standardRadiusNm(trueAirspeedKt);
        double course = inboundTrue.deg();
        double side = right ? 90 : -90;
        TrueDirection back = new TrueDirection(course + 180);
        Position at = fix.position();
        Position abeam = at.destination(new TrueDirection(course + side), 2 * radius);
        List<Position> points = new ArrayList<>(List.of(at.destination(back, length), at));
        halfCircle(at, course, side, radius, points);
        Position out = abeam.destination(back, length);
        points.add(out);
        halfCircle(out, course + 180, side, radius, points);
        return points;
    }

    private static void halfCircle(Position from, double course, double side, double radius, List<Position> points) {
        Position centre = from.destination(new TrueDirection(course + side), radius);
        for (int deg = STEP_DEG; deg <= 180; deg += STEP_DEG) {
            points.add(centre.destination(new TrueDirection(course - side + deg * Math.signum(side)), radius));
        }
    }

    /** How a hold is entered. */
    public enum Entry {
        /** Turn to follow the pattern. */
        DIRECT,
        /** Outbound 30 degrees toward the holding side, then turn in. */
        TEARDROP,
        /** Outbound along the inbound course, then turn back over the holding side. */
        PARALLEL
    }

    /** Of the sectors the one from which it is direct begins so far left of the inbound course, right turns, degrees. */
    private static final double DIRECT_LEFT_DEG = 70;

    /** And ends so far right of it, degrees. */
    private static final double DIRECT_RIGHT_DEG = 110;

    /** Either entry will do this close to a boundary, degrees (ICAO Doc 8168, volume I). */
    static final double ZONE_DEG = 5;

    /**
     * The entry by the heading on arrival.
     *
     * @param offInboundDeg heading less inbound course, degrees, right positive
     * @param right whether turns are to the right
     * @return direct from 70 degrees left to 110 right of the inbound course, teardrop from 110 to 180 right, else
     *     parallel; mirrored for left turns
     */
    public static Entry entry(double offInboundDeg, boolean right) {
        double off = Angles.turn(right ? offInboundDeg : -offInboundDeg);
        if (off >= -DIRECT_LEFT_DEG && off <= DIRECT_RIGHT_DEG) {
            return Entry.DIRECT;
        }
        return off > DIRECT_RIGHT_DEG || off == -180 ? Entry.TEARDROP : Entry.PARALLEL;
    }

    /**
     * The other entry that may be flown near a boundary of the sectors; empty where no boundary is within 5 degrees.
     */
    public static Optional<Entry> otherEntry(double offInboundDeg, boolean right) {
        Entry here = entry(offInboundDeg, right);
        for (double zone : new double[] {-ZONE_DEG, ZONE_DEG}) {
            Entry near = entry(offInboundDeg + zone, right);
            if (near != here) {
                return Optional.of(near);
            }
        }
        return Optional.empty();
    }
}
