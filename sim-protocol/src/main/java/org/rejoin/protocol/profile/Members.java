package org.rejoin.protocol.profile;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;

/** The members of one mapping, each of which may be asked for by name and kind. */
final class Members {

    private final YamlNode node;
    private final String what;
    private final Map<String, YamlNode> members = new LinkedHashMap<>();

    /** Takes a mapping whose keys are all among {@code known}. */
    Members(YamlNode node, String what, String... known) throws ProfileException {
        this.node = node;
        this.what = what;
        if (!(node instanceof YamlNode.Mapping mapping)) {
            throw node.fault(what + " must be a mapping of names to values");
        }
        for (Map.Entry<YamlNode.Scalar, YamlNode> member : mapping.members().entrySet()) {
            String key = member.getKey().text();
            if (!List.of(known).contains(key)) {
                throw member.getKey()
                        .fault("unknown name \"" + key + "\" in " + what + "; known are " + String.join(", ", known));
            }
            members.put(key, member.getValue());
        }
    }

    ProfileException fault(String message) {
        return node.fault(message);
    }

    Optional<YamlNode> node(String name) {
        return Optional.ofNullable(members.get(name));
    }

    YamlNode required(String name) throws ProfileException {
        return node(name).orElseThrow(() -> node.fault(what + " needs \"" + name + "\""));
    }

    Optional<String> text(String name) throws ProfileException {
        Optional<YamlNode> found = node(name);
        return found.isEmpty()
                ? Optional.empty()
                : Optional.of(scalar(found.get(), name).text());
    }

    double number(String name, double otherwise) throws ProfileException {
        Optional<YamlNode> found = node(name);
        if (found.isEmpty()) {
            return otherwise;
        }
        YamlNode.Scalar scalar = scalar(found.get(), name);
        double value = TextRecord.number(scalar.text(), '.');
        if (Double.isNaN(value)) {
            throw scalar.fault(name + " \"" + scalar.text() + "\"; a number is needed");
        }
        return value;
    }

    OptionalInt integer(String name, int least, int most) throws ProfileException {
        Optional<YamlNode> found = node(name);
        return found.isEmpty() ? OptionalInt.empty() : OptionalInt.of(integer(found.get(), name, least, most));
    }

    int requiredInteger(String name, int least, int most) throws ProfileException {
        return integer(required(name), name, least, most);
    }

    static int integer(YamlNode node, String name, int least, int most) throws ProfileException {
        YamlNode.Scalar scalar = scalar(node, name);
        double value = TextRecord.number(scalar.text(), '.');
        if (!(value >= least && value <= most && value == Math.rint(value))) {
            throw scalar.fault(
                    name + " \"" + scalar.text() + "\"; a whole number from " + least + " to " + most + " is needed");
        }
        return (int) value;
    }

    static YamlNode.Scalar scalar(YamlNode node, String name) throws ProfileException {
        if (node instanceof YamlNode.Scalar scalar) {
            return scalar;
        }
        throw node.fault(name + " must be one value");
    }

    List<String> texts(String name) throws ProfileException {
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
}
