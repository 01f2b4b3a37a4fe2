package org.rejoin.bridge.clearance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.stream.Collectors;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.io.ChartReader;
import org.rejoin.bridge.clearance.Readback.Verdict;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Validation: published phraseology is read, each phrase with the paragraph it comes from: FAA Order JO 7110.65, ICAO Doc
 * 4444, the Pilot/Controller Glossary (P/CG) or the Aeronautical Information Manual. A paragraph followed by m is from
 * memory; the others were read in a public transcription. The idents are invented.
 */
class PublishedPhrasesTest {

    @ParameterizedTest(name = "{1}: {0}")
    @CsvSource(
            delimiter = '|',
            value = {
                "turn left heading 090 | 7110.65 5-6-2 | FlyHeading",
                "turn right heading two one five | 7110.65 5-6-2 | FlyHeading",
                "turn left fly heading one niner zero | Doc 4444 12.4.1 m | FlyHeading",
                "fly heading 100 | 7110.65 5-6-2 | FlyHeading",
                "fly present heading | 7110.65 5-6-2, older editions | FlyPresentHeading",
                "fly runway heading | 7110.65 4-3-2 m | FlyRunwayHeading",
                "continue present heading | Doc 4444 12.4.1 m | FlyPresentHeading",
                "turn 30 degrees left | 7110.65 5-6-2 | TurnBy",
                "turn left three zero degrees | Doc 4444 12.4.1 m | TurnBy",
                "vector to V31 | 7110.65 5-6-2 | InterceptAirway",
                "vector to intercept AAA 250 radial | 7110.65 5-6-2 | InterceptRadial",
                "resume own navigation | 7110.65 5-6-2 m | Onward",
                "resume own navigation direct ABCDE | Doc 4444 12.4.1 m | Onward Direct",
                "when able, proceed direct BBB | 7110.65 5-6-2 m | Direct",
                "proceed direct ABCDE | 7110.65 4-4-1 i | Direct",
                "cleared direct BBB | 7110.65 4-2-5 a3 | Direct",
                "direct to the AAA 078 radial 64 mile fix | 7110.65 4-4-1 i | Direct",
                "intercept V31 | P/CG m | InterceptAirway",
                "join victor thirty-one | 7110.65 4-4-1 a | JoinAirway",
                "intercept J533 | P/CG m | InterceptAirway",
                "join J five thirty-three | AIM 4-2-8 c | JoinAirway",
                "intercept Q7 | P/CG m | InterceptAirway",
                "join V31 at ABCDE | P/CG m | JoinAirway",
                "via V31 to BBB | 7110.65 4-4-1 | JoinAirway",
                "intercept the Grey Petrel 250 radial | 7110.65 4-4-1 b | InterceptRadial",
                "intercept the AAA 250 radial inbound | 7110.65 4-4-1 b | InterceptRadial",
                "intercept the alfa alfa alfa two five zero radial outbound | 7110.65 4-4-1 b | InterceptRadial",
                "intercept the AAA 070 course inbound | 7110.65 4-4-1 b | InterceptRadial",
                "intercept the 070 bearing to NNB | 7110.65 4-4-1 m | InterceptBearing",
                "intercept the 250 bearing from NNB | 7110.65 4-4-1 m | InterceptBearing",
                "join V31, then as filed | 7110.65 4-3-3 | JoinAirway Onward",
                "direct BBB, rest of route unchanged | 7110.65 4-2-5 a2 | Direct Onward",
                "direct AAA, then on course | P/CG m | Direct Onward",
                "recleared direct BBB, rest of clearance unchanged | Doc 4444 12.3.3 m | Direct Onward",
                "cleared to Swell Field airport | 7110.65 4-2-1 | ClearedTo",
                "cleared to XBBB via flight planned route | Doc 4444 12.3.3 m | ClearedTo Onward",
                "change victor thirty-one BBB to read V455 CCC, V40 DDD | 7110.65 4-2-5 a1 | JoinAirway JoinAirway Onward",
                "climb and maintain one zero thousand | 7110.65 4-5-7, P/CG m | Maintain",
                "descend and maintain flight level one niner zero | 7110.65 4-5-7, AIM 4-2-9 | Maintain",
                "maintain 6000 until established | 7110.65 5-9-4 m | Maintain",
                "maintain 180 knots | 7110.65 5-7-2 m | MaintainSpeed",
                "maintain one eight zero knots or greater | 7110.65 5-7-2 m | MaintainSpeed",
                "do not exceed 150 knots | 7110.65 5-7-2 m | MaintainSpeed",
                "reduce speed to one four zero | 7110.65 5-7-2 m | MaintainSpeed",
                "increase speed to 160 knots | 7110.65 5-7-2 m | MaintainSpeed",
                "maintain present speed | 7110.65 5-7-2 m | MaintainPresentSpeed",
                "resume normal speed | 7110.65 5-7-4 m | ResumeNormalSpeed",
                "descend and maintain 6000, then reduce speed to 120 | 7110.65 5-7-2 m | Maintain After",
                "disregard | P/CG m | Cancel",
                "disregard the amendment, continue as filed | common practice, no source | Cancel Onward",
                "cancel amended clearance, resume own navigation | common practice, no source | Cancel Onward",
                "climb and maintain niner thousand, expedite | 7110.65 4-5-7 m | Maintain",
                "descend now to maintain five thousand, then descend at pilot's discretion, maintain four thousand | 7110.65 4-5-7 m | Maintain After",
                "descend and maintain five thousand, the Grey Petrel altimeter two niner eight eight | 7110.65 4-5-7 m | Maintain",
                "climb to FL80, to be level at or before ABCDE | Doc 4444 12.3.1 m | Maintain",
                "cleared via last routing cleared | 7110.65 4-2-5 m | Onward",
                "turn right heading 130 for vector across V31 | 7110.65 5-6-2 m | FlyHeading",
                "hold west of AAA on the 270 radial, expect further clearance 1530, time now 1502 | 7110.65 4-6-1 m | Hold",
                "hold as published at ABCDE | 7110.65 4-6-4 m | Hold",
                "hold southeast of ABCDE on the bearing 140 from ABCDE | 7110.65 4-6-4 m | Hold",
                "hold on the 078 radial of the AAA VOR at distance 25 DME, inbound track 080, left hand pattern, expect further clearance at 1540 | Doc 4444 12.3.2 m | Hold",
                "depart ABCDE at 1530 | 7110.65 4-6-1 m | LeaveHold",
                "leave the hold at time 1530 | common practice, no source | LeaveHold",
                "depart AAA on the AAA 078 radial | 7110.65 4-4-1 m | Depart",
                "amendment to your clearance, advise when ready to copy, depart AAA on the AAA 078 radial | common practice, no source | Depart",
                "cross ABCDE at 6000, read back | common practice, no source | CrossAt",
                "cross ABCDE at 6000 | 7110.65 4-5-7 | CrossAt",
                "cross ABCDE at or above 6000 | 7110.65 4-5-7 | CrossAt",
                "cross ABCDE at and maintain 6000 | 7110.65 4-5-7 m | CrossAt Maintain",
                "expect victor eighty-eight after BBB | 7110.65 4-2-5, P/CG | Expect",
                "hold west of AAA on the 270 radial, 2 minute legs, left turns, expect further clearance 1530 | 7110.65 4-6-4 m | Hold",
                "cleared to ABCDE, hold north, as published | 7110.65 4-6-4 m | ClearedTo Hold",
                "cleared to ABCDE, hold west as published, expect further clearance 1530 | 7110.65 4-6-4 m | ClearedTo Hold",
                "cleared to AAA, hold south on the 180 radial, left turns, expect further clearance one five three zero | 7110.65 4-6-4 m | ClearedTo Hold",
                "hold south of ABCDE on V31, two minute legs | 7110.65 4-6-4 m | Hold",
                "hold north of AAA on the 360 radial, one zero mile legs | 7110.65 4-6-4 m | Hold",
                "hold at ABCDE, inbound track 090 degrees, left hand pattern, outbound time 1 minute | Doc 4444 12.3.2 m | Hold",
                "proceed to ABCDE, hold east, inbound track 270 degrees, right hand pattern, outbound time one and a half minutes | Doc 4444 12.3.2 m | Direct Hold",
                "hold northwest of NNB on the 315 bearing from NNB | 7110.65 4-6-4 m | Hold",
                "cross one zero miles west of ABCDE at and maintain 6000 | 7110.65 4-5-7 m | CrossAt Maintain",
                "cross ABCDE at FL280 | 7110.65 4-5-7 m | CrossAt",
                "cross ABCDE FL120 or above | Doc 4444 12.3.1 m | CrossAt",
                "descend at pilot's discretion, maintain 6000 | 7110.65 4-5-7 m | Maintain",
                "descend and maintain 6000 at pilot's discretion | 7110.65 4-5-7 m | Maintain",
                "at pilot's discretion, climb and maintain 9000 | 7110.65 4-5-7 m | Maintain",
                "amend your altitude, maintain 7000 | 7110.65 4-2-5 m | Maintain",
                "amend your altitude, descend and maintain 5000 | 7110.65 4-5-7 m | Maintain",
                "when ready, descend to FL120 | Doc 4444 12.3.1.2 m | Maintain",
                "descend to flight level one two zero, to be level by ABCDE | Doc 4444 12.3.1.2 m | Maintain",
                "climb to reach FL190 by ABCDE | Doc 4444 12.3.1.2 m | Maintain",
                "turn right heading 345 for spacing | Doc 4444 12.4.1.6 m | FlyHeading",
                "turn left heading 100, vectors for sequencing | 7110.65 5-6-2 m | FlyHeading",
                "stop turn heading 345 | Doc 4444 12.4.1 m | FlyHeading",
                "turn left immediately heading 090 | Doc 4444 12.4.1 m | FlyHeading",
                "turn left direct ABCDE | common practice, no source | Direct",
                "turn right, proceed direct ABCDE | common practice, no source | Direct",
                "present position direct ABCDE | 7110.65 4-2-5 m | Direct",
                "cleared from present position direct ABCDE | 7110.65 4-2-5 m | Direct",
                "proceed to ABCDE | Doc 4444 12.3.2 m | Direct",
                "depart ABCDE heading 120 | 7110.65 5-6-2 m | Depart",
                "depart AAA on the 078 radial | 7110.65 4-4-1 m | Depart",
                "intercept the AAA 15 mile arc | 7110.65 4-4-1 m | InterceptArc",
                "join the AAA one five DME arc, arc clockwise to the AAA 070 radial | 7110.65 4-4-1 m | InterceptArc",
                "via one zero mile arc southeast of Grey Petrel | 7110.65 4-4-1 m | InterceptArc",
                "join the 12 mile arc of AAA counterclockwise to join V31 | 7110.65 4-4-1 m | InterceptArc JoinAirway",
                "intercept the AAA 15 DME arc, arc north-west bound until the 320 radial | common practice, no source | InterceptArc",
                "intercept the BBB 120 radial until the AAA 040 radial, then direct CCC | common practice, no source | InterceptRadial Direct",
                "intercept the BBB 120 radial until 25 DME, then direct CCC | common practice, no source | InterceptRadial Direct",
                "join V31 ten miles north of AAA | 7110.65 4-4-1 m | JoinAirway",
                "intercept V31 at ABCDE | common practice, no source | InterceptAirway JoinAirway",
                "join V31 at AAA, V31 BBB | common practice, no source | JoinAirway",
                "rerouted via V455 CCC | Doc 4444 12.3.3 m | JoinAirway",
                "join upper bravo one zero to AAA | Doc 4444 12.1 m | JoinAirway",
                "report established | 7110.65 5-9-4 m | Report",
                "report passing ABCDE | Doc 4444 12.3.1 m | Report",
                "expect FL190 ten minutes after departure | 7110.65 4-3-2 m | Expect",
                "hold at ABCDE as published | 7110.65 4-6-4 m | Hold",
                "maintain 8000 until ABCDE, then climb and maintain 10000 | common practice, no source | Maintain Until Maintain",
                "maintain 3000 until established, then descend and maintain 2000 | 7110.65 5-9-4 m | Maintain Maintain",
                "fly heading 100, maintain 8000 until intercepting V31 | common practice, no source | FlyHeading Maintain EstablishedOn InterceptAirway",
                "maintain 8000 until further advised, then climb and maintain 9000 | Doc 4444 12.3.2.3 m | Maintain Until Maintain",
                "maintain 180 knots until ABCDE, then maintain 140 knots | 7110.65 5-7-2 m | MaintainSpeed Until MaintainSpeed",
                "maintain 180 knots until established on V31 | common practice, no source | MaintainSpeed Until",
                "maintain 6000, at ABCDE climb and maintain 9000 | common practice, no source | Maintain After",
                "join V31, thence as filed | common practice, no source | JoinAirway Onward",
                "radar contact, fly heading 100 | 7110.65 5-3-1 m | FlyHeading",
                "roger, fly heading 100 | P/CG m | FlyHeading",
                "radar contact 8 miles southeast of Grey Petrel, fly heading 100 | 7110.65 5-3-7 m | FlyHeading",
                "traffic 2 o'clock, 5 miles, opposite direction, altitude unknown, fly heading 100 | 7110.65 2-1-21 m | FlyHeading",
                "descend and maintain 6000 after passing ABCDE | 7110.65 4-5-7 m | After",
                "turn left heading 060 until passing 8500 | 7110.65 5-6-2 m | FlyHeading Until",
                "uh fly heading uh one zero zero um intercept V31 | common practice, no source | FlyHeading InterceptAirway",
                "join V31, then as filed, Grey Petrel altimeter two niner niner two | 7110.65 2-7-2 m | JoinAirway Onward",
                "join V31, then as filed, altimeter 29.92 | common practice, no source | JoinAirway Onward",
                "fly heading 100, contact Oceanic Center on 128.35 | 7110.65 2-1-17 m | FlyHeading",
                "fly heading 100, contact Oceanic Approach one two eight point three five | 7110.65 2-1-17 m | FlyHeading",
                "fly heading 100, monitor 128.35 | 7110.65 2-1-17 m | FlyHeading",
                "fly heading 100 until established on V31 | common practice, no source | FlyHeading InterceptAirway",
                "fly heading 100, intercept V31, resume own navigation when established | common practice, no source | FlyHeading InterceptAirway Onward",
                "fly heading 100, when established on V31, resume own navigation | common practice, no source | FlyHeading InterceptAirway Onward",
                "resume normal navigation | common practice, no source | Onward",
                "direct BBB, remainder of route as filed | common practice, no source | Direct Onward",
                "direct BBB, rest of the flight plan unchanged | common practice, no source | Direct Onward",
                "amend your routing, direct BBB | common practice, no source | Direct",
                "change route to read V455 CCC, V40 DDD | 7110.65 4-2-5 m | JoinAirway JoinAirway Onward",
                "intercept the AAA 078 radial, track outbound on the 078 radial | common practice, no source | InterceptRadial",
                "direct AAA, track outbound on the 078 radial | common practice, no source | Direct InterceptRadial",
                "intercept bearing 070 to NNB | common practice, no source | InterceptBearing",
                "direct to the AAA 078 radial three zero DME fix | 7110.65 4-4-1 m | Direct",
                "climb and maintain 10000, expedite through niner thousand | 7110.65 4-5-7 m | Maintain",
                "leaving 7000 fly heading 100 | 7110.65 4-5-7 m | After",
                "leaving seven thousand, fly heading 100 | 7110.65 4-5-7 m | After",
                "join V31 at ABCDE at or above niner thousand | common practice, no source | JoinAirway CrossAt",
                "traffic, two o'clock, five miles, northbound, fly heading 100 | 7110.65 2-1-21 m | FlyHeading",
                "caution wake turbulence, fly heading 100 | 7110.65 2-1-20 m | FlyHeading",
                "position 20 miles south of ABCDE, fly heading 100 | 7110.65 5-6-2 m | FlyHeading",
                "disregard my last | common practice, no source | Cancel",
                "cleared to deviate up to 20 miles right of course | 7110.65 2-6-4 m | Deviation",
                "deviation 20 miles right of V31 approved, when able proceed direct BBB | 7110.65 2-6-4 m | Deviation Direct",
                "deviation 15 degrees left of course approved, maintain 8000 | 7110.65 2-6-4 m | Deviation Maintain",
                "deviations left and right of course approved | 7110.65 2-6-4 m | Deviation",
                "cleared to deviate left of route due weather | Doc 4444 15.2.3 m | Deviation",
                "if practical, reduce speed to 120 | 7110.65 5-7-2 m | MaintainSpeed",
                "reduce speed to 120 if able | common practice, no source | MaintainSpeed",
                "increase speed to 140, advise if unable | common practice, no source | MaintainSpeed",
                "direct BBB then CCC | common practice, no source | Direct Direct",
                "maintain 8000 until BBB, then 10000 until CCC, then one two thousand | 7110.65 4-5-7 m | Maintain Until Maintain Until Maintain",
                "maintain at or above 7000 until BBB | 7110.65 4-5-7 m | Bounded Until",
                "descend at your own discretion, maintain 4000 | common practice, no source | Maintain",
                "no altitude restrictions | 7110.65 4-5-7 m | Lifted",
                "amend route of flight, direct BBB | common practice, no source | Direct",
                "disregard last transmission | Annex 10 volume II, 5.2.1.9 m | Cancel",
                "cancel amended route, resume own navigation | common practice, no source | Cancel Onward",
                "direct AAA, then outbound on the 078 radial | 7110.65 4-4-1 m | Direct InterceptRadial",
                "intercept the AAA R250 | common practice, no source | InterceptRadial"
            })
    void a_published_phrase_is_read(String words, String paragraph, String instructions) {
        assertThat(ClearanceReaderTest.read(words).instructions().stream()
                        .map(instruction -> instruction.getClass().getSimpleName())
                        .collect(Collectors.joining(" ")))
                .as(paragraph)
                .isEqualTo(instructions);
        Clearance inFlight = ClearanceReaderTest.read("Oceanic five twelve, " + words);
        assertThat(inFlight.callsign()).contains("Oceanic five twelve");
    }

    @Test
    void several_amendments_in_a_row() {
        assertThat(ClearanceReaderTest.read(
                                "Oceanic 512, turn left heading 090, intercept the AAA 250 radial, join victor"
                                        + " thirty-one to BBB, victor eighty-eight, then as filed, climb and maintain six thousand,"
                                        + " expect V40 after DDD")
                        .instructions())
                .hasSize(7);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "fly heading 100, squawk 4512 |                 ^^^^^^^^^^^| an instruction",
                "intercept the Gray Petrel 250 radial |              ^^^^^^^^^^^| did you mean Grey Petrel",
                "fly heading 100, intercept the AAA 250 |                                      ^| \"radial\"",
                "proceed direct ABCDF |               ^^^^^| did you mean ABCDE",
                "fly heading 100, intrcept V31 |                 ^^^^^^^^^^^^| did you mean intercept?",
                "fly heading 100 untill V31 |                ^^^^^^^^^^| did you mean until?",
                "fly heading 100 true |            ^^^^^^^^| headings are magnetic",
                "fly heading 100 for 10 miles, direct BBB |                ^^^^^^^^^^^^| say until where",
                "descend via V31 |^^^^^^^^^^^^^^^| published procedure",
                "hold at present position |^^^^^^^^^^^^^^^^^^^^^^^^| a hold needs a fix",
                "join V31 at or above niner thousand |         ^^^^^^^^^^^^^^^^^^^^^^^^^^| at which fix?",
                "join V31, Grey Petrel altimeter 2992 |                      ^^^^^^^^^^^^^^| whose?",
                "track inbound on the 078 radial |^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^| of which station?"
            },
            ignoreLeadingAndTrailingWhitespace = false)
    void what_is_not_understood_has_carets_under_it(String text, String carets, String expected) {
        String words = text.trim();
        ClearanceException refused = org.assertj.core.api.Assertions.catchThrowableOfType(
                ClearanceException.class, () -> ClearanceReader.read(words, OceanChart.CHART, OceanChart.filed()));
        assertThat(refused.caretLine()).contains(carets);
        assertThat(refused).hasMessageContaining(expected.trim());
    }

    /** A chart may have any word as a name: there it is that name, and nothing that is said around a clearance. */
    @ParameterizedTest
    @CsvSource({"ROGER", "UH", "POINT", "TRUE", "MY"})
    void a_word_that_is_a_name_on_the_chart_is_that_name(String ident) throws Exception {
        String yaml = "fixes:\n  - {ident: '" + ident + "', latitude_deg: 40.0, longitude_deg: -44.0}\n"
                + "  - {ident: OTHER, latitude_deg: 40.5, longitude_deg: -44.0}\n";
        Chart chart = ChartReader.read(new ByteArrayInputStream(yaml.getBytes(StandardCharsets.UTF_8)), "one.yaml")
                .chart();
        FiledRoute filed = FiledRouteReader.read("OTHER DCT " + ident, chart);
        Clearance read = ClearanceReader.read("direct " + ident + ", hold at " + ident, chart, filed);
        assertThat(read.first(Instruction.Direct.class).orElseThrow().to().ident())
                .isEqualTo(ident);
        assertThatThrownBy(() -> ClearanceReader.read(ident + ", direct OTHER", chart, filed))
                .isInstanceOf(ClearanceException.class);
    }

    /** One line is read; a page is not. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "fly heading 100, squawk 4512",
                "fly heading",
                "fly heading 100, contact Oceanic Center",
                "intercept the",
                "fly heading 100, intercept the AAA 250",
                "climb and",
                "fyl heading 100",
                "hold west of"
            })
    void what_is_not_understood_is_said_in_one_line(String words) {
        assertThatThrownBy(() -> ClearanceReaderTest.read(words))
                .hasRootCauseInstanceOf(ClearanceException.class)
                .rootCause()
                .satisfies(refused -> assertThat(refused.getMessage()).hasSizeLessThan(250));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "heading one zero zero, intercept V31, six thousand | RIGHT RIGHT RIGHT",
                "left heading 100, intercept V31, 6000 | RIGHT RIGHT RIGHT WRONG",
                "heading 010, V31, maintain 6000 | WRONG RIGHT RIGHT",
                "heading 100 | RIGHT MISSING MISSING",
                "V31 | MISSING RIGHT MISSING",
                "heading 100, intercept V88, 6000 | RIGHT WRONG RIGHT",
                "roger | MISSING MISSING MISSING"
            })
    void a_readback_is_checked_element_by_element(String text, String verdicts) { // AIM 4-4-7, from memory
        Clearance clearance = ClearanceReaderTest.read("fly heading 100, intercept V31, climb and maintain 6000");
        List<Verdict> found = Readback.check(clearance, text, OceanChart.CHART, OceanChart.filed()).stream()
                .map(Readback.Element::verdict)
                .toList();
        assertThat(found.stream().map(Verdict::toString)).containsExactlyInAnyOrder(verdicts.split(" "));
    }
}
