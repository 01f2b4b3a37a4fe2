package org.rejoin.protocol.profile;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;

import org.rejoin.protocol.yaml.YamlException;
import org.rejoin.protocol.yaml.YamlMembers;
import org.rejoin.protocol.yaml.YamlNode;

/** Makes a profile of YAML, and refuses everything that could not be meant. */
final class ProfileReader {

    private static final String UNNAMED = "unnamed profile";

    Profile read(YamlNode root) throws YamlException {
        YamlMembers top = new YamlMembers(
                root,
                "a profile",
                List.of("profile", "name", "kind", "max_hz", "ask", "text", "binary", "values", "also"));
        top.integer("profile", Profile.VERSION, Profile.VERSION);
        OptionalDouble maxHz = top.number("max_hz");
        if (maxHz.isPresent() && !(maxHz.getAsDouble() > 0)) {
            throw top.required("max_hz").fault("max_hz " + maxHz.getAsDouble() + "; a number above 0 is needed");
        }
        Optional<YamlNode> ask = top.node("ask");
        if (ask.isPresent()) {
            Asking.read(ask.get()); // kept in the file; refused here if it is not valid
        }
        Map<Quantity, YamlNode> places = new EnumMap<>(Quantity.class);
        List<Message> messages = new ArrayList<>();
        messages.add(message(top, places));
        if (!messages.get(0).hasPosition()) {
            throw top.required("values")
                    .fault("no position; latitude and longitude are needed, or ecef_x, ecef_y and ecef_z");
        }
        for (YamlNode other : items(top.node("also"), "also")) {
            YamlMembers members = new YamlMembers(other, "a message", List.of("kind", "text", "binary", "values"));
            Message message = message(members, places);
            for (Value value : message.values()) {
                if (value.is().isPosition() || value.is() == Quantity.TIME) {
                    throw other.fault(
                            value.is().text() + " under \"also\"; position and time belong to the first message");
                }
            }
            messages.add(message);
        }
        return new Profile(top.text("name").orElse(UNNAMED), maxHz, messages);
    }

    private static Message message(YamlMembers members, Map<Quantity, YamlNode> places) throws YamlException {
        Layout layout = layout(members);
        ValueReader reader = new ValueReader(layout);
        List<Value> values = new ArrayList<>();
        for (YamlNode item : items(Optional.of(members.required("values")), "values")) {
            Value value = reader.read(item);
            YamlNode first = places.putIfAbsent(value.is(), item);
            if (first != null) {
                throw item.fault("a second value is " + value.is().text() + "; the first is in line " + first.line());
            }
            values.add(value);
        }
        return new Message(layout, values);
    }

    private static List<YamlNode> items(Optional<YamlNode> list, String what) throws YamlException {
        if (list.isEmpty()) {
            return List.of();
        }
        if (!(list.get() instanceof YamlNode.Sequence sequence)) {
            throw list.get().fault(what + " must be a list");
        }
        return sequence.items();
    }

    private static Layout layout(YamlMembers top) throws YamlException {
        Optional<YamlNode> text = top.node("text");
        Optional<YamlNode> binary = top.node("binary");
        if (text.isPresent() == binary.isPresent()) {
            throw top.fault("a profile needs either \"text\" or \"binary\"");
        }
        String kind = text.isPresent() ? "text" : "binary";
        String said = top.text("kind").orElse(kind);
        if (!said.equals(kind)) {
            throw top.required("kind")
                    .fault("kind \"" + said + "\" with a section \"" + kind + "\"; kind \"" + kind + "\" is needed");
        }
        return text.isPresent() ? text(text.get()) : binary(binary.orElseThrow());
    }

    private static Layout text(YamlNode node) throws YamlException {
        YamlMembers text =
                new YamlMembers(node, "text", List.of("starts_with", "separator", "key_value", "decimal", "fields"));
        String separator = text.text("separator").orElse(",");
        String keyValue = text.text("key_value").orElse("");
        String decimal = text.text("decimal").orElse(".");
        if (separator.isEmpty()) {
            throw text.required("separator")
                    .fault("an empty separator; one string is needed, or \"blank\", or \"numbers\"");
        }
        if (!decimal.equals(".") && !decimal.equals(",")) {
            throw text.required("decimal").fault("decimal \"" + decimal + "\"; \".\" or \",\" is needed");
        }
        if (separator.equals(Layout.Text.NUMBERS) && !keyValue.isEmpty()) {
            throw text.required("key_value")
                    .fault("key_value with separator \"numbers\", which go by their order alone");
        }
        if (keyValue.equals(Layout.Text.JSON) && decimal.equals(",")) {
            throw text.required("decimal").fault("decimal \",\"; numbers of JSON have \".\"");
        }
        if (decimal.equals(separator)) {
            throw node.fault("decimal and separator are both \"" + decimal + "\"; they must differ");
        }
        return new Layout.Text(
                text.text("starts_with").orElse(""),
                separator,
                keyValue,
                decimal.charAt(0),
                text.integer("fields", 1, 1000));
    }

    private static Layout binary(YamlNode node) throws YamlException {
        YamlMembers binary = new YamlMembers(node, "binary", List.of("byte_order", "magic", "length", "records"));
        String order = binary.text("byte_order").orElse("big");
        if (!order.equals("big") && !order.equals("little")) {
            throw binary.required("byte_order").fault("byte_order \"" + order + "\"; \"big\" or \"little\" is needed");
        }
        String magic = binary.text("magic").orElse("");
        if (!magic.matches("([0-9A-Fa-f]{2}( ?[0-9A-Fa-f]{2})*)?")) {
            throw binary.required("magic").fault("magic \"" + magic + "\"; pairs of hexadecimal digits are needed");
        }
        Optional<YamlNode> length = binary.node("length");
        Optional<YamlNode> records = binary.node("records");
        return new Layout.Binary(
                order.equals("little"),
                magic,
                length.isEmpty() ? Optional.empty() : Optional.of(length(length.get())),
                records.isEmpty() ? Optional.empty() : Optional.of(records(records.get())));
    }

    private static Layout.Length length(YamlNode node) throws YamlException {
        if (node instanceof YamlNode.Scalar) {
            return new Layout.Length.Exact(YamlMembers.integer(node, "length", 1, 65_535));
        }
        YamlMembers length = new YamlMembers(node, "length", List.of("min", "field", "counts_from"));
        OptionalInt least = length.integer("min", 1, 65_535);
        if (least.isPresent()) {
            return new Layout.Length.AtLeast(least.getAsInt());
        }
        return new Layout.Length.Stated(
                field(length.required("field"), "length field", 65_535),
                length.integer("counts_from", 0, 65_535).orElse(0));
    }

    private static Layout.Records records(YamlNode node) throws YamlException {
        YamlMembers records = new YamlMembers(node, "records", List.of("start", "size", "index", "count"));
        int size = records.requiredInteger("size", 1, 65_535);
        Layout.IntegerField index = field(records.required("index"), "index", size);
        Layout.Count count = new Layout.Count.ToEnd();
        Optional<YamlNode> counted = records.node("count");
        if (counted.isPresent() && counted.get() instanceof YamlNode.Mapping) {
            count = new Layout.Count.Told(field(counted.get(), "count", 65_535));
        } else if (counted.isPresent() && !records.text("count").orElse("").equals("to_end")) {
            count = new Layout.Count.Fixed(records.requiredInteger("count", 1, 65_535));
        }
        return new Layout.Records(records.requiredInteger("start", 0, 65_535), size, index, count);
    }

    private static Layout.IntegerField field(YamlNode node, String what, int limit) throws YamlException {
        YamlMembers field = new YamlMembers(node, what, List.of("at", "type"));
        YamlNode name = field.required("type");
        NumberType type = ValueReader.type(name);
        if (!type.isInteger()) {
            throw name.fault(what + " of type " + type.text() + "; a whole number is needed");
        }
        return new Layout.IntegerField(field.requiredInteger("at", 0, limit - type.size()), type);
    }
}
