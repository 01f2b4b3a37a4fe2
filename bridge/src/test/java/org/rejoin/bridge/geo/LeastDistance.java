package org.rejoin.bridge.geo;

import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;
import net.sf.geographiclib.GeodesicMask;

/**
 * The foot of the perpendicular by brute force and by the reference library alone: its line, its inverse problem, and the
 * least distance by golden section.
 *
 * @param alongM from the start of the leg, metres; good to some centimetres, for a least value is flat
 * @param distanceM from the point to the foot, metres, 0 or more
 */
record LeastDistance(double alongM, double distanceM) {

    private static final double GOLDEN = (Math.sqrt(5) - 1) / 2;

    static LeastDistance find(GeodesicLine leg, Position point) {
        net.sf.geographiclib.GeodesicLine line = Geodesic.WGS84.Line(
                leg.start().latitudeDeg(),
                leg.start().longitudeDeg(),
                leg.initialCourse().deg());
        double low = -200 * Geodesics.METRES_PER_NM;
        double high = (leg.lengthNm() + 200) * Geodesics.METRES_PER_NM;
        double left = high - GOLDEN * (high - low);
        double right = low + GOLDEN * (high - low);
        double atLeft = distanceM(line, left, point);
        double atRight = distanceM(line, right, point);
        while (high - low > 0.001) {
            if (atLeft < atRight) {
                high = right;
                right = left;
                atRight = atLeft;
                left = high - GOLDEN * (high - low);
                atLeft = distanceM(line, left, point);
            } else {
                low = left;
                left = right;
                atLeft = atRight;
                right = low + GOLDEN * (high - low);
                atRight = distanceM(line, right, point);
            }
        }
        double along = (low + high) / 2;
        return new LeastDistance(along, distanceM(line, along, point));
    }

    private static double distanceM(net.sf.geographiclib.GeodesicLine line, double alongM, Position point) {
        GeodesicData at = line.Position(alongM);
        return Geodesic.WGS84.Inverse(
                        at.lat2, at.lon2, point.latitudeDeg(), point.longitudeDeg(), GeodesicMask.DISTANCE)
                .s12;
    }
}
