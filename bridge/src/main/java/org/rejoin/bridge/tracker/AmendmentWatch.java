package org.rejoin.bridge.tracker;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Course;

import org.jspecify.annotations.Nullable;

/**
 * One amendment being flown: which leg is active, and what has been achieved. Legs only advance: by a fix sequenced, by
 * being established on the leg after, or by being found on a later one when the flight is seen again.
 */
final class AmendmentWatch {

    private final AmendedRoute route;
    private final Limits limits;
    private final LegLines lines;
    private final Achievement done;
    private @Nullable HeadingWatch heading;
    private @Nullable AltitudeWatch altitude;

    private int active;
    private @Nullable CourseWatch onActive;
    private @Nullable CourseWatch onNext;
    private @Nullable FixWatch ahead;
    private @Nullable FixWatch passed;
    private boolean seekLeg = true;

    private @Nullable Moment last;
    private @Nullable Measure measure;

    AmendmentWatch(AmendedRoute route, OptionalDouble assignedAltitudeFt, Limits limits) {
        this.route = route;
        this.limits = limits;
        this.lines = new LegLines(route.legs());
        this.done = new Achievement(route);
        this.heading = newHeading();
        assignedAltitudeFt.ifPresent(this::assignAltitude);
        active = Math.max(route.courseLeg(), -1);
        begin(null);
    }

    boolean complete() {
        return done.complete();
    }

    /** Another altitude, with a fair time to reach it; a deviation from the one before is over. */
    List<TrackerEvent> assignAltitude(double feet) {
        List<TrackerEvent> events = altitude == null ? List.of() : altitude.breakOff();
        altitude = new AltitudeWatch(feet);
        return events;
    }

    /** The altitude in force, which stays in force when the next clearance says nothing of one. */
    Optional<AltitudeWatch> altitude() {
        return Optional.ofNullable(altitude);
    }

    void carryOn(AltitudeWatch inForce) {
        altitude = inForce;
    }

    private @Nullable HeadingWatch newHeading() {
        return route.assignedHeading()
                .map(plan -> new HeadingWatch(plan.magnetic().deg()))
                .orElse(null);
    }

    /** Watches the active leg, with what is known of it already. */
    private void begin(@Nullable CourseWatch carried) {
        boolean none = lines.at(active) == null;
        onActive = none ? null : carried != null ? carried : new CourseWatch(active == route.courseLeg(), limits);
        onNext = lines.at(active + 1) == null ? null : new CourseWatch(false, limits);
        ahead = null;
        measure = null;
    }

    List<TrackerEvent> step(Moment now) {
        List<TrackerEvent> events = new ArrayList<>();
        aim(now);
        if (seekLeg) {
            seekLeg(now);
        }
        chooseAirwayLeg(now);
        course(now, events);
        assignedHeading(now, events);
        if (altitude != null) {
            events.addAll(altitude.step(now));
        }
        events.addAll(done.step(last, now, heading, altitude));
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

    private void course(Moment now, List<TrackerEvent> events) {
        GeodesicLine line = lines.at(active);
        CourseWatch watch = onActive;
        if (line == null || watch == null) {
            measure = null;
            return;
        }
        Measure here = lines.measure(now, line);
        measure = here;
        boolean onHeading = heading != null && heading.flying(now) && !watch.met();
        boolean was = watch.onCourse();
        events.addAll(watch.step(here, stationDistanceNm(now), onHeading));
        if (!was && watch.onCourse()) {
            events.addAll(done.established(active, watch.onCourseTimeS()));
        }
        fix(here, line, onHeading, now, events);
    }

    private void fix(Measure here, GeodesicLine line, boolean onHeading, Moment now, List<TrackerEvent> events) {
        GeodesicLine next = lines.at(active + 1);
        boolean nextEstablished = nextEstablished(here, line, now, next);
        FixWatch end = ahead;
        if (end == null) {
            String ident =
                    route.legs().get(active).endsAt().map(fix -> fix.ident()).orElse("");
            boolean computed = route.computedFix()
                    .map(fix -> fix.fix().ident().equals(ident))
                    .orElse(false);
            end = new FixWatch(ident, computed, line, next);
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

    private void advance(FixWatch end, double timeS, Moment now, List<TrackerEvent> events) {
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

    private boolean onCourse() {
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

    private void assignedHeading(Moment now, List<TrackerEvent> events) {
        if (heading == null) {
            return;
        }
        boolean met = onActive != null && onActive.met();
        double halfScale = limits.fullScaleAtNm(stationDistanceNm(now)) / 2;
        events.addAll(heading.step(now, measure, met, halfScale));
    }

    private String missing() {
        return done.missing(heading, altitude);
    }

    Progress progress(Moment now) {
        Measure here = measure;
        GeodesicLine line = lines.at(active);
        Progress.Phase phase = done.complete()
                ? Progress.Phase.COMPLETE
                : active > route.courseLeg()
                        ? Progress.Phase.JOINING
                        : onCourse() ? Progress.Phase.ON_COURSE : Progress.Phase.CLOSING;
        OptionalDouble toGo = here != null && line != null
                ? OptionalDouble.of(line.lengthNm() - here.alongNm())
                : lines.toGoNm(active);
        return new Progress(
                now.timeS(),
                now.position(),
                now.trackDeg(),
                now.groundSpeedKt(),
                phase,
                active,
                here == null ? OptionalDouble.empty() : OptionalDouble.of(here.crossTrackNm()),
                toGo,
                here == null ? OptionalDouble.empty() : OptionalDouble.of(here.trackErrorDeg()),
                heading == null ? OptionalDouble.empty() : heading.errorDeg(now),
                altitude == null ? OptionalDouble.empty() : altitude.errorFt(now),
                onCourse(),
                active >= 0 && active < route.legs().size()
                        ? route.legs().get(active).endsAt().map(fix -> fix.ident())
                        : Optional.empty());
    }

    /** Across a gap or a pause nothing is concluded; what was open ends where the flight was last seen. */
    List<TrackerEvent> breakOff() {
        List<TrackerEvent> events = new ArrayList<>();
        if (heading != null) {
            events.addAll(heading.breakOff());
        }
        if (altitude != null) {
            events.addAll(altitude.breakOff());
        }
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
        return events;
    }

    /** Set somewhere else: what was done stays done, the rest is flown again from there. */
    List<TrackerEvent> reposition(double timeS) {
        List<TrackerEvent> events = new ArrayList<>();
        if (onActive != null) {
            events.addAll(onActive.finish(timeS));
        }
        heading = newHeading();
        if (altitude != null) {
            events.addAll(altitude.breakOff());
            altitude = altitude.again();
        }
        lines.reposition();
        active = route.courseLeg();
        passed = null;
        begin(null);
        seekLeg = true;
        return events;
    }

    List<TrackerEvent> finish(double timeS) {
        List<TrackerEvent> events = ended(timeS);
        if (altitude != null) {
            events.addAll(altitude.breakOff());
        }
        if (!done.complete()) {
            events.add(new TrackerEvent.AmendmentNotAchieved(timeS, missing()));
        }
        return events;
    }

    /** The same for an amendment that a new clearance replaces, or that is taken back. */
    List<TrackerEvent> replaced(double timeS, boolean altitudeStays) {
        List<TrackerEvent> events = ended(timeS);
        if (altitude != null && !altitudeStays) {
            events.addAll(altitude.breakOff());
        }
        if (!done.complete()) {
            events.add(new TrackerEvent.AmendmentReplaced(timeS, missing()));
        }
        return events;
    }

    /** What is open is over. */
    private List<TrackerEvent> ended(double timeS) {
        List<TrackerEvent> events = new ArrayList<>();
        if (onActive != null) {
            events.addAll(onActive.finish(timeS));
        }
        if (heading != null) {
            events.addAll(heading.breakOff());
        }
        return events;
    }
}
