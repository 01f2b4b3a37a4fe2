package org.rejoin.console.report;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Leg;
import org.rejoin.console.best.BestPath;
import org.rejoin.console.best.Comparison;

/**
 * The flight from above, true north up: chart, filed route, amended route, the track flown and what happened where. One
 * plan for each clearance, with the part of the flight that was flown under it.
 */
final class PlanView {

    static final double WIDTH = 1000;

    /** Below the plan: scale, north, wind. */
    private static final double FOOT = 74;

    private static final int MOST_AIRWAY_LEGS = 400;

    private final DebriefedFlight flight;
    private final String id;
    private final boolean close;
    private final Optional<AmendedRoute> route;
    private final List<Point> samples;
    private final Projection view;
    private final PlanLines lines;
    private final Optional<Comparison> comparison;

    /**
     * A plan.
     *
     * @param flight told of
     * @param id of the drawing in the page
     * @param route amended by the clearance; empty when none was issued
     * @param samples drawn, one or more
     * @param close whether only the samples are to be seen, and not where the route leads
     */
    PlanView(
            DebriefedFlight flight,
            String id,
            Optional<AmendedRoute> route,
            List<Point> samples,
            boolean close) {
        this.flight = flight;
        this.id = id;
        this.close = close;
        this.route = route;
        this.samples = List.copyOf(samples);
        this.view = frame();
        this.lines = new PlanLines(view);
        this.comparison = Comparison.all(flight.record()).stream()
                .filter(each -> route.isPresent()
                        && each.best().route().legs().equals(route.get().legs()))
                .findFirst();
    }

    Projection view() {
        return view;
    }

    private Projection frame() {
        List<Position> wanted = new ArrayList<>();
        samples.forEach(sample -> wanted.add(sample.position()));
        List<Position> welcome = new ArrayList<>();
        if (close) {
            return Projection.showing(wanted, welcome, WIDTH, 360, 520, 90);
        }
        route.ifPresent(amended -> {
            amended.intercept().ifPresent(met -> welcome.add(met.position()));
            amended.computedFix().ifPresent(fix -> welcome.add(fix.fix().position()));
            amended.course().ifPresent(course -> welcome.add(course.station().position()));
            amended.legs().forEach(leg -> leg.endsAt().ifPresent(end -> welcome.add(end.position())));
        });
        return Projection.showing(wanted, welcome, WIDTH, 480, 860, 70);
    }

    void write(Markup out, List<NumberedEvent> events) {
        String clip = "plan-area-" + id;
        out.start(
                "svg",
                "viewBox",
                "0 0 " + Figures.xy(WIDTH) + " " + Figures.xy(view.height() + FOOT),
                "class",
                "drawing plan",
                "role",
                "group",
                "aria-label",
                "Plan view, true north up");
        out.start("defs").start("clipPath", "id", clip);
        out.empty("rect", "width", Figures.xy(WIDTH), "height", Figures.xy(view.height()));
        out.end().end();
        out.empty("rect", "class", "frame", "width", Figures.xy(WIDTH), "height", Figures.xy(view.height()));
        PlanLabels labels = new PlanLabels(out, view);
        out.start("g", "clip-path", "url(#" + clip + ")");
        writeAirways(out, labels);
        Optional<List<Projection.Point>> heading = route.flatMap(lines::heading);
        Optional<List<Projection.Point>> radial = route.flatMap(lines::radial);
        List<List<Projection.Point>> amended = route.map(lines::amended).orElse(List.of());
        amended.forEach(line -> polyline(out, "amended-band", line));
        heading.ifPresent(line -> polyline(out, "amended-band", line));
        draw(out, labels, "filed", lines.filed(flight.lesson().filed()));
        draw(out, labels, "radial", radial.stream().toList());
        draw(out, labels, "amended", amended);
        draw(out, labels, "heading", heading.stream().toList());
        draw(out, labels, "best", best());
        draw(out, labels, "track", track());
        out.end();
        writePlaces(labels);
        labels.events(events, flight.record());
        heading.ifPresent(line -> labels.onLine(
                line,
                "heading "
                        + Angles.figures(route.orElseThrow()
                                .heading()
                                .orElseThrow()
                                .magnetic()
                                .deg())));
        radial.ifPresent(line -> labels.onLine(
                line, route.orElseThrow().course().orElseThrow().name()));
        labels.airways();
        labels.write(close ? id + "-" : "plan-");
        if (!close) {
            out.start("g", "id", "aircraft-" + id, "class", "aircraft", "display", "none");
            out.empty("path", "d", "M0,-17 L11,13 L0,7 L-11,13 Z");
            out.end();
        }
        new PlanFoot(out, view, route)
                .write(flight.lesson().wind(), flight.debrief().date());
        out.endLine();
        if (!close) {
            comparison.ifPresent(each -> {
                out.start("p").element("strong", "Against the best flyable path: ");
                out.text(each.sentence() + ".").end();
            });
        }
    }

    /** The best flyable path for the clearance of this plan. */
    private List<List<Projection.Point>> best() {
        return comparison.stream()
                .map(each -> lines.through(each.best().points().stream()
                        .map(BestPath.Point::position)
                        .toList()))
                .filter(points -> points.size() > 1)
                .toList();
    }

    private List<List<Projection.Point>> track() {
        List<List<Projection.Point>> pieces = new ArrayList<>();
        for (List<Point> piece :
                FlightRecord.pieces(samples)) {
            pieces.add(Polyline.thinned(piece.stream()
                    .map(sample -> view.of(sample.position()))
                    .toList()));
        }
        return pieces;
    }

    private void writeAirways(Markup out, PlanLabels labels) {
        int drawn = 0;
        for (Airway airway : flight.lesson().chart().airways()) {
            for (int i = 1; i < airway.points().size() && drawn < MOST_AIRWAY_LEGS; i++) {
                Waypoint from = airway.points().get(i - 1);
                Waypoint to = airway.points().get(i);
                Optional<List<Projection.Point>> line = near(from, to) ? lines.between(from, to) : Optional.empty();
                if (line.isPresent()) {
                    polyline(out, "airway", line.get());
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

    private void writePlaces(PlanLabels labels) {
        Chart chart = flight.lesson().chart();
        Set<Waypoint> first = new LinkedHashSet<>();
        route.ifPresent(amended -> {
            amended.computedFix().ifPresent(fix -> labels.computedFix(fix));
            amended.course().ifPresent(course -> first.add(course.station()));
            amended.legs().stream().map(Leg::endsAt).flatMap(Optional::stream).forEach(first::add);
            amended.computedFix().ifPresent(fix -> first.remove(fix.fix()));
            amended.intercept().ifPresent(met -> labels.intercept(met, lines.lead(amended)));
        });
        for (FiledRoute.Segment segment : flight.lesson().filed().segments()) {
            first.add(segment.from());
            first.add(segment.to());
        }
        first.addAll(chart.stations());
        first.addAll(chart.fixes());
        first.addAll(chart.airports());
        first.forEach(labels::place);
    }

    private static void draw(Markup out, PlanLabels labels, String style, List<List<Projection.Point>> all) {
        for (List<Projection.Point> line : all) {
            polyline(out, style, line);
            labels.avoid(line);
        }
    }

    static void polyline(Markup out, String style, List<Projection.Point> points) {
        out.empty("polyline", "class", style, "points", Polyline.attribute(points));
    }
}
