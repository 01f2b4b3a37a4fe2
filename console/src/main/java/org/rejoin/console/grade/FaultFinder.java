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
import org.rejoin.console.log.EventText;

/**
 * The faults of one amendment: one of a kind, weighed by size and time. What follows from an earlier mistake is told in a
 * note and does not count.
 */
final class FaultFinder {

    /** After one of these the way back is no fault of its own until the aircraft is established again. */
    private static final Set<FaultCode> LEADING = EnumSet.of(
            FaultCode.FLOWN_THROUGH, FaultCode.WRONG_DIRECTION, FaultCode.WRONG_TURN, FaultCode.ROUTE_LEFT);

    private static final Set<FaultCode> BESIDE_THE_ROUTE = EnumSet.of(
            FaultCode.HEADING_NOT_HELD, FaultCode.ALTITUDE_NOT_HELD, FaultCode.SPEED_NOT_HELD);

    private final List<Entry.Happened> happened;
    private final Optional<AmendedRoute> route;
    private final AmendmentGrader measured;
    private final List<String> notes;

    FaultFinder(
            List<Entry.Happened> happened, AmendedRoute route, AmendmentGrader measured, List<String> notes) {
        this.happened = happened;
        this.route = Optional.of(route);
        this.measured = measured;
        this.notes = notes;
    }

    List<Fault> faults() {
        List<Fault> faults = new ArrayList<>();
        Set<FaultCode> told = EnumSet.noneOf(FaultCode.class);
        boolean wayBack = false;
        for (Entry.Happened entry : happened) {
            FlightEvent event = entry.event();
            if (event instanceof FlightEvent.InterceptAchieved || event instanceof FlightEvent.AirwayJoined) {
                wayBack = false;
            }
            Optional<Fault> fault = fault(event);
            if (fault.isEmpty()) {
                continue;
            }
            FaultCode code = fault.get().code();
            boolean follows = wayBack && !BESIDE_THE_ROUTE.contains(code);
            if (follows && !told.contains(code)) {
                notes.add(words(code) + " at " + EventText.clock(event.timeS())
                        + " follows from the mistake before it and does not count");
            } else if (!follows && told.add(code)) {
                faults.add(fault.get());
            }
            wayBack |= LEADING.contains(code);
        }
        return faults;
    }

    private static String words(FaultCode code) {
        return code.name().replace('_', ' ').toLowerCase(Locale.ROOT);
    }

    private Optional<Fault> fault(FlightEvent event) {
        LineMeasures line = measured.line();
        FixMeasures fix = measured.fix();
        if (event instanceof FlightEvent.FlownThrough) {
            // Half of it for how far, half for how long after the line the turn began.
            double severity = Severity.of(line.farNm(), line.pastLimitNm()) / 2
                    + Math.min(1, Math.max(0, line.turnedAfterS() / 10 - 1)) / 2;
            return fault(
                    event, severity, "crossed the line and did not turn in time; %.2f NM past it%s", line.farNm(), lead());
        } else if (event instanceof FlightEvent.WrongDirection wrong) {
            return fault(
                    event,
                    Severity.of(line.reciprocalS(), 15),
                    "flew track %s instead of %s for %.0f s",
                    EventText.magnetic(wrong.trackTrueDeg(), route),
                    EventText.course(wrong.courseTrueDeg(), route),
                    line.reciprocalS());
        } else if (event instanceof FlightEvent.TurnedEarly early) {
            return fault(
                    event,
                    Severity.of(Math.abs(early.crossTrackNm()), line.scaleNm() / 2),
                    "rolled out parallel, %.2f NM short of the line%s",
                    Math.abs(early.crossTrackNm()),
                    lead());
        } else if (event instanceof FlightEvent.WrongTurn wrong) {
            return fault(
                    event,
                    Severity.of(fix.wrongDeg(), 30),
                    "turned the wrong way at %s, by %.0f degrees",
                    wrong.ident(),
                    Math.max(30, fix.wrongDeg()));
        } else if (event instanceof FlightEvent.SequenceMissed missed) {
            return fault(
                    event,
                    Severity.of(fix.missedS(), FixMeasures.MISSED_S),
                    "still on the old course %.0f s after passing %s",
                    fix.missedS(),
                    missed.ident());
        } else if (event instanceof FlightEvent.RouteLeft left) {
            return fault(
                    event,
                    Severity.of(fix.left(), 1),
                    "left the cleared route %.1f NM before %s, with no clearance for it",
                    left.toGoNm(),
                    left.ident());
        } else if (event instanceof FlightEvent.Weaving weaving) {
            return fault(
                    event,
                    Severity.of(weaving.swingDeg(), 10),
                    "crossed the course %d times in three minutes with swings of %.0f degrees",
                    weaving.crossings(),
                    weaving.swingDeg());
        } else if (event instanceof FlightEvent.HeadingDeviationBegan) {
            return excess(event, measured.headingExcess(), "up to %.0f degrees off the assigned heading, more than 10 for %.0f s");
        } else if (event instanceof FlightEvent.AltitudeDeviationBegan) {
            return excess(event, measured.altitudeExcess(), "up to %.0f ft off the assigned altitude, more than 100 for %.0f s");
        } else if (event instanceof FlightEvent.SpeedDeviationBegan) {
            return excess(event, measured.speedExcess(), "up to %.0f kt off the assigned speed, more than 10 for %.0f s");
        } else if (event instanceof FlightEvent.Overshoot over) {
            return over.maxCrossTrackNm() <= line.pastLimitNm()
                    ? Optional.empty()
                    : fault(
                            event,
                            Severity.of(over.maxCrossTrackNm(), line.pastLimitNm()),
                            "carried %.2f NM past the line%s",
                            over.maxCrossTrackNm(),
                            lead());
        } else if (event instanceof FlightEvent.AmendmentNotAchieved open) {
            return fault(event, measured.missedSeverity(), "the amendment was not completed: %s", open.reason());
        }
        return Optional.empty();
    }

    /** None where no excursion lasted. */
    private static Optional<Fault> excess(FlightEvent event, Excess excess, String what) {
        return excess.seconds() <= 0
                ? Optional.empty()
                : fault(event, excess.severity(), what, excess.worst(), excess.seconds());
    }

    private static Optional<Fault> fault(FlightEvent event, double severity, String what, Object... values) {
        return event.kind()
                .fault()
                .map(code -> Fault.of(code, event.timeS(), String.format(Locale.ROOT, what, values), severity));
    }

    /** How early the turn was to begin, as worked out when the clearance was heard. */
    private String lead() {
        return route.flatMap(AmendedRoute::intercept)
                .filter(plan -> plan.leadNm() > 0 && plan.minutes() > 0)
                .map(FaultFinder::lead)
                .orElse("");
    }

    private static String lead(Intercept plan) {
        return String.format(
                Locale.ROOT,
                "; the turn was to begin %.2f NM, %.0f s, before it",
                plan.leadNm(),
                plan.leadNm() / plan.distanceNm() * plan.minutes() * 60);
    }
}
