package org.rejoin.console.practice;

import org.rejoin.bridge.geo.GeodesicArc;
import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.bridge.geo.SlantRange;
import org.rejoin.bridge.route.Leg;

import org.jspecify.annotations.Nullable;

/**
 * The line over the ground that the instruments lead along: an arc by the DME, whose slant range draws it inward with the
 * height. Null for a leg without a line.
 *
 * @param altitudeFt above mean sea level
 */
record ByInstruments(double altitudeFt) implements Leg.Visitor<@Nullable GroundPath> {

    @Override
    public @Nullable GroundPath headingToIntercept(Leg.HeadingToIntercept leg) {
        return leg.line().orElse(null);
    }

    @Override
    public @Nullable GroundPath headingOnly(Leg.HeadingOnly leg) {
        return null;
    }

    @Override
    public GroundPath courseToFix(Leg.CourseToFix leg) {
        return leg.path();
    }

    @Override
    public GroundPath fixOutbound(Leg.FixOutbound leg) {
        return leg.path();
    }

    @Override
    public GroundPath trackToFix(Leg.TrackToFix leg) {
        return leg.path();
    }

    @Override
    public GroundPath directToFix(Leg.DirectToFix leg) {
        return leg.path();
    }

    @Override
    public GroundPath dmeArc(Leg.DmeArc leg) {
        double groundNm =
                SlantRange.groundNm(leg.distanceNm(), altitudeFt - leg.station().elevationFt());
        GeodesicArc arc = leg.path();
        return groundNm < arc.radiusNm() / 2
                ? arc
                : new GeodesicArc(arc.centre(), groundNm, arc.startAzimuth(), arc.sweepDeg());
    }

    @Override
    public GroundPath courseFrom(Leg.CourseFrom leg) {
        return leg.path();
    }

    @Override
    public @Nullable GroundPath holdAtFix(Leg.HoldAtFix leg) {
        return null;
    }
}
