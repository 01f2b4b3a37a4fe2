package org.rejoin.bridge.flight;

import java.util.Locale;
import java.util.OptionalDouble;

import org.rejoin.bridge.route.Holding;

/**
 * Something that happened to the flight, at the instant it happened rather than at the next sample. This file is the
 * catalogue of events; every event knows its kind and writes its own fields, so none can be left out of the log.
 */
public sealed interface FlightEvent {

    /**
     * When it happened.
     *
     * @return seconds since the first sample, located between samples
     */
    double timeS();

    /**
     * What it is an instance of.
     *
     * @return its row in the table of kinds
     */
    EventKind kind();

    /**
     * Name in the log.
     *
     * @return lower case with underscores
     */
    default String name() {
        return kind().logName();
    }

    /**
     * Writes the fields in the order of the log.
     *
     * @param out takes them
     */
    void writeTo(Fields out);

    /** Takes the fields of an event, for a log line, a page or a report. */
    interface Fields {
        /**
         * A number.
         *
         * @param field name in the log
         * @param value in the unit the name ends in
         * @return this
         */
        Fields number(String field, double value);

        /**
         * A text.
         *
         * @param field name in the log
         * @param value any
         * @return this
         */
        Fields text(String field, String value);

        /**
         * Yes or no.
         *
         * @param field name in the log
         * @param value any
         * @return this
         */
        Fields flag(String field, boolean value);
    }

    /**
     * The first sample.
     *
     * @param timeS seconds since the first sample
     */
    record FlightBegan(double timeS) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.FLIGHT_BEGAN;
        }

        @Override
        public void writeTo(Fields out) {}
    }

    /**
     * A clearance was spoken.
     *
     * @param timeS seconds since the first sample
     * @param text in the words as said
     */
    record ClearanceIssued(double timeS, String text) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.CLEARANCE_ISSUED;
        }

        @Override
        public void writeTo(Fields out) {
            out.text("text", text);
        }
    }

    /**
     * The assigned heading was taken up.
     *
     * @param timeS seconds since the first sample
     * @param assignedMagneticDeg magnetic, [0, 360)
     */
    record HeadingEstablished(double timeS, double assignedMagneticDeg) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.HEADING_ESTABLISHED;
        }

        @Override
        public void writeTo(Fields out) {
            out.number("assigned_magnetic_deg", assignedMagneticDeg);
        }
    }

    /**
     * Off the assigned heading for longer than allowed.
     *
     * @param timeS seconds since the first sample
     * @param errorDeg heading less assigned heading, degrees, right positive
     */
    record HeadingDeviationBegan(double timeS, double errorDeg) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.HEADING_DEVIATION_BEGAN;
        }

        @Override
        public void writeTo(Fields out) {
            out.number("error_deg", errorDeg);
        }
    }

    /**
     * Back on the assigned heading.
     *
     * @param timeS seconds since the first sample
     * @param errorDeg largest error of the deviation, degrees, right positive
     * @param back whether the aircraft was seen back on the heading; false where a new clearance, a move or the end of the
     *     flight closed the deviation
     */
    record HeadingDeviationEnded(double timeS, double errorDeg, boolean back) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.HEADING_DEVIATION_ENDED;
        }

        @Override
        public void writeTo(Fields out) {
            out.number("error_deg", errorDeg);
            out.flag("back", back);
        }
    }

    /**
     * Established on the course to intercept.
     *
     * @param timeS seconds since the first sample
     * @param courseTrueDeg of the line here, true, [0, 360)
     * @param angleDeg at which it was closed on, degrees, [0, 180]
     * @param crossTrackNm right of course positive, nautical miles
     */
    record InterceptAchieved(double timeS, double courseTrueDeg, double angleDeg, double crossTrackNm)
            implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.INTERCEPT_ACHIEVED;
        }

        @Override
        public void writeTo(Fields out) {
            out.number("course_true_deg", courseTrueDeg);
            out.number("angle_deg", angleDeg);
            out.number("cross_track_nm", crossTrackNm);
        }
    }

    /**
     * The line was crossed at an angle.
     *
     * @param timeS seconds since the first sample
     * @param angleDeg between track and course, degrees, [0, 180]
     */
    record CourseCrossed(double timeS, double angleDeg) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.COURSE_CROSSED;
        }

        @Override
        public void writeTo(Fields out) {
            out.number("angle_deg", angleDeg);
        }
    }

    /**
     * Carried past the line and came back to it.
     *
     * @param timeS seconds since the first sample
     * @param maxCrossTrackNm largest distance on the far side, nautical miles, 0 or more
     * @param settledAfterS from the crossing until established, seconds; empty if it never was
     */
    record Overshoot(double timeS, double maxCrossTrackNm, OptionalDouble settledAfterS) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.OVERSHOOT;
        }

        @Override
        public void writeTo(Fields out) {
            out.number("max_cross_track_nm", maxCrossTrackNm);
            settledAfterS.ifPresent(value -> out.number("settled_after_s", value));
        }
    }

    /**
     * Crossed the line and did not turn toward the course.
     *
     * @param timeS seconds since the first sample
     * @param crossTrackNm at the end of the time allowed, right of course positive, nautical miles
     */
    record FlownThrough(double timeS, double crossTrackNm) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.FLOWN_THROUGH;
        }

        @Override
        public void writeTo(Fields out) {
            out.number("cross_track_nm", crossTrackNm);
        }
    }

    /**
     * Left the limits of the course.
     *
     * @param timeS seconds since the first sample
     * @param crossTrackNm right of course positive, nautical miles
     * @param limitNm nautical miles
     */
    record CourseDeviationBegan(double timeS, double crossTrackNm, double limitNm) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.COURSE_DEVIATION_BEGAN;
        }

        @Override
        public void writeTo(Fields out) {
            out.number("cross_track_nm", crossTrackNm);
            out.number("limit_nm", limitNm);
        }
    }

    /**
     * Back inside the limits of the course.
     *
     * @param timeS seconds since the first sample
     * @param crossTrackNm largest of the deviation, right of course positive, nautical miles
     * @param limitNm nautical miles
     * @param back whether the aircraft was seen back inside the limits; false where a new clearance, a move or the end of the
     *     flight closed the deviation
     */
    record CourseDeviationEnded(double timeS, double crossTrackNm, double limitNm, boolean back)
            implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.COURSE_DEVIATION_ENDED;
        }

        @Override
        public void writeTo(Fields out) {
            out.number("cross_track_nm", crossTrackNm);
            out.number("limit_nm", limitNm);
            out.flag("back", back);
        }
    }

    /**
     * Rolled out parallel to the course without reaching it.
     *
     * @param timeS seconds since the first sample
     * @param crossTrackNm right of course positive, nautical miles
     */
    record TurnedEarly(double timeS, double crossTrackNm) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.TURNED_EARLY;
        }

        @Override
        public void writeTo(Fields out) {
            out.number("cross_track_nm", crossTrackNm);
        }
    }

    /**
     * On the line, flying the reciprocal.
     *
     * @param timeS seconds since the first sample
     * @param trackTrueDeg true, [0, 360)
     * @param courseTrueDeg true, [0, 360)
     */
    record WrongDirection(double timeS, double trackTrueDeg, double courseTrueDeg) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.WRONG_DIRECTION;
        }

        @Override
        public void writeTo(Fields out) {
            out.number("track_true_deg", trackTrueDeg);
            out.number("course_true_deg", courseTrueDeg);
        }
    }

    /**
     * Tracked steadily for a minute, in place of the cleared course: another radial of its station, or the radial of
     * the same number of another station.
     *
     * @param timeS seconds since the first sample, of the end of that minute
     * @param station ident
     * @param radialDeg in the reference of that station, [0, 360)
     */
    record OtherCourseTracked(double timeS, String station, double radialDeg) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.OTHER_COURSE_TRACKED;
        }

        @Override
        public void writeTo(Fields out) {
            out.text("station", station);
            out.number("radial_deg", radialDeg);
        }
    }

    /**
     * Turned the opposite way at the end of a leg.
     *
     * @param timeS seconds since the first sample
     * @param ident of the fix
     */
    record WrongTurn(double timeS, String ident) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.WRONG_TURN;
        }

        @Override
        public void writeTo(Fields out) {
            out.text("ident", ident);
        }
    }

    /**
     * Past the fix where the route turns and still on the old course.
     *
     * @param timeS seconds since the first sample
     * @param ident of the fix
     */
    record SequenceMissed(double timeS, String ident) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.SEQUENCE_MISSED;
        }

        @Override
        public void writeTo(Fields out) {
            out.text("ident", ident);
        }
    }

    /**
     * Crossed the course again and again with large heading swings.
     *
     * @param timeS seconds since the first sample
     * @param crossings within three minutes, 3 or more
     * @param swingDeg largest heading swing between crossings, degrees
     * @param times how many times what makes a weave the least of these swings was, in degrees and in distance off the
     *     course, whichever was less; more than 1
     */
    record Weaving(double timeS, int crossings, double swingDeg, double times) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.WEAVING;
        }

        @Override
        public void writeTo(Fields out) {
            out.number("crossings", crossings);
            out.number("swing_deg", swingDeg);
            out.number("times", times);
        }
    }

    /**
     * Left the assigned altitude.
     *
     * @param timeS seconds since the first sample
     * @param errorFt altitude less assigned, feet
     */
    record AltitudeDeviationBegan(double timeS, double errorFt) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.ALTITUDE_DEVIATION_BEGAN;
        }

        @Override
        public void writeTo(Fields out) {
            out.number("error_ft", errorFt);
        }
    }

    /**
     * Back at the assigned altitude.
     *
     * @param timeS seconds since the first sample
     * @param errorFt largest of the deviation, feet
     * @param back whether the aircraft was seen back at the altitude; false where a new clearance, a move or the end of the
     *     flight closed the deviation
     */
    record AltitudeDeviationEnded(double timeS, double errorFt, boolean back) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.ALTITUDE_DEVIATION_ENDED;
        }

        @Override
        public void writeTo(Fields out) {
            out.number("error_ft", errorFt);
            out.flag("back", back);
        }
    }

    /**
     * Left the assigned speed.
     *
     * @param timeS seconds since the first sample
     * @param errorKt indicated airspeed less assigned, knots
     */
    record SpeedDeviationBegan(double timeS, double errorKt) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.SPEED_DEVIATION_BEGAN;
        }

        @Override
        public void writeTo(Fields out) {
            out.number("error_kt", errorKt);
        }
    }

    /**
     * Back at the assigned speed.
     *
     * @param timeS seconds since the first sample
     * @param errorKt largest of the deviation, knots
     * @param back whether the aircraft was seen back at the speed; false where a new clearance, a move or the end of the
     *     flight closed the deviation
     */
    record SpeedDeviationEnded(double timeS, double errorKt, boolean back) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.SPEED_DEVIATION_ENDED;
        }

        @Override
        public void writeTo(Fields out) {
            out.number("error_kt", errorKt);
            out.flag("back", back);
        }
    }

    /**
     * Passed a fix of the route, by the bisector of its legs or abeam.
     *
     * @param timeS seconds since the first sample
     * @param ident of the fix
     * @param computed whether it is the computed fix
     * @param lateralNm distance from the fix then, nautical miles
     */
    record FixSequenced(double timeS, String ident, boolean computed, double lateralNm) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.FIX_SEQUENCED;
        }

        @Override
        public void writeTo(Fields out) {
            out.text("ident", ident);
            out.flag("computed", computed);
            out.number("lateral_nm", lateralNm);
        }
    }

    /**
     * The turn at a fix was made: as it was flown, against the turn that is led by R tan(turn / 2) at standard rate.
     *
     * @param timeS seconds since the first sample, of rolling out on the new course
     * @param ident of the fix
     * @param computed whether it is the computed fix
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
            implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.TURN_AT_FIX;
        }

        @Override
        public void writeTo(Fields out) {
            out.text("ident", ident);
            out.flag("computed", computed);
            out.number("began_nm", beganNm);
            out.number("lead_nm", leadNm);
            out.number("late_s", lateS);
            out.number("outside_nm", outsideNm);
            out.number("inside_nm", insideNm);
            out.flag("in_fly_by_area", inFlyByArea);
        }
    }

    /**
     * Established on the airway in the right direction.
     *
     * @param timeS seconds since the first sample
     * @param airway ident
     * @param toward the next fix along it
     */
    record AirwayJoined(double timeS, String airway, String toward) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.AIRWAY_JOINED;
        }

        @Override
        public void writeTo(Fields out) {
            out.text("airway", airway);
            out.text("toward", toward);
        }
    }

    /**
     * Established on a leg of the filed route.
     *
     * @param timeS seconds since the first sample
     */
    record RouteResumed(double timeS) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.ROUTE_RESUMED;
        }

        @Override
        public void writeTo(Fields out) {}
    }

    /**
     * All that was cleared has been done.
     *
     * @param timeS seconds since the first sample
     */
    record AmendmentComplete(double timeS) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.AMENDMENT_COMPLETE;
        }

        @Override
        public void writeTo(Fields out) {}
    }

    /**
     * The next clearance came before this amendment was complete.
     *
     * @param timeS seconds since the first sample
     * @param reason what had not been done
     */
    record AmendmentReplaced(double timeS, String reason) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.AMENDMENT_REPLACED;
        }

        @Override
        public void writeTo(Fields out) {
            out.text("reason", reason);
        }
    }

    /**
     * What was due of the amendment was not done by the end.
     *
     * @param timeS seconds since the first sample
     * @param reason what was not done
     */
    record AmendmentNotAchieved(double timeS, String reason) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.AMENDMENT_NOT_ACHIEVED;
        }

        @Override
        public void writeTo(Fields out) {
            out.text("reason", reason);
        }
    }

    /**
     * The controller took the amendment back before it was complete.
     *
     * @param timeS seconds since the first sample
     * @param reason what had not been done
     */
    record AmendmentCancelled(double timeS, String reason) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.AMENDMENT_CANCELLED;
        }

        @Override
        public void writeTo(Fields out) {
            out.text("reason", reason);
        }
    }

    /**
     * The flight, or the attempt, ended before all of the amendment could have been done: the rest is not judged.
     *
     * @param timeS seconds since the first sample
     * @param reason what was not reached
     */
    record AmendmentNotDue(double timeS, String reason) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.AMENDMENT_NOT_DUE;
        }

        @Override
        public void writeTo(Fields out) {
            out.text("reason", reason);
        }
    }

    /**
     * The exercise is over: what follows is not graded.
     *
     * @param timeS seconds since the first sample
     */
    record GradedPartEnded(double timeS) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.GRADED_PART_ENDED;
        }

        @Override
        public void writeTo(Fields out) {}
    }

    /**
     * Samples stopped.
     *
     * @param timeS seconds since the first sample
     * @param gapS how long none was received, seconds; known once they come again; more than until {@link FeedResumed}
     *     where the simulator stood or was started again meanwhile
     */
    record FeedLost(double timeS, double gapS) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.FEED_LOST;
        }

        @Override
        public void writeTo(Fields out) {
            out.number("gap_s", gapS);
        }
    }

    /**
     * Samples came again.
     *
     * @param timeS seconds since the first sample
     * @param gapS without samples, seconds
     */
    record FeedResumed(double timeS, double gapS) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.FEED_RESUMED;
        }

        @Override
        public void writeTo(Fields out) {
            out.number("gap_s", gapS);
        }
    }

    /**
     * The simulation stood still.
     *
     * @param timeS seconds since the first sample
     * @param reason how it was noticed
     */
    record SimPaused(double timeS, Reason reason) implements FlightEvent {

        /** How a pause is noticed. */
        public enum Reason {
            /** The sender says so. */
            FLAG,
            /** The same position again and again, though the aircraft was flying. */
            STANDING_STILL;

            /**
             * Name in the log.
             *
             * @return lower case with underscores
             */
            public String logName() {
                return name().toLowerCase(Locale.ROOT);
            }
        }

        @Override
        public EventKind kind() {
            return EventKind.SIM_PAUSED;
        }

        @Override
        public void writeTo(Fields out) {
            out.text("reason", reason.logName());
        }
    }

    /**
     * The simulation went on.
     *
     * @param timeS seconds since the first sample
     */
    record SimResumed(double timeS) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.SIM_RESUMED;
        }

        @Override
        public void writeTo(Fields out) {}
    }

    /**
     * A jump that no aircraft can make.
     *
     * @param timeS seconds since the first sample
     * @param jumpNm length of it, nautical miles
     */
    record Repositioned(double timeS, double jumpNm) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.REPOSITIONED;
        }

        @Override
        public void writeTo(Fields out) {
            out.number("jump_nm", jumpNm);
        }
    }

    /**
     * The last sample.
     *
     * @param timeS seconds since the first sample
     */
    record FlightEnded(double timeS) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.FLIGHT_ENDED;
        }

        @Override
        public void writeTo(Fields out) {}
    }

    /**
     * A clearance was due and could not be issued from where the aircraft was.
     *
     * @param timeS seconds since the first sample
     * @param text in the words as said
     * @param reason why not, one line
     */
    record ClearanceNotIssued(double timeS, String text, String reason) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.CLEARANCE_NOT_ISSUED;
        }

        @Override
        public void writeTo(Fields out) {
            out.text("text", text).text("reason", reason);
        }
    }

    /**
     * The pilot asked to hear a clearance again.
     *
     * @param timeS seconds since the first sample
     * @param number of the clearance, 1 for the first issued
     */
    record SaidAgain(double timeS, int number) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.SAID_AGAIN;
        }

        @Override
        public void writeTo(Fields out) {
            out.number("n", number);
        }
    }

    /**
     * The pilot read a clearance back.
     *
     * @param timeS seconds since the first sample
     * @param number of the clearance, 1 for the first issued
     * @param how heard, tapped, typed; marked where the instructor changed the marks of one
     * @param outcome right, wrong or unclear
     * @param marks each element with its verdict, in the order cleared
     * @param copyS from the clearance to the begin of the readback, seconds; empty where not measured
     * @param readS from its begin to its end, seconds; empty where not measured
     */
    record ReadBack(
            double timeS,
            int number,
            String how,
            String outcome,
            String marks,
            OptionalDouble copyS,
            OptionalDouble readS)
            implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.READ_BACK;
        }

        @Override
        public void writeTo(Fields out) {
            out.number("n", number).text("how", how).text("outcome", outcome).text("marks", marks);
            if (copyS.isPresent()) {
                out.number("copy_s", copyS.getAsDouble());
            }
            if (readS.isPresent()) {
                out.number("read_s", readS.getAsDouble());
            }
        }
    }

    /**
     * Left the cleared route before the lead of the leg's end, with no clearance for it.
     *
     * @param timeS seconds since the first sample
     * @param ident of the fix at the end of the leg that was left
     * @param crossTrackNm from that leg, right positive
     * @param toGoNm to its end
     */
    record RouteLeft(double timeS, String ident, double crossTrackNm, double toGoNm) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.ROUTE_LEFT;
        }

        @Override
        public void writeTo(Fields out) {
            out.text("ident", ident).number("cross_track_nm", crossTrackNm).number("to_go_nm", toGoNm);
        }
    }

    /**
     * Entered the hold: past the fix and outbound.
     *
     * @param timeS seconds since the first sample
     * @param ident of the fix
     * @param entry as it was flown
     * @param bySector whether it is the one for the heading on arrival, or the other one near a boundary
     */
    record HoldEntered(double timeS, String ident, Holding.Entry entry, boolean bySector) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.HOLD_ENTERED;
        }

        @Override
        public void writeTo(Fields out) {
            out.text("ident", ident)
                    .text("entry", entry.name().toLowerCase(Locale.ROOT))
                    .flag("by_sector", bySector);
        }
    }

    /**
     * Flew an inbound leg of the hold, up to the fix.
     *
     * @param timeS seconds since the first sample
     * @param ident of the fix
     * @param n the first is 1
     * @param seconds from the end of the turn inbound to the fix
     */
    record HoldInbound(double timeS, String ident, int n, double seconds) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.HOLD_INBOUND;
        }

        @Override
        public void writeTo(Fields out) {
            out.text("ident", ident).number("n", n).number("seconds", seconds);
        }
    }

    /**
     * Turned to the side of the hold that is not for it.
     *
     * @param timeS seconds since the first sample
     * @param ident of the fix
     */
    record HoldWrongSide(double timeS, String ident) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.HOLD_WRONG_SIDE;
        }

        @Override
        public void writeTo(Fields out) {
            out.text("ident", ident);
        }
    }

    /**
     * Flew on past the fix to hold at.
     *
     * @param timeS seconds since the first sample
     * @param ident of the fix
     * @param afterS since the fix was passed, seconds
     * @param distanceNm from the fix, nautical miles
     */
    record HoldNotEntered(double timeS, String ident, double afterS, double distanceNm) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.HOLD_NOT_ENTERED;
        }

        @Override
        public void writeTo(Fields out) {
            out.text("ident", ident).number("after_s", afterS).number("distance_nm", distanceNm);
        }
    }

    /**
     * Left the hold.
     *
     * @param timeS seconds since the first sample
     * @param ident of the fix
     * @param cleared whether by a clearance
     * @param afterEfcS how long after the time of further clearance, seconds, negative before it; empty where none is known
     */
    record HoldLeft(double timeS, String ident, boolean cleared, OptionalDouble afterEfcS) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.HOLD_LEFT;
        }

        @Override
        public void writeTo(Fields out) {
            out.text("ident", ident).flag("cleared", cleared);
            afterEfcS.ifPresent(value -> out.number("after_efc_s", value));
        }
    }

    /**
     * Passed a place with an altitude to have there.
     *
     * @param timeS seconds since the first sample
     * @param ident the fix, or the place in words: "10 NM west of" it
     * @param altitudeFt above mean sea level
     * @param errorFt altitude less the one to have; 0 on a side that is allowed
     */
    record Crossing(double timeS, String ident, double altitudeFt, double errorFt) implements FlightEvent {
        @Override
        public EventKind kind() {
            return EventKind.CROSSING;
        }

        @Override
        public void writeTo(Fields out) {
            out.text("ident", ident).number("altitude_ft", altitudeFt).number("error_ft", errorFt);
        }
    }
}
