package org.rejoin.console.drill;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;

import org.rejoin.console.skill.Estimate;
import org.rejoin.console.skill.Features;
import org.rejoin.console.skill.Goal;
import org.rejoin.console.skill.GradedAttempt;
import org.rejoin.console.skill.Line;
import org.rejoin.console.skill.Mark;
import org.rejoin.console.skill.Progress;
import org.rejoin.console.skill.Shape;
import org.rejoin.console.skill.Skill;
import org.rejoin.console.words.Words;

/**
 * The next drill for a pilot, and why: a skill in proportion to how weak, uncertain and due it is, then of many drills the
 * one that the pilot will probably manage and from which he probably learns most. The same history, seed and chart give the same drill.
 *
 * @param chance that the pilot shows the skill in it, [0, 1]
 * @param why one sentence
 */
public record NextDrill(Skill skill, Drill drill, double chance, String why) {

    private static final int DRAWN = 30;

    /** One in so many is for any skill, so that a wrong estimate heals. */
    private static final int ANY_ONE_IN = 5;

    /** In proportion to the weight itself all skills come almost alike; so the weakest comes most. Judgement. */
    private static final int SHARPNESS = 3;

    /** What a due skill weighs more. */
    private static final double DUE_WEIGHT = 0.3;

    /** Wanted chance of success: the error rate of fastest learning is near 0.16 (Wilson et al. 2019), as a band. */
    private static final Band WANTED = new Band(0.75, 0.90);

    private static final double EASY_FROM = 0.9;

    /** No other skill is asked for with less hope. */
    private static final double OTHERS_FROM = 0.5;

    /** With less there is nothing to correct for: it neither shows who tracks in the wind nor is a reason; judgement. */
    private static final double CROSSWIND_KT = 5;

    private static final int SAME_IN_A_ROW = 3;

    /** So many drills back nothing is to come again. */
    private static final int REMEMBERED = 20;

    /** Skills that a flight can show today. */
    static final List<Skill> FLOWN =
            List.of(Skill.COURSE, Skill.HEADING, Skill.INTERCEPT, Skill.TRACK, Skill.FIX, Skill.SECOND);

    /**
     * What is known of the pilot.
     *
     * @param attempts in order of time
     * @param first whether it is the first of a sitting: an easy one
     */
    public record Known(List<GradedAttempt> attempts, Goal goal, Instant now, boolean first) {

        public Known {
            attempts = List.copyOf(attempts);
        }

        Progress progress() {
            return Progress.of(GradedAttempt.marks(attempts));
        }
    }

    record Candidate(Drill drill, double chance, double others, double worth) {}

    /**
     * Chooses.
     *
     * @param request what else is wished for; its seed decides with the history
     * @throws NoDrillException if the chart gives none; one line
     */
    public static NextDrill choose(Known known, DrillChart chart, DrillRequest request) throws NoDrillException {
        Progress progress = known.progress();
        Random random = DrawnConditions.tryOf(request.seed(), known.attempts().size());
        Skill skill = skill(progress, known, random);
        Estimate estimate = progress.of(skill, known.now());
        boolean easy = easy(known, skill);
        Optional<Shape> again =
                inARow(known.attempts(), skill, false) >= 2 ? lastShape(known.attempts(), skill) : Optional.empty();
        List<Drill> drawn = new ArrayList<>();
        DrillMaker maker = new DrillMaker(chart);
        NoDrillException none = null;
        for (int i = 0; i < DRAWN; i++) {
            DrillRequest draw =
                    varied(request, random, i).withShape(request.shape().or(() -> again));
            try {
                drawn.add(maker.makeToBeFlown(draw));
            } catch (NoDrillException e) {
                none = e;
            }
        }
        if (drawn.isEmpty() && none != null) {
            throw none;
        }
        for (Candidate each : ranked(drawn, known, progress, skill)) {
            if (FlownCheck.wrong(each.drill(), chart.chart()).isEmpty()) {
                return new NextDrill(
                        skill, each.drill(), each.chance(), why(skill, estimate, known, each.drill(), easy));
            }
        }
        throw new NoDrillException("chart " + chart.chart().name() + " gives no drill for " + skill
                + " that can be flown well: draw with another seed or on another chart");
    }

    private static boolean easy(Known known, Skill skill) {
        return known.first() || inARow(known.attempts(), skill, false) >= 2;
    }

    /** The drills that show a skill, the one to be taken first. */
    static List<Candidate> ranked(List<Drill> drawn, Known known, Progress progress, Skill skill) {
        boolean easy = easy(known, skill);
        Optional<Shape> notAgain =
                inARow(known.attempts(), skill, true) >= 2 ? lastShape(known.attempts(), skill) : Optional.empty();
        double wanted = easy ? EASY_FROM : (WANTED.low() + WANTED.high()) / 2;
        List<Candidate> candidates = new ArrayList<>();
        for (Drill drill : drawn) {
            Double difficulty = drill.difficulty().get(skill);
            if (difficulty != null) {
                candidates.add(candidate(drill, progress, known, skill, difficulty));
            }
        }
        candidates.sort(Comparator.comparingInt((Candidate each) -> rank(each, skill, easy, notAgain, known.attempts()))
                .thenComparingDouble(
                        each -> inBand(each.chance(), easy) ? -each.worth() : Math.abs(each.chance() - wanted)));
        return candidates;
    }

    private static boolean hasCrosswind(Features features) {
        return features.crosswindKt() >= CROSSWIND_KT;
    }

    private static boolean inBand(double chance, boolean easy) {
        return easy ? chance >= EASY_FROM : WANTED.holds(chance, 0);
    }

    /** What is wished for before all else comes first: less is better. */
    private static int rank(
            Candidate each, Skill skill, boolean easy, Optional<Shape> notAgain, List<GradedAttempt> attempts) {
        int rank = 0;
        rank += repeats(each.drill(), attempts) ? 16 : 0;
        rank += thirdOfItsKind(each.drill(), attempts) ? 8 : 0;
        rank += inBand(each.chance(), easy) ? 0 : 4;
        rank += skill == Skill.TRACK && !hasCrosswind(each.drill().features()) ? 1 : 0;
        rank += each.others() < OTHERS_FROM ? 2 : 0;
        rank += notAgain.filter(shape -> shape == each.drill().features().shape())
                        .isPresent()
                ? 1
                : 0;
        return rank;
    }

    private static Candidate candidate(Drill drill, Progress progress, Known known, Skill skill, double difficulty) {
        double others = 1;
        double worth = 0;
        for (Map.Entry<Skill, Double> each : drill.difficulty().entrySet()) {
            if (FLOWN.contains(each.getKey())) {
                Estimate estimate = progress.of(each.getKey(), known.now());
                if (each.getKey() != skill) {
                    others = Math.min(others, estimate.expected(each.getValue(), 0));
                }
                worth += weight(progress, known, each.getKey()) * estimate.learning(each.getValue());
            }
        }
        return new Candidate(drill, progress.of(skill, known.now()).expected(difficulty, 0), others, worth);
    }

    static double weight(Progress progress, Known known, Skill skill) {
        Estimate estimate = progress.of(skill, known.now());
        return (1 - estimate.p()) * Math.sqrt(estimate.variance())
                + (progress.isDue(skill, known.goal(), known.now()) ? DUE_WEIGHT : 0);
    }

    static Skill skill(Progress progress, Known known, Random random) {
        List<Skill> due = FLOWN.stream()
                .filter(skill -> progress.isDue(skill, known.goal(), known.now()))
                .toList();
        List<Skill> among = due.isEmpty() ? FLOWN : due;
        if (random.nextInt(ANY_ONE_IN) == 0) {
            return FLOWN.get(random.nextInt(FLOWN.size()));
        }
        Map<Skill, Double> weights = new EnumMap<>(Skill.class);
        among.forEach(skill -> weights.put(skill, Math.pow(weight(progress, known, skill), SHARPNESS)));
        double left = random.nextDouble()
                * weights.values().stream().mapToDouble(Double::doubleValue).sum();
        for (Map.Entry<Skill, Double> each : weights.entrySet()) {
            left -= each.getValue();
            if (left <= 0) {
                return each.getKey();
            }
        }
        return among.get(among.size() - 1);
    }

    /** Drills from easy to hard, so that there is something to choose from. */
    private static DrillRequest varied(DrillRequest request, Random random, int index) {
        DrillRequest other = request.withSeed(random.nextLong() >>> 16);
        if (!request.angle().equals(DrillRequest.USUAL_ANGLE)
                || !request.minutes().equals(DrillRequest.USUAL_MINUTES)) {
            return other;
        }
        return switch (index % 4) {
            case 0 -> other.withBands(new Band(25, 35), new Band(3.5, 5));
            case 1 -> other.withBands(new Band(35, 50), new Band(2.5, 4.5));
            case 2 -> other.withBands(new Band(50, 70), new Band(2, 3));
            default -> other.withBands(new Band(70, 88), new Band(1.5, 2.5));
        };
    }

    private static int inARow(List<GradedAttempt> attempts, Skill skill, boolean right) {
        int count = 0;
        for (int i = attempts.size() - 1; i >= 0; i--) {
            for (Mark mark : attempts.get(i).marks()) {
                if (mark.skill() == skill) {
                    if (mark.right() != right) {
                        return count;
                    }
                    count++;
                }
            }
        }
        return count;
    }

    private static Optional<Shape> lastShape(List<GradedAttempt> attempts, Skill skill) {
        for (int i = attempts.size() - 1; i >= 0; i--) {
            GradedAttempt attempt = attempts.get(i);
            if (attempt.marks().stream().anyMatch(mark -> mark.skill() == skill)) {
                return Shape.named(attempt.shape());
            }
        }
        return Optional.empty();
    }

    /** Whether airway, radial and heading are those of one of the last drills. */
    private static boolean repeats(Drill drill, List<GradedAttempt> attempts) {
        Line line = drill.line();
        return attempts.subList(Math.max(0, attempts.size() - REMEMBERED), attempts.size()).stream()
                .anyMatch(attempt -> line.repeats(attempt.line()));
    }

    /** Never three equal shapes, radials or turn directions in a row. */
    private static boolean thirdOfItsKind(Drill drill, List<GradedAttempt> attempts) {
        int before = SAME_IN_A_ROW - 1;
        if (attempts.size() < before) {
            return false;
        }
        Features features = drill.features();
        String turn = Words.side(features.turnOntoCourseDeg() > 0);
        List<GradedAttempt> last = attempts.subList(attempts.size() - before, attempts.size());
        return last.stream()
                        .allMatch(attempt ->
                                attempt.shape().equals(features.shape().option()))
                || last.stream().allMatch(attempt -> attempt.turn().equals(turn))
                || (drill.line().radialDeg().isPresent()
                        && last.stream().allMatch(attempt -> drill.line().sameRadial(attempt.line())));
    }

    private static String why(Skill skill, Estimate estimate, Known known, Drill drill, boolean easy) {
        List<Mark> marks = GradedAttempt.marks(known.attempts()).stream()
                .filter(mark -> mark.skill() == skill)
                .toList();
        List<Mark> recent = marks.subList(Math.max(0, marks.size() - 5), marks.size());
        String past = recent.isEmpty()
                ? "not tried yet"
                : Words.say(
                        "%s, %d of the last %d right, last %s",
                        estimate.standing().word(),
                        recent.stream().filter(Mark::right).count(),
                        recent.size(),
                        ago(Duration.between(recent.get(recent.size() - 1).at(), known.now())));
        Features features = drill.features();
        return Words.say(
                "%s: %s; this one%s closes at %.0f degrees%s",
                Words.sentence(skill.says()),
                past,
                easy ? " is an easy one and" : "",
                features.angleDeg(),
                hasCrosswind(features) ? Words.say(" in %.0f kt of crosswind", features.crosswindKt()) : "");
    }

    private static String ago(Duration time) {
        long days = time.toDays();
        return days < 1 ? "today" : days == 1 ? "yesterday" : days + " days ago";
    }
}
