package org.rejoin.console.report;

import java.io.IOException;
import java.io.Writer;
import java.util.ArrayList;
import java.util.List;

import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.Position;
import org.rejoin.console.draw.Markup;
import org.rejoin.console.words.Words;

/**
 * The flight as KML 2.2 (OGC 07-147r2): track, routes, fixes and events, each event with its time. Altitudes are metres
 * above mean sea level ("absolute"). Child elements stand in the order of the schema.
 */
final class TrackKml {

    private static final String NAMESPACE = "http://www.opengis.net/kml/2.2";

    private TrackKml() {}

    static void write(DebriefedFlight flight, Writer out) throws IOException {
        Markup.document(out, "kml", NAMESPACE, xml -> {
            xml.startLine("Document").element("name", flight.lesson().title()).element("description", Words.CAUTION);
            // Colours are aabbggrr.
            style(xml, "track", "ffb27200", "4");
            style(xml, "filed", "ff555555", "2");
            style(xml, "amended", "ff000000", "2");
            track(flight, xml);
            route(xml, "Filed: " + flight.lesson().filed().text(), "filed", RoutePoints.filed(flight));
            for (Entry.Issued amended : flight.record().issued()) {
                route(xml, amended.route().clearance().words(), "amended", RoutePoints.amended(amended.route()));
            }
            points(flight, xml);
            xml.end();
        });
    }

    private static void style(Markup xml, String id, String colour, String width) {
        xml.startLine("Style", "id", id);
        xml.startLine("LineStyle")
                .element("color", colour)
                .element("width", width)
                .end();
        xml.end();
    }

    private static void track(DebriefedFlight flight, Markup xml) {
        List<Point> samples = flight.samples();
        xml.startLine("Placemark").element("name", "Track flown");
        xml.startLine("TimeSpan")
                .element("begin", flight.utc(samples.get(0).timeS()))
                .element("end", flight.utc(samples.get(samples.size() - 1).timeS()))
                .end();
        xml.element("styleUrl", "#track").startLine("MultiGeometry");
        for (List<Point> piece : flight.record().pieces()) {
            boolean high = piece.stream()
                    .allMatch(sample -> sample.state().altitudeMslFt().isPresent());
            List<String> places = new ArrayList<>();
            for (Point sample : piece) {
                places.add(coordinates(sample.position())
                        + (high
                                ? ","
                                        + Markup.plain(
                                                sample.state().altitudeMslFt().orElseThrow() * Geodesics.METRES_PER_FT,
                                                2)
                                : ""));
            }
            if (places.size() > 1) {
                xml.startLine("LineString");
                xml.element("altitudeMode", high ? "absolute" : "clampToGround");
                xml.element("coordinates", String.join(" ", places)).end();
            }
        }
        xml.end().end();
    }

    private static void route(Markup xml, String name, String style, List<RoutePoints.Named> points) {
        if (points.size() < 2) {
            // A heading until ATC says more: there is no line to draw, and one coordinate is none.
            return;
        }
        xml.startLine("Placemark").element("name", name).element("styleUrl", "#" + style);
        xml.startLine("LineString").element("tessellate", "1");
        xml.element(
                "coordinates",
                String.join(
                        " ",
                        points.stream()
                                .map(point -> coordinates(point.position()))
                                .toList()));
        xml.end().end();
    }

    private static void points(DebriefedFlight flight, Markup xml) {
        xml.startLine("Folder").element("name", "Fixes");
        for (RoutePoints.Named fix : RoutePoints.fixes(flight)) {
            xml.startLine("Placemark").element("name", fix.name());
            point(xml, fix.position());
        }
        xml.end();
        xml.startLine("Folder").element("name", "Events");
        FlightRecord track = flight.record();
        for (var event : flight.debrief().events()) {
            xml.startLine("Placemark").element("name", flight.line(event));
            xml.startLine("TimeStamp")
                    .element("when", flight.utc(event.timeS()))
                    .end();
            point(xml, track.positionAt(event.timeS()));
        }
        xml.end();
    }

    private static void point(Markup xml, Position position) {
        xml.startLine("Point")
                .element("coordinates", coordinates(position))
                .end()
                .end();
    }

    private static String coordinates(Position position) {
        return Markup.plain(position.longitudeDeg(), 7) + "," + Markup.plain(position.latitudeDeg(), 7);
    }
}
