package org.rejoin.console.lesson;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.ClearanceReader;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Leg;
import org.rejoin.bridge.route.RouteAmender;
import org.rejoin.bridge.route.Situation;

import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * Validation: computed fix and intercept of the built-in lessons lie on their lines within 1 m, by the inverse problem of
 * GeographicLib alone (C. F. F. Karney, Algorithms for geodesics, 2013).
 */
class BuiltInGeometryTest {

    @ParameterizedTest
    @EnumSource(BuiltInLesson.class)
    void interceptAndComputedFixLieOnTheirLines(BuiltInLesson name) throws Exception {
        Lesson lesson = LessonReader.read(name.lessonName());
        Lesson.Start start = lesson.start().orElseThrow();
        AmendedRoute route = RouteAmender.amend(
                lesson.chart(),
                lesson.filed(),
                ClearanceReader.read(lesson.amendments().get(0).say(), lesson.chart(), lesson.filed()),
                new Situation(
                        start.position(),
                        OptionalDouble.of(start.altitudeFt()),
                        start.speedKt(),
                        Optional.empty(),
                        lesson.wind(),
                        lesson.date().orElseThrow()));
        Position met = route.intercept().orElseThrow().position();
        assertThat(offLineM(
                        start.position(),
                        route.heading().orElseThrow().ground().track().deg(),
                        met))
                .isCloseTo(0, within(1.0));
        route.course()
                .ifPresent(course -> assertThat(offLineM(
                                course.station().position(),
                                course.radial().deg()
                                        + course.station()
                                                .declination()
                                                .orElseThrow()
                                                .eastDeg(),
                                met))
                        .isCloseTo(0, within(1.0)));
        route.legs().stream()
                .filter(Leg.DmeArc.class::isInstance)
                .map(Leg.DmeArc.class::cast)
                .forEach(arc -> {
                    double radiusM = arc.distanceNm() * 1852;
                    Position station = arc.station().position();
                    assertThat(inverse(station, met).s12).isCloseTo(radiusM, within(1.0));
                    assertThat(inverse(
                                            station,
                                            route.computedFix()
                                                    .orElseThrow()
                                                    .fix()
                                                    .position())
                                    .s12)
                            .isCloseTo(radiusM, within(1.0));
                });
        route.computedFix().filter(fix -> route.course().isPresent()).ifPresent(fix -> {
            Position at = fix.fix().position();
            assertThat(offLineM(
                            route.course().orElseThrow().station().position(),
                            route.course()
                                    .orElseThrow()
                                    .outbound()
                                    .initialCourse()
                                    .deg(),
                            at))
                    .isCloseTo(0, within(1.0));
            Waypoint from = fix.segment().from();
            double airway = inverse(from.position(), fix.segment().to().position()).azi1;
            assertThat(offLineM(from.position(), airway, at)).isCloseTo(0, within(1.0));
        });
    }

    /** Distance of a point from a geodesic through a start, metres: reduced length times the angle between. */
    private static double offLineM(Position start, double azimuthDeg, Position point) {
        GeodesicData line = inverse(start, point);
        return line.m12 * Math.sin(Math.toRadians(line.azi1 - azimuthDeg));
    }

    private static GeodesicData inverse(Position from, Position to) {
        return Geodesic.WGS84.Inverse(
                from.latitudeDeg(),
                from.longitudeDeg(),
                to.latitudeDeg(),
                to.longitudeDeg(),
                net.sf.geographiclib.GeodesicMask.ALL);
    }
}
