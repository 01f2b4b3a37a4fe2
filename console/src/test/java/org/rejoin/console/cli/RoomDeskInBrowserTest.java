package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;

import org.rejoin.console.Accessibility;
import org.rejoin.console.Browser;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;

import com.fasterxml.jackson.databind.JsonNode;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** What an instructor does at a seat, and how it is prepared and compared: the real program, a real browser. */
@Timeout(value = 8, unit = TimeUnit.MINUTES)
@SuppressWarnings("try") // a program is held, not used
class RoomDeskInBrowserTest extends RealRoom {

    private static final String WORDS = "fly heading 090, intercept V40, resume own navigation";

    @BeforeEach
    void aBrowserIsThere() throws Exception {
        Assumptions.assumeTrue(Browser.installed().isPresent(), "no Chromium on this machine");
    }

    private static void press(Browser browser, String name) throws Exception {
        String find = "[...document.querySelectorAll('button')].find((b) => b.innerText.startsWith('" + name + "'))";
        browser.until(find + " !== undefined");
        browser.value(find + ".click()");
    }

    @Test
    void aSeatIsWorkedFromClearanceToReadbackToUndoAndPutBackToTheStart() throws Exception {
        try (RealProgram program = room("--lesson", "radial-outbound");
                // So slow that a clearance is taken back before anybody had to act on it, however slow page and machine
                // are.
                Simulator simulator = new Simulator(feed, 4).fly(LessonReader.read("radial-outbound"), Habit.GOOD);
                Browser desk = new Browser(folder, 1280, 800)) {
            desk.open(address() + "/seat?s=s1");
            desk.untilText("#log", "intercept the PTL 066 radial");
            desk.untilText("#issue", "Issue to REJOIN1");
            // Issued with the keyboard; the words are gone, the same again is asked about.
            desk.type("#words", WORDS);
            desk.value(
                    "document.getElementById('words').dispatchEvent(new KeyboardEvent('keydown', {key: 'Enter', ctrlKey: true, bubbles: true, cancelable: true}))");
            desk.untilText("#worked", "Issued to REJOIN1");
            assertThat(desk.value("document.getElementById('words').value").asText())
                    .isEmpty();
            desk.type("#words", WORDS);
            desk.click("#issue");
            desk.untilText("#worked", "Issue it again?");
            press(desk, "Leave it");

            // Before the pilot has spoken nothing is marked, and nothing can be kept.
            desk.untilText("#taps", "heading");
            assertThat(desk.text("#taps")).contains("nothing is marked yet").doesNotContain("\u2713");
            assertThat(desk.value("document.getElementById('keep-readback').disabled")
                            .asBoolean())
                    .isTrue();
            // Read back by tapping: one wrong, one right, the rest not heard; kept with its time.
            desk.value("(() => { const b = document.querySelectorAll('#taps button')[0]; b.click(); b.click(); })()");
            desk.value("document.querySelectorAll('#taps button')[1].click()");
            assertThat(desk.text("#keep-readback")).containsPattern("Keep the readback: [1-9] not heard");
            desk.picture("room-seat-1280x800");
            desk.click("#keep-readback");
            desk.untilText("#log", "Readback:");
            Path kept = attempts("readbacks.jsonl").get(0);
            assertThat(Files.readString(kept))
                    .contains("\"verdict\":\"wrong\"", "\"verdict\":\"right\"", "\"verdict\":\"missing\"");

            // Undone: the clearance before is in force again, not the filed route.
            desk.retype("#words", "");
            desk.click("#cancel");
            desk.untilText("#worked", "Taken back at REJOIN1");
            desk.until("import('/model.js').then((m) => m.seat().amended?.say.includes('PTL 066 radial') === true)");

            // From the page of all seats: one clearance to those that are ticked.
            desk.open(address() + "/live");
            desk.untilText("#together-title", "One clearance to several seats");
            desk.value("document.querySelector('section[aria-labelledby=together-title] input').click()");
            desk.type("#together", "climb and maintain 7000");
            // Worked out first: nothing is transmitted.
            press(desk, "Work it out");
            desk.untilText(
                    "section[aria-labelledby=together-title] ul",
                    "not issued: altitude 7000 ft; the route stays as it was");
            assertThat(Files.readString(attempts("spoken.jsonl").get(0))).doesNotContain("7000");
            press(desk, "Issue to");
            desk.untilText("section[aria-labelledby=together-title] ul", "Issued to ");
            desk.picture("room-live-1280x800");
            desk.open(address() + "/seat?s=s1");
            desk.untilText("#log", "climb and maintain 7000");

            // Silent: greyed after three seconds, and said with the seconds.
            simulator.silent(true);
            desk.untilText("#data", "no data for");
            desk.until("document.body.classList.contains('old')");
            simulator.silent(false);
            desk.untilText("#data", "flying");
            desk.until("!document.body.classList.contains('old')");

            // Put back to the start: a new attempt with a recording of its own; the first is graded and whole.
            simulator.fly(LessonReader.read("radial-outbound"), Habit.GOOD);
            desk.until("fetch('/api/attempts').then((r) => r.json()).then((l) => l.rows.length === 2)");
            desk.untilText("#log", "flight began");
            desk.until("import('/model.js').then((m) => m.seat().now !== null && m.seat().lines.length < 4)");
            desk.until(
                    "fetch('/api/attempts').then((r) => r.json()).then((l) => l.rows.some((a) => a.duration_s > 30))");
            assertThat(attempts("grade.json")).hasSize(1);
            assertThat(Files.readString(attempts("log.jsonl").get(0))).doesNotContain("repositioned");
            assertThat(attempts("flight.pcap")).hasSize(2);

            // Ended by the instructor soon after a clearance: what was not due is not judged, and it is said.
            desk.untilText("#log", "intercept the PTL 066 radial");
            press(desk, "End the attempt");
            press(desk, "Press again");
            desk.untilText("#strip", "Debrief");
            String grade = "fetch('/api/attempts').then((r) => r.json()).then((l) => l.rows[0])";
            desk.until(grade + ".then((a) => a.duration_s > 0)");
            // What was taken back before anybody had to act on it has its line and no table.
            desk.open(address() + "/debrief?id="
                    + desk.value("fetch('/api/attempts').then((r) => r.json()).then((l) => l.rows[1].id)")
                            .asText());
            desk.untilText("#grade-title", "The grade");
            String card = "document.querySelector('section[aria-labelledby=grade-title]')";
            desk.until(card + ".innerText.includes('; climb and maintain 7000”')");
            desk.until(card + ".innerText.includes('taken back after')");
            assertThat(desk.value(card + ".querySelectorAll('table').length").asInt())
                    .isEqualTo(1);
            assertThat(desk.value(
                                    "[..." + card + ".querySelectorAll('tbody tr')].filter((r) =>"
                                            + " r.cells[1].innerText.startsWith('not judged') !== (r.cells[3].innerText === 'none')).length")
                            .asInt())
                    .isZero();
            assertThat(desk.value(
                                    "import('/model.js').then((m) => [m.figure(0.045, 'NM'), m.figure(1.005, 'NM'), m.figure(12.25, 'deg'), m.figure(3, 'ft')].join())")
                            .asText())
                    .isEqualTo("0.05 NM,1.01 NM,12.3 deg,3 ft");
            desk.untilText("#sign", "Sign this attempt of REJOIN1");
            desk.picture("room-debrief-clearances-1280x800");
            String id = desk.value(grade + ".then((a) => a.id)").asText();
            assertThat(desk.value(grade + ".then((a) => a.faults.length)").asInt())
                    .isZero();
            assertThat(desk.value("fetch('/api/attempt/" + id + "').then((r) => r.text())")
                            .asText())
                    .contains("The instructor ended the attempt here");
            assertThat(desk.complaints()).isEmpty();
            assertThat(desk.post("/api/attempt/" + id + "/remark", "{\"t\":-5,\"text\":\"early\"}"))
                    .contains("a remark needs a time of the flight, 0 to ");
        }
    }

    @Test
    void aLessonIsPreparedTriedKeptAndFlownAndTwoAttemptsAreCompared() throws Exception {
        try (RealProgram program = room();
                Simulator simulator = new Simulator(feed, 60);
                Browser desk = new Browser(folder, 1280, 800)) {
            desk.open(address() + "/prepare");
            desk.untilText("#from-lesson", "Heading to an airway");
            desk.choose("#from-lesson", "heading-to-airway");
            desk.until("document.getElementById('f-filed').value.startsWith('XSKU')");
            desk.retype("#f-title", "Morning lesson");
            desk.click("#try");
            desk.untilText("#flown", "The practice aircraft flew it");
            desk.untilText("#form", "worked out");
            desk.until("import('/model.js').then((m) => m.seat().rows.length > 100)");
            desk.picture("room-prepare-1280x800");
            desk.click("#keep");
            desk.untilText("#kept", "Kept: Morning lesson");
            // A lesson of that title is there now: it is asked before another takes its place.
            desk.click("#keep");
            desk.untilText("#asks", "There is a lesson of this title already");
            desk.click("#replace");
            desk.untilText("#kept", "Kept: Morning lesson");
            desk.until("document.querySelector('#asks') === null && document.querySelector('#flown') !== null");
            // What cannot be worked out is said where it stands, and what was worked out before is not said of it.
            desk.retype(".say", "fly heading 090, join V99");
            desk.untilText("#changed", "Changed since it was flown");
            desk.click("#try");
            desk.untilText("#form", "V99");
            desk.until("document.querySelector('#flown') === null"
                    + " && !document.querySelector('#form').innerText.includes('worked out')");

            // Flown at a seat, twice.
            for (Habit habit : List.of(Habit.GOOD, Habit.LATE)) {
                simulator.fly(LessonReader.read("heading-to-airway"), habit);
                desk.open(address() + "/");
                desk.untilText(".seat-row", "Morning lesson");
                desk.post("/api/assign", "{\"seat\":\"s1\",\"pilot\":\"Anna\",\"lesson\":\"morning-lesson\"}");
                desk.untilText(".seat-row", "Anna flies Morning lesson");
                while (!simulator.over()) {
                    Thread.sleep(100);
                }
                desk.post("/api/end", "{\"seat\":\"s1\"}");
                desk.untilText(".seat-row", "Debrief");
            }
            desk.open(address() + "/book");
            desk.until("document.querySelectorAll('table.book tbody tr').length === 2");
            desk.until(
                    "[...document.querySelectorAll('table.book tbody tr')].every((r) => /met|judged/.test(r.innerText))");
            desk.value("document.querySelectorAll('table.book tbody input').forEach((box) => box.click())");
            desk.untilText("#compare", "Compare 2 attempts");
            desk.click("#compare");
            desk.untilText("#grade-title", "The grade");
            desk.until("import('/model.js').then((m) => m.model.seats.size === 2)");
            // What changed, in a table and on a plot.
            desk.untilText("#changed", "Intercept, distance carried past the line");
            desk.until("document.querySelector('#changed .plot canvas') !== null");
            desk.picture("room-compare-1280x800");
            whatIf(desk);
            // The clearance that could not be worked out was refused.
            assertThat(desk.complaints()).allMatch(each -> each.contains("409") && each.contains("/api/try"));
        }
    }

    /** The late attempt with its turn begun elsewhere: by button, by key, and drawn on the plan. */
    private void whatIf(Browser desk) throws Exception {
        String late =
                "fetch('/api/attempts').then((r) => r.json()).then((l) => l.rows.find((a) => a.faults.length > 0).id)";
        desk.open(address() + "/debrief?id=" + desk.value(late).asText());
        desk.until("document.querySelector('#play') !== null");
        desk.click("#whatif summary");
        desk.untilText("#whatif-result", "The same turn in this model: ");
        desk.untilText("#whatif-result", "(flown: ");
        desk.untilText("#whatif", "past the line; best");
        desk.click("#w-best");
        desk.untilText("#whatif-result", "points more than the turn as flown in this model");
        desk.untilText("#whatif", "No fault.");
        desk.value("document.getElementById('whatif').scrollIntoView()");
        desk.picture("room-what-if-1280x800");
        assertThat(new Accessibility().violations(desk)).isEmpty();
        // The number follows the key, and what it costs follows the number.
        String begin = "document.getElementById('w-before').value";
        double best = desk.value(begin).asDouble();
        String result = "document.getElementById('whatif-result').innerText";
        String said = desk.value(result).asText();
        desk.value("document.getElementById('w-before').focus()");
        for (int i = 0; i < 10; i++) {
            desk.key("ArrowLeft");
        }
        desk.until("Math.abs(" + begin + " - " + (best - 0.5) + ") < 0.03");
        desk.until(result + " !== '" + said + "'");
        // The ring is drawn along the plan: a mile back to the north, where he came from, is a turn begun earlier.
        String ring = "Promise.all([import('/model.js'), import('/main.js')]).then(([m, p]) => {"
                + " const c = document.getElementById('plan').getBoundingClientRect(), v = p.plan.view, b = m.model.other.begins;"
                + " return [c.left + v.px(b[0]), c.top + v.py(b[1]), v.scale]; })";
        JsonNode at = desk.value(ring);
        double x = at.get(0).asDouble();
        double y = at.get(1).asDouble();
        desk.drag(x, y, x, y - at.get(2).asDouble());
        desk.until(begin + " > " + (best - 0.3));
        desk.until("import('/model.js').then((m) => m.model.other !== null)");
        desk.click("#whatif summary");
        desk.until("import('/model.js').then((m) => m.model.other === null)");
    }

    @Test
    void everyViewFollowsTheRulesForEveryReaderAtEverySizeAndByKeyboard() throws Exception {
        Accessibility rules = new Accessibility();
        try (RealProgram program = room("--lesson", "radial-outbound");
                Simulator simulator = new Simulator(feed, 10).fly(LessonReader.read("radial-outbound"), Habit.GOOD);
                Browser desk = new Browser(folder, 1280, 800)) {
            desk.open(address() + "/");
            desk.untilText(".seat-row", "no pilot named; ");
            desk.post("/api/pilots", "{\"name\":\"Anna\"}");
            for (String theme : List.of("ink", "paper")) {
                desk.value("localStorage.setItem('theme', '" + theme + "')");
                for (String view : List.of(
                        "/", "/live", "/map", "/seat?s=s1", "/own", "/prepare", "/book", "/progress", "/drill")) {
                    desk.open(address() + view);
                    desk.until(
                            "document.querySelector('#title') !== null && document.querySelector('#app').innerText.length > 10");
                    assertThat(rules.violations(desk)).as(theme + " " + view).isEmpty();
                }
            }
            for (int[] size : new int[][] {{390, 844}, {820, 1180}}) {
                desk.size(size[0], size[1]);
                for (String view : List.of("/", "/live", "/map", "/seat?s=s1", "/book", "/prepare")) {
                    desk.open(address() + view);
                    desk.until("document.querySelector('#app').innerText.length > 10");
                    assertThat(desk.value(
                                            "document.documentElement.scrollWidth <= innerWidth + 1 ? '' : [...document.querySelectorAll('body *')]"
                                                    + ".filter((e) => e.getBoundingClientRect().right > innerWidth + 1).map((e) => e.tagName + '.' + e.className + '#' + e.id).join(' ')")
                                    .asText())
                            .as(size[0] + " " + view)
                            .isEmpty();
                    desk.picture("room-" + size[0] + view.replaceAll("\\W+", "-"));
                }
            }
            // On a phone the next action is in sight without scrolling.
            desk.size(390, 844);
            desk.open(address() + "/seat?s=s1");
            desk.untilText("#next", "turn");
            assertThat(desk.value("document.getElementById('next').getBoundingClientRect().bottom < innerHeight")
                            .asBoolean())
                    .isTrue();
            // The first Tab leads past the head, and every stop has a visible focus.
            desk.size(1280, 800);
            desk.open(address() + "/");
            desk.untilText(".seat-row", "no pilot named; ");
            desk.key("Tab");
            assertThat(desk.value("document.activeElement.innerText").asText()).isEqualTo("To the content");
            desk.key("Enter");
            desk.key("Tab");
            assertThat(desk.value("document.activeElement.closest('#app') !== null")
                            .asBoolean())
                    .isTrue();
            assertThat(desk.complaints()).isEmpty();
        }
    }
}
