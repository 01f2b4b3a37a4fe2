package org.rejoin.console.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.TimeUnit;

import org.rejoin.console.Browser;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.recording.InstructorFile;
import org.rejoin.protocol.AircraftState;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** What the instructor does at the page, in a real browser: speak, take back, check a readback, remark, hide. */
@Timeout(value = 150, unit = TimeUnit.SECONDS)
class DeskInBrowserTest {

    private static final String SEAT = "127.0.0.1:40000 REJOIN";

    /** Keeps what would be spoken by a voice of this device; the words are what is tested, not the voice. */
    private static final String LISTEN =
            "window.said = []; window.SpeechSynthesisUtterance = class { constructor(text) { this.text = text; } };"
                    + " SpeechSynthesis.prototype.getVoices = () => [{name: 'Here', voiceURI: 'here', lang: 'en', localService: true}];"
                    + " SpeechSynthesis.prototype.speak = function (utterance) {"
                    + " window.said.push(utterance.text + ' [' + utterance.lang + ']'); };";

    @TempDir
    Path folder = Path.of("");

    /** In flight, at 02:19, on the heading of the lesson's only amendment. */
    private static Browser opened(FlownPage flown, Path folder) throws Exception {
        flown.fly(SEAT, flown.states(Habit.GOOD, 5).subList(0, 700));
        Browser browser = new Browser(folder, 1280, 720);
        browser.beforeEachPage(LISTEN);
        browser.open(flown.address() + "/");
        browser.until("document.getElementById('clock').textContent === '02:19'");
        browser.untilText("#log", "on the assigned heading");
        return browser;
    }

    private static void words(Browser browser, String selector, String text) throws Exception {
        browser.value("document.querySelector('" + selector + "').value = ''");
        browser.type(selector, text);
    }

    private static void spoken(Browser browser, int number, String text) throws Exception {
        browser.click("#speak");
        browser.until("window.said.length === " + number);
        assertThat(browser.value("window.said.at(-1)").asText()).isEqualTo(text + " [en]");
    }

    /** Read from the top, and in the first screen of a phone: what must happen next. */
    @Test
    void onAPhoneWhatMustHappenNextStandsFirst() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser browser = opened(flown, folder)) {
            flown.fly("127.0.0.1:40001 OTHER", flown.states(Habit.GOOD, 5).subList(0, 300));
            for (String path : List.of("/", "/student")) {
                browser.size(390, 844);
                browser.open(flown.address() + path);
                browser.until("document.getElementById('clock').textContent === '02:19'");
                browser.until("!document.getElementById('seats').hidden");
                browser.until("document.getElementById('next').textContent.trim() !== ''");
                String above = "document.getElementById('next').getBoundingClientRect().bottom";
                assertThat(browser.value(above).asDouble()).as(path).isLessThan(844);
                assertThat(browser.value("[...document.querySelectorAll('main canvas, main form')].every((each) =>"
                                        + " document.getElementById('next').compareDocumentPosition(each)"
                                        + " === Node.DOCUMENT_POSITION_FOLLOWING"
                                        + " && each.getBoundingClientRect().top >= " + above + ")")
                                .asBoolean())
                        .as(path + ": in the order of reading, too")
                        .isTrue();
                assertThat(browser.value("document.documentElement.scrollWidth").asInt())
                        .as(path)
                        .isLessThanOrEqualTo(390);
                browser.picture("one-flight-phone" + path.replace('/', '-') + "-390x844");
            }
            browser.size(1280, 720);
            browser.open(flown.address() + "/");
            browser.until("document.getElementById('clock').textContent === '02:19'");
            assertThat(browser.value("document.getElementById('next').getBoundingClientRect().left"
                                    + " > document.getElementById('plan').getBoundingClientRect().right"
                                    + " && document.querySelector('footer').getBoundingClientRect().bottom <= 720"
                                    + " && document.documentElement.scrollHeight <= 720")
                            .asBoolean())
                    .as("on a desk beside the plan, and all of it in one screen")
                    .isTrue();
            browser.picture("one-flight-desk-1280x720");
            assertThat(browser.complaints()).isEmpty();
        }
    }

    @Test
    void aKeyChoosesASeatUnlessItIsTyped() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser browser = opened(flown, folder)) {
            flown.fly("127.0.0.1:40001 OTHER", flown.states(Habit.GOOD, 5).subList(0, 300));
            browser.until("document.querySelectorAll('#seats button').length === 2");
            String chosen = "document.querySelector('#seats [aria-pressed=\"true\"] b').textContent";
            browser.key("2");
            browser.until(chosen + " === 'OTHER'");
            browser.key("3");
            browser.type("#words", "fly heading ");
            browser.key("1");
            assertThat(browser.value("document.getElementById('words').value").asText())
                    .isEqualTo("fly heading 1");
            assertThat(browser.value(chosen).asText()).isEqualTo("OTHER");
            browser.value("document.activeElement.blur()");
            browser.key("1");
            browser.until(chosen + " === 'REJOIN'");
            assertThat(browser.complaints()).isEmpty();
        }
    }

    @Test
    void aFeedThatCannotBeReadIsSaidWhereThePilotLooks() throws Exception {
        String line = "127.0.0.1:40009 sends what no format here reads, 32 octets a datagram: 4b 54 01";
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser browser = new Browser(folder, 1280, 720)) {
            flown.server.unread(List.of(line));
            for (String path : List.of("/student", "/")) {
                browser.open(flown.address() + path);
                browser.untilText("#next", line);
            }
            flown.fly(SEAT, flown.states(Habit.GOOD, 5).subList(0, 700));
            browser.untilText("#next", "turn left to course 066 FROM PTL");
            browser.untilText("#pages", line);
            flown.server.unread(List.of());
            browser.until("!document.getElementById('pages').textContent.includes('no format')");
            assertThat(browser.complaints()).isEmpty();
        }
    }

    @Test
    void whatWasRemarkedBeforeTheProgramWasStartedAgainStandsAtItsTime() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser browser = new Browser(folder, 1280, 720)) {
            flown.page(SEAT).remarked(List.of(new InstructorFile.Remark(52, SEAT, "looked at the chart too long")));
            flown.fly(SEAT, flown.states(Habit.GOOD, 5).subList(0, 700));
            browser.open(flown.address() + "/");
            browser.untilText("#log", "looked at the chart too long");
            browser.untilText("#log", "on the assigned heading");
            assertThat(browser.text("#log").replace('\n', ' '))
                    .containsPattern("ATC:.* 00:52\\.0 .{0,12}looked at the chart too long");
        }
    }

    /** A feed with the true heading alone has a compass heading, too: by the variation, from the first sample. */
    @Test
    void theHeadingIsThereBeforeAnyClearanceThoughTheFeedHasTheTrueOne() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser browser = new Browser(folder, 1280, 720)) {
            flown.fly(
                    SEAT,
                    flown.states(Habit.GOOD, 5).subList(0, 50).stream()
                            .map(DeskInBrowserTest::withTheTrueHeadingAlone)
                            .toList());
            browser.open(flown.address() + "/");
            browser.untilText("#heading-value", "150");
            assertThat(flown.page(SEAT).tile().headingMagneticDeg()).isPresent();
        }
    }

    private static AircraftState withTheTrueHeadingAlone(AircraftState state) {
        assertThat(state.headingTrueDeg()).isPresent();
        return new AircraftState(
                state.timeS(),
                state.latitudeDeg(),
                state.longitudeDeg(),
                state.altitudeMslFt(),
                state.headingTrueDeg(),
                OptionalDouble.empty(),
                state.trackTrueDeg(),
                state.groundSpeedKt(),
                state.verticalSpeedFpm(),
                state.pitchDeg(),
                state.rollDeg(),
                state.indicatedAirspeedKt(),
                state.paused());
    }

    @Test
    void speaksAsAControllerDoes() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser browser = opened(flown, folder)) {
            // Nothing typed: the clearance in force. Digits one by one, airways in group form, stations by name (AIM
            // 4-2-8 c, 4-2-10; FAA Order JO 7110.65, 4-6-4 for the order of the words).
            spoken(
                    browser,
                    1,
                    "fly heading one one zero, intercept the Petrel zero six six radial, join victor forty, then as filed,"
                            + " maintain six thousand");
            // Typed and not yet worked out: spoken, and nothing is issued by it. 9 is "niner" (AIM 4-2-7, 4-2-8).
            words(browser, "#words", "fly heading 093, intercept V40, resume own navigation");
            spoken(browser, 2, "fly heading zero niner three, intercept victor forty, resume own navigation");
            // With the altitude beside it: thousands and hundreds (AIM 4-2-9).
            words(browser, "#altitude", "5500");
            spoken(
                    browser,
                    3,
                    "fly heading zero niner three, intercept victor forty, resume own navigation,"
                            + " maintain five thousand five hundred");
            assertThat(flown.spoken).isEmpty();
            // What makes no sense is not spoken, and it is said why.
            words(browser, "#words", "fly heading 093, intercept the XYZ 250 radial");
            browser.click("#speak");
            browser.untilText("#worked", "Not worked out.");
            browser.until("!document.getElementById('caret').hidden");
            assertThat(browser.value("window.said.length").asInt()).isEqualTo(3);
            assertThat(browser.complaints()).isEmpty();
        }
    }

    @Test
    void theAltitudeBesideTheWordsIsIssuedLoggedAndReadBack() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser browser = opened(flown, folder)) {
            words(browser, "#words", "fly heading 080, intercept V40, resume own navigation");
            words(browser, "#altitude", "5000");
            browser.click("#issue");
            browser.untilText("#worked", "Issued");
            browser.untilText("#log", "fly heading 080, intercept V40, resume own navigation, maintain 5000");
            words(browser, "#readback", "heading zero eight zero, intercept victor forty, resume own navigation");
            browser.value("document.getElementById('readback-form').requestSubmit()");
            browser.untilText("#checked", "missing: altitude five thousand");
            assertThat(browser.complaints()).isEmpty();
        }
    }

    @Test
    void takesBackWhatWasWorkedOutThenWhatWasIssued() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser browser = opened(flown, folder)) {
            browser.until("import('/model.js').then((m) => m.seat().amended?.radial.length > 0)");
            words(browser, "#words", "fly heading 080, intercept V40, resume own navigation");
            browser.key("Enter");
            browser.untilText("#worked", "Worked out, not issued");
            browser.click("#cancel");
            browser.until("document.getElementById('worked').textContent === ''");
            // Only the drawing was taken back: the clearance in force stands.
            assertThat(flown.spoken).isEmpty();
            assertThat(browser.value("import('/model.js').then((m) => m.seat().amended !== null)")
                            .asBoolean())
                    .isTrue();

            browser.click("#cancel");
            browser.untilText("#worked", "Taken back");
            browser.untilText("#next", "fly as filed");
            browser.until("import('/model.js').then((m) => m.seat().amended === null)");
            assertThat(flown.spoken).hasSize(1);
            assertThat(flown.spoken.get(0)).contains("disregard");
            browser.picture("page-taken-back-1280x720");

            // Twice is refused in words; a page opened later draws no route that is no more.
            browser.click("#cancel");
            browser.untilText("#worked", "no amended clearance in force");
            browser.open(flown.address() + "/");
            browser.untilText("#next", "fly as filed");
            assertThat(browser.value("import('/model.js').then((m) => m.seat().amended === null)")
                            .asBoolean())
                    .isTrue();
            assertThat(browser.complaints()).isEmpty();
        }
    }

    @Test
    void aReadbackIsChecked() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser browser = opened(flown, folder)) {
            browser.type(
                    "#readback",
                    "heading one one zero, intercept petrel zero six six radial, victor forty, then as filed, maintain six thousand");
            browser.key("Enter");
            browser.until("document.querySelectorAll('#checked li').length > 3");
            assertThat(browser.value("document.querySelectorAll('#checked .warning').length")
                            .asInt())
                    .isZero();
            words(browser, "#readback", "heading one one zero, intercept petrel two four six radial, then as filed");
            browser.key("Enter");
            browser.untilText("#checked", "missing:");
            assertThat(browser.text("#checked").replace('\n', ' '))
                    .contains("two four six", "cleared zero six six", "airway victor forty");
            words(browser, "#readback", "   ");
            browser.key("Enter");
            browser.untilText("#checked", "nothing was typed");
            assertThat(browser.complaints()).isEmpty();
        }
    }

    @Test
    void aRemarkStandsAtItsMomentAndIsNotTheStudents() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser browser = opened(flown, folder);
                Browser student = new Browser(folder, 1280, 720)) {
            student.open(flown.address() + "/student");
            browser.type("#remark", "turned late, well corrected");
            browser.key("Enter");
            browser.untilText("#log", "Remark: turned late, well corrected");
            assertThat(browser.value("document.querySelector('#log .remark span').textContent")
                            .asText())
                    .isEqualTo("02:19.8");
            assertThat(browser.value("document.getElementById('remark').value").asText())
                    .isEmpty();
            assertThat(flown.remarks).containsExactly("turned late, well corrected");
            // Later than the remark in the same stream: so it would have been there.
            flown.onThread(() -> flown.page(SEAT).note("all seats: break in five minutes"));
            student.untilText("#log", "break in five minutes");
            assertThat(student.text("#log")).doesNotContain("Remark");
            assertThat(browser.complaints()).isEmpty();
        }
    }

    @Test
    void eachOfNextRouteAndGradeIsHiddenAndShownAgain() throws Exception {
        String next = "document.getElementById('next').textContent";
        String score = "document.getElementById('score').textContent";
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser browser = opened(flown, folder);
                Browser student = new Browser(folder, 1280, 720)) {
            student.open(flown.address() + "/student");
            student.until(next + ".includes('066') && " + score + ".includes('of 100')");
            String route = "import('/model.js').then((m) => m.seat()?.amended != null)";
            for (String what : List.of("next", "route", "grade")) {
                for (boolean shown : List.of(false, true)) {
                    browser.click("#show-" + what);
                    boolean nextShown = shown || !what.equals("next");
                    boolean routeShown = shown || !what.equals("route");
                    boolean gradeShown = shown || !what.equals("grade");
                    student.until("(" + next + " === 'not shown in this lesson') !== " + nextShown);
                    student.until("(" + score + " === 'not shown') !== " + gradeShown);
                    student.until(route + ".then((has) => has === " + routeShown + ")");
                    student.until("(document.getElementById('corridor-value').textContent === '') !== " + routeShown);
                }
            }
            // Where he is: nothing of it is sent to his page, and it is said; the instructor sees it as before.
            String rows = "import('/model.js').then((m) => m.seat()?.rows.length ?? 0)";
            String own = "import('/model.js').then((m) => m.seat()?.now != null)";
            student.until(rows + ".then((n) => n > 50)");
            browser.click("#show-position");
            student.until(own + ".then((has) => !has)");
            student.until(rows + ".then((n) => n === 0)");
            flown.fly(SEAT, flown.states(Habit.GOOD, 5).subList(700, 720));
            student.until("import('/model.js').then((m) => m.model.status.position === false)");
            assertThat(student.value(own).asBoolean()).isFalse();
            student.picture("page-student-position-hidden-1280x720");
            assertThat(browser.value(own).asBoolean()).isTrue();
            browser.click("#show-position");
            student.until(rows + ".then((n) => n > 50)");
            assertThat(student.complaints()).isEmpty();
            assertThat(browser.complaints()).isEmpty();
        }
    }
}
