package org.rejoin.console.brief;

import java.util.List;

import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.console.words.Words;

/** The strip under the map: what the lines mean, the scale, and the two norths. */
final class DrawingKey {

    private static final double TOP = 668;

    private final Paper paper;
    private final Sketch sketch;
    private final AmendedRoute route;

    /**
     * One kind of line.
     *
     * @param name of what it shows
     * @param stroke as drawn
     */
    record Entry(String name, Paper.Stroke stroke) {}

    DrawingKey(Paper paper, Sketch sketch, AmendedRoute route) {
        this.paper = paper;
        this.sketch = sketch;
        this.route = route;
    }

    void draw(List<Entry> entries) {
        for (int i = 0; i < entries.size(); i++) {
            double y = TOP + 8 + 18 * i;
            Entry entry = entries.get(i);
            paper.line(List.of(new Sketch.Spot(24, y), new Sketch.Spot(90, y)), entry.stroke());
            paper.text(102, y + 4.5, entry.name(), 13, false, "start");
        }
        scaleBar();
        norths();
    }

    private void scaleBar() {
        double nm = 1;
        for (double each : new double[] {0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200}) {
            nm = each * sketch.scale() <= 260 ? each : nm;
        }
        double left = 330;
        double y = TOP + 26;
        double right = left + nm * sketch.scale();
        double middle = (left + right) / 2;
        Paper.Stroke thin = new Paper.Stroke(Paper.BLACK, 1.5, "", 1);
        Paper.Stroke thick = new Paper.Stroke(Paper.BLACK, 6, "", 1);
        paper.line(List.of(new Sketch.Spot(left, y), new Sketch.Spot(right, y)), thin);
        paper.line(List.of(new Sketch.Spot(left, y), new Sketch.Spot(middle, y)), thick);
        for (double x : new double[] {left, middle, right}) {
            paper.line(List.of(new Sketch.Spot(x, y - 6), new Sketch.Spot(x, y + 6)), thin);
        }
        paper.text(left, y - 11, "0", 12, false, "middle");
        paper.text(middle, y - 11, number(nm / 2), 12, false, "middle");
        paper.text(right, y - 11, number(nm) + " NM", 12, false, "middle");
        paper.text(
                left,
                y + 27,
                Words.say(
                        "Wind %s, %.0f kt true airspeed, %s",
                        route.situation().wind().speedKt() > 0
                                ? Words.say(
                                        "%s true / %.0f kt",
                                        Words.direction(
                                                route.situation().wind().from().deg()),
                                        route.situation().wind().speedKt())
                                : "calm",
                        route.situation().trueAirspeedKt(),
                        route.situation().date()),
                13,
                false,
                "start");
        paper.text(left, y + 46, "Radials by station declination, headings by today's variation.", 12, false, "start");
    }

    private static String number(double nm) {
        return nm == Math.rint(nm) ? Words.say("%.0f", nm) : Words.say("%s", nm);
    }

    private void norths() {
        double variation = route.situation().variation().eastDeg();
        double up = sketch.paperDeg(route.situation().position(), 0);
        Sketch.Spot foot = new Sketch.Spot(840, TOP + 84);
        arrow(foot, up, "M0 0L0 -66M-5 -56L0 -68L5 -56Z", "TN");
        arrow(foot, up + variation, "M0 0L0 -66M0 -68L" + (variation < 0 ? "-6" : "6") + " -54L0 -54Z", "MN");
        paper.text(
                foot.x() + (variation < 0 ? 14 : -14),
                foot.y() - 4,
                "variation " + Words.variation(variation),
                12,
                false,
                variation < 0 ? "start" : "end");
    }

    private void arrow(Sketch.Spot foot, double deg, String shape, String name) {
        paper.shape(foot, deg, shape, Paper.BLACK, Paper.BLACK);
        double angle = Math.toRadians(deg);
        // The two names stand outside of the angle between the arrows.
        boolean magnetic = name.equals("MN");
        boolean west = route.situation().variation().eastDeg() < 0;
        double side = magnetic == west ? -12 : 12;
        paper.text(
                foot.x() + 60 * Math.sin(angle) + side,
                foot.y() - 60 * Math.cos(angle),
                name,
                12,
                true,
                side < 0 ? "end" : "start");
    }
}
