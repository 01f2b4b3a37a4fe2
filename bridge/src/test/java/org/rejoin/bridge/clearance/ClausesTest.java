package org.rejoin.bridge.clearance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.util.List;
import java.util.Optional;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Which words belong together. What is taken back (P/CG "disregard") or to be expected (FAA Order JO 7110.65, 4-2-5 and
 * 4-5-7) is not cleared; a place belongs to one of the two instructions beside it.
 */
class ClausesTest {

    private static final When AT_BBB = new When.AtLine(new Instruction.Until.AtFix(OceanChart.BBB));

    private static Clearance read(String text) {
        try {
            return ClearanceReader.read(text, OceanChart.CHART, OceanChart.filed());
        } catch (ClearanceException e) {
            throw new AssertionError(text + ": " + e.getMessage(), e);
        }
    }

    private static String refused(String text, String pointedAt) {
        ClearanceException refused = catchThrowableOfType(
                ClearanceException.class, () -> ClearanceReader.read(text, OceanChart.CHART, OceanChart.filed()));
        assertThat(refused).as(text).isNotNull();
        int column = refused.column().orElseThrow();
        assertThat(text.substring(column, column + refused.length())).isEqualTo(pointedAt);
        return String.valueOf(refused.getMessage());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "cancel direct BBB, continue as filed | cancel direct BBB",
                "disregard heading 120 | disregard heading 120",
                "disregard fly heading 120 | disregard fly heading 120",
                "disregard the climb | disregard the climb",
                "disregard your last heading | disregard your last heading",
                "disregard climb to 10000 | disregard climb to 10000",
                "disregard hold at BBB | disregard hold at BBB",
                "cancel crossing BBB at 7000 | cancel crossing BBB at 7000",
                "cancel intercept V31 | cancel intercept V31",
                "cancel V31, direct BBB | cancel V31",
                "disregard direct BBB, direct AAA | disregard direct BBB",
                "cancel climb, direct BBB | cancel climb",
                "cancel heading 120, maintain 8000 | cancel heading 120"
            })
    void a_part_of_a_clearance_that_is_taken_back_is_not_cleared(String text, String pointedAt) {
        assertThat(refused(text, pointedAt))
                .contains("not taken back by itself")
                .contains("say what holds");
    }

    /** What a heading or a climb ends in is said with it: common practice, no source. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "cancel heading 120, direct BBB | direct BBB",
                "cancel your last heading, then as filed | then as filed",
                "disregard the heading. Fly heading 030 | fly heading 030",
                "cancel climb, maintain 8000 | maintain 8000",
                "cancel descent to 4000, maintain 6000 | maintain 6000"
            })
    void a_heading_or_a_climb_is_taken_back_by_what_is_said_in_its_place(String text, String inItsPlace) {
        assertThat(read(text).instructions()).isEqualTo(read(inItsPlace).instructions());
        assertThat(read(text).notes()).anyMatch(note -> note.endsWith("is in its place"));
    }

    @Test
    void which_restriction_is_cancelled_is_asked_where_it_is_not_said() {
        assertThat(refused("cancel restriction at BBB", "cancel restriction at BBB"))
                .contains("\"cancel speed restriction\"")
                .contains("\"cancel altitude restriction at\" a fix");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "disregard, fly heading 120",
                "disregard my last, fly heading 120",
                "disregard the amendment fly heading 120",
                "cancel last clearance fly heading 120",
                "cancel that fly heading 120"
            })
    void the_whole_is_taken_back_and_another_put_in_its_place(String text) {
        assertThat(read(text).instructions())
                .isEqualTo(read("disregard, fly heading 120").instructions())
                .hasSize(2);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "to descend and maintain 6000",
                "to climb to 10000",
                "to maintain 6000",
                "to fly heading 030",
                "to turn left heading 030",
                "to proceed direct BBB",
                "to cross BBB at 7000",
                "to reduce speed to 120",
                "to be cleared direct BBB",
                "to be cleared to BBB",
                "a hold at BBB",
                "descend and maintain 6000 at BBB",
                "heading 030",
                "direct BBB",
                "to join V31",
                "climb to 10000 in five miles"
            })
    void what_is_to_be_expected_is_not_cleared_whatever_it_is(String expected) {
        assertThat(read("fly heading 100, expect " + expected).instructions())
                .hasSize(2)
                .last()
                .isEqualTo(new Instruction.Expect(expected));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "expect direct ABCDE then direct BBB | direct BBB",
                "expect direct BBB, then descend and maintain 6000 | descend and maintain 6000",
                "expect V88 after BBB descend and maintain 6000 | descend and maintain 6000",
                "expect to intercept V31 and climb and maintain 9000 | climb and maintain 9000",
                "expect lower in 10 miles direct ABCDE | direct ABCDE",
                "climb and maintain 9000 expect higher in 10 miles direct BBB | direct BBB",
                "expect flight level 210 in 10 minutes via V31 | via V31",
                "expect direct ABCDE in 5 miles direct BBB | direct BBB"
            })
    void what_may_be_cleared_or_to_be_expected_is_asked_about(String text, String pointedAt) {
        assertThat(refused(text, pointedAt))
                .contains("cleared, or to be expected too")
                .contains("full stop");
    }

    @Test
    void what_is_to_be_expected_must_be_said() {
        assertThat(refused("expect to be", "expect to be")).contains("is not said");
        assertThat(refused("fly heading 100, expect a", "expect a")).contains("is not said");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "descend and maintain 6000 after BBB. Direct AAA.",
                "descend and maintain 6000 after passing BBB, direct AAA",
                "descend and maintain 6000 after BBB, then direct AAA",
                "descend and maintain 6000, after BBB, then direct AAA"
            })
    void a_place_belongs_to_what_stands_before_it(String text) {
        Clearance clearance = read(text);
        assertThat(clearance.altitudes()).singleElement().satisfies(each -> {
            assertThat(each.said().feet()).isEqualTo(6000);
            assertThat(each.from()).contains(AT_BBB);
        });
        assertThat(clearance.first(Instruction.Depart.class)).isEmpty();
        assertThat(clearance.first(Instruction.Direct.class)).isPresent();
    }

    /** FAA Order JO 7110.65, 2-1-17: "contact (facility) (frequency) at (time, fix, or altitude)". */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "contact center 127.9 at BBB",
                "monitor center 127.9 at BBB",
                "contact center 127.9 at 1530",
                "contact center 127.9 at 9000",
                "contact center 127.9 passing 9000",
                "contact center 127.9 leaving 9000",
                "contact center 127.9 when ready",
                "contact center 127.9 when established",
                "the altimeter 2992 at 1500",
                "radar service terminated at BBB",
                "traffic 2 o'clock 5 miles at BBB",
                "no delay expected at BBB"
            })
    void where_what_is_only_heard_is_due_nothing_else_begins(String heard) {
        for (String cleared : List.of("climb and maintain 10000", "turn left heading 060", "direct ABCDE")) {
            List<Instruction> alone = read(cleared).instructions();
            assertThat(read(cleared + ", " + heard).instructions()).isEqualTo(alone);
            assertThat(read(heard + ". " + cleared).instructions()).isEqualTo(alone);
        }
    }

    @Test
    void a_place_before_a_contact_is_where_the_contact_is_due() {
        assertThat(read("at BBB contact center 127.9. Climb and maintain 10000.")
                        .instructions())
                .isEqualTo(read("climb and maintain 10000").instructions());
        assertThat(read("contact center 127.9, at BBB climb and maintain 10000")
                        .altitudes()
                        .get(0)
                        .from())
                .contains(AT_BBB);
        assertThat(refused("at BBB contact center 127.9, climb and maintain 10000", "at BBB"))
                .contains("does what follows begin there too?");
        assertThat(refused("climb and maintain 10000, at BBB, contact center 127.9", "at BBB"))
                .contains("of what stands before it, or of what follows?");
    }

    /** FAA Order JO 7110.65, 5-6-2 and 5-9-4: "maintain (altitude) until established on" what the heading leads onto. */
    @Test
    void an_altitude_until_established_on_a_line_names_the_line_the_heading_leads_onto() {
        for (String line : List.of("V31", "the AAA 078 radial")) {
            List<Instruction> joined = read("turn left heading 040, maintain 8000 until intercepting " + line)
                    .instructions();
            assertThat(read("turn left heading 040, maintain 8000 until established on " + line)
                            .instructions())
                    .isEqualTo(joined)
                    .hasSize(4);
            assertThat(read("maintain 8000 until established on " + line + ", turn left heading 040")
                            .instructions())
                    .hasSize(4);
            assertThat(read("turn left heading 040, speed 130 until established on " + line)
                            .instructions())
                    .last()
                    .isEqualTo(joined.get(3));
        }
        assertThat(read("turn left heading 040, maintain 8000 until established on the AAA 078 radial inbound")
                        .instructions())
                .last()
                .isEqualTo(read("intercept the AAA 078 radial inbound")
                        .instructions()
                        .get(0));
        Clearance inTurn =
                read("turn left heading 040, maintain 8000 until established on V31, then descend and maintain 7000");
        assertThat(inTurn.altitudes()).hasSize(2);
        assertThat(inTurn.instructions()).contains(new Instruction.InterceptAirway("V31"));
        assertThat(read("maintain 8000 until established on V31").instructions())
                .noneMatch(Instruction.Onto.class::isInstance);
    }

    /** What leads on behind a crossing begins there, as an altitude does (FAA Order JO 7110.65, 4-5-7). */
    @Test
    void then_behind_a_crossing_is_where_it_is_crossed() {
        assertThat(read("cross BBB at 9000, then direct DDD").instructions())
                .isEqualTo(read("cross BBB at 9000, after BBB direct DDD").instructions());
        assertThat(read("cross BBB at and maintain 9000, then V88 DDD").instructions())
                .contains(new Instruction.Depart(OceanChart.BBB));
        assertThat(read("cross BBB at 9000, then turn left heading 060").instructions())
                .isEqualTo(
                        read("cross BBB at 9000, at BBB turn left heading 060").instructions());
        for (String now :
                List.of("climb and maintain 9000, then direct DDD", "reduce speed to 100 then turn left heading 060")) {
            assertThat(read(now).notes())
                    .anyMatch(note -> note.startsWith("\"then\"") && note.contains("is due at once"));
        }
        assertThat(read("climb and maintain 9000, then as filed").notes()).isEmpty();
        assertThat(read("cross BBB at and maintain 9000, then direct DDD").notes())
                .isEmpty();
    }

    @Test
    void a_way_behind_a_report_is_not_reported() {
        assertThat(refused("report passing BBB via V31", "via V31")).contains("where \"report passing BBB\" ends");
        assertThat(read("report passing BBB, via V31").instructions())
                .isEqualTo(read("report passing BBB, join V31").instructions());
    }

    @Test
    void an_airway_of_any_letter_may_be_where_something_ends() {
        When there = new When.AtLine(new Instruction.Until.AtAirway("UB10"));
        for (String said : List.of("UB10", "uniform bravo ten", "upper bravo one zero", "airway UB10")) {
            assertThat(read("fly heading 350 until " + said).instructions())
                    .last()
                    .isEqualTo(new Noted.Until(Noted.Until.What.HEADING, there));
            assertThat(read("maintain 7000 until " + said).instructions())
                    .last()
                    .isEqualTo(new Noted.Until(Noted.Until.What.ALTITUDE, there));
            assertThat(read("intercept the AAA 15 mile arc clockwise to " + said)
                            .first(Instruction.InterceptArc.class)
                            .orElseThrow()
                            .until())
                    .contains(new Instruction.Until.AtAirway("UB10"));
        }
    }

    @Test
    void a_number_said_again_or_corrected_is_of_what_was_said_last() {
        assertThat(read("turn right heading 090 I say again 090").instructions())
                .isEqualTo(read("turn right heading 090").instructions());
        assertThat(read("climb and maintain 9000 I say again niner thousand").instructions())
                .isEqualTo(read("climb and maintain 9000").instructions());
        assertThat(refused("climb and maintain 9000 I say again 8000", "I say again 8000"))
                .contains("not what was said before it");
        assertThat(read("hold west of BBB, EFC 1535 correction 1545").instructions())
                .isEqualTo(read("hold west of BBB, EFC 1545").instructions());
        assertThat(read("hold west of BBB, left turns correction right turns").instructions())
                .isEqualTo(read("hold west of BBB, right turns").instructions());
    }

    /** FAA Order JO 7110.65, 4-3-3: "except change route to read"; 4-6-4: the time of further clearance, then the time now. */
    @Test
    void the_forms_of_the_order_are_understood() {
        assertThat(read("cleared as filed except change V31 BBB to read V455 ABCDE, V31 BBB")
                        .instructions())
                .isEqualTo(read("change V31 BBB to read V455 ABCDE, V31 BBB").instructions());
        assertThat(read("hold west of BBB, expect further clearance one five three five time one five zero two")
                        .instructions())
                .isEqualTo(read("hold west of BBB, EFC 1535").instructions());
        assertThat(refused("hold west of BBB, 90 minute legs", "90")).contains("0.5 to 10 minutes");
        assertThat(refused("maintain 0940", "0940")).contains("no zero in front");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "via the AAA 250 radial to AAA, then as filed | via the AAA 250 radial inbound, then as filed",
                "proceed to BBB direct | proceed direct BBB",
                "maintain 7000 until past BBB | maintain 7000 until passing BBB",
                "fly heading 060 until past BBB | fly heading 060 until passing BBB",
                "when level at 12000, reduce speed to 120 | after reaching 12000 feet, reduce speed to 120",
                "when passing BBB, climb and maintain 9000 | after passing BBB, climb and maintain 9000",
                "10 miles past BBB, climb and maintain 9000 | after 10 miles past BBB, climb and maintain 9000"
            })
    void other_words_for_the_same(String said, String words) {
        assertThat(read(said).instructions()).isEqualTo(read(words).instructions());
    }

    @Test
    void where_a_radial_leads_to_is_not_lost_behind_a_direct() {
        String said = "cleared direct BBB via the AAA 250 radial to CCC";
        try {
            assertThat(ClearanceReader.read(said, OceanChart.CHART, OceanChart.filed())
                            .instructions()
                            .toString())
                    .contains("CCC");
        } catch (ClearanceException refused) {
            assertThat(refused).hasMessageContaining("CCC");
        }
    }

    @Test
    void outbound_leads_to_no_station() {
        assertThat(refused("via the AAA 250 radial outbound to AAA", "AAA")).contains("outbound does not lead to AAA");
    }

    @Test
    void how_fast_takes_nothing_from_the_verb_behind_it() {
        for (String haste : List.of("expedite", "immediately", "now", "without delay")) {
            assertThat(read(haste + " descend and maintain 10000").instructions())
                    .isEqualTo(read("descend and maintain 10000").instructions());
        }
    }

    @Test
    void a_place_of_a_speed_stays_with_the_speed() {
        for (String text :
                List.of("reduce speed to 120 at BBB, direct AAA", "reduce speed to 120 at BBB. Direct AAA.")) {
            assertThat(read(text).speeds())
                    .singleElement()
                    .satisfies(each -> assertThat(each.from()).contains(AT_BBB));
            assertThat(read(text).first(Instruction.Depart.class)).isEmpty();
        }
        assertThat(read("resume normal speed at BBB, then direct AAA").speeds())
                .singleElement()
                .isEqualTo(new InTurn<>(Optional.of(AT_BBB), new Instruction.ResumeNormalSpeed()));
        Clearance both = read("descend and maintain 6000 after BBB, reduce speed to 120");
        assertThat(both.altitudes().get(0).from()).contains(AT_BBB);
        assertThat(both.speeds().get(0).from()).isEmpty();
    }

    @Test
    void behind_a_comma_a_place_belongs_to_what_follows() {
        Clearance clearance = read("descend and maintain 6000, after BBB direct AAA");
        assertThat(clearance.altitudeFt()).hasValue(6000);
        assertThat(clearance.instructions()).contains(new Instruction.Depart(OceanChart.BBB));
        assertThat(read("direct AAA after BBB").instructions())
                .isEqualTo(read("after BBB, direct AAA").instructions());
        assertThat(read("turn right heading 120 at BBB").instructions())
                .isEqualTo(read("at BBB, turn right heading 120").instructions());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "descend and maintain 6000, after BBB, direct AAA | after BBB",
                "descend and maintain 6000 after BBB direct AAA | after BBB",
                "reduce speed to 120 at BBB direct AAA | at BBB",
                "turn right heading 120 at BBB and descend and maintain 6000 | at BBB"
            })
    void a_place_that_may_be_of_either_is_asked_about(String text, String pointedAt) {
        assertThat(refused(text, pointedAt)).contains("a comma behind it puts it to what stands before");
    }

    /** FAA Order JO 7110.65, 4-5-7 and 5-7-4: what is deleted at a fix is the restriction; what is assigned is due now. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "delete altitude restriction at BBB, descend and maintain 5000 | ALTITUDE",
                "cancel altitude restriction at BBB, descend and maintain 5000 | ALTITUDE",
                "altitude restriction at BBB is cancelled, descend and maintain 5000 | ALTITUDE",
                "altitude restriction at BBB cancelled, descend and maintain 5000 | ALTITUDE",
                "delete speed restriction at BBB, maintain 5000 | SPEED",
                "cancel the hold at BBB, maintain 5000 | HOLD"
            })
    void a_restriction_is_deleted_where_it_is_said_and_the_altitude_is_due_now(String text, Noted.Lifted.Kind kind) {
        assertThat(read(text).altitudeFt()).hasValue(5000);
        assertThat(read(text).instructions()).contains(new Noted.Lifted(kind, Optional.of(OceanChart.BBB)));
    }

    @Test
    void altitude_restrictions_are_cancelled_in_the_words_of_the_order() {
        assertThat(read("altitude restrictions are cancelled").instructions())
                .isEqualTo(read("cancel altitude restrictions").instructions());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "at BBB, turn right heading 120 and descend and maintain 6000",
                "at BBB, turn right heading 120, then descend and maintain 6000",
                "after BBB direct AAA and descend and maintain 6000"
            })
    void and_keeps_an_altitude_in_the_clause(String text) {
        assertThat(read(text).altitudes())
                .singleElement()
                .satisfies(each -> assertThat(each.from()).contains(AT_BBB));
        assertThat(read(text).first(Instruction.Depart.class)).isPresent();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "at BBB fly heading 120, climb and maintain 10000",
                "after BBB direct AAA, climb and maintain 10000"
            })
    void behind_a_comma_an_altitude_may_be_due_now_and_is_asked_about(String text) {
        assertThat(refused(text, "climb and maintain 10000")).contains("now, or from BBB on?");
    }

    /** FAA Order JO 7110.65, 4-5-7, and Aeronautical Information Manual 4-4-10: the first is due now. */
    @Test
    void climb_now_then_at_pilots_discretion_are_two_altitudes_in_turn() {
        for (String text : List.of(
                "climb now to 9000, then climb at pilot's discretion maintain 11000",
                "climb now to 9000, then at pilot's discretion maintain 11000")) {
            Clearance clearance = read(text);
            assertThat(clearance.altitudeFt()).hasValue(9000);
            assertThat(clearance.altitudes()).hasSize(2);
            InTurn<Instruction.Maintain> second = clearance.altitudes().get(1);
            assertThat(second.said().feet()).isEqualTo(11000);
            assertThat(second.from().orElseThrow().passed()).isEqualTo("reaching niner thousand feet");
            assertThat(clearance.inOwnTime(second.said())).isTrue();
        }
    }

    @Test
    void a_report_is_not_where_something_begins() {
        for (String text : List.of(
                "report passing BBB, then direct AAA",
                "report established on V31, then direct AAA",
                "report passing BBB, then direct AAA")) {
            assertThat(refused(text, "direct AAA")).contains("after the report, or now?");
        }
        assertThat(refused("report leaving 8000 after BBB direct AAA", "direct AAA"))
                .contains("where \"report leaving 8000 after BBB\" ends");
        assertThat(read("fly heading 100, intercept V31, report established, then as filed")
                        .instructions())
                .hasSize(4);
    }

    /** FAA Order JO 7110.65, 5-6-2 and 4-5-7. */
    @Test
    void what_and_joins_begins_together() {
        Clearance clearance =
                read("fly heading 100, intercept V31, then climb and maintain 10000 and reduce speed to 120");
        assertThat(clearance.altitudes().get(0).from()).isPresent();
        assertThat(clearance.speeds().get(0).from())
                .isEqualTo(clearance.altitudes().get(0).from());
        assertThat(read(Phraseology.say(clearance)).instructions()).isEqualTo(clearance.instructions());
    }

    @Test
    void at_behind_an_altitude_is_level_there_and_behind_a_speed_begun_there_and_said() {
        assertThat(read("descend and maintain 6000 at BBB").notes())
                .singleElement()
                .asString()
                .contains("begun now, to be level there");
        assertThat(read("reduce speed to 120 at BBB").notes())
                .singleElement()
                .asString()
                .contains("it begins there");
    }

    /** P/CG "I SAY AGAIN", "CORRECTION" (ICAO Annex 10 II, 5.2.1.5.8, from memory). */
    @Test
    void said_again_is_one_and_corrected_is_the_last_of_its_kind() {
        assertThat(read("turn right heading 120, I say again, heading one two zero")
                        .instructions())
                .isEqualTo(read("turn right heading 120").instructions());
        assertThat(read("reduce speed to 120, correction, 110").instructions())
                .isEqualTo(read("reduce speed to 110").instructions());
        assertThat(read("cross BBB at or above 7000, correction, 6000").instructions())
                .isEqualTo(read("cross BBB at or above 6000").instructions());
        assertThat(read("direct BBB, correction, AAA").instructions())
                .isEqualTo(read("direct AAA").instructions());
        assertThat(read("hold east of ABCDE on V31, correction, west").instructions())
                .isEqualTo(read("hold west of ABCDE on V31").instructions());
        refused("cross BBB at and maintain 7000, correction, 6000", "correction, 6000");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "turn left 040 | turn left heading 040",
                "resume V31 | join V31",
                "direct AAA, BBB | direct AAA, direct BBB",
                "direct AAA, ABCDE, direct BBB | direct AAA, direct ABCDE, direct BBB",
                "climb and maintain 8,000' | climb and maintain 8000",
                "climb and maintain one zero, ten thousand | climb and maintain 10000",
                "maintain at or above 8000 | maintain at least 8000",
                "via radar vectors to join V31 | radar vectors to join V31",
                "intercept the AAA 250 degree radial | intercept the AAA 250 radial",
                "hold NE of BBB | hold northeast of BBB",
                "hold at BBB, expect further clearance 15:45 | hold at BBB, expect further clearance 1545",
                "intercept jay five thirty-three to CCC | intercept J533 to CCC",
                "fly heading, um, 030 | fly heading 030",
                "fly heading 030, uh, intercept V31 | fly heading 030, intercept V31",
                "traffic no longer a factor, resume own navigation | resume own navigation",
                "radar service terminated, resume own navigation | resume own navigation",
                "traffic, 12 o'clock, 5 miles, eastbound, altitude indicates 7000, direct BBB | direct BBB",
                "traffic, 12 o'clock, 5 miles, opposite direction, type Boeing 737, direct BBB | direct BBB",
                "intercept the AAA 15 mile arc, leave the arc at the 070 radial"
                        + " | intercept the AAA 15 mile arc, arc to the 070 radial"
            })
    void usual_words_are_understood_as_the_words_of_the_order(String said, String words) {
        assertThat(read(said).instructions()).isEqualTo(read(words).instructions());
    }

    @Test
    void two_figures_behind_a_turn_may_be_degrees() {
        assertThat(refused("turn left 40", "40")).contains("degrees");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "Oceanic 512 unable, maintain 8000 | unable",
                "as filed pls | pls",
                "join Vic 31 | Vic 31",
                "heading 030, Oceanic 512 | Oceanic 512",
                "direct BBB, 6000 | 6000"
            })
    void a_last_word_that_nobody_knows_is_what_is_pointed_at(String text, String pointedAt) {
        assertThat(refused(text, pointedAt)).startsWith("not understood");
    }
}
