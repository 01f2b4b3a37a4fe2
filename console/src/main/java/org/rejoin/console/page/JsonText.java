package org.rejoin.console.page;

import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;

/** An object on one line: line ends in texts are escaped, so that one message is one line of the stream. */
final class JsonText {

    private static final JsonFactory JSON = new JsonFactory();

    /** Writes the members of an object. */
    interface Members {
        void write(JsonGenerator json) throws IOException;
    }

    private JsonText() {}

    static String object(String kind, Members members) {
        StringWriter text = new StringWriter();
        try (JsonGenerator json = JSON.createGenerator(text)) {
            json.writeStartObject();
            json.writeStringField("k", kind);
            members.write(json);
            json.writeEndObject();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return text.toString();
    }
}
