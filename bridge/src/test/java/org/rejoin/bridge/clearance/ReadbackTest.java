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
                        new Element("words", Verdict.WRONG, "", "blah blah"));
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

    @Test
    void the_wrong_way_round_an_arc_is_wrong() {
        assertThat(verdicts(
                        "intercept the AAA 15 mile arc clockwise to the AAA 070 radial",
                        "intercept the AAA 15 mile arc counterclockwise to the AAA 070 radial"))
                .contains(Verdict.WRONG);
    }
}
