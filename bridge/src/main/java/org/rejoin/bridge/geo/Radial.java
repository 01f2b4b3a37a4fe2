package org.rejoin.bridge.geo;

/**
 * A radial: the direction FROM a station in the station's own reference, whichever way it is flown. Turned into an
 * azimuth only together with the station's {@link Declination}.
 *
 * @param deg degrees clockwise from the station's zero radial, [0, 360); any finite value is reduced
 */
public record Radial(double deg) {

    /**
     * Reduces to the circle.
     *
     * @throws IllegalArgumentException if not finite
     */
    public Radial {
        if (!Double.isFinite(deg)) {
            throw new IllegalArgumentException("radial " + deg + " is not a number of degrees");
        }
        deg = Angles.circle(deg);
    }

    /** The true azimuth of this radial at the station: radial + declination (ARINC 424, station declination). */
    public TrueDirection toTrue(Declination declination) {
        return new TrueDirection(deg + declination.eastDeg());
    }

    /** The radial on which a true azimuth from the station lies: azimuth - declination. */
    public static Radial of(TrueDirection azimuth, Declination declination) {
        return new Radial(azimuth.deg() - declination.eastDeg());
    }

    /**
     * {@return the course to set when this radial is flown toward the station; the reciprocal, in the same station
     * reference}
     */
    public Radial reciprocal() {
        return new Radial(deg + 180);
    }
}
