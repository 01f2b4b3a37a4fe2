package org.rejoin.bridge.route;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Fix;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.ClearanceReader;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.FiledRouteReader;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.clearance.Noted;
import org.rejoin.bridge.clearance.Phraseology;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Validation: sentences of FAA Order JO 7110.65 and ICAO Doc 4444, and what is said beside them every day, worked out to the
 * route that a controller means; the paragraph stands beside each, "said" where none prescribes it. A paragraph followed by m
 * is from memory. The chart is invented, in open ocean. The aircraft is southwest of V40, 25 miles off it, heading 150.
 */
class OrderedSentencesTest {

    private static final Station PTL = OceanCase.vor("PTL", 38.0, -50.0, -17.0);
    private static final Station SKU = OceanCase.vor("SKU", 38.8, -50.1, -16.0);
    private static final Station FUL = OceanCase.vor("FUL", 38.05, -49.05, -16.5);
    private static final Fix PRION = OceanCase.fix("PRION", 38.38, -49.28);
    private static final Fix SHEAR = OceanCase.fix("SHEAR", 37.62, -48.72);

    private static final Chart CHART = new Chart(
            "open ocean",
            List.of(PTL, SKU, FUL),
            List.of(PRION, SHEAR),
            List.of(),
            List.of(OceanCase.airway("V40", 4000, SKU, PRION, FUL), OceanCase.airway("V31", 4000, PTL, FUL, SHEAR)));

    private static final String FILED = "SKU V40 FUL DCT SHEAR";

    private static FiledRoute filed() throws ClearanceException {
        return FiledRouteReader.read(FILED, CHART);
    }

    private static Clearance read(String words) throws ClearanceException {
        return ClearanceReader.read(words, CHART, filed());
    }

    private static AmendedRoute route(String words) throws ClearanceException {
        Situation situation = new Situation(
                new Position(38.2, -49.92),
                OptionalDouble.of(6000),
                140,
                Optional.of(new MagneticDirection(150)),
                new Wind(new TrueDirection(270), 15),
                LocalDate.of(2026, 6, 1));
        return RouteAmender.amend(CHART, filed(), read(words), situation);
    }

    private static String legs(AmendedRoute route) {
        return OceanCase.legs(route);
    }

    private static void saidAgain(String words) throws ClearanceException {
        Clearance clearance = read(words);
        String said = Phraseology.say(clearance);
        assertThat(read(said).instructions()).as(said).isEqualTo(clearance.instructions());
    }

    private static String expected(Clearance clearance) {
        return clearance.all(Instruction.Expect.class).stream()
                .map(Instruction.Expect::what)
                .collect(Collectors.joining(" / "));
    }

    /** The route by which further clearance is to be expected is no route to fly: all of it, whatever commas are in it. */
    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource(
            delimiter = '|',
            value = {
                "4-6-1 | cleared to PRION, hold northwest on V40, expect further clearance via direct PTL, V31 FUL, direct SHEAR | further clearance via direct PTL, V31 FUL, direct SHEAR",
                "4-6-1 | direct PRION, expect further clearance via V31, FUL, the FUL 120 radial | further clearance via V31, FUL, the FUL 120 radial",
                "4-6-1 | direct PRION, expect further clearance via direct PTL, then as filed | further clearance via direct PTL, then as filed"
            })
    void the_route_of_a_further_clearance_is_not_flown(String paragraph, String words, String what)
            throws ClearanceException {
        AmendedRoute route = route(words);
        assertThat(expected(route.clearance())).isEqualTo(what);
        assertThat(legs(route)).startsWith("DF PRION").doesNotContain("V31").doesNotContain("PTL");
        saidAgain(words);
    }

    /** What is cleared behind it says so with a verb, or behind a full stop. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "expect further clearance via direct PTL, V31 FUL. Direct PRION | DF PRION, TF V40 FUL, TF SHEAR",
                "expect further clearance via direct PTL, V31 FUL, proceed direct PRION | DF PRION, TF V40 FUL, TF SHEAR"
            })
    void behind_it_a_clearance_has_its_verb(String words, String legs) throws ClearanceException {
        assertThat(legs(route(words))).isEqualTo(legs);
        saidAgain(words);
    }

    /** A course to a station is a line of that station, and no other course that happens to be flown inbound. */
    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource(
            delimiter = '|',
            value = {
                "4-6-4 | hold northwest of PRION on the 168 course to FUL, two minute legs | 168",
                "4-6-4 | hold southeast of PRION on the 348 course from FUL | 348"
            })
    void a_hold_on_the_course_to_a_station(String paragraph, String words, int inbound) throws ClearanceException {
        AmendedRoute route = route(words);
        assertThat(legs(route)).isEqualTo("DF PRION, HM");
        assertThat(route.holding().orElseThrow().inbound().deg()).isCloseTo(inbound, within(0.01));
        saidAgain(words);
    }

    @Test
    void a_course_to_a_station_that_passes_the_fix_by_is_no_line_to_hold_on() {
        assertThatThrownBy(() -> route("hold northwest of PRION on the 145 course to FUL"))
                .hasMessageContaining("passes PRION by");
    }

    /** A hold at a fix that is not filed: the way there is not said, and is taken for direct. */
    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource(
            delimiter = '|',
            value = {
                "4-6-4 | hold west of the FUL 310 radial one zero mile fix on the 310 radial, five mile legs | FUL310010 | 130",
                "2-5-3 | hold southwest of PTL on the 230 radial | PTL | 50"
            })
    void a_hold_off_the_route(String paragraph, String words, String fix, int inbound) throws ClearanceException {
        AmendedRoute route = route(words);
        assertThat(legs(route)).isEqualTo("DF " + fix + ", HM");
        assertThat(route.holding().orElseThrow().inbound().deg()).isCloseTo(inbound, within(0.01));
        assertThat(route.warnings()).anyMatch(warning -> warning.text().contains("taken is direct " + fix + ": ask"));
        saidAgain(words);
    }

    /** The words around a route, and those that say which part of it is other than before. */
    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource(
            delimiter = '|',
            value = {
                "2-5-2 | cleared via direct PTL, V31, FUL V-O-R, direct SHEAR, maintain niner thousand | DF PTL, TF V31 FUL, TF SHEAR",
                "2-5-2 m | direct PTL V-O-R-T-A-C, V31 FUL | DF PTL, TF V31 FUL, TF SHEAR",
                "4-4-1 | substitute V31 from PTL to FUL | DF PTL, TF V31 FUL, TF SHEAR",
                "4-4-1 | substitute V40 from SKU to FUL | DF SKU, TF V40 PRION, TF V40 FUL, TF SHEAR",
                "4-2-5 | N123AB amend your route to read direct PTL V31 FUL direct, maintain 6000 | DF PTL, TF V31 FUL, TF SHEAR",
                "4-2-5 | amend your routing to read direct PTL, V31 FUL | DF PTL, TF V31 FUL, TF SHEAR",
                "said | I have an amendment to your routing: cleared to SHEAR via direct PTL, V31 FUL, then as filed | DF PTL, TF V31 FUL, TF SHEAR",
                "4-4-1 | intercept the FUL two eight zero radial inbound, FUL, then as filed | VI, CF FUL, TF SHEAR",
                "4-4-1 | join the PTL zero seven three radial, PRION, V40 FUL | VI, FC PRION, TF V40 FUL, TF SHEAR",
                "4-4-1 | via the one five mile arc northwest of PTL, PTL zero seven three radial, PRION, V40 FUL | VI, AF PTL073015, FC PRION, TF V40 FUL, TF SHEAR",
                "4-4-1 | fly 15 DME arc north of PTL until intercepting the 060 radial, then direct PRION | VI, AF PTL060015, TF PRION, TF V40 FUL, TF SHEAR",
                "4-4-1 | via PTL and FUL | DF PTL, TF FUL, TF SHEAR",
                "4-4-1 | depart SKU via the 139 radial until PRION, V40 FUL | DF SKU, FC PRION, TF V40 FUL, TF SHEAR",
                "4-4-1 | direct PTL. From PTL, via the 050 radial until intercepting V40 | DF PTL, FC PTL050038, TF V40 PRION, TF V40 FUL, TF SHEAR",
                "said | proceed to PRION via a heading of 070 until intercepting V40 | VI, TF V40 PRION, TF V40 FUL, TF SHEAR",
                "said | direct FUL via heading 110, V40 | VI, TF V40 FUL, TF SHEAR",
                "said | proceed to FUL via heading 110, join V40 | VI, TF V40 FUL, TF SHEAR",
                "said | proceed to FUL via a heading of 150, intercept the FUL 280 radial | VI, CF FUL, TF SHEAR",
                "said | fly heading 110, you'll intercept V40 in about 8 miles, join it | VI, TF V40 FUL, TF SHEAR",
                "said | fly heading 110, you will intercept V40 in 8 miles | VM",
                "said | fly heading 110, intercept V40, join it | VI, TF V40 FUL, TF SHEAR",
                "said | from PRION, V40 FUL | DF PRION, TF V40 FUL, TF SHEAR",
                "said | turn right direct PRION, cancel the hold, resume normal speed | DF PRION, TF V40 FUL, TF SHEAR",
                "said | delete PRION, direct FUL | DF FUL, TF SHEAR",
                "said | delete PRION and FUL, direct SHEAR | DF SHEAR",
                "said | via SKU and then PRION, V40 FUL | DF SKU, TF PRION, TF V40 FUL, TF SHEAR",
                "said | delete PRION direct FUL | DF FUL, TF SHEAR",
                "said | skip PRION, proceed direct FUL | DF FUL, TF SHEAR",
                "said | direct SKU, direct FUL, omit PRION | DF SKU, TF FUL, TF SHEAR",
                "said | disregard the turn, continue heading 150 | VM",
                "5-6-2 | turn right heading 180, this is a vector around traffic, expect to rejoin V40 in 10 miles | VM",
                "5-6-2 | fly heading 090, this will be a vector to V40 | VI, TF V40 FUL, TF SHEAR",
                "said | make left turns to heading 100, join V40 | VI, TF V40 FUL, TF SHEAR",
                "said | direct PRION, V40, advise | DF PRION, TF V40 FUL, TF SHEAR",
                "said | direct PRION, advise when established on V40 | DF PRION, TF V40 FUL, TF SHEAR"
            })
    void the_route_is_what_the_sentence_means(String paragraph, String words, String legs) throws ClearanceException {
        AmendedRoute route = route(words);
        assertThat(legs(route)).isEqualTo(legs);
        saidAgain(words);
    }

    /** An airway that is not filed leads to the one fix of it that is, where the rest is as filed. */
    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource(
            delimiter = '|',
            value = {
                "said | direct DDD, V88, then as filed | DF DDD, TF V88 BBB, TF XBBB",
                "4-2-5 | cleared to XBBB via direct DDD, V88, rest of route unchanged | DF DDD, TF V88 BBB, TF XBBB",
                "4-2-5 | change V31 to read V88 | VI, TF V88 BBB, TF XBBB"
            })
    void an_airway_to_the_filed_route(String paragraph, String words, String legs) {
        AmendedRoute route =
                OceanCase.of(OceanCase.ON_V31, words, 38.2, -54.2).heading(60).work();
        assertThat(legs(route)).isEqualTo(legs);
    }

    /** What leaves a question is refused with that question. */
    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource(
            delimiter = '|',
            value = {
                "4-4-1 | via the one five mile arc northwest of PTL, PTL zero six zero radial, PRION | lies 9.2 NM off the PTL 060 radial",
                "4-4-1 | intercept the FUL 280 radial outbound, FUL | outbound does not lead to FUL",
                "4-4-1 | from PTL, via the 050 radial until intercepting V40 | PTL is not",
                "said | proceed to PRION via a heading of 110 | how the heading leads to PRION is not said",
                "said | proceed to PTL via a heading of 110 until intercepting V40 | how the heading leads to PTL is not said",
                "said | direct PRION, via heading 090, V40 | flown to PRION, or from there on? say it without a comma",
                "said | proceed to FUL, then via a heading of 110 until intercepting V40 | flown to FUL, or from there on?",
                "said | fly heading 110, join it | which airway?",
                "said | direct PRION, cancel FUL hold | one part of a clearance is not taken back by itself",
                "said | delete PRION hold at FUL | one part of a clearance is not taken back by itself",
                "said | join the PTL 050 radial outbound, SKU altimeter 2992, join V40 | whose?",
                "said | after SKU, delete PRION | the route for it is not worked out here",
                "said | delete PRION | how the route goes on without it is not said",
                "said | direct SKU, delete PRION | how the route goes on without it is not said",
                "said | delete PTL, direct FUL | PTL is not in the filed route, which has SKU, PRION, FUL, SHEAR: ask",
                "said | cancel PTL, direct FUL | PTL is not in the filed route",
                "said | delete PRION and PTL, direct FUL | PTL is not in the filed route",
                "said | make a right 360, then join V40 | a full circle is understood, and not flown here",
                "said | do a left three sixty, then join V40 | a full circle is understood, and not flown here",
                "4-2-5 | amendment to your clearance, advise ready to copy | what it is is not said",
                "4-2-5 | N123AB, I have an amendment to your routing | what it is is not said"
            })
    void a_question_is_left(String paragraph, String words, String question) {
        assertThatThrownBy(() -> route(words)).hasMessageContaining(question);
    }

    /**
     * As far as where an airway is joined: a heading that ATC leaves open is chosen by it, of an assigned one that leads
     * elsewhere it is asked. Heading 110 meets V40 beyond PRION, heading 080 before it (by the map: PRION bears 085 from here).
     * The airway has an order beyond the fix where it is left, too: FUL lies behind PRION, and SKU from the other side.
     */
    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource(
            delimiter = '|',
            value = {
                "said | join V40 at or before PRION | VI, TF V40 PRION, TF V40 FUL, TF SHEAR | at or before PRION |",
                "said | join V40 at PRION or before | VI, TF V40 PRION, TF V40 FUL, TF SHEAR | at or before PRION |",
                "said | join V40 no later than PRION | VI, TF V40 PRION, TF V40 FUL, TF SHEAR | at or before PRION |",
                "said | intercept V40 prior to PRION | VI, TF V40 PRION, TF V40 FUL, TF SHEAR | at or before PRION |",
                "said | fly heading 070, join V40 by PRION | VI, TF V40 PRION, TF V40 FUL, TF SHEAR | at or before PRION |",
                "said | join V40 to PRION, at or before FUL | VI, TF V40 PRION, TF V40 FUL, TF SHEAR | at or before foxtrot uniform lima |",
                "said | fly heading 110, join V40 to PRION, at or before SKU | VI, TF V40 PRION, TF V40 FUL, TF SHEAR | at or before sierra kilo uniform |",
                "said | join V40 at or south of PRION | VI, TF V40 FUL, TF SHEAR | at or south of PRION |",
                "said | join V40 at or after PRION, V40 FUL, then as filed | VI, TF V40 FUL, TF SHEAR | at or after PRION |",
                "said | fly heading 110, join V40 at or before PRION | VI, TF V40 FUL, TF SHEAR | at or before PRION | on the other side: ask",
                "said | fly heading 070, intercept V40 south of PRION | VI, TF V40 PRION, TF V40 FUL, TF SHEAR | at or south of PRION | on the other side: ask",
                "said | intercept the PTL 050 radial outbound, join V40 at or before PRION | VI, FC PTL050038, TF V40 PRION, TF V40 FUL, TF SHEAR | at or before PRION |"
            })
    void as_far_as_where_an_airway_is_joined(String paragraph, String words, String legs, String bound, String warning)
            throws ClearanceException {
        AmendedRoute route = route(words);
        assertThat(legs(route)).isEqualTo(legs);
        assertThat(route.clearance().all(Noted.JoinedWithin.class))
                .singleElement()
                .extracting(Noted.JoinedWithin::words)
                .isEqualTo(bound);
        assertThat(route.warnings().stream().map(Warning::text).filter(text -> text.contains("is to be joined")))
                .hasSize(warning == null ? 0 : 1)
                .allMatch(text -> text.endsWith(warning == null ? "" : warning));
        assertThat(route.warnings())
                .extracting(Warning::code)
                .doesNotContain(Warning.Code.HEADING_DOES_NOT_REACH_COURSE);
        saidAgain(words);
    }

    /** Back on the filed route at a fix at the latest: to the end of its nearest leg, as where nothing is said of the way. */
    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource(
            delimiter = '|',
            value = {
                "CPDLC 67 | rejoin route by PRION | DF PRION, TF V40 FUL, TF SHEAR | by PRION",
                "CPDLC 67 | resume your cleared route by FUL | DF PRION, TF V40 FUL, TF SHEAR | by foxtrot uniform lima",
                "CPDLC 68 | rejoin route by 1520 | DF PRION, TF V40 FUL, TF SHEAR | by one five two zero"
            })
    void back_on_the_route_by(String paragraph, String words, String legs, String by) throws ClearanceException {
        AmendedRoute route = route(words);
        assertThat(legs(route)).isEqualTo(legs);
        assertThat(route.clearance().all(Noted.RouteBy.class))
                .singleElement()
                .matches(said -> said.words().startsWith("rejoin route " + by));
        assertThat(route.warnings()).anyMatch(each -> each.text().contains("worked out here: direct PRION"));
        assertThat(route.clearance().notes().toString().contains("not followed"))
                .isEqualTo(words.contains("1520"));
        saidAgain(words);
    }

    /** A highest altitude is the pilot's below it, as a lowest one is above it. */
    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource(
            delimiter = '|',
            value = {
                "4-5-7 | maintain at or below 7000 until past PRION | maintain at or below seven thousand",
                "4-5-7 | maintain at or below FL190 | maintain at or below flight level one niner zero",
                "4-5-7 | maintain at or above 7000 until PRION, then 9000 | maintain at least seven thousand"
            })
    void an_altitude_left_open(String paragraph, String words, String open) throws ClearanceException {
        Clearance clearance = read(words);
        assertThat(clearance.all(Noted.Bounded.class))
                .singleElement()
                .extracting(Noted.Bounded::words)
                .isEqualTo(open);
        assertThat(clearance.leavesAltitudeOpen()).isTrue();
        assertThat(clearance.all(Noted.Until.class)).hasSize(words.contains("until") ? 1 : 0);
        saidAgain(words);
    }

    /**
     * A crossing of an airway holds where the route crosses it. Direct 37N049W crosses V31 west of FUL; by the map the crossing is
     * at 38.02, -49.78, 34.5 miles from FUL. Elsewhere on V31 the route does not cross it, and that is asked.
     */
    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource(
            delimiter = '|',
            value = {
                "4-4-1 | direct 37N049W, cross V31, 34 miles west of FUL, at 7000 | 34 NM west of FUL on V31 | true",
                "4-4-1 | direct 37N049W, cross 34 miles west of FUL on V31 at or above 7000 | 34 NM west of FUL on V31 | true",
                "4-4-1 | direct 37N049W, cross V31, 10 miles west of FUL, at 7000 | 10 NM west of FUL on V31 | false"
            })
    void an_airway_crossed_at_a_place(String paragraph, String words, String place, boolean there)
            throws ClearanceException {
        AmendedRoute route = route(words);
        assertThat(route.crossings())
                .singleElement()
                .matches(plan -> plan.place().equals(place));
        assertThat(route.crossings().get(0).leg()).isEqualTo(there ? 0 : -1);
        assertThat(route.warnings().stream()
                        .filter(each -> each.code() == Warning.Code.CROSSING_NOT_ON_ROUTE)
                        .map(Warning::text))
                .hasSize(there ? 0 : 1)
                .allMatch(text -> text.endsWith("the amended route does not cross the airway there: ask"));
        if (there) {
            assertThat(route.crossings().get(0).position().distanceNm(new Position(38.02, -49.78)))
                    .isLessThan(1);
        }
        saidAgain(words);
    }

    /** Where no place of it is said, where the airway is crossed is the pilot's to see. */
    @Test
    void an_airway_crossed_anywhere() throws ClearanceException {
        Clearance clearance = read("direct SHEAR, cross V31 at 7000");
        assertThat(clearance.all(Noted.CrossLevel.class))
                .singleElement()
                .matches(cross -> cross.words().equals("cross V31 at seven thousand"));
        assertThat(clearance.notes()).anyMatch(note -> note.endsWith("not followed here"));
        saidAgain("direct SHEAR, cross V31 at 7000");
    }
}
