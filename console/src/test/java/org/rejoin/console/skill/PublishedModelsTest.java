package org.rejoin.console.skill;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;

import org.apache.commons.math3.analysis.UnivariateFunction;
import org.apache.commons.math3.analysis.solvers.BrentSolver;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;

/**
 * Validation: the published models of learning and rating that the estimate is made of or could be made of, written here
 * once more from their papers, against the numbers their authors print. They say that the formulas were understood; the
 * program itself uses the first two.
 */
class PublishedModelsTest {

    private static double logistic(double x) {
        return 1 / (1 + Math.exp(-x));
    }

    /** M. Glickman, The Glicko system: the worked example of his description. */
    @Test
    void glickoOfThreeGames() {
        double q = Math.log(10) / 400;
        double[][] games = {{1400, 30, 1}, {1550, 100, 0}, {1700, 300, 0}};
        double[] gPrinted = {0.9955, 0.9531, 0.7242};
        double[] ePrinted = {0.639, 0.432, 0.303};
        double inverse = 0;
        double sum = 0;
        for (int i = 0; i < games.length; i++) {
            double g = 1 / Math.sqrt(1 + 3 * q * q * games[i][1] * games[i][1] / (Math.PI * Math.PI));
            double e = 1 / (1 + Math.pow(10, -g * (1500 - games[i][0]) / 400));
            assertThat(g).isCloseTo(gPrinted[i], within(0.00005));
            // The first is printed .639 and is .6395.
            assertThat(e).isCloseTo(ePrinted[i], within(0.0006));
            inverse += q * q * g * g * e * (1 - e);
            sum += g * (games[i][2] - e);
        }
        assertThat(1 / inverse).isCloseTo(53685.74, within(0.05));
        double precision = 1 / (200.0 * 200.0) + inverse;
        assertThat(1500 + q / precision * sum).isCloseTo(1464.1065, within(0.00005));
        assertThat(Math.sqrt(1 / precision)).isCloseTo(151.3989, within(0.00005));
    }

    /** The estimate is Glicko: the same games in logits, without guessing, forgetting or gain. */
    @Test
    void ourStepIsGlickoInLogits() {
        double mean = 0.3;
        double variance = 0.8;
        double difficulty = -0.4;
        double g = 1 / Math.sqrt(1 + 3 * 0.25 / (Math.PI * Math.PI));
        double e = logistic(g * (mean - difficulty));
        double precision = 1 / variance + g * g * e * (1 - e);
        Estimate before = new Estimate(
                Skill.COURSE, mean, variance, 0, java.util.Optional.empty(), 0, 0, java.util.Optional.empty());
        Estimate after = before.after(new Mark("A", java.time.Instant.EPOCH, Skill.COURSE, difficulty, true, 0, false));
        assertThat(after.variance()).isCloseTo(1 / precision, within(1e-12));
        assertThat(after.mean()).isCloseTo(mean + g * (1 - e) / precision + 0.05, within(1e-12));
    }

    /** R. Pelanek, Computers and Education 98 (2016): Elo with an uncertainty function; values worked out here. */
    @Test
    void eloInEducation() {
        double theta = 0;
        double d = 0;
        int[] marks = {1, 1, 0, 1};
        double[] expected = {0.5000, 0.7311, 0.8194, 0.5056};
        double[] abilities = {0.5000, 0.7561, 0.0112, 0.4411};
        for (int n = 0; n < marks.length; n++) {
            double p = logistic(theta - d);
            double u = 1 / (1 + 0.05 * n);
            theta += u * (marks[n] - p);
            d += u * (p - marks[n]);
            assertThat(p).isCloseTo(expected[n], within(0.00005));
            assertThat(theta).isCloseTo(abilities[n], within(0.00005));
            assertThat(d).isCloseTo(-theta, within(1e-12));
        }
    }

    /** A. Corbett and J. Anderson, User Modeling and User-Adapted Interaction 4 (1995). */
    @Test
    void knowledgeTracing() {
        assertThat(traced(0.4, 0.1, 0.3, 0.2, "0110111"))
                .containsExactly(new double[] {.2800, .6188, .8653, .7360, .9163, .9771, .9940}, within(0.00005));
        assertThat(traced(0.5, 0.4, 0.2, 0.2, "0011101101"))
                .containsExactly(
                        new double[] {.5200, .5279, .8904, .9821, .9973, .9935, .9990, .9999, .9996, .9999},
                        within(0.00005));
    }

    private static double[] traced(double first, double learns, double slips, double guesses, String marks) {
        double known = first;
        double[] path = new double[marks.length()];
        for (int i = 0; i < path.length; i++) {
            double posterior = marks.charAt(i) == '1'
                    ? known * (1 - slips) / (known * (1 - slips) + (1 - known) * guesses)
                    : known * slips / (known * slips + (1 - known) * (1 - guesses));
            known = posterior + (1 - posterior) * learns;
            path[i] = known;
        }
        return path;
    }

    /** P. Pavlik, H. Cen and K. Koedinger, AIED 2009: performance factors. */
    @Test
    void performanceFactors() {
        int[][] counts = {{0, 0}, {0, 1}, {2, 1}, {5, 2}};
        double[] expected = {.3775, .4013, .5000, .6682};
        for (int i = 0; i < counts.length; i++) {
            assertThat(logistic(-0.5 + 0.2 * counts[i][0] + 0.1 * counts[i][1]))
                    .isCloseTo(expected[i], within(0.00005));
        }
    }

    /** B. Settles and B. Meeder, ACL 2016: half-life regression. */
    @Test
    void halfLife() {
        assertThat(Math.pow(2, -3 / 10.0)).isCloseTo(.8123, within(0.00005));
        assertThat(Math.pow(2, -10 / 3.0)).isCloseTo(.0992, within(0.00005));
    }

    /** Ours is the same curve: half of what was gained is left after the half-life. */
    @Test
    void ourForgettingHalvesWhatWasGained() {
        java.time.Instant then = java.time.Instant.EPOCH;
        Estimate known =
                new Estimate(Skill.FIX, 1.5, 0.2, 0, java.util.Optional.of(then), 9, 0, java.util.Optional.empty());
        assertThat(known.at(then.plus(java.time.Duration.ofDays(195))).mean())
                .isCloseTo(Estimate.FIRST_MEAN + (1.5 - Estimate.FIRST_MEAN) / 2, within(1e-12));
    }

    /**
     * FSRS-6, the open spacing algorithm, written from its description; the values are those of its own tests
     * (stability and difficulty after six reviews, thirteen intervals).
     */
    @Test
    void spacingAlgorithmOfFlashCards() {
        assertThat(Spacing.retrievability(5, 5)).isCloseTo(.9, within(1e-9));
        assertThat(Spacing.retrievability(10, 5)).isCloseTo(.845885, within(5e-7));
        assertThat(Spacing.retrievability(30, 5)).isCloseTo(.742717, within(5e-7));
        Spacing card = new Spacing();
        int[] ratings = {1, 3, 3, 3, 3, 3};
        int[] gaps = {0, 0, 1, 3, 8, 21};
        for (int i = 0; i < ratings.length; i++) {
            card.review(ratings[i], gaps[i]);
        }
        assertThat(card.stability).isCloseTo(53.62691, within(1e-4));
        assertThat(card.difficulty).isCloseTo(6.3574867, within(1e-5));
        int[] grades = {3, 3, 3, 3, 3, 3, 1, 1, 3, 3, 3, 3, 3};
        List<Integer> intervals = new ArrayList<>();
        Spacing learning = new Spacing();
        int gap = 0;
        int steps = 0;
        boolean reviewing = false;
        for (int grade : grades) {
            learning.review(grade, gap);
            // Two learning steps of minutes before the first interval of days; one relearning step after "again".
            if (!reviewing && steps == 0 && grade == 3 && intervals.isEmpty()) {
                gap = 0;
                steps = 1;
            } else if (grade == 1) {
                gap = 0;
                reviewing = false;
                steps = 1;
            } else {
                gap = Spacing.interval(learning.stability);
                reviewing = true;
            }
            intervals.add(gap);
        }
        assertThat(intervals).containsExactly(0, 2, 11, 46, 163, 498, 0, 0, 2, 4, 7, 12, 21);
    }

    /** The 21 weights and formulas of FSRS-6. */
    private static final class Spacing {
        private static final double[] W = {
            .212, 1.2931, 2.3065, 8.2956, 6.4133, .8334, 3.0194, .001, 1.8722, .1666, .796, 1.4835, .0614, .2629,
            1.6483, .6014, 1.8729, .5425, .0912, .0658, .1542
        };
        private static final double FACTOR = Math.pow(0.9, -1 / W[20]) - 1;

        private double stability;
        private double difficulty;

        static double retrievability(double days, double stability) {
            return Math.pow(1 + FACTOR * days / stability, -W[20]);
        }

        static int interval(double stability) {
            return (int) Math.max(1, Math.round(stability / FACTOR * (Math.pow(0.9, -1 / W[20]) - 1)));
        }

        private static double clamped(double d) {
            return Math.min(10, Math.max(1, d));
        }

        private static double firstDifficulty(int rating) {
            return W[4] - Math.exp(W[5] * (rating - 1)) + 1;
        }

        void review(int rating, double days) {
            if (stability == 0) {
                stability = W[rating - 1];
                difficulty = clamped(firstDifficulty(rating));
                return;
            }
            double r = retrievability(days, stability);
            double s = stability;
            if (days < 1) {
                double up = Math.exp(W[17] * (rating - 3 + W[18])) * Math.pow(s, -W[19]);
                stability = s * (rating >= 3 ? Math.max(1, up) : up);
            } else if (rating == 1) {
                double lapse =
                        W[11] * Math.pow(difficulty, -W[12]) * (Math.pow(s + 1, W[13]) - 1) * Math.exp(W[14] * (1 - r));
                stability = Math.min(lapse, s / Math.exp(W[17] * W[18]));
            } else {
                double hard = rating == 2 ? W[15] : 1;
                double easy = rating == 4 ? W[16] : 1;
                stability = s
                        * (1
                                + Math.exp(W[8])
                                        * (11 - difficulty)
                                        * Math.pow(s, -W[9])
                                        * (Math.exp(W[10] * (1 - r)) - 1)
                                        * hard
                                        * easy);
            }
            double damped = difficulty + -W[6] * (rating - 3) * (10 - difficulty) / 9;
            difficulty = clamped(W[7] * firstDifficulty(4) + (1 - W[7]) * damped);
        }
    }

    /** R. Wilson, A. Shenhav, M. Straccia and J. Cohen, Nature Communications 10:4646 (2019): the 85 % rule. */
    @Test
    void bestErrorRateOfLearningByGradient() {
        NormalDistribution normal = new NormalDistribution();
        assertThat(bestErrorRate(normal::density, normal::cumulativeProbability))
                .isCloseTo(0.158655, within(1e-6));
        assertThat(bestErrorRate(u -> Math.exp(-Math.abs(u)) / 2, u -> u < 0 ? Math.exp(u) / 2 : 1 - Math.exp(-u) / 2))
                .isCloseTo(0.18394, within(1e-5));
        assertThat(bestErrorRate(u -> logistic(u) * (1 - logistic(u)), PublishedModelsTest::logistic))
                .isCloseTo(0.17604, within(1e-5));
        assertThat(bestErrorRate(u -> 1 / (Math.PI * (1 + u * u)), u -> 0.5 + Math.atan(u) / Math.PI))
                .isCloseTo(0.25, within(1e-6));
    }

    /** Error rate F(-u) where u f(u) is largest. */
    private static double bestErrorRate(DoubleUnaryOperator density, DoubleUnaryOperator cumulative) {
        double h = 1e-5;
        UnivariateFunction slope =
                u -> ((u + h) * density.applyAsDouble(u + h) - (u - h) * density.applyAsDouble(u - h)) / (2 * h);
        double best = new BrentSolver(1e-12).solve(1000, slope, 0.3, 4);
        return cumulative.applyAsDouble(-best);
    }
}
