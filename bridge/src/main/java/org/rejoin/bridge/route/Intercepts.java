package org.rejoin.bridge.route;

import java.util.Optional;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Crossing;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.bridge.geo.Offset;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Turn;

/** From a crossing of the track with a course to what the pilot needs of it. */
final class Intercepts {

    /** A crossing this far past an end still counts as on the leg, nautical miles (19 m). */
    private static final double END_TOLERANCE_NM = 0.01;

    /** Below this intercept angle, degrees, an intercept is called shallow. */
    static final double SHALLOW_DEG = 20;

    /** Above this intercept angle, degrees, the turn goes back on itself. */
    static final double STEEP_DEG = 90;

    /** A leg shorter than this is none, nautical miles (common practice, no source). */
    private static final double NO_LEG_NM = 0.05;

    /** A smaller change of course at a fix is flown without a lead, degrees (common practice, no source). */
    private static final double NO_TURN_DEG = 5;

    /** A crossing farther behind than this is no help to anyone, nautical miles (common practice, no source). */
    static final double BEHIND_NM = 150;

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
                intercept
                        .filter(meeting -> meeting.distanceNm() > 1e-6)
                        .map(meeting -> GeodesicLine.from(
                                plan.path().start(), plan.path().initialCourse(), meeting.distanceNm())));
    }

    /** Closer than this to the course the aircraft is on it, nautical miles (common practice, no source). */
    private static final double ON_COURSE_NM = 0.05;

    /**
     * Where a heading's track meets a course, ahead of the aircraft; here, if the aircraft is on the course already;
     * empty where it is not met ahead and within the length of the course.
     */
    static Optional<Crossing> ahead(HeadingPlan plan, GeodesicLine flown) {
        Offset here = flown.offset(plan.path().start());
        if (Math.abs(here.crossTrackNm()) < ON_COURSE_NM && within(here.alongTrackNm(), flown)) {
            return Optional.of(new Crossing(
                    plan.path().start(), 0, here.alongTrackNm(), plan.path().initialCourse(), here.course()));
        }
        return plan.path()
                .crossing(flown)
                .filter(crossing -> crossing.alongFirstNm() > 0
                        && crossing.alongFirstNm() <= HeadingPlan.REACH_NM
                        && within(crossing.alongSecondNm(), flown));
    }

    static void describe(AmendmentDraft draft, String what, GeodesicLine flown) {
        Intercept met = draft.intercept.orElseThrow();
        HeadingPlan plan = draft.heading.orElseThrow();
        if (met.distanceNm() <= 0) {
            draft.step(
                    "intercept",
                    "cross-track distance under 0.05 NM: on the course already",
                    "course here %08.4f true, track %08.4f true",
                    met.course().deg(),
                    plan.ground().track().deg());
            return;
        }
        double groundSpeed = plan.ground().groundSpeedKt();
        double radius = Turn.standardRadiusNm(groundSpeed);
        draft.step(
                "where the track meets " + what,
                "crossing of two geodesics on WGS 84",
                "from %.6f, %.6f on %08.4f true, with the line from %.6f, %.6f on %08.4f true: %.6f, %.6f, %.4f NM ahead",
                plan.path().start().latitudeDeg(),
                plan.path().start().longitudeDeg(),
                plan.ground().track().deg(),
                flown.start().latitudeDeg(),
                flown.start().longitudeDeg(),
                flown.initialCourse().deg(),
                met.position().latitudeDeg(),
                met.position().longitudeDeg(),
                met.distanceNm());
        draft.step(
                "time to it",
                "minutes = distance / GS x 60",
                "%.4f / %.4f x 60 = %.2f min",
                met.distanceNm(),
                groundSpeed,
                met.minutes());
        draft.step(
                "intercept angle",
                "course - track, both where they meet (a geodesic turns as it goes); right positive",
                "%08.4f - %08.4f = %s degrees: turn %s",
                met.course().deg(),
                Angles.circle(met.course().deg() - met.turnDeg()),
                Angles.signed(met.turnDeg(), 4),
                met.turnsRight() ? "right" : "left");
        draft.step(
                "lead",
                "R = GS / (60 pi) for 3 degrees a second, lead = R tan(angle / 2)",
                "R = %.4f / (60 pi) = %.4f NM; %.4f x tan(%.4f / 2) = %.4f NM",
                groundSpeed,
                radius,
                radius,
                met.angleDeg(),
                met.leadNm());
        if (met.standardTurnLeadNm() > met.leadNm()) {
            draft.step(
                    "lead as flown",
                    "3 degrees a second need more than 25 degrees of bank: lead x 3 / rate of 25 degrees of bank",
                    "%.4f x 3 / %.4f = %.4f NM",
                    met.leadNm(),
                    Turn.standardTurnRateDegPerS(groundSpeed),
                    met.standardTurnLeadNm());
        }
        warn(draft, met, "course");
    }

    private static void warn(AmendmentDraft draft, Intercept met, String line) {
        if (met.angleDeg() < SHALLOW_DEG) {
            draft.warn(
                    Warning.Code.SHALLOW_INTERCEPT,
                    "the intercept angle is %.1f degrees, under 20: it takes long, and a small heading error misses the"
                            + " course",
                    met.angleDeg());
        }
        if (met.angleDeg() > STEEP_DEG) {
            draft.warn(
                    Warning.Code.STEEP_INTERCEPT,
                    "the intercept angle is %.1f degrees, over 90: the turn goes back on itself and wants a lead of"
                            + " %.1f NM",
                    met.angleDeg(),
                    met.standardTurnLeadNm());
        }
        if (met.standardTurnLeadNm() > met.distanceNm()) {
            draft.warn(
                    Warning.Code.NO_ROOM_TO_TURN,
                    "the lead of %.2f NM is longer than the %.2f NM to the %s: it will be flown through",
                    met.standardTurnLeadNm(),
                    met.distanceNm(),
                    line);
        }
    }

    /** The turn onto the first of several lines, once it is known which way that line is flown. */
    static void turnOnto(AmendmentDraft draft, String line) {
        if (draft.intercept.isEmpty() || draft.courseLeg != 1 || draft.legs.size() < 2) {
            return;
        }
        Intercept met = draft.intercept.get();
        HeadingPlan plan = draft.heading.orElseThrow();
        TrueDirection track = plan.path().courseAt(met.distanceNm());
        TrueDirection course = draft.legs
                .get(1)
                .groundPath()
                .map(path -> path.offset(met.position()).course())
                .orElse(met.course());
        Intercept flown = of(plan, new Crossing(met.position(), met.distanceNm(), 0, track, course), Optional.empty());
        draft.intercept = Optional.of(flown);
        if (flown.distanceNm() > ON_COURSE_NM) {
            warn(draft, flown, line);
        }
    }

    /**
     * The turn onto the course must end before the course does: at the next fix, or beyond it where the route goes on
     * straight.
     *
     * @param leg index of the leg that the course is met on
     * @param legNm what is left of that leg
     */
    static void roomBefore(AmendmentDraft draft, Intercept met, int leg, double legNm) {
        int last = straightTo(draft, leg);
        double remainingNm = legNm + lengthNm(draft, leg + 1, last);
        String end = draft.legs.get(last).endsAt().map(Waypoint::ident).orElse("its end");
        if (remainingNm < NO_LEG_NM) {
            draft.warn(
                    Warning.Code.NO_ROOM_TO_TURN,
                    "the course is met only over %s, where it ends: nothing of it is left to fly; ask for direct %s, or a"
                            + " heading that meets it earlier",
                    end,
                    end);
        } else if (met.distanceNm() > 0 && met.standardTurnLeadNm() > remainingNm) {
            draft.warn(
                    Warning.Code.NO_ROOM_TO_TURN,
                    "the course is met %.2f NM before %s, and the turn onto it takes %.2f NM: it ends past the fix",
                    remainingNm,
                    end,
                    met.standardTurnLeadNm());
        }
    }

    /** The last of the legs from one on between which nothing turns; that one where the route turns at its end. */
    static int straightTo(AmendmentDraft draft, int leg) {
        int last = leg;
        while (last + 1 < draft.legs.size() && goesOn(draft.legs.get(last), draft.legs.get(last + 1))) {
            last++;
        }
        return last;
    }

    private static boolean goesOn(Leg leg, Leg next) {
        return next instanceof Leg.TrackToFix
                && leg.groundPath()
                        .flatMap(path -> next.groundPath()
                                .map(behind -> path.finalCourse().turnTo(behind.courseAt(0))))
                        .filter(turn -> Math.abs(turn) < NO_TURN_DEG)
                        .isPresent();
    }

    /** How long legs are together, the first and the last of them too. */
    static double lengthNm(AmendmentDraft draft, int first, int last) {
        return draft.legs.subList(first, last + 1).stream()
                .flatMap(each -> each.groundPath().stream())
                .mapToDouble(GroundPath::lengthNm)
                .sum();
    }
}
