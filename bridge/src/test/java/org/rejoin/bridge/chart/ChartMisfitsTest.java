package org.rejoin.bridge.chart;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.List;

import org.rejoin.bridge.chart.ChartReport.Finding;
import org.rejoin.bridge.chart.ChartReport.Oddity;
import org.rejoin.bridge.chart.io.ChartReader;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * A slip of the pen in a position or a declination is said with its line. Thresholds: common practice, no source. The
 * variations are those of the World Magnetic Model, which has tests of its own.
 */
class ChartMisfitsTest {

    private static final LocalDate DAY = LocalDate.of(2026, 6, 1);

    private static List<Finding> misfits(String fixes, String stations) throws IOException {
        String yaml = "fixes:\n" + fixes + (stations.isEmpty() ? "" : "stations:\n" + stations);
        ChartReader.Result read =
                ChartReader.read(new ByteArrayInputStream(yaml.getBytes(StandardCharsets.UTF_8)), "test.yaml");
        assertThat(read.problems()).isEmpty();
        return ChartReport.of(read.chart(), read.lines()).misfits(DAY);
    }

    private static String fix(String ident, String latitude, String longitude) {
        return "  - {ident: " + ident + ", latitude_deg: " + latitude + ", longitude_deg: " + longitude + "}\n";
    }

    private static String some() {
        return fix("AAAAA", "38", "-50") + fix("BBBBB", "38.5", "-49") + fix("CCCCC", "39", "-51");
    }

    @ParameterizedTest
    @CsvSource({
        "-50.2, 38.1, 'did you mean latitude 38.1, longitude -50.2?'",
        "38.1, 50.2, 'did you mean latitude 38.1, longitude -50.2?'",
        "-38.1, -50.2, 'did you mean latitude 38.1, longitude -50.2?'",
        "3.81, -50.2, 'latitude comes first, north and east are plus'",
    })
    void aPointFarFromAllOthersIsSaidWithWhatWasMeant(String latitude, String longitude, String said)
            throws IOException {
        assertThat(misfits(some() + fix("DDDDD", latitude, longitude), ""))
                .singleElement()
                .satisfies(finding -> {
                    assertThat(finding.oddity()).isEqualTo(Oddity.FAR_OFF);
                    assertThat(finding.ident()).isEqualTo("DDDDD");
                    assertThat(finding.line()).isEqualTo(5);
                    assertThat(finding.text()).contains(said);
                });
    }

    @Test
    void aChartAcrossTheDateLineAndOneOfAWholeOceanAreSound() throws IOException {
        assertThat(misfits(
                        fix("AAAAA", "-40", "179.5") + fix("BBBBB", "-40", "-179.5") + fix("CCCCC", "-41", "-179"), ""))
                .isEmpty();
        assertThat(misfits(
                        fix("AAAAA", "0", "-150")
                                + fix("BBBBB", "30", "-170")
                                + fix("CCCCC", "-30", "-120")
                                + fix("DDDDD", "45", "-150"),
                        ""))
                .isEmpty();
    }

    @ParameterizedTest
    @CsvSource({
        "-16, false, '', ",
        "16, true, 'the sign looks wrong; east is plus, west is minus', DECLINATION_SIGN",
        "-40, true, check it, DECLINATION_OFF",
        "-6, true, check it, DECLINATION_OFF",
        "-9, false, '', "
    })
    void aDeclinationIsHeldAgainstTodaysVariation(String declination, boolean odd, String said, Oddity oddity)
            throws IOException {
        List<Finding> findings = misfits(
                some(),
                "  - {ident: AAA, kind: VOR, latitude_deg: 38, longitude_deg: -50, declination_deg: " + declination
                        + "}\n");
        assertThat(findings).hasSize(odd ? 1 : 0).allSatisfy(finding -> {
            assertThat(finding.oddity()).isEqualTo(oddity);
            assertThat(finding.line()).isEqualTo(6);
            assertThat(finding.text()).contains(said);
        });
    }
}
