package org.rejoin.bridge.tracker;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;

import org.rejoin.bridge.flight.EventKind;
import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.ocean.ClosedFormFlight;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.bridge.ocean.Ocean.Leg;
import org.rejoin.protocol.AircraftState;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Moved, paused, not heard, taken back, replaced, ended early: what an examiner would hold against the pilot, and what not. */
class SecondTryTest {

    private static Leg sound() {
        return Ocean.toRadial(45, -1, 120, Ocean.CALM).toLead().turnOn().asCleared();
    }

    private static List<AircraftState> later(List<AircraftState> states, double seconds) {
        return states.stream().map(s -> s.withTimeS(s.timeS() + seconds)).toList();
    }

    /** Put back near the start: the exercise begins again, and the second try has no memory of the first. */
    @ParameterizedTest
    @ValueSource(doubles = {1, 10})
    void putBackNearTheStartTheExerciseBeginsAgain(double hz) {
        Leg late = Ocean.toRadial(45, -1, 120, Ocean.CALM).toCourse(60);
        List<AircraftState> states = new ArrayList<>(late.flight.sample(hz));
        double movedS = states.get(states.size() - 1).timeS() + 1 / hz;
        states.addAll(later(sound().flight.sample(hz), movedS));
        Flown flown = Flown.fly(states, List.of(Ocean.at(2, Ocean.radialClearance(states.get(0)), 6000)));
        assertThat(flown.all(FlightEvent.Repositioned.class))
                .singleElement()
                .satisfies(moved -> assertThat(moved.timeS()).isCloseTo(movedS, Offset.offset(1e-6)));
        assertThat(flown.all(FlightEvent.ClearanceIssued.class))
                .extracting(FlightEvent::timeS)
                .satisfies(times -> assertThat(times.get(1)).isCloseTo(movedS + 2, Offset.offset(1e-6)))
                .hasSize(2);
        assertThat(flown.all(FlightEvent.Repositioned.class)).hasSize(1);
        List<String> second = flown.events().stream()
                .filter(event -> event.timeS() >= movedS)
                .map(FlightEvent::name)
                .toList();
        assertThat(second)
                .doesNotContain(EventKind.FLOWN_THROUGH.logName(), EventKind.FLIGHT_BEGAN.logName())
                .contains(EventKind.AMENDMENT_COMPLETE.logName());
    }

    /** Set down elsewhere: the clearance in force is given again there. */
    @ParameterizedTest
    @ValueSource(doubles = {1, 30})
    void setDownElsewhereTheClearanceIsGivenAgain(double hz) {
        List<AircraftState> states = new ArrayList<>(sound().flight.sample(hz).subList(0, (int) (100 * hz)));
        double movedS = states.get(states.size() - 1).timeS() + 1 / hz;
        Leg there = new Leg(45, 1, 120, Ocean.CALM, 9);
        states.addAll(later(there.flight.miles(4).sample(hz), movedS));
        Flown flown = Flown.fly(states, List.of(Ocean.at(2, Ocean.radialClearance(states.get(0)), 6000)));
        assertThat(flown.names())
                .containsSubsequence(
                        EventKind.AMENDMENT_NOT_DUE.logName(),
                        EventKind.REPOSITIONED.logName(),
                        EventKind.CLEARANCE_ISSUED.logName(),
                        EventKind.FLIGHT_ENDED.logName());
        assertThat(flown.all(FlightEvent.Repositioned.class)).hasSize(1);
        assertThat(flown.all(FlightEvent.ClearanceIssued.class).get(1).timeS()).isCloseTo(movedS, Offset.offset(1e-6));
        assertThat(flown.record().inForce().assigned().altitudeFt()).hasValue(6000);
        assertThat(flown.faults()).doesNotContain(FaultCode.NOT_ACHIEVED);
    }

    /** A quarter of a mile ahead of where it was due; less is a computer that was slow for a moment. */
    @ParameterizedTest
    @CsvSource({
        "0.04, 1, false",
        "0.24, 1, false",
        "0.26, 1, true",
        "0.24, 30, false",
        "0.26, 30, true",
        "2, 1, true",
        "2, 50, true"
    })
    void aMoveIsFartherThanCouldBeFlown(double jumpNm, double hz, boolean moved) {
        ClosedFormFlight before = new ClosedFormFlight(new Position(29, -44.9), 90, 120, Ocean.CALM).seconds(20);
        List<AircraftState> states = new ArrayList<>(before.sample(hz));
        double thenS = states.get(states.size() - 1).timeS();
        Position next = before.end()
                .position()
                .destination(new org.rejoin.bridge.geo.TrueDirection(90), jumpNm + 120 / 3600.0 / hz);
        ClosedFormFlight after = new ClosedFormFlight(next, 90, 120, Ocean.CALM).seconds(20);
        states.addAll(later(after.sample(hz), thenS + 1 / hz));
        assertThat(Flown.fly(states, List.of()).all(FlightEvent.Repositioned.class))
                .hasSize(moved ? 1 : 0);
    }

    /** Slewed for ten seconds: one move, told where it ended. */
    @Test
    void slewingIsOneMove() {
        List<AircraftState> states = new ArrayList<>(sound().flight.sample(5).subList(0, 200));
        AircraftState here = states.get(199);
        for (int i = 1; i <= 50; i++) {
            states.add(AircraftState.at(here.timeS() + i * 0.2, here.latitudeDeg() - i * 0.01, here.longitudeDeg()));
        }
        AircraftState there = states.get(249);
        for (int i = 1; i <= 50; i++) {
            states.add(
                    AircraftState.at(there.timeS() + i * 0.2, there.latitudeDeg() - i * 0.0001, there.longitudeDeg()));
        }
        Flown flown = Flown.fly(states, List.of(Ocean.at(2, Ocean.radialClearance(states.get(0)), 6000)));
        assertThat(flown.all(FlightEvent.Repositioned.class))
                .singleElement()
                .satisfies(moved -> assertThat(moved.jumpNm()).isCloseTo(30, Offset.offset(0.3)));
        assertThat(flown.all(FlightEvent.Repositioned.class)).hasSize(1);
    }

    /** A pause of 40 s, or a gap, inside one deviation: one began, one ended. */
    @ParameterizedTest
    @CsvSource({"true", "false"})
    void oneDeviationStaysOneAcrossAPauseAndAGap(boolean pause) {
        Leg leg = sound();
        leg.flight.altitude(t -> t < 60 || t > 200 ? 6000 : 6150);
        List<AircraftState> full = leg.flight.sample(1);
        List<AircraftState> states = new ArrayList<>(full.subList(0, 100));
        if (pause) {
            for (int i = 1; i <= 40; i++) {
                states.add(full.get(99).withTimeS(99 + i));
            }
            states.addAll(later(full.subList(100, full.size()), 40));
        } else {
            states.addAll(full.subList(140, full.size()));
        }
        Flown flown = Flown.fly(states);
        assertThat(flown.all(FlightEvent.AltitudeDeviationBegan.class)).hasSize(1);
        assertThat(flown.all(FlightEvent.AltitudeDeviationEnded.class))
                .singleElement()
                .satisfies(ended -> assertThat(ended.back()).isTrue());
        assertThat(flown.points().stream().filter(Point::newPiece)).hasSize(2);
        if (pause) {
            assertThat(flown.all(FlightEvent.SimPaused.class))
                    .singleElement()
                    .satisfies(paused ->
                            assertThat(paused.reason()).isEqualTo(FlightEvent.SimPaused.Reason.STANDING_STILL));
        } else {
            assertThat(flown.session().quality().gaps()).isEqualTo(1);
        }
    }

    @Test
    void aDeviationThatTheEndCutOffWasNotSeenToEnd() {
        Leg leg = Ocean.toRadial(45, -1, 120, Ocean.CALM);
        leg.flight.seconds(100).altitude(t -> t < 60 ? 6000 : 6300);
        assertThat(Flown.fly(leg.flight.sample(2)).all(FlightEvent.AltitudeDeviationEnded.class))
                .singleElement()
                .satisfies(ended -> assertThat(ended.back()).isFalse());
    }

    @Test
    void takenBackIsCancelledAndTheNextClearanceReplaces() {
        List<AircraftState> states = sound().flight.sample(2);
        String cleared = Ocean.radialClearance(states.get(0));
        Flown back = Flown.fly(states, List.of(Ocean.say(2, cleared), Ocean.say(60, "disregard")));
        assertThat(back.names())
                .contains(EventKind.AMENDMENT_CANCELLED.logName())
                .doesNotContain(EventKind.AMENDMENT_REPLACED.logName());
        Flown next = Flown.fly(states, List.of(Ocean.say(2, cleared), Ocean.say(60, cleared)));
        assertThat(next.names())
                .contains(EventKind.AMENDMENT_REPLACED.logName())
                .doesNotContain(EventKind.AMENDMENT_CANCELLED.logName());
    }

    /** What was flown to its end is not flown again: the route is as filed, the altitude it assigned is still assigned. */
    @Test
    void aClearanceFlownToItsEndIsNotRevivedWhenALaterOneIsTakenBack() {
        Leg leg = sound();
        leg.flight.seconds(120);
        List<AircraftState> states = leg.flight.sample(2);
        double endS = states.get(states.size() - 1).timeS();
        Flown flown = Flown.fly(
                states,
                List.of(
                        Ocean.at(2, Ocean.radialClearance(states.get(0)), 6000),
                        Ocean.at(endS - 40, "fly heading 300", 8000),
                        Ocean.say(endS - 30, "disregard")));
        assertThat(flown.all(FlightEvent.AmendmentComplete.class).get(0).timeS())
                .isLessThan(endS - 40);
        assertThat(flown.all(FlightEvent.ClearanceIssued.class)).hasSize(3);
        assertThat(flown.record().inForce().route()).isEmpty();
        assertThat(flown.record().inForce().assigned().altitudeFt()).hasValue(6000);
    }

    /** 30 s after all is done, the turn at the end of the intercepted leg being over. */
    @Test
    void theGradedPartEndsHalfAMinuteAfterAllIsDone() {
        Leg leg = sound();
        leg.flight.seconds(120);
        Flown flown = Flown.fly(leg.flight.sample(2));
        assertThat(flown.all(FlightEvent.GradedPartEnded.class)).hasSize(1);
        assertThat(flown.all(FlightEvent.GradedPartEnded.class).get(0).timeS())
                .isCloseTo(flown.all(FlightEvent.AmendmentComplete.class).get(0).timeS() + 30, Offset.offset(1e-6));
    }

    /** Off the radial, cut across to the airway: untidy, and achieved all the same. */
    @Test
    void whoPassedTheEndOfTheLegWithinTheScaleAndJoinedTheNextHasAchievedIt() {
        Leg leg = Ocean.toRadial(45, -1, 120, Ocean.CALM);
        // Beside the radial at a mile and three quarters: inside full scale, never established.
        double a = Math.toRadians(45);
        leg.flight.miles(6 - leg.flight.radiusNm() * Math.tan(a / 2) - 1.75 / Math.sin(a));
        leg.turnOn().toFixLessNm(leg.flight.radiusNm()).ontoAirway();
        Flown flown = Flown.fly(leg.flight.sample(2));
        assertThat(flown.all(FlightEvent.InterceptAchieved.class))
                .as("%s", flown.events())
                .hasSize(1);
        assertThat(flown.names())
                .containsSubsequence(
                        EventKind.INTERCEPT_ACHIEVED.logName(),
                        EventKind.AIRWAY_JOINED.logName(),
                        EventKind.AMENDMENT_COMPLETE.logName());
    }

    /** Issued by hand right after the lesson's own, at a sample a hair before the second it is due: a debrief keeps the order. */
    @Test
    void ofTwoClearancesAtOneInstantTheOneWrittenFirstIsSpokenFirst() {
        List<AircraftState> states = sound().flight.sample(5).stream()
                .map(state -> state.withTimeS(state.timeS() * (1 - 1.3e-5)))
                .toList();
        AircraftState second = states.get(150); // 30 s, less 0.39 ms
        assertThat(second.timeS()).isBetween(29.9995, 29.9998);
        Flown flown = Flown.fly(
                states,
                List.of(Ocean.at(30, "fly heading 110", 6000), Ocean.at(second.timeS(), "fly heading 120", 6000)));
        assertThat(flown.all(FlightEvent.ClearanceIssued.class))
                .extracting(FlightEvent.ClearanceIssued::text)
                .containsExactly("fly heading 110", "fly heading 120");
    }
}
