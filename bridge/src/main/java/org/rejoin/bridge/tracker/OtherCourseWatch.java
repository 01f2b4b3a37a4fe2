package org.rejoin.bridge.tracker;

import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.flight.CourseMeasure;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightInstant;
import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Declination;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Course;
import org.rejoin.bridge.route.HeadingPlan;
import org.rejoin.protocol.earth.Normal;

import org.jspecify.annotations.Nullable;

/**
 * Tracking well what was not cleared: another radial of the cleared station, the radial of the same number of another one, or
 * another airway of the chart. Asked for until the end of the cleared course is passed: who was near it where the two part has not tracked it.
 * Judged at whole seconds of the flight, interpolated, so that it costs little and comes out the same at any sample rate.
 *
 * <p>Not judged: on the heading that is to meet the course; within half scale of the cleared course; while the aircraft
 * still flies what it flew when the clearance was spoken.
 */
final class OtherCourseWatch {

    /** The track may lie this far from a line that is worth measuring, degrees; meridians converge less. */
    private static final double WORTH_MEASURING_DEG = 25;

    private record Candidate(NearStation near, TrueDirection course, CourseLine line, SteadyTrack steady) {}

    /** A segment of another airway. */
    private record Segment(String ident, double courseDeg, CourseLine line, SteadyTrack steady) {}

    private final AmendedRoute route;
    private final @Nullable Radials radials;
    private final List<CourseLine> ofRoute;
    private final List<Segment> segments;
    private final Limits limits;
    private final @Nullable HeadingPlan plan;
    private final Rule.OtherCourse rule;
    private double firstTrackDeg = Double.NaN;
    private boolean turned;
    private boolean told;
    private FlightEvent.@Nullable TrackedInstead latest;

    /** A watch; {@code cleared} is null where no station gives the course. */
    OtherCourseWatch(
            @Nullable Course cleared,
            AmendedRoute route,
            List<NearStation> stations,
            List<NearAirway> airways,
            Limits limits,
            Rule.OtherCourse rule) {
        this.rule = rule;
        this.route = route;
        this.limits = limits;
        this.plan = route.heading().orElse(null);
        this.radials = cleared == null ? null : new Radials(cleared, stations);
        this.ofRoute = route.legs().stream()
                .flatMap(leg -> leg.line().stream())
                .<CourseLine>map(CourseLine.Straight::new)
                .toList();
        this.segments = airways.stream()
                .map(near -> new Segment(
                        near.ident(),
                        near.line().initialCourse().deg(),
                        new CourseLine.Straight(near.line()),
                        new SteadyTrack(rule)))
                .toList();
    }

    /** What was tracked in place of the cleared course, for the reason given when it was not achieved. */
    Optional<String> instead() {
        return Optional.ofNullable(latest).map(tracked -> tracked.insteadOf(route.trackedCourseName()));
    }

    void step(@Nullable FlightInstant before, FlightInstant now, List<FlightEvent> events) {
        if (Double.isNaN(firstTrackDeg)) {
            firstTrackDeg = now.trackDeg();
            return;
        }
        if (before == null) {
            return;
        }
        double atS = Math.floor(now.flownS());
        if (atS > before.flownS()) {
            judge(
                    FlightInstant.between(before, now, (atS - before.flownS()) / (now.flownS() - before.flownS())),
                    now.timeS() - now.flownS(),
                    events);
        }
    }

    private void judge(FlightInstant at, double shiftS, List<FlightEvent> events) {
        turned |= Math.abs(Angles.turn(at.trackDeg() - firstTrackDeg)) > rule.turnedDeg();
        double excused = excused(at);
        if (!turned || excused > 0) {
            breakOff();
            return;
        }
        boolean any = radials != null && radials.judge(at, excused, shiftS, events);
        for (Segment each : segments) {
            any |= airway(each, at, excused, shiftS, events);
        }
        told &= any;
    }

    /** Another airway; whether it is being flown along. */
    private boolean airway(Segment each, FlightInstant at, double excused, double shiftS, List<FlightEvent> events) {
        if (Angles.acute(at.trackDeg() - each.courseDeg()) > WORTH_MEASURING_DEG) {
            each.steady().reset();
            return false;
        }
        CourseMeasure here = each.line().measure(at);
        double halfNm = halfScaleNm(Double.POSITIVE_INFINITY);
        double off = Math.max(
                Math.abs(here.crossTrackNm()) / halfNm - 1,
                Math.max(-here.alongNm(), here.alongNm() - each.line().lengthNm()));
        // Where two airways are one for a while it is the route that is flown.
        boolean onRoute = off <= 0 && ofRoute.stream().anyMatch(line -> isOn(line, at, halfNm));
        boolean held = each.steady().step(at, onRoute ? 1 : Math.max(off, excused), here.courseDeg(), rule.steadyDeg());
        if (!Double.isNaN(each.steady().trackedAtS())) {
            tell(
                    new FlightEvent.OtherAirwayJoined(each.steady().trackedAtS() + shiftS, each.ident()),
                    latest instanceof FlightEvent.OtherAirwayJoined before
                            && before.ident().equals(each.ident()),
                    events);
        }
        return held;
    }

    private static boolean isOn(CourseLine line, FlightInstant at, double halfNm) {
        CourseMeasure here = line.measure(at);
        return Math.abs(here.crossTrackNm()) <= halfNm && here.alongNm() >= 0 && here.alongNm() <= line.lengthNm();
    }

    /** Above zero while on the heading that is to meet the course; by the predicted track where there is no heading. */
    private double excused(FlightInstant at) {
        HeadingPlan heading = plan;
        if (heading == null) {
            return Double.NEGATIVE_INFINITY;
        }
        double off = Double.isNaN(at.headingMagneticDeg())
                ? at.trackDeg() - heading.ground().track().deg()
                : at.headingMagneticDeg() - heading.magnetic().deg();
        return 1 - Math.abs(Angles.turn(off)) / rule.onHeadingDeg();
    }

    private void tell(FlightEvent.TrackedInstead tracked, boolean again, List<FlightEvent> events) {
        if (told) {
            return;
        }
        told = true;
        latest = tracked;
        if (!again) {
            events.add(tracked);
        }
    }

    /** The radials that may be taken for the one that gives the cleared course. */
    private final class Radials {

        private final Course cleared;
        private final Normal station;
        private final CourseLine outbound;
        private final Radial radial;
        private final SteadyTrack onClearedStation = new SteadyTrack(rule);
        private final List<Candidate> candidates;

        private Radials(Course cleared, List<NearStation> stations) {
            this.cleared = cleared;
            this.station = cleared.station().position().normal();
            this.outbound = new CourseLine.Straight(cleared.outbound());
            this.radial = cleared.radial();
            this.candidates = stations.stream()
                    .filter(near -> !near.station().equals(cleared.station()))
                    .map(this::candidate)
                    .toList();
        }

        private Candidate candidate(NearStation near) {
            TrueDirection course = radial.toTrue(near.reference());
            GeodesicLine line = GeodesicLine.from(near.station().position(), course, rule.reachNm());
            return new Candidate(near, course, new CourseLine.Straight(line), new SteadyTrack(rule));
        }

        /** Whether one of them is being tracked. */
        private boolean judge(FlightInstant at, double onHeading, double shiftS, List<FlightEvent> events) {
            Geodesics.Inverse way = Geodesics.between(station, at.normal());
            double excused = Math.max(
                    onHeading, 1 - Math.abs(outbound.measure(at).crossTrackNm()) / halfScaleNm(way.distanceNm()));
            boolean any = false;
            for (Candidate each : candidates) {
                any |= sameNumber(each, at, excused, shiftS, events);
            }
            return otherRadial(at, way, excused, shiftS, events) || any;
        }

        /** The radial of that number of another station; whether it is being tracked. */
        private boolean sameNumber(
                Candidate each, FlightInstant at, double excused, double shiftS, List<FlightEvent> events) {
            if (Angles.acute(at.trackDeg() - each.course().deg()) > WORTH_MEASURING_DEG) {
                each.steady().reset();
                return false;
            }
            CourseMeasure here = each.line().measure(at);
            double off = Math.max(
                    excused,
                    Math.max(
                            Math.abs(here.crossTrackNm()) / halfScaleNm(here.alongNm()) - 1,
                            rule.closeNm() - here.alongNm()));
            boolean held = each.steady().step(at, off, here.courseDeg(), rule.steadyDeg());
            tell(each.near().station().ident(), radial, each.steady(), shiftS, events);
            return held;
        }

        /** Another radial of the cleared station; whether one is being tracked. */
        private boolean otherRadial(
                FlightInstant at, Geodesics.Inverse way, double excused, double shiftS, List<FlightEvent> events) {
            double azimuth = way.initial().deg();
            double apart = Math.abs(
                    Angles.turn(azimuth - cleared.outbound().initialCourse().deg()));
            double off = Math.max(excused, Math.max(1 - apart / rule.apartDeg(), rule.closeNm() - way.distanceNm()));
            // Parallel to the cleared course is as far off this radial as the radial is off the cleared one.
            double steadyDeg = Math.min(rule.steadyDeg(), apart / 3);
            boolean held = onClearedStation.step(at, off, way.onward().deg(), steadyDeg);
            Declination reference = new Declination(
                    Angles.turn(cleared.outbound().initialCourse().deg() - radial.deg()));
            tell(cleared.station().ident(), Radial.of(way.initial(), reference), onClearedStation, shiftS, events);
            return held;
        }

        private void tell(String ident, Radial tracked, SteadyTrack steady, double shiftS, List<FlightEvent> events) {
            if (Double.isNaN(steady.trackedAtS())) {
                return;
            }
            boolean again = latest instanceof FlightEvent.OtherCourseTracked before
                    && before.station().equals(ident)
                    && Math.abs(Angles.turn(before.radialDeg() - tracked.deg())) < rule.apartDeg();
            OtherCourseWatch.this.tell(
                    new FlightEvent.OtherCourseTracked(steady.trackedAtS() + shiftS, ident, tracked.deg()),
                    again,
                    events);
        }

        private void breakOff() {
            onClearedStation.reset();
            candidates.forEach(each -> each.steady().reset());
        }
    }

    private double halfScaleNm(double distanceNm) {
        return limits.fullScaleAtNm(distanceNm) / 2;
    }

    /** Across a gap nothing is concluded. */
    void breakOff() {
        if (radials != null) {
            radials.breakOff();
        }
        segments.forEach(each -> each.steady().reset());
        told = false;
    }
}
