package org.rejoin.bridge.feed;

import org.rejoin.protocol.Decoded;

import org.jspecify.annotations.Nullable;

/**
 * Where an aircraft was last seen, and whether what another port says can be the rest of its flight. Two simulators on one
 * machine send the same name, or none, so a name proves nothing; position, altitude and time do, as far as they go:
 *
 * <ul>
 *   <li>It stands where it stood: within {@link #STOOD_NM} and {@link #STOOD_FT}, however long ago. A simulator that is
 *       started again, or a flight that is resumed, goes on where it was left.
 *   <li>Or it flew on: at most {@link #FLYING_S} ago, no farther than its speed took it, and no higher or lower than an
 *       aircraft climbs or descends.
 * </ul>
 *
 * <p>In doubt there are two aircraft. All times are those of receipt.
 */
final class LastSeen {

    /** What a flight at 100 kt covers in the 12 s until it is taken for gone; common practice, no source. */
    private static final double STOOD_NM = 0.3;
    /** As much as altimeters and geoids of one simulator differ between two formats; common practice, no source. */
    private static final double STOOD_FT = 300;
    /** Half a circle at 3 degrees a second (AIM 5-3-8, standard rate): after it the aircraft may have turned anywhere. */
    private static final double FLYING_S = 60;
    /** An emergency descent of a jet; common practice, no source. */
    private static final double MOST_FPM = 6_000;
    /** The speed over ground is measured across so much, s: errors of positions do not count then. */
    private static final double MEASURED_S = 5;

    private Decoded.@Nullable Sample last;
    private double lastS;
    private @Nullable Received anchor;
    private double measuredKt;

    void at(Decoded.Sample sample, long receivedMicros) {
        last = sample;
        lastS = receivedMicros * 1e-6;
        Received before = anchor;
        if (before == null) {
            anchor = Received.of(sample, lastS);
        } else if (lastS - before.atS() >= MEASURED_S) {
            anchor = Received.of(sample, lastS);
            measuredKt = anchor.distanceNm(before) / (lastS - before.atS()) * 3600;
        }
    }

    /** Whether a flight leads from there to this sample of another sender. */
    boolean leadsTo(Decoded.Sample sample, long receivedMicros) {
        if (last == null) {
            return false;
        }
        Received from = Received.of(last, lastS);
        Received to = Received.of(sample, receivedMicros * 1e-6);
        double passedS = Math.max(0, to.atS() - from.atS());
        double wayNm = from.distanceNm(to);
        double climbFt = from.state().altitudeMslFt().isPresent()
                        && to.state().altitudeMslFt().isPresent()
                ? Math.abs(to.state().altitudeMslFt().getAsDouble()
                        - from.state().altitudeMslFt().getAsDouble())
                : 0;
        if (wayNm <= STOOD_NM && climbFt <= STOOD_FT) {
            return true;
        }
        return passedS <= FLYING_S
                && wayNm <= STOOD_NM + speedKt(from, to) * (1 + ClockEvidence.TOLERANCE) * passedS / 3600
                && climbFt <= STOOD_FT + MOST_FPM * passedS / 60;
    }

    /** Reported or measured, whichever is more: in accelerated time the measured one is. */
    private double speedKt(Received from, Received to) {
        double reported = Math.max(
                from.state().groundSpeedKt().orElse(0),
                to.state().groundSpeedKt().orElse(0));
        double best = Math.max(measuredKt, reported);
        return best > 0 ? best : Received.USUAL_KT;
    }
}
