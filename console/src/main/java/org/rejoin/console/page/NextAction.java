package org.rejoin.console.page;

import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.clearance.Instruction.MaintainSpeed;
import org.rejoin.bridge.flight.Assigned;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.bridge.geo.Offset;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Turn;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Course;
import org.rejoin.bridge.route.CrossingPlan;
import org.rejoin.bridge.route.HeadingPlan;
import org.rejoin.bridge.route.Holding;
import org.rejoin.bridge.route.Leg;
import org.rejoin.bridge.route.PublishedCourse;
import org.rejoin.console.log.EventText;
import org.rejoin.console.words.RouteWords;
import org.rejoin.console.words.Words;

/**
 * What the pilot must do next, in one line: "turn right to course 139 by SKU, V40 to PRION in 0.6 NM". Distances are
 * to where a turn at standard rate begins, at the present ground speed.
 *
 * @param inNm until it is due; 0 when it is due now
 */
record NextAction(String text, double inNm) {

    /** A heading this far off the assigned one, or a track off the course, is still to be turned to, degrees (common practice, no source). */
    private static final double ON_HEADING_DEG = 5;

    /** A track closer than this to a line does not meet it in any useful time, degrees. */
    private static final double LEAST_CLOSURE_DEG = 3;

    /** A turn is not spoken of below this, degrees. */
    private static final double LEAST_TURN_DEG = 3;

    /** Turning at least this fast, the aircraft is in a turn, degrees a second (common practice, no source). */
    private static final double TURNING_DEG_PER_S = 0.5;

    /** Nearer to an assigned altitude it need not be spoken of, feet (the tolerance of the Airman Certification Standards). */
    private static final double AT_ALTITUDE_FT = 100;

    /** Likewise of an assigned speed, knots (Airman Certification Standards). */
    private static final double AT_SPEED_KT = 10;

    /** Within this of the old course a turn is not begun, degrees (common practice, no source). */
    private static final double STILL_ON_DEG = 15;

    /** Straight ahead or behind, degrees (common practice, no source). */
    private static final double AHEAD_DEG = 30;

    /** Inbound in a hold, degrees off its course (common practice, no source). */
    private static final double HOLD_INBOUND_DEG = 45;

    /** Outbound in a hold, degrees off its heading (common practice, no source). */
    private static final double HOLD_OUTBOUND_DEG = 30;

    /** On the line; further off a correction is spoken of, nautical miles (common practice, no source). */
    private static final double ON_LINE_NM = 0.3;

    /**
     * Works it out: the next turn, then the altitude and the speed that are still to be reached. The turn to an
     * assigned heading may still be going on.
     */
    static NextAction of(
            Optional<AmendedRoute> amended, Chart chart, Point now, boolean turningToHeading, Assigned assigned) {
        NextAction lateral = amended.map(route -> laterally(route, chart, now, turningToHeading))
                .orElseGet(() -> due("fly as filed; listen for the clearance"));
        String all = Stream.of(
                        Optional.of(lateral.text),
                        amended.flatMap(route -> crossing(route, now)).or(() -> altitude(now, assigned)),
                        speed(now, assigned))
                .flatMap(Optional::stream)
                .filter(words -> !words.isEmpty())
                .collect(Collectors.joining("; "));
        return new NextAction(all, lateral.inNm);
    }

    private static NextAction due(String text) {
        return new NextAction(text, 0);
    }

    private static Optional<String> altitude(Point now, Assigned assigned) {
        double feet = now.state().altitudeMslFtOrNaN();
        return assigned.altitudeFt().stream()
                .filter(wanted -> Math.abs(feet - wanted) > AT_ALTITUDE_FT)
                .mapToObj(wanted -> Words.say("%s to %.0f ft", feet < wanted ? "climb" : "descend", wanted))
                .findFirst();
    }

    private static Optional<String> speed(Point now, Assigned assigned) {
        double knots = now.state().indicatedAirspeedKtOrNaN();
        return assigned.speed()
                .filter(said -> (knots < said.knots() - AT_SPEED_KT && said.bound() != MaintainSpeed.Limit.OR_LESS)
                        || (knots > said.knots() + AT_SPEED_KT && said.bound() != MaintainSpeed.Limit.OR_GREATER))
                .map(said -> Words.say("%s to %.0f kt", knots < said.knots() ? "speed up" : "slow down", said.knots()));
    }

    /** The same, with the seconds until further clearance, negative past it and NaN where none is known. */
    NextAction holdingUntil(double aheadS) {
        if (Double.isNaN(aheadS)) {
            return this;
        }
        String time = aheadS <= 0
                ? "the time of further clearance is past: ask for it"
                : aheadS < 60
                        ? "further clearance is expected within the minute"
                        : Words.say("further clearance is expected in %.0f min", Math.floor(aheadS / 60));
        return new NextAction(text + "; " + time, inNm);
    }

    /** What the next place ahead that asks for an altitude asks for; an empty text where the aircraft has it. */
    private static Optional<String> crossing(AmendedRoute route, Point now) {
        double altitude = now.state().altitudeMslFtOrNaN();
        return route.crossings().stream()
                .filter(plan -> plan.leg() >= Math.max(0, now.legIndex()) && !Double.isNaN(altitude))
                .findFirst()
                .map(plan -> {
                    double off = altitude - plan.said().nearestFt(altitude);
                    return Math.abs(off) > AT_ALTITUDE_FT ? crossing(plan, now, off) : "";
                });
    }

    private static String crossing(CrossingPlan plan, Point now, double offFt) {
        String way = Words.say(
                "%s to cross %s at %.0f ft",
                offFt < 0 ? "climb" : "descend", plan.place(), plan.said().feet());
        double nm = now.position().distanceNm(plan.position());
        return now.groundSpeedKt() < 30 || nm < 0.1
                ? way
                : way
                        + Words.say(
                                ", %.0f ft/min at least",
                                Math.ceil(Math.abs(offFt) / (nm / now.groundSpeedKt() * 60) / 10) * 10);
    }

    private static NextAction laterally(AmendedRoute route, Chart chart, Point now, boolean turningToHeading) {
        int index = now.legIndex();
        Optional<GroundPath> line = index < 0 || index >= route.legs().size() ? Optional.empty() : line(route, index);
        if (now.phase() == Point.Phase.HOLDING || atHold(route, index)) {
            return holding(route.holding().orElseThrow(), now);
        }
        if (line.isEmpty()
                && index == route.legs().size() - 1
                && route.departHeading().isPresent()) {
            return due(
                    "fly heading " + Angles.figures(route.departHeading().get().deg()));
        }
        if (line.isEmpty()) {
            return route.assignedHeading()
                    .map(plan ->
                            due("fly heading " + Angles.figures(plan.magnetic().deg())))
                    .orElseGet(() -> due("fly on as cleared"));
        }
        if (now.phase() == Point.Phase.CLOSING && !now.established()) {
            return closing(route, chart, now, turningToHeading, index, line.get());
        }
        return along(route, chart, now, index, line.get());
    }

    private static boolean atHold(AmendedRoute route, int index) {
        return index >= 0 && index == route.holdLeg();
    }

    /** Inbound the course and the fix; outbound the heading, its time and the turn that follows. */
    private static NextAction holding(Holding hold, Point now) {
        Offset here = hold.inboundLine().offset(now.position());
        double toGo = Holding.INBOUND_LINE_NM - here.alongTrackNm();
        double track = Angles.turn(now.trackTrueDeg() - here.course().deg());
        String way = Words.side(hold.right());
        String course = Angles.figures(hold.inbound().deg()) + " inbound to "
                + hold.fix().ident();
        if (Math.abs(track) <= HOLD_INBOUND_DEG && toGo > 0) {
            return new NextAction(
                    Words.say(
                            "hold: course %s, %.1f NM; over the fix turn %s to heading %s",
                            course,
                            toGo,
                            way,
                            Angles.figures(hold.outboundHeading().deg())),
                    toGo);
        }
        String length = hold.outboundSeconds().isPresent() && hold.legNm().isEmpty()
                ? RouteWords.outbound(hold)
                : hold.legNm().isPresent() ? Words.say("%.0f NM", hold.legNm().getAsDouble()) : "a minute";
        double heading = now.headingMagneticDeg();
        double off = Double.isNaN(heading)
                ? track - 180
                : heading - hold.outboundHeading().deg();
        return Math.abs(Angles.turn(off)) <= HOLD_OUTBOUND_DEG
                ? due(Words.say(
                        "hold: heading %s outbound for %s, then turn %s to course %s",
                        Angles.figures(hold.outboundHeading().deg()), length, way, course))
                : due("hold: " + way + " turns, course " + course);
    }

    private static NextAction closing(
            AmendedRoute route, Chart chart, Point now, boolean turningToHeading, int index, GroundPath line) {
        Optional<HeadingPlan> assigned = route.assignedHeading();
        double error = !Double.isNaN(now.headingErrorDeg())
                ? now.headingErrorDeg()
                : assigned.isPresent() && turningToHeading && !Double.isNaN(now.headingMagneticDeg())
                        ? Angles.turn(now.headingMagneticDeg()
                                - assigned.get().magnetic().deg())
                        : 0;
        if (assigned.isPresent() && Math.abs(error) > ON_HEADING_DEG) {
            return due("turn " + Words.side(error <= 0) + " to heading "
                    + Angles.figures(assigned.get().magnetic().deg()));
        }
        Offset here = line.offset(now.position());
        double course = line.courseAt(here.alongTrackNm()).deg();
        double angle = Angles.turn(now.trackTrueDeg() - course);
        double cross = here.crossTrackNm();
        String name = courseName(route, chart, index, new TrueDirection(Angles.circle(course)), now.position());
        if (turnsOnto(now, angle, cross)) {
            return due("turning to " + name);
        }
        if (Math.abs(angle) <= ON_HEADING_DEG && Math.abs(cross) <= ON_LINE_NM) {
            return due("hold " + name);
        }
        boolean closes = cross * angle < 0
                && Math.abs(Math.sin(Math.toRadians(angle))) > Math.sin(Math.toRadians(LEAST_CLOSURE_DEG));
        if (!closes) {
            double bearing = fromNose(now, course, cross);
            return due(Words.say(
                    "turn %s toward %s: the line is %.1f NM %s",
                    Words.side(bearing), name, Math.abs(cross), side(bearing)));
        }
        double toLine = Math.abs(cross) / Math.abs(Math.sin(Math.toRadians(angle)));
        return turn(-angle, name, toLine - lead(now, angle));
    }

    /**
     * Whether the turn that is going on ends along the line and on it. Until it does, the way to the line grows and
     * shrinks with every change of bank, and the line may be on either side: neither is for the pilot to act on.
     */
    private static boolean turnsOnto(Point now, double angle, double cross) {
        double turnDegPerS = now.turnRateDegPerS();
        if (Math.abs(turnDegPerS) < TURNING_DEG_PER_S || turnDegPerS * angle >= 0) {
            return false;
        }
        double radius = Turn.radiusNm(Math.max(30, now.groundSpeedKt()), Math.abs(turnDegPerS));
        double carried = radius * (1 - Math.cos(Math.toRadians(angle)));
        return Math.abs(cross + Math.copySign(carried, angle)) <= ON_LINE_NM;
    }

    private static NextAction along(AmendedRoute route, Chart chart, Point now, int index, GroundPath line) {
        double cross = now.hasLine() ? now.crossTrackNm() : 0;
        TrueDirection course = line.courseAt(line.offset(now.position()).alongTrackNm());
        String here = courseName(route, chart, index, course, now.position());
        Optional<NextAction> overdue = overdue(route, now, index, course, here);
        if (overdue.isPresent()) {
            return overdue.get();
        }
        if (Math.abs(cross) > ON_LINE_NM) {
            double bearing = fromNose(now, course.deg(), cross);
            return due(Words.say(
                    "correct to the %s onto %s, %.1f NM %s",
                    Words.side(bearing), here, Math.abs(cross), side(bearing)));
        }
        Optional<GroundPath> after = index + 1 < route.legs().size() ? line(route, index + 1) : Optional.empty();
        double toGo = Double.isNaN(now.toGoNm()) ? 0 : now.toGoNm();
        String end = route.legs().get(index).endsAt().map(fix -> fix.ident()).orElse("the end of the leg");
        if (after.isEmpty()) {
            return new NextAction(hold(here, end, toGo) + atEnd(route, index), Math.max(0, toGo));
        }
        TrueDirection next = after.get().courseAt(route.legs().get(index + 1).joinedAtNm());
        double angle = Angles.turn(next.deg() - line.courseAt(line.lengthNm()).deg());
        if (Math.abs(angle) < LEAST_TURN_DEG) {
            return new NextAction(hold(here, end, toGo), Math.max(0, toGo));
        }
        NextAction turn = turn(angle, courseName(route, chart, index + 1, next, line.end()), toGo - lead(now, angle));
        return new NextAction(turn.text + " (at " + end + ")", turn.inNm);
    }

    /** A turn that was due at the last fix and was not begun: the course before is still held. */
    private static Optional<NextAction> overdue(
            AmendedRoute route, Point now, int index, TrueDirection course, String here) {
        Optional<GroundPath> before = index > 0 ? line(route, index - 1) : Optional.empty();
        if (before.isEmpty()) {
            return Optional.empty();
        }
        double was = before.get().courseAt(before.get().lengthNm()).deg();
        double toTurn = Angles.turn(course.deg() - now.trackTrueDeg());
        boolean holds = Math.abs(Angles.turn(now.trackTrueDeg() - was)) < STILL_ON_DEG;
        boolean turns = now.turnRateDegPerS() * toTurn > 0 && Math.abs(now.turnRateDegPerS()) >= TURNING_DEG_PER_S;
        if (!holds || turns || Math.abs(toTurn) < STILL_ON_DEG) {
            return Optional.empty();
        }
        String at = route.legs()
                .get(index - 1)
                .endsAt()
                .map(fix -> " at " + fix.ident())
                .orElse("");
        return Optional.of(due("turn " + Words.side(toTurn) + " to " + here + " now: the turn" + at + " is overdue"));
    }

    /** Where the line lies as the pilot sits, degrees from the track, right positive. */
    private static double fromNose(Point now, double courseDeg, double crossNm) {
        return Angles.turn(courseDeg + (crossNm > 0 ? -90 : 90) - now.trackTrueDeg());
    }

    private static String side(double bearingDeg) {
        double off = Math.abs(bearingDeg);
        return off < AHEAD_DEG
                ? "ahead"
                : off > 180 - AHEAD_DEG ? "behind you" : bearingDeg < 0 ? "to your left" : "to your right";
    }

    /** What is flown past the last line. */
    private static String atEnd(AmendedRoute route, int index) {
        if (atHold(route, index + 1)) {
            Holding hold = route.holding().orElseThrow();
            return "; there a " + EventText.word(hold.entry()) + ", heading "
                    + Angles.figures(hold.entryHeadings().get(0).deg());
        }
        if (index + 2 == route.legs().size() && route.departHeading().isPresent()) {
            return "; there heading "
                    + Angles.figures(route.departHeading().get().deg());
        }
        if (index + 1 < route.legs().size()) {
            return "";
        }
        return route.limit().isPresent()
                ? "; cleared no farther: ask, and hold there"
                : route.openEnd().isPresent() ? "; the route ends there: ask how it goes on" : "";
    }

    private static String hold(String course, String end, double toGo) {
        return Words.say("hold %s; %s in %.1f NM", course, end, Math.max(0, toGo));
    }

    private static NextAction turn(double byDeg, String onto, double inNm) {
        String way = "turn " + Words.side(byDeg) + " to " + onto;
        return inNm < 0.05 ? due(way + " now") : new NextAction(Words.say("%s in %.1f NM", way, inNm), inNm);
    }

    private static double lead(Point now, double angleDeg) {
        return Turn.standardTurnLeadNm(Math.max(30, now.groundSpeedKt()), angleDeg);
    }

    private static Optional<GroundPath> line(AmendedRoute route, int index) {
        Leg leg = route.legs().get(index);
        return leg instanceof Leg.HeadingToIntercept ? Optional.empty() : leg.groundPath();
    }

    /** A radial and an airway by the station that gives them, as on the chart; anything else by the compass of the place. */
    private static String courseName(AmendedRoute route, Chart chart, int index, TrueDirection course, Position place) {
        if (index == route.courseLeg()
                && route.firstCourse().isPresent()
                && !(route.legs().get(index) instanceof Leg.DmeArc)) {
            Course set = route.firstCourse().get();
            return "course " + Angles.figures(set.courseToSet().deg()) + " " + set.direction() + " "
                    + set.station().ident();
        }
        Leg leg = route.legs().get(index);
        String magnetic = Angles.figures(
                        course.toMagnetic(route.situation().variationAt(place)).deg()) + " magnetic";
        if (leg instanceof Leg.DmeArc arc) {
            return Words.say(
                    "the %.0f mile arc of %s, %s here",
                    arc.distanceNm(), arc.station().ident(), magnetic);
        }
        Optional<PublishedCourse> published =
                leg instanceof Leg.TrackToFix ? PublishedCourse.of(leg, chart, route.situation()) : Optional.empty();
        return published
                        .flatMap(each -> each.station()
                                .map(station ->
                                        "course " + Angles.figures(each.magneticDeg()) + " by " + station.ident()))
                        .orElse(magnetic)
                + leg.airway().map(airway -> ", " + airway).orElse(", direct")
                + leg.endsAt().map(end -> " to " + end.ident()).orElse("");
    }
}
