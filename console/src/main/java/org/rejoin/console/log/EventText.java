package org.rejoin.console.log;

import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.Instruction.TurnDirection;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.HeadingPlan;
import org.rejoin.bridge.route.Holding;
import org.rejoin.bridge.route.Leg;
import org.rejoin.console.words.RouteWords;
import org.rejoin.console.words.Words;

/**
 * An event as a pilot reads it: the clock, what happened, the number that matters. Directions are magnetic first, as
 * they are flown, with the true one beside; a radial is named by its station.
 */
public final class EventText {

    private EventText() {}

    /** One line, by the route in force then, for variation and course; empty before the first clearance. */
    public static String line(FlightEvent event, Optional<AmendedRoute> route) {
        return Words.clock(event.timeS()) + "  " + sentence(event, route);
    }

    private static String sentence(FlightEvent event, Optional<AmendedRoute> route) {
        return switch (event.kind()) {
            case FLIGHT_BEGAN -> "flight began";
            case CLEARANCE_ISSUED -> {
                FlightEvent.ClearanceIssued e = (FlightEvent.ClearanceIssued) event;
                yield "ATC: \"" + Clearance.words(e.text(), e.altitudeFt()) + "\"";
            }
            case CLEARANCE_AS_BEFORE -> {
                FlightEvent.ClearanceAsBefore e = (FlightEvent.ClearanceAsBefore) event;
                yield "as cleared before: \"" + Clearance.words(e.text(), e.altitudeFt()) + "\"";
            }
            case CLEARANCE_NOT_ISSUED -> {
                FlightEvent.ClearanceNotIssued e = (FlightEvent.ClearanceNotIssued) event;
                yield "ATC could not say \"" + e.text() + "\": " + e.reason();
            }
            case SAID_AGAIN -> "say again: clearance " + ((FlightEvent.SaidAgain) event).n();
            case READ_BACK -> readBack((FlightEvent.ReadBack) event);
            case HEADING_ESTABLISHED -> {
                FlightEvent.HeadingEstablished e = (FlightEvent.HeadingEstablished) event;
                yield Words.say("on the assigned heading, %s magnetic", Angles.figures(e.assignedMagneticDeg()))
                        + route.flatMap(AmendedRoute::assignedHeading)
                                .map(HeadingPlan::headingTrue)
                                .map(direction -> Words.say(" (%s true)", Angles.figures(direction.deg())))
                                .orElse("");
            }
            case TURNED_OTHER_WAY -> {
                boolean right = ((FlightEvent.TurnedOtherWay) event).toTheRight();
                yield right ? "WRONG TURN: to the right, cleared left" : "WRONG TURN: to the left, cleared right";
            }
            case HEADING_DEVIATION_BEGAN -> {
                double error = ((FlightEvent.HeadingDeviationBegan) event).errorDeg();
                yield Words.say(
                        "off the assigned heading by %s %s", Angles.degrees(Math.abs(error)), Words.side(error));
            }
            case HEADING_DEVIATION_ENDED -> {
                FlightEvent.HeadingDeviationEnded e = (FlightEvent.HeadingDeviationEnded) event;
                yield (e.back() ? "back on the assigned heading" : "the assigned heading is not judged any more")
                        + Words.say(
                                ", farthest off %s %s",
                                Angles.degrees(Math.abs(e.errorDeg())), Words.side(e.errorDeg()));
            }
            case INTERCEPT_ACHIEVED -> {
                FlightEvent.InterceptAchieved e = (FlightEvent.InterceptAchieved) event;
                Optional<String> direct =
                        route.flatMap(AmendedRoute::direct).map(leg -> leg.to().ident());
                if (direct.isPresent()) {
                    yield "on the way direct to " + direct.get() + ", "
                            + RouteWords.course(e.courseTrueDeg(), route)
                            + Words.say(
                                    ", %.2f NM %s of the course",
                                    Math.abs(e.crossTrackNm()), Words.side(e.crossTrackNm()));
                }
                yield "intercept achieved: " + RouteWords.course(e.courseTrueDeg(), route)
                        + Words.say(
                                ", closed on at %s, now %.2f NM %s of it",
                                Angles.degrees(e.angleDeg()), Math.abs(e.crossTrackNm()), Words.side(e.crossTrackNm()));
            }
            case DIRECT_NOT_TAKEN_UP -> {
                FlightEvent.DirectNotTakenUp e = (FlightEvent.DirectNotTakenUp) event;
                yield Words.say(
                        "NOT DIRECT: not going to %s, %.2f NM %s of the course to it",
                        e.ident(), Math.abs(e.crossTrackNm()), Words.side(e.crossTrackNm()));
            }
            case COURSE_CROSSED ->
                Words.say("crossed the course at %s", Angles.degrees(((FlightEvent.CourseCrossed) event).angleDeg()));
            case OVERSHOOT -> {
                FlightEvent.Overshoot e = (FlightEvent.Overshoot) event;
                yield Words.say("overshoot: %.2f NM past the line", e.maxCrossTrackNm())
                        + (e.settledAfterS().isPresent()
                                ? Words.say(
                                        ", established on it %.0f s after it was crossed",
                                        e.settledAfterS().getAsDouble())
                                : ", never established on it");
            }
            case FLOWN_THROUGH ->
                Words.say(
                        "FLOWN THROUGH the line: %.2f NM past it and no turn toward the course",
                        Math.abs(((FlightEvent.FlownThrough) event).crossTrackNm()));
            case COURSE_DEVIATION_BEGAN -> {
                FlightEvent.CourseDeviationBegan e = (FlightEvent.CourseDeviationBegan) event;
                yield Words.say(
                        "outside the course limit of %.2f NM, to the %s", e.limitNm(), Words.side(e.crossTrackNm()));
            }
            case COURSE_DEVIATION_ENDED -> {
                FlightEvent.CourseDeviationEnded e = (FlightEvent.CourseDeviationEnded) event;
                yield (e.back() ? "back inside the course limit" : "the course is not judged any more")
                        + Words.say(", farthest off %.2f NM", Math.abs(e.crossTrackNm()));
            }
            case ROUTE_LEFT -> {
                FlightEvent.RouteLeft e = (FlightEvent.RouteLeft) event;
                yield Words.say(
                        "ROUTE LEFT: %.2f NM %s of the course, %.1f NM %s %s",
                        Math.abs(e.crossTrackNm()),
                        Words.side(e.crossTrackNm()),
                        Math.abs(e.toGoNm()),
                        e.toGoNm() < 0 ? "past" : "before",
                        e.ident());
            }
            case TURNED_EARLY ->
                Words.say(
                        "TURNED EARLY: parallel to the course, %.2f NM short of it",
                        Math.abs(((FlightEvent.TurnedEarly) event).crossTrackNm()));
            case WRONG_DIRECTION -> {
                FlightEvent.WrongDirection e = (FlightEvent.WrongDirection) event;
                yield "WRONG DIRECTION: on the line with a track of " + RouteWords.magnetic(e.trackTrueDeg(), route)
                        + " instead of " + RouteWords.course(e.courseTrueDeg(), route);
            }
            case OTHER_COURSE_TRACKED -> {
                FlightEvent.OtherCourseTracked e = (FlightEvent.OtherCourseTracked) event;
                yield Words.say(
                        "ANOTHER COURSE: tracking the %s %s radial, which was not cleared",
                        e.station(), Angles.figures(e.radialDeg()));
            }
            case OTHER_AIRWAY_JOINED ->
                "ANOTHER AIRWAY: on " + ((FlightEvent.OtherAirwayJoined) event).ident() + ", which was not cleared";
            case WRONG_TURN -> wrongTurn((FlightEvent.WrongTurn) event, route);
            case SEQUENCE_MISSED ->
                "MISSED the turn at " + ((FlightEvent.SequenceMissed) event).ident()
                        + ": still on the old course 30 s after passing it";
            case WEAVING -> {
                FlightEvent.Weaving e = (FlightEvent.Weaving) event;
                yield Words.say(
                        "WEAVING: %d crossings in three minutes, swings of %.0f degrees", e.crossings(), e.swingDeg());
            }
            case ALTITUDE_DEVIATION_BEGAN ->
                Words.say(
                        "off the assigned altitude, %s",
                        Words.highOrLow(((FlightEvent.AltitudeDeviationBegan) event).errorFt()));
            case ALTITUDE_DEVIATION_ENDED -> {
                FlightEvent.AltitudeDeviationEnded e = (FlightEvent.AltitudeDeviationEnded) event;
                yield (e.back() ? "back at the assigned altitude" : "the assigned altitude is not judged any more")
                        + Words.say(", farthest off %s", Words.highOrLow(e.errorFt()));
            }
            case SPEED_DEVIATION_BEGAN ->
                Words.say("off the assigned speed, %+.0f kt", ((FlightEvent.SpeedDeviationBegan) event).errorKt());
            case SPEED_DEVIATION_ENDED -> {
                FlightEvent.SpeedDeviationEnded e = (FlightEvent.SpeedDeviationEnded) event;
                yield (e.back() ? "back at the assigned speed" : "the assigned speed is not judged any more")
                        + Words.say(", farthest off %+.0f kt", e.errorKt());
            }
            case FIX_SEQUENCED -> {
                FlightEvent.FixSequenced e = (FlightEvent.FixSequenced) event;
                yield Words.say(
                        "passed %s%s, %.2f NM from it",
                        e.ident(), e.computed() ? " (computed fix)" : "", e.lateralNm());
            }
            case HOLD_ENTERED -> {
                FlightEvent.HoldEntered e = (FlightEvent.HoldEntered) event;
                yield Words.say("entered the hold at %s, %s", e.ident(), word(e.entry()))
                        + (e.bySector() ? "" : "; the heading on arrival asks for another entry");
            }
            case HOLD_INBOUND -> {
                FlightEvent.HoldInbound e = (FlightEvent.HoldInbound) event;
                String turned = e.outboundNm().isEmpty()
                        ? ""
                        : Words.say(", turned to it at %.1f NM", e.outboundNm().getAsDouble());
                yield e.seconds().isEmpty()
                        ? Words.say("over %s: inbound leg %d, not seen whole%s", e.ident(), e.n(), turned)
                        : Words.say(
                                "over %s: inbound leg %d took %.0f s%s",
                                e.ident(), e.n(), e.seconds().getAsDouble(), turned);
            }
            case HOLD_WRONG_SIDE ->
                "HOLD, WRONG SIDE: turned away from the holding side at " + ((FlightEvent.HoldWrongSide) event).ident();
            case HOLD_NOT_ENTERED -> {
                FlightEvent.HoldNotEntered e = (FlightEvent.HoldNotEntered) event;
                yield Words.say(
                        "HOLD NOT ENTERED: %.0f s past %s, %.1f NM from it, and not outbound",
                        e.afterS(), e.ident(), e.distanceNm());
            }
            case HOLD_LEFT -> {
                FlightEvent.HoldLeft e = (FlightEvent.HoldLeft) event;
                yield Words.say(
                                "left the hold at %s, %s",
                                e.ident(), e.cleared() ? "as cleared" : "with no clearance for it")
                        + (e.afterEfcS().isEmpty()
                                ? ""
                                : ", " + beside(e.afterEfcS().getAsDouble()) + " the time of further clearance");
            }
            case CROSSING -> {
                FlightEvent.Crossing e = (FlightEvent.Crossing) event;
                yield Words.say("crossed %s at %.0f ft", e.ident(), e.altitudeFt())
                        + (Math.abs(e.errorFt()) < 50 ? "" : ", " + Words.highOrLow(e.errorFt()));
            }
            case TURN_AT_FIX -> turn((FlightEvent.TurnAtFix) event);
            case CHANGE_OVER -> {
                FlightEvent.ChangeOver e = (FlightEvent.ChangeOver) event;
                yield e.passed() + ": assigned from here "
                        + (e.altitudeFt().isPresent()
                                ? Words.say("%.0f ft", e.altitudeFt().getAsDouble())
                                : e.speedKt().isPresent()
                                        ? Words.say("%.0f kt", e.speedKt().getAsDouble())
                                        : "no speed any more");
            }
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
            case FEED_RESUMED -> Words.say("samples again after %.0f s", ((FlightEvent.FeedResumed) event).gapS());
            case SIM_PAUSED ->
                switch (((FlightEvent.SimPaused) event).reason()) {
                    case FLAG -> "simulation paused: the simulator says so";
                    case STANDING_STILL -> "simulation paused: the aircraft stands still";
                };
            case SIM_RESUMED -> "simulation goes on";
            case REPOSITIONED ->
                Words.say("moved by %.1f NM: a new attempt", ((FlightEvent.Repositioned) event).jumpNm());
            case FLIGHT_ENDED -> "flight ended";
        };
    }

    private static String wrongTurn(FlightEvent.WrongTurn wrong, Optional<AmendedRoute> route) {
        String next = route.flatMap(amended -> after(wrong.ident(), amended))
                .flatMap(Leg::airway)
                .orElse("the next course");
        return "WRONG TURN at " + wrong.ident()
                + wrong.turned()
                        .map(turned -> turned == TurnDirection.LEFT
                                ? ": turned left, " + next + " is to the right"
                                : ": turned right, " + next + " is to the left")
                        .orElse("");
    }

    /** The leg that begins where another one ends. */
    private static Optional<Leg> after(String ident, AmendedRoute route) {
        List<Leg> legs = route.legs();
        return IntStream.range(0, legs.size() - 1)
                .filter(i -> legs.get(i)
                        .endsAt()
                        .filter(fix -> fix.ident().equals(ident))
                        .isPresent())
                .mapToObj(i -> legs.get(i + 1))
                .findFirst();
    }

    private static String readBack(FlightEvent.ReadBack e) {
        String begun = e.copyS().isPresent()
                ? Words.say(", begun %.0f s after it", e.copyS().getAsDouble())
                : "";
        String took =
                e.readS().isPresent() ? Words.say(", %.0f s long", e.readS().getAsDouble()) : "";
        String whose = e.how().equals("marked") ? "readback marked by the instructor" : "readback, " + e.how();
        return whose + ", clearance " + e.n() + ": " + e.outcome() + begun + took + " (" + e.marks() + ")";
    }

    private static String turn(FlightEvent.TurnAtFix e) {
        String where = e.beganNm() >= 0
                ? Words.say("%.2f NM before it", e.beganNm())
                : Words.say("%.2f NM beyond it", -e.beganNm());
        String when = Math.abs(e.lateS()) < 1
                ? "on time"
                : Words.say("%.0f s %s", Math.abs(e.lateS()), e.lateS() > 0 ? "late" : "early");
        String past = e.outsideNm() >= 0.05
                ? Words.say(", %.2f NM past the new course", e.outsideNm())
                : e.insideNm() >= 0.05 ? Words.say(", %.2f NM inside the new course", e.insideNm()) : "";
        return Words.say("turn at %s is over: begun %s, %s (lead %.2f NM)%s", e.ident(), where, when, e.leadNm(), past)
                + (e.inFlyByArea() ? "" : ": outside the fly-by area");
    }

    /** The name of an entry. */
    public static String word(Holding.Entry entry) {
        return switch (entry) {
            case DIRECT -> "direct entry";
            case TEARDROP -> "teardrop entry";
            case PARALLEL -> "parallel entry";
        };
    }

    /** Before a time, at it or after it. */
    private static String beside(double afterS) {
        return Math.abs(afterS) < 30
                ? "at"
                : Words.minutes(Math.rint(Math.abs(afterS) / 60 * 10) / 10) + (afterS < 0 ? " before" : " after");
    }
}
