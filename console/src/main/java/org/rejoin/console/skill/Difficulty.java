package org.rejoin.console.skill;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import java.util.Objects;

import org.rejoin.console.skill.DifficultyFile.Band;
import org.rejoin.console.skill.DifficultyFile.Flag;

/**
 * How hard a drill is for each skill, in logits, from its features and the weights of one file. The weights are judgement;
 * the file says its version.
 */
public final class Difficulty {

    /** The weights that come with the program. */
    public static final Difficulty BUILT_IN = load();

    private static final double STRONG_TAILWIND_KT = 15;

    private final DifficultyFile weights;

    private Difficulty(DifficultyFile weights) {
        this.weights = weights;
    }

    private static Difficulty load() {
        try (InputStream in = Objects.requireNonNull(
                Difficulty.class.getResourceAsStream("difficulty.yaml"), "difficulty.yaml is missing from the jar")) {
            return new Difficulty(
                    DifficultyFile.read("difficulty.yaml", new String(in.readAllBytes(), StandardCharsets.UTF_8)));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** {@return the version of the weights, 1 or more} */
    public int version() {
        return weights.version();
    }

    /** {@return how much may be lost against the best flyable path by whoever loses little time, seconds} */
    public double timelyWithinS() {
        return weights.timelyWithinS();
    }

    /**
     * How hard a drill is, logits by skill; 0 is the standard, harder is more. A skill that the shape does not show is
     * not there.
     */
    public Map<Skill, Double> of(Features features) {
        Map<Skill, Double> logits =
                new EnumMap<>(Objects.requireNonNull(weights.base().get(features.shape())));
        add(logits, weights.at(Band.ANGLE_DEG, features.angleDeg()), 1);
        add(logits, weights.at(Band.MINUTES, features.minutes()), 1);
        add(logits, weights.at(Band.CROSSWIND_KT, features.crosswindKt()), 1);
        features.turnAtFixDeg().ifPresent(turn -> add(logits, weights.at(Band.TURN_AT_FIX_DEG, Math.abs(turn)), 1));
        features.outNm().ifPresent(out -> add(logits, weights.at(Band.OUT_NM, out), 1));
        flag(logits, Flag.TAILWIND_OVER_15_KT, features.tailwindKt() > STRONG_TAILWIND_KT ? 1 : 0);
        flag(logits, Flag.RECIPROCAL_TRAP, features.reciprocalTrap() ? 1 : 0);
        flag(logits, Flag.NDB, features.ndb() ? 1 : 0);
        flag(logits, Flag.LOOK_ALIKE, features.lookAlike() ? 1 : 0);
        boolean opposite = features.turnAtFixDeg().isPresent()
                && features.turnAtFixDeg().getAsDouble() * features.turnOntoCourseDeg() < 0;
        flag(logits, Flag.TURNS_OPPOSITE, opposite ? 1 : 0);
        flag(logits, Flag.EXTRA, features.extras());
        features.entry()
                .map(entry -> switch (entry) {
                    case DIRECT -> Flag.ENTRY_DIRECT;
                    case TEARDROP -> Flag.ENTRY_TEARDROP;
                    case PARALLEL -> Flag.ENTRY_PARALLEL;
                })
                .ifPresent(entry -> flag(logits, entry, 1));
        logits.replaceAll((skill, logit) -> Math.round(logit * 100) / 100.0);
        return Collections.unmodifiableMap(logits);
    }

    /** Logits of {@link Skill#HEAR} for a clearance that is read once only. */
    public double readOnce(Features features) {
        return of(features).getOrDefault(Skill.HEAR, 0.0)
                + weights.flags().getOrDefault(Flag.READ_ONCE, Map.of()).getOrDefault(Skill.HEAR, 0.0);
    }

    private void flag(Map<Skill, Double> logits, Flag flag, int times) {
        add(logits, weights.flags().getOrDefault(flag, Map.of()), times);
    }

    /** Adds what a row says to the skills that the shape shows. */
    private static void add(Map<Skill, Double> logits, Map<Skill, Double> row, int times) {
        row.forEach((skill, weight) -> logits.computeIfPresent(skill, (same, logit) -> logit + weight * times));
    }
}
