package org.rejoin.bridge.route;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Locale;
import java.util.Random;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.ClearanceException;

import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;
import org.junit.jupiter.api.Test;

/**
 * The heading that is proposed where ATC assigns none. The angle at which a course is to be met is that of the Instrument
 * Flying Handbook (FAA-H-8083-15B, chapter 9): double the degrees off, not under 20 nor over 90. Angles and places are
 * measured with GeographicLib.
 */
class ProposedHeadingTest {

    private static final double BBB_DECLINATION = -17.0;

    private static List<Warning.Code> codes(AmendedRoute route) {
        return route.warnings().stream().map(Warning::code).toList();
    }

    private static double turn(double deg) {
        return Math.IEEEremainder(deg, 360);
    }

    /** Between the track from the aircraft and the course, where they meet; the course is that of a geodesic to or from a point. */
    private static double angleDeg(GeodesicData here, double courseDeg) {
        return Math.abs(turn(courseDeg - here.azi2));
    }

    /** The aircraft is west of BBB, 4 to 44 degrees off the radial that it is to join, in calm air and in wind. */
    @Test
    void a_radial_is_met_at_double_the_degrees_off_and_never_under_twenty() {
        Random random = new Random(16);
        for (int i = 0; i < 120; i++) {
            double off = (random.nextBoolean() ? 1 : -1) * (4 + 40 * random.nextDouble());
            double away = 15 + 30 * random.nextDouble();
            int radial = 250 + random.nextInt(60);
            GeodesicData out = Geodesic.WGS84.Direct(39.0, -53.8, radial + off + BBB_DECLINATION, away * 1852);
            String words = String.format(Locale.ROOT, "intercept the BBB %03d radial inbound", radial);
            OceanCase asked = OceanCase.of(OceanCase.ON_V31, words, out.lat2, out.lon2);
            boolean calm = i % 2 == 0;
            AmendedRoute route = (calm ? asked : asked.wind(random.nextInt(360), 25)).work();
            Intercept met = route.intercept().orElseThrow();
            GeodesicData track = Geodesic.WGS84.Inverse(
                    out.lat2,
                    out.lon2,
                    met.position().latitudeDeg(),
                    met.position().longitudeDeg());
            GeodesicData inbound = Geodesic.WGS84.Inverse(
                    met.position().latitudeDeg(), met.position().longitudeDeg(), 39.0, -53.8);
            double angle = angleDeg(track, inbound.azi1);
            String where = String.format(Locale.ROOT, "%d: %s, %.1f off at %.1f NM", i, words, off, away);
            assertThat(angle).as(where).isBetween(19.999, 90.001);
            assertThat(route.heading().orElseThrow().magnetic().deg() % 5)
                    .as(where)
                    .isZero();
            assertThat(codes(route))
                    .as(where)
                    .doesNotContain(Warning.Code.SHALLOW_INTERCEPT, Warning.Code.STEEP_INTERCEPT);
            if (calm) {
                // In fives, and no farther than one of them below the least.
                double wanted = Math.min(90, Math.max(20, 2 * Math.abs(off)));
                assertThat(angle).as(where).isCloseTo(wanted, within(5.0));
            }
        }
    }

    /** V31 bends by 50 degrees at CORAL; whoever is near the bend meets one leg well and another at a slant. */
    @Test
    void an_airway_that_bends_is_met_at_thirty_to_forty_five_degrees_where_any_heading_does()
            throws ClearanceException {
        Waypoint coral = OceanCase.fix("CORAL", 38.6, -54.3);
        Waypoint end = OceanCase.fix("BLEAK", 38.3, -53.5);
        Chart chart = new Chart(
                "a bend",
                List.of(OceanCase.AAA),
                List.of(OceanCase.fix("CORAL", 38.6, -54.3), OceanCase.fix("BLEAK", 38.3, -53.5)),
                List.of(),
                List.of(OceanCase.airway("V31", 0, OceanCase.AAA, coral, end)));
        Random random = new Random(513);
        int usual = 0;
        for (int i = 0; i < 60; i++) {
            GeodesicData at = Geodesic.WGS84.Direct(
                    38.6, -54.3, 360 * random.nextDouble(), (6 + 24 * random.nextDouble()) * 1852);
            AmendedRoute route;
            try {
                route = OceanCase.of("AAA V31 BLEAK", "intercept V31, then as filed", at.lat2, at.lon2)
                        .chart(chart)
                        .amended();
            } catch (ClearanceException e) {
                continue; // no heading at all meets it from there
            }
            double met = route.intercept().orElseThrow().angleDeg();
            if (canBeMetAt(33, 44, at, List.of(OceanCase.AAA, coral, end))) {
                usual++;
                assertThat(met).as("place %d: %.1f degrees", i, met).isBetween(30.0, 47.5);
            }
        }
        assertThat(usual).isGreaterThan(20);
    }

    /** Whether on six tracks in a row, a degree apart, the leg that is met first is met at such an angle; on a flat sea. */
    private static boolean canBeMetAt(double fromDeg, double toDeg, GeodesicData at, List<Waypoint> points) {
        int inRow = 0;
        for (int track = 0; track < 366; track++) {
            double nearest = Double.MAX_VALUE;
            double angle = 180;
            for (int leg = 0; leg + 1 < points.size(); leg++) {
                double[] from = flat(at, points.get(leg));
                double[] to = flat(at, points.get(leg + 1));
                double east = to[0] - from[0];
                double north = to[1] - from[1];
                double sin = Math.sin(Math.toRadians(track));
                double cos = Math.cos(Math.toRadians(track));
                double across = sin * north - cos * east;
                double ahead = (from[0] * north - from[1] * east) / across;
                double share = (from[0] * cos - from[1] * sin) / across;
                if (ahead > 0 && ahead < nearest && share > 0.01 && share < 0.99) {
                    nearest = ahead;
                    angle = Math.abs(turn(Math.toDegrees(Math.atan2(east, north)) - track));
                }
            }
            inRow = angle >= fromDeg && angle <= toDeg ? inRow + 1 : 0;
            if (inRow == 6) {
                return true;
            }
        }
        return false;
    }

    /** East and north of a place, nautical miles. */
    private static double[] flat(GeodesicData at, Waypoint point) {
        GeodesicData way = Geodesic.WGS84.Inverse(
                at.lat2,
                at.lon2,
                point.position().latitudeDeg(),
                point.position().longitudeDeg());
        double miles = way.s12 / 1852;
        return new double[] {miles * Math.sin(Math.toRadians(way.azi1)), miles * Math.cos(Math.toRadians(way.azi1))};
    }
}
