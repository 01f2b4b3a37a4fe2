package org.rejoin.console.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.InTurn;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.clearance.Phraseology;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.ComputedFix;
import org.rejoin.bridge.route.Course;
import org.rejoin.bridge.route.CrossingPlan;
import org.rejoin.bridge.route.HeadingPlan;
import org.rejoin.bridge.route.Holding;
import org.rejoin.bridge.route.Intercept;
import org.rejoin.bridge.route.Leg;
import org.rejoin.bridge.route.RadialDistance;
import org.rejoin.bridge.route.Warning;
import org.rejoin.console.draw.Markup;
import org.rejoin.console.log.EventText;
import org.rejoin.console.words.RouteWords;
import org.rejoin.console.words.Words;

/**
 * A clearance in ATC's words, and what had to be worked out from it.
 *
 * @param takenBack when, and what was in force then: whoever signs must see what was in force no longer
 */
record ClearanceSheet(Markup out, Entry.Issued amended, AmendedRoute route, Optional<String> takenBack) {

    void write() {
        out.element("blockquote", "\u201c" + route.clearance().words() + "\u201d");
        out.start("dl", "class", "worked");
        if (route.clearance().routeStays()) {
            beside();
            return;
        }
        out.entry(issued(), clock() + ", at " + Words.place(route.situation().position()));
        takenBack.ifPresent(said -> out.entry("Taken back", said));
        route.heading().ifPresent(this::heading);
        route.course().ifPresent(this::course);
        route.intercept().ifPresent(this::intercept);
        route.computedFix().ifPresent(this::computedFix);
        route.arcs().forEach(this::arc);
        route.holding().ifPresent(this::hold);
        route.limit().ifPresent(fix -> out.entry("Limit", fix.ident() + ": cleared no farther"));
        route.openEnd()
                .ifPresent(fix -> out.entry("Ends", fix.ident() + ": how the route goes on was to be asked for"));
        route.crossings().forEach(this::crossing);
        RouteWords.altitudes(route.clearance()).ifPresent(words -> out.entry("Altitude", words));
        out.entry("Route now", onward());
        out.entry(
                "Skipped",
                route.skipped().isEmpty()
                        ? "nothing of the filed route"
                        : RouteWords.skipped(route) + ": no longer flown");
        route.clearance().notes().forEach(note -> out.entry("Note", note));
        if (route.warnings().isEmpty()) {
            out.entry("Warnings", "none");
        }
        for (Warning warning : route.warnings()) {
            out.entry("Warning", words(warning.code()) + ": " + warning.text());
        }
        out.endLine();
    }

    /** It leaves the route as it is: what was worked out for the route before was worked out from another place. */
    private void beside() {
        out.entry(issued(), clock());
        takenBack.ifPresent(said -> out.entry("Taken back", said));
        RouteWords.altitudes(route.clearance()).ifPresent(words -> out.entry("Altitude", words));
        route.crossings().forEach(this::crossing);
        out.entry("Route now", "as before: nothing of it changes");
        route.clearance().notes().forEach(note -> out.entry("Note", note));
        out.endLine();
    }

    private String issued() {
        return amended.asBefore() ? "As cleared before, in force again" : "Issued";
    }

    private String clock() {
        return Words.clock(amended.timeS()) + " after the first sample";
    }

    private static String words(Warning.Code code) {
        return code.name().replace('_', ' ').toLowerCase(java.util.Locale.ROOT);
    }

    private void heading(HeadingPlan plan) {
        out.entry(
                "Heading",
                Words.say(
                        "%s magnetic (%s), %s true: variation %s",
                        Angles.figures(plan.magnetic().deg()),
                        RouteWords.origin(plan),
                        Words.tenths(plan.headingTrue().deg()),
                        Words.variation(route.situation().variation().eastDeg())));
        out.entry(
                "Over the ground",
                Words.say(
                        "track %s true at %.0f kt in the wind of the lesson",
                        Words.tenths(plan.ground().track().deg()), plan.ground().groundSpeedKt()));
    }

    private void course(Course course) {
        String frequency = course.station().frequencyMhz().stream()
                .mapToObj(mhz -> ", " + Words.frequency(course.station().kind(), mhz))
                .collect(Collectors.joining());
        out.entry(
                "Course to set",
                RouteWords.toSet(course) + " (" + course.station().name() + frequency + "): the " + course.name()
                        + (course.direction() == Course.Direction.TO
                                ? " flown inbound, so its reciprocal"
                                : " flown outbound, so the radial itself"));
    }

    private void intercept(Intercept met) {
        String where =
                met.airwayLeg().map(leg -> RouteWords.segment(leg) + ", ").orElse("");
        out.entry(
                "Intercept",
                where
                        + Words.say(
                                "%.1f NM ahead, %s; %s, turn %s onto %s true",
                                met.distanceNm(),
                                Words.minutes(met.minutes()),
                                Angles.degrees(met.angleDeg()),
                                Words.side(met.turnsRight()),
                                Words.tenths(met.course().deg())));
        double leadNm = met.standardTurnLeadNm();
        out.entry(
                "Lead",
                Words.say(
                        "%.2f NM before the line, for a turn %s",
                        leadNm,
                        leadNm > met.leadNm()
                                ? "with 25 degrees of bank (3 degrees a second would need more)"
                                : "at standard rate (3 degrees a second)"));
    }

    private void computedFix(ComputedFix fix) {
        out.element("dt", "Computed fix");
        out.start("dd")
                .text(Words.say(
                        "%s at %s, where the %s crosses %s at %s%s",
                        fix.fix().ident(),
                        Words.place(fix.fix().position()),
                        route.arcs().isEmpty() ? "radial" : "arc or radial",
                        RouteWords.segment(fix.segment()),
                        Angles.degrees(fix.crossingAngleDeg()),
                        route.turnAtComputedFix()
                                .map(turn -> "; " + RouteWords.turn(turn) + " there")
                                .orElse("")));
        out.start("ul");
        for (ComputedFix.Definition definition : fix.definitions()) {
            out.element("li", definition(definition));
        }
        out.end().end();
    }

    private void arc(Leg.DmeArc arc) {
        out.entry(
                "Arc",
                Words.say(
                        "%.0f NM by the DME of %s, %s, from its %s to its %s %s, %.1f NM; tolerance 1 NM",
                        arc.distanceNm(),
                        arc.station().ident(),
                        RouteWords.wayRound(arc),
                        Angles.figures(arc.fromRadial().deg()),
                        Angles.figures(arc.toRadial().deg()),
                        RadialDistance.word(arc.station()),
                        arc.path().lengthNm()));
    }

    private void hold(Holding hold) {
        out.entry(
                "Hold",
                Words.say(
                        "%sat %s on %s: inbound course %s, %s turns, %s; %s, heading %s; outbound heading %s%s; at most %.0f kt%s",
                        hold.once() ? "once " : "",
                        hold.fix().ident(),
                        hold.line(),
                        Angles.figures(hold.inbound().deg()),
                        Words.side(hold.right()),
                        hold.legNm().isPresent()
                                ? Words.say("%.0f NM legs", hold.legNm().getAsDouble())
                                : Words.say(
                                        "%.1f minutes inbound",
                                        hold.legMinutes().orElse(1)),
                        EventText.word(hold.entry()),
                        Angles.figures(hold.entryHeadings().get(0).deg()),
                        Angles.figures(hold.outboundHeading().deg()),
                        hold.outboundSeconds().isPresent() ? " for " + RouteWords.outbound(hold) : "",
                        hold.maximumSpeedKt(),
                        hold.expectFurtherClearance()
                                .map(time -> "; further clearance expected at " + time)
                                .orElse("")));
    }

    private void crossing(CrossingPlan plan) {
        String bound = Phraseology.bound(plan.said().bound());
        out.entry(
                "Crossing",
                Words.say("%s %s %.0f ft", plan.place(), bound, plan.said().feet())
                        + (plan.ftPerMin().isPresent() && plan.ftPerMin().getAsDouble() >= 1
                                ? Words.say(
                                        ": %.0f ft/min %s from where it was heard",
                                        plan.ftPerMin().getAsDouble(), plan.climb() ? "up" : "down")
                                : ""));
    }

    private static String definition(ComputedFix.Definition definition) {
        boolean distance = definition.station().kind().hasDistance();
        return Words.say(
                "%s %s %s, %.1f NM%s: %s",
                definition.station().ident(),
                RadialDistance.word(definition.station()),
                Words.tenths(definition.radial().deg()),
                definition.distanceNm(),
                distance ? "" : " away (no DME)",
                definition.reason());
    }

    private String onward() {
        List<String> ends = route.legs().stream()
                .skip(Math.max(0, route.courseLeg()))
                .flatMap(leg -> leg.endsAt().stream()
                        .map(end -> leg.airway().map(airway -> airway + " to ").orElse("") + end.ident()))
                .toList();
        return (ends.isEmpty() ? "the heading, until ATC says more" : String.join(", then ", ends))
                + (route.resumesAt() >= 0 ? " (as filed again)" : "");
    }

    /** What the pilot was asked to do, in a sentence. */
    static String job(AmendedRoute route) {
        Clearance clearance = route.clearance();
        List<String> asked = new ArrayList<>();
        if (!clearance.routeStays()) {
            asked.add(way(route) + end(route));
        }
        List<InTurn<Instruction.Maintain>> altitudes = clearance.altitudes();
        for (InTurn<Instruction.Maintain> each : altitudes) {
            String from = each.from().isEmpty()
                    ? ""
                    : each.equals(altitudes.get(0)) ? each.from().get().begins() + ", " : "then ";
            asked.add(from + RouteWords.altitude(each.said(), clearance));
        }
        clearance
                .speeds()
                .forEach(each ->
                        asked.add(each.from().map(when -> when.begins() + ", ").orElse("") + speed(each.said())));
        return (asked.isEmpty() ? "the route stays as it was" : String.join("; ", asked)) + ".";
    }

    private static String speed(Instruction.Speed said) {
        return said instanceof Instruction.MaintainSpeed speed ? RouteWords.speed(speed) : Phraseology.say(said);
    }

    /** The way of the amendment up to where it ends. */
    private static String way(AmendedRoute route) {
        StringBuilder said = new StringBuilder();
        route.assignedHeading()
                .ifPresent(plan -> said.append(turn(route.clearance()))
                        .append(Angles.figures(plan.magnetic().deg()))
                        .append(", "));
        if (route.course().isPresent()) {
            Course course = route.course().get();
            said.append("intercept the ")
                    .append(course.name())
                    .append(course.direction() == Course.Direction.TO ? " inbound to " : " outbound from ")
                    .append(course.station().ident())
                    .append(" on course ")
                    .append(Angles.figures(course.courseToSet().deg()))
                    .append(", ");
        } else {
            route.intercept()
                    .flatMap(Intercept::airwayLeg)
                    .ifPresent(leg -> said.append("intercept ")
                            .append(RouteWords.segment(leg))
                            .append(", "));
        }
        route.arcs()
                .forEach(arc -> said.append(
                        Words.say("fly the %s %.0f mile arc, ", arc.station().ident(), arc.distanceNm())));
        route.computedFix()
                .ifPresent(fix -> said.append(route.turnAtComputedFix()
                                .map(turn -> "turn " + Words.side(turn.turnDeg()) + " at")
                                .orElse("to"))
                        .append(" a fix that is on no chart (")
                        .append(fix.fix().ident())
                        .append("), "));
        route.joinedAirway()
                .ifPresent(airway -> said.append(route.course().isPresent() ? "join " + airway + ", " : ""));
        for (Instruction.Direct direct : route.clearance().all(Instruction.Direct.class)) {
            said.append(said.isEmpty() ? "go direct to " : "then direct to ")
                    .append(direct.to().ident())
                    .append(", ");
        }
        if (said.isEmpty()) {
            route.legs().stream()
                    .flatMap(leg -> leg.endsAt().stream())
                    .findFirst()
                    .ifPresent(end -> said.append("go to ").append(end.ident()).append(", "));
        }
        route.holding()
                .ifPresent(hold -> said.append(hold.once() ? "fly the hold once at " : "hold at ")
                        .append(hold.fix().ident())
                        .append(", "));
        return said.toString();
    }

    /** The beginning of the words for a heading: the way round, where ATC said it. */
    private static String turn(Clearance clearance) {
        Instruction.TurnDirection way = clearance
                .first(Instruction.FlyHeading.class)
                .map(Instruction.FlyHeading::direction)
                .or(() -> clearance.first(Instruction.TurnBy.class).map(Instruction.TurnBy::direction))
                .orElse(Instruction.TurnDirection.SHORTEST);
        return switch (way) {
            case LEFT -> "turn left to heading ";
            case RIGHT -> "turn right to heading ";
            case SHORTEST -> "fly heading ";
        };
    }

    private static String end(AmendedRoute route) {
        if (route.endsInHold()) {
            return "until ATC says more";
        }
        if (route.departHeading().isPresent()) {
            return "then heading " + Angles.figures(route.departHeading().get().deg());
        }
        return route.limit()
                .map(limit -> "no farther than " + limit.ident())
                .or(() -> route.openEnd().map(end -> "to " + end.ident() + ", and ask for more"))
                .orElse(route.resumesAt() >= 0 ? "then go on as filed" : "then as ATC says");
    }
}
