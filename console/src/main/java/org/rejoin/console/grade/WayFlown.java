package org.rejoin.console.grade;

import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Position;
import org.rejoin.protocol.earth.Normal;

/**
 * Where the aircraft was in the last minutes, in order of time, the oldest first. Kept as numbers: a point of it is added at
 * every sample, and few are ever asked for.
 */
final class WayFlown {

    private static final int FIRST_ROOM = 64;
    private static final int NUMBERS = 6;

    private double[] rows = new double[FIRST_ROOM * NUMBERS];
    private int first;
    private int end;

    int size() {
        return (end - first) / NUMBERS;
    }

    /** When the aircraft was there, seconds since the first sample. */
    double timeS(int index) {
        return rows[first + index * NUMBERS];
    }

    /** The same as time flown. */
    double flownS(int index) {
        return rows[first + index * NUMBERS + 1];
    }

    Position position(int index) {
        int at = first + index * NUMBERS + 2;
        return Position.under(new Normal(rows[at], rows[at + 1], rows[at + 2]));
    }

    double trackTrueDeg(int index) {
        return rows[first + index * NUMBERS + 5];
    }

    void addLast(Point now) {
        if (end == rows.length) {
            makeRoom();
        }
        rows[end] = now.timeS();
        rows[end + 1] = now.flownS();
        Normal up = now.state().place().normal();
        rows[end + 2] = up.x();
        rows[end + 3] = up.y();
        rows[end + 4] = up.z();
        rows[end + 5] = now.trackTrueDeg();
        end += NUMBERS;
    }

    private void makeRoom() {
        int length = end - first;
        double[] to = length > rows.length / 2 ? new double[2 * rows.length] : rows;
        System.arraycopy(rows, first, to, 0, length);
        rows = to;
        first = 0;
        end = length;
    }

    /** Forgets what was before a time. */
    void forgetBefore(double timeS) {
        while (first < end && rows[first] < timeS) {
            first += NUMBERS;
        }
    }
}
