package org.rejoin.bridge.tracker;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Declination;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Course;
import org.rejoin.bridge.route.HeadingPlan;

import org.jspecify.annotations.Nullable;

/**
 * Tracking well what was not cleared: another radial of the cleared station, or the radial of the same number of another
 * one. Asked for until the cleared course is achieved. Judged at whole seconds of the flight, interpolated, so that it
 * costs little and comes out the same at any sample rate.
 *
 * <p>Not judged: on the heading that is to meet the course; within half scale of the cleared course; while the aircraft
 * still flies what it flew when the clearance was spoken. All values: common practice, no source.
 */
final class OtherCourseWatch {

    /** A radial this close to the cleared one is the cleared one flown badly, degrees. */
    private static final double LEAST_APART_DEG = 4;

    /** On the heading to the course, degrees. */
    private static final double ON_HEADING_DEG = 10;

    /** Turned off what was flown when the clearance was spoken, degrees. */
    private static final double TURNED_DEG = 15;

    /** Nearer to a station its radials cannot be told apart, nautical miles. */
    private static final double CLOSE_NM = 2;

    /** How far the radial of another station is drawn, nautical miles: its largest service volume (AIM 1-1-8). */
    private static final double RADIAL_NM = 130;

    /** The track may lie this far from a line that is worth measuring, degrees; meridians converge less. */
    private static final double WORTH_MEASURING_DEG = 25;

    private record Candidate(NearStation near, GeodesicLine line, SteadyTrack steady) {}

    private final Course cleared;
    private final Radial radial;
    private final Limits limits;
    private final @Nullable HeadingPlan plan;
    private final SteadyTrack onClearedStation = new SteadyTrack();
    private final List<Candidate> candidates;
    private @Nullable Moment last;
    private double firstTrackDeg = Double.NaN;
    private boolean turned;
    private boolean told;
    private FlightEvent.@Nullable OtherCourseTracked latest;

    /**
     * A watch.
     *
     * @param cleared the course of the clearance
     * @param route it is part of
     * @param stations round the aircraft; the cleared one among them is passed over
     * @param limits in force
     */
    OtherCourseWatch(Course cleared, AmendedRoute route, List<NearStation> stations, Limits limits) {
        this.cleared = cleared;
        this.radial = cleared.radial();
        this.limits = limits;
        this.plan = route.heading().orElse(null);
        this.candidates = stations.stream()
                .filter(near -> !near.station().equals(cleared.station()))
                .map(near -> new Candidate(
                        near,
                        GeodesicLine.from(near.station().position(), radial.toTrue(near.reference()), RADIAL_NM),
                        new SteadyTrack()))
                .toList();
    }

    /** What was tracked in place of the cleared course, for the reason given when it was not achieved. */
    Optional<String> instead() {
        return Optional.ofNullable(latest)
                .map(tracked -> String.format(
                        Locale.ROOT,
                        "tracked the %s %s radial; the clearance was the %s %s radial",
                        tracked.station(),
                        Angles.figures(tracked.radialDeg()),
                        cleared.station().ident(),
                        Angles.figures(radial.deg())));
    }

    List<FlightEvent> step(Moment now) {
        Moment before = last;
        last = now;
        if (before == null) {
            firstTrackDeg = Double.isNaN(firstTrackDeg) ? now.trackDeg() : firstTrackDeg;
            return List.of();
        }
        double atS = Math.floor(now.flownS());
        if (atS <= before.flownS()) {
            return List.of();
        }
        return judge(
                Moment.between(before, now, (atS - before.flownS()) / (now.flownS() - before.flownS())),
                now.timeS() - now.flownS());
    }

    private List<FlightEvent> judge(Moment at, double shiftS) {
        turned |= Math.abs(Angles.turn(at.trackDeg() - firstTrackDeg)) > TURNED_DEG;
        double excused = excused(at);
        if (!turned || excused > 0) {
            reset();
            return List.of();
        }
        excused = Math.max(
                excused,
                1
                        - Math.abs(cleared.outbound().offset(at.position()).crossTrackNm())
                                / halfScaleNm(cleared.station().position().distanceNm(at.position())));
        List<FlightEvent> events = new ArrayList<>();
        boolean any = false;
        for (Candidate each : candidates) {
            any |= sameNumber(each, at, excused, shiftS, events);
        }
        any |= otherRadial(at, excused, shiftS, events);
        told &= any;
        return events;
    }

    /** Above zero while on the heading that is to meet the course; by the predicted track where there is no heading. */
    private double excused(Moment at) {
        HeadingPlan heading = plan;
        if (heading == null) {
            return Double.NEGATIVE_INFINITY;
        }
        double off = at.headingMagneticDeg().isPresent()
                ? at.headingMagneticDeg().getAsDouble() - heading.magnetic().deg()
                : at.trackDeg() - heading.ground().track().deg();
        return 1 - Math.abs(Angles.turn(off)) / ON_HEADING_DEG;
    }

    /** The radial of that number of another station; whether it is being tracked. */
    private boolean sameNumber(Candidate each, Moment at, double excused, double shiftS, List<FlightEvent> events) {
        if (along(at.trackDeg() - each.line().initialCourse().deg()) > WORTH_MEASURING_DEG) {
            each.steady().reset();
            return false;
        }
        Measure here = Measure.of(at, each.line());
        double off = Math.max(
                excused,
                Math.max(Math.abs(here.crossTrackNm()) / halfScaleNm(here.alongNm()) - 1, CLOSE_NM - here.alongNm()));
        boolean held = each.steady().step(at, off, here.courseDeg(), SteadyTrack.STEADY_DEG);
        tell(each.near().station().ident(), radial, each.steady(), shiftS, events);
        return held;
    }

    /** Another radial of the cleared station; whether one is being tracked. */
    private boolean otherRadial(Moment at, double excused, double shiftS, List<FlightEvent> events) {
        Geodesics.Inverse way = cleared.station().position().to(at.position());
        double azimuth = way.initial().deg();
        double apart = Math.abs(
                Angles.turn(azimuth - cleared.outbound().initialCourse().deg()));
        double off = Math.max(excused, Math.max(1 - apart / LEAST_APART_DEG, CLOSE_NM - way.distanceNm()));
        // Parallel to the cleared course is as far off this radial as the radial is off the cleared one.
        double steadyDeg = Math.min(SteadyTrack.STEADY_DEG, apart / 3);
        boolean held = onClearedStation.step(at, off, way.onward().deg(), steadyDeg);
        Declination reference =
                new Declination(Angles.turn(cleared.outbound().initialCourse().deg() - radial.deg()));
        tell(cleared.station().ident(), Radial.of(way.initial(), reference), onClearedStation, shiftS, events);
        return held;
    }

    private void tell(String ident, Radial tracked, SteadyTrack steady, double shiftS, List<FlightEvent> events) {
        if (steady.trackedAtS().isEmpty() || told) {
            return;
        }
        told = true;
        FlightEvent.@Nullable OtherCourseTracked before = latest;
        latest = new FlightEvent.OtherCourseTracked(steady.trackedAtS().getAsDouble() + shiftS, ident, tracked.deg());
        boolean again = before != null
                && before.station().equals(ident)
                && Math.abs(Angles.turn(before.radialDeg() - tracked.deg())) < LEAST_APART_DEG;
        if (!again) {
            events.add(latest);
        }
    }

    private double halfScaleNm(double distanceNm) {
        return limits.fullScaleAtNm(distanceNm) / 2;
    }

    /** An angle to a line flown either way, degrees, [0, 90]. */
    static double along(double deg) {
        double off = Math.abs(Angles.turn(deg));
        return Math.min(off, 180 - off);
    }

    private void reset() {
        onClearedStation.reset();
        candidates.forEach(each -> each.steady().reset());
        told = false;
    }

    /** Across a gap nothing is concluded. */
    void breakOff() {
        last = null;
        reset();
    }

    /** Set somewhere else: what is flown there at first was not chosen. */
    void reposition() {
        breakOff();
        firstTrackDeg = Double.NaN;
        turned = false;
    }
}
