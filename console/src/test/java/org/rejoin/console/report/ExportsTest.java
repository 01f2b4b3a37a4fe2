package org.rejoin.console.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

import org.rejoin.console.recording.Captured;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.Node;

/**
 * What the exports say of one flight, by the rules of their formats: RFC 7946, GPX 1.1, OGC 07-147r2 (KML 2.2), RFC 4180.
 * {@link ExportsAgainstSchemasTest} holds them against the schemas.
 */
class ExportsTest {

    @TempDir
    static Path folder = Path.of("");

    private static Path out = Path.of("");
    private static int samples;
    private static int events;

    @BeforeAll
    static void debrief() throws Exception {
        out = Debriefed.of("outbound-fly-through", folder);
        samples = Files.readAllLines(out.resolve("samples.csv")).size() - 1;
        events = Files.readAllLines(out.resolve("log.jsonl")).size();
    }

    @Test
    void geoJsonIsACollectionOfFeaturesWithLongitudeFirst() throws Exception {
        JsonNode collection =
                new ObjectMapper().readTree(out.resolve("track.geojson").toFile());
        assertThat(collection.path("type").asText()).isEqualTo("FeatureCollection");
        assertThat(collection.has("crs")).isFalse();
        for (JsonNode feature : collection.path("features")) {
            assertThat(feature.path("type").asText()).isEqualTo("Feature");
            assertThat(feature.path("properties").isObject()).isTrue();
            JsonNode geometry = feature.path("geometry");
            assertThat(geometry.path("type").asText()).isIn("Point", "LineString");
            List<JsonNode> positions = new ArrayList<>();
            if (geometry.path("type").asText().equals("Point")) {
                positions.add(geometry.path("coordinates"));
            } else {
                geometry.path("coordinates").forEach(positions::add);
                assertThat(positions).hasSizeGreaterThan(1);
            }
            for (JsonNode position : positions) {
                assertThat(position.size()).isEqualTo(2);
                assertThat(position.path(0).asDouble()).isBetween(-51.0, -48.0);
                assertThat(position.path(1).asDouble()).isBetween(37.0, 40.0);
            }
        }
        JsonNode track = collection.path("features").path(0);
        assertThat(track.path("geometry").path("coordinates")).hasSize(samples);
        assertThat(track.path("properties").path("times_s")).hasSize(samples);
        assertThat(track.path("properties").path("altitudes_msl_ft")).hasSize(samples);
    }

    @Test
    void gpxHasItsElementsInOrderAndItsTimesFromTheCapture() throws Exception {
        Document gpx = Debriefed.parsed(out.resolve("track.gpx"));
        Element root = gpx.getDocumentElement();
        assertThat(root.getNamespaceURI()).isEqualTo("http://www.topografix.com/GPX/1/1");
        assertThat(root.getAttribute("version")).isEqualTo("1.1");
        assertThat(root.getAttribute("creator")).startsWith("Rejoin");
        assertThat(String.join(" ", childNames(root))).matches("metadata( wpt)+( rte)+ trk");
        List<Element> points = Debriefed.elements(gpx, "trkpt");
        assertThat(points).hasSize(samples);
        Instant before = Instant.MIN;
        for (Element point : points) {
            assertThat(Double.parseDouble(point.getAttribute("lat"))).isBetween(-90.0, 90.0);
            assertThat(Double.parseDouble(point.getAttribute("lon")))
                    .isGreaterThanOrEqualTo(-180)
                    .isLessThan(180);
            assertThat(childNames(point)).containsExactly("ele", "time");
            Instant time =
                    Instant.parse(Debriefed.children(point, "time").get(0).getTextContent());
            assertThat(time).isAfter(before);
            before = time;
        }
        long received = Captured.in(Debriefed.RECORDINGS.resolve("outbound-fly-through/flight.pcap"))
                .datagrams()
                .get(0)
                .receivedMicros();
        assertThat(Instant.parse(Debriefed.elements(gpx, "time").get(0).getTextContent())
                        .toEpochMilli())
                .isEqualTo(received / 1000);
    }

    @Test
    void kmlHasLongitudeFirstAndAPlacemarkForEachEvent() throws Exception {
        Document kml = Debriefed.parsed(out.resolve("track.kml"));
        assertThat(kml.getDocumentElement().getNamespaceURI()).isEqualTo("http://www.opengis.net/kml/2.2");
        assertThat(Debriefed.elements(kml, "TimeStamp")).hasSize(events);
        for (Element placemark : Debriefed.elements(kml, "Placemark")) {
            assertThat(String.join(" ", childNames(placemark)))
                    .matches("name( TimeSpan| TimeStamp)?( styleUrl)? (MultiGeometry|LineString|Point)");
        }
        for (Element coordinates : Debriefed.elements(kml, "coordinates")) {
            for (String tuple : coordinates.getTextContent().split(" ", -1)) {
                String[] numbers = tuple.split(",", -1);
                assertThat(numbers.length).isBetween(2, 3);
                assertThat(Double.parseDouble(numbers[0])).isBetween(-51.0, -48.0);
                assertThat(Double.parseDouble(numbers[1])).isBetween(37.0, 40.0);
            }
        }
    }

    @Test
    void tablesHaveOneRecordALineEndedByCrLf() throws Exception {
        for (String name : List.of("events.csv", "samples.csv")) {
            String text = Files.readString(out.resolve(name));
            assertThat(text).endsWith("\r\n");
            assertThat(text.replace("\r\n", "")).doesNotContain("\r", "\n");
            int columns = 0;
            for (String line : text.lines().toList()) {
                int fields = line.replaceAll("\"(?:[^\"]|\"\")*\"", "").split(",", -1).length;
                columns = columns == 0 ? fields : columns;
                assertThat(fields).as(line).isEqualTo(columns);
            }
        }
        assertThat(Files.readAllLines(out.resolve("events.csv"))).hasSize(events + 1);
    }

    @Test
    void eachColumnIsInThePageOfTheExportsAndTheCompassHeadingIsThereThoughTheFeedHasTheTrueOne() throws Exception {
        String page = Files.readString(Path.of("docs", "exports.md"));
        List<String> lines = Files.readAllLines(out.resolve("samples.csv"));
        List<String> columns = List.of(lines.get(0).split(",", -1));
        for (String column : columns) {
            assertThat(page).as(column).contains("`" + column + "`");
        }
        for (String column : List.of("number", "time_s", "utc", "event", "sentence", "latitude_deg", "longitude_deg")) {
            assertThat(Files.readAllLines(out.resolve("events.csv")).get(0)).contains(column);
            assertThat(page).as(column).contains("`" + column + "`");
        }
        int magnetic = columns.indexOf("heading_magnetic_deg");
        assertThat(lines.stream().skip(1).map(line -> line.split(",", -1)[magnetic]))
                .noneMatch(String::isEmpty);
    }

    /** A line has two coordinates or more (OGC 07-147r2, LineString; from memory). */
    @Test
    void aClearanceThatGivesNoLineIsNoLineInKml(@TempDir Path other) throws Exception {
        Path alone = Debriefed.with(
                "airway-good", other, lesson -> lesson.replaceFirst("say: \"[^\"]*\"", "say: \"fly heading 190\""));
        Document kml = Debriefed.parsed(alone.resolve("track.kml"));
        List<Element> lines = Debriefed.elements(kml, "LineString");
        assertThat(lines).as("track and filed route").hasSizeGreaterThanOrEqualTo(2);
        for (Element line : lines) {
            assertThat(Debriefed.children(line, "coordinates")
                            .get(0)
                            .getTextContent()
                            .split(" ", -1))
                    .hasSizeGreaterThan(1);
        }
    }

    /** As the help of debrief says; what was cut out is the test's own doing. */
    @Test
    void samplesSentWhilePausedHaveNoRow(@TempDir Path other) throws Exception {
        Path paused = Debriefed.rewritten("airway-good", other, lesson -> lesson, sample -> {
            double time = sample.path("time_s").asDouble();
            return sample.put("paused", time > 99.5 && time < 159.5);
        });
        List<String> times = Files.readAllLines(paused.resolve("samples.csv")).stream()
                .skip(1)
                .map(line -> line.substring(0, line.indexOf(',')))
                .filter(time -> Double.parseDouble(time) > 98.5 && Double.parseDouble(time) < 161.5)
                .toList();
        assertThat(times).containsExactly("99.000", "160.000", "161.000");
    }

    private static List<String> childNames(Element parent) {
        List<String> names = new ArrayList<>();
        for (Node child = parent.getFirstChild(); child != null; child = child.getNextSibling()) {
            if (child instanceof Element) {
                names.add(child.getNodeName());
            }
        }
        return names;
    }
}
