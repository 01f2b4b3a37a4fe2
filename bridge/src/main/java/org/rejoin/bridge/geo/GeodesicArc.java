package org.rejoin.bridge.geo;

import java.util.function.Function;

import org.rejoin.protocol.earth.Normal;

import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicMask;

/**
 * A DME arc: part of a geodesic circle about a station, flown one way round. Immutable.
 *
 * <p>The length of a piece of a geodesic circle is its angle at the centre times the reduced length of the radius (C. F. F.
 * Karney, Algorithms for geodesics, J. Geodesy 87, 2013, section 3), which on an ellipsoid changes by some millionths round
 * the circle; the one in the middle of the arc is taken.
 */
public final class GeodesicArc implements GroundPath {

    private static final int REDUCED = GeodesicMask.DISTANCE_IN | GeodesicMask.REDUCEDLENGTH;

    private final Position centre;
    private final Normal atCentre;
    private final double radiusNm;
    private final TrueDirection startAzimuth;
    private final double sweepDeg;
    private final double nmPerDeg;

    /**
     * An arc.
     *
     * @param centre of the circle
     * @param radiusNm over the ground, nautical miles, (0, 2000]
     * @param startAzimuth from the centre to where the arc starts, true
     * @param sweepDeg angle at the centre, degrees, clockwise positive, [-360, 360], not 0
     * @throws IllegalArgumentException if a value is out of range or not a number
     */
    public GeodesicArc(Position centre, double radiusNm, TrueDirection startAzimuth, double sweepDeg) {
        if (!(radiusNm > 0 && radiusNm <= 2000)) {
            throw new IllegalArgumentException("radius " + radiusNm + " NM is not in (0, 2000]");
        }
        if (!(Math.abs(sweepDeg) <= 360) || sweepDeg == 0) {
            throw new IllegalArgumentException("angle " + sweepDeg + " is not in -360 to 360 degrees, or is 0");
        }
        this.centre = centre;
        this.atCentre = centre.normal();
        this.radiusNm = radiusNm;
        this.startAzimuth = startAzimuth;
        this.sweepDeg = sweepDeg;
        double reduced = Geodesic.WGS84.Direct(
                                centre.latitudeDeg(),
                                centre.longitudeDeg(),
                                startAzimuth.deg() + sweepDeg / 2,
                                radiusNm * Geodesics.METRES_PER_NM,
                                REDUCED)
                        .m12
                / Geodesics.METRES_PER_NM;
        this.nmPerDeg = Math.toRadians(reduced);
    }

    /** {@return the centre, where the station stands} */
    public Position centre() {
        return centre;
    }

    /** {@return the radius; over the ground, nautical miles} */
    public double radiusNm() {
        return radiusNm;
    }

    /** {@return which way round it is flown; true where the azimuths grow} */
    public boolean clockwise() {
        return sweepDeg > 0;
    }

    /** {@return the angle at the centre; degrees, clockwise positive} */
    public double sweepDeg() {
        return sweepDeg;
    }

    /** {@return where the arc starts; azimuth from the centre, true} */
    public TrueDirection startAzimuth() {
        return startAzimuth;
    }

    /** {@return where the arc ends; azimuth from the centre, true} */
    public TrueDirection endAzimuth() {
        return new TrueDirection(startAzimuth.deg() + sweepDeg);
    }

    /** {@return length of the arc; nautical miles, above 0} */
    @Override
    public double lengthNm() {
        return Math.abs(sweepDeg) * nmPerDeg;
    }

    /** A point of the arc, nautical miles from its start; may be before it or past the end. */
    @Override
    public Position pointAt(double alongNm) {
        return centre.destination(azimuthAt(alongNm), radiusNm);
    }

    /** The azimuth from the centre of a point of the arc, true. */
    public TrueDirection azimuthAt(double alongNm) {
        return new TrueDirection(startAzimuth.deg() + Math.copySign(alongNm / nmPerDeg, alongNm * sweepDeg));
    }

    /** The course along the arc abeam a point: at right angles to the geodesic from the centre. */
    public TrueDirection courseAbeam(Position point) {
        TrueDirection out = centre.to(point).onward();
        return new TrueDirection(out.deg() + (clockwise() ? 90 : -90));
    }

    /** The course along the arc at a point of it. */
    @Override
    public TrueDirection courseAt(double alongNm) {
        return courseAbeam(pointAt(alongNm));
    }

    /**
     * Where a point that is not the centre lies as seen from the arc; along-track is from its start, half a turn either
     * side of its middle.
     */
    @Override
    public Offset offset(Position point) {
        return offset(centre.to(point));
    }

    /**
     * The same, asked at every sample: to a millimetre where the point is near enough to the centre, as exact as ever
     * where not.
     */
    public Offset offset(Normal normal) {
        return offset(Geodesics.between(atCentre, normal));
    }

    private Offset offset(Geodesics.Inverse out) {
        double outside = out.distanceNm() - radiusNm;
        double fromMiddle = Angles.turn(out.initial().deg() - startAzimuth.deg() - sweepDeg / 2);
        double turned = (fromMiddle + sweepDeg / 2) * Math.signum(sweepDeg);
        return new Offset(
                clockwise() ? -outside : outside,
                turned * nmPerDeg,
                new TrueDirection(out.onward().deg() + (clockwise() ? 90 : -90)));
    }

    /** {@return the same flown the other way round, from the end to the start} */
    @Override
    public GeodesicArc reversed() {
        return new GeodesicArc(centre, radiusNm, endAzimuth(), -sweepDeg);
    }

    @Override
    public <R> R fold(Function<GeodesicLine, R> straight, Function<GeodesicArc, R> arc) {
        return arc.apply(this);
    }

    /** For messages. */
    @Override
    public String toString() {
        return "arc of " + radiusNm + " NM about " + centre + " from " + startAzimuth.deg() + " by " + sweepDeg
                + " degrees";
    }
}
