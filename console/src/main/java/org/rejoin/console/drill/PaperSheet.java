package org.rejoin.console.drill;

import java.time.LocalDate;
import java.util.LinkedHashSet;
import java.util.Locale;
import java.util.Set;

import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Fix;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.Position;
import org.rejoin.console.json.JsonNumbers;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;

/** The sheet of a paper drill for a page: what the pilot has before him, the questions, and the chart round it to draw on. */
public final class PaperSheet {

    /** As much of the chart as is shown, nautical miles round the aircraft: as far as the clearance can lead. */
    private static final double SHOWN_NM = 100;

    private PaperSheet() {}

    /**
     * The sheet, without an answer in it: seed, lines, questions, drawings, aircraft, chart; places in degrees, north
     * and east plus.
     */
    public static ObjectNode json(PaperDrill paper, Chart chart) {
        ObjectNode sheet = JsonNodeFactory.instance.objectNode();
        sheet.put("seed", paper.drill().seed());
        sheet.put("say", paper.say());
        ArrayNode lines = sheet.putArray("lines");
        paper.sheet().forEach(lines::add);
        sheet.set("questions", paper.questionsJson());
        sheet.set("drawings", paper.drawingsJson());
        Position here = paper.route().situation().position();
        ObjectNode aircraft = place(here);
        JsonNumbers.put(
                aircraft,
                "heading_true_deg",
                paper.drill()
                        .presentHeading()
                        .toTrue(paper.route().situation().variation())
                        .deg(),
                1);
        sheet.set("aircraft", aircraft);
        ArrayNode filed = sheet.putArray("filed");
        Set<Waypoint> points = new LinkedHashSet<>(paper.drill().filed().points());
        points.forEach(point -> filed.add(place(point.position())));
        sheet.set("chart", chart(chart, here, points, paper.drill().date()));
        return sheet;
    }

    private static ObjectNode chart(Chart chart, Position here, Set<Waypoint> points, LocalDate date) {
        ObjectNode shown = JsonNodeFactory.instance.objectNode();
        ArrayNode stations = shown.putArray("stations");
        for (Station station : chart.stations()) {
            if (station.position().isWithin(SHOWN_NM, here)) {
                ObjectNode one = named(station);
                one.put("kind", station.kind().name().toLowerCase(Locale.ROOT));
                // Radials by the station's own north, bearings of an NDB by today's: either can be read off a rose.
                StationLines.of(station, date)
                        .ifPresent(lines -> JsonNumbers.put(one, "north_deg", lines.northDeg(), 1));
                stations.add(one);
            }
        }
        ArrayNode fixes = shown.putArray("fixes");
        for (Fix fix : chart.fixes()) {
            if (fix.position().isWithin(SHOWN_NM, here)) {
                fixes.add(named(fix));
            }
        }
        for (Waypoint point : points) {
            if (!(point instanceof Station) && !(point instanceof Fix)) {
                fixes.add(named(point));
            }
        }
        ArrayNode airways = shown.putArray("airways");
        for (Airway airway : chart.airways()) {
            if (airway.points().stream().anyMatch(point -> point.position().isWithin(SHOWN_NM, here))) {
                ObjectNode one = airways.addObject();
                one.put("ident", airway.ident());
                ArrayNode path = one.putArray("points");
                airway.points().forEach(point -> path.add(place(point.position())));
            }
        }
        return shown;
    }

    private static ObjectNode named(Waypoint point) {
        ObjectNode one = place(point.position());
        one.put("ident", point.ident());
        return one;
    }

    private static ObjectNode place(Position position) {
        ObjectNode place = JsonNodeFactory.instance.objectNode();
        JsonNumbers.put(place, "latitude_deg", position.latitudeDeg(), 6);
        JsonNumbers.put(place, "longitude_deg", position.longitudeDeg(), 6);
        return place;
    }
}
