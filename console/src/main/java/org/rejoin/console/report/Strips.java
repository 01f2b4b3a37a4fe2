package org.rejoin.console.report;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.DoubleStream;

import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.console.draw.LabelPlacer;
import org.rejoin.console.draw.Markup;
import org.rejoin.console.draw.Projection;
import org.rejoin.console.words.Words;

/** Three strips on one time axis: cross-track with its limits, altitude, heading; every event is a line through them. */
final class Strips {

    /** A heading that goes farther round, as in a hold, is drawn within the circle, degrees. */
    private static final double MOST_UNROLLED_DEG = 400;

    static final double HEIGHT = 800;

    private static final double ROW = 22;
    private static final int ROWS = 3;
    private static final double CORRIDOR_TOP = 130;
    private static final double CORRIDOR_HEIGHT = 230;
    private static final double ALTITUDE_TOP = 424;
    private static final double ALTITUDE_HEIGHT = 120;
    private static final double HEADING_TOP = 594;
    private static final double HEADING_HEIGHT = 150;
    private static final double[] TICKS_S = {5, 10, 30, 60, 120, 300, 600, 1800, 3600, 7200};

    private final Markup out;
    private final StripValues values;
    private final double endS;

    Strips(Markup out, DebriefedFlight flight) {
        this.out = out;
        this.values = new StripValues(flight);
        List<Point> samples = flight.samples();
        this.endS = samples.get(samples.size() - 1).timeS();
    }

    void write(List<NumberedEvent> events) {
        out.start(
                "svg",
                "viewBox",
                "0 0 1000 " + Markup.xy(HEIGHT),
                "class",
                "drawing strips",
                "id",
                "strips",
                "data-left",
                Markup.xy(Panel.LEFT),
                "data-right",
                Markup.xy(Panel.RIGHT),
                "data-end",
                Markup.plain(endS, 2),
                "role",
                "group",
                "aria-label",
                "Cross-track, altitude and heading against time");
        Panel corridor = corridor();
        Panel altitude = altitude();
        Panel heading = heading();
        times(List.of(corridor, altitude, heading));
        eventLines(events, corridor);
        out.empty(
                "line",
                "id",
                "cursor",
                "class",
                "cursor",
                "x1",
                "0",
                "x2",
                "0",
                "y1",
                Markup.xy(CORRIDOR_TOP),
                "y2",
                Markup.xy(HEADING_TOP + HEADING_HEIGHT),
                "display",
                "none");
        out.endLine();
    }

    private Panel corridor() {
        List<StripValues.Run<Double>> limits = values.courseLimits();
        double limit = limits.stream().mapToDouble(StripValues.Run::what).max().orElse(1);
        // Wide enough for what went wrong, never so wide that the limits cannot be told apart.
        double range = Math.min(4 * limit, Math.max(1.6 * limit, 1.15 * values.farthestSinceMetNm()));
        // Left is up: seen along the course, as the time runs to the right.
        Panel panel = panel("corridor-area", CORRIDOR_TOP, CORRIDOR_HEIGHT, -range, range);
        panel.frame(out, "Cross-track, NM", "left of course is up; the band is the limit once established");
        List<List<Panel.At>> crossTrack = values.crossTrack();
        for (StripValues.Run<Double> run : limits) {
            panel.band(out, run.fromS(), run.toS(), -run.what(), run.what());
        }
        panel.level(out, "axis", 0, "course");
        panel.level(out, "none", limit, Words.say("%.2f left", limit));
        panel.level(out, "none", -limit, Words.say("%.2f right", limit));
        panel.curve(
                out,
                "curve",
                crossTrack.stream()
                        .map(piece ->
                                piece.stream().map(at -> at.with(nm -> -nm)).toList())
                        .toList());
        legNames(panel);
        offTheStrip(panel, crossTrack, range);
        return panel;
    }

    private void legNames(Panel panel) {
        double free = Panel.LEFT;
        for (StripValues.Run<String> run : values.legs()) {
            double x = panel.x(run.fromS());
            out.line("leg-change", x, panel.top(), x, panel.bottom() + 26);
            double width = 9.2 * run.what().length() + 12;
            if (x >= free && x + width < Panel.RIGHT + 8) {
                out.words("small", x + 5, panel.bottom() + 22, run.what());
                free = x + width;
            }
        }
    }

    private void offTheStrip(Panel panel, List<List<Panel.At>> crossTrack, double range) {
        double left = farthest(crossTrack, -1);
        double right = farthest(crossTrack, 1);
        if (left > range) {
            out.words(
                    "small",
                    Panel.LEFT + 8,
                    panel.top() + 20,
                    Words.say("\u2191 beyond the strip, to %.1f NM left", left));
        }
        if (right > range) {
            out.words(
                    "small",
                    Panel.LEFT + 8,
                    panel.bottom() - 8,
                    Words.say("\u2193 beyond the strip, to %.1f NM right", right));
        }
    }

    private static double farthest(List<List<Panel.At>> crossTrack, int side) {
        return crossTrack.stream()
                .flatMap(List::stream)
                .filter(Panel.At::given)
                .mapToDouble(at -> side * at.value())
                .max()
                .orElse(0);
    }

    private Panel altitude() {
        List<Panel.At> altitudes = values.altitude();
        List<StripValues.Run<StripValues.Band>> bands = values.altitudeBands();
        double[] range = range(altitudes, bands, 150);
        Panel panel = panel("altitude-area", ALTITUDE_TOP, ALTITUDE_HEIGHT, range[0], range[1]);
        boolean known = altitudes.stream().anyMatch(Panel.At::given);
        panel.frame(out, "Altitude, ft above mean sea level", known ? "" : "the feed carries none");
        bands.forEach(run -> panel.band(
                out, run.fromS(), run.toS(), run.what().low(), run.what().high()));
        if (known) {
            levels(panel, step(range[1] - range[0], new double[] {50, 100, 200, 500, 1000, 2000, 5000, 10000}), 0);
        }
        panel.curve(out, "curve", values.pieces(altitudes));
        return panel;
    }

    private Panel heading() {
        List<Panel.At> headings = values.headings();
        List<StripValues.Run<StripValues.Band>> bands = values.headingBands(headings);
        double[] range = range(headings, bands, 15);
        boolean round = range[1] - range[0] > MOST_UNROLLED_DEG;
        if (round) {
            range = new double[] {0, 360};
        }
        Panel panel = panel("heading-area", HEADING_TOP, HEADING_HEIGHT, range[0], range[1]);
        panel.frame(
                out,
                "Heading, degrees magnetic",
                values.hasHeading() ? "the band is the assigned heading with its limits" : "the feed carries none");
        for (StripValues.Run<StripValues.Band> run : bands) {
            double half = (run.what().high() - run.what().low()) / 2;
            double middle = run.what().low() + half;
            double shown = round ? Angles.circle(middle) : middle;
            panel.band(out, run.fromS(), run.toS(), Math.max(range[0], shown - half), Math.min(range[1], shown + half));
        }
        if (values.hasHeading()) {
            levels(panel, step(range[1] - range[0], new double[] {10, 30, 45, 90}), 360);
        }
        List<List<Panel.At>> pieces = values.pieces(headings);
        panel.curve(out, "curve", round ? rolledUp(pieces) : pieces);
        return panel;
    }

    /** Within the circle again, with no line from one side of north to the other. */
    private static List<List<Panel.At>> rolledUp(List<List<Panel.At>> pieces) {
        List<List<Panel.At>> all = new ArrayList<>();
        for (List<Panel.At> piece : pieces) {
            List<Panel.At> now = new ArrayList<>();
            double before = Double.NaN;
            for (Panel.At at : piece) {
                Panel.At within = at.with(Angles::circle);
                if (Math.abs(within.value() - before) > 180) {
                    all.add(now);
                    now = new ArrayList<>();
                }
                now.add(within);
                before = within.value();
            }
            all.add(now);
        }
        return all;
    }

    /** Levels at round values; directions are named within the circle. */
    private void levels(Panel panel, double step, double circle) {
        for (double value = Math.ceil(panel.least() / step) * step; value <= panel.most(); value += step) {
            panel.level(out, "level", value, circle > 0 ? Angles.figures(value) : Markup.plain(value, 0));
        }
    }

    private static double step(double range, double[] steps) {
        for (double step : steps) {
            if (range / step <= 5.5) {
                return step;
            }
        }
        return range / 4;
    }

    private static double[] range(List<Panel.At> line, List<StripValues.Run<StripValues.Band>> bands, double margin) {
        double[] all = DoubleStream.concat(
                        line.stream().filter(Panel.At::given).mapToDouble(Panel.At::value),
                        bands.stream()
                                .flatMapToDouble(run -> DoubleStream.of(
                                        run.what().low(), run.what().high())))
                .toArray();
        double least = DoubleStream.of(all).min().orElse(0);
        double most = DoubleStream.of(all).max().orElse(0);
        double room = Math.max(margin, (most - least) * 0.06);
        return new double[] {least - room, most + room};
    }

    private Panel panel(String id, double top, double height, double least, double most) {
        return new Panel(id, top, height, least, most, 0, endS);
    }

    private void times(List<Panel> panels) {
        double step = step(endS, TICKS_S);
        for (double at = 0; at <= endS + 1e-6; at += step) {
            double x = panels.get(0).x(at);
            for (Panel panel : panels) {
                out.line("tick", x, panel.bottom(), x, panel.bottom() + 6);
            }
            long seconds = Math.round(at);
            String clock = Words.say("%d:%02d", seconds / 60, seconds % 60);
            out.words("small", x, HEADING_TOP + HEADING_HEIGHT + 26, "middle", clock);
        }
        out.words("small", 4, HEADING_TOP + HEADING_HEIGHT + 48, "time since the first sample, minutes:seconds");
    }

    /** A line through all strips for each event; its number stands above, in the first row that has room. */
    private void eventLines(List<NumberedEvent> events, Panel panel) {
        List<EventCluster> clusters =
                EventCluster.of(events, event -> new Projection.Point(panel.x(event.timeS()), CORRIDOR_TOP - 42), 5);
        double[] free = new double[ROWS];
        List<EventCluster> placed = new ArrayList<>();
        for (EventCluster cluster : clusters) {
            double left = Math.min(cluster.at().x() - cluster.width() / 2, 1000 - cluster.width());
            int row = 0;
            while (row < ROWS - 1 && free[row] > left) {
                row++;
            }
            free[row] = left + cluster.width() + 4;
            double top = CORRIDOR_TOP - 42 - 14 - ROW * (row + 1);
            placed.add(cluster.in(new LabelPlacer.Box(left, top, cluster.width(), ROW)));
        }
        for (EventCluster cluster : placed) {
            double x = cluster.at().x();
            String style = "event-line " + cluster.kind().style() + "-line";
            for (double[] span : new double[][] {
                {cluster.box().top() + ROW, CORRIDOR_TOP - 48},
                {CORRIDOR_TOP, CORRIDOR_TOP + CORRIDOR_HEIGHT},
                {ALTITUDE_TOP, ALTITUDE_TOP + ALTITUDE_HEIGHT},
                {HEADING_TOP, HEADING_TOP + HEADING_HEIGHT}
            }) {
                out.line(style, x, span[0], x, span[1]);
            }
        }
        placed.forEach(cluster -> cluster.write(out, "strip-"));
    }
}
