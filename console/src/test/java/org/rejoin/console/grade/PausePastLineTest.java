package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;

import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.protocol.AircraftState;

import org.assertj.core.data.Offset;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The simulation stopped past the line, before the turn onto it. */
class PausePastLineTest {

    /** Met after 6 NM, 180 s at 120 kt; held on for 25 s and then turned back onto it: flown through, paused or not. */
    @ParameterizedTest
    @CsvSource({"184, 20", "190, 20", "198, 300"})
    void aPausePastTheLineChangesNeitherFaultNorScore(int atS, int forS) {
        Ocean.Leg leg = Ocean.toRadial(45, -1, 120, Ocean.CALM).toCourse(25);
        leg.flight.turnTo(leg.courseHere() - 45);
        leg.flight.miles(leg.crossNm() / Math.sin(Math.toRadians(45)) - leg.flight.radiusNm() * 0.4142);
        leg.turnOn().asCleared();
        List<AircraftState> through = leg.flight.sample(2);
        List<AircraftState> paused = new ArrayList<>(through.subList(0, 2 * atS));
        AircraftState stood = paused.get(paused.size() - 1);
        for (int i = 1; i <= 2 * forS; i++) {
            paused.add(stood.withTimeS(stood.timeS() + i / 2.0));
        }
        through.subList(2 * atS, through.size()).forEach(state -> paused.add(state.withTimeS(state.timeS() + forS)));
        Flown without = Flown.fly(through);
        Flown with = Flown.fly(paused);
        assertThat(without.faults()).containsExactly(org.rejoin.bridge.flight.FaultCode.FLOWN_THROUGH);
        assertThat(with.faults()).isEqualTo(without.faults());
        assertThat(with.score()).isCloseTo(without.score(), Offset.offset(0.3));
    }
}
