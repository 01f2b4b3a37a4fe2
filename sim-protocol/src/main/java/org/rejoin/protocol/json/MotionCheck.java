package org.rejoin.protocol.json;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

import org.rejoin.protocol.Angles;
import org.rejoin.protocol.StateView;
import org.rejoin.protocol.Units;
import org.rejoin.protocol.earth.Geodetic;
import org.rejoin.protocol.earth.LocalAxes;
import org.rejoin.protocol.earth.Vector3;

/**
 * Compares speed and track with the positions once a minute, which catches magnetic sent as true and metres a second sent
 * as knots. By the sender's time where it sends one, else by that of receipt. Confined to one thread.
 */
final class MotionCheck {

    private static final double CHORD_S = 3;
    private static final double LONGEST_CHORD_S = 8;
    private static final int CHORDS = 20;
    private static final double LEAST_KT = 20;
    /** Differences that are worth a warning; common practice, no source. */
    private static final double SPEED_SHARE = 0.1;

    private static final double TRACK_DEG = 5;

    private final double[] sentKt = new double[CHORDS];
    private final double[] flownKt = new double[CHORDS];
    private final double[] trackOffDeg = new double[CHORDS];
    private int chords;
    private double lastTrackDeg;
    private Sent begin = new Sent();
    private Sent next = new Sent();
    private boolean begun;

    /** What one sample says, kept without making an object. */
    private static final class Sent {
        private double latitudeDeg;
        private double longitudeDeg;
        private double speedKt;
        private double trackDeg;
        private boolean paused;
        private double receivedS;
        private double sourceS;

        void take(StateView sample) {
            latitudeDeg = sample.latitudeDeg();
            longitudeDeg = sample.longitudeDeg();
            speedKt = sample.groundSpeedKt();
            trackDeg = sample.trackTrueDeg();
            paused = sample.paused();
            receivedS = sample.receivedS();
            sourceS = sample.sourceS();
        }

        double since(Sent earlier) {
            double bySource = sourceS - earlier.sourceS;
            return Double.isNaN(bySource) ? receivedS - earlier.receivedS : bySource;
        }
    }

    /** Takes the next sample; what was sent and what was flown, where they differ over a minute or so. */
    Optional<Warning> hear(StateView sample) {
        Sent end = next;
        end.take(sample);
        if (!begun) {
            begun = true;
            beginAt(end);
            return Optional.empty();
        }
        Sent from = begin;
        double passedS = end.since(from);
        if (passedS >= 0 && passedS < CHORD_S) {
            return Optional.empty();
        }
        beginAt(end);
        if (passedS < 0 || passedS > LONGEST_CHORD_S || end.paused || from.paused) {
            return Optional.empty();
        }
        compare(from, end, passedS);
        if (chords < CHORDS) {
            return Optional.empty();
        }
        chords = 0;
        return warning();
    }

    private void beginAt(Sent sent) {
        next = begin;
        begin = sent;
    }

    private void compare(Sent from, Sent to, double passedS) {
        Geodetic place = new Geodetic(from.latitudeDeg, from.longitudeDeg, 0);
        LocalAxes local = LocalAxes.at(place);
        Vector3 moved =
                new Geodetic(to.latitudeDeg, to.longitudeDeg, 0).toGeocentric().minus(place.toGeocentric());
        double north = moved.dot(local.north());
        double east = moved.dot(local.east());
        double knots = Math.hypot(north, east) / passedS / Units.MPS_PER_KT;
        double sent = (from.speedKt + to.speedKt) / 2;
        if (!(knots >= LEAST_KT || sent >= LEAST_KT) || knots < 1) {
            return;
        }
        double track = Math.toDegrees(Math.atan2(east, north));
        lastTrackDeg = track;
        sentKt[chords] = sent;
        flownKt[chords] = knots;
        // In a turn the chord lies between the tracks at its two ends.
        trackOffDeg[chords] = (Angles.difference(from.trackDeg - track) + Angles.difference(to.trackDeg - track)) / 2;
        chords++;
    }

    private Optional<Warning> warning() {
        double sent = median(sentKt);
        double flown = median(flownKt);
        double off = median(trackOffDeg);
        double track = lastTrackDeg;
        if (Math.abs(sent - flown) > SPEED_SHARE * flown) {
            return Optional.of(new Warning(
                    String.format(Locale.ROOT, "ground_speed_kt %.1f", sent),
                    String.format(Locale.ROOT, "%.1f kt as the positions move; is it in knots?", flown)));
        }
        if (Math.abs(off) > TRACK_DEG) {
            return Optional.of(new Warning(
                    String.format(Locale.ROOT, "true_track_deg %.1f", Angles.direction(track + off)),
                    String.format(
                            Locale.ROOT,
                            "%.1f as the positions move; is it magnetic, or the heading?",
                            Angles.direction(track))));
        }
        return Optional.empty();
    }

    private static double median(double[] values) {
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        return sorted[sorted.length / 2];
    }

    /**
     * A difference.
     *
     * @param found what was sent
     * @param expected what the positions say
     */
    record Warning(String found, String expected) {}
}
