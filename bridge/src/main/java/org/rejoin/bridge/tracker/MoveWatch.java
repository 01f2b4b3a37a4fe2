package org.rejoin.bridge.tracker;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;

import org.rejoin.bridge.flight.FeedQuality;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.RoundEarth;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.protocol.AircraftState;

import org.jspecify.annotations.Nullable;

/**
 * Tells flying from a move, and a move from samples that stray: the speed that the way since a second ago implies, against
 * the speed reported. Measured over a second at least, so that one sample a second and thirty tell the same. Who was moved
 * stays where he was set down, for longer than samples stray; what he flew there meanwhile is kept.
 */
public final class MoveWatch {

    /** Within this share and this much the speed reported is that of the positions; common practice, no source. */
    private static final double BELIEVED_SHARE = 0.3;

    private static final double BELIEVED_KT = 20;

    /** Positions are strewn farther than so many times their standard deviation once in four hundred, as a normal distribution is. */
    private static final double STREWN_TIMES = 3;

    /** A second of samples lacks a little of a second. */
    private static final double WHOLE_SHARE = 0.75;

    /** What a sample is to the flight. */
    public enum Seen {
        /** The flight goes on with it; what was in doubt before it was stray and is left out. */
        FLOWN,
        /** Farther than could be flown: what comes next tells whether the aircraft was moved. */
        DOUBTFUL,
        /** The flight goes on with it and with those in doubt before it: altitude or track stayed, or it jumped hardly aside. */
        STAYED,
        /** The aircraft was moved, and goes on from where it was set down. */
        MOVED
    }

    /** Slower than this a track may point anywhere, knots; common practice, no source. */
    private static final double TRACK_FROM_KT = 30;

    private final Rule.Moved rule;
    private final FeedQuality quality;
    private Second flown;
    private @Nullable Second elsewhere;
    /** What was flown there since the sample that it began with. */
    private final List<AircraftState> flownThere = new ArrayList<>();

    private @Nullable AircraftState leapt;
    private @Nullable AircraftState stayed;
    private boolean believed;
    private double doubtfulFromS = Double.NaN;
    private long doubtful;

    /** A watch. */
    public MoveWatch(Rule.Moved rule, FeedQuality quality) {
        this.rule = rule;
        this.quality = quality;
        this.flown = new Second(rule, quality);
    }

    /** Takes the next sample. */
    public Seen take(AircraftState next) {
        Second there = elsewhere;
        believed = believed || (there == null && flown.bearsOutItsSpeed());
        if (there == null) {
            if (flown.reaches(next, believed)) {
                return near(next);
            }
            leapt = null;
            doubtfulFromS = next.timeS();
            return doubt(next);
        }
        boolean goesOnThere = there.reaches(next, believed);
        boolean mayBeBack = there.lastS() - doubtfulFromS <= rule.strayS() && flown.reaches(next, believed);
        if (mayBeBack && !(goesOnThere && there.offNm(next, flown) <= flown.offNm(next, flown))) {
            quality.stray(doubtful);
            doubtful = 0;
            elsewhere = null;
            flown.add(next);
            return Seen.FLOWN;
        }
        if (!goesOnThere) {
            return doubt(next);
        }
        there.add(next);
        doubtful++;
        boolean maySettle = next.timeS() - there.setDown().timeS() >= rule.baseS();
        boolean mayStray = next.timeS() - doubtfulFromS < rule.strayS();
        if (!maySettle || mayStray) {
            flownThere.add(next);
            return Seen.DOUBTFUL;
        }
        doubtful = 0;
        boolean moved = flown.asideNm(there.setDown()) >= rule.leastNm();
        flown = there;
        elsewhere = null;
        if (!moved) {
            stayed = there.setDown();
        }
        return moved ? Seen.MOVED : Seen.STAYED;
    }

    /** Where it can have been flown to; as high and on a track that can have been flown, or in doubt until the next. */
    private Seen near(AircraftState next) {
        AircraftState before = leapt;
        boolean leaps = flown.leaps(next);
        if (before == null && leaps) {
            leapt = next;
            doubtful++;
            return Seen.DOUBTFUL;
        }
        if (before != null && leaps) {
            flown.add(before);
            stayed = before;
            leapt = null;
            flownThere.clear();
        } else {
            quality.stray(doubtful);
            leapt = null;
        }
        doubtful = 0;
        flown.add(next);
        return leaps ? Seen.STAYED : Seen.FLOWN;
    }

    /**
     * The first sample that was in doubt and stayed.
     *
     * @return to be flown before {@link #flownThere()} and the one after them
     * @throws IllegalStateException if there is none
     */
    public AircraftState stayed() {
        AircraftState before = stayed;
        if (before == null) {
            throw new IllegalStateException("no sample was in doubt");
        }
        stayed = null;
        return before;
    }

    private Seen doubt(AircraftState next) {
        Second there = new Second(rule, quality);
        there.add(next);
        elsewhere = there;
        flownThere.clear();
        doubtful++;
        return Seen.DOUBTFUL;
    }

    /** {@return whether what was seen last is in doubt; false where the flight goes on} */
    public boolean inDoubt() {
        return elsewhere != null || leapt != null;
    }

    /**
     * Where the aircraft was set down.
     *
     * @return the first sample there
     * @throws IllegalStateException if it was not moved
     */
    public AircraftState setDown() {
        return flown.setDown();
    }

    /**
     * What was flown where the aircraft was set down, until it was sure that it stays there; the samples after the
     * first one there and before the last one taken, in order; while in doubt those so far.
     */
    public List<AircraftState> flownThere() {
        return List.copyOf(flownThere);
    }

    /** Nothing more comes: what is in doubt was not seen to last. */
    public void finish() {
        quality.stray(doubtful);
        doubtful = 0;
        elsewhere = null;
        leapt = null;
    }

    /** The last second of a way. */
    private static final class Second {

        private final Rule.Moved rule;
        private final FeedQuality quality;
        private final Deque<AircraftState> samples = new ArrayDeque<>();
        private @Nullable AircraftState first;

        Second(Rule.Moved rule, FeedQuality quality) {
            this.rule = rule;
            this.quality = quality;
        }

        /** The sample that the way began with. */
        AircraftState setDown() {
            AircraftState began = first;
            if (began == null) {
                throw new IllegalStateException("no sample yet");
            }
            return began;
        }

        double lastS() {
            return samples.getLast().timeS();
        }

        void add(AircraftState state) {
            first = first == null ? state : first;
            samples.addLast(state);
            while (samples.size() > 2) {
                AircraftState oldest = samples.removeFirst();
                if (samples.getFirst().timeS() > state.timeS() - rule.baseS()) {
                    samples.addFirst(oldest);
                    return;
                }
            }
        }

        /** Whether the way flown is that of the speed reported; false where there is too little of it to say. */
        boolean bearsOutItsSpeed() {
            if (spanS() < rule.baseS() * WHOLE_SHARE) {
                return false;
            }
            double flownKt = speedKt();
            double sentKt = samples.getLast().groundSpeedKtOrNaN();
            return Math.abs(sentKt - flownKt) <= BELIEVED_SHARE * flownKt + BELIEVED_KT;
        }

        private double spanS() {
            return samples.isEmpty()
                    ? 0
                    : samples.getLast().timeS() - samples.getFirst().timeS();
        }

        /**
         * Whether a sample can be reached by flying; the first can.
         *
         * @param believed whether the speed reported is right; until that is known the way so far counts as well
         */
        boolean reaches(AircraftState next, boolean believed) {
            AircraftState from = samples.peekFirst();
            if (from == null) {
                return true;
            }
            for (AircraftState each : samples) {
                if (each.timeS() > next.timeS() - rule.baseS()) {
                    break;
                }
                from = each;
            }
            double seconds = Math.max(next.timeS() - from.timeS(), rule.baseS());
            // Either end may be as far off as positions are rounded, and as they are strewn.
            double wayNm = RoundEarth.distanceNm(from.place(), next.place())
                    - 2 * (quality.resolutionNm() + STREWN_TIMES * quality.scatterNm());
            // Its own speed explains nearly every sample; the whole second is looked through for the rest.
            return wayNm <= reachNm(next.groundSpeedKtOrNaN(), seconds)
                    || !(wayNm > reachNm(fastestKt(next), seconds))
                    || (!believed && wayNm <= reachNm(flownKt(), seconds));
        }

        /** Whether its altitude or its track can't have been flown to since the sample before it. */
        boolean leaps(AircraftState next) {
            AircraftState from = samples.peekLast();
            if (from == null) {
                return false;
            }
            double seconds = Math.max(next.timeS() - from.timeS(), rule.baseS());
            double climbFt = Math.abs(next.altitudeMslFtOrNaN() - from.altitudeMslFtOrNaN());
            double turnDeg = Math.abs(Angles.turn(next.trackTrueDegOrNaN() - from.trackTrueDegOrNaN()));
            boolean tracks = Math.min(next.groundSpeedKtOrNaN(), from.groundSpeedKtOrNaN()) >= TRACK_FROM_KT;
            return climbFt > rule.climbFtPerS() * seconds || (tracks && turnDeg > rule.turnDegPerS() * seconds);
        }

        private double reachNm(double knots, double seconds) {
            return (rule.times() * knots + rule.plusKt()) * seconds / 3600;
        }

        private double fastestKt(AircraftState next) {
            double fastestKt = reportedKt(next);
            return Double.isNaN(fastestKt) ? rule.assumedKt() : fastestKt;
        }

        private double flownKt() {
            return spanS() < rule.baseS() / 2 ? rule.assumedKt() : speedKt();
        }

        private double reportedKt(AircraftState next) {
            double fastestKt = next.groundSpeedKtOrNaN();
            for (AircraftState each : samples) {
                double knots = each.groundSpeedKtOrNaN();
                if (!(fastestKt >= knots) && !Double.isNaN(knots)) {
                    fastestKt = knots;
                }
            }
            return fastestKt;
        }

        /** How far the way to a sample differs from the way at the speed reported, or else at that of another way. */
        double offNm(AircraftState next, Second other) {
            AircraftState from = samples.getLast();
            double reportedKt = reportedKt(next);
            double knots = Double.isNaN(reportedKt) ? other.speedKt() : reportedKt;
            return Math.abs(
                    RoundEarth.distanceNm(from.place(), next.place()) - knots * (next.timeS() - from.timeS()) / 3600);
        }

        /** How far beside where it would have come by flying on it was set down, NM. */
        double asideNm(AircraftState down) {
            AircraftState from = samples.getLast();
            double flownNm = down.groundSpeedKtOrNaN() * (down.timeS() - from.timeS()) / 3600;
            Position here = Point.positionOf(from);
            double trackDeg = from.trackTrueDegOrNaN();
            Position due = Double.isNaN(flownNm) || Double.isNaN(trackDeg)
                    ? here
                    : here.destination(new TrueDirection(trackDeg), flownNm);
            return due.distanceNm(Point.positionOf(down));
        }

        private double speedKt() {
            AircraftState from = samples.getFirst();
            AircraftState to = samples.getLast();
            double seconds = to.timeS() - from.timeS();
            return seconds > 0 ? RoundEarth.distanceNm(from.place(), to.place()) / seconds * 3600 : rule.assumedKt();
        }
    }
}
