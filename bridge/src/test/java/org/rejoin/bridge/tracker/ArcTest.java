package org.rejoin.bridge.tracker;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;

import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightInstant;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicArc;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.ocean.ClosedFormFlight;
import org.rejoin.bridge.ocean.Ocean;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** DME arcs in closed form: about AAA at 45 NM, joined from outside at a right angle, left onto V40. */
class ArcTest {

    private static final Position AAA = new Position(30, -45);
    private static final double RADIUS = 45;
    private static final double KT = 120;
    private static final GeodesicArc ARC = new GeodesicArc(AAA, RADIUS, new TrueDirection(30), 60);

    /** Toward the station from 6 NM outside the arc, on the azimuth 30. */
    private static ClosedFormFlight inward() {
        Position start = AAA.destination(new TrueDirection(30), RADIUS + 6);
        return new ClosedFormFlight(start, start.to(AAA).initial().deg(), KT, Ocean.CALM);
    }

    /** A turn onto the arc whose lead is the radius of the turn, or begun so much later. */
    private static ClosedFormFlight onto(double lateNm) {
        ClosedFormFlight flight = inward();
        flight.miles(6 - flight.radiusNm() + lateNm);
        return align(flight);
    }

    /** Onto the course abeam, which changes a little while it is turned to. */
    private static ClosedFormFlight align(ClosedFormFlight flight) {
        for (int i = 0; i < 3; i++) {
            flight.turnTo(ARC.courseAbeam(flight.end().position()).deg());
        }
        return flight;
    }

    /** Along a circle about the station as far out as the flight is now. */
    private static ClosedFormFlight along(ClosedFormFlight flight, double miles) {
        double out = AAA.distanceNm(flight.end().position());
        return flight.turn(Math.toDegrees(miles / out), Math.toDegrees(KT / 3600 / out));
    }

    /** To V40, and round the corner. */
    private static ClosedFormFlight toAirway(ClosedFormFlight flight) {
        Position leaves =
                Ocean.V40.pointAt(Ocean.V40.crossingsOfCircle(AAA, RADIUS).get(0));
        double course = ARC.courseAbeam(leaves).deg();
        double turn = Math.abs(Angles.turn(180 - course));
        double toGo = RADIUS
                * Math.toRadians(Angles.turn(AAA.to(leaves).initial().deg()
                        - AAA.to(flight.end().position()).initial().deg()));
        along(flight, toGo - flight.radiusNm() * Math.tan(Math.toRadians(turn / 2)));
        return flight.turnTo(180).seconds(60);
    }

    private static Flown fly(ClosedFormFlight flight) {
        var states = flight.sample(2);
        return Flown.fly(
                states,
                List.of(Ocean.say(
                        2,
                        String.format(
                                Locale.ROOT,
                                "fly heading %03d, intercept the AAA 45 mile arc, arc clockwise, join V40, then as filed",
                                Ocean.magneticHeading(states.get(0))))));
    }

    @Test
    void joinedTrackedAndLeftOntoTheAirway() {
        ClosedFormFlight flight = toAirway(onto(0));
        Flown flown = fly(flight);
        assertThat(flown.faults()).as("%s", flown.events()).isEmpty();
        assertThat(flown.names())
                .containsSubsequence(
                        "intercept_achieved", "fix_sequenced", "airway_joined", "route_resumed", "amendment_complete");
        assertThat(flown.all(FlightEvent.InterceptAchieved.class).get(0).crossTrackNm())
                .isCloseTo(0, Offset.offset(0.02));
        double fixS = flown.all(FlightEvent.FixSequenced.class).get(0).timeS();
        assertThat(flown.points().stream()
                        .filter(point -> point.established() && point.legIndex() == 1 && point.timeS() < fixS - 20)
                        .mapToDouble(point -> Math.abs(point.crossTrackNm()))
                        .max()
                        .orElseThrow())
                .as("slant range at 6000 ft, 45 NM out: 0.011 NM more than over the ground, and the end of the turn")
                .isLessThan(0.2);
    }

    /** 1 NM: FAA-S-ACS-8C, IR.V.A.S6. The aircraft drifts outward and flies on there. */
    @ParameterizedTest
    @CsvSource({"0.93, false", "1.07, true"})
    void offTheArc(double offNm, boolean outside) {
        ClosedFormFlight flight = along(onto(0), 3);
        // A straight way d at 12 degrees off the tangent ends sqrt(R^2 + d^2 + 2 R d sin 12) from the station; the
        // turns at
        // its ends carry a little farther.
        double out = RADIUS + offNm - 2 * flight.radiusNm() * (1 - Math.cos(Math.toRadians(12)));
        double sine = RADIUS * Math.sin(Math.toRadians(12));
        flight.turn(-12).miles(-sine + Math.sqrt(sine * sine + out * out - RADIUS * RADIUS));
        align(flight);
        double reached = AAA.distanceNm(flight.end().position()) - RADIUS;
        assertThat(reached > 1).as("%.3f NM off", reached).isEqualTo(outside);
        along(flight, 2);
        Flown flown = fly(flight);
        assertThat(flown.names().contains("course_deviation_began"))
                .as("%.3f NM: %s", reached, flown.events())
                .isEqualTo(outside);
    }

    /** Carried past by more than half a mile is an overshoot; the turn begins late by as much and ends inside the arc. */
    @ParameterizedTest
    @CsvSource({"0.4, false", "0.62, true"})
    void carriedPastTheArc(double lateNm, boolean fault) {
        ClosedFormFlight flight = onto(lateNm);
        flight.turn(-30).miles(lateNm / Math.sin(Math.toRadians(30)));
        align(flight);
        Flown flown = fly(along(flight, 5));
        assertThat(flown.faults().contains(FaultCode.OVERSHOOT))
                .as("%s", flown.events())
                .isEqualTo(fault);
    }

    @Test
    void flownThrough() {
        ClosedFormFlight flight = inward().miles(9);
        align(flight).seconds(30);
        assertThat(fly(flight).faults()).contains(FaultCode.FLOWN_THROUGH);
    }

    @Test
    void theWrongWayRound() {
        ClosedFormFlight flight = inward();
        flight.miles(6 - flight.radiusNm());
        flight.turnTo(ARC.courseAbeam(flight.end().position()).reciprocal().deg());
        double out = AAA.distanceNm(flight.end().position());
        flight.turn(-Math.toDegrees(3 / out), Math.toDegrees(KT / 3600 / out));
        assertThat(fly(flight).faults()).contains(FaultCode.WRONG_DIRECTION);
    }

    /**
     * A DME 6000 ft below shows 1 NM right over it, 12 NM where the ground distance is 11.96 (Pythagoras; slant range:
     * Instrument Flying Handbook, FAA-H-8083-15B, chapter 9).
     */
    @Test
    void offTheArcByWhatTheDmeShows() {
        GeodesicArc arc = new GeodesicArc(AAA, 12, new TrueDirection(0), 90);
        CourseLine line = new CourseLine.Arc(arc, 12, 0);
        Position place = AAA.destination(new TrueDirection(20), 11.0);
        assertThat(line.measure(at(place, Double.NaN)).crossTrackNm())
                .as("over the ground, inside: right of a clockwise arc")
                .isCloseTo(1.0, Offset.offset(1e-6));
        double slant = Math.hypot(11.0, 20_000 * 0.3048 / 1852);
        assertThat(line.measure(at(place, 20_000)).crossTrackNm()).isCloseTo(12 - slant, Offset.offset(1e-6));
        CourseLine other = new CourseLine.Arc(arc.reversed(), 12, 0);
        assertThat(other.measure(at(place, 20_000)).crossTrackNm())
                .as("flown the other way it lies to the left")
                .isCloseTo(slant - 12, Offset.offset(1e-6));
        assertThat(other.measure(at(place, Double.NaN)).courseDeg())
                .isCloseTo(Angles.circle(arc.courseAbeam(place).deg() + 180), Offset.offset(1e-6));
    }

    private static FlightInstant at(Position place, double feet) {
        return Instants.at(0, place, 90, 90, KT, feet);
    }
}
