package org.rejoin.console.drill;

import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.console.best.Comparison;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.skill.Difficulty;
import org.rejoin.console.skill.Features;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;

/**
 * The clearances of a flight as they were heard: what made each easy or hard from where the aircraft was, not from where a
 * lesson meant it to be, and the time lost on it. Those that leave the route as it is are left out.
 */
public final class FlownClearances {

    private FlownClearances() {}

    /**
     * Members to be kept in {@code attempt.json}, of a flight whose record has its points: those of the first clearance by
     * themselves, and all in a list, in order of time; none where there was no clearance.
     */
    public static ObjectNode json(FlightRecord record, Chart chart) {
        ObjectNode json = JsonNodeFactory.instance.objectNode();
        ArrayNode clearances = JsonNodeFactory.instance.arrayNode();
        List<Comparison> compared = Comparison.all(record);
        List<Point> points = record.points().toList();
        for (Entry.Issued issued : record.issued()) {
            if (issued.clearance().routeStays()) {
                continue;
            }
            AmendedRoute route = issued.route();
            Optional<Features> features = Measured.of(route, chart, presentHeading(points, issued.timeS()));
            String drill = drill(route.filed(), route.clearance().text());
            if (clearances.isEmpty()) {
                json.put("drill", drill);
                features.ifPresent(known -> members(json, known));
                json.put("difficulty_version", Difficulty.BUILT_IN.version());
                json.set("clearances", clearances);
            }
            ObjectNode one = clearances.addObject();
            JsonNumbers.put(one, "at_s", issued.timeS(), 2);
            one.put("drill", drill);
            features.ifPresent(known -> members(one, known));
            one.set("line", DrillText.lineJson(Measured.line(route)));
            compared.stream()
                    .filter(each -> Math.abs(each.best().heardS() - issued.timeS()) < 1e-6)
                    .flatMap(each -> each.cost().lost().stream())
                    .findFirst()
                    .ifPresent(lost -> JsonNumbers.put(one, "lost_s", lost.seconds(), 1));
        }
        return json;
    }

    /** What tells a drill from others, flown or worked out on paper. */
    static String drill(FiledRoute filed, String say) {
        return filed.text() + ": " + say;
    }

    private static Optional<MagneticDirection> presentHeading(List<Point> points, double atS) {
        return points.stream()
                .filter(point -> point.timeS() <= atS && !Double.isNaN(point.headingMagneticDeg()))
                .reduce((before, last) -> last)
                .map(point -> new MagneticDirection(point.headingMagneticDeg()));
    }

    private static void members(ObjectNode json, Features features) {
        json.set("features", DrillText.featuresJson(features));
        json.set("difficulty", DrillText.difficulty(Difficulty.BUILT_IN.of(features)));
    }
}
