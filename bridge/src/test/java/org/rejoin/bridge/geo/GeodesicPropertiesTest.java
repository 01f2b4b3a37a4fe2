package org.rejoin.bridge.geo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.quicktheories.QuickTheory.qt;
import static org.quicktheories.generators.SourceDSL.doubles;

import java.util.List;
import java.util.Optional;

import org.junit.jupiter.api.Test;
import org.quicktheories.QuickTheory;
import org.quicktheories.core.Gen;

/** What must hold for every line and point: latitudes to 80 degrees, legs to 300 NM, points within 50 NM. */
class GeodesicPropertiesTest {

    private static final double METRE_NM = 1 / Geodesics.METRES_PER_NM;
    private static final double MILLIMETRE_NM = METRE_NM / 1000;

    private static QuickTheory theory() {
        return qt().withFixedSeed(20250101).withExamples(3000).withShrinkCycles(0);
    }

    private static Gen<Position> positions() {
        return doubles().between(-80, 80).zip(doubles().between(-180, 179.999), Position::new);
    }

    /** Every fourth leg starts close to the antimeridian. */
    private static Gen<Position> starts() {
        Gen<Position> near = doubles().between(-80, 80).zip(doubles().between(179, 181), Position::new);
        return positions().mix(near, 25);
    }

    private static Gen<TrueDirection> directions() {
        return doubles().between(0, 360).map(deg -> new TrueDirection(deg));
    }

    private static Gen<GeodesicLine> legs() {
        return starts().zip(directions(), doubles().between(0.1, 300), GeodesicLine::from);
    }

    /** A point within 50 NM of a leg or of one of its ends, up to 50 NM beyond them. */
    private static Position beside(GeodesicLine leg, double along, double cross) {
        double at = along * (leg.lengthNm() + 100) - 50;
        return leg.pointAt(at).destination(new TrueDirection(leg.courseAt(at).deg() + 90), cross);
    }

    @Test
    void theInverseUndoesTheDirectProblem() {
        theory().forAll(positions(), directions(), doubles().between(0.01, 5000))
                .checkAssert((start, direction, nm) -> {
                    Geodesics.Inverse back = start.to(start.destination(direction, nm));
                    assertThat(back.distanceNm()).isCloseTo(nm, within(MILLIMETRE_NM / 100));
                    assertThat(direction.turnTo(back.initial()) * nm).isCloseTo(0, within(1e-6));
                });
    }

    @Test
    void theOffsetChangesSidesWhenTheLegIsReversed() {
        theory().forAll(legs(), doubles().between(0, 1), doubles().between(-50, 50))
                .checkAssert((leg, along, cross) -> {
                    Position point = beside(leg, along, cross);
                    Offset there = leg.offset(point);
                    Offset back = leg.reversed().offset(point);
                    assertThat(back.crossTrackNm()).isCloseTo(-there.crossTrackNm(), within(MILLIMETRE_NM));
                    assertThat(back.alongTrackNm())
                            .isCloseTo(leg.lengthNm() - there.alongTrackNm(), within(MILLIMETRE_NM));
                    assertThat(back.course().turnTo(there.course().reciprocal()))
                            .isCloseTo(0, within(1e-9));
                });
    }

    @Test
    void theOffsetIsTheOneThatThePointWasSetOutWith() {
        theory().forAll(legs(), doubles().between(0, 1), doubles().between(-50, 50))
                .checkAssert((leg, along, cross) -> {
                    Offset offset = leg.offset(beside(leg, along, cross));
                    assertThat(offset.crossTrackNm()).isCloseTo(cross, within(MILLIMETRE_NM));
                    assertThat(offset.alongTrackNm())
                            .isCloseTo(along * (leg.lengthNm() + 100) - 50, within(MILLIMETRE_NM));
                });
    }

    @Test
    void theOffsetIsTheLeastDistanceThatTheReferenceLibraryFinds() {
        theory().forAll(legs(), doubles().between(0, 1), doubles().between(-50, 50))
                .checkAssert((leg, along, cross) -> {
                    Position point = beside(leg, along, cross);
                    LeastDistance least = LeastDistance.find(leg, point);
                    Offset exact = leg.offset(point);
                    Offset fast = new LegMap(leg).offset(point);
                    for (Offset offset : List.of(exact, fast)) {
                        assertThat(Math.abs(offset.crossTrackNm()))
                                .isCloseTo(least.distanceM() * METRE_NM, within(METRE_NM));
                        assertThat(offset.alongTrackNm()).isCloseTo(least.alongM() * METRE_NM, within(METRE_NM));
                        if (Math.abs(cross) > 0.01) {
                            assertThat(Math.signum(offset.crossTrackNm())).isEqualTo(Math.signum(cross));
                        }
                    }
                });
    }

    @Test
    void theCrossingLiesOnBothLines() {
        theory().forAll(legs(), directions(), doubles().between(0, 300), directions())
                .checkAssert((leg, away, nm, course) -> {
                    GeodesicLine other = GeodesicLine.from(leg.start().destination(away, nm), course, 100);
                    Optional<Crossing> found = leg.crossing(other);
                    if (found.isEmpty()) {
                        assertThat(leg.offset(other.pointAt(-100)).crossTrackNm())
                                .isCloseTo(0, within(10 * MILLIMETRE_NM));
                        assertThat(leg.offset(other.pointAt(900)).crossTrackNm())
                                .isCloseTo(0, within(10 * MILLIMETRE_NM));
                        return;
                    }
                    Crossing crossing = found.orElseThrow();
                    assertThat(crossing.position().distanceNm(other.pointAt(crossing.alongSecondNm())))
                            .isLessThan(MILLIMETRE_NM);
                    assertThat(crossing.position().distanceNm(leg.pointAt(crossing.alongFirstNm())))
                            .isLessThan(MILLIMETRE_NM);
                    assertThat(crossing.acuteAngleDeg()).isBetween(0.0, 90.0);
                    // The same from the other side.
                    Crossing swapped = other.crossing(leg).orElseThrow();
                    if (crossing.acuteAngleDeg() > 1 && Math.abs(crossing.alongFirstNm()) < 3000) {
                        assertThat(swapped.position().distanceNm(crossing.position()))
                                .isLessThan(MILLIMETRE_NM);
                        assertThat(leg.offset(crossing.position()).crossTrackNm())
                                .isCloseTo(0, within(MILLIMETRE_NM));
                        assertThat(other.offset(crossing.position()).crossTrackNm())
                                .isCloseTo(0, within(MILLIMETRE_NM));
                    }
                });
    }

    @Test
    void circlesAreMetAtTheirRadiusOnBothSidesOfTheFoot() {
        theory().forAll(
                        legs(),
                        doubles().between(0, 1),
                        doubles().between(-50, 50),
                        doubles().between(0.1, 130))
                .checkAssert((leg, along, cross, radius) -> {
                    Position centre = beside(leg, along, cross);
                    List<Double> met = leg.crossingsOfCircle(centre, radius);
                    if (Math.abs(Math.abs(cross) - radius) > MILLIMETRE_NM * 2) {
                        assertThat(met).hasSize(radius > Math.abs(cross) ? 2 : 0);
                    }
                    for (double at : met) {
                        assertThat(leg.pointAt(at).distanceNm(centre)).isCloseTo(radius, within(2 * MILLIMETRE_NM));
                    }
                });
    }

    @Test
    void nothingDependsOnWhereLongitudeIsCountedFrom() {
        theory().forAll(
                        legs(),
                        doubles().between(0, 1),
                        doubles().between(-50, 50),
                        doubles().between(-180, 180))
                .checkAssert((leg, along, cross, shift) -> {
                    Position point = beside(leg, along, cross);
                    GeodesicLine moved =
                            GeodesicLine.from(moved(leg.start(), shift), leg.initialCourse(), leg.lengthNm());
                    Offset here = leg.offset(point);
                    Offset there = moved.offset(moved(point, shift));
                    assertThat(there.crossTrackNm()).isCloseTo(here.crossTrackNm(), within(MILLIMETRE_NM / 100));
                    assertThat(there.alongTrackNm()).isCloseTo(here.alongTrackNm(), within(MILLIMETRE_NM / 100));
                });
    }

    private static Position moved(Position position, double shift) {
        return new Position(position.latitudeDeg(), Angles.turn(position.longitudeDeg() + shift));
    }

    @Test
    void noCornerOfTheGlobeGivesAnythingButNumbers() {
        double[] latitudes = {-90, -89.9999999, -45, -1e-9, 0, 30, 89.9999999, 90};
        double[] longitudes = {-180, -179.9999999, -1e-9, 0, 90, 179.9999999};
        for (double latitude : latitudes) {
            for (double longitude : longitudes) {
                for (double course : new double[] {0, 1e-9, 45, 90, 180, 270, 359.9999999}) {
                    GeodesicLine line =
                            GeodesicLine.from(new Position(latitude, longitude), new TrueDirection(course), 150);
                    LegMap map = new LegMap(line);
                    for (double other : latitudes) {
                        for (double far : longitudes) {
                            everythingIsANumber(line, map, new Position(other, far));
                        }
                    }
                }
            }
        }
    }

    private static void everythingIsANumber(GeodesicLine line, LegMap map, Position point) {
        for (Offset offset : List.of(line.offset(point), map.offset(point))) {
            assertThat(offset.crossTrackNm()).isFinite();
            assertThat(offset.alongTrackNm()).isFinite();
        }
        line.crossing(GeodesicLine.from(point, new TrueDirection(33), 10)).ifPresent(crossing -> {
            assertThat(crossing.alongFirstNm()).isFinite();
            assertThat(crossing.alongSecondNm()).isFinite();
        });
        assertThat(line.crossingsOfCircle(point, 20)).allMatch(Double::isFinite);
    }
}
