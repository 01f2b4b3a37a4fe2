package org.rejoin.bridge.feed;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Decoded;

import org.jspecify.annotations.Nullable;

/**
 * Gives the samples of one aircraft their time. Decides from the first two seconds whether the sender's clock can be
 * believed, goes on watching it, and leaves out what came too late. What it gives depends on the samples and their times
 * of receipt alone, so a recording gives again what the live feed gave. Confined to one thread.
 *
 * <p>The sender's clock is believed while it advances within 20 % of the time of receipt, or, in accelerated or slowed
 * time, of the time that the motion needs at the reported ground speed. Otherwise the times of receipt are taken. When
 * the clock is set while the flight is on, time goes on at the spacing of receipt across the step, and across more than 12 s
 * of silence by the time that the way flown meanwhile takes.
 */
public final class SampleClock {

    /** Takes the samples of one aircraft as this clock gives them. */
    public interface Sink {
        /** The next sample; its {@code timeS} counts seconds from the first one, and is greater than the last one's. */
        void state(AircraftState state);

        /**
         * Nothing was received for longer than a network is late, and longer than the flight's own clock says. Said before
         * the sample that ends it.
         */
        default void silence(double receiptS) {}

        /** Which clock is taken from here on. */
        default void timeBase(double timeS, TimeBase base) {}

        /** The sender's clock did something that the flight did not. */
        default void clockSet(double timeS, String text) {}
    }

    /** Enough to judge a clock by in spite of a jitter of 0.3 s. */
    private static final double FIRST_S = 2;

    private static final int LEAST_HELD = 8;
    private static final int MOST_HELD = 256;
    private static final double WATCH_S = 5;
    /** Samples that are all too late for so long are not late: the clock was set back a little, or stands. */
    private static final double PATIENCE_S = 2;

    /** Shorter silences are no feed's loss ... */
    private static final double SILENCE_S = 2;
    /** ... nor those that the one before was like: a feed in slowed time. */
    private static final double SILENCE_TIMES = 4;

    private static final int DOUBTS = 3;

    private final Sink sink;
    private final ReceiptTime receipt = new ReceiptTime();
    private final List<Received> undecided = new ArrayList<>();
    private @Nullable TimeBase base;
    private @Nullable ClockEvidence evidence;
    private @Nullable Received last;
    private double timeS;
    private double silenceBeforeS;
    /** A sample whose clock does not follow from the last; the next one shows which of the two to go on from. */
    private @Nullable Received doubtful;

    private int doubts;
    private int contrary;
    private boolean standing;
    private boolean otherSender;
    private long late;

    /** A clock for one aircraft; the sink is called from within {@link #accept}, {@link #settle} and {@link #flush}. */
    public SampleClock(Sink sink) {
        this.sink = sink;
    }

    /**
     * Takes the next sample, in order of receipt. The first is given out at once; up to two seconds are then held until
     * the choice of a clock is made.
     */
    public void accept(Decoded.Sample sample) {
        Received next = Received.of(sample, receipt.accept(sample.state().timeS()));
        if (last == null || evidence == null) {
            evidence = new ClockEvidence(next);
            give(next, 0);
        } else if (base == null) {
            undecided.add(next);
            evidence.add(next);
            if (undecided.size() >= MOST_HELD || evidence.receiptS() >= FIRST_S || isClear(evidence)) {
                settle();
            }
        } else {
            order(next);
        }
    }

    /** Makes the choice of a clock now, with the samples that there are. Does nothing once it is made. */
    public void settle() {
        if (base != null || evidence == null || last == null) {
            return;
        }
        choose(evidence.judge());
        evidence = new ClockEvidence(last);
        for (Received held : undecided) {
            order(held);
        }
        undecided.clear();
    }

    /** Gives out what is still held, at the end of the feed. */
    public void flush() {
        settle();
        if (doubtful != null && last != null) {
            Received held = doubtful;
            doubtful = null;
            step(held, last);
        }
    }

    /**
     * What follows comes from another sender, whose clock has nothing to do with the last one's: time goes on across the
     * change as received.
     */
    public void otherSender() {
        flush();
        otherSender = last != null;
    }

    /**
     * Seconds from the first sample at a time of receipt, seconds since 1970-01-01 UTC, for what happens between
     * samples; not before the last sample given out, and 0 before the first.
     */
    public double timeAt(double receivedS) {
        return last == null ? 0 : timeS + Math.max(0, receipt.at(receivedS) - last.atS());
    }

    /** {@return the clock in use; empty until the choice is made} */
    public Optional<TimeBase> timeBase() {
        return Optional.ofNullable(base);
    }

    /** Samples left out because a later one had come before, or the same one twice. */
    public long late() {
        return late;
    }

    /** Nothing to choose from, or, in accelerated time, enough flown to know: no need to wait for the two seconds. */
    private boolean isClear(ClockEvidence first) {
        return !first.hasClock()
                || (undecided.size() >= LEAST_HELD
                        && first.senderS() >= FIRST_S
                        && first.clock() == TimeBase.Clock.SENDER);
    }

    private void order(Received next) {
        if (last == null || base == null) {
            return;
        }
        if (otherSender) {
            otherSender = false;
            standing = false;
            give(next, timeS + next.flownSince(last));
            evidence = new ClockEvidence(next);
        } else if (base.clock() == TimeBase.Clock.RECEIPT) {
            byReceipt(next, last);
        } else {
            bySender(next, last);
        }
    }

    private void byReceipt(Received next, Received previous) {
        double passed = next.atS() - previous.atS();
        if (passed <= 0) {
            late++;
            return;
        }
        give(next, timeS + next.flownSince(previous));
        watch(next, TimeBase.Clock.RECEIPT);
    }

    private void bySender(Received next, Received previous) {
        double passed = next.atS() - previous.atS();
        if (next.source().isEmpty()) {
            if (passed > PATIENCE_S) {
                distrust("the sender sends no clock any more", previous);
                byReceipt(next, previous);
            } else {
                late++;
            }
            return;
        }
        if (doubtful != null) {
            resolve(next, doubtful, previous);
            return;
        }
        double advance = next.since(previous);
        if (previous.source().isEmpty()) {
            step(next, previous);
        } else if (Math.abs(advance) < ClockEvidence.SAME_S) {
            stand(next, previous);
        } else if (advance > 0 && next.follows(previous)) {
            goOn(next, advance);
        } else if (advance > 0 || advance <= -ClockEvidence.RESTART_S) {
            doubtful = next;
        } else if (passed > PATIENCE_S) {
            step(next, previous);
        } else {
            late++;
        }
    }

    private void resolve(Received next, Received doubted, Received previous) {
        if (next.since(previous) >= ClockEvidence.SAME_S && next.follows(previous)) {
            doubtful = null;
            late++; // the doubtful one: the clock it departed from goes on
            goOn(next, next.since(previous));
            return;
        }
        double advance = next.since(doubted);
        boolean goesOn = advance >= ClockEvidence.SAME_S && next.follows(doubted);
        boolean waiting = advance < ClockEvidence.SAME_S && advance > -ClockEvidence.RESTART_S;
        if (waiting && next.atS() - doubted.atS() <= PATIENCE_S) {
            late++;
            return;
        }
        doubtful = null;
        step(doubted, previous);
        if (goesOn || waiting) {
            doubts = 0;
            bySender(next, doubted);
        } else if (++doubts >= DOUBTS) {
            distrust("the sender's clock jumps about", doubted);
            byReceipt(next, doubted);
        } else {
            doubtful = next;
        }
    }

    /** The sender's clock stands: a duplicate, or the simulation is paused and its time with it. */
    private void stand(Received next, Received previous) {
        double passed = next.atS() - previous.atS();
        if (passed > 0 && (standing || next.state().paused() || passed > PATIENCE_S)) {
            standing = true;
            give(next, timeS + next.flownSince(previous));
            evidence = new ClockEvidence(next);
        } else {
            late++;
        }
    }

    private void goOn(Received next, double advance) {
        standing = false;
        give(next, timeS + advance);
        watch(next, TimeBase.Clock.SENDER);
    }

    /** Goes on across a step of the sender's clock, at the spacing of receipt. */
    private void step(Received next, Received previous) {
        standing = false;
        give(next, timeS + next.flownSince(previous));
        evidence = new ClockEvidence(next);
        if (next.source().isPresent() && previous.source().isPresent()) {
            sink.clockSet(
                    timeS,
                    String.format(
                            Locale.ROOT,
                            "the sender's clock went %+.2f s where %.2f s passed",
                            next.since(previous),
                            next.atS() - previous.atS()));
        }
    }

    /**
     * Judges the sender's clock again and again, and changes its mind when two stretches in a row say so. Both ways: a
     * simulator is often paused when it begins to send, and its clock becomes worth believing later.
     */
    private void watch(Received next, TimeBase.Clock used) {
        if (evidence == null) {
            return;
        }
        evidence.add(next);
        if (evidence.receiptS() < WATCH_S) {
            return;
        }
        ClockEvidence judged = evidence;
        evidence = new ClockEvidence(next);
        contrary = judged.clock() == used ? 0 : contrary + 1;
        if (contrary == 2) {
            choose(judged.judge());
        }
    }

    private void distrust(String reason, Received previous) {
        choose(new TimeBase(TimeBase.Clock.RECEIPT, reason));
        evidence = new ClockEvidence(previous);
    }

    private void choose(TimeBase chosen) {
        base = chosen;
        contrary = 0;
        doubts = 0;
        standing = false;
        sink.timeBase(timeS, chosen);
    }

    private void give(Received next, double atTimeS) {
        double silentS = last == null ? 0 : next.atS() - last.atS();
        if (silentS > SILENCE_TIMES * silenceBeforeS && silentS - (atTimeS - timeS) > SILENCE_S) {
            sink.silence(silentS);
        }
        silenceBeforeS = silentS;
        last = next;
        timeS = atTimeS;
        sink.state(next.state().withTimeS(atTimeS));
    }

    /** The times of receipt, made never to go back: whoever made a capture may have set that machine's clock meanwhile. */
    static final class ReceiptTime {

        /**
         * Set back by more than this, the clock was set; by less it is confusion between network queues. Less than a second, so
         * that two seconds are seen between samples of one a second.
         */
        private static final double SET_S = 0.9;

        private static final double LEAST_S = 0.001;

        private double latestS = Double.NEGATIVE_INFINITY;
        private double shiftS;

        /** Takes the next time of receipt, s. */
        double accept(double rawS) {
            if (latestS - at(rawS) > SET_S) {
                shiftS += latestS - at(rawS) + LEAST_S;
            }
            latestS = Math.max(latestS, at(rawS));
            return latestS;
        }

        /** Where a time of receipt stands among those taken, s. */
        double at(double rawS) {
            return rawS + shiftS;
        }
    }
}
