package org.rejoin.console.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;

import org.rejoin.console.Accessibility;
import org.rejoin.console.Browser;
import org.rejoin.console.practice.Habit;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** WCAG 2.1 AA by axe-core's rules, both looks, and the keyboard, on the live pages. */
@Timeout(value = 150, unit = TimeUnit.SECONDS)
class AccessibleInBrowserTest {

    /** What a keyboard must reach: controls that are there for the eye. */
    private static final String CONTROLS =
            "[...document.querySelectorAll('button, input, textarea, summary, [tabindex=\"0\"]')]"
                    + ".filter((e) => e.checkVisibility() && !e.disabled)";

    @TempDir
    Path folder = Path.of("");

    /** Two seats, one with a fault, with something in every part of the page. */
    private static void flyTwo(FlownPage flown) throws Exception {
        flown.fly("127.0.0.1:40000 PUPIL", flown.states(Habit.FLY_THROUGH, 5).subList(0, 2400));
        flown.fly("127.0.0.1:40001 OTHER", flown.states(Habit.GOOD, 5).subList(0, 700));
    }

    private static void bothLooks(Browser browser, String where) throws Exception {
        Accessibility rules = new Accessibility();
        for (String look : List.of("first", "other")) {
            assertThat(rules.violations(browser))
                    .as(where + ", " + look + " look")
                    .isEmpty();
            browser.click("#theme");
        }
    }

    @Test
    void theInstructorsPage() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser browser = new Browser(folder, 1280, 720)) {
            flyTwo(flown);
            browser.open(flown.address() + "/");
            browser.until("document.querySelectorAll('#log .fault').length > 0");
            browser.until("document.querySelectorAll('#faults li').length > 0");
            browser.click("summary");
            browser.click("#measure");
            browser.type("#words", "fly heading 080, intercept the XYZ 250 radial");
            browser.click("#preview");
            browser.until("!document.getElementById('caret').hidden");
            browser.type("#readback", "heading 090, intercept victor 40");
            browser.key("Enter");
            browser.until("document.querySelectorAll('#checked .warning').length > 0");
            bothLooks(browser, "instructor");
            assertThat(browser.complaints()).isEmpty();
        }
    }

    @Test
    void theStudentsPageAndTheDoor() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser browser = new Browser(folder, 820, 1180)) {
            flyTwo(flown);
            browser.open(flown.address() + "/student");
            browser.until("document.querySelectorAll('#log .fault').length > 0");
            browser.click("summary");
            bothLooks(browser, "student");
            browser.open(flown.address() + "/enter");
            browser.until("document.getElementById('entry') !== null");
            assertThat(new Accessibility().violations(browser)).isEmpty();
            assertThat(browser.complaints()).isEmpty();
        }
    }

    @Test
    void theKeyboardReachesEveryControlAndShowsWhereItIs() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser browser = new Browser(folder, 1280, 720)) {
            flyTwo(flown);
            for (String path : List.of("/", "/student")) {
                browser.open(flown.address() + path);
                browser.until("document.querySelectorAll('#log .fault').length > 0");
                browser.until(
                        "document.getElementById('radio') === null || document.querySelector('.wishes') !== null");
                int controls = browser.value(CONTROLS + ".length").asInt();
                assertThat(controls).isGreaterThan(8);
                // The first stop leads past the head, where the lesson is ended.
                browser.key("Tab");
                assertThat(browser.value("document.activeElement.innerText").asText())
                        .isEqualTo("To the content");
                browser.value(CONTROLS + ".forEach((e, i) => { e.dataset.control = i; })");
                List<Integer> reached = new ArrayList<>();
                for (int i = 0; i < controls; i++) {
                    browser.key("Tab");
                    reached.add(browser.value("Number(document.activeElement.dataset.control ?? -1)")
                            .asInt());
                    assertThat(browser.value(
                                            "(() => { const s = getComputedStyle(document.activeElement);"
                                                    + " return s.outlineStyle !== 'none' && parseFloat(s.outlineWidth) >= 2; })()")
                                    .asBoolean())
                            .as("focus seen at " + browser.value("document.activeElement.outerHTML"))
                            .isTrue();
                }
                assertThat(reached).as(path).doesNotHaveDuplicates().doesNotContain(-1);
            }
        }
    }
}
