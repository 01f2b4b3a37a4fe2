package org.rejoin.console.report;

import java.io.IOException;
import java.io.Writer;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Position;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.words.CleanText;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.ObjectWriter;
import org.jspecify.annotations.Nullable;

/**
 * The flight as GeoJSON (RFC 7946): track, filed and amended routes, fixes, events. Positions are longitude, latitude; the
 * third number, a height above the ellipsoid, is left out because altitudes here are above mean sea level: they stand in
 * the properties. There are no polygons, so nothing has a winding.
 */
final class TrackGeoJson {

    private static final ObjectWriter JSON = new ObjectMapper()
            .writer(new DefaultPrettyPrinter().withObjectIndenter(new DefaultIndenter(" ", "\n")))
            .without(JsonGenerator.Feature.AUTO_CLOSE_TARGET);

    private record Collection(String type, List<Feature> features) {}

    private record Feature(String type, Map<String, Object> properties, GeoJsonLine.@Nullable Geometry geometry) {}

    private final DebriefedFlight flight;
    private final List<Feature> features = new ArrayList<>();

    private TrackGeoJson(DebriefedFlight flight) {
        this.flight = flight;
    }

    static void write(DebriefedFlight flight, Writer out) throws IOException {
        JSON.writeValue(out, new Collection("FeatureCollection", new TrackGeoJson(flight).features()));
        out.flush();
    }

    private List<Feature> features() {
        track();
        route("route as filed", "filed", RoutePoints.filed(flight));
        for (Entry.Issued amended : flight.record().issued()) {
            route(CleanText.of(amended.route().clearance().words()), "amended", RoutePoints.amended(amended.route()));
        }
        for (RoutePoints.Named fix : RoutePoints.fixes(flight)) {
            feature("fix", CleanText.of(fix.name()), GeoJsonLine.Geometry.point(GeoJsonLine.Vertex.of(fix.position())));
        }
        for (FlightEvent event : flight.debrief().events()) {
            Position at = flight.record().positionAt(event.timeS());
            Map<String, Object> more = feature(
                    "event", CleanText.of(flight.line(event)), GeoJsonLine.Geometry.point(GeoJsonLine.Vertex.of(at)));
            more.put("event", event.name());
            more.put("time_s", JsonNumbers.rounded(event.timeS(), 2));
        }
        return features;
    }

    private void track() {
        GeoJsonLine line = new GeoJsonLine();
        for (List<Point> piece : flight.record().pieces()) {
            line.add(piece.stream()
                    .map(sample -> GeoJsonLine.Vertex.of(
                            sample.position(),
                            sample.timeS(),
                            sample.state().altitudeMslFt().orElse(Double.NaN)))
                    .toList());
        }
        Map<String, Object> more = feature("track", CleanText.of(flight.lesson().title()), line.geometry());
        more.put("began_utc", flight.utc(0));
        more.put("times_s", line.values(0, 2));
        more.put("altitudes_msl_ft", line.values(1, 1));
    }

    private void route(String name, String which, List<RoutePoints.Named> points) {
        GeoJsonLine line = new GeoJsonLine();
        line.add(points.stream()
                .map(point -> GeoJsonLine.Vertex.of(point.position()))
                .toList());
        Map<String, Object> more = feature("route", name, line.geometry());
        more.put("which", which);
        more.put(
                "points",
                points.stream().map(point -> CleanText.of(point.name())).toList());
    }

    /** Adds a feature; to its properties more can be put. */
    private Map<String, Object> feature(String kind, String name, GeoJsonLine.@Nullable Geometry geometry) {
        Map<String, Object> properties = new LinkedHashMap<>();
        properties.put("kind", kind);
        properties.put("name", name);
        features.add(new Feature("Feature", properties, geometry));
        return properties;
    }
}
