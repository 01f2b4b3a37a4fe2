package org.rejoin.bridge.geo;

import java.util.List;

/**
 * Validation of the one spherical piece there is, the crossing of two great circles, which the iteration on the ellipsoid
 * takes as its step. The other worked examples of the formulary (distances, courses and cross-track on a sphere) have
 * nothing to test: our Earth is the ellipsoid.
 */
public class SphereFormularyTest implements ExternalChecks {

    @Override
    public List<ExternalCheck> checks() {
        Tally tally = new Tally(
                "The sphere",
                "crossing of two radials: arcs from the stations",
                "public aviation formulary (1.34 to 1.47), intersecting radials: 42.600N 117.866W course 51°,"
                        + " 44.840N 117.806W course 137°",
                0.000001,
                "rad");
        double arc = 0.03910270;
        double initial = 0.01899560;
        double back = 3.16131215;
        GreatCircles circles =
                GreatCircles.solve(arc, Math.toRadians(51) - initial, Math.toRadians(137) - (back - Math.PI));
        tally.add("from the first station", circles == null ? Double.NaN : circles.alongFirst(), 0.02729021);
        return List.of(tally.result());
    }
}
