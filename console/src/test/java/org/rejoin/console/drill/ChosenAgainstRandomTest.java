package org.rejoin.console.drill;

import static java.util.Objects.requireNonNull;
import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;

import org.rejoin.console.skill.Goal;
import org.rejoin.console.skill.GradedAttempt;
import org.rejoin.console.skill.Mark;
import org.rejoin.console.skill.Progress;
import org.rejoin.console.skill.Skill;

import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/**
 * Simulated pilots who practise chosen drills against the same pilots who practise drills at random: how many until the
 * true chance in the skill that was weakest is 0.8 at standard difficulty. What a pilot learns from a drill is not known:
 * two assumptions are tried, and the numbers are those of the assumption, not of pilots.
 */
class ChosenAgainstRandomTest {

    private static final int PILOTS = Integer.getInteger("rejoin.simulated-pilots", 40);
    private static final int MOST = 150;
    private static final int DRAWN = 30;
    private static final Instant BEGIN = Instant.parse("2026-01-01T00:00:00Z");

    private static final List<Drill> POOL = new ArrayList<>();

    @BeforeAll
    static void draw() throws Exception {
        DrillMaker maker = new DrillMaker(new DrillChart(DrillCharts.ours(), ""));
        List<Band> angles = List.of(new Band(25, 35), new Band(35, 50), new Band(50, 70), new Band(70, 88));
        List<Band> minutes = List.of(new Band(3.5, 5), new Band(2.5, 4.5), new Band(2, 3), new Band(1.5, 2.5));
        for (int i = 0; i < 240; i++) {
            POOL.add(maker.makeForPaper(DrillRequest.usual(i).withBands(angles.get(i % 4), minutes.get(i % 4))));
        }
    }

    /** Who picks the drill: nobody, the program, or one who knows what the pilot can do and what he will learn. */
    private enum Picks {
        NOBODY,
        PROGRAM,
        KNOWS
    }

    /** Drills until the weakest skill is there; the most that are tried where it never is. */
    private static int drills(int pilot, Picks picks, DoubleUnaryOperator gain) {
        Random nature = new Random(pilot);
        Map<Skill, Double> truth = new EnumMap<>(Skill.class);
        NextDrill.FLOWN.forEach(skill -> truth.put(skill, 0.3 + 0.6 * nature.nextGaussian()));
        Skill weakest = truth.entrySet().stream()
                .min(Comparator.comparingDouble(each -> each.getValue()))
                .orElseThrow()
                .getKey();
        truth.merge(weakest, 0.0, (now, none) -> Math.min(now, -0.5));
        Random random = new Random(1000 + pilot);
        List<GradedAttempt> attempts = new ArrayList<>();
        double wanted = Math.log(0.8 / 0.2);
        for (int n = 0; n < MOST; n++) {
            if (truth.getOrDefault(weakest, 0.0) >= wanted) {
                return n;
            }
            Instant now = BEGIN.plus(Duration.ofHours(60L * n));
            Drill drill = switch (picks) {
                case NOBODY -> POOL.get(random.nextInt(POOL.size()));
                case PROGRAM -> chosen(attempts, now, random);
                case KNOWS -> best(weakest, truth.getOrDefault(weakest, 0.0), gain, random);
            };
            List<Mark> marks = new ArrayList<>();
            drill.difficulty().forEach((skill, logit) -> {
                if (truth.containsKey(skill)) {
                    double ability = truth.getOrDefault(skill, 0.0);
                    double ahead = ability - logit - 0.5 * random.nextGaussian();
                    boolean right = random.nextDouble() < 1 / (1 + Math.exp(-ahead));
                    marks.add(new Mark("A", now, skill, logit, right, 0, false));
                    truth.put(skill, ability + gain.applyAsDouble(ahead));
                }
            });
            attempts.add(drill.attempt("A", now, marks));
        }
        return MOST;
    }

    private static Drill chosen(List<GradedAttempt> attempts, Instant now, Random random) {
        NextDrill.Known known = new NextDrill.Known(attempts, Goal.A_YEAR, now, false);
        Progress progress = known.progress();
        List<Drill> drawn = new ArrayList<>();
        for (int i = 0; i < DRAWN; i++) {
            drawn.add(POOL.get(random.nextInt(POOL.size())));
        }
        return NextDrill.ranked(drawn, known, progress, NextDrill.skill(progress, known, random))
                .get(0)
                .drill();
    }

    private static Drill best(Skill weakest, double ability, DoubleUnaryOperator gain, Random random) {
        return random.ints(DRAWN, 0, POOL.size())
                .mapToObj(POOL::get)
                .max(Comparator.comparingDouble(drill -> drill.difficulty().containsKey(weakest)
                        ? gain.applyAsDouble(ability - drill.difficulty().getOrDefault(weakest, 0.0))
                        : -1))
                .orElseThrow();
    }

    private static double fewer(String assumption, DoubleUnaryOperator gain) {
        Map<Picks, Double> sums = new EnumMap<>(Picks.class);
        for (Picks picks : Picks.values()) {
            for (int pilot = 0; pilot < PILOTS; pilot++) {
                sums.merge(picks, (double) drills(pilot, picks, gain), Double::sum);
            }
        }
        double fewer = 100 * (1 - requireNonNull(sums.get(Picks.PROGRAM)) / requireNonNull(sums.get(Picks.NOBODY)));
        if (Boolean.getBoolean("rejoin.say")) {
            System.out.printf(
                    "%s: at random %.1f drills, chosen %.1f, %.0f %% fewer; by one who knows %.1f, %.0f %% fewer%n",
                    assumption,
                    requireNonNull(sums.get(Picks.NOBODY)) / PILOTS,
                    requireNonNull(sums.get(Picks.PROGRAM)) / PILOTS,
                    fewer,
                    requireNonNull(sums.get(Picks.KNOWS)) / PILOTS,
                    100 * (1 - requireNonNull(sums.get(Picks.KNOWS)) / requireNonNull(sums.get(Picks.NOBODY))));
        }
        return fewer;
    }

    /** Each mark teaches the same: then a drill that shows the skill is as good as another, and nobody's choice gains much. */
    @Test
    void whereEveryMarkTeachesAlikeChoosingGainsLittle() {
        assertThat(fewer("every mark teaches alike", ahead -> 0.05)).isBetween(-15.0, 30.0);
    }

    /** Learning fastest at an error rate of 0.176 (Wilson and others 2019, logistic noise): u f(u), with its largest as 0.08. */
    @Test
    void whereTheRightDifficultyTeachesMostChoosingSavesAboutAThird() {
        assertThat(fewer("fastest at the right difficulty", ChosenAgainstRandomTest::matched))
                .isGreaterThan(PILOTS < 100 ? 24 : 30);
    }

    private static double matched(double ahead) {
        double density = Math.exp(-ahead) / Math.pow(1 + Math.exp(-ahead), 2);
        return Math.max(0, ahead) * density / 0.2239 * 0.08;
    }
}
