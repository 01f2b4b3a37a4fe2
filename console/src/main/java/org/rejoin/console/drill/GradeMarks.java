package org.rejoin.console.drill;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;

import org.rejoin.console.skill.Difficulty;
import org.rejoin.console.skill.Mark;
import org.rejoin.console.skill.Skill;

import com.fasterxml.jackson.databind.JsonNode;

/**
 * The marks of a flight, from its {@code grade.json}. What was not judged, or never flown to, gives no mark: the earlier
 * skill failed, not this one.
 */
public final class GradeMarks {

    /** No mark of a flight is right by the side alone: it needs the line, or a turn within its limit, besides. */
    private static final double NO_GUESS = 0;

    private static final Set<String> NOT_INTERCEPTED = Set.of("FLOWN_THROUGH", "OVERSHOOT", "TURNED_EARLY");

    private static final Set<String> NOT_TURNED = Set.of("SEQUENCE_MISSED", "HOLD_WRONG_SIDE", "HOLD_NOT_ENTERED");

    private final Set<String> faults = new HashSet<>();
    private final JsonNode criteria;
    private final Beside beside;

    /**
     * What stands beside the grade.
     *
     * @param otherCourse whether a course was tracked that was not cleared
     * @param lostS seconds lost against the best flyable path; empty where not compared
     */
    public record Beside(boolean otherCourse, OptionalDouble lostS) {

        /** Nothing is known. */
        public static final Beside NOTHING = new Beside(false, OptionalDouble.empty());
    }

    private GradeMarks(JsonNode grade, Beside beside) {
        this.criteria = grade.path("criteria");
        this.beside = beside;
        grade.path("faults").forEach(fault -> faults.add(fault.path("code").asText()));
    }

    /**
     * Reads the marks.
     *
     * @param grade the object of {@code grade.json}, or one of its amendments
     * @param difficulty of the drill or lesson, logits by skill
     * @param again whether the same was flown within the day before
     * @return at most one a skill; of a flight that ended before all was due, of what was judged by then
     */
    public static List<Mark> of(
            JsonNode grade, Beside beside, String pilot, Instant at, Map<Skill, Double> difficulty, boolean again) {
        GradeMarks read = new GradeMarks(grade, beside);
        List<Mark> marks = new ArrayList<>();
        for (Map.Entry<Skill, Double> each : difficulty.entrySet()) {
            read.right(each.getKey())
                    .ifPresent(right ->
                            marks.add(new Mark(pilot, at, each.getKey(), each.getValue(), right, NO_GUESS, again)));
        }
        return marks;
    }

    private Optional<Boolean> right(Skill skill) {
        return switch (skill) {
            // Only whoever came to the line has shown which way he took it.
            case COURSE ->
                has("WRONG_DIRECTION") || beside.otherCourse()
                        ? Optional.of(false)
                        : met("COURSE").map(met -> true);
            case HEADING -> met("HEADING").map(met -> met && !has("HEADING_NOT_HELD"));
            case INTERCEPT ->
                faults.stream().anyMatch(NOT_INTERCEPTED::contains) ? Optional.of(false) : met("INTERCEPT");
            case TRACK -> has("WEAVING") ? Optional.of(false) : met("COURSE");
            case FIX -> faults.stream().anyMatch(NOT_TURNED::contains) ? Optional.of(false) : met("FIX", "HOLD_ENTRY");
            case SECOND -> second();
            case TIMELY ->
                beside.lostS().isPresent()
                        ? Optional.of(beside.lostS().getAsDouble() <= Difficulty.BUILT_IN.timelyWithinS())
                        : Optional.empty();
            // A flight does not tell what was read back.
            case HEAR -> Optional.empty();
        };
    }

    private Optional<Boolean> second() {
        Optional<Boolean> altitude = met("ALTITUDE");
        Optional<Boolean> speed = met("SPEED");
        if (altitude.isEmpty() && speed.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(
                altitude.orElse(true) && speed.orElse(true) && !has("ALTITUDE_NOT_HELD") && !has("SPEED_NOT_HELD"));
    }

    private boolean has(String fault) {
        return faults.contains(fault);
    }

    /** Whether two criteria were met, as far as each was come to. */
    private Optional<Boolean> met(String one, String other) {
        Optional<Boolean> first = met(one);
        Optional<Boolean> second = met(other);
        return first.isPresent() && second.isPresent()
                ? Optional.of(first.get() && second.get())
                : first.or(() -> second);
    }

    /** Whether a criterion was met; empty where it was never come to. */
    private Optional<Boolean> met(String code) {
        for (JsonNode criterion : criteria) {
            if (criterion.path("code").asText().equals(code)
                    && criterion.path("measured").isNumber()
                    && criterion.path("met").isBoolean()) {
                return Optional.of(criterion.path("met").asBoolean());
            }
        }
        return Optional.empty();
    }
}
