package org.rejoin.console.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;

import org.rejoin.console.Browser;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The plan before anything came to be drawn, as over a slow connection. */
@Timeout(value = 120, unit = TimeUnit.SECONDS)
class FirstPictureInBrowserTest {

    /** The stream is opened when the test says so. */
    private static final String SLOW = "const Source = window.EventSource; window.EventSource = function (path) {"
            + " const late = {}; window.come = () => { const real = new Source(path);"
            + " for (const on of ['onopen', 'onerror', 'onmessage']) { real[on] = late[on]; } }; return late; };";

    private static final String VIEW = "import('/main.js').then(({plan}) => plan.view)";

    @TempDir
    Path folder = Path.of("");

    /** The view when the first picture has come, after some keys or presses that came too soon. */
    private static String shown(Browser browser, String address, List<String> before) throws Exception {
        browser.open(address + "/");
        browser.until("typeof window.come === 'function'");
        for (String act : before) {
            browser.value(act);
        }
        browser.value("window.come()");
        browser.untilText("#title", " ");
        browser.until("import('/main.js').then(({plan}) => plan.ground !== null)");
        return browser.value(VIEW).toString();
    }

    @Test
    void keysAndTheWheelBeforeTheFirstPictureLeaveThePlanWhole() throws Exception {
        String wheel = "document.getElementById('plan').dispatchEvent("
                + "new WheelEvent('wheel', {deltaY: -100, cancelable: true}))";
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser browser = new Browser(folder, 1280, 720)) {
            browser.beforeEachPage(SLOW);
            String untouched = shown(browser, flown.address(), List.of());
            assertThat(untouched).contains("\"scale\":").doesNotContain("null", "\"scale\":0,");
            for (String act : List.of(
                    "document.getElementById('closer').click()",
                    "document.getElementById('wider').click()",
                    wheel,
                    key("ArrowLeft"),
                    key("ArrowDown"),
                    key("+"))) {
                assertThat(shown(browser, flown.address(), List.of(act)))
                        .as(act)
                        .isEqualTo(untouched);
            }
            assertThat(browser.complaints()).isEmpty();
        }
    }

    private static String key(String name) {
        return "document.getElementById('plan').dispatchEvent(new KeyboardEvent('keydown', {key: '" + name
                + "', cancelable: true}))";
    }
}
