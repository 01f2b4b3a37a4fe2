package org.rejoin.console.lesson;

import java.util.List;
import java.util.TreeSet;
import java.util.stream.Collectors;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonMappingException;
import com.fasterxml.jackson.databind.MapperFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.exc.MismatchedInputException;
import com.fasterxml.jackson.databind.exc.UnrecognizedPropertyException;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import org.jspecify.annotations.Nullable;

/** A lesson file as it is written: every member may be missing, none is checked. */
record LessonYaml(
        @Nullable String title,
        @Nullable String chart,
        @Nullable String filed,
        @Nullable String date,
        @Nullable StartYaml start,
        @Nullable WindYaml wind,
        @Nullable List<@Nullable AmendmentYaml> amendments,
        @Nullable String standard) {

    private static final ObjectMapper YAML = YAMLMapper.builder()
            .enable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .disable(MapperFeature.ALLOW_COERCION_OF_SCALARS)
            .build();

    record StartYaml(
            @Nullable String at,
            @Nullable Double altitude_ft,
            @Nullable Double heading_magnetic_deg,
            @Nullable Double speed_kt) {}

    record WindYaml(
            @Nullable Double from_true_deg, @Nullable Double speed_kt) {}

    record AmendmentYaml(
            @Nullable WhenYaml when,
            @Nullable String say,
            @Nullable Double altitude_ft) {}

    record WhenYaml(@Nullable Double elapsed_s, @Nullable String abeam) {}

    /**
     * Reads the text.
     *
     * @param lines of the same text
     * @throws LessonException if it is not of this form; file and line come first
     */
    static LessonYaml read(String text, LessonLines lines) throws LessonException {
        try {
            LessonYaml yaml = YAML.readValue(text, LessonYaml.class);
            if (yaml == null) {
                throw new LessonException(lines.at("") + ": the lesson is empty");
            }
            return yaml;
        } catch (UnrecognizedPropertyException e) {
            throw new LessonException(
                    at(lines, e) + ": \"" + e.getPropertyName() + "\" is not known here, expected one of "
                            + new TreeSet<>(e.getKnownPropertyIds()),
                    e);
        } catch (MismatchedInputException e) {
            String wrong = text.isBlank() ? "the lesson is empty" : "expected " + described(e.getTargetType());
            throw new LessonException(at(lines, e) + ": " + words(e) + wrong, e);
        } catch (JsonMappingException e) {
            throw new LessonException(at(lines, e) + ": " + words(e) + firstLine(e.getOriginalMessage()), e);
        } catch (JsonProcessingException e) {
            throw new LessonException(lines.at(e) + ": " + firstLine(e.getOriginalMessage()), e);
        }
    }

    private static String described(@Nullable Class<?> type) {
        if (type == Double.class) {
            return "a number";
        }
        if (type == String.class) {
            return "text";
        }
        return type != null && List.class.isAssignableFrom(type) ? "a list" : "a mapping, each line KEY: VALUE";
    }

    private static String at(LessonLines lines, JsonMappingException e) {
        return lines.at(e.getPath().stream()
                .map(step -> step.getFieldName() == null ? String.valueOf(step.getIndex()) : step.getFieldName())
                .collect(Collectors.joining("/")));
    }

    private static String words(JsonMappingException e) {
        StringBuilder words = new StringBuilder();
        e.getPath()
                .forEach(step -> words.append(
                        step.getFieldName() == null
                                ? (step.getIndex() + 1) + ": "
                                : step.getFieldName().equals("amendments")
                                        ? "amendment "
                                        : step.getFieldName() + ": "));
        return words.toString();
    }

    static String firstLine(@Nullable String message) {
        return message == null ? "" : message.lines().findFirst().orElse("");
    }
}
