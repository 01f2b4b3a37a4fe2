package org.rejoin.bridge.clearance;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What other traffic does (7110.65 2-1-21) and what is to be reported is no clearance. */
class HeardTest {

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "traffic 12 o'clock 5 miles descending to 6000, fly heading 040 | fly heading 040",
                "traffic 12 o'clock, 5 miles, opposite direction, maintaining 7000, direct BBB | direct BBB",
                "traffic 12 o'clock 5 miles, heading 270, direct BBB | direct BBB",
                "traffic 12 o'clock 5 miles turning left, direct BBB | direct BBB",
                "traffic 12 o'clock 5 miles proceeding direct CCC, direct BBB | direct BBB",
                "traffic 12 o'clock 5 miles crossing left to right, direct BBB | direct BBB",
                "traffic 12 o'clock 5 miles at 7000 climbing, direct BBB | direct BBB",
                "traffic 12 o'clock 5 miles joining V31, fly heading 040 | fly heading 040",
                "traffic 12 o'clock 5 miles, intercepting V31, then direct BBB | direct BBB",
                "traffic 12 o'clock, 5 miles, expected to pass behind, direct BBB | direct BBB",
                "traffic at your 12 o'clock, 5 miles, climbing to 9000, direct BBB | direct BBB"
            })
    void what_the_traffic_does_is_not_flown(String words, String flown) {
        Clearance read = ClearanceReaderTest.read(words);
        assertThat(read.instructions())
                .isEqualTo(ClearanceReaderTest.read(flown).instructions());
        String advisory = words.substring(0, words.lastIndexOf(','));
        assertThat(read.notes()).contains("\"" + advisory + "\": heard, nothing to fly");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "fly heading 040 for traffic climbing to 9000, intercept V31 | fly heading 040, intercept V31",
                "fly heading 040 due to traffic 12 o'clock 5 miles descending to 6000, intercept V31"
                        + " | fly heading 040, intercept V31",
                "descend at pilot's discretion FL080, traffic 11 o'clock 6 miles maintaining 7000"
                        + " | descend at pilot's discretion FL080"
            })
    void behind_an_instruction_it_changes_nothing(String words, String flown) {
        Clearance read = ClearanceReaderTest.read(words);
        assertThat(read.instructions())
                .isEqualTo(ClearanceReaderTest.read(flown).instructions());
        assertThat(read.notes()).anyMatch(note -> note.matches("\"[^\"]*(9000|6000|7000)\": .*nothing to fly"));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "intercepting V31",
                "descending to 6000",
                "holding at BBB",
                "reducing speed to 110",
                "climbing to 9000",
                "maintaining 6000",
                "joining V31",
                "intercepting the AAA 010 radial",
                "ready to descend to 6000",
                "passing 7000 climbing to 9000",
                "reaching or leaving 9000",
                "turning left heading 040",
                "established inbound"
            })
    void a_report_is_only_made(String report) {
        assertThat(ClearanceReaderTest.read("direct BBB, report " + report).instructions())
                .endsWith(new Instruction.Report(report))
                .startsWith(
                        ClearanceReaderTest.read("direct BBB").instructions().get(0))
                .hasSize(2);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "expedite descent through 7000, direct BBB | \"expedite descent through 7000\"",
                "descend and maintain 6000, expedite through 7000 | \"expedite through 7000\"",
                "EFC 1530, hold at BBB | \"expect further clearance one five three zero\"",
                "turn left heading 040 then turn right direct BBB | \"turn right, proceed direct Cross Swell\": the turn is from the heading"
            })
    void what_is_not_followed_is_noted_with_its_number(String words, String note) {
        assertThat(ClearanceReaderTest.read(words).notes()).anyMatch(said -> said.startsWith(note));
    }

    /** It is heard and never said of the radial before it, nor missed where there is none. */
    @Test
    void a_report_says_no_way_along_a_radial() {
        assertThat(ClearanceReaderTest.read("heading 110, intercept the AAA 250 radial, report established inbound")
                        .instructions())
                .contains(ClearanceReaderTest.read("heading 110, intercept the AAA 250 radial")
                        .instructions()
                        .get(1));
        assertThat(ClearanceReaderTest.read("join V31, report established inbound")
                        .instructions())
                .endsWith(new Instruction.Report("established inbound"));
        assertThat(ClearanceReaderTest.read("join V31, expect to maintain 6000 until established inbound")
                        .instructions())
                .hasSize(2);
    }

    @Test
    void a_frequency_said_again_is_heard_once() {
        assertThat(ClearanceReaderTest.read("fly heading 040, contact center 127.9, I say again, contact center 127.9")
                        .heard())
                .containsExactly("contact center 127.9");
    }

    @Test
    void the_reason_behind_a_colon_is_noted_without_it() {
        assertThat(ClearanceReaderTest.read("fly heading 040: for traffic, intercept V31")
                        .notes())
                .anyMatch(note -> note.startsWith("\"for traffic\": the reason for the vector"));
    }
}
