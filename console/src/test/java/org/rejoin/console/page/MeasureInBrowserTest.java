package org.rejoin.console.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.rejoin.console.Browser;

import com.fasterxml.jackson.databind.JsonNode;
import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Measuring between two points of the plan, against GeographicLib asked directly. */
@Timeout(value = 120, unit = TimeUnit.SECONDS)
class MeasureInBrowserTest {

    private static final Pattern SHOWN = Pattern.compile("([0-9.]+) NM, (\\d{3}) true, (\\d{3}) magnetic there");
    private static final double METRES_PER_NM = 1852;

    /** Two stations of the built-in chart, and the ends of the built-in lesson's filed route, degrees. */
    private static final double[] SKU = {38.8, -50.1};

    private static final double[] FUL = {38.05, -49.05};
    private static final double[] XSKU = {38.95, -50.35};
    private static final double[] XFUL = {37.75, -48.95};

    @TempDir
    Path folder = Path.of("");

    private record Measured(double distanceNm, double trueDeg) {}

    private Browser opened(FlownPage flown) throws Exception {
        Browser browser = new Browser(folder, 1280, 720);
        browser.open(flown.address() + "/student");
        browser.until("import('/main.js').then((m) => m.plan.view.scale > 0)");
        return browser;
    }

    private static Measured shown(Browser browser) throws Exception {
        browser.untilText("#measured", "magnetic there");
        Matcher shown = SHOWN.matcher(browser.text("#measured"));
        assertThat(shown.matches()).isTrue();
        return new Measured(Double.parseDouble(shown.group(1)), Double.parseDouble(shown.group(2)));
    }

    private static void pressAt(Browser browser, String ident) throws Exception {
        JsonNode at = browser.value("Promise.all([import('/main.js'), import('/model.js')]).then(([m, d]) => {"
                + " const p = d.model.hello.points.find((each) => each[0] === '" + ident + "');"
                + " const box = document.getElementById('plan').getBoundingClientRect();"
                + " return [box.x + m.plan.view.px(p[2]), box.y + m.plan.view.py(p[3])]; })");
        browser.press(Math.rint(at.get(0).asDouble()), Math.rint(at.get(1).asDouble()));
    }

    private static GeodesicData geodesic(double[] from, double[] to) {
        return Geodesic.WGS84.Inverse(from[0], from[1], to[0], to[1]);
    }

    /** The middle of the filed route, by the longest of its distances: the centre of the plan (page.md). */
    private static double[] centre() {
        GeodesicData half = geodesic(XSKU, XFUL);
        GeodesicData middle = Geodesic.WGS84.Direct(XSKU[0], XSKU[1], half.azi1, half.s12 / 2);
        return new double[] {middle.lat2, middle.lon2};
    }

    /** A point of the plan, an azimuthal equidistant one, miles east and south of its centre. */
    private static double[] place(double eastNm, double southNm) {
        double[] centre = centre();
        GeodesicData at = Geodesic.WGS84.Direct(
                centre[0],
                centre[1],
                Math.toDegrees(Math.atan2(eastNm, -southNm)),
                Math.hypot(eastNm, southNm) * METRES_PER_NM);
        return new double[] {at.lat2, at.lon2};
    }

    /** The two points that were set, as the page has them, against what it then shows: to the last figure shown. */
    private static void agrees(Browser browser, Measured shown) throws Exception {
        JsonNode ends = browser.value("import('/main.js').then(({plan: p}) => [p.from.x, p.from.y, p.to.x, p.to.y])");
        GeodesicData way = geodesic(
                place(ends.get(0).asDouble(), ends.get(1).asDouble()),
                place(ends.get(2).asDouble(), ends.get(3).asDouble()));
        assertThat(shown.distanceNm()).isCloseTo(way.s12 / METRES_PER_NM, within(0.0051));
        assertThat(shown.trueDeg()).isCloseTo((way.azi1 + 360) % 360, within(0.51));
    }

    @Test
    void withThePointer() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser browser = opened(flown)) {
            browser.click("#measure");
            browser.untilText("#measured", "Choose two points");
            pressAt(browser, "SKU");
            browser.untilText("#measured", "Choose the second point");
            pressAt(browser, "FUL");
            Measured shown = shown(browser);
            agrees(browser, shown);
            // The stations themselves, to the pixel that can be hit.
            double pixelNm = 1
                    / browser.value("import('/main.js').then((m) => m.plan.view.scale)")
                            .asDouble();
            GeodesicData way = geodesic(SKU, FUL);
            assertThat(shown.distanceNm()).isCloseTo(way.s12 / METRES_PER_NM, within(1.5 * pixelNm));
            browser.picture("page-measured-1280x720");
            // Rounded as terminal and report round it.
            assertThat(browser.value("import('/model.js').then(({figure: f}) => [f(0.045, 'NM'), f(1.005, 'NM'),"
                                    + " f(0.044, 'NM')].join(' '))")
                            .asText())
                    .isEqualTo("0.05 NM 1.01 NM 0.04 NM");
            browser.click("#measure");
            browser.until("document.getElementById('measured').textContent === ''");
            assertThat(browser.complaints()).isEmpty();
        }
    }

    @Test
    void withTheKeyboard() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser browser = opened(flown)) {
            browser.value("document.getElementById('plan').focus()");
            browser.key("m");
            browser.untilText("#measured", "Choose two points");
            browser.key("Enter");
            browser.untilText("#measured", "Choose the second point");
            double scale = browser.value("import('/main.js').then((m) => m.plan.view.scale)")
                    .asDouble();
            for (String key : new String[] {"ArrowRight", "ArrowRight", "ArrowRight", "ArrowUp"}) {
                browser.key(key);
            }
            browser.key("Enter");
            Measured shown = shown(browser);
            agrees(browser, shown);
            // Three steps of 60 pixels to the east, one to the north; the plan is all but true to scale near its
            // centre.
            assertThat(shown.distanceNm()).isCloseTo(Math.hypot(180, 60) / scale, within(0.05));
            assertThat(shown.trueDeg()).isCloseTo(Math.toDegrees(Math.atan2(180, 60)), within(1.5));
            browser.key("Escape");
            browser.until("document.getElementById('measured').textContent === ''");
            assertThat(browser.complaints()).isEmpty();
        }
    }

    @Test
    void theScaleBarHasALengthOfItsOwnWords() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty());
                Browser browser = new Browser(folder, 1280, 720)) {
            // Where each word was drawn from: the bar begins at 12 pixels and the word stands 6 after its end.
            browser.beforeEachPage("window.words = {}; const draw = CanvasRenderingContext2D.prototype.fillText;"
                    + " CanvasRenderingContext2D.prototype.fillText = function (text, x, y) {"
                    + " window.words[text] = x; draw.call(this, text, x, y); };");
            browser.open(flown.address() + "/student");
            browser.until("import('/main.js').then((m) => m.plan.view.scale > 0)");
            browser.until("Object.keys(window.words).some((word) => / NM$/.test(word))");
            JsonNode bar = browser.value("import('/main.js').then((m) => { const word = Object.keys(window.words)"
                    + ".find((each) => / NM$/.test(each));"
                    + " return [parseFloat(word), (window.words[word] - 18) / m.plan.view.scale]; })");
            assertThat(bar.get(1).asDouble()).isCloseTo(bar.get(0).asDouble(), within(0.01));
        }
    }
}
