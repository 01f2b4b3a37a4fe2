package org.rejoin.bridge.clearance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.util.Optional;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A clearance typed as pilots copy it (common practice, no source), and everyday words for it. */
class ShorthandTest {

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "fh 040 i v31 | fly heading 040, intercept V31",
                "fh040 int v31 | fly heading 040, intercept V31",
                "t l 040, i V31 | turn left heading 040, intercept V31",
                "T/L 040 INT V31 | turn left heading 040, intercept V31",
                "rt 140 | turn right heading 140",
                "lt 040 | turn left heading 040",
                "rgt 140 | turn right heading 140",
                "tr 140 | turn right heading 140",
                "dm 60, direct BBB | descend and maintain 6000, direct BBB",
                "dm60, direct BBB | descend and maintain 6000, direct BBB",
                "dm FL80, direct BBB | descend and maintain FL80, direct BBB",
                "mtn 60, dct BBB | maintain 6000, direct BBB",
                "m 90, direct BBB | maintain 9000, direct BBB",
                "maint 90, direct BBB | maintain 9000, direct BBB",
                "desc 60, direct BBB | descend and maintain 6000, direct BBB",
                "dsnd 6000, direct BBB | descend and maintain 6000, direct BBB",
                "cm 100, direct BBB | climb and maintain 10000, direct BBB",
                "ias 120, direct BBB | speed 120, direct BBB",
                "spd 120, direct BBB | speed 120, direct BBB",
                "cross BBB at 7000 and 110 knots | cross BBB at 7000, at 110 knots",
                "make a left turn to heading 040 | turn left heading 040",
                "fly heading 040, intercept and track the AAA 250 radial inbound"
                        + " | fly heading 040, intercept the AAA 250 radial inbound",
                "descend to cross BBB at 7000 | cross BBB at 7000"
            })
    void is_read_as_what_it_is_written_for(String typed, String said) {
        assertThat(ClearanceReaderTest.read(typed).callsign()).isEqualTo(Optional.empty());
        assertThat(ClearanceReaderTest.read(typed).instructions())
                .isEqualTo(ClearanceReaderTest.read(said).instructions());
    }

    @ParameterizedTest
    @CsvSource({"'dm 60, direct BBB', dm 60, 6000", "'direct BBB, m 100', m 100, 10000"})
    void hundreds_of_feet_are_said(String typed, String words, String feet) {
        assertThat(ClearanceReaderTest.read(typed).notes()).contains("\"" + words + "\": read as " + feet + " feet");
    }

    /** Each abbreviation is said back as it was read, so that a slip in it is seen. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "fh 040 i v31 | \"fh\": read as \"fly heading\"",
                "fh 040 i v31 | \"i\": read as \"intercept\"",
                "T/L 040 INT V31 | \"T/L\": read as \"turn left\"",
                "dm60, dct BBB | \"dm\": read as \"descend and maintain\"",
                "dm60, dct BBB | \"dct\": read as \"direct\""
            })
    void is_said_as_it_was_read(String typed, String note) {
        assertThat(ClearanceReaderTest.read(typed).notes()).contains(note);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "int 040, direct BBB | 040",
                "mach 80, direct BBB | in knots",
                "sq 4512, direct BBB | leave it out",
                "xpdr 4512, direct BBB | leave it out",
                "alt 060, direct BBB | \"maintain 6000\"",
                "direct BBB, eleven thousand | \"maintain 11000\"",
                "direct BBB, 7000 | \"maintain 7000\"",
                "maintain 6000, VFR | an instruction"
            })
    void what_is_none_is_refused_with_what_to_say(String typed, String right) {
        ClearanceException refused = catchThrowableOfType(
                ClearanceException.class, () -> ClearanceReader.read(typed, OceanChart.CHART, OceanChart.filed()));
        assertThat(refused).as(typed).isNotNull();
        assertThat(refused).hasMessageContaining(right);
    }

    @ParameterizedTest
    @CsvSource({"'qq 123, join V31', qq 123", "'Oceanic 512, join V31', Oceanic 512"})
    void what_was_taken_for_the_callsign_is_said(String typed, String callsign) {
        assertThat(ClearanceReaderTest.read(typed).notes())
                .anyMatch(note -> note.startsWith("\"" + callsign + "\": taken for the callsign"));
    }
}
