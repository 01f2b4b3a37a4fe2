package org.rejoin.bridge.clearance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.rejoin.bridge.clearance.Instruction.TurnDirection;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What a controller says in a word less, or in other words, than the book has it. */
class AlsoSaidTest {

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                // A radial without the word.
                "AAA 078 outbound, join V88 | the AAA 078 radial outbound, join V88",
                "fly heading 100, intercept AAA 078 outbound, join V88"
                        + " | fly heading 100, intercept the AAA 078 radial outbound, join V88",
                "track outbound AAA 078, join V88 | track outbound on the AAA 078 radial, join V88",
                "direct AAA, outbound on the 078, join V88 | direct AAA, outbound on the 078 radial, join V88",
                "direct AAA, then track 078 outbound, join V88 | direct AAA, outbound on the 078 radial, join V88",
                "direct AAA then 078 degrees outbound to join V88 | direct AAA, outbound on the 078 radial, join V88",
                "direct NNB, outbound on the 120 | direct NNB, outbound on the 120 bearing",
                "depart AAA on the 078 | depart AAA on the 078 radial",
                "depart AAA outbound on the 078 radial | depart AAA on the 078 radial",
                "depart NNB on the 120 | depart NNB on the 120 bearing",
                "inbound AAA on the 070 course | intercept the AAA 250 radial inbound",
                "track inbound to AAA on the 250 radial | intercept the AAA 250 radial inbound",
                "intercept the AAA 250 radial, inbound on the 070 | intercept the AAA 250 radial inbound",
                "intercept the AAA 250 radial, inbound on the 250 | intercept the AAA 250 radial inbound",
                "intercept the AAA 250 radial, inbound on the 070 course | intercept the AAA 250 radial inbound",
                // An arc by its side.
                "join the AAA 15 DME arc south to the 170 radial | intercept the 15 mile arc south of AAA to the 170 radial",
                "arc south of AAA, 15 DME, to the 170 radial | intercept the 15 mile arc south of AAA to the 170 radial",
                "arc south of AAA on the 15 mile arc to the 170 radial"
                        + " | intercept the 15 mile arc south of AAA to the 170 radial",
                "intercept the AAA 15 mile arc, arc south of AAA, to the 170 radial"
                        + " | intercept the 15 mile arc south of AAA to the 170 radial",
                "intercept the 15 DME arc of AAA south to the 170 radial"
                        + " | intercept the 15 mile arc south of AAA to the 170 radial",
                "fly the AAA 15 DME arc south of AAA to the 170 radial"
                        + " | intercept the 15 mile arc south of AAA to the 170 radial",
                // As filed up to a fix, and but for it.
                "as filed to BBB, then direct DDD | after BBB, direct DDD",
                "cleared as filed until BBB, then V88 DDD | after BBB, V88 DDD",
                "flight planned route to BBB, then fly heading 120 | after BBB, fly heading 120",
                "as filed except after ABCDE direct BBB | after ABCDE, direct BBB, rest of route unchanged",
                "cleared as filed, except direct BBB after ABCDE | after ABCDE, direct BBB, rest of route unchanged",
                "as filed but direct BBB | direct BBB, rest of route unchanged",
                "direct BBB, rest unchanged | direct BBB, rest of route unchanged",
                "cleared as filed to XBBB | cleared as filed",
                "leave BBB direct DDD | after BBB, direct DDD",
                "leave BBB, descend and maintain 5000 | after BBB, descend and maintain 5000",
                "climb and maintain 8000 leaving BBB | climb and maintain 8000 after passing BBB",
                // On course.
                "direct BBB, on track | direct BBB, on course",
                "turn left, proceed on course | turn left on course",
                // A turn by degrees.
                "turn left 20 degrees to V31 | turn left 20 degrees, intercept V31",
                "turn 20 left onto V31 | turn left 20 degrees, intercept V31",
                "turn 20 degrees right to the AAA 078 radial | turn 20 degrees right, intercept the AAA 078 radial",
                "fly heading 100 onto V31 | fly heading 100, intercept V31",
                // A place by miles and a side.
                "direct five miles southwest of BBB on V31 | join V31 five miles southwest of BBB",
                "proceed to a point five miles east of BBB | direct 5 miles east of BBB",
                "present position direct 5 miles east of BBB | direct 5 miles east of BBB",
                // Times.
                "hold at BBB, EAC 1545 | hold at BBB, expect approach clearance 1545",
                "hold at BBB, expect approach at 1545 | hold at BBB, expect approach clearance 1545",
                "hold at BBB, expect approach clearance not later than 1545 | hold at BBB, EAC 1545",
                "hold at BBB, inbound 050 | hold at BBB, inbound track 050",
                "cross BBB not later than 1545 | cross BBB at or before time 1545",
                "cross BBB no earlier than 1545 | cross BBB at or after time 1545",
                // Around it.
                "you can expect direct BBB | expect direct BBB",
                "vectors across V31 for spacing, fly heading 100 | fly heading 100",
                "new route: direct BBB | direct BBB",
                "cleared to XBBB via present position direct BBB, direct | cleared to XBBB via direct BBB, direct"
            })
    void is_the_same_clearance(String said, String words) {
        Clearance read = ClearanceReaderTest.read(said);
        assertThat(read.instructions())
                .isEqualTo(ClearanceReaderTest.read(words).instructions());
        assertThat(ClearanceReaderTest.read(Phraseology.say(read)).instructions())
                .as(Phraseology.say(read))
                .isEqualTo(read.instructions());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "AAA 078 outbound, join V88 | \"AAA 078 outbound\": the 078 radial of AAA is meant",
                "inbound AAA on the 070 course | \"inbound AAA on the 070 course\": the 250 radial of AAA is meant",
                "direct NNB, outbound on the 120 | \"outbound on the 120\": the 120 bearing from NNB is meant",
                "direct 5 miles east of BBB"
                        + " | \"5 miles east of BBB\": reckoned by magnetic north there, of a VOR by its radials"
            })
    void how_it_was_read_is_noted(String said, String note) {
        assertThat(ClearanceReaderTest.read(said).notes()).contains(note);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                // Inbound a radial and its course are opposite: which is meant only ATC can say.
                "track inbound AAA 250 | inbound on the 250 radial is course 070, and course 250 is the 070 radial",
                "AAA 250 inbound, then as filed | say \"the AAA 250 radial inbound\", or \"the 250 course inbound to AAA\"",
                "direct AAA, inbound on the 250 | a radial or a course?",
                "AAA 15 outbound | has three figures",
                "direct ABCDE, outbound on the 078 | of which station?",
                "outbound on the 078 | of which station?",
                "arc south of AAA to the 170 radial | how far out?",
                "intercept the AAA 15 mile arc, arc south of BBB | the arc is about AAA",
                "as filed to DDD, then direct BBB | DDD is not in the filed route",
                "as filed to BBB, maintain 7000 | how the route goes on from BBB is not said",
                "cleared as filed to BBB | how the route goes on from BBB is not said",
                "except direct BBB | except from what?",
                "direct b point 5 miles east of BBB | say \"a point\"",
                "direct 5 miles east of BBB on the BBB 090 radial | say the miles by the DME",
                "direct 5 miles east of BBB, hold | where to hold is not said",
                "turn left to join V31 | on which heading?",
                // Three figures are a heading in the trade, two are degrees to turn by (common practice, no source).
                "turn 270 left | a heading, or by so many degrees?",
                "turn two seven zero left | say \"turn left heading two seven zero\"",
                "turn 090 left, join V31 | a heading, or by so many degrees?"
            })
    void what_can_be_meant_in_two_ways_is_asked_about(String said, String question) {
        assertThatThrownBy(() -> ClearanceReader.read(said, OceanChart.CHART, OceanChart.filed()))
                .isInstanceOf(ClearanceException.class)
                .hasMessageContaining(question);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "rolling out on heading 110",
                "rolling out heading 110",
                "steady on heading 110",
                "established on heading 110"
            })
    void a_heading_that_is_to_be_reported_is_not_given(String due) {
        assertThat(ClearanceReaderTest.read("report " + due).instructions())
                .containsExactly(new Instruction.Report(due));
    }

    @Test
    void behind_what_is_to_be_expected_as_filed_is_expected_too() {
        assertThat(ClearanceReaderTest.read("expect heading 110 to V31, then as filed")
                        .instructions())
                .containsExactly(new Instruction.Expect("heading 110 to V31, then as filed"));
        assertThat(ClearanceReaderTest.read("direct ABCDE, expect V88 after BBB, then as filed")
                        .instructions())
                .last()
                .isEqualTo(new Instruction.Onward(Instruction.Onward.How.AS_FILED));
    }

    /** FAA Order JO 7110.65, 4-5-7, from memory: the altitude to be expected is said for lost communications. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "climb and maintain 7000, expect 8000 one zero minutes after BBB, then as filed",
                "climb and maintain 7000, expect flight level 190 at BBB, then as filed",
                "maintain 7000, expect to cross BBB at 8000, then as filed",
                "maintain 7000, expect speed 120 knots after BBB, then as filed",
                "maintain 7000, expect higher in one zero minutes, then as filed"
            })
    void behind_an_altitude_or_a_speed_to_be_expected_as_filed_is_cleared(String said) {
        assertThat(ClearanceReaderTest.read(said).instructions())
                .last()
                .isEqualTo(new Instruction.Onward(Instruction.Onward.How.AS_FILED));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "V88 after BBB",
                "victor eighty-eight after BBB",
                "the AAA 078 radial outbound",
                "direct DDD",
                "to join V31"
            })
    void behind_any_way_to_be_expected_it_is_expected(String way) {
        assertThat(ClearanceReaderTest.read("maintain 7000, expect " + way + ", then as filed")
                        .first(Instruction.Onward.class))
                .isEmpty();
    }

    @Test
    void as_filed_to_a_fix_says_where_the_way_on_begins_and_not_an_altitude() {
        assertThat(ClearanceReaderTest.read("as filed to BBB, maintain 7000, then direct DDD")
                        .instructions())
                .isEqualTo(ClearanceReaderTest.read("maintain 7000. After BBB, direct DDD")
                        .instructions());
        assertThat(ClearanceReaderTest.read("as filed to BBB, then maintain 7000, direct DDD")
                        .altitudeFt())
                .isEmpty();
    }

    @Test
    void expect_approach_clearance_is_no_further_clearance() {
        Clearance both =
                ClearanceReaderTest.read("hold at BBB, expect further clearance 1530, expect approach clearance 1545");
        assertThat(both.first(Instruction.Hold.class).orElseThrow().expectFurtherClearance())
                .contains("1530");
        assertThat(both.first(Noted.ApproachClearance.class)).contains(new Noted.ApproachClearance("1545"));
        assertThat(Phraseology.say(both)).endsWith("expect approach clearance one five four five");
        assertThat(ClearanceReaderTest.read("hold at BBB, EAC 1545, correction 1555")
                        .all(Noted.ApproachClearance.class))
                .containsExactly(new Noted.ApproachClearance("1555"));
        assertThat(ClearanceReaderTest.read("hold at BBB, expect approach clearance in 20 minutes")
                        .all(Noted.ApproachClearanceIn.class))
                .containsExactly(new Noted.ApproachClearanceIn(20));
    }

    @Test
    void the_turn_onto_a_line_is_said_and_read_back() {
        Clearance said = ClearanceReaderTest.read("fly heading 100, turn left onto V31, then as filed");
        assertThat(said.first(Noted.TurnOnto.class)).contains(new Noted.TurnOnto(TurnDirection.LEFT));
        assertThat(Phraseology.say(said))
                .isEqualTo("fly heading one zero zero, turn left to join victor thirty-one, then as filed");
        assertThat(Phraseology.say(ClearanceReaderTest.read("turn right on course")))
                .isEqualTo("turn right, on course");
        assertThat(Readback.check(
                        said,
                        "heading 100, right turn to join victor thirty-one, as filed",
                        OceanChart.CHART,
                        OceanChart.filed()))
                .anyMatch(each -> each.what().equals("turn") && each.verdict() == Readback.Verdict.WRONG);
    }
}
