package org.rejoin.console.lesson;

import java.io.IOException;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import org.yaml.snakeyaml.LoaderOptions;
import org.yaml.snakeyaml.Yaml;
import org.yaml.snakeyaml.nodes.MappingNode;
import org.yaml.snakeyaml.nodes.Node;
import org.yaml.snakeyaml.nodes.NodeTuple;
import org.yaml.snakeyaml.nodes.ScalarNode;

/** The text of a lesson, to be kept elsewhere with the files it names. */
public final class LessonText {

    private static final YAMLMapper YAML = new YAMLMapper();

    private LessonText() {}

    private record Span(int from, int to, String value) {}

    /**
     * The lesson with some of its members named anew; everything else, comments too, stays as its author wrote it where
     * that is possible.
     *
     * @param yaml text of a lesson that was read
     * @param members top-level members that are there, and their new values: plain words
     * @return text of a lesson that differs in these members only
     */
    public static String with(String yaml, Map<String, String> members) {
        try {
            JsonNode wanted = YAML.readTree(yaml);
            members.forEach(((ObjectNode) wanted)::put);
            String edited = edited(yaml, members);
            // An alias, a tag or a block may make the place in the text another than the member's.
            return sameTree(edited, wanted) ? edited : YAML.writeValueAsString(wanted);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static boolean sameTree(String text, JsonNode wanted) {
        try {
            return YAML.readTree(text).equals(wanted);
        } catch (IOException e) {
            return false;
        }
    }

    private static String edited(String yaml, Map<String, String> members) {
        Node root = new Yaml(new LoaderOptions()).compose(new StringReader(yaml));
        Map<Integer, Span> spans = new HashMap<>();
        for (NodeTuple tuple : root instanceof MappingNode mapping ? mapping.getValue() : List.<NodeTuple>of()) {
            String value = tuple.getKeyNode() instanceof ScalarNode key ? members.get(key.getValue()) : null;
            if (value != null) {
                Node node = tuple.getValueNode();
                int from = node.getStartMark().getIndex();
                spans.put(from, new Span(from, node.getEndMark().getIndex(), value));
            }
        }
        int[] points = yaml.codePoints().toArray(); // what a mark's index counts
        StringBuilder text = new StringBuilder();
        int i = 0;
        while (i < points.length) {
            Span span = spans.get(i);
            if (span != null && span.to() > i) {
                text.append(span.value());
                i = span.to();
            } else {
                text.appendCodePoint(points[i]);
                i++;
            }
        }
        return text.toString();
    }
}
