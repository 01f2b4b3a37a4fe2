package org.rejoin.bridge.chart.io;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Pattern;

import org.rejoin.bridge.geo.Position;
import org.rejoin.protocol.yaml.Slip;
import org.rejoin.protocol.yaml.YamlMembers;
import org.rejoin.protocol.yaml.YamlNode;

import org.jspecify.annotations.Nullable;

/** One entry of a list of the chart file: its values with their checks, and its problems with their lines. */
record YamlRecord(YamlNode.Mapping mapping, String noun, String ident, Problems problems) {

    private static final Pattern IDENT = Pattern.compile("[A-Z0-9]{1,10}");

    /** The entry, unless it is no mapping or has no ident, which is then a problem. */
    static Optional<YamlRecord> of(YamlNode node, String noun, List<String> keys, Problems problems) {
        return of(node, noun, "ident", keys, problems);
    }

    /** The entry that is named by another key than ident, for example by its fix. */
    static Optional<YamlRecord> of(YamlNode node, String noun, String name, List<String> keys, Problems problems) {
        if (!(node instanceof YamlNode.Mapping mapping)) {
            problems.dropped(
                    node.line(),
                    noun + ": expected a mapping such as {" + name + ": ABCDE, ...}, found " + node.described());
            return Optional.empty();
        }
        Optional<String> ident = identOf(mapping, noun, name, problems);
        String label = noun + ident.map(text -> " " + text).orElse("");
        requireKnown(mapping, label, keys, problems);
        return ident.map(text -> new YamlRecord(mapping, noun, text, problems));
    }

    /** Reports keys that mean nothing here. */
    static void requireKnown(YamlNode.Mapping mapping, String label, List<String> keys, Problems problems) {
        mapping.members().forEach((key, member) -> {
            if (!keys.contains(key)) {
                String shown = new YamlNode.Scalar(member.line(), member.column(), key, false).described();
                problems.noted(
                        member.line(),
                        label + ": unknown key " + shown
                                + Slip.closest(key, keys)
                                        .map(word -> ", did you mean " + word + "?")
                                        .orElse("; known are " + String.join(", ", keys)));
            }
        });
    }

    private static Optional<String> identOf(YamlNode.Mapping mapping, String noun, String name, Problems problems) {
        YamlNode.Member member = mapping.given(name);
        if (member == null) {
            problems.dropped(
                    mapping.line(), noun + " without " + name + "; add " + name + ": and one to ten letters or digits");
            return Optional.empty();
        }
        String text = member.value() instanceof YamlNode.Scalar scalar ? scalar.text() : "";
        String upper = text.toUpperCase(Locale.ROOT);
        if (!IDENT.matcher(upper).matches()) {
            problems.dropped(
                    member.line(),
                    noun + ": " + name + " must be one to ten letters or digits, found "
                            + member.value().described());
            return Optional.empty();
        }
        if (!upper.equals(text)) {
            problems.noted(
                    member.line(),
                    noun + " " + upper + ": " + name + " is written in upper case, found "
                            + member.value().described());
        }
        return Optional.of(upper);
    }

    int line() {
        return mapping.line();
    }

    /** Noun and ident, for a message. */
    String label() {
        return noun + " " + ident;
    }

    void dropped(int line, String what) {
        problems.dropped(line, label() + ": " + what);
    }

    void noted(int line, String what) {
        problems.noted(line, label() + ": " + what);
    }

    private void report(int line, String what, boolean needed) {
        if (needed) {
            dropped(line, what);
        } else {
            noted(line, what);
        }
    }

    /** The value of a key, null where the key is not there or has none. */
    @Nullable
    YamlNode value(String key) {
        YamlNode.Member member = mapping.given(key);
        return member == null ? null : member.value();
    }

    /** Free text; anything else is a problem and counts as not there. */
    Optional<String> text(String key) {
        YamlNode value = value(key);
        if (value == null) {
            return Optional.empty();
        }
        if (value instanceof YamlNode.Scalar scalar) {
            return Optional.of(scalar.text());
        }
        noted(value.line(), key + " must be text, found " + value.described());
        return Optional.empty();
    }

    /** A constant by its name; anything else is a problem and counts as not there. */
    <E extends Enum<E>> Optional<E> constant(String key, List<E> constants, boolean needed) {
        YamlNode value = value(key);
        if (value == null) {
            return Optional.empty();
        }
        List<String> names = constants.stream().map(Enum::name).toList();
        if (value instanceof YamlNode.Scalar scalar) {
            int index = names.indexOf(scalar.text().toUpperCase(Locale.ROOT));
            if (index >= 0) {
                return Optional.of(constants.get(index));
            }
        }
        report(
                value.line(),
                key + " must be one of " + String.join(", ", names) + ", found " + value.described(),
                needed);
        return Optional.empty();
    }

    /** A number in a range; anything else is a problem and counts as not there. */
    OptionalDouble number(String key, double low, double high, String unit) {
        YamlNode value = value(key);
        return value == null ? OptionalDouble.empty() : number(key, value, low, high, unit, false);
    }

    /** A number in a range. */
    OptionalDouble number(String key, YamlNode value, double low, double high, String unit, boolean needed) {
        OptionalDouble number = parsed(value);
        if (number.isPresent() && number.getAsDouble() >= low && number.getAsDouble() <= high) {
            return number;
        }
        String range = unit + ", " + YamlMembers.plain(low) + " to " + YamlMembers.plain(high);
        boolean swapped = key.equals("latitude_deg") && number.isPresent() && Math.abs(number.getAsDouble()) <= 180;
        String what = key + " must be " + (number.isPresent() ? "" : "a number of ") + range + ", found "
                + value.described() + (value instanceof YamlNode.Scalar scalar ? scalar.numberHint() : "")
                + (swapped ? "; are latitude and longitude swapped?" : "");
        report(value.line(), what, needed);
        return OptionalDouble.empty();
    }

    /** Where it is; a problem that drops the record where that cannot be told. */
    Optional<Position> position() {
        OptionalDouble latitude = needed("latitude_deg", 90, "degrees north");
        OptionalDouble longitude = needed("longitude_deg", 180, "degrees east");
        return latitude.isPresent() && longitude.isPresent()
                ? Optional.of(new Position(latitude.getAsDouble(), longitude.getAsDouble()))
                : Optional.empty();
    }

    private OptionalDouble needed(String key, double limit, String unit) {
        YamlNode value = value(key);
        if (value == null) {
            dropped(
                    line(),
                    key + " is missing; add " + unit + ", " + YamlMembers.plain(-limit) + " to "
                            + YamlMembers.plain(limit));
            return OptionalDouble.empty();
        }
        return number(key, value, -limit, limit, unit, true);
    }

    private static OptionalDouble parsed(YamlNode value) {
        return value instanceof YamlNode.Scalar scalar ? scalar.number() : OptionalDouble.empty();
    }
}
