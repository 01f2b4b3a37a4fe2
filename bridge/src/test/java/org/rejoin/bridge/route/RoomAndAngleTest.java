package org.rejoin.bridge.route;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;

import org.rejoin.bridge.geo.Position;

import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;
import org.junit.jupiter.api.Test;

/** Turns that do not fit, and turns that go back on themselves, by the reference geodesics and the circle of a turn. */
class RoomAndAngleTest {

    private static final double METRES_PER_NM = 1852;

    private static List<Warning.Code> codes(AmendedRoute route) {
        return route.warnings().stream().map(Warning::code).toList();
    }

    private static AmendedRoute onto(String words, double knots) {
        return SouthernChart.hears(words, -51.0, -179.5).speed(knots).work();
    }

    /**
     * Half a mile before BRINE the MOR 063 radial (090 true) crosses V9. The turn ends R tan(turn / 2) past the fix; R is that
     * of 3 degrees a second, GS / (60 pi), or of 25 degrees of bank, V^2 / (g tan 25), whichever is larger (ICAO Doc 8168).
     */
    @Test
    void a_turn_at_the_computed_fix_that_ends_beyond_the_next_fix_is_warned_of() {
        String words = "fly heading 030, intercept the MOR 063 radial, join V9, then as filed";
        AmendedRoute fast = onto(words, 250);
        Position fix = fast.computedFix().orElseThrow().fix().position();
        GeodesicData radial = Geodesic.WGS84.Inverse(-50.9, -179.9, fix.latitudeDeg(), fix.longitudeDeg());
        GeodesicData airway = Geodesic.WGS84.Inverse(fix.latitudeDeg(), fix.longitudeDeg(), -50.9, -178.7);
        double turn = Math.toRadians(airway.azi1 - radial.azi2);
        double leg = airway.s12 / METRES_PER_NM;
        double radius = leg / Math.tan(turn / 2);
        double least = Math.min(
                radius * 60 * Math.PI,
                Math.sqrt(radius * METRES_PER_NM * 9.80665 * Math.tan(Math.toRadians(25))) * 3600 / METRES_PER_NM);
        assertThat(250 / (60 * Math.PI) * Math.tan(turn / 2)).isGreaterThan(leg);
        assertThat(codes(fast)).contains(Warning.Code.NO_ROOM_TO_TURN);
        assertThat(codes(onto(words, least + 2))).contains(Warning.Code.NO_ROOM_TO_TURN);
        assertThat(codes(onto(words, least - 2)))
                .as("at %.0f kt it fits", least - 2)
                .doesNotContain(Warning.Code.NO_ROOM_TO_TURN);
    }

    /** Clockwise about WIL the course is its outward azimuth and 90 degrees. */
    @Test
    void an_arc_met_from_inside_and_behind_is_a_steep_intercept() {
        AmendedRoute route = SouthernChart.hears(
                        "fly heading 330, join the WIL 20 DME arc clockwise, intercept V7, then as filed", -51.2, 179.2)
                .work();
        Intercept met = route.intercept().orElseThrow();
        Position at = met.position();
        GeodesicData out = Geodesic.WGS84.Inverse(-51.0, 179.0, at.latitudeDeg(), at.longitudeDeg());
        GeodesicData track = Geodesic.WGS84.Inverse(-51.2, 179.2, at.latitudeDeg(), at.longitudeDeg());
        double angle = out.azi2 + 90 - track.azi2;
        assertThat(angle).isCloseTo(114.4, within(0.05));
        assertThat(met.angleDeg()).isCloseTo(angle, within(1e-4));
        assertThat(codes(route)).contains(Warning.Code.STEEP_INTERCEPT);
        assertThat(codes(SouthernChart.hears(
                                "fly heading 330, join the WIL 20 DME arc counterclockwise, intercept V7, then as filed",
                                -51.2,
                                179.2)
                        .work()))
                .as("the other way round it is 180 - 114 degrees")
                .doesNotContain(Warning.Code.STEEP_INTERCEPT);
    }

    /** WIL 040 is 069 true; from track 013 outbound is a right turn of 56 degrees, inbound a left turn of 124. */
    @Test
    void a_radial_that_is_flown_inbound_after_all_is_turned_onto_inbound() {
        AmendedRoute route = SouthernChart.hears(
                        "fly heading 340, intercept the WIL 040 radial inbound until 5 DME, then direct TAR",
                        -51.2,
                        179.2)
                .work();
        Intercept met = route.intercept().orElseThrow();
        assertThat(met.turnsRight()).isFalse();
        assertThat(met.angleDeg()).isCloseTo(180 - 56, within(1.0));
        assertThat(codes(route)).contains(Warning.Code.STEEP_INTERCEPT);
    }
}
