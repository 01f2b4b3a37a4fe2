package org.rejoin.bridge.geo;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.ServiceLoader;

import org.junit.jupiter.api.Test;

/** Writes docs/external-checks.md from the checks themselves, and fails when the committed page says something else. */
class ExternalChecksPageTest {

    private static final Path PAGE = Path.of("docs", "external-checks.md");

    private static final String HOW_TO_WRITE =
            "mvn -pl sim-protocol,bridge test -Dtest=ExternalChecksPageTest -Dsurefire.failIfNoSpecifiedTests=false"
                    + " -Drejoin.write-docs=true";

    @Test
    void thePageSaysWhatTheChecksFound() throws IOException {
        String page = page();
        if (Boolean.getBoolean("rejoin.write-docs")) {
            Files.createDirectories(PAGE.getParent());
            Files.writeString(PAGE, page);
        }
        assertThat(Files.exists(PAGE) ? Files.readString(PAGE) : "")
                .as("%s is out of date; write it with: %s", PAGE, HOW_TO_WRITE)
                .isEqualTo(page);
    }

    @Test
    void deviationsAreRoundedToOneDigitAndNoiseIsNotShown() {
        assertThat(deviation(0.000234, 0.0005)).isEqualTo("0.0002");
        assertThat(deviation(0.0096, 0.1)).isEqualTo("0.01");
        assertThat(deviation(12.3, 50)).isEqualTo("10");
        assertThat(deviation(4e-9, 0.001)).isEqualTo("< 0.000001");
        assertThat(deviation(0, 0)).isEqualTo("0");
    }

    private static String page() {
        List<ExternalCheck> checks = ServiceLoader.load(ExternalChecks.class).stream()
                .flatMap(provider -> provider.get().checks().stream())
                .sorted(Comparator.comparing(ExternalCheck::topic)
                        .thenComparing(ExternalCheck::what)
                        .thenComparing(ExternalCheck::source))
                .toList();
        StringBuilder page = new StringBuilder("""
                # External checks

                *For simulation and training only. Not for navigation. Follow local rules and your instructor.*

                Every value below was published by somebody else, computed with somebody else's software or, where the source
                says so, worked out apart from our code, and is compared with ours by the tests. This page is written by those
                tests and checked by each build; it is not typed. To write it again:

                ```
                """);
        page.append(HOW_TO_WRITE)
                .append(
                        "\n```\n\nDeviations are rounded to one digit; one below a thousandth of its tolerance is shown as")
                .append(
                        " less than that.\nWhere the source prints few digits, its rounding is most of the deviation.\n");
        String topic = "";
        for (ExternalCheck check : checks) {
            if (!check.topic().equals(topic)) {
                topic = check.topic();
                page.append("\n## ").append(topic).append("\n\n");
                page.append("| compared | cases | largest deviation | tolerance | source |\n");
                page.append("| --- | ---: | ---: | ---: | --- |\n");
            }
            page.append("| ").append(check.what());
            page.append(" | ").append(check.cases());
            page.append(" | ").append(withUnit(deviation(check.largest(), check.tolerance()), check.unit()));
            page.append(" | ").append(withUnit(plain(check.tolerance()), check.unit()));
            page.append(" | ").append(check.source()).append(" |\n");
        }
        return page.toString();
    }

    private static String deviation(double largest, double tolerance) {
        if (Double.isInfinite(largest)) {
            return "wrong outcome";
        }
        if (largest > 0 && largest < tolerance / 1000) {
            return "< " + plain(tolerance / 1000);
        }
        return plain(new BigDecimal(largest)
                .round(new MathContext(1, RoundingMode.HALF_UP))
                .doubleValue());
    }

    private static String plain(double value) {
        return value == 0 ? "0" : BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
    }

    private static String withUnit(String value, String unit) {
        return unit.isEmpty() ? value : value + " " + unit;
    }
}
