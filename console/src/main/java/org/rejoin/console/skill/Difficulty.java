package org.rejoin.console.skill;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Collections;
import java.util.EnumMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Objects;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;

/**
 * How hard a drill is for each skill, in logits, from its features and the weights of one file. The weights are judgement;
 * the file says its version.
 */
public final class Difficulty {

    /** The weights that come with the program. */
    public static final Difficulty BUILT_IN = load();

    private final JsonNode weights;

    private Difficulty(JsonNode weights) {
        this.weights = weights;
    }

    private static Difficulty load() {
        try (InputStream in = Objects.requireNonNull(
                Difficulty.class.getResourceAsStream("difficulty.yaml"), "difficulty.yaml is missing from the jar")) {
            return new Difficulty(new YAMLMapper().readTree(in));
        } catch (IOException e) {
            throw new UncheckedIOException("difficulty.yaml", e);
        }
    }

    /**
     * The version of the weights.
     *
     * @return 1 or more
     */
    public int version() {
        return weights.path("version").asInt();
    }

    /**
     * How much may be lost against the best flyable path by whoever loses little time.
     *
     * @return seconds
     */
    public double timelyWithinS() {
        return weights.path("timely_within_s").asDouble();
    }

    /**
     * How hard a drill is.
     *
     * @param features of the drill
     * @return logits by skill, 0 is the standard, harder is more; a skill that the shape does not show is not there
     */
    public Map<Skill, Double> of(Features features) {
        Map<Skill, Double> logits = new EnumMap<>(Skill.class);
        add(logits, weights.path("base").path(features.shape().option()), true, 1);
        addBand(logits, "angle_deg", features.angleDeg());
        addBand(logits, "minutes", features.minutes());
        addBand(logits, "crosswind_kt", features.crosswindKt());
        features.turnAtFixDeg().ifPresent(turn -> addBand(logits, "turn_at_fix_deg", Math.abs(turn)));
        features.outNm().ifPresent(out -> addBand(logits, "out_nm", out));
        flag(logits, "tailwind_over_15_kt", features.tailwindKt() > 15 ? 1 : 0);
        flag(logits, "reciprocal_trap", features.reciprocalTrap() ? 1 : 0);
        flag(logits, "ndb", features.ndb() ? 1 : 0);
        flag(logits, "look_alike", features.lookAlike() ? 1 : 0);
        boolean opposite = features.turnAtFixDeg().isPresent()
                && features.turnAtFixDeg().getAsDouble() * features.turnOntoCourseDeg() < 0;
        flag(logits, "turns_opposite", opposite ? 1 : 0);
        flag(logits, "extra", features.extras());
        features.entry().ifPresent(entry -> flag(logits, "entry_" + entry.word(), 1));
        logits.replaceAll((skill, logit) -> Math.round(logit * 100) / 100.0);
        return Collections.unmodifiableMap(logits);
    }

    /**
     * The same for a clearance that is read once only.
     *
     * @param features of the drill
     * @return logits of {@link Skill#HEAR}
     */
    public double readOnce(Features features) {
        return of(features).getOrDefault(Skill.HEAR, 0.0)
                + weights.path("flags")
                        .path("read_once")
                        .path(Skill.HEAR.name())
                        .asDouble();
    }

    private void addBand(Map<Skill, Double> logits, String feature, double value) {
        JsonNode found = null;
        for (JsonNode row : weights.path(feature)) {
            if (value >= row.path("from").asDouble()) {
                found = row;
            }
        }
        if (found != null) {
            add(logits, found, false, 1);
        }
    }

    private void flag(Map<Skill, Double> logits, String name, int times) {
        if (times > 0) {
            add(logits, weights.path("flags").path(name), false, times);
        }
    }

    /** Adds what a row says; only a base brings a skill in. */
    private static void add(Map<Skill, Double> logits, JsonNode row, boolean base, int times) {
        for (Skill skill : List.of(Skill.values())) {
            JsonNode weight = row.path(skill.name());
            if (weight.isNumber() && (base || logits.containsKey(skill))) {
                logits.merge(skill, weight.asDouble() * times, Double::sum);
            }
        }
    }

    /** Names in the file that are no skill, for a test of the file. */
    List<String> strangers() {
        List<String> strangers = new java.util.ArrayList<>();
        for (JsonNode shape : weights.path("base")) {
            for (Iterator<String> names = shape.fieldNames(); names.hasNext(); ) {
                String name = names.next();
                if (Skill.named(name).isEmpty()) {
                    strangers.add(name);
                }
            }
        }
        return strangers;
    }
}
