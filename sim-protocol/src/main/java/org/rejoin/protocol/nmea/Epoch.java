package org.rejoin.protocol.nmea;

import java.util.Arrays;

import org.rejoin.protocol.StateDraft;
import org.rejoin.protocol.StateRange;

/** The sentences of one UTC, as they come together. Used again for the next. */
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

    /** More kinds than any sender has; of what comes beyond, doubles are not noticed. */
    private static final int MOST_KINDS = 32;

    private final long[] keys = new long[MOST_KINDS];
    private final byte[][] sentences = new byte[MOST_KINDS][];
    private final int[] lengths = new int[MOST_KINDS];
    private final StateDraft draft = new StateDraft();
    private int kinds;
    private long utcMillis = -1;
    private long openedMicros;
    private long lastMicros;
    private PositionSource source = PositionSource.NONE;

    /** Begins anew with nothing; {@code utc} is -1 where the sender gave no time. */
    void open(long utc, long micros) {
        draft.clear();
        kinds = 0;
        utcMillis = utc;
        openedMicros = micros;
        lastMicros = micros;
        source = PositionSource.NONE;
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

    /** Whether it has a sentence of this kind. */
    boolean has(long key) {
        return index(key) >= 0;
    }

    /** Whether it has this very sentence. */
    boolean has(long key, Sentence sentence) {
        int index = index(key);
        return index >= 0 && sentence.isCopiedAt(sentences[index], lengths[index]);
    }

    private int index(long key) {
        for (int i = 0; i < kinds; i++) {
            if (keys[i] == key) {
                return i;
            }
        }
        return -1;
    }

    void heard(long key, Sentence sentence, long micros) {
        if (kinds < MOST_KINDS) {
            if (sentences[kinds] == null) {
                sentences[kinds] = new byte[Sentence.LONGEST];
            }
            keys[kinds] = key;
            lengths[kinds] = sentence.copyTo(sentences[kinds]);
            kinds++;
        }
        lastMicros = Math.max(lastMicros, micros);
    }

    /** Whether all of it, and more, was in another epoch of the same UTC. */
    boolean isPartOf(Epoch other) {
        if (utcMillis < 0 || utcMillis != other.utcMillis || kinds >= other.kinds) {
            return false;
        }
        for (int i = 0; i < kinds; i++) {
            int there = other.index(keys[i]);
            if (there < 0
                    || !Arrays.equals(sentences[i], 0, lengths[i], other.sentences[there], 0, other.lengths[there])) {
                return false;
            }
        }
        return true;
    }

    /** What the sentences say together. */
    StateDraft state() {
        return draft;
    }

    /** A position, kept unless a better one was sent. */
    void position(PositionSource from, double latitude, double longitude) {
        if (from.betterThan(source)) {
            source = from;
            draft.position(latitude, longitude);
        }
    }

    /** Speed and track; what is not a number leaves what was there. */
    void motion(double knots, double degrees) {
        if (!Double.isNaN(knots)) {
            draft.set(StateRange.GROUND_SPEED_KT, knots);
        }
        if (!Double.isNaN(degrees)) {
            draft.set(StateRange.TRACK_TRUE_DEG, degrees);
        }
    }

    /** The same of the variation. */
    void variation(double eastPositiveDeg) {
        if (!Double.isNaN(eastPositiveDeg)) {
            draft.variationDeg(eastPositiveDeg);
        }
    }
}
