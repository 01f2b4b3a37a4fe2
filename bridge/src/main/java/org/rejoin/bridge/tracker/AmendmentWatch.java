package org.rejoin.bridge.tracker;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Course;
import org.rejoin.bridge.route.Leg;

import org.jspecify.annotations.Nullable;

/**
 * One amendment being flown: which leg is active, and what has been achieved. Legs only advance: by a fix sequenced, or
 * by being established on the leg after.
 */
final class AmendmentWatch {

    private final AmendedRoute route;
    private final Limits limits;
    private final @Nullable HeadingWatch heading;
    private final @Nullable AltitudeWatch altitude;

    private int active;
    private @Nullable CourseWatch onActive;
    private @Nullable CourseWatch onNext;
    private final List<FixWatch> fixes = new ArrayList<>();
    private int fixesFrom = -1;

    private boolean intercepted;
    private boolean joined;
    private boolean resumed;
    private boolean complete;
    private @Nullable Measure measure;

    AmendmentWatch(AmendedRoute route, OptionalDouble assignedAltitudeFt, Limits limits) {
        this.route = route;
        this.limits = limits;
        this.heading = route.assignedHeading()
                .map(plan -> new HeadingWatch(plan.magnetic().deg(), limits.headingDeg()))
                .orElse(null);
        this.altitude = assignedAltitudeFt.isPresent()
                ? new AltitudeWatch(assignedAltitudeFt.getAsDouble(), limits.altitudeFt())
                : null;
        activate(Math.max(route.courseLeg(), -1));
    }

    AmendedRoute route() {
        return route;
    }

    boolean complete() {
        return complete;
    }

    private void activate(int index) {
        active = index;
        onActive = line(index) == null ? null : new CourseWatch(index == route.courseLeg(), limits);
        onNext = line(index + 1) == null ? null : new CourseWatch(false, limits);
    }

    private @Nullable GeodesicLine line(int index) {
        return index >= 0 && index < route.legs().size()
                ? route.legs().get(index).line().orElse(null)
                : null;
    }

    List<TrackerEvent> step(Moment now) {
        List<TrackerEvent> events = new ArrayList<>();
        chooseAirwayLeg(now);
        course(now, events);
        assignedHeading(now, events);
        if (altitude != null) {
            events.addAll(altitude.step(now));
        }
        achieved(now, events);
        return events;
    }

    /** A heading to an airway may meet another leg of it than predicted: take the one abeam. */
    private void chooseAirwayLeg(Moment now) {
        CourseWatch watch = onActive;
        if (route.course().isPresent()
                || !route.joinLegs().contains(route.courseLeg())
                || watch == null
                || !watch.undecided()
                || intercepted) {
            return;
        }
        int best = active;
        double nearest = Double.MAX_VALUE;
        for (int index : route.joinLegs()) {
            GeodesicLine line = line(index);
            if (line == null) {
                continue;
            }
            Measure m = Measure.of(now, line);
            boolean abeam = m.alongNm() > -0.5 && m.alongNm() < line.lengthNm() + 0.5;
            if (abeam && Math.abs(m.crossTrackNm()) < nearest) {
                nearest = Math.abs(m.crossTrackNm());
                best = index;
            }
        }
        // Far out the prediction is better than the nearest leg.
        if (best != active && nearest < 3 * limits.fullScaleAtNm(Double.POSITIVE_INFINITY)) {
            active = best;
            onActive = new CourseWatch(true, limits);
            onNext = line(best + 1) == null ? null : new CourseWatch(false, limits);
        }
    }

    private void course(Moment now, List<TrackerEvent> events) {
        GeodesicLine line = line(active);
        CourseWatch watch = onActive;
        if (line == null || watch == null) {
            measure = null;
            return;
        }
        Measure here = Measure.of(now, line);
        measure = here;
        boolean onHeading = heading != null && heading.flying(now) && !watch.met();
        boolean was = watch.onCourse();
        List<TrackerEvent> happened = watch.step(here, stationDistanceNm(now), onHeading);
        events.addAll(happened);
        if (!was && watch.onCourse()) {
            established(active, eventTime(happened, now), events);
        }
        fix(here, now, events);
    }

    private static double eventTime(List<TrackerEvent> happened, Moment now) {
        return happened.isEmpty()
                ? now.timeS()
                : happened.get(happened.size() - 1).timeS();
    }

    private void fix(Measure here, Moment now, List<TrackerEvent> events) {
        GeodesicLine line = line(active);
        GeodesicLine next = line(active + 1);
        boolean nextEstablished = nextEstablished(now, next);
        if (line != null && fixesFrom < active) {
            String ident =
                    route.legs().get(active).endsAt().map(fix -> fix.ident()).orElse("");
            boolean computed = route.computedFix()
                    .map(fix -> fix.fix().ident().equals(ident))
                    .orElse(false);
            fixes.add(new FixWatch(ident, computed, line, next));
            fixesFrom = active;
        }
        boolean sequenced = false;
        for (int i = 0; i < fixes.size(); i++) {
            FixWatch fix = fixes.get(i);
            boolean current = i == fixes.size() - 1;
            boolean before = fix.sequenced();
            Measure fromLeg = current ? here : fix.measure(now);
            events.addAll(fix.step(fromLeg, current ? nextEstablished : onCourse()));
            sequenced |= current && !before && fix.sequenced();
        }
        fixes.removeIf(fix -> fix.over(now) && fix != fixes.get(fixes.size() - 1));
        if ((sequenced || nextEstablished) && active + 1 < route.legs().size()) {
            CourseWatch carried = onNext;
            activate(active + 1);
            if (carried != null && carried.onCourse()) {
                onActive = carried;
                established(active, now.timeS(), events);
            }
        }
    }

    /** Being established past the start of the next leg sequences to it, however it was reached. */
    private boolean nextEstablished(Moment now, @Nullable GeodesicLine next) {
        CourseWatch watch = onNext;
        if (next == null || watch == null) {
            return false;
        }
        Measure there = Measure.of(now, next);
        if (there.alongNm() < 0 || Math.abs(there.crossTrackNm()) > 3 * FixWatch.REACH_NM) {
            watch.breakOff();
            return false;
        }
        watch.step(there, Double.POSITIVE_INFINITY, false);
        return watch.onCourse();
    }

    private boolean onCourse() {
        return onActive != null && onActive.onCourse();
    }

    private double stationDistanceNm(Moment now) {
        return active == route.courseLeg()
                ? route.course()
                        .map(Course::station)
                        .map(station -> station.position().distanceNm(now.position()))
                        .orElse(Double.POSITIVE_INFINITY)
                : Double.POSITIVE_INFINITY;
    }

    private void established(int index, double timeS, List<TrackerEvent> events) {
        Leg leg = route.legs().get(index);
        if (index == route.courseLeg()
                || (route.course().isEmpty() && route.joinLegs().contains(index))) {
            intercepted = true;
        }
        if (route.joinLegs().contains(index) && !joined) {
            joined = true;
            events.add(new TrackerEvent.AirwayJoined(
                    timeS,
                    leg.airway().orElse(""),
                    leg.endsAt().map(fix -> fix.ident()).orElse("")));
        }
        if (route.resumesAt() >= 0 && index >= route.resumesAt() && !resumed) {
            resumed = true;
            events.add(new TrackerEvent.RouteResumed(timeS));
        }
    }

    private void assignedHeading(Moment now, List<TrackerEvent> events) {
        if (heading == null) {
            return;
        }
        boolean met = onActive != null && onActive.met();
        double halfScale = limits.fullScaleAtNm(stationDistanceNm(now)) / 2;
        events.addAll(heading.step(now, measure, met, halfScale));
    }

    private void achieved(Moment now, List<TrackerEvent> events) {
        if (complete || !missing().isEmpty()) {
            return;
        }
        complete = true;
        double timeS =
                events.isEmpty() ? now.timeS() : events.get(events.size() - 1).timeS();
        events.add(new TrackerEvent.AmendmentComplete(timeS));
    }

    /** What has not been done yet, in words; empty when the amendment is complete. */
    private Optional<String> missing() {
        if (route.courseLeg() < 0) {
            return heading == null || heading.established()
                    ? Optional.empty()
                    : Optional.of("the assigned heading was not taken up");
        }
        if (!intercepted) {
            return Optional.of(route.course()
                    .map(course -> String.format(
                            java.util.Locale.ROOT,
                            "never established on the %s %03.0f radial",
                            course.station().ident(),
                            course.radial().deg()))
                    .orElseGet(
                            () -> "never established on " + route.joinedAirway().orElse("the course")));
        }
        if (!route.joinLegs().isEmpty() && !joined) {
            return Optional.of("did not join " + route.joinedAirway().orElse("the airway"));
        }
        if (route.resumesAt() >= 0 && !resumed) {
            return Optional.of("did not come back to the filed route");
        }
        return Optional.empty();
    }

    Progress progress(Moment now) {
        Measure here = measure;
        GeodesicLine line = line(active);
        Progress.Phase phase = complete
                ? Progress.Phase.COMPLETE
                : active > route.courseLeg()
                        ? Progress.Phase.JOINING
                        : onCourse() ? Progress.Phase.ON_COURSE : Progress.Phase.CLOSING;
        boolean measured = here != null && line != null;
        return new Progress(
                now.timeS(),
                now.position(),
                now.trackDeg(),
                now.groundSpeedKt(),
                phase,
                active,
                measured ? OptionalDouble.of(here.crossTrackNm()) : OptionalDouble.empty(),
                measured ? OptionalDouble.of(line.lengthNm() - here.alongNm()) : OptionalDouble.empty(),
                measured ? OptionalDouble.of(here.trackErrorDeg()) : OptionalDouble.empty(),
                heading == null ? OptionalDouble.empty() : heading.errorDeg(now),
                altitude == null ? OptionalDouble.empty() : altitude.errorFt(now),
                onCourse(),
                active >= 0 && active < route.legs().size()
                        ? route.legs().get(active).endsAt().map(fix -> fix.ident())
                        : Optional.empty());
    }

    void breakOff() {
        if (heading != null) {
            heading.breakOff();
        }
        if (altitude != null) {
            altitude.breakOff();
        }
        if (onActive != null) {
            onActive.breakOff();
        }
        if (onNext != null) {
            onNext.breakOff();
        }
        fixes.forEach(FixWatch::breakOff);
    }

    List<TrackerEvent> finish(double timeS) {
        List<TrackerEvent> events = new ArrayList<>();
        if (onActive != null) {
            events.addAll(onActive.finish(timeS));
        }
        if (!complete) {
            events.add(new TrackerEvent.AmendmentNotAchieved(timeS, missing().orElse("")));
        }
        return events;
    }

    /** The same for an amendment that a new clearance replaces. */
    List<TrackerEvent> replaced(double timeS) {
        return complete
                ? List.of()
                : List.of(new TrackerEvent.AmendmentReplaced(timeS, missing().orElse("")));
    }
}
