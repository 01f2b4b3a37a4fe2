package org.rejoin.bridge.route;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import net.sf.geographiclib.Geodesic;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Clearances that contradict themselves, or lead back: said, and not flown in silence (common practice, no source). */
class BackAgainTest {

    private static OceanCase hears(String words) {
        return SouthernChart.hears(words, -51.0, 179.1);
    }

    private static List<String> choices(String words) {
        return hears(words).work().warnings().stream()
                .filter(warning -> warning.code() == Warning.Code.CHOICE_MADE)
                .map(Warning::text)
                .toList();
    }

    /** TAR to WIL is 90.3 NM by the reference geodesic. */
    @ParameterizedTest
    @ValueSource(strings = {"direct TAR, direct WIL", "direct TAR, direct WIL, then as filed"})
    void a_direct_back_to_an_earlier_fix_is_warned_of(String words) {
        double back = Geodesic.WGS84.Inverse(-50.2, -179.0, -51.0, 179.0).s12 / 1852;
        List<String> said = choices(words);
        assertThat(said).hasSize(1);
        assertThat(said.get(0)).contains("TAR twice", "back to WIL");
        Matcher miles = Pattern.compile("([0-9.]+) NM").matcher(said.get(0));
        assertThat(miles.find()).isTrue();
        assertThat(Double.parseDouble(miles.group(1))).isCloseTo(back, within(0.06));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"direct KELPY, direct TAR", "direct WIL, then as filed", "direct TAR, V9 OKA, then as filed"})
    void a_route_that_leads_on_is_not(String words) {
        assertThat(choices(words)).isEmpty();
    }

    @Test
    void what_is_said_after_as_filed_is_asked_about() {
        assertThatThrownBy(
                        () -> hears("direct TAR then as filed then direct WIL").amended())
                .hasMessageContaining("\"as filed\" goes to the end of the route")
                .hasMessageContaining("Willow");
    }

    /** KELPY is the next fix of the filed route: it can be departed, and what comes after the heading is what cannot. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "depart KELPY heading 150, intercept V9, then as filed",
                "direct KELPY, depart KELPY heading 150, intercept V9, then as filed"
            })
    void the_refusal_of_a_heading_from_a_fix_says_what_is_not_worked_out(String words) {
        assertThatThrownBy(() -> hears(words).amended())
                .hasMessageContaining("no line leads from the heading on which KELPY is departed")
                .hasMessageNotContaining("not on the amended route");
    }
}
