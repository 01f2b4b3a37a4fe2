package org.rejoin.bridge.geo;

/**
 * A direction from magnetic north of here and now, by today's variation: a heading as a controller assigns it.
 *
 * <p>The three references of the trade, true, magnetic and a station's radials, are three types, so that adding one to
 * another does not compile.
 *
 * @param deg degrees clockwise, [0, 360); any finite value is reduced by the constructor
 */
public record MagneticDirection(double deg) {

    /**
     * Reduces to the circle.
     *
     * @throws IllegalArgumentException if not finite
     */
    public MagneticDirection {
        if (!Double.isFinite(deg)) {
            throw new IllegalArgumentException("direction " + deg + " is not a number of degrees");
        }
        deg = Angles.circle(deg);
    }

    /** {@return the opposite direction: this plus 180 degrees} */
    public MagneticDirection reciprocal() {
        return new MagneticDirection(deg + 180);
    }

    /** The turn from this direction to another, the short way, right positive, [-180, 180). */
    public double turnTo(MagneticDirection other) {
        return Angles.turn(other.deg - deg);
    }

    /** This direction from true north: true = magnetic + variation. */
    public TrueDirection toTrue(Variation variation) {
        return new TrueDirection(deg + variation.eastDeg());
    }
}
