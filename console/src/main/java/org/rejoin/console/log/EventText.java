package org.rejoin.console.log;

import java.util.Locale;
import java.util.Optional;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Variation;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Course;
import org.rejoin.bridge.route.HeadingPlan;
import org.rejoin.bridge.route.Intercept;
import org.rejoin.bridge.flight.FlightEvent;

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
     * Whether an event by itself says that something went wrong, whatever the tolerance set.
     *
     * @param event any
     * @return false too for an overshoot or an altitude, which are faults only when large or long enough
     */
    public static boolean isFault(FlightEvent event) {
        return event instanceof FlightEvent.FlownThrough
                || event instanceof FlightEvent.TurnedEarly
                || event instanceof FlightEvent.WrongDirection
                || event instanceof FlightEvent.OtherCourseTracked
                || event instanceof FlightEvent.WrongTurn
                || event instanceof FlightEvent.SequenceMissed
                || event instanceof FlightEvent.Weaving
                || event instanceof FlightEvent.AmendmentNotAchieved;
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
        if (event instanceof FlightEvent.FlightBegan) {
            return "flight began";
        } else if (event instanceof FlightEvent.ClearanceIssued e) {
            return "ATC: \"" + e.text() + "\"";
        } else if (event instanceof FlightEvent.HeadingEstablished e) {
            return say("on the assigned heading, %s magnetic", Angles.figures(e.assignedMagneticDeg()))
                    + route.flatMap(AmendedRoute::assignedHeading)
                            .map(HeadingPlan::headingTrue)
                            .map(direction -> say(" (%s true)", Angles.figures(direction.deg())))
                            .orElse("");
        } else if (event instanceof FlightEvent.HeadingDeviationBegan e) {
            return say("off the assigned heading by %.0f degrees %s", Math.abs(e.errorDeg()), side(e.errorDeg()));
        } else if (event instanceof FlightEvent.HeadingDeviationEnded e) {
            return say("heading deviation ended, largest %.0f degrees", Math.abs(e.errorDeg()));
        } else if (event instanceof FlightEvent.InterceptAchieved e) {
            return "intercept achieved: " + course(e.courseTrueDeg(), route)
                    + say(
                            ", closed on at %.0f degrees, now %.2f NM %s of it",
                            e.angleDeg(), Math.abs(e.crossTrackNm()), side(e.crossTrackNm()));
        } else if (event instanceof FlightEvent.CourseCrossed e) {
            return say("crossed the course at %.0f degrees", e.angleDeg());
        } else if (event instanceof FlightEvent.Overshoot e) {
            return say("overshoot: %.2f NM past the line", e.maxCrossTrackNm())
                    + (e.settledAfterS().isPresent()
                            ? say(", back on it after %.0f s", e.settledAfterS().getAsDouble())
                            : ", never back on it");
        } else if (event instanceof FlightEvent.FlownThrough e) {
            return say(
                    "FLOWN THROUGH the line: %.2f NM past it and no turn toward the course",
                    Math.abs(e.crossTrackNm()));
        } else if (event instanceof FlightEvent.CourseDeviationBegan e) {
            return say("outside the course limit of %.2f NM, to the %s", e.limitNm(), side(e.crossTrackNm()));
        } else if (event instanceof FlightEvent.CourseDeviationEnded e) {
            return say("back inside the course limit, largest %.2f NM", Math.abs(e.crossTrackNm()));
        } else if (event instanceof FlightEvent.TurnedEarly e) {
            return say("TURNED EARLY: parallel to the course, %.2f NM short of it", Math.abs(e.crossTrackNm()));
        } else if (event instanceof FlightEvent.WrongDirection e) {
            return "WRONG DIRECTION: on the line with a track of " + magnetic(e.trackTrueDeg(), route) + " instead of "
                    + course(e.courseTrueDeg(), route);
        } else if (event instanceof FlightEvent.OtherCourseTracked e) {
            return say(
                    "ANOTHER COURSE: tracking the %s %s radial, which was not cleared",
                    e.station(), Angles.figures(e.radialDeg()));
        } else if (event instanceof FlightEvent.WrongTurn e) {
            return "WRONG TURN at " + e.ident();
        } else if (event instanceof FlightEvent.SequenceMissed e) {
            return "MISSED the turn at " + e.ident() + ": still on the old course 30 s after passing it";
        } else if (event instanceof FlightEvent.Weaving e) {
            return say("WEAVING: %d crossings in three minutes, swings of %.0f degrees", e.crossings(), e.swingDeg());
        } else if (event instanceof FlightEvent.AltitudeDeviationBegan e) {
            return say("off the assigned altitude, %s", feet(e.errorFt()));
        } else if (event instanceof FlightEvent.AltitudeDeviationEnded e) {
            return say("back at the assigned altitude, farthest %s", feet(e.errorFt()));
        } else if (event instanceof FlightEvent.SpeedDeviationBegan e) {
            return say("off the assigned speed, %+.0f kt", e.errorKt());
        } else if (event instanceof FlightEvent.SpeedDeviationEnded e) {
            return say("back at the assigned speed, largest error %+.0f kt", e.errorKt());
        } else if (event instanceof FlightEvent.FixSequenced e) {
            return say("passed %s%s, %.2f NM from it", e.ident(), e.computed() ? " (computed fix)" : "", e.lateralNm());
        } else if (event instanceof FlightEvent.TurnAtFix e) {
            return turn(e);
        } else if (event instanceof FlightEvent.AirwayJoined e) {
            return "joined " + e.airway() + " toward " + e.toward();
        } else if (event instanceof FlightEvent.RouteResumed) {
            return "back on the filed route";
        } else if (event instanceof FlightEvent.AmendmentComplete) {
            return "amendment complete";
        } else if (event instanceof FlightEvent.AmendmentReplaced e) {
            return "amendment ended by the next clearance; not done: " + e.reason();
        } else if (event instanceof FlightEvent.AmendmentNotAchieved e) {
            return "AMENDMENT NOT ACHIEVED: " + e.reason();
        } else if (event instanceof FlightEvent.FeedLost) {
            return "no more samples from the simulator";
        } else if (event instanceof FlightEvent.FeedResumed e) {
            return say("samples again after %.0f s", e.gapS());
        } else if (event instanceof FlightEvent.SimPaused) {
            return "simulation paused";
        } else if (event instanceof FlightEvent.SimResumed) {
            return "simulation goes on";
        } else if (event instanceof FlightEvent.Repositioned e) {
            return say("repositioned by %.1f NM", e.jumpNm());
        }
        return "flight ended";
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
