package org.rejoin.console.skill;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Stream;

import org.rejoin.protocol.yaml.YamlException;
import org.rejoin.protocol.yaml.YamlMembers;
import org.rejoin.protocol.yaml.YamlNode;
import org.rejoin.protocol.yaml.YamlText;

/**
 * How hard a drill is for each skill, in logits, from its features and the weights of one file. The weights are judgement;
 * the file says its version.
 *
 * @param version of the weights, 1 or more
 * @param base logits of each shape by skill
 * @param bands by feature and from which value on, what is added
 * @param flags by name, what is added where it is so
 * @param timelyWithinS how much may be lost against the best flyable path by whoever loses little time, seconds
 */
public record Difficulty(
        int version,
        Map<Shape, Map<Skill, Double>> base,
        Map<Band, NavigableMap<Double, Map<Skill, Double>>> bands,
        Map<Flag, Map<Skill, Double>> flags,
        double timelyWithinS) {

    /** The weights that come with the program. */
    public static final Difficulty BUILT_IN = load();

    /** A feature that is measured, by its name in the file. */
    public enum Band {
        ANGLE_DEG,
        MINUTES,
        CROSSWIND_KT,
        TURN_AT_FIX_DEG,
        OUT_NM
    }

    /** A feature that is there or not. */
    public enum Flag {
        TAILWIND_OVER_15_KT,
        RECIPROCAL_TRAP,
        NDB,
        LOOK_ALIKE,
        TURNS_OPPOSITE,
        EXTRA,
        ENTRY_DIRECT,
        ENTRY_TEARDROP,
        ENTRY_PARALLEL,
        READ_ONCE
    }

    private static final String WHAT = "a file of difficulties";
    private static final double MOST_LOGITS = 10;
    private static final double STRONG_TAILWIND_KT = 15;

    private static Difficulty load() {
        try (InputStream in = Objects.requireNonNull(
                Difficulty.class.getResourceAsStream("difficulty.yaml"), "difficulty.yaml is missing from the jar")) {
            return read("difficulty.yaml", new String(in.readAllBytes(), StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /**
     * How hard a drill is, logits by skill; 0 is the standard, harder is more. A skill that the shape does not show is
     * not there.
     */
    public Map<Skill, Double> of(Features features) {
        Map<Skill, Double> logits = new EnumMap<>(Objects.requireNonNull(base.get(features.shape())));
        add(logits, at(Band.ANGLE_DEG, features.angleDeg()), 1);
        add(logits, at(Band.MINUTES, features.minutes()), 1);
        add(logits, at(Band.CROSSWIND_KT, features.crosswindKt()), 1);
        features.turnAtFixDeg().ifPresent(turn -> add(logits, at(Band.TURN_AT_FIX_DEG, Math.abs(turn)), 1));
        features.outNm().ifPresent(out -> add(logits, at(Band.OUT_NM, out), 1));
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
                + flags.getOrDefault(Flag.READ_ONCE, Map.of()).getOrDefault(Skill.HEAR, 0.0);
    }

    private void flag(Map<Skill, Double> logits, Flag flag, int times) {
        add(logits, flags.getOrDefault(flag, Map.of()), times);
    }

    /** Adds what a row says to the skills that the shape shows. */
    private static void add(Map<Skill, Double> logits, Map<Skill, Double> row, int times) {
        row.forEach((skill, weight) -> logits.computeIfPresent(skill, (same, logit) -> logit + weight * times));
    }

    /**
     * Reads it.
     *
     * @throws IOException if something is missing or not known; one line, with the line of the file
     */
    static Difficulty read(String where, String text) throws IOException {
        try {
            List<String> known = Stream.concat(
                            Stream.of("version", "base", "flags", "timely_within_s"),
                            Arrays.stream(Band.values()).map(Difficulty::name))
                    .toList();
            YamlMembers file = new YamlMembers(YamlText.strictly(text, WHAT + " begins with its version"), WHAT, known);
            Map<Shape, Map<Skill, Double>> base = new EnumMap<>(Shape.class);
            YamlMembers shapes = new YamlMembers(
                    file.required("base"),
                    "base",
                    Arrays.stream(Shape.values()).map(Shape::option).toList());
            for (Shape shape : Shape.values()) {
                base.put(shape, row(new YamlMembers(shapes.required(shape.option()), "a shape", skills())));
            }
            Map<Band, NavigableMap<Double, Map<Skill, Double>>> bands = new EnumMap<>(Band.class);
            for (Band band : Band.values()) {
                bands.put(band, rows(file, name(band)));
            }
            Map<Flag, Map<Skill, Double>> flags = new EnumMap<>(Flag.class);
            YamlMembers all = new YamlMembers(
                    file.required("flags"),
                    "flags",
                    Arrays.stream(Flag.values()).map(Difficulty::name).toList());
            for (Flag flag : Flag.values()) {
                flags.put(flag, row(new YamlMembers(all.required(name(flag)), "a flag", skills())));
            }
            file.required("timely_within_s");
            return new Difficulty(
                    file.requiredInteger("version", 1, 1_000_000),
                    Collections.unmodifiableMap(base),
                    Collections.unmodifiableMap(bands),
                    Collections.unmodifiableMap(flags),
                    file.number("timely_within_s", 1, 3600, "seconds").orElseThrow());
        } catch (YamlException e) {
            throw new IOException(where + ":" + e.line() + ": " + e.said(), e);
        }
    }

    /** What is added at a value: the last row that begins at or below it. */
    Map<Skill, Double> at(Band band, double value) {
        return Optional.ofNullable(bands.get(band))
                .map(rows -> rows.floorEntry(value))
                .map(Map.Entry::getValue)
                .orElse(Map.of());
    }

    private static NavigableMap<Double, Map<Skill, Double>> rows(YamlMembers file, String band) throws YamlException {
        file.required(band);
        List<String> known = new ArrayList<>(skills());
        known.add("from");
        NavigableMap<Double, Map<Skill, Double>> rows = new TreeMap<>();
        for (YamlNode each : file.list(band)) {
            YamlMembers row = new YamlMembers(each, "a row of " + band, known);
            row.required("from");
            double from = row.number("from").orElseThrow();
            if (!rows.isEmpty() && from <= rows.lastKey()) {
                throw each.fault("the rows of " + band + " are not in order: each begins higher than the one before");
            }
            rows.put(from, row(row));
        }
        return rows;
    }

    private static Map<Skill, Double> row(YamlMembers members) throws YamlException {
        Map<Skill, Double> row = new EnumMap<>(Skill.class);
        for (Skill skill : Skill.values()) {
            members.number(skill.name(), -MOST_LOGITS, MOST_LOGITS, "logits")
                    .ifPresent(logits -> row.put(skill, logits));
        }
        return Collections.unmodifiableMap(row);
    }

    private static List<String> skills() {
        return Arrays.stream(Skill.values()).map(Skill::name).toList();
    }

    private static String name(Enum<?> constant) {
        return constant.name().toLowerCase(Locale.ROOT);
    }
}
