package org.rejoin.console.report;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Position;
import org.rejoin.console.json.JsonNumbers;

import com.fasterxml.jackson.databind.node.NullNode;
import org.jspecify.annotations.Nullable;

/**
 * A line of GeoJSON, cut where it crosses the antimeridian (RFC 7946, section 3.1.9): no piece has points on both sides.
 * A point of the cut stands on 180 in the one piece and on -180 in the other, at a latitude and with values between its
 * neighbours.
 */
final class GeoJsonLine {

    /** A point with values that go with it, for the property arrays; NaN where there is none. */
    record Vertex(double longitudeDeg, double latitudeDeg, List<Double> values) {
        Vertex {
            values = List.copyOf(values);
        }

        List<BigDecimal> coordinates() {
            return List.of(JsonNumbers.rounded(longitudeDeg, 7), JsonNumbers.rounded(latitudeDeg, 7));
        }

        static Vertex of(Position position, Double... values) {
            return new Vertex(position.longitudeDeg(), position.latitudeDeg(), List.of(values));
        }
    }

    private final List<List<Vertex>> pieces = new ArrayList<>();

    /** Adds a line; a single point is no line (section 3.1.4) and is left out. */
    void add(List<Vertex> line) {
        List<Vertex> piece = new ArrayList<>();
        for (Vertex vertex : line) {
            if (!piece.isEmpty()) {
                Vertex before = piece.get(piece.size() - 1);
                if (Math.abs(vertex.longitudeDeg - before.longitudeDeg) > 180) {
                    Vertex cut = cut(before, vertex);
                    piece.add(cut);
                    close(piece);
                    piece = new ArrayList<>();
                    piece.add(new Vertex(-cut.longitudeDeg, cut.latitudeDeg, cut.values));
                }
            }
            piece.add(vertex);
        }
        close(piece);
    }

    private void close(List<Vertex> piece) {
        if (piece.size() > 1) {
            pieces.add(List.copyOf(piece));
        }
    }

    private static Vertex cut(Vertex from, Vertex to) {
        double edge = from.longitudeDeg >= 0 ? 180 : -180;
        double east = Angles.turn(to.longitudeDeg - from.longitudeDeg);
        double share = east == 0 ? 0 : Math.min(1, Math.max(0, (edge - from.longitudeDeg) / east));
        List<Double> values = new ArrayList<>();
        for (int i = 0; i < from.values.size(); i++) {
            values.add(from.values.get(i) + share * (to.values.get(i) - from.values.get(i)));
        }
        return new Vertex(edge, from.latitudeDeg + share * (to.latitudeDeg - from.latitudeDeg), values);
    }

    /** A geometry as the library writes it. */
    record Geometry(String type, Object coordinates) {
        static Geometry point(Vertex at) {
            return new Geometry("Point", at.coordinates());
        }
    }

    /** LineString, MultiLineString, or null where nothing has two points (section 3.2 allows it). */
    @Nullable
    Geometry geometry() {
        return pieces.isEmpty()
                ? null
                : new Geometry(pieces.size() == 1 ? "LineString" : "MultiLineString", nested(Vertex::coordinates));
    }

    /** One of the values, in arrays shaped like the coordinates. */
    List<?> values(int index, int digits) {
        return nested(vertex -> Double.isNaN(vertex.values.get(index))
                ? NullNode.getInstance()
                : JsonNumbers.rounded(vertex.values.get(index), digits));
    }

    private List<?> nested(Function<Vertex, Object> each) {
        List<List<Object>> all =
                pieces.stream().map(piece -> piece.stream().map(each).toList()).toList();
        return all.size() == 1 ? all.get(0) : all;
    }
}
