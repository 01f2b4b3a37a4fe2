package org.rejoin.bridge.route;

import java.util.Optional;
import java.util.function.Predicate;

import org.rejoin.bridge.chart.Fix;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Crossing;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;

/** How the first of several lines is met. */
record FirstLine(FlownLine first, AmendmentDraft draft) {

    /** Where the first line is met, and how: direct to a fix on the way to it, else on a heading. */
    static FlownLine.Flown of(FlownLine first, AmendmentDraft draft, Optional<Waypoint> direct)
            throws ClearanceException {
        FirstLine line = new FirstLine(first, draft);
        return direct.isPresent() ? line.direct(direct.get()) : line.onHeading();
    }

    private FlownLine.Flown onHeading() throws ClearanceException {
        if (draft.heading.isEmpty()) {
            draft.heading = proposal(plan -> true);
            draft.describeHeading();
        } else if (isPastTheEnd(draft.heading.get())) {
            proposeAnother(draft.heading.get());
        }
        HeadingPlan plan = draft.heading.orElseThrow(() -> ClearanceException.cannotBeWorkedOut(
                "no heading from here meets the " + first.name() + " at a sensible angle in this wind"));
        Optional<Crossing> met = meeting(plan);
        draft.intercept = met.map(crossing -> Intercepts.of(plan, crossing, Optional.empty()));
        draft.legs.add(Intercepts.headingLeg(plan, draft.intercept));
        draft.courseLeg = 1;
        draft.course = first.course();
        if (met.isPresent()) {
            describe(plan);
            return new FlownLine.Flown(met.get().position(), met.get().firstCourse(), false);
        }
        draft.headingsThatMeet = HeadingRange.thatMeet(draft.situation, this::meeting);
        draft.warn(
                Warning.Code.HEADING_DOES_NOT_REACH_COURSE,
                "heading %s makes good track %s true, which does not meet the %s; %s",
                Angles.figures(plan.magnetic().deg()),
                Angles.figures(plan.ground().track().deg()),
                first.name(),
                HeadingRange.advice(draft.headingsThatMeet));
        return new FlownLine.Flown(
                first.nearest(draft.situation.position()), plan.ground().track(), false);
    }

    /** Whether a heading that nobody assigned meets the line where the fix to which it is followed lies behind. */
    private boolean isPastTheEnd(HeadingPlan plan) {
        return plan.origin() == HeadingPlan.Origin.PRESENT && leavesBehind(plan);
    }

    private boolean leavesBehind(HeadingPlan plan) {
        return first.until().orElse(null) instanceof Instruction.Until.AtFix at
                && first.course().isPresent()
                && meeting(plan)
                        .filter(met -> Math.abs(met.firstCourse()
                                        .turnTo(met.position()
                                                .to(at.fix().position())
                                                .initial()))
                                > Intercepts.STEEP_DEG)
                        .isPresent();
    }

    /** "Proceed to PRION via the AAA 250 radial": the pilot chooses the heading that meets the radial before PRION. */
    private void proposeAnother(HeadingPlan present) throws ClearanceException {
        Optional<HeadingPlan> other = proposal(plan -> !leavesBehind(plan));
        if (other.isPresent()) {
            draft.notes.add("heading " + Angles.figures(present.magnetic().deg()) + ", which is flown now, meets the "
                    + first.name() + " where the fix lies behind: another is proposed");
            draft.heading = other;
            draft.describeHeading();
        }
    }

    private FlownLine.Flown direct(Waypoint to) throws ClearanceException {
        draft.assignedHeadingWhileDirect(to);
        Position here = draft.situation.position();
        if (here.distanceNm(to.position()) < 0.01) {
            return new FlownLine.Flown(here, first.courseAbeam(here), false);
        }
        GeodesicLine line = GeodesicLine.between(here, to.position());
        draft.courseLeg = 0;
        // A radial begins at its station: who goes there meets it there.
        Optional<Double> crossing = first.beginsAt(to)
                ? Optional.empty()
                : first.crossings(line).stream()
                        .filter(along -> along > 0 && along < line.lengthNm() + 0.01)
                        .findFirst();
        if (crossing.isEmpty()) {
            requireOnLine(to);
            draft.legs.add(new Leg.DirectToFix(to, line));
            FixAmendment.describe(draft, to, line);
            return new FlownLine.Flown(to.position(), line.courseAt(line.lengthNm()), false);
        }
        Position met = line.pointAt(crossing.get());
        Fix entry = new Fix(first.ident(met), met);
        draft.legs.add(new Leg.DirectToFix(entry, GeodesicLine.between(here, met)));
        return new FlownLine.Flown(met, line.courseAt(crossing.get()), false);
    }

    private void requireOnLine(Waypoint fix) throws ClearanceException {
        double away = first.crossTrackNm(fix.position());
        if (away > LineEnd.ON_LINE_NM) {
            throw AmendmentDraft.refused(
                    "the way direct to %s does not meet the %s, and %s is %.1f NM from it: say the one, and the other"
                            + " as a clearance of its own with a heading",
                    fix.ident(), first.name(), fix.ident(), away);
        }
    }

    private Optional<Crossing> meeting(HeadingPlan plan) {
        Position start = plan.path().start();
        if (first.crossTrackNm(start) < 0.05) {
            return Optional.of(new Crossing(
                    start,
                    0,
                    0,
                    plan.path().initialCourse(),
                    first.courseToward(start, plan.path().initialCourse())));
        }
        return first.crossings(plan.path()).stream()
                .filter(along -> along > 0 && along <= HeadingPlan.REACH_NM)
                .findFirst()
                .map(along -> {
                    Position at = plan.path().pointAt(along);
                    TrueDirection track = plan.path().courseAt(along);
                    return new Crossing(at, along, 0, track, first.courseToward(at, track));
                });
    }

    /** The heading that meets the line well, where none is assigned. */
    private Optional<HeadingPlan> proposal(Predicate<HeadingPlan> sensible) throws ClearanceException {
        return first.meet(
                radial -> ProposedHeading.soonest(
                        draft.situation, plan -> sensible.test(plan) ? meetingOf(radial, plan) : Optional.empty()),
                this::ontoArc);
    }

    /** As it is flown: outbound unless the words say inbound. */
    private Optional<Crossing> meetingOf(FlownLine.OnRadial radial, HeadingPlan plan) {
        return meeting(plan).map(met -> {
            TrueDirection outward = radial.outbound().offset(met.position()).course();
            TrueDirection course = radial.sense() == Instruction.Sense.INBOUND ? outward.reciprocal() : outward;
            return new Crossing(met.position(), met.alongFirstNm(), met.alongSecondNm(), met.firstCourse(), course);
        });
    }

    private Optional<HeadingPlan> ontoArc(FlownLine.OnArc arc) {
        Position here = draft.situation.position();
        Position centre = arc.station().distancePosition();
        double away = centre.distanceNm(here);
        if (away < 0.05) {
            return Optional.empty();
        }
        GeodesicLine toStation = GeodesicLine.between(here, centre);
        GeodesicLine toArc = away > arc.radiusNm()
                ? toStation
                : GeodesicLine.from(here, toStation.initialCourse().reciprocal(), arc.radiusNm());
        return HeadingPlan.toward(toArc, 0, draft.situation);
    }

    private void describe(HeadingPlan plan) {
        Intercept met = draft.intercept.orElseThrow();
        draft.step(
                "where the track meets the " + first.name(),
                first.crossed(),
                "%.6f, %.6f, %.4f NM ahead, %.2f min at %.1f kt",
                met.position().latitudeDeg(),
                met.position().longitudeDeg(),
                met.distanceNm(),
                met.minutes(),
                plan.ground().groundSpeedKt());
    }
}
