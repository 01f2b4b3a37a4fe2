package org.rejoin.bridge.tracker;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.LegMap;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Course;

import org.jspecify.annotations.Nullable;

/**
 * The legs of the amended route as they are flown: which is active, and the watches over it, over the one after it and
 * over the fixes between. Legs only advance: by a fix sequenced, by being established on the leg after, or by being
 * found on a later one when the flight is seen again.
 */
final class LegSequence {

    private final AmendedRoute route;
    private final Limits limits;
    private final LegLines lines;
    private final Achievement done;

    private int active;
    private @Nullable CourseWatch onActive;
    private @Nullable CourseWatch onNext;
    private @Nullable FixWatch ahead;
    private @Nullable FixWatch passed;
    private boolean seekLeg = true;

    private @Nullable Moment last;
    private @Nullable Measure measure;

    /**
     * A sequence, at its first leg with a line.
     *
     * @param route amended
     * @param limits in force
     * @param done is told what is reached
     */
    LegSequence(AmendedRoute route, Limits limits, Achievement done) {
        this.route = route;
        this.limits = limits;
        this.lines = new LegLines(route.legs());
        this.done = done;
        active = Math.max(route.courseLeg(), -1);
        begin(null);
    }

    /** Watches the active leg, with what is known of it already. */
    private void begin(@Nullable CourseWatch carried) {
        boolean none = lines.at(active) == null;
        onActive = none ? null : carried != null ? carried : new CourseWatch(active == route.courseLeg(), limits);
        onNext = lines.at(active + 1) == null ? null : new CourseWatch(false, limits);
        ahead = null;
        measure = null;
    }

    /**
     * Takes a step.
     *
     * @param now end of the step
     * @param onHeading whether the assigned heading is flown, or still turned to
     * @return what happened
     */
    List<FlightEvent> step(Moment now, boolean onHeading) {
        List<FlightEvent> events = new ArrayList<>();
        aim(now);
        if (seekLeg) {
            seekLeg(now);
        }
        chooseAirwayLeg(now);
        course(now, onHeading, events);
        last = now;
        return events;
    }

    /** A direct gets its line when the aircraft points at the fix. */
    private void aim(Moment now) {
        DirectAim.Aimed aimed = lines.aim(active, now);
        if (aimed != null) {
            begin(null);
            prime(aimed.from());
        }
    }

    private void prime(Moment from) {
        GeodesicLine line = lines.at(active);
        if (onActive != null && line != null) {
            onActive.step(lines.measure(from, line), stationDistanceNm(from), false);
        }
    }

    /** Seen for the first time, or again: it may be on a later leg already. What nobody saw is not held against it. */
    private void seekLeg(Moment now) {
        seekLeg = false;
        GeodesicLine line = lines.at(active);
        if (line == null || lines.measure(now, line).alongNm() < line.lengthNm()) {
            return;
        }
        int found = lines.flownAt(now, active + 1, limits.fullScaleAtNm(Double.POSITIVE_INFINITY) / 2);
        if (found > active) {
            done.passedUnseen();
            active = found;
            passed = null;
            begin(null);
        }
    }

    /** A heading to an airway may meet another leg of it than predicted. */
    private void chooseAirwayLeg(Moment now) {
        CourseWatch watch = onActive;
        if (route.course().isPresent()
                || !route.joinLegs().contains(route.courseLeg())
                || watch == null
                || !watch.undecided()
                || done.intercepted()) {
            return;
        }
        double scale = limits.fullScaleAtNm(Double.POSITIVE_INFINITY);
        int best = lines.metAt(now, route.joinLegs(), active, scale);
        if (best != active) {
            active = best;
            passed = null;
            begin(new CourseWatch(true, limits));
            if (last != null) {
                // The line may be crossed in this very step.
                prime(last);
            }
        }
    }

    private void course(Moment now, boolean flyingHeading, List<FlightEvent> events) {
        GeodesicLine line = lines.at(active);
        CourseWatch watch = onActive;
        if (line == null || watch == null) {
            measure = null;
            return;
        }
        Measure here = lines.measure(now, line);
        measure = here;
        boolean onHeading = flyingHeading && !watch.met();
        boolean was = watch.onCourse();
        events.addAll(watch.step(here, stationDistanceNm(now), onHeading));
        if (!was && watch.onCourse()) {
            events.addAll(done.established(active, watch.onCourseTimeS()));
        }
        fix(here, line, onHeading, now, events);
    }

    private void fix(Measure here, GeodesicLine line, boolean onHeading, Moment now, List<FlightEvent> events) {
        GeodesicLine next = lines.at(active + 1);
        boolean nextEstablished = nextEstablished(here, line, now, next);
        FixWatch end = ahead;
        if (end == null) {
            String ident =
                    route.legs().get(active).endsAt().map(fix -> fix.ident()).orElse("");
            boolean computed = route.computedFix()
                    .map(fix -> fix.fix().ident().equals(ident))
                    .orElse(false);
            LegMap onward = next == null ? null : lines.map(next);
            end = new FixWatch(ident, computed, lines.map(line), onward, limits.flyByMarginNm());
            ahead = end;
            if (last != null) {
                end.step(end.measure(last), false, true);
            }
        }
        if (passed != null) {
            events.addAll(passed.step(passed.measure(now), onCourse(), false));
            passed = passed.over(now) ? null : passed;
        }
        boolean before = end.sequenced();
        events.addAll(end.step(here, nextEstablished, onHeading));
        boolean sequenced = !before && end.sequenced();
        if (sequenced) {
            events.addAll(done.reachedEnd(active, end.sequencedTimeS()));
        }
        if ((sequenced || nextEstablished) && active + 1 < route.legs().size()) {
            advance(end, sequenced ? end.sequencedTimeS() : now.timeS(), now, events);
        }
    }

    private void advance(FixWatch end, double timeS, Moment now, List<FlightEvent> events) {
        CourseWatch carried = onNext;
        if (onActive != null) {
            events.addAll(onActive.finish(timeS));
        }
        passed = end;
        active++;
        if (carried != null) {
            carried.begin();
        }
        begin(carried);
        GeodesicLine line = lines.at(active);
        measure = line == null ? null : lines.measure(now, line);
        if (carried != null && carried.onCourse()) {
            events.addAll(done.established(active, Math.max(timeS, carried.onCourseTimeS())));
        }
    }

    /** Being established past the start of the next leg sequences to it, however it was reached. */
    private boolean nextEstablished(Measure here, GeodesicLine line, Moment now, @Nullable GeodesicLine next) {
        CourseWatch watch = onNext;
        if (next == null || watch == null) {
            return false;
        }
        if (line.lengthNm() - here.alongNm() > 3 * FixWatch.REACH_NM) {
            watch.breakOff();
            return false;
        }
        watch.step(lines.measure(now, next), Double.POSITIVE_INFINITY, false);
        return watch.onCourse();
    }

    /** Whether the aircraft is established on the active leg. */
    boolean onCourse() {
        return onActive != null && onActive.onCourse();
    }

    private double stationDistanceNm(Moment now) {
        return limits.angular() && active == route.courseLeg()
                ? route.course()
                        .map(Course::station)
                        .map(station -> station.position().distanceNm(now.position()))
                        .orElse(Double.POSITIVE_INFINITY)
                : Double.POSITIVE_INFINITY;
    }

    /** Whether the line of the active leg was crossed or joined. */
    boolean met() {
        return onActive != null && onActive.met();
    }

    /** The active leg's line as measured last; null where it has none. */
    @Nullable
    Measure measure() {
        return measure;
    }

    double halfScaleNm(Moment now) {
        return limits.fullScaleAtNm(stationDistanceNm(now)) / 2;
    }

    /** Index of the active leg; -1 if none has a line. */
    int active() {
        return active;
    }

    OptionalDouble toGoNm() {
        Measure here = measure;
        GeodesicLine line = lines.at(active);
        return here != null && line != null
                ? OptionalDouble.of(line.lengthNm() - here.alongNm())
                : lines.toGoNm(active);
    }

    Optional<String> nextFix() {
        return active >= 0 && active < route.legs().size()
                ? route.legs().get(active).endsAt().map(fix -> fix.ident())
                : Optional.empty();
    }

    /** Across a gap or a pause nothing is concluded. */
    void breakOff() {
        if (onActive != null) {
            onActive.breakOff();
        }
        if (onNext != null) {
            onNext.breakOff();
        }
        if (ahead != null) {
            ahead.breakOff();
        }
        if (passed != null) {
            passed.breakOff();
        }
        lines.breakOff();
        last = null;
        seekLeg = true;
    }

    /** Set somewhere else: the legs are flown again from the first. */
    List<FlightEvent> reposition(double timeS) {
        List<FlightEvent> events = finish(timeS);
        lines.reposition();
        active = route.courseLeg();
        passed = null;
        begin(null);
        seekLeg = true;
        return events;
    }

    /** What is open is over. */
    List<FlightEvent> finish(double timeS) {
        return onActive == null ? List.of() : onActive.finish(timeS);
    }
}
