package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Base64;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

import org.rejoin.console.Accessibility;
import org.rejoin.console.Browser;

import com.fasterxml.jackson.databind.JsonNode;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** A clearance by ear on the page of drills: spoken by the machine's own speech program, read back, measured, kept. */
@Timeout(value = 3, unit = TimeUnit.MINUTES)
@SuppressWarnings("try") // a program is held, not used
class ListeningDrillInBrowserTest extends RealRoom {

    @Test
    void aClearanceIsHeardOnceReadBackTypedMeasuredAndKept() throws Exception {
        assumeTrue(Browser.installed().isPresent(), "no browser on this machine");
        assumeTrue(installed("flite"), "no flite on this machine");
        boolean hears = installed("pocketsphinx_batch");
        try (RealProgram program = hears ? room("--hear") : room();
                Browser pilot = new Browser(folder, 390, 844)) {
            pilot.open(address() + "/");
            JsonNode code = Ran.json(pilot.post("/api/code", "{\"pilot\":\"Anna\"}"));
            pilot.open(address() + "/enter#" + code.get("code").asText());
            pilot.untilText("#title", "My seat");
            pilot.open(address() + "/drill");
            // Fast, so that the test is: the page says how fast it can be.
            pilot.press(".wishes summary");
            pilot.until("document.getElementById('words-a-minute') !== null");
            pilot.value(
                    "(() => { const e = document.getElementById('words-a-minute'); e.value = '220'; e.dispatchEvent(new Event('change')); })()");
            pilot.press("#call");
            pilot.untilText("#listen-state", "ATC is speaking");
            pilot.untilText("#listen-state", "Read it back");
            pilot.picture("drill-by-ear-390x844");
            assertThat(new Accessibility().violations(pilot)).isEmpty();
            // What ATC said stands nowhere on the page.
            assertThat(pilot.text("#app")).doesNotContain("ATC said:");
            pilot.type("#typed", "heading three five nine");
            pilot.click("#count");
            pilot.untilText("#counted-note", "ATC said:");
            assertThat(pilot.text("#counted-note"))
                    .contains("Heard once")
                    .doesNotContain("Copied in ", "read back in ");
            assertThat(pilot.text("#heard")).contains("callsign", "must be read back");
            pilot.value("document.getElementById('listen-title').scrollIntoView()");
            pilot.picture("drill-by-ear-marked-390x844");
            assertThat(new Accessibility().violations(pilot)).isEmpty();
            assertThat(pilot.value("document.documentElement.scrollWidth <= innerWidth + 1")
                            .asBoolean())
                    .isTrue();
            // In the record book, without times of the keyboard; the next one is another.
            JsonNode rows = pilot.value("fetch('/api/attempts').then((r) => r.json()).then((l) => l.rows)");
            assertThat(rows).hasSize(1);
            assertThat(rows.get(0).path("lesson").asText()).startsWith("Listening: ");
            try (Stream<Path> files = Files.walk(home.resolve("attempts"))) {
                List<Path> attempts =
                        files.filter(each -> each.endsWith("attempt.json")).toList();
                assertThat(attempts).hasSize(1);
                assertThat(Files.readString(attempts.get(0)))
                        .contains("\"again\"")
                        .doesNotContain("copy_s", "read_s");
            }
            pilot.press("#call");
            pilot.untilText("#listen-state", "ATC is speaking");
            pilot.until("document.getElementById('counted-note') === null");
            pilot.press("#say-again");
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
                        + " body: JSON.stringify({id: '" + drill.path("id").asText()
                        + "', how: 'heard', copy_s: 2.5, read_s: 6.5, words: "
                        + heard.path("words") + "})}).then((r) => r.json())");
        assertThat(counted.path("outcome").asText()).as(counted.toString()).isIn("right", "unclear");
    }
}
