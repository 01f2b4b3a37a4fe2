package org.rejoin.bridge.geo;

import org.rejoin.protocol.Units;
import org.rejoin.protocol.earth.Normal;

import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;
import net.sf.geographiclib.GeodesicMask;

/**
 * The direct and the inverse geodesic problem on WGS 84, by GeographicLib (C. F. F. Karney, Algorithms for geodesics,
 * J. Geodesy 87, 2013; accurate to nanometres). The only place, with {@link GeodesicLine}, that calls it.
 */
public final class Geodesics {

    /** Metres in an international nautical mile (ICAO Annex 5). */
    public static final double METRES_PER_NM = Units.M_PER_NM;

    /** Metres in an international foot (ICAO Annex 5). */
    public static final double METRES_PER_FT = Units.M_PER_FT;

    /** Feet in a nautical mile. */
    public static final double FEET_PER_NM = METRES_PER_NM / METRES_PER_FT;

    /** Mean radius of the Earth, nautical miles; only to start iterations and for spherical corrections. */
    static final double MEAN_RADIUS_NM = 6_371_008.8 / METRES_PER_NM;

    /** Equatorial radius of WGS 84 (NIMA TR8350.2, table 3.1), nautical miles. */
    static final double EQUATORIAL_RADIUS_NM = Geodesic.WGS84.EquatorialRadius() / METRES_PER_NM;

    /** First eccentricity of WGS 84, squared (NIMA TR8350.2, table 3.3). */
    static final double E2 = Geodesic.WGS84.Flattening() * (2 - Geodesic.WGS84.Flattening());

    private static final int INVERSE_MASK = GeodesicMask.DISTANCE | GeodesicMask.AZIMUTH;
    private static final int DIRECT_MASK = GeodesicMask.LATITUDE | GeodesicMask.LONGITUDE;

    private Geodesics() {}

    /**
     * A solved inverse problem.
     *
     * @param distanceNm length of the geodesic, nautical miles
     * @param initial direction at the first point, true
     * @param onward direction at the second point, going on past it, true
     */
    public record Inverse(double distanceNm, TrueDirection initial, TrueDirection onward) {}

    /**
     * The geodesic between the points where two normals stand, for what is asked at every sample: by its chord where they are
     * near one another, then within a millimetre and 0.00001 degree of {@link Position#to}, and some ten times as fast.
     */
    public static Inverse between(Normal from, Normal to) {
        if (!ShortGeodesic.reaches(from, to)) {
            return inverse(Position.under(from), Position.under(to));
        }
        ShortGeodesic near = ShortGeodesic.between(from, to);
        return new Inverse(
                near.distanceNm(), new TrueDirection(near.initialDeg()), new TrueDirection(near.onwardDeg()));
    }

    static Inverse inverse(Position from, Position to) {
        GeodesicData data = Geodesic.WGS84.Inverse(
                from.latitudeDeg(), from.longitudeDeg(), to.latitudeDeg(), to.longitudeDeg(), INVERSE_MASK);
        return new Inverse(data.s12 / METRES_PER_NM, new TrueDirection(data.azi1), new TrueDirection(data.azi2));
    }

    static Position direct(Position from, TrueDirection direction, double distanceNm) {
        GeodesicData data = Geodesic.WGS84.Direct(
                from.latitudeDeg(), from.longitudeDeg(), direction.deg(), distanceNm * METRES_PER_NM, DIRECT_MASK);
        return new Position(data.lat2, data.lon2);
    }
}
