package org.rejoin.bridge.clearance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.clearance.Readback.Element;
import org.rejoin.bridge.clearance.Readback.Verdict;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** A typed readback against the clearance, element by element. */
class ReadbackTest {

    private static final String CLEARANCE =
            "Oceanic 512, fly heading 100, intercept the AAA 250 radial, join V31, climb and maintain 6000";

    private static List<Element> check(String text) {
        return Readback.check(ClearanceReaderTest.read(CLEARANCE), text, OceanChart.CHART, OceanChart.filed());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                CLEARANCE,
                "heading one zero zero, intercept the grey petrel two five zero radial, join victor thirty-one, six thousand, Oceanic five one two",
                "climbing 6000, heading 100, intercepting AAA 250 radial, V31, oceanic 512",
                "oceanic 512, roger, climbing 6000, heading 100, intercepting AAA 250 radial, V31, thank you",
                "fly heading 100 AAA 250 radial join V31 maintain 6,000 Oceanic 512"
            })
    void all_right(String text) {
        assertThat(check(text)).hasSize(6).allMatch(element -> element.verdict() == Verdict.RIGHT);
    }

    /** "Rejoin" is a word of the trade, and here the name of an aircraft; AIM 4-2-4: letters and figures one by one. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "REJOIN1 | rejoin one, heading one one zero, intercept victor forty",
                "REJOIN1 | heading one one zero, intercept victor forty, rejoin one",
                "REJOIN1 | roger, heading 110, intercept V40 REJOIN1",
                "REJOIN1 | heading one one zero, intercept victor forty, rejoin one, thank you",
                "REJOIN1 | rejoin one, roger, heading 110, intercept V40, good day",
                "REJOIN1 | okay, heading 110, intercept V40, wilco, REJOIN1",
                "REJOIN1 | rejoin one roger heading 110, intercept V40, thanks",
                "ALPHA1 | alpha one, heading one one zero, intercept victor forty",
                "DELTA4 | heading 110, intercept V40, delta four",
                "ALPHA1 | ALPHA1, heading 110, intercept V40",
                "N345AB | heading one one zero, intercept victor forty, november three four five alfa bravo"
            })
    void his_own_callsign_is_heard_at_either_end(String own, String text) {
        assertThat(Readback.check(
                        ClearanceReaderTest.read("fly heading 110, intercept V40"),
                        text,
                        OceanChart.CHART,
                        OceanChart.filed(),
                        Optional.of(own)))
                .hasSize(3)
                .allMatch(element -> element.verdict() == Verdict.RIGHT);
    }

    @Test
    void a_callsign_that_is_a_word_of_the_alphabet_is_wrong_with_another_figure() {
        assertThat(Readback.check(
                        ClearanceReaderTest.read("fly heading 110, intercept V40"),
                        "alpha two, heading one one zero, intercept victor forty",
                        OceanChart.CHART,
                        OceanChart.filed(),
                        Optional.of("ALPHA1")))
                .filteredOn(element -> element.what().equals("callsign"))
                .extracting(Element::verdict)
                .containsExactly(Verdict.WRONG);
    }

    /** What comes first is said by the order of the words; the word itself may be left out. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "reduce speed to 100, then descend and maintain 4000 | reduce speed to 100, descend and maintain 4000",
                "reduce speed to 100, then descend and maintain 4000 | reduce speed to 100, then descend and maintain 4000",
                "descend and maintain 4000, then reduce speed to 100 | descend and maintain 4000, then reduce speed to 100",
                "cross AAA at or above 6000, then descend and maintain 4000 | cross AAA at or above 6000, descend and maintain 4000"
            })
    void then_need_not_be_read_back(String cleared, String text) {
        assertThat(Readback.check(ClearanceReaderTest.read(cleared), text, OceanChart.CHART, OceanChart.filed()))
                .hasSizeGreaterThanOrEqualTo(2)
                .allMatch(element -> element.verdict() == Verdict.RIGHT);
    }

    @Test
    void wrong_missing_and_never_cleared() {
        assertThat(check("heading 110, intercept the 250 radial, join V31, then as filed, Oceanic 512"))
                .containsExactly(
                        new Element("callsign", Verdict.RIGHT, "OCEANIC512", "OCEANIC512"),
                        new Element("heading", Verdict.WRONG, "one zero zero", "one one zero"),
                        new Element("station", Verdict.MISSING, "Grey Petrel", ""),
                        new Element("radial", Verdict.RIGHT, "two five zero", "two five zero"),
                        new Element("airway", Verdict.RIGHT, "victor thirty-one", "victor thirty-one"),
                        new Element("altitude", Verdict.MISSING, "six thousand", ""),
                        new Element("onward", Verdict.WRONG, "", "then as filed"));
    }

    @Test
    void what_is_not_understood_is_shown_and_hides_nothing() {
        assertThat(check("heading 100, blah blah, join V31"))
                .contains(
                        new Element("heading", Verdict.RIGHT, "one zero zero", "one zero zero"),
                        new Element("airway", Verdict.RIGHT, "victor thirty-one", "victor thirty-one"),
                        new Element("station", Verdict.UNCLEAR, "Grey Petrel", ""),
                        new Element("words", Verdict.UNCLEAR, "", "blah blah"));
        assertThat(Readback.outcome(check("heading 100, blah blah, join V31")))
                .as("what is missing may stand in the words that were not understood")
                .isEqualTo(Readback.Outcome.UNCLEAR);
        assertThat(Readback.outcome(check("heading 110, blah blah, join V31")))
                .as("the heading is wrong all the same")
                .isEqualTo(Readback.Outcome.WRONG);
        assertThat(check("")).allMatch(element -> element.verdict() == Verdict.MISSING);
    }

    private static List<Verdict> verdicts(String clearance, String text) {
        return Readback.check(ClearanceReaderTest.read(clearance), text, OceanChart.CHART, OceanChart.filed()).stream()
                .map(Element::verdict)
                .toList();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "fly heading 110, intercept V40 | heading 110, intercept V40, Oceanic 512",
                "fly heading 110, intercept V40 | Oceanic 512, heading 110, intercept V40",
                "join V40, then as filed | victor forty, as filed",
                "fly heading 110, intercept the Grey Petrel 066 radial | heading 110 to intercept the petrel 066",
                "intercept the Grey Petrel 066 radial | intercept 066 radial AAA",
                "intercept the AAA 15 mile arc clockwise to the AAA 070 radial | the AAA 15 DME arc clockwise to the AAA 070 radial",
                "direct ABCDE, hold south of ABCDE on V31, left turns, EFC 1530 | direct ABCDE, hold south of ABCDE on V31, left turns, EFC 1530",
                "descend and maintain 6000, report established | descending 6000"
            })
    void as_pilots_say_it(String clearance, String text) {
        assertThat(verdicts(clearance, text)).as(text).isNotEmpty().allMatch(verdict -> verdict == Verdict.RIGHT);
    }

    /** Short forms that leave no doubt what is meant (common practice, no source). */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "intercept the Grey Petrel 066 radial, join V40 | petrel zero six six, victor forty",
                "intercept the Grey Petrel 066 radial, join V40 | the petrel zero six six, victor forty, oceanic 512",
                "fly heading 110, intercept the Grey Petrel 066 radial | one one zero, the petrel 066 radial",
                "fly heading 110, intercept the Grey Petrel 066 radial | one ten heading, to intercept the petrel 066",
                "fly heading 110, intercept the Grey Petrel 066 radial | heading 110 the petrel 066",
                "turn left heading 110, intercept V40 | left one one zero, V40",
                "turn left heading 110, intercept V40 | left one ten heading, intercept V40",
                "fly heading 110, maintain 6000 | six thousand, one one zero",
                "maintain 8000 until established, then climb and maintain 10000 | 8000 til established, 10000",
                "maintain 8000 until established, then climb and maintain 10000 | eight thousand until established then 10000",
                "maintain 8000 until BBB, then climb and maintain 10000 | 8000 until BBB, then climb 10000",
                "intercept the Grey Petrel 066 radial, join V40 | 066 petrel, V40",
                "descend and maintain 6000 | down to 6000",
                "climb and maintain 8000 | up to eight thousand",
                "fly heading 110, maintain FL110 | heading one one zero, flight level one one zero"
            })
    void short_forms_that_leave_no_doubt(String clearance, String text) {
        assertThat(verdicts(clearance, text)).as(text).isNotEmpty().allMatch(verdict -> verdict == Verdict.RIGHT);
    }

    /** A number of three figures is judged as what was cleared, a callsign without its name as a callsign (AIM 4-2-4 a 3). */
    @Test
    void a_number_alone_is_no_altitude_because_it_is_a_number() {
        assertThat(check("heading 100, intercept the AAA 250 radial, join V31, six thousand, five one two"))
                .filteredOn(element -> element.verdict() != Verdict.RIGHT)
                .containsExactly(new Element("callsign", Verdict.WRONG, "OCEANIC512", "512"));
        assertThat(check("one one zero, intercept the AAA 250 radial, join V31, six thousand, Oceanic 512"))
                .filteredOn(element -> element.verdict() != Verdict.RIGHT)
                .containsExactly(new Element("heading", Verdict.WRONG, "one zero zero", "one one zero"));
    }

    /** "Correction: an error has been made; the correct version is ..." (Pilot/Controller Glossary). */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "heading 110 correction 100, AAA 250 radial, V31, 6000, Oceanic 512 | ",
                "heading 100 correction 120, AAA 250 radial, V31, 6000, Oceanic 512 | heading",
                "heading 100, AAA 250 radial, V40, correction V31, 6000, Oceanic 512 | ",
                "heading 100, AAA 250 radial, V31, 5000, correction, six thousand, Oceanic 512 | ",
                "Oceanic 513, correction, Oceanic 512, heading 100, AAA 250 radial, V31, 6000 | ",
                "heading 110, correction 120, correction 100, AAA 250 radial, V31, 6000, Oceanic 512 | "
            })
    void what_is_corrected_counts(String text, String wrong) {
        assertThat(check(text))
                .filteredOn(element -> element.verdict() != Verdict.RIGHT)
                .extracting(Element::what)
                .isEqualTo(wrong == null ? List.of() : List.of(wrong));
    }

    @Test
    void the_way_along_an_airway_is_read_back_with_it() {
        Clearance said = ClearanceReaderTest.read("fly heading 010, join V31 northeastbound to BBB");
        assertThat(Readback.check(said, "heading 010, V31 northeastbound to BBB", OceanChart.CHART, OceanChart.filed()))
                .allMatch(element -> element.verdict() == Verdict.RIGHT);
        assertThat(Readback.check(said, "heading 010, V31 to BBB", OceanChart.CHART, OceanChart.filed()))
                .filteredOn(element -> element.verdict() != Verdict.RIGHT)
                .singleElement()
                .satisfies(element -> {
                    assertThat(element.verdict()).isEqualTo(Verdict.MISSING);
                    assertThat(element.what()).isEqualTo("direction");
                });
    }

    @Test
    void the_wrong_way_round_an_arc_is_wrong() {
        assertThat(verdicts(
                        "intercept the AAA 15 mile arc clockwise to the AAA 070 radial",
                        "intercept the AAA 15 mile arc counterclockwise to the AAA 070 radial"))
                .contains(Verdict.WRONG);
    }

    /**
     * FAA Order JO 7110.65, 2-4-3: ensure that what is read back is correct, and correct it where it is not. The way up or down
     * is in the clearance (4-5-7), and a flight level is by another pressure than an altitude (14 CFR 91.121).
     */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "climb and maintain 5000 | descend to 5000 | climb and maintain five thousand | descend and maintain five thousand",
                "climb and maintain 5000 | descending five thousand | climb and maintain five thousand | descend and maintain five thousand",
                "descend and maintain 6000 | climb to six thousand | descend and maintain six thousand | climb and maintain six thousand",
                "descend and maintain 6000 | up to 6000 | descend and maintain six thousand | climb and maintain six thousand",
                "climb and maintain 5000 | climb to flight level five zero | five thousand | flight level zero five zero",
                "climb and maintain 5000 | flight level 50 | five thousand | flight level zero five zero",
                "climb and maintain 5000 | FL050 | five thousand | flight level zero five zero",
                "maintain 11000 | flight level one one zero | one one thousand | flight level one one zero",
                "climb and maintain FL230 | climb two three thousand | flight level two three zero | two three thousand",
                "climb and maintain FL110 | climb one one thousand | flight level one one zero | one one thousand",
                "cross AAA at FL110 | cross AAA at one one thousand | cross Grey Petrel at flight level one one zero | cross Grey Petrel at one one thousand",
                "cruise FL110 | cruise one one thousand | cruise flight level one one zero | cruise one one thousand",
                "cross AAA at 8000 | cross AAA at flight level eight zero | cross Grey Petrel at eight thousand | cross Grey Petrel at flight level zero eight zero"
            })
    void an_altitude_the_other_way_or_by_another_pressure_is_wrong(
            String clearance, String text, String cleared, String found) {
        List<Element> elements =
                Readback.check(ClearanceReaderTest.read(clearance), text, OceanChart.CHART, OceanChart.filed());
        assertThat(elements).singleElement().satisfies(element -> {
            assertThat(element.verdict()).isEqualTo(Verdict.WRONG);
            assertThat(element.expected()).isEqualTo(cleared);
            assertThat(element.found()).isEqualTo(found);
        });
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "maintain FL110 | flight level one one zero | RIGHT | flight level one one zero",
                "maintain FL110 | flight level one zero zero | WRONG | flight level one zero zero",
                "climb and maintain FL110 | wilco | MISSING | ''"
            })
    void a_level_that_was_cleared_is_shown_as_one(String clearance, String text, Verdict verdict, String found) {
        Element element = Readback.check(
                        ClearanceReaderTest.read(clearance), text, OceanChart.CHART, OceanChart.filed())
                .get(0);
        assertThat(element).isEqualTo(new Element("altitude", verdict, "flight level one one zero", found));
    }

    /** AIM 4-4-7 b: the altitude is read back; the verb may be left out. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "climb and maintain 5000 | five thousand",
                "climb and maintain 5000 | maintain 5000",
                "climb and maintain 5000 | climbing five thousand",
                "maintain 5000 | descending five thousand",
                "maintain FL110 | flight level one one zero",
                "maintain block FL110 through FL130 | block flight level one one zero through flight level one three zero",
                "maintain at least FL90 | maintain at least flight level niner zero",
                "cross the AAA 040 radial at FL90 | cross AAA 040 radial at flight level niner zero",
                "climb and maintain FL230 | flight level two three zero",
                "climb and maintain 23000 | two three thousand",
                "maintain 8000 until established, then climb and maintain 10000 | maintain 8000 until established, then climb 10000",
                "climb and maintain 5000 | descend to 5000, correction, climb to 5000"
            })
    void an_altitude_without_its_verb_is_right(String clearance, String text) {
        assertThat(verdicts(clearance, text)).as(text).isNotEmpty().allMatch(verdict -> verdict == Verdict.RIGHT);
    }

    private static final String HOLD =
            "fly heading 130, climb and maintain 5000, intercept V40, hold west of ABCDE on the AAA 100 radial, left turns, EFC 1925";

    /** The controller says again what was not exact (7110.65, 2-4-3); what was exact he has heard. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "heading 130, 5, V40, hold west of ABCDE on the AAA 100 radial, left turns, EFC 1925 | altitude",
                "heading 130, 5, V40, hold west of ABCDE on the AAA 100 radial, left turns, expect further clearance one nine two five | altitude",
                "heading 130, five thousand, V40, hold west of ABCDE, blah blah, left turns, EFC 1925 | hold radial",
                "heading 130, five thousand, V40, hold west of ABCDE, on the AAA 100 radial, blah blah, EFC 1925 | turns"
            })
    void what_is_exact_is_right_beside_words_that_are_not_understood(String text, String unclear) {
        assertThat(Readback.check(ClearanceReaderTest.read(HOLD), text, OceanChart.CHART, OceanChart.filed()))
                .filteredOn(element -> element.verdict() != Verdict.RIGHT)
                .allMatch(element -> element.verdict() == Verdict.UNCLEAR)
                .extracting(Element::what)
                .containsExactly(unclear, "words");
    }

    private static final String SOUTH =
            "turn right heading 210, climb and maintain 7000, intercept J533, hold south of CCC on the CCC 186 radial,"
                    + " 5 mile legs, EFC 0940";

    @ParameterizedTest
    @ValueSource(
            strings = {
                "right heading 210, seven thousand, J533, hold south of kittiwake, 186 radial, five mile legs, 0940",
                "right heading 210 seven thousand J533 hold south of kittiwake on the 186 radial 5 mile legs efc 0940",
                "right heading 210 uh seven thousand J533 hold south of kittiwake on the 186 radial 5 mile legs efc 0940",
                "right heading 210, seven thousand, J533, hold south of CCC on the 186 radial, right turns, 5 mile legs, EFC 0940"
            })
    void a_hold_read_back_shorter_is_right(String text) {
        assertThat(verdicts(SOUTH, text)).as(text).hasSize(8).allMatch(verdict -> verdict == Verdict.RIGHT);
    }

    @Test
    void a_time_is_no_altitude_and_a_radial_of_the_hold_is_no_other() {
        assertThat(verdicts(SOUTH, SOUTH.replace("EFC 0940", "0945"))).doesNotContain(Verdict.WRONG);
        assertThat(verdicts(SOUTH, SOUTH.replace("on the CCC 186 radial", ", 168 radial")))
                .filteredOn(verdict -> verdict != Verdict.RIGHT)
                .containsExactly(Verdict.WRONG);
        assertThat(verdicts(SOUTH, SOUTH + ", left turns")).contains(Verdict.WRONG);
    }

    @Test
    void which_way_a_radial_leads_where_nobody_said_it_is_not_wrong() {
        assertThat(verdicts("fly heading 100, intercept the AAA 250 radial", "heading 100, AAA 250 radial outbound"))
                .containsExactly(Verdict.RIGHT, Verdict.RIGHT, Verdict.RIGHT, Verdict.UNCLEAR);
    }

    @Test
    void then_behind_a_crossing_need_not_be_read_back() {
        for (String text : List.of("cross BBB at 9000, then direct DDD", "cross BBB at 9000, direct DDD")) {
            assertThat(verdicts("cross BBB at 9000, then direct DDD", text))
                    .containsExactly(Verdict.RIGHT, Verdict.RIGHT);
        }
    }

    @Test
    void a_number_alone_hides_no_turn_and_the_wrong_turn_stays_wrong() {
        assertThat(Readback.check(
                        ClearanceReaderTest.read(HOLD),
                        "heading 130, 5, V40, hold west of ABCDE on the AAA 100 radial, EFC 1925",
                        OceanChart.CHART,
                        OceanChart.filed()))
                .contains(
                        new Element("altitude", Verdict.UNCLEAR, "five thousand", ""),
                        new Element("turns", Verdict.MISSING, "left turns", ""));
        assertThat(Readback.check(
                        ClearanceReaderTest.read(HOLD),
                        "heading 130, blah blah, V40, hold west of ABCDE on the AAA 100 radial, right turns, EFC 1925",
                        OceanChart.CHART,
                        OceanChart.filed()))
                .contains(
                        new Element("turns", Verdict.WRONG, "left turns", "right turns"),
                        new Element(
                                "further clearance",
                                Verdict.RIGHT,
                                "expect further clearance one niner two five",
                                "expect further clearance one niner two five"));
    }

    /** Both say that the route beyond is the filed one (7110.65, 4-2-5: "rest of route unchanged"). */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "join V40, then as filed | V40, rest of route unchanged",
                "join V40, then as filed | V40, flight planned route",
                "join V40, rest of route unchanged | V40, as filed",
                "join V40, rest of route unchanged | V40, remainder of route as filed"
            })
    void as_filed_and_rest_of_route_unchanged_are_one(String clearance, String text) {
        assertThat(verdicts(clearance, text)).as(text).isNotEmpty().allMatch(verdict -> verdict == Verdict.RIGHT);
    }
}
