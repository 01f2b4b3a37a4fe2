package org.rejoin.console.grade;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

import org.rejoin.bridge.flight.FlightEvent;

/** From measures, events and faults to criteria and points. The reasons: docs/grading.md. */
final class Rubric {

    private static final String COMPLY = "comply with the clearance (FAA-S-ACS-8C, IR.V.B.S4 and S5)";
    private static final String HANDBOOK = "error lists of the Instrument Flying Handbook, FAA-H-8083-15B, chapter 9;"
            + " weight: common practice, no source";

    private final ToleranceSet set;
    private final FlightMeasures measures;
    private final Grader.Assigned assigned;
    private final List<Grader.Judged> judged;
    private final List<Fault> faults;
    private final List<Criterion> criteria = new ArrayList<>();
    private final List<String> notes = new ArrayList<>();
    private final double startS;
    private final double endS;
    private final boolean over;

    Rubric(
            ToleranceSet set,
            FlightMeasures measures,
            Grader.Assigned assigned,
            List<Grader.Judged> judged,
            List<Fault> faults) {
        this.set = set;
        this.measures = measures;
        this.assigned = assigned;
        this.judged = judged;
        this.faults = faults;
        this.startS = first(FlightEvent.ClearanceIssued.class)
                .map(FlightEvent::timeS)
                .orElse(0.0);
        this.over = !judged.isEmpty() && judged.get(judged.size() - 1).event() instanceof FlightEvent.FlightEnded;
        this.endS = judged.isEmpty() ? 0 : judged.get(judged.size() - 1).event().timeS();
    }

    Grade grade() {
        if (!assigned.any()) {
            notes.add("no clearance was issued: nothing to grade");
            return new Grade(set.name(), criteria, faults, notes);
        }
        heading();
        if (assigned.course()) {
            intercept();
            course();
            fix();
        } else {
            notes.add("intercept and course were not graded: "
                    + (assigned.pending() ? "no course was assigned" : "the amendment was taken back"));
        }
        altitude();
        speed();
        interruptions();
        if (assigned.pending()) {
            completed();
        }
        int weight =
                faults.stream().mapToInt(fault -> fault.code().grave() ? 2 : 1).sum();
        criteria.add(new Criterion(
                "FAULTS",
                "Faults",
                faults.size(),
                "count",
                0,
                25 * Math.max(0, 1 - weight / 2.0),
                25,
                faults.isEmpty(),
                startS,
                endS,
                HANDBOOK));
        return new Grade(set.name(), criteria, faults, notes);
    }

    private void heading() {
        if (!assigned.heading()) {
            return;
        }
        FlightMeasures.Span span = measures.headingSpan();
        if (span.empty()) {
            notes.add("the assigned heading was not graded: "
                    + (measures.headingSeen()
                            ? "the course was met, or the flight ended, before the time to react and turn was over"
                            : "the feed carries no heading"));
            return;
        }
        criteria.add(Criterion.graded(
                "HEADING",
                "Assigned heading, largest error held 10 s",
                measures.headingDeg(),
                "deg",
                set.limits().headingDeg(),
                10,
                span.fromS(),
                span.toS(),
                set.source("heading")));
    }

    private void intercept() {
        Optional<FlightEvent.InterceptAchieved> achieved = first(FlightEvent.InterceptAchieved.class);
        double toS = achieved.map(FlightEvent::timeS).orElse(endS);
        double limit = overshootLimitNm();
        if (achieved.isEmpty() && count(FlightEvent.AmendmentComplete.class) == 0) {
            never(Criterion.never(
                    "INTERCEPT", "Intercept, never established", limit, 20, startS, toS, set.source("overshoot")));
            return;
        }
        double far = judged.stream()
                .map(Grader.Judged::event)
                .filter(FlightEvent.Overshoot.class::isInstance)
                .mapToDouble(event -> ((FlightEvent.Overshoot) event).maxCrossTrackNm())
                .max()
                .orElse(0);
        if (count(FlightEvent.FlownThrough.class) > 0) {
            far = Math.max(far, measures.farSideNm());
        }
        criteria.add(Criterion.graded(
                "INTERCEPT",
                "Intercept, distance carried past the line",
                far,
                "NM",
                limit,
                20,
                startS,
                toS,
                set.source("overshoot")));
    }

    /** Where the line was overshot; the set's own where it was not. */
    private double overshootLimitNm() {
        return judged.stream()
                .filter(each -> each.event() instanceof FlightEvent.Overshoot)
                .mapToDouble(Grader.Judged::overshootLimitNm)
                .min()
                .orElse(set.overshootLimitNm());
    }

    /** What the flight has not come to counts against it once it is over. */
    private void never(Criterion criterion) {
        if (over) {
            criteria.add(criterion);
        }
    }

    private void course() {
        FlightMeasures.Span span = measures.courseSpan();
        if (!span.empty()) {
            criteria.add(Criterion.graded(
                    "COURSE",
                    "Course once on it, largest cross-track",
                    measures.courseNm(),
                    "NM",
                    measures.courseLimitNm(),
                    15,
                    span.fromS(),
                    span.toS(),
                    set.source("course") + "; " + set.source("full_scale_nm")));
            return;
        }
        notes.add("tracking the course was not graded: "
                + (over ? "never established on it" : "not yet established on it"));
        if (count(FlightEvent.AmendmentComplete.class) == 0) {
            double limit = set.limits().fullScaleAtNm(Double.POSITIVE_INFINITY)
                    * set.limits().courseScale();
            never(Criterion.never(
                    "COURSE", "Course, never established", limit, 15, startS, endS, set.source("course")));
        }
    }

    private void fix() {
        Optional<FlightEvent.FixSequenced> fix = first(FlightEvent.FixSequenced.class);
        if (fix.isPresent()) {
            criteria.add(Criterion.graded(
                    "FIX",
                    "Turn at " + fix.get().ident() + ", beyond a sound fly-by",
                    measures.pastFixNm(fix.get().lateralNm()),
                    "NM",
                    set.fixLateralNm(),
                    10,
                    startS,
                    fix.get().timeS(),
                    set.source("fix_lateral")));
        } else if (assigned.fix() && count(FlightEvent.AmendmentComplete.class) == 0) {
            // Never getting there must not score above getting there badly.
            never(Criterion.never(
                    "FIX",
                    "Turn at the fix, never passed",
                    set.fixLateralNm(),
                    10,
                    startS,
                    endS,
                    set.source("fix_lateral")));
        }
    }

    private void altitude() {
        FlightMeasures.Span span = measures.altitudeSpan();
        if (span.empty()) {
            notes.add("altitude was not graded: "
                    + (!measures.altitudeAssigned()
                            ? "none was assigned"
                            : measures.altitudeSeen()
                                    ? "the flight ended before the time to reach it was over"
                                    : "the feed carries none"));
            return;
        }
        criteria.add(Criterion.graded(
                "ALTITUDE",
                "Assigned altitude, largest error held 5 s",
                measures.altitudeFt(),
                "ft",
                set.limits().altitudeFt(),
                10,
                span.fromS(),
                span.toS(),
                set.source("altitude")));
    }

    /** Few clearances assign a speed: where none did, nothing is said of it. */
    private void speed() {
        FlightMeasures.Span span = measures.speedSpan();
        if (span.empty()) {
            if (assigned.speed()) {
                notes.add("speed was not graded: "
                        + (measures.speedSeen()
                                ? "the flight ended before the time to reach it was over"
                                : "the feed carries no indicated airspeed"));
            }
            return;
        }
        criteria.add(Criterion.graded(
                "SPEED",
                "Assigned speed, largest error held 10 s",
                measures.speedKt(),
                "kt",
                set.speedKt(),
                10,
                span.fromS(),
                span.toS(),
                set.source("speed")));
    }

    private void completed() {
        long open = count(FlightEvent.AmendmentNotAchieved.class);
        boolean done = open == 0 && count(FlightEvent.AmendmentComplete.class) > 0;
        if (!over && open == 0 && !done) {
            return; // there is time yet
        }
        criteria.add(new Criterion(
                "COMPLETED",
                "Amendments not completed",
                open,
                "count",
                0,
                done ? 10 : 0,
                10,
                done,
                startS,
                endS,
                COMPLY));
    }

    private void interruptions() {
        for (Grader.Judged each : judged) {
            if (each.event() instanceof FlightEvent.FeedResumed gap) {
                notes.add(String.format(
                        Locale.ROOT,
                        "nothing was graded in the %.0f s without samples before %.0f s",
                        gap.gapS(),
                        gap.timeS()));
            } else if (each.event() instanceof FlightEvent.Repositioned jump) {
                notes.add(String.format(
                        Locale.ROOT,
                        "repositioned by %.1f NM at %.0f s: graded afresh from there",
                        jump.jumpNm(),
                        jump.timeS()));
            }
        }
    }

    private long count(Class<? extends FlightEvent> kind) {
        return judged.stream()
                .map(Grader.Judged::event)
                .filter(kind::isInstance)
                .count();
    }

    private <T extends FlightEvent> Optional<T> first(Class<T> kind) {
        return judged.stream()
                .map(Grader.Judged::event)
                .filter(kind::isInstance)
                .map(kind::cast)
                .findFirst();
    }
}
