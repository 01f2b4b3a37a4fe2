package org.rejoin.bridge.route;

import java.util.Optional;

import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Crossing;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Offset;
import org.rejoin.bridge.geo.TrueDirection;

/** Where the heading meets the course of a radial. */
final class RadialMeeting {

    /** An intercept leaves at least this much of the course, nautical miles (common practice, no source). */
    private static final double ROOM_NM = 1;

    private RadialMeeting() {}

    /**
     * The heading leg, and where it meets the course; proposes a heading when none is known.
     *
     * @param flown the course in the direction flown
     * @param to where on it the course is left, nautical miles from its start
     */
    static void meet(AmendmentDraft draft, GeodesicLine flown, double to) throws ClearanceException {
        if (draft.heading.isEmpty()) {
            draft.heading = propose(draft, flown, to);
            draft.describeHeading();
        }
        HeadingPlan plan = draft.heading.orElseThrow(() -> ClearanceException.cannotBeWorkedOut(
                "no heading from here meets the radial at a sensible angle in this wind"));
        Optional<Crossing> ahead = Intercepts.ahead(plan, flown);
        draft.intercept = ahead.map(met -> Intercepts.of(plan, met, Optional.empty()));
        draft.legs.add(Intercepts.headingLeg(plan, draft.intercept));
        Course course = draft.course.orElseThrow();
        String radialName = course.name();
        if (draft.intercept.isPresent()) {
            Intercepts.describe(draft, "the " + radialName, flown);
            double past = draft.intercept.get().alongCourseNm() - to;
            if (past > 0) {
                draft.warn(
                        Warning.Code.CROSSING_BEHIND,
                        "heading %s meets the %s %.1f NM past the computed fix: the fix lies behind",
                        Angles.figures(plan.magnetic().deg()),
                        radialName,
                        past);
            }
            return;
        }
        Offset offset = flown.offset(draft.situation.position());
        double along = offset.alongTrackNm();
        draft.headingsThatMeet = HeadingRange.thatMeet(
                draft.situation,
                other -> Intercepts.ahead(other, flown).filter(met -> met.alongSecondNm() < to - ROOM_NM));
        draft.warn(
                Warning.Code.HEADING_DOES_NOT_REACH_COURSE,
                "heading %s makes good track %s true, which does not meet the %s; it is %.1f NM away and its course is %s"
                        + " true here; %s",
                Angles.figures(plan.magnetic().deg()),
                Angles.figures(plan.ground().track().deg()),
                radialName,
                Math.abs(offset.crossTrackNm()),
                Angles.figures(offset.course().deg()),
                HeadingRange.advice(draft.headingsThatMeet));
        if (along > to) {
            draft.warn(
                    Warning.Code.CROSSING_BEHIND,
                    "along the %s the aircraft is %.1f NM past %s: it lies behind",
                    radialName,
                    along - to,
                    draft.computedFix
                            .map(fix -> "the computed fix")
                            .orElseGet(() -> course.station().ident()));
        }
        plan.path()
                .crossing(flown)
                .filter(met -> met.alongFirstNm() <= 0
                        && met.alongFirstNm() > -Intercepts.BEHIND_NM
                        && met.alongSecondNm() >= 0
                        && met.alongSecondNm() <= flown.lengthNm())
                .ifPresent(met -> draft.warn(
                        Warning.Code.CROSSING_BEHIND,
                        "the line of this heading crosses the %s %.1f NM behind the aircraft",
                        radialName,
                        -met.alongFirstNm()));
    }

    private static Optional<HeadingPlan> propose(AmendmentDraft draft, GeodesicLine flown, double to) {
        GeodesicLine outbound = draft.course.orElseThrow().outbound();
        double bearing =
                outbound.start().to(draft.situation.position()).initial().deg();
        double off = outbound.initialCourse().turnTo(new TrueDirection(bearing));
        double wanted = Math.abs(off) > 90 ? 45 : HeadingPlan.doubleTheAngle(off);
        return ProposedHeading.at(
                        wanted,
                        draft.situation,
                        plan -> Intercepts.ahead(plan, flown)
                                .filter(met -> met.alongSecondNm() > 0 && met.alongSecondNm() < to - ROOM_NM))
                .or(() -> HeadingPlan.toward(flown, wanted, draft.situation));
    }
}
