package org.rejoin.protocol.profile;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.stream.Collectors;

import org.rejoin.protocol.yaml.YamlException;
import org.rejoin.protocol.yaml.YamlMembers;
import org.rejoin.protocol.yaml.YamlNode;

/** Makes a value of an entry under "values". */
record ValueReader(Layout layout) {

    private static final int FARTHEST = 65_535;

    Value read(YamlNode node) throws YamlException {
        YamlMembers value = new YamlMembers(
                node,
                "a value",
                List.of(
                        "is",
                        "at",
                        "unit",
                        "type",
                        "scale",
                        "offset",
                        "missing",
                        "bit",
                        "hemisphere",
                        "index",
                        "minutes"));
        Quantity is = quantity(value.required("is"));
        Unit unit = unit(value, is);
        double scale = value.number("scale").orElse(1);
        if (scale == 0) {
            throw value.required("scale").fault("scale 0 would make every value the same; leave it out for 1");
        }
        OptionalDouble missing = value.number("missing");
        OptionalInt index = value.integer("index", 0, Integer.MAX_VALUE);
        Optional<NumberType> type = type(value);
        int at = 0;
        String key = "";
        if (layout instanceof Layout.Text text && text.keyed()) {
            key = YamlMembers.scalar(value.required("at"), "at").text();
        } else {
            at = position(value, type, index);
        }
        if (index.isPresent()
                && !(layout instanceof Layout.Binary binary && binary.records().isPresent())) {
            throw value.required("index").fault("an index needs \"records\" in \"binary\"");
        }
        return new Value(
                is,
                at,
                key,
                unit,
                type,
                scale,
                value.number("offset").orElse(0),
                missing,
                bit(value, is, type),
                hemisphere(value),
                index,
                minutes(value, unit));
    }

    private static Quantity quantity(YamlNode node) throws YamlException {
        String name = YamlMembers.scalar(node, "is").text();
        return Quantity.named(name)
                .orElseThrow(() -> node.fault("unknown quantity \"" + name + "\"; known are "
                        + Arrays.stream(Quantity.values()).map(Quantity::text).collect(Collectors.joining(", "))));
    }

    private static Unit unit(YamlMembers value, Quantity is) throws YamlException {
        Optional<YamlNode> node = value.node("unit");
        if (node.isEmpty()) {
            if (is.isFlag() || is == Quantity.TIME) {
                return Unit.NONE;
            }
            throw value.fault(is.text() + " needs a unit; one of " + units(is));
        }
        String name = YamlMembers.scalar(node.get(), "unit").text();
        Optional<Unit> unit = Unit.named(name);
        if (unit.isEmpty()) {
            throw node.get().fault("unknown unit \"" + name + "\"; " + is.text() + " takes one of " + units(is));
        }
        if (!is.accepts(unit.get())) {
            throw node.get()
                    .fault("unit \"" + name + "\" does not measure " + is.text() + "; it takes one of " + units(is));
        }
        return unit.get();
    }

    private static String units(Quantity is) {
        return Arrays.stream(Unit.values()).filter(is::accepts).map(Unit::text).collect(Collectors.joining(", "));
    }

    static NumberType type(YamlNode node) throws YamlException {
        String name = YamlMembers.scalar(node, "type").text();
        return NumberType.named(name)
                .orElseThrow(() -> node.fault("unknown type \"" + name + "\"; known are "
                        + Arrays.stream(NumberType.values())
                                .map(NumberType::text)
                                .collect(Collectors.joining(", "))));
    }

    private Optional<NumberType> type(YamlMembers value) throws YamlException {
        if (layout instanceof Layout.Binary) {
            return Optional.of(type(value.required("type")));
        }
        Optional<YamlNode> node = value.node("type");
        if (node.isPresent()) {
            throw node.get().fault("a type belongs to binary profiles; text has only numbers");
        }
        return Optional.empty();
    }

    private int position(YamlMembers value, Optional<NumberType> type, OptionalInt index) throws YamlException {
        int at = value.requiredInteger("at", 0, FARTHEST);
        int end = at + type.map(NumberType::size).orElse(1);
        int limit = limit(index.isPresent());
        if (end > limit) {
            String unit = layout.fold(text -> " fields", binary -> " octets");
            throw value.required("at")
                    .fault("at " + at + " goes past the end of the record, which has " + limit + unit);
        }
        return at;
    }

    private int limit(boolean inSubRecord) {
        return layout.fold(text -> text.fields().orElse(1000), binary -> limit(binary, inSubRecord));
    }

    private static int limit(Layout.Binary binary, boolean inSubRecord) {
        if (inSubRecord && binary.records().isPresent()) {
            return binary.records().get().size();
        }
        return binary.length()
                .map(rule -> rule.<Integer>fold(Layout.Length.Exact::octets, least -> FARTHEST, stated -> FARTHEST))
                .orElse(FARTHEST);
    }

    private static OptionalInt bit(YamlMembers value, Quantity is, Optional<NumberType> type) throws YamlException {
        Optional<YamlNode> node = value.node("bit");
        if (node.isEmpty()) {
            return OptionalInt.empty();
        }
        if (!is.isFlag() || type.isEmpty() || !type.get().isInteger()) {
            throw node.get().fault("a bit can be picked only for paused and on_ground, from a whole number");
        }
        return value.integer("bit", 0, type.get().size() * 8 - 1);
    }

    private OptionalInt minutes(YamlMembers value, Unit unit) throws YamlException {
        Optional<YamlNode> node = value.node("minutes");
        if (node.isPresent() && !(layout instanceof Layout.Text text && !text.keyed() && unit == Unit.DEG)) {
            throw node.get().fault("minutes belong to whole degrees (unit deg) in text whose fields go by number");
        }
        return value.integer("minutes", 0, limit(false) - 1);
    }

    private Optional<Value.Hemisphere> hemisphere(YamlMembers value) throws YamlException {
        Optional<YamlNode> node = value.node("hemisphere");
        if (node.isEmpty()) {
            return Optional.empty();
        }
        if (!(layout instanceof Layout.Text text)) {
            throw node.get().fault("a hemisphere letter belongs to text profiles");
        }
        YamlMembers hemisphere = new YamlMembers(node.get(), "hemisphere", List.of("at", "negative"));
        boolean keyed = text.keyed();
        return Optional.of(new Value.Hemisphere(
                keyed ? 0 : hemisphere.requiredInteger("at", 0, limit(false) - 1),
                keyed ? YamlMembers.scalar(hemisphere.required("at"), "at").text() : "",
                hemisphere.texts("negative")));
    }
}
