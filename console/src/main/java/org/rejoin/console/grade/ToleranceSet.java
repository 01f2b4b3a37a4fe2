package org.rejoin.console.grade;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

import org.rejoin.bridge.tracker.Limits;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import org.jspecify.annotations.Nullable;

/**
 * A tolerance set: what a flight is graded against, each limit with its source.
 *
 * @param name as a lesson names it
 * @param title for people
 * @param limits for the tracker
 * @param overshootNm past the line before it is a fault, nautical miles, above 0
 * @param fixLateralNm from the fix at sequencing, nautical miles, above 0
 * @param sources by limit
 */
public record ToleranceSet(
        String name,
        String title,
        Limits limits,
        double overshootNm,
        double fixLateralNm,
        Map<String, String> sources) {

    private static final ObjectMapper YAML = YAMLMapper.builder()
            .enable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
            .build();

    private static final List<String> BUILT_IN = List.of("instrument-rating", "gps", "vor", "strict");

    /** Sorts the sources, so that they are always shown in one order. */
    public ToleranceSet {
        sources = java.util.Collections.unmodifiableMap(new TreeMap<>(sources));
    }

    private record SetYaml(
            String name,
            String title,
            @Nullable Double full_scale_nm,
            @Nullable Double full_scale_deg,
            double course_scale,
            double heading_deg,
            double altitude_ft,
            double overshoot_nm,
            double fix_lateral_nm,
            Map<String, String> sources) {}

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
        return parse(nameOrFile, Files.readAllBytes(file));
    }

    private static ToleranceSet parse(String where, byte[] octets) throws IOException {
        try {
            SetYaml yaml = YAML.readValue(octets, SetYaml.class);
            double nm = yaml.full_scale_nm() == null ? Double.POSITIVE_INFINITY : yaml.full_scale_nm();
            double deg = yaml.full_scale_deg() == null ? Double.POSITIVE_INFINITY : yaml.full_scale_deg();
            for (double each : new double[] {
                nm,
                deg,
                yaml.course_scale(),
                yaml.heading_deg(),
                yaml.altitude_ft(),
                yaml.overshoot_nm(),
                yaml.fix_lateral_nm()
            }) {
                if (!(each > 0)) {
                    throw new IOException(where + ": a limit is " + each + ", every limit must be above 0");
                }
            }
            return new ToleranceSet(
                    yaml.name(),
                    yaml.title(),
                    new Limits(nm, deg, yaml.heading_deg(), yaml.altitude_ft(), yaml.course_scale()),
                    yaml.overshoot_nm(),
                    yaml.fix_lateral_nm(),
                    yaml.sources() == null ? Map.of() : yaml.sources());
        } catch (JsonProcessingException e) {
            throw new IOException(
                    where + ": " + e.getOriginalMessage().lines().findFirst().orElse("not valid"), e);
        }
    }
}
