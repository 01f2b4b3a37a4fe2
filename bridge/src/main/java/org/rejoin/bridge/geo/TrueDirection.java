package org.rejoin.bridge.geo;

/**
 * A direction from true north: a track, a true course, a true heading, an azimuth of a geodesic.
 *
 * <p>The three references of the trade, true, magnetic and a station's radials, are three types, so that adding one to
 * another does not compile.
 *
 * @param deg degrees clockwise, [0, 360); any finite value is reduced by the constructor
 */
public record TrueDirection(double deg) {

    /**
     * Reduces to the circle.
     *
     * @throws IllegalArgumentException if not finite
     */
    public TrueDirection {
        if (!Double.isFinite(deg)) {
            throw new IllegalArgumentException("direction " + deg + " is not a number of degrees");
        }
        deg = Angles.circle(deg);
    }

    /** {@return the opposite direction: this plus 180 degrees} */
    public TrueDirection reciprocal() {
        return new TrueDirection(deg + 180);
    }

    /** The turn from this direction to another, the short way, right positive, [-180, 180). */
    public double turnTo(TrueDirection other) {
        return Angles.turn(other.deg - deg);
    }

    /** This direction by the compass: magnetic = true - variation. */
    public MagneticDirection toMagnetic(Variation variation) {
        return new MagneticDirection(deg - variation.eastDeg());
    }
}
