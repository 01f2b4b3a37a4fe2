package org.rejoin.console.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.File;
import java.io.IOException;
import java.io.StringReader;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.URL;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import javax.xml.XMLConstants;
import javax.xml.transform.stream.StreamSource;
import javax.xml.validation.Schema;
import javax.xml.validation.SchemaFactory;
import javax.xml.validation.Validator;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;
import org.rejoin.console.recording.CaptureWriter;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.json.JsonFormat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.jenetics.jpx.GPX;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.io.geojson.GeoJsonReader;
import org.w3c.dom.bootstrap.DOMImplementationRegistry;
import org.w3c.dom.ls.DOMImplementationLS;
import org.w3c.dom.ls.LSInput;
import org.xml.sax.SAXException;

/**
 * The exports, held against what others wrote: KML against the OGC's schema (07-147r2, ogckml22.xsd of 2008-01-23, with Atom
 * and xAL, out of the library ogc-schemas); GPX by a strict reader of GPX 1.1 (jpx) and against a schema no wider than the
 * public one; GeoJSON by a general-purpose reader (JTS) and the rules of RFC 7946.
 */
class ExportsAgainstSchemasTest {

    private static final String HOSTILE =
            "</name><script>alert(1)</script> ]]> & \\u0007 \\\"q\\\" \\uFFFE \\U0001F6E9";

    @TempDir
    private Path folder;

    static Stream<String> recordings() throws IOException {
        try (Stream<Path> all = Files.list(Debriefed.RECORDINGS)) {
            return all.filter(Files::isDirectory).map(each -> each.getFileName().toString()).sorted().toList().stream();
        }
    }

    @ParameterizedTest
    @MethodSource("recordings")
    void everyRecordingsExportsAreWhatTheFormatsSay(String recording) throws Exception {
        check(Debriefed.of(recording, folder.resolve("report")));
    }

    @Test
    void aHostileFlightInPiecesToo() throws Exception {
        Path report = Debriefed.debrief(flight(0), folder.resolve("report"));
        check(report);
        GPX gpx = strict(report.resolve("track.gpx"));
        assertThat(gpx.tracks().findFirst().orElseThrow().segments()).hasSize(3);
        assertThat(gpx.routes()).hasSizeGreaterThanOrEqualTo(3);
        assertThat(gpx.getMetadata().orElseThrow().getName().orElseThrow())
                .startsWith("</name><script>alert(1)</script> ]]> & ")
                .contains("\"q\"", "\uD83D\uDEE9")
                .doesNotContain("\u0007", "\uFFFE");
        assertThat(geometry(report, "track").getNumGeometries()).isEqualTo(3);
    }

    @Test
    void aFlightOverTheAntimeridianToo() throws Exception {
        Path report = Debriefed.debrief(flight(-130.4), folder.resolve("report"));
        check(report);
        Geometry track = geometry(report, "track");
        Envelope whole = track.getEnvelopeInternal();
        assertThat(whole.getMinX()).isEqualTo(-180);
        assertThat(whole.getMaxX()).isEqualTo(180);
        // Pieces for the two breaks, and one more for the cut.
        assertThat(track.getNumGeometries()).isEqualTo(4);
    }

    @Test
    void theChecksCanFail() throws Exception {
        Path report = Debriefed.of("outbound-good", folder.resolve("report"));
        String kml = Files.readString(report.resolve("track.kml"));
        refused(kmlSchema(), kml, "<name>", "<nome>", "</name>", "</nome>");
        refused(kmlSchema(), kml, "<altitudeMode>absolute", "<altitudeMode>high");
        refused(kmlSchema(), kml, "<color>ffb27200", "<color>blue");
        String gpx = Files.readString(report.resolve("track.gpx"));
        refused(gpxSchema(), gpx, "version=\"1.1\"", "version=\"1.0\"");
        refused(gpxSchema(), gpx, "lon=\"-49", "lon=\"-249");
        refused(gpxSchema(), gpx, "<ele>", "<alt>", "</ele>", "</alt>");
        refused(gpxSchema(), gpx, "<time>20", "<time>the year 20");
    }

    private static void refused(Schema schema, String document, String... replaced) {
        String spoilt = document;
        for (int i = 0; i < replaced.length; i += 2) {
            assertThat(spoilt).contains(replaced[i]);
            spoilt = spoilt.replace(replaced[i], replaced[i + 1]);
        }
        String wrong = spoilt;
        assertThatThrownBy(() -> closed(schema).validate(new StreamSource(new StringReader(wrong))))
                .isInstanceOf(SAXException.class);
    }

    private static void check(Path report) throws Exception {
        closed(kmlSchema())
                .validate(new StreamSource(report.resolve("track.kml").toFile()));
        closed(gpxSchema())
                .validate(new StreamSource(report.resolve("track.gpx").toFile()));
        assertThat(strict(report.resolve("track.gpx")).tracks()).hasSize(1);
        checkGeoJson(report);
    }

    private static Validator closed(Schema schema) throws SAXException {
        Validator validator = schema.newValidator();
        validator.setProperty(XMLConstants.ACCESS_EXTERNAL_DTD, "");
        validator.setProperty(XMLConstants.ACCESS_EXTERNAL_SCHEMA, "");
        return validator;
    }

    private static SchemaFactory factory() throws SAXException {
        SchemaFactory factory = SchemaFactory.newDefaultInstance();
        factory.setProperty(XMLConstants.ACCESS_EXTERNAL_DTD, "");
        factory.setProperty(XMLConstants.ACCESS_EXTERNAL_SCHEMA, "");
        return factory;
    }

    private static Schema gpxSchema() throws SAXException {
        return factory()
                .newSchema(
                        Objects.requireNonNull(ExportsAgainstSchemasTest.class.getResource("gpx-1.1-as-written.xsd")));
    }

    /** What the schema imports comes out of the library too, never out of the network. */
    private static Schema kmlSchema() throws SAXException {
        SchemaFactory factory = factory();
        Map<String, String> imported = Map.of(
                "http://www.w3.org/2005/Atom", "/ogc/kml/2.2.0/atom-author-link.xsd",
                "urn:oasis:names:tc:ciq:xsdschema:xAL:2.0", "/oasis/election/external/xAL.xsd");
        factory.setResourceResolver((type, namespace, publicId, systemId, base) -> {
            String file = imported.get(namespace);
            if (file == null) {
                throw new AssertionError("asked for " + namespace + " at " + systemId);
            }
            try {
                DOMImplementationLS dom = (DOMImplementationLS)
                        DOMImplementationRegistry.newInstance().getDOMImplementation("LS");
                LSInput input = dom.createLSInput();
                input.setByteStream(resource(file).openStream());
                return input;
            } catch (ReflectiveOperationException | IOException e) {
                throw new AssertionError(e);
            }
        });
        return factory.newSchema(resource("/ogc/kml/2.2.0/ogckml22.xsd"));
    }

    private static URL resource(String file) {
        return Objects.requireNonNull(ExportsAgainstSchemasTest.class.getResource(file), file);
    }

    private static GPX strict(Path file) throws Exception {
        return GPX.Reader.of(GPX.Version.V11, GPX.Reader.Mode.STRICT).read(file);
    }

    private static void checkGeoJson(Path report) throws Exception {
        File file = report.resolve("track.geojson").toFile();
        byte[] octets = Files.readAllBytes(file.toPath());
        assertThat(new String(octets, StandardCharsets.UTF_8).getBytes(StandardCharsets.UTF_8))
                .isEqualTo(octets);
        JsonNode collection = new ObjectMapper().readTree(octets);
        // Section 4: no "crs"; section 7.1: no geometry members in a collection of features.
        assertThat(collection.findValues("crs")).isEmpty();
        assertThat(collection.has("geometry") || collection.has("coordinates")).isFalse();
        Geometry all = new GeoJsonReader().read(Files.readString(file.toPath()));
        assertThat(all.getNumGeometries()).isEqualTo(collection.path("features").size());
        for (int i = 0; i < all.getNumGeometries(); i++) {
            Geometry one = all.getGeometryN(i);
            // No polygon, so nothing has a winding (section 3.1.6).
            assertThat(one.getGeometryType()).isIn("Point", "LineString", "MultiLineString");
            assertThat(one.isValid()).isTrue();
            for (Coordinate at : one.getCoordinates()) {
                assertThat(at.x).isBetween(-180.0, 180.0);
                assertThat(at.y).isBetween(-90.0, 90.0);
                // Section 4: a third number would be a height above the ellipsoid, which nobody here knows.
                assertThat(at.getZ()).isNaN();
            }
            for (int j = 0; j < one.getNumGeometries(); j++) {
                // Section 3.1.9: none of the pieces has points on both sides.
                assertThat(one.getGeometryN(j).getEnvelopeInternal().getWidth()).isLessThan(180);
            }
        }
        // Section 3.1.1: longitude first. The first fix of the track is the first point of the GPX, which names them.
        Coordinate first = geometry(report, "track").getCoordinates()[0];
        var point = strict(report.resolve("track.gpx"))
                .tracks()
                .flatMap(track -> track.segments())
                .flatMap(segment -> segment.points())
                .findFirst()
                .orElseThrow();
        assertThat(first.x).isEqualTo(point.getLongitude().doubleValue());
        assertThat(first.y).isEqualTo(point.getLatitude().doubleValue());
    }

    private static Geometry geometry(Path report, String kind) throws Exception {
        for (JsonNode feature : new ObjectMapper()
                .readTree(report.resolve("track.geojson").toFile())
                .path("features")) {
            if (feature.path("properties").path("kind").asText().equals(kind)) {
                return new GeoJsonReader(new GeometryFactory())
                        .read(feature.path("geometry").toString());
            }
        }
        throw new AssertionError("no " + kind);
    }

    /**
     * A recording with a marking, a title and a name that are markup, three clearances, half a minute of silence and a jump.
     *
     * @param eastDeg so far the lesson is moved around the globe
     */
    private Path flight(double eastDeg) throws Exception {
        Path recording = Files.createDirectories(folder.resolve("recording"));
        Files.writeString(
                recording.resolve("chart"), moved(builtIn("open-ocean.yaml"), "(longitude_deg: )(-?[0-9.]+)", eastDeg));
        String lesson = moved(builtIn("radial-outbound.yaml"), "(at: \"38\\.20,)(-?[0-9.]+)", eastDeg)
                .replaceFirst("title: .*", Matcher.quoteReplacement("title: \"" + HOSTILE + "\""))
                .replace("chart: open-ocean.yaml", "chart: chart")
                .replace(
                        "amendments:\n",
                        "amendments:\n  - {when: {elapsed_s: 15}, say: \"fly heading 100, intercept the PTL 066 radial,"
                                + " join V40, then as filed\"}\n")
                .replace("standard:", "  - {when: {elapsed_s: 240}, say: \"direct FUL\"}\nstandard:");
        Files.writeString(recording.resolve("lesson.yaml"), lesson);
        Lesson read = LessonReader.readFile(recording.resolve("lesson.yaml"));
        List<AircraftState> states = new ArrayList<>();
        new PracticeFlight(read, LocalDate.of(2026, 6, 1), Habit.GOOD).fly(1, states::add);
        var encoder = new JsonFormat().newEncoder();
        try (CaptureWriter writer = CaptureWriter.create(
                recording.resolve("flight.pcap"), new InetSocketAddress(InetAddress.getLoopbackAddress(), 3000))) {
            for (AircraftState state : states) {
                if (state.timeS() > 100 && state.timeS() < 130) {
                    continue;
                }
                AircraftState flown = state.timeS() < 200 ? state : north(state, 0.3);
                for (byte[] payload : encoder.encode(flown)) {
                    String json = new String(payload, StandardCharsets.UTF_8)
                            .replaceFirst("\\{", Matcher.quoteReplacement("{\"callsign\":\"<b>]]>&\","));
                    writer.write(Datagram.of(
                            1_780_000_000_000_000L + Math.round(state.timeS() * 1e6),
                            new InetSocketAddress(InetAddress.getLoopbackAddress(), 4001),
                            json.getBytes(StandardCharsets.UTF_8)));
                }
            }
        }
        return recording;
    }

    private static AircraftState north(AircraftState state, double deg) {
        return new AircraftState(
                state.timeS(),
                state.latitudeDeg() + deg,
                state.longitudeDeg(),
                state.altitudeMslFt(),
                state.headingTrueDeg(),
                state.headingMagneticDeg(),
                state.trackTrueDeg(),
                state.groundSpeedKt(),
                state.verticalSpeedFpm(),
                state.pitchDeg(),
                OptionalDouble.empty(),
                state.indicatedAirspeedKt(),
                state.paused());
    }

    private static String builtIn(String name) throws IOException {
        try (var in = Objects.requireNonNull(LessonReader.class.getResourceAsStream(name))) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    private static String moved(String text, String pattern, double eastDeg) {
        return Pattern.compile(pattern)
                .matcher(text)
                .replaceAll(found -> found.group(1)
                        + String.format(
                                Locale.ROOT, "%.6f", Angles.turn(Double.parseDouble(found.group(2)) + eastDeg)));
    }
}
