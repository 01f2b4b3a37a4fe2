package org.rejoin.console.brief;

import java.util.Optional;

import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Variation;
import org.rejoin.bridge.route.Leg;
import org.rejoin.bridge.route.PublishedCourse;
import org.rejoin.bridge.route.Situation;

/**
 * The course of a leg where flying along it begins, and the heading that holds it in the wind.
 *
 * @param trueDeg degrees true; of a heading leg the heading; empty for an arc and a hold
 * @param magnetic by the station that publishes it, else by today's variation
 * @param headingToHold magnetic, degrees; empty for a heading leg, an arc, a hold, and where the wind is too strong
 * @param driftDeg wind correction, degrees, right positive; empty likewise
 */
record LegCourse(
        Optional<Double> trueDeg,
        Optional<PublishedCourse> magnetic,
        Optional<Double> headingToHold,
        Optional<Double> driftDeg) {

    static LegCourse of(Leg leg, Brief brief) {
        Situation situation = brief.route().situation();
        Optional<PublishedCourse> magnetic = PublishedCourse.of(leg, brief.chart(), situation);
        if (leg instanceof Leg.HeadingToIntercept heading) {
            return heading(heading.headingTrue(), magnetic);
        }
        if (leg instanceof Leg.HeadingOnly heading) {
            return heading(heading.headingTrue(), magnetic);
        }
        if (leg instanceof Leg.HoldAtFix hold) {
            return new LegCourse(
                    Optional.of(hold.holding().inboundTrue().deg()),
                    magnetic,
                    hold.holding().inboundHeading().map(heading -> heading.deg()),
                    Optional.of(hold.holding().correctionDeg()));
        }
        Optional<GeodesicLine> line = leg.line();
        if (line.isEmpty()) {
            return new LegCourse(Optional.empty(), magnetic, Optional.empty(), Optional.empty());
        }
        double at = leg.joinedAtNm();
        TrueDirection course = line.get().courseAt(at);
        Variation variation = situation.variationAt(line.get().pointAt(at));
        Optional<GroundVector.HeadingForCourse> wind = situation.headingFor(course);
        return new LegCourse(
                Optional.of(course.deg()),
                magnetic,
                wind.map(each -> each.heading().toMagnetic(variation).deg()),
                wind.map(GroundVector.HeadingForCourse::correctionDeg));
    }

    private static LegCourse heading(TrueDirection flown, Optional<PublishedCourse> magnetic) {
        return new LegCourse(Optional.of(flown.deg()), magnetic, Optional.empty(), Optional.empty());
    }
}
