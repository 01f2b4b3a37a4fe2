package org.rejoin.console.lesson;

import java.io.IOException;
import java.util.HashMap;
import java.util.Map;
import java.util.regex.Pattern;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.dataformat.yaml.YAMLFactory;

/** Where in a lesson file its members stand. */
final class LessonLines {

    /** A member of a lesson at the start of a line: what has none is another kind of file. */
    private static final Pattern OF_A_LESSON = Pattern.compile("(?m)^[ {]*(?:title|chart|filed|amendments) *:");

    private final String file;
    private final Map<String, Integer> lines;

    private LessonLines(String file, Map<String, Integer> lines) {
        this.file = file;
        this.lines = lines;
    }

    /**
     * The lines of a text.
     *
     * @throws LessonException if it is no YAML; file and line come first
     */
    static LessonLines of(String file, String text) throws LessonException {
        Map<String, Integer> lines = new HashMap<>();
        LessonLines result = new LessonLines(file, lines);
        try (JsonParser parser = new YAMLFactory().createParser(text)) {
            for (JsonToken token = parser.nextToken(); token != null; token = parser.nextToken()) {
                if (!token.isStructEnd()) {
                    lines.putIfAbsent(
                            parser.getParsingContext().pathAsPointer().toString(),
                            parser.currentTokenLocation().getLineNr());
                }
            }
            return result;
        } catch (JsonProcessingException e) {
            // The parser's own words are about its tokens.
            throw OF_A_LESSON.matcher(text).find()
                    ? new LessonException(
                            result.at(e)
                                    + ": not YAML from here or a little before; a member is written \"name: value\", an"
                                    + " item \"- value\", what belongs together at the same indent, and brackets and quotes"
                                    + " are closed",
                            e)
                    : noLesson(file, e);
        } catch (IOException e) {
            throw noLesson(file, e);
        }
    }

    private static LessonException noLesson(String file, IOException cause) {
        return new LessonException(
                file
                        + ": not YAML, so no lesson; one has title, chart, filed and amendments, each \"name: value\" on a line"
                        + " of its own",
                cause);
    }

    /** File and line where reading stopped. */
    String at(JsonProcessingException e) {
        return e.getLocation() == null
                ? file
                : file + ":" + Math.max(1, e.getLocation().getLineNr());
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
