package org.rejoin.bridge.feed;

import java.util.Locale;
import java.util.Optional;

import org.rejoin.bridge.geo.RoundEarth;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Angles;

import org.jspecify.annotations.Nullable;

/**
 * Compares the speed and track that are sent for one aircraft with its positions, whatever the format: magnetic sent as
 * true, the heading sent as track, metres a second sent as knots. What the positions contradict is left out, and taken from
 * them instead. Confined to one thread.
 */
public final class SentMotion {

    /** Long enough that neither a late sample nor the error of a position matters, seconds. */
    private static final double CHORD_S = 3;

    private static final double CHORD_NM = 0.12;
    /** From sample to sample: across more nothing is compared, seconds. */
    private static final double LONGEST_STEP_S = 8;
    /** Slower than this a direction of motion says little, knots. */
    private static final double LEAST_KT = 20;
    /** So many chords in a row must agree; these and the limits below are common practice, no source. */
    private static final int IN_A_ROW = 5;

    private static final double TRACK_DEG = 5;
    private static final double SPEED_SHARE = 0.1;
    /** Contradictions that differ by more than this from one another are the positions' error. */
    private static final double ALIKE_DEG = 6;

    private static final double ALIKE_SHARE = 0.15;

    private final double[] offDeg = new double[IN_A_ROW];
    private final double[] ratio = new double[IN_A_ROW];
    private int chords;
    private @Nullable AircraftState begin;
    private @Nullable AircraftState last;
    private boolean trackLeftOut;
    private boolean speedLeftOut;
    private boolean speedFits;
    private boolean trackSaid;
    private boolean speedSaid;
    private Optional<String> said = Optional.empty();

    /** Nothing heard yet. */
    public SentMotion() {}

    /** The next sample, without what of its motion the positions contradict. */
    public AircraftState used(AircraftState sent) {
        compare(sent);
        last = sent;
        return sent.withoutMotion(trackLeftOut, speedLeftOut);
    }

    /** {@return what is left out from the last sample on; one line, once for speed and once for track} */
    public Optional<String> said() {
        Optional<String> now = said;
        said = Optional.empty();
        return now;
    }

    private void compare(AircraftState next) {
        AircraftState from = begin;
        AircraftState before = last;
        if (next.paused()) {
            begin = null;
            return;
        }
        if (from == null || before == null || next.timeS() - before.timeS() > LONGEST_STEP_S) {
            begin = next;
            return;
        }
        double seconds = next.timeS() - from.timeS();
        if (seconds < CHORD_S) {
            return;
        }
        double wayNm = RoundEarth.distanceNm(from.place(), next.place());
        if (wayNm < CHORD_NM) {
            begin = seconds > LONGEST_STEP_S ? next : from;
            return;
        }
        begin = next;
        double knots = wayNm / seconds * 3600;
        if (knots < LEAST_KT) {
            return;
        }
        double latitude = Math.toRadians((from.latitudeDeg() + next.latitudeDeg()) / 2);
        double north = next.latitudeDeg() - from.latitudeDeg();
        double east = Angles.difference(next.longitudeDeg() - from.longitudeDeg()) * Math.cos(latitude);
        double track = Math.toDegrees(Math.atan2(east, north));
        // In a turn the chord lies between the tracks at its two ends.
        offDeg[chords % IN_A_ROW] = (Angles.difference(from.trackTrueDegOrNaN() - track)
                        + Angles.difference(next.trackTrueDegOrNaN() - track))
                / 2;
        ratio[chords % IN_A_ROW] = (from.groundSpeedKtOrNaN() + next.groundSpeedKtOrNaN()) / 2 / knots;
        chords++;
        if (chords >= IN_A_ROW) {
            judgeTrack(next, track);
            judgeSpeed(next, knots);
        }
    }

    private void judgeTrack(AircraftState now, double trackDeg) {
        double least = least(offDeg);
        double most = most(offDeg);
        if (Math.max(Math.abs(least), Math.abs(most)) <= TRACK_DEG) {
            trackLeftOut = false;
        } else if ((least > TRACK_DEG || most < -TRACK_DEG) && most - least <= ALIKE_DEG) {
            trackLeftOut = true;
            if (!trackSaid) {
                trackSaid = true;
                say(String.format(
                        Locale.ROOT,
                        "the true track sent, %.1f, is left out: the positions move along %.1f; is it magnetic, or the"
                                + " heading?",
                        now.trackTrueDegOrNaN(),
                        Angles.direction(trackDeg)));
            }
        }
    }

    /** A speed that fitted once is right; where it does not any more, time runs faster or slower. */
    private void judgeSpeed(AircraftState now, double knots) {
        double least = least(ratio);
        double most = most(ratio);
        if (Math.max(Math.abs(least - 1), Math.abs(most - 1)) <= SPEED_SHARE) {
            speedFits = true;
            speedLeftOut = false;
        } else if (!speedFits
                && (least > 1 + SPEED_SHARE || most < 1 - SPEED_SHARE)
                && most - least <= ALIKE_SHARE * most) {
            speedLeftOut = true;
            if (!speedSaid) {
                speedSaid = true;
                say(String.format(
                        Locale.ROOT,
                        "the ground speed sent, %.1f kt, is left out: the positions move at %.1f kt; is it in knots, and"
                                + " over the ground?",
                        now.groundSpeedKtOrNaN(),
                        knots));
            }
        }
    }

    private void say(String text) {
        said = Optional.of(said.map(before -> before + "; " + text).orElse(text));
    }

    private static double least(double[] values) {
        double least = values[0];
        for (double each : values) {
            least = Math.min(least, each);
        }
        return least;
    }

    private static double most(double[] values) {
        double most = values[0];
        for (double each : values) {
            most = Math.max(most, each);
        }
        return most;
    }
}
