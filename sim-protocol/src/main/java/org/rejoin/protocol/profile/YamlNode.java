package org.rejoin.protocol.profile;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;

import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.dataformat.yaml.YAMLFactory;
import com.fasterxml.jackson.dataformat.yaml.YAMLParser;

/** A piece of YAML that knows where it stands. Only mappings, sequences and plain values: no tags, no aliases. */
sealed interface YamlNode {

    int DEEPEST = 8;
    int LONGEST = 200_000;

    /** A member of a profile at the start of a line: what has none is another kind of file. */
    Pattern OF_A_PROFILE = Pattern.compile("(?m)^[ {]*[\"']?(?:profile|kind|text|binary|values)[\"']? *:");

    int line();

    int column();

    /** A value, as written. */
    record Scalar(int line, int column, String text) implements YamlNode {}

    /** Several nodes. */
    record Sequence(int line, int column, List<YamlNode> items) implements YamlNode {}

    /** Nodes by key, in order. */
    record Mapping(int line, int column, Map<Scalar, YamlNode> members) implements YamlNode {}

    default ProfileException fault(String message) {
        return new ProfileException(line(), column(), message);
    }

    static YamlNode parse(String yaml) throws ProfileException {
        if (yaml.length() > LONGEST) {
            throw new ProfileException(1, 1, "a file of " + yaml.length() + " characters; at most " + LONGEST);
        }
        YAMLFactory factory = YAMLFactory.builder()
                .streamReadConstraints(
                        StreamReadConstraints.builder().maxNestingDepth(DEEPEST).build())
                .build();
        try (YAMLParser parser = factory.createParser(yaml)) {
            if (parser.nextToken() == null) {
                throw new ProfileException(1, 1, "an empty file; a profile begins with \"profile: 1\"");
            }
            return node(parser);
        } catch (JsonProcessingException e) {
            JsonLocation at = e.getLocation();
            if (at == null || !OF_A_PROFILE.matcher(yaml).find()) {
                throw noProfile();
            }
            // The parser's own words are about its tokens.
            throw new ProfileException(
                    at.getLineNr(),
                    at.getColumnNr(),
                    "not YAML from here or a little before; a member is written \"name: value\", an item \"- value\", what"
                            + " belongs together at the same indent, and brackets and quotes are closed");
        } catch (ProfileException e) {
            throw yaml.isBlank() || OF_A_PROFILE.matcher(yaml).find() ? e : noProfile();
        } catch (IOException e) {
            throw noProfile();
        }
    }

    private static ProfileException noProfile() {
        return new ProfileException(
                1, 1, "not YAML, so no profile; one begins with \"profile: 1\", and feed learn writes one");
    }

    private static YamlNode node(YAMLParser parser) throws IOException, ProfileException {
        Scalar here = scalar(parser);
        JsonToken token = parser.currentToken();
        if (token == JsonToken.START_ARRAY) {
            List<YamlNode> items = new ArrayList<>();
            while (parser.nextToken() != JsonToken.END_ARRAY) {
                items.add(node(parser));
            }
            return new Sequence(here.line, here.column, List.copyOf(items));
        }
        if (token != JsonToken.START_OBJECT) {
            return here;
        }
        Map<Scalar, YamlNode> members = new LinkedHashMap<>();
        Map<String, Scalar> keys = new LinkedHashMap<>();
        while (parser.nextToken() != JsonToken.END_OBJECT) {
            Scalar key = scalar(parser);
            Scalar first = keys.putIfAbsent(key.text, key);
            if (first != null) {
                throw key.fault("\"" + key.text + "\" for the second time; first in line " + first.line);
            }
            parser.nextToken();
            members.put(key, node(parser));
        }
        return new Mapping(here.line, here.column, members);
    }

    private static Scalar scalar(YAMLParser parser) throws IOException, ProfileException {
        JsonLocation at = parser.currentTokenLocation();
        Scalar here = new Scalar(at.getLineNr(), at.getColumnNr(), parser.getText());
        if (parser.isCurrentAlias()) {
            throw here.fault("an alias; write the value out");
        }
        return here;
    }
}
