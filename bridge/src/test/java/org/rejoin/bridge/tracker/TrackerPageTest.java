package org.rejoin.bridge.tracker;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

import org.junit.jupiter.api.Test;

/** The page about the tracker draws the states there are and names every event. */
class TrackerPageTest {

    private static String page() throws IOException {
        Path here = Path.of("docs", "tracker.md");
        return Files.readString(Files.exists(here) ? here : Path.of("bridge").resolve(here));
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
                .isEqualTo(Arrays.stream(Progress.Phase.values())
                        .map(Enum::name)
                        .collect(Collectors.toCollection(TreeSet::new)));
    }

    @Test
    void everyEventIsOnThePage() throws IOException {
        String page = page();
        for (Class<?> event : FlightEvent.class.getPermittedSubclasses()) {
            String name =
                    event.getSimpleName().replaceAll("(?<=[a-z])(?=[A-Z])", "_").toLowerCase(Locale.ROOT);
            assertThat(page).as("event %s", name).contains("`" + name + "`");
        }
    }
}
