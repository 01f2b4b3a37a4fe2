package org.rejoin.console.report;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Leg;
import org.rejoin.console.best.BestPath;
import org.rejoin.console.best.Comparison;
import org.rejoin.console.draw.Markup;
import org.rejoin.console.draw.Plan;
import org.rejoin.console.draw.Polyline;
import org.rejoin.console.draw.Projection;

/**
 * The flight from above, true north up: chart, filed route, amended route, the track flown and what happened where. One
 * plan for each clearance, with the part of the flight that was flown under it.
 */
final class PlanView {

    static final double WIDTH = 1000;

    private final DebriefedFlight flight;
    private final String id;
    private final boolean close;
    private final Optional<AmendedRoute> route;
    private final List<Point> samples;
    private final Projection view;
    private final Optional<Comparison> comparison;

    /**
     * A plan of these samples, one or more; where it is close they alone are to be seen, and not where the route leads.
     */
    PlanView(DebriefedFlight flight, String id, Optional<AmendedRoute> route, List<Point> samples, boolean close) {
        this.flight = flight;
        this.id = id;
        this.close = close;
        this.route = route;
        this.samples = List.copyOf(samples);
        this.view = frame();
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
        Plan plan = new Plan(out, view, route, false);
        plan.open(id);
        plan.airways(flight.lesson().chart().airways());
        plan.routes(flight.lesson().filed());
        comparison.ifPresent(each -> plan.path(
                "best",
                each.best().points().stream().map(BestPath.Point::position).toList()));
        for (List<Point> piece : FlightRecord.pieces(samples)) {
            plan.line(
                    "track",
                    Polyline.thinned(piece.stream()
                            .map(sample -> view.of(sample.position()))
                            .toList()));
        }
        plan.closeLines();
        plan.marks(places());
        List<EventCluster> marks =
                EventCluster.placed(events, event -> view.of(flight.record().positionAt(event.timeS())), plan.room());
        plan.names();
        plan.labels();
        marks.forEach(mark -> plan.tie(mark.at(), mark.box()));
        marks.forEach(mark -> mark.write(out, close ? id + "-" : "plan-"));
        if (!close) {
            out.start("g", "id", "aircraft-" + id, "class", "aircraft", "display", "none");
            out.empty("path", "d", Plan.AIRCRAFT);
            out.end();
        }
        plan.close(flight.lesson().wind(), "by the lesson", flight.debrief().date());
        if (!close) {
            comparison.ifPresent(each -> {
                out.start("p").element("strong", "Against the best flyable path: ");
                out.text(each.sentence() + ".").end();
            });
        }
    }

    private Set<Waypoint> places() {
        Chart chart = flight.lesson().chart();
        Set<Waypoint> first = new LinkedHashSet<>();
        route.ifPresent(amended -> {
            amended.course().ifPresent(course -> first.add(course.station()));
            amended.legs().stream().map(Leg::endsAt).flatMap(Optional::stream).forEach(first::add);
        });
        for (FiledRoute.Segment segment : flight.lesson().filed().segments()) {
            first.add(segment.from());
            first.add(segment.to());
        }
        first.addAll(chart.stations());
        first.addAll(chart.fixes());
        first.addAll(chart.airports());
        return first;
    }

    /** What each line and mark of a plan means. */
    static void legend(Markup out) {
        out.start("ul", "class", "legend");
        sample(out, "track", "track flown");
        sample(out, "best", "best flyable path");
        sample(out, "amended", "amended route");
        sample(out, "heading", "heading, as predicted in the wind");
        sample(out, "radial", "radial to intercept");
        sample(out, "filed", "route as filed");
        sample(out, "airway", "airway");
        for (NumberedEvent.Kind kind : NumberedEvent.Kind.values()) {
            entry(
                    out,
                    kind.words(),
                    () -> EventCluster.mark(
                            out, kind, new Projection.Point(27, kind == NumberedEvent.Kind.FAULT ? 15 : 12)));
        }
        entry(out, "computed fix", () -> {
            out.empty("circle", "class", "computed", "cx", "27", "cy", "12", "r", "7");
            out.empty("path", "class", "computed", "d", "M16,12 h22 m-11,-11 v22");
        });
        entry(
                out,
                "predicted intercept",
                () -> out.empty("path", "class", "intercept", "d", "M20,5 l14,14 m0,-14 l-14,14"));
        out.endLine();
        out.element("p", "Numbers are the events of the log below; each leads to its line there.", "class", "hint");
    }

    private static void sample(Markup out, String style, String words) {
        entry(out, words, () -> {
            if (style.equals("amended") || style.equals("heading")) {
                out.empty("polyline", "class", "amended-band", "points", "0,12 54,12");
            }
            out.empty("polyline", "class", style, "points", "0,12 54,12");
        });
    }

    private static void entry(Markup out, String words, Runnable drawing) {
        out.start("li").start("svg", "viewBox", "0 0 54 24", "class", "swatch", "aria-hidden", "true");
        drawing.run();
        out.end().text(words).end();
    }
}
