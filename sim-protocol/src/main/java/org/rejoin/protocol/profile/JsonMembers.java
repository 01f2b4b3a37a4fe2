package org.rejoin.protocol.profile;

import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadConstraints;

/** The numbers and texts of a JSON object by name; names inside objects and lists are joined by dots: "pos.0". */
final class JsonMembers {

    private static final int MOST_MEMBERS = 4096;
    private static final int DEEPEST = 16;

    private static final JsonFactory JSON = JsonFactory.builder()
            .streamReadConstraints(StreamReadConstraints.builder()
                    .maxNestingDepth(DEEPEST)
                    .maxStringLength(100_000)
                    .build())
            .build();

    private JsonMembers() {}

    /** Empty if the text is no object. */
    static Optional<Map<String, String>> of(String text) {
        try (JsonParser parser = JSON.createParser(text)) {
            if (parser.nextToken() != JsonToken.START_OBJECT) {
                return Optional.empty();
            }
            Map<String, String> members = new LinkedHashMap<>();
            take(parser, "", members);
            return Optional.of(members);
        } catch (IOException e) {
            return Optional.empty();
        }
    }

    /** Takes what is in the object or list that the parser has just begun. */
    private static void take(JsonParser parser, String prefix, Map<String, String> members) throws IOException {
        boolean list = parser.hasToken(JsonToken.START_ARRAY);
        int at = 0;
        for (JsonToken token = parser.nextToken(); !token.isStructEnd(); token = parser.nextToken()) {
            if (token == JsonToken.FIELD_NAME) {
                continue;
            }
            String name = prefix + (list ? String.valueOf(at++) : parser.currentName());
            if (token.isStructStart()) {
                take(parser, name + ".", members);
            } else if (members.size() < MOST_MEMBERS && token != JsonToken.VALUE_NULL) {
                members.put(name, parser.getText().strip());
            }
        }
    }
}
