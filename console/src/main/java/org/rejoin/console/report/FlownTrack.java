package org.rejoin.console.report;

import java.util.ArrayList;
import java.util.List;
import java.util.function.IntPredicate;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.flight.FlightEvent;

/**
 * The track in pieces: a new one begins wherever the aircraft was moved or was not heard, so that no line is drawn where
 * nobody flew.
 *
 * @param pieces one or more samples each, in order of time
 */
record FlownTrack(List<List<FlightTrace.Sample>> pieces) {

    /** Two times are the same instant within this, seconds. */
    private static final double SAME_INSTANT_S = 1e-6;

    FlownTrack {
        pieces = List.copyOf(pieces);
    }

    static FlownTrack of(List<FlightTrace.Sample> samples, List<FlightEvent> events) {
        List<Double> breaks = events.stream()
                .filter(event ->
                        event instanceof FlightEvent.Repositioned || event instanceof FlightEvent.FeedResumed)
                .map(FlightEvent::timeS)
                .toList();
        List<List<FlightTrace.Sample>> pieces = new ArrayList<>();
        List<FlightTrace.Sample> piece = new ArrayList<>();
        int next = 0;
        for (FlightTrace.Sample sample : samples) {
            boolean broken = false;
            while (next < breaks.size() && breaks.get(next) <= sample.timeS() + SAME_INSTANT_S) {
                broken = true;
                next++;
            }
            if (broken && !piece.isEmpty()) {
                pieces.add(List.copyOf(piece));
                piece.clear();
            }
            piece.add(sample);
        }
        if (!piece.isEmpty()) {
            pieces.add(List.copyOf(piece));
        }
        return new FlownTrack(pieces);
    }

    /**
     * Where the aircraft was. Across a break it stays where it was last heard: what lies between was not flown.
     *
     * @param timeS seconds since the first sample; outside the flight its nearer end is taken
     */
    Position at(double timeS) {
        int index = last(pieces.size(), i -> pieces.get(i).get(0).timeS() <= timeS + SAME_INSTANT_S);
        List<FlightTrace.Sample> piece = pieces.get(index);
        int low = last(piece.size(), i -> piece.get(i).timeS() <= timeS);
        FlightTrace.Sample before = piece.get(low);
        FlightTrace.Sample after = piece.get(Math.min(low + 1, piece.size() - 1));
        double span = after.timeS() - before.timeS();
        double share = span > 0 ? Math.min(1, Math.max(0, (timeS - before.timeS()) / span)) : 0;
        double east = Angles.turn(after.state().longitudeDeg() - before.state().longitudeDeg());
        return new Position(
                before.state().latitudeDeg()
                        + share * (after.state().latitudeDeg() - before.state().latitudeDeg()),
                Angles.turn(before.state().longitudeDeg() + share * east));
    }

    /** The last index that has begun, by bisection; the first if none has. */
    private static int last(int size, IntPredicate begun) {
        int low = 0;
        int high = size;
        while (high - low > 1) {
            int middle = (low + high) / 2;
            if (begun.test(middle)) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return low;
    }

    static Position position(FlightTrace.Sample sample) {
        return new Position(sample.state().latitudeDeg(), sample.state().longitudeDeg());
    }
}
