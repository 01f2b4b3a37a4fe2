package org.rejoin.bridge.chart.io;

import java.io.IOException;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

import org.jspecify.annotations.Nullable;
import org.yaml.snakeyaml.DumperOptions.ScalarStyle;
import org.yaml.snakeyaml.LoaderOptions;
import org.yaml.snakeyaml.Yaml;
import org.yaml.snakeyaml.error.Mark;
import org.yaml.snakeyaml.error.MarkedYAMLException;
import org.yaml.snakeyaml.error.YAMLException;
import org.yaml.snakeyaml.events.AliasEvent;
import org.yaml.snakeyaml.events.DocumentStartEvent;
import org.yaml.snakeyaml.events.Event;
import org.yaml.snakeyaml.events.MappingEndEvent;
import org.yaml.snakeyaml.events.MappingStartEvent;
import org.yaml.snakeyaml.events.ScalarEvent;
import org.yaml.snakeyaml.events.SequenceEndEvent;
import org.yaml.snakeyaml.events.SequenceStartEvent;

/**
 * Turns YAML text into {@link YamlNode}s by its events alone: no tag makes an object, no alias is followed, so that no
 * file can grow in memory beyond its own size.
 */
final class YamlTree {

    private static final int DEEPEST = 16;

    private final String name;
    private final Problems problems;
    private final Iterator<Event> events;

    private YamlTree(String name, String text, Problems problems) {
        this.name = name;
        this.problems = problems;
        LoaderOptions options = new LoaderOptions();
        options.setCodePointLimit(Integer.MAX_VALUE); // the caller has bounded the text
        options.setNestingDepthLimit(DEEPEST);
        options.setMaxAliasesForCollections(0);
        this.events = new Yaml(options).parse(new StringReader(text)).iterator();
    }

    /**
     * The first document of the text.
     *
     * @throws IOException if it is not YAML; one line that names file, line and column
     */
    static YamlNode read(String name, String text, Problems problems) throws IOException {
        requirePrintable(name, text);
        YamlTree tree = new YamlTree(name, text, problems);
        try {
            return tree.document();
        } catch (MarkedYAMLException e) {
            String what = e.getProblem() == null ? "not YAML" : e.getProblem();
            throw new IOException(at(name, e.getProblemMark()) + oneLine(what), e);
        } catch (YAMLException e) {
            throw new IOException(name + ": " + oneLine(String.valueOf(e.getMessage())), e);
        }
    }

    private YamlNode document() throws IOException {
        YamlNode root = null;
        while (events.hasNext()) {
            Event event = events.next();
            if (event instanceof DocumentStartEvent && root != null) {
                problems.noted(line(event), "a second document begins here; only the first is read");
                return root;
            }
            if (event instanceof ScalarEvent
                    || event instanceof MappingStartEvent
                    || event instanceof SequenceStartEvent
                    || event instanceof AliasEvent) {
                root = node(event, 1);
            }
        }
        if (root == null) {
            throw new IOException(name + ": line 1, column 1: nothing but blanks or comments, expected a chart");
        }
        return root;
    }

    private YamlNode node(Event event, int depth) throws IOException {
        if (depth > DEEPEST) {
            throw new IOException(at(name, event.getStartMark()) + "nested deeper than " + DEEPEST + " levels");
        }
        if (event instanceof ScalarEvent scalar) {
            return scalar(scalar);
        }
        if (event instanceof MappingStartEvent) {
            return mapping(event, depth);
        }
        if (event instanceof SequenceStartEvent) {
            List<YamlNode> items = new ArrayList<>();
            for (Event next = events.next(); !(next instanceof SequenceEndEvent); next = events.next()) {
                items.add(node(next, depth + 1));
            }
            return new YamlNode.Sequence(line(event), items);
        }
        problems.noted(line(event), "an alias (*) is not followed here; write the value out");
        return new YamlNode.Scalar(line(event), "", true);
    }

    private YamlNode mapping(Event start, int depth) throws IOException {
        Map<String, YamlNode.Member> members = new LinkedHashMap<>();
        for (Event key = events.next(); !(key instanceof MappingEndEvent); key = events.next()) {
            YamlNode keyNode = node(key, depth + 1);
            YamlNode value = node(events.next(), depth + 1);
            if (!(keyNode instanceof YamlNode.Scalar scalar)) {
                problems.noted(line(key), "a key must be a word, found " + keyNode.described());
                continue;
            }
            YamlNode.Member before = members.putIfAbsent(scalar.text(), new YamlNode.Member(line(key), value));
            if (before != null) {
                problems.noted(
                        line(key),
                        "key " + scalar.described() + " stands twice; the first, of line " + before.line()
                                + ", counts");
            }
        }
        return new YamlNode.Mapping(line(start), members);
    }

    private static YamlNode scalar(ScalarEvent event) {
        String text = event.getValue();
        boolean plain = event.getScalarStyle() == ScalarStyle.PLAIN;
        boolean absent = plain && (text.isEmpty() || text.equals("~") || text.equals("null"));
        return new YamlNode.Scalar(line(event), text, absent);
    }

    /** The parser would refuse such characters too, but could not say in which line. */
    private static void requirePrintable(String name, String text) throws IOException {
        int line = 1;
        int column = 1;
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (c == '\n' || (c == '\r' && !text.startsWith("\n", i + 1))) {
                line++;
                column = 0;
            } else if ((c < ' ' && c != '\t' && c != '\r') || c == 0x7F || c == 0xFFFE || c == 0xFFFF) {
                throw new IOException(String.format(
                        Locale.ROOT,
                        "%s: line %d, column %d: character U+%04X is not text; is this a chart?",
                        name,
                        line,
                        column,
                        (int) c));
            }
            column++;
        }
    }

    private static int line(Event event) {
        return event.getStartMark() == null ? 0 : event.getStartMark().getLine() + 1;
    }

    private static String at(String name, @Nullable Mark mark) {
        return mark == null
                ? name + ": "
                : name + ": line " + (mark.getLine() + 1) + ", column " + (mark.getColumn() + 1) + ": ";
    }

    private static String oneLine(String text) {
        return text.replaceAll("\\s+", " ").strip();
    }
}
