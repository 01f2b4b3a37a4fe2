package org.rejoin.bridge.route;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.clearance.Noted;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Crossing;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Offset;

/** Shape A: a heading to an airway. Which leg of it is met, where, at what angle, how early to turn. */
record AirwayAmendment(Chart chart, AmendmentDraft draft, AirwayPath path) {

    /** Two crossings this close together are one, at a fix, nautical miles. */
    private static final double AT_FIX_NM = 0.05;

    /** Flying an airway the track is this near to its course, degrees. */
    private static final double ALONG_DEG = 45;

    /**
     * No heading joins an airway beyond the clearance limit; one that nobody assigned does not join it beyond the fix where it
     * is left, either, while the aircraft is nearer to what leads there as filed.
     */
    static AirwayAmendment of(Chart chart, AmendmentDraft draft, AirwayPath whole) {
        Optional<AirwayPath> toLimit =
                draft.clearance.last(Instruction.ClearedTo.class).flatMap(cleared -> whole.upTo(cleared.limit()));
        boolean present = draft.heading
                .filter(plan -> plan.origin() == HeadingPlan.Origin.PRESENT)
                .isPresent();
        AirwayAmendment all = new AirwayAmendment(chart, draft, whole);
        AirwayAmendment there =
                new AirwayAmendment(chart, draft, toLimit.orElseGet(() -> present ? all.asFiled() : whole));
        if (present
                && there.alreadyOn().isEmpty()
                && !there.isMet()
                && (all.alreadyOn().isPresent()
                        || all.isMet()
                        || JoinedWithin.of(draft, whole.ident()).isPresent())) {
            there.proposeAnother();
        }
        return there;
    }

    /** The side of the fix where it is left that is flown as filed, where that is nearer; else all of it. */
    private AirwayPath asFiled() {
        List<AirwayPath.Step> steps = path.steps();
        int side = path.upTo(steps.get(steps.size() - 1).segment().to())
                .orElseThrow()
                .steps()
                .size();
        boolean filed = draft.filed.segments().stream().anyMatch(segment -> segment.isOn(path.ident()));
        boolean nearer =
                OnSegments.nearest(segments(), draft.situation.position()).index() < side;
        return filed && nearer ? new AirwayPath(path.ident(), steps.subList(0, side), path.tail()) : path;
    }

    private void proposeAnother() {
        HeadingPlan present = draft.heading.orElseThrow();
        Optional<HeadingPlan> other = propose();
        if (other.isPresent()) {
            Optional<Noted.JoinedWithin> within = JoinedWithin.of(draft, path.ident());
            String beyond = "only beyond "
                    + path.steps().get(path.steps().size() - 1).segment().to().ident() + ", where it is left";
            draft.note(
                    "heading %s, which is flown now, meets %s %s: another is proposed",
                    Angles.figures(present.magnetic().deg()),
                    path.name(),
                    within.map(said -> "nowhere " + said.words()).orElse(beyond));
            draft.heading = other;
            draft.describeHeading();
        }
    }

    /** Whether the heading meets it, or one that can be proposed does where there is none. */
    boolean isMet() {
        return draft.heading.or(this::propose).flatMap(this::meeting).isPresent();
    }

    void work() throws ClearanceException {
        Optional<OnSegments> on = alreadyOn();
        if (on.isPresent()) {
            int step = on.get().index();
            draft.append(
                    path.legsFrom(
                            step,
                            path.steps().get(step).segment().from(),
                            Math.max(0, on.get().alongNm())),
                    path);
            draft.courseLeg = 0;
            return;
        }
        if (draft.heading.isEmpty()) {
            draft.heading = propose();
            draft.describeHeading();
        }
        HeadingPlan plan = draft.heading.orElseThrow(() -> ClearanceException.cannotBeWorkedOut(
                "no heading from here meets " + path.name() + " at a sensible angle in this wind"));
        List<Met> all = met(plan);
        Optional<Met> first = first(all);
        if (first.isEmpty()) {
            notMet(plan);
            return;
        }
        Met met = first.get();
        AirwayPath.Step step = met.step();
        double alongNm = met.crossing().alongSecondNm();
        Intercept intercept = Intercepts.of(plan, met.crossing(), Optional.of(step.segment()));
        draft.intercept = Optional.of(intercept);
        draft.legs.add(Intercepts.headingLeg(plan, draft.intercept));
        draft.courseLeg = 1;
        draft.append(path.legsFrom(met.index(), step.segment().from(), Math.max(0, alongNm)), path);
        Intercepts.describe(draft, met.name(), step.line());
        describeLeg(met);
        double left = Math.max(0, step.line().lengthNm() - alongNm);
        Intercepts.roomBefore(draft, intercept, draft.courseLeg, left);
        sayOthers(all, met);
        sayPresent(plan, met);
        sayAlongside(plan, met);
    }

    /** Where the aircraft flies along it already and no heading is assigned: there is none to fly first. */
    private Optional<OnSegments> alreadyOn() {
        boolean present = draft.heading
                .filter(plan -> plan.origin() == HeadingPlan.Origin.PRESENT)
                .isPresent();
        return present
                ? OnSegments.on(segments(), draft.situation.position()).filter(on -> {
                    GeodesicLine line = path.steps().get(on.index()).line();
                    double course =
                            line.offset(draft.situation.position()).course().deg();
                    double track = draft.heading.orElseThrow().ground().track().deg();
                    return Math.abs(Angles.turn(track - course)) <= ALONG_DEG;
                })
                : Optional.empty();
    }

    private List<FiledRoute.Segment> segments() {
        return path.steps().stream().map(AirwayPath.Step::segment).toList();
    }

    /** On the heading that is only flown, the airway is met beyond the leg that is nearest: a heading is rather asked for. */
    private void sayPresent(HeadingPlan plan, Met met) {
        OnSegments nearest = OnSegments.nearest(segments(), draft.situation.position());
        boolean join = draft.clearance.first(Instruction.InterceptAirway.class).isEmpty()
                && draft.clearance.first(Instruction.JoinAirway.class).isPresent();
        if (!join || plan.origin() != HeadingPlan.Origin.PRESENT) {
            return;
        }
        Optional<OnSegments> filed = OnSegments.on(draft.filed.segments(), draft.situation.position());
        boolean leaves = filed.isPresent()
                && draft
                        .filed
                        .segments()
                        .subList(filed.get().index(), draft.filed.segments().size())
                        .stream()
                        .anyMatch(segment -> path.passes(segment.to()));
        if (leaves) {
            draft.choice(
                    "no heading is assigned; taken is the present one, %s, which leaves the filed route here and meets %s in"
                            + " %.1f NM: ask whether %s is joined there or where the filed route meets it",
                    Angles.figures(plan.magnetic().deg()), path.name(), met.aheadNm(), path.name());
        } else if (nearest.index() != met.index()) {
            draft.choice(
                    "no heading is assigned; taken is the present one, %s, which meets %s in %.1f NM, on %s; nearer is %s,"
                            + " %.1f NM away: ask for a heading",
                    Angles.figures(plan.magnetic().deg()),
                    path.name(),
                    met.aheadNm(),
                    met.name(),
                    AirwayPath.name(path.steps().get(nearest.index()).segment()),
                    nearest.awayNm());
        }
    }

    /** A step of the path, and where the heading meets it. */
    private record Met(int index, AirwayPath.Step step, Crossing crossing) {

        double aheadNm() {
            return crossing.alongFirstNm();
        }

        String name() {
            return AirwayPath.name(step.segment());
        }
    }

    /** What is met ahead, in the order of the path. Where two legs join the later is the one flown on. */
    private List<Met> met(HeadingPlan plan) {
        List<Met> met = new ArrayList<>();
        for (int i = 0; i < path.steps().size(); i++) {
            AirwayPath.Step step = path.steps().get(i);
            Optional<Crossing> at = Intercepts.ahead(plan, step.line()).filter(crossing -> !leadsAway(plan, crossing));
            boolean atEnd = at.filter(crossing -> step.line().lengthNm() - crossing.alongSecondNm() <= AT_FIX_NM)
                    .isPresent();
            boolean goesOn = atEnd
                    && i + 1 < path.steps().size()
                    && Intercepts.ahead(plan, path.steps().get(i + 1).line()).isPresent();
            if (at.isPresent() && !goesOn && mayBeJoined(plan, step.segment(), at.get())) {
                met.add(new Met(i, step, at.get()));
            }
        }
        return met;
    }

    /** A heading that ATC assigns is flown, wherever it leads; another is proposed so that it joins where that is said. */
    private boolean mayBeJoined(HeadingPlan plan, FiledRoute.Segment step, Crossing at) {
        return plan.origin() == HeadingPlan.Origin.ASSIGNED
                || JoinedWithin.of(draft, path.ident())
                        .filter(said -> !JoinedWithin.allows(
                                chart, said, at.position(), step.from().position(), step.to(), draft.situation))
                        .isEmpty();
    }

    private static Optional<Met> first(List<Met> all) {
        return all.stream().min(Comparator.comparingDouble(Met::aheadNm));
    }

    /** On the airway already, a heading that leads along it nearly as it runs meets no more of it but a leg behind a bend. */
    private void sayAlongside(HeadingPlan plan, Met met) {
        if (plan.origin() != HeadingPlan.Origin.ASSIGNED) {
            return;
        }
        OnSegments.on(segments(), draft.situation.position())
                .filter(on -> on.index() < met.index())
                .ifPresent(on -> {
                    AirwayPath.Step beside = path.steps().get(on.index());
                    double course = beside.line()
                            .offset(draft.situation.position())
                            .course()
                            .deg();
                    double off = Math.abs(Angles.turn(plan.ground().track().deg() - course));
                    if (off < Intercepts.SHALLOW_DEG) {
                        draft.choice(
                                "heading %s makes good a track %.0f degrees off %s, which you are on: it leads beside it, and"
                                        + " meets %s only in %.1f NM, on %s; ask for a heading, or whether %s is joined here",
                                Angles.figures(plan.magnetic().deg()),
                                off,
                                AirwayPath.name(beside.segment()),
                                path.name(),
                                met.aheadNm(),
                                met.name(),
                                path.name());
                    }
                });
    }

    private Optional<Crossing> meeting(HeadingPlan plan) {
        return first(met(plan)).map(Met::crossing);
    }

    /** Flying along the airway, a heading that is ordered leads off it: it is met here and not again. */
    private boolean leadsAway(HeadingPlan plan, Crossing crossing) {
        return plan.origin() != HeadingPlan.Origin.PRESENT
                && crossing.alongFirstNm() <= 0
                && Math.abs(crossing.turnDeg()) >= Intercepts.SHALLOW_DEG
                && flying(crossing.secondCourse().deg());
    }

    private boolean flying(double course) {
        return draft.situation
                .heading()
                .map(present -> HeadingPlan.of(HeadingPlan.Origin.PRESENT, present, draft.situation))
                .filter(present ->
                        Math.abs(Angles.turn(present.ground().track().deg() - course)) < Intercepts.SHALLOW_DEG)
                .isPresent();
    }

    private void describeLeg(Met met) {
        FiledRoute.Segment leg = met.step().segment();
        double alongNm = met.crossing().alongSecondNm();
        double lengthNm = met.step().line().lengthNm();
        draft.step(
                "where on " + met.name(),
                "distance along the geodesic from " + leg.from().ident(),
                "%.4f NM from %s, %.4f - %.4f = %.4f NM to %s",
                alongNm,
                leg.from().ident(),
                lengthNm,
                alongNm,
                lengthNm - alongNm,
                leg.to().ident());
    }

    /** An airway with bends may be met more than once. */
    private void sayOthers(List<Met> all, Met taken) {
        String others = all.stream()
                .filter(each -> Math.abs(each.aheadNm() - taken.aheadNm()) > AT_FIX_NM)
                .map(each -> String.format(Locale.ROOT, "%s at %.1f NM", each.name(), each.aheadNm()))
                .collect(Collectors.joining(", "));
        if (!others.isEmpty()) {
            draft.choice(
                    "the heading meets the airway more than once; taken is the first, %s at %.1f NM; further on %s",
                    taken.name(), taken.aheadNm(), others);
        }
    }

    private void notMet(HeadingPlan plan) {
        List<AirwayPath.Step> steps = path.steps();
        int nearest = OnSegments.nearest(segments(), draft.situation.position()).index();
        GeodesicLine line = steps.get(nearest).line();
        Offset offset = line.offset(draft.situation.position());
        draft.headingsThatMeet = HeadingRange.thatMeet(draft.situation, this::meeting);
        draft.warn(
                Warning.Code.HEADING_DOES_NOT_REACH_COURSE,
                "heading %s makes good track %s true, which does not meet %s between %s and %s; the airway is %.1f NM"
                        + " away and runs %s true here; %s",
                Angles.figures(plan.magnetic().deg()),
                Angles.figures(plan.ground().track().deg()),
                path.name(),
                steps.get(0).segment().from().ident(),
                steps.get(steps.size() - 1).segment().to().ident(),
                Math.abs(offset.crossTrackNm()),
                Angles.figures(offset.course().deg()),
                HeadingRange.advice(draft.headingsThatMeet));
        for (AirwayPath.Step step : steps) {
            Optional<Crossing> behind = plan.path()
                    .crossing(step.line())
                    .filter(crossing ->
                            crossing.alongFirstNm() < -AT_FIX_NM && crossing.alongFirstNm() > -Intercepts.BEHIND_NM)
                    .filter(crossing -> Intercepts.within(crossing.alongSecondNm(), step.line()));
            behind.ifPresent(crossing -> draft.warn(
                    Warning.Code.CROSSING_BEHIND,
                    "the line of this heading crosses %s %.1f NM behind the aircraft",
                    path.name(),
                    -crossing.alongFirstNm()));
        }
        draft.legs.add(Intercepts.headingLeg(plan, Optional.empty()));
        draft.courseLeg = 1;
        draft.append(path.legsFrom(nearest, steps.get(nearest).segment().from(), 0), path);
    }

    private Optional<HeadingPlan> propose() {
        return ProposedHeading.soonest(draft.situation, this::meeting);
    }
}
