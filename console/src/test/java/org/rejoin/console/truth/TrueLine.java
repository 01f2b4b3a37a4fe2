package org.rejoin.console.truth;

import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;
import net.sf.geographiclib.GeodesicLine;
import net.sf.geographiclib.GeodesicMask;

/**
 * A leg as a geodesic of its own (GeographicLib, Karney 2013), apart from the geometry under test. Distances in nautical
 * miles, cross-track right positive, directions true.
 */
final class TrueLine {

    static final double METRES_PER_NM = 1852;

    private static final int MASK = GeodesicMask.STANDARD;

    private final GeodesicLine line;
    private final double lengthNm;

    private TrueLine(GeodesicLine line, double lengthNm) {
        this.line = line;
        this.lengthNm = lengthNm;
    }

    /** A place, degrees. */
    record Place(double latitudeDeg, double longitudeDeg) {
        Place going(double azimuthDeg, double nm) {
            GeodesicData data = Geodesic.WGS84.Direct(latitudeDeg, longitudeDeg, azimuthDeg, nm * METRES_PER_NM);
            return new Place(data.lat2, data.lon2);
        }

        double azimuthDeg(Place other) {
            return Geodesic.WGS84.Inverse(latitudeDeg, longitudeDeg, other.latitudeDeg, other.longitudeDeg).azi1;
        }

        double distanceNm(Place other) {
            return Geodesic.WGS84.Inverse(latitudeDeg, longitudeDeg, other.latitudeDeg, other.longitudeDeg).s12
                    / METRES_PER_NM;
        }
    }

    /** Where an aircraft is by the line: how far along, how far right of it, and the course there. */
    record Offset(double alongNm, double crossNm, double courseDeg) {}

    static TrueLine between(Place from, Place to) {
        GeodesicData data = Geodesic.WGS84.Inverse(
                from.latitudeDeg, from.longitudeDeg, to.latitudeDeg, to.longitudeDeg, GeodesicMask.STANDARD);
        return new TrueLine(
                Geodesic.WGS84.Line(from.latitudeDeg, from.longitudeDeg, data.azi1), data.s12 / METRES_PER_NM);
    }

    double lengthNm() {
        return lengthNm;
    }

    Place at(double alongNm) {
        GeodesicData data = line.Position(alongNm * METRES_PER_NM, MASK);
        return new Place(data.lat2, data.lon2);
    }

    double courseDeg(double alongNm) {
        return line.Position(alongNm * METRES_PER_NM, MASK).azi2;
    }

    TrueLine reversed() {
        return between(at(lengthNm), at(0));
    }

    /** Walks along the line until the aircraft is square to it; two or three steps from a guess of some miles. */
    Offset offset(Place place, double guessNm) {
        double along = guessNm;
        for (int i = 0; ; i++) {
            GeodesicData foot = line.Position(along * METRES_PER_NM, MASK);
            GeodesicData way =
                    Geodesic.WGS84.Inverse(foot.lat2, foot.lon2, place.latitudeDeg(), place.longitudeDeg(), MASK);
            double angle = Math.toRadians(way.azi1 - foot.azi2);
            double distance = way.s12 / METRES_PER_NM;
            double step = distance * Math.cos(angle);
            if (Math.abs(step) < 1e-4 || i == 20) {
                return new Offset(along + step, distance * Math.sin(angle), foot.azi2);
            }
            along += step;
        }
    }

    /** The short way from one direction to another, [-180, 180). */
    static double turn(double deg) {
        double d = (deg + 180) % 360;
        return (d < 0 ? d + 360 : d) - 180;
    }
}
