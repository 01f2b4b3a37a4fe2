package org.rejoin.console.speech;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import java.util.Optional;

import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.ClearanceReader;
import org.rejoin.bridge.clearance.Phraseology;
import org.rejoin.console.lesson.BuiltInLesson;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Numbers, airways, fixes and levels as the published phraseology says them, example by example. */
class AloudTest {

    private static String said(double feet) {
        return Aloud.words(Phraseology.altitude(feet));
    }

    /** ICAO Annex 10, volume II, 5.2.1.4.3.1; AIM 4-2-7: ZE-RO, WUN, TOO, TREE, FOW-er, FIFE, SIX, SEV-en, AIT, NIN-er. */
    @Test
    void eachDigitByItself() {
        assertThat(Aloud.words("0123456789")).isEqualTo("zero one two tree fower fife six seven eight niner");
        assertThat(Aloud.words("three four five nine")).isEqualTo("tree fower fife niner");
    }

    /** AIM 4-2-9 and 4-2-8 a, b; JO 7110.65 2-4-17 a 1: "one zero thousand", "one one thousand five hundred". */
    @ParameterizedTest
    @CsvSource({
        "500, fife hundred",
        "3400, tree thousand fower hundred",
        "4500, fower thousand fife hundred",
        "9900, niner thousand niner hundred",
        "10000, one zero thousand",
        "12000, one two thousand",
        "12500, one two thousand fife hundred",
        "13500, one tree thousand fife hundred",
        "19000, flight level one niner zero",
        "27500, flight level two seven fife"
    })
    void altitudesAndFlightLevels(double feet, String words) {
        assertThat(said(feet)).isEqualTo(words);
    }

    /** AIM 4-2-8 c: V12 "Victor Twelve", J533 "J Five Thirty-Three"; JO 7110.65 2-5-1: Q4, T242 "Tango two forty-two". */
    @ParameterizedTest
    @CsvSource({
        "V12, victor twelve",
        "J533, J fife thirty-tree",
        "V455, victor fower fifty-fife",
        "Q4, Q fower",
        "T242, tango two forty-two"
    })
    void airwaysInGroupForm(String ident, String words) {
        assertThat(Aloud.words(Phraseology.airway(ident))).isEqualTo(words);
    }

    private static String clearance(String text, Optional<String> own) throws Exception {
        Lesson lesson = LessonReader.read(BuiltInLesson.RADIAL_OUTBOUND.lessonName());
        Clearance read = ClearanceReader.read(text, lesson.chart(), lesson.filed());
        return Aloud.of(read, own);
    }

    /** AIM 4-2-10: three digits, 360 for north; a radial likewise. JO 7110.65 2-4-17 e and f: "heading zero two zero". */
    @Test
    void directionsInThreeDigits() throws Exception {
        assertThat(clearance("fly heading 20", Optional.empty())).isEqualTo("fly heading zero two zero");
        assertThat(clearance("turn left heading 360", Optional.empty())).isEqualTo("turn left heading tree six zero");
    }

    /** AIM 4-2-11; JO 7110.65 2-4-17 h: "two five zero knots", "one niner zero knots". */
    @Test
    void speedsDigitByDigit() throws Exception {
        assertThat(clearance("maintain 190 knots", Optional.empty())).isEqualTo("maintain one niner zero knots");
    }

    /** AIM 4-2-4 and 4-2-7: the callsign first, letters by the alphabet, digits one by one. */
    @Test
    void theCallsignFirst() throws Exception {
        assertThat(clearance("fly heading 110", Optional.of("N123AB")))
                .isEqualTo("november one two tree alpha bravo, fly heading one one zero");
        assertThat(clearance("fly heading 110", Optional.of("Oceanic 512")))
                .isEqualTo("oceanic fife one two, fly heading one one zero");
        assertThat(clearance("Oceanic 9, fly heading 110", Optional.of("N1")))
                .as("as it was typed")
                .isEqualTo("oceanic niner, fly heading one one zero");
    }

    /** Where a chart says how a name sounds, in other words; phones are for the hearing alone. */
    @Test
    void aNameSoundsAsTheChartSays() throws Exception {
        Lesson lesson = LessonReader.read(BuiltInLesson.RADIAL_OUTBOUND.lessonName());
        Clearance read = ClearanceReader.read("proceed direct SKU", lesson.chart(), lesson.filed());
        assertThat(Aloud.of(read, Optional.empty(), lesson.chart().saying(Map.of("SKU", "skew ah"))))
                .isEqualTo("proceed direct skew ah");
        assertThat(Aloud.of(read, Optional.empty(), lesson.chart().saying(Map.of("SKU", "S K Y UW AH"))))
                .isEqualTo("proceed direct skua");
    }

    /**
     * What is typed for the pilot to hear is said too. FAA Order JO 7110.65, 2-4-17: a frequency has its point, 2-7-1: an
     * altimeter setting has none; 2-1-17: "contact
     * (facility), (frequency)"; 2-1-21: traffic by the clock. Names are said for idents, altitudes in thousands.
     */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "fly heading 110, contact oceanic center 127.9 | fly heading one one zero, contact oceanic center one two seven point niner",
                "altimeter 2992, fly heading 110 | fly heading one one zero, altimeter two niner niner two",
                "altimeter 3000, fly heading 110 | fly heading one one zero, altimeter tree zero zero zero",
                "altimeter 2900, fly heading 110 | fly heading one one zero, altimeter two niner zero zero",
                "altimeter 29.92, fly heading 110 | fly heading one one zero, altimeter two niner niner two",
                "QNH 1013, fly heading 110 | fly heading one one zero, Q N H one zero one tree",
                "maintain 9000, report passing 2000ft | maintain niner thousand, report passing two thousand feet",
                "maintain 9000, report passing 2000 ft | maintain niner thousand, report passing two thousand feet",
                "maintain 9000, report passing 19000ft | maintain niner thousand, report passing one niner thousand feet",
                "maintain 9000, report passing 19000 feet | maintain niner thousand, report passing one niner thousand feet",
                "traffic 12 o'clock, 5 miles, maintain 7000 | maintain seven thousand, traffic twelve o'clock, fife miles",
                "fly heading 110, expect direct SKU in 5 miles | fly heading one one zero, expect direct skua in fife miles",
                "fly heading 110, expect V40 after ful | fly heading one one zero, expect victor forty after fulmar",
                "maintain 9000, report passing 7000 | maintain niner thousand, report passing seven thousand",
                "maintain 9000, report SKU | maintain niner thousand, report skua",
                "fly heading 110, contact center 127.9 at SKU | fly heading one one zero, contact center one two seven point niner at skua"
            })
    void whatIsOnlyHeardIsSaidToo(String text, String aloud) throws Exception {
        Lesson lesson = LessonReader.read(BuiltInLesson.RADIAL_OUTBOUND.lessonName());
        Clearance read = ClearanceReader.read(text, lesson.chart(), lesson.filed());
        assertThat(Aloud.of(read, Optional.empty(), lesson.chart())).isEqualTo(aloud);
    }

    /** Each of two altitudes is a level or none by itself, in whatever order they are said. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "maintain block 5000 through FL90 | maintain block fife thousand through flight level zero niner zero",
                "maintain block FL80 through 10000 | maintain block flight level zero eight zero through one zero thousand",
                "cross SKU between FL80 and 10000 | cross skua at or above flight level zero eight zero, cross skua at or below one zero thousand",
                "cross SKU between 10000 and FL80 | cross skua at or above flight level zero eight zero, cross skua at or below one zero thousand"
            })
    void eachAltitudeOfTwoAsItWasSaid(String text, String aloud) throws Exception {
        assertThat(clearance(text, Optional.empty())).isEqualTo(aloud);
    }

    @Test
    void onlyWordsAreLeftOfAnyText() {
        assertThat(Aloud.words("N1; $(reboot) \u00c5land; -o ../x `a` <b>"))
                .matches("[A-Za-z ,.'-]*")
                .doesNotStartWith("-");
        assertThat(Aloud.words("direct ABCDE, 15 DME")).isEqualTo("direct abcde, one fife D M E");
    }
}
