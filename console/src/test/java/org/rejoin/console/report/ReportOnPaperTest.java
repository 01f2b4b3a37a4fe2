package org.rejoin.console.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.function.UnaryOperator;

import org.rejoin.console.Browser;

import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.apache.pdfbox.text.TextPosition;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * The report printed by a real browser and read by a PDF library: what an instructor hands over is full pages, and the one
 * that is signed says more than a caution.
 */
@Timeout(120)
class ReportOnPaperTest {

    /** The page's own margin, in points of a 72nd of an inch; what stands in it is the running head and foot. */
    private static final double MARGIN_PT = 16 / 25.4 * 72;

    @TempDir
    Path folder = Path.of("");

    /** What stands on a page without its running head and foot, and how far down it goes, 0 to 1. */
    private record Page(String text, double full) {}

    /** Takes the text of a page with where it stands. */
    private static final class Reading extends PDFTextStripper {

        private final StringBuilder text = new StringBuilder();
        private double lowest;

        @Override
        protected void processTextPosition(TextPosition glyph) {
            double height = glyph.getPageHeight();
            double y = glyph.getYDirAdj();
            if (y > MARGIN_PT && y < height - MARGIN_PT) {
                lowest = Math.max(lowest, (y - MARGIN_PT) / (height - 2 * MARGIN_PT));
                text.append(glyph.getUnicode());
            }
            super.processTextPosition(glyph);
        }
    }

    private static List<Page> pages(byte[] pdf) throws IOException {
        List<Page> pages = new ArrayList<>();
        try (PDDocument document = Loader.loadPDF(pdf)) {
            for (int number = 1; number <= document.getNumberOfPages(); number++) {
                Reading reading = new Reading();
                reading.setStartPage(number);
                reading.setEndPage(number);
                reading.getText(document);
                pages.add(new Page(reading.text.toString(), reading.lowest));
            }
        }
        return pages;
    }

    private List<Page> printed(Browser desk, String name, String recording, UnaryOperator<String> lesson)
            throws Exception {
        Path report = Debriefed.with(recording, Files.createDirectory(folder.resolve(name)), lesson)
                .resolve("report.html")
                .toAbsolutePath();
        desk.open(report.toUri().toString());
        byte[] pdf = Base64.getDecoder()
                .decode(desk.call("Page.printToPDF", "{\"preferCSSPageSize\":true,\"printBackground\":true}")
                        .path("result")
                        .path("data")
                        .asText());
        Files.write(Path.of("target", "report-" + name + ".pdf"), pdf);
        return pages(pdf);
    }

    private static UnaryOperator<String> andThen(String... clearances) {
        return lesson -> lesson.replace("standard:", String.join("\n", clearances) + "\nstandard:");
    }

    private static void fullPages(List<Page> pages, int most) {
        assertThat(pages).hasSizeBetween(2, most);
        assertThat(pages).allSatisfy(page -> assertThat(page.full()).isGreaterThan(0.25));
        String last = pages.get(pages.size() - 1).text().replace(" ", "");
        assertThat(last).contains("Signature").contains("SHA-256").contains("Thispageisatrainingrecord.");
        assertThat(pages.subList(0, pages.size() - 1))
                .noneMatch(page -> page.text().replace(" ", "").contains("Signature"));
    }

    @Test
    void noPageIsNearlyEmptyAndNoneHoldsTheCautionAlone() throws Exception {
        try (Browser desk = new Browser(folder, 1280, 720)) {
            fullPages(printed(desk, "good", "outbound-good", lesson -> lesson), 4);
            fullPages(printed(desk, "hold", "hold-wrong-side", lesson -> lesson), 5);
            fullPages(
                    printed(
                            desk,
                            "three",
                            "outbound-fly-through",
                            andThen(
                                    "  - {when: {elapsed_s: 300}, say: \"turn right heading 150, descend and maintain 5000\"}",
                                    "  - {when: {elapsed_s: 560}, say: \"fly heading 064, intercept V40, then as filed\"}")),
                    8);
        }
    }

    /** What is asked for is told whole: with the way round and the altitude. */
    @Test
    void theJobIsToldWithTheTurnTheDirectAndTheAltitude() throws Exception {
        Path report = Debriefed.with(
                "outbound-fly-through",
                folder,
                andThen(
                        "  - {when: {elapsed_s: 300}, say: \"turn right heading 150, descend and maintain 5000, then direct FUL\"}",
                        "  - {when: {elapsed_s: 360}, say: \"turn 20 degrees left, maintain 120 knots\"}",
                        "  - {when: {elapsed_s: 420}, say: \"climb and maintain 7000\"}"));
        assertThat(Debriefed.elements(Debriefed.parsed(report.resolve("report.html")), "p").stream()
                        .filter(each -> each.getAttribute("class").equals("job"))
                        .map(each -> each.getTextContent()))
                .contains(
                        "Then: turn right to heading 150, then direct to FUL, then go on as filed; descend and maintain 5000 ft.",
                        "Then: climb and maintain 7000 ft.")
                .anyMatch(job -> job.startsWith("Then: turn left to heading ") && job.endsWith("; 120 knots."));
    }
}
