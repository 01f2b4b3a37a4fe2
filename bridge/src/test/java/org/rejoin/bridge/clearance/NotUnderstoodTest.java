package org.rejoin.bridge.clearance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.concurrent.TimeUnit;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Station;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Nothing is ignored in silence: what is wrong is named, pointed at, and answered with what would be right. */
class NotUnderstoodTest {

    private static ClearanceException refused(String text) {
        ClearanceException refused = catchThrowableOfType(
                ClearanceException.class, () -> ClearanceReader.read(text, OceanChart.CHART, OceanChart.filed()));
        assertThat(refused).as(text).isNotNull();
        assertThat(refused.getMessage()).as(text).doesNotContain("\n");
        return refused;
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "fly heading 100, squawk 4512, then as filed | NOT_UNDERSTOOD | squawk 4512",
                "squawk 4512, fly heading 100 | NOT_UNDERSTOOD | squawk 4512",
                "fly heading 100 squawk 4512 | NOT_UNDERSTOOD | squawk 4512",
                "proceed direct AAA blah blah, then as filed | NOT_UNDERSTOOD | blah blah",
                "fly heading 100, blah, join V31 | NOT_UNDERSTOOD | blah",
                "fyl heading 100, join V31 | NOT_UNDERSTOOD | fyl",
                "fly heding 100 | NOT_UNDERSTOOD | heding 100",
                "fly heading 100, intercpet V31 | NOT_UNDERSTOOD | intercpet V31",
                "clmb 6000, join V31 | NOT_UNDERSTOOD | clmb 6000",
                "fly heading 361 | NOT_UNDERSTOOD | 361",
                "fly heading 400, join V31 | NOT_UNDERSTOOD | 400",
                "fly heading 1000 | NOT_UNDERSTOOD | 1000",
                "intercept the AAA 361 radial | NOT_UNDERSTOOD | 361",
                "turn 360 degrees left | NOT_UNDERSTOOD | 360",
                "climb and maintain 60 | NOT_UNDERSTOOD | 60",
                "climb and maintain flight level 900 | NOT_UNDERSTOOD | flight level 900",
                "climb and maintain six thousand five | NOT_UNDERSTOOD | six thousand five",
                "hold at AAA efc 2460 | NOT_UNDERSTOOD | 2460",
                "intercept the AAB 250 radial | UNKNOWN_STATION | AAB",
                "intercept the Gray Petrel 250 radial | UNKNOWN_STATION | Gray Petrel",
                "intercept the zulu zulu zulu 250 radial | UNKNOWN_STATION | zulu zulu zulu",
                "intercept the ABCDE 250 radial | UNKNOWN_STATION | ABCDE",
                "intercept the NNB 250 radial | CANNOT_BE_WORKED_OUT | NNB",
                "intercept the AAA 250 bearing | NOT_UNDERSTOOD | the AAA 250 bearing",
                "proceed direct ABCDF | UNKNOWN_FIX | ABCDF",
                "proceed direct 91N078W | UNKNOWN_FIX | 91N078W",
                "join V32 | UNKNOWN_AIRWAY | V32",
                "join V31 to DDD, then as filed | ROUTE_NOT_VALID | DDD",
                "join victor ninety-nine | UNKNOWN_AIRWAY | victor ninety-nine",
                "victor thirty-one, then as filed | NOT_UNDERSTOOD | victor thirty-one",
                "UB10, then as filed | NOT_UNDERSTOOD | UB10",
                "change V40 DDD to read V88 DDD | AIRWAY_NOT_IN_ROUTE | V40 DDD",
                "fly heading 100! | NOT_UNDERSTOOD | !",
                "climb to FL190 at 1530 | NOT_UNDERSTOOD | at 1530",
                "cross BBB at 1530 | NOT_UNDERSTOOD | 1530",
                "cross BBB at or above 9000 and at or below 7000 | NOT_UNDERSTOOD"
                        + " | cross BBB at or above 9000 and at or below 7000",
                "maintain block 8000 through 6000 | NOT_UNDERSTOOD | maintain block 8000 through 6000",
                "fly heading 100 until 20 DME | NOT_UNDERSTOOD | 20 DME",
                "cleared to XBBB via direct V31 | NOT_UNDERSTOOD | via direct",
                "turn left heading 110, correction, direct BBB | NOT_UNDERSTOOD | direct BBB",
                "hold at BBB, expect further clearance | NOT_UNDERSTOOD | expect further clearance",
                "FL190 | NOT_UNDERSTOOD | FL190",
                "expect V88 squawk 4512 | NOT_UNDERSTOOD | squawk 4512",
                "join V31 (if able) | NOT_UNDERSTOOD | (if able)"
            })
    void the_words_are_named_and_pointed_at(String text, ClearanceException.Code code, String words) {
        ClearanceException refused = refused(text);
        int column = refused.column().orElseThrow();
        assertThat(text.substring(column, column + refused.length())).isEqualTo(words);
        assertThat(refused.code()).isEqualTo(code);
        assertThat(refused.getMessage()).contains(words.replaceFirst("^victor ninety-nine$", "V99"));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "fly heading, intercept V31 | a number",
                "fly heading | a number",
                "intercept the AAA 250 | \"radial\"",
                "climb and maintain | an altitude",
                "fly heading 100, intercpet V31 | did you mean intercept?",
                "fyl heading 100 | did you mean fly?",
                "intercept the AAB 250 radial | did you mean AAA?",
                "intercept the Gray Petrel 250 radial | did you mean Grey Petrel?",
                "proceed direct ABCDF | did you mean ABCDE?",
                "join V32 | V31",
                "intercept the NNB 250 radial | bearing from",
                "turn left | \"heading\"",
                "then | an instruction",
                "maintain present altitude | maintain 6000",
                "deviate | deviation 20 miles right of course approved",
                "leave the arc at the 350 radial | say it with the arc",
                "maintain 8000, then 10000 | until",
                "direct BBB CCC | say \"direct BBB, CCC\"",
                "direct ABCDE AAA, maintain 6000 | say \"direct ABCDE, AAA\"",
                "'' | an instruction",
                "report passing 7000, climbing to 9000 | is it cleared, or part of the report? if it is cleared, say \"climb and maintain\"",
                "direct AAA, then the 250 bearing inbound | which way is meant?",
                "direct AAA, then inbound on the 250 bearing | which way is meant?",
                "direct AAA, then inbound on the 250 radial outbound | which way is meant",
                "heading 110, inbound on the 250 course from AAA | which way is meant",
                "heading 110, intercept the 250 radial inbound to AAA, outbound | which way is meant",
                "heading 110, intercept the AAA 250 radial outbound, maintain 7000 until established inbound | which way is meant",
                "heading 190, intercept V31, maintain 7000 until established inbound on V31 | said of a radial",
                "direct YOU | \"YOU\" is not on the chart",
                "join V31 BBB, direct you | you",
                "n amendment, direct BBB | not understood: \"n\"",
                "n revised clearance, direct BBB | not understood: \"n\"",
                "direct BBB, expected | \"expected\" is not on the chart",
                "heading 100, maintain 7000 until established inbound | on which radial is not said before it",
                "join V99 | ; the chart has ",
                "intercept the ZZZ 250 radial | \"ZZZ\" is not on the chart; the chart has AAA",
                "direct ZZZ | and ",
                "hold 5 miles northwest of BBB on V31 | a hold on an airway is at a fix of it",
                "leave V31 at CCC, direct BBB | V31 does not pass there",
                "heading 200, when able, direct | direct to where is not said: name a fix"
            })
    void what_would_be_understood_is_said(String text, String right) {
        assertThat(refused(text)).hasMessageContaining(right);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                " ",
                ",",
                ".",
                "512",
                "Oceanic 512",
                "hello",
                "\uD83D\uDE80 fly heading 100",
                "then as filed then"
            })
    void no_clearance_at_all(String text) {
        assertThat(refused(text).code()).isEqualTo(ClearanceException.Code.NOT_UNDERSTOOD);
    }

    @Test
    @Timeout(value = 60, unit = TimeUnit.SECONDS)
    void any_words_in_any_order_are_read_or_refused() {
        List<String> words = List.of(
                ("fly heading 100 250 intercept the AAA radial join V31 then as filed , . turn left right degrees direct"
                                + " proceed cleared to via at or above 6000 flight level one niner zero hundred thousand victor"
                                + " thirty-one grey petrel cross swell hold west of on 1 minute legs expect further clearance 1530"
                                + " maintain until established change read rest route unchanged squawk blah ! NNB bearing from FL190"
                                + " AAA078064 38N054W UB10 when able resume own navigation oceanic 512 a b alfa bravo mile fix and"
                                + " after passing until before offset block through cruise feet per minute knots speed zulu in by be level"
                                + " correction qnh restrictions cancel limit advised least arc clockwise dme climb cross AAA"
                                + " 99999999999 9,999 \uD83D\uDE80 \u00e9t\u00e9 -")
                        .split(" "));
        Random random = new Random(20260601);
        for (int i = 0; i < 800; i++) {
            StringBuilder text = new StringBuilder();
            int length = 1 + random.nextInt(i % 50 == 0 ? 120 : 14);
            for (int j = 0; j < length; j++) {
                text.append(words.get(random.nextInt(words.size()))).append(random.nextInt(20) == 0 ? "" : " ");
            }
            readOrRefused(text.toString());
        }
    }

    @Test
    @Timeout(value = 60, unit = TimeUnit.SECONDS)
    void any_characters_and_slips_of_the_keyboard_are_read_or_refused() {
        Random random = new Random(20260602);
        String base =
                "Oceanic 512, fly heading 100, intercept the AAA 250 radial, join V31, cross ABCDE at 6000, then as filed";
        for (int i = 0; i < 500; i++) {
            StringBuilder text = new StringBuilder(base);
            for (int j = random.nextInt(6); j >= 0; j--) {
                int at = random.nextInt(text.length());
                switch (random.nextInt(3)) {
                    case 0 -> text.deleteCharAt(at);
                    case 1 -> text.insert(at, (char) random.nextInt(0x3000));
                    default -> text.setCharAt(at, (char) (32 + random.nextInt(95)));
                }
            }
            readOrRefused(text.toString());
        }
    }

    /** Readbacks of 400 figures once took a minute: a number could be split in two at any place. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "1 ",
                "alfa ",
                "alfa 1 ",
                "V31 ",
                "V31 a ",
                "direct a ",
                ", ",
                ". ",
                "victor 1 a ",
                "intercept a 1 ",
                "hold at a 1 minute ",
                "change V31 a to read V31 a ",
                "expect a ",
                "a 250 radial ",
                "maintain 1 "
            })
    @Timeout(value = 20, unit = TimeUnit.SECONDS)
    void words_without_end_are_answered(String words) {
        readOrRefused(words.repeat(990 / words.length()));
        assertThat(refused(words.repeat(2000)).code()).isEqualTo(ClearanceException.Code.NOT_UNDERSTOOD);
    }

    private static void readOrRefused(String text) {
        try {
            Clearance clearance = ClearanceReader.read(text, OceanChart.CHART, OceanChart.filed());
            assertThat(clearance.instructions()).isNotEmpty();
            String said = Phraseology.say(clearance);
            assertThat(ClearanceReader.read(said, OceanChart.CHART, OceanChart.filed())
                            .instructions())
                    .as(text + " -> " + said)
                    .isEqualTo(clearance.instructions());
        } catch (ClearanceException e) {
            assertThat(e.getMessage()).isNotBlank().doesNotContain("\n");
            e.column().ifPresent(column -> assertThat(column + e.length()).isLessThanOrEqualTo(text.length()));
        }
        Readback.check(ClearanceReaderTest.read("fly heading 100"), text, OceanChart.CHART, OceanChart.filed());
        try {
            FiledRouteReader.read(text, OceanChart.CHART);
        } catch (ClearanceException e) {
            assertThat(e.getMessage()).isNotBlank();
        }
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "intercept the AAA 06O radial | 06O | did you mean 060?",
                "fly heading 1OO | 1OO | did you mean 100?",
                "climb and maintain FL1O0 | FL1O0 | did you mean FL100?",
                "fly heading zer0 six zero | zer0 | did you mean zero?"
            })
    void aLetterForAFigureIsNotGuessed(String text, String words, String meant) {
        ClearanceException refused = refused(text);
        assertThat(refused).hasMessageContaining(meant);
        assertThat(text.substring(
                        refused.column().orElseThrow(), refused.column().orElseThrow() + refused.length()))
                .isEqualTo(words);
    }

    /** A DME gives distances alone: with the station named before the bearing as with its name in the bearing. */
    @Test
    void a_dme_has_no_bearings() {
        Station dme = new Station(
                "MMM",
                "Murre",
                Station.Kind.DME,
                Optional.empty(),
                OptionalDouble.of(113.4),
                OceanChart.NNB.position(),
                Optional.empty(),
                OptionalDouble.of(0));
        Chart chart = new Chart(
                "open ocean",
                List.of(OceanChart.AAA, OceanChart.BBB, dme),
                List.of(OceanChart.ABCDE),
                List.of(OceanChart.XAAA, OceanChart.XBBB),
                List.of(OceanChart.V31));
        assertThatThrownBy(() ->
                        ClearanceReader.read("direct MMM, then the 120 bearing outbound", chart, OceanChart.filed()))
                .hasMessageContaining("of which station?");
        assertThatThrownBy(() ->
                        ClearanceReader.read("direct MMM, then the 120 bearing from MMM", chart, OceanChart.filed()))
                .hasMessageContaining("it has neither radials nor bearings");
    }
}
