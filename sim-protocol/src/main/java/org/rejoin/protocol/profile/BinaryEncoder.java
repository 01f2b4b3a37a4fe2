package org.rejoin.protocol.profile;

import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.WireFormat;

/** Writes binary records, with as many sub-records as the state has values for. */
record BinaryEncoder(List<Value> values, Layout.Binary layout) implements WireFormat.Encoder {

    @Override
    public List<byte[]> encode(AircraftState state) {
        Map<Integer, List<Value>> groups = groups(state);
        int count = count(groups.size());
        byte[] record = new byte[length(count)];
        ByteBuffer out = ByteBuffer.wrap(record).order(BinaryReader.order(layout));
        out.put(layout.magicOctets());
        for (Value value : values) {
            if (value.index().isEmpty()) {
                write(value, state, out, 0);
            }
        }
        layout.records().ifPresent(records -> subRecords(records, groups, count, state, out));
        if (layout.length().isPresent() && layout.length().get() instanceof Layout.Length.Stated stated) {
            stated.field().type().writeInteger(out, stated.field().at(), (long) record.length - stated.countsFrom());
        }
        return List.of(record);
    }

    /** Values by sub-record; a sub-record of which nothing is known is not sent. */
    private Map<Integer, List<Value>> groups(AircraftState state) {
        Map<Integer, List<Value>> groups = new LinkedHashMap<>();
        for (Value value : values) {
            if (value.index().isPresent() && StateValues.of(value.is(), state).isPresent()) {
                groups.computeIfAbsent(value.index().getAsInt(), index -> new ArrayList<>())
                        .add(value);
            }
        }
        return groups;
    }

    private int count(int known) {
        return layout.records()
                .map(records -> records.count()
                        .<Integer>fold(fixed -> Math.max(known, fixed.number()), stated -> known, toEnd -> known))
                .orElse(known);
    }

    private int length(int count) {
        int length = layout.magicOctets().length;
        for (Value value : values) {
            if (value.index().isEmpty()) {
                length = Math.max(length, value.at() + size(value));
            }
        }
        if (layout.records().isPresent()) {
            Layout.Records records = layout.records().get();
            length = Math.max(length, records.start() + count * records.size());
            if (records.count() instanceof Layout.Count.Told stated) {
                length = Math.max(length, end(stated.field()));
            }
        }
        int least = layout.length()
                .map(rule -> rule.<Integer>fold(
                        Layout.Length.Exact::octets,
                        Layout.Length.AtLeast::octets,
                        stated -> Math.max(end(stated.field()), stated.countsFrom())))
                .orElse(0);
        return Math.max(length, least);
    }

    private static int end(Layout.IntegerField field) {
        return field.at() + field.type().size();
    }

    private static int size(Value value) {
        return value.type().orElse(NumberType.U8).size();
    }

    private void subRecords(
            Layout.Records records, Map<Integer, List<Value>> groups, int count, AircraftState state, ByteBuffer out) {
        int start = records.start();
        for (Map.Entry<Integer, List<Value>> group : groups.entrySet()) {
            records.index().type().writeInteger(out, start + records.index().at(), group.getKey());
            for (Value value : values) {
                if (value.index().isPresent() && value.index().getAsInt() == group.getKey()) {
                    write(value, state, out, start);
                }
            }
            start += records.size();
        }
        for (int i = groups.size(); i < count; i++) {
            records.index().type().writeInteger(out, start + records.index().at(), unusedIndex());
            start += records.size();
        }
        if (records.count() instanceof Layout.Count.Told stated) {
            stated.field().type().writeInteger(out, stated.field().at(), count);
        }
    }

    private int unusedIndex() {
        int candidate = 0;
        while (isUsed(candidate)) {
            candidate++;
        }
        return candidate;
    }

    private boolean isUsed(int index) {
        return values.stream().anyMatch(v -> v.index().orElse(-1) == index);
    }

    private static void write(Value value, AircraftState state, ByteBuffer out, int start) {
        NumberType type = value.type().orElse(NumberType.U8);
        int at = start + value.at();
        OptionalDouble known = StateValues.of(value.is(), state);
        if (value.bit().isPresent()) {
            long mask = 1L << value.bit().getAsInt();
            long others = type.readInteger(out, at) & ~mask;
            boolean set = known.isPresent() && value.write(known.getAsDouble()) != 0;
            type.writeInteger(out, at, set ? others | mask : others);
        } else if (known.isPresent()) {
            type.write(out, at, wrapped(value, type, value.write(known.getAsDouble())));
        } else {
            type.write(out, at, value.missing().orElse(type.isInteger() ? 0 : Double.NaN));
        }
    }

    /** Clocks and binary angles start again when the number is full, instead of sticking at its end. */
    private static double wrapped(Value value, NumberType type, double raw) {
        boolean circular = value.is() == Quantity.TIME || value.unit() == Unit.BAM16 || value.unit() == Unit.BAM32;
        if (!circular || !type.isInteger() || type == NumberType.I64) {
            return raw;
        }
        double steps = Math.pow(2, 8.0 * type.size());
        double turned = Math.rint(raw) - Math.floor(Math.rint(raw) / steps) * steps;
        boolean signed = type == NumberType.I8 || type == NumberType.I16 || type == NumberType.I32;
        return signed && turned >= steps / 2 ? turned - steps : turned;
    }
}
