package org.rejoin.console.grade;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;

import org.rejoin.bridge.clearance.InTurn;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.ChangeOvers;
import org.rejoin.bridge.route.ComputedFix;
import org.rejoin.bridge.route.Course;
import org.rejoin.bridge.route.Intercept;
import org.rejoin.bridge.route.Leg;
import org.rejoin.bridge.route.Warning;
import org.rejoin.console.words.Words;
import org.rejoin.protocol.AircraftState;

import org.jspecify.annotations.Nullable;

/** Measures one amendment as it is flown, from its clearance to the end of its graded part, and grades it. */
final class AmendmentGrader {

    private static final String UNSEEN = "the line was met where nobody saw it";

    private static final String FARTHEST_UNSEEN = "how far past the line he was carried was not seen";

    static final String TRACK_TO_FIX = "track to the fix: put the nose into the wind until the track is the course";

    private static final String BESIDE_LINE = "Intercept, distance beside the line, beyond half scale";

    private static final Rule.TurnOntoCourse ONTO = Rules.STANDARD.of(Rule.TurnOntoCourse.class);

    private static final double REACTION_S =
            Rules.STANDARD.of(Rule.Heading.class).reactionS();

    /** Fewer points than this are not to be seen on a card that shows one digit. */
    private static final double UNSEEN_POINTS = 0.05;

    /** What can't be judged without tracks and turns. */
    private static final Set<Criterion.Kind> COURSE_KINDS =
            EnumSet.of(Criterion.Kind.INTERCEPT, Criterion.Kind.COURSE, Criterion.Kind.FIX);

    /** What is said beside the way: kept, it is not what was cleared. */
    private static final Set<Criterion.Kind> BESIDE_KINDS =
            EnumSet.of(Criterion.Kind.ALTITUDE, Criterion.Kind.SPEED, Criterion.Kind.CROSSING);

    /** What a direct leads on to. */
    private static final Set<Criterion.Kind> ONWARD_KINDS = EnumSet.of(Criterion.Kind.COURSE, Criterion.Kind.FIX);

    private final ToleranceSet set;
    private final AmendedRoute route;
    private final double atS;
    private final List<String> said = new ArrayList<>();
    private final boolean altitudeOrSpeedOnly;
    private boolean wantsAltitude;
    private boolean wantsSpeed;

    private final @Nullable HeadingReach reach;
    final LineMeasures line;
    final FixMeasures fix;
    final HoldMeasures hold;
    final FirstTurnMeasures firstTurn;
    final HeldMeasures heading;
    final HeldMeasures altitude;
    final HeldMeasures speed;
    private final CrossingMeasures crossing = new CrossingMeasures();
    private @Nullable Point last;
    private double lastS;

    private final List<Entry.Happened> happened = new ArrayList<>();
    private Optional<FlightEvent.InterceptAchieved> achieved = Optional.empty();
    private boolean otherCourse;
    private boolean complete;
    private Optional<FlightEvent.AmendmentNotAchieved> notAchieved = Optional.empty();
    private boolean directIgnored;
    private boolean unseen;
    private boolean withdrawn;
    private final WayBack wayBack;
    private boolean next;
    private final @Nullable AmendmentGrader before;
    private boolean asBefore;
    private Optional<TakenBackHeading> takenBack = Optional.empty();
    private boolean goesOn;
    private final double issuedFlownS;
    private double standsS = Double.NaN;
    private boolean replaced;
    private boolean ended;
    /** Whether an altitude or a speed was off when the next clearance left it in force: it is one mistake to its end. */
    private boolean altitudeOff;

    private boolean speedOff;

    /**
     * Nothing of it flown yet.
     *
     * @param before what was flown of the same clearance until another took its place, which was taken back; null where none was
     * @param earlier the one before it in the flight; null where it is the first
     */
    AmendmentGrader(
            ToleranceSet set,
            Entry.Issued issued,
            @Nullable AmendmentGrader before,
            @Nullable AmendmentGrader earlier) {
        this.set = set;
        this.route = issued.route();
        this.altitudeOrSpeedOnly = issued.clearance().routeStays();
        this.before = before;
        this.asBefore = issued.asBefore();
        this.issuedFlownS = issued.flownS();
        this.atS = issued.timeS();
        this.lastS = issued.timeS();
        this.reach = route.assignedHeading()
                .map(plan ->
                        new HeadingReach(plan.magnetic().deg(), set.limits().headingDeg()))
                .orElse(null);
        this.heading = HeldMeasures.heading(set);
        this.altitude = HeldMeasures.altitude(set);
        this.speed = HeldMeasures.speed(set);
        this.line = new LineMeasures(
                set,
                route.direct().isPresent(),
                route.firstLine().filter(Leg.DmeArc.class::isInstance).isPresent(),
                route.firstCourse()
                        .filter(course -> course.direction() == Course.Direction.TO)
                        .isPresent());
        this.firstTurn = new FirstTurnMeasures(route);
        this.fix = new FixMeasures(route);
        this.wayBack = new WayBack(route.filed(), set.limits().fullScaleAtNm(Double.POSITIVE_INFINITY));
        this.hold = new HoldMeasures(route.holding(), set.limits());
        if (before != null) {
            said.addAll(before.said);
        }
        if (earlier != null && issued.clearance().altitudes().isEmpty()) {
            altitude.goesOnFrom(earlier.altitude);
        }
        further(issued);
    }

    /** A clearance that leaves the route as it is belongs to the amendment that is being flown. */
    void further(Entry.Issued issued) {
        String text = issued.clearance().text();
        if (!issued.asBefore() || !said.contains(text)) {
            said.add(text);
        }
        crossing.wanted(issued.route());
        List<InTurn<Instruction.Maintain>> altitudes = issued.clearance().altitudes();
        boolean climbs = !altitudes.isEmpty() && ChangeOvers.followed(altitudes, issued.route());
        wantsAltitude |= climbs || issued.assigned().altitudeFt().isPresent();
        if (!altitudes.isEmpty()) {
            altitude.inTurn(climbs ? InTurn.later(altitudes) : 0);
            boolean now = altitudes.get(0).said().when() == Instruction.Maintain.Begin.NOW;
            altitude.change().atDiscretion(!now || !issued.route().crossings().isEmpty());
        }
        List<InTurn<Instruction.Speed>> speeds = issued.clearance().speeds();
        int later = speeds.isEmpty() || !ChangeOvers.followed(speeds, issued.route()) ? 0 : InTurn.later(speeds);
        wantsSpeed |= later > 0 || issued.assigned().speed().isPresent();
        if (!speeds.isEmpty()) {
            speed.inTurn(later);
        }
    }

    /** What was flown of it before; null where nothing was. */
    @Nullable
    AmendmentGrader before() {
        return before;
    }

    /** Whether a clearance that stands again is this one, never left. */
    boolean isOf(Entry.Issued issued) {
        return route.equals(issued.route());
    }

    /** Whether it is the clearance of these words, and another took its place. */
    boolean isReplaced(String text) {
        return next && !withdrawn && said.get(0).equals(text);
    }

    /** The clearance that took its place was taken back before anybody had to act on it: it goes on. */
    void goOn(@Nullable AmendmentGrader withdrawnLast) {
        takenBack(withdrawnLast);
        next = false;
        ended = false;
        replaced = false;
        asBefore = true;
        goesOn = true;
    }

    /** Whether an error that began before the next clearance is measured on to its end. */
    boolean owes() {
        return replaced && (altitudeOff || speedOff);
    }

    /** The part in which it is measured on is over. */
    void owesNoMore() {
        altitudeOff = false;
        speedOff = false;
    }

    /** The clearance between was taken back: its heading is not to be flown any more. */
    void takenBack(@Nullable AmendmentGrader withdrawnLast) {
        takenBack = withdrawnLast == null || !withdrawnLast.withdrawn
                ? Optional.empty()
                : withdrawnLast
                        .route
                        .assignedHeading()
                        .flatMap(was ->
                                route.assignedHeading().map(is -> new TakenBackHeading(was.magnetic(), is.magnetic())));
    }

    /** The heading that was taken back, where it was flown on and not the one that stands again. */
    Optional<TakenBackHeading> flownOn() {
        return takenBack.filter(TakenBackHeading::flownOn);
    }

    /** Whether it went on, with all that was said beside it. */
    boolean goesOn() {
        return goesOn;
    }

    /** Taken back: what was to be flown of it is asked of nobody. */
    void withdraw(double flownS) {
        withdrawn = true;
        standsS = flownS - issuedFlownS;
        if (standsS <= REACTION_S) {
            // Nobody had to act on it: what was flown is another clearance, or none.
            happened.clear();
            wantsAltitude = false;
            wantsSpeed = false;
        }
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
        if (withdrawn && !next) {
            wayBack.point(now);
        }
        if (ended && !owes()) {
            return;
        }
        Point before = last;
        last = now;
        double unseenS = now.newPiece() && before != null ? now.flownS() - before.flownS() : 0;
        AircraftState sent = now.state();
        if (!ended || altitudeOff) {
            if (now.newPiece()) {
                altitude.breakOff(unseenS);
            }
            altitude.point(now, sent.altitudeMslFtOrNaN(), sent.altitudeCarried(), now.altitudeErrorFt(), true);
        }
        if (!ended || speedOff) {
            if (now.newPiece()) {
                speed.breakOff(unseenS);
            }
            speed.point(now, sent.indicatedAirspeedKtOrNaN(), sent.airspeedCarried(), now.speedErrorKt(), true);
        }
        if (ended) {
            return;
        }
        lastS = now.timeS();
        if (now.newPiece()) {
            unseen |= before != null;
            heading.breakOff(unseenS);
        }
        boolean onHeading = now.phase() == Point.Phase.CLOSING || route.courseLeg() < 0;
        heading.point(now, now.headingMagneticDeg(), sent.headingCarried(), headingErrorDeg(now), onHeading);
        if (reach != null) {
            reach.point(before, now);
        }
        firstTurn.point(now);
        if (takenBack.isPresent()) {
            takenBack.get().point(now);
        }
        line.point(before, now, fix.turnsOff(now), fix.outside());
        fix.point(before, now);
        hold.point(now);
    }

    /**
     * Off the assigned heading, as far as it counts. Who turned to the line near to it and overdid it, or turned back from it, goes
     * away from it again: that counts the more the farther out he is from where the turn may begin, until all of it counts half a
     * scale farther.
     */
    private double headingErrorDeg(Point now) {
        double error = now.headingErrorDeg();
        boolean away =
                now.crossTrackNm() * now.trackErrorDeg() > 0 && Math.abs(now.trackErrorDeg()) > ONTO.parallelDeg();
        if (Double.isNaN(error) || !now.hasLine() || !away || !firstTurn.takenUp()) {
            return error;
        }
        double closingDeg = Math.abs(Angles.turn(now.trackErrorDeg() - error));
        double near = ONTO.nearNm(now.groundSpeedKt(), closingDeg, now.fullScaleNm());
        double share = (Math.abs(now.crossTrackNm()) - near) / (ONTO.ofScale() * now.fullScaleNm());
        return share <= 0 || share >= 1
                ? error
                : Math.copySign(Math.min(Math.abs(error), share * HeldMeasures.HEADING_ALL_DEG), error);
    }

    void happened(Entry.Happened entry) {
        FlightEvent event = entry.event();
        altitudeOff = (!ended && event instanceof FlightEvent.AltitudeDeviationBegan)
                || (altitudeOff && !(event instanceof FlightEvent.AltitudeDeviationEnded));
        speedOff = (!ended && event instanceof FlightEvent.SpeedDeviationBegan)
                || (speedOff && !(event instanceof FlightEvent.SpeedDeviationEnded));
        if (ended) {
            return;
        }
        happened.add(entry);
        firstTurn.event(event);
        line.event(entry.flownS(), event);
        fix.event(entry.flownS(), event, last);
        hold.event(event);
        crossing.event(event);
        if (event instanceof FlightEvent.InterceptAchieved first && achieved.isEmpty()) {
            achieved = Optional.of(first);
        } else if (event instanceof FlightEvent.AmendmentNotAchieved not) {
            notAchieved = Optional.of(not);
        }
        otherCourse |= event instanceof FlightEvent.TrackedInstead;
        if (firstTurn.takenUp() && event instanceof FlightEvent.TrackedInstead) {
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
        boolean asked = !replaced && !withdrawn;
        boolean undue = false;
        if (headingIsFlown() && !withdrawn) {
            if (noTimeToReact()) {
                criteria.add(heading.notDue(span));
            } else {
                undue |= heading.grade(criteria, last, asked, span);
            }
        }
        if (route.courseLeg() >= 0 && !altitudeOrSpeedOnly && !withdrawn) {
            if (judgesTrack) {
                undue |= intercept(criteria, last);
                undue |= course(criteria, last);
                undue |= turnAtFix(criteria, last);
            } else {
                COURSE_KINDS.forEach(kind -> criteria.add(new Criterion.Asked(kind, limit(kind), span, "see the feed")
                        .notJudged("the positions are too coarse")));
            }
        }
        if (wantsAltitude) {
            undue |= altitude.grade(criteria, last, asked, span);
        }
        if (wantsSpeed) {
            undue |= speed.grade(criteria, last, asked, span);
        }
        Optional<String> takenBackWhen = Optional.empty();
        if (!withdrawn) {
            hold.grade(criteria, notes, last, notAchieved.isPresent(), span);
            crossing.grade(
                    criteria,
                    notes,
                    last,
                    complete,
                    altitude.seen(),
                    set.limits().altitudeFt(),
                    span);
            undue |= completed(criteria, last);
        } else {
            String when = Words.say("taken back after %.0f s", standsS);
            Optional<String> never = altitudeOrSpeedOnly ? Optional.empty() : wayBack.neverBack(lastS);
            never.ifPresent(notes::add);
            takenBackWhen = Optional.of(never.map(note -> when + "; " + note).orElse(when));
            notes.add("the clearance was taken back: what was not flown of it is not judged");
        }
        if (!withdrawn && judgesTrack && homed().isPresent()) {
            notes.add(Words.say(
                    "homing: the nose was kept on %s, and the wind carried the aircraft up to %.1f NM off the course to it."
                            + " Practise: " + TRACK_TO_FIX + ".",
                    homed().get(),
                    line.homedNm()));
        } else if (!withdrawn && judgesTrack && line.driftNm() > line.pastLimitNm()) {
            notes.add(Words.say(
                    "the wind carried the aircraft %.1f NM off the course with the heading along it. Practise: put the nose into"
                            + " the wind until the track is the course.",
                    line.driftNm()));
        }
        String undueNote = "what was not due when the next clearance came is not judged";
        if (undue && !withdrawn) {
            notes.add(undueNote);
        }
        boolean ofTheWay = altitudeOrSpeedOnly
                || criteria.stream().anyMatch(each -> each.judged() && !BESIDE_KINDS.contains(each.kind()));
        Optional<String> cutShort = undue && !withdrawn && !ofTheWay ? Optional.of(undueNote) : Optional.empty();
        if (directIgnored) {
            // The old route leads to the same fix: along it nothing is earned.
            criteria.replaceAll(criterion -> ONWARD_KINDS.contains(criterion.kind())
                    ? criterion
                            .earning(1 - line.notAimed())
                            .notMet(
                                    directLateS().isPresent()
                                            ? "the direct was taken up late"
                                            : "the direct was not taken up")
                    : criterion);
        }
        double lost = Math.max(fix.lost(), besideDirect() ? fix.notGoneOn() : 0);
        if (lost > 0) {
            // The old course is not the cleared one past the fix, however well it is kept; nor is the old hold.
            criteria.replaceAll(criterion -> criterion.kind() == Criterion.Kind.COURSE
                    ? criterion
                            .earning(1 - lost)
                            .notMet(fix.lost() > 0 ? "flown on past the fix" : "not gone on from the fix")
                    : criterion);
        }
        criteria.replaceAll(criterion -> made.stream()
                .filter(fault -> concerns(fault) == criterion.kind())
                .findFirst()
                .map(fault -> criterion.notMet(
                        "within its limit, but not met because of " + fault.code() + ": " + fault.shortly()))
                .orElse(criterion));
        if (!faults.isEmpty() || criteria.stream().anyMatch(Criterion::judged)) {
            criteria.add(counted(faults, span));
        }
        return new AmendmentGrade(String.join("; ", said), atS, criteria, faults, notes, takenBackWhen, cutShort);
    }

    /** The fix on which the nose was kept while the wind carried the aircraft off the course to it; empty where it was not. */
    Optional<String> homed() {
        return line.homedNm() > line.pastLimitNm()
                ? Optional.of(route.direct().map(leg -> leg.to().ident()).orElse("the fix"))
                : Optional.empty();
    }

    /** The faults as a criterion. */
    static Criterion counted(List<Fault> faults, Span span) {
        double cost = faults.stream().mapToDouble(Fault::cost).sum();
        double points = Criterion.Kind.FAULTS.maxPoints() * Math.max(0, 1 - cost);
        String source = "error lists of the Instrument Flying Handbook, FAA-H-8083-15B, chapter 9; weight: common"
                + " practice, no source";
        Criterion counted = new Criterion.Asked(Criterion.Kind.FAULTS, 0, span, source)
                .judged(faults.size(), points, faults.isEmpty());
        boolean free = !faults.isEmpty() && cost * Criterion.Kind.FAULTS.maxPoints() < UNSEEN_POINTS;
        return free ? counted.titled("Faults, just past the limit: no points lost") : counted;
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
            case WEAVING, ROUTE_LEFT, COURSE_NOT_HELD -> Criterion.Kind.COURSE;
            case WRONG_TURN ->
                !firstTurn.wentOtherWayAt(fault.atS())
                        ? Criterion.Kind.FIX
                        : headingIsFlown() ? Criterion.Kind.HEADING : Criterion.Kind.INTERCEPT;
            case SEQUENCE_MISSED -> Criterion.Kind.FIX;
            case HEADING_NOT_HELD -> Criterion.Kind.HEADING;
            case ALTITUDE_NOT_HELD -> Criterion.Kind.ALTITUDE;
            case SPEED_NOT_HELD -> Criterion.Kind.SPEED;
            case NOT_ACHIEVED -> Criterion.Kind.COMPLETED;
            case HOLD_NOT_ENTERED -> Criterion.Kind.HOLD_ENTRY;
            case HOLD_WRONG_SIDE -> hold.wrongAtEntry() ? Criterion.Kind.HOLD_ENTRY : Criterion.Kind.FAULTS;
            case CROSSING_MISSED -> Criterion.Kind.CROSSING;
        };
    }

    private boolean headingIsFlown() {
        return route.assignedHeading().isPresent() || route.departHeading().isPresent();
    }

    /** Whether the line was crossed while nobody had reacted yet, and the heading that was said leads away from it. */
    boolean crossedTooSoon() {
        return line.crossedS() <= issuedFlownS + REACTION_S
                && route.warnsOf(Warning.Code.HEADING_DOES_NOT_REACH_COURSE);
    }

    /** Whether the vector was given so near the course that was met that its turn was due before anybody could react. */
    boolean noTimeToReact() {
        return achieved.isPresent()
                && route.intercept()
                        .filter(plan -> plan.distanceNm() > 0 && plan.minutes() > 0)
                        .filter(plan ->
                                (1 - plan.standardTurnLeadNm() / plan.distanceNm()) * plan.minutes() * 60 < REACTION_S)
                        .isPresent();
    }

    /** Whether the fix at the end of the course was passed before a moment. */
    boolean fixPassed(double timeS) {
        return fix.passed().filter(at -> at.timeS() < timeS).isPresent();
    }

    private boolean intercept(List<Criterion> criteria, boolean over) {
        Criterion.Asked asked = new Criterion.Asked(
                Criterion.Kind.INTERCEPT,
                line.pastLimitNm(),
                Span.of(atS, achieved.map(FlightEvent::timeS).orElse(lastS)),
                set.source("overshoot"));
        Optional<String> unknown = line.metUnseen()
                ? Optional.of(UNSEEN)
                : line.farthestUnseen() ? Optional.of(FARTHEST_UNSEEN) : unknown();
        if (unknown.isPresent()) {
            criteria.add(asked.notJudged(unknown.get()));
        } else if (besideDirect()) {
            criteria.add(asked.measured(Math.max(line.farNm(), line.closestNm()))
                    .notMet("never taken up")
                    .titled("Direct, distance beside the course; never taken up"));
        } else if (achieved.isPresent()) {
            Criterion met = achieved(asked);
            double lost = line.missedForAnother();
            criteria.add(
                    lost > 0
                            ? met.titled(met.title() + "; then left for another course")
                                    .earning(1 - lost)
                            : met);
        } else if (wentAlong()) {
            criteria.add(asked.measured(line.neverMetNm())
                    .titled(line.arc() ? "Intercept, distance beside the arc" : BESIDE_LINE)
                    .earning(1 - line.missed())
                    .notMet("never established"));
        } else if (wayNotDone()) {
            criteria.add(asked.never());
        } else if (over) {
            return notDue(criteria, asked);
        }
        return false;
    }

    /** How a line was met. */
    private Criterion achieved(Criterion.Asked asked) {
        if (line.besideForAnother()) {
            return asked.measured(line.neverMetNm()).titled(BESIDE_LINE);
        }
        Criterion measured = asked.measured(line.missedNm()).at(line.missedAtS());
        if (!line.fellShort()) {
            return direct() ? measured.titled("Direct, distance beside the course until taken up") : measured;
        }
        return measured.titled(
                line.arc()
                        ? "Intercept, rolled out short of the arc"
                        : Words.say(
                                "Intercept, rolled out %.2f NM short of the line, %.2f NM beyond half scale",
                                line.missedByNm(), line.missedNm()));
    }

    private boolean course(List<Criterion> criteria, boolean over) {
        String source = set.source("course") + "; " + set.source("full_scale_nm");
        double limit = limit(Criterion.Kind.COURSE);
        Span followed = line.course();
        Criterion.Asked asked = new Criterion.Asked(Criterion.Kind.COURSE, limit, Span.of(atS, lastS), source);
        Optional<String> unknown = unknown();
        if (unknown.isPresent()) {
            criteria.add(asked.notJudged(unknown.get()));
        } else if (neverMet() && !line.followedIt()) {
            criteria.add(asked.never());
        } else if (!followed.empty() && followed.fellIntoGaps()) {
            criteria.add(new Criterion.Asked(Criterion.Kind.COURSE, limit, followed, source)
                    .notJudged("too much of the time on the course was not received"));
        } else if (!followed.empty()) {
            double offNm = Math.max(
                    line.besideOtherNm(),
                    neverMet() && !direct() ? Math.max(line.offNm(), line.besideNm()) : line.offNm());
            Criterion measured = new Criterion.Asked(Criterion.Kind.COURSE, line.limitNm(), followed, source)
                    .measured(offNm)
                    .at(line.offAtS())
                    .earning(1 - fix.turnedShort());
            criteria.add(besideDirect() ? measured.notMet("the direct was never taken up") : measured);
        } else if (wayNotDone()) {
            criteria.add(asked.never());
        } else if (over && complete) {
            criteria.add(asked.notJudged("the turn onto the next leg came at once"));
        } else if (over) {
            return notDue(criteria, asked);
        }
        return false;
    }

    private boolean turnAtFix(List<Criterion> criteria, boolean over) {
        boolean met = !neverMet() || besideDirect() || (wentAlong() && fix.ofCourse());
        boolean seen = fix.passed().isPresent() && met && notReached().isEmpty();
        Span span = Span.of(atS, seen ? fix.passed().get().timeS() : lastS);
        Criterion.Asked asked =
                new Criterion.Asked(Criterion.Kind.FIX, set.fixLateralNm(), span, set.source("fix_lateral"));
        if (seen) {
            String ident = fix.passed().get().ident();
            Criterion measured = asked.measured(fix.pastNm())
                    .at(fix.pastAtS())
                    .titled(
                            fix.holdsThere()
                                    ? "Over " + ident + ", distance from it"
                                    : "Turn at " + ident + ", beyond a sound fly-by");
            double earned = Math.min(line.turnedAtItsEnd(), wentAlong() ? 1 - line.missed() : 1);
            criteria.add(
                    earned == 1 ? measured : earned * measured.points() > 0 ? measured.earning(earned) : asked.never());
            return false;
        }
        if (fix.missedByLeaving() && !unseen && notReached().isEmpty()) {
            criteria.add(asked.never());
            return false;
        }
        if (!(over || wayNotDone()) || route.resumesAt() <= route.courseLeg()) {
            return false;
        }
        if (notReached().isPresent()) {
            criteria.add(asked.notJudged(notReached().get()));
            return false;
        }
        boolean neverThere = besideDirect() ? line.passedBeside() : wayNotDone();
        if (neverThere || (complete && fix.leftSeverity() > 0 && !unseen)) {
            criteria.add(asked.never());
        } else if (complete) {
            criteria.add(asked.notJudged("the fix was passed where nobody saw it"));
        } else if (over) {
            return notDue(criteria, asked);
        }
        return false;
    }

    private boolean completed(List<Criterion> criteria, boolean over) {
        double most = Criterion.Kind.COMPLETED.maxPoints();
        Criterion.Asked asked = new Criterion.Asked(
                Criterion.Kind.COMPLETED,
                0,
                Span.of(atS, lastS),
                "comply with the clearance (FAA-S-ACS-8C, IR.V.B.S4 and S5)");
        Optional<String> unknown = unknown();
        double late = complete ? fix.circlesMore() : 0;
        double notAsSaid = complete ? Math.max(late, Math.max(fix.turnedShort(), headingNotFlown())) : 0;
        if (unknown.isPresent()) {
            criteria.add(asked.notJudged(unknown.get()));
        } else if (notAchieved.isPresent() || directIgnored) {
            Criterion open = asked.judged(1, most * Criterion.NOT_MET_MOST * (1 - left()), false);
            criteria.add(
                    directLateS().isPresent()
                            ? open.titled("Parts of the clearance done late")
                            : otherHeading() ? open.titled("Parts of the clearance done wrong") : open);
        } else if (notAsSaid > 0) {
            Criterion open = asked.judged(1, most * Criterion.NOT_MET_MOST * (1 - notAsSaid), false);
            criteria.add(
                    late > 0
                            ? open.titled("Parts of the clearance done late")
                            : fix.turnedShort() > 0 ? open.titled("Parts of the clearance done too early") : open);
        } else if (complete) {
            criteria.add(asked.judged(0, most, true));
        } else if (over) {
            return notDue(criteria, asked);
        }
        return false;
    }

    /** How much of a turn to a heading that leads to a course was not made by who met the course all the same, 0 to 1. */
    double headingNotFlown() {
        boolean never = route.assignedHeading().isPresent() && achieved.isPresent() && !firstTurn.takenUp();
        return never && !noTimeToReact()
                ? Math.min(firstTurn.notDone(), heading.excess().severity(heading.largest()))
                : 0;
    }

    /** How far from done: by how far from the line it was, where that was the reason; else all of it. */
    double missedSeverity() {
        if (notAchieved.isEmpty()) {
            return line.ignored();
        }
        if (headingMissed()) {
            return firstTurn.notMade();
        }
        if (notAchieved.get().leftShare().isPresent()) {
            double direct = directIgnored ? line.ignored() : 0;
            return Math.max(direct, notAchieved.get().leftShare().getAsDouble());
        }
        return achieved.isPresent() ? fix.neverJoined() : Math.max(lineSeverity(), notGoneOnSeverity());
    }

    private double lineSeverity() {
        return Math.max(line.ignored(), line.missed());
    }

    private double notGoneOnSeverity() {
        return besideDirect() ? fix.notGoneOnSeverity() : 0;
    }

    /** The fix of a direct that was passed by another way, and not gone on from: what counts more than how the course was missed. */
    Optional<String> notGoneOnFrom() {
        return fix.passed().filter(at -> notGoneOnSeverity() > lineSeverity()).map(FlightEvent.FixSequenced::ident);
    }

    /** How much of what was to be done is left to be done, 0 to 1. */
    private double left() {
        return headingMissed() ? firstTurn.notDone() : directIgnored ? leftOfDirect() : missedSeverity();
    }

    /** The same of a direct that was not gone to, and of what was not reached beside it. */
    private double leftOfDirect() {
        OptionalDouble share =
                notAchieved.map(FlightEvent.AmendmentNotAchieved::leftShare).orElse(OptionalDouble.empty());
        double onward = !wayNotDone() ? 0 : achieved.isPresent() ? 1 : notGoneOnSeverity();
        return Math.max(Math.max(line.notAimed(), onward), share.orElse(0));
    }

    /** Whether nothing but a heading was to be flown, and it was not. */
    boolean headingMissed() {
        return wayNotDone() && route.courseLeg() < 0 && route.assignedHeading().isPresent() && !firstTurn.takenUp();
    }

    /** Whether another heading near it was held in its place: he did not hold it, and did not ignore it. */
    boolean otherHeading() {
        return headingMissed() && firstTurn.heldOther();
    }

    /** Complete, but nobody saw the course being met: it was passed in a gap of the feed, or by moving the aircraft. */
    private boolean doneUnseen() {
        return complete && achieved.isEmpty() && route.courseLeg() >= 0 && !altitudeOrSpeedOnly;
    }

    /** Whether the course was due and never met: what comes after it was reached by another way. */
    boolean neverMet() {
        return achieved.isEmpty() && wayNotDone();
    }

    /** Why nobody can say how the way was flown; empty where it can be judged. */
    private Optional<String> unknown() {
        return doneUnseen() ? Optional.of(UNSEEN) : notReached();
    }

    /** Why a line that was due was not met by who did as he was told: the heading does not lead to it, or too near its end. */
    Optional<String> notReached() {
        HeadingReach flown = reach;
        if (!neverMet() || direct() || otherCourse) {
            return Optional.empty();
        }
        return flown != null && flown.missesLine() ? Optional.of(flown.words()) : noRoom();
    }

    /**
     * Why nobody could be established before the fix who turned to the course and passed it there: the two turns take more than
     * the course is long; empty where they do not.
     */
    private Optional<String> noRoom() {
        Optional<Intercept> met = route.intercept().filter(plan -> fix.ofCourse() && !flownThrough());
        Optional<ComputedFix> end = route.computedFix()
                .filter(at -> fix.passed()
                        .filter(passed -> passed.lateralNm() <= line.scaleNm())
                        .isPresent());
        if (met.isEmpty() || end.isEmpty()) {
            return Optional.empty();
        }
        double roomNm = end.get().roomNm(met.get(), route.situation());
        double courseNm = met.get().position().distanceNm(end.get().fix().position());
        return roomNm >= 0
                ? Optional.empty()
                : Optional.of(Words.say(
                        "there was no room: the turns onto the course and at %s take %.1f NM, and %.1f NM of it are left; say so,"
                                + " and ask for a heading that meets it earlier",
                        end.get().fix().ident(), courseNm - roomNm, courseNm));
    }

    private boolean flownThrough() {
        return happened.stream().anyMatch(entry -> entry.event() instanceof FlightEvent.FlownThrough);
    }

    /** Whether what was due and not done is of the way, not of an altitude or a speed. */
    boolean wayNotDone() {
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

    /** Until how long after the clearance a direct was not gone to that was taken up late, seconds; empty where it was not so. */
    OptionalDouble directLateS() {
        return directIgnored && achieved.isPresent() && notAchieved.isEmpty()
                ? OptionalDouble.of(line.astrayUntilS() - issuedFlownS)
                : OptionalDouble.empty();
    }

    /** Whether the first course is the way direct to a fix. */
    private boolean direct() {
        return line.direct();
    }

    /** Not due: not judged, and left out where the next clearance asks for something else; whether it was. */
    private boolean notDue(List<Criterion> criteria, Criterion.Asked asked) {
        if (!replaced) {
            criteria.add(asked.notJudged(
                    Words.say("the lesson ended before it was due, %.0f s after the clearance", lastS - atS)));
        }
        return replaced;
    }
}
