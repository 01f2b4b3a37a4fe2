package org.rejoin.console.grade;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Intercept;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.console.log.EventText;

/** The faults that follow from the events of a flight. */
final class FaultList {

    private final List<Grader.Judged> judged;

    /** The faults of a flight whose events are in order of time. */
    FaultList(List<Grader.Judged> judged) {
        this.judged = judged;
    }

    /** In order of time. */
    List<Fault> faults() {
        List<Fault> faults = new ArrayList<>();
        boolean flownThrough = false;
        for (int i = 0; i < judged.size(); i++) {
            FlightEvent event = judged.get(i).event();
            Optional<Intercept> intercept = judged.get(i).route().flatMap(AmendedRoute::intercept);
            // One passage of the line is one fault: flown through, or overshot.
            flownThrough = event instanceof FlightEvent.FlownThrough
                    || (flownThrough && !(event instanceof FlightEvent.ClearanceIssued));
            if (event instanceof FlightEvent.FlownThrough through) {
                add(
                        faults,
                        Fault.Code.FLOWN_THROUGH,
                        event,
                        "crossed the line and did not turn; %.2f NM past it ten seconds later%s",
                        Math.abs(through.crossTrackNm()),
                        lead(intercept));
            } else if (event instanceof FlightEvent.WrongDirection wrong) {
                add(
                        faults,
                        Fault.Code.WRONG_DIRECTION,
                        event,
                        "flew track %s instead of %s",
                        EventText.magnetic(wrong.trackTrueDeg(), judged.get(i).route()),
                        EventText.course(wrong.courseTrueDeg(), judged.get(i).route()));
            } else if (event instanceof FlightEvent.TurnedEarly early) {
                add(
                        faults,
                        Fault.Code.TURNED_EARLY,
                        event,
                        "rolled out parallel, %.2f NM short of the line%s",
                        Math.abs(early.crossTrackNm()),
                        lead(intercept));
            } else if (event instanceof FlightEvent.WrongTurn wrong) {
                add(faults, Fault.Code.WRONG_TURN, event, "turned the wrong way at %s", wrong.ident());
            } else if (event instanceof FlightEvent.SequenceMissed missed) {
                add(
                        faults,
                        Fault.Code.SEQUENCE_MISSED,
                        event,
                        "still on the old course 30 s after passing %s",
                        missed.ident());
            } else if (event instanceof FlightEvent.Weaving weaving) {
                add(
                        faults,
                        Fault.Code.WEAVING,
                        event,
                        "crossed the course %d times in three minutes with swings of %.0f degrees",
                        weaving.crossings(),
                        weaving.swingDeg());
            } else if (event instanceof FlightEvent.HeadingDeviationBegan off) {
                add(
                        faults,
                        Fault.Code.HEADING_NOT_HELD,
                        event,
                        "%.0f degrees off the assigned heading for more than 10 s",
                        Math.abs(off.errorDeg()));
            } else if (event instanceof FlightEvent.AltitudeDeviationBegan) {
                double lasted = deviationS(i, FlightEvent.AltitudeDeviationEnded.class);
                if (lasted > FlightMeasures.ALTITUDE_HELD_S) {
                    add(
                            faults,
                            Fault.Code.ALTITUDE_NOT_HELD,
                            event,
                            "more than 100 ft off the assigned altitude for %.0f s",
                            lasted);
                }
            } else if (event instanceof FlightEvent.SpeedDeviationBegan) {
                double lasted = deviationS(i, FlightEvent.SpeedDeviationEnded.class);
                if (lasted > FlightMeasures.SPEED_HELD_S) {
                    add(
                            faults,
                            Fault.Code.SPEED_NOT_HELD,
                            event,
                            "more than 10 kt off the assigned speed for %.0f s",
                            lasted);
                }
            } else if (event instanceof FlightEvent.Overshoot over
                    && over.maxCrossTrackNm() > judged.get(i).overshootLimitNm()
                    && !flownThrough) {
                add(
                        faults,
                        Fault.Code.OVERSHOOT,
                        event,
                        "carried %.2f NM past the line%s",
                        over.maxCrossTrackNm(),
                        lead(intercept));
            } else if (event instanceof FlightEvent.AmendmentNotAchieved open) {
                add(faults, Fault.Code.NOT_ACHIEVED, event, "the amendment was not completed: %s", open.reason());
            }
        }
        return faults;
    }

    /** How early the turn was to begin, as worked out when the clearance was heard. */
    private static String lead(Optional<Intercept> intercept) {
        return intercept
                .filter(plan -> plan.leadNm() > 0 && plan.minutes() > 0)
                .map(plan -> String.format(
                        Locale.ROOT,
                        "; the turn was to begin %.2f NM, %.0f s, before it",
                        plan.leadNm(),
                        plan.leadNm() / plan.distanceNm() * plan.minutes() * 60))
                .orElse("");
    }

    /** How long a deviation lasted, without the time the simulation stood still. */
    private double deviationS(int began, Class<? extends FlightEvent> end) {
        double fromS = judged.get(began).event().timeS();
        double pausedS = 0;
        double pausedFromS = Double.NaN;
        for (Grader.Judged later : judged.subList(began + 1, judged.size())) {
            FlightEvent event = later.event();
            if (event instanceof FlightEvent.SimPaused) {
                pausedFromS = event.timeS();
            } else if (event instanceof FlightEvent.SimResumed && !Double.isNaN(pausedFromS)) {
                pausedS += event.timeS() - pausedFromS;
                pausedFromS = Double.NaN;
            } else if (end.isInstance(event)) {
                return (Double.isNaN(pausedFromS) ? event.timeS() : pausedFromS) - fromS - pausedS;
            }
        }
        double endS = judged.get(judged.size() - 1).event().timeS();
        return (Double.isNaN(pausedFromS) ? endS : pausedFromS) - fromS - pausedS;
    }

    private static void add(List<Fault> faults, Fault.Code code, FlightEvent event, String what, Object... values) {
        faults.add(new Fault(
                code,
                event.timeS(),
                String.format(Locale.ROOT, what, values) + ". Practise: " + code.practise() + "."));
    }
}
