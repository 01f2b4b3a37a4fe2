package org.rejoin.console.report;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;

import org.rejoin.console.draw.Markup;
import org.rejoin.console.draw.Polyline;
import org.rejoin.console.draw.Projection;

/**
 * One strip of a drawing: a value against time, from the least at the bottom edge to the most at the top, and from one
 * second since the first sample to another.
 */
record Panel(String id, double top, double height, double least, double most, double fromS, double toS) {

    static final double LEFT = 92;
    static final double RIGHT = 990;

    /** One value in the unit of the panel, so many seconds since the first sample; {@code NaN} where there is none. */
    record At(double timeS, double value) {

        /** The same moment with the value changed, where there is one. */
        At with(DoubleUnaryOperator change) {
            return new At(timeS, change.applyAsDouble(value));
        }

        boolean given() {
            return !Double.isNaN(value);
        }
    }

    double x(double timeS) {
        return LEFT + (RIGHT - LEFT) * (timeS - fromS) / Math.max(toS - fromS, 1e-3);
    }

    double y(double value) {
        return top + height * (most - value) / Math.max(most - least, 1e-9);
    }

    double bottom() {
        return top + height;
    }

    void frame(Markup out, String title, String note) {
        out.start("clipPath", "id", id);
        out.box("", LEFT, top, RIGHT - LEFT, height);
        out.end();
        out.box("frame", LEFT, top, RIGHT - LEFT, height);
        out.start("text", "class", "panel-title", "x", Markup.xy(LEFT), "y", Markup.xy(top - 9));
        out.text(title);
        if (!note.isEmpty()) {
            out.element("tspan", "  " + note, "class", "small");
        }
        out.end();
    }

    /** A level with its name to the left. */
    void level(Markup out, String style, double value, String name) {
        if (value < least || value > most) {
            return;
        }
        out.line(style, LEFT, y(value), RIGHT, y(value));
        out.words("small", LEFT - 6, y(value) + 6, "end", name);
    }

    /** The band between two values over a time. */
    void band(Markup out, double first, double last, double low, double high) {
        double lower = Math.max(low, least);
        double upper = Math.min(high, most);
        if (last > first && upper > lower) {
            out.box("band", x(first), y(upper), x(last) - x(first), y(lower) - y(upper));
            out.line("band-edge", x(first), y(upper), x(last), y(upper));
            out.line("band-edge", x(first), y(lower), x(last), y(lower));
        }
    }

    /** The values as a line, broken where there is none and where it leaves the panel. */
    void curve(Markup out, String style, List<List<At>> pieces) {
        out.start("g", "clip-path", "url(#" + id + ")");
        for (List<At> piece : pieces) {
            List<Projection.Point> points = new ArrayList<>();
            for (At at : piece) {
                if (at.given()) {
                    points.add(new Projection.Point(x(at.timeS()), y(at.value())));
                } else {
                    stroke(out, style, points);
                    points = new ArrayList<>();
                }
            }
            stroke(out, style, points);
        }
        out.end();
    }

    private static void stroke(Markup out, String style, List<Projection.Point> points) {
        if (points.size() > 1) {
            Polyline.write(out, style, Polyline.thinned(points));
        }
    }
}
