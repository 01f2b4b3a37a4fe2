package org.rejoin.console.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.Base64;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.rejoin.console.draw.Markup;
import org.rejoin.console.words.CleanText;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.w3c.dom.Document;
import org.w3c.dom.Element;

/** The debrief on one page: whole in itself, safe, the same every time, and with every event where it belongs. */
class ReportPageTest {

    @TempDir
    Path folder = Path.of("");

    private static Document page(Path out) throws Exception {
        return Debriefed.parsed(out.resolve("report.html"));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "outbound-good",
                "outbound-fly-through",
                "outbound-wrong-turn",
                "inbound-good",
                "inbound-reciprocal",
                "airway-good",
                "airway-late",
                "airway-weaving"
            })
    void thePageIsWholeInItselfAndEveryLinkInItLeadsSomewhere(String recording) throws Exception {
        Document page = page(Debriefed.of(recording, folder));
        Set<String> ids = new HashSet<>();
        Set<String> links = new HashSet<>();
        for (Element element : Debriefed.elements(page, "*")) {
            assertThat(element.hasAttribute("style")).as("inline style").isFalse();
            assertThat(element.hasAttribute("src")).as("source elsewhere").isFalse();
            for (int i = 0; i < element.getAttributes().getLength(); i++) {
                String name = element.getAttributes().item(i).getNodeName();
                String value = element.getAttributes().item(i).getNodeValue();
                assertThat(name).as("handler in markup").doesNotStartWith("on");
                assertThat(value).doesNotContain("://");
                if (name.equals("href")) {
                    assertThat(value).startsWith("#");
                    links.add(value.substring(1));
                }
                if (name.equals("id")) {
                    assertThat(ids.add(value)).as("id twice: " + value).isTrue();
                }
            }
        }
        assertThat(ids).containsAll(links);
        assertThat(Debriefed.elements(page, "link")).isEmpty();
        assertThat(Debriefed.elements(page, "img")).isEmpty();
        PageResources resources = PageResources.read();
        assertThat(resources.style()).doesNotContain("url(", "@import", "http");
        assertThat(resources.script()).doesNotContain("http", "fetch", "innerHTML", "eval", "import");
    }

    @Test
    void everyEventHasItsLineInTheLogAndItsMarkOnPlanAndStrips() throws Exception {
        Path out = Debriefed.of("airway-weaving", folder);
        Document page = page(out);
        Set<String> ids = new HashSet<>();
        Debriefed.elements(page, "*").forEach(element -> ids.add(element.getAttribute("id")));
        int events = Files.readAllLines(out.resolve("log.jsonl")).size();
        assertThat(events).isGreaterThan(15);
        for (int number = 1; number <= events; number++) {
            assertThat(ids).contains("event-" + number, "plan-" + number, "strip-" + number);
        }
    }

    @Test
    void theBestFlyablePathIsDrawnBesideTheTrackWithWhatTheOtherCost() throws Exception {
        Path out = Debriefed.of("outbound-fly-through", folder);
        Document page = page(out);
        long plans = Debriefed.elements(page, "polyline").stream()
                .filter(line -> line.getAttribute("class").equals("best"))
                .filter(line -> line.getAttribute("points").split(" ").length > 5)
                .count();
        assertThat(plans).as("in the plan and in the view seen closer").isGreaterThanOrEqualTo(2);
        assertThat(page.getDocumentElement().getTextContent())
                .contains("best flyable path")
                .containsPattern(
                        "turned \\d+ s late onto course 066 FROM PTL; \\d\\.\\d\\d NM past the line; \\d+ s lost");
    }

    @Test
    void thePolicyAllowsThisStyleAndThisScriptAndNothingElse() throws Exception {
        String html = Files.readString(Debriefed.of("airway-good", folder).resolve("report.html"));
        Matcher policy = Pattern.compile("Content-Security-Policy\" content=\"([^\"]*)\"")
                .matcher(html);
        assertThat(policy.find()).isTrue();
        assertThat(policy.group(1).replace("&#39;", "'"))
                .startsWith("default-src 'none';")
                .contains("style-src 'sha256-" + hash(html, "<style>", "</style>") + "'")
                .contains("script-src 'sha256-" + hash(html, "<script>", "</script>") + "'")
                .doesNotContain("unsafe");
    }

    private static String taken(String recording, Path folder, String... said) throws Exception {
        StringBuilder more = new StringBuilder();
        for (String each : said) {
            String[] at = each.split(" ", 2);
            more.append("  - {when: {elapsed_s: ")
                    .append(at[0])
                    .append("}, say: \"")
                    .append(at[1])
                    .append("\"}\n");
        }
        Path out = Debriefed.with(recording, folder, yaml -> yaml.replace("standard:", more + "standard:"));
        return page(out).getDocumentElement().getTextContent();
    }

    /** Whoever signs the sheet must not read that an altitude was in force to the end which ATC took back. */
    @Test
    void whatAtcTookBackIsTakenBackOnTheSheetToo() throws Exception {
        String sheet = taken(
                "outbound-good",
                folder,
                "65 maintain 7000",
                "80 disregard",
                "82 disregard",
                "87 fly heading 120, intercept the PTL 066 radial, join V40, then as filed");
        assertThat(sheet)
                .containsPattern("The job: [^.]*; maintain 6000 ft\\. Taken back at 01:22\\.0: as filed\\.")
                .contains("Then: maintain 7000 ft. Taken back at 01:20.0: as cleared before.")
                .containsPattern("Then: fly heading 120[^.]*as filed\\.Result")
                .containsPattern("Issued00:30\\.0 [^\n]*Taken back01:22\\.0: as filed")
                .contains("Issued01:05.0 after the first sampleTaken back01:20.0: as cleared before")
                .doesNotContainPattern("Issued01:27\\.0 [^\n]*Taken back");
    }

    /** One that was replaced was not taken back; one that stands again may be taken back in its turn. */
    @Test
    void whatStandsAgainAndIsTakenBackInItsTurnIsSaidEachTime() throws Exception {
        String sheet = taken(
                "outbound-good",
                folder,
                "50 fly heading 120, intercept the PTL 066 radial, join V40, then as filed",
                "60 disregard",
                "70 disregard");
        assertThat(sheet)
                .containsPattern("The job: fly heading 110[^.]*6000 ft\\.Then: fly heading 120")
                .containsPattern("Then: fly heading 120[^.]*\\. Taken back at 01:00\\.0: as cleared before\\.")
                .containsPattern("As cleared before: fly heading 110[^.]*\\. Taken back at 01:10\\.0: as filed\\.");
    }

    private static String hash(String html, String start, String end) throws Exception {
        int from = html.indexOf(start) + start.length();
        byte[] content = html.substring(from, html.indexOf(end, from)).getBytes(StandardCharsets.UTF_8);
        return Base64.getEncoder()
                .encodeToString(MessageDigest.getInstance("SHA-256").digest(content));
    }

    @Test
    void aTitleThatIsMarkupIsShownAsText() throws Exception {
        String hostile = "<script>alert(1)</script>\\\"'&<img src=x onerror=alert(2)>]]>--><!--";
        Path out = Debriefed.with(
                "outbound-good",
                folder,
                lesson -> lesson.replaceFirst("title: .*", "title: \"" + Matcher.quoteReplacement(hostile) + "\""));
        Document page = page(out);
        assertThat(Debriefed.elements(page, "h1").get(0).getTextContent())
                .contains("<script>alert(1)</script>", "<img src=x onerror=alert(2)>");
        assertThat(Debriefed.elements(page, "script")).hasSize(2);
        assertThat(Debriefed.elements(page, "img")).isEmpty();
        for (String export : List.of("track.gpx", "track.kml")) {
            assertThat(Debriefed.elements(Debriefed.parsed(out.resolve(export)), "name")
                            .get(0)
                            .getTextContent())
                    .contains("<script>alert(1)</script>");
        }
    }

    @Test
    void charactersThatMarkupCannotHoldAreReplaced() {
        assertThat(CleanText.of("a\u0000b\u001bc\uD800d\u202Ee\uFFFEf\tg"))
                .isEqualTo("a\uFFFDb\uFFFDc\uFFFDd\uFFFDe\uFFFDf\tg");
        assertThat(new Markup().element("p", "<&>\"'", "title", "\"<'").document())
                .isEqualTo("<p title=\"&quot;&lt;'\">&lt;&amp;&gt;\"'</p>");
    }

    @Test
    void theSameRecordingGivesTheSameBytesWhereverItLies() throws Exception {
        Path first = Debriefed.of("outbound-fly-through", folder.resolve("first"));
        Path second = Debriefed.with("outbound-fly-through", folder.resolve("second"), lesson -> lesson);
        for (String name :
                List.of("report.html", "track.geojson", "track.gpx", "track.kml", "events.csv", "samples.csv")) {
            assertThat(first.resolve(name)).hasSameBinaryContentAs(second.resolve(name));
        }
    }

    @Test
    void eachClearanceHasItsPlan() throws Exception {
        Path out = Debriefed.with(
                "outbound-good",
                folder,
                lesson -> lesson.replaceFirst(
                        "standard:",
                        "  - {when: {elapsed_s: 400}, say: \"proceed direct FUL, then as filed\"}\nstandard:"));
        Document page = page(out);
        assertThat(Debriefed.elements(page, "blockquote")).hasSize(2);
        // Plans carry the aircraft of the replay; the close-ups of faults, which this flight has too, do not.
        assertThat(Debriefed.elements(page, "g").stream()
                        .filter(group -> group.getAttribute("class").equals("aircraft")
                                && group.getAttribute("id").startsWith("aircraft-")))
                .hasSize(2);
        assertThat(page.getDocumentElement().getTextContent())
                .contains("course 066 FROM PTL", "direct to FUL")
                .doesNotContain("direct to XFUL");
    }

    /** What was worked out for the route stands under the clearance that gave it, with the place where that was heard. */
    @Test
    void anAltitudeAloneTellsNothingOfTheRouteAgain() throws Exception {
        Path out = Debriefed.with(
                "outbound-good",
                folder,
                lesson -> lesson.replaceFirst(
                        "standard:", "  - {when: {elapsed_s: 400}, say: \"climb and maintain 7000\"}\nstandard:"));
        assertThat(Debriefed.elements(page(out), "dl"))
                .filteredOn(each -> each.getAttribute("class").equals("worked"))
                .element(1)
                .extracting(org.w3c.dom.Element::getTextContent)
                .asString()
                .contains("7000 ft", "as before: nothing of it changes")
                .doesNotContain("Intercept", "110 magnetic", " at N");
    }

    @Test
    void aFlightWithoutAClearanceHasAPlanAndSaysThatNothingWasGraded() throws Exception {
        Path out = Debriefed.with(
                "outbound-good", folder, lesson -> lesson.replaceFirst("elapsed_s: 30", "elapsed_s: 9000"));
        assertThat(page(out).getDocumentElement().getTextContent())
                .contains("not judged", "no clearance was issued: nothing to grade");
    }

    @Test
    void eachClearanceShowsTheAltitudeItWasIssuedWithThoughTheWordsAreTheSame() throws Exception {
        Path out = Debriefed.with(
                "airway-good",
                folder,
                lesson -> lesson.replaceFirst(
                        "standard:",
                        "  - {when: {elapsed_s: 100}, say: \"fly heading 190, intercept V40, resume own navigation\","
                                + " altitude_ft: 4000}\nstandard:"));
        List<String> altitudes = Debriefed.elements(page(out), "dt").stream()
                .filter(term -> term.getTextContent().equals("Altitude"))
                .map(term -> term.getNextSibling().getTextContent())
                .toList();
        assertThat(altitudes).containsExactly("6000 ft", "4000 ft");
    }

    /** After a character by its number one space belongs to the number (CSS Syntax Module Level 3, section 4.3.7). */
    @Test
    void theRunningHeadKeepsItsSpaces() {
        String css = PageResources.running("Anna: Hold, left", "Not for navigation.");
        assertThat(css).contains("\"Anna\\00003a  Hold\\00002c  left\"").contains("\"Not for navigation\\00002e \"");
    }

    /** The fix that is on no chart is where the hold is: nothing turns onto the airway there. */
    @Test
    void aHoldIsDrawnInTheStripAndIsNoTurnOntoTheAirway() throws Exception {
        String page = Files.readString(Debriefed.of("hold-good", folder).resolve("report.html"));
        assertThat(page)
                .contains("inbound to PTL066039", "to a fix that is on no chart (PTL066039), hold at PTL066039")
                .contains("further clearance expected at 1530")
                .doesNotContain("turn right at a fix")
                .doesNotContain("turn right 74 degrees");
    }
}
