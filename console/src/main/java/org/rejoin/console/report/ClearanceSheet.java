package org.rejoin.console.report;

import java.util.List;
import java.util.stream.Collectors;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.ComputedFix;
import org.rejoin.bridge.route.Course;
import org.rejoin.bridge.route.HeadingPlan;
import org.rejoin.bridge.route.Intercept;
import org.rejoin.bridge.route.Warning;
import org.rejoin.console.log.EventText;

/** A clearance in ATC's words, and what had to be worked out from it. */
final class ClearanceSheet {

    private final Markup out;
    private final Entry.Issued amended;
    private final AmendedRoute route;

    ClearanceSheet(Markup out, Entry.Issued amended) {
        this.out = out;
        this.amended = amended;
        this.route = amended.route();
    }

    void write() {
        out.element("blockquote", "\u201c" + route.clearance().text() + "\u201d");
        out.start("dl", "class", "worked");
        row(
                "Issued",
                EventText.clock(amended.timeS()) + " after the first sample, at "
                        + Figures.place(route.situation().position()));
        route.heading().ifPresent(this::heading);
        route.course().ifPresent(this::course);
        route.intercept().ifPresent(this::intercept);
        route.computedFix().ifPresent(this::computedFix);
        route.clearance().altitudeFt().ifPresent(feet -> row("Altitude", Figures.say("%.0f ft", feet)));
        row("Route now", onward());
        row(
                "Skipped",
                route.skipped().isEmpty()
                        ? "nothing of the filed route"
                        : route.skipped().stream().map(Waypoint::ident).collect(Collectors.joining(", "))
                                + ": no longer flown");
        route.clearance().notes().forEach(note -> row("Note", note));
        if (route.warnings().isEmpty()) {
            row("Warnings", "none");
        }
        for (Warning warning : route.warnings()) {
            row("Warning", words(warning.code()) + ": " + warning.text());
        }
        out.endLine();
    }

    private static String words(Warning.Code code) {
        return code.name().replace('_', ' ').toLowerCase(java.util.Locale.ROOT);
    }

    private void heading(HeadingPlan plan) {
        String who = switch (plan.origin()) {
            case ASSIGNED -> "assigned";
            case PRESENT -> "the heading flown then; none was assigned";
            case PROPOSED -> "proposed here; none was assigned";
        };
        double variation = route.situation().variation().eastDeg();
        row(
                "Heading",
                Figures.say(
                        "%s magnetic (%s), %s true: variation %.1f %s",
                        Angles.figures(plan.magnetic().deg()),
                        who,
                        Figures.tenths(plan.headingTrue().deg()),
                        Math.abs(variation),
                        variation < 0 ? "west" : "east"));
        row(
                "Over the ground",
                Figures.say(
                        "track %s true at %.0f kt in the wind of the lesson",
                        Figures.tenths(plan.ground().track().deg()),
                        plan.ground().groundSpeedKt()));
    }

    private void course(Course course) {
        String radial = PlanLines.radialName(course);
        String frequency = course.station().frequencyMhz().isEmpty()
                ? ""
                : course.station().kind() == Station.Kind.NDB
                        ? Figures.say(
                                ", %.0f kHz", course.station().frequencyMhz().getAsDouble() * 1000)
                        : Figures.say(
                                ", %.2f MHz", course.station().frequencyMhz().getAsDouble());
        row(
                "Course to set",
                Angles.figures(course.courseToSet().deg()) + " " + course.direction() + " "
                        + course.station().ident() + " (" + course.station().name() + frequency + "): the " + radial
                        + (course.direction() == Course.Direction.TO
                                ? " flown inbound, so its reciprocal"
                                : " flown outbound, so the radial itself"));
    }

    private void intercept(Intercept met) {
        String where = met.airwayLeg()
                .map(leg -> leg.airway().orElse("the direct") + " between "
                        + leg.from().ident() + " and " + leg.to().ident() + ", ")
                .orElse("");
        row(
                "Intercept",
                where
                        + Figures.say(
                                "%.1f NM ahead, %s; %.0f degrees, turn %s onto %s true",
                                met.distanceNm(),
                                Figures.minutes(met.minutes()),
                                met.angleDeg(),
                                met.turnsRight() ? "right" : "left",
                                Figures.tenths(met.course().deg())));
        row(
                "Lead",
                Figures.say("%.2f NM before the line, for a turn at standard rate (3 degrees a second)", met.leadNm()));
    }

    private void computedFix(ComputedFix fix) {
        out.element("dt", "Computed fix");
        out.start("dd")
                .text(Figures.say(
                        "%s at %s, where the radial crosses %s between %s and %s at %.0f degrees; turn %s %.0f degrees there",
                        fix.fix().ident(),
                        Figures.place(fix.fix().position()),
                        fix.segment().airway().orElse("the direct"),
                        fix.segment().from().ident(),
                        fix.segment().to().ident(),
                        fix.crossingAngleDeg(),
                        Figures.side(fix.turnDeg()),
                        Math.abs(fix.turnDeg())));
        out.start("ul");
        for (ComputedFix.Definition definition : fix.definitions()) {
            out.element("li", definition(definition));
        }
        out.end().end();
    }

    private static String definition(ComputedFix.Definition definition) {
        boolean distance = definition.station().kind().hasDistance();
        return Figures.say(
                "%s radial %s, %.1f NM%s: %s",
                definition.station().ident(),
                Figures.tenths(definition.radial().deg()),
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

    private void row(String name, String text) {
        out.element("dt", name);
        out.element("dd", text);
    }

    /** What the pilot was asked to do, in a sentence. */
    static String job(AmendedRoute route) {
        StringBuilder said = new StringBuilder();
        route.assignedHeading()
                .ifPresent(plan -> said.append("fly heading ")
                        .append(Angles.figures(plan.magnetic().deg()))
                        .append(", "));
        if (route.course().isPresent()) {
            Course course = route.course().get();
            said.append("intercept the ")
                    .append(PlanLines.radialName(course))
                    .append(course.direction() == Course.Direction.TO ? " inbound to " : " outbound from ")
                    .append(course.station().ident())
                    .append(" on course ")
                    .append(Angles.figures(course.courseToSet().deg()))
                    .append(", ");
        } else {
            route.intercept()
                    .flatMap(Intercept::airwayLeg)
                    .ifPresent(leg -> said.append("intercept ")
                            .append(leg.airway().orElse("the direct"))
                            .append(" between ")
                            .append(leg.from().ident())
                            .append(" and ")
                            .append(leg.to().ident())
                            .append(", "));
        }
        route.computedFix()
                .ifPresent(fix -> said.append("turn ")
                        .append(Figures.side(fix.turnDeg()))
                        .append(" at a fix that is on no chart (")
                        .append(fix.fix().ident())
                        .append("), "));
        route.joinedAirway()
                .ifPresent(airway -> said.append(route.course().isPresent() ? "join " + airway + ", " : ""));
        if (said.isEmpty()) {
            route.legs().stream()
                    .flatMap(leg -> leg.endsAt().stream())
                    .findFirst()
                    .ifPresent(end -> said.append("go to ").append(end.ident()).append(", "));
        }
        String end = route.resumesAt() >= 0 ? "then go on as filed" : "then as ATC says";
        return said + end + ".";
    }
}
