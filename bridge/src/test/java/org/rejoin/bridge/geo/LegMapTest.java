package org.rejoin.bridge.geo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Locale;
import java.util.SplittableRandom;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The error study of the per-leg map, and what it does outside its corridor. */
class LegMapTest {

    /** Largest deviations from {@link GeodesicLine#offset}. */
    private static final class Study {
        private double crossM;
        private double alongM;
        private double courseDeg;
        private int points;

        void add(LegMap map, Position point) {
            Offset exact = map.line().offset(point);
            Offset fast = map.offset(point);
            crossM = worse(crossM, fast.crossTrackNm() - exact.crossTrackNm(), Geodesics.METRES_PER_NM);
            alongM = worse(alongM, fast.alongTrackNm() - exact.alongTrackNm(), Geodesics.METRES_PER_NM);
            courseDeg = worse(courseDeg, exact.course().turnTo(fast.course()), 1);
            points++;
        }

        private static double worse(double largest, double difference, double scale) {
            assertThat(difference).isNotNaN();
            return Math.max(largest, Math.abs(difference) * scale);
        }
    }

    /**
     * Random legs of every direction and length, points spread over each corridor and beyond both ends. The two starts of
     * a leg are at most 80 degrees from the equator, so all must have a corridor. The number of points can be raised with
     * -Drejoin.leg-map-points=1000000.
     */
    @ParameterizedTest
    @CsvSource({"200, 20, 0, 0.001", "300, 50, 30, 0.002"})
    void isAsNearToTheExactOffsetAsItSays(double longestNm, double halfWidthNm, double beyondNm, double limitM) {
        int points = Integer.getInteger("rejoin.leg-map-points", 60_000);
        SplittableRandom random = new SplittableRandom(20250101);
        Study study = new Study();
        for (int leg = 0; leg < points / 50; leg++) {
            Position start = new Position(random.nextDouble(-80, 80), random.nextDouble(-180, 180));
            GeodesicLine line = GeodesicLine.from(
                    start, new TrueDirection(random.nextDouble(360)), random.nextDouble(0.01, longestNm));
            if (Math.abs(line.end().latitudeDeg()) > 80) {
                line = GeodesicLine.between(line.pointAt(-line.lengthNm()), start);
            }
            LegMap map = new LegMap(line);
            for (int i = 0; i < 50; i++) {
                double along = random.nextDouble(-beyondNm, line.lengthNm() + beyondNm);
                double cross = i % 5 == 0 ? halfWidthNm : random.nextDouble(halfWidthNm);
                double side = random.nextBoolean() ? 90 : -90;
                Position point = line.pointAt(along)
                        .destination(new TrueDirection(line.courseAt(along).deg() + side), cross);
                assertThat(map.covers(point.normal()))
                        .as("%s of %s", point, line)
                        .isTrue();
                study.add(map, point);
            }
        }
        System.out.printf(
                Locale.ROOT,
                "leg map, legs to %.0f NM, points within %.0f NM, %.0f NM beyond the ends: %d points,"
                        + " largest error %.2g m across, %.2g m along, %.1g degrees of course%n",
                longestNm,
                halfWidthNm,
                beyondNm,
                study.points,
                study.crossM,
                study.alongM,
                study.courseDeg);
        assertThat(study.crossM).isLessThan(limitM);
        assertThat(study.alongM).isLessThan(limitM);
        assertThat(study.courseDeg).isLessThan(1e-4);
    }

    @ParameterizedTest
    @ValueSource(doubles = {80, 85, 88, 89.5, 90, -90, -86})
    void closeToThePolesItIsStillRightWhetherItHasACorridorOrNot(double latitude) {
        SplittableRandom random = new SplittableRandom(5);
        Study study = new Study();
        for (int leg = 0; leg < 60; leg++) {
            Position start = new Position(latitude, random.nextDouble(-180, 180));
            LegMap map = new LegMap(
                    GeodesicLine.from(start, new TrueDirection(random.nextDouble(360)), random.nextDouble(1, 300)));
            for (int i = 0; i < 30; i++) {
                study.add(
                        map, start.destination(new TrueDirection(random.nextDouble(360)), random.nextDouble(0.1, 300)));
            }
        }
        assertThat(study.crossM).isLessThan(0.01);
        assertThat(study.alongM).isLessThan(0.01);
        assertThat(study.courseDeg).isLessThan(1e-4);
    }

    @Test
    void outsideTheCorridorItAsksTheLine() {
        GeodesicLine line = GeodesicLine.from(new Position(45, 179), new TrueDirection(70), 200);
        LegMap map = new LegMap(line);
        for (Position outside : new Position[] {
            line.pointAt(-36),
            line.pointAt(236),
            line.pointAt(100).destination(new TrueDirection(0), 90),
            new Position(-45, -1),
            new Position(-44, 10),
            new Position(90, 0)
        }) {
            assertThat(map.covers(outside.normal())).isFalse();
            assertThat(map.offset(outside)).isEqualTo(line.offset(outside));
        }
    }

    @Test
    void outsideTheCorridorTheFootIsFoundToAMillimetreFromWhereAGlobeWouldHaveIt() {
        GeodesicLine line = GeodesicLine.from(new Position(38, -50), new TrueDirection(70), 130);
        LegMap map = new LegMap(line);
        double millimetreNm = 1e-3 / Geodesics.METRES_PER_NM;
        for (double alongNm : new double[] {-300, -60, -35, 40, 165, 400}) {
            for (double offNm : new double[] {-65, -20, 0.5, 20, 65, 200}) {
                Position outside = line.pointAt(alongNm)
                        .destination(new TrueDirection(line.courseAt(alongNm).deg() + 90), offNm);
                Offset exact = line.offset(outside);
                Offset near = line.offsetNear(outside.normal(), map.alongAboutNm(outside.normal()));
                assertThat(near.crossTrackNm()).isCloseTo(exact.crossTrackNm(), within(millimetreNm));
                assertThat(near.alongTrackNm()).isCloseTo(exact.alongTrackNm(), within(millimetreNm));
                assertThat(near.course().deg()).isCloseTo(exact.course().deg(), within(1e-5));
                // The radius of curvature differs by up to 0.7 % from the mean one: 2.3 NM in 335 NM from the middle.
                assertThat(map.alongAboutNm(outside.normal())).isCloseTo(exact.alongTrackNm(), within(2.5));
            }
        }
    }

    @Test
    void aLegTooLongOrOverThePoleHasNoCorridor() {
        GeodesicLine tooLong = GeodesicLine.from(new Position(10, 10), new TrueDirection(70), 301);
        assertThat(new LegMap(tooLong).covers(tooLong.pointAt(20).normal())).isFalse();
        assertThat(new LegMap(tooLong).offset(tooLong.pointAt(20))).isEqualTo(tooLong.offset(tooLong.pointAt(20)));
        GeodesicLine overThePole = GeodesicLine.from(new Position(88, 10), new TrueDirection(0.5), 240);
        assertThat(new LegMap(overThePole).covers(overThePole.pointAt(20).normal()))
                .isFalse();
    }

    @Test
    void atTheEdgeOfTheCorridorThereIsNoStep() {
        GeodesicLine line = GeodesicLine.from(new Position(-70, 20), new TrueDirection(200), 300);
        LegMap map = new LegMap(line);
        TrueDirection right = new TrueDirection(line.courseAt(10).deg() + 90);
        double inside = 50;
        double outside = 52;
        while (outside - inside > 1e-9) {
            double middle = (inside + outside) / 2;
            if (map.covers(line.pointAt(10).destination(right, middle).normal())) {
                inside = middle;
            } else {
                outside = middle;
            }
        }
        Offset in = map.offset(line.pointAt(10).destination(right, inside));
        Offset out = map.offset(line.pointAt(10).destination(right, outside));
        assertThat(in.crossTrackNm()).isCloseTo(out.crossTrackNm(), within(1e-6));
        assertThat(in.alongTrackNm()).isCloseTo(out.alongTrackNm(), within(1e-6));
    }
}
