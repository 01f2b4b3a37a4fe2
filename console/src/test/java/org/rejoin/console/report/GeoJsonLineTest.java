package org.rejoin.console.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import org.junit.jupiter.api.Test;

/** RFC 7946, section 3.1.9: a line that crosses the antimeridian is cut in two. */
class GeoJsonLineTest {

    private static GeoJsonLine.Vertex at(double longitude, double latitude, double timeS) {
        return new GeoJsonLine.Vertex(longitude, latitude, List.of(timeS));
    }

    private static JsonNode feature(List<GeoJsonLine.Vertex> vertices) throws Exception {
        GeoJsonLine line = new GeoJsonLine();
        line.add(vertices);
        ObjectMapper json = new ObjectMapper();
        ObjectNode feature = json.createObjectNode();
        feature.set("geometry", json.valueToTree(line.geometry()));
        feature.set("times_s", json.valueToTree(line.values(0, 2)));
        return feature;
    }

    @Test
    void aLineEastwardOverTheAntimeridianIsCutThere() throws Exception {
        JsonNode feature = feature(List.of(at(179.0, 10, 0), at(179.5, 10, 10), at(-179.5, 12, 30), at(-179, 12, 40)));
        JsonNode geometry = feature.path("geometry");
        assertThat(geometry.path("type").asText()).isEqualTo("MultiLineString");
        JsonNode west = geometry.path("coordinates").path(0);
        JsonNode east = geometry.path("coordinates").path(1);
        assertThat(west.path(2).path(0).asDouble()).isEqualTo(180);
        assertThat(east.path(0).path(0).asDouble()).isEqualTo(-180);
        assertThat(west.path(2).path(1).asDouble()).isCloseTo(11, within(1e-9));
        assertThat(feature.path("times_s").path(0).path(2).asDouble()).isEqualTo(20);
        assertThat(feature.path("times_s").path(1).path(0).asDouble()).isEqualTo(20);
    }

    @Test
    void westwardLikewise() throws Exception {
        JsonNode pieces = feature(List.of(at(-179.5, 0, 0), at(179.5, 0, 10)))
                .path("geometry")
                .path("coordinates");
        assertThat(pieces.path(0).path(1).path(0).asDouble()).isEqualTo(-180);
        assertThat(pieces.path(1).path(0).path(0).asDouble()).isEqualTo(180);
    }

    @Test
    void aLineElsewhereStaysWhole() throws Exception {
        assertThat(feature(List.of(at(-1, 0, 0), at(1, 0, 1)))
                        .path("geometry")
                        .path("type")
                        .asText())
                .isEqualTo("LineString");
    }

    @Test
    void onePointIsNoLine() throws Exception {
        assertThat(feature(List.of(at(1, 0, 0))).path("geometry").isNull()).isTrue();
    }
}
