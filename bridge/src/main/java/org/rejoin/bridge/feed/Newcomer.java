package org.rejoin.bridge.feed;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.protocol.Decoded;

/**
 * An aircraft that goes by the name of others heard from other ports of the same address: one of these, whose simulator
 * was started again, if just that one stays silent; a new one if none does. What it says is held until that is known.
 */
final class Newcomer {

    /** A simulator started again often sends from another port; wire-formats 1.9: an aircraft is gone after 12 s. */
    private static final long GONE_MICROS = 12_000_000;
    /** More others than this are not watched; a lab has a dozen. */
    private static final int MOST_ELDERS = 64;
    /** A minute at 20 Hz. */
    private static final int MOST_HELD = 1200;

    /** One of the others, its sender, and when it had been heard last when the newcomer came. */
    record Elder(Sender from, Aircraft aircraft, long heardMicros) {
        boolean silentStill() {
            return aircraft.heardMicros() == heardMicros && from.aircraft().containsValue(aircraft);
        }

        /** Takes the aircraft from its sender. */
        Aircraft taken() {
            from.aircraft().values().remove(aircraft);
            return aircraft;
        }
    }

    private record Held(Decoded what, long receivedMicros) {}

    private final List<Elder> elders;
    private final List<Held> held = new ArrayList<>();

    private Newcomer(List<Elder> elders) {
        this.elders = elders;
    }

    /** A newcomer, given who has been heard by its name; the one it is may be clear at once. */
    static Newcomer after(List<Elder> elders, long receivedMicros) {
        List<Elder> gone = elders.stream()
                .filter(elder -> receivedMicros - elder.heardMicros() >= GONE_MICROS)
                .toList();
        return new Newcomer(!gone.isEmpty() ? gone : elders.size() > MOST_ELDERS ? List.of() : elders);
    }

    /** Whether it is not known yet who this is. */
    boolean isOpen(long receivedMicros) {
        return held.size() < MOST_HELD
                && elders.stream()
                        .anyMatch(elder -> elder.silentStill() && receivedMicros - elder.heardMicros() < GONE_MICROS);
    }

    /** Who it is, once that is known; empty for a new aircraft. */
    Optional<Elder> same() {
        List<Elder> silent = elders.stream().filter(Elder::silentStill).toList();
        return held.size() < MOST_HELD && silent.size() == 1 ? Optional.of(silent.get(0)) : Optional.empty();
    }

    void hold(Decoded what, long receivedMicros) {
        held.add(new Held(what, receivedMicros));
    }

    /** The first sample held. */
    Optional<Decoded.Sample> first() {
        return held.stream()
                .map(Held::what)
                .filter(Decoded.Sample.class::isInstance)
                .map(Decoded.Sample.class::cast)
                .findFirst();
    }

    void giveTo(Aircraft aircraft) {
        for (Held each : held) {
            if (each.what() instanceof Decoded.Sample sample) {
                aircraft.accept(sample, each.receivedMicros());
            } else if (each.what() instanceof Decoded.Control control) {
                aircraft.control(control.what(), each.receivedMicros());
            }
        }
    }
}
