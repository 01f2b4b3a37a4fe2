package org.rejoin.bridge.route;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.geo.ExternalCheck;
import org.rejoin.bridge.geo.ExternalChecks;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.Tally;
import org.rejoin.bridge.geo.TrueDirection;

import org.junit.jupiter.api.Test;

/**
 * Worked clearances, computed outside of this project with GeographicLib and the WMM2025 coefficients of NOAA/BGS
 * (printed to 1e-9 degrees and 1e-6 NM, angles to 1e-4 degrees).
 */
public final class WorkedClearancesTest implements ExternalChecks {

    private static final String SOURCE = "Worked clearances, computed with GeographicLib and WMM2025";
    private static final String HEADING_145 = "fly heading 145, intercept the AAA 078 radial, join V40, then as filed";

    private static AmendedRoute caseA() {
        return OceanCase.of(OceanCase.ON_V31, "fly heading 110, intercept V31, resume own navigation", 38.30, -55.70)
                .work();
    }

    private static AmendedRoute caseB() {
        return OceanCase.of(
                        OceanCase.ON_V31,
                        "fly heading 150, intercept the BBB 253 radial, join V31, then as filed",
                        38.75,
                        -55.10)
                .work();
    }

    private static AmendedRoute caseC() {
        return OceanCase.of(OceanCase.ON_V40, HEADING_145, 38.60, -54.90).work();
    }

    @Override
    public List<ExternalCheck> checks() {
        return List.of(positions(), distances(), angles());
    }

    private static ExternalCheck positions() {
        Tally tally = new Tally("Worked clearances", "intercepts and computed fixes, position", SOURCE, 2e-9, "deg");
        position(tally, "A", caseA().intercept().orElseThrow().position(), 38.231558123, -54.726378425);
        AmendedRoute windy = OceanCase.of(
                        OceanCase.ON_V31, "fly heading 110, intercept V31, resume own navigation", 38.30, -55.70)
                .wind(200, 25)
                .work();
        position(tally, "A wind", windy.intercept().orElseThrow().position(), 38.390407152, -54.537220807);
        position(tally, "B", caseB().intercept().orElseThrow().position(), 38.485869165, -54.762301672);
        position(tally, "C", caseC().computedFix().orElseThrow().fix().position(), 38.528731773, -53.821219838);
        position(tally, "C first part", caseC().intercept().orElseThrow().position(), 38.270950170, -54.401378464);
        position(tally, "E", caseE().computedFix().orElseThrow().fix().position(), 72.428330171, -179.230445790);
        return tally.result();
    }

    private static void position(Tally tally, String name, Position found, double latitudeDeg, double longitudeDeg) {
        tally.add(name + " latitude", found.latitudeDeg(), latitudeDeg);
        tally.add(name + " longitude", found.longitudeDeg(), longitudeDeg);
    }

    private static ExternalCheck distances() {
        Tally tally = new Tally("Worked clearances", "distances and leads", SOURCE, 2e-6, "NM");
        Intercept a = caseA().intercept().orElseThrow();
        tally.add("A ahead", a.distanceNm(), 46.189870);
        tally.add("A from AAA", a.alongCourseNm(), 18.986100);
        Leg onV31 = caseA().legs().get(1);
        tally.add("A to BBB", onV31.line().orElseThrow().lengthNm() - onV31.joinedAtNm(), 63.397794);
        tally.add("A lead", a.leadNm(), 0.312427);
        Intercept b = caseB().intercept().orElseThrow();
        tally.add("B ahead", b.distanceNm(), 22.423886);
        tally.add("B to BBB", caseB().legs().get(1).line().orElseThrow().lengthNm(), 54.683754);
        tally.add("B lead", b.leadNm(), 0.530601);
        ComputedFix fix = caseC().computedFix().orElseThrow();
        tally.add("C from AAA", fix.definitions().get(0).distanceNm(), 64.085920);
        tally.add("C from CCC", fix.alongSegmentNm(), 68.341565);
        tally.add("C to DDD", caseC().legs().get(2).line().orElseThrow().lengthNm(), 12.969823);
        tally.add("C from BBB", fix.definitions().get(1).distanceNm(), 28.265902);
        tally.add("C lead at the fix", fix.leadNm(caseC().situation()), 0.411120);
        tally.add("C first part ahead", caseC().intercept().orElseThrow().distanceNm(), 30.684677);
        Leg ride = caseC().legs().get(1);
        tally.add("C first part from AAA", ride.joinedAtNm(), 32.660938);
        tally.add("C first part to the fix", ride.line().orElseThrow().lengthNm() - ride.joinedAtNm(), 31.424983);
        ComputedFix polar = caseE().computedFix().orElseThrow();
        tally.add("E from EEE", polar.definitions().get(0).distanceNm(), 23.463028);
        tally.add("E from FFF", polar.alongSegmentNm(), 40.681196);
        tally.add("E to GGG", polar.fix().position().distanceNm(OceanCase.GGG.position()), 31.986936);
        return tally.result();
    }

    private static ExternalCheck angles() {
        Tally tally = new Tally("Worked clearances", "headings, courses and angles", SOURCE, 1e-4, "deg");
        tally.add("A variation", caseA().situation().variation().eastDeg(), -15.2065);
        tally.add(
                "A heading",
                caseA().assignedHeading().orElseThrow().headingTrue().deg(),
                94.7935);
        Intercept a = caseA().intercept().orElseThrow();
        tally.add("A course", a.course().deg(), 43.1166);
        tally.add("A turn, left", a.turnDeg(), -52.2799);
        tally.add(
                "B heading",
                caseB().assignedHeading().orElseThrow().headingTrue().deg(),
                134.8071);
        Intercept b = caseB().intercept().orElseThrow();
        tally.add("B course", b.course().deg(), 55.3978);
        tally.add("B turn, left", b.turnDeg(), -79.6201);
        ComputedFix fix = caseC().computedFix().orElseThrow();
        tally.add("C course at the fix", fix.inboundCourse().deg(), 60.7300);
        tally.add("C airway at the fix", fix.airwayCourse().deg(), 126.4377);
        tally.add("C turn, right", fix.turnDeg(), 65.7076);
        tally.add("C crossing angle", fix.crossingAngleDeg(), 65.7076);
        tally.add("C radial of BBB", fix.definitions().get(1).radial().deg(), 199.0256);
        tally.add(
                "C heading",
                caseC().assignedHeading().orElseThrow().headingTrue().deg(),
                129.8417);
        tally.add("C first part turn, left", caseC().intercept().orElseThrow().turnDeg(), -69.7820);
        tally.add("E crossing angle", caseE().computedFix().orElseThrow().crossingAngleDeg(), 84.4876);
        return tally.result();
    }

    /** Case E: across 180 degrees at 72 N, radials on true north. */
    private static AmendedRoute caseE() {
        return OceanCase.of("FFFFF V72 GGGGG", "intercept the EEE 100 radial, join V72, then as filed", 72.6, -179.9)
                .work();
    }

    @Test
    void headingToAnAirwaySkipsItsFirstFix() {
        AmendedRoute route = caseA();
        assertThat(OceanCase.legs(route)).isEqualTo("VI, TF V31 BBB, TF XBBB");
        assertThat(route.skipped()).extracting(Waypoint::ident).containsExactly("AAA");
        assertThat(route.intercept().orElseThrow().airwayLeg().orElseThrow().to())
                .isEqualTo(OceanCase.BBB);
    }

    @Test
    void windMovesTheIntercept() {
        AmendedRoute windy = OceanCase.of(
                        OceanCase.ON_V31, "fly heading 110, intercept V31, resume own navigation", 38.30, -55.70)
                .wind(200, 25)
                .work();
        HeadingPlan plan = windy.heading().orElseThrow();
        assertThat(plan.ground().track().deg()).isCloseTo(84.0012, within(1e-4));
        assertThat(plan.ground().groundSpeedKt()).isCloseTo(128.8363, within(1e-4));
        Intercept met = windy.intercept().orElseThrow();
        assertThat(met.distanceNm()).isCloseTo(55.152615, within(2e-6));
        assertThat(met.angleDeg()).isCloseTo(41.4887, within(1e-4));
        assertThat(met.position().distanceNm(caseA().intercept().orElseThrow().position()))
                .isCloseTo(13.06, within(0.005));
    }

    /** Case A done wrong: the right answer must be this far from each mistake. */
    @Test
    void headingsTurnedByTheWrongNorthMissByMiles() {
        Position right = caseA().intercept().orElseThrow().position();
        GeodesicLine airway = GeodesicLine.between(OceanCase.AAA.position(), OceanCase.BBB.position());
        Position here = new Position(38.30, -55.70);
        assertThat(miss(right, here, 110, airway)).as("no variation").isCloseTo(13.115, within(6e-4));
        assertThat(miss(right, here, 110 + 15.2065, airway)).as("sign flipped").isCloseTo(23.574, within(1e-2));
        assertThat(miss(right, here, 92, airway)).as("AAA's declination").isCloseTo(2.961, within(6e-4));
    }

    /** Case C done wrong. */
    @Test
    void radialsTurnedByTheWrongNorthMissByMiles() {
        Position right = caseC().computedFix().orElseThrow().fix().position();
        GeodesicLine airway = GeodesicLine.between(OceanCase.CCC.position(), OceanCase.DDD.position());
        Position aaa = OceanCase.AAA.position();
        assertThat(miss(right, aaa, 78 - 15.1185, airway)).as("variation").isCloseTo(3.621, within(2e-3));
        assertThat(miss(right, aaa, 78, airway)).as("taken as true").isCloseTo(26.769, within(6e-4));
        assertThat(miss(right, aaa, 96, airway)).as("sign flipped").isCloseTo(75.987, within(6e-4));
        assertThat(right.distanceNm(new Position(38.528030901, -53.822811699)))
                .as("rounded to whole degree and mile")
                .isCloseTo(0.086, within(6e-4));
    }

    private static double miss(Position right, Position from, double trueDeg, GeodesicLine airway) {
        return GeodesicLine.from(from, new TrueDirection(trueDeg), 300)
                .crossing(airway)
                .orElseThrow()
                .position()
                .distanceNm(right);
    }

    @Test
    void radialToAStationOnTheAirwayIsFlownInbound() {
        AmendedRoute route = caseB();
        Course course = route.course().orElseThrow();
        assertThat(course.direction()).isEqualTo(Course.Direction.TO);
        assertThat(course.courseToSet()).isEqualTo(new Radial(73));
        assertThat(course.outbound().initialCourse().deg()).isCloseTo(236.0, within(1e-9));
        assertThat(course.outbound().initialCourse().reciprocal().deg()).isCloseTo(56.0, within(1e-9));
        assertThat(OceanCase.legs(route)).isEqualTo("VI, CF BBB, TF XBBB");
        assertThat(route.skipped()).extracting(Waypoint::ident).containsExactly("AAA");
        assertThat(route.computedFix()).isEmpty();
    }

    @Test
    void radialOutToAnAirwayMakesAFix() {
        AmendedRoute route = caseC();
        assertThat(route.course().orElseThrow().direction()).isEqualTo(Course.Direction.FROM);
        assertThat(route.course().orElseThrow().courseToSet()).isEqualTo(new Radial(78));
        assertThat(OceanCase.legs(route)).isEqualTo("VI, FC AAA078064, TF V40 DDD, TF XDDD");
        assertThat(route.skipped()).extracting(Waypoint::ident).containsExactly("CCC");
        ComputedFix fix = route.computedFix().orElseThrow();
        assertThat(fix.definitions().get(1).station()).isEqualTo(OceanCase.BBB);
        // BBB cuts the airway at 55.58 and the radial at 58.72 degrees: the smaller counts.
        assertThat(fix.definitions().get(1).crossingAngleDeg()).isCloseTo(55.58, within(0.01));
        assertThat(fix.definitions())
                .filteredOn(each -> each.station().equals(OceanCase.DDD))
                .allSatisfy(each -> {
                    assertThat(each.use()).isEqualTo(ComputedFix.Use.DISTANCE);
                    assertThat(each.radial().deg()).isCloseTo(324.0753, within(1e-4));
                    assertThat(each.distanceNm()).isCloseTo(12.969823, within(2e-6));
                })
                .hasSize(1);
    }

    /** At 18 000 ft class H reaches 130 NM, so CCC is in range: along the airway, a distance only. */
    @Test
    void stationsAlongTheAirwayGiveADistanceOnly() {
        AmendedRoute route = OceanCase.of(OceanCase.ON_V40, HEADING_145, 38.60, -54.90)
                .altitude(18_000)
                .work();
        assertThat(route.computedFix().orElseThrow().definitions())
                .filteredOn(each -> each.station().equals(OceanCase.CCC))
                .allSatisfy(each -> {
                    assertThat(each.use()).isEqualTo(ComputedFix.Use.DISTANCE);
                    assertThat(each.radial().deg()).isCloseTo(144.1980, within(1e-4));
                    assertThat(each.distanceNm()).isCloseTo(68.341565, within(2e-6));
                })
                .hasSize(1);
    }

    /** N1 and N2: the line meets V40, but on the other side of the station, and beyond DDD. */
    @Test
    void crossingsThatCannotBeFlownAreRefused() {
        refused("intercept the AAA 258 radial outbound, join V40, then as filed", "64.1 NM on the other side");
        refused("intercept the AAA 113 radial, join V40, then as filed", "59.0 NM beyond DDD");
        // N3: 4 degrees off the airway's course, 125.698 at CCC: radial 147.698 of AAA, declination 18 west.
        refused("intercept the AAA 148 radial, join V40, then as filed", "does not cross V40");
    }

    private static void refused(String words, String why) {
        assertThatThrownBy(() ->
                        OceanCase.of(OceanCase.ON_V40, words, 38.60, -54.90).amended())
                .isInstanceOfSatisfying(
                        ClearanceException.class,
                        e -> assertThat(e.code()).isEqualTo(ClearanceException.Code.RADIAL_DOES_NOT_CROSS_AIRWAY))
                .hasMessageContaining(why);
    }

    @Test
    void acrossTheAntimeridianAt72North() {
        AmendedRoute route = caseE();
        assertThat(OceanCase.legs(route)).isEqualTo("VI, FC EEE100023, TF V72 GGGGG");
        assertThat(route.heading().orElseThrow().origin()).isEqualTo(HeadingPlan.Origin.PROPOSED);
        assertThat(route.intercept()).isPresent();
    }
}
