package org.rejoin.bridge.tracker;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;

import org.rejoin.bridge.flight.CourseMeasure;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Rule;

/**
 * Chasing the needle: crossing the course again and again, the nose swinging and the aircraft well off the course
 * between one crossing and the next (Instrument Flying Handbook, FAA-H-8083-15B, chapter 9).
 */
final class WeaveWatch {

    /** How large counts by how many times what it needs in degrees and off the course: the lesser of both. */
    private record Swing(double atS, double deg, double times) {}

    private final Rule.Weaving rule;
    private final Deque<Swing> swings = new ArrayDeque<>();
    private double lowDeg = Double.NaN;
    private double highDeg = Double.NaN;
    private double farthestOfScale;
    private final Once told = new Once();

    WeaveWatch(Rule.Weaving rule) {
        this.rule = rule;
    }

    void note(CourseMeasure now, double fullScaleNm) {
        double nose = now.instant().noseDeg();
        lowDeg = Double.isNaN(lowDeg) ? nose : Math.min(lowDeg, nose);
        highDeg = Double.isNaN(highDeg) ? nose : Math.max(highDeg, nose);
        farthestOfScale = Math.max(farthestOfScale, Math.abs(now.crossTrackNm()) / fullScaleNm);
    }

    void crossed(double atS, double timeS, double angleDeg, List<FlightEvent> events) {
        double swing = highDeg - lowDeg;
        double times = Math.min(swing / rule.swingDeg(), farthestOfScale / rule.ofScale());
        forget();
        // A steeper crossing is a course reversal or an intercept, not a chase.
        if (!(times > 1) || angleDeg > rule.flatterDeg()) {
            return;
        }
        swings.addLast(new Swing(atS, swing, times));
        while (swings.getFirst().atS() < atS - rule.windowS()) {
            swings.removeFirst();
        }
        if (told.when(swings.size() >= rule.crossings())) {
            double largest = swings.stream().mapToDouble(Swing::deg).max().orElse(swing);
            double least = swings.stream().mapToDouble(Swing::times).min().orElse(times);
            events.add(new FlightEvent.Weaving(timeS, swings.size(), largest, least));
        }
    }

    private void forget() {
        lowDeg = Double.NaN;
        highDeg = Double.NaN;
        farthestOfScale = 0;
    }

    void reset() {
        swings.clear();
        forget();
    }
}
