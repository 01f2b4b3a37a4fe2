package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

import org.rejoin.bridge.geo.Position;
import org.rejoin.console.Accessibility;
import org.rejoin.console.Browser;
import org.rejoin.console.book.HomeFolder;
import org.rejoin.console.book.RecordBook;
import org.rejoin.console.drill.AttemptFolders;
import org.rejoin.console.drill.DrillChart;
import org.rejoin.console.drill.DrillRequest;
import org.rejoin.console.drill.PaperDrill;
import org.rejoin.console.drill.Question;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.skill.Mark;
import org.rejoin.console.skill.Skill;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** A clearance worked out in the page: answered with keys, drawn with mouse, finger and keyboard, marked, kept. */
@Timeout(value = 5, unit = TimeUnit.MINUTES)
@SuppressWarnings("try") // a program is held, not used
class PaperInBrowserTest extends RealRoom {

    private static PaperDrill drill(DrillChart chart, long seed) throws Exception {
        return PaperDrill.draw(chart, DrillRequest.usual(seed));
    }

    /** Where a place of the chart is in the window, CSS pixels. */
    private static double[] onScreen(Browser browser, Position place) throws Exception {
        JsonNode at = browser.value(String.format(
                Locale.ROOT,
                "import('/paper.js').then((m) => { const s = document.getElementById('paper-chart');"
                        + " const p = m.projection(s.dataset.middle.split(',').map(Number)).to(%f, %f);"
                        + " const d = new DOMPoint(p[0], p[1]).matrixTransform(s.getScreenCTM()); return [d.x, d.y]; })",
                place.latitudeDeg(),
                place.longitudeDeg()));
        return new double[] {at.get(0).asDouble(), at.get(1).asDouble()};
    }

    private static void mouse(Browser browser, String type, double[] at) throws Exception {
        browser.call(
                "Input.dispatchMouseEvent",
                String.format(
                        Locale.ROOT,
                        "{\"type\":\"%s\",\"x\":%f,\"y\":%f,\"button\":\"left\",\"buttons\":1,\"clickCount\":1}",
                        type,
                        at[0],
                        at[1]));
    }

    private static void finger(Browser browser, double[] at) throws Exception {
        browser.call(
                "Input.dispatchTouchEvent",
                String.format(
                        Locale.ROOT, "{\"type\":\"touchStart\",\"touchPoints\":[{\"x\":%f,\"y\":%f}]}", at[0], at[1]));
        browser.call("Input.dispatchTouchEvent", "{\"type\":\"touchEnd\",\"touchPoints\":[]}");
    }

    private static Position position(String text) {
        String[] parts = text.split(",", -1);
        return new Position(Double.parseDouble(parts[0]), Double.parseDouble(parts[1]));
    }

    /** Moves the cross from where the finger left it, a mile a key. */
    private static void keys(Browser browser, Position from, Position to) throws Exception {
        double way = Math.toRadians(from.to(to).initial().deg());
        long east = Math.round(from.distanceNm(to) * Math.sin(way));
        long north = Math.round(from.distanceNm(to) * Math.cos(way));
        browser.value("document.getElementById('paper-chart').focus()");
        for (long i = 0; i < Math.abs(east); i++) {
            browser.key(east > 0 ? "ArrowRight" : "ArrowLeft");
        }
        for (long i = 0; i < Math.abs(north); i++) {
            browser.key(north > 0 ? "ArrowUp" : "ArrowDown");
        }
        browser.key("Enter");
    }

    /** Two months of another pilot: twice or three times a week, better at the end than at the beginning. */
    private static String season(Path home) throws Exception {
        Instant now = Instant.now();
        Random random = new Random(7);
        try (RecordBook book = new RecordBook(HomeFolder.open(home), note -> {})) {
            for (int i = 0; i < 24; i++) {
                Instant at = now.minus(Duration.ofHours(60L * (24 - i)));
                List<Mark> marks = new ArrayList<>();
                for (Skill skill : List.of(Skill.COURSE, Skill.INTERCEPT)) {
                    marks.add(new Mark("Bea", at, skill, 0, random.nextInt(24) < 8 + i, 0, false));
                }
                new AttemptFolders(book)
                        .keep(new AttemptFolders.Unflown(
                                "Bea",
                                "Paper",
                                at,
                                OptionalDouble.of(240 - 5 * i),
                                "test",
                                JsonNodeFactory.instance.objectNode().put("work_out_s", 240 - 5 * i),
                                marks));
            }
            return book.roster().findOrAdd("Bea").id();
        }
    }

    @Test
    void aClearanceIsWorkedOutAnsweredAndDrawnThreeWaysMarkedAndKept() throws Exception {
        Assumptions.assumeTrue(Browser.installed().isPresent(), "no Chromium on this machine");
        DrillChart chart = new DrillChart(LessonReader.read("radial-outbound").chart(), "");
        // Not the sheet of whoever sits beside her.
        long first = RoomPaper.first("Anna");
        assertThat(first).isNotEqualTo(RoomPaper.first("Bea"));
        int seed = 0;
        while (drill(chart, first + seed).drawings().size() < 3
                || !drill(chart, first + seed).route().warnings().isEmpty()) {
            seed++;
        }
        PaperDrill paper = drill(chart, first + seed);
        String bea = season(home);
        Accessibility rules = new Accessibility();
        try (RealProgram program = room();
                Browser desk = new Browser(folder, 1280, 900)) {
            desk.open(address() + "/");
            desk.untilText("#app", "seat");
            desk.post("/api/pilots", "{\"name\":\"Anna\"}");
            String anna = desk.value(
                            "fetch('/api/pilots').then((r) => r.json()).then((all) => all.find((each) => each.name === 'Anna').id)")
                    .asText();
            for (int before = 0; before < seed; before++) {
                desk.value("fetch('/api/paper?pilot=" + anna + "').then((r) => r.json())");
                desk.post("/api/paper", "{\"pilot\":\"" + anna + "\",\"seed\":" + (first + before) + "}");
            }
            desk.open(address() + "/drill");
            desk.until("document.querySelectorAll('#whose option').length > 1");
            desk.value("(() => { const s = document.getElementById('whose'); s.value = '" + anna
                    + "'; s.dispatchEvent(new Event('change', {bubbles: true})); })()");
            desk.until("document.getElementById('paper-chart') !== null");
            assertThat(desk.text("#app")).contains(paper.say());
            assertThat(rules.violations(desk)).isEmpty();
            desk.value("document.getElementById('paper-chart').scrollIntoView({block: 'center'})");
            desk.picture("paper-drill");

            // A line by dragging the mouse along it, a point with a finger, a point with the keyboard.
            String[] line = paper.drawings().get(0).answer().words().split(" ", -1);
            desk.click("#draw-" + paper.drawings().get(0).code());
            mouse(desk, "mousePressed", onScreen(desk, position(line[0])));
            mouse(desk, "mouseMoved", onScreen(desk, position(line[1])));
            mouse(desk, "mouseReleased", onScreen(desk, position(line[1])));
            Position met = position(paper.drawings().get(1).answer().words());
            desk.click("#draw-" + paper.drawings().get(1).code());
            finger(desk, onScreen(desk, met));
            desk.untilText("#draw-" + paper.drawings().get(1).code(), "✓");
            desk.click("#draw-" + paper.drawings().get(2).code());
            keys(desk, met, position(paper.drawings().get(2).answer().words()));
            for (Question drawing : paper.drawings()) {
                desk.untilText("#draw-" + drawing.code(), "✓");
            }
            for (Question question : paper.questions()) {
                String right = question.answer().words();
                if (question.answer() instanceof Question.Answer.Choice) {
                    desk.click("input[name=q-" + question.code() + "][value=" + right + "]");
                } else {
                    desk.type("#q-" + question.code(), right);
                }
            }
            desk.picture("paper-answered");
            desk.click("#mark-paper");
            int asked = paper.questions().size() + paper.drawings().size();
            desk.untilText("#marked-title", asked + " of " + asked + " right");
            assertThat(rules.violations(desk)).isEmpty();
            desk.value("document.getElementById('paper-chart').scrollIntoView({block: 'center'})");
            desk.picture("paper-marked");
            assertThat(desk.complaints()).isEmpty();
            // On a phone nothing hangs over the side.
            desk.size(390, 844);
            assertThat(desk.value("document.documentElement.scrollWidth <= innerWidth + 1")
                            .asBoolean())
                    .isTrue();
            desk.picture("paper-390");
            desk.click("#another");
            desk.until("document.getElementById('mark-paper') !== null");

            // Opened again from the book it tells each answer; nothing offers to fly, print or compare a flight.
            desk.size(1280, 900);
            desk.open(address() + "/book?pilot=Anna");
            desk.untilText("#app", asked + " of " + asked + " right");
            assertThat(desk.value("document.querySelectorAll('tbody input[type=checkbox]').length")
                            .asInt())
                    .isZero();
            desk.click("tbody a");
            desk.untilText("#answers-title", asked + " of " + asked + " right");
            assertThat(desk.text("#app"))
                    .contains("ATC: " + paper.say(), paper.questions().get(0).working())
                    .doesNotContain("Not graded", "cannot be flown");
            assertThat(desk.value(
                                    "document.getElementById('report') === null && document.querySelector('canvas') === null")
                            .asBoolean())
                    .isTrue();
            assertThat(rules.violations(desk)).isEmpty();
            desk.picture("paper-debrief");
            // On paper it is black on white in either look, and has lines to sign on.
            for (String look : new String[] {"ink", "paper"}) {
                desk.value("(() => { document.documentElement.dataset.theme = '" + look + "'; })()");
                desk.call("Emulation.setEmulatedMedia", "{\"media\":\"print\"}");
                assertThat(desk.value(
                                        "(() => { const style = getComputedStyle(document.querySelector('.answers p'));"
                                                + " return style.color + ' on ' + getComputedStyle(document.body).backgroundColor; })()")
                                .asText())
                        .as(look)
                        .isEqualTo("rgb(0, 0, 0) on rgb(255, 255, 255)");
                assertThat(desk.value("document.querySelector('.pen').innerText")
                                .asText())
                        .contains("Name", "Date", "Signature");
                desk.picture("paper-print-" + look);
                desk.call("Emulation.setEmulatedMedia", "{\"media\":\"\"}");
            }
            desk.type("#sign-name", "Kim");
            desk.click("#sign");
            desk.untilText("#app", "✓ Kim");
            assertThat(desk.value("document.querySelector('.pen') === null").asBoolean())
                    .as("signed already")
                    .isTrue();
            assertThat(desk.complaints()).isEmpty();
            desk.size(390, 844);
            desk.open(address() + "/book");
            desk.until("document.querySelectorAll('tbody tr').length > 0");
            assertThat(desk.value(
                                    "document.querySelector('.scroll').scrollWidth <= document.querySelector('.scroll').clientWidth")
                            .asBoolean())
                    .isTrue();
            assertThat(rules.violations(desk)).isEmpty();
            desk.picture("book-390");
            desk.size(820, 1180);
            assertThat(desk.value(
                                    "document.querySelector('.scroll').scrollWidth <= document.querySelector('.scroll').clientWidth")
                            .asBoolean())
                    .as("who signed is not cut off")
                    .isTrue();
            // WCAG 2.2, 2.5.8: targets are at least 24 by 24 pixels.
            assertThat(desk.value("[...document.querySelectorAll('th button, input[type=checkbox]')]"
                                    + ".map((each) => each.getBoundingClientRect())"
                                    + ".every((box) => box.width >= 24 && box.height >= 24)")
                            .asBoolean())
                    .isTrue();
            desk.picture("book-820");
            desk.size(390, 844);

            // Its marks stand in the pilot's progress, drawn and in words.
            desk.open(address() + "/progress?pilot=" + anna);
            desk.until("document.querySelectorAll('.plot canvas').length > 3");
            desk.untilText("#app", "Time to work a clearance out");
            // The interval is drawn and no point in it, and nothing lies off the edge of a phone.
            assertThat(desk.value(
                                    "document.querySelector('main meter') === null"
                                            + " && [...document.querySelectorAll('.interval')].every((each) => {"
                                            + " const [from, to] = each.closest('tr').textContent.match(/between (\\d+) and (\\d+)/).slice(1).map(Number);"
                                            + " const bar = each.querySelector('.within');"
                                            + " return Math.abs(Number(bar.getAttribute('x')) - from) <= 0.51"
                                            + " && Math.abs(Number(bar.getAttribute('x')) + Number(bar.getAttribute('width')) - to) <= 0.51; })")
                            .asBoolean())
                    .isTrue();
            assertThat(desk.value(
                                    "document.querySelector('.scroll').scrollWidth <= document.querySelector('.scroll').clientWidth")
                            .asBoolean())
                    .isTrue();
            assertThat(rules.violations(desk)).isEmpty();
            assertThat(desk.value("document.documentElement.scrollWidth <= innerWidth + 1")
                            .asBoolean())
                    .isTrue();
            desk.picture("progress-390");
            desk.size(1280, 900);
            desk.picture("progress-1280");
            desk.value("document.querySelector('.plots').scrollIntoView()");
            desk.picture("progress-plots");
            desk.open(address() + "/progress?pilot=" + bea);
            desk.until("document.querySelectorAll('.plot canvas').length === 3");
            assertThat(desk.value("document.querySelector('.plot [role=img]').getAttribute('aria-label')")
                            .asText())
                    .contains("COURSE, right of 100 at standard difficulty", "after 24 marks");
            assertThat(rules.violations(desk)).isEmpty();
            desk.picture("progress-season");
            // Not answered: said so that left and right need not be read twice.
            desk.open(address() + "/drill");
            desk.until("document.querySelectorAll('#whose option').length > 1");
            desk.value("(() => { const s = document.getElementById('whose'); s.value = '" + anna
                    + "'; s.dispatchEvent(new Event('change', {bubbles: true})); })()");
            desk.until("document.getElementById('mark-paper') !== null");
            desk.click("#mark-paper");
            desk.untilText(".marked", "No answer. Correct: ");
            assertThat(desk.text("#paper-say")).isEmpty();
            assertThat(desk.complaints()).isEmpty();
        }
        try (Stream<Path> kept = Files.walk(home.resolve("attempts"))) {
            List<Path> files =
                    kept.filter(each -> each.endsWith("paper.jsonl")).sorted().toList();
            assertThat(files).hasSize(24 + seed + 2);
            assertThat(files.stream()
                            .map(PaperInBrowserTest::text)
                            .filter(each -> each.contains("HEADING") && !each.contains("\"right\":false")))
                    .hasSize(1);
        }
    }

    private static String text(Path file) {
        try {
            return Files.readString(file);
        } catch (java.io.IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }
}
