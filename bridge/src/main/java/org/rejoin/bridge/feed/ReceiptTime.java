package org.rejoin.bridge.feed;

/** The times of receipt, made never to go back: whoever made a capture may have set that machine's clock meanwhile. */
final class ReceiptTime {

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
