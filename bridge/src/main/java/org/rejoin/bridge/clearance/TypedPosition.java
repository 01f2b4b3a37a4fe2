package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Fix;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.TrueDirection;

/** Points typed as latitude and longitude, or as bearing and distance (ICAO Doc 4444, Appendix 2, item 15 c 2). */
final class TypedPosition {

    private static final Pattern COORDINATES = Pattern.compile("(\\d{2})(\\d{2})?([NS])(\\d{3})(\\d{2})?([EW])");
    private static final Pattern BEARING_DISTANCE = Pattern.compile("([A-Z]{2,5})(\\d{3})(\\d{3})");

    private TypedPosition() {}

    /** Whether a word can only have been meant as latitude and longitude. */
    static boolean looksLikeCoordinates(String word) {
        return word.matches("\\d+[NS].*|\\d{4,}[NSEW]*");
    }

    /** Whether a word has the form of bearing and distance. */
    static boolean isBearingDistance(String word) {
        return BEARING_DISTANCE.matcher(word).matches();
    }

    /**
     * Reads 7 characters of whole degrees, for example 46N078W, or 11 with minutes, for example 4620N07805W.
     *
     * @throws ClearanceException if it is neither
     */
    static Fix coordinates(Word word) throws ClearanceException {
        Matcher matcher = COORDINATES.matcher(word.text());
        if (!matcher.matches() || (matcher.group(2) == null) != (matcher.group(5) == null)) {
            throw word.notValid(word.text() + " has " + word.text().length()
                    + " characters; latitude and longitude have 7 (46N078W) or 11 (4620N07805W)");
        }
        double latitude = degrees(word, matcher.group(1), matcher.group(2), 90, "latitude");
        double longitude = degrees(word, matcher.group(4), matcher.group(5), 180, "longitude");
        return new Fix(
                word.text(),
                new Position(
                        "S".equals(matcher.group(3)) ? -latitude : latitude,
                        "W".equals(matcher.group(6)) ? -longitude : longitude));
    }

    private static double degrees(Word word, String whole, String minutes, int limit, String what)
            throws ClearanceException {
        int minute = minutes == null ? 0 : Integer.parseInt(minutes);
        double degrees = Integer.parseInt(whole) + minute / 60.0;
        if (minute > 59) {
            throw word.notValid(word.text() + ": " + minutes + " minutes of " + what + "; minutes go from 00 to 59");
        }
        if (degrees > limit) {
            throw word.notValid(word.text() + ": " + what + " goes up to " + limit + " degrees");
        }
        return degrees;
    }

    /**
     * Reads a station, 3 figures of magnetic bearing and 3 of nautical miles, for example AAA078064. From a station that
     * transmits radials the bearing is its radial: true azimuth = radial + the station's declination.
     *
     * @return one point for each station of that ident, in the order of the chart
     * @throws ClearanceException if the point is not shown, the figures are out of range, or the bearing cannot be
     *     turned into a true one
     */
    static List<Waypoint> bearingDistance(Word word, Chart chart) throws ClearanceException {
        Matcher matcher = BEARING_DISTANCE.matcher(word.text());
        if (!matcher.matches()) {
            throw word.notValid(word.text()
                    + ": bearing and distance are a point, 3 figures of degrees and 3 of miles, for example AAA078064");
        }
        String ident = matcher.group(1);
        int bearing = Integer.parseInt(matcher.group(2));
        int miles = Integer.parseInt(matcher.group(3));
        if (bearing > 360) {
            throw word.notValid(
                    word.text() + ": bearing " + matcher.group(2) + ": a bearing has three figures, 001 to 360");
        }
        if (miles == 0) {
            throw word.notValid(word.text() + ": distance 000 is " + ident + " itself; file " + ident);
        }
        List<Waypoint> shown = chart.waypoints(ident);
        if (shown.isEmpty()) {
            throw word.refuse(
                    ClearanceException.Code.UNKNOWN_FIX,
                    word.text() + ": " + ident + " is not on the chart" + Places.suggestion(ident, chart));
        }
        List<Waypoint> points = new ArrayList<>();
        for (Waypoint point : shown) {
            if (point instanceof Station station
                    && station.kind().hasRadials()
                    && station.declination().isPresent()) {
                points.add(onRadial(word.text(), station, new Radial(bearing), miles));
            }
        }
        if (points.isEmpty()) {
            throw word.notValid(word.text() + ": " + ident
                    + " has no radials with a known declination, and a route has no day to take a magnetic bearing by;"
                    + " use a VOR, or latitude and longitude");
        }
        return points;
    }

    /**
     * A point on a radial.
     *
     * @param ident to give it
     * @param station with a declination
     * @param radial in the station's reference
     * @param miles nautical miles over the ground from its DME, which stands apart from the VOR now and then
     */
    static Fix onRadial(String ident, Station station, Radial radial, int miles) {
        TrueDirection azimuth = radial.toTrue(station.declination().orElseThrow());
        if (station.dmePosition().isEmpty()) {
            return new Fix(ident, station.position().destination(azimuth, miles));
        }
        Position dme = station.dmePosition().get();
        GeodesicLine outbound = GeodesicLine.from(
                station.position(), azimuth, miles + station.position().distanceNm(dme) + 1);
        return outbound.crossingsOfCircle(dme, miles).stream()
                .filter(along -> along >= 0)
                .reduce((nearer, farther) -> farther)
                .map(along -> new Fix(ident, outbound.pointAt(along)))
                .orElseGet(() -> new Fix(ident, station.position().destination(azimuth, miles)));
    }
}
