package org.rejoin.bridge.route;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.stream.Collectors;

import org.rejoin.bridge.chart.Waypoint;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What is filed and no longer flown, whatever the words: XHAL DCT HAL V71 KIT DCT XKIT, by WRACK and KELPY. */
class SkippedFixesTest {

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "direct XKIT | HAL WRACK KELPY KIT",
                "direct destination | HAL WRACK KELPY KIT",
                "cleared to XKIT via direct | HAL WRACK KELPY KIT",
                "direct KIT, direct XKIT | HAL WRACK KELPY",
                "direct KELPY, V23 SUDDY, direct XKIT | HAL WRACK KIT",
                "via V71 KELPY, V9 ORM, direct XORM | HAL KIT XKIT",
                "cleared to XORM via V71 KELPY V9 ORM direct | HAL KIT XKIT",
                "direct ORM, direct XORM | HAL WRACK KELPY KIT XKIT",
                "cleared to XORM via direct | HAL WRACK KELPY KIT XKIT"
            })
    void to_the_destination_or_another_all_between_is_skipped(String words, String skipped) {
        assertThat(NorthernChart.hears(words).work().skipped().stream()
                        .map(Waypoint::ident)
                        .collect(Collectors.joining(" ")))
                .isEqualTo(skipped);
    }

    /** ATC has yet to say how it goes on from ORM: perhaps back to what was filed. */
    @ParameterizedTest
    @CsvSource({"direct ORM", "fly heading 010"})
    void where_the_route_is_open_nothing_is_given_up_yet(String words) {
        assertThat(NorthernChart.hears(words).work().skipped()).isEmpty();
    }
}
