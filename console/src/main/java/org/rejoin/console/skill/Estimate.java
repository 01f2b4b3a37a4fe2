package org.rejoin.console.skill;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Optional;

/**
 * What is known of one skill of one pilot: a mean and a variance, in logits. Glicko (M. Glickman, The Glicko system) with
 * q = 1 against drills of fixed difficulty, with a chance of guessing (R. Pelánek, Computers and Education 98, 2016) and
 * with forgetting. Immutable.
 *
 * @param skill that is estimated
 * @param mean logits; 0 is an even chance at standard difficulty
 * @param variance logits squared, above 0
 * @param carriedGain how far the mean lies off for each logit that a mark teaches this pilot more than is supposed: the marks
 *     correct it a little each time
 * @param last when the last mark was given; empty before the first
 * @param marks how many were taken
 * @param solidDays different days that ended with the lower end above {@link #SOLID_FROM}
 * @param lastSolidDay the last of them
 */
public record Estimate(
        Skill skill,
        double mean,
        double variance,
        double carriedGain,
        Optional<Instant> last,
        int marks,
        int solidDays,
        Optional<LocalDate> lastSolidDay) {

    /** Before the first mark: right at standard difficulty in 38 of 100, anywhere between 5 and 88. Judgement. */
    public static final double FIRST_MEAN = -0.5;

    /** Variance before the first mark, and the largest there is. Judgement. */
    public static final double FIRST_VARIANCE = 2.25;

    /** The lower end of the interval of a solid skill. */
    public static final double SOLID_FROM = 0.7;

    /** The upper end of the interval of a weak skill. */
    public static final double WEAK_TO = 0.6;

    /** A wider interval says nothing. */
    public static final double UNKNOWN_WIDTH = 0.6;

    /** A solid skill was so on this many days. */
    public static final int SOLID_DAYS = 3;

    /** Ends of an interval that holds 90 of 100. */
    private static final double NORMAL_90 = 1.645;

    /** In 400 days without practice a well-known skill becomes unknown. Judgement. */
    private static final double VARIANCE_A_DAY = (FIRST_VARIANCE - 0.16) / 400;

    /** Nobody is the same twice. Judgement. */
    private static final double VARIANCE_A_MARK = 0.02;

    /** Practice itself teaches a little. Judgement. */
    private static final double GAIN_A_MARK = 0.05;

    /**
     * Nobody knows how much practice teaches one pilot: nothing, or twice as much as is supposed, or anything between.
     * Standard deviation of that, logits a mark.
     */
    private static final double GAIN_DEVIATION = GAIN_A_MARK / Math.sqrt(3);

    /** Variance of a difficulty that was guessed, logits squared. Judgement. */
    private static final double DIFFICULTY_VARIANCE = 0.25;

    private static final double GLICKO = 1 / Math.sqrt(1 + 3 * DIFFICULTY_VARIANCE / (Math.PI * Math.PI));

    /** Largest value of u f(u), at u = 1.5434. */
    private static final double FASTEST = 0.223872;

    private static final double SECONDS_A_DAY = 86_400;

    /** Before the first mark. */
    public static Estimate first(Skill skill) {
        return new Estimate(skill, FIRST_MEAN, FIRST_VARIANCE, 0, Optional.empty(), 0, 0, Optional.empty());
    }

    /**
     * After time without practice: nearer to the beginning and less certain; this where there was no mark yet, or now
     * is before the last.
     */
    public Estimate at(Instant now) {
        return last.map(then -> idle(Math.max(0, Duration.between(then, now).toMillis() / 1000.0 / SECONDS_A_DAY)))
                .orElse(this);
    }

    private Estimate idle(double days) {
        double kept = Math.pow(2, -days / skill.halfLifeDays());
        return new Estimate(
                skill,
                FIRST_MEAN + (mean - FIRST_MEAN) * kept,
                Math.min(FIRST_VARIANCE, variance + VARIANCE_A_DAY * days + VARIANCE_A_MARK),
                carriedGain * kept,
                last,
                marks,
                solidDays,
                lastSolidDay);
    }

    /** The chance of a right mark, [guessChance, 1], from what is known now; the difficulty in logits. */
    public double expected(double difficulty, double guessChance) {
        return guessChance + (1 - guessChance) * logistic(GLICKO * (mean - difficulty));
    }

    /** How much a mark would tell: information, 1 / logits squared, above 0. */
    private double information(double difficulty, double guessChance) {
        double expected = expected(difficulty, guessChance);
        double slope = slope(difficulty, guessChance);
        return slope * slope / (expected * (1 - expected));
    }

    private double slope(double difficulty, double guessChance) {
        double s = logistic(GLICKO * (mean - difficulty));
        return (1 - guessChance) * GLICKO * s * (1 - s);
    }

    /**
     * How fast is learned at a difficulty, as a share of the fastest: u f(u) with the logistic density f, largest where
     * 176 of 1,000 go wrong (R. Wilson, A. Shenhav, M. Straccia and J. Cohen, Nature Communications 10:4646, 2019); 0
     * where the drill is harder than an even chance. It was found for machines and animals that learn to tell two
     * things apart; that pilots learn so is a supposition.
     */
    public double learning(double difficulty) {
        double ahead = mean - difficulty;
        double right = logistic(ahead);
        return Math.max(0, ahead) * right * (1 - right) / FASTEST;
    }

    /** After one more mark of the same skill, not before the last. */
    public Estimate after(Mark mark) {
        return at(mark.at()).learned(mark);
    }

    private Estimate learned(Mark mark) {
        double weight = mark.again() ? 0.5 : 1;
        double expected = expected(mark.difficulty(), mark.guessChance());
        double newVariance = 1 / (1 / variance + weight * information(mark.difficulty(), mark.guessChance()));
        double surprise = (mark.right() ? 1 : 0) - expected;
        double newMean = mean
                + newVariance
                        * weight
                        * slope(mark.difficulty(), mark.guessChance())
                        * surprise
                        / (expected * (1 - expected))
                + GAIN_A_MARK;
        double followed = newVariance * weight * information(mark.difficulty(), mark.guessChance());
        double newCarried = carriedGain * (1 - followed) + 1;
        LocalDate day = LocalDate.ofInstant(mark.at(), ZoneOffset.UTC);
        boolean sure = logistic(newMean - NORMAL_90 * deviation(newVariance, newCarried)) > SOLID_FROM;
        boolean newDay = sure && !lastSolidDay.equals(Optional.of(day));
        return new Estimate(
                skill,
                newMean,
                newVariance,
                newCarried,
                Optional.of(mark.at()),
                marks + 1,
                solidDays + (newDay ? 1 : 0),
                sure ? Optional.of(day) : lastSolidDay);
    }

    /** {@return the chance of a right mark at standard difficulty; (0, 1)} */
    public double p() {
        return logistic(mean);
    }

    /** Lower end, in (0, 1), of the interval that holds the truth in 90 of 100. */
    public double low() {
        return logistic(mean - NORMAL_90 * deviation(variance, carriedGain));
    }

    /**
     * What marks leave open, and what a pilot who learns otherwise than is supposed has been carried off by: the parameter is
     * considered, not estimated (S. F. Schmidt, Application of state-space methods to navigation problems, Advances in Control
     * Systems 3, 1966, from memory).
     */
    private static double deviation(double variance, double carriedGain) {
        return Math.hypot(Math.sqrt(variance), GAIN_DEVIATION * carriedGain);
    }

    /** Upper end of that interval. */
    public double high() {
        return logistic(mean + NORMAL_90 * deviation(variance, carriedGain));
    }

    /** {@return the estimate in words, the first of them that fits} */
    public Standing standing() {
        if (high() - low() > UNKNOWN_WIDTH) {
            return Standing.UNKNOWN;
        }
        if (high() < WEAK_TO) {
            return Standing.WEAK;
        }
        return low() > SOLID_FROM && solidDays >= SOLID_DAYS ? Standing.SOLID : Standing.COMING;
    }

    /** An estimate in words. None of them says that a pilot is ready. */
    public enum Standing {
        /** Too few marks, or too old. */
        UNKNOWN,
        /** Surely below what is wanted. */
        WEAK,
        /** Between. */
        COMING,
        /** Shown on several days. */
        SOLID;

        /** {@return the word, lower case} */
        public String word() {
            return name().toLowerCase(java.util.Locale.ROOT);
        }
    }

    static double logistic(double x) {
        return 1 / (1 + Math.exp(-x));
    }
}
