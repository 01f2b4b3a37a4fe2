package org.rejoin.console.draw;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

import org.rejoin.bridge.chart.Airport;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.ComputedFix;
import org.rejoin.bridge.route.Course;
import org.rejoin.bridge.route.HeadingPlan;
import org.rejoin.bridge.route.Intercept;
import org.rejoin.bridge.route.Leg;
import org.rejoin.console.words.RouteWords;
import org.rejoin.console.words.Words;

/** Marks and labels of a plan. Marks are drawn at once, labels last, where there is room for them. */
final class PlanLabels {

    private static final double LINE_HEIGHT = 21;
    private static final int MOST_PLACES = 120;

    private final Markup out;
    private final Projection view;
    private final boolean detailed;
    private final LabelPlacer room;
    private final List<Label> labels = new ArrayList<>();
    private final Map<String, List<List<Projection.Point>>> airways = new LinkedHashMap<>();
    private int places;

    private record Label(
            Projection.Point at, LabelPlacer.Box box, String name, List<String> more, String style, boolean tied) {}

    /** No label yet. In detail, the figures that a pilot sets and flies stand below the names. */
    PlanLabels(Markup out, Projection view, boolean detailed) {
        this.out = out;
        this.view = view;
        this.detailed = detailed;
        this.room = new LabelPlacer(view.width(), view.height());
    }

    LabelPlacer room() {
        return room;
    }

    /** A point of the chart; only what can be seen, and not more than can be read. */
    void place(Waypoint waypoint) {
        // Far places are cheaper to leave out by latitude than by a geodesic.
        if (60 * Math.abs(waypoint.position().latitudeDeg() - view.centre().latitudeDeg()) > 1.1 * view.reachNm()
                || places >= MOST_PLACES) {
            return;
        }
        Projection.Point at = view.of(waypoint.position());
        if (!inside(at)) {
            return;
        }
        places++;
        List<String> more = new ArrayList<>();
        if (waypoint instanceof Station station) {
            hexagon(at, station.kind() == Station.Kind.NDB);
            station.frequencyMhz().ifPresent(mhz -> more.add(frequency(station, mhz)));
        } else if (waypoint instanceof Airport) {
            out.empty("circle", "class", "place", "cx", x(at), "cy", y(at), "r", "7");
            out.empty("path", "class", "place", "d", path(at, "M%s,%s m-10,0 h20", 0));
        } else {
            out.empty("path", "class", "place", "d", path(at, "M%s,%s l7,12 h-14 Z", -8));
        }
        keepFree(at, 9);
        label(at, waypoint.ident(), more, "name", false);
    }

    private static String frequency(Station station, double mhz) {
        return station.kind() == Station.Kind.NDB
                ? Words.say("%.0f", mhz * 1000)
                : Words.say("%.2f", mhz).replaceFirst("0$", "");
    }

    private void hexagon(Projection.Point at, boolean dots) {
        StringBuilder corners = new StringBuilder("M");
        for (int i = 0; i < 6; i++) {
            double angle = Math.PI / 3 * i;
            corners.append(i == 0 ? "" : " L")
                    .append(Markup.xy(at.x() + 10 * Math.cos(angle)))
                    .append(',')
                    .append(Markup.xy(at.y() + 10 * Math.sin(angle)));
        }
        if (dots) {
            out.empty("circle", "class", "place dotted", "cx", x(at), "cy", y(at), "r", "10");
        } else {
            out.empty("path", "class", "place", "d", corners + " Z");
        }
        out.empty("circle", "class", "dot", "cx", x(at), "cy", y(at), "r", "2.5");
    }

    void computedFix(ComputedFix fix, AmendedRoute route) {
        Projection.Point at = view.of(fix.fix().position());
        if (inside(at)) {
            out.empty("circle", "class", "computed", "cx", x(at), "cy", y(at), "r", "11");
            out.empty("path", "class", "computed", "d", path(at, "M%s,%s m-16,0 h32 m-16,-16 v32", 0));
            keepFree(at, 14);
            label(at, "computed fix " + fix.fix().ident(), figures(fix, route), "name strong", true);
        }
    }

    private static List<String> figures(ComputedFix fix, AmendedRoute route) {
        List<String> figures = new ArrayList<>();
        ComputedFix.Definition cleared = fix.definitions().get(0);
        figures.add(Words.say(
                "%s %s / %.1f NM",
                cleared.station().ident(), Words.direction(cleared.radial().deg()), cleared.distanceNm()));
        fix.definitions().stream()
                .filter(each -> each.use() == ComputedFix.Use.CROSSING_RADIAL)
                .findFirst()
                .ifPresent(each -> figures.add(Words.say(
                        "%s %s / %.1f NM",
                        each.station().ident(), Words.tenths(each.radial().deg()), each.distanceNm())));
        figures.add(Words.place(fix.fix().position()));
        route.turnAtComputedFix().ifPresent(turn -> figures.add(RouteWords.turn(turn)));
        return figures;
    }

    void intercept(Intercept met, Optional<Position> lead) {
        lead.map(view::of).filter(this::inside).ifPresent(at -> {
            out.empty("circle", "class", "lead", "cx", x(at), "cy", y(at), "r", "4.5");
            keepFree(at, 6);
            label(at, Words.say("lead %.2f NM: begin the turn", met.standardTurnLeadNm()), List.of(), "small", true);
        });
        Projection.Point at = view.of(met.position());
        if (inside(at)) {
            keepFree(at, 9);
            out.empty("path", "class", "intercept", "d", path(at, "M%s,%s m-8,-8 l16,16 m0,-16 l-16,16", 0));
            List<String> turn = List.of("turn " + Words.side(met.turnsRight()));
            label(at, Words.say("intercept, %s", Angles.degrees(met.angleDeg())), turn, "small", true);
        }
    }

    /** Where the aircraft was when the clearance was heard. */
    void you(AmendedRoute route) {
        Position here = route.situation().position();
        double nose = route.heading()
                .map(plan -> plan.headingTrue().deg())
                .or(() -> route.legs()
                        .get(0)
                        .line()
                        .map(line -> line.initialCourse().deg()))
                .orElse(0.0);
        Projection.Point at = view.of(here);
        String turn = Words.say("translate(%s %s) rotate(%s)", x(at), y(at), Markup.plain(view.upDeg(here, nose), 1));
        out.start("g", "class", "aircraft", "transform", turn)
                .empty("path", "d", Plan.AIRCRAFT)
                .end();
        keepFree(at, 14);
        label(at, "you", List.of(), "name", false);
    }

    void heading(List<Projection.Point> line, HeadingPlan plan, AmendedRoute route) {
        List<String> more = new ArrayList<>();
        if (route.situation().wind().speedKt() > 0) {
            more.add(Words.say(
                    "track %s true", Words.tenths(plan.ground().track().deg())));
        }
        route.intercept()
                .ifPresent(met -> more.add(Words.say("%.1f NM, %s", met.distanceNm(), Words.minutes(met.minutes()))));
        if (route.intercept().isEmpty() && route.courseLeg() > 0) {
            more.add("does not meet the course");
        }
        String heading = "heading " + Words.direction(plan.magnetic().deg());
        onLine(line, plan.origin() == HeadingPlan.Origin.PROPOSED ? "proposed " + heading : heading, more);
    }

    void radial(List<Projection.Point> line, Course course) {
        onLine(
                line,
                course.name(),
                List.of("set course " + Words.direction(course.courseToSet().deg()) + " " + course.direction()));
    }

    void arc(List<Projection.Point> line, Leg.DmeArc arc) {
        onLine(
                line,
                Words.say("%.0f DME arc %s", arc.distanceNm(), arc.station().ident()),
                List.of());
    }

    private void onLine(List<Projection.Point> line, String name, List<String> more) {
        middle(line).ifPresent(at -> label(at, name, more, "small", false));
    }

    void airway(List<Projection.Point> line, String ident) {
        airways.computeIfAbsent(ident, key -> new ArrayList<>()).add(line);
    }

    /** Names each airway once, on the first of its lines that is seen. */
    void airways() {
        airways.forEach((ident, lines) -> lines.stream()
                .flatMap(line -> middle(line).stream())
                .findFirst()
                .ifPresent(at -> label(at, ident, List.of(), "airway-name", false)));
    }

    void write() {
        for (Label label : labels) {
            if (label.tied()) {
                tie(label.at(), label.box());
            }
            double y = label.box().top() + 16;
            line(label, label.name(), label.style(), y);
            for (String more : label.more()) {
                y += LINE_HEIGHT;
                line(label, more, "small", y);
            }
        }
    }

    private void line(Label label, String text, String style, double y) {
        out.words(style, label.box().middleX(), y, "middle", text);
    }

    /** A thin line from a mark to a label that found no room beside it. */
    void tie(Projection.Point at, LabelPlacer.Box box) {
        double x = Math.min(Math.max(at.x(), box.left()), box.left() + box.width());
        double y = Math.min(Math.max(at.y(), box.top()), box.top() + box.height());
        if (Math.hypot(x - at.x(), y - at.y()) > 10) {
            out.line("tie", at.x(), at.y(), x, y);
        }
    }

    private void label(Projection.Point at, String name, List<String> figures, String style, boolean tied) {
        List<String> more = detailed ? figures : List.of();
        double width = name.length() * (style.startsWith("name") ? 12.5 : 9.8);
        for (String each : more) {
            width = Math.max(width, each.length() * 9.8);
        }
        LabelPlacer.Box box = room.place(at, width + 4, LINE_HEIGHT * (1 + more.size()));
        labels.add(new Label(at, box, name, more, style, tied));
    }

    private void keepFree(Projection.Point at, double radius) {
        room.keepFree(LabelPlacer.Box.around(at, radius));
    }

    private Optional<Projection.Point> middle(List<Projection.Point> line) {
        List<Projection.Point> seen = new ArrayList<>();
        for (int i = 1; i < line.size(); i++) {
            for (int step = 0; step < 20; step++) {
                Projection.Point at = line.get(i - 1).toward(line.get(i), step / 20.0);
                if (inside(at)) {
                    seen.add(at);
                }
            }
        }
        return seen.isEmpty() ? Optional.empty() : Optional.of(seen.get(seen.size() / 2));
    }

    private boolean inside(Projection.Point at) {
        return at.x() > 12 && at.x() < view.width() - 12 && at.y() > 12 && at.y() < view.height() - 12;
    }

    private static String path(Projection.Point at, String format, double down) {
        return String.format(java.util.Locale.ROOT, format, Markup.xy(at.x()), Markup.xy(at.y() + down));
    }

    private static String x(Projection.Point at) {
        return Markup.xy(at.x());
    }

    private static String y(Projection.Point at) {
        return Markup.xy(at.y());
    }
}
