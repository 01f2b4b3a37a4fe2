package org.rejoin.console.book;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.io.JsonEOFException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonMappingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;

/** JSON of the record book's files: objects with every member once. */
final class BookJson {

    private static final ObjectMapper JSON = JsonMapper.builder()
            .enable(JsonParser.Feature.STRICT_DUPLICATE_DETECTION)
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
            .build();

    private BookJson() {}

    /** An object; anything else, or damage, is an IOException of one line. */
    static JsonNode read(byte[] octets) throws IOException {
        try {
            JsonNode node = JSON.readTree(octets);
            if (node.isObject()) {
                return node;
            }
        } catch (JsonProcessingException e) {
            throw new IOException(
                    "it is not JSON ("
                            + why(e) + ", line "
                            + (e.getLocation() == null ? 1 : e.getLocation().getLineNr()) + ")",
                    e);
        }
        throw new IOException("it is not a JSON object");
    }

    /** In words: the parser's own speak of its classes. What is read but not mapped has something after it. */
    private static String why(JsonProcessingException e) {
        if (e instanceof JsonMappingException) {
            return "something stands after its end";
        }
        if (e instanceof JsonEOFException) {
            return "it breaks off";
        }
        return e.getOriginalMessage().startsWith("Duplicate field") ? "a member stands twice" : "it is damaged";
    }

    static ObjectNode object() {
        return JSON.createObjectNode();
    }

    static byte[] pretty(JsonNode node) throws IOException {
        return (JSON.writer().with(SerializationFeature.INDENT_OUTPUT).writeValueAsString(node) + "\n")
                .getBytes(StandardCharsets.UTF_8);
    }

    static String line(JsonNode node) throws IOException {
        return JSON.writeValueAsString(node);
    }

    static Optional<String> text(JsonNode node, String name) {
        JsonNode member = node.path(name);
        return member.isTextual() && !member.textValue().isEmpty() ? Optional.of(member.textValue()) : Optional.empty();
    }

    static String textOrEmpty(JsonNode node, String name) {
        return text(node, name).orElse("");
    }

    static OptionalDouble number(JsonNode node, String name) {
        JsonNode member = node.path(name);
        return member.isNumber() ? OptionalDouble.of(member.doubleValue()) : OptionalDouble.empty();
    }

    static Optional<Boolean> truth(JsonNode node, String name) {
        JsonNode member = node.path(name);
        return member.isBoolean() ? Optional.of(member.booleanValue()) : Optional.empty();
    }

    /** The texts of a list, or a member of each of its objects. */
    static List<String> texts(JsonNode list, String member) {
        List<String> texts = new ArrayList<>();
        for (JsonNode each : list) {
            (each.isTextual() ? Optional.of(each.textValue()) : text(each, member)).ifPresent(texts::add);
        }
        return texts;
    }
}
