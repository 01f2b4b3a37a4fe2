package org.rejoin.bridge.clearance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.util.List;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Fix;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What controllers say every day for the words of the order (common practice, no source): it is the same clearance. */
class EverydayWordsTest {

    private static Clearance read(String text) throws ClearanceException {
        return ClearanceReader.read(text, OceanChart.CHART, OceanChart.filed());
    }

    private static ClearanceException refused(String text) {
        ClearanceException refused = catchThrowableOfType(ClearanceException.class, () -> read(text));
        assertThat(refused).as(text).isNotNull();
        return refused;
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                // To a fix.
                "set course BBB | direct BBB",
                "set course direct BBB | direct BBB",
                "turn left, set course to BBB | turn left direct BBB",
                "go direct BBB | direct BBB",
                "navigate direct BBB | direct BBB",
                "left turn direct BBB | turn left direct BBB",
                "own navigation to BBB | direct BBB",
                "resume own navigation to BBB, then as filed | direct BBB, then as filed",
                "you are cleared direct BBB | cleared direct BBB",
                "you are now cleared direct BBB, then V88 DDD | cleared direct BBB, then V88 DDD",
                "direct BBB, after that direct DDD | direct BBB, then direct DDD",
                "direct BBB, thereafter V88 DDD | direct BBB, then V88 DDD",
                "proceed to BBB on the AAA 078 radial | proceed to BBB via the AAA 078 radial",
                "proceed to AAA on the AAA 250 radial | proceed to AAA via the AAA 250 radial",
                "proceed to BBB on V31 | V31 BBB",
                "your clearance limit is BBB | clearance limit BBB",
                // On as filed.
                "direct BBB, as filed thereafter | direct BBB, as filed",
                "direct BBB, then as cleared | direct BBB, then as filed",
                "direct BBB, rest of route as previously cleared | direct BBB, rest of route unchanged",
                "direct BBB, resume on course | direct BBB, on course",
                "rejoin the flight planned route at BBB | direct BBB, then as filed",
                "direct BBB, rejoin flight planned route at BBB | direct BBB, then as filed",
                "change of route: direct BBB, then as filed | direct BBB, then as filed",
                // Headings.
                "left 100, join V31 | turn left heading 100, join V31",
                "turn left onto heading 100, join V31 | turn left heading 100, join V31",
                "left onto 100 | turn left heading 100",
                "left 20 degrees | turn left 20 degrees",
                "right turn 20 degrees | turn 20 degrees right",
                "heading 00 | heading 360",
                "right to 100 | turn right heading 100",
                "fly heading of 100 | fly heading 100",
                "assigned heading 100, join V31 | fly heading 100, join V31",
                "new heading 100 | fly heading 100",
                "keep heading 100 | fly heading 100",
                "stay on present heading, join V31 | fly present heading, join V31",
                "present heading, intercept V31 | fly present heading, intercept V31",
                "fly present heading 100 | fly heading 100",
                "roll out heading 100 | stop turn heading 100",
                "fly heading 100, vectors, join V31 | fly heading 100, join V31",
                "fly heading 100 for vectors | fly heading 100",
                "this is a vector for traffic, fly heading 100 | fly heading 100",
                "radar vectors for spacing, turn left heading 100, join V31 | turn left heading 100, join V31",
                // Onto a line.
                "fly heading 100 to V31 | fly heading 100, intercept V31",
                "fly heading 100 to V31 at ABCDE | fly heading 100, intercept V31 at ABCDE",
                "fly heading 100 to V31 northeastbound | fly heading 100, intercept V31 northeastbound",
                "left 100 to the AAA 078 radial | turn left heading 100, intercept the AAA 078 radial",
                "fly heading 100, join and follow V31 | fly heading 100, join V31",
                "fly heading 100, intercept and proceed via V31 | fly heading 100, intercept V31",
                "intercept and fly the AAA 078 radial outbound | intercept the AAA 078 radial outbound",
                "fly the AAA 078 radial to V88 | track the AAA 078 radial to V88",
                "intercept and track inbound on the AAA 250 radial | track inbound on the AAA 250 radial",
                "intercept the AAA 078 radial, then outbound to V88 | intercept the AAA 078 radial outbound to V88",
                "re-intercept V31 | intercept V31",
                "intercept the AAA 15 mile arc, clockwise to the 070 radial, then inbound"
                        + " | intercept the AAA 15 mile arc, clockwise to the 070 radial, inbound",
                "join V31 inbound to BBB | join V31 to BBB",
                "fly heading 100, turn left onto V31 | fly heading 100, turn left to join V31",
                "fly heading 100, right turn to intercept the AAA 078 radial"
                        + " | fly heading 100, turn right to intercept the AAA 078 radial",
                "fly heading 100, turn left onto the AAA 15 mile arc, arc clockwise to the 070 radial"
                        + " | fly heading 100, turn left to join the AAA 15 mile arc, arc clockwise to the 070 radial",
                // Altitudes and crossings.
                "cross BBB not below 9000 | cross BBB at or above 9000",
                "cross BBB no higher than FL120 | cross BBB at or below FL120",
                "join V31 at BBB not below 9000 | join V31 at BBB at or above 9000",
                "pass BBB at or above 9000 | cross BBB at or above 9000",
                "direct BBB, cross it at 9000 | direct BBB, cross BBB at 9000",
                "maintain not below 9000 | maintain at or above 9000",
                "maintain between 6000 and 8000 | maintain block 6000 through 8000",
                "direct BBB to cross at 9000 | direct BBB, cross BBB at 9000",
                "cross BBB at 9000 feet, 120 knots | cross BBB at 9000 feet at 120 knots",
                "reduce 20 knots | reduce speed by 20 knots",
                "slow 120 knots | reduce speed to 120 knots",
                "stop your climb at 8000 | stop climb at 8000",
                "descend to 4000 feet on QNH 1013 | descend to 4000 feet, QNH 1013",
                // Holding.
                "direct BBB, hold there west on V31 | direct BBB, hold west on V31",
                "cleared to hold at BBB, as published | hold at BBB, as published",
                "direct BBB, enter the hold at BBB, left turns | direct BBB, hold at BBB, left turns",
                // Around it.
                "direct BBB approved | direct BBB",
                "direct BBB is approved, maintain 8000 | direct BBB, maintain 8000",
                "approved as requested, direct BBB | direct BBB",
                "request approved, direct BBB | direct BBB",
                "negative, fly heading 100 | fly heading 100",
                "Oceanic 512 negative, fly heading 100 | fly heading 100",
            })
    void is_the_same_clearance(String said, String words) throws ClearanceException {
        assertThat(read(said).instructions()).isEqualTo(read(words).instructions());
    }

    /** What is flown from a fix may stand behind "then"; elsewhere a heading behind a direct is not told apart. */
    @Test
    void a_heading_behind_then_begins_at_the_fix_before_it() throws ClearanceException {
        assertThat(read("direct BBB, then turn left heading 060").instructions())
                .isEqualTo(read("direct BBB, at BBB turn left heading 060").instructions());
        assertThat(read("V31 BBB, then turn left heading 060").instructions())
                .isEqualTo(read("V31 BBB, at BBB turn left heading 060").instructions());
        assertThat(read("direct BBB, turn left heading 060").instructions())
                .doesNotHaveAnyElementsOfTypes(Instruction.Depart.class);
        assertThat(read("direct BBB when able, then fly heading 060").instructions())
                .doesNotHaveAnyElementsOfTypes(Instruction.Depart.class);
    }

    @Test
    void an_altitude_and_the_way_on_may_both_begin_at_a_fix() throws ClearanceException {
        for (String both : List.of(
                "at BBB descend and maintain 6000 and direct DDD",
                "after BBB, descend and maintain 6000, direct DDD")) {
            Clearance read = read(both);
            assertThat(read.instructions())
                    .containsAll(read("at BBB, direct DDD").instructions())
                    .containsAll(read("at BBB, descend and maintain 6000").instructions());
        }
        assertThat(read("at BBB descend and maintain 6000, then turn left heading 060")
                        .instructions())
                .contains(read("at BBB turn left heading 060").instructions().get(0));
        assertThat(read("at BBB descend and maintain 6000, then as filed").instructions())
                .contains(new Instruction.Onward(Instruction.Onward.How.AS_FILED))
                .containsAll(read("at BBB descend and maintain 6000").instructions());
        assertThat(read("at BBB descend and maintain 6000. Direct DDD").instructions())
                .doesNotHaveAnyElementsOfTypes(Instruction.Depart.class);
        assertThat(read("at BBB descend and maintain 6000, then direct DDD").notes())
                .noneMatch(note -> note.contains("due at once"));
    }

    /** Where it is flown on from a fix the route leads there; who is told a time goes on as before until then. */
    @Test
    void own_navigation_at_a_time_or_an_altitude_is_not_begun_before() throws ClearanceException {
        for (String later : List.of(
                "at 1530 descend and maintain 6000, resume own navigation",
                "passing 9000, reduce speed to 120, then as filed")) {
            Clearance read = read(later);
            assertThat(read.instructions())
                    .as(later)
                    .hasSize(1)
                    .allMatch(said -> said instanceof Noted.After after
                            && after.then().size() == 2
                            && after.then().get(1) instanceof Instruction.Onward);
        }
    }

    /** FAA Order JO 7110.65, 5-7-2: without "to" it is by how much, as far as nobody flies so slowly. */
    @Test
    void forty_knots_faster_is_no_speed_of_forty() throws ClearanceException {
        assertThat(read("increase speed 40 knots").instructions())
                .isEqualTo(read("increase speed by 40 knots").instructions());
        assertThat(read("reduce speed 40 knots or less").instructions())
                .isEqualTo(read("maintain 40 knots or less").instructions());
    }

    @Test
    void a_heading_behind_an_altitude_at_a_fix_of_the_airway_begins_there() throws ClearanceException {
        assertThat(read("join V31, at BBB descend and maintain 6000, then turn left heading 060")
                        .instructions())
                .contains(read("at BBB turn left heading 060").instructions().get(0));
    }

    @Test
    void a_report_of_entering_the_hold_is_no_clearance_to_hold() throws ClearanceException {
        assertThat(read("direct BBB, report entering the hold at BBB").instructions())
                .doesNotHaveAnyElementsOfTypes(Instruction.Hold.class);
        assertThat(read("direct BBB, report entering the hold, hold at BBB").instructions())
                .hasAtLeastOneElementOfType(Instruction.Hold.class);
    }

    /** The words of the order that a name may begin with. */
    @Test
    void a_fix_may_be_named_like_the_word_before_it() throws ClearanceException {
        Fix hold = new Fix("HOLDR", OceanChart.HADDY.position());
        Fix that = new Fix("THATS", OceanChart.ABCDE.position());
        Chart chart = new Chart(
                "names",
                OceanChart.CHART.stations(),
                List.of(OceanChart.ABCDE, OceanChart.HADDY, hold, that),
                OceanChart.CHART.airports(),
                OceanChart.CHART.airways());
        assertThat(ClearanceReader.read("cleared to HOLDR via direct BBB", chart, OceanChart.filed())
                        .instructions())
                .contains(new Instruction.ClearedTo(hold));
        assertThat(ClearanceReader.read("after THATS, direct BBB", chart, OceanChart.filed())
                        .instructions())
                .hasAtLeastOneElementOfType(Instruction.Depart.class);
    }

    @Test
    void what_was_added_without_a_figure_to_fly_is_noted() throws ClearanceException {
        assertThat(read("negative, fly heading 100").notes()).anyMatch(note -> note.contains("negative"));
        assertThat(read("fly heading 100, turn left onto V31").notes())
                .anyMatch(note -> note.contains("turn left") && note.contains("where the line is met"));
        assertThat(read("fly heading 100, climb and maintain 9000, then direct BBB")
                        .notes())
                .anyMatch(note -> note.startsWith("\"then\"") && note.contains("due at once"));
        assertThat(read("direct BBB, as previously cleared").notes()).anyMatch(note -> note.contains("as filed"));
        assertThat(read("direct BBB, then as cleared").notes()).anyMatch(note -> note.contains("as filed"));
        assertThat(read("direct BBB, then as filed").notes()).isEmpty();
        assertThat(read("fly present heading 100").notes()).anyMatch(note -> note.contains("present heading 100"));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "hold short of V31 | on the ground",
                "hold short | on the ground",
                "turn left to intercept V31 | which heading",
                "turn right onto the AAA 15 mile arc, arc clockwise to the 070 radial | which heading",
                "fly heading 100, after 10 miles direct BBB | when it is time",
                "in two minutes turn left heading 100 | when it is time",
                "turn left heading 100 in 5 miles | when it is time",
                "heading zero niner | 009 or 090",
                "heading 09 | 009 or 090",
                "reduce 60 knots | to that speed, or by so many knots",
                "reduce speed 45 knots | to that speed, or by so many knots",
                "cross it at 9000 | no fix is said before it",
                "direct HADDY on V31 | V31 does not pass HADDY",
                "join V31, then fly heading 100 | to be flown first it stands first",
                "intercept the AAA 078 radial, then turn left 20 degrees | to be flown first it stands first",
                "intercept V31, then fly present heading | to be flown first it stands first",
                "join V31, climb and maintain 9000, then heading 100 | to be flown first it stands first",
                "join V31, reduce to 120, then turn left 20 degrees | to be flown first it stands first",
                "direct BBB, do not descend below 5000 until DDD | beside the altitude is not followed",
                "direct BBB, do not climb above 9000 | beside the altitude is not followed",
                "to cross at 9000 | no fix is said before it",
                "intercept the AAA 078 radial outbound for 20 miles, then direct BBB | by the DME",
                "turn left direct BBB on the AAA 078 radial | the heading that leads to the line",
            })
    void what_is_left_open_is_refused_with_what_would_be_right(String text, String why) {
        assertThat(refused(text).code()).isEqualTo(ClearanceException.Code.NOT_UNDERSTOOD);
        assertThat(refused(text)).hasMessageContaining(why);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "request direct BBB",
                "direct BBB not approved",
                "direct BBB is not approved",
                "negative direct BBB",
                "direct BBB, negative, direct DDD",
                "maintain 8000 to V31",
                "maintain 8000 on the AAA 078 radial",
                "set course 066",
                "set course to intercept V31",
                "direct BBB then",
                "intercept the AAA 078 inbound",
            })
    void what_only_sounds_like_it_is_refused(String text) {
        refused(text);
    }
}
