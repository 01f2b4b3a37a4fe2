package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

import org.rejoin.console.Accessibility;
import org.rejoin.console.Browser;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A clearance by ear on the page of drills: spoken by the machine's own speech program, read back, measured, kept. */
@Timeout(value = 3, unit = TimeUnit.MINUTES)
@SuppressWarnings("try") // a program is held, not used
class ListeningDrillInBrowserTest {

    @TempDir
    Path folder = Path.of("");

    private static boolean installed(String program) {
        return Stream.of(System.getenv().getOrDefault("PATH", "").split(java.io.File.pathSeparator))
                .anyMatch(each -> Files.isExecutable(Path.of(each.isEmpty() ? "/nowhere" : each, program)));
    }

    private static void press(Browser browser, String selector) throws Exception {
        browser.until("document.querySelector('" + selector + "') !== null");
        browser.value("document.querySelector('" + selector + "').scrollIntoView({block: 'center'})");
        JsonNode at = browser.value("(() => { const r = document.querySelector('" + selector
                + "').getBoundingClientRect(); return [r.x + r.width / 2, r.y + r.height / 2]; })()");
        browser.press(at.get(0).asDouble(), at.get(1).asDouble());
    }

    @Test
    void aClearanceIsHeardOnceReadBackTypedMeasuredAndKept() throws Exception {
        assumeTrue(Browser.installed().isPresent(), "no browser on this machine");
        assumeTrue(installed("flite"), "no flite on this machine");
        Path home = folder.resolve("home");
        int feed = RealProgram.freePort();
        int page = RealProgram.freePagePort();
        String address = "http://127.0.0.1:" + page;
        boolean hears = installed("pocketsphinx_batch");
        List<String> args = new ArrayList<>(List.of(
                "room", "--home", home.toString(), "--port", String.valueOf(feed), "--page", String.valueOf(page)));
        if (hears) {
            args.add("--hear");
        }
        try (RealProgram program = RealProgram.start(folder, feed, List.of(), Map.of(), args);
                Browser pilot = new Browser(folder, 390, 844)) {
            program.awaitSaid("Ctrl-C closes the room");
            pilot.open(address + "/");
            JsonNode code = new ObjectMapper()
                    .readTree(pilot.value(
                                    "fetch('/api/code', {method: 'POST', headers: {'Content-Type': 'application/json'}, body: '{\"pilot\":\"Anna\"}'}).then((r) => r.text())")
                            .asText());
            pilot.open(address + "/enter#" + code.get("code").asText());
            pilot.untilText("#title", "My seat");
            pilot.open(address + "/drill");
            // Fast, so that the test is: the page says how fast it can be.
            press(pilot, ".wishes summary");
            pilot.until("document.getElementById('words-a-minute') !== null");
            pilot.value(
                    "(() => { const e = document.getElementById('words-a-minute'); e.value = '220'; e.dispatchEvent(new Event('change')); })()");
            press(pilot, "#call");
            pilot.untilText("#listen-state", "ATC is speaking");
            pilot.untilText("#listen-state", "Read it back");
            pilot.picture("drill-by-ear-390x844");
            assertThat(new Accessibility().violations(pilot)).isEmpty();
            // What ATC said stands nowhere on the page.
            assertThat(pilot.text("#app")).doesNotContain("ATC said:");
            pilot.type("#typed", "heading three five nine");
            pilot.click("#count");
            pilot.untilText("#counted-note", "ATC said:");
            assertThat(pilot.text("#counted-note")).contains("Copied in ", "read back in ", "Heard once");
            assertThat(pilot.text("#heard")).contains("callsign", "must be read back");
            pilot.value("document.getElementById('listen-title').scrollIntoView()");
            pilot.picture("drill-by-ear-marked-390x844");
            assertThat(new Accessibility().violations(pilot)).isEmpty();
            assertThat(pilot.value("document.documentElement.scrollWidth <= innerWidth + 1")
                            .asBoolean())
                    .isTrue();
            // In the record book, with both times; the next one is another.
            JsonNode rows = pilot.value("fetch('/api/attempts').then((r) => r.json()).then((l) => l.rows)");
            assertThat(rows).hasSize(1);
            assertThat(rows.get(0).path("lesson").asText()).startsWith("Listening: ");
            try (Stream<Path> files = Files.walk(home.resolve("attempts"))) {
                List<Path> attempts =
                        files.filter(each -> each.endsWith("attempt.json")).toList();
                assertThat(attempts).hasSize(1);
                assertThat(Files.readString(attempts.get(0))).contains("copy_s", "read_s", "\"again\"");
            }
            press(pilot, "#call");
            pilot.untilText("#listen-state", "ATC is speaking");
            pilot.until("document.getElementById('counted-note') === null");
            press(pilot, "#say-again");
            pilot.untilText(".radio", "asked to say again: once");
            if (hears) {
                isReadBackAloud(pilot);
            }
            assertThat(pilot.complaints()).isEmpty();
        }
    }

    /** The drill that waits is read back by another voice, word for word: nothing of it is called wrong. */
    private void isReadBackAloud(Browser pilot) throws Exception {
        JsonNode drill = pilot.value("fetch('/api/listen').then((r) => r.json())");
        Path spoken = folder.resolve("spoken.wav");
        Process flite = new ProcessBuilder(
                        "flite", "-voice", "rms", "-t", drill.path("spoken").asText(), "-o", spoken.toString())
                .start();
        assertThat(flite.waitFor(30, TimeUnit.SECONDS)).isTrue();
        String wav = Base64.getEncoder().encodeToString(Files.readAllBytes(spoken));
        JsonNode heard = pilot.value("fetch('/api/speech/heard?exercise="
                + drill.path("id").asText()
                + "', {method: 'POST', headers: {'Content-Type': 'audio/wav'}, body: Uint8Array.from(atob('" + wav
                + "'), (c) => c.charCodeAt(0))}).then((r) => r.json())");
        assertThat(heard.path("elements")).as(heard.toString()).isNotEmpty();
        assertThat(heard.path("elements").findValuesAsText("verdict"))
                .as(heard.toString())
                .doesNotContain("wrong", "right", "missing")
                .contains("heard");
        JsonNode counted =
                pilot.value("fetch('/api/listen', {method: 'POST', headers: {'Content-Type': 'application/json'},"
                        + " body: JSON.stringify({id: '" + drill.path("id").asText() + "', how: 'heard', words: "
                        + heard.path("words") + "})}).then((r) => r.json())");
        assertThat(counted.path("outcome").asText()).as(counted.toString()).isIn("right", "unclear");
    }
}
