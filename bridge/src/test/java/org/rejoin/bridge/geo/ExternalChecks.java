package org.rejoin.bridge.geo;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;

import org.junit.jupiter.api.Test;

/**
 * A test class that compares with published values. It implements this, counts its deviations with {@link Tally}, and is
 * named in {@code META-INF/services/org.rejoin.bridge.geo.ExternalChecks} of the test resources; then its lines appear in
 * {@code docs/external-checks.md}. Public, with a public constructor without arguments, in any package.
 */
public interface ExternalChecks {

    /**
     * Runs the comparisons.
     *
     * @return lines of the table
     */
    List<ExternalCheck> checks();

    @Test
    default void everyExternalCheckIsWithinItsTolerance() {
        List<ExternalCheck> checks = checks();
        assertThat(checks).isNotEmpty();
        for (ExternalCheck check : checks) {
            assertThat(check.cases()).as(check.what()).isPositive();
            assertThat(check.largest())
                    .as("%s: worst case %s", check.what(), check.worst())
                    .isLessThanOrEqualTo(check.tolerance());
        }
    }
}
