package org.rejoin.console.lesson;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Spelling;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.Declination;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.protocol.yaml.YamlMembers;

/**
 * A place as a user types it: "LAT,LON", degrees and minutes as this program says them, the ident of a point,
 * STATION/RADIAL/DISTANCE, or both in three figures behind the station.
 */
public final class Place {

    private static final Pattern COORDINATES =
            Pattern.compile("\\s*([+-]?\\d+(?:\\.\\d+)?)\\s*,\\s*([+-]?\\d+(?:\\.\\d+)?)\\s*");
    /** A place with decimal commas. */
    private static final Pattern COMMAS =
            Pattern.compile("\\s*([+-]?\\d+),(\\d+)\\s*[,;\\s]\\s*([+-]?\\d+),(\\d+)\\s*");

    private static final Pattern RADIAL_DISTANCE =
            Pattern.compile("([A-Z0-9]{1,5})/(\\d+(?:\\.\\d+)?)/(\\d+(?:\\.\\d+)?)");

    /** As this program says a place: N38°12.000' W049°55.200'. */
    private static final Pattern MINUTES = Pattern.compile(
            "\\s*([NS])\\s*(\\d{1,2})°\\s*(\\d{1,2}(?:\\.\\d+)?)'\\s*,?\\s*([EW])\\s*(\\d{1,3})°\\s*(\\d{1,2}(?:\\.\\d+)?)'\\s*");

    /** Radial and distance in three figures each, as in a flight plan (ICAO Doc 4444, appendix 2, item 15: DUB180040). */
    private static final Pattern SIX_FIGURES = Pattern.compile("([A-Z]{2,5})(\\d{3})(\\d{3})");

    private Place() {}

    /**
     * Reads a place.
     *
     * @return the position, WGS 84
     * @throws LessonException if it is none of the three forms, out of range, or not on the chart
     */
    public static Position read(String text, Chart chart) throws LessonException {
        return read(text, chart, List.of(), new ArrayList<>());
    }

    /**
     * Reads a place near a route.
     *
     * @param route of several points or stations of one ident the nearest to these is meant; the first where there are none
     * @param notes takes a sentence where there were several
     * @return the position, WGS 84
     * @throws LessonException if it is none of the three forms, out of range, or not on the chart
     */
    public static Position read(String text, Chart chart, List<? extends Waypoint> route, List<String> notes)
            throws LessonException {
        try {
            Matcher coordinates = COORDINATES.matcher(text);
            if (coordinates.matches()) {
                double longitude = Double.parseDouble(coordinates.group(2));
                if (Math.abs(longitude) > 180) {
                    throw new IllegalArgumentException("longitude " + longitude + " is not in -180 to 180 degrees");
                }
                return new Position(Double.parseDouble(coordinates.group(1)), longitude);
            }
            String upper = text.trim().toUpperCase(Locale.ROOT);
            Matcher minutes = MINUTES.matcher(upper);
            if (minutes.matches()) {
                return new Position(degrees(minutes, 1, "S"), degrees(minutes, 4, "W"));
            }
            Matcher radial = RADIAL_DISTANCE.matcher(upper);
            if (radial.matches()) {
                return fromStation(
                        radial.group(1),
                        Double.parseDouble(radial.group(2)),
                        Double.parseDouble(radial.group(3)),
                        chart,
                        route,
                        notes);
            }
            List<Waypoint> found = chart.waypoints(upper);
            if (!found.isEmpty()) {
                return chosen(found, route, notes).position();
            }
            Matcher figures = SIX_FIGURES.matcher(upper);
            if (figures.matches()) {
                return fromStation(
                        figures.group(1),
                        Double.parseDouble(figures.group(2)),
                        Double.parseDouble(figures.group(3)),
                        chart,
                        route,
                        notes);
            }
        } catch (IllegalArgumentException e) {
            throw new LessonException("\"" + text + "\": " + e.getMessage(), e);
        }
        String meant = text.trim().replaceFirst("\\s+", ",");
        if (COORDINATES.matcher(meant).matches()) {
            throw new LessonException("\"" + text + "\" is not a place; did you mean " + meant + "?");
        }
        Matcher commas = COMMAS.matcher(text);
        if (commas.matches()) {
            throw new LessonException("\"" + text + "\" is not a place; decimal points are needed: did you mean "
                    + commas.group(1) + "." + commas.group(2) + "," + commas.group(3) + "." + commas.group(4) + "?");
        }
        throw new LessonException("\"" + text + "\" is not a place: give LAT,LON in degrees (38.5,-50.25), an ident of"
                + " chart " + chart.name() + ", or STATION/RADIAL/DISTANCE (" + example(chart) + "/078/12.5)");
    }

    /** Three groups from one on: the side, degrees, minutes; a side that counts down makes it negative. */
    private static double degrees(Matcher place, int first, String negative) {
        double whole = Double.parseDouble(place.group(first + 1));
        double minutes = Double.parseDouble(place.group(first + 2));
        double most = first == 1 ? 90 : 180;
        if (minutes >= 60 || whole + minutes / 60 > most) {
            throw new IllegalArgumentException(String.format(
                    Locale.ROOT, "%.0f degrees %s minutes: degrees to %.0f, minutes below 60", whole, minutes, most));
        }
        return (whole + minutes / 60) * (place.group(first).equals(negative) ? -1 : 1);
    }

    /** The one of several points that is nearest to any of a route; the first where there is no route. */
    static <T extends Waypoint> T nearest(List<T> points, List<? extends Waypoint> route) {
        T best = points.get(0);
        double leastNm = Double.POSITIVE_INFINITY;
        for (T point : points) {
            for (Waypoint of : route) {
                double nm = point.position().distanceNm(of.position());
                if (nm < leastNm) {
                    leastNm = nm;
                    best = point;
                }
            }
        }
        return best;
    }

    private static <T extends Waypoint> T chosen(List<T> points, List<? extends Waypoint> route, List<String> notes) {
        T nearest = nearest(points, route);
        if (points.size() > 1) {
            notes.add(String.format(
                    Locale.ROOT,
                    "%d points are named %s; the one at %.3f, %.3f is taken%s",
                    points.size(),
                    nearest.ident(),
                    nearest.position().latitudeDeg(),
                    nearest.position().longitudeDeg(),
                    route.isEmpty() ? "" : ", the nearest to the filed route"));
        }
        return nearest;
    }

    private static Position fromStation(
            String ident,
            double radialDeg,
            double distanceNm,
            Chart chart,
            List<? extends Waypoint> route,
            List<String> notes)
            throws LessonException {
        List<Station> stations = chart.stations(ident);
        if (stations.isEmpty()) {
            throw new LessonException(
                    chart.waypoints(ident).isEmpty()
                            ? "station " + ident + " is not on chart " + chart.name()
                                    + Spelling.didYouMean(
                                            ident,
                                            chart.stations().stream()
                                                    .map(Station::ident)
                                                    .toList())
                            : ident + " is no station and has no radials: give " + ident
                                    + " itself, or radial and distance of a station");
        }
        Station station = chosen(stations, route, notes);
        Declination declination = station.declination()
                .orElseThrow(() -> new LessonException(ident + " has no radials: no station declination on"
                        + " the chart; give another station, or LAT,LON in degrees"));
        if (radialDeg > 360) {
            throw new LessonException(
                    "radial " + YamlMembers.plain(radialDeg) + ": a radial has three figures, 001 to 360");
        }
        if (distanceNm > 1000) {
            throw new LessonException("distance " + YamlMembers.plain(distanceNm) + " NM is not in 0 to 1000");
        }
        return station.position().destination(new Radial(radialDeg).toTrue(declination), distanceNm);
    }

    private static String example(Chart chart) {
        return chart.stations().stream().findFirst().map(Station::ident).orElse("AAA");
    }
}
