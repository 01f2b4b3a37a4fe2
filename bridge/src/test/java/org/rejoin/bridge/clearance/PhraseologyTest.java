package org.rejoin.bridge.clearance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;

import org.rejoin.bridge.clearance.Instruction.Maintain;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Saying a clearance, and that reading it gives it back. */
class PhraseologyTest {

    /** Where the transition altitude is low a level of 110 is one (ICAO Annex 2, Table of cruising levels, from memory). */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "climb and maintain FL110 | climb and maintain flight level one one zero",
                "descend to FL90 level by ABCDE | descend and maintain flight level zero niner zero, to be level by ABCDE",
                "cross ABCDE at FL110 or above | cross ABCDE at or above flight level one one zero",
                "maintain block FL110 through FL130 | maintain block flight level one one zero through flight level one three zero",
                "cruise FL110 | cruise flight level one one zero",
                "maintain at or above FL90 | maintain at least flight level zero niner zero",
                "cross 15 miles before BBB at FL110 | cross one five miles before Cross Swell at flight level one one zero",
                "cross BBB between FL100 and FL120 | cross Cross Swell at or above flight level one zero zero, cross Cross Swell at or below flight level one two zero",
                "climb and maintain 11000 | climb and maintain one one thousand",
                "climb and maintain FL190 | climb and maintain flight level one niner zero",
                "when passing FL80 descend to 6000 | descend and maintain six thousand after reaching flight level zero eight zero"
            })
    void a_flight_level_is_said_as_one(String text, String words) {
        assertThat(Phraseology.say(ClearanceReaderTest.read(text))).isEqualTo(words);
    }

    @ParameterizedTest
    @CsvSource({
        "V12, victor twelve",
        "V455, victor four fifty-five",
        "J533, J five thirty-three", // AIM 4-2-8 c
        "V31, victor thirty-one",
        "V88, victor eighty-eight",
        "V7, victor seven",
        "V100, victor one hundred",
        "V105, victor one zero five",
        "Q7, Q seven",
        "T210, tango two ten",
        "UB10, upper bravo ten"
    })
    void airways_in_group_form(String ident, String words) {
        assertThat(Phraseology.airway(ident)).isEqualTo(words);
    }

    @ParameterizedTest
    @CsvSource({
        "12500, one two thousand five hundred",
        "10000, one zero thousand", // AIM 4-2-9
        "19000, flight level one niner zero",
        "6000, six thousand",
        "500, five hundred",
        "2550, two five five zero feet"
    })
    void altitudes(double feet, String words) {
        assertThat(Phraseology.altitude(feet)).isEqualTo(words);
    }

    @ParameterizedTest
    @CsvSource({"5, zero zero five", "100, one zero zero", "0, three six zero", "359.7, three six zero"})
    void directions_in_three_digits(double deg, String words) { // AIM 4-2-10
        assertThat(SpokenWords.direction(deg)).isEqualTo(words);
    }

    @Test
    void a_whole_clearance() {
        Clearance clearance =
                ClearanceReaderTest.read("fly heading 100, intercept the AAA 250 radial, join V31, then as filed");
        assertThat(Phraseology.say(clearance))
                .isEqualTo("fly heading one zero zero, intercept the Grey Petrel two five zero radial, join victor"
                        + " thirty-one, then as filed");
    }

    /** After a heading an airway is joined; one after another they are a route (FAA Order JO 7110.65, 4-4-1). */
    @Test
    void anAirwayAfterAHeadingIsJoined() {
        assertThat(Phraseology.say(ClearanceReaderTest.read("fly heading 100, join V31 to BBB")))
                .isEqualTo("fly heading one zero zero, join victor thirty-one to Cross Swell");
        assertThat(Phraseology.say(ClearanceReaderTest.read("join J533 to EEE, via UB10 to AAA")))
                .contains(" via ");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "Oceanic 512, turn left heading 090, intercept V455, resume own navigation",
                "turn 20 degrees right, fly present heading, fly runway heading",
                "intercept the BBB 073 radial inbound, maintain 6000 until established",
                "intercept the 250 bearing from NNB, intercept the 070 bearing to NNB",
                "join J533 at CCC to EEE, via UB10 to AAA, join V31",
                "when able, proceed direct HADDY, cleared direct XAAA, direct AAA078064, direct 38N054W",
                "cleared to XBBB, rest of route unchanged",
                "cross ABCDE at or above 6000, cross BBB at FL190, cross ABCDE at or below 2500",
                "hold west of AAA on the 270 radial, 1 minute legs, left turns, efc 1530",
                "hold at ABCDE, hold northeast of BBB 10 mile legs right turns",
                "hold at ABCDE efc 0059",
                "expect V88 after BBB, then on course",
                "maintain 180 knots, maintain 160 knots or greater, do not exceed 150 knots",
                "maintain present speed, resume normal speed",
                "disregard, continue as filed",
                "intercept the AAA 15 mile arc clockwise to the AAA 070 radial, join V31",
                "intercept the 12 mile arc southeast of AAA, arc northwest bound to ABCDE",
                "join the AAA 10 DME arc counterclockwise until 22 miles from BBB",
                "join the AAA 10 DME arc counterclockwise to V31",
                "intercept the BBB 120 radial outbound until the AAA 040 radial, turn left direct CCC",
                "intercept the 250 bearing from NNB until 25 miles from AAA",
                "depart ABCDE heading 120, depart AAA on the 078 radial",
                "depart AAA on the 078 radial until 20 DME, depart NNB on the 120 bearing, join V40",
                "direct AAA, the AAA 078 radial outbound until the BBB 200 radial, 120 bearing from NNB",
                "hold west on the AAA 078 radial at 20 DME, hold on the BBB 200 radial between 10 and 15 miles DME",
                "join V31 ten miles north of AAA to BBB",
                "at pilot's discretion, descend and maintain 6000, when ready, climb to FL190 to be level by ABCDE",
                "cross 10 miles west of ABCDE at or above 6000, report established on V31",
                "cleared to AAA, hold south on the 180 radial, 1.5 minute legs, as published, left turns",
                "hold southwest of ABCDE on V31, 10 mile legs, efc 1200",
                "hold at ABCDE, inbound track 090 degrees, outbound time one and a half minutes",
                "hold at NNB on the 315 bearing from NNB",
                "after BBB, proceed direct CCC, then as filed",
                "at 1530 descend to FL80, after reaching FL80 proceed direct BBB",
                "at ABCDE turn left heading 120, join V31",
                "fly heading 100 until passing FL80, then direct BBB",
                "fly heading 100 until the AAA 040 radial, fly present heading until BBB",
                "maintain 6000 until 10 miles past BBB, climb to FL190 level by 1530 at 1000 feet per minute or greater",
                "maintain 8000 until established on V31, maintain 7000 until established on the AAA 250 radial",
                "maintain at least FL90, maintain block 6000 through 8000, climb and maintain block FL180 to FL220",
                "cruise 7000, cruise climb between FL200 and FL240",
                "cross 15 miles before BBB at FL80 or below, cross the AAA 040 radial at 5000 at 120 knots or less",
                "cross BBB at or after 1530 at FL120, cross AAA not before 1200, cross AAA at time 1210",
                "reduce speed by 20 knots, increase speed 10 knots, maintain maximum forward speed",
                "reduce to minimum clean speed, maintain 120 knots until BBB, delete speed restrictions",
                "offset 8 miles right of V31 until BBB, proceed offset 5 miles left of route, cancel offset",
                "cancel hold, proceed direct BBB, cancel level restrictions",
                "cleared to deviate up to 20 miles right of course, deviate left and right of V31, deviation 10 degrees left"
                        + " of course approved",
                "maintain at or above 7000 until BBB, then 9000 until established, then 10000",
                "hold at BBB until 1530, hold at AAA, left hand, outbound distance 8 miles, efc in 20 minutes",
                "expect further clearance 1515, hold at BBB, FL90, inbound track 180, maintain 9000, efc 1530 zulu",
                "hold on the 090 radial of AAA between 15 and 20 miles dme, inbound track 270",
                "arc south on the AAA 15 mile arc to the AAA 150 radial, inbound",
                "intercept QDM 070 to NNB, intercept the NNB 315 bearing outbound, intercept AAA R-066",
                "cancel amended clearance, change V31 BBB to read V455 CCC"
            })
    void reading_what_was_said_gives_the_same(String text) {
        Clearance clearance = ClearanceReaderTest.read(text);
        String said = Phraseology.say(clearance);
        Clearance again = ClearanceReaderTest.read(said);
        assertThat(again.instructions()).as(said).isEqualTo(clearance.instructions());
        assertThat(again.callsign()).isEqualTo(clearance.callsign());
    }

    /** Clauses as controllers string them together, with a place or a time among them: said, they are read the same. */
    @Test
    void random_clearances_are_said_so_that_they_are_read_the_same() {
        List<String> clauses =
                List.of(("fly heading 100|turn left heading 090|fly present heading|direct BBB|proceed direct CCC|"
                                + "join V31|intercept V31|intercept the AAA 250 radial inbound|maintain 6000|"
                                + "climb and maintain FL190|descend and maintain 4000|cross ABCDE at or above 6000|"
                                + "cross BBB at 5000|hold at BBB|hold west of AAA on the 270 radial|report passing BBB|"
                                + "report crossing V40 heading 110|expect V88 after BBB|then as filed|resume own navigation|"
                                + "on course|maintain 160 knots|reduce speed to 120|depart ABCDE heading 120|"
                                + "depart AAA on the 078 radial|cleared to XBBB|"
                                + "intercept the AAA 15 mile arc clockwise to the AAA 070 radial|when able, direct BBB|"
                                + "cancel speed restrictions|efc 1530|join V31 at or before ABCDE|"
                                + "intercept V31 north of ABCDE|rejoin route by BBB|delete ABCDE|maintain at or below 8000|"
                                + "expect further clearance via direct CCC, V40 DDD|advise passing BBB|"
                                + "cross V31, 10 miles west of BBB, at 7000|intercept the AAA 078 radial, AAA")
                        .split("\\|", -1));
        List<String> places = List.of("after BBB", "after passing ABCDE", "at 1530", "after reaching 6000", "at ABCDE");
        Random random = new Random(20261130);
        int read = 0;
        for (int i = 0; i < 1500; i++) {
            List<String> parts = new ArrayList<>();
            for (int more = random.nextInt(4); more >= 0; more--) {
                String clause = clauses.get(random.nextInt(clauses.size()));
                if (!parts.contains(clause)) {
                    parts.add(clause);
                }
            }
            int place = random.nextInt(parts.size() + 1);
            String begun = place == parts.size() ? "" : places.get(random.nextInt(places.size()));
            StringBuilder text = new StringBuilder();
            for (int part = 0; part < parts.size(); part++) {
                text.append(part == 0 ? "" : random.nextInt(3) == 0 ? ". " : ", ");
                text.append(part == place ? begun + (random.nextBoolean() ? " " : ", ") : "");
                text.append(parts.get(part));
            }
            Clearance clearance;
            try {
                clearance = ClearanceReader.read(text.toString(), OceanChart.CHART, OceanChart.filed());
            } catch (ClearanceException e) {
                continue;
            }
            read++;
            String said = Phraseology.say(clearance);
            assertThat(ClearanceReaderTest.read(said).instructions())
                    .as(text + " -> " + said)
                    .isEqualTo(clearance.instructions());
        }
        assertThat(read).as("the others are refused").isGreaterThan(750);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "maintain 6000. After ABCDE, direct BBB | maintain six thousand, then after passing ABCDE, proceed direct Cross Swell",
                "after ABCDE, direct BBB. Maintain 4000 | after passing ABCDE, proceed direct Cross Swell. maintain four thousand",
                "after ABCDE, report passing BBB | after passing ABCDE report passing BBB"
            })
    void what_begins_at_a_place_stays_there(String text, String said) {
        assertThat(Phraseology.say(ClearanceReaderTest.read(text))).isEqualTo(said);
    }

    @Test
    void an_airway_is_left_at_a_fix_of_it() {
        assertThat(ClearanceReaderTest.read("join V31, leave V31 at BBB, direct CCC")
                        .instructions())
                .isEqualTo(ClearanceReaderTest.read("join V31, after passing BBB, direct CCC")
                        .instructions());
    }

    /** A report gives no heading: "report crossing V40 heading 110" is what is to be reported. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "report crossing V40 heading 110",
                "report passing BBB speed 120",
                "report established on V31 heading 110"
            })
    void a_heading_within_a_report_is_not_flown(String text) {
        assertThat(ClearanceReaderTest.read(text).instructions())
                .containsExactly(new Instruction.Report(text.replaceFirst("report ", "")));
        assertThat(ClearanceReaderTest.read(text.replaceFirst(" (heading|speed)", ", $1"))
                        .instructions())
                .hasSize(2);
    }

    @Test
    void every_heading_altitude_and_airway_comes_back() {
        Random random = new Random(4);
        for (int i = 0; i < 500; i++) {
            List<Instruction> instructions = List.of(
                    ClearanceReaderTest.heading(random.nextInt(360)),
                    new Maintain(500 + 10 * random.nextInt(1700), false),
                    new Maintain(18_000 + 100 * random.nextInt(400), false),
                    ClearanceReaderTest.join(List.of("V31", "V40", "V88", "V455", "J533", "Q7", "UB10")
                            .get(random.nextInt(7))));
            String said = Phraseology.say(new Clearance("", Optional.empty(), instructions));
            assertThat(ClearanceReaderTest.read(said).instructions()).as(said).isEqualTo(instructions);
        }
    }
}
