package org.rejoin.bridge.feed;

import java.util.Locale;

import org.jspecify.annotations.Nullable;

/**
 * What a stretch of samples says about the sender's clock: how far it advanced, against the time of receipt and against
 * the time that the motion needs at the reported speeds.
 */
final class ClockEvidence {

    /** A clock is believed while it advances within this share of the time it is compared with (common practice, no source). */
    static final double TOLERANCE = 0.2;
    /** The sender's clock gone back by this much is no late datagram but a new start, seconds (common practice, no source). */
    static final double RESTART_S = 5;
    /** Two readings closer than this are the same. */
    static final double SAME_S = 1e-6;

    private static final String ADVANCED = "the sender's clock advanced %.2f s in %.2f s of receipt";

    private static final double STILL_NM = 2.0 / 1852;
    /** Long enough that the error of positions does not count, short enough that a turn does not. */
    private static final double CHORD_NM = 0.05;

    private static final double SHORTEST_CHORD_NM = 0.01;

    private final double beganS;
    private double endedS;
    private int samples;
    private int timed;
    private int repeats;
    private boolean restarted;
    private double senderS;
    private double motionS;
    private double motionSenderS;
    private @Nullable Received newest;
    private @Nullable Received chordFrom;

    ClockEvidence(Received first) {
        beganS = first.atS();
        add(first);
    }

    void add(Received next) {
        endedS = next.atS();
        samples++;
        if (next.source().isEmpty()) {
            return;
        }
        timed++;
        if (newest == null || chordFrom == null) {
            newest = next;
            chordFrom = next;
            return;
        }
        double advance = next.since(newest);
        if (Math.abs(advance) < SAME_S) {
            repeats += next.distanceNm(newest) > STILL_NM ? 1 : 0;
        } else if (advance > 0) {
            senderS += advance;
            newest = next;
            if (next.distanceNm(chordFrom) >= CHORD_NM) {
                double chordS = next.since(chordFrom);
                double flyingS = chordFrom.flyingTimeS(next);
                if (isOneFlight(flyingS, chordS)) {
                    motionS += flyingS;
                    motionSenderS += chordS;
                }
                chordFrom = next;
            }
        } else if (advance <= -RESTART_S) {
            restarted = true;
        }
    }

    /** How long it took to receive them, s. */
    double receiptS() {
        return endedS - beganS;
    }

    /** How far the sender's clock advanced, s. */
    double senderS() {
        return senderS;
    }

    /** Whether any sample carried the sender's clock. */
    boolean hasClock() {
        return timed > 0;
    }

    /** What the samples show, with the clock to be taken and why. */
    private enum Finding {
        NO_CLOCK(TimeBase.Clock.RECEIPT, "the sender sends no clock"),
        SELDOM(
                TimeBase.Clock.RECEIPT,
                "most samples carry no clock that tells them apart: it is not sent, or too coarse"),
        TOO_FEW(TimeBase.Clock.RECEIPT, "too few samples to judge the sender's clock"),
        SET_BACK(TimeBase.Clock.RECEIPT, "the sender's clock was set back"),
        STILL(TimeBase.Clock.RECEIPT, "the sender's clock stands still"),
        REPEATS(TimeBase.Clock.RECEIPT, "the sender's clock repeats while the aircraft moves"),
        GOES_WITH_RECEIPT(TimeBase.Clock.SENDER, ADVANCED),
        GOES_WITH_MOTION(TimeBase.Clock.SENDER, ADVANCED + ", and so did the motion"),
        GOES_WITH_NEITHER(TimeBase.Clock.RECEIPT, ADVANCED);

        private final TimeBase.Clock clock;
        private final String why;

        Finding(TimeBase.Clock clock, String why) {
            this.clock = clock;
            this.why = why;
        }
    }

    /** The clock that this evidence leads to. */
    TimeBase.Clock clock() {
        return finding().clock;
    }

    /** The same, with the reason for the pilot. */
    TimeBase judge() {
        Finding finding = finding();
        return new TimeBase(finding.clock, String.format(Locale.ROOT, finding.why, senderS, receiptS()));
    }

    private Finding finding() {
        if (timed * 2 <= samples) {
            return timed == 0 ? Finding.NO_CLOCK : Finding.SELDOM;
        }
        if (timed < 2) {
            return Finding.TOO_FEW;
        }
        if (restarted) {
            return Finding.SET_BACK;
        }
        if (senderS == 0) {
            return Finding.STILL;
        }
        if (repeats >= 2 && repeats * 4 >= samples) {
            return Finding.REPEATS;
        }
        if (goesWithReceipt()) {
            return Finding.GOES_WITH_RECEIPT;
        }
        return goesWithMotion() ? Finding.GOES_WITH_MOTION : Finding.GOES_WITH_NEITHER;
    }

    private boolean goesWithReceipt() {
        // Receipt at one instant: a file without times, where the sender's clock is all there is.
        return receiptS() <= 0 || Math.abs(senderS - receiptS()) <= TOLERANCE * receiptS();
    }

    private boolean goesWithMotion() {
        double flyingS = motionS;
        double flyingSenderS = motionSenderS;
        if (newest != null && chordFrom != null && newest.distanceNm(chordFrom) > SHORTEST_CHORD_NM) {
            double openS = chordFrom.flyingTimeS(newest);
            if (isOneFlight(openS, newest.since(chordFrom))) {
                flyingS += openS;
                flyingSenderS += newest.since(chordFrom);
            }
        }
        return flyingSenderS > 0
                && flyingSenderS >= senderS / 2
                && Math.abs(flyingSenderS - flyingS) <= TOLERANCE * flyingS;
    }

    /** Not known to move, or a jump that no aircraft can make, says nothing about a clock. */
    private static boolean isOneFlight(double flyingS, double senderS) {
        return flyingS <= 3 * senderS;
    }
}
