package org.rejoin.bridge.geo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The corners: poles, the antimeridian, lines that are one, starts that coincide, circles that only touch. */
class GeodesicLineTest {

    private static final double MILLIMETRE_NM = 0.001 / Geodesics.METRES_PER_NM;
    private static final TrueDirection NORTH = new TrueDirection(0);

    private static GeodesicLine line(double latitude, double longitude, double course) {
        return GeodesicLine.from(new Position(latitude, longitude), new TrueDirection(course), 100);
    }

    @Test
    void aLineNeedsTwoDifferentPoints() {
        Position here = new Position(40, -40);
        assertThatThrownBy(() -> GeodesicLine.between(here, here))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("two different points");
        assertThatThrownBy(() -> GeodesicLine.between(new Position(90, 0), new Position(90, 77)))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> GeodesicLine.between(new Position(10, 180), new Position(10, -180)))
                .isInstanceOf(IllegalArgumentException.class);
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, -1, Double.NaN, Double.POSITIVE_INFINITY, 11_001})
    void aLineNeedsALength(double lengthNm) {
        assertThatThrownBy(() -> GeodesicLine.from(new Position(0, 0), NORTH, lengthNm))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("length");
    }

    @Test
    void pointsThatAreNotNumbersAlongAreRefused() {
        assertThatThrownBy(() -> line(0, 0, 0).pointAt(Double.NaN)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> line(0, 0, 0).courseAt(Double.NaN)).isInstanceOf(IllegalArgumentException.class);
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, 45, -45, 80, -80, 89.9, 90, -90})
    void linesThatAreTheSameGroundDoNotCross(double latitude) {
        GeodesicLine line = line(latitude, 179.9, 50);
        assertThat(line.crossing(line)).isEmpty();
        assertThat(line.crossing(line.reversed())).isEmpty();
        assertThat(line.reversed().crossing(line)).isEmpty();
        for (double along : new double[] {-200, -1, 0.01, 1, 50, 400}) {
            GeodesicLine further = GeodesicLine.from(line.pointAt(along), line.courseAt(along), 10);
            assertThat(line.crossing(further)).as("further by %s", along).isEmpty();
            GeodesicLine between = GeodesicLine.between(line.pointAt(along), line.pointAt(along + 60));
            assertThat(line.crossing(between))
                    .as("between, further by %s", along)
                    .isEmpty();
        }
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, 40, -40, 75, 89.99, 90, -90})
    void linesFromOnePointCrossThere(double latitude) {
        Position start = new Position(latitude, -180);
        for (double course : new double[] {0, 1, 90, 179, 181, 270}) {
            GeodesicLine one = GeodesicLine.from(start, new TrueDirection(33), 50);
            GeodesicLine two = GeodesicLine.from(start, new TrueDirection(33 + course), 50);
            if (course == 0) {
                assertThat(one.crossing(two)).isEmpty();
            } else {
                Crossing crossing = one.crossing(two).orElseThrow();
                assertThat(crossing.position().distanceNm(start)).isLessThan(MILLIMETRE_NM);
                assertThat(crossing.alongFirstNm()).isCloseTo(0, within(MILLIMETRE_NM));
                assertThat(crossing.alongSecondNm()).isCloseTo(0, within(MILLIMETRE_NM));
            }
        }
    }

    @Test
    void meridiansCrossAtTheNearerPole() {
        Crossing north = line(60, -20, 0).crossing(line(55, 140, 0)).orElseThrow();
        assertThat(north.position().latitudeDeg()).isCloseTo(90, within(1e-7));
        assertThat(north.alongFirstNm()).isPositive();
        Crossing south = line(-60, -20, 0).crossing(line(-55, 140, 0)).orElseThrow();
        assertThat(south.position().latitudeDeg()).isCloseTo(-90, within(1e-7));
        assertThat(south.alongFirstNm()).isNegative();
    }

    @Test
    void linesCrossOnTheAntimeridianAsElsewhere() {
        Crossing there = line(70, 179.5, 80).crossing(line(70.5, -179.5, 200)).orElseThrow();
        Crossing here = line(70, -0.5, 80).crossing(line(70.5, 0.5, 200)).orElseThrow();
        assertThat(there.alongFirstNm()).isCloseTo(here.alongFirstNm(), within(MILLIMETRE_NM));
        assertThat(there.alongSecondNm()).isCloseTo(here.alongSecondNm(), within(MILLIMETRE_NM));
        assertThat(there.turnDeg()).isCloseTo(here.turnDeg(), within(1e-9));
    }

    @ParameterizedTest
    @ValueSource(doubles = {1, 0.1, 0.01, 0.001, 0.0001})
    void nearlyParallelLinesCrossWhereTheyWereLaid(double angle) {
        Position crossing = new Position(47, -30);
        GeodesicLine one = GeodesicLine.from(crossing, new TrueDirection(70), 10);
        GeodesicLine two = GeodesicLine.from(crossing, new TrueDirection(70 + angle), 10);
        GeodesicLine first = GeodesicLine.from(one.pointAt(-150), one.courseAt(-150), 300);
        GeodesicLine second = GeodesicLine.from(two.pointAt(-90), two.courseAt(-90), 300);
        Crossing found = first.crossing(second).orElseThrow();
        // Some nanometres of noise over the sine of the angle.
        assertThat(found.position().distanceNm(crossing) * Geodesics.METRES_PER_NM)
                .isLessThan(2e-8 / Math.sin(Math.toRadians(angle)));
        assertThat(found.turnDeg()).isCloseTo(angle, within(1e-6));
    }

    @Test
    void offsetsArePositiveToTheRightAndNegativeBeforeTheStart() {
        GeodesicLine north = line(10, 20, 0);
        Offset right = north.offset(new Position(9.9, 20.1));
        assertThat(right.crossTrackNm()).isPositive();
        assertThat(right.alongTrackNm()).isNegative();
        Offset left = north.offset(new Position(10.1, 19.9));
        assertThat(left.crossTrackNm()).isNegative();
        assertThat(left.alongTrackNm()).isPositive();
    }

    @Test
    void pointsOfTheLineHaveNoCrossTrack() {
        for (double latitude : new double[] {-90, -70, 0, 45, 89.99, 90}) {
            GeodesicLine line = line(latitude, 180, 77);
            for (double along : new double[] {-300, 0, 1e-6, 99, 700}) {
                Offset offset = line.offset(line.pointAt(along));
                assertThat(offset.crossTrackNm()).isCloseTo(0, within(MILLIMETRE_NM / 100));
                assertThat(offset.alongTrackNm()).isCloseTo(along, within(MILLIMETRE_NM / 100));
            }
        }
    }

    @Test
    void theFarSideOfTheGlobeGivesNumbersToo() {
        GeodesicLine line = line(40, -40, 60);
        for (Position point : List.of(
                new Position(-40, 140),
                new Position(-40.001, 140),
                new Position(90, 0),
                line.pointAt(5400),
                line.start().destination(new TrueDirection(150), 5400))) {
            Offset offset = line.offset(point);
            assertThat(offset.crossTrackNm()).isFinite();
            assertThat(offset.alongTrackNm()).isFinite();
        }
    }

    @Test
    void aCircleIsCrossedTwiceTouchedOrMissed() {
        GeodesicLine line = line(52, -30, 80);
        Position centre =
                line.pointAt(40).destination(new TrueDirection(line.courseAt(40).deg() + 90), 20);
        assertThat(line.crossingsOfCircle(centre, 19.999)).isEmpty();
        assertThat(line.crossingsOfCircle(centre, 20))
                .singleElement()
                .satisfies(along -> assertThat(along).isCloseTo(40, within(MILLIMETRE_NM)));
        List<Double> two = line.crossingsOfCircle(centre, 25);
        assertThat(two).hasSize(2);
        assertThat(two.get(0)).isCloseTo(25, within(0.01));
        assertThat(two.get(1)).isCloseTo(55, within(0.01));
        for (double along : two) {
            assertThat(line.pointAt(along).distanceNm(centre)).isCloseTo(25, within(MILLIMETRE_NM));
        }
    }

    @Test
    void aCircleAboutAPointOfTheLineIsCrossedOnBothSidesWhateverItsSize() {
        GeodesicLine line = line(-71, 179.99, 300);
        for (double radius : new double[] {0.001, 0.1, 1, 130, 2000}) {
            List<Double> two = line.crossingsOfCircle(line.pointAt(10), radius);
            assertThat(two).hasSize(2);
            assertThat(two.get(0)).isCloseTo(10 - radius, within(MILLIMETRE_NM));
            assertThat(two.get(1)).isCloseTo(10 + radius, within(MILLIMETRE_NM));
        }
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, -1, Double.NaN, 2001})
    void aCircleNeedsARadius(double radiusNm) {
        assertThatThrownBy(() -> line(0, 0, 0).crossingsOfCircle(new Position(1, 1), radiusNm))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("radius");
    }

    @Test
    void theReversedLineIsTheSameGround() {
        GeodesicLine line = line(61, -178, 250);
        GeodesicLine back = line.reversed();
        assertThat(back.lengthNm()).isEqualTo(line.lengthNm());
        assertThat(back.end().distanceNm(line.start())).isLessThan(MILLIMETRE_NM / 100);
        assertThat(back.toString()).contains("line from");
    }
}
