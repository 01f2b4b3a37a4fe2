package org.rejoin.console.report;

import java.io.IOException;
import java.io.Writer;
import java.util.List;

import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.Position;
import org.rejoin.console.draw.Markup;
import org.rejoin.console.words.Words;

/**
 * The flight as GPX 1.1: the fixes as waypoints, the routes, the track with UTC of the capture. Elevations are metres above
 * mean sea level. Elements stand in the order that the schema wants: wpt, rte, trk.
 */
final class TrackGpx {

    private static final String NAMESPACE = "http://www.topografix.com/GPX/1/1";

    private TrackGpx() {}

    static void write(DebriefedFlight flight, Writer out) throws IOException {
        Markup.document(
                out,
                "gpx",
                NAMESPACE,
                xml -> {
                    xml.startLine("metadata")
                            .element("name", flight.lesson().title())
                            .element("desc", Words.CAUTION)
                            .element("time", flight.utc(0))
                            .end();
                    for (RoutePoints.Named fix : RoutePoints.fixes(flight)) {
                        point(xml, "wpt", fix.position())
                                .element("name", fix.name())
                                .end();
                    }
                    route(xml, "Filed: " + flight.lesson().filed().text(), RoutePoints.filed(flight));
                    for (Entry.Issued amended : flight.record().issued()) {
                        route(xml, amended.route().clearance().words(), RoutePoints.amended(amended.route()));
                    }
                    track(flight, xml);
                },
                "version",
                "1.1",
                "creator",
                flight.origin().version());
    }

    private static void route(Markup xml, String name, List<RoutePoints.Named> points) {
        xml.startLine("rte").element("name", name);
        for (RoutePoints.Named point : points) {
            point(xml, "rtept", point.position()).element("name", point.name()).end();
        }
        xml.end();
    }

    private static void track(DebriefedFlight flight, Markup xml) {
        xml.startLine("trk").element("name", flight.lesson().title());
        for (List<Point> piece : flight.record().pieces()) {
            xml.startLine("trkseg");
            for (Point sample : piece) {
                point(xml, "trkpt", sample.position());
                if (sample.state().altitudeMslFt().isPresent()) {
                    double metres = sample.state().altitudeMslFt().getAsDouble() * Geodesics.METRES_PER_FT;
                    xml.element("ele", Markup.plain(metres, 2));
                }
                xml.element("time", flight.utc(sample.timeS())).end();
            }
            xml.end();
        }
        xml.end();
    }

    private static Markup point(Markup xml, String name, Position position) {
        return xml.startLine(name, "lat", Markup.plain(position.latitudeDeg(), 7), "lon", longitude(position));
    }

    /** The schema's longitudeType is below 180; rounding must not reach it. */
    private static String longitude(Position position) {
        String text = Markup.plain(position.longitudeDeg(), 7);
        return text.equals("180") ? "-180" : text;
    }
}
