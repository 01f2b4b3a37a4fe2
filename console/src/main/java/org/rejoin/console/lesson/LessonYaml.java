package org.rejoin.console.lesson;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.regex.Pattern;

import org.rejoin.protocol.yaml.YamlException;
import org.rejoin.protocol.yaml.YamlMembers;
import org.rejoin.protocol.yaml.YamlNode;
import org.rejoin.protocol.yaml.YamlText;

import org.jspecify.annotations.Nullable;

/**
 * A lesson file as it is written: every member may be missing, none is checked. A member is asked for by its path, as
 * "start/altitude_ft" or "amendments/0/say".
 */
final class LessonYaml {

    private static final List<String> KEYS =
            List.of("title", "chart", "filed", "date", "time_utc", "start", "wind", "amendments", "standard", "radio");
    private static final List<String> START_KEYS = List.of("at", "altitude_ft", "heading_magnetic_deg", "speed_kt");
    private static final List<String> WIND_KEYS = List.of("from_true_deg", "speed_kt");
    private static final List<String> RADIO_KEYS = List.of("voice_over_noise_db", "seed");
    private static final List<String> AMENDMENT_KEYS = List.of("when", "say", "altitude_ft");
    private static final List<String> WHEN_KEYS = List.of("elapsed_s", "abeam");

    /** Those of all keys whose values are texts; what is no text and no part is a number. */
    private static final Set<String> TEXTS =
            Set.of("title", "chart", "filed", "date", "time_utc", "standard", "at", "say", "abeam");

    /** A member of a lesson at the start of a line: what has none is another kind of file. */
    private static final Pattern OF_A_LESSON = Pattern.compile("(?m)^[ {]*(?:title|chart|filed|amendments) *:");

    private final String file;
    private final Set<String> parts = new HashSet<>();
    private final Map<String, String> texts = new HashMap<>();
    private final Map<String, Double> numbers = new HashMap<>();
    private final Map<String, Integer> lines = new HashMap<>();
    private int amendments;

    /** What is being read, as messages begin. */
    private String within = "";

    private LessonYaml(String file) {
        this.file = file;
    }

    /**
     * Reads the text.
     *
     * @throws LessonException if it is not of this form; file and line come first
     */
    static LessonYaml read(String file, String text) throws LessonException {
        YamlNode root;
        LessonYaml yaml = new LessonYaml(file);
        try {
            root = YamlText.strictly(text, "a lesson has title, chart, filed and amendments");
        } catch (YamlException e) {
            throw e.isNotYaml() && !OF_A_LESSON.matcher(text).find()
                    ? new LessonException(
                            file
                                    + ": not YAML, so no lesson; one has title, chart, filed and amendments, each \"name:"
                                    + " value\" on a line of its own",
                            e)
                    : yaml.refused(e);
        }
        try {
            yaml.readLesson(root);
        } catch (YamlException e) {
            throw yaml.refused(e);
        }
        yaml.addLines("", root);
        return yaml;
    }

    static String firstLine(@Nullable String message) {
        return message == null ? "" : message.lines().findFirst().orElse("");
    }

    /** Whether a part with members of its own is there. */
    boolean has(String part) {
        return parts.contains(part);
    }

    Optional<String> text(String path) {
        return Optional.ofNullable(texts.get(path));
    }

    OptionalDouble number(String path) {
        Double number = numbers.get(path);
        return number == null ? OptionalDouble.empty() : OptionalDouble.of(number);
    }

    /** {@return how many amendments there are} */
    int amendments() {
        return amendments;
    }

    /** File and line of a member; of what it belongs to where it is missing. */
    String at(String member) {
        String path = "/" + member;
        while (!lines.containsKey(path) && path.lastIndexOf('/') > 0) {
            path = path.substring(0, path.lastIndexOf('/'));
        }
        return file + ":" + lines.getOrDefault(path, 1);
    }

    private LessonException refused(YamlException e) {
        return new LessonException(file + ":" + e.line() + ": " + within + e.said(), e);
    }

    private void readLesson(YamlNode root) throws YamlException {
        YamlMembers members = new YamlMembers(root, "a lesson", KEYS);
        readValues(members, "", List.of("title", "chart", "filed", "date", "time_utc"));
        readPart(members, "start", START_KEYS);
        readPart(members, "wind", WIND_KEYS);
        for (YamlNode item : members.list("amendments")) {
            String path = "amendments/" + amendments++ + "/";
            within = "amendment " + amendments + ": ";
            YamlMembers each = new YamlMembers(item, "an amendment", AMENDMENT_KEYS);
            Optional<YamlNode> when = each.node("when");
            if (when.isPresent()) {
                readValues(new YamlMembers(when.get(), "when", WHEN_KEYS), path + "when/", WHEN_KEYS);
            }
            readValues(each, path, List.of("say", "altitude_ft"));
        }
        within = "";
        readValues(members, "", List.of("standard"));
        readPart(members, "radio", RADIO_KEYS);
    }

    private void readPart(YamlMembers members, String name, List<String> keys) throws YamlException {
        Optional<YamlNode> node = members.node(name);
        if (node.isPresent()) {
            parts.add(name);
            YamlMembers part = new YamlMembers(node.get(), name, keys);
            within = name + ": ";
            readValues(part, name + "/", keys);
            within = "";
        }
    }

    private void readValues(YamlMembers members, String path, List<String> keys) throws YamlException {
        for (String key : keys) {
            if (TEXTS.contains(key)) {
                members.text(key).ifPresent(text -> texts.put(path + key, text));
            } else {
                members.number(key).ifPresent(number -> numbers.put(path + key, number));
            }
        }
    }

    private void addLines(String path, YamlNode node) {
        lines.putIfAbsent(path, node.line());
        if (node instanceof YamlNode.Mapping mapping) {
            mapping.members().forEach((key, member) -> {
                lines.putIfAbsent(path + "/" + key, member.line());
                addLines(path + "/" + key, member.value());
            });
        } else if (node instanceof YamlNode.Sequence sequence) {
            List<YamlNode> items = sequence.items();
            for (int i = 0; i < items.size(); i++) {
                addLines(path + "/" + i, items.get(i));
            }
        }
    }
}
