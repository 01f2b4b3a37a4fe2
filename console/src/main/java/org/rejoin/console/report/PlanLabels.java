package org.rejoin.console.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

import org.rejoin.bridge.chart.Airport;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.route.ComputedFix;
import org.rejoin.bridge.route.Intercept;
import org.rejoin.console.words.Words;

/** Marks and labels of a plan. Marks are drawn at once, labels last, where there is room for them. */
final class PlanLabels {

    private static final double LINE_HEIGHT = 21;
    private static final int MOST_PLACES = 120;
    private static final int MOST_CLUSTERS = 200;

    private final Markup out;
    private final Projection view;
    private final LabelPlacer room;
    private final List<Label> labels = new ArrayList<>();
    private final List<EventCluster> clusters = new ArrayList<>();
    private final Map<String, List<List<Projection.Point>>> airways = new LinkedHashMap<>();
    private int places;

    private record Label(Projection.Point at, LabelPlacer.Box box, String text, String style, boolean tied) {}

    PlanLabels(Markup out, Projection view) {
        this.out = out;
        this.view = view;
        this.room = new LabelPlacer(view.width(), view.height());
    }

    void avoid(List<Projection.Point> line) {
        room.avoid(line);
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
        if (waypoint instanceof Station station) {
            hexagon(at, station.kind() == Station.Kind.NDB);
        } else if (waypoint instanceof Airport) {
            out.empty("circle", "class", "place", "cx", x(at), "cy", y(at), "r", "7");
            out.empty("path", "class", "place", "d", path(at, "M%s,%s m-10,0 h20", 0));
        } else {
            out.empty("path", "class", "place", "d", path(at, "M%s,%s l7,12 h-14 Z", -8));
        }
        keepFree(at, 9);
        label(at, waypoint.ident(), "name", false);
    }

    private void hexagon(Projection.Point at, boolean dots) {
        StringBuilder corners = new StringBuilder("M");
        for (int i = 0; i < 6; i++) {
            double angle = Math.PI / 3 * i;
            corners.append(i == 0 ? "" : " L")
                    .append(Figures.xy(at.x() + 10 * Math.cos(angle)))
                    .append(',')
                    .append(Figures.xy(at.y() + 10 * Math.sin(angle)));
        }
        if (dots) {
            out.empty("circle", "class", "place dotted", "cx", x(at), "cy", y(at), "r", "10");
        } else {
            out.empty("path", "class", "place", "d", corners + " Z");
        }
        out.empty("circle", "class", "dot", "cx", x(at), "cy", y(at), "r", "2.5");
    }

    void computedFix(ComputedFix fix) {
        Projection.Point at = view.of(fix.fix().position());
        if (inside(at)) {
            out.empty("circle", "class", "computed", "cx", x(at), "cy", y(at), "r", "11");
            out.empty("path", "class", "computed", "d", path(at, "M%s,%s m-16,0 h32 m-16,-16 v32", 0));
            keepFree(at, 14);
            label(at, fix.fix().ident() + " (computed fix)", "name strong", true);
        }
    }

    void intercept(Intercept met, Optional<Position> lead) {
        lead.map(view::of).filter(this::inside).ifPresent(at -> {
            out.empty("circle", "class", "lead", "cx", x(at), "cy", y(at), "r", "4.5");
            label(at, Words.say("lead %.2f NM: begin the turn", met.leadNm()), "small", true);
        });
        Projection.Point at = view.of(met.position());
        if (inside(at)) {
            out.empty("path", "class", "intercept", "d", path(at, "M%s,%s m-8,-8 l16,16 m0,-16 l-16,16", 0));
            label(at, Words.say("intercept, %.0f degrees", met.angleDeg()), "small", true);
        }
    }

    void onLine(List<Projection.Point> line, String text) {
        middle(line).ifPresent(at -> label(at, text, "small", false));
    }

    void airway(List<Projection.Point> line, String ident) {
        airways.computeIfAbsent(ident, key -> new ArrayList<>()).add(line);
    }

    /** Names each airway once, on its longest line. */
    void airways() {
        airways.forEach((ident, lines) -> lines.stream()
                .flatMap(line -> middle(line).stream())
                .findFirst()
                .ifPresent(at -> label(at, ident, "airway-name", false)));
    }

    void events(List<NumberedEvent> events, FlightRecord track) {
        double within = 9;
        List<EventCluster> all;
        do {
            all = EventCluster.of(events, event -> view.of(track.positionAt(event.timeS())), within);
            within *= 2;
        } while (all.size() > MOST_CLUSTERS && within < 5000);
        for (EventCluster cluster : all) {
            keepFree(cluster.at(), 6);
        }
        for (EventCluster cluster : all) {
            clusters.add(cluster.in(room.place(cluster.at(), cluster.width(), 20)));
        }
    }

    /**
     * Draws what was kept for last.
     *
     * @param anchor what the marks of events can be linked to by, before their numbers
     */
    void write(String anchor) {
        for (Label label : labels) {
            if (label.tied()) {
                tie(label.at(), label.box());
            }
            out.element(
                    "text",
                    label.text(),
                    "class",
                    label.style(),
                    "x",
                    Figures.xy(label.box().middleX()),
                    "y",
                    Figures.xy(label.box().top() + 16),
                    "text-anchor",
                    "middle");
        }
        for (EventCluster cluster : clusters) {
            tie(cluster.at(), cluster.box());
        }
        for (EventCluster cluster : clusters) {
            cluster.write(out, anchor);
        }
    }

    /** A thin line from a mark to a label that found no room beside it. */
    private void tie(Projection.Point at, LabelPlacer.Box box) {
        double x = Math.min(Math.max(at.x(), box.left()), box.left() + box.width());
        double y = Math.min(Math.max(at.y(), box.top()), box.top() + box.height());
        if (Math.hypot(x - at.x(), y - at.y()) > 10) {
            out.empty("line", "class", "tie", "x1", x(at), "y1", y(at), "x2", Figures.xy(x), "y2", Figures.xy(y));
        }
    }

    private void label(Projection.Point at, String text, String style, boolean tied) {
        double width = text.length() * (style.startsWith("name") ? 12.5 : 9.8) + 4;
        labels.add(new Label(at, room.place(at, width, LINE_HEIGHT), text, style, tied));
    }

    private void keepFree(Projection.Point at, double radius) {
        room.keepFree(new LabelPlacer.Box(at.x() - radius, at.y() - radius, 2 * radius, 2 * radius));
    }

    private Optional<Projection.Point> middle(List<Projection.Point> line) {
        List<Projection.Point> seen = new ArrayList<>();
        for (int i = 1; i < line.size(); i++) {
            for (int step = 0; step < 20; step++) {
                double share = step / 20.0;
                Projection.Point from = line.get(i - 1);
                Projection.Point to = line.get(i);
                Projection.Point at = new Projection.Point(
                        from.x() + share * (to.x() - from.x()), from.y() + share * (to.y() - from.y()));
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
        return String.format(java.util.Locale.ROOT, format, Figures.xy(at.x()), Figures.xy(at.y() + down));
    }

    private static String x(Projection.Point at) {
        return Figures.xy(at.x());
    }

    private static String y(Projection.Point at) {
        return Figures.xy(at.y());
    }
}
