package org.rejoin.console.json;

import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.PropertyNamingStrategies;
import org.jspecify.annotations.Nullable;

/** A JSON object as text on one line: line ends in its texts are escaped. */
public final class Json {

    private static final JsonFactory JSON = new JsonFactory();

    /** Apart, for whoever writes no list and no record starts sooner without it. */
    private static final class Library {
        private static final ObjectMapper JSON =
                new ObjectMapper().setPropertyNamingStrategy(PropertyNamingStrategies.SNAKE_CASE);
    }

    private Json() {}

    /** Writes the members of an object, or a whole value. */
    public interface Content {
        /** Writes it. */
        void write(JsonGenerator json) throws IOException;
    }

    /** An object on one line, without its end. */
    public static String object(Content members) {
        return value(json -> {
            json.writeStartObject();
            members.write(json);
            json.writeEndObject();
        });
    }

    /** Any one value on one line, without its end. */
    public static String value(Content content) {
        StringWriter text = new StringWriter();
        try (JsonGenerator json = JSON.createGenerator(text)) {
            content.write(json);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return text.toString();
    }

    /** A record, or a list of them, on one line; {@code ageS} is the member {@code age_s}. */
    public static String of(Object value) {
        try {
            return Library.JSON.writeValueAsString(value);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Writes lists and records as a member, as {@link #of} does. */
    public static void member(JsonGenerator json, String name, @Nullable Object value) throws IOException {
        json.writeFieldName(name);
        Library.JSON.writeValue(json, value);
    }

    /** Writes a list of texts as a member. */
    public static void texts(JsonGenerator json, String name, Iterable<String> texts) throws IOException {
        json.writeArrayFieldStart(name);
        for (String text : texts) {
            json.writeString(text);
        }
        json.writeEndArray();
    }
}
