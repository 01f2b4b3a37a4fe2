package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.rejoin.console.Browser;

import com.fasterxml.jackson.databind.JsonNode;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A live flight with its page, over real sockets and in a real browser, where there is one. */
@Timeout(value = 170, unit = TimeUnit.SECONDS)
class LivePageTest {

    private static final Pattern PAGE = Pattern.compile("page for the instructor: (http://127\\.0\\.0\\.1:\\d+)/");

    @TempDir
    Path folder = Path.of("");

    private static Ran run(StringWriter err, String... args) {
        StringWriter out = new StringWriter();
        int exit = Rejoin.run(new PrintWriter(out, true), new PrintWriter(err, true), args);
        return new Ran(exit, out.toString(), err.toString());
    }

    private static String page(StringWriter err) throws Exception {
        for (int i = 0; i < 200; i++) {
            Matcher found = PAGE.matcher(err.toString());
            if (found.find()) {
                return found.group(1);
            }
            Thread.sleep(50);
        }
        throw new AssertionError("no page: " + err);
    }

    @Test
    void aClearanceTypedOnThePageIsFlownAndGradedAndADebriefGivesTheSame() throws Exception {
        assumeTrue(Browser.installed().isPresent(), "no browser on this machine");
        Path recording = folder.resolve("flight");
        StringWriter err = new StringWriter();
        var pool = Executors.newSingleThreadExecutor();
        try (Browser browser = new Browser(folder, 1280, 720)) {
            Future<Ran> flying = pool.submit(() -> run(
                    err,
                    "fly",
                    "--page",
                    "0",
                    "--page-wait",
                    "--page-linger",
                    "20",
                    "--rate",
                    "25",
                    "--json",
                    "--out",
                    recording.toString(),
                    "heading-to-airway"));
            browser.open(page(err) + "/");
            browser.until("document.getElementById('stage').textContent === 'waiting for the start'");
            browser.untilText("#next", "Press “Start the lesson” when the pilot is ready.");
            browser.click("#start");
            browser.until("document.getElementById('log').textContent.includes('on the assigned heading, 190')");
            browser.type("#words", "turn left heading 160, intercept V40, resume own navigation");
            browser.value("document.getElementById('altitude').value = '6000'");
            browser.click("#preview");
            browser.until("document.getElementById('worked').textContent.startsWith('Worked out')");
            browser.click("#issue");
            browser.until("document.getElementById('worked').textContent.startsWith('Issued')");
            browser.type("#remark", "looked at the chart too long");
            browser.value("document.getElementById('remark-form').requestSubmit()");
            browser.until("document.getElementById('log').textContent.includes('looked at the chart')");
            browser.until("document.getElementById('log').textContent.includes('on the assigned heading, 160')");
            browser.picture("live-1280x720");
            browser.until("document.getElementById('log').textContent.includes('amendment complete')");
            browser.until("document.getElementById('stage').textContent.startsWith('flight over')");
            browser.until("document.getElementById('score-of').textContent === 'grade'");
            browser.picture("live-over-1280x720");
            assertThat(browser.complaints()).isEmpty();
            browser.open("about:blank");

            Ran flown = flying.get(60, TimeUnit.SECONDS);
            assertThat(flown.exit()).as(flown.err()).isZero();
        } finally {
            pool.shutdownNow();
        }
        Path again = folder.resolve("again");
        Ran debriefed = Ran.run("debrief", recording.toString(), "--json", "--out", again.toString());
        assertThat(debriefed.exit()).as(debriefed.err()).isZero();
        JsonNode debrief = debriefed.json();
        assertThat(debrief.get("remarks").get(0).get("text").asText()).isEqualTo("looked at the chart too long");
        assertThat(debrief.get("events").findValuesAsText("text"))
                .contains("turn left heading 160, intercept V40, resume own navigation, maintain 6000");
        assertThat(Files.readString(again.resolve("log.jsonl")))
                .isEqualTo(Files.readString(recording.resolve("log.jsonl")));
        assertThat(Files.readString(again.resolve("grade.json")))
                .isEqualTo(Files.readString(recording.resolve("grade.json")));
        assertThat(Files.readString(again.resolve("report.html"))).contains("looked at the chart too long");
    }

    @Test
    void aPageForTheNetworkNeedsAToken() {
        Ran ran = Ran.run("fly", "--page", "0", "--page-bind", "0.0.0.0");
        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.err()).contains("--page-token").hasLineCount(1);
        assertThat(Ran.run("fly", "--page-token", "auto").exit()).isEqualTo(2);
    }

    @Test
    void aLessonMayStandAfterPage() {
        StringWriter err = new StringWriter();
        Ran ran = run(
                err,
                "fly",
                "--rate",
                "900",
                "--json",
                "--page-linger",
                "0",
                "--page-bind",
                "127.0.0.2",
                "--page",
                "radial-inbound");
        assertThat(ran.exit()).as(err.toString()).isZero();
        assertThat(ran.err()).contains("http://127.0.0.2:8047/");
    }
}
