package org.rejoin.bridge.geo;

import java.util.ArrayList;
import java.util.List;

/**
 * Validation: lines, crossings, feet and circles against the test tables of FAA Order 8260.54A, appendix 2, which print
 * 0.00001 second of arc (0.3 mm), 0.00001 degree and 0.00001 NM. Tolerances are one or two units of that.
 */
public class FaaGeodesyTest implements ExternalChecks {

    static final String TOPIC = "Geodesics on WGS 84";
    static final String ORDER = "FAA Order 8260.54A (2007), appendix 2, ";

    private static final double POSITION_M = 0.0005;
    private static final double AZIMUTH_DEG = 0.00002;
    private static final double DISTANCE_NM = 0.00002;

    @Override
    public List<ExternalCheck> checks() {
        List<ExternalCheck> checks = new ArrayList<>();
        checks.addAll(directAndInverse());
        checks.addAll(crossings());
        checks.addAll(perpendicularFeet());
        checks.addAll(circles());
        checks.add(pointsOnSegments());
        return checks;
    }

    private static List<ExternalCheck> directAndInverse() {
        String source = ORDER + "direct and inverse";
        Tally end = new Tally(TOPIC, "direct: end point", source, POSITION_M, "m");
        Tally azimuth = new Tally(TOPIC, "inverse: azimuth", source, AZIMUTH_DEG, "°");
        Tally distance = new Tally(TOPIC, "inverse: distance", source, DISTANCE_NM, "NM");
        for (CheckTable.Row row : CheckTable.read("faa-direct.csv").rows()) {
            Position from = row.position("lat1", "lon1");
            Position to = row.position("lat2", "lon2");
            TrueDirection direction = row.direction("azimuth1_true");
            end.add(row, from.destination(direction, row.number("distance_nm")), to);
            azimuth.add(row, from.to(to).initial(), direction);
            distance.add(row, from.distanceNm(to), row.number("distance_nm"));
        }
        return List.of(end.result(), azimuth.result(), distance.result());
    }

    private static List<ExternalCheck> crossings() {
        String source = ORDER + "course intersect";
        Tally position = new Tally(TOPIC, "crossing of two courses: position", source, POSITION_M, "m");
        Tally distance = new Tally(TOPIC, "crossing of two courses: distances", source, DISTANCE_NM, "NM");
        Tally azimuth = new Tally(TOPIC, "crossing of two courses: azimuths back", source, AZIMUTH_DEG, "°");
        Tally side = new Tally(TOPIC, "crossing of two courses: ahead or behind", source, 0, "");
        for (CheckTable.Row row : CheckTable.read("faa-crossing.csv").rows()) {
            GeodesicLine first = course(row, "lat1", "lon1", "azimuth_at_1");
            GeodesicLine second = course(row, "lat2", "lon2", "azimuth_at_2");
            Crossing crossing = first.crossing(second).orElseThrow();
            position.add(row, crossing.position(), row.position("X_lat", "X_lon"));
            distance.add(row, Math.abs(crossing.alongFirstNm()), row.number("distance_X_to_1_nm"));
            distance.add(row, Math.abs(crossing.alongSecondNm()), row.number("distance_X_to_2_nm"));
            boolean firstBehind = back(crossing.firstCourse(), crossing.alongFirstNm(), azimuth, row, "azimuth_X_to_1");
            boolean secondBehind =
                    back(crossing.secondCourse(), crossing.alongSecondNm(), azimuth, row, "azimuth_X_to_2");
            side.add(row, firstBehind, backNear(row, "azimuth_X_to_1", "azimuth_at_1"));
            side.add(row, secondBehind, backNear(row, "azimuth_X_to_2", "azimuth_at_2"));
        }
        return List.of(position.result(), distance.result(), azimuth.result(), side.result());
    }

    /** Compares the direction back to the start, and says whether the crossing is behind the start. */
    private static boolean back(
            TrueDirection course, double alongNm, Tally azimuth, CheckTable.Row row, String column) {
        boolean behind = alongNm < 0;
        azimuth.add(row, behind ? course : course.reciprocal(), row.direction(column));
        return behind;
    }

    /** Where the direction back is much like the direction out, the crossing is behind. */
    private static boolean backNear(CheckTable.Row row, String back, String out) {
        return Math.abs(row.direction(back).turnTo(row.direction(out))) < 90;
    }

    private static List<ExternalCheck> perpendicularFeet() {
        String source = ORDER + "perpendicular intercept";
        Tally foot = new Tally(TOPIC, "perpendicular foot: position", source, POSITION_M, "m");
        Tally distance = new Tally(TOPIC, "perpendicular foot: cross-track distance", source, DISTANCE_NM, "NM");
        Tally side = new Tally(TOPIC, "perpendicular foot: left or right", source, 0, "");
        for (CheckTable.Row row : CheckTable.read("faa-perpendicular-foot.csv").rows()) {
            GeodesicLine line = course(row, "geodesic_lat", "geodesic_lon", "geodesic_azimuth");
            Offset offset = line.offset(row.position("point_lat", "point_lon"));
            foot.add(row, line.pointAt(offset.alongTrackNm()), row.position("foot_lat", "foot_lon"));
            distance.add(row, Math.abs(offset.crossTrackNm()), row.number("distance_point_to_foot_nm"));
            // From a point right of the course the foot is to the left.
            boolean footIsLeft = offset.course().turnTo(row.direction("azimuth_point_to_foot")) < 0;
            side.add(row, offset.crossTrackNm() > 0, footIsLeft);
        }
        return List.of(foot.result(), distance.result(), side.result());
    }

    private static List<ExternalCheck> circles() {
        String source = ORDER + "geodesic arc intersect";
        Tally number = new Tally(TOPIC, "geodesic with a circle: two crossings or none", source, 0, "");
        Tally position = new Tally(TOPIC, "geodesic with a circle: position", source, POSITION_M, "m");
        for (CheckTable.Row row : CheckTable.read("faa-geodesic-circle.csv").rows()) {
            GeodesicLine line = course(row, "geodesic_lat", "geodesic_lon", "geodesic_azimuth");
            List<Double> along =
                    line.crossingsOfCircle(row.position("centre_lat", "centre_lon"), row.number("radius_nm"));
            boolean none = row.isEmpty("x1_lat");
            number.add(row, along.size(), none ? 0 : 2);
            if (along.size() == 2 && !none) {
                Position one = row.position("x1_lat", "x1_lon");
                Position two = row.position("x2_lat", "x2_lon");
                boolean ascending =
                        line.offset(one).alongTrackNm() < line.offset(two).alongTrackNm();
                position.add(row, line.pointAt(along.get(0)), ascending ? one : two);
                position.add(row, line.pointAt(along.get(1)), ascending ? two : one);
            }
        }
        return List.of(number.result(), position.result());
    }

    private static ExternalCheck pointsOnSegments() {
        Tally on = new Tally(TOPIC, "point on a segment, to 5 mm", ORDER + "point on geodesic", 0, "");
        for (CheckTable.Row row : CheckTable.read("faa-point-on-segment.csv").rows()) {
            GeodesicLine line =
                    GeodesicLine.between(row.position("start_lat", "start_lon"), row.position("end_lat", "end_lon"));
            Offset offset = line.offset(row.position("point_lat", "point_lon"));
            double nearNm = 0.005 / Geodesics.METRES_PER_NM;
            boolean isOn = Math.abs(offset.crossTrackNm()) < nearNm
                    && offset.alongTrackNm() > -nearNm
                    && offset.alongTrackNm() < line.lengthNm() + nearNm;
            on.add(row, isOn, row.text("on_segment").equals("1"));
        }
        return on.result();
    }

    static GeodesicLine course(CheckTable.Row row, String latitude, String longitude, String azimuth) {
        return GeodesicLine.from(row.position(latitude, longitude), row.direction(azimuth), 100);
    }
}
