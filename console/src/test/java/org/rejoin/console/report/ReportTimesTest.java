package org.rejoin.console.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.w3c.dom.Element;

/** What a debrief says happened, it dates when it happened, and shows where it happened. */
class ReportTimesTest {

    private static final ObjectMapper JSON = new ObjectMapper();
    private static final Pattern CLOSER = Pattern.compile("Seen closer: .*, event (\\d+)");
    /** A turn onto a course takes less, seconds. */
    private static final double TURN_S = 240;

    @TempDir
    Path folder = Path.of("");

    private static List<JsonNode> log(Path out) throws Exception {
        List<JsonNode> events = new ArrayList<>();
        for (String line : Files.readAllLines(out.resolve("log.jsonl"))) {
            events.add(JSON.readTree(line));
        }
        return events;
    }

    private static double atS(JsonNode event) {
        return event.get("time_s").asDouble();
    }

    /** The view from above holds the fault and the crossing of the line that it comes from. */
    @ParameterizedTest
    @ValueSource(strings = {"outbound-fly-through", "airway-late", "arc-late"})
    void seenCloserIsTheGroundWhereItHappened(String recording) throws Exception {
        Path out = Debriefed.of(recording, folder);
        String report = Files.readString(out.resolve("report.html"));
        List<JsonNode> log = log(out);
        List<String> titles = Debriefed.elements(Debriefed.parsed(out.resolve("report.html")), "h2").stream()
                .map(Element::getTextContent)
                .filter(title -> CLOSER.matcher(title).matches())
                .toList();
        assertThat(titles).hasSize(1);
        Matcher title = CLOSER.matcher(titles.get(0));
        assertThat(title.matches()).isTrue();
        int fault = Integer.parseInt(title.group(1));
        assertThat(report).contains("id=\"near-1-" + fault + "\"");
        double faultS = atS(log.get(fault - 1));
        List<Integer> crossings = new ArrayList<>();
        for (int number = 1; number <= fault; number++) {
            JsonNode event = log.get(number - 1);
            if (event.get("event").asText().equals("course_crossed") && faultS - atS(event) < TURN_S) {
                crossings.add(number);
            }
        }
        assertThat(crossings)
                .isNotEmpty()
                .allSatisfy(number -> assertThat(report).contains("id=\"near-1-" + number + "\""));
    }

    /** Of two clearances, what is judged of both is dated from the first to the end of the second. */
    @Test
    void whatIsMeasuredIsDatedWhereItHappened() throws Exception {
        Path out = Debriefed.with(
                "outbound-fly-through",
                folder,
                lesson -> lesson.replace(
                        "standard:",
                        "  - {when: {elapsed_s: 560}, say: \"fly heading 064, intercept V40, then as filed\"}\nstandard:"));
        List<JsonNode> log = log(out);
        double firstCrossingS = log.stream()
                .filter(event -> event.get("event").asText().equals("course_crossed"))
                .mapToDouble(ReportTimesTest::atS)
                .findFirst()
                .orElseThrow();
        double lastInterceptS = log.stream()
                .filter(event -> event.get("event").asText().equals("intercept_achieved"))
                .mapToDouble(ReportTimesTest::atS)
                .max()
                .orElseThrow();
        assertThat(lastInterceptS).isGreaterThan(560);
        JsonNode grade = JSON.readTree(Files.readString(out.resolve("grade.json")));
        for (JsonNode criterion : grade.get("criteria")) {
            if (criterion.get("code").asText().equals("INTERCEPT")) {
                assertThat(criterion.get("from_s").asDouble()).isLessThanOrEqualTo(firstCrossingS);
                assertThat(criterion.get("to_s").asDouble()).isGreaterThanOrEqualTo(lastInterceptS - 0.01);
            }
        }
        // In words with the tenths of the log, so that a fault is found in it.
        String report = Files.readString(out.resolve("report.html"));
        assertThat(grade.get("faults")).isNotEmpty();
        for (JsonNode fault : grade.get("faults")) {
            long tenths = Math.round(fault.get("at_s").asDouble() * 10);
            String clock = String.format(Locale.ROOT, "%02d:%02d.%d", tenths / 600, tenths / 10 % 60, tenths % 10);
            assertThat(report).contains("at " + clock);
            assertThat(log.stream().mapToLong(event -> Math.round(atS(event) * 10)))
                    .contains(tenths);
        }
    }
}
