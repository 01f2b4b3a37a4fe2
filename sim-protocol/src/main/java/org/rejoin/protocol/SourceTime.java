package org.rejoin.protocol;

/**
 * The sender's own clock at a sample. Only differences mean anything, and only modulo the wrap: a DIS timestamp starts
 * anew every hour, an NMEA one every day.
 *
 * @param seconds reading of the clock, finite
 * @param wrapS after how many seconds it starts again at 0; positive infinity when it never does
 */
public record SourceTime(double seconds, double wrapS) {

    /**
     * Checks both components.
     *
     * @throws IllegalArgumentException if {@code seconds} is not finite or {@code wrapS} is not above 0
     */
    public SourceTime {
        if (!Double.isFinite(seconds)) {
            throw new IllegalArgumentException("seconds " + seconds + " is not finite");
        }
        if (!(wrapS > 0)) {
            throw new IllegalArgumentException("wrapS " + wrapS + " is not above 0");
        }
    }

    /** A clock that never wraps. */
    public static SourceTime monotonic(double seconds) {
        return new SourceTime(seconds, Double.POSITIVE_INFINITY);
    }

    /**
     * Seconds from another reading of the same clock to this one, the short way round the wrap; negative when the other
     * is in fact later.
     */
    public double since(SourceTime earlier) {
        double difference = seconds - earlier.seconds;
        // The remainder of what is small already is itself, and slow; nothing is more than half of no wrap.
        return Math.abs(difference) <= wrapS / 2 ? difference : Math.IEEEremainder(difference, wrapS);
    }
}
