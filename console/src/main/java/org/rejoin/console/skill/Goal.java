package org.rejoin.console.skill;

/**
 * How far ahead the pilot practises, and so how long a skill may rest. The best gap is a fifth of the time to the test up
 * to a month, a tenth up to half a year, a twentieth for a year (Cepeda, Vul, Rohrer, Wixted and Pashler, Psychological
 * Science 19, 2008; steps between are judgement).
 *
 * @param days to the day that counts, 1 or more
 */
public record Goal(double days) {

    /** To stay fit all year. */
    public static final Goal A_YEAR = new Goal(365);

    /**
     * Checks the range.
     *
     * @throws IllegalArgumentException if not in [1, 3650] days
     */
    public Goal {
        if (!(days >= 1 && days <= 3650)) {
            throw new IllegalArgumentException("goal " + days + " is not in 1 to 3650 days");
        }
    }

    /** {@return how long a skill may rest, days} */
    public double gapDays() {
        return days * (days <= 31 ? 0.2 : days <= 183 ? 0.1 : 0.05);
    }
}
