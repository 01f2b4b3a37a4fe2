package org.rejoin.bridge.geo;

/**
 * The direction straight up at a point: the unit normal of the WGS 84 ellipsoid, along the Earth-centred axes. It says where
 * the point is as latitude and longitude do, and is cheaper to reckon with.
 *
 * @param x toward 0 N 0 E, [-1, 1]
 * @param y toward 0 N 90 E, [-1, 1]
 * @param z toward the North Pole, [-1, 1]
 */
public record Normal(double x, double y, double z) {

    /** The normal at a point: (cos lat cos lon, cos lat sin lon, sin lat). */
    public static Normal at(Position point) {
        return at(point.latitudeDeg(), point.longitudeDeg());
    }

    static Normal at(double latitudeDeg, double longitudeDeg) {
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

    /** {@return where it stands upright, latitude and longitude} */
    public Position position() {
        return new Position(Math.toDegrees(Math.atan2(z, Math.sqrt(x * x + y * y))), Math.toDegrees(Math.atan2(y, x)));
    }
}
