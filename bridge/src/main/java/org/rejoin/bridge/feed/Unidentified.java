package org.rejoin.bridge.feed;

import java.util.List;
import java.util.Optional;

import org.rejoin.protocol.Decoded;

/**
 * An aircraft that goes by the name of others heard from other ports of the same address: one of these, whose simulator
 * was started again, if just that one stays silent and a flight leads from it to here ({@link LastSeen}); else a new one.
 * What it says is held until that is known.
 */
record Unidentified(List<Candidate> candidates, boolean displaced, Said said) {

    /** An aircraft is gone after 2.4 heartbeats of 5 s (IEEE 1278.1). */
    static final long GONE_MICROS = 12_000_000;
    /** More others than this are not watched; a lab has a dozen. */
    private static final int MOST_CANDIDATES = 64;
    /** A minute at 20 Hz. */
    private static final int MOST_HELD = 1200;

    /** One of the others, its sender, and when it had been heard last when the unidentified one came. */
    record Candidate(Sender from, Aircraft aircraft, long heardMicros) {
        boolean silentStill() {
            return aircraft.heardMicros() == heardMicros && from.aircraft().containsValue(aircraft);
        }
    }

    /** Somebody new, given who it may be; which of them may be clear at once. */
    static Unidentified among(List<Candidate> candidates, long receivedMicros) {
        List<Candidate> gone = candidates.stream()
                .filter(each -> receivedMicros - each.heardMicros() >= GONE_MICROS)
                .toList();
        return new Unidentified(
                !gone.isEmpty() ? gone : candidates.size() > MOST_CANDIDATES ? List.of() : candidates,
                false,
                new Said(MOST_HELD));
    }

    /** It was taken for an aircraft whose own port is heard again; if it speaks once more, it is another one. */
    static Unidentified displaced(Said said) {
        return new Unidentified(List.of(), true, said);
    }

    /** Whether it is not known yet who this is. */
    boolean isOpen(long receivedMicros) {
        return !said.full()
                && candidates.stream()
                        .anyMatch(each -> each.silentStill() && receivedMicros - each.heardMicros() < GONE_MICROS);
    }

    /** Who it is, once that is known; empty for a new aircraft. */
    Optional<Candidate> same() {
        List<Candidate> silent =
                candidates.stream().filter(Candidate::silentStill).toList();
        return !said.full() && silent.size() == 1 ? Optional.of(silent.get(0)) : Optional.empty();
    }

    void hold(Decoded.Sample sample, long receivedMicros) {
        said.add(sample, receivedMicros);
    }

    void hold(Decoded.Control.What what, long receivedMicros) {
        said.add(what, receivedMicros);
    }

    /** What speaks for it at the end of the feed; empty if nothing has since it was displaced. */
    Optional<Decoded.Sample> first() {
        return displaced ? Optional.empty() : said.firstSample();
    }

    int exercise() {
        return said.firstSample().map(Decoded.Sample::exercise).orElse(Decoded.NO_EXERCISE);
    }

    void giveTo(Aircraft aircraft) {
        said.giveTo(aircraft);
    }
}
