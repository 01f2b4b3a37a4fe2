package org.rejoin.bridge.tracker;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.protocol.AircraftState;

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

    List<FlightEvent> step(Moment now) {
        List<FlightEvent> events = new ArrayList<>(legs.step(now, heading != null && heading.flying(now)));
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

    Point point(Moment now, AircraftState state, boolean newPiece) {
        Measure here = legs.measure();
        Point.Phase phase = done.complete()
                ? Point.Phase.COMPLETE
                : legs.active() > route.courseLeg()
                        ? Point.Phase.JOINING
                        : legs.onCourse() ? Point.Phase.ON_COURSE : Point.Phase.CLOSING;
        Point beside = now.point(state, assigned, newPiece);
        return new Point(
                state,
                now.flownS(),
                now.trackDeg(),
                now.groundSpeedKt(),
                now.turnRateDegPerS(),
                beside.headingMagneticDeg(),
                phase,
                legs.active(),
                here == null ? Double.NaN : here.crossTrackNm(),
                legs.toGoNm().orElse(Double.NaN),
                here == null ? Double.NaN : here.trackErrorDeg(),
                here == null ? Double.NaN : 2 * legs.halfScaleNm(now),
                heading == null ? Double.NaN : heading.errorDeg(now).orElse(Double.NaN),
                beside.altitudeErrorFt(),
                beside.speedErrorKt(),
                legs.onCourse(),
                newPiece);
    }

    /** Across a gap or a pause nothing is concluded; what was open ends where the flight was last seen. */
    List<FlightEvent> breakOff() {
        List<FlightEvent> events = new ArrayList<>();
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
    List<FlightEvent> reposition(double timeS) {
        List<FlightEvent> events = new ArrayList<>(legs.reposition(timeS));
        if (otherCourse != null) {
            otherCourse.reposition();
        }
        heading = done.intercepted() || done.complete() ? null : newHeading();
        return events;
    }

    List<FlightEvent> finish(double timeS) {
        List<FlightEvent> events = ended(timeS);
        if (!done.complete()) {
            events.add(new FlightEvent.AmendmentNotAchieved(timeS, missing()));
        }
        return events;
    }

    /** The same for an amendment that a new clearance replaces, or that is taken back. */
    List<FlightEvent> replaced(double timeS) {
        List<FlightEvent> events = ended(timeS);
        if (!done.complete()) {
            events.add(new FlightEvent.AmendmentReplaced(timeS, missing()));
        }
        return events;
    }

    /** What is open is over. */
    private List<FlightEvent> ended(double timeS) {
        List<FlightEvent> events = new ArrayList<>(legs.finish(timeS));
        if (heading != null) {
            events.addAll(heading.breakOff());
        }
        return events;
    }
}
