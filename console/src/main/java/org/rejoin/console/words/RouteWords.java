package org.rejoin.console.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.InTurn;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.clearance.Noted;
import org.rejoin.bridge.clearance.Phraseology;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Turn;
import org.rejoin.bridge.geo.Variation;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.ComputedFix;
import org.rejoin.bridge.route.Course;
import org.rejoin.bridge.route.CrossingPlan;
import org.rejoin.bridge.route.HeadingPlan;
import org.rejoin.bridge.route.Holding;
import org.rejoin.bridge.route.Intercept;
import org.rejoin.bridge.route.Leg;
import org.rejoin.bridge.route.RadialDistance;
import org.rejoin.bridge.route.Situation;
import org.rejoin.bridge.route.TurnToHeading;

/**
 * What a clearance came to, in words: heading, course to set, intercept, computed fix. Directions are magnetic first, as
 * they are flown, with the true one beside; a radial is named by its station.
 */
public final class RouteWords {

    /** Nearer than this to the inbound course of a hold, that is flown, degrees (common practice, no source). */
    private static final double INBOUND_DEG = 2;

    /** A line this long turns by less on its way; common practice, no source. */
    private static final double SAME_COURSE_DEG = 15;

    private RouteWords() {}

    /**
     * The amended route in a few short lines: heading, course to set, intercept, computed fix, points skipped, as far
     * as it has them. Where the clearance leaves the route as it is, that: what was worked out before is of another
     * moment.
     */
    public static List<String> lines(AmendedRoute route) {
        return lines(route, route.situation().heading());
    }

    /**
     * The same for an aircraft on a heading, from which the turn is said.
     *
     * @param present by the compass; empty where it is not known
     */
    public static List<String> lines(AmendedRoute route, Optional<MagneticDirection> present) {
        List<String> lines = new ArrayList<>();
        if (route.clearance().routeStays()) {
            lines.add("the route stays as it was");
        } else {
            route(route, present, lines);
        }
        speeds(route.clearance()).ifPresent(speeds -> lines.add("speed " + speeds));
        route.crossings().forEach(plan -> lines.add("cross " + String.join("; ", crossing(plan))));
        return lines;
    }

    private static void route(AmendedRoute route, Optional<MagneticDirection> present, List<String> lines) {
        route.heading()
                .ifPresent(plan -> lines.add(Words.say(
                        "heading %s (%s), track %s true, %.0f kt over the ground",
                        Angles.figures(plan.magnetic().deg()),
                        origin(plan),
                        Angles.figures(plan.ground().track().deg()),
                        plan.ground().groundSpeedKt())));
        present.flatMap(heading -> TurnToHeading.beginning(route, heading))
                .filter(turn -> turn.degrees() >= 1)
                .ifPresent(turn -> lines.add("turn " + turn(turn)));
        nothingFollows(route).ifPresent(lines::add);
        if (route.legs().get(0) instanceof Leg.DirectToFix direct) {
            lines.add("direct " + String.join("; ", direct(direct, route.situation())));
        }
        route.course().ifPresent(course -> lines.add("course to set " + toSet(course)));
        route.intercept().map(RouteWords::intercept).ifPresent(lines::add);
        route.arcs()
                .forEach(arc -> lines.add(Words.say(
                        "the %.0f mile arc of %s, %s to its %s %s, %.1f NM",
                        arc.distanceNm(),
                        arc.station().ident(),
                        wayRound(arc),
                        Angles.figures(arc.toRadial().deg()),
                        RadialDistance.word(arc.station()),
                        arc.path().lengthNm())));
        route.computedFix()
                .ifPresent(fix -> lines.add(Words.say(
                        "computed fix %s at %s on %s%s",
                        fix.fix().ident(),
                        Words.place(fix.fix().position()),
                        segment(fix.segment()),
                        route.turnAtComputedFix()
                                .map(at -> "; there " + turn(at))
                                .orElse(""))));
        route.holding().ifPresent(hold -> lines.add(hold(hold)));
        route.limit()
                .filter(limit -> !route.endsInHold())
                .ifPresent(limit -> lines.add("cleared no farther than " + limit.ident()));
        route.openEnd()
                .ifPresent(end -> lines.add("the route ends at " + end.ident() + ": ask how it goes on from there"));
        if (!route.skipped().isEmpty()) {
            lines.add("no longer flown: " + skipped(route));
        }
    }

    /** The turn that begins an amendment, as "right 74 degrees to heading 345, about 25 s at standard rate". */
    public static String turn(TurnToHeading turn) {
        return Words.say(
                "%s %s to heading %s, about %.0f s at standard rate%s",
                Words.side(turn.right()),
                Angles.degrees(turn.degrees()),
                Angles.figures(turn.heading().deg()),
                turn.seconds(),
                turn.longWay() ? ": the long way round" : "");
    }

    /** That a heading is all there is; empty where a line is to be met after it. */
    public static Optional<String> nothingFollows(AmendedRoute route) {
        return route.heading().isPresent()
                        && route.intercept().isEmpty()
                        && route.course().isEmpty()
                        && route.courseLeg() < 0
                ? Optional.of("nothing is to be intercepted: fly the heading until ATC says how the route goes on")
                : Optional.empty();
    }

    /** The way direct to a fix: course and distance, then the heading for it and the time, where the wind lets it be flown. */
    public static List<String> direct(Leg.DirectToFix direct, Situation situation) {
        List<String> said = new ArrayList<>();
        TrueDirection track = direct.path().initialCourse();
        said.add(Words.say(
                "%s: course %s from here, %.1f NM",
                direct.to().ident(),
                Angles.figures(track.toMagnetic(situation.variation()).deg()),
                direct.path().lengthNm()));
        situation
                .headingFor(track)
                .ifPresent(wind -> said.add(Words.say(
                        "heading for it %s, %s at %.0f kt over the ground",
                        Angles.figures(
                                wind.heading().toMagnetic(situation.variation()).deg()),
                        Words.minutes(direct.path().lengthNm() / wind.groundSpeedKt() * 60),
                        wind.groundSpeedKt())));
        return said;
    }

    /** An altitude to have at a place, then how far and how long it is to there, and what it takes. */
    public static List<String> crossing(CrossingPlan plan) {
        List<String> said = new ArrayList<>();
        said.add(Words.say(
                "%s %s %s",
                plan.place(),
                Phraseology.bound(plan.said().bound()),
                plan.said().figures()));
        plan.distanceNm()
                .ifPresent(nm -> said.add(Words.say(
                        "%.1f NM along the route%s",
                        nm,
                        plan.minutes().stream()
                                .mapToObj(minutes -> ", " + Words.minutes(minutes))
                                .collect(Collectors.joining()))));
        if (plan.distanceNm().isEmpty() && plan.leg() >= 0) {
            said.add("how you meet the route is not said, so neither distance nor rate can be told");
        }
        if (plan.ftPerNm().isPresent() && plan.ftPerNm().getAsDouble() > 0) {
            said.add(Words.say(
                    "that takes %s %.0f ft a mile%s",
                    plan.climb() ? "a climb of" : "a descent of",
                    plan.ftPerNm().getAsDouble(),
                    plan.ftPerMin().stream()
                            .mapToObj(feet -> Words.say(", %.0f ft a minute", feet))
                            .collect(Collectors.joining())));
        }
        return said;
    }

    private static String hold(Holding hold) {
        return Words.say(
                "hold%s at %s: inbound course %s, %s turns, %s; %s entry, heading %s; outbound heading %s%s",
                hold.once() ? " once" : "",
                hold.fix().ident(),
                Angles.figures(hold.inbound().deg()),
                Words.side(hold.right()),
                hold.legNm().isPresent()
                        ? Words.say("%.0f mile legs", hold.legNm().getAsDouble())
                        : Words.say("%.1f minutes inbound", hold.legMinutes().orElse(1)),
                hold.entry().name().toLowerCase(Locale.ROOT),
                Angles.figures(hold.entryHeadings().get(0).deg()),
                Angles.figures(hold.outboundHeading().deg()),
                hold.outboundSeconds().isPresent() ? " for " + outbound(hold) : "");
    }

    /**
     * The time outbound of a hold that has one, and from when it counts, as "54 s from wings level or abeam the fix,
     * whichever is later".
     */
    public static String outbound(Holding hold) {
        return Words.say(
                "%.0f s from wings level or abeam the fix, whichever is later",
                hold.outboundSeconds().orElseThrow());
    }

    /** Where a heading comes from: "assigned", "the heading you were on" or "proposed". */
    public static String origin(HeadingPlan plan) {
        return switch (plan.origin()) {
            case ASSIGNED -> "assigned";
            case PRESENT -> "the heading you were on; none was assigned";
            case PROPOSED -> "proposed; none was assigned";
        };
    }

    /** A course as it is set, as "246 TO PTL". */
    public static String toSet(Course course) {
        return Angles.figures(course.courseToSet().deg()) + " " + course.direction() + " "
                + course.station().ident();
    }

    /** Where the course is met, as worked out when the clearance was heard, and the turn onto it, in one line. */
    public static String intercept(Intercept met) {
        return Words.say(
                "you meet the course in %.1f NM (%s) at %s; turn %s, begin %.2f NM before it",
                met.distanceNm(),
                Words.minutes(met.minutes()),
                Angles.degrees(met.angleDeg()),
                Words.side(met.turnsRight()),
                met.standardTurnLeadNm());
    }

    /**
     * How the standard turn is flown at a speed.
     *
     * @param groundSpeedKt knots
     * @return "standard rate", or above some 170 kt the bank
     */
    public static String standardTurn(double groundSpeedKt) {
        return Turn.standardTurnRateDegPerS(groundSpeedKt) < Turn.STANDARD_RATE_DEG_PER_S
                ? Words.say("%.0f degrees of bank", Turn.STANDARD_BANK_DEG)
                : "standard rate";
    }

    /** A piece of the filed route, as "V40 between SKU and PRION". */
    public static String segment(FiledRoute.Segment segment) {
        return airway(segment) + " between " + segment.from().ident() + " and "
                + segment.to().ident();
    }

    /** What a piece of the filed route is called: its airway, or "the direct". */
    public static String airway(FiledRoute.Segment segment) {
        return segment.airway().orElse("the direct");
    }

    /** The turn at a computed fix, as "turn right 74 degrees". */
    public static String turn(ComputedFix fix) {
        return Words.say("turn %s %s", Words.side(fix.turnDeg()), Angles.degrees(Math.abs(fix.turnDeg())));
    }

    /** Which way round its station an arc is flown: a word, as ATC says it. */
    public static String wayRound(Leg.DmeArc arc) {
        return arc.path().clockwise() ? "clockwise" : "counterclockwise";
    }

    /** An assigned altitude, as "descend and maintain 5000 ft". */
    public static String altitude(Instruction.Maintain said) {
        return Phraseology.say(said).replaceFirst("maintain .*", "maintain " + said.figures())
                + (said.untilEstablished() ? " until established" : "");
    }

    /** An assigned altitude of a clearance, and until where it is, as "maintain 8000 ft until PRION". */
    public static String altitude(Instruction.Maintain said, Clearance clearance) {
        return altitude(said) + end(said, Noted.Until.What.ALTITUDE, clearance);
    }

    /** Where it ends, with a blank before it; an empty text where that is not said. Another of the same words may end elsewhere. */
    @SuppressWarnings("ReferenceEquality")
    private static String end(Instruction said, Noted.Until.What what, Clearance clearance) {
        List<Instruction> all = clearance.instructions();
        int at = 0;
        while (at < all.size() && all.get(at) != said) {
            at++;
        }
        for (Instruction each : all.subList(Math.min(at + 1, all.size()), all.size())) {
            if (each.getClass() == said.getClass()) {
                break;
            }
            if (InTurn.end(each, what).isPresent()) {
                return " "
                        + (each instanceof Noted.EstablishedOn on
                                        && on.line() instanceof Instruction.Until.AtAirway airway
                                ? "on " + airway.airway()
                                : Phraseology.say(each));
            }
        }
        return "";
    }

    /**
     * The altitudes of a clearance, one after the other, as "8000 ft", "8000 ft until PRION, then 10000 ft"; empty
     * where none is assigned.
     */
    public static Optional<String> altitudes(Clearance clearance) {
        List<String> all = new ArrayList<>();
        for (InTurn<Instruction.Maintain> each : clearance.altitudes()) {
            String from = all.isEmpty()
                    ? each.from().map(when -> when.begins() + ", ").orElse("")
                    : "then ";
            all.add(from
                    + each.said().figures()
                    + (each.said().untilEstablished() ? " until established" : "")
                    + end(each.said(), Noted.Until.What.ALTITUDE, clearance));
        }
        return all.isEmpty() ? Optional.empty() : Optional.of(String.join(", ", all));
    }

    /** An assigned speed by the airspeed indicator, as "120 knots or less". */
    public static String speed(Instruction.MaintainSpeed said) {
        String bound = said.bound() == Instruction.MaintainSpeed.Limit.EXACTLY
                ? ""
                : " " + said.bound().name().toLowerCase(Locale.ROOT).replace('_', ' ');
        return Words.say("%.0f knots%s", said.knots(), bound);
    }

    /** The speeds of a clearance, one after the other, as they are said; empty where none is assigned. */
    private static Optional<String> speeds(Clearance clearance) {
        List<String> all = clearance.all(Instruction.MaintainSpeed.class).stream()
                .map(said -> speed(said) + end(said, Noted.Until.What.SPEED, clearance) + ", by the airspeed indicator")
                .toList();
        return all.isEmpty() ? Optional.empty() : Optional.of(String.join(", then ", all));
    }

    /** The names of the points of the filed route that are no longer flown; an empty text if all are flown. */
    public static String skipped(AmendedRoute route) {
        return route.skipped().stream().map(Waypoint::ident).collect(Collectors.joining(", "));
    }

    /**
     * A course, degrees true where it is flown, as a pilot sets it on the route in force then, with what it is over the
     * ground; begins with "course".
     */
    public static String course(double trueDeg, Optional<AmendedRoute> route) {
        return "course "
                + route.filter(amended -> isToIntercept(trueDeg, amended))
                        .flatMap(AmendedRoute::firstCourse)
                        .map(course -> toSet(course) + " (" + Angles.figures(trueDeg) + " true)")
                        .orElseGet(() -> route.flatMap(AmendedRoute::holding)
                                .filter(hold ->
                                        Math.abs(Angles.turn(hold.inboundTrue().deg() - trueDeg)) < INBOUND_DEG)
                                .map(hold -> Angles.figures(hold.inbound().deg()) + " inbound to "
                                        + hold.fix().ident() + " (" + Angles.figures(trueDeg) + " true)")
                                .orElseGet(() -> magnetic(trueDeg, route)));
    }

    /** Whether a course is that of the line to intercept, and not of a leg after it. */
    private static boolean isToIntercept(double trueDeg, AmendedRoute route) {
        return route.courseLeg() >= 0
                && route.legs()
                        .get(route.courseLeg())
                        .groundPath()
                        .filter(line -> Math.abs(Angles.turn(line.finalCourse().deg() - trueDeg)) < SAME_COURSE_DEG)
                        .isPresent();
    }

    /**
     * A direction over the ground, degrees true, as a pilot reads it: magnetic first, by the variation where the course
     * of the route in force then is met, the true one beside; true only without a route.
     */
    public static String magnetic(double trueDeg, Optional<AmendedRoute> route) {
        String said = Angles.figures(trueDeg) + " true";
        return route.map(amended -> {
                    Variation variation = amended.situation()
                            .variationAt(amended.intercept()
                                    .map(Intercept::position)
                                    .orElse(amended.situation().position()));
                    return Angles.figures(new TrueDirection(trueDeg)
                                    .toMagnetic(variation)
                                    .deg())
                            + " magnetic (" + said + ")";
                })
                .orElse(said);
    }
}
