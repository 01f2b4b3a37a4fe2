package org.rejoin.console.draw;

import java.util.List;

import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;

/**
 * A plan of the Earth around a point: azimuthal equidistant (J. P. Snyder, Map Projections, USGS Professional Paper 1395,
 * 1987, chapter 25), on the ellipsoid. Distances from the centre are true; true north is up there. Needs no special case
 * at the antimeridian or a pole.
 *
 * @param centre in the middle of the drawing
 * @param unitsPerNm scale of the drawing
 * @param width of the drawing, units
 * @param height of the drawing, units
 */
public record Projection(Position centre, double unitsPerNm, double width, double height) {

    /** What was flown fills the drawing, whatever else there is. */
    private static final double MOST_GROWTH = 1.3;

    /** A place in the drawing, x to the right, y downward. */
    public record Point(double x, double y) {
        /** From here to another place of the same drawing, its units. */
        public double distance(Point other) {
            return Math.hypot(x - other.x, y - other.y);
        }

        /** The point at a share of the way to another, 0 here and 1 there. */
        Point toward(Point other, double share) {
            return new Point(x + share * (other.x - x), y + share * (other.y - y));
        }
    }

    /** Where a position on WGS 84 is drawn, inside of the drawing or outside. */
    public Point of(Position position) {
        Geodesics.Inverse way = centre.to(position);
        double angle = Math.toRadians(way.initial().deg());
        double reach = way.distanceNm() * unitsPerNm;
        return new Point(width / 2 + reach * Math.sin(angle), height / 2 - reach * Math.cos(angle));
    }

    /** How a true direction at a place lies in the drawing, degrees clockwise from up: the meridians converge. */
    double upDeg(Position from, double trueDeg) {
        Point here = of(from);
        Point there = of(from.destination(new TrueDirection(trueDeg), 1));
        return Math.toDegrees(Math.atan2(there.x - here.x, here.y - there.y));
    }

    /** From the centre to a corner, nautical miles. */
    public double reachNm() {
        return Math.hypot(width, height) / 2 / unitsPerNm;
    }

    /**
     * The plan that shows places, with room around them.
     *
     * @param wanted shown in any case, one or more
     * @param welcome shown too, one by one, where the plan does not shrink much for it
     * @param width of the drawing
     * @param least height of the drawing
     * @param highest height of the drawing
     * @param margin left free all around
     * @return a plan of the width, and of a height between the two
     */
    public static Projection showing(
            List<Position> wanted, List<Position> welcome, double width, double least, double highest, double margin) {
        Projection first = new Projection(wanted.get(0), 1, 0, 0);
        Box box = new Box();
        wanted.forEach(position -> box.add(first.of(position)));
        double most = MOST_GROWTH * Math.max(box.size(), 4);
        for (Position position : welcome) {
            Box larger = box.with(first.of(position));
            if (larger.size() <= most) {
                box.add(first.of(position));
            }
        }
        double eastNm = (box.left + box.right) / 2;
        double northNm = -(box.top + box.bottom) / 2;
        double distance = Math.hypot(eastNm, northNm);
        Position centre = distance < 1e-6
                ? wanted.get(0)
                : wanted.get(0).destination(new TrueDirection(Math.toDegrees(Math.atan2(eastNm, northNm))), distance);
        double across = Math.max(box.right - box.left, 1);
        double down = Math.max(box.bottom - box.top, 1);
        double height = Math.min(highest, Math.max(least, (width - 2 * margin) * down / across + 2 * margin));
        double scale = Math.min((width - 2 * margin) / across, (height - 2 * margin) / down);
        return new Projection(centre, scale, width, height);
    }

    private static final class Box {
        private double left = Double.POSITIVE_INFINITY;
        private double right = Double.NEGATIVE_INFINITY;
        private double top = Double.POSITIVE_INFINITY;
        private double bottom = Double.NEGATIVE_INFINITY;

        void add(Point point) {
            left = Math.min(left, point.x);
            right = Math.max(right, point.x);
            top = Math.min(top, point.y);
            bottom = Math.max(bottom, point.y);
        }

        Box with(Point point) {
            Box larger = new Box();
            larger.add(new Point(left, top));
            larger.add(new Point(right, bottom));
            larger.add(point);
            return larger;
        }

        double size() {
            return Math.hypot(right - left, bottom - top);
        }
    }
}
