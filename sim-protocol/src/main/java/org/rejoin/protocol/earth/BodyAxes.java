package org.rejoin.protocol.earth;

import org.rejoin.protocol.Angles;

/**
 * The aircraft's axes as unit vectors in the earth-centred, earth-fixed frame. Euler angles are those of IEEE 1278.1:
 * starting with the body aligned to that frame, psi about z, then theta about the new y, then phi about the new x.
 */
public record BodyAxes(Vector3 forward, Vector3 right, Vector3 under) {

    /** Below this the nose is parallel to the Earth's axis and psi and phi are no longer separate angles. */
    private static final double SINGULAR = 1e-6;

    private static final Vector3 X = new Vector3(1, 0, 0);
    private static final Vector3 Y = new Vector3(0, 1, 0);
    private static final Vector3 Z = new Vector3(0, 0, 1);

    /**
     * Angles in radians from some frame to the body, in the order of IEEE 1278.1: psi about z, theta about the new y,
     * phi about the new x.
     */
    public record Euler(double psi, double theta, double phi) {}

    /**
     * Attitude relative to the horizon.
     *
     * @param headingTrueDeg clockwise from true north, [0, 360)
     * @param pitchDeg nose up positive, [-90, 90]
     * @param rollDeg right wing down positive, [-180, 180]
     */
    public record Attitude(double headingTrueDeg, double pitchDeg, double rollDeg) {}

    /** The axes for Euler angles on the wire. */
    public static BodyAxes of(Euler angles) {
        return turned(angles, X, Y, Z);
    }

    /** The axes for an attitude at a place. */
    public static BodyAxes of(Attitude attitude, LocalAxes local) {
        Euler angles = new Euler(
                Math.toRadians(attitude.headingTrueDeg()),
                Math.toRadians(attitude.pitchDeg()),
                Math.toRadians(attitude.rollDeg()));
        return turned(angles, local.north(), local.east(), local.down());
    }

    private static BodyAxes turned(Euler angles, Vector3 a, Vector3 b, Vector3 c) {
        double sinPsi = Math.sin(angles.psi());
        double cosPsi = Math.cos(angles.psi());
        double sinTheta = Math.sin(angles.theta());
        double cosTheta = Math.cos(angles.theta());
        double sinPhi = Math.sin(angles.phi());
        double cosPhi = Math.cos(angles.phi());
        return new BodyAxes(
                Vector3.combine(cosTheta * cosPsi, a, cosTheta * sinPsi, b, -sinTheta, c),
                Vector3.combine(
                        sinPhi * sinTheta * cosPsi - cosPhi * sinPsi,
                        a,
                        sinPhi * sinTheta * sinPsi + cosPhi * cosPsi,
                        b,
                        sinPhi * cosTheta,
                        c),
                Vector3.combine(
                        cosPhi * sinTheta * cosPsi + sinPhi * sinPsi,
                        a,
                        cosPhi * sinTheta * sinPsi - sinPhi * cosPsi,
                        b,
                        cosPhi * cosTheta,
                        c));
    }

    /** The attitude seen from a place. */
    public Attitude attitudeIn(LocalAxes local) {
        double heading = Math.toDegrees(Math.atan2(forward.dot(local.east()), forward.dot(local.north())));
        double sinePitch = Math.max(-1, Math.min(1, -forward.dot(local.down())));
        double roll = Math.toDegrees(Math.atan2(right.dot(local.down()), under.dot(local.down())));
        return new Attitude(Angles.direction(heading), Math.toDegrees(Math.asin(sinePitch)), roll + 0.0);
    }

    /**
     * The Euler angles to send. With the nose parallel to the Earth's axis (level flight due north or south on the
     * equator, for one) only a sum of psi and phi is defined; phi is then 0; psi and phi in (-pi, pi], theta in [-pi/2,
     * pi/2].
     */
    public Euler euler() {
        double horizontal = Math.hypot(forward.x(), forward.y());
        // Not asin, which loses digits near 90 degrees.
        double theta = Math.atan2(-forward.z(), horizontal);
        if (horizontal < SINGULAR) {
            return new Euler(Math.atan2(-right.x(), right.y()), theta, 0);
        }
        return new Euler(Math.atan2(forward.y(), forward.x()), theta, Math.atan2(right.z(), under.z()));
    }

    /** A vector given along the body's axes, forward, right, under, in the earth-centred frame. */
    public Vector3 toGeocentric(Vector3 body) {
        return Vector3.combine(body.x(), forward, body.y(), right, body.z(), under);
    }
}
