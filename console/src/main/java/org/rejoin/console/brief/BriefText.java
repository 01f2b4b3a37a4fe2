package org.rejoin.console.brief;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Phraseology;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Turn;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.ComputedFix;
import org.rejoin.bridge.route.Course;
import org.rejoin.bridge.route.CrossingPlan;
import org.rejoin.bridge.route.HeadingPlan;
import org.rejoin.bridge.route.Holding;
import org.rejoin.bridge.route.Intercept;
import org.rejoin.bridge.route.Leg;
import org.rejoin.bridge.route.PublishedCourse;
import org.rejoin.bridge.route.TurnToHeading;
import org.rejoin.bridge.route.WorkingStep;
import org.rejoin.console.words.RouteWords;
import org.rejoin.console.words.Words;

/** A brief in words, in the order in which it is needed: the picture, the numbers, the navigator, the working. */
public final class BriefText {

    private final Brief brief;
    private final AmendedRoute route;
    private final List<String> lines = new ArrayList<>();
    private final int width;
    private int number;

    private BriefText(Brief brief, int width) {
        this.width = width;
        this.brief = brief;
        this.route = brief.route();
    }

    /**
     * The brief in lines.
     *
     * @param brief worked out
     * @param working whether each step is shown with its formula and values
     * @param width most characters of a line, where its words allow
     * @return lines without line ends
     */
    public static List<String> lines(Brief brief, boolean working, int width) {
        BriefText text = new BriefText(brief, width);
        text.write(working);
        return text.lines;
    }

    private void write(boolean working) {
        paragraph("Filed:     ", route.filed().text());
        paragraph("Clearance: ", route.clearance().text());
        brief.notes().forEach(note -> paragraph("  note: ", note));
        title("THE PICTURE");
        BriefPicture.sentences(brief).forEach(sentence -> paragraph("  ", sentence));
        title("IN THE COCKPIT, IN THIS ORDER");
        route.heading().filter(plan -> Brief.headingIsFlown(route)).ifPresent(this::heading);
        route.turn().filter(turn -> turn.degrees() >= 1).ifPresent(this::turn);
        route.course().ifPresent(this::course);
        if (route.legs().get(0) instanceof Leg.DirectToFix direct) {
            direct(direct);
        }
        route.intercept().ifPresent(this::intercept);
        route.computedFix().ifPresent(this::computedFix);
        arcs();
        onward();
        route.holding().ifPresent(this::hold);
        departs();
        route.limit().ifPresent(this::limit);
        BesidesTheRoute besides = new BesidesTheRoute(route);
        route.clearance().instructions().stream()
                .flatMap(instruction -> instruction.fold(besides).stream())
                .forEach(each -> numbered(each.what(), each.text()));
        route.crossings().forEach(this::crossing);
        warnings();
        title("THE ROUTE NOW, LEG BY LEG");
        route.legs().forEach(this::leg);
        paragraph("  ", legTypes());
        title("INTO A GPS NAVIGATOR");
        NavigatorSteps.of(route).forEach(step -> paragraph("  - ", step));
        if (working) {
            title("THE WORKING");
            int step = 0;
            for (WorkingStep each : route.working()) {
                lines.add(Words.say("  %d. %s", ++step, each.what()));
                paragraph("       formula: ", each.formula());
                paragraph("       values:  ", each.values());
            }
        }
    }

    private void heading(HeadingPlan plan) {
        numbered("Heading", Words.say("%s (%s)", Words.direction(plan.magnetic().deg()), RouteWords.origin(plan)));
        detail(Words.say(
                "%s true; variation here and today %s",
                Words.tenths(plan.headingTrue().deg()),
                Words.variation(route.situation().variation().eastDeg())));
        if (route.situation().wind().speedKt() > 0) {
            detail(Words.say(
                    "in the wind from %s true at %.0f kt: track %s (%s true), ground speed %.0f kt",
                    Words.direction(route.situation().wind().from().deg()),
                    route.situation().wind().speedKt(),
                    Words.direction(Math.rint(plan.ground()
                            .track()
                            .toMagnetic(route.situation().variation())
                            .deg())),
                    Words.tenths(plan.ground().track().deg()),
                    plan.ground().groundSpeedKt()));
        }
    }

    private void turn(TurnToHeading turn) {
        numbered(
                "Turn",
                Words.say(
                        "%s %s to heading %s, about %.0f s at standard rate%s",
                        Words.side(turn.right()),
                        Angles.degrees(turn.degrees()),
                        Words.direction(Math.rint(turn.heading().deg())),
                        turn.seconds(),
                        turn.longWay() ? ": the long way round" : ""));
    }

    private void arcs() {
        for (Leg leg : route.legs()) {
            if (leg instanceof Leg.DmeArc arc) {
                numbered(
                        "Arc",
                        Words.say(
                                "%.0f DME about %s, %s from the %s to the %s radial, %.1f NM",
                                arc.distanceNm(),
                                arc.station().ident(),
                                arc.path().clockwise() ? "clockwise" : "counterclockwise",
                                Words.direction(Math.rint(arc.fromRadial().deg())),
                                Words.direction(Math.rint(arc.toRadial().deg())),
                                arc.path().lengthNm()));
                detail("keep the DME at it, within 1 NM; the station is off the "
                        + Words.side(arc.path().clockwise()) + " wing tip");
                double speed = route.situation().trueAirspeedKt();
                detail(Words.say(
                        "leave it %s of radial early for a right-angled turn at standard rate",
                        Angles.degrees(Math.toDegrees(Turn.standardRadiusNm(speed) / arc.distanceNm()))));
            }
        }
    }

    /** A route that ends on a heading or a radial from its last fix. */
    private void departs() {
        Leg last = route.legs().get(route.legs().size() - 1);
        route.departHeading()
                .ifPresent(heading -> numbered(
                        "Depart",
                        last.from().map(Waypoint::ident).orElse("the fix") + " on heading "
                                + Words.direction(heading.deg()) + ", until ATC says more"));
        if (last instanceof Leg.CourseFrom course) {
            numbered(
                    "Depart",
                    course.fix().ident() + " on its "
                            + Words.direction(course.course().deg()) + " radial, until ATC says more");
        }
    }

    private void hold(Holding hold) {
        String length = hold.legNm().isPresent()
                ? Words.say("%.1f mile legs", hold.legNm().getAsDouble())
                : Words.say("%.1f minutes inbound", hold.legMinutes().orElse(1));
        numbered(
                "Hold",
                Words.say(
                        "at %s on %s: inbound course %s, %s turns, %s%s",
                        hold.fix().ident(),
                        hold.line(),
                        Words.direction(hold.inbound().deg()),
                        Words.side(hold.right()),
                        length,
                        hold.published() ? ", as published" : ""));
        if (hold.once()) {
            detail(
                    hold.entry() == Holding.Entry.DIRECT
                            ? "one circuit: the second time over the fix go on along the route"
                            : "the entry turns you round: the second time over the fix go on along the route");
        }
        String headings = hold.entryHeadings().stream()
                .map(heading -> Words.direction(Math.rint(heading.deg())))
                .collect(Collectors.joining(", then "));
        detail(Words.say(
                "you arrive on heading %s: %s entry%s, heading %s",
                Words.direction(Math.rint(hold.arrivalHeading().deg())),
                hold.entry().name().toLowerCase(Locale.ROOT),
                hold.orEntry()
                        .map(other ->
                                " (or " + other.name().toLowerCase(Locale.ROOT) + ", within 5 degrees of the boundary)")
                        .orElse(""),
                headings));
        detail(Words.say(
                "inbound heading %s, outbound heading %s (three times the drift)%s",
                hold.inboundHeading()
                        .map(heading -> Words.direction(Math.rint(heading.deg())))
                        .orElse("not possible in this wind"),
                Words.direction(Math.rint(hold.outboundHeading().deg())),
                hold.outboundSeconds().stream()
                        .mapToObj(seconds -> Words.say(", %.0f s from abeam the fix", seconds))
                        .collect(Collectors.joining())));
        detail(Words.say("at most %.0f knots by the airspeed indicator", hold.maximumSpeedKt()));
        hold.expectFurtherClearance()
                .ifPresent(time -> detail("expect further clearance at " + time + "; without a radio leave it then"));
    }

    private void limit(Waypoint limit) {
        boolean holds = route.holding().filter(hold -> hold.fix().equals(limit)).isPresent();
        numbered(
                "Limit",
                limit.ident() + ": you are cleared no farther"
                        + (holds
                                ? "; hold there until ATC says more"
                                : ". Ask for further clearance before it; without one, hold there"));
    }

    private void crossing(CrossingPlan plan) {
        String bound = Phraseology.bound(plan.said().bound());
        numbered(
                "Crossing",
                Words.say("%s %s %.0f ft", plan.place(), bound, plan.said().feet()));
        plan.distanceNm()
                .ifPresent(nm -> detail(Words.say(
                        "%.1f NM along the route%s",
                        nm,
                        plan.minutes().stream()
                                .mapToObj(minutes -> ", " + Words.minutes(minutes))
                                .collect(Collectors.joining()))));
        if (plan.ftPerNm().isPresent() && plan.ftPerNm().getAsDouble() > 0) {
            detail(Words.say(
                    "that takes %s %.0f ft a mile%s",
                    plan.climb() ? "a climb of" : "a descent of",
                    plan.ftPerNm().getAsDouble(),
                    plan.ftPerMin().stream()
                            .mapToObj(feet -> Words.say(", %.0f ft a minute", feet))
                            .collect(Collectors.joining())));
        }
    }

    private void course(Course course) {
        numbered("Course", "set " + RouteWords.toSet(course));
        if (course.direction() == Course.Direction.TO) {
            detail(Words.say(
                    "the %s runs out from %s; flown inbound its course is the reciprocal",
                    course.name(), course.station().ident()));
        }
        course.station()
                .frequencyMhz()
                .ifPresent(mhz -> detail(course.station().name() + " on "
                        + Words.frequency(course.station().kind(), mhz)));
    }

    private void direct(Leg.DirectToFix direct) {
        TrueDirection track = direct.path().initialCourse();
        String course = PublishedCourse.magneticDeg(direct, brief.chart(), route.situation())
                .map(deg -> Words.direction(Math.rint(deg)))
                .orElse("");
        numbered(
                "Direct",
                Words.say(
                        "%s: course %s from here, %.1f NM",
                        direct.to().ident(), course, direct.path().lengthNm()));
        GroundVector.forCourse(
                        track,
                        route.situation().trueAirspeedKt(),
                        route.situation().wind())
                .ifPresent(wind -> detail(Words.say(
                        "heading for it %s, %s at %.0f kt over the ground",
                        Words.direction(Math.rint(wind.heading()
                                .toMagnetic(route.situation().variation())
                                .deg())),
                        Words.minutes(direct.path().lengthNm() / wind.groundSpeedKt() * 60),
                        wind.groundSpeedKt())));
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
            numbered("Established", "you are on " + what + " already; turn onto it now");
            return;
        }
        numbered("Intercept", Words.say("%s after %.1f NM, %s", what, met.distanceNm(), Words.minutes(met.minutes())));
        detail(Words.say(
                "angle %s: turn %s onto %s%s(%s true)",
                Angles.degrees(met.angleDeg()),
                Words.side(met.turnsRight()),
                route.legs().get(route.courseLeg()) instanceof Leg.DmeArc ? "the arc " : "course ",
                PublishedCourse.magneticDeg(route.legs().get(route.courseLeg()), brief.chart(), route.situation())
                        .map(deg -> Words.direction(Math.rint(deg)) + " ")
                        .orElse(""),
                Words.tenths(met.course().deg())));
        detail(Words.say(
                "begin the turn %.2f NM before it, standard rate at %.0f kt over the ground",
                met.leadNm(),
                route.heading().map(plan -> plan.ground().groundSpeedKt()).orElse(0.0)));
        detail("at " + Words.place(met.position()));
    }

    private void computedFix(ComputedFix fix) {
        Position at = fix.fix().position();
        numbered("Computed fix", Words.say("%s: %s", fix.fix().ident(), Words.place(at)));
        detail(Words.decimal(at) + " degrees");
        detail(Words.say(
                "on %s; the lines cross at %s",
                RouteWords.segment(fix.segment()), Angles.degrees(fix.crossingAngleDeg())));
        for (ComputedFix.Definition definition : fix.definitions()) {
            String line = definition.station().kind().hasRadials() ? "radial" : "bearing";
            String form =
                    definition.station().kind().hasDistance() || definition.use() == ComputedFix.Use.CLEARED_RADIAL
                            ? Words.say(
                                    "%s %s %s / %.1f NM",
                                    definition.station().ident(),
                                    line,
                                    Words.tenths(definition.radial().deg()),
                                    definition.distanceNm())
                            : Words.say(
                                    "%s %s %s (%.1f NM away)",
                                    definition.station().ident(),
                                    line,
                                    Words.tenths(definition.radial().deg()),
                                    definition.distanceNm());
            paragraph("       ", form + ": " + definition.reason());
        }
        if (route.turnAtComputedFix().isEmpty()) {
            return;
        }
        numbered(
                "Turn there",
                Words.say(
                        "%s %s onto %s toward %s",
                        Words.side(fix.turnDeg()),
                        Angles.degrees(Math.abs(fix.turnDeg())),
                        RouteWords.airway(fix.segment()),
                        fix.segment().to().ident()));
        detail(Words.say(
                "begin %.2f NM before the fix, standard rate at %.0f kt over the ground",
                fix.leadNm(route.situation()), fix.groundSpeedKt(route.situation())));
    }

    private void onward() {
        if (Brief.routeStays(route)) {
            numbered("Route", "as it was; the legs are below");
            return;
        }
        List<Leg> legs = route.legs();
        String onward = legs.stream()
                .skip(Math.max(0, route.courseLeg()))
                .filter(leg -> leg.endsAt()
                        .filter(end -> route.computedFix()
                                .filter(fix -> fix.fix().equals(end))
                                .isPresent())
                        .isEmpty())
                .flatMap(leg -> leg.endsAt().stream()
                        .map(end -> leg.airway().map(airway -> airway + " ").orElse("") + end.ident()))
                .collect(Collectors.joining(", "));
        if (!onward.isEmpty()) {
            boolean endsShort =
                    route.limit().isPresent() || route.departHeading().isPresent() || route.departsOnRadial();
            numbered("Then", onward + (route.resumesAt() >= 0 && !endsShort ? ", as filed from there" : ""));
        }
        if (!route.skipped().isEmpty()) {
            numbered("Skipped", RouteWords.skipped(route) + ": no longer flown");
        }
    }

    private void warnings() {
        title("BEFORE YOU ACCEPT IT");
        if (route.warnings().isEmpty()) {
            lines.add("  Nothing found against it.");
        }
        route.warnings().forEach(warning -> paragraph("  ! ", warning.code() + ": " + warning.text()));
    }

    private void leg(Leg leg) {
        String from = leg.from().map(Waypoint::ident).orElse(leg.joinedAtNm() > 0 ? "join" : "");
        lines.add(Words.say(
                        "  %s  %-5s %-10s %-10s %s",
                        leg.pathTerminator(),
                        leg.airway().orElse(""),
                        from,
                        leg.endsAt().map(Waypoint::ident).orElse(""),
                        described(leg))
                .stripTrailing());
        LegCourse course = LegCourse.of(leg, brief);
        boolean wind = route.situation().wind().speedKt() > 0;
        if (wind && course.headingToHold().isPresent()) {
            double drift = course.driftDeg().orElse(0.0);
            lines.add(Words.say(
                    "        heading to hold %s, %s",
                    Words.direction(Math.rint(course.headingToHold().get())),
                    Math.round(Math.abs(drift)) == 0
                            ? "no drift to correct"
                            : Words.say("drift correction %.0f %s", Math.abs(drift), Words.side(drift))));
        }
    }

    private String described(Leg leg) {
        if (leg instanceof Leg.DmeArc arc) {
            return Words.say(
                    "%.0f DME arc of %s, %s radials %s to %s, %.1f NM",
                    arc.distanceNm(),
                    arc.station().ident(),
                    arc.path().clockwise() ? "right," : "left,",
                    Words.direction(Math.rint(arc.fromRadial().deg())),
                    Words.direction(Math.rint(arc.toRadial().deg())),
                    arc.path().lengthNm());
        }
        boolean heading = leg.pathTerminator().startsWith("V");
        String course = LegCourse.of(leg, brief)
                .magnetic()
                .map(published -> (heading ? "heading " : "course ")
                        + Words.direction(published.magneticDeg())
                        + (heading || leg instanceof Leg.HoldAtFix
                                ? ""
                                : published
                                        .station()
                                        .map(station -> " by " + station.ident())
                                        .orElse(" by today's variation")))
                .orElse("");
        return course
                + leg.line()
                        .filter(line ->
                                Brief.lengthKnown(route, leg) && leg.endsAt().isPresent())
                        .map(line -> Words.say(", %.1f NM", Math.max(0, line.lengthNm() - leg.joinedAtNm())))
                        .orElse("");
    }

    /** The types as ARINC 424 names them. */
    private String legTypes() {
        return route.legs().stream()
                .map(leg -> leg.pathTerminator() + " " + leg.fold(LEG_TYPES))
                .distinct()
                .collect(Collectors.joining("; ", "", "."));
    }

    private static final Leg.Visitor<String> LEG_TYPES = new Leg.Visitor<>() {
        @Override
        public String headingToIntercept(Leg.HeadingToIntercept leg) {
            return "heading until the course is met";
        }

        @Override
        public String headingOnly(Leg.HeadingOnly leg) {
            return "heading until ATC says more";
        }

        @Override
        public String courseToFix(Leg.CourseToFix leg) {
            return "course to a fix";
        }

        @Override
        public String fixOutbound(Leg.FixOutbound leg) {
            return "course from a fix for a distance";
        }

        @Override
        public String trackToFix(Leg.TrackToFix leg) {
            return "track from fix to fix";
        }

        @Override
        public String directToFix(Leg.DirectToFix leg) {
            return "direct to a fix";
        }

        @Override
        public String dmeArc(Leg.DmeArc leg) {
            return "arc to a fix";
        }

        @Override
        public String courseFrom(Leg.CourseFrom leg) {
            return "course from a fix until ATC says more";
        }

        @Override
        public String holdAtFix(Leg.HoldAtFix leg) {
            return leg.holding().once() ? "hold, left at its fix" : "hold until ATC says more";
        }
    };

    private void title(String text) {
        lines.add("");
        lines.add(text);
    }

    private void numbered(String what, String text) {
        paragraph(Words.say("  %d. %-13s", ++number, what), text);
    }

    private void detail(String text) {
        paragraph("       ", text);
    }

    private void paragraph(String indent, String text) {
        lines.addAll(Words.wrapped(indent, text, width));
    }
}
