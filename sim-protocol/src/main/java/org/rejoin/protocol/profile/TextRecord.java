package org.rejoin.protocol.profile;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;

/**
 * A line taken apart into fields.
 *
 * @param fields by number
 * @param keyed by key; empty where fields go by number
 */
record TextRecord(List<String> fields, Map<String, String> keyed) {

    /** More fields than any profile names; the rest of a line is not looked at. */
    private static final int MOST_FIELDS = 4096;

    private static final Pattern NUMBER =
            Pattern.compile("[+-]?([0-9]{1,18}(\\.[0-9]{0,18})?|\\.[0-9]{1,18})([eE][+-]?[0-9]{1,3})?");

    /**
     * A number that is not the rest of another one, what some write for one they do not have, or a hemisphere's letter. A point
     * behind a name parts it from its number.
     */
    private static final String TOKEN =
            "[+-]?1%1$s#\\p{Alpha}+|(?:(?<![\\d%1$s])|(?<=\\p{L}%1$s))[+-]?(?:\\d++(?:%1$s\\d*+)?"
                    + "|(?<!\\p{L})%1$s\\d++)(?:[eE][+-]?\\d{1,3})?"
                    + "|(?<![\\p{L}_])(?:(?i:nan|inf|infinity|null|none)|[NSEW])(?![\\p{L}_])";

    private static final Pattern TOKENS_WITH_POINT = Pattern.compile(String.format(TOKEN, "\\."));
    private static final Pattern TOKENS_WITH_COMMA = Pattern.compile(String.format(TOKEN, ","));

    static TextRecord of(String line, Layout.Text layout) {
        if (layout.json()) {
            return new TextRecord(List.of(), JsonMembers.of(line).orElse(Map.of()));
        }
        List<String> fields = fields(line, layout);
        Map<String, String> keyed = new LinkedHashMap<>();
        if (layout.keyed()) {
            for (String field : fields) {
                int at = field.indexOf(layout.keyValue());
                if (at >= 0) {
                    keyed.put(
                            field.substring(0, at).strip(),
                            field.substring(at + layout.keyValue().length()).strip());
                }
            }
        }
        return new TextRecord(fields, keyed);
    }

    /** The fields of a line, by number. */
    static List<String> fields(String line, Layout.Text layout) {
        return layout.numbers()
                ? (layout.decimal() == ',' ? TOKENS_WITH_COMMA : TOKENS_WITH_POINT)
                        .matcher(line)
                        .results()
                        .limit(MOST_FIELDS)
                        .map(MatchResult::group)
                        .toList()
                : split(line, layout.separator());
    }

    static List<String> split(String line, String separator) {
        List<String> fields = new ArrayList<>();
        int from = 0;
        if (separator.equals(Layout.Text.BLANK)) {
            for (int i = 0; i <= line.length() && fields.size() < MOST_FIELDS; i++) {
                if (i == line.length() || line.charAt(i) == ' ' || line.charAt(i) == '\t') {
                    if (i > from) {
                        fields.add(line.substring(from, i));
                    }
                    from = i + 1;
                }
            }
            return fields;
        }
        int at = line.indexOf(separator);
        while (at >= 0 && fields.size() < MOST_FIELDS) {
            fields.add(line.substring(from, at).strip());
            from = at + separator.length();
            at = line.indexOf(separator, from);
        }
        fields.add(line.substring(from).strip());
        return fields;
    }

    /** A field by number or key; empty text if it is not there. */
    String field(int at, String key) {
        if (!key.isEmpty()) {
            return keyed.getOrDefault(key, "");
        }
        return at < fields.size() ? fields.get(at) : "";
    }

    /** A number with the given decimal sign, or NaN. */
    static double number(String text, char decimal) {
        boolean foreign = decimal == ',' && text.indexOf('.') >= 0;
        String plain = decimal == ',' ? text.replace(',', '.') : text;
        return !foreign && NUMBER.matcher(plain).matches() ? Double.parseDouble(plain) : Double.NaN;
    }
}
