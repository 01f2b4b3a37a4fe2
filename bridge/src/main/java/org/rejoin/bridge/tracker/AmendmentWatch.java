package org.rejoin.bridge.tracker;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.route.AmendedRoute;

import org.jspecify.annotations.Nullable;

/** One amendment being flown: its legs, what was assigned with it, and what of all that has been done. */
final class AmendmentWatch {

    private final AmendedRoute route;
    private final Achievement done;
    private final LegSequence legs;
    private @Nullable HeadingWatch heading;
    private final Assignments assigned;

    private final @Nullable OtherCourseWatch otherCourse;

    private @Nullable Moment last;

    AmendmentWatch(AmendedRoute route, Assignments assigned, List<NearStation> stations, Limits limits) {
        this.route = route;
        this.done = new Achievement(route);
        this.legs = new LegSequence(route, limits, done);
        this.heading = newHeading();
        this.assigned = assigned;
        this.otherCourse = route.course()
                .map(course -> new OtherCourseWatch(course, route, stations, limits))
                .orElse(null);
    }

    boolean complete() {
        return done.complete();
    }

    private @Nullable HeadingWatch newHeading() {
        return route.assignedHeading()
                .map(plan -> new HeadingWatch(plan.magnetic().deg()))
                .orElse(null);
    }

    List<TrackerEvent> step(Moment now) {
        List<TrackerEvent> events = new ArrayList<>(legs.step(now, heading != null && heading.flying(now)));
        if (heading != null) {
            events.addAll(heading.step(now, legs.measure(), legs.met(), legs.halfScaleNm(now)));
        }
        if (otherCourse != null && !done.intercepted() && legs.active() == route.courseLeg()) {
            events.addAll(otherCourse.step(now));
        }
        events.addAll(done.step(last, now, heading, assigned.altitude()));
        last = now;
        return events;
    }

    private String missing() {
        return done.missing(
                heading, assigned.altitude(), otherCourse == null ? Optional.empty() : otherCourse.instead());
    }

    Progress progress(Moment now) {
        Measure here = legs.measure();
        AssignedWatch altitude = assigned.altitude();
        AssignedWatch speed = assigned.speed();
        Progress.Phase phase = done.complete()
                ? Progress.Phase.COMPLETE
                : legs.active() > route.courseLeg()
                        ? Progress.Phase.JOINING
                        : legs.onCourse() ? Progress.Phase.ON_COURSE : Progress.Phase.CLOSING;
        return new Progress(
                now.timeS(),
                now.position(),
                now.trackDeg(),
                now.groundSpeedKt(),
                phase,
                legs.active(),
                here == null ? OptionalDouble.empty() : OptionalDouble.of(here.crossTrackNm()),
                legs.toGoNm(),
                here == null ? OptionalDouble.empty() : OptionalDouble.of(here.trackErrorDeg()),
                heading == null ? OptionalDouble.empty() : heading.errorDeg(now),
                altitude == null ? OptionalDouble.empty() : altitude.error(now),
                speed == null ? OptionalDouble.empty() : speed.error(now),
                legs.onCourse(),
                legs.nextFix());
    }

    /** Across a gap or a pause nothing is concluded; what was open ends where the flight was last seen. */
    List<TrackerEvent> breakOff() {
        List<TrackerEvent> events = new ArrayList<>();
        if (heading != null) {
            events.addAll(heading.breakOff());
        }
        legs.breakOff();
        if (otherCourse != null) {
            otherCourse.breakOff();
        }
        last = null;
        return events;
    }

    /** Set somewhere else: what was done stays done, the rest is flown again from there. */
    List<TrackerEvent> reposition(double timeS) {
        List<TrackerEvent> events = new ArrayList<>(legs.reposition(timeS));
        if (otherCourse != null) {
            otherCourse.reposition();
        }
        heading = done.intercepted() || done.complete() ? null : newHeading();
        return events;
    }

    List<TrackerEvent> finish(double timeS) {
        List<TrackerEvent> events = ended(timeS);
        if (!done.complete()) {
            events.add(new TrackerEvent.AmendmentNotAchieved(timeS, missing()));
        }
        return events;
    }

    /** The same for an amendment that a new clearance replaces, or that is taken back. */
    List<TrackerEvent> replaced(double timeS) {
        List<TrackerEvent> events = ended(timeS);
        if (!done.complete()) {
            events.add(new TrackerEvent.AmendmentReplaced(timeS, missing()));
        }
        return events;
    }

    /** What is open is over. */
    private List<TrackerEvent> ended(double timeS) {
        List<TrackerEvent> events = new ArrayList<>(legs.finish(timeS));
        if (heading != null) {
            events.addAll(heading.breakOff());
        }
        return events;
    }
}
