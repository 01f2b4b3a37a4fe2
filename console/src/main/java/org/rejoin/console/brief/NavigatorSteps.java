package org.rejoin.console.brief;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.ComputedFix;
import org.rejoin.bridge.route.Course;
import org.rejoin.bridge.route.Leg;
import org.rejoin.console.words.RouteWords;
import org.rejoin.console.words.Words;

/** How such a route is put into a single GPS navigator, in general words, and what a step left out leads to. */
final class NavigatorSteps {

    private NavigatorSteps() {}

    static List<String> of(AmendedRoute route) {
        List<String> steps = new ArrayList<>();
        if (Brief.routeStays(route)) {
            return List.of(
                    route.clearance().disregards()
                            ? "Undo what was set for the clearance that is taken back: the next fix as filed is the active leg"
                                    + " again, and it sequences."
                            : "Leave it as it is.");
        }
        if (route.heading().isPresent() && route.courseLeg() != 0) {
            steps.add("Fly the heading first; the navigator can wait until the aircraft is turned.");
        }
        if (route.computedFix().isPresent() && route.course().isPresent()) {
            outbound(
                    route.course().get(),
                    route.computedFix().get(),
                    route.turnAtComputedFix().isPresent(),
                    steps);
        } else if (route.course().isPresent()
                && route.course().get().direction() == Course.Direction.TO
                && route.legs().get(route.courseLeg()) instanceof Leg.CourseToFix) {
            inbound(route.course().get(), route, steps);
        } else if (route.intercept().flatMap(met -> met.airwayLeg()).isPresent()) {
            airway(route, steps);
        } else if (route.legs().get(0) instanceof Leg.DirectToFix direct) {
            List<Waypoint> filed = route.filed().points();
            steps.add(
                    direct.to().equals(filed.get(filed.size() - 1))
                            ? "Go direct to " + direct.to().ident() + ", the end of the flight plan. Left out: the"
                                    + " navigator guides along a leg before it."
                            : filed.contains(direct.to())
                                    ? "Go direct to " + direct.to().ident()
                                            + " in the flight plan, not as a fix apart from it:"
                                            + " then the navigator goes on along the route after it. Left out: it stops guiding"
                                            + " at " + direct.to().ident() + "."
                                    : direct.to().ident()
                                            + " is not in the flight plan: insert it first, then go direct to it"
                                            + " there. Left out: the navigator does not know what follows it.");
        } else {
            onward(route, steps);
        }
        arcAndHold(route, steps);
        changes(route, steps);
        return steps;
    }

    /** The leg behind the heading and the arcs, where ATC has said it. */
    private static void onward(AmendedRoute route, List<String> steps) {
        Optional<Leg> next = route.legs().stream()
                .filter(leg -> !(leg instanceof Leg.DmeArc)
                        && leg.line().isPresent()
                        && leg.endsAt().isPresent())
                .findFirst();
        if (next.isEmpty()) {
            steps.add("Leave the flight plan as it is; nothing is to be set before ATC says how the route goes on.");
            return;
        }
        Leg leg = next.get();
        String to = leg.endsAt().orElseThrow().ident();
        boolean flown = route.legs().get(0).equals(leg)
                && leg instanceof Leg.TrackToFix track
                && route.filed().segments().stream()
                        .anyMatch(filed -> filed.from().equals(track.fromFix())
                                && filed.to().equals(track.to()));
        if (flown) {
            steps.add(
                    "Leave the leg to " + to + " the active one, and let it sequence: up to there nothing is changed.");
            return;
        }
        boolean arc = !route.arcs().isEmpty();
        steps.add(Words.say(
                "Hold the sequencing until %s; then make the leg to %s the active one and let it sequence again. Left out:"
                        + " the navigator guides along a leg that is no longer flown.",
                arc ? "you leave the arc" : "established", to));
    }

    private static void outbound(Course course, ComputedFix fix, boolean turns, List<String> steps) {
        String station = course.station().ident();
        String before = fix.segment().to().ident();
        steps.add(Words.say(
                "Select %s and set course %s. Left out: the needle shows another line, and you intercept that one.",
                station, Words.direction(course.courseToSet().deg())));
        steps.add("Hold the sequencing, so that it stays on this course. Left out: the navigator takes the station for"
                + " passed and jumps to the next leg of the old route.");
        steps.add(Words.say(
                "Make a fix where the lines cross: %s, %sor %s.",
                fix.fix().ident(),
                course.station().kind().hasDistance()
                        ? Words.say(
                                "or the %s at %.1f NM, ",
                                course.name(), fix.definitions().get(0).distanceNm())
                        : "",
                Words.place(fix.fix().position())));
        steps.add("Insert it in the flight plan directly before " + before
                + (turns
                        ? ". Left out: nothing tells you where to turn,"
                                + " and you ride the course across the airway; put in the wrong place, the navigator turns"
                                + " you the wrong way."
                        : ". Left out: nothing tells you where your clearance ends."));
        steps.add("Established on the course, make the leg to the new fix the active one and let it sequence again."
                + " Left out: "
                + (turns
                        ? "at the fix the navigator keeps the course and never turns onto the airway."
                        : "the navigator keeps the course past the fix."));
    }

    private static void inbound(Course course, AmendedRoute route, List<String> steps) {
        String station = course.station().ident();
        String setting = Words.direction(course.courseToSet().deg());
        steps.add(Words.say(
                "Select %s and set course %s TO it. Set to the radial, %s, the needle works backwards"
                        + " and the flag says FROM.",
                station, setting, Words.direction(course.radial().deg())));
        steps.add("Hold the sequencing until established. Left out: the navigator may go on to a leg that it thinks you"
                + " are on already.");
        steps.add("Established inbound, let it sequence again before " + station + ". Left out: it holds course "
                + setting
                + " beyond the station and never turns onto "
                + route.joinedAirway().orElse("the next leg") + ".");
    }

    private static void airway(AmendedRoute route, List<String> steps) {
        route.intercept().flatMap(met -> met.airwayLeg()).ifPresent(segment -> {
            if (!route.filed().points().contains(segment.from())) {
                steps.add("Insert " + segment.from().ident() + " directly before "
                        + segment.to().ident()
                        + ": you do not fly over it, but the leg you join begins there. Left out: there is no such leg to"
                        + " fly.");
            }
            steps.add("Make the leg " + segment.from().ident() + " to "
                    + segment.to().ident()
                    + " the active one. Left out: the needle shows the leg to a fix that is no longer flown.");
            steps.add("Do not go direct to " + segment.to().ident()
                    + ": that draws a new line from where you are, and the airway is never joined.");
            steps.add("Let it sequence: on the leg it goes on by itself at "
                    + segment.to().ident() + ". Held, it stays on this course beyond the fix.");
        });
    }

    private static void arcAndHold(AmendedRoute route, List<String> steps) {
        for (Leg leg : route.legs()) {
            if (leg instanceof Leg.DmeArc arc) {
                steps.add(Words.say(
                        "Tune the DME of %s and fly the arc by it; a navigator draws no arc that is not in a procedure."
                                + " Insert %s where the arc is left.",
                        arc.station().ident(), arc.to().ident()));
            }
        }
        route.holding()
                .ifPresent(hold -> steps.add(Words.say(
                        "Make a hold at %s: inbound course %s, %s turns, %s. Left out: it sequences past the fix and leads"
                                + " you out of the hold."
                                + (hold.once()
                                        ? " Inbound again, let it sequence: held, it takes you round once more."
                                        : ""),
                        hold.fix().ident(),
                        Angles.figures(hold.inbound().deg()),
                        Words.side(hold.right()),
                        hold.legNm().isPresent()
                                ? Words.say("%.0f mile legs", hold.legNm().getAsDouble())
                                : Words.say("%.1f minutes", hold.legMinutes().orElse(1)))));
    }

    /** What the flight plan has too many, and what it lacks. */
    private static void changes(AmendedRoute route, List<String> steps) {
        List<Waypoint> filed = route.filed().points();
        Waypoint before = null;
        for (Leg leg : route.legs()) {
            Waypoint to = leg.endsAt().orElse(null);
            boolean said = to == null
                    || (leg instanceof Leg.DirectToFix && leg == route.legs().get(0))
                    || (leg instanceof Leg.DmeArc)
                    || route.computedFix().filter(fix -> fix.fix().equals(to)).isPresent();
            if (to != null && !filed.contains(to) && !said) {
                steps.add("Insert " + to.ident() + (before == null ? " first" : " after " + before.ident())
                        + ": the flight plan has not got it.");
            }
            before = to == null ? before : to;
        }
        if (!route.skipped().isEmpty()) {
            steps.add(
                    "Delete " + RouteWords.skipped(route)
                            + ", no longer flown. Left in: the navigator may lead you back there; check which leg it guides along.");
        }
    }
}
