package org.rejoin.console.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;

import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.console.Browser;
import org.rejoin.console.practice.Habit;
import org.rejoin.protocol.AircraftState;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The page in a real browser, where there is one. Pictures go to target/ to be looked at. */
@Timeout(value = 150, unit = TimeUnit.SECONDS)
class PageInBrowserTest {

    private static final String SEAT = "127.0.0.1:40000 REJOIN";
    private static final String AMENDMENT = "fly heading 080, intercept V40, resume own navigation";

    @TempDir
    Path folder = Path.of("");

    @Test
    void theInstructorSeesTheFlightAndWorksFromThePage() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser browser = new Browser(folder, 1280, 720)) {
            List<AircraftState> states = flown.states(Habit.GOOD, 5);
            browser.open(flown.address() + "/");
            browser.until("document.getElementById('title').textContent.startsWith('Radial outbound')");
            browser.picture("page-waiting");
            flown.fly(SEAT, states.subList(0, 700));
            browser.until("document.querySelectorAll('#log .event').length > 2");
            browser.untilText("#log", "ATC: \"fly heading 110");
            browser.untilText("#log", "on the assigned heading, 110");
            browser.until("document.getElementById('clock').textContent === '02:19'");
            browser.until(
                    "/turn left to course 066 FROM PTL in \\d\\.\\d NM/.test(document.getElementById('next').textContent)");
            browser.picture("page-closing-1280x720");

            browser.type("#words", "fly heading 080, intercept the XYZ 250 radial");
            browser.click("#preview");
            browser.until("!document.getElementById('caret').hidden");
            assertThat(browser.text("#caret").split("\n", -1)[1]).contains("^");
            assertThat(flown.spoken).isEmpty();
            browser.picture("page-refused-1280x720");

            browser.value("document.getElementById('words').value = ''");
            browser.type("#words", AMENDMENT);
            browser.click("#preview");
            browser.until("document.getElementById('worked').textContent.startsWith('Worked out, not issued')");
            assertThat(flown.spoken).isEmpty();
            browser.picture("page-preview-1280x720");
            browser.click("#issue");
            browser.until("document.getElementById('worked').textContent.startsWith('Issued')");
            assertThat(flown.spoken)
                    .containsExactly(SEAT + " " + states.get(699).timeS() + " " + AMENDMENT);
            browser.until("document.getElementById('log').textContent.includes('fly heading 080')");

            browser.type("#readback", "heading 090, intercept victor 40");
            browser.value("document.getElementById('readback-form').requestSubmit()");
            browser.until("document.querySelectorAll('#checked .warning').length > 0");
            assertThat(browser.text("#checked")).contains("heading").contains("wrong");
            browser.type("#remark", "<script>document.title='bad'</script>");
            browser.value("document.getElementById('remark-form').requestSubmit()");
            browser.until("document.getElementById('log').textContent.includes('Remark: <script>')");
            assertThat(browser.value("document.title").asText()).isEqualTo("Instructor: live flight");
            browser.picture("page-issued-1280x720");

            // A reload in mid-flight, and a second page: the same picture again.
            int lines =
                    browser.value("document.querySelectorAll('#log li').length").asInt();
            browser.open(flown.address() + "/");
            browser.until("document.querySelectorAll('#log li').length === " + lines);
            browser.until("document.getElementById('clock').textContent === '02:19'");
            try (Browser second = new Browser(folder, 1024, 768)) {
                second.open(flown.address() + "/");
                second.until("document.querySelectorAll('#log li').length === " + lines);
                second.picture("page-tablet-1024x768");
                second.size(820, 1180);
                second.picture("page-tablet-820x1180");
                second.click("#theme");
                second.picture("page-paper-820x1180");
                second.size(1280, 720);
                second.picture("page-paper-1280x720");
                assertThat(second.complaints()).isEmpty();
            }
            assertThat(browser.complaints()).isEmpty();
            assertThat(browser.requests()).allMatch(request -> request.startsWith(flown.address()));
        }
    }

    @Test
    void theStudentSeesNoMoreThanIsShown() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser student = new Browser(folder, 1280, 720);
                Browser instructor = new Browser(folder, 1280, 720)) {
            flown.fly(SEAT, flown.states(Habit.GOOD, 5).subList(0, 700));
            student.open(flown.address() + "/student");
            instructor.open(flown.address() + "/");
            student.until("document.getElementById('next').textContent.includes('066')");
            assertThat(student.value("document.getElementById('words')").isNull())
                    .isTrue();
            for (String what : List.of("next", "route", "grade")) {
                instructor.click("#show-" + what);
            }
            student.until("document.getElementById('next').textContent === 'not shown in this lesson'");
            student.until("document.getElementById('corridor-value').textContent === ''");
            student.until("document.getElementById('score').textContent === 'not shown'");
            student.picture("page-student-1280x720");
            student.size(820, 1180);
            student.picture("page-student-820x1180");
            instructor.untilText("#next", "066");
            assertThat(student.complaints()).isEmpty();
        }
    }

    @Test
    void theFaultIsMarkedAmongTwelveSeats() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser browser = new Browser(folder, 1280, 720)) {
            browser.open(flown.address() + "/");
            Habit[] habits = Habit.values();
            for (int i = 0; i < 12; i++) {
                List<AircraftState> states = flown.states(habits[i % habits.length], 20);
                String marking = i == 3 ? "<script>alert(3)</script>" : "PUPIL" + i;
                flown.fly(
                        "127.0.0.1:4000" + i % 10 + " " + marking, states.subList(0, Math.min(10_000, states.size())));
            }
            browser.until("document.querySelectorAll('#seats button').length === 12");
            browser.untilText("#seats", "<script>alert(3)</script>");
            browser.value("document.querySelectorAll('#seats button')[2].click()");
            browser.until("document.querySelectorAll('#seats button')[2].getAttribute('aria-pressed') === 'true'");
            browser.until("document.querySelectorAll('#log .fault').length > 0");
            browser.picture("page-twelve-seats-1280x720");
            assertThat(browser.complaints()).isEmpty();
        }
    }

    @Test
    void tenThousandEventsAreShownAndTheLogStaysShort() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser browser = new Browser(folder, 1280, 720)) {
            flown.fly(SEAT, flown.states(Habit.GOOD, 5).subList(0, 300));
            browser.open(flown.address() + "/");
            browser.until("document.querySelectorAll('#log .event').length > 1");
            flown.onThread(() -> {
                for (int i = 0; i < 10_000; i++) {
                    flown.page(SEAT)
                            .happened(new Entry.Happened(60, new FlightEvent.CourseCrossed(60 + i / 1000.0, 40)));
                }
            });
            browser.until("document.getElementById('log').textContent.includes('earlier lines')"
                    + " || document.querySelectorAll('#log li').length >= 300");
            assertThat(browser.value("document.querySelectorAll('#log li').length")
                            .asInt())
                    .isLessThan(310);
            Browser again = browser;
            again.open(flown.address() + "/");
            again.until("document.querySelectorAll('#log li').length >= 300");
            assertThat(browser.complaints()).isEmpty();
        }
    }

    @Test
    void aFrameDrawsWhatMovesAndNotTheChartAgain() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser browser = new Browser(folder, 1280, 720)) {
            // Each stroke of a pen, by the canvas it is on; the ground is on one that is not on the page.
            browser.beforeEachPage("window.strokes = {}; const stroke = CanvasRenderingContext2D.prototype.stroke;"
                    + " CanvasRenderingContext2D.prototype.stroke = function (...a) { const id = this.canvas.id || 'kept';"
                    + " window.strokes[id] = (window.strokes[id] ?? 0) + 1; stroke.apply(this, a); };");
            List<AircraftState> states = flown.states(Habit.GOOD, 20);
            flown.fly(SEAT, states.subList(0, 2000));
            browser.open(flown.address() + "/");
            browser.until("document.getElementById('clock').textContent === '01:40'");
            // The ground once at least, some twenty strokes: where all came in one frame, no more than that.
            browser.until("window.strokes.kept > 10 && window.strokes.height > 0");
            // Until nothing is left to draw.
            browser.until("import('/model.js').then((m) => m.model.changed.size === 0)");
            browser.value("window.strokes = {}");
            // A twentieth of a second moves nobody by what can be seen.
            flown.fly(SEAT, states.subList(2000, 2001));
            browser.until("import('/model.js').then((m) => m.seat().now[m.T] > 99.96 && m.model.changed.size === 0)");
            assertThat(browser.value("window.strokes.plan ?? 0").asInt()).isZero();
            flown.fly(SEAT, states.subList(2001, 2100));
            browser.until("window.strokes.plan > 0");
            browser.until("import('/model.js').then((m) => m.model.changed.size === 0)");
            assertThat(browser.value("window.strokes.kept ?? 0").asInt()).isZero();
            // The new piece of track and the aircraft, and once more where words and aircraft came in two frames.
            assertThat(browser.value("window.strokes.plan").asInt()).isBetween(1, 4);
            browser.click("#closer");
            browser.until("window.strokes.kept > 5");
            assertThat(browser.complaints()).isEmpty();
        }
    }
}
