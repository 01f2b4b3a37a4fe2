package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Base64;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.rejoin.console.Accessibility;
import org.rejoin.console.Browser;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;

import com.fasterxml.jackson.databind.JsonNode;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import picocli.CommandLine;

/**
 * The guide: what it shows is what the program shows today. Its pictures are taken here, with {@code
 * -Drejoin.write-docs=true}; beside each stands what can be read and pressed in it, and that is compared with the page of
 * today, so that a picture of yesterday's page fails the build whatever the fonts of a machine are.
 */
@Timeout(value = 5, unit = TimeUnit.MINUTES)
@SuppressWarnings("try") // a program is held, not used
class GuideInBrowserTest extends RealRoom {

    private static final Path SOURCES = Path.of("src", "main", "resources", "org", "rejoin", "console", "page");
    private static final Path WORDS =
            Path.of("src", "test", "resources", "org", "rejoin", "console", "cli", "guide-pictures.txt");
    private static final boolean WRITE = Boolean.getBoolean("rejoin.write-docs");

    /** Headings and controls, wherever the page is scrolled to; figures stand for any figure. */
    private static final String VISIBLE =
            "[...document.querySelectorAll('h1, h2, h3, button, label, legend, th, summary, nav a')]"
                    + ".filter((e) => e.checkVisibility({visibilityProperty: true})).map((e) => [...e.childNodes].filter((n) => n.nodeType === 3)"
                    + ".map((n) => n.data).join(' ').replace(/\\d+/g, '#').replace(/\\s+/g, ' ').trim())"
                    + ".filter((t) => /[a-z]/i.test(t)).filter((t, i, all) => all.indexOf(t) === i).sort().join('\\n')";

    private final StringBuilder seen = new StringBuilder();

    private static String guide() throws Exception {
        return Files.readString(SOURCES.resolve("guide.html"));
    }

    private void picture(Browser browser, String name) throws Exception {
        browser.value("document.activeElement.blur()");
        String words = browser.value(VISIBLE).asText();
        if (WRITE) {
            JsonNode answer = browser.call("Page.captureScreenshot", "{\"format\":\"png\"}");
            Files.write(
                    SOURCES.resolve("guide-" + name + ".png"),
                    Base64.getDecoder()
                            .decode(answer.path("result").path("data").asText()));
        } else {
            String expected = expected(name);
            for (int i = 0; i < 50 && !words.equals(expected); i++) {
                Thread.sleep(100);
                words = browser.value(VISIBLE).asText();
            }
            assertThat(words)
                    .as(
                            "the guide's picture \"%s\" is of an earlier page: take them anew with"
                                    + " -Dtest=GuideInBrowserTest -Drejoin.write-docs=true, and look at them",
                            name)
                    .isEqualTo(expected);
        }
        seen.append("== ").append(name).append('\n').append(words).append('\n');
    }

    private static String expected(String name) throws Exception {
        String all = Files.readString(WORDS);
        int from = all.indexOf("== " + name + "\n");
        assertThat(from).as(name).isNotNegative();
        int begin = all.indexOf('\n', from) + 1;
        int end = all.indexOf("\n== ", begin);
        return end < 0 ? all.substring(begin).stripTrailing() : all.substring(begin, end);
    }

    @Test
    void itsPicturesAreOfThePagesOfTodayAndItIsSixPagesThatEverybodyCanRead() throws Exception {
        Assumptions.assumeTrue(Browser.installed().isPresent(), "no Chromium on this machine");
        try (RealProgram program = room("--instructor", "C. Instructor");
                Simulator one = new Simulator(feed, 120).fly(LessonReader.read("radial-outbound"), Habit.GOOD);
                Browser desk = new Browser(folder, 1180, 740)) {
            desk.open(address() + "/");
            desk.value("localStorage.setItem('theme', 'paper')");
            desk.post("/api/pilots", "{\"name\":\"Anna\"}");
            desk.untilText(".seat-row", "Begin at");
            desk.post("/api/name", "{\"seat\":\"s1\",\"label\":\"Window seat\"}");
            one.fly(LessonReader.read("radial-outbound"), Habit.GOOD);
            desk.post("/api/assign", "{\"seat\":\"s1\",\"pilot\":\"Anna\",\"lesson\":\"radial-outbound\"}");
            desk.untilText(".seat-row", "Anna flies");

            desk.open(address() + "/prepare");
            desk.untilText("#from-lesson", "Heading to an airway");
            desk.choose("#from-lesson", "radial-inbound");
            desk.until("document.getElementById('f-filed').value.length > 3");
            desk.value("document.getElementById('f-title').focus()");
            desk.call("Input.insertText", "{\"text\":\"Monday, inbound\"}");
            desk.click("#try");
            desk.untilText("#flown", "The practice aircraft flew it");
            desk.untilText("#form", "worked out");
            desk.until("import('/model.js').then((m) => m.seat()?.rows.length > 100)");
            picture(desk, "prepare");

            theGuide(desk);

            while (!one.over()) {
                Thread.sleep(50);
            }
            desk.open(address() + "/");
            desk.post("/api/end", "{\"seat\":\"s1\"}");
            desk.untilText(".seat-row", "Debrief");
            desk.until(
                    "fetch('/api/attempts').then((r) => r.json()).then((l) => l.rows.length === 1 && l.rows[0].score > 50)");
            String id = desk.value("fetch('/api/attempts').then((r) => r.json()).then((l) => l.rows[0].id)")
                    .asText();
            desk.open(address() + "/debrief?id=" + id);
            desk.untilText("#result", "of 100");
            desk.until("import('/model.js').then((m) => m.seat()?.rows.length > 100)");
            picture(desk, "debrief");

            one.silent(true);
            desk.open(address() + "/");
            try (Simulator fresh = new Simulator(feed, 20).fly(LessonReader.read("radial-inbound"), Habit.GOOD)) {
                desk.untilText("[data-seat=s2]", "Begin at");
                desk.post("/api/name", "{\"seat\":\"s2\",\"label\":\"Door seat\"}");
                desk.post("/api/assign", "{\"seat\":\"s2\",\"pilot\":\"Bert\",\"lesson\":\"radial-inbound\"}");
                desk.untilText("[data-seat=s2]", "Bert flies");
                desk.untilText("[data-seat=s2]", "flying, data");
                desk.untilText("[data-seat=s1]", "no data for");
                picture(desk, "home");
                desk.open(address() + "/seat?s=s2");
                desk.untilText("#log", "on the assigned heading");
                desk.untilText("#issue", "Issue to Bert");
                desk.untilText("#taps", "Keep the readback");
                picture(desk, "seat");
                desk.open(address() + "/book");
                desk.until("document.querySelectorAll('table.book tbody tr').length === 2");
                picture(desk, "book");
            }
            assertThat(desk.complaints()).isEmpty();
        }
        if (WRITE) {
            Files.createDirectories(WORDS.getParent());
            Files.writeString(WORDS, seen);
        }
        assertThat(WORDS).hasContent(seen.toString());
    }

    /** Linked from home, in both looks, with its pictures and without the network, and six pages of paper at most. */
    private void theGuide(Browser desk) throws Exception {
        desk.open(address() + "/");
        desk.until("document.querySelector('nav.views a[href=\"/guide\"]') !== null");
        desk.value("document.querySelector('nav.views a[href=\"/guide\"]').click()");
        desk.untilText("article", "A teaching day");
        desk.untilText("#bar", "Record book");
        desk.until("[...document.images].length === 5");
        desk.value("[...document.images].forEach((i) => i.scrollIntoView())");
        desk.until("[...document.images].every((i) => i.complete && i.naturalWidth >= " + (WRITE ? 1 : 1000) + ")");
        for (String look : List.of("ink", "paper")) {
            desk.value("document.documentElement.dataset.theme = '" + look + "'");
            assertThat(new Accessibility().violations(desk)).as(look).isEmpty();
        }
        desk.value("document.getElementById('app').scrollTo(0, 0)");
        desk.picture("guide-1180x740");
        assertThat(desk.requests()).allMatch(each -> each.startsWith(address()) || each.startsWith("about:"));
        byte[] pdf = Base64.getDecoder()
                .decode(desk.call("Page.printToPDF", "{\"preferCSSPageSize\":true,\"printBackground\":true}")
                        .path("result")
                        .path("data")
                        .asText());
        Files.write(Path.of("target", "guide.pdf"), pdf);
        Matcher pages = Pattern.compile("/Type\\s*/Page[^s]").matcher(new String(pdf, StandardCharsets.ISO_8859_1));
        assertThat(pages.results().count()).as("pages of A4").isBetween(2L, 6L);
        desk.size(390, 844);
        assertThat(desk.value("document.documentElement.scrollWidth <= innerWidth + 1")
                        .asBoolean())
                .isTrue();
        desk.size(1180, 740);
    }

    /** Of whoever follows it word by word. */
    @Test
    void eachCommandOfTheGuideIsOneOfTheProgram() throws Exception {
        Matcher blocks = Pattern.compile("<pre[^>]*><code>([^<]+)</code>|<code>(rejoin [^<]+)</code>")
                .matcher(guide());
        int commands = 0;
        while (blocks.find()) {
            String block = blocks.group(1) == null ? blocks.group(2) : blocks.group(1);
            for (String line : block.lines().toList()) {
                String[] words = line.replace("COMMAND", "fly").split(" ", -1);
                assertThat(words[0]).isEqualTo("rejoin");
                CommandLine command = Rejoin.whole();
                command.parseArgs(java.util.Arrays.copyOfRange(words, 1, words.length));
                commands++;
            }
        }
        assertThat(commands).isGreaterThan(20);
    }

    /** What it says to press is on a page, and the names of lessons are those of the program. */
    @Test
    void whatTheGuideSaysToPressIsThere() throws Exception {
        StringBuilder pages = new StringBuilder();
        try (var files = Files.list(SOURCES)) {
            for (Path file : files.filter(each -> each.toString().matches(".*\\.(js|html)")
                            && !each.toString().contains("guide"))
                    .toList()) {
                pages.append(Files.readString(file));
            }
        }
        Matcher bold = Pattern.compile("<b>([A-Z][A-Za-z ]+)</b>").matcher(guide());
        int found = 0;
        while (bold.find()) {
            if (bold.group(1).equals("Start")) { // as the terminal prints it
                continue;
            }
            assertThat(pages.indexOf(bold.group(1))).as(bold.group(1)).isPositive();
            found++;
        }
        assertThat(found).isGreaterThan(9);
        StringWriter out = new StringWriter();
        Rejoin.run(new PrintWriter(out, true), new PrintWriter(out, true), "fly", "--list");
        assertThat(out.toString()).contains("radial-outbound");
    }
}
