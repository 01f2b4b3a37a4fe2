package org.rejoin.bridge.clearance;

import static org.assertj.core.api.Assertions.assertThat;

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
        "UB10, uniform bravo ten"
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
                "join V31 ten miles north of AAA to BBB",
                "at pilot's discretion, descend and maintain 6000, when ready, climb to FL190 to be level by ABCDE",
                "cross 10 miles west of ABCDE at or above 6000, report established on V31",
                "cleared to AAA, hold south on the 180 radial, 1.5 minute legs, as published, left turns",
                "hold southwest of ABCDE on V31, 10 mile legs, efc 1200",
                "hold at ABCDE, inbound track 090 degrees, outbound time one and a half minutes",
                "hold at NNB on the 315 bearing from NNB",
                "cancel amended clearance, change V31 BBB to read V455 CCC"
            })
    void reading_what_was_said_gives_the_same(String text) {
        Clearance clearance = ClearanceReaderTest.read(text);
        String said = Phraseology.say(clearance);
        Clearance again = ClearanceReaderTest.read(said);
        assertThat(again.instructions()).as(said).isEqualTo(clearance.instructions());
        assertThat(again.callsign()).isEqualTo(clearance.callsign());
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
