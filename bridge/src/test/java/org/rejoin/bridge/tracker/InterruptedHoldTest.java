package org.rejoin.bridge.tracker;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;

import org.rejoin.bridge.TimeOfDay;
import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.ocean.ClosedFormFlight;
import org.rejoin.bridge.ocean.Interrupted;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.protocol.AircraftState;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Holds with pauses and gaps. Still air, 120 kt, right turns, inbound course 090 true to AAA: half a circle takes 60 s at
 * standard rate, and as long as the outbound leg was flown takes the inbound one.
 */
class InterruptedHoldTest {

    private static final Position AAA = new Position(30, -45);
    private static final String HOLD = "direct AAA, hold west of AAA on the 282 radial";
    private static final double HZ = 5;

    /** Straight in to AAA, over it at {@link #fixS}; lap 1 in 240 s, lap 2 with 80 s out and 80 s in. */
    private static ClosedFormFlight arriving() {
        Position start = AAA.destination(new TrueDirection(270), 8);
        return new ClosedFormFlight(start, start.to(AAA).initial().deg(), 120, Ocean.CALM).miles(8);
    }

    private static ClosedFormFlight twoLaps() {
        return arriving()
                .turn(180)
                .seconds(60)
                .turn(180)
                .seconds(60)
                .turn(180)
                .seconds(80)
                .turn(180)
                .seconds(80)
                .turn(180)
                .seconds(20);
    }

    private static double fixS() {
        return arriving().endS();
    }

    private static Flown fly(List<AircraftState> states) {
        return Flown.fly(states, List.of(Ocean.say(2, HOLD)));
    }

    private static void bothLegsTimed(Flown flown, double tolerance) {
        List<FlightEvent.HoldInbound> legs = flown.all(FlightEvent.HoldInbound.class);
        assertThat(legs)
                .as("%s", flown.events())
                .extracting(FlightEvent.HoldInbound::n)
                .containsExactly(1, 2);
        assertThat(legs.get(0).seconds().orElseThrow()).isCloseTo(60, Offset.offset(tolerance));
        assertThat(legs.get(1).seconds().orElseThrow()).isCloseTo(80, Offset.offset(tolerance));
        assertThat(flown.faults()).isEmpty();
    }

    /** Everywhere in both laps, at the roll-out (180 s, 440 s) and over the fix (240 s, 520 s) too. */
    @ParameterizedTest
    @ValueSource(
            ints = {
                5, 30, 58, 62, 75, 90, 118, 122, 150, 170, 178, 181, 183, 200, 238, 239, 245, 270, 302, 310, 320, 350,
                378, 390, 420, 436, 439, 441, 443, 470, 515, 519
            })
    void aPauseChangesNoTimeOfAnInboundLeg(int afterFixS) {
        double seconds = afterFixS % 2 == 0 ? 3 : 40;
        bothLegsTimed(fly(Interrupted.standing(twoLaps().sample(HZ), fixS() + afterFixS, seconds, HZ)), 0.7);
    }

    /**
     * A turn at a quarter less than standard rate looks like its end while the simulation stands. Its end is told 1.1 s
     * early, where a mean over 6 s of 2.2 degrees a second has fallen to 1.5.
     */
    @Test
    void aPauseInASlowTurnIsNoEndOfIt() {
        ClosedFormFlight flight =
                arriving().turn(180, 2.2).seconds(60).turn(180, 2.2).seconds(60);
        double rollOutS = flight.endS() - 60;
        for (double before : new double[] {18, 12, 6, 3, 1}) {
            Flown flown = fly(Interrupted.standing(flight.seconds(1).sample(HZ), rollOutS - before, 5, HZ));
            assertThat(flown.all(FlightEvent.HoldInbound.class))
                    .as("%s s before: %s", before, flown.events())
                    .singleElement()
                    .satisfies(leg -> assertThat(leg.seconds().orElseThrow()).isCloseTo(60, Offset.offset(1.3)));
        }
    }

    /** A gap is what is longer than 12 s here. What was heard again 2 s before the roll-out or earlier has seen it; so has what was lost after it. */
    @ParameterizedTest
    @CsvSource({
        "262, 275",
        "282, 295",
        "302, 315",
        "310, 330",
        "340, 353",
        "372, 385",
        "402, 422",
        "423, 436",
        "425, 438",
        "444, 457",
        "450, 475",
        "505, 518",
        "310, 420",
        "64, 110",
        "130, 170"
    })
    void aGapElsewhereLeavesTheTimeOfTheInboundLeg(double fromS, double toS) {
        bothLegsTimed(fly(Interrupted.unheard(twoLaps().sample(HZ), fixS() + fromS, fixS() + toS)), 1.0);
    }

    /** Roll-out at 440 s, fix at 520 s. */
    @ParameterizedTest
    @CsvSource({"436, 449", "420, 445", "438.5, 452", "512, 525", "500, 526", "430, 530", "400, 490", "444, 560"})
    void aLegWhoseRollOutOrFixWasNotSeenHasNoTime(double fromS, double toS) {
        Flown flown = fly(Interrupted.unheard(twoLaps().sample(HZ), fixS() + fromS, fixS() + toS));
        List<FlightEvent.HoldInbound> legs = flown.all(FlightEvent.HoldInbound.class);
        assertThat(legs)
                .as("%s", flown.events())
                .extracting(FlightEvent.HoldInbound::n)
                .containsExactly(1, 2);
        assertThat(legs.get(0).seconds()).isPresent();
        assertThat(legs.get(1).seconds()).isEmpty();
        assertThat(flown.faults()).isEmpty();
    }

    /** The hold is no way off the course to its fix, also where the fix was passed in a gap. */
    @ParameterizedTest
    @CsvSource({"-10, 4", "-12, 1", "-3, 10", "-1, 40"})
    void whereTheFixWasPassedInAGapTheHoldIsHeldAgainstNobody(double fromS, double toS) {
        Flown flown = fly(Interrupted.unheard(twoLaps().sample(HZ), fixS() + fromS, fixS() + toS));
        bothLegsTimed(flown, 1.0);
        assertThat(flown.names())
                .contains("amendment_complete")
                .doesNotContain("course_deviation_began", "hold_entered", "route_left");
    }

    private static ClosedFormFlight wrongOnLapTwo() {
        return arriving()
                .turn(180)
                .seconds(60)
                .turn(180)
                .seconds(60)
                .turn(-180)
                .seconds(60)
                .turn(180)
                .seconds(60);
    }

    /** The wrong turn begins 240 s after the fix and has turned 90 degrees, which is a fault, 30 s later. */
    @ParameterizedTest
    @ValueSource(ints = {235, 242, 250, 260, 268, 272, 280, 295})
    void aPauseHidesNoTurnToTheWrongSide(int afterFixS) {
        double at = fixS() + 270;
        for (double seconds : new double[] {3, 40}) {
            Flown flown = fly(Interrupted.standing(wrongOnLapTwo().sample(HZ), fixS() + afterFixS, seconds, HZ));
            assertThat(flown.faults()).as("%s", flown.events()).containsExactly(FaultCode.HOLD_WRONG_SIDE);
            assertThat(flown.all(FlightEvent.HoldWrongSide.class))
                    .singleElement()
                    .satisfies(wrong -> assertThat(wrong.timeS())
                            .isCloseTo(at + (afterFixS < 270 ? seconds : 0), Offset.offset(0.5)));
        }
    }

    @ParameterizedTest
    @CsvSource({"242, 255", "250, 263", "258, 271", "262, 280", "280, 293"})
    void norDoesAGapWhoseEndsTellTheTurn(double fromS, double toS) {
        Flown flown = fly(Interrupted.unheard(wrongOnLapTwo().sample(HZ), fixS() + fromS, fixS() + toS));
        assertThat(flown.faults()).as("%s", flown.events()).containsExactly(FaultCode.HOLD_WRONG_SIDE);
    }

    /** Within 30 s a turn may have gone round either way. */
    @Test
    void aTurnWithinALongGapIsNotJudged() {
        Flown flown = fly(Interrupted.unheard(wrongOnLapTwo().sample(HZ), fixS() + 241, fixS() + 301));
        assertThat(flown.faults()).isEmpty();
    }

    /** Set to another heading while the simulation stood: nobody turned there. */
    @Test
    void aHeadingThatWasSetInAPauseIsNoTurn() {
        ClosedFormFlight first = arriving().turn(180).seconds(60).turn(180).seconds(63);
        List<AircraftState> states = new ArrayList<>(first.sample(HZ));
        AircraftState still = states.get(states.size() - 1);
        for (int i = 1; i <= 5 * HZ; i++) {
            states.add(still.withTimeS(still.timeS() + i / HZ));
        }
        double fromS = states.get(states.size() - 1).timeS() + 1 / HZ;
        new ClosedFormFlight(first.end().position(), 330, 120, Ocean.CALM)
                .turn(-60)
                .seconds(60)
                .sample(HZ)
                .forEach(state -> states.add(state.withTimeS(fromS + state.timeS())));
        assertThat(fly(states).faults()).isEmpty();
    }

    /** 1530 is so many seconds after the first sample. */
    private static TimeOfDay ending(double seconds) {
        return new TimeOfDay(LocalTime.of(15, 30).minusNanos(Math.round(seconds * 1e9)), true);
    }

    /**
     * A clearance limit is left at the time of further clearance (14 CFR 91.185 (c)(3)), whichever way the route turns from
     * there; so many seconds before the turn the time came.
     */
    @ParameterizedTest
    @CsvSource({"-100, true", "5, false", "200, false"})
    void leavingAtTheTimeOfFurtherClearanceIsNoWrongSide(double afterS, boolean fault) {
        ClosedFormFlight flight = arriving().turn(180).seconds(60).turn(180).seconds(60);
        double overS = flight.endS();
        flight.turn(-106).seconds(200);
        Flown flown = Flown.at(
                ending(overS - afterS),
                flight.sample(2),
                List.of(Ocean.say(2, HOLD + ", expect further clearance 1530")));
        assertThat(flown.faults().contains(FaultCode.HOLD_WRONG_SIDE))
                .as("%s", flown.events())
                .isEqualTo(fault);
    }

    /** Who holds on after that time still holds on the side that is protected. */
    @Test
    void holdingOnAfterTheTimeOfFurtherClearanceHasAWrongSide() {
        Flown flown = Flown.at(
                ending(fixS() + 100),
                wrongOnLapTwo().sample(2),
                List.of(Ocean.say(2, HOLD + ", expect further clearance 1530")));
        assertThat(flown.faults()).as("%s", flown.events()).containsExactly(FaultCode.HOLD_WRONG_SIDE);
    }
}
