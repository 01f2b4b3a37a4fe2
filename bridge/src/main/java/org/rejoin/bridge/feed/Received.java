package org.rejoin.bridge.feed;

import java.util.Optional;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.SourceTime;

/**
 * A sample and when it came.
 *
 * @param state the aircraft
 * @param source the sender's clock, if it was sent
 * @param atS time of receipt, seconds; never earlier than that of the sample before
 */
record Received(AircraftState state, Optional<SourceTime> source, double atS) {

    private static final double MEAN_RADIUS_NM = 6_371_008.8 / 1852;
    /** Below this the distance between two samples is mostly error of the positions. */
    private static final double MOVING_KT = 20;
    /** How much later or earlier than its fellows a datagram may come before its clock is doubted. */
    private static final double JITTER_S = 1;
    /** The same for the time that the motion needs. */
    private static final double MOTION_S = 0.5;

    static Received of(Decoded.Sample sample, double atS) {
        return new Received(sample.state(), sample.source(), atS);
    }

    /** Seconds that the sender's clock advanced; 0 if one of the two has no clock. */
    double since(Received earlier) {
        return source.isPresent() && earlier.source.isPresent() ? source.get().since(earlier.source.get()) : 0;
    }

    /** Distance on a sphere, NM; right to 0.6 %, which is plenty to compare clocks. */
    double distanceNm(Received other) {
        double lat1 = Math.toRadians(state.latitudeDeg());
        double lat2 = Math.toRadians(other.state.latitudeDeg());
        double sinLat = Math.sin((lat2 - lat1) / 2);
        double sinLon = Math.sin(Math.toRadians(other.state.longitudeDeg() - state.longitudeDeg()) / 2);
        double h = sinLat * sinLat + Math.cos(lat1) * Math.cos(lat2) * sinLon * sinLon;
        return 2 * MEAN_RADIUS_NM * Math.asin(Math.min(1, Math.sqrt(h)));
    }

    /** Seconds it takes to fly straight from here to the other at the speeds that both report; NaN unless moving. */
    double flyingTimeS(Received other) {
        double from = state.groundSpeedKt().orElse(0);
        double to = other.state.groundSpeedKt().orElse(0);
        return from > MOVING_KT && to > MOVING_KT ? distanceNm(other) / ((from + to) / 2) * 3600 : Double.NaN;
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
