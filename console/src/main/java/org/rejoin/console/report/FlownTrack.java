package org.rejoin.console.report;

import java.util.ArrayList;
import java.util.List;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.tracker.TrackerEvent;

/**
 * The track in pieces: a new one begins wherever the aircraft was moved or was not heard, so that no line is drawn where
 * nobody flew.
 *
 * @param pieces one or more samples each, in order of time
 */
record FlownTrack(List<List<FlightTrace.Sample>> pieces) {

    FlownTrack {
        pieces = List.copyOf(pieces);
    }

    static FlownTrack of(List<FlightTrace.Sample> samples, List<TrackerEvent> events) {
        List<Double> breaks = events.stream()
                .filter(event ->
                        event instanceof TrackerEvent.Repositioned || event instanceof TrackerEvent.FeedResumed)
                .map(TrackerEvent::timeS)
                .toList();
        List<List<FlightTrace.Sample>> pieces = new ArrayList<>();
        List<FlightTrace.Sample> piece = new ArrayList<>();
        int next = 0;
        for (FlightTrace.Sample sample : samples) {
            boolean broken = false;
            while (next < breaks.size() && breaks.get(next) <= sample.timeS() + 1e-6) {
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
     * Where the aircraft was.
     *
     * @param samples one or more, in order of time
     * @param timeS seconds since the first sample; outside the flight its nearer end is taken
     */
    static Position at(List<FlightTrace.Sample> samples, double timeS) {
        int low = 0;
        int high = samples.size() - 1;
        while (high - low > 1) {
            int middle = (low + high) / 2;
            if (samples.get(middle).timeS() <= timeS) {
                low = middle;
            } else {
                high = middle;
            }
        }
        FlightTrace.Sample before = samples.get(low);
        FlightTrace.Sample after = samples.get(high);
        double span = after.timeS() - before.timeS();
        double share = span > 0 ? Math.min(1, Math.max(0, (timeS - before.timeS()) / span)) : 0;
        double east = Angles.turn(after.state().longitudeDeg() - before.state().longitudeDeg());
        return new Position(
                before.state().latitudeDeg()
                        + share * (after.state().latitudeDeg() - before.state().latitudeDeg()),
                Angles.turn(before.state().longitudeDeg() + share * east));
    }

    static Position position(FlightTrace.Sample sample) {
        return new Position(sample.state().latitudeDeg(), sample.state().longitudeDeg());
    }
}
