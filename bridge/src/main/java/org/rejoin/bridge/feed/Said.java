package org.rejoin.bridge.feed;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;

import org.rejoin.protocol.Decoded;

import org.jspecify.annotations.Nullable;

/** What one sender said of one aircraft, kept until it is known whose flight it belongs to; so much and no more. */
final class Said {

    private final int most;
    private final List<Consumer<Aircraft>> pieces = new ArrayList<>();

    private Decoded.@Nullable Sample first;

    Said(int most) {
        this.most = most;
    }

    void add(Decoded.Sample sample, long receivedMicros) {
        if (first == null && !full()) {
            first = sample;
        }
        add(aircraft -> aircraft.accept(sample, receivedMicros));
    }

    void add(Decoded.Control.What what, long receivedMicros) {
        add(aircraft -> aircraft.control(what, receivedMicros));
    }

    private void add(Consumer<Aircraft> piece) {
        if (!full()) {
            pieces.add(piece);
        }
    }

    boolean full() {
        return pieces.size() >= most;
    }

    Optional<Decoded.Sample> firstSample() {
        return Optional.ofNullable(first);
    }

    void giveTo(Aircraft aircraft) {
        pieces.forEach(each -> each.accept(aircraft));
    }
}
