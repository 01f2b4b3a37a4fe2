package org.rejoin.console.grade;

import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;

import org.rejoin.bridge.flight.Limits;
import org.rejoin.protocol.yaml.YamlException;
import org.rejoin.protocol.yaml.YamlMembers;
import org.rejoin.protocol.yaml.YamlNode;
import org.rejoin.protocol.yaml.YamlText;

/** The file of a tolerance set. */
final class ToleranceFile {

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

    private ToleranceFile() {}

    /**
     * Reads a set.
     *
     * @param where file or name, for messages
     * @throws IOException if it is not valid; one line, with the line of the file
     */
    static ToleranceSet read(String where, byte[] octets) throws IOException {
        try {
            return set(new YamlMembers(
                    YamlText.strictly(YamlText.decoded(octets), "a tolerance set begins with a name and a title"),
                    "a tolerance set",
                    KEYS));
        } catch (YamlException e) {
            throw new IOException(where + ":" + e.line() + ": " + e.said(), e);
        }
    }

    private static ToleranceSet set(YamlMembers file) throws YamlException {
        String name = word(file, "name");
        String title = word(file, "title");
        if (file.node("full_scale_nm").isEmpty() && file.node("full_scale_deg").isEmpty()) {
            throw file.fault("a tolerance set needs full_scale_nm, full_scale_deg or both");
        }
        return new ToleranceSet(
                name,
                title,
                file.text("task").orElse("of your own: " + title),
                new Limits(
                        limit(file, "full_scale_nm", 100).orElse(Double.POSITIVE_INFINITY),
                        limit(file, "full_scale_deg", 45).orElse(Double.POSITIVE_INFINITY),
                        needed(file, "heading_deg", 90),
                        needed(file, "altitude_ft", 10_000),
                        needed(file, "course_scale", 1)),
                needed(file, "overshoot_nm", 100),
                needed(file, "fix_lateral_nm", 100),
                limit(file, "speed_kt", 100).orElse(USUAL_SPEED_KT),
                sources(file));
    }

    private static String word(YamlMembers file, String name) throws YamlException {
        file.required(name);
        return file.text(name).orElseThrow();
    }

    private static Map<String, String> sources(YamlMembers file) throws YamlException {
        Optional<YamlNode> found = file.node("sources");
        Map<String, String> sources = new TreeMap<>();
        if (found.isPresent()) {
            YamlMembers each = new YamlMembers(found.get(), "sources");
            for (String limit : each.names()) {
                sources.put(limit, word(each, limit));
            }
        }
        return sources;
    }

    private static double needed(YamlMembers file, String key, double most) throws YamlException {
        file.required(key);
        return limit(file, key, most).orElseThrow();
    }

    private static OptionalDouble limit(YamlMembers file, String key, double most) throws YamlException {
        OptionalDouble value = file.number(key, 0, most, "of its unit");
        if (value.isPresent() && value.getAsDouble() == 0) {
            throw file.required(key).fault(key + " is 0, must be above 0 and at most " + Math.round(most));
        }
        return value;
    }
}
