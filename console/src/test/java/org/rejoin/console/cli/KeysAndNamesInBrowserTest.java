package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.concurrent.TimeUnit;

import org.rejoin.console.Browser;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;

import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** The pages of the room by keyboard alone, and what they call things: the same everywhere, and to who does not see them. */
@Timeout(value = 4, unit = TimeUnit.MINUTES)
@SuppressWarnings("try") // a program is held, not used
class KeysAndNamesInBrowserTest extends RealRoom {

    private static final String WORDS = "fly heading 090, intercept V40, resume own navigation";

    @BeforeEach
    void aBrowserIsThere() throws Exception {
        Assumptions.assumeTrue(Browser.installed().isPresent(), "no Chromium on this machine");
    }

    private static String focused(Browser browser) throws Exception {
        return browser.value("document.activeElement.id").asText();
    }

    private static void press(Browser browser, String key) throws Exception {
        browser.value("document.activeElement.dispatchEvent(new KeyboardEvent('keydown', {key: '" + key
                + "', bubbles: true, cancelable: true}))");
    }

    @Test
    void whatIsTypedIsKeptByEnterAndLeftByEscape() throws Exception {
        try (RealProgram program = room();
                Simulator simulator = new Simulator(feed, 10).fly(LessonReader.read("radial-outbound"), Habit.GOOD);
                Browser desk = new Browser(folder, 1280, 800)) {
            desk.open(address() + "/");
            desk.untilText(".seat-row", "Begin at");
            desk.until("document.getElementById('new-pilot') !== null");
            desk.type("#new-pilot", "Anna");
            desk.value("document.getElementById('new-pilot').focus()");
            press(desk, "Enter");
            desk.untilText("section[aria-labelledby=pilots-title]", "Disconnect tablets");
            assertThat(desk.value("[...document.querySelectorAll('.seat-row input, .seat-row select')].map((e) =>"
                                    + " e.getAttribute('aria-label')).join()")
                            .asText())
                    .isEqualTo("Pilot at REJOIN1,Lesson at REJOIN1");

            // The focus goes to the name, Enter keeps it, and the focus is back where it was.
            desk.click("#ask-name-s1");
            desk.until("document.activeElement.id === 'name-s1'");
            desk.retype("#name-s1", "Window");
            press(desk, "Enter");
            desk.untilText(".seat-row h3", "Window");
            desk.until("document.activeElement.id === 'ask-name-s1'");
            desk.click("#ask-name-s1");
            desk.until("document.activeElement.id === 'name-s1'");
            press(desk, "Escape");
            desk.until("document.activeElement.id === 'ask-name-s1'");

            desk.post("/api/assign", "{\"seat\":\"s1\",\"pilot\":\"Anna\",\"lesson\":\"radial-outbound\"}");
            desk.untilText(".seat-row", "Anna flies");
            desk.open(address() + "/seat?s=s1");
            desk.untilText("#log", "flight began");
            desk.click("#cancel");
            desk.untilText("#worked", "Not taken back. There is no");
            desk.untilText("#log", "intercept the PTL 066 radial");
            for (String done : new String[] {"Issued to", "Issue it again?"}) {
                desk.retype("#words", WORDS);
                desk.click("#issue");
                desk.untilText("#worked", done);
            }
            press(desk, "Escape");
            assertThat(desk.text("#worked")).isEmpty();
            assertThat(focused(desk)).isEqualTo("words");
            // Points and clocks as report and terminal have them: decimals half up, and the seconds of the tenths.
            assertThat(desk.value(
                                    "import('/model.js').then((m) => [m.pointsOf({points: 9.85, max_points: 20}),"
                                            + " m.pointsOf({points: 9.84, max_points: 20}), m.clock(408.97), m.clock(408.94), m.clock(3600)].join())")
                            .asText())
                    .isEqualTo("9.9 of 20,9.8 of 20,06:49,06:48,1:00:00");
            assertThat(desk.complaints()).isEmpty();
        }
    }

    @Test
    void aFaultHasOneNameAndAnAttemptIsToldApartByEar() throws Exception {
        try (RealProgram program = room();
                // So slow that he is still on his way to the line when the clearance comes: what he is late in can be
                // judged then.
                Simulator simulator = new Simulator(feed, 15).fly(LessonReader.read("heading-to-airway"), Habit.LATE);
                Browser desk = new Browser(folder, 1280, 800)) {
            desk.open(address() + "/");
            desk.untilText(".seat-row", "Begin at");
            desk.post("/api/assign", "{\"seat\":\"s1\",\"pilot\":\"Anna\",\"lesson\":\"heading-to-airway\"}");
            desk.untilText(".seat-row", "Anna flies");
            while (!simulator.over()) {
                Thread.sleep(100);
            }
            desk.post("/api/end", "{\"seat\":\"s1\"}");
            desk.until(
                    "fetch('/api/attempts').then((r) => r.json()).then((l) => l.rows.some((a) => a.faults.length > 0))");
            String fault = desk.value(
                            "fetch('/api/attempts').then((r) => r.json()).then((l) => l.rows[0].faults[0].toLowerCase().replaceAll('_', ' '))")
                    .asText();
            desk.open(address() + "/book");
            desk.untilText("table.book tbody", fault);
            // How long it lasted without its pauses; a time of day it is not, nor the end of the log.
            assertThat(desk.text("table.book thead")).contains("Lasted").doesNotContain("Time");
            assertThat(desk.value("document.querySelector('table.book tbody input').getAttribute('aria-label')")
                            .asText())
                    .matches("Compare Anna, Heading to an airway.*, \\d{4}-\\d\\d-\\d\\d \\d\\d:\\d\\d UTC");
            String anna = desk.value("fetch('/api/pilots').then((r) => r.json()).then((l) => l[0].id)")
                    .asText();
            desk.open(address() + "/progress?pilot=" + anna);
            desk.untilText("#app", fault + ": 1");
            assertThat(desk.complaints()).isEmpty();
        }
    }

    /** Chart and filed route as soon as they are chosen, the aircraft as soon as the start is; read as the program says it. */
    @Test
    void aLessonIsDrawnWhileItIsPrepared() throws Exception {
        try (RealProgram program = room();
                Browser desk = new Browser(folder, 1280, 800)) {
            desk.open(address() + "/prepare");
            desk.untilText("#from-lesson", "Heading to an airway");
            String filed = desk.value(
                            "fetch('/api/lessons?id=heading-to-airway').then((r) => r.json()).then((l) => l.filed)")
                    .asText();
            desk.retype("#f-filed", filed.substring(0, filed.length() - 2));
            desk.retype("#f-filed", filed);
            desk.until("import('/model.js').then((m) => m.model.hello !== null && m.model.hello.filed.length > 0)");
            assertThat(desk.value("import('/model.js').then((m) => m.seat()?.now ?? null)")
                            .isNull())
                    .isTrue();
            desk.retype("#f-at", "N38°12.000' W049°55.200'");
            desk.retype("#f-heading", "120");
            desk.until("import('/model.js').then((m) => m.seat() !== null && m.seat().now !== null)");
            assertThat(desk.text("#form")).doesNotContain("The practice aircraft flew it");
            // A chart and a route are no flight: nothing to judge, nothing to complain of.
            assertThat(desk.complaints()).isEmpty();
        }
    }
}
