package org.rejoin.bridge.feed;

import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.Optional;

import org.rejoin.protocol.Decoded;

/**
 * The time of day at the first sample of an aircraft, Coordinated Universal Time, by the clocks there are.
 *
 * @param sender what the sender's clock says; empty where it tells no time of day
 * @param receipt what the clock of the machine that received it says
 */
public record DayClock(Optional<LocalTime> sender, LocalTime receipt) {

    private static final double DAY_S = 86_400;

    /** Of a sender whose clock tells no time of day: by when its first sample was received. */
    public static DayClock receivedAt(Instant received) {
        return new DayClock(Optional.empty(), received.atOffset(ZoneOffset.UTC).toLocalTime());
    }

    /** Of a sample whose state has the time of receipt. */
    static DayClock of(Decoded.Sample sample, boolean tellsUtc) {
        Instant received = Instant.EPOCH.plus(Math.round(sample.state().timeS() * 1e6), ChronoUnit.MICROS);
        return new DayClock(
                sample.source()
                        .filter(source -> tellsUtc && source.seconds() >= 0 && source.seconds() < DAY_S)
                        .map(source -> LocalTime.ofNanoOfDay(((long) (source.seconds() * 1e3)) * 1_000_000)),
                receivedAt(received).receipt());
    }
}
