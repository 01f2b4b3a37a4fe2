package org.rejoin.console.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.logging.Logger;

import org.rejoin.console.Browser;
import org.rejoin.console.practice.Habit;
import org.rejoin.protocol.AircraftState;

import com.fasterxml.jackson.databind.JsonNode;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.api.io.TempDir;

/**
 * What the instructor's page with twelve seats at 20 Hz takes of a browser, and, looked at anew, how many frames a second
 * it makes: who asks for each frame makes the browser draw sixty, so the two are measured apart. Judges nothing; run by
 * hand with {@code -Drejoin.frames=SECONDS} on a quiet machine.
 */
@EnabledIfSystemProperty(named = "rejoin.frames", matches = "\\d+")
class FrameCostTest {

    private static final int SEATS = 12;
    private static final int HZ = 20;

    /** Track that is there before, samples. */
    private static final int BEFORE = 400 * HZ;

    /** From the beginning of each frame to the task after its drawing, and from frame to frame, milliseconds. */
    private static final String WATCH = "window.took = []; window.apart = []; { let before = 0;"
            + " const channel = new MessageChannel(); let stamp = 0;"
            + " channel.port1.onmessage = () => window.took.push(performance.now() - stamp);"
            + " const each = (t) => { if (before) { window.apart.push(t - before); } before = t; stamp = t;"
            + " channel.port2.postMessage(0); if (window.watching) { requestAnimationFrame(each); } };"
            + " window.watch = (on) => { window.watching = on; before = 0; window.took.length = window.apart.length = 0;"
            + " if (on) { requestAnimationFrame(each); } }; }";

    @TempDir
    Path folder = Path.of("");

    @Test
    void twelveSeatsAtTwentyHertz() throws Exception {
        int seconds = Integer.getInteger("rejoin.frames", 10);
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser browser = new Browser(folder, 1280, 720)) {
            List<List<AircraftState>> flights = new ArrayList<>();
            for (int i = 0; i < SEATS; i++) {
                Habit[] habits = Habit.values();
                flights.add(flown.states(habits[i % habits.length], HZ));
                flown.fly(label(i), flights.get(i).subList(0, BEFORE));
            }
            browser.open(flown.address() + "/");
            browser.until("document.querySelectorAll('#seats button').length === " + SEATS);
            browser.until("document.querySelectorAll('#log .event').length > 2");
            browser.call("Performance.enable", "{}");
            browser.call("Network.disable", "{}"); // or each piece of the stream is told to the test as well
            browser.value(WATCH);
            int from = BEFORE;
            for (String look : List.of("all", "follow")) {
                browser.click("#" + look);
                for (boolean watched : List.of(false, true)) {
                    browser.value("window.watch(" + watched + ")");
                    measure(flown, browser, flights, from, seconds, look + (watched ? ", watched" : ""));
                    from += seconds * HZ;
                }
                browser.value("window.watch(false)");
            }
            browser.picture("page-frames-1280x720");
            assertThat(browser.complaints()).isEmpty();
        }
    }

    private static String label(int seat) {
        return "127.0.0.1:4000" + seat % 10 + " PUPIL" + seat;
    }

    private static void measure(
            FlownPage flown, Browser browser, List<List<AircraftState>> flights, int from, int seconds, String look)
            throws Exception {
        Map<String, Double> before = metrics(browser);
        long start = System.nanoTime();
        for (int k = 0; k < seconds * HZ; k++) {
            for (int i = 0; i < SEATS; i++) {
                flown.fly(label(i), flights.get(i).subList(from + k, from + k + 1));
            }
            long due = start + (k + 1) * 1_000_000_000L / HZ;
            Thread.sleep(Math.max(0, (due - System.nanoTime()) / 1_000_000));
        }
        double passed = (System.nanoTime() - start) / 1e9;
        Map<String, Double> after = metrics(browser);
        StringBuilder text = new StringBuilder(String.format(Locale.ROOT, "view %s, %.1f s;", look, passed));
        JsonNode apart = browser.value("window.apart.sort((a, b) => a - b)");
        JsonNode took = browser.value("window.took.sort((a, b) => a - b)");
        if (!apart.isEmpty()) {
            text.append(String.format(
                    Locale.ROOT,
                    " %.1f frames a second; a frame takes %.1f ms (median), %.1f (95 of 100), %.1f (most);"
                            + " %.1f of 100 longer than 16.7 ms; frames apart %.1f, %.1f, %.1f;",
                    apart.size() / passed,
                    share(took, 0.5),
                    share(took, 0.95),
                    share(took, 1),
                    late(took),
                    share(apart, 0.5),
                    share(apart, 0.95),
                    share(apart, 1)));
        }
        text.append(" busy of each second, ms:");
        for (String what : List.of("TaskDuration", "ScriptDuration", "LayoutDuration", "RecalcStyleDuration")) {
            text.append(String.format(
                    Locale.ROOT,
                    " %s %.0f",
                    what,
                    1000 * (after.getOrDefault(what, 0.0) - before.getOrDefault(what, 0.0)) / passed));
        }
        Logger.getLogger("page").info(text.toString());
    }

    private static double late(JsonNode took) {
        int late = 0;
        for (JsonNode each : took) {
            late += each.asDouble() > 1000.0 / 60 ? 1 : 0;
        }
        return 100.0 * late / took.size();
    }

    private static double share(JsonNode sorted, double share) {
        return sorted.get((int) Math.min(sorted.size() - 1L, Math.round(share * sorted.size())))
                .asDouble();
    }

    private static Map<String, Double> metrics(Browser browser) throws Exception {
        Map<String, Double> found = new HashMap<>();
        for (JsonNode each :
                browser.call("Performance.getMetrics", "{}").path("result").path("metrics")) {
            found.put(each.path("name").asText(), each.path("value").asDouble());
        }
        return found;
    }
}
