package org.rejoin.bridge.route;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Crossing;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;

/** How a computed fix was worked out, step by step. */
final class FixWorking {

    private FixWorking() {}

    static void describe(AmendmentDraft draft, ComputedFix computed, Crossing crossing, GeodesicLine line) {
        Course course = draft.course.orElseThrow();
        GeodesicLine outbound = course.outbound();
        Position at = computed.fix().position();
        draft.step(
                "computed fix",
                "crossing of the radial with " + AirwayPath.name(computed.segment()) + ", geodesics on WGS 84",
                "from %.6f, %.6f on %08.4f true, with the line from %.6f, %.6f on %08.4f true: %.6f, %.6f",
                outbound.start().latitudeDeg(),
                outbound.start().longitudeDeg(),
                outbound.initialCourse().deg(),
                line.start().latitudeDeg(),
                line.start().longitudeDeg(),
                line.initialCourse().deg(),
                at.latitudeDeg(),
                at.longitudeDeg());
        draft.step(
                "where on both lines",
                "distances along the geodesics",
                "%.4f NM from %s; %.4f NM from %s, %.4f NM to %s",
                crossing.alongFirstNm(),
                course.station().ident(),
                crossing.alongSecondNm(),
                computed.segment().from().ident(),
                line.lengthNm() - crossing.alongSecondNm(),
                computed.segment().to().ident());
        for (ComputedFix.Definition each :
                computed.definitions().subList(1, computed.definitions().size())) {
            double declination = each.station().declination().orElseThrow().eastDeg();
            draft.step(
                    "the fix from " + each.station().ident(),
                    "radial = true azimuth at the station - station declination",
                    "%08.4f %s = %08.4f, %.4f NM",
                    each.station().position().to(at).initial().deg(),
                    Angles.signed(-declination, 2),
                    each.radial().deg(),
                    each.distanceNm());
        }
        double turn = Math.min(Math.abs(computed.turnDeg()), 179);
        draft.step(
                "turn at the fix",
                "airway course - course " + course.direction()
                        + " the station, both at the fix; lead = GS / (60 pi) tan(turn / 2),"
                        + " GS on the radial in the wind",
                "%08.4f - %08.4f = %s degrees; %.4f / (60 pi) x tan(%.4f / 2) = %.4f NM",
                computed.airwayCourse().deg(),
                computed.inboundCourse().deg(),
                Angles.signed(computed.turnDeg(), 4),
                computed.groundSpeedKt(draft.situation),
                turn,
                computed.leadNm(draft.situation));
    }
}
