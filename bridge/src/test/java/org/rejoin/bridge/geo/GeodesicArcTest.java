package org.rejoin.bridge.geo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;

import org.junit.jupiter.api.Test;

/** DME arcs: crossings against FAA Order 8260.54A, appendix 2, lengths and offsets against small steps of geodesics. */
class GeodesicArcTest {

    private static final Position AAA = new Position(38, -55);

    @Test
    void a_course_meets_an_arc_where_the_faa_order_says() { // "geodesic arc intersect"; tolerance of its 1e-5 arc
        // second
        int met = 0;
        for (CheckTable.Row row : CheckTable.read("faa-geodesic-circle.csv").rows()) {
            if (row.isEmpty("x1_lat")) {
                continue;
            }
            Position centre = row.position("centre_lat", "centre_lon");
            GeodesicLine line = GeodesicLine.from(
                    row.position("geodesic_lat", "geodesic_lon"), row.direction("geodesic_azimuth"), 100);
            Position one = row.position("x1_lat", "x1_lon");
            List<Double> along = line.crossingsOfCircle(centre, row.number("radius_nm"));
            assertThat(along).as(row.text("x1_lat")).isNotEmpty();
            assertThat(along.stream()
                            .mapToDouble(at -> line.pointAt(at).distanceNm(one))
                            .min()
                            .orElseThrow())
                    .isLessThan(1e-6);
            met++;
        }
        assertThat(met).isGreaterThan(20);
    }

    @Test
    void an_arc_is_as_long_as_many_short_geodesics() {
        for (double radius : new double[] {7, 15, 60}) {
            for (double sweep : new double[] {-120, -30, 45, 200}) {
                GeodesicArc arc = new GeodesicArc(AAA, radius, new TrueDirection(300), sweep);
                double sum = 0;
                int pieces = 20_000;
                for (int i = 0; i < pieces; i++) {
                    sum += arc.pointAt(arc.lengthNm() * i / pieces)
                            .distanceNm(arc.pointAt(arc.lengthNm() * (i + 1) / pieces));
                }
                assertThat(arc.lengthNm()).isCloseTo(sum, within(sum * 2e-5));
            }
        }
    }

    @Test
    void right_of_course_is_inside_of_a_clockwise_arc() {
        GeodesicArc right = new GeodesicArc(AAA, 15, new TrueDirection(350), 60);
        Position inside = AAA.destination(new TrueDirection(10), 14);
        Offset offset = right.offset(inside);
        assertThat(offset.crossTrackNm()).isCloseTo(1, within(1e-9));
        assertThat(offset.alongTrackNm()).isCloseTo(right.lengthNm() / 3, within(1e-9));
        assertThat(offset.course().deg()).isCloseTo(100.1, within(0.2));
        GeodesicArc left = new GeodesicArc(AAA, 15, new TrueDirection(50), -60);
        assertThat(left.offset(inside).crossTrackNm()).isCloseTo(-1, within(1e-9));
        assertThat(left.offset(inside).alongTrackNm()).isCloseTo(left.lengthNm() * 2 / 3, within(1e-9));
        assertThat(left.offset(AAA.destination(new TrueDirection(60), 15)).alongTrackNm())
                .isNegative();
        assertThat(right.endAzimuth().deg()).isCloseTo(50, within(1e-9));
    }

    @Test
    void the_course_along_an_arc_is_the_way_to_its_next_point() {
        GeodesicArc arc = new GeodesicArc(AAA, 20, new TrueDirection(100), -90);
        TrueDirection small = arc.pointAt(10).to(arc.pointAt(10.001)).initial();
        assertThat(Math.abs(arc.courseAt(10).turnTo(small))).isLessThan(0.01);
    }

    @Test
    void nonsense_is_refused() {
        assertThatThrownBy(() -> new GeodesicArc(AAA, 0, new TrueDirection(0), 10))
                .hasMessageContaining("(0, 2000]");
        assertThatThrownBy(() -> new GeodesicArc(AAA, 10, new TrueDirection(0), 0))
                .hasMessageContaining("is 0");
    }

    @Test
    void slant_range() { // Instrument Flying Handbook's 3000 ft and 0.5 NM, recomputed 0.703
        assertThat(SlantRange.slantNm(0.5, 3000)).isCloseTo(0.703, within(5e-4));
        assertThat(SlantRange.groundNm(15, 6076.12)).isCloseTo(14.967, within(1e-3));
        assertThat(SlantRange.groundNm(1, 12_000)).isZero();
    }
}
