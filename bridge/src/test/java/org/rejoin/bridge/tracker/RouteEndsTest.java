package org.rejoin.bridge.tracker;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.function.DoubleUnaryOperator;

import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.ocean.ClosedFormFlight;
import org.rejoin.bridge.ocean.Ocean;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Crossings, clearance limits and departs, on flights in closed form. */
class RouteEndsTest {

    private static final Position NORTH = new Position(30.9, -44.2);
    private static final Position BENDA = new Position(30.4, -44.8);
    private static final double KT = 120;

    /** Straight from 10 NM west to NORTH, and along V40 for some miles. */
    private static ClosedFormFlight viaNorth(double onward) {
        Position start = NORTH.destination(new TrueDirection(270), 10);
        ClosedFormFlight flight =
                new ClosedFormFlight(start, start.to(NORTH).initial().deg(), KT, Ocean.CALM);
        flight.miles(10 - flight.radiusNm());
        return flight.turnTo(180).miles(onward);
    }

    private static Flown via(DoubleUnaryOperator altitude, String words) {
        return Flown.fly(viaNorth(5).altitude(altitude).sample(2), List.of(Ocean.say(2, words)));
    }

    /** 100 ft: FAA-S-ACS-8C, IR.V.B.S7. */
    @ParameterizedTest
    @CsvSource({
        "'at', 5090, 90",
        "'at', 5110, 110",
        "'at', 4890, -110",
        "'at or above', 5500, 0",
        "'at or above', 4880, -120",
        "'at or below', 4000, 0",
        "'at or below', 5120, 120"
    })
    void theAltitudeAtACrossing(String bound, double feet, double error) {
        Flown flown = via(t -> feet, "direct NORTH, then as filed, cross NORTH " + bound + " 5000");
        assertThat(flown.all(FlightEvent.Crossing.class))
                .as("%s", flown.events())
                .singleElement()
                .satisfies(crossing -> {
                    assertThat(crossing.ident()).isEqualTo("NORTH");
                    assertThat(crossing.altitudeFt()).isCloseTo(feet, Offset.offset(0.5));
                    assertThat(crossing.errorFt()).isCloseTo(error, Offset.offset(0.5));
                    double fixS =
                            flown.all(FlightEvent.FixSequenced.class).get(0).timeS();
                    assertThat(crossing.timeS()).isEqualTo(fixS);
                });
    }

    @Test
    void aPlaceBeforeAFixIsPassedAbeam() {
        Flown flown = via(t -> 6000 - t * 500 / 60, "direct NORTH, then as filed, cross 5 miles west of NORTH at 5000");
        FlightEvent.Crossing crossing = flown.all(FlightEvent.Crossing.class).get(0);
        // 5 of the 10 NM at 120 kt.
        assertThat(crossing.timeS()).isCloseTo(150, Offset.offset(1.0));
        assertThat(crossing.altitudeFt()).isCloseTo(6000 - 150 * 500 / 60.0, Offset.offset(10.0));
        assertThat(flown.all(FlightEvent.AmendmentComplete.class)).hasSize(1);
    }

    /** A crossing at the assigned altitude leaves the time of the descent to the pilot: AIM 4-4-10. */
    @Test
    void aDescentForACrossingMayBeLeftLate() {
        // 2 NM before the fix down to 5000, at 1000 ft a minute.
        double downS = (10 - 0.64 - 2) / KT * 3600;
        Flown flown = via(
                t -> 6000 - Math.min(1000, Math.max(0, (t - downS) * 1000 / 60)),
                "direct NORTH, then as filed, cross NORTH at 5000, maintain 5000");
        assertThat(flown.names()).as("%s", flown.events()).doesNotContain("altitude_deviation_began");
        assertThat(flown.all(FlightEvent.Crossing.class)).hasSize(1);
    }

    @Test
    void whoIsNotDownAtTheCrossingIsOffTheAltitudeFromThereOn() {
        Flown flown = via(t -> 6000, "direct NORTH, then as filed, cross NORTH at 5000, maintain 5000");
        FlightEvent.Crossing crossing = flown.all(FlightEvent.Crossing.class).get(0);
        assertThat(crossing.errorFt()).isCloseTo(1000, Offset.offset(1.0));
        assertThat(flown.all(FlightEvent.AltitudeDeviationBegan.class))
                .singleElement()
                .satisfies(began -> assertThat(began.timeS()).isCloseTo(crossing.timeS(), Offset.offset(2.0)));
    }

    @Test
    void aFurtherCrossingOfTheSameRouteIsWatchedToo() {
        Flown flown = Flown.fly(
                viaNorth(5).altitude(t -> 5000).sample(2),
                List.of(Ocean.say(2, "direct NORTH, then as filed"), Ocean.say(60, "cross NORTH at 5000")));
        assertThat(flown.all(FlightEvent.Crossing.class))
                .as("%s", flown.events())
                .hasSize(1);
        assertThat(flown.faults()).doesNotContain(FaultCode.NOT_ACHIEVED);
    }

    /** Where the clearance does not say how the route goes on, all that it does say is to be flown. */
    @Test
    void aRouteThatEndsShortIsDoneOnceItsLastLegIsFlown() {
        String words = "direct NORTH, direct BENDA";
        Position start = NORTH.destination(new TrueDirection(270), 10);
        ClosedFormFlight flown =
                new ClosedFormFlight(start, start.to(NORTH).initial().deg(), KT, Ocean.CALM);
        double turn = Math.toRadians((NORTH.to(BENDA).initial().deg() - 90) / 2);
        flown.miles(10 - flown.radiusNm() * Math.tan(turn));
        flown.turnTo(NORTH.to(BENDA).initial().deg()).miles(10);
        Flown both = Flown.fly(flown.sample(2), List.of(Ocean.say(2, words)));
        assertThat(both.all(FlightEvent.AmendmentComplete.class))
                .as("%s", both.events())
                .singleElement()
                .satisfies(done -> assertThat(done.timeS())
                        .isGreaterThan(
                                both.all(FlightEvent.FixSequenced.class).get(0).timeS()));
        assertThat(both.faults()).isEmpty();
        Flown first = Flown.fly(viaNorth(12).sample(2), List.of(Ocean.say(2, words)));
        assertThat(first.all(FlightEvent.AmendmentComplete.class)).isEmpty();
        assertThat(first.faults()).contains(FaultCode.NOT_ACHIEVED);
    }

    /** 4 NM past the limit; common practice, no source. */
    @ParameterizedTest
    @CsvSource({"3.8, false", "4.2, true"})
    void pastTheClearanceLimit(double past, boolean left) {
        Position start = NORTH.destination(new TrueDirection(270), 10);
        ClosedFormFlight flight =
                new ClosedFormFlight(start, start.to(NORTH).initial().deg(), KT, Ocean.CALM);
        Flown flown =
                Flown.fly(flight.miles(10 + past).sample(2), List.of(Ocean.say(2, "cleared to NORTH, direct NORTH")));
        assertThat(flown.faults().contains(FaultCode.ROUTE_LEFT))
                .as("%s", flown.events())
                .isEqualTo(left);
    }

    @Test
    void whoHoldsAtTheLimitWaits() { // on the course of arrival, AIM 5-3-8
        Position start = NORTH.destination(new TrueDirection(270), 10);
        ClosedFormFlight flight =
                new ClosedFormFlight(start, start.to(NORTH).initial().deg(), KT, Ocean.CALM).miles(10);
        for (int i = 0; i < 3; i++) {
            flight.turn(180).seconds(60).turn(180).seconds(60);
        }
        Flown flown = Flown.fly(flight.sample(2), List.of(Ocean.say(2, "cleared to NORTH, direct NORTH")));
        assertThat(flown.faults()).as("%s", flown.events()).isEmpty();
        assertThat(flown.names()).contains("amendment_complete").doesNotContain("graded_part_ended");
    }

    @Test
    void aFixIsDepartedOnAHeading() {
        Position start = BENDA.destination(new TrueDirection(270), 10);
        ClosedFormFlight flight =
                new ClosedFormFlight(start, start.to(BENDA).initial().deg(), KT, Ocean.CALM).miles(10);
        double fixS = flight.endS();
        flight.turnTo(140).seconds(60);
        var states = flight.sample(2);
        int heading = Ocean.magneticHeading(states.get(states.size() - 1));
        Flown flown = Flown.fly(
                states,
                List.of(Ocean.say(
                        2,
                        "direct BENDA, depart BENDA heading "
                                + String.format(java.util.Locale.ROOT, "%03d", heading))));
        assertThat(flown.all(FlightEvent.HeadingEstablished.class))
                .as("%s", flown.events())
                .singleElement()
                .satisfies(taken -> assertThat(taken.timeS()).isGreaterThan(fixS));
        assertThat(flown.names()).contains("amendment_complete");
        assertThat(flown.faults()).isEmpty();
    }

    @Test
    void aStationIsDepartedOnARadial() {
        Position aaa = new Position(30, -45);
        Position start = aaa.destination(new TrueDirection(270), 8);
        ClosedFormFlight flight =
                new ClosedFormFlight(start, start.to(aaa).initial().deg(), KT, Ocean.CALM);
        GeodesicLine out = GeodesicLine.from(aaa, new TrueDirection(150), 60);
        // 162 radial by a declination of 12 west.
        flight.miles(8 - flight.radiusNm() * Math.tan(Math.toRadians(30)))
                .turnTo(150)
                .miles(4);
        assertThat(Math.abs(out.offset(flight.end().position()).crossTrackNm())).isLessThan(0.05);
        Flown flown = Flown.fly(flight.sample(2), List.of(Ocean.say(2, "direct AAA, depart AAA on the 162 radial")));
        assertThat(flown.names()).as("%s", flown.events()).contains("amendment_complete");
        assertThat(flown.faults()).isEmpty();
    }

    /** A vector onto a radial and no more (FAA Order JO 7110.65, 5-6-2): done once established, though the radial has no end. */
    @Test
    void aRadialIsFlownUntilMoreIsSaid() {
        Position aaa = new Position(30, -45);
        GeodesicLine out = GeodesicLine.from(aaa, new TrueDirection(150), 60);
        Position start = out.pointAt(20).destination(new TrueDirection(240), 5);
        ClosedFormFlight flight = new ClosedFormFlight(start, 105, KT, Ocean.CALM);
        flight.miles(5 / Math.sin(Math.toRadians(45)) - flight.radiusNm() * Math.tan(Math.toRadians(22.5)))
                .turnTo(150)
                .miles(6);
        assertThat(Math.abs(out.offset(flight.end().position()).crossTrackNm())).isLessThan(0.1);
        // 162 radial by a declination of 12 west.
        Flown flown = Flown.fly(
                flight.sample(2), List.of(Ocean.say(2, "fly present heading, intercept the AAA 162 radial outbound")));
        assertThat(flown.names())
                .as("%s", flown.events())
                .contains("intercept_achieved", "amendment_complete", "graded_part_ended");
        assertThat(flown.faults()).isEmpty();
    }

    @Test
    void whoDoesNotTakeUpTheHeadingHasNotDeparted() {
        Position start = BENDA.destination(new TrueDirection(270), 10);
        ClosedFormFlight flight =
                new ClosedFormFlight(start, start.to(BENDA).initial().deg(), KT, Ocean.CALM);
        Flown flown = Flown.fly(
                flight.miles(10).seconds(120).sample(2),
                List.of(Ocean.say(2, "direct BENDA, depart BENDA heading 160")));
        assertThat(flown.faults()).as("%s", flown.events()).contains(FaultCode.NOT_ACHIEVED);
    }
}
