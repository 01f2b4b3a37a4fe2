package org.rejoin.console.draw;

import java.time.LocalDate;
import java.util.Optional;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.console.words.Words;

/** Below a plan: its scale, where north is, true and magnetic, and the wind. */
final class PlanFoot {

    private static final double[] LENGTHS_NM = {0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000};

    private final Markup out;
    private final Projection view;
    private final Optional<AmendedRoute> route;
    private final double middle;

    PlanFoot(Markup out, Projection view, Optional<AmendedRoute> route) {
        this.out = out;
        this.view = view;
        this.route = route;
        this.middle = view.height() + 40;
    }

    void write(Wind wind, String source, LocalDate date) {
        scale();
        double variation = route.map(amended ->
                        amended.situation().variationAt(view.centre()).eastDeg())
                .orElseGet(() ->
                        MagneticModel.WMM2025.variation(view.centre(), 0, date).eastDeg());
        north(variation);
        wind(wind, source);
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
                        Figures.xy(middle - 16), Figures.xy(units), Figures.xy(-units / 2)));
        text(4, middle + 20, Figures.plain(length, 1) + " NM");
    }

    private void north(double variation) {
        double x = 320;
        arrow("north-true", x, 0, true);
        arrow("north-magnetic", x, variation, false);
        text(x + 36, middle - 4, "true north up");
        text(
                x + 36,
                middle + 20,
                Words.say("dashed: magnetic, %.1f\u00b0 %s", Math.abs(variation), variation < 0 ? "west" : "east"));
    }

    private void wind(Wind wind, String source) {
        double x = 750;
        if (wind.speedKt() == 0) {
            text(x, middle + 8, "wind calm");
            return;
        }
        arrow("wind", x, wind.from().deg() + 180, true);
        text(x + 36, middle - 4, "wind from " + Angles.figures(wind.from().deg()) + " true");
        text(x + 36, middle + 20, Words.say("%.0f kt, %s", wind.speedKt(), source));
    }

    private void arrow(String style, double x, double degrees, boolean head) {
        String turn = Words.say("translate(%s %s) rotate(%s)", Figures.xy(x), Figures.xy(middle), Figures.xy(degrees));
        out.empty(
                "path", "class", style, "transform", turn, "d", "M0,26 V-26" + (head ? " M-7,-14 L0,-26 L7,-14" : ""));
    }

    private void text(double x, double y, String text) {
        out.words("small", x, y, text);
    }
}
