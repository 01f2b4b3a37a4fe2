package org.rejoin.console.draw;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Deque;
import java.util.List;
import java.util.stream.Collectors;

/** Lines of a drawing with no more points than the eye can tell (Douglas and Peucker, Cartographica 10, 1973). */
public final class Polyline {

    private static final double TOLERANCE = 0.3;

    private Polyline() {}

    /** The same line to within a third of a unit: some of its points, the first and the last among them. */
    public static List<Projection.Point> thinned(List<Projection.Point> points) {
        if (points.size() < 3) {
            return points;
        }
        BitSet kept = new BitSet(points.size());
        kept.set(0);
        kept.set(points.size() - 1);
        Deque<int[]> spans = new ArrayDeque<>();
        spans.push(new int[] {0, points.size() - 1});
        while (!spans.isEmpty()) {
            int[] span = spans.pop();
            int farthest = -1;
            double most = TOLERANCE;
            for (int i = span[0] + 1; i < span[1]; i++) {
                double distance = fromChord(points.get(i), points.get(span[0]), points.get(span[1]));
                if (distance > most) {
                    most = distance;
                    farthest = i;
                }
            }
            if (farthest >= 0) {
                kept.set(farthest);
                spans.push(new int[] {span[0], farthest});
                spans.push(new int[] {farthest, span[1]});
            }
        }
        List<Projection.Point> thin = new ArrayList<>();
        kept.stream().forEach(i -> thin.add(points.get(i)));
        return thin;
    }

    private static double fromChord(Projection.Point point, Projection.Point from, Projection.Point to) {
        double dx = to.x() - from.x();
        double dy = to.y() - from.y();
        double length = dx * dx + dy * dy;
        double share = length == 0
                ? 0
                : Math.min(1, Math.max(0, ((point.x() - from.x()) * dx + (point.y() - from.y()) * dy) / length));
        return point.distance(from.toward(to, share));
    }

    /** Writes a line as an element of SVG; the style is its class in the style sheet. */
    public static void write(Markup out, String style, List<Projection.Point> points) {
        String places = points.stream()
                .map(point -> Markup.xy(point.x()) + "," + Markup.xy(point.y()))
                .collect(Collectors.joining(" "));
        out.empty("polyline", "class", style, "points", places);
    }
}
