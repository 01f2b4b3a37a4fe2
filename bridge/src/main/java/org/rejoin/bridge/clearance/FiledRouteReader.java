package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Waypoint;

/**
 * Reads a filed route and expands it over a chart: item 15 of the flight plan (ICAO Doc 4444, Appendix 2) and the plain
 * form used in the United States, in which airports may stand at the ends and DCT may be left out.
 */
public final class FiledRouteReader {

    /** Longer than any flight plan; keeps a hostile text from costing time. */
    private static final int LONGEST = 10_000;

    private static final Pattern CODED_POINT = Pattern.compile("[A-Z]{2,5}");
    private static final Pattern ATS_ROUTE = Pattern.compile("(?=.*\\d)[A-Z][A-Z0-9]{1,6}");
    private static final Pattern POINT_AND_FIGURES = Pattern.compile("([A-Z]{2,5})(\\d{3,})");

    private final Chart chart;
    private final List<RouteExpansion.Element> elements = new ArrayList<>();
    private final List<String> notes;

    private FiledRouteReader(Chart chart, List<String> notes) {
        this.chart = chart;
        this.notes = notes;
    }

    /**
     * Reads a route, for example {@code XAAA DCT AAA V31 BBB DCT XBBB}. Of several points of one ident those are taken
     * that the airways beside them pass, then those that make the route shortest; a note says so.
     *
     * @param text as filed, any case
     * @param chart where its points and airways are looked up
     * @return the expanded route
     * @throws ClearanceException if an element is not on the chart or does not connect; the message names it
     */
    public static FiledRoute read(String text, Chart chart) throws ClearanceException {
        if (text.length() > LONGEST) {
            throw new ClearanceException(
                    ClearanceException.Code.ROUTE_NOT_VALID,
                    "the route has " + text.length() + " characters; up to " + LONGEST + " are read");
        }
        List<String> notes = new ArrayList<>();
        FiledRouteReader reader = new FiledRouteReader(chart, notes);
        List<Word> words = Word.split(text);
        for (int i = 0; i < words.size(); i++) {
            reader.element(words.get(i), i == 0, i == words.size() - 1);
        }
        return new FiledRoute(text, new RouteExpansion(reader.elements, notes).segments(), notes);
    }

    private void element(Word word, boolean first, boolean last) throws ClearanceException {
        String text = word.text();
        if (first && SpeedLevel.isGroup(text)) {
            notes.add(text + ": cruising speed and level, read but not flown");
        } else if ("DCT".equals(text)) {
            elements.add(new RouteExpansion.Element.Direct(word));
        } else if ("VFR".equals(text) || "IFR".equals(text)) {
            changeOfRules(word);
        } else if (text.indexOf('/') >= 0) {
            withSpeedAndLevel(word, first);
        } else {
            Optional<Airway> airway = chart.airway(text);
            boolean afterPoint = !elements.isEmpty()
                    && !(elements.get(elements.size() - 1) instanceof RouteExpansion.Element.Direct);
            // An ident may be both: an airway stands between two points.
            if (airway.isPresent() && (chart.waypoints(text).isEmpty() || (afterPoint && !last))) {
                elements.add(new RouteExpansion.Element.Along(word, airway.get()));
            } else {
                elements.add(point(word, first));
            }
        }
    }

    private void changeOfRules(Word word) throws ClearanceException {
        if (elements.isEmpty() || !(elements.get(elements.size() - 1) instanceof RouteExpansion.Element.Point point)) {
            throw word.notValid(word.text() + ": a change of rules stands after the point where it happens");
        }
        notes.add(point.word().text() + " " + word.text() + ": change of flight rules, read but not flown");
    }

    private void withSpeedAndLevel(Word word, boolean first) throws ClearanceException {
        String[] parts = word.text().split("/", -1);
        boolean climb = parts.length == 3 && "C".equals(parts[0]);
        String group = parts[parts.length - 1];
        if (first && parts.length == 2 && SpeedLevel.looksMeant(parts[0]) && SpeedLevel.looksMeant(group)) {
            throw word.notValid(word.text() + ": " + SpeedLevel.FORM);
        }
        if ("C".equals(parts[0]) && (!climb || !SpeedLevel.isClimb(group))) {
            throw word.notValid(word.text()
                    + ": a cruise climb is C, the point, and a speed with two levels, for example"
                    + " C/48N050W/M082F290F350");
        }
        if (!climb && (parts.length != 2 || !SpeedLevel.isGroup(group))) {
            String right = "VFR".equals(group) || "IFR".equals(group) ? parts[0] + " " + group : "AAA/N0120A060";
            throw word.notValid(
                    word.text() + ": after a point and an oblique stand a new speed and level, for example " + right);
        }
        int at = climb ? 1 : 0;
        if (parts[at].isEmpty()) {
            throw word.notValid(word.text() + ": the point before the oblique is missing");
        }
        elements.add(point(new Word(parts[at], word.column() + (climb ? 2 : 0)), false));
        notes.add(word.text() + ": change of speed or level, read but not flown");
    }

    private RouteExpansion.Element.Point point(Word word, boolean first) throws ClearanceException {
        String text = word.text();
        List<Waypoint> shown = chart.waypoints(text);
        if (!shown.isEmpty()) {
            return new RouteExpansion.Element.Point(word, shown, true);
        }
        if (TypedPosition.looksLikeCoordinates(text)) {
            return new RouteExpansion.Element.Point(word, List.of(TypedPosition.coordinates(word)), false);
        }
        if (TypedPosition.isBearingDistance(text)) {
            return new RouteExpansion.Element.Point(word, TypedPosition.bearingDistance(word, chart), false);
        }
        throw unknown(word, first);
    }

    private ClearanceException unknown(Word word, boolean first) {
        String text = word.text();
        if ((first || text.length() > 4) && SpeedLevel.looksMeant(text)) {
            return word.notValid(
                    text + ": " + SpeedLevel.FORM + ", first in the route or after a point and an oblique");
        }
        Matcher figures = POINT_AND_FIGURES.matcher(text);
        if (figures.matches()
                && (figures.group(1).length() > 2
                        || !chart.waypoints(figures.group(1)).isEmpty())) {
            return figures.group(2).length() == 3
                    ? word.notValid(text + ": a radial alone is not a point; add the distance, for example "
                            + figures.group(1) + figures.group(2) + "064")
                    : word.notValid(
                            text + ": bearing and distance are 3 figures of degrees and 3 of miles, for example "
                                    + figures.group(1) + "078064");
        }
        if (CODED_POINT.matcher(text).matches()) {
            return word.refuse(
                    ClearanceException.Code.UNKNOWN_FIX,
                    text + " is not on the chart" + Places.suggestion(text, chart));
        }
        if (ATS_ROUTE.matcher(text).matches()) {
            return word.refuse(
                    ClearanceException.Code.UNKNOWN_AIRWAY,
                    "airway " + text + " is not on the chart" + Places.airwaySuggestion(text, chart));
        }
        return word.notValid(text + " is neither a point (2 to 5 letters, coordinates, or bearing and distance) nor an"
                + " airway (2 to 7 characters)");
    }

    /** Speed and level groups of a filed route (ICAO Doc 4444, Appendix 2, item 15 a, b and c 4). */
    private static final class SpeedLevel {

        static final String FORM = "speed and level are joined, for example N0120A060, M082F330 or K0841S1130";

        private static final String SPEED = "(K\\d{4}|N\\d{4}|M\\d{3})";
        private static final String LEVEL = "(F\\d{3}|A\\d{3}|S\\d{4}|M\\d{4})";
        private static final Pattern GROUP = Pattern.compile(SPEED + "(" + LEVEL + "|VFR)");
        private static final Pattern CLIMB = Pattern.compile(SPEED + LEVEL + "(" + LEVEL + "|PLUS)");
        private static final Pattern ATTEMPT = Pattern.compile("([KNM]\\d{2,6})([/FASMV].*)?|[FA]L?\\d{2,4}");

        private SpeedLevel() {}

        /** Whether a word is a speed (K + 4, N + 4, M + 3 figures) and a level (F + 3, A + 3, S + 4, M + 4, VFR). */
        static boolean isGroup(String word) {
            return GROUP.matcher(word).matches();
        }

        /** Whether a word is the speed and the two levels of a cruise climb. */
        static boolean isClimb(String word) {
            return CLIMB.matcher(word).matches();
        }

        /** Whether a word that nothing else explains was likely meant as a group. */
        static boolean looksMeant(String word) {
            return ATTEMPT.matcher(word).matches();
        }
    }
}
