package org.rejoin.console.grade;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

import org.rejoin.bridge.clearance.InTurn;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.ChangeOvers;
import org.rejoin.bridge.route.Leg;
import org.rejoin.console.words.Words;
import org.rejoin.protocol.AircraftState;

import org.jspecify.annotations.Nullable;

/** Measures one amendment as it is flown, from its clearance to the end of its graded part, and grades it. */
final class AmendmentGrader {

    private static final String UNSEEN = "the line was met where nobody saw it";

    /** What can't be judged without tracks and turns. */
    private static final Set<Criterion.Kind> COURSE_KINDS =
            EnumSet.of(Criterion.Kind.INTERCEPT, Criterion.Kind.COURSE, Criterion.Kind.FIX);

    /** What a direct leads on to. */
    private static final Set<Criterion.Kind> ONWARD_KINDS = EnumSet.of(Criterion.Kind.COURSE, Criterion.Kind.FIX);

    private final ToleranceSet set;
    private final AmendedRoute route;
    private final double atS;
    private final List<String> said = new ArrayList<>();
    private final boolean altitudeOrSpeedOnly;
    private boolean wantsAltitude;
    private boolean wantsSpeed;

    private final LineMeasures line;
    private final FixMeasures fix;
    private final HoldMeasures hold;
    private final CrossingMeasures crossing = new CrossingMeasures();
    private final HeldMeasures heading;
    private final HeldMeasures altitude;
    private final HeldMeasures speed;
    private @Nullable Point last;
    private double lastS;

    private final List<Entry.Happened> happened = new ArrayList<>();
    private Optional<FlightEvent.InterceptAchieved> achieved = Optional.empty();
    private boolean headingTakenUp;
    private boolean complete;
    private Optional<FlightEvent.AmendmentNotAchieved> notAchieved = Optional.empty();
    private boolean directIgnored;
    private boolean unseen;
    private boolean withdrawn;
    private @Nullable WayBack wayBack;
    private boolean next;
    private final boolean asBefore;
    private boolean replaced;
    private boolean ended;

    AmendmentGrader(ToleranceSet set, Entry.Issued issued) {
        this.set = set;
        this.route = issued.route();
        this.altitudeOrSpeedOnly = issued.clearance().routeStays();
        this.asBefore = issued.asBefore();
        this.atS = issued.timeS();
        this.lastS = issued.timeS();
        this.heading = HeldMeasures.heading(set);
        this.altitude = HeldMeasures.altitude(set);
        this.speed = HeldMeasures.speed(set);
        this.line = new LineMeasures(
                set,
                route.direct().isPresent(),
                route.firstLine().filter(Leg.DmeArc.class::isInstance).isPresent());
        this.fix = new FixMeasures(route);
        this.hold = new HoldMeasures(route.holding(), set.limits());
        further(issued);
    }

    /** A clearance that leaves the route as it is belongs to the amendment that is being flown. */
    void further(Entry.Issued issued) {
        said.add(issued.clearance().text());
        crossing.wanted(issued.route());
        List<InTurn<Instruction.Maintain>> altitudes = issued.clearance().altitudes();
        boolean climbs = !altitudes.isEmpty() && ChangeOvers.followed(altitudes, issued.route());
        wantsAltitude |= climbs || issued.assigned().altitudeFt().isPresent();
        if (!altitudes.isEmpty()) {
            altitude.inTurn(climbs ? InTurn.later(altitudes) : 0);
        }
        List<InTurn<Instruction.Speed>> speeds = issued.clearance().speeds();
        int later = speeds.isEmpty() || !ChangeOvers.followed(speeds, issued.route()) ? 0 : InTurn.later(speeds);
        wantsSpeed |= later > 0 || issued.assigned().speed().isPresent();
        if (!speeds.isEmpty()) {
            speed.inTurn(later);
        }
    }

    /** Taken back: what was to be flown of it is asked of nobody. */
    void withdraw() {
        withdrawn = true;
        wayBack = new WayBack(route.filed(), set.limits().fullScaleAtNm(Double.POSITIVE_INFINITY));
        ended = true;
        altitude.inTurn(0);
        speed.inTurn(0);
    }

    /** The next clearance is in force: what was not due of this one is asked of nobody any more. */
    void replace(double timeS) {
        next = true;
        replaced = !ended;
        end(timeS);
    }

    /** Nothing more of it is graded. */
    void end(double timeS) {
        ended = true;
        lastS = Math.max(lastS, timeS);
    }

    boolean ended() {
        return ended;
    }

    void point(Point now) {
        WayBack back = wayBack;
        if (back != null && !next) {
            back.point(now);
        }
        if (ended) {
            return;
        }
        Point before = last;
        last = now;
        lastS = now.timeS();
        if (now.newPiece()) {
            double unseenS = before == null ? 0 : now.flownS() - before.flownS();
            unseen |= before != null;
            heading.breakOff(unseenS);
            altitude.breakOff(unseenS);
            speed.breakOff(unseenS);
        }
        AircraftState sent = now.state();
        boolean onHeading = now.phase() == Point.Phase.CLOSING || route.courseLeg() < 0;
        heading.point(now, now.headingMagneticDeg(), sent.headingCarried(), now.headingErrorDeg(), onHeading);
        altitude.point(now, sent.altitudeMslFtOrNaN(), sent.altitudeCarried(), now.altitudeErrorFt(), true);
        speed.point(now, sent.indicatedAirspeedKtOrNaN(), sent.airspeedCarried(), now.speedErrorKt(), true);
        line.point(before, now, fix.turnsOff(now), fix.outside());
        fix.point(before, now);
        hold.point(now);
    }

    void happened(Entry.Happened entry) {
        if (ended) {
            return;
        }
        FlightEvent event = entry.event();
        happened.add(entry);
        line.event(entry.flownS(), event);
        fix.event(entry.flownS(), event, last);
        hold.event(event);
        crossing.event(event);
        if (event instanceof FlightEvent.InterceptAchieved first && achieved.isEmpty()) {
            achieved = Optional.of(first);
        } else if (event instanceof FlightEvent.AmendmentNotAchieved not) {
            notAchieved = Optional.of(not);
        }
        headingTakenUp |= event instanceof FlightEvent.HeadingEstablished;
        if (headingTakenUp && event instanceof FlightEvent.OtherCourseTracked) {
            heading.leftForAnotherCourse(event.timeS());
        }
        if (event instanceof FlightEvent.ChangeOver over) {
            over.altitudeFt().ifPresent(feet -> altitude.next(true));
            if (over.altitudeFt().isEmpty()) {
                speed.next(over.speedKt().isPresent());
            }
        }
        directIgnored |= event instanceof FlightEvent.DirectNotTakenUp;
        complete |= event instanceof FlightEvent.AmendmentComplete;
    }

    /**
     * The grade so far.
     *
     * @param over whether nothing more can come of this amendment
     * @param judgesTrack whether the feed is fine enough to judge tracks and turns
     */
    AmendmentGrade grade(boolean over, boolean judgesTrack) {
        boolean last = over || ended;
        List<String> notes = new ArrayList<>();
        if (asBefore) {
            notes.add("as cleared before: in force again because the clearance after it was taken back");
        }
        FaultFinder found = new FaultFinder(happened, route, this, notes);
        List<Fault> faults = new ArrayList<>(found.faults());
        List<Fault> made = new ArrayList<>(faults);
        made.addAll(found.uncounted());
        if (!judgesTrack) {
            faults.removeIf(fault -> COURSE_KINDS.contains(concerns(fault)));
            made.retainAll(faults);
        }
        List<Criterion> criteria = new ArrayList<>();
        Span span = Span.of(atS, lastS);
        boolean headingIsFlown =
                route.assignedHeading().isPresent() || route.departHeading().isPresent();
        boolean undue = false;
        if (headingIsFlown && !withdrawn) {
            undue |= heading.grade(criteria, last, !replaced, span);
        }
        if (route.courseLeg() >= 0 && !altitudeOrSpeedOnly && !withdrawn) {
            if (judgesTrack) {
                undue |= intercept(criteria, last);
                undue |= course(criteria, last);
                undue |= turnAtFix(criteria, last);
            } else {
                COURSE_KINDS.forEach(kind -> criteria.add(
                        Criterion.notJudged(kind, limit(kind), "the positions are too coarse", span, "see the feed")));
            }
        }
        if (wantsAltitude) {
            undue |= altitude.grade(criteria, last, !replaced, span);
        }
        if (wantsSpeed) {
            undue |= speed.grade(criteria, last, !replaced, span);
        }
        if (!withdrawn) {
            hold.grade(criteria, notes, last, notAchieved.isPresent(), span);
            crossing.grade(criteria, notes, last, altitude.seen(), set.limits().altitudeFt(), span);
            undue |= completed(criteria, last);
        } else {
            WayBack back = wayBack;
            if (back != null && !altitudeOrSpeedOnly) {
                back.neverBack(lastS).ifPresent(notes::add);
            }
            notes.add("the clearance was taken back: what was not flown of it is not judged");
        }
        if (!withdrawn && judgesTrack && line.driftNm() > line.pastLimitNm()) {
            notes.add(Words.say(
                    "the wind carried the aircraft %.1f NM off the course with the heading along it. Practise: put the nose into"
                            + " the wind until the track is the course.",
                    line.driftNm()));
        }
        if (undue) {
            notes.add("what was not due when the next clearance came is not judged");
        }
        if (directIgnored) {
            // The old route leads to the same fix: along it nothing is earned.
            criteria.replaceAll(criterion -> ONWARD_KINDS.contains(Criterion.Kind.valueOf(criterion.code()))
                    ? criterion.earning(1 - line.ignored()).notMet("the direct was not taken up")
                    : criterion);
        }
        criteria.replaceAll(criterion -> made.stream()
                .filter(fault -> concerns(fault).name().equals(criterion.code()))
                .findFirst()
                .map(fault -> criterion.notMet("fault " + fault.code()))
                .orElse(criterion));
        if (!faults.isEmpty() || criteria.stream().anyMatch(Criterion::judged)) {
            double cost = faults.stream().mapToDouble(Fault::cost).sum();
            criteria.add(Criterion.judged(
                    Criterion.Kind.FAULTS,
                    faults.size(),
                    0,
                    Criterion.Kind.FAULTS.maxPoints() * Math.max(0, 1 - cost),
                    faults.isEmpty(),
                    Span.of(atS, lastS),
                    "error lists of the Instrument Flying Handbook, FAA-H-8083-15B, chapter 9; weight: common practice, no"
                            + " source"));
        }
        return new AmendmentGrade(String.join("; ", said), atS, criteria, faults, notes, withdrawn);
    }

    private double limit(Criterion.Kind kind) {
        return kind == Criterion.Kind.COURSE
                ? line.scaleNm() * set.limits().courseScale()
                : kind == Criterion.Kind.FIX ? set.fixLateralNm() : line.pastLimitNm();
    }

    /** The criterion that a fault can't stand beside as met. */
    private Criterion.Kind concerns(Fault fault) {
        return switch (fault.code()) {
            case FLOWN_THROUGH, TURNED_EARLY, OVERSHOOT -> Criterion.Kind.INTERCEPT;
            case WRONG_DIRECTION -> fixPassed(fault.atS()) ? Criterion.Kind.FIX : Criterion.Kind.INTERCEPT;
            case WEAVING, ROUTE_LEFT -> Criterion.Kind.COURSE;
            case WRONG_TURN, SEQUENCE_MISSED -> Criterion.Kind.FIX;
            case HEADING_NOT_HELD -> Criterion.Kind.HEADING;
            case ALTITUDE_NOT_HELD -> Criterion.Kind.ALTITUDE;
            case SPEED_NOT_HELD -> Criterion.Kind.SPEED;
            case NOT_ACHIEVED -> Criterion.Kind.COMPLETED;
            case HOLD_NOT_ENTERED -> Criterion.Kind.HOLD_ENTRY;
            case HOLD_WRONG_SIDE -> hold.wrongAtEntry() ? Criterion.Kind.HOLD_ENTRY : Criterion.Kind.FAULTS;
            case CROSSING_MISSED -> Criterion.Kind.CROSSING;
        };
    }

    /** Whether the fix at the end of the course was passed before a moment. */
    boolean fixPassed(double timeS) {
        return fix.passed().filter(at -> at.timeS() < timeS).isPresent();
    }

    private boolean intercept(List<Criterion> criteria, boolean over) {
        double limit = line.pastLimitNm();
        String source = set.source("overshoot");
        Span span = Span.of(atS, achieved.map(FlightEvent::timeS).orElse(lastS));
        if (line.metUnseen() || doneUnseen()) {
            criteria.add(Criterion.notJudged(Criterion.Kind.INTERCEPT, limit, UNSEEN, span, source));
        } else if (besideDirect()) {
            // It begins where the aircraft is: who went away from it was near it, and not within the limit to stay.
            criteria.add(
                    Criterion.measured(Criterion.Kind.INTERCEPT, Math.max(limit, line.closestNm()), limit, span, source)
                            .notMet("never taken up")
                            .titled("Direct, distance beside the course; never taken up"));
        } else if (achieved.isPresent()) {
            Criterion measured = Criterion.measured(Criterion.Kind.INTERCEPT, line.missedNm(), limit, span, source)
                    .at(line.missedAtS());
            criteria.add(
                    line.fellShort()
                            ? measured.titled(
                                    line.arc()
                                            ? "Intercept, rolled out short of the arc"
                                            : "Intercept, rolled out short of the line, beyond half scale")
                            : direct()
                                    ? measured.titled("Direct, distance beside the course until taken up")
                                    : measured);
        } else if (over && wentAlong()) {
            criteria.add(Criterion.measured(Criterion.Kind.INTERCEPT, line.neverMetNm(), limit, span, source)
                    .titled(
                            line.arc()
                                    ? "Intercept, distance beside the arc"
                                    : "Intercept, distance beside the line, beyond half scale")
                    .earning(1 - line.missed())
                    .notMet("never established"));
        } else if (over && wayNotDone()) {
            criteria.add(Criterion.never(Criterion.Kind.INTERCEPT, limit, span, source));
        } else if (over) {
            return notDue(criteria, Criterion.Kind.INTERCEPT, limit, span, source);
        }
        return false;
    }

    private boolean course(List<Criterion> criteria, boolean over) {
        String source = set.source("course") + "; " + set.source("full_scale_nm");
        Span span = line.course();
        double limit = line.scaleNm() * set.limits().courseScale();
        if (doneUnseen()) {
            criteria.add(Criterion.notJudged(Criterion.Kind.COURSE, limit, UNSEEN, Span.of(atS, lastS), source));
        } else if (neverMet() && !line.followedIt()) {
            criteria.add(Criterion.never(Criterion.Kind.COURSE, limit, Span.of(atS, lastS), source));
        } else if (!span.empty() && span.fellIntoGaps()) {
            criteria.add(Criterion.notJudged(
                    Criterion.Kind.COURSE, limit, "too much of the time on the course was not received", span, source));
        } else if (!span.empty()) {
            double offNm = neverMet() && !direct() ? Math.max(line.offNm(), line.besideNm()) : line.offNm();
            Criterion measured = Criterion.measured(Criterion.Kind.COURSE, offNm, line.limitNm(), span, source)
                    .at(line.offAtS());
            criteria.add(besideDirect() ? measured.notMet("the direct was never taken up") : measured);
        } else if (over && wayNotDone()) {
            criteria.add(Criterion.never(Criterion.Kind.COURSE, limit, Span.of(atS, lastS), source));
        } else if (over && complete) {
            criteria.add(Criterion.notJudged(
                    Criterion.Kind.COURSE,
                    limit,
                    "the turn onto the next leg came at once",
                    Span.of(atS, lastS),
                    source));
        } else if (over) {
            return notDue(criteria, Criterion.Kind.COURSE, limit, Span.of(atS, lastS), source);
        }
        return false;
    }

    private boolean turnAtFix(List<Criterion> criteria, boolean over) {
        double limit = set.fixLateralNm();
        String source = set.source("fix_lateral");
        if (fix.passed().isPresent() && (!neverMet() || besideDirect() || wentAlong())) {
            FlightEvent.FixSequenced at = fix.passed().get();
            Criterion measured = Criterion.measured(
                            Criterion.Kind.FIX, fix.pastNm(), limit, Span.of(atS, at.timeS()), source)
                    .at(fix.pastAtS())
                    .titled(
                            fix.holdsThere()
                                    ? "Over " + at.ident() + ", distance from it"
                                    : "Turn at " + at.ident() + ", beyond a sound fly-by");
            criteria.add(
                    !wentAlong()
                            ? measured
                            : measured.points() > 0
                                    ? measured.earning(1 - line.missed())
                                    : Criterion.never(Criterion.Kind.FIX, limit, Span.of(atS, at.timeS()), source));
            return false;
        }
        if (!over || route.resumesAt() <= route.courseLeg()) {
            return false;
        }
        Span span = Span.of(atS, lastS);
        boolean neverThere = wayNotDone() && !besideDirect();
        if (neverThere || (complete && fix.leftSeverity() > 0 && !unseen)) {
            criteria.add(Criterion.never(Criterion.Kind.FIX, limit, span, source));
        } else if (complete) {
            criteria.add(Criterion.notJudged(
                    Criterion.Kind.FIX, limit, "the fix was passed where nobody saw it", span, source));
        } else {
            return notDue(criteria, Criterion.Kind.FIX, limit, span, source);
        }
        return false;
    }

    private boolean completed(List<Criterion> criteria, boolean over) {
        String source = "comply with the clearance (FAA-S-ACS-8C, IR.V.B.S4 and S5)";
        Span span = Span.of(atS, lastS);
        if (doneUnseen()) {
            criteria.add(Criterion.notJudged(Criterion.Kind.COMPLETED, 0, UNSEEN, span, source));
        } else if (complete && !directIgnored) {
            criteria.add(Criterion.judged(
                    Criterion.Kind.COMPLETED, 0, 0, Criterion.Kind.COMPLETED.maxPoints(), true, span, source));
        } else if (notAchieved.isPresent() || directIgnored) {
            criteria.add(Criterion.judged(
                    Criterion.Kind.COMPLETED,
                    1,
                    0,
                    Criterion.Kind.COMPLETED.maxPoints() * Criterion.NOT_MET_MOST * (1 - missedSeverity()),
                    false,
                    span,
                    source));
        } else if (over) {
            return notDue(criteria, Criterion.Kind.COMPLETED, 0, span, source);
        }
        return false;
    }

    /** How far from done: by how far from the line it was, where that was the reason; else all of it. */
    double missedSeverity() {
        if (notAchieved.isEmpty()) {
            return line.ignored();
        }
        if (notAchieved.get().leftShare().isPresent()) {
            return notAchieved.get().leftShare().getAsDouble();
        }
        return achieved.isPresent() ? 1 : Math.max(line.ignored(), line.missed());
    }

    /** Complete, but nobody saw the course being met: it was passed in a gap of the feed, or by moving the aircraft. */
    private boolean doneUnseen() {
        return complete && achieved.isEmpty() && route.courseLeg() >= 0 && !altitudeOrSpeedOnly;
    }

    /** Whether the course was due and never met: what comes after it was reached by another way. */
    boolean neverMet() {
        return achieved.isEmpty() && wayNotDone();
    }

    /** Whether what was due and not done is of the way, not of an altitude or a speed. */
    private boolean wayNotDone() {
        return notAchieved.filter(not -> not.leftShare().isEmpty()).isPresent();
    }

    /** Whether a course was due and never met by who went along beside it. */
    private boolean wentAlong() {
        return !direct() && neverMet() && line.missed() < 1;
    }

    /** Whether a direct was due and never taken up by who went along beside it. */
    private boolean besideDirect() {
        return direct() && neverMet() && Double.isFinite(line.closestNm());
    }

    /** Whether the first course is the way direct to a fix. */
    private boolean direct() {
        return line.direct();
    }

    /** Not due: not judged, and left out where the next clearance asks for something else; whether it was. */
    private boolean notDue(List<Criterion> criteria, Criterion.Kind kind, double limit, Span span, String source) {
        if (!replaced) {
            String why = Words.say("the lesson ended before it was due, %.0f s after the clearance", lastS - atS);
            criteria.add(Criterion.notJudged(kind, limit, why, span, source));
        }
        return replaced;
    }

    LineMeasures line() {
        return line;
    }

    FixMeasures fix() {
        return fix;
    }

    HoldMeasures hold() {
        return hold;
    }

    HeldMeasures heading() {
        return heading;
    }

    HeldMeasures altitude() {
        return altitude;
    }

    HeldMeasures speed() {
        return speed;
    }
}
