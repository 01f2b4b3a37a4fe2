package org.rejoin.console.brief;

import java.util.List;
import java.util.stream.IntStream;

import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;

/**
 * A map of a small region on paper: azimuthal equidistant about its middle, true north up there. Good to the width of a
 * line for some hundred miles, at any latitude and across the antimeridian.
 */
final class Sketch {

    /** Room between what is drawn and the frame, parts of the frame. */
    private static final double MARGIN = 0.09;

    /** Smallest width of the region, so that a point alone can be drawn, nautical miles. */
    private static final double SMALLEST_NM = 4;

    private final Position centre;
    private final double shiftX;
    private final double shiftY;
    private final double scale;

    /**
     * A place on the paper.
     *
     * @param x to the right, units of the drawing
     * @param y down, units of the drawing
     */
    record Spot(double x, double y) {}

    /**
     * A rectangle on the paper.
     *
     * @param x left edge
     * @param y upper edge
     * @param width to the right
     * @param height down
     */
    record Frame(double x, double y, double width, double height) {

        boolean contains(Spot spot) {
            return spot.x >= x && spot.x <= x + width && spot.y >= y && spot.y <= y + height;
        }

        boolean holds(Frame other) {
            return other.x >= x
                    && other.y >= y
                    && other.x + other.width <= x + width
                    && other.y + other.height <= y + height;
        }

        double overlap(Frame other) {
            double across = Math.min(x + width, other.x + other.width) - Math.max(x, other.x);
            double down = Math.min(y + height, other.y + other.height) - Math.max(y, other.y);
            return across > 0 && down > 0 ? across * down : 0;
        }
    }

    Sketch(Frame frame, List<Position> shown) {
        this.centre = shown.get(0);
        double left = Double.MAX_VALUE;
        double right = -Double.MAX_VALUE;
        double top = Double.MAX_VALUE;
        double bottom = -Double.MAX_VALUE;
        for (Position position : shown) {
            Spot nm = nm(position);
            left = Math.min(left, nm.x);
            right = Math.max(right, nm.x);
            top = Math.min(top, nm.y);
            bottom = Math.max(bottom, nm.y);
        }
        double width = Math.max(right - left, SMALLEST_NM);
        double height = Math.max(bottom - top, SMALLEST_NM);
        this.scale = (1 - 2 * MARGIN) * Math.min(frame.width / width, frame.height / height);
        this.shiftX = frame.x + frame.width / 2 - (left + right) / 2 * scale;
        this.shiftY = frame.y + frame.height / 2 - (top + bottom) / 2 * scale;
    }

    private Spot nm(Position position) {
        Geodesics.Inverse line = centre.to(position);
        double azimuth = Math.toRadians(line.initial().deg());
        return new Spot(line.distanceNm() * Math.sin(azimuth), -line.distanceNm() * Math.cos(azimuth));
    }

    /** Units of the drawing to a nautical mile. */
    double scale() {
        return scale;
    }

    Spot spot(Position position) {
        Spot nm = nm(position);
        return new Spot(shiftX + nm.x * scale, shiftY + nm.y * scale);
    }

    /** A geodesic as points of a polyline. */
    List<Spot> spots(GeodesicLine line, double fromNm, double toNm) {
        int pieces = 24;
        return IntStream.rangeClosed(0, pieces)
                .mapToObj(i -> spot(line.pointAt(fromNm + (toNm - fromNm) * i / pieces)))
                .toList();
    }

    /** Direction on the paper in which a true direction at a place points, degrees clockwise from up. */
    double paperDeg(Position from, double trueDeg) {
        Spot here = spot(from);
        Spot there = spot(from.destination(new TrueDirection(trueDeg), 1));
        return Math.toDegrees(Math.atan2(there.x - here.x, here.y - there.y));
    }
}
