package org.rejoin.console.drill;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.bridge.geo.Wind;
import org.rejoin.console.skill.Features;
import org.rejoin.console.skill.Goal;
import org.rejoin.console.skill.GradedAttempt;
import org.rejoin.console.skill.Line;
import org.rejoin.console.skill.Mark;
import org.rejoin.console.skill.Skill;

import org.junit.jupiter.api.Test;

/** The next drill: for what is weak, probably managed, not the same for ever, and with its reason. */
class NextDrillTest {

    private static final Instant NOW = Instant.parse("2026-06-20T10:00:00Z");

    private static final int DRILLS = Integer.getInteger("rejoin.drills-in-a-row", 8);

    private static GradedAttempt attempt(int daysAgo, String shape, String turn, Skill weak, boolean right) {
        Instant at = NOW.minus(Duration.ofDays(daysAgo));
        List<Mark> marks = new ArrayList<>();
        for (Skill skill :
                List.of(Skill.COURSE, Skill.HEADING, Skill.INTERCEPT, Skill.TRACK, Skill.FIX, Skill.SECOND)) {
            marks.add(new Mark("A", at, skill, 0, skill != weak || right, 0, false));
        }
        return new GradedAttempt(
                "A",
                at,
                shape,
                turn,
                new Line(OptionalDouble.empty(), OptionalDouble.empty(), ""),
                OptionalDouble.empty(),
                List.of(),
                marks);
    }

    private static NextDrill next(List<GradedAttempt> attempts, long seed) throws Exception {
        return NextDrill.choose(
                new NextDrill.Known(attempts, Goal.A_YEAR, NOW, false),
                new DrillChart(DrillCharts.ours(), ""),
                DrillRequest.usual(seed));
    }

    @Test
    void theSameHistoryAndSeedGiveTheSameDrillWithItsReason() throws Exception {
        List<GradedAttempt> attempts = List.of(attempt(3, "A", "left", Skill.INTERCEPT, false));
        NextDrill one = next(attempts, 7);
        NextDrill two = next(attempts, 7);
        assertThat(two.drill().say()).isEqualTo(one.drill().say());
        assertThat(two.why())
                .isEqualTo(one.why())
                .containsIgnoringCase(one.skill().says())
                .contains("of the last");
    }

    @Test
    void neverThreeShapesOrTurnsOfAKindInARow() throws Exception {
        List<GradedAttempt> attempts =
                List.of(attempt(2, "C", "left", Skill.FIX, true), attempt(1, "C", "left", Skill.FIX, true));
        for (int seed = 0; seed < 3; seed++) {
            NextDrill next = next(attempts, seed);
            assertThat(next.drill().features().shape().option()).isNotEqualTo("C");
            assertThat(next.drill().features().turnOntoCourseDeg()).isPositive();
        }
    }

    @Test
    void aPilotOfWhomNothingIsKnownGetsOneThatIsAsEasyAsTheChartHas() throws Exception {
        NextDrill next = next(List.of(), 1);
        assertThat(next.why()).contains("not tried yet");
        assertThat(next.chance()).isGreaterThan(0.3);
    }

    @Test
    void whoIsToTrackInTheWindGetsSome() throws Exception {
        DrillMaker maker = new DrillMaker(new DrillChart(DrillCharts.ours(), ""));
        List<Drill> drawn = new ArrayList<>();
        for (int seed = 0; seed < 60; seed++) {
            drawn.add(maker.makeForPaper(DrillRequest.usual(seed)));
        }
        assertThat(drawn).anyMatch(drill -> drill.features().crosswindKt() < 5);
        for (boolean first : new boolean[] {true, false}) {
            NextDrill.Known known = new NextDrill.Known(List.of(), Goal.A_YEAR, NOW, first);
            assertThat(crosswindKt(drawn, known, Skill.TRACK)).isGreaterThanOrEqualTo(5);
            assertThat(crosswindKt(drawn, known, Skill.INTERCEPT)).isLessThan(5);
        }
    }

    private static double crosswindKt(List<Drill> drawn, NextDrill.Known known, Skill skill) {
        return NextDrill.ranked(drawn, known, known.progress(), skill)
                .get(0)
                .drill()
                .features()
                .crosswindKt();
    }

    private static DrillRequest calm() {
        return DrillRequest.usual(1).flown(DrillRequest.USUAL_SPEED_KT, Wind.CALM);
    }

    @Test
    void aWindThatIsNotThereIsNoReason() throws Exception {
        NextDrill next = NextDrill.choose(
                new NextDrill.Known(List.of(), Goal.A_YEAR, NOW, true), new DrillChart(DrillCharts.ours(), ""), calm());
        assertThat(next.drill().features().crosswindKt()).isZero();
        assertThat(next.why()).contains("this one is an easy one and closes at").doesNotContain("crosswind");
    }

    @Test
    void inAScoreOfDrillsInARowNoLineComesTwiceAndNothingThreeTimesRunning() throws Exception {
        List<GradedAttempt> attempts = new ArrayList<>();
        DrillChart chart = new DrillChart(DrillCharts.ours(), "");
        for (int i = 0; i < DRILLS; i++) {
            NextDrill next = NextDrill.choose(
                    new NextDrill.Known(attempts, Goal.A_YEAR, NOW, false), chart, DrillRequest.usual(i));
            Line line = next.drill().line();
            String said = i + ": " + next.drill().say();
            assertThat(attempts).as(said).noneMatch(before -> line.repeats(before.line()));
            Features features = next.drill().features();
            String turn = features.turnOntoCourseDeg() > 0 ? "right" : "left";
            if (i >= 2) {
                List<GradedAttempt> last = attempts.subList(i - 2, i);
                assertThat(last).as(said).anyMatch(before -> !before.turn().equals(turn));
                assertThat(last)
                        .as(said)
                        .anyMatch(before ->
                                !before.shape().equals(features.shape().option()));
                assertThat(line.radialDeg().isPresent()
                                && last.stream().allMatch(before -> line.sameRadial(before.line())))
                        .as(said)
                        .isFalse();
            }
            attempts.add(next.drill().attempt("A", NOW.minus(Duration.ofDays(DRILLS - i)), List.of()));
        }
    }
}
