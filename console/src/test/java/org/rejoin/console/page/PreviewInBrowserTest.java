package org.rejoin.console.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.TimeUnit;

import org.rejoin.console.Browser;
import org.rejoin.console.practice.Habit;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** What is worked out stands beside the seat and the words it was worked out for, and beside no others. */
@Timeout(value = 150, unit = TimeUnit.SECONDS)
class PreviewInBrowserTest {

    private static final String FIRST = "127.0.0.1:40000 FIRST";
    private static final String SECOND = "127.0.0.1:40001 SECOND";

    /** Answers to orders come, and are kept back from the page until the test lets them go. */
    private static final String HOLD_ANSWERS = "window.held = []; window.holding = false; const sent = window.fetch;"
            + " window.fetch = (...all) => sent(...all).then((reply) => window.holding"
            + " ? new Promise((go) => window.held.push(() => go(reply))) : reply);";

    private static final String LET_GO = "window.holding = false; window.held.splice(0).forEach((go) => go());"
            + " new Promise((go) => setTimeout(go, 100)).then(() => true)";

    private static final String PREVIEWED = "import('/model.js').then((m) => m.model.preview !== null)";

    @TempDir
    Path folder = Path.of("");

    /** Two seats in flight, the first chosen. */
    private static Browser opened(FlownPage flown, Path folder) throws Exception {
        flown.fly(FIRST, flown.states(Habit.GOOD, 5).subList(0, 700));
        flown.fly(SECOND, flown.states(Habit.LATE, 5).subList(0, 650));
        Browser browser = new Browser(folder, 1280, 720);
        browser.beforeEachPage(HOLD_ANSWERS);
        browser.open(flown.address() + "/");
        browser.until("document.querySelectorAll('#seats button').length === 2");
        choose(browser, FIRST);
        return browser;
    }

    private static String button(String seat) {
        return "#seats button[data-seat=\"" + seat + "\"]";
    }

    private static void choose(Browser browser, String seat) throws Exception {
        browser.click(button(seat));
        browser.until("document.querySelector('" + button(seat) + "').getAttribute('aria-pressed') === 'true'");
    }

    private static void words(Browser browser, String text) throws Exception {
        browser.value("document.getElementById('words').value = ''");
        browser.type("#words", text);
    }

    @Test
    void anotherSeatIsNotShownWhatWasWorkedOutForTheOneBefore() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser browser = opened(flown, folder)) {
            words(browser, "fly heading 080, intercept V40, resume own navigation");
            browser.key("Enter");
            browser.untilText("#worked", "Worked out, not issued");
            browser.until(PREVIEWED);
            choose(browser, SECOND);
            assertThat(browser.text("#worked")).isEmpty();
            assertThat(browser.value(PREVIEWED).asBoolean()).isFalse();
            // Nor are the words left standing for another seat, whose name is on the button.
            assertThat(browser.value("document.getElementById('words').value").asText())
                    .isEmpty();
            browser.untilText("#issue", "Issue to " + SECOND);
            words(browser, "fly heading 080, intercept V40, resume own navigation");
            browser.click("#issue");
            browser.untilText("#worked", "Issued to " + SECOND);
            assertThat(flown.spoken).singleElement().asString().startsWith(SECOND + " ");
            // Nor what was issued to one.
            choose(browser, FIRST);
            assertThat(browser.text("#worked")).isEmpty();
            assertThat(browser.complaints()).isEmpty();
        }
    }

    @Test
    void anAnswerForASeatNoLongerChosenIsNotShown() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser browser = opened(flown, folder)) {
            words(browser, "fly heading 080, intercept V40, resume own navigation");
            browser.value("window.holding = true");
            browser.key("Enter");
            browser.until("window.held.length === 1");
            choose(browser, SECOND);
            browser.value(LET_GO);
            assertThat(browser.value(PREVIEWED).asBoolean()).isFalse();
            assertThat(browser.text("#worked")).isEmpty();
            // What was ordered is done all the same, and for whom is said.
            choose(browser, FIRST);
            words(browser, "fly heading 080, intercept V40, resume own navigation");
            browser.value("window.holding = true");
            browser.click("#issue");
            browser.until("window.held.length === 1");
            choose(browser, SECOND);
            browser.value(LET_GO);
            assertThat(browser.text("#worked")).isEqualTo("Issued to " + FIRST + ".");
            assertThat(flown.spoken).singleElement().asString().startsWith(FIRST + " ");
            assertThat(browser.complaints()).isEmpty();
        }
    }

    @Test
    void aLateAnswerDoesNotBringBackWordsThatAreGone() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser browser = opened(flown, folder)) {
            words(browser, "fly heading 090, intercept V40, resume own navigation");
            browser.value("window.holding = true");
            browser.key("Enter");
            browser.until("window.held.length === 1");
            words(browser, "fly heading 080, intercept V40, resume own navigation");
            browser.value(LET_GO);
            assertThat(browser.value(PREVIEWED).asBoolean()).isFalse();
            assertThat(browser.text("#worked")).isEmpty();
            // Of two answers in the wrong order the one to the words in the box stays.
            browser.value("window.holding = true");
            browser.key("Enter");
            browser.until("window.held.length === 1");
            words(browser, "fly heading 100, intercept V40, resume own navigation");
            browser.key("Enter");
            browser.until("window.held.length === 2");
            browser.value("window.held.reverse()");
            browser.value(LET_GO);
            browser.untilText("#worked", "Worked out, not issued");
            assertThat(browser.value("import('/model.js').then((m) => m.model.preview.spoken)")
                            .asText())
                    .startsWith("fly heading one zero zero");
            assertThat(flown.spoken).isEmpty();
            assertThat(browser.complaints()).isEmpty();
        }
    }
}
