package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.NavigableSet;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;

import org.rejoin.bridge.chart.io.ChartReader;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.protocol.profile.NumberType;
import org.rejoin.protocol.profile.Profile;
import org.rejoin.protocol.profile.Quantity;
import org.rejoin.protocol.profile.Unit;
import org.rejoin.protocol.yaml.YamlException;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import com.networknt.schema.JsonSchema;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import com.networknt.schema.ValidationMessage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What an editor is told of our files (JSON Schema, draft 2020-12) is what their readers take. */
class SchemasTest {

    private static final ObjectMapper JSON = new ObjectMapper();
    private static final YAMLMapper YAML = new YAMLMapper();

    private static final String TOLERANCES = """
            name: ours
            title: Ours
            full_scale_nm: 2
            course_scale: 0.75
            heading_deg: 10
            altitude_ft: 100
            overshoot_nm: 0.5
            fix_lateral_nm: 1
            speed_kt: 10
            sources: {heading_deg: ours}
            """;

    private static final String PROFILE = """
            profile: 1
            name: ours
            max_hz: 20
            ask: {text: state, every_s: 1}
            binary: {byte_order: little, magic: 41 42, length: 24}
            values:
              - {is: latitude, at: 4, type: f64, unit: deg}
              - {is: longitude, at: 12, type: f64, unit: deg}
              - {is: paused, at: 20, type: u8, bit: 1}
            """;

    @TempDir
    Path folder = Path.of("");

    private static JsonNode schema(String name) throws IOException {
        try (InputStream in =
                SchemasTest.class.getResourceAsStream("/org/rejoin/console/schema/" + name + ".schema.json")) {
            return JSON.readTree(in);
        }
    }

    private static Set<ValidationMessage> wrong(String name, String yaml) throws IOException {
        JsonSchema schema =
                JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012).getSchema(schema(name));
        return schema.validate(YAML.readTree(yaml));
    }

    /** Whether the reader of that kind of file takes it without a word. */
    private boolean isRead(String name, String yaml) throws IOException {
        Path file = Files.writeString(folder.resolve(name + ".yaml"), yaml);
        try {
            switch (name) {
                case "lesson" -> {
                    Files.writeString(folder.resolve("my-chart.yaml"), LessonCommand.Template.CHART.text());
                    LessonReader.readFile(file);
                }
                case "chart" -> {
                    return ChartReader.read(file).problems().isEmpty();
                }
                case "profile" -> Profile.parse(yaml);
                default -> ToleranceSet.read(file.toString());
            }
            return true;
        } catch (IOException | LessonException | YamlException e) {
            return false;
        }
    }

    private static String example(String name) throws IOException {
        String commented = switch (name) {
            case "lesson" -> LessonCommand.Template.LESSON.text();
            case "chart" -> LessonCommand.Template.CHART.text();
            case "profile" -> PROFILE;
            default -> TOLERANCES;
        };
        return commented.replaceAll("(?m)^#.*\n", "");
    }

    @ParameterizedTest
    @ValueSource(strings = {"lesson", "chart", "profile", "tolerance-set"})
    void whatIsSoundIsSoundToBoth(String name) throws IOException {
        assertThat(wrong(name, example(name))).isEmpty();
        assertThat(isRead(name, example(name))).isTrue();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "lesson | filed: | flied:",
                "lesson | altitude_ft: 5000, | altitude_ft: high,",
                "lesson | altitude_ft: 5000, | altitude_ft: 70000,",
                "lesson | heading_magnetic_deg: 100, | ''",
                "lesson | speed_kt: 120 | speed_kt: 20",
                "lesson | from_true_deg: 270, | from_true_deg: 361,",
                "lesson | {elapsed_s: 30} | {}",
                "lesson | {elapsed_s: 30} | {elapsed_s: 30, abeam: AAA}",
                "lesson | date: 2026-06-01 | date: 1 June",
                "chart | kind: NDB | kind: RADAR",
                "chart | class: H | class: X",
                "chart | latitude_deg: 38.0 | latitude_deg: 91",
                "chart | longitude_deg: -50.0 | longitude_deg: west",
                "chart | elevation_ft: 20 | elevation: 20",
                "chart | points: [AAA, DUNLI, BBB] | points: [AAA]",
                "chart | direction: both | direction: north",
                "chart | ident: DUNLI | ident: DUN LI",
                "chart | stations: | station:",
                "profile | unit: deg | unit: degs",
                "profile | is: latitude | is: lat",
                "profile | type: f64 | type: f16",
                "profile | byte_order: little | byte_order: middle",
                "profile | magic: 41 42 | magic: 4G",
                "profile | max_hz: 20 | max_hz: 0",
                "profile | profile: 1 | profile: 2",
                "profile | text: state | octets: 4G",
                "profile | text: state, | ''",
                "profile | every_s: 1 | every_s: 0",
                "tolerance-set | name: ours | ''",
                "tolerance-set | full_scale_nm: 2 | ''",
                "tolerance-set | heading_deg: 10 | heading_deg: 0",
                "tolerance-set | heading_deg: 10 | heading_deg: 91",
                "tolerance-set | altitude_ft: 100 | altitude: 100",
            })
    void whatIsWrongIsWrongToBoth(String name, String part, String instead) throws IOException {
        String changed = example(name).replaceFirst(Pattern.quote(part), instead);
        assertThat(changed).isNotEqualTo(example(name));
        assertThat(isRead(name, changed)).as("reader: " + changed).isFalse();
        assertThat(wrong(name, changed)).as("schema: " + changed).isNotEmpty();
    }

    /** A reader that knows a key names it when another is written; the schema has the same. */
    @Test
    void bothKnowTheSameKeys() throws IOException {
        assertThat(keys("lesson", "")).containsExactlyElementsOf(named("lesson", "zzzzzzzz: 1\n"));
        assertThat(keys("tolerance-set", "")).containsExactlyElementsOf(named("tolerance-set", "zzzzzzzz: 1\n"));
        assertThat(keys("profile", "")).containsExactlyElementsOf(named("profile", "zzzzzzzz: 1\n"));
        assertThat(keys("chart", "")).containsExactlyElementsOf(named("chart", "zzzzzzzz: 1\nfixes: []\n"));
        for (String list : List.of("stations", "fixes", "airports", "airways")) {
            assertThat(keys("chart", "/properties/" + list + "/items"))
                    .containsExactlyElementsOf(named("chart", list + ":\n  - {ident: AAA, zzzzzzzz: 1}\n"));
        }
    }

    @Test
    void quantitiesUnitsAndTypesAreAllThere() throws IOException {
        JsonNode value = schema("profile").at("/properties/values/items/properties");
        assertThat(value.at("/is/enum")).hasSize(Quantity.values().length);
        assertThat(value.at("/unit/enum")).hasSize(Unit.values().length);
        assertThat(value.at("/type/enum")).hasSize(NumberType.values().length);
        value.at("/is/enum")
                .forEach(name -> assertThat(Quantity.named(name.asText())).isPresent());
        value.at("/unit/enum")
                .forEach(name -> assertThat(Unit.named(name.asText())).isPresent());
        value.at("/type/enum")
                .forEach(name -> assertThat(NumberType.named(name.asText())).isPresent());
    }

    private static NavigableSet<String> keys(String name, String at) throws IOException {
        NavigableSet<String> keys = new TreeSet<>();
        schema(name).at(at + "/properties").fieldNames().forEachRemaining(keys::add);
        return keys;
    }

    /** The keys that a refusal lists. */
    private NavigableSet<String> named(String name, String yaml) throws IOException {
        Path file = Files.writeString(folder.resolve("other.yaml"), yaml);
        String said = "";
        try {
            switch (name) {
                case "lesson" -> LessonReader.readFile(file);
                case "profile" -> Profile.parse(yaml);
                case "chart" ->
                    said = ChartReader.read(file).problems().stream()
                            .map(ChartReader.Problem::what)
                            .filter(what -> what.contains("zzzzzzzz"))
                            .findFirst()
                            .orElse("");
                default -> ToleranceSet.read(file.toString());
            }
        } catch (IOException | LessonException | YamlException e) {
            said = String.valueOf(e.getMessage());
        }
        assertThat(said).contains("known are ");
        return new TreeSet<>(
                List.of(said.substring(said.indexOf("known are ") + 10).split(", ", -1)));
    }
}
