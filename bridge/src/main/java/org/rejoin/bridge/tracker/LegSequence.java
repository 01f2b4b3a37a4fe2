package org.rejoin.bridge.tracker;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

import org.rejoin.bridge.flight.CourseMeasure;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightInstant;
import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Leg;
import org.rejoin.protocol.earth.Normal;

import org.jspecify.annotations.Nullable;

/**
 * The legs of the amended route as they are flown: which is active, and the watches over it, over the one after it and
 * over the fixes between. Legs only advance: by a fix sequenced, by being established on the leg after, or by being
 * found on a later one when the flight is seen again.
 */
final class LegSequence {

    /** Far from its start nobody is on the next leg for a moment only: it is looked for so often, seconds. */
    private static final double NEXT_SOUGHT_S = 5;

    private final AmendedRoute route;
    private final Limits limits;
    private final LegLines lines;
    private final Achievement done;

    private boolean cameHere;
    private int active;
    private @Nullable CourseWatch onActive;
    private @Nullable CourseWatch onNext;
    private @Nullable FixWatch ahead;
    private @Nullable FixWatch passed;
    private RouteLeftWatch left;
    private @Nullable DirectWatch direct;
    private final @Nullable FiledLegWatch filedLeg;
    private final Rules rules;
    private final double halfShare;
    private final double reachNm;
    private final double[] passedS;
    private final @Nullable Normal station;
    private final List<String> endIdents;
    private final double arcScaleNm;
    private int interceptLeg;
    private double closingAngleDeg = Double.NaN;
    private boolean courseLegOver;
    private boolean cameByNext;
    private double nextSoughtS = Double.NEGATIVE_INFINITY;
    private double passedOffNm = Double.NaN;
    private double passedScaleNm = Double.NaN;

    /** Off the arc to intercept while last along it, NM: the turn at its end leads across it. */
    private double alongArcNm = Double.NaN;

    /** What is seen of the leg after, before it is flown, is nobody's event. */
    private final List<FlightEvent> untold = new ArrayList<>();

    /** The lines of the active leg, of the one after it, and of the one before, while its end is watched, as measured last. */
    private @Nullable CourseMeasure measure;

    private @Nullable CourseMeasure nextMeasure;
    private @Nullable CourseMeasure passedMeasure;

    /**
     * A sequence, at its first leg with a line.
     *
     * @param cameHere whether the aircraft was seen to come to where the route was cleared: it is on no later leg by it
     */
    LegSequence(
            AmendedRoute route,
            Limits limits,
            Rules rules,
            Achievement done,
            @Nullable OrderedTurn ordered,
            boolean cameHere) {
        this.cameHere = cameHere;
        this.rules = rules;
        this.halfShare = rules.of(Rule.Established.class).ofScale();
        this.reachNm = rules.of(Rule.FixSequenced.class).reachNm();
        this.passedS = new double[route.legs().size()];
        Arrays.fill(passedS, Double.NaN);
        this.endIdents = route.legs().stream().map(LegSequence::identAtEnd).toList();
        this.arcScaleNm = rules.of(Rule.Arc.class).fullScaleNm();
        this.left = new RouteLeftWatch(rules.of(Rule.RouteLeft.class));
        this.route = route;
        this.limits = limits;
        this.station = limits.angular()
                ? route.course()
                        .map(course -> course.station().position().normal())
                        .orElse(null)
                : null;
        // Where a heading is assigned the order is the turn to that.
        boolean toFix = route.assignedHeading().isEmpty();
        this.lines = new LegLines(route.legs(), toFix ? ordered : null, rules);
        this.filedLeg = route.filedLegInstead()
                .map(leg -> new FiledLegWatch(leg.path(), rules))
                .orElse(null);
        this.done = done;
        active = Math.max(route.courseLeg(), -1);
        interceptLeg = active;
        begin(null);
    }

    /** Watches the active leg, with what is known of it already. */
    private void begin(@Nullable CourseWatch carried) {
        boolean none = lines.at(active) == null;
        onActive = none ? null : carried != null ? carried : watch(active, active == route.courseLeg());
        onNext = lines.at(active + 1) == null ? null : watch(active + 1, false);
        ahead = null;
        measure = null;
        nextMeasure = null;
        left = new RouteLeftWatch(rules.of(Rule.RouteLeft.class));
        direct = null;
    }

    private CourseWatch watch(int index, boolean intercepting) {
        Leg leg = route.legs().get(index);
        return new CourseWatch(intercepting, isDirect(index), leg instanceof Leg.DmeArc ? rules.onArc() : rules);
    }

    /** The route whose legs these are. */
    AmendedRoute route() {
        return route;
    }

    /**
     * Takes a step.
     *
     * @param onHeading whether the assigned heading is flown, or still turned to
     * @param turningToHeading whether it is still turned to
     */
    void step(
            @Nullable FlightInstant before,
            FlightInstant now,
            boolean onHeading,
            boolean turningToHeading,
            List<FlightEvent> events) {
        // Pointing at the fix on the way to an assigned heading is no turn to the fix.
        aim(onHeading && turningToHeading ? null : before, now, onHeading);
        if (before == null && !cameHere) {
            seekLeg(now);
        }
        cameHere = false;
        chooseAirwayLeg(before, now);
        course(before, now, onHeading, turningToHeading, events);
    }

    /** A direct gets its line when the aircraft points at the fix. */
    private void aim(@Nullable FlightInstant before, FlightInstant now, boolean onHeading) {
        if (onCourse()) {
            return;
        }
        FiledLegWatch filed = filedLeg;
        if (filed != null && active == interceptLeg && isDirect(active)) {
            filed.step(now, lines.toTurnDeg(active));
            if (filed.joins(now, limits.fullScaleAtNm(Double.POSITIVE_INFINITY))) {
                lines.instead(active, filed.line());
                begin(null);
                prime(filed.line().measure(now));
                return;
            }
        }
        boolean again = lines.at(active) != null;
        DirectAim.Aimed aimed = lines.aim(active, before, now, onHeading || leadsToFiled());
        CourseLine line = lines.at(active);
        if (aimed != null && line != null) {
            begin(null);
            prime(line.measure(aimed.from()).atStart());
            direct = again || active != interceptLeg ? null : new DirectWatch(rules.of(Rule.Direct.class));
        }
    }

    /** Whether the pilot may join the filed leg, and is on the way to it. */
    private boolean leadsToFiled() {
        return filedLeg != null && active == interceptLeg && filedLeg.leads();
    }

    /** Whether the line of a leg is the way direct to its fix. */
    private boolean isDirect(int index) {
        return index >= 0
                && route.legs().get(index) instanceof Leg.DirectToFix
                && (filedLeg == null || lines.at(index) != filedLeg.line());
    }

    private void prime(CourseMeasure from) {
        if (onActive != null) {
            measure = from;
            onActive.step(
                    null, from, fullScaleNm(from.instant()), Double.POSITIVE_INFINITY, false, false, new ArrayList<>());
        }
    }

    /** Seen for the first time, or again: it may be on a later leg already. What nobody saw is not held against it. */
    private void seekLeg(FlightInstant now) {
        CourseLine line = lines.at(active);
        if (line == null || line.measure(now).alongNm() < line.lengthNm()) {
            return;
        }
        int found = lines.flownAt(now, active + 1, limits.fullScaleAtNm(Double.POSITIVE_INFINITY) * halfShare);
        if (found > active) {
            done.passedUnseen();
            courseLegOver |= found > interceptLeg;
            active = found;
            passed = null;
            begin(null);
        }
    }

    /** A heading to an airway may meet another leg of it than predicted. */
    private void chooseAirwayLeg(@Nullable FlightInstant before, FlightInstant now) {
        if (!airwayAhead()) {
            return;
        }
        double scale = limits.fullScaleAtNm(Double.POSITIVE_INFINITY);
        int best = lines.metAt(now, route.joinLegs(), active, route.courseLeg(), scale);
        if (best != active) {
            active = best;
            interceptLeg = best;
            passed = null;
            begin(watch(best, true));
            CourseLine line = lines.at(active);
            if (before != null && line != null) {
                // The line may be crossed in this very step.
                prime(line.measure(before));
            }
        }
    }

    /** Whether an airway is to be met, and no leg of it was met yet. */
    private boolean airwayAhead() {
        return onActive != null
                && onActive.undecided()
                && !done.intercepted()
                && route.course().isEmpty()
                && route.joinLegs().contains(route.courseLeg());
    }

    private void course(
            @Nullable FlightInstant before,
            FlightInstant now,
            boolean flyingHeading,
            boolean turningToHeading,
            List<FlightEvent> events) {
        CourseLine line = lines.at(active);
        CourseWatch watch = onActive;
        if (line == null || watch == null) {
            measure = null;
            return;
        }
        CourseMeasure from = before == null ? null : measure;
        CourseMeasure toEnd = from != null || measure == null || !knownAcross(measure, now) ? from : measure;
        CourseMeasure here = line.measure(now);
        double fullScale = fullScaleNm(now);
        measure = here;
        boolean along = Math.abs(here.meanTrackErrorDeg())
                <= rules.of(Rule.Established.class).alongDeg();
        if (line instanceof CourseLine.Arc && active == interceptLeg && along) {
            alongArcNm = here.crossTrackNm();
        }
        if (active == interceptLeg && airwayAhead() && LegLines.before(here)) {
            // No airway is there: its line drawn on is nothing to cross, to fall short of or to be established on.
            watch = watch(active, true);
            onActive = watch;
            from = null;
        }
        boolean onHeading = flyingHeading && !watch.met();
        boolean was = watch.onCourse();
        int told = events.size();
        watch.step(from, here, fullScale, line.lengthNm(), onHeading, turningToHeading, events);
        if (was && events.size() > told && ahead != null && ahead.turnsOff(here)) {
            // The turn at the fix leaves the course: that is no crossing.
            events.subList(told, events.size()).removeIf(FlightEvent.CourseCrossed.class::isInstance);
        }
        if (!was && watch.onCourse()) {
            established(watch.onCourseTimeS(), events);
        }
        if (direct != null && !watch.onCourse() && !leadsToFiled()) {
            direct.step(from, here, rules.of(Rule.Overshoot.class).limitNm(fullScale), endIdents.get(active), events);
        }
        boolean turningTo = turningToHeading && !watch.met();
        fix(before, from, toEnd, here, line, fullScale, onHeading, turningTo, events);
    }

    /** Whether the fix to hold at, passed across a pause, was passed between what was seen: hardly anything was flown there. */
    private boolean knownAcross(CourseMeasure last, FlightInstant now) {
        return active + 1 == route.holdLeg() && Math.abs(now.flownS() - last.flownS()) <= HoldWatch.FIX_SEEN_S;
    }

    private void fix(
            @Nullable FlightInstant before,
            @Nullable CourseMeasure from,
            @Nullable CourseMeasure fromOrAcross,
            CourseMeasure here,
            CourseLine line,
            double fullScale,
            boolean onHeading,
            boolean turningToHeading,
            List<FlightEvent> events) {
        FlightInstant now = here.instant();
        CourseLine next = lines.at(active + 1);
        boolean nextEstablished = nextEstablished(before, here, line, next, onHeading, turningToHeading);
        CourseMeasure toEnd = fromOrAcross;
        FixWatch end = ahead;
        if (end == null) {
            String ident = endIdents.get(active);
            boolean computed = route.computedFix()
                    .map(fix -> fix.fix().ident().equals(ident))
                    .orElse(false);
            double scaleNm = limits.fullScaleAtNm(Double.POSITIVE_INFINITY);
            end = new FixWatch(
                    ident,
                    computed,
                    line,
                    next,
                    isDirect(active),
                    route.turnsOntoHeadingAfter(active),
                    rules.of(Rule.Overshoot.class).limitNm(scaleNm),
                    scaleNm,
                    rules);
            ahead = end;
            // The line may begin in this very step, and its end be passed in it.
            toEnd = before == null ? null : line.measure(before);
        }
        if (passed != null) {
            CourseMeasure past = before == null ? null : passedMeasure;
            passedMeasure = passed.measure(now);
            passed.step(past, passedMeasure, null, onCourse(), false, true, events);
            if (Double.isNaN(passedS[active - 1])) {
                passedS[active - 1] = passed.passedS();
            }
            courseLegOver |= active == interceptLeg + 1 && passed.over(now);
            if (passed.left()) {
                passed = null;
            }
        }
        if (active == interceptLeg && next != null && !cameByNext && now.flownS() >= nextSoughtS) {
            nextSoughtS = now.flownS() + NEXT_SOUGHT_S;
            cameByNext = comesByNext(here, next, end.leadNm(now));
        }
        left.step(
                from,
                here,
                line.lengthNm() - here.alongNm(),
                end.leadNm(now),
                fullScale,
                onCourse(),
                endIdents.get(active),
                events);
        boolean sequencedBefore = end.sequenced();
        boolean abeamBefore = !Double.isNaN(end.passedS());
        end.step(toEnd, here, nextMeasure, nextEstablished, onHeading, onCourse(), events);
        notePassed(end, abeamBefore, here, now);
        boolean sequenced = !sequencedBefore && end.sequenced();
        if (sequenced && toEnd != null && route.turnsOntoHeadingAfter(active)) {
            left.turnedAtItsEnd(toEnd, here, end.passedS(), line.lengthNm(), endIdents.get(active), events);
        }
        if (sequenced) {
            done.reachedEnd(active, end.sequencedTimeS(), events);
        }
        if ((sequenced || nextEstablished) && active + 1 < route.legs().size()) {
            advance(end, here, sequenced ? end.sequencedTimeS() : now.timeS(), events);
        }
    }

    /** Along the line of the next leg from far before its start, where the two part: not by the leg that is cleared. */
    private boolean comesByNext(CourseMeasure here, CourseLine next, double leadNm) {
        Rule.Established along = rules.of(Rule.Established.class);
        if (Math.abs(here.meanTrackErrorDeg()) <= rules.of(Rule.TurnAtFix.class).leastDeg()) {
            return false;
        }
        CourseMeasure onto = next.measure(here.instant());
        double scaleNm = limits.fullScaleAtNm(Double.POSITIVE_INFINITY);
        return onto.alongNm() < -(leadNm + scaleNm)
                && Math.abs(onto.crossTrackNm()) <= along.ofScale() * scaleNm
                && Math.abs(onto.meanTrackErrorDeg()) <= along.alongDeg();
    }

    private void advance(FixWatch end, CourseMeasure here, double timeS, List<FlightEvent> events) {
        CourseWatch carried = onNext;
        CourseMeasure onto = nextMeasure;
        if (onActive != null) {
            onActive.finish(timeS, events);
            closingAngleDeg = active == interceptLeg ? onActive.closingAngleDeg() : closingAngleDeg;
        }
        courseLegOver |= active > interceptLeg;
        passed = end;
        passedMeasure = here;
        active++;
        if (carried != null) {
            carried.begin();
        }
        begin(carried);
        measure = onto;
        if (carried != null && carried.onCourse()) {
            established(Math.max(timeS, carried.onCourseTimeS()), events);
        }
    }

    private void notePassed(FixWatch end, boolean before, CourseMeasure here, FlightInstant now) {
        if (before || Double.isNaN(end.passedS())) {
            return;
        }
        passedS[active] = end.passedS();
        if (active == interceptLeg) {
            passedOffNm = Double.isNaN(alongArcNm) ? here.crossTrackNm() : alongArcNm;
            passedScaleNm = fullScaleNm(now);
        }
        // Nothing follows: there is no turn to wait for.
        courseLegOver |= active == interceptLeg && active + 1 >= route.legs().size();
    }

    /** Established on the leg after: whoever passed the end of the leg before within full scale has achieved that one. */
    private void established(double timeS, List<FlightEvent> events) {
        boolean within = Math.abs(passedOffNm) <= passedScaleNm && !cameByNext;
        if (!done.intercepted() && within && active > interceptLeg) {
            done.passedUnseen();
            CourseLine line = lines.at(interceptLeg);
            if (line != null) {
                events.add(new FlightEvent.InterceptAchieved(
                        timeS, line.path().finalCourse().deg(), closingAngleDeg, passedOffNm));
            }
        }
        done.established(active, timeS, events);
    }

    /** The fix to hold at was passed where nobody saw it: the leg to it is over, and nothing on the hold is held against it. */
    void holdUnseen(double timeS, List<FlightEvent> events) {
        boolean near = measure != null && Math.abs(measure.crossTrackNm()) <= reachNm;
        if (near && active < route.holdLeg()) {
            done.passedUnseen();
            if (onActive != null) {
                onActive.finish(timeS, events);
            }
            courseLegOver = true;
            active = route.holdLeg();
            passed = null;
            begin(null);
        }
    }

    /** The hold on the way is flown: the leg after it is the active one. */
    void leaveHold(double fixS) {
        passedS[route.holdLeg()] = fixS;
        if (active < route.holdLeg() + 1) {
            active = route.holdLeg() + 1;
            passed = null;
            begin(null);
        }
    }

    /** Being established past the start of the next leg sequences to it, however it was reached. */
    private boolean nextEstablished(
            @Nullable FlightInstant before,
            CourseMeasure here,
            CourseLine line,
            @Nullable CourseLine next,
            boolean onHeading,
            boolean turningToHeading) {
        CourseWatch watch = onNext;
        if (next == null || watch == null) {
            return false;
        }
        // Who has not turned to the heading yet flies on as before, be it along a later leg.
        if (turningToHeading || line.lengthNm() - here.alongNm() > 3 * reachNm) {
            watch.breakOff(Double.NaN);
            nextMeasure = null;
            return false;
        }
        CourseMeasure from = before == null ? null : nextMeasure;
        nextMeasure = next.measure(here.instant());
        // Beside it on a heading that has met nothing is not on it.
        watch.step(
                from,
                nextMeasure,
                limits.fullScaleAtNm(Double.POSITIVE_INFINITY),
                next.lengthNm(),
                onHeading,
                onHeading,
                untold);
        untold.clear();
        return watch.onCourse();
    }

    /** Whether the aircraft is established on the active leg. */
    boolean onCourse() {
        return onActive != null && onActive.onCourse();
    }

    private double stationDistanceNm(FlightInstant now) {
        Normal guiding = station;
        return guiding == null || active != route.courseLeg()
                ? Double.POSITIVE_INFINITY
                : Geodesics.between(guiding, now.normal()).distanceNm();
    }

    /** Whether the line to intercept was crossed or joined, turned onto too early, or left behind where nobody saw it. */
    boolean turnedOnto() {
        return active > interceptLeg || (onActive != null && onActive.turnedOnto());
    }

    /** The active leg's line as measured last; null where it has none. */
    @Nullable
    CourseMeasure measure() {
        return measure;
    }

    /** Whether the active line is the way direct to a fix, which starts with the aircraft. */
    boolean direct() {
        return isDirect(active);
    }

    /** Full scale of the active leg, here. */
    double fullScaleNm(FlightInstant now) {
        return lines.at(active) instanceof CourseLine.Arc ? arcScaleNm : limits.fullScaleAtNm(stationDistanceNm(now));
    }

    /** Whether the aircraft is established now, on the active leg or on the one after it. */
    boolean holding() {
        return (onActive != null && onActive.holding()) || (onNext != null && onNext.holding());
    }

    /** Whether the leg to intercept was left behind, the turn at its end included; one without an end is not waited for. */
    boolean courseLegOver() {
        boolean endless =
                route.departsOnRadial() && interceptLeg == route.legs().size() - 1;
        return endless || courseLegOver || active > interceptLeg + 1;
    }

    /** When the line of the active leg was first crossed, flown seconds; NaN before. */
    double crossedS() {
        return onActive == null ? Double.NaN : onActive.metS();
    }

    /** When the end of a leg was passed, flown seconds; NaN before. */
    double passedS(int index) {
        return index >= 0 && index < passedS.length ? passedS[index] : Double.NaN;
    }

    /** Whether the end of the leg to intercept was passed beyond full scale of it. */
    boolean passedOutside() {
        return Math.abs(passedOffNm) > passedScaleNm;
    }

    /** Index of the leg that is to be intercepted. */
    int interceptLeg() {
        return interceptLeg;
    }

    /** Index of the active leg; -1 if none has a line. */
    int active() {
        return active;
    }

    /** Distance to the end of the active leg; NaN where none has a line or is aimed at. */
    double toGoNm() {
        CourseMeasure here = measure;
        CourseLine line = lines.at(active);
        return here != null && line != null ? line.lengthNm() - here.alongNm() : lines.toGoNm(active);
    }

    /** Turn that is left to the fix of a direct that is still turned to, degrees, right positive; else NaN. */
    double toTurnDeg() {
        return lines.toTurnDeg(active);
    }

    private static String identAtEnd(Leg leg) {
        return leg.endsAt().map(fix -> fix.ident()).orElse("");
    }

    /** Across a gap or a pause nothing is concluded. */
    void breakOff(double goesOnFromS) {
        if (onActive != null) {
            onActive.breakOff(goesOnFromS);
        }
        if (onNext != null) {
            onNext.breakOff(goesOnFromS);
        }
        if (ahead != null) {
            ahead.breakOff();
        }
        if (passed != null) {
            passed.breakOff();
        }
        lines.breakOff();
        left.breakOff();
    }

    /** What is open goes on, and is told as far as it has come. */
    void setAside(double timeS, List<FlightEvent> events) {
        if (onActive != null) {
            onActive.setAside(timeS, events);
        }
    }

    /** What is open is over. */
    void finish(double timeS, List<FlightEvent> events) {
        if (onActive != null) {
            onActive.finish(timeS, events);
        }
    }
}
