package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.bridge.Amendment;
import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.ocean.ClosedFormFlight;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.bridge.ocean.Ocean.Leg;
import org.rejoin.protocol.AircraftState;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Flights cut by new clearances, gaps and jumps: what was open ends there, and nobody is blamed for what nobody saw. */
class InterruptedFlightsTest {
    private static Leg approaching() {
        return Ocean.toRadial(45, -1, 120, Ocean.CALM);
    }

    @Test
    void anAltitudeDeviationEndsWhereAnotherAltitudeIsAssigned() {
        Leg leg = approaching().toLead().turnOn().asCleared();
        leg.flight.altitude(t -> t < 60 ? 6000 : 6200);
        List<AircraftState> states = leg.flight.sample(2);
        Flown flown = Flown.fly(
                states,
                List.of(
                        Ocean.at(2, Ocean.radialClearance(states.get(0)), 6000),
                        Ocean.say(100, "climb and maintain 6200")));
        assertThat(flown.all(FlightEvent.AltitudeDeviationBegan.class)).hasSize(1);
        assertThat(flown.all(FlightEvent.AltitudeDeviationEnded.class))
                .extracting(FlightEvent::timeS)
                .containsExactly(100.0);
    }

    @Test
    void aDeviationOpenAtTheEndOfTheFlightEndsThere() {
        Leg leg = approaching();
        leg.flight.seconds(60).turn(-20).seconds(60).altitude(t -> t < 90 ? 6000 : 6300);
        Flown flown = Flown.fly(leg.flight.sample(2));
        assertThat(flown.all(FlightEvent.HeadingDeviationBegan.class)).hasSize(1);
        assertThat(flown.all(FlightEvent.HeadingDeviationEnded.class)).hasSize(1);
        assertThat(flown.all(FlightEvent.AltitudeDeviationBegan.class)).hasSize(1);
        assertThat(flown.all(FlightEvent.AltitudeDeviationEnded.class)).hasSize(1);
        assertThat(flown.events().get(flown.events().size() - 1)).isInstanceOf(FlightEvent.FlightEnded.class);
    }

    @Test
    void theAssignedAltitudeStaysInForceWhenTheNextClearanceNamesNone() {
        Leg leg = approaching().toLead().turnOn().asCleared();
        leg.flight.altitude(t -> t < 120 ? 6000 : 6300);
        List<AircraftState> states = leg.flight.sample(2);
        String clearance = Ocean.radialClearance(states.get(0));
        Flown flown = Flown.fly(states, List.of(Ocean.at(2, clearance, 6000), Ocean.say(40, clearance)));
        assertThat(flown.all(FlightEvent.AltitudeDeviationBegan.class))
                .as("%s", flown.events())
                .extracting(FlightEvent::timeS)
                .allSatisfy(at -> assertThat(at).isCloseTo(120, Offset.offset(0.5)));
        assertThat(flown.faults()).contains(FaultCode.ALTITUDE_NOT_HELD);
    }

    @Test
    void aClearanceDueInAGapIsSpokenWhenTheAircraftIsSeenAgain() {
        Leg leg = approaching().toLead().turnOn().asCleared();
        List<AircraftState> all = leg.flight.sample(2);
        List<AircraftState> states =
                all.stream().filter(s -> s.timeS() < 30 || s.timeS() >= 60).toList();
        Flown flown = Flown.fly(states, List.of(Ocean.at(45, Ocean.radialClearance(all.get(0)), 6000)));
        assertThat(flown.all(FlightEvent.ClearanceIssued.class))
                .extracting(FlightEvent::timeS)
                .containsExactly(60.0);
    }

    @Test
    void aClearanceDueDuringAJumpIsSpokenAfterIt() {
        List<AircraftState> states =
                new ArrayList<>(approaching().flight.seconds(30).sample(1));
        ClosedFormFlight there = approaching().flight.seconds(200);
        Position moved = new Position(29.4, -44.9);
        ClosedFormFlight elsewhere = new ClosedFormFlight(moved, 90, 120, Ocean.CALM).seconds(120);
        elsewhere.sample(1).forEach(s -> states.add(s.withTimeS(s.timeS() + 31)));
        Flown flown = Flown.fly(
                states,
                List.of(Ocean.at(30.5, Ocean.radialClearance(there.sample(1).get(0)), 6000)));
        assertThat(flown.all(FlightEvent.Repositioned.class)).hasSize(1);
        assertThat(flown.all(FlightEvent.ClearanceIssued.class))
                .extracting(FlightEvent::timeS)
                .containsExactly(31.0);
    }

    @Test
    void oneWaitingForAPointDoesNotHoldUpTheNext() {
        Leg leg = approaching().toLead().turnOn().asCleared();
        List<AircraftState> states = leg.flight.sample(2);
        Flown flown = Flown.fly(
                states,
                List.of(
                        new Amendment(
                                new Amendment.When.Abeam("SOUTH"), "climb and maintain 7000", OptionalDouble.empty()),
                        Ocean.at(20, Ocean.radialClearance(states.get(0)), 6000)));
        assertThat(flown.all(FlightEvent.ClearanceIssued.class))
                .extracting(FlightEvent::timeS)
                .containsExactly(20.0);
    }

    @ParameterizedTest
    @ValueSource(doubles = {1, 5})
    void abeamIsFoundFromPositionsAlone(double hz) {
        Position start = Ocean.V40.pointAt(20);
        Position station = new Position(30.0, -45.0);
        double abeamS = (Ocean.V40.offset(station).alongTrackNm() - 20) / 120 * 3600;
        List<AircraftState> bare = new ClosedFormFlight(
                        start, Ocean.V40.courseAt(20).deg(), 120, Ocean.CALM)
                .seconds(abeamS + 30).sample(hz).stream()
                        .map(s -> AircraftState.at(s.timeS(), s.latitudeDeg(), s.longitudeDeg()))
                        .toList();
        Flown flown = Flown.fly(
                bare,
                List.of(new Amendment(
                        new Amendment.When.Abeam("AAA"), "climb and maintain 7000", OptionalDouble.empty())));
        assertThat(flown.all(FlightEvent.ClearanceIssued.class))
                .singleElement()
                .satisfies(spoken -> assertThat(spoken.timeS()).isCloseTo(abeamS, Offset.offset(2.0)));
    }

    @Test
    void aDirectGoesFromWhereTheAircraftWasSet() {
        ClosedFormFlight here = new ClosedFormFlight(new Position(30.6, -44.9), 120, 120, Ocean.CALM);
        Position fix = new Position(29.2, -44.2);
        here.turnTo(here.end().position().to(fix).initial().deg()).seconds(60);
        List<AircraftState> states = new ArrayList<>(here.sample(1));
        double then = states.get(states.size() - 1).timeS();
        Position moved = new Position(29.4, -44.9);
        ClosedFormFlight there =
                new ClosedFormFlight(moved, moved.to(fix).initial().deg(), 120, Ocean.CALM).seconds(240);
        there.sample(1).forEach(s -> states.add(s.withTimeS(s.timeS() + then + 1)));
        Flown flown = Flown.fly(states, List.of(Ocean.say(2, "proceed direct SOUTH, then as filed")));
        assertThat(flown.all(FlightEvent.Repositioned.class)).hasSize(1);
        assertThat(flown.all(FlightEvent.CourseDeviationBegan.class)).isEmpty();
        assertThat(flown.progress().get(flown.progress().size() - 1).crossTrackNm())
                .isCloseTo(0.0, Offset.offset(0.05));
    }

    /** 20 NM off in one sample, with the flight on its way before and after it: the grade is that of the flight. */
    @Test
    void aStraySampleLeavesTheGradeAsItIs() {
        Leg leg = approaching().toLead().turnOn().asCleared();
        leg.flight.seconds(60);
        List<AircraftState> states = leg.flight.sample(2);
        Amendment cleared = Ocean.at(2, Ocean.radialClearance(states.get(0)), 6000);
        Grade without = Flown.fly(states, List.of(cleared)).grade();
        assertThat(without.verdict()).isEqualTo(Verdict.MET);
        for (int at : List.of(states.size() / 2, states.size() - 1)) {
            List<AircraftState> stray = new ArrayList<>(states);
            AircraftState there = states.get(at);
            stray.set(at, AircraftState.at(there.timeS(), there.latitudeDeg() - 20.0 / 60, there.longitudeDeg()));
            Grade with = Flown.fly(stray, List.of(cleared)).grade();
            assertThat(with.verdict()).isEqualTo(Verdict.MET);
            assertThat(with.score().orElseThrow()).isCloseTo(without.score().orElseThrow(), Offset.offset(0.1));
            assertThat(with.attempts()).hasSize(1);
            assertThat(with.criteria()).hasSameSizeAs(without.criteria());
        }
    }

    /** The vector came 5 s before the turn onto the course: nobody can say that it was flown, so the standard is not met. */
    @Test
    void aHeadingThatNobodyCouldJudgeLeavesTheStandardNotJudged() {
        Leg leg = approaching().toLead();
        double turnS = leg.flight.endS();
        leg.turnOn().asCleared();
        leg.flight.seconds(60);
        List<AircraftState> states = leg.flight.sample(2);
        Grade grade = Flown.fly(states, List.of(Ocean.at(turnS - 5, Ocean.radialClearance(states.get(0)), 6000)))
                .grade();
        assertThat(grade.faults()).isEmpty();
        assertThat(grade.criteria())
                .filteredOn(each -> each.code().equals("HEADING"))
                .singleElement()
                .satisfies(heading -> assertThat(heading.verdict()).isEqualTo(Verdict.NOT_JUDGED));
        assertThat(grade.verdict()).isEqualTo(Verdict.NOT_JUDGED);
        assertThat(grade.notJudged().orElse("")).contains("the time to react");
    }

    /** The heading was flown for two minutes and seen; then the feed was lost on the radial, for half of the time on the heading. */
    @Test
    void aGapAfterTheHeadingWasFlownLeavesTheHeadingJudged() {
        assertThat(heading(0).verdict()).isEqualTo(Verdict.MET);
        assertThat(heading(20).verdict()).isEqualTo(Verdict.MET);
        assertThat(heading(-100).verdict()).as("the gap is on the heading").isEqualTo(Verdict.NOT_JUDGED);
    }

    /** With a gap of 55 s that begins so long after the intercept. */
    private static Criterion heading(double afterS) {
        Leg leg = Ocean.toRadial(45, -1, 200, Ocean.CALM).toLead().turnOn().asCleared();
        leg.flight.seconds(120);
        List<AircraftState> states = leg.flight.sample(2);
        double metS = Flown.fly(states)
                .all(FlightEvent.InterceptAchieved.class)
                .get(0)
                .timeS();
        double fromS = afterS == 0 ? Double.POSITIVE_INFINITY : metS + afterS;
        return Flown.fly(states.stream()
                        .filter(s -> s.timeS() < fromS || s.timeS() >= fromS + 55)
                        .toList())
                .grade()
                .criteria()
                .stream()
                .filter(each -> each.code().equals("HEADING"))
                .findFirst()
                .orElseThrow();
    }

    /** 9,000 ft more at 500 ft a minute take 18 minutes; the flight was over before. */
    @Test
    void anAltitudeThatCouldNotBeReachedInTimeLeavesTheStandardNotJudged() {
        Leg leg = approaching().toLead().turnOn().asCleared();
        leg.flight.seconds(60);
        List<AircraftState> states =
                leg.flight.sample(2).stream().filter(s -> s.timeS() < 17 * 60).toList();
        Grade grade = Flown.fly(states, List.of(Ocean.at(2, Ocean.radialClearance(states.get(0)), 15000)))
                .grade();
        assertThat(grade.criteria())
                .filteredOn(each -> each.code().equals("ALTITUDE"))
                .singleElement()
                .satisfies(altitude -> assertThat(altitude.verdict()).isEqualTo(Verdict.NOT_JUDGED));
        assertThat(grade.verdict()).isEqualTo(Verdict.NOT_JUDGED);
    }

    /** The next clearance takes back what was not due of the one before; what was due and not seen it can't. */
    @Test
    void theNextClearanceDoesNotTakeBackWhatWasDueAndNotSeen() {
        Leg leg = approaching().toLead().turnOn().asCleared();
        leg.flight.seconds(60);
        List<AircraftState> states = leg.flight.sample(2);
        String cleared = Ocean.radialClearance(states.get(0));
        double afterS = Flown.fly(states)
                        .all(FlightEvent.InterceptAchieved.class)
                        .get(0)
                        .timeS()
                + 20;
        List<AircraftState> noHeading = states.stream()
                .map(s -> Ocean.sendingMagnetic(s, OptionalDouble.empty()))
                .toList();
        List<Amendment> amendments =
                List.of(Ocean.at(2, cleared, 6000), Ocean.say(afterS, "direct SOUTH, then as filed"));
        AmendmentGrade first =
                Flown.fly(states, amendments).grade().last().amendments().get(0);
        assertThat(first.verdict()).isEqualTo(Verdict.MET);
        AmendmentGrade unseen =
                Flown.fly(noHeading, amendments).grade().last().amendments().get(0);
        assertThat(unseen.verdict()).isEqualTo(Verdict.NOT_JUDGED);
        assertThat(unseen.notJudged().orElse("")).contains("no heading");
    }

    /**
     * 16 s past the line at 45 degrees and 120 kt, then the turn: carried 0.54 NM past it. Seen going out and coming back, and not
     * between: nobody can say that it was less than half a mile.
     */
    @Test
    void whoWasNotSeenWhereHeWasFarthestPastTheLineIsNotJudgedByWhatWasSeen() {
        Flown seen = past(16, 0, 0);
        assertThat(seen.criterion("INTERCEPT").verdict()).isEqualTo(Verdict.NOT_MET);
        Flown unseen = past(16, 5, 60);
        assertThat(unseen.all(FlightEvent.InterceptAchieved.class)).hasSize(1);
        assertThat(unseen.criterion("INTERCEPT").notJudged().orElse("")).contains("how far past the line");
        assertThat(unseen.grade().verdict()).isEqualTo(Verdict.NOT_JUDGED);
        // A few seconds hide nothing, nor does a gap at the end of a small overshoot.
        assertThat(past(4, 10, 6).criterion("INTERCEPT").verdict()).isEqualTo(Verdict.MET);
    }

    /** Past the line for some seconds before the turn, and back with 20 degrees; nothing received for some time after the line. */
    private static Flown past(double beyondS, double fromS, double forS) {
        Leg leg = Ocean.toRadial(45, -1, 120, Ocean.CALM).toCourse(beyondS);
        double lineS = leg.flight.endS() - beyondS;
        leg.flight.turnTo(leg.courseHere() - 20);
        leg.flight.miles(Math.abs(leg.crossNm()) / Math.sin(Math.toRadians(20))
                - leg.flight.radiusNm() * Math.tan(Math.toRadians(10)));
        leg.turnOn().asCleared();
        leg.flight.seconds(60);
        return Flown.fly(leg.flight.sample(2).stream()
                .filter(s -> s.timeS() < lineS + fromS || s.timeS() >= lineS + fromS + forS)
                .toList());
    }

    /**
     * The assigned heading ignored by 30 degrees for two minutes, and the aircraft jumps ahead by less than a quarter of a mile after it
     * and stays there: the mistake counts as it did, and who made none is graded as if nothing were.
     */
    @ParameterizedTest
    @ValueSource(doubles = {0.02, 0.04, 0.06, 0.1, 0.2, 0.24})
    void aJumpOfASlowComputerWipesNothingOut(double jumpNm) {
        for (double offDeg : new double[] {0, 30}) {
            Leg leg = new Leg(45, -1, 120, Ocean.CALM, 12);
            leg.flight.seconds(20).turn(-offDeg).seconds(120).turn(offDeg).seconds(20);
            double jumpS = leg.flight.endS();
            leg.flight.miles(Math.abs(leg.crossNm()) / Math.sin(Math.toRadians(45))
                    - leg.flight.radiusNm() * Math.tan(Math.toRadians(22.5)));
            leg.turnOn().asCleared();
            leg.flight.seconds(60);
            // As many samples are left out as would have been flown on the jump: the times go on.
            double skippedS = jumpNm / 120 * 3600;
            List<AircraftState> states = leg.flight.sample(5);
            List<AircraftState> jumped = new ArrayList<>();
            for (AircraftState state : states) {
                if (state.timeS() <= jumpS) {
                    jumped.add(state);
                } else if (state.timeS() > jumpS + skippedS) {
                    jumped.add(state.withTimeS(state.timeS() - skippedS));
                }
            }
            Flown without = Flown.fly(states);
            Flown with = Flown.fly(jumped);
            assertThat(with.grade().attempts()).hasSize(1);
            assertThat(with.faults()).isEqualTo(without.faults()).hasSize(offDeg == 0 ? 0 : 1);
            assertThat(with.score()).isCloseTo(without.score(), Offset.offset(1.0));
        }
    }
}
