package org.rejoin.console.practice;

import java.util.Optional;

import org.rejoin.bridge.geo.GeodesicArc;
import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.bridge.geo.SlantRange;
import org.rejoin.bridge.route.Leg;

/**
 * The line over the ground that the instruments lead along, at an altitude above mean sea level: an arc by the DME,
 * whose slant range draws it inward with the height. Empty for a leg without a line.
 */
record ByInstruments(double altitudeFt) implements Leg.Visitor<Optional<GroundPath>> {

    @Override
    public Optional<GroundPath> headingToIntercept(Leg.HeadingToIntercept leg) {
        return leg.line().map(line -> line);
    }

    @Override
    public Optional<GroundPath> headingOnly(Leg.HeadingOnly leg) {
        return Optional.empty();
    }

    @Override
    public Optional<GroundPath> courseToFix(Leg.CourseToFix leg) {
        return Optional.of(leg.path());
    }

    @Override
    public Optional<GroundPath> fixOutbound(Leg.FixOutbound leg) {
        return Optional.of(leg.path());
    }

    @Override
    public Optional<GroundPath> trackToFix(Leg.TrackToFix leg) {
        return Optional.of(leg.path());
    }

    @Override
    public Optional<GroundPath> directToFix(Leg.DirectToFix leg) {
        return Optional.of(leg.path());
    }

    @Override
    public Optional<GroundPath> dmeArc(Leg.DmeArc leg) {
        double groundNm =
                SlantRange.groundNm(leg.distanceNm(), altitudeFt - leg.station().elevationFt());
        GeodesicArc arc = leg.path();
        return Optional.of(
                groundNm < arc.radiusNm() / 2
                        ? arc
                        : new GeodesicArc(arc.centre(), groundNm, arc.startAzimuth(), arc.sweepDeg()));
    }

    @Override
    public Optional<GroundPath> courseFrom(Leg.CourseFrom leg) {
        return Optional.of(leg.path());
    }

    @Override
    public Optional<GroundPath> holdAtFix(Leg.HoldAtFix leg) {
        return Optional.empty();
    }
}
