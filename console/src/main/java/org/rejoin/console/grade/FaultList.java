package org.rejoin.console.grade;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import org.rejoin.bridge.tracker.Limits;
import org.rejoin.bridge.tracker.TrackerEvent;

/** The faults that follow from the events of a flight. */
final class FaultList {

    /** An altitude error counts when it lasts this long, seconds (fixed by the project's contract). */
    static final double ALTITUDE_HELD_S = 5;

    /** Less than this off the heading is no fault, degrees (fixed by the project's contract). */
    private static final double HEADING_FAULT_DEG = 10;

    /** Less than this off the altitude is no fault, feet (fixed by the project's contract). */
    private static final double ALTITUDE_FAULT_FT = 100;

    private final List<TrackerEvent> events;
    private final List<Double> overshootLimitsNm;
    private final double altitudeFt;
    private final boolean headingFault;
    private final boolean altitudeFault;

    /**
     * The faults of a flight.
     *
     * @param events in order of time
     * @param overshootLimitsNm for each event the distance past the line from which an overshoot would be a fault there
     * @param limits in force; stricter ones than a fault's own make a criterion fail, not a fault
     * @param heldHeadingDeg largest heading error that was held
     * @param heldAltitudeFt largest altitude error that was held
     */
    FaultList(
            List<TrackerEvent> events,
            List<Double> overshootLimitsNm,
            Limits limits,
            double heldHeadingDeg,
            double heldAltitudeFt) {
        this.events = events;
        this.overshootLimitsNm = overshootLimitsNm;
        this.altitudeFt = limits.altitudeFt();
        this.headingFault = limits.headingDeg() >= HEADING_FAULT_DEG || heldHeadingDeg > HEADING_FAULT_DEG;
        this.altitudeFault = limits.altitudeFt() >= ALTITUDE_FAULT_FT || heldAltitudeFt > ALTITUDE_FAULT_FT;
    }

    /** In order of time. */
    List<Fault> faults() {
        List<Fault> faults = new ArrayList<>();
        boolean flownThrough = false;
        for (int i = 0; i < events.size(); i++) {
            TrackerEvent event = events.get(i);
            // One passage of the line is one fault: flown through, or overshot.
            flownThrough = event instanceof TrackerEvent.FlownThrough
                    || (flownThrough && !(event instanceof TrackerEvent.ClearanceIssued));
            if (event instanceof TrackerEvent.FlownThrough through) {
                add(
                        faults,
                        Fault.Code.FLOWN_THROUGH,
                        event,
                        "crossed the line and did not turn; %.2f NM past it ten" + " seconds later",
                        Math.abs(through.crossTrackNm()));
            } else if (event instanceof TrackerEvent.WrongDirection wrong) {
                add(
                        faults,
                        Fault.Code.WRONG_DIRECTION,
                        event,
                        "flew track %03.0f true on a course of %03.0f true",
                        wrong.trackTrueDeg(),
                        wrong.courseTrueDeg());
            } else if (event instanceof TrackerEvent.TurnedEarly early) {
                add(
                        faults,
                        Fault.Code.TURNED_EARLY,
                        event,
                        "rolled out parallel, %.2f NM short of the line",
                        Math.abs(early.crossTrackNm()));
            } else if (event instanceof TrackerEvent.WrongTurn wrong) {
                add(faults, Fault.Code.WRONG_TURN, event, "turned the wrong way at %s", wrong.ident());
            } else if (event instanceof TrackerEvent.SequenceMissed missed) {
                add(
                        faults,
                        Fault.Code.SEQUENCE_MISSED,
                        event,
                        "still on the old course 30 s after passing %s",
                        missed.ident());
            } else if (event instanceof TrackerEvent.Weaving weaving) {
                add(
                        faults,
                        Fault.Code.WEAVING,
                        event,
                        "crossed the course %d times in three minutes with swings of" + " %.0f degrees",
                        weaving.crossings(),
                        weaving.swingDeg());
            } else if (event instanceof TrackerEvent.HeadingDeviationBegan off && headingFault) {
                add(
                        faults,
                        Fault.Code.HEADING_NOT_HELD,
                        event,
                        "%.0f degrees off the assigned heading for more than 10" + " s",
                        Math.abs(off.errorDeg()));
            } else if (event instanceof TrackerEvent.AltitudeDeviationBegan && altitudeFault) {
                double lasted = altitudeDeviationS(i);
                if (lasted > ALTITUDE_HELD_S) {
                    add(
                            faults,
                            Fault.Code.ALTITUDE_NOT_HELD,
                            event,
                            "more than %.0f ft off the assigned altitude for" + " %.0f s",
                            altitudeFt,
                            lasted);
                }
            } else if (event instanceof TrackerEvent.Overshoot over
                    && over.maxCrossTrackNm() > overshootLimitsNm.get(i)
                    && !flownThrough) {
                add(faults, Fault.Code.OVERSHOOT, event, "carried %.2f NM past the line", over.maxCrossTrackNm());
            } else if (event instanceof TrackerEvent.AmendmentNotAchieved open) {
                add(faults, Fault.Code.NOT_ACHIEVED, event, "the amendment was not completed: %s", open.reason());
            }
        }
        return faults;
    }

    /** How long a deviation lasted, without the time the simulation stood still. */
    private double altitudeDeviationS(int began) {
        double fromS = events.get(began).timeS();
        double pausedS = 0;
        double pausedFromS = Double.NaN;
        for (TrackerEvent event : events.subList(began + 1, events.size())) {
            if (event instanceof TrackerEvent.SimPaused) {
                pausedFromS = event.timeS();
            } else if (event instanceof TrackerEvent.SimResumed && !Double.isNaN(pausedFromS)) {
                pausedS += event.timeS() - pausedFromS;
                pausedFromS = Double.NaN;
            } else if (event instanceof TrackerEvent.AltitudeDeviationEnded) {
                return (Double.isNaN(pausedFromS) ? event.timeS() : pausedFromS) - fromS - pausedS;
            }
        }
        double endS = events.get(events.size() - 1).timeS();
        return (Double.isNaN(pausedFromS) ? endS : pausedFromS) - fromS - pausedS;
    }

    private static void add(List<Fault> faults, Fault.Code code, TrackerEvent event, String what, Object... values) {
        faults.add(new Fault(
                code,
                event.timeS(),
                String.format(Locale.ROOT, what, values) + ". Practise: " + code.practise() + "."));
    }
}
