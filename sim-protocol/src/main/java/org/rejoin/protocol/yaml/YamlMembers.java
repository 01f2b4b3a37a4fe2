package org.rejoin.protocol.yaml;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;

/** The members of one mapping, each of which may be asked for by name and kind; what is wrong is said where it stands. */
public final class YamlMembers {

    private final YamlNode.Mapping node;
    private final String what;

    /**
     * Takes a mapping that holds nothing but what is known; what it describes, as "a profile", is for messages.
     *
     * @throws YamlException if it is no mapping, or has a key that is not known
     */
    public YamlMembers(YamlNode node, String what, List<String> known) throws YamlException {
        this(node, what);
        for (Map.Entry<String, YamlNode.Member> member : this.node.members().entrySet()) {
            if (!known.contains(member.getKey())) {
                YamlNode.Member at = member.getValue();
                throw new YamlException(
                        at.line(),
                        at.column(),
                        "unknown name \"" + member.getKey() + "\" in " + what
                                + Slip.closest(member.getKey(), known)
                                        .map(word -> "; did you mean " + word + "?")
                                        .orElse("; known are " + String.join(", ", known)));
            }
        }
    }

    /** Takes a mapping whose keys are free; throws if it is none. */
    public YamlMembers(YamlNode node, String what) throws YamlException {
        this.what = what;
        if (!(node instanceof YamlNode.Mapping mapping)) {
            throw node.fault(what + " must be a mapping of names to values, each \"name: value\"");
        }
        this.node = mapping;
    }

    /** Says what is wrong with the whole. */
    public YamlException fault(String message) {
        return node.fault(message);
    }

    /** {@return the names that are there, in the order of the file} */
    public Set<String> names() {
        return node.members().keySet();
    }

    /** A member of any kind; empty if it is not there, or has no value. */
    public Optional<YamlNode> node(String name) {
        return Optional.ofNullable(node.given(name)).map(YamlNode.Member::value);
    }

    /** A member that must be there; throws if it is not. */
    public YamlNode required(String name) throws YamlException {
        Optional<YamlNode> found = node(name);
        if (found.isPresent()) {
            return found.get();
        }
        YamlNode.Member empty = node.members().get(name);
        String message = what + " needs \"" + name + "\"";
        throw empty == null ? node.fault(message) : new YamlException(empty.line(), empty.column(), message);
    }

    /** A text; empty if it is not there. Throws if it is a list or a mapping. */
    public Optional<String> text(String name) throws YamlException {
        Optional<YamlNode> found = node(name);
        return found.isEmpty()
                ? Optional.empty()
                : Optional.of(scalar(found.get(), name).text());
    }

    /** A number; empty if it is not there. Throws if it is none. */
    public OptionalDouble number(String name) throws YamlException {
        Optional<YamlNode> found = node(name);
        return found.isEmpty() ? OptionalDouble.empty() : OptionalDouble.of(number(found.get(), name));
    }

    /**
     * A number in a range of a unit, "knots" or the like; empty if it is not there. Throws if it is none, or out of the
     * range.
     */
    public OptionalDouble number(String name, double low, double high, String unit) throws YamlException {
        OptionalDouble number = number(name);
        if (number.isPresent() && !(number.getAsDouble() >= low && number.getAsDouble() <= high)) {
            throw required(name)
                    .fault(name + " " + shown(required(name)) + " is not in " + plain(low) + " to " + plain(high) + " "
                            + unit);
        }
        return number;
    }

    /** A whole number in a range; empty if it is not there. Throws if it is none. */
    public OptionalInt integer(String name, int least, int most) throws YamlException {
        Optional<YamlNode> found = node(name);
        return found.isEmpty() ? OptionalInt.empty() : OptionalInt.of(integer(found.get(), name, least, most));
    }

    /** A whole number in a range; throws if it is not there, or is none. */
    public int requiredInteger(String name, int least, int most) throws YamlException {
        return integer(required(name), name, least, most);
    }

    /** One text, or several; throws if none is there, or anything but single values. */
    public List<String> texts(String name) throws YamlException {
        YamlNode found = required(name);
        if (!(found instanceof YamlNode.Sequence sequence)) {
            return List.of(scalar(found, name).text());
        }
        List<String> texts = new ArrayList<>();
        for (YamlNode item : sequence.items()) {
            texts.add(scalar(item, name).text());
        }
        return texts;
    }

    /** The items of a list; none if it is not there. Throws if it is no list. */
    public List<YamlNode> list(String name) throws YamlException {
        Optional<YamlNode> found = node(name);
        if (found.isEmpty()) {
            return List.of();
        }
        if (!(found.get() instanceof YamlNode.Sequence sequence)) {
            throw found.get().fault(name + " must be a list, each line beginning with \"- \"");
        }
        return sequence.items();
    }

    /** A whole number in a range, called so in messages; throws if it is none. */
    public static int integer(YamlNode node, String name, int least, int most) throws YamlException {
        YamlNode.Scalar scalar = scalar(node, name);
        double value = scalar.number().orElse(Double.NaN);
        if (!(value >= least && value <= most && value == Math.rint(value))) {
            throw scalar.fault(name + " " + scalar.described() + "; "
                    + (least == most ? String.valueOf(least) : "a whole number from " + least + " to " + most)
                    + " is needed" + scalar.numberHint());
        }
        return (int) value;
    }

    /** A single value, called so in messages; throws if it is a list or a mapping. */
    public static YamlNode.Scalar scalar(YamlNode node, String name) throws YamlException {
        if (node instanceof YamlNode.Scalar scalar) {
            return scalar;
        }
        throw node.fault(name + " must be one value, found " + node.described());
    }

    private static double number(YamlNode node, String name) throws YamlException {
        YamlNode.Scalar scalar = scalar(node, name);
        OptionalDouble value = scalar.number();
        if (value.isEmpty()) {
            throw scalar.fault(name + " " + scalar.described() + "; a number is needed" + scalar.numberHint());
        }
        return value.getAsDouble();
    }

    private static String shown(YamlNode node) {
        return node instanceof YamlNode.Scalar scalar ? scalar.text() : node.described();
    }

    /** A number as people write it, without a point where it is whole. */
    public static String plain(double number) {
        return number == Math.rint(number) ? Long.toString((long) number) : Double.toString(number);
    }
}
