package org.rejoin.protocol.yaml;

import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CoderResult;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;

import org.jspecify.annotations.Nullable;
import org.yaml.snakeyaml.DumperOptions.FlowStyle;
import org.yaml.snakeyaml.DumperOptions.ScalarStyle;
import org.yaml.snakeyaml.LoaderOptions;
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
import org.yaml.snakeyaml.parser.Parser;
import org.yaml.snakeyaml.parser.ParserImpl;
import org.yaml.snakeyaml.reader.StreamReader;

/**
 * A file written by hand, read by the events of its YAML alone: no tag makes an object and no alias is followed, so that
 * no file can grow in memory beyond its own size.
 *
 * @param root what the file holds; empty where there is nothing but blanks and comments
 * @param slips what could be read past, in the order of the file; a reader may report these or refuse the file for them
 */
public record YamlText(Optional<YamlNode> root, List<YamlException> slips) {

    private static final int DEEPEST = 16;

    /** Copies. */
    public YamlText {
        slips = List.copyOf(slips);
    }

    /**
     * The text of a file, which is UTF-8: in another encoding it would show wrong names without a word.
     *
     * @param octets of the file; the caller bounds their number
     * @return the text, with the byte order mark that it may begin with
     * @throws YamlException for the first octet that is not UTF-8
     */
    public static String decoded(byte[] octets) throws YamlException {
        ByteBuffer in = ByteBuffer.wrap(octets);
        CharBuffer out = CharBuffer.allocate(octets.length + 1);
        CoderResult result = StandardCharsets.UTF_8.newDecoder().decode(in, out, true);
        String text = out.flip().toString();
        if (result.isError()) {
            throw new YamlException(
                    1 + Math.toIntExact(text.chars().filter(c -> c == '\n').count()),
                    text.length() - text.lastIndexOf('\n'),
                    String.format(
                            Locale.ROOT,
                            "byte 0x%02X is not UTF-8; save the file as UTF-8",
                            octets[in.position()] & 0xFF));
        }
        return text;
    }

    /**
     * Reads the first document of a text.
     *
     * @param text of the file; the caller bounds its length
     * @return what it holds
     * @throws YamlException if it is not YAML, not text, or nested too deep
     */
    public static YamlText read(String text) throws YamlException {
        return read(text, "counts");
    }

    private static YamlText read(String text, String ofTwoTheFirst) throws YamlException {
        String plain = text.startsWith("\uFEFF") ? text.substring(1) : text;
        requirePrintable(plain);
        try {
            return new Reading(plain, ofTwoTheFirst).document();
        } catch (MarkedYAMLException e) {
            Mark at = e.getProblemMark();
            throw at == null
                    ? YamlException.notYaml(1, 1)
                    : YamlException.notYaml(at.getLine() + 1, at.getColumn() + 1);
        } catch (YAMLException e) {
            throw YamlException.notYaml(1, 1);
        }
    }

    /**
     * Reads a text that must be free of slips.
     *
     * @param text of the file; the caller bounds its length
     * @param wanted what an empty file should hold, as "a profile begins with ..."
     * @return what it holds
     * @throws YamlException for the first thing that is wrong
     */
    public static YamlNode strictly(String text, String wanted) throws YamlException {
        YamlText read = read(text, "is one too many, or this: remove one");
        if (!read.slips().isEmpty()) {
            throw read.slips().get(0);
        }
        return read.root().orElseThrow(() -> new YamlException(1, 1, "an empty file; " + wanted));
    }

    /** The parser would refuse such characters too, but could not say in which line. */
    private static void requirePrintable(String text) throws YamlException {
        int line = 1;
        int column = 1;
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (c == '\n' || (c == '\r' && !text.startsWith("\n", i + 1))) {
                line++;
                column = 0;
            } else if ((c < ' ' && c != '\t' && c != '\r') || c == 0x7F || c == 0xFFFE || c == 0xFFFF) {
                throw new YamlException(
                        line, column, String.format(Locale.ROOT, "character U+%04X is not text", (int) c));
            }
            column++;
        }
    }

    /** One pass over the events. */
    private static final class Reading {

        private static final Pattern WHOLE = Pattern.compile("[-+]?\\d{1,6}");
        private static final Pattern DECIMALS = Pattern.compile("\\d{1,12}");

        private final Parser events;
        private final List<YamlException> slips = new ArrayList<>();

        private final String ofTwoTheFirst;

        Reading(String text, String ofTwoTheFirst) {
            this.ofTwoTheFirst = ofTwoTheFirst;
            LoaderOptions options = new LoaderOptions();
            options.setCodePointLimit(Integer.MAX_VALUE); // the caller has bounded the text
            events = new ParserImpl(new StreamReader(text), options);
        }

        YamlText document() throws YamlException {
            YamlNode root = null;
            while (events.peekEvent() != null) {
                Event event = events.getEvent();
                if (event instanceof DocumentStartEvent && root != null) {
                    slips.add(new YamlException(
                            line(event), column(event), "a second document begins here; only the first is read"));
                    break;
                }
                if (event instanceof ScalarEvent
                        || event instanceof MappingStartEvent
                        || event instanceof SequenceStartEvent
                        || event instanceof AliasEvent) {
                    root = node(event, 1);
                }
            }
            return new YamlText(Optional.ofNullable(root), slips);
        }

        private YamlNode node(Event event, int depth) throws YamlException {
            if (depth > DEEPEST) {
                throw new YamlException(line(event), column(event), "nested deeper than " + DEEPEST + " levels");
            }
            if (event instanceof ScalarEvent scalar) {
                return scalar(scalar);
            }
            if (event instanceof MappingStartEvent mapping) {
                return mapping(mapping, depth);
            }
            if (event instanceof SequenceStartEvent) {
                List<YamlNode> items = new ArrayList<>();
                for (Event next = events.getEvent(); !(next instanceof SequenceEndEvent); next = events.getEvent()) {
                    items.add(node(next, depth + 1));
                }
                return new YamlNode.Sequence(line(event), column(event), items);
            }
            slips.add(new YamlException(
                    line(event), column(event), "an alias (*) is not followed here; write the value out"));
            return new YamlNode.Scalar(line(event), column(event), "", true);
        }

        private YamlNode mapping(MappingStartEvent start, int depth) throws YamlException {
            Map<String, YamlNode.Member> members = new LinkedHashMap<>();
            String last = "";
            for (Event key = events.getEvent(); !(key instanceof MappingEndEvent); key = events.getEvent()) {
                YamlNode keyNode = node(key, depth + 1);
                YamlNode value = node(events.getEvent(), depth + 1);
                if (!(keyNode instanceof YamlNode.Scalar scalar)) {
                    slips.add(keyNode.fault("a key must be a word, found " + keyNode.described()));
                    continue;
                }
                Optional<YamlNode.Member> comma = decimalComma(start, members.get(last), scalar, value);
                if (comma.isPresent()) {
                    members.put(last, comma.get());
                    continue;
                }
                last = scalar.text();
                YamlNode.Member before = members.putIfAbsent(last, new YamlNode.Member(line(key), column(key), value));
                if (before != null) {
                    slips.add(scalar.fault("key " + scalar.described() + " stands twice; the first, of line "
                            + before.line() + ", " + ofTwoTheFirst));
                }
            }
            return new YamlNode.Mapping(line(start), column(start), members);
        }

        /** In {a: 38,5, b: 1} YAML sees a key 5 without a value; a person means 38,5. */
        private static Optional<YamlNode.Member> decimalComma(
                MappingStartEvent start, YamlNode.@Nullable Member before, YamlNode.Scalar key, YamlNode value) {
            boolean lone = start.getFlowStyle() == FlowStyle.FLOW
                    && DECIMALS.matcher(key.text()).matches()
                    && value instanceof YamlNode.Scalar none
                    && none.absent();
            return lone
                            && before != null
                            && before.value() instanceof YamlNode.Scalar whole
                            && WHOLE.matcher(whole.text()).matches()
                    ? Optional.of(new YamlNode.Member(
                            before.line(),
                            before.column(),
                            new YamlNode.Scalar(whole.line(), whole.column(), whole.text() + "," + key.text(), false)))
                    : Optional.empty();
        }

        private static YamlNode.Scalar scalar(ScalarEvent event) {
            String text = event.getValue();
            boolean plain = event.getScalarStyle() == ScalarStyle.PLAIN;
            boolean absent = plain && (text.isEmpty() || text.equals("~") || text.equals("null"));
            return new YamlNode.Scalar(line(event), column(event), text, absent);
        }

        private static int line(Event event) {
            return event.getStartMark() == null ? 1 : event.getStartMark().getLine() + 1;
        }

        private static int column(Event event) {
            return event.getStartMark() == null ? 1 : event.getStartMark().getColumn() + 1;
        }
    }
}
