package org.rejoin.bridge.flight;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.route.Holding;

/**
 * Something that happened to the flight, at the instant it happened rather than at the next sample. This file is the
 * catalogue of events. The kind of an event has the name of its record, and a field of the log that of a component: so
 * none can be left out of the log.
 *
 * <p>Times and durations are seconds. An {@code ident} is that of the fix. Distances from a line are positive to the right of
 * its course, nautical miles; an error is what was flown less what is assigned, of a direction positive to the right.
 * {@code back} is false where a new clearance, a move or the end of the flight closed a deviation; {@code reason} says what
 * had not been done.
 */
public sealed interface FlightEvent {

    /** {@return when it happened; seconds since the first sample, located between samples} */
    double timeS();

    /** {@return what it is an instance of, its row in the table of kinds} */
    default EventKind kind() {
        return EventForm.of(this).kind();
    }

    /** {@return name in the log, lower case with underscores} */
    default String name() {
        return kind().logName();
    }

    /** Writes the fields in the order of the log, but for those that are empty. */
    default void writeTo(Fields out) {
        EventForm.of(this).write(this, out);
    }

    /** Takes the fields of an event, for a log line, a page or a report. */
    interface Fields {
        /** A number. */
        Fields number(String field, double value);

        /** A text. */
        Fields text(String field, String value);

        /** Yes or no. */
        Fields flag(String field, boolean value);
    }

    /** The first sample. */
    record FlightBegan(double timeS) implements FlightEvent {}

    /** A clearance was spoken; with an altitude that stands beside its text, feet above mean sea level. */
    record ClearanceIssued(double timeS, String text, OptionalDouble altitudeFt) implements FlightEvent {}

    /** A clearance stands as cleared before, because the one after it was taken back. It is not spoken again. */
    record ClearanceAsBefore(double timeS, String text, OptionalDouble altitudeFt) implements FlightEvent {}

    /** The assigned heading was taken up. */
    record HeadingEstablished(double timeS, double assignedMagneticDeg) implements FlightEvent {}

    /** Off the assigned heading for longer than allowed. */
    record HeadingDeviationBegan(double timeS, double errorDeg) implements FlightEvent {}

    /** Back on the assigned heading; the error is the largest of the deviation. */
    record HeadingDeviationEnded(double timeS, double errorDeg, boolean back) implements FlightEvent {}

    /** Established on the course to intercept, which was closed on at an angle of [0, 180]. */
    record InterceptAchieved(double timeS, double courseTrueDeg, double angleDeg, double crossTrackNm)
            implements FlightEvent {}

    /** Cleared direct to a fix and, long after that was due, still beside the course to it. */
    record DirectNotTakenUp(double timeS, String ident, double crossTrackNm) implements FlightEvent {}

    /** The line was crossed at an angle between track and course, [0, 180]. */
    record CourseCrossed(double timeS, double angleDeg) implements FlightEvent {}

    /**
     * Carried so far past the line and came back to it, established so long after the crossing; empty if it never was.
     */
    record Overshoot(double timeS, double maxCrossTrackNm, OptionalDouble settledAfterS) implements FlightEvent {}

    /** Crossed the line and did not turn toward the course; where it was at the end of the time allowed. */
    record FlownThrough(double timeS, double crossTrackNm) implements FlightEvent {}

    /** Left the limits of the course. */
    record CourseDeviationBegan(double timeS, double crossTrackNm, double limitNm) implements FlightEvent {}

    /** Back inside the limits of the course; the distance is the largest of the deviation. */
    record CourseDeviationEnded(double timeS, double crossTrackNm, double limitNm, boolean back)
            implements FlightEvent {}

    /** Rolled out parallel to the course without reaching it. */
    record TurnedEarly(double timeS, double crossTrackNm) implements FlightEvent {}

    /** On the line, flying the reciprocal. */
    record WrongDirection(double timeS, double trackTrueDeg, double courseTrueDeg) implements FlightEvent {}

    /** Tracked something else than the cleared course. */
    sealed interface TrackedInstead extends FlightEvent {

        /** What was tracked and what was cleared, the course by its name, as a part of a sentence. */
        String insteadOf(String cleared);
    }

    /**
     * Tracked steadily for a minute, which ends at the time of the event, in place of the cleared course: another
     * radial of its station, or the radial of the same number of another station.
     */
    record OtherCourseTracked(double timeS, String station, double radialDeg) implements TrackedInstead {

        @Override
        public String insteadOf(String cleared) {
            return String.format(
                    Locale.ROOT,
                    "tracked the %s %s radial; the clearance was %s",
                    station,
                    Angles.figures(radialDeg),
                    cleared);
        }
    }

    /** Established on another airway of the chart than the cleared course. */
    record OtherAirwayJoined(double timeS, String ident) implements TrackedInstead {

        @Override
        public String insteadOf(String cleared) {
            return "joined " + ident + "; the clearance was " + cleared;
        }
    }

    /**
     * Turned to the other side than ATC ordered.
     *
     * @param ordered left or right
     * @param turnedDeg so far the other way
     * @param wholeDeg how far it is the other way round to what was ordered
     */
    record TurnedOtherWay(double timeS, Instruction.TurnDirection ordered, double turnedDeg, double wholeDeg)
            implements FlightEvent {

        /** {@return whether the turn that was made went to the right} */
        public boolean toTheRight() {
            return ordered == Instruction.TurnDirection.LEFT;
        }
    }

    /** Turned the opposite way at the end of a leg. */
    record WrongTurn(double timeS, String ident, @Unlogged Optional<Instruction.TurnDirection> turned)
            implements FlightEvent {

        /** Marks what the words of an event need and its form in the log does not have. */
        @Retention(RetentionPolicy.RUNTIME)
        @Target(ElementType.RECORD_COMPONENT)
        @interface Unlogged {}
    }

    /** Past the fix where the route turns and still on the old course. */
    record SequenceMissed(double timeS, String ident) implements FlightEvent {}

    /**
     * Crossed the course again and again with large heading swings.
     *
     * @param crossings within three minutes, 3 or more
     * @param swingDeg largest heading swing between crossings, degrees
     * @param times how many times what makes a weave the least of these swings was, in degrees and in distance off the
     *     course, whichever was less; more than 1
     */
    record Weaving(double timeS, int crossings, double swingDeg, double times) implements FlightEvent {}

    /** Left the assigned altitude. */
    record AltitudeDeviationBegan(double timeS, double errorFt) implements FlightEvent {}

    /** Back at the assigned altitude; the error is the largest of the deviation. */
    record AltitudeDeviationEnded(double timeS, double errorFt, boolean back) implements FlightEvent {}

    /** Left the assigned speed. */
    record SpeedDeviationBegan(double timeS, double errorKt) implements FlightEvent {}

    /** Back at the assigned speed; the error is the largest of the deviation. */
    record SpeedDeviationEnded(double timeS, double errorKt, boolean back) implements FlightEvent {}

    /** Passed a fix of the route at a distance, by the bisector of its legs or abeam. */
    record FixSequenced(double timeS, String ident, boolean computed, double lateralNm) implements FlightEvent {}

    /**
     * The turn at a fix was made: as it was flown, against the turn that is led by R tan(turn / 2) at standard rate.
     *
     * @param timeS seconds since the first sample, of rolling out on the new course
     * @param beganNm along the old course from where the turn began to the fix, nautical miles; negative beyond it
     * @param leadNm what the lead should have been at the ground speed of the turn, nautical miles
     * @param lateS how much too late it began, seconds; negative if too early
     * @param outsideNm largest distance beyond the new course, on the outside of the turn, nautical miles, 0 or more
     * @param insideNm distance from the new course on rolling out, on the inside of the turn, nautical miles, 0 or more
     * @param inFlyByArea whether both are within the margin of {@link Rule.Overshoot#limitNm(double)}
     */
    record TurnAtFix(
            double timeS,
            String ident,
            boolean computed,
            double beganNm,
            double leadNm,
            double lateS,
            double outsideNm,
            double insideNm,
            boolean inFlyByArea)
            implements FlightEvent {}

    /** Established on the airway in the right direction, toward its next fix. */
    record AirwayJoined(double timeS, String airway, String toward) implements FlightEvent {}

    /** Established on a leg of the filed route. */
    record RouteResumed(double timeS) implements FlightEvent {}

    /** All that was cleared has been done. */
    record AmendmentComplete(double timeS) implements FlightEvent {}

    /** The next clearance came before this amendment was complete. */
    record AmendmentReplaced(double timeS, String reason) implements FlightEvent {}

    /**
     * What was due of the amendment was not done by the end; or an altitude or a speed was not reached, and is waited
     * for no longer.
     *
     * @param leftShare how much of the change of altitude or speed was not made, (0, 1]; empty where it is something
     *     else
     */
    record AmendmentNotAchieved(double timeS, String reason, OptionalDouble leftShare) implements FlightEvent {}

    /** The controller took the amendment back before it was complete. */
    record AmendmentCancelled(double timeS, String reason) implements FlightEvent {}

    /** The flight, or the attempt, ended before all of the amendment could have been done: the rest is not judged. */
    record AmendmentNotDue(double timeS, String reason) implements FlightEvent {}

    /** The exercise is over: what follows is not graded. */
    record GradedPartEnded(double timeS) implements FlightEvent {}

    /**
     * Samples stopped for so long, which is known once they come again: more than until {@link FeedResumed} where the
     * simulator stood or was started again meanwhile.
     */
    record FeedLost(double timeS, double gapS) implements FlightEvent {}

    /** Samples came again. */
    record FeedResumed(double timeS, double gapS) implements FlightEvent {}

    /** The simulation stood still. */
    record SimPaused(double timeS, Reason reason) implements FlightEvent {

        /** How a pause is noticed. */
        public enum Reason {
            /** The sender says so. */
            FLAG,
            /** The same position again and again, though the aircraft was flying. */
            STANDING_STILL
        }
    }

    /** The simulation went on. */
    record SimResumed(double timeS) implements FlightEvent {}

    /** A jump that no aircraft can make. */
    record Repositioned(double timeS, double jumpNm) implements FlightEvent {}

    /** The last sample. */
    record FlightEnded(double timeS) implements FlightEvent {}

    /** A clearance was due and could not be issued from where the aircraft was. */
    record ClearanceNotIssued(double timeS, String text, String reason) implements FlightEvent {}

    /** The pilot asked to hear a clearance again; the first issued is number 1. */
    record SaidAgain(double timeS, int n) implements FlightEvent {}

    /**
     * The pilot read a clearance back.
     *
     * @param n number of the clearance, 1 for the first issued
     * @param how heard, tapped, typed; marked where the instructor changed the marks of one
     * @param outcome right, wrong or unclear
     * @param marks each element with its verdict, in the order cleared
     * @param copyS from the clearance to the begin of the readback, seconds; empty where not measured
     * @param readS from its begin to its end, seconds; empty where not measured
     */
    record ReadBack(
            double timeS, int n, String how, String outcome, String marks, OptionalDouble copyS, OptionalDouble readS)
            implements FlightEvent {}

    /** Left the cleared route on the leg to a fix before the lead of its end, with no clearance for it. */
    record RouteLeft(double timeS, String ident, double crossTrackNm, double toGoNm) implements FlightEvent {}

    /**
     * Entered the hold: past the fix and outbound.
     *
     * @param bySector whether it is the one for the heading on arrival, or the other one near a boundary
     */
    record HoldEntered(double timeS, String ident, Holding.Entry entry, boolean bySector) implements FlightEvent {}

    /**
     * Flew an inbound leg of the hold, up to the fix.
     *
     * @param n the first is 1
     * @param seconds from the end of the turn inbound to the fix; empty where one of them was not seen
     * @param outboundNm where the legs are a distance, how far out the turn to it began: as the DME or the distance
     *     along the inbound course shows it, whichever is nearer to what was said; empty where that was not seen
     * @param turnedS when it began, seconds since the first sample; empty where the one before is
     */
    record HoldInbound(
            double timeS,
            String ident,
            int n,
            OptionalDouble seconds,
            OptionalDouble outboundNm,
            OptionalDouble turnedS)
            implements FlightEvent {}

    /** Turned to the side of the hold that is not for it. */
    record HoldWrongSide(double timeS, String ident) implements FlightEvent {}

    /** Flew on past the fix to hold at, so far from it so long after passing it. */
    record HoldNotEntered(double timeS, String ident, double afterS, double distanceNm) implements FlightEvent {}

    /**
     * Left the hold.
     *
     * @param afterEfcS how long after the time of further clearance, seconds, negative before it; empty where none is
     *     known
     */
    record HoldLeft(double timeS, String ident, boolean cleared, OptionalDouble afterEfcS) implements FlightEvent {}

    /**
     * Passed a place with an altitude to have there.
     *
     * @param ident the fix, or the place in words: "10 NM west of" it
     * @param altitudeFt above mean sea level
     * @param errorFt altitude less the one to have; 0 on a side that is allowed
     */
    record Crossing(double timeS, String ident, double altitudeFt, double errorFt) implements FlightEvent {}

    /**
     * The place is passed at which the clearance assigns another altitude or speed: that one is in force from here.
     *
     * @param passed in words, for example "passing PRION"
     * @param altitudeFt above mean sea level; empty where it is a speed
     * @param speedKt indicated; empty where it is an altitude, or no speed is assigned any more
     */
    record ChangeOver(double timeS, String passed, OptionalDouble altitudeFt, OptionalDouble speedKt)
            implements FlightEvent {}
}
