package org.rejoin.bridge.geo;

/** Counts cases and keeps the largest deviation of one external check. */
public final class Tally {

    private final String topic;
    private final String what;
    private final String source;
    private final double tolerance;
    private final String unit;
    private int cases;
    private double largest;
    private String worst = "none";

    /**
     * Starts with no cases.
     *
     * @param topic heading under which the line stands
     * @param what the quantity that is compared
     * @param source document, edition, table
     * @param tolerance largest deviation allowed, in {@code unit}
     * @param unit of tolerance and deviation
     */
    public Tally(String topic, String what, String source, double tolerance, String unit) {
        this.topic = topic;
        this.what = what;
        this.source = source;
        this.tolerance = tolerance;
        this.unit = unit;
    }

    /**
     * Adds a case.
     *
     * @param name of the case, for messages
     * @param found our value
     * @param published the value to compare with
     */
    public void add(Object name, double found, double published) {
        cases++;
        double deviation = Math.abs(found - published);
        // Not "greater than": a NaN must count as the worst of all.
        if (!(deviation <= largest)) {
            largest = Double.isNaN(deviation) ? Double.POSITIVE_INFINITY : deviation;
            worst = name + ": found " + found + ", published " + published;
        }
    }

    /**
     * Adds a case whose outcome is yes or no; a wrong one counts as an infinite deviation.
     *
     * @param name of the case, for messages
     * @param found our outcome
     * @param published the outcome to compare with
     */
    public void add(Object name, boolean found, boolean published) {
        add(name, found == published ? 0 : Double.POSITIVE_INFINITY, 0);
    }

    /** Adds a direction, compared the short way round. */
    void add(Object name, TrueDirection found, TrueDirection published) {
        add(name, published.turnTo(found), 0);
    }

    /** Adds a position, compared by the distance in metres. */
    void add(Object name, Position found, Position published) {
        add(name, found.distanceNm(published) * Geodesics.METRES_PER_NM, 0);
    }

    /**
     * The line of the table.
     *
     * @return what has been counted so far
     */
    public ExternalCheck result() {
        return new ExternalCheck(topic, what, source, cases, tolerance, unit, largest, worst);
    }
}
