package org.rejoin.bridge.route;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalTime;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Fix;
import org.rejoin.bridge.chart.PublishedHold;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.TrueDirection;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Holds: Aeronautical Information Manual 5-3-8, entry sectors of ICAO Doc 8168 volume I, Instrument Flying Handbook. */
class HoldingTest {

    /** Sectors of ICAO Doc 8168, volume I (figures from memory): 70, 110 and 180 degrees; zones of 5 degrees. */
    @ParameterizedTest(name = "{0} off the inbound course, {1} turns")
    @CsvSource({
        "0, right, DIRECT",
        "-69, right, DIRECT",
        "109, right, DIRECT",
        "-71, right, PARALLEL",
        "-179, right, PARALLEL",
        "111, right, TEARDROP",
        "179, right, TEARDROP",
        "150, right, TEARDROP",
        "-150, right, PARALLEL",
        "0, left, DIRECT",
        "69, left, DIRECT",
        "-109, left, DIRECT",
        "71, left, PARALLEL",
        "179, left, PARALLEL",
        "-111, left, TEARDROP",
        "-179, left, TEARDROP",
        "530, left, PARALLEL"
    })
    void the_entry_goes_by_the_heading_on_arrival(double off, String turns, Holding.Entry entry) {
        assertThat(Holding.entry(off, turns.equals("right"))).isEqualTo(entry);
    }

    @Test
    void near_a_boundary_either_entry_will_do() { // within 5 degrees, ICAO Doc 8168, volume I
        assertThat(Holding.otherEntry(-66, true)).contains(Holding.Entry.PARALLEL);
        assertThat(Holding.otherEntry(114, true)).contains(Holding.Entry.DIRECT);
        assertThat(Holding.otherEntry(-176, true)).contains(Holding.Entry.TEARDROP);
        assertThat(Holding.otherEntry(20, true)).isEmpty();
        assertThat(Holding.otherEntry(-114, false)).contains(Holding.Entry.DIRECT);
    }

    @ParameterizedTest
    @CsvSource({"0, 200", "6000, 200", "6001, 230", "14000, 230", "14001, 265", "30000, 265"})
    void speed_limits(double feet, double knots) { // AIM 5-3-8, table 5-3-1
        assertThat(HoldPlan.speedLimitKt(OptionalDouble.of(feet))).isEqualTo(knots);
    }

    /** FAA Order JO 7110.65, 4-6-1, from memory: whoever ends a hold says how the flight goes on. */
    @Test
    void a_hold_is_cancelled_with_the_way_on() {
        assertThatThrownBy(() -> hold("cancel hold")).hasMessageContaining("say \"then as filed\"");
        assertThatThrownBy(() -> hold("cancel hold, maintain 5000")).hasMessageContaining("say \"then as filed\"");
        AmendedRoute on = hold("cancel hold, direct BBB");
        assertThat(on.holding()).isEmpty();
        assertThat(on.clearance().notes()).isEmpty();
        assertThat(on.legs()).extracting(Leg::pathTerminator).containsExactly("DF", "TF");
    }

    /** Common practice, no source: an airway of the route is where the heading leads to. */
    @Test
    void a_heading_until_an_airway_leads_onto_it() {
        AmendedRoute until = hold("fly heading 060 until V31, then as filed");
        assertThat(until.legs())
                .extracting(Leg::pathTerminator)
                .containsExactlyElementsOf(hold("fly heading 060, intercept V31, then as filed").legs().stream()
                        .map(Leg::pathTerminator)
                        .toList());
        AmendedRoute fix = hold("fly heading 060 until BBB, then as filed");
        assertThat(fix.warnings())
                .filteredOn(warning -> warning.code() == Warning.Code.CHOICE_MADE)
                .singleElement()
                .satisfies(warning -> assertThat(warning.text())
                        .isEqualTo(
                                "the heading is to be flown until bravo bravo bravo, and here it is flown on from there;"
                                        + " the way back to the filed route is not said: ask for a course to intercept or a fix to"
                                        + " go direct to"));
    }

    /** Nothing beside the course is judged: it would be a fault that the pilot was cleared to. */
    @Test
    void a_deviation_is_understood_and_its_route_refused() {
        assertThatThrownBy(() -> hold("deviation 20 miles right of course approved, when able proceed direct BBB"))
                .hasMessageContaining("understood")
                .hasMessageContaining("clear the way back");
    }

    private static AmendedRoute hold(String words) {
        return OceanCase.of(OceanCase.ON_V31, words, 37.9, -55.2).work();
    }

    private static Holding holding(String words) {
        return hold(words).holding().orElseThrow();
    }

    @Test
    void a_hold_on_a_radial_is_flown_toward_its_station() {
        AmendedRoute route = hold("direct AAA, hold west of AAA on the 270 radial, left turns, EFC 1530");
        Holding hold = route.holding().orElseThrow();
        assertThat(hold.inbound().deg()).isEqualTo(90);
        assertThat(hold.inboundTrue().deg())
                .as("90 by a declination of 18 west")
                .isEqualTo(72);
        assertThat(hold.right()).isFalse();
        assertThat(hold.legMinutes()).hasValue(1);
        assertThat(hold.maximumSpeedKt()).isEqualTo(200);
        assertThat(hold.expectFurtherClearance()).contains("1530");
        assertThat(route.legs()).last().isInstanceOf(Leg.HoldAtFix.class);
        assertThat(route.legs().get(0).pathTerminator()).isEqualTo("DF");
        assertThat(route.limit()).contains(OceanCase.AAA);
        // From the south-west on a track of about 057 true: 15 left of the inbound course.
        assertThat(hold.entry()).isEqualTo(Holding.Entry.DIRECT);
    }

    /** When the approach may begin is no further clearance, and the hold is left then too. */
    @Test
    void the_time_of_the_approach_is_one_to_leave_the_hold() {
        AmendedRoute route = hold("direct AAA, hold west of AAA on the 270 radial, expect approach clearance 1545");
        assertThat(route.holding().orElseThrow().expectFurtherClearance()).isEmpty();
        assertThat(route.clearance().instructions().stream().flatMap(each -> AmendedRoute.further(each).stream()))
                .containsExactly("1545");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "EFC in 20 minutes, EAC in 35 minutes | 20",
                "EAC in 35 minutes, EFC in 20 minutes | 20",
                "EAC 1545, expect further clearance in 20 minutes | 20",
                "EAC in 35 minutes | 35",
                // From 1510.
                "EFC 1530, EAC 1545 | 20",
                "EAC 1545, EFC 1530 | 20",
                "until 1530, EAC 1545 | 20",
                "EAC 1545 | 35"
            })
    void further_clearance_is_waited_for_and_the_approach_where_that_is_not_said(String times, double minutes)
            throws ClearanceException {
        String hold = "direct AAA, hold west of AAA on the 270 radial, ";
        AmendedRoute route = hold(hold + times);
        Situation then = route.situation().withUtc(Optional.of(LocalTime.of(15, 10)));
        AmendedRoute at = RouteAmender.amend(OceanCase.CHART, route.filed(), route.clearance(), then);
        assertThat(at.furtherClearanceS()).hasValue(minutes * 60);
        assertThat(route.clearance().notes().toString()).doesNotContain("EAC", "approach");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "EAC 1545, EAC in 20 minutes",
                "EFC 1530, expect further clearance in 20 minutes",
                "expect further clearance in 20 minutes, EFC 1530"
            })
    void a_time_of_one_kind_is_said_once(String times) {
        assertThatThrownBy(() -> hold("direct AAA, hold west of AAA on the 270 radial, " + times))
                .hasMessageContaining("said twice for one hold");
    }

    /** Also in sentences of their own, and with no hold. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "direct AAA, hold west of AAA on the 270 radial. Expect approach clearance 1545. EAC 1550",
                "direct AAA, hold west of AAA on the 270 radial. EAC in 20 minutes. Maintain 6000. EAC 1550",
                "direct AAA, hold west of AAA on the 270 radial. EFC in 20 minutes. Maintain 6000. EFC 1550",
                "direct AAA, EFC 1530. EFC 1550"
            })
    void a_time_of_one_kind_is_said_once_in_all_sentences(String words) {
        assertThatThrownBy(() -> hold(words)).hasMessageContaining("said twice");
    }

    /** A time in so many minutes is kept with the hold as a time of day is: nothing more is to be noted of it. */
    @Test
    void further_clearance_in_so_many_minutes_is_of_the_hold() {
        AmendedRoute route =
                hold("direct AAA, hold west of AAA on the 270 radial, expect further clearance in 20 minutes");
        assertThat(route.furtherClearanceS()).hasValue(1200);
        assertThat(route.clearance().notes().toString()).doesNotContain("further clearance");
    }

    @Test
    void a_hold_at_an_ndb_is_on_a_bearing() {
        Holding hold = holding("direct NNB, hold northwest of NNB on the 315 bearing from NNB");
        assertThat(hold.line()).isEqualTo("the 315 bearing from NNB");
        assertThat(hold.inbound().deg()).isEqualTo(135);
    }

    @Test
    void a_hold_on_an_airway_takes_its_course_from_the_station_that_guides_it() {
        Holding hold = holding("direct AAA, V31 BBB, hold southwest of BBB on V31, 10 mile legs");
        assertThat(hold.legNm()).hasValue(10);
        assertThat(hold.legMinutes()).isEmpty();
        // The 240.x radial of BBB toward AAA, flown inbound (declination 17 west).
        double toAaa =
                OceanCase.BBB.position().to(OceanCase.AAA.position()).initial().deg() + 17;
        assertThat(hold.inbound().deg()).isCloseTo(toAaa - 180, within(1e-6));
    }

    @Test
    void above_14000_feet_the_leg_is_a_minute_and_a_half() { // AIM 5-3-8
        Holding high = OceanCase.of(OceanCase.ON_V31, "direct AAA, hold west of AAA on the 270 radial", 37.9, -55.2)
                .altitude(15_000)
                .work()
                .holding()
                .orElseThrow();
        assertThat(high.legMinutes()).hasValue(1.5);
        assertThat(high.maximumSpeedKt()).isEqualTo(265);
    }

    /**
     * The inbound leg comes out at its minute: a racetrack is flown in small steps at standard rate with the headings and
     * the time of the plan, and the inbound leg is timed.
     */
    @ParameterizedTest
    @CsvSource({"0, 0", "90, 20", "270, 20", "72, 25", "252, 25", "340, 15", "162, 20", "342, 20", "120, 30"})
    void in_any_wind_the_inbound_leg_takes_its_minute(double windFrom, double windKt) {
        Holding hold = OceanCase.of(OceanCase.ON_V31, "direct AAA, hold west of AAA on the 270 radial", 37.9, -55.2)
                .wind(windFrom, windKt)
                .work()
                .holding()
                .orElseThrow();
        double inbound = hold.inboundTrue().deg();
        double inHeading = inbound + hold.correctionDeg();
        double outHeading = inbound + 180 - 3 * hold.correctionDeg();
        Flown flown = new Flown(inHeading, 120, windFrom, windKt, inbound);
        flown.turnRight(outHeading);
        double wingsLevelAt = flown.alongNm;
        // Timing begins abeam the fix, or wings level where that is later (AIM 5-3-8).
        while (flown.alongNm > 0) {
            flown.step();
        }
        assertThat(flown.alongNm).isLessThanOrEqualTo(Math.min(0.001, Math.max(0.001, wingsLevelAt)));
        flown.fly(hold.outboundSeconds().orElseThrow());
        flown.turnRight(inHeading + 360);
        double began = flown.seconds;
        while (flown.alongNm < 0) {
            flown.step();
        }
        assertThat(flown.seconds - began).isCloseTo(60, within(1.0));
    }

    /** "Correcting left by 8 degrees when inbound, correct right by 24 degrees when outbound" (AIM 5-3-8 j). */
    @Test
    void outbound_the_correction_is_three_times_as_much_the_other_way() {
        // Square from the left of the inbound course, 072 true; 120 kt x sin 8.
        Holding hold = OceanCase.of(OceanCase.ON_V31, "direct AAA, hold west of AAA on the 270 radial", 37.9, -55.2)
                .wind(342, 120 * Math.sin(Math.toRadians(8)))
                .work()
                .holding()
                .orElseThrow();
        assertThat(hold.correctionDeg()).isCloseTo(-8, within(1e-6));
        double compass = hold.inboundHeading().orElseThrow().turnTo(hold.outboundHeading());
        assertThat(Math.abs(compass)).as("180 less 8 and 24").isCloseTo(180 - 32, within(1e-6));
        double outbound = hold.outboundHeading().deg()
                - (hold.inboundHeading().orElseThrow().deg() + 8 + 180);
        assertThat(outbound + (outbound < -180 ? 360 : 0)).as("to the right").isCloseTo(24, within(1e-6));
        // The entry ends on the inbound course: on the same heading as any later leg.
        assertThat(hold.entryHeadings().get(hold.entryHeadings().size() - 1))
                .isEqualTo(hold.inboundHeading().orElseThrow());
    }

    /** Position along the inbound course, from the fix, in steps of a hundredth of a second. */
    private static final class Flown {
        private static final double DT = 0.01;
        private final double speedKt;
        private final double windFrom;
        private final double windKt;
        private final double inbound;
        private double heading;
        private double alongNm;
        private double seconds;

        Flown(double heading, double speedKt, double windFrom, double windKt, double inbound) {
            this.heading = heading;
            this.speedKt = speedKt;
            this.windFrom = windFrom;
            this.windKt = windKt;
            this.inbound = inbound;
        }

        void step() {
            double along = speedKt * Math.cos(Math.toRadians(heading - inbound))
                    - windKt * Math.cos(Math.toRadians(windFrom - inbound));
            alongNm += along / 3600 * DT;
            seconds += DT;
        }

        void turnRight(double to) {
            while (heading < to) {
                step();
                heading += 3 * DT;
            }
            heading = to;
        }

        void fly(double time) {
            double until = seconds + time;
            while (seconds < until) {
                step();
            }
        }
    }

    private static Chart withHold(boolean right, double inbound) {
        return new Chart(
                "with a hold",
                OceanCase.CHART.stations(),
                OceanCase.CHART.fixes(),
                OceanCase.CHART.airports(),
                OceanCase.CHART.airways(),
                List.of(new PublishedHold(
                        OceanCase.AAA,
                        new Radial(inbound),
                        OptionalDouble.empty(),
                        right,
                        OptionalDouble.of(1),
                        OptionalDouble.empty(),
                        OptionalDouble.of(6000),
                        OptionalDouble.empty(),
                        OptionalDouble.of(175))));
    }

    @Test
    void as_published_is_what_the_chart_shows() {
        AmendedRoute route = OceanCase.of(OceanCase.ON_V31, "cleared to AAA, hold west, as published", 37.9, -55.2)
                .chart(withHold(false, 90))
                .work();
        Holding hold = route.holding().orElseThrow();
        assertThat(hold.published()).isTrue();
        assertThat(hold.right()).isFalse();
        assertThat(hold.inbound().deg()).isEqualTo(90);
        assertThat(hold.maximumSpeedKt()).isEqualTo(175);
        assertThat(route.warnings()).extracting(Warning::code).contains(Warning.Code.BELOW_MINIMUM_ALTITUDE);
    }

    /** FAA Order JO 7110.65, 4-6-4: beside "as published" another turn, leg or course is another hold. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "hold west, as published, right turns | left turns | right turns",
                "hold west, as published, 2 minute legs | 1 minute legs | 2 minute legs",
                "hold west, as published, 5 mile legs | 1 minute legs | 5 mile legs",
                "hold west of AAA on the 260 radial, as published | inbound course 090 | inbound course 080"
            })
    void what_contradicts_the_published_pattern_is_asked_about(String words, String shown, String clearance) {
        assertThatThrownBy(() -> OceanCase.of(OceanCase.ON_V31, "cleared to AAA, " + words, 37.9, -55.2)
                        .chart(withHold(false, 90))
                        .amended())
                .isInstanceOf(ClearanceException.class)
                .hasMessageContaining("the chart shows " + shown)
                .hasMessageContaining("the clearance says " + clearance);
    }

    /** A bend of less than a degree is none for the guidance: the course to hold on is that of its own segment all the same. */
    @ParameterizedTest
    @ValueSource(doubles = {-0.01, -0.005, 0, 0.005, 0.01})
    void the_true_and_the_magnetic_course_on_an_airway_are_of_one_line(double bendDeg) {
        Fix bend = OceanCase.fix("BENDY", 38.501 + bendDeg, -54.408);
        Chart chart = new Chart(
                "a small bend",
                OceanCase.CHART.stations(),
                List.of(bend),
                OceanCase.CHART.airports(),
                List.of(OceanCase.airway("V31", 6000, OceanCase.AAA, bend, OceanCase.BBB)));
        Holding hold = OceanCase.of(OceanCase.ON_V31, "direct BBB, hold southwest of BBB on V31", 38.3, -54.7)
                .chart(chart)
                .work()
                .holding()
                .orElseThrow();
        assertThat(Angles.turn(hold.inbound().deg() - hold.inboundTrue().deg())).isCloseTo(17, within(1e-6));
    }

    /** Nobody said "as published": that the chart's turns are taken, and not the standard ones, is told. */
    @Test
    void a_published_pattern_taken_without_a_word_is_noted() {
        AmendedRoute route = OceanCase.of(
                        OceanCase.ON_V31, "direct AAA, hold at AAA, expect further clearance 1545", 37.9, -55.2)
                .chart(withHold(false, 90))
                .work();
        assertThat(route.holding().orElseThrow().right()).isFalse();
        assertThat(route.notes())
                .contains(
                        "the hold at AAA is published on the chart: inbound course 090, left turns; that is taken, but"
                                + " for what the clearance says");
        assertThat(OceanCase.of(OceanCase.ON_V31, "cleared to AAA, hold west, as published", 37.9, -55.2)
                        .chart(withHold(false, 90))
                        .work()
                        .notes())
                .as("said, there is nothing to note")
                .noneSatisfy(note -> assertThat(note).contains("is published"));
    }

    @Test
    void what_the_chart_does_not_show_is_not_published() {
        assertThatThrownBy(() -> OceanCase.of(OceanCase.ON_V31, "cleared to AAA, hold west, as published", 37.9, -55.2)
                        .amended())
                .isInstanceOf(ClearanceException.class)
                .hasMessageContaining("no holding pattern at AAA");
        assertThatThrownBy(() -> OceanCase.of(OceanCase.ON_V31, "cleared to AAA, hold east, as published", 37.9, -55.2)
                        .chart(withHold(true, 90))
                        .amended())
                .hasMessageContaining("lies west of it, not east");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "direct AAA, hold north of AAA on the 180 radial | lies south of AAA, not north",
                "direct AAA, hold west of DDD on the 270 radial | not on the amended route",
                "direct AAA, hold on V40 | does not pass AAA",
                "direct AAA, hold at AAA, hold at BBB | 2 holds"
            })
    void what_cannot_be_held_is_refused(String words, String why) {
        assertThatThrownBy(
                        () -> OceanCase.of(OceanCase.ON_V31, words, 37.9, -55.2).amended())
                .isInstanceOf(ClearanceException.class)
                .hasMessageContaining(why);
    }

    private static final String ALONG =
            "fly heading 110, intercept the AAA 078 radial, hold southwest on the AAA 078 radial at ";

    /** 8 NM north-west of the radial, which heading 110 meets 40 NM out, before V40. */
    private static OceanCase northOfTheRadial(String words) {
        return OceanCase.of(OceanCase.ON_V40, words, 38.35, -54.6);
    }

    /**
     * The radial that is flown before a hold on it leads to its fix, whatever it crosses on the way (AIM 5-3-8: a hold on a
     * radial is said by its station, the radial and the distance).
     */
    @ParameterizedTest
    @ValueSource(ints = {41, 42, 45, 50, 55, 60, 70, 80})
    void a_radial_met_on_a_heading_leads_to_the_hold_on_it(int dme) {
        AmendedRoute route = northOfTheRadial(ALONG + dme + " DME, left turns").work();
        Position there = OceanCase.AAA.position().destination(new TrueDirection(78 - 18), dme);
        Holding hold = route.holding().orElseThrow();
        assertThat(hold.fix().position().distanceNm(there)).isLessThan(0.01);
        assertThat(hold.right()).isFalse();
        assertThat(hold.inbound().deg()).as("southwest is the side of AAA").isEqualTo(78);
        assertThat(hold.entry()).isEqualTo(Holding.Entry.DIRECT);
        assertThat(route.legs()).last().isInstanceOf(Leg.HoldAtFix.class);
        Leg before = route.legs().get(route.legs().size() - 2);
        assertThat(before).isInstanceOf(Leg.FixOutbound.class);
        assertThat(before.endsAt().orElseThrow().position().distanceNm(there)).isLessThan(0.01);
        assertThat(route.intercept()).isPresent();
        assertThat(route.course().orElseThrow().courseToSet().deg()).isEqualTo(78);
    }

    /** An altitude said in between leaves the radial the one that is flown; so does one that crosses nothing that is filed. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "fly heading 110, intercept the AAA 078 radial, climb and maintain 8000, hold southwest on the AAA 078 radial at 40 DME",
                "intercept the AAA 078 radial outbound, hold southwest on the AAA 078 radial at 40 DME",
                "fly heading 350, intercept the AAA 340 radial, hold south on the AAA 340 radial at 40 DME",
                "fly heading 200, intercept the AAA 078 radial, hold northeast on the AAA 078 radial at 10 DME",
                "fly heading 110, intercept the AAA 078 radial inbound, hold southwest on the AAA 078 radial at 10 DME"
            })
    void so_it_does_however_it_is_said(String words) {
        AmendedRoute route = OceanCase.of(
                        OceanCase.ON_V40,
                        words,
                        words.contains("350") ? 38.1 : 38.35,
                        words.contains("350") ? -55.1 : -54.6)
                .work();
        assertThat(route.legs()).last().isInstanceOf(Leg.HoldAtFix.class);
        assertThat(route.holding().orElseThrow().fix().ident()).startsWith("AAA");
    }

    /** Refused with words that do lead to the hold. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "fly heading 110, intercept the AAA 078 radial, hold southwest on the AAA 078 radial at 10 DME | AAA078010 | lies behind where its radial is met",
                "fly heading 325, intercept the AAA 078 radial, hold southwest on the AAA 078 radial at 40 DME | AAA078040 | lies behind where its radial is met",
                "fly heading 110, intercept the AAA 078 radial outbound, hold southwest on the AAA 078 radial at 10 DME | AAA078010 | nothing ahead",
                "fly heading 110, intercept the AAA 078 radial until 40 DME, hold southwest on the AAA 078 radial at 60 DME, 10 mile legs | AAA078060 | not on the amended route",
                "fly heading 110, intercept the AAA 078 radial, join V40, hold southwest on the AAA 078 radial at 60 DME | AAA078060 | not on the amended route",
                "direct CCC, hold west on the DDD 270 radial at 20 DME, left turns | DDD270020 | not on the amended route"
            })
    void the_advice_given_with_a_refused_hold_works(String words, String fix, String why) {
        OceanCase said = northOfTheRadial(words);
        ClearanceException refused = catchThrowableOfType(ClearanceException.class, said::amended);
        assertThat(refused).as(words).isNotNull();
        assertThat(refused).hasMessageContaining(fix + ", where to hold, ").hasMessageContaining(why);
        String advice = String.valueOf(refused.getMessage()).replaceAll("^.*\"(direct [^\"]*)\"$", "$1");
        AmendedRoute followed = northOfTheRadial(advice).work();
        assertThat(followed.holding().orElseThrow().fix().ident()).isEqualTo(fix);
        assertThat(followed.holding().orElseThrow().legNm().isPresent()).isEqualTo(words.contains("mile legs"));
    }

    /** ARINC 424-18, 5.21: HM is left when ATC says so, HF at its fix. */
    @Test
    void a_hold_that_is_flown_once_lies_on_the_way() {
        AmendedRoute once = hold("direct AAA, hold west of AAA on the 270 radial, one circuit, then as filed");
        assertThat(once.legs()).extracting(Leg::pathTerminator).startsWith("DF", "HF", "TF");
        assertThat(once.holdLeg()).isEqualTo(1);
        assertThat(once.resumesAt()).isEqualTo(2);
        assertThat(once.endsInHold()).isFalse();
        assertThat(once.limit()).isEmpty();
        AmendedRoute held = hold("direct AAA, hold west of AAA on the 270 radial");
        assertThat(held.legs()).extracting(Leg::pathTerminator).containsExactly("DF", "HM");
        assertThat(held.endsInHold()).isTrue();
    }

    /** A time is past for twelve hours; no day is said with it (common practice, no source). */
    @ParameterizedTest
    @CsvSource({"1530, 15:31, true", "1530, 15:29, false", "0005, 23:50, false", "2350, 00:05, true"})
    void further_clearance_at_a_time_that_is_over_is_said(String time, LocalTime now, boolean past) {
        Situation here = hold("direct AAA, hold at AAA").situation();
        Situation then = new Situation(
                here.position(),
                here.altitudeFt(),
                here.trueAirspeedKt(),
                here.heading(),
                here.wind(),
                here.date(),
                here.performance(),
                Optional.of(now));
        AmendmentDraft draft = new AmendmentDraft(
                hold("direct AAA, hold at AAA").filed(),
                hold("direct AAA, hold at AAA, EFC " + time).clearance(),
                then);
        AssignedChecks.check(draft);
        assertThat(draft.warnings.stream().anyMatch(each -> each.code() == Warning.Code.TIME_IN_THE_PAST))
                .isEqualTo(past);
    }

    @Test
    void without_side_or_line_the_standard_pattern_on_arrival_is_said() { // AIM 5-3-8
        AmendedRoute route = hold("direct AAA, hold at AAA");
        assertThat(route.holding().orElseThrow().entry()).isEqualTo(Holding.Entry.DIRECT);
        assertThat(route.warnings())
                .anySatisfy(warning -> assertThat(warning.text()).contains("AIM 5-3-8"));
    }
}
