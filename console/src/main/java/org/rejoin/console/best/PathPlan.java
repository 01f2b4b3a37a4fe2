package org.rejoin.console.best;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.Offset;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.HeadingPlan;
import org.rejoin.bridge.route.Holding;
import org.rejoin.bridge.route.Leg;
import org.rejoin.console.words.RouteWords;
import org.rejoin.console.words.Words;

/** Puts a {@link BestPath} together, stretch by stretch. Used once. */
final class PathPlan {

    /** From hearing the clearance to moving the controls, seconds: a quick pilot's; common practice, no source. */
    static final double REACTION_S = 5;

    /** A change of course smaller than this needs no lead, degrees. */
    static final double NO_TURN_DEG = 0.5;

    private final AmendedRoute route;
    private final Air air;
    private final double heardS;
    private final List<Stretch> stretches = new ArrayList<>();
    private final List<BestPath.TurnOnto> turns = new ArrayList<>();
    private double nowS;
    private double lengthNm;

    PathPlan(AmendedRoute route, double heardS) {
        this.route = route;
        this.air = new Air(route.situation().trueAirspeedKt(), route.situation().wind());
        this.heardS = heardS;
        this.nowS = heardS;
    }

    Optional<BestPath> plan(Position start, GroundVector ground) {
        if (route.courseLeg() < 0) {
            return Optional.empty();
        }
        TrueDirection heading = air.headingOf(ground);
        add(new Stretch.OnHeading(start, heading, air.on(heading), REACTION_S));
        Optional<GroundPath> first = route.heading().isPresent() ? intercept(heading) : direct(heading);
        return first.flatMap(this::flyOn);
    }

    /** The heading, and from it the turn onto the course. */
    private Optional<GroundPath> intercept(TrueDirection before) {
        HeadingPlan plan = route.heading().orElseThrow();
        double turnDeg = turnTo(before, plan.headingTrue());
        turn(turnDeg, before, -1, "heading " + Angles.figures(plan.magnetic().deg()) + " magnetic", 0);
        Position from = here();
        TrueDirection heading = stretches.get(stretches.size() - 1).endHeading();
        GroundVector ground = air.on(heading);
        return line(route.courseLeg()).filter(line -> {
            Stretch.OnHeading straight = new Stretch.OnHeading(from, heading, ground, 0);
            Optional<TurnStart> start =
                    TurnStart.onto(line, air, straight::at, straight::headingAt, TurnStart.LONGEST_S);
            start.ifPresent(at -> {
                add(new Stretch.OnHeading(from, heading, ground, at.seconds()));
                turn(
                        at.turnDeg(),
                        straight.headingAt(at.seconds()),
                        route.courseLeg(),
                        name(route, route.courseLeg()),
                        toLine(line));
            });
            return start.isPresent();
        });
    }

    /** As ATC said it, else the short way. */
    private double turnTo(TrueDirection before, TrueDirection wanted) {
        double shortWay = before.turnTo(wanted);
        return switch (route.orderedTurn()) {
            case SHORTEST -> shortWay;
            case LEFT -> shortWay > NO_TURN_DEG ? shortWay - 360 : shortWay;
            case RIGHT -> shortWay < -NO_TURN_DEG ? shortWay + 360 : shortWay;
        };
    }

    /** A turn until the aircraft moves toward the fix, and the geodesic from there. */
    private Optional<GroundPath> direct(TrueDirection before) {
        Optional<Position> fix = route.legs().get(route.courseLeg()).endsAt().map(end -> end.position());
        if (fix.isEmpty()) {
            return Optional.empty();
        }
        Position from = here();
        Position rolledOut = from;
        double turnDeg = 0;
        for (int i = 0; i < TurnStart.MOST_STEPS; i++) {
            Optional<GroundVector.HeadingForCourse> wanted =
                    air.along(rolledOut.to(fix.get()).initial());
            if (wanted.isEmpty()) {
                return Optional.empty();
            }
            turnDeg = turnTo(before, wanted.get().heading());
            Stretch.Turning turning = new Stretch.Turning(from, before, turnDeg, air);
            Position next = turning.at(turning.seconds());
            boolean settled = next.distanceNm(rolledOut) < TurnStart.CONVERGED_NM;
            rolledOut = next;
            if (settled) {
                break;
            }
        }
        if (rolledOut.distanceNm(fix.get()) < 0.1) {
            return Optional.empty();
        }
        turn(turnDeg, before, route.courseLeg(), name(route, route.courseLeg()), 0);
        return Optional.of(GeodesicLine.between(here(), fix.get()));
    }

    /** The leg that completes the amendment. */
    static int lastLeg(AmendedRoute route) {
        int last = Math.max(
                Math.max(route.courseLeg(), route.resumesAt()),
                route.joinLegs().stream().findFirst().orElse(-1));
        // What a hold takes is no time lost: compared is the way to it.
        return route.holdLeg() > route.courseLeg() ? Math.min(last, route.holdLeg() - 1) : last;
    }

    /** Along the course and round each fix, until the amendment is complete. */
    private Optional<BestPath> flyOn(GroundPath first) {
        int last = lastLeg(route);
        GroundPath line = first;
        for (int leg = route.courseLeg(); ; leg++) {
            Optional<OnLine> flown = OnLine.from(here(), line, air).filter(on -> !on.isPastEnd());
            if (flown.isEmpty()) {
                return Optional.empty();
            }
            if (leg == last) {
                BestPath path = new BestPath(
                        route,
                        heardS,
                        turns,
                        nowS,
                        line,
                        flown.get().fromNm(),
                        flown.get().heading().groundSpeedKt(),
                        lengthNm,
                        stretches,
                        List.of());
                return Optional.of(route.holdLeg() > leg ? path.goingOn(toHold(leg, line)) : path);
            }
            Optional<GroundPath> next = line(leg + 1);
            if (next.isEmpty() || !roundFix(flown.get(), next.get(), leg + 1)) {
                return Optional.empty();
            }
            line = next.get();
        }
    }

    /** From where the comparison ends to the hold, and once round it; nothing where that cannot be flown so. */
    private List<Stretch> toHold(int from, GroundPath first) {
        int began = stretches.size();
        GroundPath line = first;
        for (int leg = from; ; leg++) {
            Optional<OnLine> flown = OnLine.from(here(), line, air);
            if (flown.isEmpty()) {
                return List.of();
            }
            if (leg + 1 == route.holdLeg()) {
                add(flown.get().of(Math.max(0, flown.get().secondsToEnd())));
                break;
            }
            Optional<GroundPath> next = line(leg + 1);
            if (next.isEmpty() || !roundFix(flown.get(), next.get(), leg + 1)) {
                return List.of();
            }
            line = next.get();
        }
        List<Stretch> all = new ArrayList<>(stretches.subList(began, stretches.size()));
        Holding hold = route.holding().orElseThrow();
        all.addAll(HoldPath.of(
                hold,
                route.situation().variationAt(hold.fix().position()),
                air,
                stretches.get(stretches.size() - 1).endHeading()));
        return all;
    }

    private boolean roundFix(OnLine flown, GroundPath next, int leg) {
        double toEndS = flown.secondsToEnd();
        double change = Math.abs(flown.line().finalCourse().turnTo(next.courseAt(0)));
        if (change < NO_TURN_DEG) {
            add(flown.of(Math.max(0, toEndS)));
            return true;
        }
        Optional<TurnStart> start = TurnStart.onto(next, air, flown::at, flown::headingAt, toEndS);
        if (start.isEmpty()) {
            return false;
        }
        add(flown.of(start.get().seconds()));
        turn(start.get().turnDeg(), flown.headingAt(start.get().seconds()), leg, name(route, leg), toLine(next));
        return true;
    }

    private Optional<GroundPath> line(int leg) {
        return leg < route.legs().size() ? route.legs().get(leg).groundPath() : Optional.empty();
    }

    private double toLine(GroundPath line) {
        return Math.abs(line.offset(here()).crossTrackNm());
    }

    static String name(AmendedRoute route, int index) {
        Leg leg = route.legs().get(index);
        if (leg instanceof Leg.DmeArc arc) {
            return Words.say("the %s %.0f mile arc", arc.station().ident(), arc.distanceNm());
        }
        if (leg instanceof Leg.CourseToFix || leg instanceof Leg.FixOutbound) {
            return route.course()
                    .map(course -> "course " + RouteWords.toSet(course))
                    .orElse("the course");
        }
        String to = leg.endsAt().map(end -> end.ident()).orElse("the next fix");
        return leg.airway().map(airway -> airway + " toward " + to).orElse("the direct to " + to);
    }

    private void turn(double turnDeg, TrueDirection from, int leg, String onto, double toLineNm) {
        Position begins = here();
        double beginsS = nowS;
        add(new Stretch.Turning(begins, from, turnDeg, air));
        if (Math.abs(turnDeg) >= NO_TURN_DEG) {
            turns.add(new BestPath.TurnOnto(onto, leg, beginsS, nowS, begins, here(), turnDeg, toLineNm));
        }
    }

    private void add(Stretch stretch) {
        stretches.add(stretch);
        nowS += stretch.seconds();
        lengthNm += stretch.lengthNm(stretch.seconds());
    }

    private Position here() {
        Stretch last = stretches.get(stretches.size() - 1);
        return last.at(last.seconds());
    }

    /**
     * A line being flown over the ground from so many nautical miles after its start, with heading and speed that keep the
     * aircraft on it there.
     */
    record OnLine(GroundPath line, double fromNm, GroundVector.HeadingForCourse heading, Air air) {

        /** From abeam a place; empty where the wind is too strong for it. */
        static Optional<OnLine> from(Position place, GroundPath line, Air air) {
            Offset offset = line.offset(place);
            return air.along(offset.course()).map(heading -> new OnLine(line, offset.alongTrackNm(), heading, air));
        }

        boolean isPastEnd() {
            return fromNm > line.lengthNm() + TurnStart.CONVERGED_NM;
        }

        /** So many seconds of it. */
        Stretch of(double seconds) {
            return line.fold(
                    straight -> new Stretch.OnCourse(straight, fromNm, heading, seconds),
                    arc -> new Stretch.OnArc(arc, fromNm, air, seconds));
        }

        double secondsToEnd() {
            return line.fold(
                    straight -> (straight.lengthNm() - fromNm) / heading.groundSpeedKt() * 3600,
                    arc -> new Stretch.OnArc(arc, fromNm, air, 0).secondsTo(arc.lengthNm()));
        }

        Position at(double s) {
            return of(s).at(s);
        }

        /** The correction for drift changes a little along a geodesic. */
        TrueDirection headingAt(double s) {
            return air.along(line.courseAt(fromNm + of(s).lengthNm(s)))
                    .map(GroundVector.HeadingForCourse::heading)
                    .orElse(heading.heading());
        }
    }
}
