package org.rejoin.bridge.clearance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Instruction.CrossAt;
import org.rejoin.bridge.clearance.Instruction.Direct;
import org.rejoin.bridge.clearance.Instruction.FlyHeading;
import org.rejoin.bridge.clearance.Instruction.Hold;
import org.rejoin.bridge.clearance.Instruction.InterceptAirway;
import org.rejoin.bridge.clearance.Instruction.InterceptBearing;
import org.rejoin.bridge.clearance.Instruction.InterceptRadial;
import org.rejoin.bridge.clearance.Instruction.JoinAirway;
import org.rejoin.bridge.clearance.Instruction.Maintain;
import org.rejoin.bridge.clearance.Instruction.Onward;
import org.rejoin.bridge.clearance.Instruction.Onward.How;
import org.rejoin.bridge.clearance.Instruction.Sense;
import org.rejoin.bridge.clearance.Instruction.TurnBy;
import org.rejoin.bridge.clearance.Instruction.TurnDirection;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Radial;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What is understood, and what it means; phraseology of FAA Order JO 7110.65 and ICAO Doc 4444. */
class ClearanceReaderTest {

    private static final Onward AS_FILED = new Onward(How.AS_FILED);
    private static final Onward REST_UNCHANGED = new Onward(How.REST_OF_ROUTE_UNCHANGED);

    static Clearance read(String text) {
        try {
            return ClearanceReader.read(text, OceanChart.CHART, OceanChart.filed());
        } catch (ClearanceException e) {
            throw new AssertionError(text + ": " + e.getMessage(), e);
        }
    }

    private static List<Instruction> instructions(String text) {
        return read(text).instructions();
    }

    static FlyHeading heading(double deg, TurnDirection direction) {
        return new FlyHeading(new MagneticDirection(deg), direction);
    }

    static FlyHeading heading(double deg) {
        return heading(deg, TurnDirection.SHORTEST);
    }

    private static InterceptRadial radial(double deg, Sense sense) {
        return new InterceptRadial(OceanChart.AAA, new Radial(deg), sense);
    }

    static JoinAirway join(String airway) {
        return new JoinAirway(airway, Optional.empty(), Optional.empty());
    }

    private static JoinAirway bound(String airway, String compass) {
        return new JoinAirway(airway, Optional.empty(), Optional.empty(), Optional.empty(), Optional.of(compass));
    }

    private static JoinAirway join(String airway, Waypoint to) {
        return new JoinAirway(airway, Optional.empty(), Optional.of(to));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "fly heading 100, intercept the AAA 250 radial, join V31, then as filed",
                "FLY HEADING 100 INTERCEPT THE AAA 250 RADIAL JOIN V31 THEN AS FILED",
                "Fly heading one zero zero, intercept the alfa alfa alfa two five zero radial, join victor thirty-one, then as filed.",
                "fly heading one hundred, intercept Grey Petrel two fifty radial; join V-31. as filed",
                "fly heading 100 to intercept the 250 radial of AAA then join v 31 and then as filed",
                "fly heading 100, vectors to intercept the aaa vortac radial 250, join victor three one, cleared as filed",
                "fly heading 100 degrees, vector to the AAA 250 radial, join airway V31, via flight planned route",
                "fly heading 100, join the AAA 250 radial, join V31, then as filed",
                "fly heading 100, via the AAA 250 radial, V31, then as filed",
                "fly heading 100, radar vectors to the AAA 250 radial, join V31, then as filed",
                "fly heading 100, intercept radial 250 from AAA, via V31, then as filed"
            })
    void radial_to_an_airway(String text) {
        assertThat(instructions(text)).containsExactly(heading(100), radial(250, Sense.UNSAID), join("V31"), AS_FILED);
    }

    @Test
    void vectors() { // 7110.65 5-6-2, Doc 4444 12.4.1
        assertThat(instructions("fly heading 110, intercept V31"))
                .containsExactly(heading(110), new InterceptAirway("V31"));
        assertThat(instructions("turn left heading 090")).containsExactly(heading(90, TurnDirection.LEFT));
        assertThat(instructions("turn right, fly heading two one fife"))
                .containsExactly(heading(215, TurnDirection.RIGHT));
        assertThat(instructions("continue heading 215")).containsExactly(heading(215));
        assertThat(instructions("fly present heading")).containsExactly(new Instruction.FlyPresentHeading());
        assertThat(instructions("continue present heading")).containsExactly(new Instruction.FlyPresentHeading());
        assertThat(instructions("fly runway heading")).containsExactly(new Instruction.FlyRunwayHeading());
        assertThat(instructions("turn 20 degrees left")).containsExactly(new TurnBy(20, TurnDirection.LEFT));
        assertThat(instructions("turn right thirty degrees")).containsExactly(new TurnBy(30, TurnDirection.RIGHT));
        assertThat(instructions("fly heading 110, vector to victor thirty-one, resume own navigation"))
                .containsExactly(heading(110), new InterceptAirway("V31"), new Onward(How.RESUME_OWN_NAVIGATION));
        assertThat(instructions("fly heading 110, vector to ABCDE"))
                .containsExactly(heading(110), new Instruction.Expect("vectors to ABCDE"));
    }

    @Test
    void north_is_three_six_zero_and_zero_zero_zero_is_accepted() {
        assertThat(instructions("fly heading 360")).isEqualTo(instructions("fly heading 000"));
        assertThat(instructions("fly heading 360")).containsExactly(heading(0));
    }

    @ParameterizedTest
    @CsvSource({
        "V31, V31",
        "victor thirty-one, V31",
        "victor three one, V31",
        "V-31, V31",
        "v 31, V31",
        "victor eighty-eight, V88",
        "victor eight eight, V88",
        "victor four fifty-five, V455",
        "victor four five five, V455",
        "J five thirty-three, J533",
        "j533, J533",
        "juliett five tree tree, J533",
        "Q seven, Q7",
        "quebec 7, Q7",
        "UB10, UB10",
        "uniform bravo ten, UB10"
    })
    void airways_in_group_form_and_digit_by_digit(String said, String ident) { // AIM 4-2-8 c, 7110.65 2-5-1
        assertThat(instructions("intercept " + said)).containsExactly(new InterceptAirway(ident));
        assertThat(instructions("join " + said)).containsExactly(join(ident));
        assertThat(instructions("via " + said + " then as filed")).containsExactly(join(ident), AS_FILED);
    }

    @ParameterizedTest
    @CsvSource({
        "6000, 6000",
        "'6,000', 6000",
        "six thousand, 6000",
        "6000 feet, 6000",
        "6000ft, 6000",
        "one zero thousand, 10000",
        "ten thousand, 10000",
        "one two thousand five hundred, 12500",
        "two five zero zero, 2500",
        "two thousand five hundred, 2500",
        "five hundred, 500",
        "flight level one niner zero, 19000",
        "FL190, 19000",
        "FL 190, 19000",
        "flight level 190, 19000",
        "flight level two hundred, 20000",
        "one seven tousand, 17000"
    })
    void altitudes(String said, double feet) { // AIM 4-2-9, 7110.65 4-5-7
        assertThat(instructions("climb and maintain " + said)).containsExactly(climb(feet));
        assertThat(instructions("descend and maintain " + said + ", join V31"))
                .containsExactly(
                        new Maintain(feet, false, Maintain.Vertical.DESCEND, Maintain.Begin.NOW, Optional.empty()),
                        join("V31"));
        assertThat(instructions("maintain " + said + " until established on the airway"))
                .containsExactly(new Maintain(feet, true));
        assertThat(instructions("cross ABCDE at or above " + said))
                .containsExactly(new CrossAt(OceanChart.ABCDE, feet, CrossAt.Bound.AT_OR_ABOVE));
    }

    private static Maintain climb(double feet) {
        return new Maintain(feet, false, Maintain.Vertical.CLIMB, Maintain.Begin.NOW, Optional.empty());
    }

    @Test
    void crossing() { // 7110.65 4-5-7; Doc 4444 12.3.1.2
        assertThat(instructions("cross ABCDE at 6000"))
                .containsExactly(new CrossAt(OceanChart.ABCDE, 6000, CrossAt.Bound.AT));
        assertThat(instructions("cross ABCDE at FL190 or below"))
                .containsExactly(new CrossAt(OceanChart.ABCDE, 19000, CrossAt.Bound.AT_OR_BELOW));
        assertThat(instructions("cross grey petrel at and maintain 8000"))
                .containsExactly(new CrossAt(OceanChart.AAA, 8000, CrossAt.Bound.AT), new Maintain(8000, false));
    }

    @Test
    void direct() { // 7110.65 4-2-5 a3, 4-4-1 i, 5-6-2
        assertThat(instructions("proceed direct ABCDE")).containsExactly(new Direct(OceanChart.ABCDE, false));
        assertThat(instructions("cleared direct to bravo bravo bravo"))
                .containsExactly(new Direct(OceanChart.BBB, false));
        assertThat(instructions("when able, proceed direct Kittiwake"))
                .containsExactly(new Direct(OceanChart.CCC, true));
        assertThat(instructions("direct BBB when able then as filed"))
                .containsExactly(new Direct(OceanChart.BBB, true), AS_FILED);
        assertThat(instructions("direct Swell Field airport")).containsExactly(new Direct(OceanChart.XBBB, false));
        assertThat(instructions("direct destination")).containsExactly(new Direct(OceanChart.XBBB, false));
        assertThat(instructions("cleared direct Cross Swell, climb and maintain 6000"))
                .containsExactly(new Direct(OceanChart.BBB, false), climb(6000));
        assertThat(instructions("direct to the AAA zero seven eight radial six four mile fix"))
                .isEqualTo(instructions("direct AAA078064"));
        assertThat(((Direct) instructions("direct 3830N05430W").get(0))
                        .to()
                        .position()
                        .latitudeDeg())
                .isEqualTo(38.5);
    }

    @Test
    void inbound_and_outbound() { // 7110.65 4-4-1 b
        assertThat(instructions("intercept the AAA 250 radial inbound")).containsExactly(radial(250, Sense.INBOUND));
        assertThat(instructions("intercept the AAA 250 radial, track outbound"))
                .containsExactly(radial(250, Sense.OUTBOUND));
        assertThat(instructions("intercept the AAA 070 course inbound")).containsExactly(radial(250, Sense.INBOUND));
        assertThat(instructions("intercept the 070 course to AAA")).containsExactly(radial(250, Sense.INBOUND));
    }

    @Test
    void a_bearing_of_an_ndb() {
        assertThat(instructions("intercept the 250 bearing from NNB"))
                .containsExactly(new InterceptBearing(OceanChart.NNB, new MagneticDirection(250), Sense.OUTBOUND));
        assertThat(instructions("intercept the zero seven zero bearing to Nimbus NDB"))
                .containsExactly(new InterceptBearing(OceanChart.NNB, new MagneticDirection(250), Sense.INBOUND));
        assertThat(read("intercept the 250 bearing from AAA").notes())
                .singleElement()
                .asString()
                .contains("radial");
    }

    @Test
    void three_equal_amendments() { // 7110.65 4-2-5 a1, a2, a4
        List<Instruction> changed =
                instructions("change victor thirty-one BBB to read victor four fifty-five CCC, victor forty DDD");
        List<Instruction> cleared =
                instructions("cleared via victor four fifty-five CCC, victor forty DDD, rest of route unchanged");
        assertThat(changed)
                .isEqualTo(cleared)
                .containsExactly(join("V455", OceanChart.CCC), join("V40", OceanChart.DDD), REST_UNCHANGED);
        assertThat(instructions("cleared to Swell Field airport via V455 CCC V40 DDD V88 BBB direct XBBB"))
                .containsExactly(
                        new Instruction.ClearedTo(OceanChart.XBBB),
                        join("V455", OceanChart.CCC),
                        join("V40", OceanChart.DDD),
                        join("V88", OceanChart.BBB),
                        new Direct(OceanChart.XBBB, false));
    }

    /** FAA Order JO 7110.65, 4-4-1 and 4-6-4; the verb is said once, with what stands before. */
    @Test
    void a_line_without_a_verb_is_followed() {
        assertThat(instructions("direct AAA, then the AAA 078 radial outbound, join V40"))
                .isEqualTo(instructions("direct AAA, intercept the AAA 078 radial outbound, join V40"));
        assertThat(instructions("direct NNB, then 120 bearing from NNB outbound to intercept V40"))
                .isEqualTo(instructions("direct NNB, intercept the 120 bearing from NNB, intercept V40"));
        assertThat(instructions("fly heading 060 to join the AAA R-078, outbound, V40, DDD"))
                .isEqualTo(instructions("fly heading 060, intercept the AAA 078 radial outbound, V40 DDD"));
        assertThat(instructions("intercept the AAA 078 radial until the BBB 200 radial, then BBB 200 radial inbound"))
                .isEqualTo(instructions(
                        "intercept the AAA 078 radial until the BBB 200 radial, intercept the BBB 200 radial inbound"));
    }

    /**
     * "Via (radial)", "to (fix) via" (FAA Order JO 7110.65, 4-4-1): the station is not named twice; and words of every day for
     * those of 4-2-5, 4-6-4, 5-6-2 and of ICAO Doc 4444, 12.3.
     */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "cleared to AAA via the 250 radial | cleared to AAA, intercept the AAA 250 radial inbound",
                "proceed to AAA via the AAA 250 radial | intercept the AAA 250 radial inbound",
                "proceed to Grey Petrel via the 250 radial | intercept the AAA 250 radial inbound",
                "direct AAA, then the 078 radial to join V40 | direct AAA, intercept the AAA 078 radial, join V40",
                "direct AAA, then via the 078 radial, V40 | direct AAA, intercept the AAA 078 radial, join V40",
                "direct AAA 078 radial, V40 | direct AAA, intercept the AAA 078 radial, join V40",
                "direct NNB, then outbound on the 120 bearing, V40 | direct NNB, intercept the 120 bearing from NNB, join V40",
                "direct NNB, outbound on the 120 bearing from NNB | direct NNB, intercept the 120 bearing from NNB",
                "heading 110, intercept the 250 radial inbound to AAA | heading 110, intercept the AAA 250 radial inbound",
                "heading 110, intercept the 070 course inbound to AAA | heading 110, intercept the AAA 070 course inbound",
                "heading 110, intercept the 250 radial off Grey Petrel | heading 110, intercept the AAA 250 radial",
                "heading 190 till you intercept V31 | heading 190, intercept V31",
                "heading 190, intercept V31, once you're established climb to 8000 | heading 190, intercept V31, when established climb to 8000",
                "heading 190, intercept V31, when you are established, climb to 8000 | heading 190, intercept V31, when established, climb to 8000",
                "after intercepting V31, climb to 8000 | when established on V31, climb to 8000",
                "upon passing BBB climb to 8000 | when passing BBB climb to 8000",
                "heading 190, intercept the AAA 250 radial, maintain 7000 until established inbound | heading 190, intercept the AAA 250 radial inbound, maintain 7000 until established",
                "intercept the AAA 250 radial, maintain 5000 until established inbound on the BBB 066 radial | intercept the AAA 250 radial, maintain 5000 until established on the BBB 066 radial inbound",
                "heading 190, maintain 7000 until established inbound on the AAA 250 radial | heading 190, maintain 7000 until established on the AAA 250 radial inbound",
                "heading 190, intercept the AAA 250 radial, maintain 7000 until established inbound on the radial | heading 190, intercept the AAA 250 radial inbound, maintain 7000 until established on the radial",
                "heading 190, intercept the AAA 250 radial, when established inbound, climb and maintain 8000 | heading 190, intercept the AAA 250 radial inbound, when established, climb and maintain 8000",
                "heading 190, intercept the AAA 250 radial, maintain 7000, climb and maintain 8000 when established inbound on the AAA 250 radial | heading 190, intercept the AAA 250 radial inbound, maintain 7000, climb and maintain 8000 when established on the AAA 250 radial",
                "heading 190 until established inbound on the AAA 250 radial | heading 190, intercept the AAA 250 radial inbound",
                "continue on present heading | fly present heading",
                "continue on heading 090 | fly heading 090",
                "heading 200, when receiving Grey Petrel proceed direct | heading 200, when able proceed direct AAA",
                "join V31 BBB, direct | join V31 BBB, direct XBBB",
                "I have an amendment to your clearance, advise ready to copy: after BBB, direct CCC | after BBB, direct CCC",
                "rerouted: direct BBB | direct BBB",
                "revised clearance, direct BBB | direct BBB",
                "I have a revised clearance, direct BBB | direct BBB",
                "a amendment, direct BBB | direct BBB",
                "direct BBB, remainder of routing unchanged | direct BBB, rest of route unchanged",
                "direct BBB, no delay in the descent, descend and maintain 5000 | direct BBB, descend and maintain 5000",
                "hold north of BBB on the 360 radial, efc 1530z | hold north of BBB on the 360 radial, expect further clearance 1530",
                "hold at BBB, inbound track 120, expected approach time 1545 | hold at BBB, inbound track 120, expect approach clearance 1545",
                "hold on the AAA 078 radial between 15 and 20 DME | hold on the AAA 078 radial between 15 and 20 miles DME",
                "reduce to minimum approach speed | reduce to minimum clean speed"
            })
    void everyday_words_say_the_same(String text, String published) {
        assertThat(instructions(text)).isEqualTo(instructions(published));
    }

    /** A radial whose station nobody named is of no station; beside a place it is not of the place before it. */
    @Test
    void of_which_station_is_asked() {
        assertThatThrownBy(() -> ClearanceReader.read(
                        "heading 060, intercept the 021 radial, join V40", OceanChart.CHART, OceanChart.filed()))
                .hasMessageContaining("of which station? say it: \"the AAA 066 radial\"");
        assertThat(instructions("heading 110, at the AAA 078 radial, turn left heading 040"))
                .isEqualTo(instructions("heading 110, after passing the AAA 078 radial, turn left heading 040"));
    }

    @Test
    void a_station_is_departed_on_a_line_of_its_own() {
        assertThat(instructions("depart Nimbus on the 120 bearing"))
                .isEqualTo(instructions("after NNB, the 120 bearing from NNB"))
                .containsExactly(new Instruction.Depart(
                        OceanChart.NNB,
                        new Instruction.InterceptBearing(
                                OceanChart.NNB, new MagneticDirection(120), Instruction.Sense.OUTBOUND)));
        assertThat(instructions("depart AAA on the 078 radial until 20 DME"))
                .isEqualTo(instructions("at AAA, intercept the 078 radial of AAA outbound until 20 miles DME"))
                .containsExactly(new Instruction.Depart(
                        OceanChart.AAA,
                        new Instruction.InterceptRadial(
                                OceanChart.AAA,
                                new Radial(78),
                                Instruction.Sense.OUTBOUND,
                                Optional.of(new Instruction.Until.AtDistance(OceanChart.AAA, 20)))));
        assertThatThrownBy(() -> OceanChart.CHART
                        .name()
                        .equals(read("depart NNB on the 120 radial").text()))
                .hasMessageContaining("NNB is an NDB and has no radials; say \"depart NNB on the 120 bearing\"");
    }

    @Test
    void a_hold_begun_at_a_fix_is_at_that_fix() {
        assertThat(instructions("intercept the BBB 200 radial inbound, at Cross Swell hold as published"))
                .isEqualTo(instructions("intercept the BBB 200 radial inbound, hold at BBB as published"));
        assertThat(instructions("after ABCDE, direct BBB, hold south on the 180 radial"))
                .contains(instructions("hold south of BBB on the 180 radial").get(0));
    }

    /** A fix by radial and distance: AIM 5-3-8, FAA Order JO 7110.65 4-6-4. */
    @Test
    void a_hold_at_a_distance_along_a_radial() {
        assertThat(instructions("hold west on the AAA 078 radial at 20 DME, left turns"))
                .isEqualTo(
                        instructions("hold west of the AAA 078 radial 20 mile fix on the AAA 078 radial, left turns"))
                .isEqualTo(instructions("hold west on the 078 radial of AAA at the 20 DME fix, left turns"));
    }

    @Test
    void joining() { // 7110.65 4-4-1 a
        assertThat(instructions("join V31 at ABCDE to BBB, then as filed"))
                .containsExactly(
                        new JoinAirway("V31", Optional.of(OceanChart.ABCDE), Optional.of(OceanChart.BBB)), AS_FILED);
        assertThat(instructions("intercept V31 to BBB"))
                .containsExactly(new InterceptAirway("V31"), join("V31", OceanChart.BBB));
        assertThat(instructions(
                        "cleared via victor four fifty five charlie charlie charlie victor forty delta delta delta"))
                .containsExactly(join("V455", OceanChart.CCC), join("V40", OceanChart.DDD));
    }

    @Test
    void a_route_goes_on_without_repeating_the_verb() {
        assertThat(instructions("V31, then as filed")).containsExactly(join("V31"), AS_FILED);
        assertThat(instructions("direct AAA, V31 BBB, V88 to DDD"))
                .containsExactly(
                        new Direct(OceanChart.AAA, false), join("V31", OceanChart.BBB), join("V88", OceanChart.DDD));
        assertThat(read("via J533 to EEE").notes()).isEmpty();
    }

    @Test
    void onward() {
        assertThat(instructions("resume own navigation")).containsExactly(new Onward(How.RESUME_OWN_NAVIGATION));
        assertThat(instructions("rest of route unchanged")).containsExactly(REST_UNCHANGED);
        assertThat(instructions("then on course")).containsExactly(new Onward(How.ON_COURSE));
        assertThat(instructions("recleared direct BBB, rest of clearance unchanged"))
                .containsExactly(new Direct(OceanChart.BBB, false), REST_UNCHANGED);
        assertThat(instructions("cancel amended clearance")).containsExactly(new Instruction.Cancel());
        assertThat(instructions("disregard")).containsExactly(new Instruction.Cancel());
        assertThat(instructions("expect victor eighty-eight after BBB, fly heading 100"))
                .containsExactly(new Instruction.Expect("victor eighty-eight after BBB"), heading(100));
    }

    @Test
    void speeds() { // 7110.65 5-7-2, from memory
        Clearance slow = read("fly heading 100, intercept V31, maintain one two zero knots, climb and maintain 6000");
        assertThat(slow.speed()).contains(new Instruction.MaintainSpeed(120, Instruction.MaintainSpeed.Limit.EXACTLY));
        assertThat(slow.altitudeFt()).hasValue(6000);
        Clearance atLeast = read("maintain 160 knots or greater");
        assertThat(atLeast.speed().orElseThrow().bound()).isEqualTo(Instruction.MaintainSpeed.Limit.OR_GREATER);
        assertThat(read("do not exceed 150 knots").speed().orElseThrow().bound())
                .isEqualTo(Instruction.MaintainSpeed.Limit.OR_LESS);
        assertThat(read("maintain 160 knots, resume normal speed").speed()).isEmpty();
        assertThat(read("maintain 6000").speed()).isEmpty();
        assertThatThrownBy(() -> read("maintain 20 knots")).hasMessageContaining("40 to 600 knots");
    }

    @Test
    void an_amendment_is_taken_back() {
        assertThat(read("disregard").disregards()).isTrue();
        assertThat(read("disregard the amendment, continue as filed").disregards())
                .isTrue();
        assertThat(read("Oceanic 512, cancel last clearance, resume own navigation, maintain 6000")
                        .disregards())
                .isTrue();
        assertThat(read("disregard, fly heading 100, intercept V31").disregards())
                .as("a new amendment in place of the old")
                .isFalse();
        assertThat(read("then as filed").disregards()).isFalse();
    }

    @Test
    void holding() { // 7110.65 4-6-4
        assertThat(instructions(
                        "hold west of AAA on the 270 radial, 1 minute legs, left turns, expect further clearance 1530"))
                .containsExactly(new Hold(
                        OceanChart.AAA,
                        Optional.of("west"),
                        Optional.of(new Instruction.HoldLine.OnRadial(OceanChart.AAA, new Radial(270))),
                        OptionalDouble.of(1),
                        OptionalDouble.empty(),
                        TurnDirection.LEFT,
                        Optional.of("1530"),
                        false,
                        false));
        assertThat(instructions("hold north-west of ABCDE 10 mile legs"))
                .containsExactly(new Hold(
                        OceanChart.ABCDE,
                        Optional.of("northwest"),
                        Optional.empty(),
                        OptionalDouble.empty(),
                        OptionalDouble.of(10),
                        TurnDirection.SHORTEST,
                        Optional.empty(),
                        false,
                        false));
        assertThat(((Hold) instructions("hold at BBB as published, one circuit, then as filed")
                                .get(0))
                        .once())
                .isTrue();
        assertThat(((Hold) instructions("hold at BBB for course reversal, left turns")
                                .get(0))
                        .once())
                .isTrue();
        assertThat(((Hold) instructions("hold at BBB, one turn in holding, then as filed")
                                .get(0))
                        .once())
                .isTrue();
        assertThat(instructions("hold at BBB as published, EFC one five three zero, join V31"))
                .hasSize(2);
    }

    @ParameterizedTest
    @CsvSource({
        "'Oceanic 512, fly heading 100', Oceanic 512",
        "'Oceanic 512 a revised clearance, fly heading 100', Oceanic 512",
        "'Oceanic 512, a revised clearance, fly heading 100', Oceanic 512",
        "oceanic five one two fly heading 100, oceanic five one two",
        "'N123AB, fly heading 100', N123AB",
        "'November one two three alfa bravo, fly heading 100', November one two three alfa bravo"
    })
    void a_callsign_in_front(String text, String callsign) {
        assertThat(read(text).callsign()).contains(callsign);
        assertThat(instructions(text)).containsExactly(heading(100));
    }

    @Test
    void of_two_stations_the_nearer_to_the_route_is_meant_and_it_is_said() {
        Clearance clearance = read("intercept the EEE 120 radial");
        assertThat(clearance.instructions())
                .containsExactly(new InterceptRadial(OceanChart.EEE_NEAR, new Radial(120), Sense.UNSAID));
        assertThat(clearance.notes()).singleElement().asString().contains("EEE");
        assertThat(read("intercept the AAA 250 radial").notes()).isEmpty();
    }

    @Test
    void notes_are_given_for_what_was_taken_for_granted() {
        assertThat(read("fly heading 90").notes()).singleElement().asString().contains("090");
    }

    @Test
    void no_exception_points_outside_the_text() {
        String text = "fly heading 100, squawk 4512, then as filed";
        ClearanceException refused = catchThrowableOfType(
                ClearanceException.class, () -> ClearanceReader.read(text, OceanChart.CHART, OceanChart.filed()));
        assertThat(refused.caretLine()).contains("                 ^^^^^^^^^^^");
    }

    /** A bearing from a beacon is a line, as a radial is: outbound, or inbound on its reciprocal. */
    @Test
    void aBearingIsFlownOutboundOrInbound() {
        assertThat(instructions("intercept the 160 bearing from Nimbus outbound"))
                .containsExactly(new InterceptBearing(OceanChart.NNB, new MagneticDirection(160), Sense.OUTBOUND));
        assertThat(instructions("intercept the 160 bearing from Nimbus, track it inbound"))
                .containsExactly(new InterceptBearing(OceanChart.NNB, new MagneticDirection(160), Sense.INBOUND));
        assertThat(instructions("intercept the 340 bearing to Nimbus inbound"))
                .containsExactly(new InterceptBearing(OceanChart.NNB, new MagneticDirection(160), Sense.INBOUND));
        for (String contradiction : List.of(
                "intercept the 340 bearing to Nimbus outbound", "intercept the 160 course from Nimbus inbound")) {
            assertThatThrownBy(() -> ClearanceReader.read(contradiction, OceanChart.CHART, OceanChart.filed()))
                    .hasMessageContaining("which way is meant?");
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "intercept the AAA 078 radial, track inbound",
                "intercept the AAA 078 radial, track it inbound",
                "intercept the AAA 078 radial and proceed inbound",
                "intercept the AAA 078 radial, and track it inbound",
                "intercept the AAA 078 radial, then fly it inbound"
            })
    void theWayAlongARadialIsSaidInManyWords(String words) {
        assertThat(instructions(words)).containsExactly(radial(78, Sense.INBOUND));
    }

    /** The filed route goes along V31 from AAA to BBB, to the north-east. */
    @Test
    void aCompassWordOfAnAirwayMustBeItsWay() {
        assertThat(instructions("join V31 northeastbound, then as filed"))
                .containsExactly(bound("V31", "northeast"), AS_FILED);
        assertThat(instructions("fly heading 100, intercept V31 northbound"))
                .containsExactly(heading(100), new InterceptAirway("V31", Optional.of("north")));
        assertThat(read("join V31 eastbound").notes()).isEmpty();
        assertThatThrownBy(() -> ClearanceReader.read(
                        "fly heading 100, join V31 southbound", OceanChart.CHART, OceanChart.filed()))
                .hasMessageContaining("from AAA to BBB V31 does not go that way");
        assertThatThrownBy(() ->
                        ClearanceReader.read("join V40 southbound at DDD to CCC", OceanChart.CHART, OceanChart.filed()))
                .hasMessageContaining("from DDD to CCC V40 does not go that way");
        Clearance open = read("join V40 southbound");
        assertThat(open.notes()).isEmpty();
        assertThat(open.instructions())
                .as("neither fixes nor the filed route say it: the route is held to it")
                .containsExactly(bound("V40", "south"));
        assertThat(Phraseology.say(read("join V40 southbound at DDD")))
                .isEqualTo("join victor forty south bound at Doldrum");
    }

    @Test
    void disregardTakesBackWhatStandsBeforeItInOneBreath() {
        Clearance read =
                read("november one two three alfa bravo, fly heading 120, join V40, disregard, fly heading 020,"
                        + " intercept V31");
        assertThat(read.instructions()).isEqualTo(instructions("fly heading 020, intercept V31"));
        assertThat(read.notes())
                .containsExactly(
                        "\"fly heading 120, join V40\": taken back by \"disregard\"",
                        "\"november one two three alfa bravo\": taken for the callsign");
        assertThat(instructions("disregard, fly heading 020")).contains(new Instruction.Cancel(), heading(20));
    }

    /** FAA Order JO 7110.65, 5-6-2 and 4-5-7: what stands behind "then" begins where what stands before it is over. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "turn left heading 060 until established on V31, then maintain 6000 | when established on V31",
                "fly heading 060, intercept V31, then descend and maintain 6000 | when established on V31",
                "fly heading 060, join V31, then descend and maintain 6000 | when established on V31",
                "intercept V31, fly heading 060 until established, then maintain 6000 | when established",
                "fly heading 060 until BBB, then maintain 6000 | after passing BBB",
                "intercept the AAA 250 radial until 20 DME, then maintain 6000 | after passing AAA 20 DME",
                "fly heading 060, join V31, descend and maintain 6000 after passing BBB | after passing BBB",
                "fly heading 060, join V31, descend and maintain 6000 after passing BBB, then as filed | after passing BBB",
                "fly heading 060, join V31, descend and maintain 6000 when established | when established"
            })
    void an_altitude_begins_where_what_stands_before_it_is_over(String words, String when) {
        List<InTurn<Instruction.Maintain>> altitudes = read(words).altitudes();
        assertThat(altitudes).hasSize(1);
        assertThat(altitudes.get(0).said().feet()).isEqualTo(6000);
        String begins = altitudes.get(0).from().orElseThrow().begins();
        assertThat(instructions(begins + ", maintain 6000")).isEqualTo(instructions(when + ", maintain 6000"));
    }

    @Test
    void anAltitudeBehindARadialBeginsOnIt() {
        assertThat(read("intercept the AAA 250 radial, then maintain 6000").altitudes())
                .singleElement()
                .extracting(InTurn::from)
                .isEqualTo(Optional.of(new When.Established(
                        Optional.of(new Instruction.Until.AtRadial(OceanChart.AAA, new Radial(250))))));
    }

    @Test
    void anAltitudeThatIsDueAtOnceBehindThenIsSaid() {
        assertThat(read("direct BBB, then as filed, then maintain 6000").notes())
                .singleElement()
                .asString()
                .contains("due at once");
    }

    @Test
    void whatIsPassedIsAnAltitudeAndNoTime() {
        assertThat(instructions("fly heading 060 until passing 8500, join V31"))
                .isEqualTo(instructions("fly heading 060 until passing 8500 feet, join V31"));
    }

    @Test
    void everydayWordsForSpeeds() {
        assertThat(instructions("slow to 120 knots")).isEqualTo(instructions("reduce speed to 120 knots"));
        assertThat(instructions("resume published speed")).isEqualTo(instructions("resume normal speed"));
        assertThat(instructions("maintain one two zero knots till BBB, then one four zero knots until EEE"))
                .isEqualTo(instructions("maintain 120 knots until BBB, then maintain 140 knots until EEE"));
    }

    @Test
    void whatIsCorrectedIsTheNumberAlone() {
        assertThat(instructions("climb and maintain one one thousand five hundred, correction, one two thousand"))
                .isEqualTo(instructions("climb and maintain 12000"));
        assertThat(instructions("turn left heading 030, correction, heading 130"))
                .isEqualTo(instructions("turn left heading 130"));
        assertThat(instructions("turn left heading 030, correction, turn right heading 130"))
                .isEqualTo(instructions("turn right heading 130"));
        assertThat(instructions("right turn heading 130, correction, 120"))
                .isEqualTo(instructions("turn right heading 120"));
        assertThatThrownBy(() -> read("direct BBB, correction, 6000")).hasMessageContaining("what it corrects");
    }

    @Test
    void whatIsSaidAgainIsOneInstruction() {
        assertThat(instructions("fly heading 100, intercept V31, I say again, fly heading 100"))
                .isEqualTo(instructions("fly heading 100, intercept V31"));
        assertThat(instructions("cancel that, direct BBB")).isEqualTo(instructions("disregard, direct BBB"));
    }

    @Test
    void anAltitudeBeginsWhenEstablishedOrPassingAFix() {
        List<InTurn<Instruction.Maintain>> turns =
                InTurn.altitudes(instructions("heading 100, intercept V31, maintain 8000, when established, descend and"
                        + " maintain 6000, then as filed"));
        assertThat(turns).extracting(each -> each.said().feet()).containsExactly(8000.0, 6000.0);
        assertThat(turns.get(1).from()).contains(new When.Established(Optional.empty()));
        assertThat(instructions("passing BBB, descend and maintain 6000"))
                .isEqualTo(instructions("after passing BBB, descend and maintain 6000"));
        assertThat(instructions("heading 100, intercept V31, when established, climb and maintain 9000, then as filed"))
                .as("the route is not part of it")
                .last()
                .isEqualTo(new Instruction.Onward(Instruction.Onward.How.AS_FILED));
        assertThatThrownBy(() -> read("heading 100, intercept V31, when established, direct BBB"))
                .hasMessageContaining("where the course is left is said by a fix");
    }

    /** FAA Order JO 7110.65, 4-5-7, from memory; the second number alone is no shorter way to say another thing. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "heading 100, intercept V31, maintain 8000 until established, then 10000",
                "heading 100, intercept V31, maintain eight thousand until established then ten thousand",
                "heading 100, intercept V31, maintain 8000 until established, then maintain 10000"
            })
    void aNumberBehindThenIsTheNextAltitude(String words) {
        assertThat(instructions(words))
                .isEqualTo(instructions(
                        "heading 100, intercept V31, maintain 8000 until established, then maintain 10000"));
        List<InTurn<Instruction.Maintain>> turns = InTurn.altitudes(instructions(words));
        assertThat(turns).extracting(each -> each.said().feet()).containsExactly(8000.0, 10000.0);
        assertThat(turns.get(1).from()).contains(new When.Established(Optional.empty()));
    }

    @Test
    void whatFollowsALowestAltitudeIsNotDueAtOnce() {
        Clearance clearance = read("maintain at or above 7000 until BBB, then 5000");
        assertThat(clearance.altitudeFt()).isEmpty();
        assertThat(clearance.altitudes()).singleElement().satisfies(turn -> {
            assertThat(turn.said().feet()).isEqualTo(5000);
            assertThat(turn.from()).contains(new When.AtLine(new Instruction.Until.AtFix(OceanChart.BBB)));
        });
        assertThat(clearance.notes()).anyMatch(note -> note.contains("not followed"));
    }

    @Test
    void whatIsAskedForIfAbleIsTakenForDone() {
        assertThat(read("if able, direct BBB").notes())
                .containsExactly("\"if able\": heard, and taken for done; what you cannot fly, say so");
        assertThat(instructions("if able, direct BBB")).isEqualTo(instructions("direct BBB"));
    }

    @Test
    void aNoteIsSaidOnceAndAHoldOnlyWhereThereIsOne() {
        assertThat(read("direct EEE, hold south of EEE").notes())
                .doesNotHaveDuplicates()
                .isNotEmpty();
        assertThat(read("direct BBB, expect further clearance 1530").notes())
                .singleElement()
                .asString()
                .doesNotContain("the hold")
                .contains("none is said with it");
        assertThat(read("cleared to BBB via direct, expect further clearance 1530")
                        .notes())
                .singleElement()
                .asString()
                .contains("for BBB, the limit, at which you wait");
    }
}
