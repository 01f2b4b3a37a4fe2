package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;

import org.rejoin.bridge.Amendment;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.ocean.ClosedFormFlight;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.bridge.ocean.Ocean.Leg;
import org.rejoin.protocol.AircraftState;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Each shape of clearance, flown soundly in closed form, is complete and has no fault. */
class ClearanceShapesTest {

    private static Position point(String ident) {
        return Ocean.CHART.waypoints(ident).stream()
                .findFirst()
                .map(Waypoint::position)
                .orElseThrow();
    }

    private static Flown fly(ClosedFormFlight flight, double hz, String filed, Amendment... amendments) {
        Flown flown = Flown.fly(flight.sample(hz), List.of(amendments), filed);
        FeedFairnessTest.inOrder(flown);
        return flown;
    }

    private static Amendment say(double atS, String format, Object... values) {
        return Ocean.say(atS, String.format(Locale.ROOT, format, values));
    }

    private static void sound(Flown flown) {
        assertThat(flown.faults()).as("%s", flown.events()).isEmpty();
        assertThat(flown.all(FlightEvent.AmendmentComplete.class)).hasSize(1);
        assertThat(flown.grade().verdict()).as("%s", flown.grade()).isEqualTo(Verdict.MET);
    }

    /** Onto a line at an angle, with a sound lead, meeting it at a distance along. */
    private static ClosedFormFlight onto(GeodesicLine line, double meetsNm, double angle, int side, double awayNm) {
        Position meets = line.pointAt(meetsNm);
        double track = line.courseAt(meetsNm).deg() - side * angle;
        Position start = meets.destination(new TrueDirection(track + 180), awayNm);
        ClosedFormFlight flight =
                new ClosedFormFlight(start, start.to(meets).initial().deg(), 120, Ocean.CALM);
        flight.miles(awayNm - flight.radiusNm() * Math.tan(Math.toRadians(angle / 2)));
        return flight.turnTo(line.offset(flight.end().position()).course().deg());
    }

    private static ClosedFormFlight onward(ClosedFormFlight flight, GeodesicLine line, GeodesicLine next) {
        double turn = Angles.turn(
                next.initialCourse().deg() - line.courseAt(line.lengthNm()).deg());
        double lead = flight.radiusNm() * Math.tan(Math.toRadians(Math.abs(turn) / 2));
        flight.miles(line.lengthNm() - line.offset(flight.end().position()).alongTrackNm() - lead);
        return flight.turnTo(next.offset(flight.end().position()).course().deg());
    }

    @Test
    void shapeAHeadingToAnAirway() {
        ClosedFormFlight flight = onto(Ocean.V40, 30, 40, -1, 7).seconds(120);
        AircraftState first = flight.sample(1).get(0);
        sound(fly(
                flight,
                1,
                Ocean.FILED,
                say(3, "fly heading %03d, intercept V40, resume own navigation", Ocean.magneticHeading(first))));
    }

    /** The heading drifts off so that the other leg of a dog-leg is met: before the bend, or after it. */
    @ParameterizedTest
    @CsvSource({"28, 55", "3, 35", "10, 30"})
    void shapeADogLeg(double meetsNm, double angle) {
        GeodesicLine first = GeodesicLine.between(point("BENDA"), point("BENDB"));
        GeodesicLine second = GeodesicLine.between(point("BENDB"), point("BENDC"));
        boolean early = meetsNm > 20;
        GeodesicLine line = early ? first : second;
        for (int off : new int[] {-4, 0, 4}) {
            ClosedFormFlight flight = onto(line, meetsNm, angle, 1, 12);
            if (early) {
                onward(flight, first, second);
            }
            flight.seconds(150);
            int heading = Ocean.magneticHeading(flight.sample(1).get(0)) + off;
            for (double hz : new double[] {1, 4}) {
                Flown flown = fly(
                        flight,
                        hz,
                        "XNOR DCT BENDA V50 BENDC DCT XSOU",
                        say(3, "fly heading %03d, intercept V50, resume own navigation", heading));
                sound(flown);
                assertThat(flown.all(FlightEvent.AirwayJoined.class).get(0).toward())
                        .isEqualTo(early ? "BENDB" : "BENDC");
            }
        }
    }

    @Test
    void shapeBRadialInbound() {
        // The 282 radial of AAA by its declination of 12 west is 270 true; flown inbound to AAA, then V60 is not
        // needed.
        GeodesicLine inbound = GeodesicLine.between(Ocean.RADIAL.pointAt(30), Ocean.RADIAL.start());
        ClosedFormFlight flight = onto(inbound, 10, 45, 1, 7);
        flight.miles(12);
        AircraftState first = flight.sample(1).get(0);
        Flown flown = fly(
                flight,
                2,
                "XNOR DCT AAA DCT XSOU",
                say(
                        3,
                        "fly heading %03d, intercept the AAA 102 radial inbound, then as filed",
                        Ocean.magneticHeading(first)));
        assertThat(flown.all(FlightEvent.InterceptAchieved.class))
                .as("%s", flown.events())
                .hasSize(1);
        assertThat(flown.faults())
                .doesNotContain(FaultCode.WRONG_DIRECTION, FaultCode.TURNED_EARLY, FaultCode.OVERSHOOT);
    }

    /** Told to turn to a fix abeam, behind, or nearly ahead: the pilot turns to it and flies there. */
    @ParameterizedTest
    @ValueSource(doubles = {0, 5, -40, 90, 150, -178})
    void directToAFix(double turn) {
        Position start = new Position(30.3, -44.9);
        Position fix = point("NORTH");
        double there = start.to(fix).initial().deg();
        ClosedFormFlight flight = new ClosedFormFlight(start, Angles.circle(there - turn), 120, Ocean.CALM);
        flight.seconds(12);
        // To a fix from outside the circle flown: turn until it is ahead.
        double step = turn == 0 ? 0 : Math.signum(turn);
        for (int i = 0; i < 400 && step != 0; i++) {
            double bearing = flight.end().position().to(fix).initial().deg();
            double left = Angles.turn(bearing - flight.end().trackDeg());
            if (Math.abs(left) < 0.5) {
                break;
            }
            flight.turn(step * Math.min(0.5, Math.max(0.01, left * step < 0 ? 0.5 : left * step)));
        }
        GeodesicLine direct = GeodesicLine.between(flight.end().position(), fix);
        onward(flight, direct, Ocean.V40).seconds(90);
        Flown flown = fly(flight, 1, Ocean.FILED, say(2, "cleared direct NORTH, then as filed"));
        sound(flown);
        assertThat(flown.all(FlightEvent.FixSequenced.class).get(0).ident()).isEqualTo("NORTH");
        Flown fast = fly(flight, 10, Ocean.FILED, say(2, "cleared direct NORTH, then as filed"));
        assertThat(fast.all(FlightEvent.InterceptAchieved.class).get(0).timeS())
                .isCloseTo(
                        flown.all(FlightEvent.InterceptAchieved.class).get(0).timeS(),
                        org.assertj.core.data.Offset.offset(0.3));
    }

    @Test
    void headingOnly() {
        ClosedFormFlight flight = new ClosedFormFlight(new Position(30.3, -44.9), 100, 120, Ocean.CALM);
        flight.seconds(10).turn(40).seconds(60);
        int heading = (Ocean.magneticHeading(flight.sample(1).get(0)) + 40) % 360;
        Flown flown = fly(flight, 1, Ocean.FILED, say(2, "fly heading %03d", heading));
        sound(flown);
        assertThat(flown.all(FlightEvent.HeadingEstablished.class)).hasSize(1);
        Flown ignored = fly(
                new ClosedFormFlight(new Position(30.3, -44.9), 100, 120, Ocean.CALM).seconds(80),
                1,
                Ocean.FILED,
                say(2, "fly heading %03d", heading));
        assertThat(ignored.faults()).containsExactly(FaultCode.NOT_ACHIEVED);
    }

    @Test
    void altitudeOnlyLeavesTheRouteAsItIs() {
        Leg leg = Ocean.toRadial(45, -1, 120, Ocean.CALM).toLead().turnOn().asCleared();
        leg.flight.altitude(t -> Math.min(7000, 6000 + Math.max(0, t - 70) * 10));
        String clearance = Ocean.radialClearance(leg.flight.sample(1).get(0));
        Flown flown = fly(leg.flight, 1, Ocean.FILED, say(3, clearance), say(60, "climb and maintain 7000"));
        sound(flown);
        assertThat(flown.all(FlightEvent.AmendmentReplaced.class)).isEmpty();
        assertThat(flown.all(FlightEvent.InterceptAchieved.class)).hasSize(1);

        ClosedFormFlight low = new ClosedFormFlight(new Position(30.3, -44.9), 100, 120, Ocean.CALM).seconds(300);
        Flown never = fly(low, 1, Ocean.FILED, say(3, "climb and maintain 7000"));
        assertThat(never.faults()).containsExactly(FaultCode.NOT_ACHIEVED);
        low.altitude(t -> Math.min(7000, 6000 + t * 10));
        sound(fly(low, 1, Ocean.FILED, say(3, "climb and maintain 7000")));
    }

    @Test
    void aSecondClearanceReplacesTheFirst() {
        Leg leg = Ocean.toRadial(45, -1, 120, Ocean.CALM).toLead().turnOn();
        leg.flight.seconds(60);
        // Not abeam enough for the bearing to change in the turn by more than a degree.
        leg.flight.turnTo(
                leg.flight.end().position().to(point("SOUTH")).initial().deg());
        GeodesicLine direct = GeodesicLine.between(leg.flight.end().position(), point("SOUTH"));
        onward(leg.flight, direct, GeodesicLine.between(point("SOUTH"), point("XSOU")))
                .seconds(90);
        String clearance = Ocean.radialClearance(leg.flight.sample(1).get(0));
        Flown flown = fly(leg.flight, 1, Ocean.FILED, say(3, clearance), say(230, "cleared direct SOUTH"));
        assertThat(flown.all(FlightEvent.AmendmentReplaced.class)).hasSize(1);
        assertThat(flown.all(FlightEvent.ClearanceIssued.class)).hasSize(2);
        sound(flown);
    }

    @Test
    void everyPhaseIsReached() {
        Leg leg = Ocean.toRadial(45, -1, 120, Ocean.CALM).toLead().turnOn().asCleared();
        Flown flown = Flown.fly(leg.flight.sample(2));
        // All but the hold, which has flights of its own.
        assertThat(flown.progress().stream().map(Point::phase).distinct())
                .containsExactly(Arrays.stream(Point.Phase.values())
                        .filter(phase -> phase != Point.Phase.HOLDING)
                        .toArray(Point.Phase[]::new));
    }
}
