package org.rejoin.console.best;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleFunction;

import java.util.Locale;

import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.Offset;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.HeadingPlan;
import org.rejoin.bridge.route.Leg;
import org.rejoin.console.words.RouteWords;

/** Puts a {@link BestPath} together, stretch by stretch. Used once. */
final class PathPlan {

    /** From hearing the clearance to moving the controls, seconds: a quick pilot's; common practice, no source. */
    static final double REACTION_S = 5;

    /** A change of course smaller than this needs no lead, degrees. */
    private static final double NO_TURN_DEG = 0.5;

    /** Where the search for the start of a turn stops, nautical miles (0.2 mm). */
    private static final double CONVERGED_NM = 1e-7;

    private static final int MOST_STEPS = 60;

    /** Nobody flies a heading for longer, seconds. */
    private static final double LONGEST_S = 4 * 3600;

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
        turn(
                turnDeg,
                before,
                -1,
                "heading " + Angles.figures(plan.magnetic().deg()) + " magnetic",
                0);
        Position from = here();
        TrueDirection heading = stretches.get(stretches.size() - 1).endHeading();
        GroundVector ground = air.on(heading);
        return line(route.courseLeg()).filter(line -> {
            Stretch.OnHeading straight = new Stretch.OnHeading(from, heading, ground, 0);
            Optional<Start> start = turnStart(straight::at, straight::headingAt, line, LONGEST_S);
            start.ifPresent(at -> {
                add(new Stretch.OnHeading(from, heading, ground, at.seconds()));
                turn(
                        at.turnDeg(),
                        straight.headingAt(at.seconds()),
                        route.courseLeg(),
                        name(route.courseLeg()),
                        toLine(line));
            });
            return start.isPresent();
        });
    }

    /** As ATC said it, else the short way. */
    private double turnTo(TrueDirection before, TrueDirection wanted) {
        double shortWay = before.turnTo(wanted);
        Instruction.TurnDirection said = route.clearance()
                .first(Instruction.FlyHeading.class)
                .map(Instruction.FlyHeading::direction)
                .orElse(Instruction.TurnDirection.SHORTEST);
        return switch (said) {
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
        for (int i = 0; i < MOST_STEPS; i++) {
            Optional<GroundVector.HeadingForCourse> wanted =
                    air.along(rolledOut.to(fix.get()).initial());
            if (wanted.isEmpty()) {
                return Optional.empty();
            }
            turnDeg = before.turnTo(wanted.get().heading());
            Stretch.Turning turning = new Stretch.Turning(from, before, turnDeg, air);
            Position next = turning.at(turning.seconds());
            boolean settled = next.distanceNm(rolledOut) < CONVERGED_NM;
            rolledOut = next;
            if (settled) {
                break;
            }
        }
        if (rolledOut.distanceNm(fix.get()) < 0.1) {
            return Optional.empty();
        }
        turn(turnDeg, before, route.courseLeg(), name(route.courseLeg()), 0);
        return Optional.of(GeodesicLine.between(here(), fix.get()));
    }

    /** Along the course and round each fix, until the amendment is complete. */
    private Optional<BestPath> flyOn(GroundPath first) {
        int last = Math.max(
                Math.max(route.courseLeg(), route.resumesAt()),
                route.joinLegs().stream().findFirst().orElse(-1));
        GroundPath line = first;
        for (int leg = route.courseLeg(); ; leg++) {
            Offset offset = line.offset(here());
            Optional<GroundVector.HeadingForCourse> heading = air.along(offset.course());
            if (heading.isEmpty() || offset.alongTrackNm() > line.lengthNm() + CONVERGED_NM) {
                return Optional.empty();
            }
            double groundSpeed = heading.get().groundSpeedKt();
            if (leg == last) {
                return Optional.of(new BestPath(
                        route, heardS, turns, nowS, line, offset.alongTrackNm(), groundSpeed, lengthNm, stretches));
            }
            Optional<GroundPath> next = line(leg + 1);
            if (next.isEmpty() || !roundFix(line, offset.alongTrackNm(), heading.get(), next.get(), leg + 1)) {
                return Optional.empty();
            }
            line = next.get();
        }
    }

    private boolean roundFix(
            GroundPath line, double fromNm, GroundVector.HeadingForCourse heading, GroundPath next, int leg) {
        double toEndS = secondsToEnd(line, fromNm, heading);
        double change = Math.abs(line.finalCourse().turnTo(next.courseAt(0)));
        if (change < NO_TURN_DEG) {
            add(along(line, fromNm, heading, Math.max(0, toEndS)));
            return true;
        }
        DoubleFunction<Position> path = s -> along(line, fromNm, heading, s).at(s);
        // The correction for drift changes a little along a geodesic.
        DoubleFunction<TrueDirection> headings = s -> air.along(
                        line.courseAt(fromNm + along(line, fromNm, heading, s).lengthNm(s)))
                .map(GroundVector.HeadingForCourse::heading)
                .orElse(heading.heading());
        Optional<Start> start = turnStart(path, headings, next, toEndS);
        if (start.isEmpty()) {
            return false;
        }
        add(along(line, fromNm, heading, start.get().seconds()));
        turn(start.get().turnDeg(), headings.apply(start.get().seconds()), leg, name(leg), toLine(next));
        return true;
    }

    private Stretch along(GroundPath line, double fromNm, GroundVector.HeadingForCourse heading, double seconds) {
        return line.fold(
                straight -> new Stretch.OnCourse(straight, fromNm, heading, seconds),
                arc -> new Stretch.OnArc(arc, fromNm, air, seconds));
    }

    private double secondsToEnd(GroundPath line, double fromNm, GroundVector.HeadingForCourse heading) {
        return line.fold(
                straight -> (straight.lengthNm() - fromNm) / heading.groundSpeedKt() * 3600,
                arc -> new Stretch.OnArc(arc, fromNm, air, 0).secondsTo(arc.lengthNm()));
    }

    private record Start(double seconds, double turnDeg) {}

    /**
     * When to begin the turn so that it rolls out on a line: the zero of the distance from the line after the turn, which
     * is nearly linear in the time.
     */
    private Optional<Start> turnStart(
            DoubleFunction<Position> path, DoubleFunction<TrueDirection> headings, GroundPath line, double mostS) {
        double before = 0;
        double now = Math.min(10, mostS / 2);
        double missBefore = missNm(path.apply(before), headings.apply(before), line);
        double miss = missNm(path.apply(now), headings.apply(now), line);
        for (int i = 0; i < MOST_STEPS && Math.abs(miss) > CONVERGED_NM; i++) {
            double next = now - miss * (now - before) / (miss - missBefore);
            if (!(Math.abs(next) < 2 * LONGEST_S)) {
                return Optional.empty();
            }
            before = now;
            missBefore = miss;
            now = next;
            miss = missNm(path.apply(now), headings.apply(now), line);
        }
        if (!(Math.abs(miss) <= CONVERGED_NM && now >= 0 && now <= mostS)) {
            return Optional.empty();
        }
        return Optional.of(new Start(now, turnOnto(path.apply(now), headings.apply(now), line)));
    }

    private double missNm(Position from, TrueDirection heading, GroundPath line) {
        Stretch.Turning turning = new Stretch.Turning(from, heading, turnOnto(from, heading, line), air);
        return line.offset(turning.at(turning.seconds())).crossTrackNm();
    }

    /** The turn to the heading that makes good the course where the turn ends. */
    private double turnOnto(Position from, TrueDirection heading, GroundPath line) {
        TrueDirection course = line.offset(from).course();
        double turnDeg = 0;
        for (int i = 0; i < 3; i++) {
            TrueDirection wanted = air.along(course)
                    .map(GroundVector.HeadingForCourse::heading)
                    .orElse(course);
            turnDeg = heading.turnTo(wanted);
            Stretch.Turning turning = new Stretch.Turning(from, heading, turnDeg, air);
            course = line.offset(turning.at(turning.seconds())).course();
        }
        return turnDeg;
    }

    private Optional<GroundPath> line(int leg) {
        return leg < route.legs().size() ? route.legs().get(leg).groundPath() : Optional.empty();
    }

    private double toLine(GroundPath line) {
        return Math.abs(line.offset(here()).crossTrackNm());
    }

    private String name(int index) {
        Leg leg = route.legs().get(index);
        if (leg instanceof Leg.DmeArc arc) {
            return String.format(
                    Locale.ROOT, "the %s %.0f mile arc", arc.station().ident(), arc.distanceNm());
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
}
