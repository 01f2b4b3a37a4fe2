package org.rejoin.console.report;

import org.rejoin.console.draw.Markup;
import org.rejoin.console.draw.Projection;

/** What each line and mark of a plan means. */
final class Legend {

    private Legend() {}

    static void write(Markup out) {
        out.start("ul", "class", "legend");
        line(out, "track", "track flown");
        line(out, "best", "best flyable path");
        line(out, "amended", "amended route");
        line(out, "heading", "heading, as predicted in the wind");
        line(out, "radial", "radial to intercept");
        line(out, "filed", "route as filed");
        line(out, "airway", "airway");
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

    private static void line(Markup out, String style, String words) {
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
