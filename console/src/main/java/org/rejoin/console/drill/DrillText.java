package org.rejoin.console.drill;

import java.util.Map;
import java.util.OptionalDouble;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Position;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.skill.Difficulty;
import org.rejoin.console.skill.Features;
import org.rejoin.console.skill.Line;
import org.rejoin.console.skill.Skill;
import org.rejoin.console.words.Words;
import org.rejoin.protocol.yaml.YamlMembers;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;

/** A drill as a lesson file, and as JSON. The same drill gives the same bytes. */
public final class DrillText {

    private DrillText() {}

    /**
     * The lesson file of a drill, YAML; with the path of the chart relative to it, and the SHA-256 of the chart file,
     * hexadecimal.
     */
    public static String lesson(Drill drill, String chartPath, String sha256) {
        return Words.say(
                """
                # Drawn by Rejoin. For simulation and training only. Not for navigation.
                # seed %d, drills version %d, difficulty version %d, chart sha256 %s
                # %s
                title: %s
                chart: %s
                filed: %s
                date: %s
                start: {at: "%s", altitude_ft: %s, heading_magnetic_deg: %s, speed_kt: %s}
                wind: {from_true_deg: %s, speed_kt: %s}
                amendments:
                  - {when: {elapsed_s: %s}, say: %s, altitude_ft: %s}
                standard: %s
                """,
                drill.seed(),
                Drill.VERSION,
                Difficulty.BUILT_IN.version(),
                sha256,
                features(drill.features()),
                quoted(drill.title()),
                quoted(chartPath),
                quoted(drill.filed().text()),
                drill.date(),
                place(drill.start().position()),
                YamlMembers.plain(drill.start().altitudeFt()),
                YamlMembers.plain(drill.start().heading().deg()),
                YamlMembers.plain(drill.start().speedKt()),
                YamlMembers.plain(drill.wind().from().deg()),
                YamlMembers.plain(drill.wind().speedKt()),
                YamlMembers.plain(drill.heardS()),
                quoted(drill.say()),
                YamlMembers.plain(drill.altitudeFt()),
                Drill.STANDARD);
    }

    /**
     * The drill as one JSON object: say, filed, start, wind, heard, features, difficulty, and what it was drawn from.
     */
    public static ObjectNode json(Drill drill) {
        ObjectNode object = JsonNodeFactory.instance.objectNode();
        object.put("say", drill.say());
        object.put("filed", drill.filed().text());
        ObjectNode start = object.putObject("start");
        start.put("at", place(drill.start().position()));
        start.put("latitude_deg", drill.start().position().latitudeDeg());
        start.put("longitude_deg", drill.start().position().longitudeDeg());
        start.put("altitude_ft", drill.start().altitudeFt());
        start.put("heading_magnetic_deg", drill.start().heading().deg());
        start.put("speed_kt", drill.start().speedKt());
        ObjectNode heard = object.putObject("heard");
        heard.put("elapsed_s", drill.heardS());
        JsonNumbers.put(heard, "latitude_deg", drill.heard().latitudeDeg(), 6);
        JsonNumbers.put(heard, "longitude_deg", drill.heard().longitudeDeg(), 6);
        ObjectNode wind = object.putObject("wind");
        wind.put("from_true_deg", drill.wind().from().deg());
        wind.put("speed_kt", drill.wind().speedKt());
        object.put("date", drill.date().toString());
        object.set("features", featuresJson(drill.features()));
        object.set("line", lineJson(drill.line()));
        object.set("difficulty", difficulty(drill.difficulty()));
        object.put("difficulty_version", Difficulty.BUILT_IN.version());
        object.put("seed", drill.seed());
        object.put("version", Drill.VERSION);
        return object;
    }

    /** Features as JSON; what is not known is null. */
    public static ObjectNode featuresJson(Features features) {
        ObjectNode object = JsonNodeFactory.instance.objectNode();
        object.put("shape", features.shape().option());
        JsonNumbers.put(object, "angle_deg", features.angleDeg(), 1);
        JsonNumbers.put(object, "minutes", features.minutes(), 2);
        JsonNumbers.put(object, "crosswind_kt", features.crosswindKt(), 1);
        JsonNumbers.put(object, "tailwind_kt", features.tailwindKt(), 1);
        turn(object, "turn_at_fix", features.turnAtFixDeg());
        object.put("turn", Words.side(features.turnOntoCourseDeg() > 0));
        JsonNumbers.put(object, "first_turn_deg", features.firstTurnDeg(), 0);
        features.direction().ifPresentOrElse(it -> object.put("direction", it), () -> object.putNull("direction"));
        object.put("reciprocal_trap", features.reciprocalTrap());
        object.put("ndb", features.ndb());
        object.put("look_alike", features.lookAlike());
        object.put("extras", features.extras());
        features.entry().ifPresent(entry -> object.put("entry", entry.word()));
        return object;
    }

    static ObjectNode lineJson(Line line) {
        ObjectNode object = JsonNodeFactory.instance.objectNode();
        line.radialDeg().ifPresent(deg -> JsonNumbers.put(object, "radial_deg", deg, 0));
        line.headingDeg().ifPresent(deg -> JsonNumbers.put(object, "heading_deg", deg, 0));
        object.put("airway", line.airway());
        return object;
    }

    static Line line(JsonNode json) {
        return new Line(
                number(json.path("radial_deg")),
                number(json.path("heading_deg")),
                json.path("airway").asText(""));
    }

    static OptionalDouble number(JsonNode node) {
        return node.isNumber() ? OptionalDouble.of(node.asDouble()) : OptionalDouble.empty();
    }

    private static void turn(ObjectNode object, String name, OptionalDouble deg) {
        if (deg.isPresent()) {
            JsonNumbers.put(object, name + "_deg", Math.abs(deg.getAsDouble()), 1);
            object.put(name, Words.side(deg.getAsDouble() > 0));
        } else {
            object.putNull(name + "_deg");
            object.putNull(name);
        }
    }

    static ObjectNode difficulty(Map<Skill, Double> logits) {
        ObjectNode object = JsonNodeFactory.instance.objectNode();
        logits.forEach((skill, logit) -> JsonNumbers.put(object, skill.name(), logit, 2));
        return object;
    }

    /** Features in words, one line. */
    public static String features(Features features) {
        String words = Words.say(
                "shape %s, closes at %s in %.1f minutes, crosswind %.0f kt",
                features.shape().option(),
                Angles.degrees(features.angleDeg()),
                features.minutes(),
                features.crosswindKt());
        if (features.entry().isPresent()) {
            return words + ", then a " + features.entry().get().word() + " entry";
        }
        if (features.turnAtFixDeg().isEmpty()) {
            return words;
        }
        double turn = features.turnAtFixDeg().getAsDouble();
        return words + ", then " + Angles.degrees(Math.abs(turn)) + " " + Words.side(turn > 0);
    }

    static String place(Position position) {
        return Words.say("%.5f,%.5f", position.latitudeDeg(), position.longitudeDeg());
    }

    private static String quoted(String text) {
        return '"' + text.replace("\\", "\\\\").replace("\"", "\\\"") + '"';
    }
}
