package org.rejoin.console.drill;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.lesson.Place;
import org.rejoin.console.words.Words;

/**
 * Answers drawn on the chart: a line, a point. They come as text, {@code LAT,LON} or {@code LAT,LON LAT,LON} in degrees,
 * north and east plus, so that a drawn answer is asked, timed, kept and marked as a typed one is.
 */
final class Drawing {

    private static final Pattern BEARING_DISTANCE =
            Pattern.compile("([A-Z0-9]{1,5})/(\\d{1,3})/(\\d{1,3}(?:\\.\\d+)?)");

    /** Nearer a place is the station, nautical miles. */
    private static final double AT_STATION_NM = 0.1;

    private Drawing() {}

    /**
     * What was typed instead of drawn, as a page sends it: one place or two, each LAT,LON, an ident of the chart, or
     * STATION/RADIAL/DISTANCE.
     */
    static String typed(Question drawing, String typed, Chart chart, Drill drill) throws LessonException {
        String[] words = typed.trim().split("[\\s;]+", -1);
        int places = drawing.answer() instanceof Question.Answer.Line ? 2 : 1;
        if (words.length != places) {
            throw new LessonException(
                    places == 2
                            ? "a line is two places, the way it is flown: for example " + example(chart, 12) + " "
                                    + example(chart, 30)
                            : "a point is one place: for example " + example(chart, 12));
        }
        List<String> positions = new ArrayList<>();
        for (String word : words) {
            Optional<Position> byBearing = byBearing(word, chart, drill.date());
            positions.add(DrillText.place(
                    byBearing.isPresent()
                            ? byBearing.get()
                            : Place.read(word, chart, drill.filed().points(), new ArrayList<>())));
        }
        return String.join(" ", positions);
    }

    /** A bearing of an NDB and a distance, by the variation of the day. */
    private static Optional<Position> byBearing(String word, Chart chart, LocalDate date) {
        Matcher typed = BEARING_DISTANCE.matcher(word.toUpperCase(Locale.ROOT));
        if (!typed.matches()) {
            return Optional.empty();
        }
        return chart.stations(typed.group(1)).stream()
                .filter(StationLines::isNdb)
                .flatMap(station -> StationLines.of(station, date).stream())
                .findFirst()
                .map(lines -> lines.station()
                        .position()
                        .destination(
                                lines.azimuth(new Radial(Double.parseDouble(typed.group(2)))),
                                Double.parseDouble(typed.group(3))));
    }

    private static String example(Chart chart, int nm) {
        return chart.stations().stream()
                .filter(station -> station.declination().isPresent())
                .findFirst()
                .map(station -> station.ident() + "/078/" + nm)
                .orElse("38.5,-50." + nm);
    }

    /** Places as they are typed: by the nearest station with radials, else in degrees. */
    static String words(String positions, Chart chart) {
        return positions(positions, positions.trim().split(" +", -1).length)
                .map(all -> all.stream().map(each -> words(each, chart)).collect(Collectors.joining(" ")))
                .orElse(positions);
    }

    private static String words(Position place, Chart chart) {
        return chart.stations().stream()
                .filter(station -> station.declination().isPresent())
                .min(Comparator.comparingDouble(station -> station.position().distanceNm(place)))
                .map(station -> {
                    double nm = station.position().distanceNm(place);
                    return nm < AT_STATION_NM
                            ? station.ident()
                            : Words.say(
                                    "%s/%s/%.1f",
                                    station.ident(),
                                    Angles.figures(Radial.of(
                                                    station.position().to(place).initial(),
                                                    station.declination().orElseThrow())
                                            .deg()),
                                    nm);
                })
                .orElseGet(() -> DrillText.place(place));
    }

    /** Positions as they were drawn; empty where the text is not so many. */
    static Optional<List<Position>> positions(String drawn, int count) {
        String[] points = drawn.trim().split("[ ;]+", -1);
        if (points.length != count) {
            return Optional.empty();
        }
        List<Position> positions = new ArrayList<>();
        for (String point : points) {
            String[] parts = point.split(",", -1);
            try {
                if (parts.length != 2) {
                    return Optional.empty();
                }
                positions.add(new Position(Double.parseDouble(parts[0]), Double.parseDouble(parts[1])));
            } catch (IllegalArgumentException e) {
                return Optional.empty();
            }
        }
        return Optional.of(positions);
    }

    /** Whether a drawn line lies along another, the same way round. */
    static boolean along(GeodesicLine line, List<Position> drawn, double toleranceDeg, double toleranceNm) {
        Geodesics.Inverse way = drawn.get(0).to(drawn.get(1));
        if (way.distanceNm() < toleranceNm) {
            return false;
        }
        for (Position end : drawn) {
            if (Math.abs(line.offset(end).crossTrackNm()) > toleranceNm) {
                return false;
            }
        }
        Position middle = drawn.get(0).destination(way.initial(), way.distanceNm() / 2);
        double off = line.offset(middle).course().turnTo(drawn.get(0).to(middle).onward());
        return Math.abs(Angles.turn(off)) <= toleranceDeg;
    }
}
