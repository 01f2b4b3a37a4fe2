package org.rejoin.bridge.tracker;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.OptionalDouble;

import org.rejoin.bridge.flight.FeedQuality;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.protocol.AircraftState;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A speed that was not yet borne out by the positions makes no move of a flight; a speed that was, does. */
class UnprovenSpeedTest {

    private MoveWatch moves = new MoveWatch(Rules.STANDARD.of(Rule.Moved.class), new FeedQuality());

    private MoveWatch.Seen at(double timeS, double alongNm, double sentKt) {
        OptionalDouble none = OptionalDouble.empty();
        return moves.take(new AircraftState(
                timeS,
                30 + alongNm / 60,
                -145,
                none,
                none,
                none,
                none,
                OptionalDouble.of(sentKt),
                none,
                none,
                none,
                none,
                false));
    }

    /** 151 kt, at 0, 19 or 30 kt as sent. */
    @ParameterizedTest
    @ValueSource(doubles = {1, 2, 5, 20})
    void aSpeedAlwaysZeroOrStuckMovesNobody(double hz) {
        for (double sentKt : new double[] {0, 19, 30}) {
            moves = new MoveWatch(Rules.STANDARD.of(Rule.Moved.class), new FeedQuality());
            for (int i = 0; i < 60 * hz; i++) {
                assertThat(at(i / hz, 151 * i / hz / 3600, sentKt)).isEqualTo(MoveWatch.Seen.FLOWN);
            }
        }
    }

    /** Set 12 NM ahead: the way flown before explains no such step, whatever is said of the speed. */
    @ParameterizedTest
    @ValueSource(doubles = {0, 151})
    void aMoveIsToldAllTheSame(double sentKt) {
        for (int i = 0; i <= 60; i++) {
            at(i, 151 * i / 3600.0, sentKt);
        }
        for (int i = 0; i < 5; i++) {
            assertThat(at(61 + i, 15 + 151 * i / 3600.0, sentKt)).isEqualTo(MoveWatch.Seen.DOUBTFUL);
        }
        assertThat(at(66, 15 + 151 * 5 / 3600.0, sentKt)).isEqualTo(MoveWatch.Seen.MOVED);
        assertThat(moves.flownThere()).extracting(AircraftState::timeS).containsExactly(62.0, 63.0, 64.0, 65.0);
    }

    /** Put ahead step by step at 400 kt while it says that it stands, as it stood before. */
    @ParameterizedTest
    @ValueSource(doubles = {1, 5})
    void whoStoodAndIsSlewedIsMoved(double hz) {
        for (int i = 0; i <= 10 * hz; i++) {
            assertThat(at(i / hz, 0, 0)).isEqualTo(MoveWatch.Seen.FLOWN);
        }
        for (int i = 1; i <= 3 * hz; i++) {
            at(10 + i / hz, 400 * i / hz / 3600, 0);
        }
        assertThat(moves.inDoubt()).isTrue();
    }
}
