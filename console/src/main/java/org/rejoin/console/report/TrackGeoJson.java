package org.rejoin.console.report;

import java.io.IOException;
import java.io.Writer;
import java.util.List;

import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.flight.Point;
import org.rejoin.console.draw.Figures;
import org.rejoin.console.words.CleanText;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;

/**
 * The flight as GeoJSON (RFC 7946): track, filed and amended routes, fixes, events. Positions are longitude, latitude; the
 * third number, a height above the ellipsoid, is left out because altitudes here are above mean sea level: they stand in
 * the properties. There are no polygons, so nothing has a winding.
 */
final class TrackGeoJson {

    private final DebriefedFlight flight;
    private final JsonGenerator json;

    private TrackGeoJson(DebriefedFlight flight, JsonGenerator json) {
        this.flight = flight;
        this.json = json;
    }

    static void write(DebriefedFlight flight, Writer out) throws IOException {
        try (JsonGenerator json = new JsonFactory().createGenerator(out)) {
            json.disable(JsonGenerator.Feature.AUTO_CLOSE_TARGET);
            json.setPrettyPrinter(new DefaultPrettyPrinter().withObjectIndenter(new DefaultIndenter(" ", "\n")));
            new TrackGeoJson(flight, json).collection();
        }
        out.flush();
    }

    private void collection() throws IOException {
        json.writeStartObject();
        json.writeStringField("type", "FeatureCollection");
        json.writeArrayFieldStart("features");
        track();
        route("route as filed", "filed", RoutePoints.filed(flight));
        for (Entry.Issued amended : flight.record().issued()) {
            route(CleanText.of(amended.route().clearance().text()), "amended", RoutePoints.amended(amended.route()));
        }
        for (RoutePoints.Named fix : RoutePoints.fixes(flight)) {
            feature("fix", CleanText.of(fix.name()));
            json.writeEndObject();
            point(GeoJsonLine.Vertex.of(fix.position()));
        }
        FlightRecord track = flight.record();
        for (var event : flight.debrief().events()) {
            feature("event", CleanText.of(flight.line(event)));
            json.writeStringField("event", event.name());
            json.writeNumberField("time_s", Figures.decimal(event.timeS(), 2));
            json.writeEndObject();
            point(GeoJsonLine.Vertex.of(track.positionAt(event.timeS())));
        }
        json.writeEndArray();
        json.writeEndObject();
    }

    private void track() throws IOException {
        GeoJsonLine line = new GeoJsonLine();
        for (List<Point> piece : flight.record().pieces()) {
            line.add(piece.stream()
                    .map(sample -> GeoJsonLine.Vertex.of(
                            sample.position(),
                            sample.timeS(),
                            sample.state().altitudeMslFt().orElse(Double.NaN)))
                    .toList());
        }
        feature("track", CleanText.of(flight.lesson().title()));
        json.writeStringField("began_utc", TrackXml.utc(flight.debrief().began()));
        line.writeValues(json, "times_s", 0, 2);
        line.writeValues(json, "altitudes_msl_ft", 1, 1);
        json.writeEndObject();
        line.writeGeometry(json);
        json.writeEndObject();
    }

    private void route(String name, String which, List<RoutePoints.Named> points) throws IOException {
        GeoJsonLine line = new GeoJsonLine();
        line.add(points.stream()
                .map(point -> GeoJsonLine.Vertex.of(point.position()))
                .toList());
        feature("route", name);
        json.writeStringField("which", which);
        json.writeArrayFieldStart("points");
        for (RoutePoints.Named point : points) {
            json.writeString(CleanText.of(point.name()));
        }
        json.writeEndArray();
        json.writeEndObject();
        line.writeGeometry(json);
        json.writeEndObject();
    }

    private void feature(String kind, String name) throws IOException {
        json.writeStartObject();
        json.writeStringField("type", "Feature");
        json.writeObjectFieldStart("properties");
        json.writeStringField("kind", kind);
        json.writeStringField("name", name);
    }

    private void point(GeoJsonLine.Vertex vertex) throws IOException {
        json.writeObjectFieldStart("geometry");
        json.writeStringField("type", "Point");
        json.writeArrayFieldStart("coordinates");
        json.writeNumber(Figures.decimal(vertex.longitudeDeg(), 7));
        json.writeNumber(Figures.decimal(vertex.latitudeDeg(), 7));
        json.writeEndArray();
        json.writeEndObject();
        json.writeEndObject();
    }
}
