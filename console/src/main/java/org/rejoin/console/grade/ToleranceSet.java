package org.rejoin.console.grade;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

import org.rejoin.bridge.flight.Limits;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.exc.MismatchedInputException;
import com.fasterxml.jackson.databind.exc.UnrecognizedPropertyException;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import org.jspecify.annotations.Nullable;

/**
 * A tolerance set: what a flight is graded against, each limit with its source.
 *
 * @param name as a lesson names it
 * @param title for people
 * @param task of the published standard that it grades
 * @param limits for the tracker
 * @param overshootNm past the line before it is a fault, nautical miles, above 0
 * @param fixLateralNm from the fix at sequencing, nautical miles, above 0
 * @param speedKt off an assigned indicated airspeed, knots, above 0
 * @param sources by limit
 */
public record ToleranceSet(
        String name,
        String title,
        String task,
        Limits limits,
        double overshootNm,
        double fixLateralNm,
        double speedKt,
        Map<String, String> sources) {

    private static final ObjectMapper YAML = YAMLMapper.builder()
            .enable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
            .build();

    private static final List<String> KEYS = List.of(
            "name",
            "title",
            "task",
            "full_scale_nm",
            "full_scale_deg",
            "course_scale",
            "heading_deg",
            "altitude_ft",
            "overshoot_nm",
            "fix_lateral_nm",
            "speed_kt",
            "sources");

    /** A set that says nothing of speed, knots: the tolerance of the instrument rating. */
    private static final double USUAL_SPEED_KT = 10;

    private static final long MOST_OCTETS = 1 << 20;

    private static final List<String> BUILT_IN = List.of("instrument-rating", "gps", "vor", "strict");

    /** Sorts the sources, so that they are always shown in one order. */
    public ToleranceSet {
        sources = Collections.unmodifiableMap(new TreeMap<>(sources));
    }

    private record SetYaml(
            @Nullable String name,
            @Nullable String title,
            @Nullable String task,
            @Nullable Double full_scale_nm,
            @Nullable Double full_scale_deg,
            @Nullable Double course_scale,
            @Nullable Double heading_deg,
            @Nullable Double altitude_ft,
            @Nullable Double overshoot_nm,
            @Nullable Double fix_lateral_nm,
            @Nullable Double speed_kt,
            @Nullable Map<String, String> sources) {}

    /**
     * Where a limit comes from.
     *
     * @param limit its key
     * @return document and paragraph, or "common practice, no source"
     */
    public String source(String limit) {
        return sources.getOrDefault(limit, "common practice, no source");
    }

    /**
     * Past this on the far side an overshoot is a fault: the set's own limit, or three quarters of the scale if less.
     *
     * @return nautical miles
     */
    public double overshootLimitNm() {
        return Math.min(overshootNm, 0.75 * limits.fullScaleAtNm(Double.POSITIVE_INFINITY));
    }

    /**
     * Whether a name is that of a built-in set.
     *
     * @param name as a lesson names it
     * @return false for a file
     */
    public static boolean isBuiltIn(String name) {
        return BUILT_IN.contains(name);
    }

    /**
     * Finds a set: a built-in one by name, or a file.
     *
     * @param nameOrFile for example "instrument-rating"
     * @return the set
     * @throws IOException if there is none or it is not valid; one line
     */
    public static ToleranceSet read(String nameOrFile) throws IOException {
        if (BUILT_IN.contains(nameOrFile)) {
            try (InputStream in = Optional.ofNullable(ToleranceSet.class.getResourceAsStream(nameOrFile + ".yaml"))
                    .orElseThrow(() -> new IOException(nameOrFile + ".yaml is missing from the program"))) {
                return parse(nameOrFile, in.readAllBytes());
            }
        }
        Path file = Path.of(nameOrFile);
        if (!Files.isRegularFile(file)) {
            throw new IOException("no tolerance set \"" + nameOrFile + "\": neither a file nor one of " + BUILT_IN);
        }
        if (Files.size(file) > MOST_OCTETS) {
            throw new IOException(nameOrFile + " has " + Files.size(file) + " octets: that is no tolerance set");
        }
        return parse(nameOrFile, Files.readAllBytes(file));
    }

    private static ToleranceSet parse(String where, byte[] octets) throws IOException {
        SetYaml yaml;
        try {
            yaml = YAML.readValue(octets, SetYaml.class);
        } catch (UnrecognizedPropertyException e) {
            throw new IOException(
                    where + ": \"" + e.getPropertyName() + "\" is no limit of a tolerance set; there are " + KEYS, e);
        } catch (MismatchedInputException e) { // its own words are about classes
            String key = e.getPath().isEmpty() ? "" : e.getPath().get(0).getFieldName();
            throw new IOException(
                    where + ", line " + e.getLocation().getLineNr() + ": "
                            + (key == null || key.isEmpty()
                                    ? "not a tolerance set, which has lines as \"heading_deg: 10\""
                                    : "\"" + key + "\" is not what it should be, as \"heading_deg: 10\" is"),
                    e);
        } catch (JsonProcessingException e) {
            String at =
                    e.getLocation() == null ? "" : ", line " + e.getLocation().getLineNr();
            throw new IOException(
                    where + at + ": "
                            + e.getOriginalMessage()
                                    .replaceFirst("^(\\w+\\.)+\\w+Exception: ", "")
                                    .lines()
                                    .findFirst()
                                    .orElse("not valid"),
                    e);
        }
        if (yaml == null || yaml.name() == null || yaml.title() == null) {
            throw new IOException(where + ": a tolerance set begins with a name and a title");
        }
        if (yaml.full_scale_nm() == null && yaml.full_scale_deg() == null) {
            throw new IOException(where + ": needs full_scale_nm, full_scale_deg or both");
        }
        return new ToleranceSet(
                yaml.name(),
                yaml.title(),
                yaml.task() == null ? "of your own: " + yaml.title() : yaml.task(),
                new Limits(
                        scale(where, "full_scale_nm", yaml.full_scale_nm(), 100),
                        scale(where, "full_scale_deg", yaml.full_scale_deg(), 45),
                        limit(where, "heading_deg", yaml.heading_deg(), 90),
                        limit(where, "altitude_ft", yaml.altitude_ft(), 10_000),
                        limit(where, "course_scale", yaml.course_scale(), 1)),
                limit(where, "overshoot_nm", yaml.overshoot_nm(), 100),
                limit(where, "fix_lateral_nm", yaml.fix_lateral_nm(), 100),
                yaml.speed_kt() == null ? USUAL_SPEED_KT : limit(where, "speed_kt", yaml.speed_kt(), 100),
                yaml.sources() == null ? Map.of() : yaml.sources());
    }

    private static double scale(String where, String key, @Nullable Double value, double most) throws IOException {
        return value == null ? Double.POSITIVE_INFINITY : limit(where, key, value, most);
    }

    private static double limit(String where, String key, @Nullable Double value, double most) throws IOException {
        if (value == null || !(value > 0 && value <= most)) {
            throw new IOException(String.format(
                            Locale.ROOT, "%s: %s is %s, must be above 0 and at most %.0f", where, key, value, most)
                    .replace("is null", "is missing"));
        }
        return value;
    }
}
