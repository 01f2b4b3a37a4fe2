package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;

import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.protocol.AircraftState;

import org.assertj.core.data.Offset;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The simulation stopped past the line, before the turn onto it. */
class PausePastLineTest {

    /** Met after 6 NM, 180 s at 120 kt; held on for 25 s and then turned back onto it: flown through, paused or not. */
    private static List<AircraftState> through() {
        Ocean.Leg leg = Ocean.toRadial(45, -1, 120, Ocean.CALM).toCourse(25);
        leg.flight.turnTo(leg.courseHere() - 45);
        leg.flight.miles(leg.crossNm() / Math.sin(Math.toRadians(45)) - leg.flight.radiusNm() * 0.4142);
        leg.turnOn().asCleared();
        return leg.flight.sample(2);
    }

    /** Stood still behind so many samples. */
    private static List<AircraftState> paused(List<AircraftState> states, int count, int forS) {
        List<AircraftState> paused = new ArrayList<>(states.subList(0, count));
        AircraftState stood = paused.get(paused.size() - 1);
        for (int i = 1; i <= 2 * forS; i++) {
            paused.add(stood.withTimeS(stood.timeS() + i / 2.0));
        }
        states.subList(count, states.size()).forEach(state -> paused.add(state.withTimeS(state.timeS() + forS)));
        return paused;
    }

    private static void assertSame(Flown with, Flown without) {
        assertThat(without.faults()).containsExactly(FaultCode.FLOWN_THROUGH);
        assertThat(with.faults()).isEqualTo(without.faults());
        assertThat(with.score()).isCloseTo(without.score(), Offset.offset(0.3));
        assertThat(with.grade().verdict()).isEqualTo(without.grade().verdict());
    }

    @ParameterizedTest
    @CsvSource({"184, 20", "190, 20", "198, 300"})
    void aPausePastTheLineChangesNeitherFaultNorScore(int atS, int forS) {
        List<AircraftState> through = through();
        assertSame(Flown.fly(paused(through, 2 * atS, forS)), Flown.fly(through));
    }

    /** The last sample before the line, and those beside it; the first way across the line. */
    @ParameterizedTest
    @CsvSource({"-1, 20", "0, 20", "1, 20", "0, 300"})
    void aPauseOnTheVeryLineChangesNeitherFaultNorScore(int later, int forS) {
        List<AircraftState> through = through();
        int across = 0;
        while (Ocean.RADIAL.offset(at(through.get(across))).crossTrackNm() < 0) {
            across++;
        }
        assertSame(Flown.fly(paused(through, across + later, forS)), Flown.fly(through));
    }

    private static Position at(AircraftState state) {
        return new Position(state.latitudeDeg(), state.longitudeDeg());
    }
}
