package org.rejoin.bridge.feed;

/** Which clock the times of a flight come from, and why. */
public record TimeBase(Clock clock, String reason) {

    /** The clocks there are. */
    public enum Clock {
        /** The clock that the sender puts into its datagrams. */
        SENDER,
        /** The time at which datagrams are received here. */
        RECEIPT
    }
}
