package org.rejoin.console.drill;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

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
import org.rejoin.console.skill.Line;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;

/**
 * The clearances of a flight as they were heard: what made each easy or hard from where the aircraft was, not from where a
 * lesson meant it to be, and the time lost on it.
 *
 * @param each in order of time; those that leave the route as it is are left out
 */
public record FlownClearances(List<Heard> each) {

    public FlownClearances {
        each = List.copyOf(each);
    }

    /**
     * One of them.
     *
     * @param atS when it was heard, seconds since the first sample
     * @param drill filed route and words: what tells it from others
     * @param features empty where it leads to no line
     * @param lostS seconds lost against the best flyable path; empty where not compared
     */
    public record Heard(double atS, String drill, Optional<Features> features, Line line, OptionalDouble lostS) {}

    /** Reads them off a flight whose record has its points. */
    public static FlownClearances of(FlightRecord record, Chart chart) {
        List<Comparison> compared = Comparison.all(record);
        List<Point> points = record.points().toList();
        List<Heard> heard = new ArrayList<>();
        for (Entry.Issued issued : record.issued()) {
            if (issued.clearance().routeStays()) {
                continue;
            }
            AmendedRoute route = issued.route();
            heard.add(new Heard(
                    issued.timeS(),
                    drill(route.filed(), route.clearance().text()),
                    Measured.of(route, chart, presentHeading(points, issued.timeS())),
                    Measured.line(route),
                    compared.stream()
                            .filter(each -> Math.abs(each.best().heardS() - issued.timeS()) < 1e-6)
                            .flatMap(each -> each.cost().lost().stream())
                            .mapToDouble(lost -> lost.seconds())
                            .findFirst()));
        }
        return new FlownClearances(heard);
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

    /**
     * Members to be kept in {@code attempt.json}: those of the first clearance by themselves, and all in a list; none
     * where there was no clearance.
     */
    public ObjectNode json() {
        ObjectNode json = JsonNodeFactory.instance.objectNode();
        if (each.isEmpty()) {
            return json;
        }
        json.put("drill", each.get(0).drill());
        each.get(0).features().ifPresent(features -> members(json, features));
        json.put("difficulty_version", Difficulty.BUILT_IN.version());
        ArrayNode clearances = json.putArray("clearances");
        for (Heard heard : each) {
            ObjectNode one = clearances.addObject();
            JsonNumbers.put(one, "at_s", heard.atS(), 2);
            one.put("drill", heard.drill());
            heard.features().ifPresent(features -> members(one, features));
            one.set("line", DrillText.lineJson(heard.line()));
            heard.lostS().ifPresent(lost -> JsonNumbers.put(one, "lost_s", lost, 1));
        }
        return json;
    }

    private static void members(ObjectNode json, Features features) {
        json.set("features", DrillText.featuresJson(features));
        json.set("difficulty", DrillText.difficulty(Difficulty.BUILT_IN.of(features)));
    }
}
