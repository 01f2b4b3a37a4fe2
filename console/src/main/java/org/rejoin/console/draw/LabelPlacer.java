package org.rejoin.console.draw;

import java.util.ArrayList;
import java.util.List;

/** Finds room for labels: beside their point, not over each other, over as few lines as can be. Greedy, in call order. */
public final class LabelPlacer {

    /** Least first, so that a label stays near its point. */
    private static final double[] DISTANCES = {12, 22, 36, 54, 78, 108};

    private static final int DIRECTIONS = 16;

    private final double width;
    private final double height;
    private final List<Box> taken = new ArrayList<>();
    private final List<Projection.Point> lines = new ArrayList<>();

    LabelPlacer(double width, double height) {
        this.width = width;
        this.height = height;
    }

    /** Room for a label from its left and top edge, units of the drawing. */
    public record Box(double left, double top, double width, double height) {
        /** The room of a mark: a square around its middle, by its radius. */
        public static Box around(Projection.Point at, double radius) {
            return new Box(at.x() - radius, at.y() - radius, 2 * radius, 2 * radius);
        }

        boolean overlaps(Box other) {
            return left < other.left + other.width
                    && other.left < left + width
                    && top < other.top + other.height
                    && other.top < top + height;
        }

        boolean holds(Projection.Point point) {
            return point.x() >= left && point.x() <= left + width && point.y() >= top && point.y() <= top + height;
        }

        double middleX() {
            return left + width / 2;
        }
    }

    /** A place that no label may cover. */
    public void keepFree(Box box) {
        taken.add(box);
    }

    /** A line that labels should not cover. */
    void avoid(List<Projection.Point> line) {
        for (int i = 1; i < line.size(); i++) {
            Projection.Point from = line.get(i - 1);
            Projection.Point to = line.get(i);
            int steps = (int) Math.min(400, Math.ceil(from.distance(to) / 6));
            for (int step = 0; step < steps; step++) {
                Projection.Point point = from.toward(to, step / (double) steps);
                if (point.x() >= 0 && point.x() <= width && point.y() >= 0 && point.y() <= height) {
                    lines.add(point);
                }
            }
        }
    }

    /** Takes the best room for a label of a size near the point that it names. */
    public Box place(Projection.Point point, double labelWidth, double labelHeight) {
        Box best = new Box(point.x() + 8, point.y() - labelHeight / 2, labelWidth, labelHeight);
        double least = Double.POSITIVE_INFINITY;
        for (double distance : DISTANCES) {
            for (int i = 0; i < DIRECTIONS; i++) {
                double angle = 2 * Math.PI * (i + 0.5) / DIRECTIONS;
                double x = point.x() + Math.sin(angle) * (distance + labelWidth / 2);
                double y = point.y() - Math.cos(angle) * (distance + labelHeight / 2);
                Box box = new Box(x - labelWidth / 2, y - labelHeight / 2, labelWidth, labelHeight);
                double cost = cost(box) + distance / 10;
                if (cost < least) {
                    least = cost;
                    best = box;
                }
            }
        }
        taken.add(best);
        return best;
    }

    private double cost(Box box) {
        if (box.left < 4 || box.top < 4 || box.left + box.width > width - 4 || box.top + box.height > height - 4) {
            return 1e6;
        }
        double cost = 0;
        for (Box other : taken) {
            if (box.overlaps(other)) {
                cost += 1000;
            }
        }
        for (Projection.Point point : lines) {
            if (box.holds(point)) {
                cost += 4;
            }
        }
        return cost;
    }
}
