package org.rejoin.bridge.geo;

import java.util.List;

/**
 * Validation: the lead of a turn from one course onto another, R tan(angle / 2) in the plane, against the arcs of FAA Order
 * 8260.54A, appendix 2, on the ellipsoid. The order's radii are 5 to 50 NM and its
 * leads up to 197 NM; a light aircraft's are below 1 NM.
 */
public class FaaTurnLeadTest implements ExternalChecks {

    @Override
    public List<ExternalCheck> checks() {
        String source = FaaGeodesyTest.ORDER + "tangent fixed radius arc";
        Tally leads = new Tally(FaaGeodesyTest.TOPIC, "lead of a fly-by turn, of the arc's", source, 0.06, "%");
        Tally side = new Tally(FaaGeodesyTest.TOPIC, "fly-by turn: left or right", source, 0, "");
        for (CheckTable.Row row : CheckTable.read("faa-tangent-arc.csv").rows()) {
            if (row.isEmpty("centre_lat")) {
                continue;
            }
            GeodesicLine first = FaaGeodesyTest.course(row, "lat1", "lon1", "azimuth1");
            GeodesicLine second = FaaGeodesyTest.course(row, "lat2", "lon2", "azimuth2");
            Crossing fix = first.crossing(second).orElseThrow();
            double lead = fix.alongFirstNm()
                    - first.offset(row.position("tangent1_lat", "tangent1_lon")).alongTrackNm();
            leads.add(row, 100 * Turn.leadNm(row.number("radius_nm"), fix.turnDeg()) / lead, 100);
            side.add(row, fix.turnDeg() > 0, row.number("direction") < 0);
        }
        return List.of(leads.result(), side.result());
    }
}
