package org.rejoin.bridge.feed;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.protocol.Decoded;

/** What one sender said of one aircraft, kept until it is known whose flight it belongs to; so much and no more. */
final class Said {

    private record Piece(Decoded what, long receivedMicros) {}

    private final int most;
    private final List<Piece> pieces = new ArrayList<>();

    Said(int most) {
        this.most = most;
    }

    void add(Decoded what, long receivedMicros) {
        if (!full()) {
            pieces.add(new Piece(what, receivedMicros));
        }
    }

    boolean full() {
        return pieces.size() >= most;
    }

    Optional<Decoded.Sample> firstSample() {
        return pieces.stream()
                .map(Piece::what)
                .filter(Decoded.Sample.class::isInstance)
                .map(Decoded.Sample.class::cast)
                .findFirst();
    }

    void giveTo(Aircraft aircraft) {
        for (Piece each : pieces) {
            if (each.what() instanceof Decoded.Sample sample) {
                aircraft.accept(sample, each.receivedMicros());
            } else if (each.what() instanceof Decoded.Control control) {
                aircraft.control(control.what(), each.receivedMicros());
            }
        }
    }
}
