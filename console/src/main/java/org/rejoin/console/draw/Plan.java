package org.rejoin.console.draw;

import java.time.LocalDate;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Leg;
import org.rejoin.console.words.Words;

/**
 * Chart and routes from above in SVG, true north up. Called in the order of its methods: lines, marks and names, labels,
 * foot; whoever draws more (a track, events) does it between them.
 */
public final class Plan {

    /** The aircraft around its place, nose up, units of the drawing. */
    public static final String AIRCRAFT = "M0,-17 L11,13 L0,7 L-11,13 Z";

    /** Below the plan: scale, north, wind. */
    private static final double FOOT = 74;

    private static final int MOST_AIRWAY_LEGS = 400;

    /** To choose the length of the scale from. */
    private static final double[] LENGTHS_NM = {0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000};

    private final Markup out;
    private final Projection view;
    private final Optional<AmendedRoute> route;
    private final RouteLines lines;
    private final Optional<List<Projection.Point>> heading;
    private final Optional<List<Projection.Point>> radial;
    private final PlanLabels labels;

    /** Nothing is drawn yet. In detail, the figures that a pilot sets and flies stand below the names. */
    public Plan(Markup out, Projection view, Optional<AmendedRoute> route, boolean detailed) {
        this.out = out;
        this.view = view;
        this.route = route;
        this.lines = new RouteLines(view);
        this.heading = route.flatMap(lines::heading);
        this.radial = route.flatMap(lines::radial);
        this.labels = new PlanLabels(out, view, detailed);
    }

    /** Its height with the foot, units of the drawing. */
    public static double height(Projection view) {
        return view.height() + FOOT;
    }

    /**
     * Opens the drawing and its frame; what follows is cut off at the frame. Attributes say where it stands in an outer
     * drawing; none in a page.
     */
    public void open(String id, String... place) {
        String clip = "plan-area-" + id;
        String[] attributes = {
            "viewBox",
            "0 0 " + Markup.xy(view.width()) + " " + Markup.xy(height(view)),
            "class",
            "drawing plan",
            "role",
            "group",
            "aria-label",
            "Plan view, true north up"
        };
        out.start("svg", Stream.concat(Stream.of(place), Stream.of(attributes)).toArray(String[]::new))
                .start("defs")
                .start("clipPath", "id", clip);
        out.empty("rect", "width", Markup.xy(view.width()), "height", Markup.xy(view.height()));
        out.end().end();
        out.empty("rect", "class", "frame", "width", Markup.xy(view.width()), "height", Markup.xy(view.height()));
        out.start("g", "clip-path", "url(#" + clip + ")");
    }

    /** The airways that can be seen. */
    public void airways(Collection<Airway> airways) {
        int drawn = 0;
        for (Airway airway : airways) {
            for (int i = 1; i < airway.points().size() && drawn < MOST_AIRWAY_LEGS; i++) {
                Waypoint from = airway.points().get(i - 1);
                Waypoint to = airway.points().get(i);
                Optional<List<Projection.Point>> line = near(from, to) ? lines.between(from, to) : Optional.empty();
                if (line.isPresent()) {
                    line("airway", line.get());
                    labels.airway(line.get(), airway.ident());
                    drawn++;
                }
            }
        }
    }

    /** Cheap, so that a chart of a continent costs little. */
    private boolean near(Waypoint from, Waypoint to) {
        double reach = view.reachNm() * 1.2;
        return roughNm(from.position()) < reach
                || roughNm(to.position()) < reach
                || roughNm(from.position()) < from.position().distanceNm(to.position()) + reach;
    }

    private double roughNm(Position position) {
        double north = 60 * (position.latitudeDeg() - view.centre().latitudeDeg());
        return Math.abs(north) > view.reachNm() * 40
                ? Math.abs(north)
                : view.centre().distanceNm(position);
    }

    /** The filed route, and over it the amended one with its radial and heading. */
    public void routes(FiledRoute filed) {
        List<List<Projection.Point>> amended = route.map(lines::amended).orElse(List.of());
        amended.forEach(line -> Polyline.write(out, "amended-band", line));
        heading.ifPresent(line -> Polyline.write(out, "amended-band", line));
        lines.filed(filed).forEach(line -> line("filed", line));
        radial.ifPresent(line -> line("radial", line));
        amended.forEach(line -> line("amended", line));
        heading.ifPresent(line -> line("heading", line));
    }

    /** A line that labels keep clear of where they can; the style is its class in the style sheet. */
    public void line(String style, List<Projection.Point> line) {
        Polyline.write(out, style, line);
        labels.room().avoid(line);
    }

    /** A path through places that lie close together; fewer than two draw nothing. */
    public void path(String style, List<Position> places) {
        List<Projection.Point> line = lines.through(places);
        if (line.size() > 1) {
            line(style, line);
        }
    }

    /**
     * The line along which the nose points on the heading, so many units long; the wind carries the aircraft beside it.
     */
    public void nose(double lengthUnits) {
        route.filter(amended -> amended.situation().wind().speedKt() > 0)
                .ifPresent(amended -> amended.heading()
                        .map(plan -> GeodesicLine.from(
                                amended.situation().position(), plan.headingTrue(), lengthUnits / view.unitsPerNm()))
                        .ifPresent(ahead -> line("nose", lines.line(ahead, 0, ahead.lengthNm()))));
    }

    /** Ends what is cut off at the frame. */
    public void closeLines() {
        out.end();
    }

    /** Marks where the aircraft was when the clearance was heard. */
    public void you() {
        route.ifPresent(labels::you);
    }

    /**
     * Marks computed fix and intercept, then places, the first ones before the others where there is not room for all.
     */
    public void marks(Collection<Waypoint> places) {
        route.ifPresent(amended -> {
            amended.computedFix().ifPresent(fix -> labels.computedFix(fix, amended));
            amended.intercept().ifPresent(met -> labels.intercept(met, lines.lead(amended)));
        });
        Optional<Waypoint> computed = route.flatMap(AmendedRoute::computedFix).map(fix -> fix.fix());
        places.stream().filter(place -> !computed.equals(Optional.of(place))).forEach(labels::place);
    }

    /** Names the lines. */
    public void names() {
        route.ifPresent(amended -> {
            heading.ifPresent(line -> labels.heading(line, amended.heading().orElseThrow(), amended));
            radial.ifPresent(line -> labels.radial(line, amended.course().orElseThrow()));
            for (Leg leg : amended.legs()) {
                if (leg instanceof Leg.DmeArc arc) {
                    lines.flown(arc, amended).ifPresent(line -> labels.arc(line, arc));
                }
            }
        });
        labels.airways();
    }

    /** {@return where other labels find room, shared with the labels of this plan} */
    public LabelPlacer room() {
        return labels.room();
    }

    /** A thin line from a mark to a label that found no room beside it. */
    public void tie(Projection.Point at, LabelPlacer.Box box) {
        labels.tie(at, box);
    }

    /** Writes the labels, over everything else. */
    public void labels() {
        labels.write();
    }

    /**
     * Scale, norths and below them the wind that was reckoned with and its source, for people, and the end of the
     * drawing. The date is of the magnetic variation where no clearance was issued.
     */
    public void close(Wind wind, String source, LocalDate date) {
        scale();
        north(route.map(amended ->
                        amended.situation().variationAt(view.centre()).eastDeg())
                .orElseGet(() ->
                        MagneticModel.WMM2025.variation(view.centre(), 0, date).eastDeg()));
        wind(wind, source);
        out.endLine();
    }

    /** The middle of the foot. */
    private double footY() {
        return view.height() + 40;
    }

    private void scale() {
        double length = LENGTHS_NM[0];
        for (double each : LENGTHS_NM) {
            length = each * view.unitsPerNm() <= 240 ? each : length;
        }
        double units = length * view.unitsPerNm();
        out.empty(
                "path",
                "class",
                "scale",
                "d",
                Words.say(
                        "M4,%s v12 h%s v-12 m%s,6 v6",
                        Markup.xy(footY() - 16), Markup.xy(units), Markup.xy(-units / 2)));
        text(4, footY() + 20, Markup.plain(length, 1) + " NM");
    }

    private void north(double variation) {
        double x = 320;
        arrow("north-true", x, 0, true);
        arrow("north-magnetic", x, variation, false);
        text(x + 36, footY() - 4, "true north up");
        text(
                x + 36,
                footY() + 20,
                Words.say("dashed: magnetic, %.1f\u00b0 %s", Math.abs(variation), variation < 0 ? "west" : "east"));
    }

    private void wind(Wind wind, String source) {
        double x = 750;
        if (wind.speedKt() == 0) {
            text(x, footY() + 8, "wind calm");
            return;
        }
        arrow("wind", x, wind.from().deg() + 180, true);
        text(x + 36, footY() - 4, "wind from " + Angles.figures(wind.from().deg()) + " true");
        text(x + 36, footY() + 20, Words.say("%.0f kt, %s", wind.speedKt(), source));
    }

    private void arrow(String style, double x, double degrees, boolean head) {
        String turn = Words.say("translate(%s %s) rotate(%s)", Markup.xy(x), Markup.xy(footY()), Markup.xy(degrees));
        out.empty(
                "path", "class", style, "transform", turn, "d", "M0,26 V-26" + (head ? " M-7,-14 L0,-26 L7,-14" : ""));
    }

    private void text(double x, double y, String text) {
        out.words("small", x, y, text);
    }
}
