package org.rejoin.console.brief;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Offset;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.ComputedFix;
import org.rejoin.bridge.route.Course;
import org.rejoin.bridge.route.HeadingPlan;
import org.rejoin.bridge.route.HeadingRange;
import org.rejoin.bridge.route.Intercept;
import org.rejoin.bridge.route.Leg;
import org.rejoin.bridge.route.RadialDistance;
import org.rejoin.bridge.route.Situation;
import org.rejoin.bridge.route.TurnToHeading;
import org.rejoin.console.words.RouteWords;
import org.rejoin.console.words.Words;

/** What an instructor would say while drawing it: where you are, where the line is, where it leads. */
final class BriefPicture {

    private BriefPicture() {}

    static List<String> sentences(Brief brief) {
        AmendedRoute route = brief.route();
        List<String> said = new ArrayList<>();
        said.add(whereYouAre(brief));
        if (route.clearance().disregards()) {
            said.add("ATC takes the amendment back: what was cleared before it counts again.");
        }
        if (route.clearance().routeStays()) {
            said.add("The route does not change.");
        }
        route.course().ifPresent(course -> said.add(theLine(course, route)));
        Optional<String> nothing = RouteWords.nothingFollows(route);
        if (route.intercept().isPresent()) {
            said.add(howItIsMet(route.intercept().get(), route));
        } else if (nothing.isPresent()) {
            said.add(Words.sentence(nothing.get()) + ".");
        } else if (route.heading().isPresent() && route.courseLeg() > 0) {
            said.add(notMet(route));
        }
        if (route.course().isEmpty() && route.legs().get(0) instanceof Leg.DirectToFix direct) {
            said.add(Words.say(
                    "%s lies to the %s, %.1f NM away: %s.",
                    direct.to().ident(),
                    Words.compass(direct.path()
                            .initialCourse()
                            .toMagnetic(route.situation().variation())
                            .deg()),
                    direct.path().lengthNm(),
                    toFix(route)
                            .filter(turn -> turn.degrees() >= 1)
                            .map(turn -> Words.say(
                                    "%s%sturn %s by %s to it",
                                    route.assignedHeading()
                                            .map(plan -> "from heading "
                                                    + Angles.figures(
                                                            plan.magnetic().deg()) + " ")
                                            .orElse(""),
                                    turn.degrees() > 90
                                                    && route.assignedHeading().isEmpty()
                                            ? "it is behind you, "
                                            : "",
                                    Words.side(turn.right()),
                                    Angles.degrees(turn.degrees())))
                            .orElse("turn straight to it")));
        }
        route.arcs()
                .forEach(arc -> said.add(Words.say(
                        "You circle %s at %.0f miles, %s, for %.1f NM, and leave the arc at its %s %s.",
                        arc.station().ident(),
                        arc.distanceNm(),
                        arc.path().clockwise() ? "with it on your right" : "with it on your left",
                        arc.path().lengthNm(),
                        Angles.figures(arc.toRadial().deg()),
                        RadialDistance.word(arc.station()))));
        route.computedFix().ifPresent(fix -> said.add(theFix(fix, route)));
        route.holding()
                .ifPresent(hold -> said.add(Words.say(
                        hold.once()
                                ? "At %s you fly the hold once, %s of it, with %s turns, and go on; a %s entry."
                                : "At %s you hold, %s of it, with %s turns; a %s entry.",
                        hold.fix().ident(),
                        Words.compass(hold.inbound().reciprocal().deg()),
                        Words.side(hold.right()),
                        hold.entry().name().toLowerCase(java.util.Locale.ROOT))));
        route.limit()
                .filter(limit -> !route.endsInHold())
                .ifPresent(limit -> said.add(
                        "Your clearance ends at " + limit.ident() + ": ask for more before you are there, or hold."));
        route.openEnd()
                .ifPresent(end -> said.add("The cleared route ends at " + end.ident()
                        + ", which was not filed, and the controller has not said how it goes on: ask before you are"
                        + " there."));
        return said;
    }

    /** The turn to the fix of a direct; from the heading assigned until then, where one is. */
    private static Optional<TurnToHeading> toFix(AmendedRoute route) {
        return route.assignedHeading()
                .map(plan -> TurnToHeading.direct(route, plan.magnetic()))
                .orElseGet(route::turn);
    }

    private static String whereYouAre(Brief brief) {
        Position here = brief.route().situation().position();
        return brief.chart().stations().stream()
                .min(Comparator.comparingDouble(station -> station.position().distanceNm(here)))
                .map(station -> fromStation(station, here, brief.route().situation()))
                .orElseGet(() -> "You are at " + Words.place(here) + ".");
    }

    /** Sides of a station are named by its radials, as ATC names them. */
    private static String fromStation(Station station, Position here, Situation situation) {
        RadialDistance from = RadialDistance.of(station, here, situation);
        if (station.position().distanceNm(here) < 0.1) {
            return "You are over " + station.ident() + ".";
        }
        String radial = station.declination()
                .filter(declination -> station.kind().hasRadials())
                .map(declination ->
                        ", on its " + Words.direction(Math.rint(from.radial().deg())) + " radial")
                .orElse("");
        return Words.say(
                "You are %.1f NM %s of %s%s.",
                from.distanceNm(), Words.compass(from.radial().deg()), station.ident(), radial);
    }

    private static String theLine(Course course, AmendedRoute route) {
        String station = course.station().ident();
        GeodesicLine outbound = course.outbound();
        GeodesicLine flown = course.direction() == Course.Direction.FROM ? outbound : outbound.reversed();
        Offset offset = flown.offset(route.situation().position());
        String side = Math.abs(offset.crossTrackNm()) < 0.05
                ? "You are on it."
                : Words.say(
                        "Facing along the course, it lies %.1f NM to your %s.",
                        Math.abs(offset.crossTrackNm()), Words.side(-offset.crossTrackNm()));
        String name = course.name();
        if (course.direction() == Course.Direction.TO) {
            return Words.say(
                    "The %s is a line from %s toward the %s. You fly it inbound, TO the station, so the course to"
                            + " set is the other end of it, %s. %s",
                    name,
                    station,
                    Words.compass(course.radial().deg()),
                    Words.direction(course.courseToSet().deg()),
                    side);
        }
        return Words.say(
                "The %s is a line from %s toward the %s. You fly it outbound, FROM the station: the course to set is"
                        + " the %s itself. %s",
                name, station, Words.compass(course.radial().deg()), RadialDistance.word(course.station()), side);
    }

    private static String notMet(AmendedRoute route) {
        String heading =
                Words.direction(route.heading().orElseThrow().magnetic().deg());
        if (route.headingsThatMeet().isEmpty()) {
            return Words.say(
                    "Heading %s does not take you to it, and no other heading from here does at a sensible angle. Say so,"
                            + " and ask for direct a fix.",
                    heading);
        }
        return Words.say(
                "Heading %s does not take you to it. Say so, and ask for a heading that does: %s.",
                heading,
                route.headingsThatMeet().stream().map(HeadingRange::words).collect(Collectors.joining(", or ")));
    }

    private static String howItIsMet(Intercept met, AmendedRoute route) {
        HeadingPlan plan = route.heading().orElseThrow();
        String what = met.airwayLeg()
                .map(segment -> RouteWords.segment(segment))
                .orElseGet(() -> route.legs().get(Math.max(0, route.courseLeg())) instanceof Leg.DmeArc arc
                        ? Words.say(
                                "the %.0f mile arc about %s",
                                arc.distanceNm(), arc.station().ident())
                        : "it");
        if (met.distanceNm() < 0.05) {
            return "There is no intercept to fly: turn onto the course.";
        }
        String toward = met.airwayLeg()
                .map(segment -> " toward " + segment.to().ident())
                .orElse("");
        return Words.say(
                "Heading %s takes you to %s, %.1f NM ahead; there turn %s by %s%s.",
                Words.direction(plan.magnetic().deg()),
                what,
                met.distanceNm(),
                Words.side(met.turnsRight()),
                Angles.degrees(met.angleDeg()),
                toward);
    }

    private static String theFix(ComputedFix fix, AmendedRoute route) {
        boolean onArc = route.legs().stream()
                .anyMatch(leg -> leg instanceof Leg.DmeArc
                        && leg.endsAt().filter(fix.fix()::equals).isPresent());
        String where = Words.say(
                "The %s crosses %s between %s and %s where no fix is published: that crossing is the fix to make, %.1f"
                        + " NM from %s.",
                onArc ? "arc" : "course",
                RouteWords.airway(fix.segment()),
                fix.segment().from().ident(),
                fix.segment().to().ident(),
                fix.definitions().get(0).distanceNm(),
                fix.definitions().get(0).station().ident());
        if (route.turnAtComputedFix().isEmpty()) {
            return where;
        }
        return Words.say(
                "%s %s %s onto %s toward %s.",
                where,
                route.intercept().isPresent() ? "There turn" : "Once on the course, that is where to turn",
                Words.side(fix.turnDeg()),
                RouteWords.airway(fix.segment()),
                fix.segment().to().ident());
    }
}
