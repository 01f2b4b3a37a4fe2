package org.rejoin.protocol.profile;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
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
            return Optional.of(members(parser));
        } catch (IOException e) {
            return Optional.empty();
        }
    }

    private static Map<String, String> members(JsonParser parser) throws IOException {
        Map<String, String> members = new LinkedHashMap<>();
        Deque<String> outer = new ArrayDeque<>();
        Deque<Integer> counts = new ArrayDeque<>(List.of(-1));
        String prefix = "";
        String name = "";
        while (!counts.isEmpty()) {
            JsonToken token = parser.nextToken();
            if (token == null) {
                throw new IOException("cut off");
            }
            if (token == JsonToken.FIELD_NAME) {
                name = prefix + parser.currentName();
                continue;
            }
            if (token.isStructEnd()) {
                counts.pop();
                prefix = outer.isEmpty() ? "" : outer.pop();
                continue;
            }
            if (counts.element() >= 0) {
                int at = counts.pop();
                name = prefix + at;
                counts.push(at + 1);
            }
            if (token.isStructStart()) {
                outer.push(prefix);
                prefix = name + ".";
                counts.push(token == JsonToken.START_ARRAY ? 0 : -1);
            } else if (members.size() < MOST_MEMBERS && token != JsonToken.VALUE_NULL) {
                members.put(name, parser.getText().strip());
            }
        }
        return members;
    }
}
