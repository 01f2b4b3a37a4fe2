package org.rejoin.console.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.TimeUnit;

import org.rejoin.console.Browser;
import org.rejoin.console.practice.Habit;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Who speaks to the pilot, and when, in a real browser; its voices are stood in for, as a machine may have none. */
@Timeout(value = 150, unit = TimeUnit.SECONDS)
class PilotsRadioInBrowserTest {

    private static final String SEAT = "127.0.0.1:40000 REJOIN";

    /** A voice of the device and one that sends the words away, or fewer; what they say and how fast. */
    private static String voices(boolean local, boolean remote) {
        return "window.said = []; window.SpeechSynthesisUtterance = class { constructor(text) { this.text = text; } };"
                + " SpeechSynthesis.prototype.getVoices = () => ["
                + (remote ? "{name: 'Far', voiceURI: 'far', lang: 'en-US', localService: false}," : "")
                + "{name: 'Fern', voiceURI: 'fern', lang: 'de-DE', localService: true},"
                + (local ? "{name: 'Near', voiceURI: 'near', lang: 'en-US', localService: true}" : "") + "];"
                + " SpeechSynthesis.prototype.cancel = () => {};"
                + " SpeechSynthesis.prototype.speak = (u) => { window.said.push(u.voice.name + ' at ' + Math.round(u.rate * 100) + ': ' + u.text);"
                + " setTimeout(() => { u.onstart(); u.onend(); }, 20); };";
    }

    @TempDir
    Path folder = Path.of("");

    /** Presses as a finger does: a script's click lets no sound out. */
    private static void press(Browser browser, String selector) throws Exception {
        browser.value("document.querySelector('" + selector + "').scrollIntoView({block: 'center'})");
        var box = browser.value("(() => { const r = document.querySelector('" + selector
                + "').getBoundingClientRect(); return [r.x + r.width / 2, r.y + r.height / 2]; })()");
        browser.press(box.get(0).asDouble(), box.get(1).asDouble());
    }

    /** Issues a clearance to the seat, as the instructor's page does. */
    private static void issue(FlownPage flown, String words) throws Exception {
        flown.onThread(() -> {
            try {
                flown.seat(SEAT).orElseThrow().issue(words, OptionalDouble.empty());
            } catch (Exception e) {
                throw new IllegalStateException(e);
            }
        });
    }

    @Test
    void aClearanceIsSpokenOnceAndAgainOnRequestByAVoiceOfThisDevice() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser pilot = new Browser(folder, 820, 1180)) {
            flown.fly(SEAT, flown.states(Habit.GOOD, 5).subList(0, 700));
            pilot.beforeEachPage(voices(true, true));
            pilot.open(flown.address() + "/student");
            // Issued before he looked: not spoken of itself.
            pilot.untilText("#radio-state", "Press Say again to hear it");
            assertThat(pilot.value("window.said.length").asInt()).isZero();
            // Browsers make no sound before something is pressed.
            press(pilot, "#radio-on");
            pilot.until("document.getElementById('radio-on').getAttribute('aria-pressed') === 'true'");
            issue(flown, "fly heading 090, intercept V40, resume own navigation");
            pilot.until("window.said.length === 1");
            assertThat(pilot.value("window.said[0]").asText())
                    .startsWith("Near at ")
                    .endsWith("fly heading zero niner zero, intercept victor forty, resume own navigation");
            pilot.untilText("#radio-state", "Read it back.");
            // Again by the key, but not while somebody types.
            pilot.value("document.body.focus()");
            pilot.key("s");
            pilot.until("window.said.length === 2");
            pilot.untilText("#radio-state", "say again: once");
            press(pilot, "#say-again");
            pilot.until("window.said.length === 3");
            pilot.untilText("#radio-state", "say again: 2 times");
            // Slower, and kept for this page.
            press(pilot, ".wishes summary");
            pilot.until("document.getElementById('words-a-minute') !== null");
            pilot.value(
                    "(() => { const e = document.getElementById('words-a-minute'); e.value = '100'; e.dispatchEvent(new Event('change')); })()");
            press(pilot, "#say-again");
            pilot.until("window.said.length === 4");
            pilot.picture("pilots-radio-820x1180");
            pilot.open(flown.address() + "/student");
            pilot.untilText("#radio-state", "Press Say again to hear it");
            press(pilot, ".wishes summary");
            pilot.until("document.getElementById('words-a-minute')?.value === '100'");
            assertThat(pilot.complaints()).isEmpty();
        }
    }

    @Test
    void aVoiceThatSendsTheWordsAwayIsUsedOnlyAfterTheUserAgreed() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser pilot = new Browser(folder, 390, 844)) {
            flown.fly(SEAT, flown.states(Habit.GOOD, 5).subList(0, 700));
            pilot.beforeEachPage(voices(false, true));
            pilot.open(flown.address() + "/student");
            pilot.untilText("#no-voice", "Nobody can speak here");
            pilot.untilText("#radio-state", "was issued at");
            // What nobody can do is not offered.
            assertThat(pilot.text("#radio-state")).doesNotContain("Press Say again to hear it");
            issue(flown, "fly heading 090, intercept V40, resume own navigation");
            pilot.untilText("#radio-state", "Clearance 2 was issued at");
            assertThat(pilot.text("#radio-state")).doesNotContain("Turn the radio on");
            press(pilot, "#say-again");
            pilot.untilText(".radio", "has no voice of its own");
            assertThat(pilot.value("window.said.length").asInt()).isZero();
            pilot.picture("pilots-radio-no-voice-390x844");
            press(pilot, ".wishes summary");
            pilot.until("document.getElementById('network') !== null");
            press(pilot, "#network");
            pilot.until("document.getElementById('no-voice') === null");
            press(pilot, "#say-again");
            pilot.until("window.said.length === 1");
            assertThat(pilot.value("window.said[0]").asText()).startsWith("Far at ");
            assertThat(pilot.value("document.documentElement.scrollWidth <= innerWidth + 1")
                            .asBoolean())
                    .isTrue();
            assertThat(pilot.complaints()).isEmpty();
        }
    }

    @Test
    void theWordsCanBeHiddenSoThatTheyMustBeHeard() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser desk = new Browser(folder, 1280, 720);
                Browser pilot = new Browser(folder, 820, 1180)) {
            flown.fly(SEAT, flown.states(Habit.GOOD, 5).subList(0, 700));
            pilot.beforeEachPage(voices(true, false));
            pilot.open(flown.address() + "/student");
            desk.open(flown.address() + "/");
            pilot.untilText("#log", "intercept the PTL 066 radial");
            desk.click("#show-words");
            pilot.until("!document.getElementById('log').innerText.includes('intercept the PTL 066 radial')");
            pilot.until("document.getElementById('log').innerText.includes('on the assigned heading')");
            // He is called all the same.
            pilot.until("!document.getElementById('say-again').disabled");
            desk.untilText("#log", "intercept the PTL 066 radial");
            desk.click("#show-words");
            pilot.untilText("#log", "intercept the PTL 066 radial");
            assertThat(pilot.complaints()).isEmpty();
            assertThat(desk.complaints()).isEmpty();
        }
    }
}
