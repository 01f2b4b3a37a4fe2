package org.rejoin.bridge.tracker;

import org.rejoin.bridge.flight.CourseMeasure;
import org.rejoin.bridge.flight.FlightInstant;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.GeodesicLine;

/**
 * "Resume own navigation" does not say how: a pilot may go direct to the next fix, or join the filed leg that leads to it.
 * Which he does is seen from where his track leads.
 */
final class FiledLegWatch {

    /** Closing on the leg at less than this it is not seen where it is met, degrees; common practice, no source. */
    private static final double LEAST_DEG = 5;

    private final CourseLine line;
    private final double alongDeg;
    private final double nearShare;
    private final double turningShare;
    private boolean leads;
    private boolean atFix;

    FiledLegWatch(GeodesicLine leg, Rules rules) {
        this.line = new CourseLine.Straight(leg);
        this.alongDeg = rules.of(Rule.Established.class).alongDeg();
        this.nearShare = rules.of(Rule.Established.class).ofScale();
        this.turningShare = rules.of(Rule.Rates.class).turningShare();
    }

    CourseLine line() {
        return line;
    }

    /**
     * Takes a step.
     *
     * @param toFixDeg the turn that is left until the aircraft points at the fix; NaN where it is not known
     */
    void step(FlightInstant now, double toFixDeg) {
        CourseMeasure here = line.measure(now);
        double angleDeg = here.towardDeg();
        double aheadNm = Math.abs(here.crossTrackNm()) / Math.tan(Math.toRadians(angleDeg));
        atFix = Math.abs(toFixDeg) <= alongDeg;
        leads = !atFix
                && angleDeg >= LEAST_DEG
                && angleDeg <= 90
                && here.alongNm() + aheadNm >= 0
                && here.alongNm() + aheadNm < line.lengthNm();
    }

    /** Whether the track leads to the leg, before its end. */
    boolean leads() {
        return leads;
    }

    /** Whether the leg is being joined: near it, on the way to it or along it, and not to the fix. */
    boolean joins(FlightInstant now, double fullScaleNm) {
        CourseMeasure here = line.measure(now);
        boolean abeam = here.alongNm() >= 0 && here.alongNm() < line.lengthNm();
        boolean along = Math.abs(here.meanTrackErrorDeg()) <= alongDeg && now.turning() <= turningShare;
        return abeam && !atFix && (leads || along) && Math.abs(here.crossTrackNm()) <= nearShare * fullScaleNm;
    }
}
