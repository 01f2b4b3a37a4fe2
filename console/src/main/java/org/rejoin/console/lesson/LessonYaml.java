package org.rejoin.console.lesson;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Pattern;

import org.rejoin.protocol.yaml.YamlException;
import org.rejoin.protocol.yaml.YamlMembers;
import org.rejoin.protocol.yaml.YamlNode;
import org.rejoin.protocol.yaml.YamlText;

import org.jspecify.annotations.Nullable;

/** A lesson file as it is written: every member may be missing, none is checked. */
record LessonYaml(
        @Nullable String title,
        @Nullable String chart,
        @Nullable String filed,
        @Nullable String date,
        @Nullable String time_utc,
        @Nullable StartYaml start,
        @Nullable WindYaml wind,
        List<AmendmentYaml> amendments,
        @Nullable String standard,
        @Nullable RadioYaml radio,
        Lines lines) {

    static final List<String> KEYS =
            List.of("title", "chart", "filed", "date", "time_utc", "start", "wind", "amendments", "standard", "radio");
    static final List<String> START_KEYS = List.of("at", "altitude_ft", "heading_magnetic_deg", "speed_kt");
    static final List<String> WIND_KEYS = List.of("from_true_deg", "speed_kt");
    static final List<String> RADIO_KEYS = List.of("voice_over_noise_db", "seed");
    static final List<String> AMENDMENT_KEYS = List.of("when", "say", "altitude_ft");
    static final List<String> WHEN_KEYS = List.of("elapsed_s", "abeam");

    /** A member of a lesson at the start of a line: what has none is another kind of file. */
    private static final Pattern OF_A_LESSON = Pattern.compile("(?m)^[ {]*(?:title|chart|filed|amendments) *:");

    record StartYaml(
            @Nullable String at,
            @Nullable Double altitude_ft,
            @Nullable Double heading_magnetic_deg,
            @Nullable Double speed_kt) {}

    record WindYaml(
            @Nullable Double from_true_deg, @Nullable Double speed_kt) {}

    record RadioYaml(
            @Nullable Double voice_over_noise_db, @Nullable Double seed) {}

    record AmendmentYaml(
            @Nullable WhenYaml when,
            @Nullable String say,
            @Nullable Double altitude_ft) {}

    record WhenYaml(@Nullable Double elapsed_s, @Nullable String abeam) {}

    /**
     * Reads the text.
     *
     * @throws LessonException if it is not of this form; file and line come first
     */
    static LessonYaml read(String file, String text) throws LessonException {
        YamlNode root;
        try {
            root = YamlText.strictly(text, "a lesson has title, chart, filed and amendments");
        } catch (YamlException e) {
            throw e.isNotYaml() && !OF_A_LESSON.matcher(text).find()
                    ? new LessonException(
                            file
                                    + ": not YAML, so no lesson; one has title, chart, filed and amendments, each \"name:"
                                    + " value\" on a line of its own",
                            e)
                    : refused(file, "", e);
        }
        return new Reading(file).lesson(root);
    }

    private static LessonException refused(String file, String within, YamlException e) {
        return new LessonException(file + ":" + e.line() + ": " + within + e.said(), e);
    }

    static String firstLine(@Nullable String message) {
        return message == null ? "" : message.lines().findFirst().orElse("");
    }

    /** One reading, which knows what it is within. */
    private static final class Reading {
        private final String file;
        private String within = "";

        Reading(String file) {
            this.file = file;
        }

        LessonYaml lesson(YamlNode root) throws LessonException {
            try {
                YamlMembers members = new YamlMembers(root, "a lesson", KEYS);
                Optional<YamlNode> start = members.node("start");
                Optional<YamlNode> wind = members.node("wind");
                Optional<YamlNode> radio = members.node("radio");
                return new LessonYaml(
                        text(members, "title"),
                        text(members, "chart"),
                        text(members, "filed"),
                        text(members, "date"),
                        text(members, "time_utc"),
                        start.isEmpty() ? null : start(start.get()),
                        wind.isEmpty() ? null : wind(wind.get()),
                        amendments(members),
                        text(members, "standard"),
                        radio.isEmpty() ? null : radio(radio.get()),
                        new Lines(file, root));
            } catch (YamlException e) {
                throw refused(file, within, e);
            }
        }

        private StartYaml start(YamlNode node) throws YamlException {
            YamlMembers start = new YamlMembers(node, "start", START_KEYS);
            within = "start: ";
            StartYaml read = new StartYaml(
                    text(start, "at"),
                    number(start, "altitude_ft"),
                    number(start, "heading_magnetic_deg"),
                    number(start, "speed_kt"));
            within = "";
            return read;
        }

        private WindYaml wind(YamlNode node) throws YamlException {
            YamlMembers wind = new YamlMembers(node, "wind", WIND_KEYS);
            within = "wind: ";
            WindYaml read = new WindYaml(number(wind, "from_true_deg"), number(wind, "speed_kt"));
            within = "";
            return read;
        }

        private RadioYaml radio(YamlNode node) throws YamlException {
            YamlMembers radio = new YamlMembers(node, "radio", RADIO_KEYS);
            within = "radio: ";
            RadioYaml read = new RadioYaml(number(radio, "voice_over_noise_db"), number(radio, "seed"));
            within = "";
            return read;
        }

        private List<AmendmentYaml> amendments(YamlMembers members) throws YamlException {
            List<AmendmentYaml> amendments = new ArrayList<>();
            for (YamlNode item : members.list("amendments")) {
                within = "amendment " + (amendments.size() + 1) + ": ";
                YamlMembers each = new YamlMembers(item, "an amendment", AMENDMENT_KEYS);
                Optional<YamlNode> when = each.node("when");
                amendments.add(new AmendmentYaml(
                        when.isEmpty() ? null : when(when.get()), text(each, "say"), number(each, "altitude_ft")));
            }
            within = "";
            return amendments;
        }

        private static WhenYaml when(YamlNode node) throws YamlException {
            YamlMembers when = new YamlMembers(node, "when", WHEN_KEYS);
            return new WhenYaml(number(when, "elapsed_s"), text(when, "abeam"));
        }

        private static @Nullable String text(YamlMembers members, String name) throws YamlException {
            return members.text(name).orElse(null);
        }

        private static @Nullable Double number(YamlMembers members, String name) throws YamlException {
            OptionalDouble number = members.number(name);
            return number.isPresent() ? number.getAsDouble() : null;
        }
    }

    /** Where in a lesson file its members stand. */
    static final class Lines {

        private final String file;
        private final Map<String, Integer> lines = new HashMap<>();

        Lines(String file, YamlNode root) {
            this.file = file;
            add("", root);
        }

        private void add(String path, YamlNode node) {
            lines.putIfAbsent(path, node.line());
            if (node instanceof YamlNode.Mapping mapping) {
                mapping.members().forEach((key, member) -> {
                    lines.putIfAbsent(path + "/" + key, member.line());
                    add(path + "/" + key, member.value());
                });
            } else if (node instanceof YamlNode.Sequence sequence) {
                List<YamlNode> items = sequence.items();
                for (int i = 0; i < items.size(); i++) {
                    add(path + "/" + i, items.get(i));
                }
            }
        }

        /** File and line of a member, as "amendments/0/say"; of what it belongs to where it is missing. */
        String at(String member) {
            String path = "/" + member;
            while (!lines.containsKey(path) && path.lastIndexOf('/') > 0) {
                path = path.substring(0, path.lastIndexOf('/'));
            }
            return file + ":" + lines.getOrDefault(path, 1);
        }
    }
}
