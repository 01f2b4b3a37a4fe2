package org.rejoin.protocol.profile;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.WireFormat;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;

/** Writes lines of text. */
record TextEncoder(List<Value> values, Layout.Text layout) implements WireFormat.Encoder {

    /** A billionth of a radian is 6 mm. */
    private static final int DECIMALS = 9;

    /** A field may not be empty where blanks part the fields; this is no number, so it reads as absent. */
    private static final String NO_NUMBER = "-";

    /** Where only numbers are fields, what holds the place of one. */
    private static final String NO_VALUE = "nan";

    @Override
    public List<byte[]> encode(AircraftState state) {
        if (layout.json()) {
            return List.of(json(state).getBytes(StandardCharsets.UTF_8));
        }
        boolean blank = layout.numbers() || layout.separator().equals(Layout.Text.BLANK);
        List<String> fields = layout.keyed() ? keyed(state) : numbered(state);
        if (blank) {
            String none = layout.numbers() ? NO_VALUE : NO_NUMBER;
            fields.replaceAll(f -> f.isEmpty() ? none : f);
        }
        String line = layout.numbers()
                ? layout.startsWith() + " " + String.join(" ", behindTheBeginning(fields))
                : String.join(blank ? " " : layout.separator(), fields);
        return List.of((line + "\r\n").getBytes(StandardCharsets.UTF_8));
    }

    /** Without the numbers that stand in how the record begins. */
    private List<String> behindTheBeginning(List<String> fields) {
        int there = TextRecord.fields(layout.startsWith(), layout).size();
        return fields.subList(Math.min(there, fields.size()), fields.size());
    }

    /** Inner names become inner objects again; a list becomes an object with the numbers for names. */
    private String json(AircraftState state) {
        ObjectNode object = JsonNodeFactory.instance.objectNode();
        for (Value value : values) {
            String number = number(value, state);
            if (!number.isEmpty()) {
                parent(object, value.key()).put(last(value.key()), new BigDecimal(number));
            }
            value.hemisphere().ifPresent(h -> parent(object, h.key()).put(last(h.key()), letter(value, h, state)));
        }
        return object + "\n";
    }

    private static ObjectNode parent(ObjectNode object, String key) {
        ObjectNode parent = object;
        for (int dot = key.indexOf('.'), from = 0; dot >= 0; from = dot + 1, dot = key.indexOf('.', from)) {
            parent = parent.withObjectProperty(key.substring(from, dot));
        }
        return parent;
    }

    private static String last(String key) {
        return key.substring(key.lastIndexOf('.') + 1);
    }

    private List<String> keyed(AircraftState state) {
        List<String> fields = new ArrayList<>();
        if (!layout.startsWith().isEmpty()) {
            fields.add(layout.startsWith());
        }
        for (Value value : values) {
            fields.add(value.key() + layout.keyValue() + number(value, state));
            value.hemisphere().ifPresent(h -> fields.add(h.key() + layout.keyValue() + letter(value, h, state)));
        }
        while (fields.size() < layout.fields().orElse(0)) {
            fields.add("");
        }
        return fields;
    }

    private List<String> numbered(AircraftState state) {
        int count = layout.fields().orElse(0);
        for (Value value : values) {
            count = Math.max(count, Math.max(value.at(), value.minutes().orElse(0)) + 1);
            count = Math.max(count, value.hemisphere().map(h -> h.at() + 1).orElse(0));
        }
        List<String> fields = new ArrayList<>(Collections.nCopies(count, ""));
        if (!layout.startsWith().isEmpty() && !layout.numbers()) {
            List<String> prefix = TextRecord.split(layout.startsWith(), layout.separator());
            for (int i = 0; i < Math.min(prefix.size(), count); i++) {
                fields.set(i, prefix.get(i));
            }
        }
        for (Value value : values) {
            String number = number(value, state);
            fields.set(value.at(), number);
            value.minutes().ifPresent(at -> {
                String[] parts = number.isEmpty() ? new String[] {"", ""} : wholeAndMinutes(number);
                fields.set(value.at(), parts[0]);
                fields.set(at, parts[1]);
            });
            value.hemisphere().ifPresent(h -> fields.set(h.at(), letter(value, h, state)));
        }
        return fields;
    }

    private String number(Value value, AircraftState state) {
        OptionalDouble known = StateValues.of(value.is(), state);
        if (known.isEmpty()) {
            return value.missing().isPresent() ? plain(value.missing().getAsDouble()) : "";
        }
        double shown = value.hemisphere().isPresent() ? Math.abs(known.getAsDouble()) : known.getAsDouble();
        return plain(value.write(shown));
    }

    private String[] wholeAndMinutes(String degrees) {
        BigDecimal number = new BigDecimal(degrees.replace(layout.decimal(), '.'));
        BigDecimal minutes = number.abs().remainder(BigDecimal.ONE).multiply(BigDecimal.valueOf(60));
        String whole = number.abs().toBigInteger().toString();
        return new String[] {
            number.signum() < 0 ? "-" + whole : whole,
            minutes.stripTrailingZeros().toPlainString().replace('.', layout.decimal())
        };
    }

    private String plain(double number) {
        BigDecimal rounded = BigDecimal.valueOf(number).setScale(DECIMALS, RoundingMode.HALF_EVEN);
        return rounded.stripTrailingZeros().toPlainString().replace('.', layout.decimal());
    }

    private static String letter(Value value, Value.Hemisphere hemisphere, AircraftState state) {
        boolean latitude = value.is() == Quantity.LATITUDE;
        if (StateValues.of(value.is(), state).orElse(0) >= 0) {
            return latitude ? "N" : "E";
        }
        String usual = latitude ? "S" : "W";
        return hemisphere.negative().contains(usual) || hemisphere.negative().isEmpty()
                ? usual
                : hemisphere.negative().get(0);
    }
}
