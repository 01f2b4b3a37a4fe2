package org.rejoin.bridge.geo;

import java.util.List;

/**
 * Validation: turns between two courses against FAA Order 8260.54A, appendix 2. The order reads its second course as one
 * that arrives at point 2, so it has no arc (N/A) where the turn would end past that point.
 */
public class FaaTangentArcTest implements ExternalChecks {

    @Override
    public List<ExternalCheck> checks() {
        String source = FaaGeodesyTest.ORDER + "tangent fixed radius arc";
        String topic = FaaGeodesyTest.TOPIC;
        Tally centre = new Tally(topic, "fly-by turn: centre", source, 0.0007, "m");
        Tally ends = new Tally(topic, "fly-by turn: tangent points", source, 0.0007, "m");
        Tally side = new Tally(topic, "fly-by turn: left or right", source, 0, "");
        Tally room = new Tally(topic, "fly-by turn: room before the second point or none", source, 0, "");
        for (CheckTable.Row row : CheckTable.read("faa-tangent-arc.csv").rows()) {
            TangentArc arc = TangentArc.between(
                            FaaGeodesyTest.course(row, "lat1", "lon1", "azimuth1"),
                            FaaGeodesyTest.course(row, "lat2", "lon2", "azimuth2"),
                            row.number("radius_nm"))
                    .orElseThrow();
            boolean none = row.isEmpty("centre_lat");
            room.add(row, arc.alongSecondNm() < 0, !none);
            if (!none) {
                side.add(row, arc.right(), row.number("direction") < 0);
                centre.add(row, arc.centre(), row.position("centre_lat", "centre_lon"));
                ends.add(row, arc.start(), row.position("tangent1_lat", "tangent1_lon"));
                ends.add(row, arc.end(), row.position("tangent2_lat", "tangent2_lon"));
            }
        }
        return List.of(centre.result(), ends.result(), side.result(), room.result());
    }
}
