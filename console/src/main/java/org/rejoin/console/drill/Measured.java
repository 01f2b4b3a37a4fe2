package org.rejoin.console.drill;

import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Course;
import org.rejoin.bridge.route.HeadingPlan;
import org.rejoin.bridge.route.Holding;
import org.rejoin.bridge.route.Intercept;
import org.rejoin.bridge.route.Leg;
import org.rejoin.bridge.route.Situation;
import org.rejoin.console.skill.Features;
import org.rejoin.console.skill.Line;
import org.rejoin.console.skill.Shape;

/** The features of a clearance, read off the route that the program worked out. */
public final class Measured {

    /** Within this of the wrong way along the line the present heading is a trap, degrees; judgement. */
    private static final double TRAP_DEG = 60;

    /** Stations that sound alike within this distance are mixed up, nautical miles; judgement. */
    private static final double ALIKE_NM = 40;

    /** Nearer an aircraft is at its altitude, feet (the standard allows 100; twice that for one that settles). */
    private static final double LEVEL_FT = 200;

    private Measured() {}

    /**
     * Reads the features off a route that was worked out on this chart from where the clearance was heard; the present
     * heading is that before it, empty where not known. Empty where the clearance leads to no line.
     */
    public static Optional<Features> of(AmendedRoute route, Chart chart, Optional<MagneticDirection> present) {
        if (route.intercept().isEmpty() || route.heading().isEmpty() || route.courseLeg() < 0) {
            return Optional.empty();
        }
        Intercept met = route.intercept().get();
        HeadingPlan plan = route.heading().get();
        Wind wind = route.situation().wind();
        TrueDirection reverse = met.course().reciprocal();
        boolean trap = present.map(heading -> heading.toTrue(route.situation().variation()))
                .map(heading -> Math.abs(heading.turnTo(reverse)) < TRAP_DEG)
                .orElse(false);
        Clearance clearance = route.clearance();
        return Optional.of(new Features(
                shape(route),
                met.angleDeg(),
                met.minutes(),
                Math.abs(wind.speedKt() * Math.sin(Math.toRadians(met.course().turnTo(wind.from())))),
                -wind.speedKt() * Math.cos(Math.toRadians(plan.ground().track().turnTo(wind.from()))),
                turnAtEnd(route),
                met.turnDeg(),
                present.map(heading -> heading.turnTo(plan.magnetic())).orElse(0.0),
                trap,
                route.course()
                        .map(course -> StationLines.isNdb(course.station()))
                        .orElse(false),
                route.course().map(course -> lookAlike(course.station(), chart)).orElse(false),
                out(route),
                extras(clearance, route.situation()),
                route.holding().map(Holding::entry).map(Measured::entry)));
    }

    private static Features.Entry entry(Holding.Entry entry) {
        return switch (entry) {
            case DIRECT -> Features.Entry.DIRECT;
            case TEARDROP -> Features.Entry.TEARDROP;
            case PARALLEL -> Features.Entry.PARALLEL;
        };
    }

    /** The line that a clearance leads to. */
    static Line line(AmendedRoute route) {
        OptionalDouble heading = OptionalDouble.empty();
        String airway = "";
        for (Instruction instruction : route.clearance().instructions()) {
            if (instruction instanceof Instruction.FlyHeading fly) {
                heading = OptionalDouble.of(fly.heading().deg());
            } else if (instruction instanceof Instruction.JoinAirway join) {
                airway = join.airway();
            } else if (instruction instanceof Instruction.InterceptAirway intercept) {
                airway = intercept.airway();
            }
        }
        OptionalDouble radial = route.course().stream()
                .mapToDouble(course -> course.radial().deg())
                .findFirst();
        return new Line(radial, heading, airway);
    }

    private static Shape shape(AmendedRoute route) {
        if (route.holding().isPresent()) {
            return Shape.HOLD;
        }
        if (route.legs().get(route.courseLeg()) instanceof Leg.DmeArc) {
            return Shape.ARC;
        }
        if (secondCourse(route).isPresent()) {
            return Shape.RADIALS;
        }
        return route.course()
                .map(Course::direction)
                .map(direction -> direction == Course.Direction.TO ? Shape.B : Shape.C)
                .orElse(Shape.A);
    }

    /** The radial that another one was left at: the leg along it, TO its station. */
    static Optional<Leg.CourseToFix> secondCourse(AmendedRoute route) {
        int next = route.courseLeg() + 1;
        return route.course().isPresent()
                        && next < route.legs().size()
                        && route.legs().get(next) instanceof Leg.CourseToFix second
                ? Optional.of(second)
                : Optional.empty();
    }

    static OptionalDouble turnAtEnd(AmendedRoute route) {
        int next = route.courseLeg() + 1;
        if (next >= route.legs().size()) {
            return OptionalDouble.empty();
        }
        Optional<GroundPath> now = route.legs().get(route.courseLeg()).groundPath();
        Optional<GroundPath> then = route.legs().get(next).groundPath();
        return now.isPresent() && then.isPresent()
                ? OptionalDouble.of(now.get()
                        .courseAt(now.get().lengthNm())
                        .turnTo(then.get().courseAt(route.legs().get(next).joinedAtNm())))
                : OptionalDouble.empty();
    }

    private static OptionalDouble out(AmendedRoute route) {
        if (route.course().isEmpty()) {
            return OptionalDouble.empty();
        }
        Station station = route.course().get().station();
        double met = route.intercept().orElseThrow().position().distanceNm(station.position());
        double fix = route.computedFix()
                .map(each -> each.fix().position().distanceNm(station.position()))
                .orElse(0.0);
        double left = route.legs()
                .get(route.courseLeg())
                .groundPath()
                .map(path -> path.end().distanceNm(station.position()))
                .orElse(0.0);
        return OptionalDouble.of(Math.max(met, Math.max(fix, left)));
    }

    /** An altitude that the aircraft has already asks nothing more of the pilot. */
    private static int extras(Clearance clearance, Situation now) {
        int extras = 0;
        for (Instruction instruction : clearance.instructions()) {
            if (instruction instanceof Instruction.Maintain maintain) {
                boolean there = Math.abs(now.altitudeFt().orElse(Double.MAX_VALUE) - maintain.feet()) < LEVEL_FT;
                extras += (there ? 0 : 1) + (maintain.untilEstablished() ? 1 : 0);
            } else if (instruction instanceof Instruction.Assignment) {
                extras++;
            }
        }
        return extras;
    }

    private static boolean lookAlike(Station station, Chart chart) {
        return chart.stations().stream()
                .filter(other -> !other.equals(station) && soundsAlike(station, other))
                .anyMatch(other -> other.position().isWithin(ALIKE_NM, station.position()));
    }

    /** Spoken names that begin alike, or idents that differ in one letter; judgement. */
    static boolean soundsAlike(Station one, Station other) {
        String first = one.name().toUpperCase(Locale.ROOT);
        String second = other.name().toUpperCase(Locale.ROOT);
        boolean named = !first.equals(one.ident()) && first.length() > 2;
        if (named && second.startsWith(first.substring(0, 3))) {
            return true;
        }
        if (one.ident().length() != other.ident().length()) {
            return false;
        }
        return IntStream.range(0, one.ident().length())
                        .filter(i -> one.ident().charAt(i) != other.ident().charAt(i))
                        .count()
                <= 1;
    }
}
