package org.rejoin.bridge.geo;

import org.rejoin.protocol.earth.GroundPoint;
import org.rejoin.protocol.earth.Normal;

/**
 * A point on the WGS 84 ellipsoid.
 *
 * @param latitudeDeg geodetic latitude, degrees north positive, [-90, 90]
 * @param longitudeDeg degrees east positive, [-180, 180); 180 and beyond, up to 540, is folded by the constructor
 */
public record Position(double latitudeDeg, double longitudeDeg) {

    /** A degree of latitude is never shorter, nautical miles: 110.57 km at the equator. */
    private static final double LEAST_NM_PER_DEG = 59.5;

    /**
     * Checks and folds.
     *
     * @throws IllegalArgumentException if latitude is outside [-90, 90] or longitude outside [-180, 540), or either is
     *     not a number; the message names the value and the range
     */
    public Position {
        if (!(latitudeDeg >= -90 && latitudeDeg <= 90)) {
            throw new IllegalArgumentException("latitude " + latitudeDeg + " is not in -90 to 90 degrees");
        }
        if (!(longitudeDeg >= -180 && longitudeDeg < 540)) {
            throw new IllegalArgumentException("longitude " + longitudeDeg + " is not in -180 to 180 degrees");
        }
        latitudeDeg = latitudeDeg + 0.0;
        longitudeDeg = Angles.turn(longitudeDeg);
    }

    /** {@return a place that is known in degrees or by its normal} */
    public static Position of(GroundPoint place) {
        return new Position(place.latitudeDeg(), place.longitudeDeg());
    }

    /** {@return the point where a normal stands upright} */
    public static Position under(Normal normal) {
        return of(GroundPoint.under(normal));
    }

    /** {@return straight up from here} */
    public Normal normal() {
        return Normal.at(latitudeDeg, longitudeDeg);
    }

    /** Distance and directions of the geodesic to another point. */
    public Geodesics.Inverse to(Position other) {
        return Geodesics.inverse(this, other);
    }

    /** Length of the geodesic to another point, nautical miles of 1852 m. */
    public double distanceNm(Position other) {
        return Geodesics.inverse(this, other).distanceNm();
    }

    /**
     * Whether another point is no farther than so many nautical miles. A chart has thousands of points, and a geodesic to each
     * costs more than a comparison of latitudes.
     */
    public boolean isWithin(double nm, Position other) {
        return Math.abs(latitudeDeg - other.latitudeDeg) * LEAST_NM_PER_DEG <= nm && distanceNm(other) <= nm;
    }

    /** A point of the geodesic to another point, at a share of the way; this point where both are one. */
    public Position toward(Position other, double share) {
        Geodesics.Inverse way = to(other);
        return way.distanceNm() < 1e-9 ? this : destination(way.initial(), way.distanceNm() * share);
    }

    /** The point so many nautical miles away along the geodesic of a direction; negative goes the other way. */
    public Position destination(TrueDirection direction, double distanceNm) {
        return Geodesics.direct(this, direction, distanceNm);
    }
}
