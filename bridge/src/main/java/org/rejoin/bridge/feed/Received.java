package org.rejoin.bridge.feed;

import java.util.Optional;

import org.rejoin.bridge.geo.RoundEarth;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.SourceTime;

/**
 * A sample and when it came.
 *
 * @param atS time of receipt, seconds; never earlier than that of the sample before
 */
record Received(AircraftState state, Optional<SourceTime> source, double atS) {

    /** Below this the distance between two samples is mostly error of the positions. */
    private static final double MOVING_KT = 20;
    /** Taken where none is reported, knots; common practice, no source. */
    static final double USUAL_KT = 100;
    /** After so long a feed is lost whatever it is: 2.4 heartbeats of 5 s (IEEE 1278.1). */
    private static final double LOST_S = 12;

    private static final double LEAST_S = 0.001;
    /** How much later or earlier than its fellows a datagram may come before its clock is doubted. */
    private static final double JITTER_S = 1;
    /** Two clocks of ordinary machines go apart by less. */
    private static final double DRIFT = 1e-3;
    /** The same for the time that the motion needs. */
    private static final double MOTION_S = 0.5;

    static Received of(Decoded.Sample sample, double atS) {
        return new Received(sample.state(), sample.source(), atS);
    }

    /**
     * Seconds that the sender's clock advanced; 0 if one of the two has no clock. After a silence of more than half its
     * round, a clock that shows what it should went all the way round.
     */
    double since(Received earlier) {
        if (source.isEmpty() || earlier.source.isEmpty()) {
            return 0;
        }
        double advance = source.get().since(earlier.source.get());
        double passed = atS - earlier.atS;
        double rounds = Math.rint((passed - advance) / source.get().wrapS());
        double round = rounds > 0 ? advance + rounds * source.get().wrapS() : advance;
        return Math.abs(round - passed) <= JITTER_S + DRIFT * passed ? round : advance;
    }

    double distanceNm(Received other) {
        return RoundEarth.distanceNm(state.place(), other.state.place());
    }

    /** Seconds it takes to fly straight from here to the other at the speeds that both report; NaN unless moving. */
    double flyingTimeS(Received other) {
        double from = state.groundSpeedKt().orElse(0);
        double to = other.state.groundSpeedKt().orElse(0);
        return from > MOVING_KT && to > MOVING_KT ? distanceNm(other) / ((from + to) / 2) * 3600 : Double.NaN;
    }

    /** Seconds it takes to fly straight from here to the other, at a usual speed unless both report theirs. */
    private double wayS(Received other) {
        double flyingS = flyingTimeS(other);
        return Double.isNaN(flyingS) ? distanceNm(other) / USUAL_KT * 3600 : flyingS;
    }

    /**
     * How far the flight went on since another sample where no clock of the sender's says it, s: as received. But a
     * simulator that stood, or was started again, while nobody listened did not fly all that time, and a lesson must not
     * run on without its pilot.
     */
    double flownSince(Received earlier) {
        double passed = atS - earlier.atS;
        if (passed <= LOST_S) {
            return Math.max(LEAST_S, passed);
        }
        double wayS = earlier.wayS(this);
        return wayS >= passed * (1 - ClockEvidence.TOLERANCE) ? passed : Math.max(LOST_S + LEAST_S, wayS);
    }

    /** Whether the sender's clock advanced as the time of receipt did, or else as the motion did. */
    boolean follows(Received earlier) {
        double advance = since(earlier);
        double passed = atS - earlier.atS;
        if (Math.abs(advance - passed) <= ClockEvidence.TOLERANCE * passed + JITTER_S) {
            return true;
        }
        double flyingS = earlier.flyingTimeS(this);
        return Math.abs(advance - flyingS) <= ClockEvidence.TOLERANCE * flyingS + MOTION_S;
    }
}
