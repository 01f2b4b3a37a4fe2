package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.util.concurrent.TimeUnit;

import org.rejoin.console.Browser;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;

import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** A seat without a lesson says so, to the instructor and to its pilot: before the first, and after the room was killed in flight. */
@Timeout(value = 4, unit = TimeUnit.MINUTES)
@SuppressWarnings("try") // a program is held, not used
class NoLessonInBrowserTest extends RealRoom {

    private static final String BOXES =
            "[...document.querySelectorAll('#plan, #next, #clock, #log')].filter((e) => e.checkVisibility()).length";

    @BeforeEach
    void aBrowserIsThere() throws Exception {
        Assumptions.assumeTrue(Browser.installed().isPresent(), "no Chromium on this machine");
    }

    private static void saysOnly(Browser browser, String words) throws Exception {
        browser.untilText("#no-lesson", words);
        assertThat(browser.value(BOXES).asInt()).isZero();
    }

    /** Who opens a page before there is anything on it reads what to do. */
    @Test
    void aRoomWithoutAircraftPilotsAndAttemptsSaysOnEachPageWhatToDo() throws Exception {
        try (RealProgram program = room();
                Browser desk = new Browser(folder, 1024, 768)) {
            for (String view : new String[] {"/", "/live", "/map"}) {
                desk.open(address() + view);
                desk.untilText("#app", "Send your simulator's UDP to 127.0.0.1:" + feed);
            }
            desk.open(address() + "/seat?s=s7");
            desk.untilText("#app", "No aircraft is heard at this seat. Home lists those that are.");
            desk.open(address() + "/book");
            desk.untilText("#app", "0 attempts yet. What is flown in this room, or answered as a drill, is kept here.");
            desk.open(address() + "/debrief");
            desk.untilText("#app", "No attempt is chosen.");
            assertThat(desk.value("document.querySelectorAll('canvas').length").asInt())
                    .isZero();
            // One that is not there is said once, and nothing is still awaited.
            desk.open(address() + "/debrief?id=20200101T000000Z-aaaaaa");
            desk.untilText(
                    "#side", "there is no attempt 20200101T000000Z-aaaaaa; the record book lists those there are");
            desk.until("document.getElementById('replay').textContent === ''");
            for (String view : new String[] {"/progress", "/drill"}) {
                desk.open(address() + view);
                desk.untilText("#app", "There is no pilot yet. Add one on Home.");
            }
            assertThat(desk.complaints()).allMatch(each -> each.contains("404") && each.contains("aaaaaa"));
        }
    }

    @Test
    void aSeatWithoutALessonSaysSoAndShowsNoEmptyPanels() throws Exception {
        try (Simulator simulator = new Simulator(feed, 10).fly(LessonReader.read("radial-outbound"), Habit.GOOD);
                Browser desk = new Browser(folder, 1280, 800);
                Browser tablet = new Browser(Files.createDirectory(folder.resolve("tablet")), 820, 1180)) {
            try (RealProgram program = room()) {
                desk.open(address() + "/seat?s=s1");
                saysOnly(desk, "No lesson here yet. Choose a lesson on Home.");
                assertThat(desk.value("document.getElementById('issue').disabled")
                                .asBoolean())
                        .isTrue();
                desk.post("/api/assign", "{\"seat\":\"s1\",\"pilot\":\"Anna\",\"lesson\":\"radial-outbound\"}");
                desk.untilText("#log", "flight began");
                desk.until(BOXES + " === 4 && !document.getElementById('issue').disabled");
                desk.until("document.getElementById('no-lesson') === null");
                String anna = desk.value("fetch('/api/pilots').then((r) => r.json()).then((l) => l[0].id)")
                        .asText();
                String code = desk.value("fetch('/api/code', {method: 'POST', headers: {'Content-Type':"
                                + " 'application/json'}, body: JSON.stringify({pilot: '" + anna
                                + "'})}).then((r) => r.json()).then((c) => c.code)")
                        .asText();
                tablet.open(address() + "/enter#" + code);
                tablet.untilText("#log", "flight began");
                program.process().destroyForcibly();
                program.awaitEnd();
            }
            try (RealProgram again = room()) {
                // Nobody loads the pages anew.
                String closed = "The program was started again, and what was flown here before is closed. ";
                saysOnly(tablet, closed + "Wait for a lesson from your instructor.");
                saysOnly(desk, closed + "Choose a lesson on Home.");
                assertThat(desk.value("document.getElementById('issue').disabled")
                                .asBoolean())
                        .isTrue();
                desk.open(address() + "/own");
                desk.untilText("#strip", "instructor gives you a seat");
                assertThat(desk.value(BOXES).asInt()).isZero();
            }
        }
    }
}
