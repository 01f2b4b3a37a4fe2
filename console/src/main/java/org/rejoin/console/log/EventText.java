package org.rejoin.console.log;

import java.util.Locale;
import java.util.Optional;

import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Variation;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Course;
import org.rejoin.bridge.route.HeadingPlan;
import org.rejoin.bridge.route.Intercept;

/**
 * An event as a pilot reads it: the clock, what happened, the number that matters. Directions are magnetic first, as
 * they are flown, with the true one beside; a radial is named by its station.
 */
public final class EventText {

    private EventText() {}

    /**
     * One line.
     *
     * @param event any
     * @param route in force then, for the variation and the name of the course; empty before the first clearance
     * @return clock and sentence
     */
    public static String line(FlightEvent event, Optional<AmendedRoute> route) {
        return clock(event.timeS()) + "  " + sentence(event, route);
    }

    /**
     * A time as a clock.
     *
     * @param timeS seconds since the first sample, 0 or more
     * @return hours (if any), minutes, seconds with one decimal
     */
    public static String clock(double timeS) {
        long tenths = Math.round(timeS * 10);
        long minutes = tenths / 600;
        String rest = say("%02d.%d", tenths / 10 % 60, tenths % 10);
        return minutes >= 60 ? say("%d:%02d:%s", minutes / 60, minutes % 60, rest) : say("%02d:%s", minutes, rest);
    }

    private static String sentence(FlightEvent event, Optional<AmendedRoute> route) {
        return switch (event.kind()) {
            case FLIGHT_BEGAN -> "flight began";
            case CLEARANCE_ISSUED -> "ATC: \"" + ((FlightEvent.ClearanceIssued) event).text() + "\"";
            case CLEARANCE_NOT_ISSUED -> {
                FlightEvent.ClearanceNotIssued e = (FlightEvent.ClearanceNotIssued) event;
                yield "ATC could not say \"" + e.text() + "\": " + e.reason();
            }
            case HEADING_ESTABLISHED -> {
                FlightEvent.HeadingEstablished e = (FlightEvent.HeadingEstablished) event;
                yield say("on the assigned heading, %s magnetic", Angles.figures(e.assignedMagneticDeg()))
                        + route.flatMap(AmendedRoute::assignedHeading)
                                .map(HeadingPlan::headingTrue)
                                .map(direction -> say(" (%s true)", Angles.figures(direction.deg())))
                                .orElse("");
            }
            case HEADING_DEVIATION_BEGAN -> {
                double error = ((FlightEvent.HeadingDeviationBegan) event).errorDeg();
                yield say("off the assigned heading by %.0f degrees %s", Math.abs(error), side(error));
            }
            case HEADING_DEVIATION_ENDED -> {
                FlightEvent.HeadingDeviationEnded e = (FlightEvent.HeadingDeviationEnded) event;
                yield (e.back() ? "back on the assigned heading" : "the assigned heading is not judged any more")
                        + say(", farthest off %.0f degrees %s", Math.abs(e.errorDeg()), side(e.errorDeg()));
            }
            case INTERCEPT_ACHIEVED -> {
                FlightEvent.InterceptAchieved e = (FlightEvent.InterceptAchieved) event;
                yield "intercept achieved: " + course(e.courseTrueDeg(), route)
                        + say(
                                ", closed on at %.0f degrees, now %.2f NM %s of it",
                                e.angleDeg(), Math.abs(e.crossTrackNm()), side(e.crossTrackNm()));
            }
            case COURSE_CROSSED ->
                say("crossed the course at %.0f degrees", ((FlightEvent.CourseCrossed) event).angleDeg());
            case OVERSHOOT -> {
                FlightEvent.Overshoot e = (FlightEvent.Overshoot) event;
                yield say("overshoot: %.2f NM past the line", e.maxCrossTrackNm())
                        + (e.settledAfterS().isPresent()
                                ? say(
                                        ", back on it after %.0f s",
                                        e.settledAfterS().getAsDouble())
                                : ", never back on it");
            }
            case FLOWN_THROUGH ->
                say(
                        "FLOWN THROUGH the line: %.2f NM past it and no turn toward the course",
                        Math.abs(((FlightEvent.FlownThrough) event).crossTrackNm()));
            case COURSE_DEVIATION_BEGAN -> {
                FlightEvent.CourseDeviationBegan e = (FlightEvent.CourseDeviationBegan) event;
                yield say("outside the course limit of %.2f NM, to the %s", e.limitNm(), side(e.crossTrackNm()));
            }
            case COURSE_DEVIATION_ENDED -> {
                FlightEvent.CourseDeviationEnded e = (FlightEvent.CourseDeviationEnded) event;
                yield (e.back() ? "back inside the course limit" : "the course is not judged any more")
                        + say(", farthest off %.2f NM", Math.abs(e.crossTrackNm()));
            }
            case ROUTE_LEFT -> {
                FlightEvent.RouteLeft e = (FlightEvent.RouteLeft) event;
                yield say(
                        "ROUTE LEFT: %.2f NM %s of the course, %.1f NM before %s",
                        Math.abs(e.crossTrackNm()), side(e.crossTrackNm()), e.toGoNm(), e.ident());
            }
            case TURNED_EARLY ->
                say(
                        "TURNED EARLY: parallel to the course, %.2f NM short of it",
                        Math.abs(((FlightEvent.TurnedEarly) event).crossTrackNm()));
            case WRONG_DIRECTION -> {
                FlightEvent.WrongDirection e = (FlightEvent.WrongDirection) event;
                yield "WRONG DIRECTION: on the line with a track of " + magnetic(e.trackTrueDeg(), route)
                        + " instead of " + course(e.courseTrueDeg(), route);
            }
            case OTHER_COURSE_TRACKED -> {
                FlightEvent.OtherCourseTracked e = (FlightEvent.OtherCourseTracked) event;
                yield say(
                        "ANOTHER COURSE: tracking the %s %s radial, which was not cleared",
                        e.station(), Angles.figures(e.radialDeg()));
            }
            case WRONG_TURN -> "WRONG TURN at " + ((FlightEvent.WrongTurn) event).ident();
            case SEQUENCE_MISSED ->
                "MISSED the turn at " + ((FlightEvent.SequenceMissed) event).ident()
                        + ": still on the old course 30 s after passing it";
            case WEAVING -> {
                FlightEvent.Weaving e = (FlightEvent.Weaving) event;
                yield say(
                        "WEAVING: %d crossings in three minutes, swings of %.0f degrees", e.crossings(), e.swingDeg());
            }
            case ALTITUDE_DEVIATION_BEGAN ->
                say("off the assigned altitude, %s", feet(((FlightEvent.AltitudeDeviationBegan) event).errorFt()));
            case ALTITUDE_DEVIATION_ENDED -> {
                FlightEvent.AltitudeDeviationEnded e = (FlightEvent.AltitudeDeviationEnded) event;
                yield (e.back() ? "back at the assigned altitude" : "the assigned altitude is not judged any more")
                        + say(", farthest off %s", feet(e.errorFt()));
            }
            case SPEED_DEVIATION_BEGAN ->
                say("off the assigned speed, %+.0f kt", ((FlightEvent.SpeedDeviationBegan) event).errorKt());
            case SPEED_DEVIATION_ENDED -> {
                FlightEvent.SpeedDeviationEnded e = (FlightEvent.SpeedDeviationEnded) event;
                yield (e.back() ? "back at the assigned speed" : "the assigned speed is not judged any more")
                        + say(", farthest off %+.0f kt", e.errorKt());
            }
            case FIX_SEQUENCED -> {
                FlightEvent.FixSequenced e = (FlightEvent.FixSequenced) event;
                yield say(
                        "passed %s%s, %.2f NM from it",
                        e.ident(), e.computed() ? " (computed fix)" : "", e.lateralNm());
            }
            case TURN_AT_FIX -> turn((FlightEvent.TurnAtFix) event);
            case AIRWAY_JOINED -> {
                FlightEvent.AirwayJoined e = (FlightEvent.AirwayJoined) event;
                yield "joined " + e.airway() + " toward " + e.toward();
            }
            case ROUTE_RESUMED -> "back on the filed route";
            case AMENDMENT_COMPLETE -> "amendment complete";
            case AMENDMENT_REPLACED ->
                "amendment ended by the next clearance; not done: " + ((FlightEvent.AmendmentReplaced) event).reason();
            case AMENDMENT_CANCELLED ->
                "amendment cancelled; not done: " + ((FlightEvent.AmendmentCancelled) event).reason();
            case AMENDMENT_NOT_DUE ->
                "ended before all was due; not done: " + ((FlightEvent.AmendmentNotDue) event).reason();
            case GRADED_PART_ENDED -> "the graded part ends here";
            case AMENDMENT_NOT_ACHIEVED ->
                "AMENDMENT NOT ACHIEVED: " + ((FlightEvent.AmendmentNotAchieved) event).reason();
            case FEED_LOST -> "no more samples from the simulator";
            case FEED_RESUMED -> say("samples again after %.0f s", ((FlightEvent.FeedResumed) event).gapS());
            case SIM_PAUSED ->
                switch (((FlightEvent.SimPaused) event).reason()) {
                    case FLAG -> "simulation paused: the simulator says so";
                    case STANDING_STILL -> "simulation paused: the aircraft stands still";
                };
            case SIM_RESUMED -> "simulation goes on";
            case REPOSITIONED -> say("moved by %.1f NM: a new attempt", ((FlightEvent.Repositioned) event).jumpNm());
            case FLIGHT_ENDED -> "flight ended";
        };
    }

    private static String turn(FlightEvent.TurnAtFix e) {
        String where =
                e.beganNm() >= 0 ? say("%.2f NM before it", e.beganNm()) : say("%.2f NM beyond it", -e.beganNm());
        String when = Math.abs(e.lateS()) < 1
                ? "on time"
                : say("%.0f s %s", Math.abs(e.lateS()), e.lateS() > 0 ? "late" : "early");
        String past = e.outsideNm() >= 0.05
                ? say(", %.2f NM past the new course", e.outsideNm())
                : e.insideNm() >= 0.05 ? say(", %.2f NM inside the new course", e.insideNm()) : "";
        return say("turn at %s is over: begun %s, %s (lead %.2f NM)%s", e.ident(), where, when, e.leadNm(), past)
                + (e.inFlyByArea() ? "" : ": outside the fly-by area");
    }

    /**
     * The course to fly: a radial by its station, which is what is set; else magnetic by today's variation.
     *
     * @param trueDeg degrees, true, where it is flown
     * @param route in force then
     * @return begins with "course"
     */
    public static String course(double trueDeg, Optional<AmendedRoute> route) {
        Optional<Course> radial = route.flatMap(AmendedRoute::course);
        if (radial.isEmpty()) {
            return "course " + magnetic(trueDeg, route);
        }
        Course course = radial.get();
        return say(
                "course %s %s %s (%s true)",
                Angles.figures(course.courseToSet().deg()),
                course.direction(),
                course.station().ident(),
                Angles.figures(trueDeg));
    }

    /**
     * A direction over the ground as a pilot reads it.
     *
     * @param trueDeg degrees, true
     * @param route in force then, for the variation where its course is met; empty to say it true only
     * @return magnetic first, the true one beside
     */
    public static String magnetic(double trueDeg, Optional<AmendedRoute> route) {
        if (route.isEmpty()) {
            return say("%s true", Angles.figures(trueDeg));
        }
        AmendedRoute amended = route.get();
        Variation variation = amended.situation()
                .variationAt(amended.intercept()
                        .map(Intercept::position)
                        .orElse(amended.situation().position()));
        return say(
                "%s magnetic (%s true)",
                Angles.figures(new TrueDirection(trueDeg).toMagnetic(variation).deg()), Angles.figures(trueDeg));
    }

    private static String feet(double error) {
        return say("%.0f ft %s", Math.abs(error), error < 0 ? "low" : "high");
    }

    private static String side(double value) {
        return value < 0 ? "left" : "right";
    }

    private static String say(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }
}
