package org.rejoin.bridge.tracker;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;

import org.rejoin.bridge.flight.FlightEvent;

/**
 * Chasing the needle: three or more crossings of the course in three minutes, the track swinging more than ten degrees
 * between one and the next (fixed by the project's contract; the error is described in the Instrument Flying Handbook,
 * FAA-H-8083-15B, chapter 9).
 */
final class WeaveWatch {

    private static final double WINDOW_S = 180;
    private static final double SWING_DEG = 10;
    private static final int CROSSINGS = 3;

    /** A steeper crossing is a course reversal or an intercept, not a chase; common practice, no source. */
    private static final double ALONG_DEG = 60;

    private record Swing(double atS, double deg) {}

    private final Deque<Swing> swings = new ArrayDeque<>();
    private double lowDeg = Double.NaN;
    private double highDeg = Double.NaN;
    private boolean told;

    void note(Measure now) {
        double error = now.trackErrorDeg();
        lowDeg = Double.isNaN(lowDeg) ? error : Math.min(lowDeg, error);
        highDeg = Double.isNaN(highDeg) ? error : Math.max(highDeg, error);
    }

    void crossed(double atS, double timeS, double angleDeg, List<FlightEvent> events) {
        double swing = highDeg - lowDeg;
        lowDeg = Double.NaN;
        highDeg = Double.NaN;
        if (!(swing > SWING_DEG) || angleDeg > ALONG_DEG) {
            return;
        }
        swings.addLast(new Swing(atS, swing));
        while (swings.getFirst().atS() < atS - WINDOW_S) {
            swings.removeFirst();
        }
        if (swings.size() >= CROSSINGS && !told) {
            told = true;
            double largest = swings.stream().mapToDouble(Swing::deg).max().orElse(swing);
            events.add(new FlightEvent.Weaving(timeS, swings.size(), largest));
        }
    }

    void reset() {
        swings.clear();
        lowDeg = Double.NaN;
        highDeg = Double.NaN;
    }
}
