package org.rejoin.console.grade;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

import org.rejoin.bridge.Seat;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Turn;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Leg;
import org.rejoin.bridge.tracker.Progress;
import org.rejoin.bridge.tracker.TrackerEvent;
import org.rejoin.protocol.AircraftState;

import org.jspecify.annotations.Nullable;

/**
 * Watches a flight and grades it: events give the faults, samples give the measures. The same flight gives the same
 * grade, live or from a recording.
 */
public final class Grader implements Seat.Listener {

    /** A heading error counts when it lasts this long, seconds (fixed by the project's contract). */
    private static final double HEADING_HELD_S = 10;

    /** A course change above this is led as this one, degrees; common practice, no source. */
    private static final double SHARPEST_FLY_BY_DEG = 150;

    private final ToleranceSet set;
    private final List<TrackerEvent> events = new ArrayList<>();
    private final Held heading = new Held(HEADING_HELD_S);
    private final Held altitude = new Held(FaultList.ALTITUDE_HELD_S);
    private final Span headingSpan = new Span();
    private final Span altitudeSpan = new Span();
    private final Span courseSpan = new Span();
    private final List<Double> overshootLimitsNm = new ArrayList<>();
    private @Nullable AmendedRoute route;
    private double courseNm;
    private double courseLimitNm = Double.NaN;
    private double groundSpeedKt;
    private double flyByNm;
    private double farSideNm;
    private double closingScaleNm;
    private boolean crossed;
    private double farSideSign;
    private boolean headingAssigned;
    private boolean courseAssigned;
    private boolean fixAssigned;
    private boolean amended;

    /**
     * A grader.
     *
     * @param set to grade against
     */
    public Grader(ToleranceSet set) {
        this.set = set;
    }

    private static final class Span {
        double fromS = Double.NaN;
        double toS = Double.NaN;

        void add(double timeS) {
            fromS = Double.isNaN(fromS) ? timeS : fromS;
            toS = timeS;
        }

        boolean empty() {
            return Double.isNaN(fromS);
        }
    }

    @Override
    public void amended(AmendedRoute now) {
        amended = true;
        boolean altitudeOnly = now.clearance().altitudeFt().isPresent()
                && now.clearance().instructions().size() == 1;
        if (altitudeOnly) {
            return;
        }
        route = now;
        headingAssigned |= now.assignedHeading().isPresent();
        courseAssigned |= now.courseLeg() >= 0;
        fixAssigned |= now.courseLeg() >= 0 && now.resumesAt() > now.courseLeg();
        closingScaleNm = scaleNm(Double.POSITIVE_INFINITY);
        crossed = false;
        farSideSign = 0;
    }

    private double scaleNm(double stationDistanceNm) {
        return set.limits().fullScaleAtNm(stationDistanceNm);
    }

    /** Full scale where the aircraft is: on the radial to intercept it may be angular. */
    private double scaleNm(Progress now) {
        AmendedRoute in = route;
        double distance = in == null || in.course().isEmpty() || now.legIndex() != in.courseLeg()
                ? Double.POSITIVE_INFINITY
                : in.course().get().station().position().distanceNm(now.position());
        return scaleNm(distance);
    }

    @Override
    public void event(TrackerEvent event) {
        events.add(event);
        overshootLimitsNm.add(Math.min(set.overshootNm(), 0.75 * closingScaleNm));
        if (event instanceof TrackerEvent.InterceptAchieved) {
            crossed = false;
        }
        if (event instanceof TrackerEvent.FixSequenced fix
                && events.stream()
                                .filter(TrackerEvent.FixSequenced.class::isInstance)
                                .count()
                        == 1) {
            flyByNm = flyByNm(fix.ident());
        }
        if (event instanceof TrackerEvent.Repositioned
                || event instanceof TrackerEvent.FeedResumed
                || event instanceof TrackerEvent.SimResumed) {
            heading.breakOff();
            altitude.breakOff();
        }
    }

    @Override
    public void sample(AircraftState state, Progress now) {
        groundSpeedKt = now.groundSpeedKt();
        if (now.headingErrorDeg().isPresent()) {
            heading.add(now.timeS(), Math.abs(now.headingErrorDeg().getAsDouble()));
            headingSpan.add(now.timeS());
        } else {
            heading.breakOff();
        }
        if (now.altitudeErrorFt().isPresent()) {
            altitude.add(now.timeS(), Math.abs(now.altitudeErrorFt().getAsDouble()));
            altitudeSpan.add(now.timeS());
        } else {
            altitude.breakOff();
        }
        if (now.crossTrackNm().isEmpty()) {
            return;
        }
        double cross = now.crossTrackNm().getAsDouble();
        if (now.established()) {
            double limit = scaleNm(now) * set.limits().courseScale();
            if (Double.isNaN(courseLimitNm) || Math.abs(cross) / limit > courseNm / courseLimitNm) {
                courseNm = Math.abs(cross);
                courseLimitNm = limit;
            }
            courseSpan.add(now.timeS());
        } else if (now.phase() == Progress.Phase.CLOSING) {
            closingScaleNm = scaleNm(now);
            if (!crossed && farSideSign != 0 && Math.signum(cross) == farSideSign) {
                crossed = true;
            }
            if (farSideSign == 0) {
                farSideSign = -Math.signum(cross);
            }
            if (crossed && Math.signum(cross) == farSideSign) {
                farSideNm = Math.max(farSideNm, Math.abs(cross));
            }
        }
    }

    /**
     * The grade so far; final once the flight has ended.
     *
     * @return criteria, faults and notes
     */
    public Grade grade() {
        List<Fault> faults =
                new FaultList(events, overshootLimitsNm, set.limits(), heading.largest(), altitude.largest()).faults();
        List<Criterion> criteria = new ArrayList<>();
        List<String> notes = new ArrayList<>();
        double end = events.isEmpty() ? 0 : events.get(events.size() - 1).timeS();
        double start = first(TrackerEvent.ClearanceIssued.class)
                .map(TrackerEvent::timeS)
                .orElse(0.0);
        if (!amended) {
            notes.add("no clearance was issued: nothing to grade");
            return new Grade(set.name(), criteria, faults, notes);
        }
        gradeHeading(criteria, notes);
        if (courseAssigned) {
            gradeIntercept(criteria, start, end);
            gradeCourse(criteria, notes, start, end);
            gradeFix(criteria, start, end);
        } else {
            notes.add("intercept and course were not graded: no course was assigned");
        }
        gradeAltitude(criteria, notes);
        noteInterruptions(notes);
        long open = count(TrackerEvent.AmendmentNotAchieved.class);
        criteria.add(new Criterion(
                "COMPLETED",
                "Amendments not completed",
                open,
                "count",
                0,
                open == 0 && count(TrackerEvent.AmendmentComplete.class) > 0 ? 10 : 0,
                10,
                open == 0 && count(TrackerEvent.AmendmentComplete.class) > 0,
                start,
                end,
                "comply with the clearance (FAA-S-ACS-8C, IR.V.B.S4 and S5)"));
        criteria.add(new Criterion(
                "FAULTS",
                "Faults",
                faults.size(),
                "count",
                0,
                25 * Math.max(0, 1 - faults.size() / 2.0),
                25,
                faults.isEmpty(),
                start,
                end,
                "error lists of the Instrument Flying Handbook, FAA-H-8083-15B, chapter 9; weight: common practice, no"
                        + " source"));
        return new Grade(set.name(), criteria, faults, notes);
    }

    private void gradeHeading(List<Criterion> criteria, List<String> notes) {
        if (!headingAssigned) {
            return;
        }
        if (headingSpan.empty()) {
            notes.add("the assigned heading could not be graded: the feed carries no heading, or the course was met at"
                    + " once");
            return;
        }
        criteria.add(Criterion.graded(
                "HEADING",
                "Assigned heading, largest error held 10 s",
                heading.largest(),
                "deg",
                set.limits().headingDeg(),
                10,
                headingSpan.fromS,
                headingSpan.toS,
                set.source("heading")));
    }

    private void gradeIntercept(List<Criterion> criteria, double start, double end) {
        double limit = overshootLimitNm();
        Optional<TrackerEvent.InterceptAchieved> achieved = first(TrackerEvent.InterceptAchieved.class);
        double far = events.stream()
                .filter(TrackerEvent.Overshoot.class::isInstance)
                .mapToDouble(event -> ((TrackerEvent.Overshoot) event).maxCrossTrackNm())
                .max()
                .orElse(0);
        if (count(TrackerEvent.FlownThrough.class) > 0) {
            far = Math.max(far, farSideNm);
        }
        double to = achieved.map(TrackerEvent::timeS).orElse(end);
        Criterion graded = Criterion.graded(
                "INTERCEPT",
                "Intercept, distance carried past the line",
                far,
                "NM",
                limit,
                20,
                start,
                to,
                set.source("overshoot"));
        boolean never = achieved.isEmpty() && count(TrackerEvent.AmendmentComplete.class) == 0;
        criteria.add(
                never
                        ? new Criterion(
                                graded.code(),
                                "Intercept, never established",
                                far,
                                "NM",
                                graded.limit(),
                                0,
                                20,
                                false,
                                start,
                                to,
                                graded.source())
                        : graded);
    }

    /** Where the line was overshot; the set's own where it was not. */
    private double overshootLimitNm() {
        double limit = Double.MAX_VALUE;
        for (int i = 0; i < events.size(); i++) {
            if (events.get(i) instanceof TrackerEvent.Overshoot) {
                limit = Math.min(limit, overshootLimitsNm.get(i));
            }
        }
        return limit == Double.MAX_VALUE ? set.overshootLimitNm() : limit;
    }

    private void gradeCourse(List<Criterion> criteria, List<String> notes, double start, double end) {
        if (courseSpan.empty()) {
            notes.add("tracking the course could not be graded: never established on it");
            if (count(TrackerEvent.AmendmentComplete.class) > 0) {
                return;
            }
            criteria.add(new Criterion(
                    "COURSE",
                    "Course once established, never established",
                    0,
                    "NM",
                    set.limits().fullScaleAtNm(Double.POSITIVE_INFINITY)
                            * set.limits().courseScale(),
                    0,
                    15,
                    false,
                    start,
                    end,
                    set.source("course")));
            return;
        }
        criteria.add(Criterion.graded(
                "COURSE",
                "Course once established, largest cross-track",
                courseNm,
                "NM",
                courseLimitNm,
                15,
                courseSpan.fromS,
                courseSpan.toS,
                set.source("course") + "; " + set.source("full_scale_nm")));
    }

    private void gradeFix(List<Criterion> criteria, double start, double end) {
        if (first(TrackerEvent.FixSequenced.class).isEmpty()
                && fixAssigned
                && count(TrackerEvent.AmendmentComplete.class) == 0) {
            // Never getting there must not score above getting there badly.
            criteria.add(new Criterion(
                    "FIX",
                    "Passing the fix where the route turns, never passed",
                    0,
                    "NM",
                    set.fixLateralNm(),
                    0,
                    10,
                    false,
                    start,
                    end,
                    set.source("fix_lateral")));
            return;
        }
        first(TrackerEvent.FixSequenced.class)
                .ifPresent(fix -> criteria.add(Criterion.graded(
                        "FIX",
                        "Passing " + fix.ident() + ", beyond a sound fly-by",
                        Math.max(0, fix.lateralNm() - flyByNm),
                        "NM",
                        set.fixLateralNm(),
                        10,
                        start,
                        fix.timeS(),
                        set.source("fix_lateral"))));
    }

    /**
     * How far from the fix a standard-rate fly-by turn passes it: R (sec(angle/2) - 1), at the ground speed of the
     * moment; a sharper turn than the tracker's sharpest is led as that one.
     */
    private double flyByNm(String ident) {
        AmendedRoute in = route;
        if (in == null) {
            return 0;
        }
        List<Leg> legs = in.legs();
        for (int i = 0; i + 1 < legs.size(); i++) {
            Optional<GeodesicLine> leg = legs.get(i).line();
            Optional<GeodesicLine> next = legs.get(i + 1).line();
            boolean here = legs.get(i)
                    .endsAt()
                    .filter(fix -> fix.ident().equals(ident))
                    .isPresent();
            if (here && leg.isPresent() && next.isPresent()) {
                double turn = leg.get()
                        .courseAt(leg.get().lengthNm())
                        .turnTo(next.get().initialCourse());
                double half = Math.toRadians(Math.min(Math.abs(turn), SHARPEST_FLY_BY_DEG) / 2);
                return Turn.standardRadiusNm(groundSpeedKt) * (1 / Math.cos(half) - 1);
            }
        }
        return 0;
    }

    private void gradeAltitude(List<Criterion> criteria, List<String> notes) {
        if (altitudeSpan.empty()) {
            notes.add("altitude was not graded: none was assigned, or the feed carries none");
            return;
        }
        criteria.add(Criterion.graded(
                "ALTITUDE",
                "Assigned altitude, largest error held 5 s",
                altitude.largest(),
                "ft",
                set.limits().altitudeFt(),
                10,
                altitudeSpan.fromS,
                altitudeSpan.toS,
                set.source("altitude")));
    }

    private void noteInterruptions(List<String> notes) {
        for (TrackerEvent event : events) {
            if (event instanceof TrackerEvent.FeedResumed gap) {
                notes.add(String.format(
                        Locale.ROOT,
                        "nothing was graded in the %.0f s without samples before %.0f s",
                        gap.gapS(),
                        gap.timeS()));
            } else if (event instanceof TrackerEvent.Repositioned jump) {
                notes.add(String.format(
                        Locale.ROOT,
                        "repositioned by %.1f NM at %.0f s: graded afresh from there",
                        jump.jumpNm(),
                        jump.timeS()));
            }
        }
    }

    private long count(Class<? extends TrackerEvent> kind) {
        return events.stream().filter(kind::isInstance).count();
    }

    private <T extends TrackerEvent> Optional<T> first(Class<T> kind) {
        return events.stream().filter(kind::isInstance).map(kind::cast).findFirst();
    }

    /**
     * All events seen.
     *
     * @return in order of time
     */
    public List<TrackerEvent> events() {
        return List.copyOf(events);
    }
}
