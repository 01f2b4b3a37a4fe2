package org.rejoin.bridge.tracker;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

import org.rejoin.bridge.flight.EventKind;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;

import org.junit.jupiter.api.Test;

/** The page about the tracker draws the states there are, and its tables are those of the code. */
class TrackerPageTest {

    private static Path file() {
        Path here = Path.of("docs", "tracker.md");
        return Files.exists(here) ? here : Path.of("bridge").resolve(here);
    }

    private static String page() throws IOException {
        return Files.readString(file());
    }

    @Test
    void theDrawingHasTheStatesOfTheCode() throws IOException {
        String page = page();
        int begin = page.indexOf("stateDiagram-v2");
        String drawing = page.substring(begin, page.indexOf("```", begin));
        Set<String> drawn = Pattern.compile("\\b[A-Z]+(_[A-Z]+)*\\b")
                .matcher(drawing.lines().map(line -> line.split(":", 2)[0]).collect(Collectors.joining("\n")))
                .results()
                .map(match -> match.group())
                .collect(Collectors.toCollection(TreeSet::new));
        assertThat(drawn)
                .isEqualTo(Arrays.stream(Point.Phase.values())
                        .map(Enum::name)
                        .collect(Collectors.toCollection(TreeSet::new)));
    }

    /** Rules and events are written from the table that the detectors read. */
    @Test
    void theTablesAreThoseOfTheCode() throws IOException {
        String page = page();
        String written = between(between(page, "rules", table(Rules.STANDARD)), "events", eventTable());
        if (Boolean.getBoolean("rejoin.write-docs")) {
            Files.writeString(file(), written);
        }
        assertThat(page()).isEqualTo(written);
    }

    /** The rules as the page has them. */
    static String table(Rules rules) {
        StringBuilder table = new StringBuilder("| what | rule | where from |\n| --- | --- | --- |\n");
        for (Rule rule : rules.all()) {
            table.append("| ")
                    .append(rule.title())
                    .append(" | ")
                    .append(rule.text())
                    .append(" | ")
                    .append(rule.source())
                    .append(" |\n");
        }
        return table.toString();
    }

    /** The events with their rules and faults. */
    private static String eventTable() {
        StringBuilder table = new StringBuilder("| event | what | rules | fault |\n| --- | --- | --- | --- |\n");
        for (EventKind kind : EventKind.values()) {
            List<String> titles = new ArrayList<>();
            kind.rules(Rules.STANDARD).forEach(rule -> titles.add(rule.title()));
            table.append("| `")
                    .append(kind.logName())
                    .append("` | ")
                    .append(kind.words())
                    .append(" | ")
                    .append(String.join("; ", titles))
                    .append(" | ")
                    .append(kind.fault().map(fault -> "`" + fault + "`").orElse(""))
                    .append(" |\n");
        }
        return table.toString();
    }

    /** The page with other text between two markers. */
    static String between(String page, String what, String text) {
        String begin = "<!-- " + what + ": written by TrackerPageTest -->\n";
        String end = "<!-- end of " + what + " -->";
        int from = page.indexOf(begin) + begin.length();
        int to = page.indexOf(end);
        assertThat(from).as(begin).isGreaterThanOrEqualTo(begin.length());
        assertThat(to).as(end).isGreaterThan(0);
        return page.substring(0, from) + "\n" + text + "\n" + page.substring(to);
    }
}
