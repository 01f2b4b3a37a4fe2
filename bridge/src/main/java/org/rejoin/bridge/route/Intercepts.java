package org.rejoin.bridge.route;

import java.util.Optional;

import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.geo.Crossing;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Turn;

/** From a crossing of the track with a course to what the pilot needs of it. */
final class Intercepts {

    /** A crossing this far past an end still counts as on the leg, nautical miles (19 m). */
    private static final double END_TOLERANCE_NM = 0.01;

    private Intercepts() {}

    static boolean within(double alongNm, GeodesicLine line) {
        return alongNm >= -END_TOLERANCE_NM && alongNm <= line.lengthNm() + END_TOLERANCE_NM;
    }

    /**
     * The intercept at a crossing.
     *
     * @param plan heading flown
     * @param crossing of its path (first) with the course in the direction flown (second)
     * @param airwayLeg when the course is an airway
     * @return with angle and lead: R tan(angle / 2), R for standard rate at the ground speed on the heading
     */
    static Intercept of(HeadingPlan plan, Crossing crossing, Optional<FiledRoute.Segment> airwayLeg) {
        double groundSpeed = plan.ground().groundSpeedKt();
        double lead = Turn.leadNm(Turn.standardRadiusNm(groundSpeed), Math.min(Math.abs(crossing.turnDeg()), 179));
        return new Intercept(
                crossing.position(),
                crossing.alongFirstNm(),
                crossing.alongFirstNm() / groundSpeed * 60,
                crossing.turnDeg(),
                lead,
                crossing.alongSecondNm(),
                crossing.secondCourse(),
                airwayLeg);
    }

    static Leg headingLeg(HeadingPlan plan, Optional<Intercept> intercept) {
        return new Leg.HeadingToIntercept(
                plan.magnetic(),
                plan.headingTrue(),
                plan.origin() == HeadingPlan.Origin.ASSIGNED,
                intercept
                        .filter(meeting -> meeting.distanceNm() > 1e-6)
                        .map(meeting -> GeodesicLine.from(
                                plan.path().start(), plan.path().initialCourse(), meeting.distanceNm())));
    }

    static void describe(RouteAmender.Draft draft, String what) {
        Intercept met = draft.intercept.orElseThrow();
        HeadingPlan plan = draft.heading.orElseThrow();
        draft.step(
                "where the track meets " + what,
                "crossing of two geodesics on WGS 84",
                "%.6f, %.6f; %.3f NM ahead, %.1f min at %.0f kt",
                met.position().latitudeDeg(),
                met.position().longitudeDeg(),
                met.distanceNm(),
                met.minutes(),
                plan.ground().groundSpeedKt());
        draft.step(
                "intercept angle",
                "course there - track there",
                "%06.2f - %06.2f = %.1f degrees to the %s",
                met.course().deg(),
                met.course().deg() - met.turnDeg() < 0
                        ? met.course().deg() - met.turnDeg() + 360
                        : (met.course().deg() - met.turnDeg()) % 360,
                met.angleDeg(),
                met.turnsRight() ? "right" : "left");
        draft.step(
                "lead",
                "R = GS / (60 pi), lead = R tan(angle / 2)",
                "R = %.1f / (60 pi) = %.3f NM; %.3f x tan(%.1f / 2) = %.2f NM",
                plan.ground().groundSpeedKt(),
                Turn.standardRadiusNm(plan.ground().groundSpeedKt()),
                Turn.standardRadiusNm(plan.ground().groundSpeedKt()),
                met.angleDeg(),
                met.leadNm());
        if (met.angleDeg() < 20) {
            draft.warn(
                    Warning.Code.SHALLOW_INTERCEPT,
                    "the intercept angle is %.0f degrees, under 20: it takes long, and a small heading error misses the"
                            + " course",
                    met.angleDeg());
        }
        if (met.angleDeg() > 90) {
            draft.warn(
                    Warning.Code.STEEP_INTERCEPT,
                    "the intercept angle is %.0f degrees, over 90: the turn goes back on itself and wants a lead of"
                            + " %.1f NM",
                    met.angleDeg(),
                    met.leadNm());
        }
        if (met.leadNm() > met.distanceNm()) {
            draft.warn(
                    Warning.Code.NO_ROOM_TO_TURN,
                    "the lead of %.2f NM is longer than the %.2f NM to the course: it will be flown through",
                    met.leadNm(),
                    met.distanceNm());
        }
    }
}
