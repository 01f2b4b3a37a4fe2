package org.rejoin.bridge.geo;

/**
 * The frame of a leg at its middle, scaled so that its corridor is [-1, 1] along and across. Works on normals of the
 * ellipsoid: unit vectors (cos lat cos lon, cos lat sin lon, sin lat) of the Earth-centred axes.
 */
final class LegFrame {

    private final double upX;
    private final double upY;
    private final double upZ;
    private final double alongX;
    private final double alongY;
    private final double alongZ;
    private final double rightX;
    private final double rightY;
    private final double rightZ;
    private final double halfAlong;
    private final double halfAcross;

    /**
     * Sets up the frame.
     *
     * @param middle of the leg
     * @param course of the leg there
     * @param halfAlong tangent of the angle from the middle to the end of the corridor
     * @param halfAcross sine of the angle from the leg to the side of the corridor
     */
    LegFrame(Position middle, TrueDirection course, double halfAlong, double halfAcross) {
        double latitude = Math.toRadians(middle.latitudeDeg());
        double longitude = Math.toRadians(middle.longitudeDeg());
        double sinLat = Math.sin(latitude);
        double cosLat = Math.cos(latitude);
        double sinLon = Math.sin(longitude);
        double cosLon = Math.cos(longitude);
        double sinCourse = Math.sin(Math.toRadians(course.deg()));
        double cosCourse = Math.cos(Math.toRadians(course.deg()));
        upX = cosLat * cosLon;
        upY = cosLat * sinLon;
        upZ = sinLat;
        // North is (-sin lat cos lon, -sin lat sin lon, cos lat), east is (-sin lon, cos lon, 0).
        alongX = (-cosCourse * sinLat * cosLon - sinCourse * sinLon) / halfAlong;
        alongY = (-cosCourse * sinLat * sinLon + sinCourse * cosLon) / halfAlong;
        alongZ = cosCourse * cosLat / halfAlong;
        rightX = (sinCourse * sinLat * cosLon - cosCourse * sinLon) / halfAcross;
        rightY = (sinCourse * sinLat * sinLon + cosCourse * cosLon) / halfAcross;
        rightZ = -sinCourse * cosLat / halfAcross;
        this.halfAlong = halfAlong;
        this.halfAcross = halfAcross;
    }

    /** Component along the vertical of the middle. */
    double up(Normal normal) {
        return normal.x() * upX + normal.y() * upY + normal.z() * upZ;
    }

    /** Component along the course, scaled. */
    double along(Normal normal) {
        return normal.x() * alongX + normal.y() * alongY + normal.z() * alongZ;
    }

    /** Component to the right of the course, scaled. */
    double right(Normal normal) {
        return normal.x() * rightX + normal.y() * rightY + normal.z() * rightZ;
    }

    /** A point of the corridor. */
    Normal normal(double x, double y) {
        double right = y * halfAcross;
        double up = Math.sqrt((1 - right * right) / (1 + x * halfAlong * x * halfAlong));
        double along = x * halfAlong * up;
        double nx = up * upX + along * halfAlong * alongX + right * halfAcross * rightX;
        double ny = up * upY + along * halfAlong * alongY + right * halfAcross * rightY;
        double nz = up * upZ + along * halfAlong * alongZ + right * halfAcross * rightZ;
        return new Normal(nx, ny, nz);
    }
}
