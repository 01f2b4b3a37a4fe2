package org.rejoin.console.skill;

import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** What all marks of one pilot say of each skill. Immutable. */
public final class Progress {

    /** Below this a skill is worth practising again. */
    public static final double DUE_BELOW = 0.7;

    private static final long SECONDS_A_DAY = 86_400;

    private final Map<Skill, Estimate> estimates;

    private Progress(Map<Skill, Estimate> estimates) {
        this.estimates = Collections.unmodifiableMap(estimates);
    }

    /** From marks of one pilot, in any order: one estimate a skill, as of its last mark. */
    public static Progress of(List<Mark> marks) {
        Map<Skill, Estimate> estimates = new EnumMap<>(Skill.class);
        history(marks).forEach(after -> estimates.put(after.skill(), after));
        return new Progress(estimates);
    }

    /**
     * How it came to be: of one pilot's marks, in any order, the estimate of the mark's skill after each, in order of
     * time.
     */
    public static List<Estimate> history(List<Mark> marks) {
        Map<Skill, Estimate> now = new EnumMap<>(Skill.class);
        List<Estimate> after = new ArrayList<>();
        marks.stream().sorted(Comparator.comparing(Mark::at)).forEach(mark -> {
            Estimate next = Optional.ofNullable(now.get(mark.skill()))
                    .orElseGet(() -> Estimate.first(mark.skill()))
                    .after(mark);
            now.put(mark.skill(), next);
            after.add(next);
        });
        return after;
    }

    /** One skill as of its last mark. */
    public Estimate of(Skill skill) {
        return Optional.ofNullable(estimates.get(skill)).orElseGet(() -> Estimate.first(skill));
    }

    /** One skill today, after the time without practice; not before the last mark. */
    public Estimate of(Skill skill, Instant now) {
        return of(skill).at(now);
    }

    /**
     * When a skill is due: at the end of the gap, or when forgetting takes it below {@link #DUE_BELOW}, whichever is
     * first; now where it was never tried.
     */
    public Instant due(Skill skill, Goal goal, Instant now) {
        Estimate estimate = of(skill);
        if (estimate.last().isEmpty()) {
            return now;
        }
        Instant last = estimate.last().get();
        Instant rested = last.plus((long) (goal.gapDays() * SECONDS_A_DAY), ChronoUnit.SECONDS);
        return forgotten(estimate).filter(moment -> moment.isBefore(rested)).orElse(rested);
    }

    /** When P falls below what is wanted; empty where it is below already, or never will be. */
    private static Optional<Instant> forgotten(Estimate estimate) {
        double wanted = Math.log(DUE_BELOW / (1 - DUE_BELOW));
        double above = estimate.mean() - Estimate.FIRST_MEAN;
        double left = wanted - Estimate.FIRST_MEAN;
        if (above <= left) {
            return Optional.empty();
        }
        double days = estimate.skill().halfLifeDays() * Math.log(above / left) / Math.log(2);
        return estimate.last().map(last -> last.plus(Duration.ofSeconds((long) (days * SECONDS_A_DAY))));
    }

    /** Whether a skill is due; true too where it was never tried. */
    public boolean isDue(Skill skill, Goal goal, Instant now) {
        return !due(skill, goal, now).isAfter(now);
    }
}
