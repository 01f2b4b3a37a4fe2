package org.rejoin.console.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.TimeUnit;

import org.rejoin.console.Browser;
import org.rejoin.console.draw.PlanStyle;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;

import com.fasterxml.jackson.databind.JsonNode;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Names on the map are there and large enough to read, on a phone, a tablet and a desk, as a real browser draws them. */
@Timeout(value = 120, unit = TimeUnit.SECONDS)
class MapNamesInBrowserTest {

    /** Keeps each word that is put on a canvas with its height in pixels of the screen. */
    private static final String WATCH = "window.words = []; const put = CanvasRenderingContext2D.prototype.fillText;"
            + " CanvasRenderingContext2D.prototype.fillText = function (text, ...at) {"
            + " window.words.push([text, parseFloat(/([\\d.]+)px/.exec(this.font)[1]) * this.getTransform().a / devicePixelRatio]);"
            + " return put.call(this, text, ...at); };";
    /** Smaller than this is not read at arm's length in a cockpit (common practice, no source). */
    private static final double LEAST_PX = 12;

    /** The points of the chart that the plan shows, well inside its edges. */
    private static final String IN_VIEW =
            "Promise.all([import('/main.js'), import('/model.js')]).then(([main, { model }]) => model.hello.points"
                    + ".filter(([, , x, y]) => { const view = main.plan.view; const px = view.px(x), py = view.py(y);"
                    + " return px > 60 && py > 30 && px < view.width - 60 && py < view.height - 60; })"
                    + ".map(([name]) => [name]))";

    @TempDir
    Path folder = Path.of("");

    private static Set<String> names(JsonNode words) {
        Set<String> names = new TreeSet<>();
        words.forEach(word -> names.add(word.get(0).asText()));
        return names;
    }

    @Test
    void eachPointOfTheChartInViewIsNamedInLettersThatCanBeRead() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser browser = new Browser(folder, 1280, 720)) {
            flown.fly("127.0.0.1:40000 REJOIN", flown.states(Habit.GOOD, 5).subList(0, 700));
            browser.beforeEachPage(WATCH);
            for (int[] size : new int[][] {{390, 844}, {820, 1180}, {1280, 720}}) {
                browser.size(size[0], size[1]);
                browser.open(flown.address() + "/");
                browser.until("document.getElementById('clock').textContent === '02:19'");
                browser.until("window.words.some((word) => word[0] === 'PTL066039')");
                Set<String> inView = names(browser.value(IN_VIEW));
                assertThat(inView).as("%d pixels wide", size[0]).isNotEmpty();
                JsonNode words = browser.value("window.words");
                assertThat(names(words)).as("%d pixels wide", size[0]).containsAll(inView);
                assertThat(words)
                        .isNotEmpty()
                        .allSatisfy(word -> assertThat(word.get(1).asDouble())
                                .as("%s", word)
                                .isGreaterThanOrEqualTo(LEAST_PX));
                browser.picture("map-names-" + size[0] + "x" + size[1]);
            }
        }
    }

    /** Beside an aircraft near the edge of the plan. */
    @Test
    void aNameStandsWholeWhereThereIsAPlaceForIt() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser browser = new Browser(folder, 1280, 720)) {
            browser.open(flown.address() + "/");
            // It stood at the left before, as where the aircraft came from the east.
            assertThat(browser.value("import('/sheet.js').then(({ Sheet }) => { const boxes = [];"
                                    + " const pen = document.createElement('canvas').getContext('2d');"
                                    + " new Sheet(pen, { width: 400, height: 300 }, boxes)"
                                    + ".label(60, 100, 'A pilot of a long name', false, 1, new Map());"
                                    + " return boxes[0][0]; })")
                            .asDouble())
                    .isPositive();
        }
    }

    @Test
    void theClockStaysInOneLine() throws Exception {
        try (FlownPage flown = new FlownPage("radial-inbound", Optional.empty());
                Browser browser = new Browser(folder, 1024, 768)) {
            flown.fly("127.0.0.1:40000 REJOIN", flown.states(Habit.GOOD, 5).subList(0, 700));
            browser.open(flown.address() + "/");
            browser.until("document.getElementById('clock').textContent === '02:19'");
            assertThat(browser.value("document.getElementById('clock').getBoundingClientRect().height")
                            .asDouble())
                    .isLessThan(48); // one line of 27 pixels
        }
    }

    /** Where the route is hidden from him, a pilot is told that it is, and not that there is none. */
    @Test
    void aHiddenLineIsSaidToBeHidden() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser browser = new Browser(folder, 1280, 720)) {
            flown.fly("127.0.0.1:40000 REJOIN", flown.states(Habit.GOOD, 5).subList(0, 700));
            browser.beforeEachPage(WATCH);
            browser.open(flown.address() + "/");
            browser.until("document.getElementById('clock').textContent === '02:19'");
            browser.click("#show-route");
            browser.open(flown.address() + "/student");
            browser.until("window.words.some((word) => word[0] === 'the line is hidden in this lesson')");
            assertThat(names(browser.value("window.words"))).doesNotContain("no line to be on yet");
        }
    }

    /** As the lesson's sheet and the report say it: no wind blows from 000. */
    @Test
    void aWindFromTheNorthIsFrom360() throws Exception {
        String text = PlanStyle.text(LessonReader.class, "radial-outbound.yaml");
        Files.writeString(folder.resolve("open-ocean.yaml"), PlanStyle.text(LessonReader.class, "open-ocean.yaml"));
        Path lesson = Files.writeString(
                folder.resolve("north.yaml"), text.replace("from_true_deg: 270", "from_true_deg: 360"));
        try (FlownPage flown = new FlownPage(lesson.toString(), Optional.empty());
                Browser browser = new Browser(folder, 1280, 720)) {
            flown.fly("127.0.0.1:40000 REJOIN", flown.states(Habit.GOOD, 5).subList(0, 50));
            browser.beforeEachPage(WATCH);
            browser.open(flown.address() + "/");
            browser.until("window.words.some((word) => word[0].startsWith('wind '))");
            assertThat(names(browser.value("window.words"))).contains("wind 360 true, 15 kt");
        }
    }
}
