package org.rejoin.protocol.profile;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/** Writes profiles as people would: one line a value, defaults left out. */
final class ProfileWriter {

    private final StringBuilder out = new StringBuilder();

    String write(Profile profile) {
        out.append("profile: ").append(Profile.VERSION).append('\n');
        out.append("name: ").append(quoted(profile.name())).append('\n');
        out.append("kind: ")
                .append(profile.first().layout().<String>fold(text -> "text", binary -> "binary"))
                .append('\n');
        profile.maxHz().ifPresent(hz -> out.append("max_hz: ").append(hz).append('\n'));
        out.append('\n');
        message(profile.first());
        List<Message> others = profile.messages().subList(1, profile.messages().size());
        out.append(others.isEmpty() ? "" : "\nalso:\n");
        for (Message other : others) {
            String lines =
                    new ProfileWriter().message(other).replace("\n\n", "\n").stripTrailing();
            out.append("  - ").append(lines.replace("\n", "\n    ")).append('\n');
        }
        return out.toString();
    }

    private String message(Message message) {
        boolean keyed = message.layout().fold(this::text, this::binary);
        out.append("\nvalues:\n");
        for (Value value : message.values()) {
            out.append("  - {").append(value(value, keyed)).append("}\n");
        }
        return out.toString();
    }

    /** Writes it; whether its values go by key. */
    private boolean text(Layout.Text text) {
        out.append("text:\n");
        if (!text.startsWith().isEmpty()) {
            out.append("  starts_with: ").append(quoted(text.startsWith())).append('\n');
        }
        out.append("  separator: ").append(quoted(text.separator())).append('\n');
        if (text.keyed()) {
            out.append("  key_value: ").append(quoted(text.keyValue())).append('\n');
        }
        out.append("  decimal: ").append(quoted(String.valueOf(text.decimal()))).append('\n');
        text.fields().ifPresent(n -> out.append("  fields: ").append(n).append('\n'));
        return text.keyed();
    }

    /** Writes it; its values have no keys. */
    private boolean binary(Layout.Binary binary) {
        out.append("binary:\n  byte_order: ")
                .append(binary.littleEndian() ? "little" : "big")
                .append('\n');
        if (!binary.magic().isEmpty()) {
            out.append("  magic: ").append(quoted(binary.magic())).append('\n');
        }
        binary.length()
                .ifPresent(l -> out.append("  length: ").append(length(l)).append('\n'));
        binary.records()
                .ifPresent(r -> out.append("  records: {start: ")
                        .append(r.start())
                        .append(", size: ")
                        .append(r.size())
                        .append(", index: ")
                        .append(field(r.index()))
                        .append(", count: ")
                        .append(count(r.count()))
                        .append("}\n"));
        return false;
    }

    private static String length(Layout.Length length) {
        return length.fold(
                exact -> String.valueOf(exact.octets()),
                least -> "{min: " + least.octets() + "}",
                stated -> "{field: " + field(stated.field()) + ", counts_from: " + stated.countsFrom() + "}");
    }

    private static String count(Layout.Count count) {
        return count.fold(fixed -> String.valueOf(fixed.number()), stated -> field(stated.field()), toEnd -> "to_end");
    }

    private static String field(Layout.IntegerField field) {
        return "{at: " + field.at() + ", type: " + field.type().text() + "}";
    }

    private static String value(Value value, boolean keyed) {
        List<String> parts = new ArrayList<>();
        parts.add("is: " + value.is().text());
        value.index().ifPresent(i -> parts.add("index: " + i));
        parts.add("at: " + (keyed ? quoted(value.key()) : String.valueOf(value.at())));
        value.type().ifPresent(t -> parts.add("type: " + t.text()));
        parts.add("unit: " + value.unit().text());
        if (value.scale() != 1) {
            parts.add("scale: " + value.scale());
        }
        if (value.offset() != 0) {
            parts.add("offset: " + value.offset());
        }
        value.missing().ifPresent(m -> parts.add("missing: " + m));
        value.bit().ifPresent(b -> parts.add("bit: " + b));
        value.minutes().ifPresent(m -> parts.add("minutes: " + m));
        value.hemisphere()
                .ifPresent(h -> parts.add("hemisphere: {at: "
                        + (keyed ? quoted(h.key()) : String.valueOf(h.at())) + ", negative: ["
                        + h.negative().stream().map(ProfileWriter::quoted).collect(Collectors.joining(", ")) + "]}"));
        return String.join(", ", parts);
    }

    // Double quotes of YAML, so that any name survives.
    private static String quoted(String text) {
        StringBuilder quoted = new StringBuilder("\"");
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            switch (c) {
                case '"', '\\' -> quoted.append('\\').append(c);
                case '\t' -> quoted.append("\\t");
                case '\n' -> quoted.append("\\n");
                default -> quoted.append(c < ' ' ? '?' : c);
            }
        }
        return quoted.append('"').toString();
    }
}
