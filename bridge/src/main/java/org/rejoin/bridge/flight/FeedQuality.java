package org.rejoin.bridge.flight;

import java.util.Arrays;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.RoundEarth;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.earth.Normal;

import org.jspecify.annotations.Nullable;

/** How good the data from the simulator is: rate, resolution, losses, and what it leaves out. */
public final class FeedQuality {

    /** Less than this is arithmetic, degrees. */
    private static final double SAME_DEG = 1e-11;

    /** A step this much longer than the usual one is a loss. */
    private static final double LOST_STEPS = 1.6;

    /** The usual step is a mean that follows the last twenty or so. */
    private static final double USUAL_SHARE = 0.05;

    /** A step is a whole number of usual ones if it is as near to that, in usual steps; common practice, no source. */
    private static final double WHOLE_STEPS = 0.2;

    /** Where fewer steps than this share are whole, samples come as they come and none is missing; no source. */
    private static final double REGULAR_SHARE = 0.75;

    /** How fast the middle step follows, in parts of itself. */
    private static final double MIDDLE_SHARE = 0.01;

    /** A track from positions may be wrong by this much for their resolution, as a tangent: 3 degrees; no source. */
    private static final double TRACK_TANGENT = 0.05;

    /** Track and rates are not taken over a longer base than this, seconds; common practice, no source. */
    public static final double LONGEST_BASE_S = 10;

    /** A speed is taken from positions so far apart, seconds; common practice, no source. */
    private static final double SPEED_OVER_S = 1;

    /** Slower than this nothing is said about the base, knots. */
    private static final double FLYING_KT = 30;

    /** So many changes must agree before a resolution is believed. */
    private static final int BELIEVED = 5;

    private static final double NM_PER_DEG = 60;

    private static final Rule.StandingStill STANDING = Rules.STANDARD.of(Rule.StandingStill.class);

    private @Nullable AircraftState last;
    private @Nullable AircraftState lastFlown;
    private @Nullable AircraftState speedFrom;
    private final Scatter scatter = new Scatter();
    private long strays;
    private double flownS;
    /** The shortest and the longest of these may be odd; the mean of the others is the first usual step. */
    private final double[] firstStepsS = new double[5];

    private int steps;
    private double usualStepS;
    private double middleStepS;
    private long stepsSeen;
    private long wholeSteps;
    private long flownSamples;
    private long lost;
    private int gaps;
    private double gapTotalS;
    private double stepDeg = Double.MAX_VALUE;
    private long changes;
    private double northDeg = Double.NaN;
    private double eastDeg = Double.NaN;
    private double stepX = Double.NaN;
    private double stepY;
    private double stepZ;
    private double speedKt = Double.NaN;
    private boolean track;
    private boolean heading;
    private boolean altitude;

    /** Takes the next sample. */
    public void sample(AircraftState state) {
        AircraftState before = last;
        last = state;
        track |= !Double.isNaN(state.trackTrueDegOrNaN()) && !Double.isNaN(state.groundSpeedKtOrNaN());
        heading |= state.hasHeading();
        altitude |= !Double.isNaN(state.altitudeMslFtOrNaN());
        if (before != null && !state.paused()) {
            double step = state.timeS() - before.timeS();
            flownS += step;
            flownSamples++;
            if (!before.paused() && !stood(before, state, step)) {
                rate(step);
            }
        }
    }

    /** A simulation that stood still between two samples sent nothing that could be lost. */
    private boolean stood(AircraftState before, AircraftState state, double step) {
        return RoundEarth.distanceNm(before.place(), state.place()) < STANDING.sameNm()
                && speedKt >= STANDING.flyingKt()
                && speedKt * step / 3600 > resolutionNm();
    }

    /** The flight goes on with the sample taken last: where it was is believed. */
    public void flown(AircraftState state) {
        AircraftState before = lastFlown;
        lastFlown = state;
        if (before != null && !state.paused()) {
            resolution(before, state);
        }
        boolean flew = flies();
        AircraftState from = speedFrom;
        if (from == null || state.paused() || before == null) {
            speedFrom = state;
        } else if (state.timeS() - from.timeS() >= SPEED_OVER_S || !Double.isNaN(state.groundSpeedKtOrNaN())) {
            speed(from, state);
            speedFrom = state;
        }
        if (state.paused()) {
            scatter.breakOff();
        } else if (flies()) {
            if (!flew) {
                // On the ground a receiver may smooth or hold the place: that says nothing of the flight.
                scatter.beginAnew();
            }
            scatter.flown(state);
        }
    }

    /** The aircraft was moved: nothing is concluded from the way to where it was set down. */
    public void moved() {
        lastFlown = null;
        speedFrom = null;
        scatter.breakOff();
        northDeg = Double.NaN;
        eastDeg = Double.NaN;
        stepX = Double.NaN;
    }

    /** Samples that lay off the way flown and were left out. */
    public void stray(long more) {
        strays += more;
    }

    /** The simulation stood still before the next sample, with nothing to send. */
    public void stood() {
        last = null;
    }

    private void rate(double step) {
        regular(step);
        if (steps < firstStepsS.length) {
            firstStepsS[steps++] = step;
            if (steps == firstStepsS.length) {
                double[] sorted = firstStepsS.clone();
                Arrays.sort(sorted);
                usualStepS = (sorted[1] + sorted[2] + sorted[3]) / 3;
                for (double each : firstStepsS) {
                    lostIn(each);
                }
            }
            return;
        }
        lostIn(step);
        // Bounded both ways: samples that come in bursts must not make the usual step ever shorter.
        double bounded = Math.max(usualStepS / LOST_STEPS, Math.min(step, LOST_STEPS * usualStepS));
        usualStepS += USUAL_SHARE * (bounded - usualStepS);
    }

    private void regular(double step) {
        if (steps == firstStepsS.length) {
            middleStepS = stepsSeen == 0 ? usualStepS : middleStepS;
            stepsSeen++;
            double many = step / middleStepS;
            wholeSteps += Math.abs(many - Math.max(1, Math.rint(many))) <= WHOLE_STEPS ? 1 : 0;
            middleStepS *= step > middleStepS ? 1 + MIDDLE_SHARE : 1 - MIDDLE_SHARE;
        }
    }

    private void lostIn(double step) {
        if (step > LOST_STEPS * usualStepS) {
            lost += Math.round(step / usualStepS) - 1;
        }
    }

    /**
     * A coarse feed goes forward in whole steps: from one step to the next the smallest change is its resolution. A fine
     * one changes by ever less. Of degrees each of the two has its own; a point in metres goes a step in any direction.
     */
    private void resolution(AircraftState before, AircraftState state) {
        if (state.place().inDegrees()) {
            double north = state.latitudeDeg() - before.latitudeDeg();
            double east = Angles.turn(state.longitudeDeg() - before.longitudeDeg());
            change(north - northDeg);
            change(east - eastDeg);
            northDeg = north;
            eastDeg = east;
        } else {
            Normal from = before.place().normal();
            Normal to = state.place().normal();
            double x = to.x() - from.x();
            double y = to.y() - from.y();
            double z = to.z() - from.z();
            change(Math.toDegrees(
                    Math.sqrt((x - stepX) * (x - stepX) + (y - stepY) * (y - stepY) + (z - stepZ) * (z - stepZ))));
            stepX = x;
            stepY = y;
            stepZ = z;
        }
    }

    private boolean flies() {
        return speedKt > FLYING_KT;
    }

    /** Of places that are strewn the speed is taken over a second: from one sample to the next it may be anything. */
    private void speed(AircraftState before, AircraftState state) {
        double sentKt = state.groundSpeedKtOrNaN();
        double hours = (state.timeS() - before.timeS()) / 3600;
        double knots = Double.isNaN(sentKt) ? RoundEarth.distanceNm(before.place(), state.place()) / hours : sentKt;
        speedKt = Double.isNaN(speedKt) ? knots : speedKt + USUAL_SHARE * (knots - speedKt);
    }

    private void change(double deg) {
        double size = Math.abs(deg);
        if (size > SAME_DEG) {
            changes++;
            stepDeg = Math.min(stepDeg, size);
        }
    }

    /** Nothing was received for longer than the timeout of the feed. */
    public void gap(double seconds) {
        gaps++;
        gapTotalS += seconds;
    }

    /** Samples a second, hertz; NaN before two samples. */
    public double rateHz() {
        return flownS > 0 ? flownSamples / flownS : Double.NaN;
    }

    /**
     * Samples that should have come at the usual rate and did not; 0 or more; 0 too where the sender has no usual rate,
     * for samples carry no number by which one is missed.
     */
    public long lost() {
        return wholeSteps < REGULAR_SHARE * stepsSeen ? 0 : lost;
    }

    /** Samples that lay off the way flown and were left out. */
    public long strays() {
        return strays;
    }

    /** Times the feed fell silent for longer than its timeout. */
    public int gaps() {
        return gaps;
    }

    /** {@return how long it was silent then, in all, seconds} */
    public double gapTotalS() {
        return gapTotalS;
    }

    /** Resolution of the positions: the smallest change there was, nautical miles; 0 before enough was seen. */
    public double resolutionNm() {
        return changes < BELIEVED ? 0 : stepDeg * NM_PER_DEG;
    }

    /** How far the positions are strewn to the side of the way flown, as a standard deviation, nautical miles; 0 before enough was seen. */
    public double scatterNm() {
        return scatter.nm();
    }

    /**
     * Base over which a track from these positions is right to about 3 degrees, seconds; 0 where the feed sends the
     * track or the aircraft does not fly. Two places that are strewn make it wrong by the root of two times that.
     */
    public double trackBaseS() {
        double offNm = Math.max(resolutionNm(), Math.sqrt(2) * scatterNm());
        return track || !flies() ? 0 : offNm / TRACK_TANGENT / speedKt * 3600;
    }

    /** Whether track and rates can be judged; false where their base would be longer than {@link #LONGEST_BASE_S}. */
    public boolean canJudgeTrack() {
        return trackBaseS() <= LONGEST_BASE_S;
    }

    /** {@return whether the feed has a heading; true or magnetic; false too before the first sample} */
    public boolean hasHeading() {
        return heading;
    }

    /** {@return whether the feed has an altitude; false too before the first sample} */
    public boolean hasAltitude() {
        return altitude;
    }
}
