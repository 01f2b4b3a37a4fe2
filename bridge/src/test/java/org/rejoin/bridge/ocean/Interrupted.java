package org.rejoin.bridge.ocean;

import java.util.ArrayList;
import java.util.List;

import org.rejoin.protocol.AircraftState;

/** The same flight with a pause, or with a part of it that nobody received. */
public final class Interrupted {

    private Interrupted() {}

    /** The simulation stands still from the last sample at or before a time on; its sender repeats where it is. */
    public static List<AircraftState> standing(List<AircraftState> flight, double atS, double seconds, double hz) {
        List<AircraftState> sent = new ArrayList<>();
        boolean stood = false;
        for (AircraftState state : flight) {
            if (!stood && state.timeS() > atS) {
                AircraftState still = sent.get(sent.size() - 1);
                for (int i = 1; i <= seconds * hz; i++) {
                    sent.add(still.withTimeS(still.timeS() + i / hz));
                }
                stood = true;
            }
            sent.add(stood ? state.withTimeS(state.timeS() + seconds) : state);
        }
        return sent;
    }

    /** Nothing is received after one time and before another. */
    public static List<AircraftState> unheard(List<AircraftState> flight, double fromS, double toS) {
        return flight.stream()
                .filter(state -> state.timeS() <= fromS || state.timeS() >= toS)
                .toList();
    }
}
