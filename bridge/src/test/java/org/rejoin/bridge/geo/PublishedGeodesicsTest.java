package org.rejoin.bridge.geo;

import java.util.List;

/** Validation: single lines, crossings and feet published outside the FAA tables. */
public class PublishedGeodesicsTest implements ExternalChecks {

    private static final String TOPIC = FaaGeodesyTest.TOPIC;
    private static final String GA = "Geoscience Australia, sample data for Vincenty's formulae (GDA technical manual)";
    private static final String GEODESIC_LIBRARY = "documentation of the reference geodesic library, inverse examples";
    private static final String BASELGA =
            "Baselga, Martínez-Llario, Stud. Geophys. Geod. 62 (2018) 353, and their test set of geodesic operations";

    @Override
    public List<ExternalCheck> checks() {
        return List.of(
                vincentyDistance(), vincentyAzimuth(), longDistances(), longAzimuths(), crossings(), flat(), feet());
    }

    private static ExternalCheck vincentyDistance() {
        Tally tally = new Tally(TOPIC, "Vincenty's standard line: distance", GA, 0.001, "m");
        tally.add("line", vincenty().distanceNm() * Geodesics.METRES_PER_NM, 54_972.271);
        return tally.result();
    }

    private static ExternalCheck vincentyAzimuth() {
        Tally tally = new Tally(TOPIC, "Vincenty's standard line: azimuths", GA, 0.00001, "°");
        tally.add("out", vincenty().initial(), degrees(306, 52, 5.37));
        tally.add("back", vincenty().onward().reciprocal(), degrees(127, 10, 25.07));
        return tally.result();
    }

    private static Geodesics.Inverse vincenty() {
        Position one = new Position(
                -degrees(37, 57, 3.7203).deg(), degrees(144, 25, 29.5244).deg());
        Position two = new Position(
                -degrees(37, 39, 10.1561).deg(), degrees(143, 55, 35.3839).deg());
        return one.to(two);
    }

    private static TrueDirection degrees(int degrees, int minutes, double seconds) {
        return new TrueDirection(degrees + minutes / 60.0 + seconds / 3600);
    }

    private static ExternalCheck longDistances() {
        Tally tally = new Tally(TOPIC, "long and nearly antipodal line: distance", GEODESIC_LIBRARY, 0.001, "m");
        tally.add("long", longLine().distanceNm() * Geodesics.METRES_PER_NM, 5_551_759.400);
        tally.add("antipodal", antipodal().distanceNm() * Geodesics.METRES_PER_NM, 19_959_679.267);
        return tally.result();
    }

    private static ExternalCheck longAzimuths() {
        Tally tally = new Tally(TOPIC, "long and nearly antipodal line: azimuths", GEODESIC_LIBRARY, 0.00001, "°");
        tally.add("long, out", longLine().initial(), new TrueDirection(51.19888));
        tally.add("long, onward", longLine().onward(), new TrueDirection(107.82178));
        tally.add("antipodal, out", antipodal().initial(), new TrueDirection(161.06766998616));
        tally.add("antipodal, onward", antipodal().onward(), new TrueDirection(18.82519512325));
        return tally.result();
    }

    private static Geodesics.Inverse longLine() {
        return new Position(40.6, -73.8).to(new Position(51.6, -0.5));
    }

    private static Geodesics.Inverse antipodal() {
        return new Position(-41.32, 174.81).to(new Position(40.96, -5.50));
    }

    private static ExternalCheck crossings() {
        Tally tally = new Tally(TOPIC, "crossing of two lines, 20 km to 10 000 km", BASELGA, 0.00002, "m");
        crossing(
                tally,
                "short",
                line(54, 14.5, 54.2, 14.6),
                line(54.1, 14.4, 54, 14.7),
                54.0573013091912,
                14.5285478498717);
        crossing(tally, "100 km", line(52, 5, 51.4, 6), line(51.5, 4.5, 52, 5.5), 51.8656654013763, 5.22745711452158);
        crossing(tally, "ocean", line(42, 29, 39, -77), line(6, 0, 64, -22), 54.7170296089477, -14.5638557443078);
        crossing(tally, "very long", line(35, -92, 40, 52), line(-8, 20, 49, -95), 50.4790974467667, -79.282801686624);
        crossing(tally, "meridian through the pole", line(90, 5, 0, 5), line(70, -30, 70, 40), 73.4002981961227, 5);
        crossing(
                tally,
                "beyond 89.5 N",
                line(85, -170, -15, 12),
                line(26, -58, 75, 120),
                89.5261957615611,
                34.2479946167131);
        crossing(
                tally,
                "outside both segments",
                line(63, 105, 42, 79),
                line(38, -167, 23, -100),
                36.2632698564387,
                -135.325739600252);
        return tally.result();
    }

    private static ExternalCheck flat() {
        Tally tally = new Tally(TOPIC, "crossing of two nearly parallel lines", BASELGA, 0.0001, "m");
        crossing(
                tally,
                "nearly parallel",
                line(40, -42, 65.5, 63),
                line(40, -41.8, 65.6, 62.9),
                68.6469095374995,
                15.4380985995178);
        return tally.result();
    }

    private static void crossing(
            Tally tally, String name, GeodesicLine first, GeodesicLine second, double latitude, double longitude) {
        tally.add(name, first.crossing(second).orElseThrow().position(), new Position(latitude, longitude));
    }

    private static ExternalCheck feet() {
        Tally tally = new Tally(TOPIC, "foot of the perpendicular, 25 km to 4000 km", BASELGA, 0.0001, "m");
        GeodesicLine small = line(52, 5, 51.4, 6);
        Offset near = small.offset(new Position(52, 5.5));
        tally.add("short, foot", small.pointAt(near.alongTrackNm()), new Position(51.8460892270512, 5.26042849496107));
        tally.add("short, cross-track, left", metres(near.crossTrackNm()), -23_767.7241838);
        tally.add("short, along-track", metres(near.alongTrackNm()), 24_784.2884);
        GeodesicLine ocean = line(42, 29, 39, -77);
        Offset far = ocean.offset(new Position(64, -22));
        tally.add("ocean, foot", ocean.pointAt(far.alongTrackNm()), new Position(54.9285314971169, -21.9372910660488));
        tally.add("ocean, cross-track, right", metres(far.crossTrackNm()), 1_010_585.99883681);
        GeodesicLine huge = line(42, 29, -35, -70);
        Offset farther = huge.offset(new Position(64, -22));
        tally.add(
                "very long, foot",
                huge.pointAt(farther.alongTrackNm()),
                new Position(37.9781176779955, 18.3490633150769));
        tally.add("very long, cross-track", metres(Math.abs(farther.crossTrackNm())), 3_928_422.73531622);
        return tally.result();
    }

    private static double metres(double nm) {
        return nm * Geodesics.METRES_PER_NM;
    }

    private static GeodesicLine line(double lat1, double lon1, double lat2, double lon2) {
        return GeodesicLine.between(new Position(lat1, lon1), new Position(lat2, lon2));
    }
}
