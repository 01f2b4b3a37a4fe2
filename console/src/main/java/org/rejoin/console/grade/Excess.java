package org.rejoin.console.grade;

/**
 * What of an error lies beyond a limit: how far at most, and how long in all. Two short excursions weigh no more than one
 * of their time together; a gap inside one makes no second one.
 */
final class Excess {

    /** Half of what it may cost is reached after this long, all of it after that, seconds; common practice, no source. */
    private static final double PROMPT_S = 30;

    private static final double LONG_S = 180;

    /** Time far off counts for at most so much more; common practice, no source. */
    private static final double MOST_TIMES = 3;

    private final double limit;
    private final double heldS;
    private double lastS = Double.NaN;
    private double lastError;
    private double runS;
    private double runWorst;
    private double worst;
    private double seconds;
    private double weighed;
    private double runWeighed;
    private double runFromS = Double.NaN;
    private double fromS = Double.NaN;

    /** Runs shorter than {@code heldS} do not count. */
    Excess(double limit, double heldS) {
        this.limit = limit;
        this.heldS = heldS;
    }

    boolean within(double error) {
        return error <= limit;
    }

    /** As it is now. */
    Excess copy() {
        Excess copy = new Excess(limit, heldS);
        copy.lastS = lastS;
        copy.lastError = lastError;
        copy.runS = runS;
        copy.runWorst = runWorst;
        copy.worst = worst;
        copy.seconds = seconds;
        copy.weighed = weighed;
        copy.runWeighed = runWeighed;
        copy.runFromS = runFromS;
        copy.fromS = fromS;
        return copy;
    }

    void add(double flownS, double timeS, double error) {
        runFromS = error > limit && runS == 0 && runWorst == 0 ? timeS : runFromS;
        if (!Double.isNaN(lastS) && Math.min(error, lastError) > limit) {
            count(flownS - lastS, (error + lastError) / 2);
        } else if (!Double.isNaN(lastS) && Math.max(error, lastError) > limit && error != lastError) {
            double most = Math.max(error, lastError);
            count((flownS - lastS) * (most - limit) / Math.abs(error - lastError), (most + limit) / 2);
        }
        if (error > limit) {
            runWorst = Math.max(runWorst, error);
            worst = runS >= heldS ? Math.max(worst, runWorst) : worst;
        } else {
            runS = 0;
            runWeighed = 0;
            runWorst = 0;
        }
        lastS = flownS;
        lastError = error;
    }

    private void count(double more, double mean) {
        double before = runS;
        runS += more;
        double moreWeighed = more * Math.max(1, Math.min(MOST_TIMES, mean / limit - 1));
        runWeighed += moreWeighed;
        if (runS >= heldS) {
            seconds += before >= heldS ? more : runS;
            weighed += before >= heldS ? moreWeighed : runWeighed;
            fromS = Double.isNaN(fromS) ? runFromS : fromS;
            worst = Math.max(worst, runWorst);
        }
    }

    /** The time to the next value was not judged. */
    void breakOff() {
        lastS = Double.NaN;
    }

    double worst() {
        return worst;
    }

    /** When the first run that counts began, seconds since the first sample; NaN without one. */
    double fromS() {
        return fromS;
    }

    double seconds() {
        return seconds;
    }

    /**
     * How grave it is: 0 at the limit or at the time that makes it a fault. It grows with size to twice the limit, and with
     * time to some minutes: what is unsatisfactory is "failure to take prompt corrective action when tolerances are exceeded"
     * (FAA-S-ACS-8C, its appendix on unsatisfactory performance). Time farther off than twice the limit counts more.
     */
    double severity() {
        return severity(worst);
    }

    /** The same where the error is measured otherwise: as a mean, so that the turn that ends it does not count. */
    double severity(double size) {
        return size <= limit ? 0 : Fault.severity(size, limit) * lasting();
    }

    private double lasting() {
        double first = Math.max(0, weighed - heldS) / (PROMPT_S - heldS);
        double rest = Math.max(0, weighed - PROMPT_S) / (LONG_S - PROMPT_S);
        return Math.min(1, first) / 2 + Math.min(1, rest) / 2;
    }
}
