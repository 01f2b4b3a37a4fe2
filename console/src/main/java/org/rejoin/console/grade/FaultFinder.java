package org.rejoin.console.grade;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Intercept;
import org.rejoin.console.words.RouteWords;
import org.rejoin.console.words.Words;

/**
 * The faults of one amendment: one of a kind, weighed by size and time. What follows from an earlier mistake is told in a
 * note and does not count.
 */
final class FaultFinder {

    private final List<Entry.Happened> happened;
    private final Optional<AmendedRoute> route;
    private final AmendmentGrader measured;
    private final List<String> notes;

    FaultFinder(List<Entry.Happened> happened, AmendedRoute route, AmendmentGrader measured, List<String> notes) {
        this.happened = happened;
        this.route = Optional.of(route);
        this.measured = measured;
        this.notes = notes;
    }

    List<Fault> faults() {
        List<Fault> faults = new ArrayList<>();
        Set<FaultCode> told = EnumSet.noneOf(FaultCode.class);
        for (Entry.Happened entry : happened) {
            Optional<Fault> fault = entry.event().kind().fault().flatMap(code -> fault(code, entry.event()));
            if (fault.isEmpty() || !told.add(fault.get().code())) {
                continue;
            }
            if (entry.follows()) {
                told.remove(fault.get().code());
                notes.add(words(fault.get().code()) + " at " + Words.clock(entry.timeS())
                        + " follows from the mistake before it and does not count");
            } else {
                faults.add(fault.get());
            }
        }
        return faults;
    }

    private static String words(FaultCode code) {
        return code.name().replace('_', ' ').toLowerCase(Locale.ROOT);
    }

    /** Empty where it is not large or long enough. */
    private Optional<Fault> fault(FaultCode code, FlightEvent event) {
        LineMeasures line = measured.line();
        FixMeasures fix = measured.fix();
        return switch (code) {
            case FLOWN_THROUGH ->
                fault(
                        event,
                        // Half of it for how far, half for how long after the line the turn began.
                        Severity.of(line.farNm(), line.pastLimitNm()) / 2 + Severity.of(line.turnedAfterS(), 10) / 2,
                        "crossed the line and did not turn in time; %.2f NM past it%s",
                        line.farNm(),
                        lead());
            case WRONG_DIRECTION -> {
                FlightEvent.WrongDirection wrong = (FlightEvent.WrongDirection) event;
                yield fault(
                        event,
                        Severity.of(line.reciprocalS(), LineMeasures.RECIPROCAL_S),
                        "flew track %s instead of %s for %.0f s",
                        RouteWords.magnetic(wrong.trackTrueDeg(), route),
                        RouteWords.course(wrong.courseTrueDeg(), route),
                        line.reciprocalS());
            }
            case TURNED_EARLY -> {
                double shortNm = Math.abs(((FlightEvent.TurnedEarly) event).crossTrackNm());
                yield fault(
                        event,
                        Math.min(
                                Severity.of(shortNm, line.scaleNm() / 2),
                                Severity.of(line.parallelS(), LineMeasures.PARALLEL_S)),
                        "rolled out parallel, %.2f NM short of the line%s",
                        shortNm,
                        lead());
            }
            case WRONG_TURN ->
                fault(
                        event,
                        Severity.of(fix.wrongDeg(), 30),
                        "turned the wrong way at %s, by %.0f degrees",
                        ((FlightEvent.WrongTurn) event).ident(),
                        Math.max(30, fix.wrongDeg()));
            case SEQUENCE_MISSED ->
                fault(
                        event,
                        Severity.of(fix.missedS(), FixMeasures.MISSED_S),
                        "still on the old course %.0f s after passing %s",
                        fix.missedS(),
                        ((FlightEvent.SequenceMissed) event).ident());
            case ROUTE_LEFT -> {
                FlightEvent.RouteLeft left = (FlightEvent.RouteLeft) event;
                yield fault(
                        event,
                        fix.leftSeverity(),
                        "left the cleared route %.1f NM %s %s, with no clearance for it",
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
                fault(
                        event,
                        measured.heading().excess().severity(measured.heading().largest()),
                        "up to %.0f degrees off the assigned heading",
                        Math.max(
                                Math.abs(((FlightEvent.HeadingDeviationBegan) event).errorDeg()),
                                measured.heading().excess().worst()));
            case ALTITUDE_NOT_HELD ->
                excess(
                        event,
                        measured.altitude().excess(),
                        "up to %.0f ft off the assigned altitude, more than 100 for %.0f s");
            case SPEED_NOT_HELD ->
                excess(
                        event,
                        measured.speed().excess(),
                        "up to %.0f kt off the assigned speed, more than 10 for %.0f s");
            case OVERSHOOT -> {
                double pastNm = ((FlightEvent.Overshoot) event).maxCrossTrackNm();
                yield pastNm <= line.pastLimitNm()
                        ? Optional.empty()
                        : fault(
                                event,
                                Severity.of(pastNm, line.pastLimitNm()),
                                "carried %.2f NM past the line%s",
                                pastNm,
                                lead());
            }
            case HOLD_WRONG_SIDE ->
                fault(
                        event,
                        measured.hold().wrongSeverity(),
                        "turned to the wrong side of the hold at %s, by %.0f degrees",
                        ((FlightEvent.HoldWrongSide) event).ident(),
                        measured.hold().wrongDeg());
            case HOLD_NOT_ENTERED -> {
                FlightEvent.HoldNotEntered missed = (FlightEvent.HoldNotEntered) event;
                yield fault(
                        event,
                        Severity.of(measured.hold().missedS(), missed.afterS()),
                        "flew on past %s for %.0f s and did not enter the hold",
                        missed.ident(),
                        measured.hold().missedS());
            }
            case CROSSING_MISSED -> {
                FlightEvent.Crossing crossed = (FlightEvent.Crossing) event;
                double off = Math.abs(crossed.errorFt());
                yield off <= CrossingMeasures.FAULT_FT
                        ? Optional.empty()
                        : fault(
                                event,
                                Severity.of(off, CrossingMeasures.FAULT_FT),
                                "crossed %s %.0f ft %s",
                                crossed.ident(),
                                off,
                                crossed.errorFt() < 0 ? "low" : "high");
            }
            case NOT_ACHIEVED ->
                event instanceof FlightEvent.DirectNotTakenUp direct
                        ? fault(
                                event,
                                measured.missedSeverity(),
                                "did not go direct to %s, up to %.2f NM beside the course to it",
                                direct.ident(),
                                line.farNm())
                        : fault(
                                event,
                                measured.missedSeverity(),
                                "the amendment was not completed: %s",
                                ((FlightEvent.AmendmentNotAchieved) event).reason());
        };
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
                plan.leadNm(), plan.leadNm() / plan.distanceNm() * plan.minutes() * 60);
    }
}
