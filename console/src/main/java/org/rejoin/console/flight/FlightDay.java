package org.rejoin.console.flight;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Supplier;

import org.rejoin.console.lesson.Lesson;
import org.rejoin.protocol.Datagram;

import org.jspecify.annotations.Nullable;

/**
 * The day of a flight, for the magnetic model: the lesson's, or else the day by UTC of the first datagram that is
 * recorded, however long the flight goes on after midnight. May be asked from any thread.
 */
public final class FlightDay implements Supplier<LocalDate> {

    private final AtomicReference<@Nullable LocalDate> day;

    /** The day of a flight that has not begun. */
    public FlightDay(Lesson lesson) {
        day = new AtomicReference<>(lesson.date().orElse(null));
    }

    /** A datagram of the flight; only the first one says anything. */
    public void heard(Datagram datagram) {
        if (day.get() == null) {
            day.compareAndSet(
                    null,
                    Instant.EPOCH
                            .plus(datagram.receivedMicros(), ChronoUnit.MICROS)
                            .atOffset(ZoneOffset.UTC)
                            .toLocalDate());
        }
    }

    /** {@return the day; today's by UTC as long as nothing was heard} */
    @Override
    public LocalDate get() {
        LocalDate known = day.get();
        return known != null ? known : LocalDate.now(ZoneOffset.UTC);
    }
}
