package org.rejoin.bridge.tracker;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.OptionalDouble;
import java.util.stream.IntStream;

import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.bridge.ocean.Ocean.Leg;
import org.rejoin.protocol.AircraftState;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * A sample that lies where nobody can have flown, with the flight seen on its way before and after it: the flight is the
 * one that was flown, with the events that it has when the sample is simply not there.
 */
class StraySampleTest {

    private static final double OFF_DEG = 20.0 / 60;

    private static Leg sound() {
        Leg leg = Ocean.toRadial(45, -1, 120, Ocean.CALM)
                .toLead()
                .turnOn()
                .toFixLessNm(0.3)
                .ontoAirway();
        leg.flight.seconds(60);
        return leg;
    }

    private static AircraftState at(AircraftState state, double latitudeDeg, double longitudeDeg) {
        return at(state, latitudeDeg, longitudeDeg, state.altitudeMslFt(), state.trackTrueDeg());
    }

    private static AircraftState at(
            AircraftState state,
            double latitudeDeg,
            double longitudeDeg,
            OptionalDouble altitudeFt,
            OptionalDouble trackDeg) {
        return new AircraftState(
                state.timeS(),
                latitudeDeg,
                longitudeDeg,
                altitudeFt,
                state.headingTrueDeg(),
                state.headingMagneticDeg(),
                trackDeg,
                state.groundSpeedKt(),
                state.verticalSpeedFpm(),
                state.pitchDeg(),
                state.rollDeg(),
                state.indicatedAirspeedKt(),
                state.paused());
    }

    private static AircraftState off(AircraftState state, double northDeg) {
        return at(state, state.latitudeDeg() + northDeg, state.longitudeDeg());
    }

    /** The samples but some, and the same with those off their place. */
    private static void isAsWithout(List<AircraftState> all, List<Integer> stray, List<Double> northDeg) {
        List<AircraftState> without = new ArrayList<>();
        List<AircraftState> with = new ArrayList<>();
        for (int i = 0; i < all.size(); i++) {
            int which = stray.indexOf(i);
            with.add(which < 0 ? all.get(i) : off(all.get(i), northDeg.get(which)));
            if (which < 0) {
                without.add(all.get(i));
            }
        }
        var amendments = List.of(Ocean.at(2, Ocean.radialClearance(all.get(0)), 6000));
        Flown clean = Flown.fly(without, amendments);
        Flown flown = Flown.fly(with, amendments);
        assertThat(clean.all(FlightEvent.AmendmentComplete.class)).hasSize(1);
        assertThat(flown.events()).isEqualTo(clean.events());
        assertThat(flown.points()).isEqualTo(clean.points());
        assertThat(flown.session().quality().strays()).isEqualTo(stray.size());
        assertThat(flown.session().quality().resolutionNm())
                .isEqualTo(clean.session().quality().resolutionNm());
    }

    /** In the middle, in the turn onto the course, where the course is met, in the turn at the fix, and as the last. */
    @ParameterizedTest
    @CsvSource({"1, 0.2", "1, 0.999", "2.5, 0.5", "2.5, 0.3", "10, 0.77", "10, 0.9999", "30, 0.6"})
    void aStraySampleIsLeftOut(double hz, double share) {
        List<AircraftState> all = sound().flight.sample(hz);
        isAsWithout(all, List.of((int) (share * all.size())), List.of(OFF_DEG));
    }

    @ParameterizedTest
    @ValueSource(doubles = {1, 2.5, 30})
    void oneWhereTheInterceptIsAchievedIsLeftOut(double hz) {
        List<AircraftState> all = sound().flight.sample(hz);
        double atS =
                Flown.fly(all).all(FlightEvent.InterceptAchieved.class).get(0).timeS();
        for (int i = -1; i <= 1; i++) {
            isAsWithout(all, List.of((int) Math.round(atS * hz) + i), List.of(-OFF_DEG));
        }
    }

    /** Two of them, 0.4 s apart, at one place or at two: neither stays, and the flight goes on. */
    @ParameterizedTest
    @CsvSource({"2.5, 0.33, 0.33", "2.5, 0.33, -0.5", "1, 0.33, -0.5", "0.2, 0.33, -0.5", "30, 0.01, 0.33"})
    void twoOfThemAreLeftOut(double hz, double firstDeg, double secondDeg) {
        List<AircraftState> all = sound().flight.sample(hz);
        int i = all.size() / 2;
        isAsWithout(all, List.of(i, i + 1), List.of(firstDeg, secondDeg));
    }

    /**
     * A simulator that shows the aircraft 3 NM off its way for a second or more and then on it again, flying on there
     * meanwhile, has moved nobody.
     */
    @ParameterizedTest
    @CsvSource({"2, 3", "2, 4", "2, 9", "1, 2", "1, 4", "10, 15", "10, 20", "30, 60", "30, 140"})
    void aGlitchOfSomeSecondsIsLeftOut(double hz, int samples) {
        List<AircraftState> all = sound().flight.sample(hz);
        for (double share : new double[] {0.3, 0.8}) {
            int from = (int) (share * all.size());
            List<Integer> stray = IntStream.range(from, from + samples).boxed().toList();
            isAsWithout(all, stray, Collections.nCopies(samples, 3.0 / 60));
        }
    }

    /** What the aircraft flew where it was set down, until it was sure that it stays there, is a part of the attempt. */
    @ParameterizedTest
    @ValueSource(doubles = {0.2, 1, 2.5, 30})
    void whatWasFlownSinceTheMoveIsKept(double hz) {
        List<AircraftState> all = sound().flight.sample(hz);
        int moved = all.size() / 2;
        List<AircraftState> states = new ArrayList<>(all.subList(0, moved));
        all.subList(moved, all.size()).forEach(each -> states.add(off(each, OFF_DEG)));
        Flown flown = Flown.fly(states, List.of(Ocean.at(2, Ocean.radialClearance(all.get(0)), 6000)));
        assertThat(flown.all(FlightEvent.Repositioned.class)).hasSize(1);
        assertThat(flown.points())
                .extracting(Point::timeS)
                .containsAll(states.stream().map(AircraftState::timeS).toList());
        assertThat(flown.session().quality().strays()).isZero();
    }

    /** Not much farther than could be flown: 0.12 NM in a second are 430 kt. */
    @Test
    void aSmallOneIsLeftOut() {
        List<AircraftState> all = sound().flight.sample(5);
        isAsWithout(all, List.of(300, 700), List.of(0.12 / 60, -0.2 / 60));
    }

    /** Two aircraft under one name: the one that was there first is followed. */
    @Test
    void ofTwoAircraftUnderOneNameTheFirstIsFollowed() {
        List<AircraftState> all = sound().flight.sample(2);
        List<AircraftState> both = new ArrayList<>();
        for (AircraftState each : all) {
            both.add(each);
            both.add(off(each.withTimeS(each.timeS() + 0.1), OFF_DEG));
        }
        var amendments = List.of(Ocean.at(2, Ocean.radialClearance(all.get(0)), 6000));
        Flown flown = Flown.fly(both, amendments);
        assertThat(flown.events()).isEqualTo(Flown.fly(all, amendments).events());
        assertThat(flown.session().quality().strays()).isEqualTo(all.size());
    }

    /** The first is stray: the flight begins where the aircraft is seen from then on, and the lesson with it. */
    @Test
    void whereTheFirstIsStrayTheExerciseBeginsWithTheNext() {
        List<AircraftState> all = new ArrayList<>(sound().flight.sample(2));
        all.set(0, off(all.get(0), OFF_DEG));
        Flown flown = Flown.fly(all, List.of(Ocean.at(0, Ocean.radialClearance(all.get(1)), 6000)));
        FlightEvent.ClearanceIssued last = flown.all(FlightEvent.ClearanceIssued.class)
                .get(flown.all(FlightEvent.ClearanceIssued.class).size() - 1);
        assertThat(last.timeS()).isCloseTo(all.get(1).timeS(), Offset.offset(1e-9));
        assertThat(flown.all(FlightEvent.AmendmentComplete.class)).hasSize(1);
    }

    /** Whoever is set elsewhere, if only by a third of a mile back along his own way, stays there: a new attempt. */
    @ParameterizedTest
    @CsvSource({"1, -0.35", "1, 0.35", "10, -0.35", "10, -0.3", "10, 0.3", "30, 2", "0.2, -2"})
    void whoStaysWhereHeWasSetDownWasMoved(double hz, double aheadNm) {
        List<AircraftState> all =
                Ocean.toRadial(45, -1, 120, Ocean.CALM).toCourse(0).flight.sample(hz);
        int moved = all.size() / 2;
        double perSampleNm = 120 / 3600.0 / hz;
        List<AircraftState> states = new ArrayList<>(all.subList(0, moved));
        AircraftState from = all.get(moved - 1);
        AircraftState next = all.get(moved);
        double share = aheadNm / perSampleNm;
        for (AircraftState each : all.subList(moved, all.size())) {
            states.add(at(
                    each,
                    each.latitudeDeg() + share * (next.latitudeDeg() - from.latitudeDeg()),
                    each.longitudeDeg() + share * (next.longitudeDeg() - from.longitudeDeg())));
        }
        Flown flown = Flown.fly(states, List.of(Ocean.at(2, Ocean.radialClearance(all.get(0)), 6000)));
        assertThat(flown.all(FlightEvent.Repositioned.class)).singleElement().satisfies(event -> {
            assertThat(event.timeS()).isCloseTo(next.timeS(), Offset.offset(1e-9));
            assertThat(event.jumpNm()).isCloseTo(Math.abs(aheadNm + perSampleNm), Offset.offset(0.002));
        });
        assertThat(flown.session().quality().strays()).isZero();
        assertThat(flown.points()).extracting(Point::timeS).contains(next.timeS());
    }

    /** In the right place, with an altitude or a track of nothing: in a climb, and in the turn at the fix. */
    @ParameterizedTest
    @CsvSource({"1, true", "4, true", "1, false", "4, false"})
    void oneThatLeapsInAltitudeOrTrackIsLeftOut(double hz, boolean altitude) {
        Leg leg = sound();
        leg.flight.altitude(t -> Math.min(8000, 6000 + Math.max(0, t - 10) * 15));
        List<AircraftState> all = leg.flight.sample(hz);
        var amendments = List.of(Ocean.at(2, Ocean.radialClearance(all.get(0)), 8000));
        double turnS = Flown.fly(all).all(FlightEvent.FixSequenced.class).get(0).timeS();
        for (double atS : new double[] {40, 90, 130, turnS - 4, turnS, turnS + 4}) {
            int i = (int) Math.round(atS * hz);
            AircraftState there = all.get(i);
            List<AircraftState> with = new ArrayList<>(all);
            with.set(
                    i,
                    at(
                            there,
                            there.latitudeDeg(),
                            there.longitudeDeg(),
                            altitude ? OptionalDouble.of(0) : there.altitudeMslFt(),
                            altitude
                                    ? there.trackTrueDeg()
                                    : OptionalDouble.of((there.trackTrueDegOrNaN() + 230) % 360)));
            List<AircraftState> without = new ArrayList<>(all);
            without.remove(i);
            Flown flown = Flown.fly(with, amendments);
            assertThat(flown.events())
                    .as("%.1f", atS)
                    .isEqualTo(Flown.fly(without, amendments).events());
            assertThat(flown.session().quality().strays()).isEqualTo(1);
        }
    }

    /** Set higher by a thousand feet in flight, and left there: each sample is flown, and it is no move. */
    @Test
    void anAltitudeThatStaysIsFlown() {
        Leg leg = sound();
        leg.flight.altitude(t -> t < 100 ? 6000 : 7000);
        List<AircraftState> all = leg.flight.sample(2);
        Flown flown = Flown.fly(all);
        assertThat(flown.points()).hasSameSizeAs(all);
        assertThat(flown.session().quality().strays()).isZero();
        assertThat(flown.all(FlightEvent.Repositioned.class)).isEmpty();
        assertThat(flown.all(FlightEvent.AltitudeDeviationBegan.class))
                .singleElement()
                .satisfies(began -> assertThat(began.timeS()).isCloseTo(100, Offset.offset(0.5)));
    }
}
