package org.rejoin.console.brief;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Turn;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.ComputedFix;
import org.rejoin.bridge.route.Course;
import org.rejoin.bridge.route.HeadingPlan;
import org.rejoin.bridge.route.Holding;
import org.rejoin.bridge.route.Intercept;
import org.rejoin.bridge.route.Leg;
import org.rejoin.bridge.route.MadeFix;
import org.rejoin.bridge.route.PublishedCourse;
import org.rejoin.bridge.route.RadialDistance;
import org.rejoin.console.words.RouteWords;
import org.rejoin.console.words.Words;

/** What is done in the cockpit for a clearance, step by step, in the order in which it is done. */
record CockpitSteps(Brief brief, AmendedRoute route, BriefText.Lines out) {

    void write() {
        route.heading().filter(plan -> Brief.headingIsFlown(route)).ifPresent(this::heading);
        route.turn().filter(turn -> turn.degrees() >= 1).ifPresent(turn -> out.numbered("Turn", RouteWords.turn(turn)));
        route.course().ifPresent(this::course);
        if (route.legs().get(0) instanceof Leg.DirectToFix direct) {
            withDetails("Direct", RouteWords.direct(direct, route.situation()));
        }
        route.intercept().ifPresent(this::intercept);
        overStation();
        arcsAndFixes();
        onward();
        route.holding().ifPresent(this::hold);
        departs();
        route.limit().ifPresent(this::limit);
        route.openEnd()
                .ifPresent(end -> out.numbered(
                        "Ends", end.ident() + ": no way on from there is cleared; ask for it before you are there"));
        BesidesTheRoute besides = new BesidesTheRoute(route);
        route.clearance().instructions().stream()
                .flatMap(instruction -> instruction.fold(besides).stream())
                .forEach(each -> out.numbered(each.what(), each.text()));
        route.crossings().forEach(plan -> withDetails("Crossing", RouteWords.crossing(plan)));
    }

    private void heading(HeadingPlan plan) {
        out.numbered(
                "Heading", Words.say("%s (%s)", Words.direction(plan.magnetic().deg()), RouteWords.origin(plan)));
        out.detail(Words.say(
                "%s true; variation here and today %s",
                Words.tenths(plan.headingTrue().deg()),
                Words.variation(route.situation().variation().eastDeg())));
        if (route.situation().wind().speedKt() > 0) {
            out.detail(Words.say(
                    "in the wind from %s true at %.0f kt: track %s (%s true), ground speed %.0f kt",
                    Words.direction(route.situation().wind().from().deg()),
                    route.situation().wind().speedKt(),
                    Angles.figures(plan.ground()
                            .track()
                            .toMagnetic(route.situation().variation())
                            .deg()),
                    Words.tenths(plan.ground().track().deg()),
                    plan.ground().groundSpeedKt()));
        }
    }

    /** Arcs, and the fixes that no chart has, in the order in which they are flown. */
    private void arcsAndFixes() {
        Map<Waypoint, Runnable> fixes = new LinkedHashMap<>();
        route.computedFix().ifPresent(fix -> fixes.put(fix.fix(), () -> computedFix(fix)));
        MadeFix.of(route, brief.chart()).forEach(made -> fixes.putIfAbsent(made.fix(), () -> madeFix(made)));
        for (Leg leg : route.legs()) {
            if (leg instanceof Leg.DmeArc arc) {
                arc(arc);
            }
            leg.endsAt().flatMap(end -> Optional.ofNullable(fixes.remove(end))).ifPresent(Runnable::run);
        }
        fixes.values().forEach(Runnable::run);
    }

    private void arc(Leg.DmeArc arc) {
        out.numbered(
                "Arc",
                Words.say(
                        "%.0f DME about %s, %s from the %s to the %s %s, %.1f NM",
                        arc.distanceNm(),
                        arc.station().ident(),
                        RouteWords.wayRound(arc),
                        Angles.figures(arc.fromRadial().deg()),
                        Angles.figures(arc.toRadial().deg()),
                        RadialDistance.word(arc.station()),
                        arc.path().lengthNm()));
        out.detail("keep the DME at it, within 1 NM; the station is off the "
                + Words.side(arc.path().clockwise()) + " wing tip");
        turnOff(arc);
    }

    /** The turn with which an arc is left; at a computed fix it is told there. */
    private void turnOff(Leg.DmeArc arc) {
        List<Leg> legs = route.legs();
        int next = legs.indexOf(arc) + 1;
        boolean told = route.turnAtComputedFix()
                .filter(fix -> fix.fix().equals(arc.to()))
                .isPresent();
        if (told || next >= legs.size() || legs.get(next).line().isEmpty()) {
            return;
        }
        Leg leg = legs.get(next);
        double turn = arc.path()
                .courseAt(arc.path().lengthNm())
                .turnTo(leg.line().get().courseAt(leg.joinedAtNm()));
        double airspeedKt = route.situation().trueAirspeedKt();
        double leadNm = Turn.standardTurnLeadNm(airspeedKt, turn);
        double radialDeg = Math.toDegrees(leadNm / arc.distanceNm());
        if (Math.abs(turn) >= 1) {
            out.detail(Words.say(
                    "where it is left turn %s %s%s",
                    Words.side(turn),
                    Angles.degrees(Math.abs(turn)),
                    radialDeg < 0.5
                            ? ""
                            : Words.say(
                                    "; begin %s of %s before, %s",
                                    Angles.degrees(radialDeg),
                                    RadialDistance.word(arc.station()),
                                    RouteWords.standardTurn(airspeedKt))));
        }
    }

    /** A route that ends on a heading or a radial from its last fix. */
    private void departs() {
        Leg last = route.legs().get(route.legs().size() - 1);
        route.departHeading()
                .ifPresent(heading -> out.numbered(
                        "Depart",
                        last.from().map(Waypoint::ident).orElse("the fix") + " on heading "
                                + Words.direction(heading.deg()) + ", until ATC says more"));
        if (last instanceof Leg.CourseFrom course) {
            out.numbered(
                    "Depart",
                    course.fix().ident() + " on its "
                            + Words.direction(course.course().deg())
                            + (course.fix() instanceof Station station && station.kind() == Station.Kind.NDB
                                    ? " bearing"
                                    : " radial")
                            + ", until ATC says more");
        }
    }

    private void hold(Holding hold) {
        String length = hold.legNm().isPresent()
                ? Words.say("%.1f mile legs", hold.legNm().getAsDouble())
                : Words.say("%.1f minutes inbound", hold.legMinutes().orElse(1));
        out.numbered(
                "Hold",
                Words.say(
                        "at %s on %s: inbound course %s%s, %s turns, %s%s",
                        hold.fix().ident(),
                        hold.line(),
                        Words.direction(hold.inbound().deg()),
                        reference(hold),
                        Words.side(hold.right()),
                        length,
                        hold.published() ? ", as published" : ""));
        if (hold.once()) {
            out.detail(
                    hold.entry() == Holding.Entry.DIRECT
                            ? "one circuit: the second time over the fix go on along the route"
                            : "the entry turns you round: the second time over the fix go on along the route");
        }
        String headings = hold.entryHeadings().stream()
                .map(heading -> Angles.figures(heading.deg()))
                .collect(Collectors.joining(", then "));
        out.detail(Words.say(
                "by the compass you arrive on heading %s: %s entry%s, heading %s",
                Angles.figures(hold.arrivalHeading().deg()),
                hold.entry().name().toLowerCase(Locale.ROOT),
                hold.orEntry()
                        .map(other ->
                                " (or " + other.name().toLowerCase(Locale.ROOT) + ", within 5 degrees of the boundary)")
                        .orElse(""),
                headings));
        out.detail(Words.say(
                "inbound heading %s, outbound heading %s (three times the drift)%s",
                hold.inboundHeading()
                        .map(heading -> Angles.figures(heading.deg()))
                        .orElse("not possible in this wind"),
                Angles.figures(hold.outboundHeading().deg()),
                hold.outboundSeconds().isPresent() ? ", " + RouteWords.outbound(hold) : ""));
        out.detail(Words.say("at most %.0f knots by the airspeed indicator", hold.maximumSpeedKt()));
        hold.expectFurtherClearance()
                .ifPresent(
                        time -> out.detail("expect further clearance at " + time + "; without a radio leave it then"));
    }

    /** By whose north the inbound course counts: its headings, by the compass, are of another. */
    private String reference(Holding hold) {
        double toTrue = Angles.turn(hold.inboundTrue().deg() - hold.inbound().deg());
        return brief.chart().stations().stream()
                .filter(station ->
                        hold.line().contains(station.ident()) || hold.fix().equals(station))
                .filter(station -> station.declination()
                        .filter(declination -> Math.abs(declination.eastDeg() - toTrue) < 0.01)
                        .isPresent())
                .findFirst()
                .map(station -> " by " + station.ident())
                .orElse("");
    }

    private void limit(Waypoint limit) {
        boolean holds = route.holding().filter(hold -> hold.fix().equals(limit)).isPresent();
        out.numbered(
                "Limit",
                limit.ident() + ": you are cleared no farther"
                        + (holds
                                ? "; hold there until ATC says more"
                                : ". Ask for further clearance before it; without one, hold there"));
    }

    private void withDetails(String what, List<String> said) {
        out.numbered(what, said.get(0));
        said.stream().skip(1).forEach(out::detail);
    }

    private void course(Course course) {
        out.numbered("Course", "set " + RouteWords.toSet(course));
        if (course.direction() == Course.Direction.TO) {
            out.detail(Words.say(
                    "the %s runs out from %s; flown inbound its course is the reciprocal",
                    course.name(), course.station().ident()));
        }
        course.station()
                .frequencyMhz()
                .ifPresent(mhz -> out.detail(course.station().name() + " on "
                        + Words.frequency(course.station().kind(), mhz)));
    }

    /** A radial flown outbound from the station that the leg before leads to. */
    private void overStation() {
        for (int i = 1; i < route.legs().size(); i++) {
            Leg before = route.legs().get(i - 1);
            if (route.legs().get(i) instanceof Leg.FixOutbound radial
                    && before.endsAt(radial.station())
                    && before.groundPath().isPresent()) {
                double turn = before.groundPath()
                        .get()
                        .finalCourse()
                        .turnTo(radial.path().initialCourse());
                out.numbered(
                        "Over " + radial.station().ident(),
                        (Math.abs(turn) < 1
                                        ? "straight on"
                                        : "turn " + Words.side(turn) + " " + Angles.degrees(Math.abs(turn)))
                                + " to " + Angles.figures(radial.course().deg()) + " FROM "
                                + radial.station().ident());
            }
        }
    }

    private void intercept(Intercept met) {
        String what = met.airwayLeg()
                .map(segment -> RouteWords.segment(segment))
                .orElseGet(() -> route.legs().get(Math.max(0, route.courseLeg())) instanceof Leg.DmeArc arc
                        ? Words.say(
                                "the %.0f DME arc of %s",
                                arc.distanceNm(), arc.station().ident())
                        : "the course");
        if (met.distanceNm() < 0.05) {
            out.numbered("Established", "you are on " + what + " already; turn onto it now");
            return;
        }
        out.numbered(
                "Intercept", Words.say("%s after %.1f NM, %s", what, met.distanceNm(), Words.minutes(met.minutes())));
        out.detail(Words.say(
                "angle %s: turn %s onto %s%s(%s true)",
                Angles.degrees(met.angleDeg()),
                Words.side(met.turnsRight()),
                route.legs().get(route.courseLeg()) instanceof Leg.DmeArc ? "the arc " : "course ",
                PublishedCourse.of(route.legs().get(route.courseLeg()), brief.chart(), route.situation())
                        .map(course -> Angles.figures(course.magneticDeg())
                                + course.station()
                                        .map(station -> " by " + station.ident())
                                        .orElse("")
                                + " ")
                        .orElse(""),
                Words.tenths(met.course().deg())));
        double groundSpeedKt =
                route.heading().map(plan -> plan.ground().groundSpeedKt()).orElse(0.0);
        out.detail(Words.say(
                "begin the turn %.2f NM before it, %s at %.0f kt over the ground",
                met.standardTurnLeadNm(), RouteWords.standardTurn(groundSpeedKt), groundSpeedKt));
        out.detail("at " + Words.place(met.position()));
    }

    private void computedFix(ComputedFix fix) {
        Position at = fix.fix().position();
        out.numbered("Computed fix", Words.say("%s: %s", fix.fix().ident(), Words.place(at)));
        out.detail(Words.decimal(at) + " degrees");
        out.detail(Words.say(
                "on %s; the lines cross at %s",
                RouteWords.segment(fix.segment()), Angles.degrees(fix.crossingAngleDeg())));
        for (ComputedFix.Definition definition : fix.definitions()) {
            RadialDistance way = new RadialDistance(definition.station(), definition.radial(), definition.distanceNm());
            out.paragraph("       ", shown(way) + ": " + definition.reason());
        }
        if (route.turnAtComputedFix().isEmpty()) {
            return;
        }
        out.numbered(
                "Turn there",
                Words.say(
                        "%s %s onto %s toward %s",
                        Words.side(fix.turnDeg()),
                        Angles.degrees(Math.abs(fix.turnDeg())),
                        RouteWords.airway(fix.segment()),
                        fix.segment().to().ident()));
        double groundSpeedKt = fix.groundSpeedKt(route.situation());
        out.detail(Words.say(
                "begin %.2f NM before the fix, %s at %.0f kt over the ground",
                fix.standardTurnLeadNm(route.situation()), RouteWords.standardTurn(groundSpeedKt), groundSpeedKt));
    }

    private void madeFix(MadeFix made) {
        Position at = made.fix().position();
        out.numbered("Fix to make", Words.say("%s: %s", made.fix().ident(), Words.place(at)));
        out.detail(Words.decimal(at) + " degrees");
        made.definitions().forEach(way -> out.detail(shown(way)));
    }

    private static String shown(RadialDistance way) {
        return Words.say(
                way.byDme()
                        ? "%s %s %s / %.1f NM"
                        : way.from() instanceof Station
                                ? "%s %s %s (%.1f NM away; it has no DME)"
                                : "%s %s %s (%.1f NM away)",
                way.from().ident(),
                RadialDistance.word(way.from()),
                Words.tenths(way.radial().deg()),
                way.distanceNm());
    }

    /** The computed fix is told with the turn there, where it comes first. */
    private boolean isTurnTold(Leg leg) {
        return leg == route.legs().get(Math.max(0, route.courseLeg()))
                && route.computedFix().filter(fix -> leg.endsAt(fix.fix())).isPresent();
    }

    private void onward() {
        if (Brief.routeStays(route)) {
            out.numbered("Route", "as it was; the legs are below");
            return;
        }
        List<Leg> legs = route.legs();
        String onward = legs.stream()
                .skip(Math.max(0, route.courseLeg()))
                .filter(leg -> !isTurnTold(leg))
                .flatMap(leg -> leg.endsAt().stream()
                        .map(end -> leg.airway().map(airway -> airway + " ").orElse("") + end.ident()))
                .collect(Collectors.joining(", "));
        if (!onward.isEmpty()) {
            boolean endsShort =
                    route.limit().isPresent() || route.departHeading().isPresent() || route.departsOnRadial();
            out.numbered("Then", onward + (route.resumesAt() >= 0 && !endsShort ? ", as filed from there" : ""));
        }
        if (!route.skipped().isEmpty()) {
            out.numbered("Skipped", RouteWords.skipped(route) + ": no longer flown");
        }
    }
}
