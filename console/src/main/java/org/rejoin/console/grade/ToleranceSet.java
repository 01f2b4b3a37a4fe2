package org.rejoin.console.grade;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

import org.rejoin.bridge.flight.Limits;

/**
 * A tolerance set: what a flight is graded against, each limit with its source.
 *
 * @param task of the published standard that it grades
 * @param overshootNm past the line before it is a fault, nautical miles, above 0
 * @param fixLateralNm from the fix at sequencing, nautical miles, above 0
 * @param speedKt off an assigned indicated airspeed, knots, above 0
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

    private static final long MOST_OCTETS = 1 << 20;

    private static final List<String> BUILT_IN = List.of("instrument-rating", "gps", "vor", "strict");

    /** Sorts the sources, so that they are always shown in one order. */
    public ToleranceSet {
        sources = Collections.unmodifiableMap(new TreeMap<>(sources));
    }

    /** Where a limit comes from: document and paragraph, or "common practice, no source". */
    public String source(String limit) {
        return sources.getOrDefault(limit, "common practice, no source");
    }

    /** Whether a name is that of a built-in set. */
    public static boolean isBuiltIn(String name) {
        return BUILT_IN.contains(name);
    }

    /**
     * Finds a set: a built-in one by name, or a file.
     *
     * @param nameOrFile for example "instrument-rating"
     * @throws IOException if there is none or it is not valid; one line
     */
    public static ToleranceSet read(String nameOrFile) throws IOException {
        if (BUILT_IN.contains(nameOrFile)) {
            try (InputStream in = Optional.ofNullable(ToleranceSet.class.getResourceAsStream(nameOrFile + ".yaml"))
                    .orElseThrow(() -> new IOException(nameOrFile + ".yaml is missing from the program"))) {
                return ToleranceFile.read(nameOrFile, in.readAllBytes());
            }
        }
        Path file = Path.of(nameOrFile);
        if (!Files.isRegularFile(file)) {
            throw new IOException("no tolerance set \"" + nameOrFile + "\": neither a file nor one of " + BUILT_IN);
        }
        if (Files.size(file) > MOST_OCTETS) {
            throw new IOException(nameOrFile + " has " + Files.size(file) + " octets: that is no tolerance set");
        }
        return ToleranceFile.read(nameOrFile, Files.readAllBytes(file));
    }
}
