package org.rejoin.bridge.clearance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.util.List;
import java.util.Optional;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * What stands in front of a clearance is a callsign (FAA Order JO 7110.65, 2-4-8 and 2-4-15; Aeronautical Information Manual
 * 4-2-4), or an instruction in other words, which is never taken for one.
 */
class CallsignTest {

    /** HDG is the abbreviation of heading (ICAO Doc 8400). */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "hdg 060, join V31",
                "HDG060 join V31",
                "h060 join V31",
                "steer 060, join V31",
                "steer heading 060, join V31",
                "fly hdg 060, join V31",
                "fly heading 060\u00B0, join V31",
                "Oceanic 512 h060 join V31",
                "Oceanic 512, steer 060, join V31"
            })
    void a_heading_in_other_words_is_flown(String words) {
        assertThat(ClearanceReaderTest.read(words).instructions())
                .isEqualTo(ClearanceReaderTest.read("fly heading 060, join V31").instructions());
        assertThat(ClearanceReaderTest.read(words).callsign())
                .isEqualTo(words.startsWith("Oceanic") ? Optional.of("Oceanic 512") : Optional.empty());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "make a 180, intercept V31 | fly heading 180",
                "go 060, join V31 | fly heading 060",
                "060, join V31 | fly heading 060",
                "two six zero, join V31 | fly heading 260",
                "6000, join V31 | maintain 6000",
                "alt 6000, join V31 | maintain 6000",
                "alt6000 join V31 | maintain 6000",
                "crs 090, join V31 | fly heading 090",
                "A060, join V31 | leave the callsign out",
                "r 250, join V31 | leave the callsign out",
                "N123AB 060, join V31 | fly heading 060",
                "Oceanic 512 060 join V31 | fly heading 060",
                "Oceanic five one two zero six zero join V31 | leave the callsign out"
            })
    void an_instruction_that_is_none_is_no_callsign_either(String words, String right) {
        ClearanceException refused = catchThrowableOfType(
                ClearanceException.class, () -> ClearanceReader.read(words, OceanChart.CHART, OceanChart.filed()));
        assertThat(refused).as(words).isNotNull();
        assertThat(refused.code()).isEqualTo(ClearanceException.Code.NOT_UNDERSTOOD);
        assertThat(refused.column()).hasValue(0);
        assertThat(refused).hasMessageContaining(right);
    }

    @ParameterizedTest
    @CsvSource({
        "'Oceanic 512, join V31', Oceanic 512",
        "'512, join V31', 512",
        "'OCN250, join V31', OCN250",
        "'N250, join V31', N250",
        "'november two five zero, join V31', november two five zero",
        "'N12345, join V31', N12345",
        "'Oceanic 512 heavy, join V31', Oceanic 512 heavy",
        "'Oceanic 512, Oceanic Center, join V31', Oceanic 512"
    })
    void a_callsign_is_one(String words, String callsign) {
        assertThat(ClearanceReaderTest.read(words).callsign()).contains(callsign);
        assertThat(ClearanceReaderTest.read(words).instructions())
                .isEqualTo(ClearanceReaderTest.read("join V31").instructions());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "Oceanic 250, join V31 | a heading is \"fly heading 250\"",
                "Oceanic two five zero, intercept the AAA 250 radial | a heading is \"fly heading 250\"",
                "Oceanic 2500, join V31 | an altitude is \"maintain 2500\""
            },
            quoteCharacter = '`')
    void what_could_be_a_heading_and_is_taken_for_a_callsign_is_said(String words, String note) {
        List<String> notes = ClearanceReaderTest.read(words).notes();
        assertThat(notes).singleElement().asString().contains("taken for the callsign", note);
        assertThat(ClearanceReaderTest.read(words + ", fly heading 100, maintain 6000")
                        .notes())
                .noneMatch(each -> each.contains("callsign; "));
    }

    @ParameterizedTest
    @ValueSource(strings = {"fly heading 100, Oceanic 512", "heading 100, Oceanic 512 heavy"})
    void heavy_is_no_other_aircraft(String readback) {
        Clearance cleared = ClearanceReaderTest.read("Oceanic 512 heavy, fly heading 100");
        assertThat(Readback.check(cleared, readback, OceanChart.CHART, OceanChart.filed()))
                .allMatch(each -> each.verdict() == Readback.Verdict.RIGHT);
    }
}
