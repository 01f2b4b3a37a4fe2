package org.rejoin.bridge.geo;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

/**
 * Validation: lines, crossings and cross-track distances computed once with the reference library in other languages, by
 * other methods (gnomonic iteration, secant search), printed to 1e-9 degree and 1e-6 NM; and cross-track distances against
 * a brute-force search with the library alone.
 */
public class ReferenceLibraryTableTest implements ExternalChecks {

    private static final String TOPIC = FaaGeodesyTest.TOPIC;
    private static final String SOURCE = "own table, computed with the reference geodesic library in C++ and Python";
    private static final double POSITION_M = 0.0002;
    private static final double DISTANCE_NM = 0.000001;

    @Override
    public List<ExternalCheck> checks() {
        List<ExternalCheck> checks = new ArrayList<>();
        checks.addAll(lines());
        checks.addAll(crossings());
        checks.addAll(offsets());
        checks.addAll(leastDistances());
        return checks;
    }

    private static List<ExternalCheck> lines() {
        Tally end = new Tally(TOPIC, "line: end point", SOURCE, POSITION_M, "m");
        Tally course = new Tally(TOPIC, "line: course at the end", SOURCE, 1e-8, "°");
        for (CheckTable.Row row : CheckTable.read("own-direct.csv").rows()) {
            GeodesicLine line = GeodesicLine.from(
                    row.position("lat1", "lon1"), row.direction("azimuth1"), row.number("distance_nm"));
            end.add(row, line.end(), row.position("lat2", "lon2"));
            course.add(row, line.courseAt(line.lengthNm()), row.direction("azimuth2_onward"));
        }
        return List.of(end.result(), course.result());
    }

    private static List<ExternalCheck> crossings() {
        Tally position = new Tally(TOPIC, "bearing with a leg: position", SOURCE, POSITION_M, "m");
        Tally distance = new Tally(TOPIC, "bearing with a leg: distances", SOURCE, DISTANCE_NM, "NM");
        Tally course = new Tally(TOPIC, "bearing with a leg: course of the leg there", SOURCE, 1e-6, "°");
        Tally turn = new Tally(TOPIC, "bearing with a leg: angle", SOURCE, 1e-4, "°");
        for (CheckTable.Row row : CheckTable.read("own-crossing.csv").rows()) {
            GeodesicLine bearing =
                    GeodesicLine.from(row.position("station_lat", "station_lon"), row.direction("bearing"), 100);
            GeodesicLine leg = GeodesicLine.between(row.position("a_lat", "a_lon"), row.position("b_lat", "b_lon"));
            Crossing crossing = bearing.crossing(leg).orElseThrow();
            position.add(row, crossing.position(), row.position("x_lat", "x_lon"));
            distance.add(row, crossing.alongFirstNm(), row.number("distance_from_station_nm"));
            distance.add(row, crossing.alongSecondNm(), row.number("along_a_to_x_nm"));
            distance.add(row, leg.lengthNm(), row.number("leg_length_nm"));
            course.add(row, crossing.secondCourse(), row.direction("leg_course_at_x"));
            turn.add(row, Math.abs(crossing.turnDeg()), row.number("turn_deg"));
        }
        return List.of(position.result(), distance.result(), course.result(), turn.result());
    }

    private static List<ExternalCheck> offsets() {
        Tally distance = new Tally(TOPIC, "cross-track and along-track", SOURCE, DISTANCE_NM, "NM");
        Tally foot = new Tally(TOPIC, "cross-track: foot", SOURCE, POSITION_M, "m");
        Tally course = new Tally(TOPIC, "cross-track: course at the foot", SOURCE, 1e-6, "°");
        for (CheckTable.Row row : CheckTable.read("own-cross-track.csv").rows()) {
            GeodesicLine leg = GeodesicLine.between(row.position("a_lat", "a_lon"), row.position("b_lat", "b_lon"));
            Offset offset = leg.offset(row.position("p_lat", "p_lon"));
            distance.add(row, leg.lengthNm(), row.number("leg_length_nm"));
            distance.add(row, offset.crossTrackNm(), row.number("cross_track_nm"));
            distance.add(row, offset.alongTrackNm(), row.number("along_track_nm"));
            distance.add(row, leg.lengthNm() - offset.alongTrackNm(), row.number("to_go_nm"));
            foot.add(row, leg.pointAt(offset.alongTrackNm()), row.position("foot_lat", "foot_lon"));
            course.add(row, offset.course(), row.direction("course_at_foot"));
            course.add(row, leg.initialCourse(), row.direction("azimuth_at_a"));
        }
        return List.of(distance.result(), foot.result(), course.result());
    }

    private static List<ExternalCheck> leastDistances() {
        String source = "least distance from the line by golden section, reference geodesic library (Java) alone";
        Tally exact = new Tally(TOPIC, "cross-track, random legs to 300 NM, 50 NM to the side", source, 1, "m");
        Tally fast = new Tally(TOPIC, "cross-track by the per-leg map, the same legs", source, 1, "m");
        SplittableRandom random = new SplittableRandom(20250101);
        for (int i = 0; i < 2000; i++) {
            // Every fourth leg starts close to the antimeridian.
            double longitude = i % 4 == 0 ? random.nextDouble(177, 183) : random.nextDouble(-180, 180);
            GeodesicLine leg = GeodesicLine.from(
                    new Position(random.nextDouble(-80, 80), longitude),
                    new TrueDirection(random.nextDouble(360)),
                    random.nextDouble(1, 300));
            double along = random.nextDouble(leg.lengthNm());
            TrueDirection right = new TrueDirection(leg.courseAt(along).deg() + 90);
            Position point = leg.pointAt(along).destination(right, random.nextDouble(-50, 50));
            double least = LeastDistance.find(leg, point).distanceM();
            exact.add(leg, Math.abs(leg.offset(point).crossTrackNm()) * Geodesics.METRES_PER_NM, least);
            fast.add(leg, Math.abs(new LegMap(leg).offset(point).crossTrackNm()) * Geodesics.METRES_PER_NM, least);
        }
        return List.of(exact.result(), fast.result());
    }
}
