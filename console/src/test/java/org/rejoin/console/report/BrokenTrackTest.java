package org.rejoin.console.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.UnaryOperator;

import org.rejoin.console.draw.Markup;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Document;
import org.w3c.dom.Element;

/**
 * A flight that was not heard from 300 to 400 s and set elsewhere meanwhile: nothing is drawn, and nothing is placed,
 * where nobody flew. What was cut out is the test's own doing; no source is needed.
 */
class BrokenTrackTest {

    private static final double LOST_S = 300;
    private static final double RESUMED_S = 400;

    @TempDir
    static Path folder = Path.of("");

    private static Path out = Path.of("");

    @BeforeAll
    static void debrief() throws Exception {
        out = Debriefed.rewritten("airway-good", folder, UnaryOperator.identity(), Debriefed::heardAgainElsewhere);
    }

    /** Time of an x on the strips, by the scale that the page gives its own script. */
    private static double timeS(Element strips, double x) {
        double left = Double.parseDouble(strips.getAttribute("data-left"));
        double right = Double.parseDouble(strips.getAttribute("data-right"));
        return Double.parseDouble(strips.getAttribute("data-end")) * (x - left) / (right - left);
    }

    private static Element strips() throws Exception {
        Document page = Debriefed.parsed(out.resolve("report.html"));
        return Debriefed.elements(page, "svg").stream()
                .filter(svg -> svg.getAttribute("id").equals("strips"))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void theLinesOfTheStripsEndWhereTheFeedWasLostAndBeginAgainWhereItWasHeard() throws Exception {
        Element strips = strips();
        List<Element> curves = Debriefed.children(strips, "polyline").stream()
                .filter(line -> line.getAttribute("class").equals("curve"))
                .toList();
        int before = 0;
        int after = 0;
        for (Element curve : curves) {
            List<Double> times = new ArrayList<>();
            for (String point : curve.getAttribute("points").split(" ", -1)) {
                times.add(timeS(strips, Double.parseDouble(point.split(",", -1)[0])));
            }
            double from = times.get(0);
            double to = times.get(times.size() - 1);
            assertThat(from < LOST_S + 2 && to > RESUMED_S - 2)
                    .as("a line from %.0f to %.0f s", from, to)
                    .isFalse();
            before += to < LOST_S + 2 ? 1 : 0;
            after += from > RESUMED_S - 2 ? 1 : 0;
        }
        assertThat(before).as("cross-track, altitude, heading before").isGreaterThanOrEqualTo(3);
        assertThat(after).as("altitude, heading after").isGreaterThanOrEqualTo(2);
    }

    @Test
    void theBandsAreNotDrawnAcrossTheGap() throws Exception {
        Element strips = strips();
        int before = 0;
        for (Element box : Debriefed.children(strips, "rect")) {
            if (box.getAttribute("class").equals("band")) {
                double x = Double.parseDouble(box.getAttribute("x"));
                double from = timeS(strips, x);
                double to = timeS(strips, x + Double.parseDouble(box.getAttribute("width")));
                assertThat(from < RESUMED_S - 2 && to > LOST_S + 2)
                        .as("a band from %.0f to %.0f s", from, to)
                        .isFalse();
                before += to < LOST_S + 2 ? 1 : 0;
            }
        }
        assertThat(before).as("bands before").isPositive();
    }

    @Test
    void theExportsPutTheLossWhereTheAircraftWasLastHeard() throws Exception {
        List<String> heard = Files.readAllLines(out.resolve("samples.csv"));
        String last = heard.stream()
                .skip(1)
                .filter(line -> Double.parseDouble(line.split(",", -1)[0]) < LOST_S + 0.5)
                .reduce((earlier, later) -> later)
                .orElseThrow();
        double latitude = Double.parseDouble(last.split(",", -1)[2]);
        double longitude = Double.parseDouble(last.split(",", -1)[3]);

        String lost = Files.readAllLines(out.resolve("events.csv")).stream()
                .filter(line -> line.contains(",feed_lost,"))
                .findFirst()
                .orElseThrow();
        assertThat(lost).contains("," + Markup.plain(latitude, 7) + "," + Markup.plain(longitude, 7) + ",");

        Element mark = Debriefed.elements(Debriefed.parsed(out.resolve("track.kml")), "Placemark").stream()
                .filter(each -> each.getTextContent().contains("no more samples from the simulator"))
                .findFirst()
                .orElseThrow();
        assertThat(Debriefed.children(mark, "coordinates").get(0).getTextContent())
                .isEqualTo(Markup.plain(longitude, 7) + "," + Markup.plain(latitude, 7));

        JsonNode features = new ObjectMapper()
                .readTree(out.resolve("track.geojson").toFile())
                .path("features");
        int found = 0;
        for (JsonNode feature : features) {
            if (feature.path("properties").path("event").asText().equals("feed_lost")) {
                found++;
                JsonNode coordinates = feature.path("geometry").path("coordinates");
                assertThat(coordinates.path(0).asDouble()).isEqualTo(longitude, within(1e-6));
                assertThat(coordinates.path(1).asDouble()).isEqualTo(latitude, within(1e-6));
            }
        }
        assertThat(found).isEqualTo(1);
    }
}
