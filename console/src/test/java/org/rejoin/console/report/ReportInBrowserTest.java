package org.rejoin.console.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;

import org.rejoin.console.Accessibility;
import org.rejoin.console.Browser;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The page opened from disk in a real browser, where there is one: its script runs, and it complains of nothing. */
@Timeout(value = 120, unit = TimeUnit.SECONDS)
class ReportInBrowserTest {

    @TempDir
    Path folder = Path.of("");

    private String report() throws Exception {
        return Debriefed.of("outbound-fly-through", folder.resolve("report"))
                .resolve("report.html")
                .toUri()
                .toString();
    }

    private String run(String... options) throws Exception {
        List<String> command = Browser.command(folder.resolve("profile"));
        command.add("--enable-logging=stderr");
        command.addAll(List.of(options));
        Path said = folder.resolve("said.txt");
        Process process = new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectOutput(said.toFile())
                .start();
        try {
            assertThat(process.waitFor(90, TimeUnit.SECONDS)).isTrue();
        } finally {
            process.destroyForcibly();
        }
        return Files.readString(said);
    }

    @Test
    void theSliderIsThereAndTheConsoleIsQuiet() throws Exception {
        String page = report();
        String dom = run("--dump-dom", page);
        assertThat(dom).contains("ground speed 151 kt").doesNotContain("CONSOLE");
        assertThat(dom).containsPattern("<section id=\"replay\"[^>]*aria-label=\"Replay\">");
        Path picture = Path.of("target", "report.png").toAbsolutePath();
        run("--screenshot=" + picture, "--window-size=1280,2400", page);
        assertThat(picture).isNotEmptyFile();
    }

    @Test
    void theSliderMovesTheAircraftAndTheReading() throws Exception {
        try (Browser driven = new Browser(folder, 1280, 720)) {
            driven.open(report());
            driven.until("document.getElementById('reading').textContent.startsWith('00:00')");
            driven.value("document.getElementById('time').focus()");
            driven.key("PageUp");
            driven.key("ArrowRight");
            driven.until("document.getElementById('reading').textContent.startsWith('00:11')");
            assertThat(driven.value("document.querySelector('.aircraft:not([display])').getAttribute('transform')")
                            .asText())
                    .startsWith("translate(");
            driven.click("#play");
            driven.until("Number(document.getElementById('time').value) > 13");
            driven.click("#play");
            assertThat(driven.complaints()).isEmpty();
            assertThat(driven.requests()).allMatch(request -> request.startsWith("file:"));
        }
    }

    /** On a telephone the page goes up and down; what is wider goes sideways by itself. */
    @Test
    void aNarrowScreenIsNotScrolledSideways() throws Exception {
        try (Browser driven = new Browser(folder, 390, 844)) {
            driven.open(report());
            driven.until("document.getElementById('reading').textContent.startsWith('00:00')");
            assertThat(driven.value("document.documentElement.scrollWidth - window.innerWidth")
                            .asInt())
                    .isLessThanOrEqualTo(0);
            driven.picture("report-390x844");
        }
    }

    @Test
    void theReportKeepsTheAccessibilityRulesByDayAndByNight() throws Exception {
        String page = report();
        Accessibility rules = new Accessibility();
        try (Browser driven = new Browser(folder, 1280, 720)) {
            for (String look : List.of("light", "dark")) {
                driven.call(
                        "Emulation.setEmulatedMedia",
                        "{\"features\":[{\"name\":\"prefers-color-scheme\",\"value\":\"" + look + "\"}]}");
                driven.open(page);
                driven.until("matchMedia('(prefers-color-scheme: " + look + ")').matches");
                assertThat(rules.violations(driven)).as(look).isEmpty();
            }
        }
    }
}
