package org.rejoin.console.grade;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Stream;

import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Intercept;
import org.rejoin.bridge.route.Leg;
import org.rejoin.console.words.RouteWords;
import org.rejoin.console.words.Words;

/**
 * The faults of one amendment: one of a kind, weighed by size and time. What follows from an earlier mistake is told in a
 * note and does not count.
 */
final class FaultFinder {

    /** What a line that was not met as cleared comes to be: one mistake. */
    private static final Set<FaultCode> MISSED_LINE =
            EnumSet.of(FaultCode.FLOWN_THROUGH, FaultCode.TURNED_EARLY, FaultCode.OVERSHOOT);

    /** What it leads to besides, where the line flown was another one to the end. */
    private static final Set<FaultCode> OTHER_LINE = EnumSet.of(
            FaultCode.SEQUENCE_MISSED,
            FaultCode.WRONG_TURN,
            FaultCode.ROUTE_LEFT,
            FaultCode.COURSE_NOT_HELD,
            FaultCode.WEAVING);

    /** What homing comes to in a wind. */
    private static final Set<FaultCode> HOMING = EnumSet.of(FaultCode.COURSE_NOT_HELD, FaultCode.ROUTE_LEFT);

    /** How a course that was met is not kept: one mistake. */
    private static final Set<FaultCode> OFF_COURSE =
            EnumSet.of(FaultCode.COURSE_NOT_HELD, FaultCode.ROUTE_LEFT, FaultCode.WEAVING);

    /** Off an altitude so soon after a place is crossed, it was off there, seconds; common practice, no source. */
    private static final double LEVEL_OFF_S = 30;

    private static final Rule.OtherCourse OTHER_COURSE = Rules.STANDARD.of(Rule.OtherCourse.class);

    private static final String BY_DME =
            "fly the arc by what the DME shows: turn toward the station when it shows more, and away from it when it shows"
                    + " less";

    private final List<Entry.Happened> happened;
    private final Optional<AmendedRoute> route;
    private final AmendmentGrader measured;
    private final List<String> notes;
    private final List<Fault> uncounted = new ArrayList<>();

    FaultFinder(List<Entry.Happened> happened, AmendedRoute route, AmendmentGrader measured, List<String> notes) {
        this.happened = happened;
        this.route = Optional.of(route);
        this.measured = measured;
        this.notes = notes;
    }

    List<Fault> faults() {
        List<Fault> faults = new ArrayList<>();
        List<Fault> following = new ArrayList<>();
        Set<FaultCode> told = EnumSet.noneOf(FaultCode.class);
        boolean wandered = false;
        for (Entry.Happened entry : happened) {
            Optional<Fault> fault = entry.event().kind().fault().flatMap(code -> fault(code, entry.event()));
            boolean left =
                    entry.event() instanceof FlightEvent.RouteLeft || entry.event() instanceof FlightEvent.FlownThrough;
            wandered |= fault.isEmpty() && !entry.follows() && left;
            if (fault.isEmpty() || !told.add(fault.get().code())) {
                continue;
            }
            // What comes of a wander that was no mistake is the first mistake.
            boolean follows = entry.follows() && !wandered;
            wandered = false;
            if (follows) {
                told.remove(fault.get().code());
                following.add(fault.get());
            } else {
                faults.add(fault.get());
            }
        }
        faults.replaceAll(fault -> asGraveAsWayBack(fault, following));
        List<Fault> turned =
                firstTurn(crossed(notReached(withoutWayToOtherCourse(asGraveAsItsEnd(faults, following)))));
        List<Fault> counted = arcNamed(oneMistake(notGoneOn(flownOn(homingNamed(offCourse(turned))))));
        otherCourseNamed(counted);
        for (Fault fault : following) {
            // Unless it is what the mistake counts as.
            if (faults.stream().anyMatch(each -> each.code() == fault.code())
                    || counted.stream().noneMatch(each -> each.code() == fault.code())) {
                notes.add(words(fault.code()) + " at " + Words.clock(fault.atS())
                        + " follows from the mistake before it and does not count");
            }
        }
        return counted;
    }

    /** Who flew it the wrong way and came back from it has made one mistake: no less grave than being carried past it is alone. */
    private static Fault asGraveAsWayBack(Fault fault, List<Fault> following) {
        return fault.code() == FaultCode.WRONG_DIRECTION
                ? asGrave(
                        fault,
                        Math.max(worst(following, FaultCode.OVERSHOOT), worst(following, FaultCode.FLOWN_THROUGH)))
                : fault;
    }

    /**
     * Who left the leg and flew on past its end as if nothing were, or turned wrong at a fix or not at all and never went on from
     * it, has made one mistake, as grave as what came of it. Who turned wrong has time to come back, and who was on his way back
     * when the lesson ended is held to nothing more.
     */
    private List<Fault> asGraveAsItsEnd(List<Fault> faults, List<Fault> following) {
        double missed =
                Math.max(worst(following, FaultCode.SEQUENCE_MISSED), worst(following, FaultCode.COURSE_NOT_HELD));
        double never = worst(following, FaultCode.NOT_ACHIEVED) * measured.fix.notComingBack();
        return faults.stream()
                .map(fault -> switch (fault.code()) {
                    case ROUTE_LEFT -> asGrave(fault, missed);
                    case SEQUENCE_MISSED -> asGrave(fault, Math.min(never, measured.fix.notGoneOnSeverity()));
                    case WRONG_TURN -> asGrave(fault, Math.min(never, measured.fix.notGoneOn()));
                    default -> fault;
                })
                .toList();
    }

    private static double worst(List<Fault> faults, FaultCode code) {
        return faults.stream()
                .filter(fault -> fault.code() == code)
                .mapToDouble(Fault::cost)
                .max()
                .orElse(0);
    }

    private static Fault asGrave(Fault fault, double severity) {
        return fault.severity() < severity ? new Fault(fault.code(), fault.atS(), fault.text(), severity) : fault;
    }

    /**
     * Who weaved so widely that he was off the course, or was off it until he had left the route, has made one mistake, and a route
     * left is the name of it: as grave as the gravest. So has who went along beside the course after a fix, and never joined it.
     */
    private List<Fault> offCourse(List<Fault> faults) {
        boolean beside = besideNext();
        Predicate<Fault> same =
                fault -> OFF_COURSE.contains(fault.code()) || (beside && fault.code() == FaultCode.NOT_ACHIEVED);
        Optional<Fault> gravest = gravest(faults, same);
        if (gravest.isEmpty()
                || (!beside && faults.stream().noneMatch(fault -> fault.code() == FaultCode.COURSE_NOT_HELD))) {
            return faults;
        }
        Fault counted = faults.stream()
                .filter(fault -> fault.code() == FaultCode.ROUTE_LEFT)
                .findFirst()
                .map(left -> new Fault(
                        left.code(), left.atS(), left.text(), gravest.get().cost()))
                .orElse(gravest.get());
        return counting(faults, same, gravest.get(), counted);
    }

    /** Whether what follows the fix was due, and never joined by who went along it. */
    private boolean besideNext() {
        return measured.wayNotDone() && !measured.neverMet() && measured.fix.wentBesideNext();
    }

    /** The nose kept on the fix of a direct, and the wind carried the aircraft off the course to it: that is the cause. */
    private List<Fault> homingNamed(List<Fault> faults) {
        return measured.homed().isEmpty()
                ? faults
                : faults.stream()
                        .map(fault -> HOMING.contains(fault.code())
                                ? fault.adding(": homing, the nose was kept on "
                                                + measured.homed().get() + " and the wind carried the aircraft off")
                                        .practising(AmendmentGrader.TRACK_TO_FIX)
                                : fault)
                        .toList();
    }

    /** The heading that was left for another course: the course is the mistake. */
    private List<Fault> withoutWayToOtherCourse(List<Fault> faults) {
        double leftS = measured.heading.leftS();
        List<Fault> all = new ArrayList<>(faults);
        // It is told a while after he was on it, and he was on it a while after he had left for it.
        double fromS = Math.min(
                leftS,
                otherCourse()
                        .map(tracked -> tracked.timeS() - 2 * OTHER_COURSE.heldS())
                        .orElse(leftS));
        Predicate<Fault> left = fault -> fault.code() == FaultCode.HEADING_NOT_HELD && fault.atS() >= fromS;
        if (faults.stream().allMatch(left)) {
            // Nothing else came of it: what it was left for lies short of the line.
            LineMeasures line = measured.line;
            double severity = Fault.severity(line.besideOtherNm(), line.earlyNm());
            all.replaceAll(fault -> new Fault(FaultCode.TURNED_EARLY, fault.atS(), fault.text(), severity));
            return all;
        }
        all.removeIf(left);
        if (all.size() < faults.size()) {
            notes.add("the heading was left at " + Words.clock(leftS)
                    + " for the course that was not cleared: one mistake, counted once");
        }
        return all;
    }

    /** Who did not reach an altitude or a speed was off it: one mistake. */
    private List<Fault> notReached(List<Fault> faults) {
        Optional<FlightEvent.AmendmentNotAchieved> not = altitudeOrSpeedMissed();
        if (not.isEmpty()) {
            return faults;
        }
        boolean altitude = isOffAltitude(not.get().timeS());
        FaultCode held = altitude ? FaultCode.ALTITUDE_NOT_HELD : FaultCode.SPEED_NOT_HELD;
        Predicate<Fault> same = fault -> fault.code() == held || fault.code() == FaultCode.NOT_ACHIEVED;
        // Of equals the last, which says more: that it was never reached.
        Optional<Fault> gravest = faults.stream().filter(same).reduce((a, b) -> b.cost() >= a.cost() ? b : a);
        List<Fault> counted = new ArrayList<>(
                gravest.map(fault -> counting(faults, same, fault, fault)).orElse(faults));
        if (altitude) {
            AltitudeChange change = measured.altitude.change();
            counted.replaceAll(fault -> fault.code() == FaultCode.NOT_ACHIEVED ? change.told(fault) : fault);
        }
        return counted;
    }

    private Optional<FlightEvent.AmendmentNotAchieved> altitudeOrSpeedMissed() {
        return happened.stream()
                .map(Entry.Happened::event)
                .filter(FlightEvent.AmendmentNotAchieved.class::isInstance)
                .map(FlightEvent.AmendmentNotAchieved.class::cast)
                .filter(event -> event.leftShare().isPresent())
                .findFirst();
    }

    /** Who crossed a place as high or low as he was off the altitude assigned has made one mistake. */
    private List<Fault> crossed(List<Fault> faults) {
        Predicate<Fault> ofAltitude = fault -> fault.code() == FaultCode.ALTITUDE_NOT_HELD
                || (fault.code() == FaultCode.NOT_ACHIEVED
                        && altitudeOrSpeedMissed().isPresent()
                        && isOffAltitude(fault.atS()));
        return gravestOf(
                faults,
                fault -> ofAltitude.test(fault)
                        || (fault.code() == FaultCode.CROSSING_MISSED
                                && faults.stream().anyMatch(ofAltitude)
                                && (isOffAltitude(fault.atS() + LEVEL_OFF_S) || notBackAtAltitude(fault.atS()))));
    }

    /** Whether the aircraft was off the assigned altitude at a moment. */
    private boolean isOffAltitude(double timeS) {
        return lastOfAltitude(timeS)
                .filter(FlightEvent.AltitudeDeviationBegan.class::isInstance)
                .isPresent();
    }

    /** Whether it was off it before a moment, and not seen back: near a place with an altitude the one before is judged no more. */
    private boolean notBackAtAltitude(double timeS) {
        return lastOfAltitude(timeS)
                .filter(event -> event instanceof FlightEvent.AltitudeDeviationBegan
                        || (event instanceof FlightEvent.AltitudeDeviationEnded ended && !ended.back()))
                .isPresent();
    }

    private Optional<FlightEvent> lastOfAltitude(double timeS) {
        return happened.stream()
                .map(Entry.Happened::event)
                .filter(event -> event.timeS() <= timeS)
                .filter(event -> event instanceof FlightEvent.AltitudeDeviationBegan
                        || event instanceof FlightEvent.AltitudeDeviationEnded)
                .reduce((before, last) -> last);
    }

    /**
     * The turn that begins the amendment: who did not make it, or began it to the other side, was off the heading until it was
     * taken up; who never took it up and never met what it leads to has not done what was cleared. One mistake.
     */
    private List<Fault> firstTurn(List<Fault> faults) {
        FirstTurnMeasures turn = measured.firstTurn;
        boolean never = !turn.takenUp();
        Predicate<Fault> same = fault -> switch (fault.code()) {
            case WRONG_TURN -> turn.wentOtherWayAt(fault.atS());
            case HEADING_NOT_HELD -> turn.before(fault.atS());
            case NOT_ACHIEVED -> never && measured.wayNotDone() && measured.heading.seen();
            default -> false;
        };
        List<Fault> counted = new ArrayList<>(gravestOf(faults, same));
        if (turn.neverBegun()) {
            counted.replaceAll(fault -> same.test(fault) ? neverBegun(fault) : fault);
        }
        return counted;
    }

    private Fault neverBegun(Fault fault) {
        String what = Words.say(
                "%sthe turn to heading %s was never begun",
                fault.code() == FaultCode.NOT_ACHIEVED ? "the amendment was not completed: " : "",
                route.flatMap(AmendedRoute::assignedHeading)
                        .map(plan -> Angles.figures(plan.magnetic().deg()))
                        .orElse(""));
        return Fault.of(
                fault.code(),
                fault.atS(),
                what,
                fault.severity(),
                "read the clearance back and begin the turn at once; the rest is written down and worked out in the turn");
    }

    /** Who flew a heading on that was taken back was off the one in force, and came to nothing by it: one mistake. */
    private List<Fault> flownOn(List<Fault> faults) {
        Optional<TakenBackHeading> flown = measured.flownOn();
        if (flown.isEmpty()) {
            return faults;
        }
        Predicate<Fault> same = fault -> (fault.code() == FaultCode.HEADING_NOT_HELD
                        && fault.atS() >= flown.get().fromS())
                || (fault.code() == FaultCode.NOT_ACHIEVED && measured.neverMet());
        List<Fault> counted = new ArrayList<>(gravestOf(faults, same));
        counted.replaceAll(fault -> same.test(fault)
                ? Fault.of(
                        fault.code(),
                        fault.atS(),
                        flown.get().words(),
                        fault.severity(),
                        "when a clearance is taken back, say what is in force again, and turn for it at once")
                : fault);
        return counted;
    }

    /** Who missed the turn at a fix did not go on to what comes after it: one mistake. */
    private List<Fault> notGoneOn(List<Fault> faults) {
        boolean onWay = measured.wayNotDone() && !measured.neverMet();
        return !onWay || faults.stream().noneMatch(fault -> fault.code() == FaultCode.SEQUENCE_MISSED)
                ? faults
                : gravestOf(
                        faults,
                        fault -> fault.code() == FaultCode.SEQUENCE_MISSED || fault.code() == FaultCode.NOT_ACHIEVED);
    }

    /** What was flown in place of an arc, beyond its limit all along. */
    private List<Fault> arcNamed(List<Fault> faults) {
        Optional<Leg.DmeArc> arc = route.flatMap(AmendedRoute::firstLine)
                .filter(Leg.DmeArc.class::isInstance)
                .map(Leg.DmeArc.class::cast)
                .filter(line -> Math.abs(measured.line.alongArcRightNm()) > measured.line.earlyNm());
        if (arc.isEmpty()) {
            return faults;
        }
        Set<FaultCode> codes = EnumSet.copyOf(MISSED_LINE);
        if (measured.neverMet()) {
            codes.add(FaultCode.NOT_ACHIEVED);
        }
        return faults.stream()
                .map(fault -> codes.contains(fault.code())
                        ? Fault.of(
                                        fault.code(),
                                        fault.atS(),
                                        flewArc(measured.line.alongArcRightNm(), arc.get()),
                                        fault.severity())
                                .practising(BY_DME)
                        : fault)
                .toList();
    }

    /** Of faults that are one mistake the gravest; the others are told. */
    private List<Fault> gravestOf(List<Fault> faults, Predicate<Fault> same) {
        return gravest(faults, same)
                .map(counted -> counting(faults, same, counted, counted))
                .orElse(faults);
    }

    private static Optional<Fault> gravest(List<Fault> faults, Predicate<Fault> same) {
        return faults.stream().filter(same).reduce((a, b) -> b.cost() > a.cost() ? b : a);
    }

    /** The same with one of those that are one mistake, as it counts, in place of them all. */
    private List<Fault> counting(List<Fault> faults, Predicate<Fault> same, Fault gravest, Fault counted) {
        List<Fault> all = new ArrayList<>();
        for (Fault fault : faults) {
            if (fault.equals(gravest)) {
                all.add(counted);
            } else if (!same.test(fault)) {
                all.add(fault);
            }
            if (same.test(fault) && fault.code() != counted.code()) {
                uncounted.add(fault);
                notes.add(words(fault.code()) + " at " + Words.clock(fault.atS()) + " is the same mistake as "
                        + words(counted.code()) + " and does not count");
            }
        }
        return all;
    }

    /** Who goes on beside the line has made no second mistake, nor has who tracked another course: the gravest counts. */
    private List<Fault> oneMistake(List<Fault> faults) {
        Optional<FlightEvent.TrackedInstead> other = otherCourse();
        Set<FaultCode> codes = EnumSet.copyOf(MISSED_LINE);
        if (measured.neverMet()) {
            codes.add(FaultCode.NOT_ACHIEVED);
        } else if (measured.line.besideAllTheWay()) {
            // Who was never on the line has not left it.
            codes.add(FaultCode.ROUTE_LEFT);
            codes.add(FaultCode.COURSE_NOT_HELD);
        }
        boolean toTheEnd = measured.neverMet() || measured.line.leftForAnother();
        if (other.isPresent()) {
            codes.addAll(toTheEnd ? OTHER_LINE : EnumSet.of(FaultCode.ROUTE_LEFT, FaultCode.COURSE_NOT_HELD));
            if (!measured.firstTurn.takenUp()) {
                codes.add(FaultCode.HEADING_NOT_HELD);
            }
        } else if (codes.equals(MISSED_LINE)) {
            return faults;
        }
        // Found in time, what comes after it is another try.
        double untilS = toTheEnd || other.isEmpty() ? Double.POSITIVE_INFINITY : measured.line.backAtS();
        Predicate<Fault> same = fault -> codes.contains(fault.code()) && fault.atS() <= untilS;
        Optional<Fault> gravest = gravest(faults, same);
        if (gravest.isEmpty()) {
            return faults;
        }
        Fault counted =
                other.map(tracked -> otherCourse(tracked, gravest.get())).orElse(gravest.get());
        return counting(faults, same, gravest.get(), counted);
    }

    /** Where it made no fault it is told all the same. */
    private void otherCourseNamed(List<Fault> counted) {
        otherCourse()
                .map(tracked -> tracked.insteadOf(
                        route.map(AmendedRoute::trackedCourseName).orElse("")))
                .filter(words ->
                        counted.stream().noneMatch(fault -> fault.text().contains(words)))
                .ifPresent(words -> notes.add(
                        Words.say("%s; up to %.2f NM off the cleared course", words, measured.line.offForAnotherNm())));
    }

    private Optional<FlightEvent.TrackedInstead> otherCourse() {
        return happened.stream()
                .map(Entry.Happened::event)
                .filter(FlightEvent.TrackedInstead.class::isInstance)
                .map(FlightEvent.TrackedInstead.class::cast)
                .reduce((before, last) -> last);
    }

    /**
     * The fault of who tracked another course: what counts is what came of it, all of it where he never came to the cleared
     * one; what to practise is the cause.
     */
    private Fault otherCourse(FlightEvent.TrackedInstead tracked, Fault came) {
        String instead =
                tracked.insteadOf(route.map(AmendedRoute::trackedCourseName).orElse(""));
        String practise = practise(tracked);
        return measured.neverMet()
                ? Fault.of(
                        FaultCode.NOT_ACHIEVED,
                        tracked.timeS(),
                        "the amendment was not completed: " + instead,
                        1,
                        practise)
                : Fault.of(
                        came.code(),
                        came.atS(),
                        Words.say("%s; up to %.2f NM off the cleared course", instead, measured.line.offForAnotherNm()),
                        came.severity(),
                        practise);
    }

    private String practise(FlightEvent.TrackedInstead tracked) {
        if (tracked instanceof FlightEvent.OtherCourseTracked radial) {
            Optional<String> cleared = route.flatMap(AmendedRoute::trackedCourse)
                    .map(course -> course.station().ident())
                    .filter(ident -> !ident.equals(radial.station()));
            return cleared.isPresent()
                    ? "tune and identify " + cleared.get()
                            + " before you set its course; the needle of another station looks the same"
                    : "set the course that was cleared, and fly it by the needle of the station: its radials go by the station's"
                            + " own north, which is not the variation of today";
        }
        return "say the airway and its course when you read it back, and compare the course with the chart before you turn onto"
                + " it";
    }

    /** After them: those that are another side of a mistake that counts. */
    List<Fault> uncounted() {
        return List.copyOf(uncounted);
    }

    private static String words(FaultCode code) {
        return code.name().replace('_', ' ').toLowerCase(Locale.ROOT);
    }

    /** Empty where it is not large or long enough. */
    private Optional<Fault> fault(FaultCode code, FlightEvent event) {
        LineMeasures line = measured.line;
        FixMeasures fix = measured.fix;
        return switch (code) {
            case FLOWN_THROUGH ->
                measured.crossedTooSoon()
                        ? Optional.empty()
                        : fault(
                                event,
                                throughSeverity(line),
                                "crossed the line and did not turn in time; %.2f NM past it%s",
                                line.farNm(),
                                lead());
            case WRONG_DIRECTION -> {
                FlightEvent.WrongDirection wrong = (FlightEvent.WrongDirection) event;
                yield fault(
                                event,
                                Fault.severity(line.reciprocalS(), LineMeasures.RECIPROCAL_S),
                                "flew track %s instead of %s for %.0f s",
                                RouteWords.magnetic(wrong.trackTrueDeg(), route),
                                RouteWords.course(wrong.courseTrueDeg(), route),
                                line.reciprocalS())
                        .map(fault -> line.arc() && !measured.fixPassed(wrong.timeS())
                                ? fault.practising(
                                        "say which way round the arc goes, and the heading that begins it, before"
                                                + " turning onto it: clockwise keeps the station on the right")
                                : fault);
            }
            case TURNED_EARLY -> {
                double shortNm = Math.abs(((FlightEvent.TurnedEarly) event).crossTrackNm());
                yield fault(
                        event,
                        Math.min(
                                Fault.severity(shortNm, line.earlyNm()),
                                Fault.severity(line.parallelS(), LineMeasures.PARALLEL_S)),
                        "rolled out parallel, %.2f NM short of the line%s",
                        shortNm,
                        lead());
            }
            case WRONG_TURN ->
                event instanceof FlightEvent.TurnedOtherWay turned
                        ? otherWay(turned)
                        : wrongTurn((FlightEvent.WrongTurn) event);
            case SEQUENCE_MISSED ->
                measured.notReached().isPresent()
                        ? Optional.empty()
                        : fault(
                                event,
                                fix.missedSeverity(),
                                fix.neverTurned()
                                        ? "the turn at %2$s was never begun: still on the old course %1$.0f s after it"
                                        : "still on the old course %.0f s after passing %s",
                                fix.missedS(),
                                ((FlightEvent.SequenceMissed) event).ident());
            case ROUTE_LEFT -> {
                FlightEvent.RouteLeft left = (FlightEvent.RouteLeft) event;
                Optional<Leg.DmeArc> arc = arc(left);
                yield fix.leftKept()
                        ? Optional.empty()
                        : arc.isPresent()
                                ? fault(event, fix.leftSeverity(), "%s", besideArc(left, arc.get()))
                                        .map(fault -> fault.practising(BY_DME))
                                : fault(
                                        event,
                                        fix.leftSeverity(),
                                        fix.cutCorner()
                                                ? "cut the corner at %3$s: left the cleared route %1$.1f NM before it, with no"
                                                        + " clearance for it"
                                                : "left the cleared route %1$.1f NM %2$s %3$s, with no clearance for it",
                                        Math.abs(left.toGoNm()),
                                        left.toGoNm() < 0 ? "past" : "before",
                                        left.ident());
            }
            case WEAVING -> {
                FlightEvent.Weaving weaving = (FlightEvent.Weaving) event;
                yield fault(
                        event,
                        line.weave().severity(),
                        "crossed the course %d times in three minutes with swings of up to %.0f degrees",
                        weaving.crossings(),
                        line.weave().widestDeg());
            }
            case HEADING_NOT_HELD ->
                measured.noTimeToReact()
                                || (measured.heading.largest() <= HeldMeasures.HEADING_FAULT_DEG
                                        && Double.isNaN(measured.heading.leftS()))
                        ? Optional.empty()
                        : fault(
                                event,
                                measured.heading.excess().severity(measured.heading.largest()),
                                "%s",
                                offHeading((FlightEvent.HeadingDeviationBegan) event));
            case COURSE_NOT_HELD ->
                line.offNm() <= line.limitNm()
                        ? Optional.empty()
                        : fault(
                                        event,
                                        Fault.severity(line.offNm(), line.limitNm()),
                                        "up to %.2f NM off the %s, and more than %.2f is too far",
                                        line.offNm(),
                                        line.arc() ? "arc" : "course",
                                        line.limitNm())
                                .map(fault -> line.arc() ? fault.practising(BY_DME) : fault);
            case ALTITUDE_NOT_HELD ->
                excess(
                                event,
                                measured.altitude.excess(),
                                "up to %.0f ft off the assigned altitude, more than 100 for %.0f s")
                        .map(measured.altitude.change()::told);
            case SPEED_NOT_HELD ->
                excess(event, measured.speed.excess(), "up to %.0f kt off the assigned speed, more than 10 for %.0f s");
            case OVERSHOOT -> {
                double pastNm = ((FlightEvent.Overshoot) event).maxCrossTrackNm();
                yield pastNm <= line.pastLimitNm()
                        ? Optional.empty()
                        : fault(
                                event,
                                Fault.severity(pastNm, line.pastLimitNm()),
                                "carried %.2f NM past the line%s",
                                pastNm,
                                lead());
            }
            case HOLD_WRONG_SIDE ->
                fault(
                        event,
                        measured.hold.wrongSeverity(),
                        "turned to the wrong side of the hold at %s, by %.0f degrees",
                        ((FlightEvent.HoldWrongSide) event).ident(),
                        measured.hold.wrongDeg());
            case HOLD_NOT_ENTERED -> {
                FlightEvent.HoldNotEntered missed = (FlightEvent.HoldNotEntered) event;
                yield fault(
                        event,
                        Fault.severity(measured.hold.missedS(), missed.afterS()),
                        "flew on past %s for %.0f s and did not enter the hold",
                        missed.ident(),
                        measured.hold.missedS());
            }
            case CROSSING_MISSED -> {
                FlightEvent.Crossing crossed = (FlightEvent.Crossing) event;
                double off = Math.abs(crossed.errorFt());
                yield off <= CrossingMeasures.FAULT_FT
                        ? Optional.empty()
                        : fault(
                                event,
                                CrossingMeasures.severity(off),
                                "crossed %s %.0f ft %s",
                                crossed.ident(),
                                off,
                                crossed.errorFt() < 0 ? "low" : "high");
            }
            case NOT_ACHIEVED ->
                event instanceof FlightEvent.DirectNotTakenUp direct
                        ? notDirect(direct)
                        : measured.notReached().isPresent() || measured.otherHeading()
                                ? Optional.empty()
                                : notAchieved((FlightEvent.AmendmentNotAchieved) event);
        };
    }

    private String offHeading(FlightEvent.HeadingDeviationBegan began) {
        FirstTurnMeasures turn = measured.firstTurn;
        if (!turn.takenUp() && turn.turnedPast()) {
            return turn.missedInWords();
        }
        return Words.say(
                measured.headingNotFlown() > 0
                        ? "never on the assigned heading, up to %.0f degrees off it"
                        : "up to %.0f degrees off the assigned heading",
                Math.max(Math.abs(began.errorDeg()), measured.heading.excess().worst()));
    }

    private Optional<Fault> notAchieved(FlightEvent.AmendmentNotAchieved not) {
        if (besideNext() && not.leftShare().isEmpty()) {
            return fault(
                            not,
                            measured.missedSeverity(),
                            "the amendment was not completed: %s, and went along %.1f NM beside it",
                            not.reason(),
                            measured.fix.besideNextNm())
                    .map(fault -> fault.practising(
                            "look where the turn has ended, and cut back to the course at once, with 30 degrees"));
        }
        Optional<Fault> fault = fault(
                not,
                measured.missedSeverity(),
                "the amendment was not completed: %s",
                measured.headingMissed() && !measured.firstTurn.neverBegun()
                        ? measured.firstTurn.missedInWords()
                        : measured.notGoneOnFrom()
                                .map(ident -> "passed " + ident + " and did not go on from it as cleared")
                                .orElse(not.reason()));
        return not.leftShare().isEmpty()
                ? fault
                : fault.map(each ->
                        each.practising("begin the change of altitude or speed when you have read it back, and keep"
                                + " it in the scan until it is reached"));
    }

    private Optional<Fault> notDirect(FlightEvent.DirectNotTakenUp direct) {
        boolean own = route.flatMap(AmendedRoute::filedLegInstead).isPresent();
        String late = own
                ? "took up the way back late: went neither direct to %s nor onto the filed leg to it"
                : "took up the direct to %s late: did not go there";
        String never = own ? "went neither direct to %s nor onto the filed leg to it" : "did not go direct to %s";
        OptionalDouble lateS = measured.directLateS();
        String what = Words.say(lateS.isPresent() ? late : never, direct.ident());
        String until = lateS.isPresent() ? Words.say(" until %.0f s after the clearance", lateS.getAsDouble()) : "";
        double severity = measured.missedSeverity();
        double farNm = measured.line.farNm();
        return fault(direct, severity, "%s%s, up to %.2f NM beside the course to it", what, until, farNm);
    }

    private Optional<Fault> wrongTurn(FlightEvent.WrongTurn wrong) {
        FixMeasures fix = measured.fix;
        return fix.roundAgain()
                ? fault(
                                wrong,
                                fix.wrongSeverity(),
                                "went round again at %s and did not go on from it as cleared",
                                wrong.ident())
                        .map(
                                fault -> fault.practising(
                                        "when you are cleared onward in a hold, say the course from the fix, and turn to it there"))
                : fault(
                        wrong,
                        fix.wrongSeverity(),
                        fix.turnedPast()
                                ? "turned at %s on past the course from it, by %.0f degrees"
                                : "turned the wrong way at %s, by %.0f degrees",
                        wrong.ident(),
                        Math.max(30, fix.wrongDeg()));
    }

    private Optional<Fault> otherWay(FlightEvent.TurnedOtherWay turned) {
        return fault(
                        turned,
                        measured.firstTurn.otherSeverity(),
                        "turned %s, cleared %s, by %.0f degrees",
                        turned.toTheRight() ? "right" : "left",
                        turned.toTheRight() ? "left" : "right",
                        measured.firstTurn.otherDeg())
                .map(fault -> fault.practising(
                        "say the side aloud with the heading when you read it back, and turn to that side, also where it is the"
                                + " long way round"));
    }

    /** The arc that was left by what the DME shows, and not by a turn off it. */
    private Optional<Leg.DmeArc> arc(FlightEvent.RouteLeft left) {
        double limitNm = measured.line.pastLimitNm();
        return route.stream()
                .flatMap(amended -> amended.legs().stream())
                .filter(leg -> leg.endsAt()
                        .filter(fix -> fix.ident().equals(left.ident()))
                        .isPresent())
                .flatMap(leg -> leg instanceof Leg.DmeArc arc ? Stream.of(arc) : Stream.empty())
                .findFirst()
                .filter(arc -> Math.abs(left.crossTrackNm()) > limitNm
                        || (measured.line.offNm() > limitNm && measured.line.offNm() <= 2 * limitNm));
    }

    private static String flewArc(double rightNm, Leg.DmeArc arc) {
        // Right of the course is toward the station where the arc goes clockwise.
        double outwardNm = arc.path().clockwise() ? -rightNm : rightNm;
        return Words.say("flew the arc at %.1f DME, cleared %.0f", arc.distanceNm() + outwardNm, arc.distanceNm());
    }

    private String besideArc(FlightEvent.RouteLeft left, Leg.DmeArc arc) {
        double offNm = Math.max(Math.abs(left.crossTrackNm()), measured.line.offNm());
        return flewArc(Math.copySign(offNm, left.crossTrackNm()), arc) + ", with no clearance for it";
    }

    /**
     * Half of it for how far, half for how long after the line the turn began; that half no more than how far: met at a small
     * angle the line is soon long behind, and hardly left.
     */
    private static double throughSeverity(LineMeasures line) {
        double far = Fault.severity(line.farNm(), line.pastLimitNm());
        return far / 2 + Math.min(far, Fault.severity(line.turnedAfterS(), 10)) / 2;
    }

    /** A sample is at most so long before or after the event that it belongs to, seconds. */
    private static final double NEAR_S = 6;

    /** None where this excursion did not last. */
    private static Optional<Fault> excess(FlightEvent event, Excess excess, String what) {
        return excess.seconds() <= 0 || event.timeS() < excess.fromS() - NEAR_S
                ? Optional.empty()
                : fault(event, excess.severity(), what, excess.worst(), excess.seconds());
    }

    private static Optional<Fault> fault(FlightEvent event, double severity, String what, Object... values) {
        return event.kind().fault().map(code -> Fault.of(code, event.timeS(), Words.say(what, values), severity));
    }

    /** How early the turn was to begin, as worked out when the clearance was heard. */
    private String lead() {
        return route.flatMap(AmendedRoute::intercept)
                .filter(plan -> plan.leadNm() > 0 && plan.minutes() > 0)
                .map(FaultFinder::lead)
                .orElse("");
    }

    private static String lead(Intercept plan) {
        return Words.say(
                "; the turn was to begin %.2f NM, %.0f s, before it",
                plan.standardTurnLeadNm(), plan.standardTurnLeadNm() / plan.distanceNm() * plan.minutes() * 60);
    }
}
