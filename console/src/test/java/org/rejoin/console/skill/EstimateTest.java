package org.rejoin.console.skill;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

import org.junit.jupiter.api.Test;

/** One skill of one pilot, mark by mark. The numbers were worked out outside the program, to six decimals. */
class EstimateTest {

    private static final Instant MONDAY = Instant.parse("2026-06-01T10:00:00Z");

    private static Mark mark(Instant at, double difficulty, boolean right, double guess) {
        return new Mark("A", at, Skill.COURSE, difficulty, right, guess, false);
    }

    @Test
    void fiveMarksOverSixteenDaysThenRest() {
        double[][] marks = {
            // gap days, difficulty, right, guess -> expected, mean, variance
            {0, -1.5, 1, 0, .723930, -.027675, 1.586835},
            {3, -1.0, 1, 0, .717589, .355659, 1.242743},
            {4, 0, 0, 0, .582057, -.164690, .994907},
            {2, -0.5, 1, 0.5, .789779, .023451, .944857},
            {7, 0.5, 1, 0, .384187, .547821, .820716},
        };
        Estimate estimate = Estimate.first(Skill.COURSE);
        Instant now = MONDAY;
        for (double[] row : marks) {
            now = now.plus(Duration.ofDays((long) row[0]));
            assertThat(estimate.at(now).expected(row[1], row[3])).isCloseTo(row[4], within(6e-7));
            estimate = estimate.after(mark(now, row[1], row[2] == 1, row[3]));
            assertThat(estimate.mean()).isCloseTo(row[5], within(6e-7));
            assertThat(estimate.variance()).isCloseTo(row[6], within(6e-7));
        }
        assertThat(estimate.p()).isCloseTo(.633630, within(6e-7));
        // Interval of what the marks leave open; the one shown is wider by what is not known of the pilot's learning.
        double deviation = Math.sqrt(estimate.variance());
        assertThat(Estimate.logistic(estimate.mean() - 1.645 * deviation)).isCloseTo(.2804, within(6e-5));
        assertThat(Estimate.logistic(estimate.mean() + 1.645 * deviation)).isCloseTo(.8847, within(6e-5));
        assertThat(estimate.low()).isBetween(.275, .2804);
        assertThat(estimate.high()).isBetween(.8847, .889);
        Estimate month = estimate.at(now.plus(Duration.ofDays(30)));
        assertThat(month.mean()).isCloseTo(.441835, within(6e-7));
        assertThat(month.variance()).isCloseTo(.997466, within(6e-7));
        Estimate half = estimate.at(now.plus(Duration.ofDays(195)));
        assertThat(half.mean()).isCloseTo(.023910, within(6e-7));
        assertThat(half.variance()).isCloseTo(1.859591, within(6e-7));
        assertThat(estimate.at(now.plus(Duration.ofDays(390))).variance()).isEqualTo(2.25);
    }

    @Test
    void aPilotWithNoMarksIsUnknownAndNeverCalledWeak() {
        Estimate first = Estimate.first(Skill.FIX);
        assertThat(first.standing()).isEqualTo(Estimate.Standing.UNKNOWN);
        assertThat(first.p()).isCloseTo(0.38, within(0.005));
        assertThat(first.low()).isCloseTo(0.05, within(0.005));
        assertThat(first.high()).isCloseTo(0.88, within(0.005));
    }

    @Test
    void solidNeedsThreeDifferentDays() {
        Estimate oneDay = Estimate.first(Skill.FIX);
        for (int i = 0; i < 60; i++) {
            oneDay = oneDay.after(new Mark("A", MONDAY.plusSeconds(60L * i), Skill.FIX, 0.5, true, 0, false));
        }
        assertThat(oneDay.low()).isGreaterThan(Estimate.SOLID_FROM);
        assertThat(oneDay.standing()).isEqualTo(Estimate.Standing.COMING);
        Estimate later = oneDay;
        for (int day = 1; day <= 2; day++) {
            later = later.after(new Mark("A", MONDAY.plus(Duration.ofDays(day)), Skill.FIX, 0.5, true, 0, false));
        }
        assertThat(later.standing()).isEqualTo(Estimate.Standing.SOLID);
    }

    @Test
    void theSameDrillAgainWithinTheDayCountsHalf() {
        Estimate first = Estimate.first(Skill.TRACK);
        Estimate whole = first.after(new Mark("A", MONDAY, Skill.TRACK, 0, true, 0, false));
        Estimate half = first.after(new Mark("A", MONDAY, Skill.TRACK, 0, true, 0, true));
        double information = 1 / whole.variance() - 1 / first.variance();
        assertThat(1 / half.variance() - 1 / first.variance()).isCloseTo(information / 2, within(1e-12));
        assertThat(half.mean()).isBetween(first.mean(), whole.mean());
    }

    @Test
    void aSkillIsDueAfterItsGapOrWhenForgettingTakesItBelowWhatIsWanted() {
        List<Mark> marks = new ArrayList<>();
        for (int i = 0; Progress.of(marks).of(Skill.COURSE).p() < 0.75; i++) {
            marks.add(mark(MONDAY.plusSeconds(60L * i), 0, true, 0));
        }
        Progress progress = Progress.of(marks);
        Instant last = marks.get(marks.size() - 1).at();
        // A year ahead: a twentieth, 18 days and six hours.
        assertThat(progress.due(Skill.COURSE, Goal.A_YEAR, last)).isEqualTo(last.plus(Duration.ofHours(18 * 24 + 6)));
        // Six weeks ahead: a tenth.
        assertThat(new Goal(42).gapDays()).isCloseTo(4.2, within(1e-12));
        assertThat(new Goal(30).gapDays()).isCloseTo(6, within(1e-12));
        // Ten years ahead forgetting comes first.
        Instant forgotten = progress.due(Skill.COURSE, new Goal(3650), last);
        assertThat(forgotten).isBefore(last.plus(Duration.ofDays(182)));
        assertThat(progress.of(Skill.COURSE, forgotten).p()).isCloseTo(Progress.DUE_BELOW, within(1e-4));
        assertThat(progress.isDue(Skill.HEAR, Goal.A_YEAR, last)).isTrue();
    }

    @Test
    void orderOfReadingDoesNotMatter() {
        List<Mark> marks = new ArrayList<>();
        for (int i = 0; i < 12; i++) {
            marks.add(mark(MONDAY.plus(Duration.ofDays(3L * i)), 0.1 * i, i % 3 != 0, 0));
        }
        Estimate forward = Progress.of(marks).of(Skill.COURSE);
        java.util.Collections.reverse(marks);
        assertThat(Progress.of(marks).of(Skill.COURSE)).isEqualTo(forward);
    }

    @Test
    void aMarkOutOfRangeIsRefusedInWords() {
        assertThatThrownBy(() -> mark(MONDAY, Double.NaN, true, 0))
                .hasMessage("difficulty NaN is not in -10 to 10 logits");
        assertThatThrownBy(() -> mark(MONDAY, 0, true, 1)).hasMessageContaining("chance of guessing");
    }
}
