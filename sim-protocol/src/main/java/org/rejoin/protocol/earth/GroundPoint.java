package org.rejoin.protocol.earth;

import org.jspecify.annotations.Nullable;

/**
 * A point of the WGS 84 ellipsoid as it is known: by the normal there, or by latitude and longitude. The one that is not
 * known is worked out when it is asked for. Immutable.
 */
public final class GroundPoint {

    /** Both NaN where the normal is known. */
    private final double latitudeDeg;

    private final double longitudeDeg;

    /** Where degrees are known, made at the first asking; whichever thread makes it, it is the same. */
    private @Nullable Normal normal;

    private GroundPoint(double latitudeDeg, double longitudeDeg, @Nullable Normal normal) {
        this.latitudeDeg = latitudeDeg;
        this.longitudeDeg = longitudeDeg;
        this.normal = normal;
    }

    /** A point by latitude, [-90, 90], and longitude, [-180, 180), degrees north and east. */
    public static GroundPoint at(double latitudeDeg, double longitudeDeg) {
        return new GroundPoint(latitudeDeg, longitudeDeg, null);
    }

    /** {@return the point where a normal stands upright} */
    public static GroundPoint under(Normal normal) {
        return new GroundPoint(Double.NaN, Double.NaN, normal);
    }

    /** {@return whether it is known by latitude and longitude; false where by its normal} */
    public boolean inDegrees() {
        return !Double.isNaN(latitudeDeg);
    }

    /** {@return geodetic latitude; degrees, north positive, [-90, 90]} */
    public double latitudeDeg() {
        return inDegrees() ? latitudeDeg : normal().latitudeDeg();
    }

    /** {@return longitude; degrees, east positive, [-180, 180)} */
    public double longitudeDeg() {
        return inDegrees() ? longitudeDeg : normal().longitudeDeg();
    }

    /** {@return straight up from there} */
    public Normal normal() {
        Normal up = normal;
        if (up == null) {
            up = Normal.at(latitudeDeg, longitudeDeg);
            normal = up;
        }
        return up;
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof GroundPoint that
                && Double.compare(latitudeDeg(), that.latitudeDeg()) == 0
                && Double.compare(longitudeDeg(), that.longitudeDeg()) == 0;
    }

    @Override
    public int hashCode() {
        return 31 * Double.hashCode(latitudeDeg()) + Double.hashCode(longitudeDeg());
    }

    @Override
    public String toString() {
        return "GroundPoint[latitudeDeg=" + latitudeDeg() + ", longitudeDeg=" + longitudeDeg() + "]";
    }
}
