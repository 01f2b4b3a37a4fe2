package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;

import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FeedQuality;
import org.rejoin.bridge.ocean.Interrupted;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.protocol.AircraftState;

import org.assertj.core.data.Offset;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Positions strewn about the way, as those of a receiver are, and neither track nor speed beside them. Over a second at 120 kt, 62
 * m, 20 m of it make a track wrong by 24 degrees (the root of two times 20 by 62): that is the feed and not the pilot.
 */
class StrewnPositionsTest {

    /** Half a minute on the ground before the flight, seconds. */
    private static final double STAND_S = 30;

    private static List<AircraftState> strewn(List<AircraftState> states, DoubleUnaryOperator metresAtS) {
        return strewn(states, metresAtS, 5, false);
    }

    private static List<AircraftState> strewn(
            List<AircraftState> states, DoubleUnaryOperator metresAtS, long seed, boolean sent) {
        Random random = new Random(seed);
        OptionalDouble none = OptionalDouble.empty();
        return states.stream()
                .map(s -> new AircraftState(
                        s.timeS(),
                        s.latitudeDeg() + metresAtS.applyAsDouble(s.timeS()) * random.nextGaussian() / 111_120,
                        s.longitudeDeg()
                                + metresAtS.applyAsDouble(s.timeS())
                                        * random.nextGaussian()
                                        / 111_120
                                        / Math.cos(Math.toRadians(s.latitudeDeg())),
                        s.altitudeMslFt(),
                        s.headingTrueDeg(),
                        s.headingMagneticDeg(),
                        sent ? s.trackTrueDeg() : none,
                        sent ? s.groundSpeedKt() : none,
                        none,
                        none,
                        none,
                        none,
                        false))
                .toList();
    }

    private static List<AircraftState> flown(double hz, double lateS, double metres) {
        return strewn(flight(hz, lateS), timeS -> metres);
    }

    private static List<AircraftState> flight(double hz, double lateS) {
        Ocean.Leg leg = Ocean.toRadial(45, -1, 120, Ocean.CALM);
        (lateS > 0 ? leg.toCourse(lateS).turnOn().sidestep() : leg.toLead().turnOn()).asCleared();
        return leg.flight.seconds(60).sample(hz);
    }

    /** The aircraft stands first, its place held or strewn by so much. */
    private static List<AircraftState> behindAStand(double hz, double lateS, double standMetres, double metres) {
        List<AircraftState> states = Interrupted.standing(flight(hz, lateS), 0, STAND_S, hz);
        return strewn(states, timeS -> timeS < STAND_S ? standMetres : metres);
    }

    private static Flown flyBehindAStand(List<AircraftState> states) {
        return Flown.fly(states, List.of(Ocean.at(STAND_S + 2, Ocean.radialClearance(states.get(0)), 6000)));
    }

    /** Half of that way from where it was, once in a while, is the receiver: nobody set the aircraft elsewhere. */
    @ParameterizedTest
    @CsvSource({"1, 30, true", "1, 30, false", "2, 30, true", "1, 40, false", "5, 40, false"})
    void positionsStrewnFarAreNoMove(double hz, double metres, boolean sent) {
        for (int seed = 1; seed <= 4; seed++) {
            Flown flown = Flown.fly(strewn(flight(hz, 0), timeS -> metres, seed, sent));
            assertThat(flown.grade().attempts())
                    .as("%d: %s", seed, flown.events())
                    .hasSize(1);
            assertThat(flown.faults()).isEmpty();
            assertThat(flown.score()).isGreaterThan(95);
        }
    }

    @ParameterizedTest
    @CsvSource({"1, 10", "1, 20", "2, 20", "5, 10", "5, 20", "10, 20", "20, 10", "20, 20"})
    void goodFlyingIsGoodFlyingWhateverTheReceiverDoes(double hz, double metres) {
        Flown flown = Flown.fly(flown(hz, 0, metres));
        assertThat(flown.faults()).as("%s %s", flown.grade(), flown.events()).isEmpty();
        assertThat(flown.grade().verdict()).isEqualTo(Verdict.MET);
        assertThat(flown.score()).isGreaterThan(95);
    }

    @ParameterizedTest
    @CsvSource({"1, 0, 20", "5, 0, 20", "10, 0, 20", "1, 1, 20", "5, 1, 20", "10, 1, 20", "5, 1, 10", "20, 0, 20"})
    void howTheAircraftStoodBeforeDoesNotMatter(double hz, double standMetres, double metres) {
        Flown flown = flyBehindAStand(behindAStand(hz, 0, standMetres, metres));
        assertThat(flown.faults()).as("%s %s", flown.grade(), flown.events()).isEmpty();
        assertThat(flown.grade().verdict()).isEqualTo(Verdict.MET);
        assertThat(flown.score()).isGreaterThan(95);
    }

    @ParameterizedTest
    @CsvSource({"1, 20", "5, 20", "20, 20"})
    void badFlyingIsBadFlying(double hz, double metres) {
        Flown fine = Flown.fly(flown(hz, 30, 0));
        isAsBad(fine, Flown.fly(flown(hz, 30, metres)));
        for (double standMetres : new double[] {0, 1}) {
            isAsBad(fine, flyBehindAStand(behindAStand(hz, 30, standMetres, metres)));
        }
    }

    private static void isAsBad(Flown fine, Flown flown) {
        assertThat(fine.faults())
                .isSubsetOf(FaultCode.FLOWN_THROUGH, FaultCode.OVERSHOOT)
                .hasSize(1);
        assertThat(flown.faults()).as("%s", flown.grade()).isEqualTo(fine.faults());
        assertThat(flown.score()).isCloseTo(fine.score(), Offset.offset(9.0));
    }

    private static double measuredMetres(List<AircraftState> states) {
        FeedQuality quality = new FeedQuality();
        for (AircraftState state : states) {
            quality.sample(state);
            quality.flown(state);
        }
        return quality.scatterNm() * 1852;
    }

    @ParameterizedTest
    @CsvSource({"1, 0", "1, 10", "5, 20", "20, 20"})
    void howFarTheyAreStrewnIsMeasured(double hz, double metres) {
        Offset<Double> near = Offset.offset(Math.max(0.5, 0.3 * metres));
        assertThat(measuredMetres(flown(hz, 0, metres))).isCloseTo(metres, near);
        for (double standMetres : new double[] {0, 1}) {
            assertThat(measuredMetres(behindAStand(hz, 0, standMetres, metres))).isCloseTo(metres, near);
        }
    }
}
