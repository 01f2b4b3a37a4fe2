package org.rejoin.console.report;

import java.io.IOException;
import java.io.Writer;
import java.util.List;
import javax.xml.stream.XMLStreamException;

import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.Position;
import org.rejoin.console.draw.Figures;
import org.rejoin.console.words.Words;

/**
 * The flight as GPX 1.1: the fixes as waypoints, the routes, the track with UTC of the capture. Elevations are metres above
 * mean sea level. Elements stand in the order that the schema wants: wpt, rte, trk.
 */
final class TrackGpx {

    private static final String NAMESPACE = "http://www.topografix.com/GPX/1/1";

    private TrackGpx() {}

    static void write(DebriefedFlight flight, Writer out) throws IOException {
        TrackXml.document(out, "gpx", NAMESPACE, xml -> {
            xml.attribute("version", "1.1").attribute("creator", flight.origin().version());
            xml.start("metadata")
                    .element("name", flight.lesson().title())
                    .element("desc", Words.CAUTION)
                    .element("time", TrackXml.utc(flight.debrief().began()))
                    .end();
            for (RoutePoints.Named fix : RoutePoints.fixes(flight)) {
                point(xml, "wpt", fix.position()).element("name", fix.name()).end();
            }
            route(xml, "Filed: " + flight.lesson().filed().text(), RoutePoints.filed(flight));
            for (Entry.Issued amended : flight.record().issued()) {
                route(xml, amended.route().clearance().words(), RoutePoints.amended(amended.route()));
            }
            track(flight, xml);
        });
    }

    private static void route(TrackXml xml, String name, List<RoutePoints.Named> points) throws XMLStreamException {
        xml.start("rte").element("name", name);
        for (RoutePoints.Named point : points) {
            point(xml, "rtept", point.position()).element("name", point.name()).end();
        }
        xml.end();
    }

    private static void track(DebriefedFlight flight, TrackXml xml) throws XMLStreamException {
        xml.start("trk").element("name", flight.lesson().title());
        for (List<Point> piece : flight.record().pieces()) {
            xml.start("trkseg");
            for (Point sample : piece) {
                point(xml, "trkpt", sample.position());
                if (sample.state().altitudeMslFt().isPresent()) {
                    double metres = sample.state().altitudeMslFt().getAsDouble() * Geodesics.METRES_PER_FT;
                    xml.element("ele", Figures.plain(metres, 2));
                }
                xml.element("time", TrackXml.utc(flight.instant(sample.timeS())))
                        .end();
            }
            xml.end();
        }
        xml.end();
    }

    private static TrackXml point(TrackXml xml, String name, Position position) throws XMLStreamException {
        return xml.start(name)
                .attribute("lat", Figures.plain(position.latitudeDeg(), 7))
                .attribute("lon", longitude(position));
    }

    /** The schema's longitudeType is below 180; rounding must not reach it. */
    private static String longitude(Position position) {
        String text = Figures.plain(position.longitudeDeg(), 7);
        return text.equals("180") ? "-180" : text;
    }
}
