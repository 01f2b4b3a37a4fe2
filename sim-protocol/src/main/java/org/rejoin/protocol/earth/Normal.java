package org.rejoin.protocol.earth;

import org.rejoin.protocol.Angles;

/**
 * The direction straight up at a point: the unit normal of the WGS 84 ellipsoid, along the Earth-centred axes. It says where
 * the point is as latitude and longitude do, and is cheaper to reckon with.
 *
 * @param x toward 0 N 0 E, [-1, 1]
 * @param y toward 0 N 90 E, [-1, 1]
 * @param z toward the North Pole, [-1, 1]
 */
public record Normal(double x, double y, double z) {

    /** The normal at a point, degrees north and east: (cos lat cos lon, cos lat sin lon, sin lat). */
    public static Normal at(double latitudeDeg, double longitudeDeg) {
        double latitude = Math.toRadians(latitudeDeg);
        double longitude = Math.toRadians(longitudeDeg);
        double cosLat = Math.cos(latitude);
        return new Normal(cosLat * Math.cos(longitude), cosLat * Math.sin(longitude), Math.sin(latitude));
    }

    /**
     * A share of the way, [0, 1], from one point to another at most 10 NM away: within a millimetre of the geodesic at
     * 1 NM, a tenth of a metre at 10 NM.
     */
    public static Normal between(Normal from, Normal to, double share) {
        double x = from.x + (to.x - from.x) * share;
        double y = from.y + (to.y - from.y) * share;
        double z = from.z + (to.z - from.z) * share;
        double length = Math.sqrt(x * x + y * y + z * z);
        return new Normal(x / length, y / length, z / length);
    }

    /** Geodetic latitude where it stands upright, degrees, north positive, [-90, 90]. */
    public double latitudeDeg() {
        return latitudeDeg(x, y, z);
    }

    /** Longitude there; 0 at the poles, degrees, east positive, [-180, 180). */
    public double longitudeDeg() {
        return longitudeDeg(x, y);
    }

    /** The angle to another normal, radians, [0, pi]. */
    public double angleTo(Normal other) {
        double dx = other.x - x;
        double dy = other.y - y;
        double dz = other.z - z;
        double chord = Math.sqrt(dx * dx + dy * dy + dz * dz);
        // Short ones are asked at every sample: the series is right to 3e-10 of the angle.
        return chord < 0.01 ? chord * (1 + chord * chord / 24) : 2 * Math.asin(Math.min(1, chord / 2));
    }

    static double latitudeDeg(double x, double y, double z) {
        double latitude = Math.toDegrees(Math.atan2(z, Math.sqrt(x * x + y * y)));
        return Math.max(-90, Math.min(90, latitude)) + 0.0;
    }

    static double longitudeDeg(double x, double y) {
        return Angles.longitude(Math.toDegrees(Math.atan2(y, x)));
    }
}
