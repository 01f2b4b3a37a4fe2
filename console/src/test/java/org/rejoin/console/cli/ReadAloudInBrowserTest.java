package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.ByteArrayInputStream;
import java.io.SequenceInputStream;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import javax.sound.sampled.AudioFileFormat;
import javax.sound.sampled.AudioInputStream;
import javax.sound.sampled.AudioSystem;

import org.rejoin.console.Accessibility;
import org.rejoin.console.Browser;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;

import com.fasterxml.jackson.databind.JsonNode;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/**
 * A clearance heard and read back aloud: the real program with the machine's speech programs, a real browser whose
 * microphone is fed with a voice from a file.
 */
@Timeout(value = 4, unit = TimeUnit.MINUTES)
@SuppressWarnings("try") // a program is held, not used
class ReadAloudInBrowserTest extends RealRoom {

    /** What goes out of the page's loudspeaker: how long, how loud; and no voice of the browser. */
    private static final String LISTEN = """
            window.played = [];
            const start = AudioBufferSourceNode.prototype.start;
            AudioBufferSourceNode.prototype.start = function (...when) {
              if (this.context instanceof AudioContext) {
                const x = this.buffer.getChannelData(0);
                window.played.push({ seconds: this.buffer.duration, peak: x.reduce((most, each) => Math.max(most, Math.abs(each)), 0) });
              }
              return start.apply(this, when);
            };
            localStorage.setItem('radio', JSON.stringify({ words_a_minute: 220 }));
            """;

    /** Silence before and after, so that a loop of the file never begins within the words, seconds. */
    private static final double QUIET_S = 2;

    @BeforeEach
    void whatItNeedsIsThere() throws Exception {
        assumeTrue(Browser.installed().isPresent(), "no browser on this machine");
        assumeTrue(installed("flite"), "no flite on this machine");
        assumeTrue(installed("pocketsphinx_batch"), "no pocketsphinx on this machine");
    }

    /** A voice that reads these words, as a microphone hears it. */
    private Path said(String words, String voice) throws Exception {
        Path spoken = folder.resolve("spoken.wav");
        Process flite = new ProcessBuilder("flite", "-voice", voice, "-t", words, "-o", spoken.toString())
                .inheritIO()
                .start();
        assertThat(flite.waitFor(30, TimeUnit.SECONDS)).isTrue();
        Path file = folder.resolve("microphone.wav");
        try (AudioInputStream sound = AudioSystem.getAudioInputStream(spoken.toFile())) {
            byte[] voiceOctets = sound.readAllBytes();
            byte[] quiet = new byte[2 * (int) (QUIET_S * sound.getFormat().getFrameRate())];
            AudioSystem.write(
                    new AudioInputStream(
                            new SequenceInputStream(
                                    new SequenceInputStream(
                                            new ByteArrayInputStream(new byte[quiet.length / 4]),
                                            new ByteArrayInputStream(voiceOctets)),
                                    new ByteArrayInputStream(quiet)),
                            sound.getFormat(),
                            (quiet.length / 4 + voiceOctets.length + quiet.length) / 2),
                    AudioFileFormat.Type.WAVE,
                    file.toFile());
        }
        return file;
    }

    private static double seconds(Path wav) throws Exception {
        try (AudioInputStream sound = AudioSystem.getAudioInputStream(wav.toFile())) {
            return sound.getFrameLength() / sound.getFormat().getFrameRate();
        }
    }

    private static List<String> fedFrom(Path wav) {
        return List.of(
                "--use-fake-device-for-media-stream",
                "--use-fake-ui-for-media-stream",
                "--use-file-for-fake-audio-capture=" + wav);
    }

    /** A page that has just been opened draws it once more, and what was in focus is gone: until one keeps it. */
    private static void focusOnTalk(Browser browser) throws Exception {
        browser.until("""
                (() => {
                    const before = window.focusedBefore;
                    window.focusedBefore = document.getElementById('talk');
                    window.focusedBefore?.focus();
                    return before && before === window.focusedBefore && document.activeElement === before;
                })()""");
    }

    private static void space(Browser browser, boolean down) throws Exception {
        browser.call(
                "Input.dispatchKeyEvent",
                "{\"type\":\"" + (down ? "keyDown\",\"text\":\" " : "keyUp")
                        + "\",\"key\":\" \",\"code\":\"Space\",\"windowsVirtualKeyCode\":32}");
    }

    /** Anna sits at seat 1 with her tablet, and has pressed the radio on. */
    private void seated(Browser desk, Browser pilot) throws Exception {
        desk.open(address() + "/");
        desk.untilText(".seat-row", "Begin at");
        JsonNode code = Ran.json(desk.post("/api/code", "{\"pilot\":\"Anna\"}"));
        desk.post("/api/assign", "{\"seat\":\"s1\",\"pilot\":\"Anna\",\"lesson\":\"radial-outbound\"}");
        pilot.beforeEachPage(LISTEN);
        pilot.open(address() + "/enter#" + code.get("code").asText());
        pilot.untilText("#strip", "Anna");
        pilot.press("#radio-on");
        pilot.until("document.getElementById('radio-on').getAttribute('aria-pressed') === 'true'");
    }

    /** Bob has a code, and no business at Anna's seat: he hears nothing, and nothing is heard of him. */
    private void nobodyElseTalksThere(Browser desk) throws Exception {
        HttpClient http = HttpClient.newHttpClient();
        JsonNode code = Ran.json(desk.post("/api/code", "{\"pilot\":\"Bob\"}"));
        String cookie = sent(http, "/enter", "application/json", "{\"token\":" + code.get("code") + "}", "")
                .headers()
                .firstValue("Set-Cookie")
                .orElseThrow()
                .replaceFirst(";.*", "");
        String seat = "seat=s1&clearance=1";
        HttpRequest said = HttpRequest.newBuilder(URI.create(address() + "/api/speech/said?" + seat))
                .header("Cookie", cookie)
                .build();
        assertThat(http.send(said, HttpResponse.BodyHandlers.ofString()).statusCode())
                .isEqualTo(403);
        String wav = Files.readString(folder.resolve("microphone.wav"), StandardCharsets.ISO_8859_1);
        for (String path : List.of("heard", "calibrate")) {
            HttpResponse<String> refused = sent(http, "/api/speech/" + path + "?" + seat, "audio/wav", wav, cookie);
            assertThat(refused.statusCode()).as(path + ": " + refused.body()).isEqualTo(403);
        }
        assertThat(sent(http, "/api/speech/again", "application/json", "{\"seat\":\"s1\",\"clearance\":1}", cookie)
                        .statusCode())
                .isEqualTo(403);
        String readback = "{\"do\":\"readback\",\"show\":\"s1\",\"clearance\":1,\"text\":\"then as filed\"}";
        assertThat(sent(http, "/order", "application/json", readback, cookie).statusCode())
                .isEqualTo(403);
    }

    private HttpResponse<String> sent(HttpClient http, String path, String type, String body, String cookie)
            throws Exception {
        HttpRequest.Builder request = HttpRequest.newBuilder(URI.create(address() + path))
                .header("Origin", address())
                .header("Content-Type", type)
                .POST(HttpRequest.BodyPublishers.ofString(body, StandardCharsets.ISO_8859_1));
        if (!cookie.isEmpty()) {
            request.header("Cookie", cookie);
        }
        return http.send(request.build(), HttpResponse.BodyHandlers.ofString());
    }

    @Test
    void aClearanceIsHeardThroughTheRadioReadBackAloudMarkedAndTheMarkIsChanged() throws Exception {
        Path microphone = said(
                "heading one one zero, intercept petrel zero six six radial, join victor forty, then as filed,"
                        + " maintain six thousand",
                "slt");
        try (RealProgram program = room("--hear");
                Simulator simulator = new Simulator(feed, 3).fly(LessonReader.read("radial-outbound"), Habit.GOOD);
                Browser desk = new Browser(folder, 1280, 800);
                Browser pilot = new Browser(folder, 820, 1180, fedFrom(microphone))) {
            seated(desk, pilot);
            // Spoken once, through the radio, as it is issued.
            pilot.untilText("#radio-state", "ATC is speaking");
            pilot.untilText("#radio-state", "Read it back");
            JsonNode played = pilot.value("window.played");
            assertThat(played).hasSize(1);
            assertThat(played.get(0).get("seconds").asDouble()).isBetween(4.0, 15.0);
            assertThat(played.get(0).get("peak").asDouble()).isBetween(0.69, 0.71);
            // Again on request: the flight's log has it.
            pilot.key("s");
            pilot.untilText("#radio-state", "say again: once");
            pilot.until("window.played.length === 2");
            pilot.press("#say-again");
            pilot.until("window.played.length === 3");
            desk.open(address() + "/seat?s=s1");
            desk.untilText("#log", "say again: clearance 1");

            nobodyElseTalksThere(desk);

            // Read back by the space key: shown, and nothing counts yet.
            space(pilot, true);
            pilot.untilText("#talk-state", "Talk now");
            pilot.until("document.querySelector('.talk meter').value > 0.05");
            pilot.picture("read-aloud-talking-820x1180");
            Thread.sleep((long) ((seconds(microphone) - QUIET_S * 0.75) * 1000));
            space(pilot, false);
            pilot.until("document.getElementById('heard') !== null");
            pilot.picture("read-aloud-heard-820x1180");
            assertThat(new Accessibility().violations(pilot)).isEmpty();
            assertThat(pilot.value("[...document.querySelectorAll('#heard li')].map((e) => e.dataset.verdict).join()")
                            .asText())
                    .as(pilot.text("#heard"))
                    // All but the callsign, which was left out; what is right or missing is told when it counts.
                    .matches("heard(,heard){5}");
            assertThat(pilot.text("#heard")).doesNotContain("callsign").doesNotContain("ATC said");
            assertThat(desk.text("#log")).doesNotContain("Readback:");
            pilot.click("#count");
            pilot.untilText("#talk-state", "Counted");
            pilot.picture("read-aloud-counted-820x1180");

            // The instructor sees it with its times, and changes a mark.
            desk.untilText("#taps", "Readback of clearance 1");
            assertThat(desk.text("#taps")).contains("by voice: wrong", "s after it was issued", "s long");
            desk.value("document.getElementById('taps').scrollIntoView({block: 'center'})");
            desk.picture("read-aloud-instructor-1280x800");
            desk.value(
                    "[...document.querySelectorAll('#taps button')].find((b) => b.innerText.includes('heading')).click()");
            desk.click("#keep-readback");
            desk.untilText("#taps", "as you marked it: wrong");
            assertThat(new Accessibility().violations(desk)).isEmpty();
            try (Stream<Path> files = Files.walk(home)) {
                Path kept = files.filter(each -> each.endsWith("readbacks.jsonl"))
                        .findFirst()
                        .orElseThrow();
                assertThat(Files.readAllLines(kept)).hasSize(2);
                assertThat(Files.readString(kept)).contains("heard", "marked");
            }

            // Another clearance: the same words are wrong now, and nothing tells what ATC said before they count.
            pilot.size(390, 844);
            desk.type("#words", "fly heading 090, intercept V40, resume own navigation");
            desk.click("#issue");
            pilot.untilText("#radio-state", "ATC is speaking");
            pilot.until("document.getElementById('heard') === null");
            focusOnTalk(pilot);
            space(pilot, true);
            pilot.untilText("#talk-state", "Talk now");
            Thread.sleep((long) (seconds(microphone) * 1000));
            space(pilot, false);
            pilot.until("document.getElementById('heard') !== null");
            pilot.value("document.getElementById('talk').scrollIntoView()");
            pilot.picture("read-aloud-wrong-390x844");
            assertThat(pilot.text("#heard")).doesNotContain("zero niner zero").doesNotContain("zero nine zero");
            assertThat(new Accessibility().violations(pilot)).isEmpty();
            // Tried again, then typed.
            pilot.click("#try-again");
            pilot.until("document.getElementById('heard') === null");
            pilot.type("#typed", "heading zero niner zero, intercept victor forty, REJOIN1");
            pilot.key("Enter");
            pilot.untilText("#talk-state", "Counted");
            assertThat(pilot.value(
                                    "[...document.querySelectorAll('#heard li')].map((e) => e.dataset.verdict + e.dataset.must).join()")
                            .asText())
                    .contains("righttrue", "missingfalse")
                    .doesNotContain("wrong", "unclear");
            desk.untilText("#taps", "Readback of clearance 2");
            assertThat(desk.text("#taps")).contains("typed: ");
            assertThat(pilot.value("document.documentElement.scrollWidth <= innerWidth + 1")
                            .asBoolean())
                    .isTrue();
            // As high as a thumb is wide (WCAG 2.1, 2.5.5: 44 CSS pixels).
            assertThat(pilot.value("document.getElementById('talk').getBoundingClientRect().height")
                            .asDouble())
                    .isGreaterThanOrEqualTo(44);

            // The controller takes it back: that is said, and the clearance before is in force again without being
            // called.
            pilot.until("window.played.length === 4");
            desk.click("#cancel");
            pilot.untilText("#radio-state", "ATC: disregard. As cleared before: nothing to read back.");
            pilot.until("window.played.length === 5");
            assertThat(pilot.value("window.played[4].seconds").asDouble()).isLessThan(4);
            pilot.picture("read-aloud-disregard-390x844");

            // What is given back is not read back; the next clearance is.
            assertThat(pilot.value("document.getElementById('talk') === null").asBoolean())
                    .isTrue();
            desk.type("#words", "fly heading 095, intercept V40, resume own navigation");
            desk.click("#issue");
            pilot.until("document.getElementById('talk') !== null");

            // No microphone: one line says why and what to do.
            pilot.beforeEachPage(
                    "navigator.mediaDevices.getUserMedia = async () => { throw new DOMException('', 'NotAllowedError'); }");
            pilot.open(address() + "/own");
            pilot.until("document.getElementById('talk') !== null");
            focusOnTalk(pilot);
            space(pilot, true);
            pilot.untilText(".radio", "The microphone is not allowed.");
            space(pilot, false);
            pilot.beforeEachPage("Object.defineProperty(window, 'isSecureContext', {value: false})");
            pilot.open(address() + "/own");
            pilot.untilText(
                    "#no-microphone", "Start the program with --tls, or open the page on the machine it runs on");
            assertThat(pilot.value("document.getElementById('talk') === null").asBoolean())
                    .isTrue();
            assertThat(pilot.complaints()).isEmpty();
            assertThat(desk.complaints()).isEmpty();
        }
    }
}
