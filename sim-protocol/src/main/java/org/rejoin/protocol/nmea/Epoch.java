package org.rejoin.protocol.nmea;

import java.util.HashSet;
import java.util.Set;

import org.rejoin.protocol.StateDraft;

/** The sentences of one UTC, as they come together. */
final class Epoch {

    /** Where a position came from, best first. */
    enum PositionSource {
        RMC,
        GGA,
        GLL,
        NONE;

        boolean betterThan(PositionSource other) {
            return compareTo(other) < 0;
        }
    }

    private final long utcMillis;
    private final long openedMicros;
    private final Set<String> seen = new HashSet<>();
    private final StateDraft draft = new StateDraft();
    private long lastMicros;
    private PositionSource source = PositionSource.NONE;
    private double latitudeDeg = Double.NaN;
    private double longitudeDeg = Double.NaN;
    private double speedKt = Double.NaN;
    private double trackDeg = Double.NaN;
    private double variationDeg = Double.NaN;

    /** Begins with nothing; {@code utcMillis} is -1 where the sender gave no time. */
    Epoch(long utcMillis, long openedMicros) {
        this.utcMillis = utcMillis;
        this.openedMicros = openedMicros;
        this.lastMicros = openedMicros;
    }

    long utcMillis() {
        return utcMillis;
    }

    long openedMicros() {
        return openedMicros;
    }

    long lastMicros() {
        return lastMicros;
    }

    boolean has(String key) {
        return seen.contains(key);
    }

    void heard(String key, long micros) {
        seen.add(key);
        lastMicros = Math.max(lastMicros, micros);
    }

    void position(PositionSource from, double latitude, double longitude) {
        if (from.betterThan(source)) {
            source = from;
            latitudeDeg = latitude;
            longitudeDeg = longitude;
        }
    }

    void altitudeFt(double feet) {
        draft.altitudeMslFt(feet);
    }

    /** Speed and track; what is not a number leaves what was there. */
    void motion(double knots, double degrees) {
        speedKt = Double.isNaN(knots) ? speedKt : knots;
        trackDeg = Double.isNaN(degrees) ? trackDeg : degrees;
    }

    void headingTrue(double degrees) {
        draft.headingTrueDeg(degrees);
    }

    void headingMagnetic(double degrees) {
        draft.headingMagneticDeg(degrees);
    }

    void variation(double eastPositiveDeg) {
        variationDeg = Double.isNaN(eastPositiveDeg) ? variationDeg : eastPositiveDeg;
    }

    void pitch(double degrees) {
        draft.pitchDeg(degrees);
    }

    void roll(double degrees) {
        draft.rollDeg(degrees);
    }

    StateDraft close() {
        return draft.position(latitudeDeg, longitudeDeg)
                .groundSpeedKt(speedKt)
                .trackTrueDeg(trackDeg)
                .variationDeg(variationDeg);
    }
}
