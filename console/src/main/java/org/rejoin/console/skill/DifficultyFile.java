package org.rejoin.console.skill;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Stream;

import org.rejoin.protocol.yaml.YamlException;
import org.rejoin.protocol.yaml.YamlMembers;
import org.rejoin.protocol.yaml.YamlNode;
import org.rejoin.protocol.yaml.YamlText;

/**
 * The file of the difficulties.
 *
 * @param version of the weights
 * @param base logits of each shape by skill
 * @param bands by feature and from which value on, what is added
 * @param flags by name, what is added where it is so
 * @param timelyWithinS seconds that may be lost by whoever is in time
 */
record DifficultyFile(
        int version,
        Map<Shape, Map<Skill, Double>> base,
        Map<Band, NavigableMap<Double, Map<Skill, Double>>> bands,
        Map<Flag, Map<Skill, Double>> flags,
        double timelyWithinS) {

    /** A feature that is measured, by its name in the file. */
    enum Band {
        ANGLE_DEG,
        MINUTES,
        CROSSWIND_KT,
        TURN_AT_FIX_DEG,
        OUT_NM
    }

    /** A feature that is there or not. */
    enum Flag {
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

    /**
     * Reads it.
     *
     * @throws IOException if something is missing or not known; one line, with the line of the file
     */
    static DifficultyFile read(String where, String text) throws IOException {
        try {
            List<String> known = Stream.concat(
                            Stream.of("version", "base", "flags", "timely_within_s"),
                            Arrays.stream(Band.values()).map(DifficultyFile::name))
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
                    Arrays.stream(Flag.values()).map(DifficultyFile::name).toList());
            for (Flag flag : Flag.values()) {
                flags.put(flag, row(new YamlMembers(all.required(name(flag)), "a flag", skills())));
            }
            file.required("timely_within_s");
            return new DifficultyFile(
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
