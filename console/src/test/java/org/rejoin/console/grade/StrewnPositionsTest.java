package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;

import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FeedQuality;
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

    private static List<AircraftState> strewn(List<AircraftState> states, double metres) {
        Random random = new Random(5);
        OptionalDouble none = OptionalDouble.empty();
        return states.stream()
                .map(s -> new AircraftState(
                        s.timeS(),
                        s.latitudeDeg() + metres * random.nextGaussian() / 111_120,
                        s.longitudeDeg()
                                + metres * random.nextGaussian() / 111_120 / Math.cos(Math.toRadians(s.latitudeDeg())),
                        s.altitudeMslFt(),
                        s.headingTrueDeg(),
                        s.headingMagneticDeg(),
                        none,
                        none,
                        none,
                        none,
                        none,
                        none,
                        false))
                .toList();
    }

    private static List<AircraftState> flown(double hz, double lateS, double metres) {
        Ocean.Leg leg = Ocean.toRadial(45, -1, 120, Ocean.CALM);
        (lateS > 0 ? leg.toCourse(lateS).turnOn().sidestep() : leg.toLead().turnOn()).asCleared();
        return strewn(leg.flight.seconds(60).sample(hz), metres);
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
    @CsvSource({"1, 20", "5, 20", "20, 20"})
    void badFlyingIsBadFlying(double hz, double metres) {
        Flown fine = Flown.fly(flown(hz, 30, 0));
        Flown flown = Flown.fly(flown(hz, 30, metres));
        assertThat(fine.faults())
                .isSubsetOf(FaultCode.FLOWN_THROUGH, FaultCode.OVERSHOOT)
                .hasSize(1);
        assertThat(flown.faults()).as("%s", flown.grade()).isEqualTo(fine.faults());
        assertThat(flown.score()).isCloseTo(fine.score(), Offset.offset(9.0));
    }

    @ParameterizedTest
    @CsvSource({"1, 0", "1, 10", "5, 20", "20, 20"})
    void howFarTheyAreStrewnIsMeasured(double hz, double metres) {
        FeedQuality quality = new FeedQuality();
        for (AircraftState state : flown(hz, 0, metres)) {
            quality.sample(state);
            quality.flown(state);
        }
        assertThat(quality.scatterNm() * 1852).isCloseTo(metres, Offset.offset(Math.max(0.5, 0.3 * metres)));
    }
}
