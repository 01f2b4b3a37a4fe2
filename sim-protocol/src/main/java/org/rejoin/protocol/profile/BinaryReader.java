package org.rejoin.protocol.profile;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.List;
import java.util.Optional;

import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Decoded.Malformed;
import org.rejoin.protocol.StateSink;

/** Reads binary records. Every offset is checked against the datagram before it is used. */
record BinaryReader(String name, List<Value> values, Layout.Binary layout) implements ProfileDecoder.RecordReader {

    static ByteOrder order(Layout.Binary layout) {
        return layout.littleEndian() ? ByteOrder.LITTLE_ENDIAN : ByteOrder.BIG_ENDIAN;
    }

    @Override
    public boolean recognises(Datagram datagram) {
        return fault(octets(datagram)).isEmpty();
    }

    private ByteBuffer octets(Datagram datagram) {
        return datagram.payload().duplicate().order(order(layout));
    }

    private Optional<Malformed> fault(ByteBuffer octets) {
        byte[] magic = layout.magicOctets();
        if (octets.capacity() < magic.length || !octets.slice(0, magic.length).equals(ByteBuffer.wrap(magic))) {
            return Optional.of(new Malformed(0, "another beginning", "octets " + layout.magic()));
        }
        if (octets.capacity() == 0) {
            return Optional.of(new Malformed(0, "nothing", "a record of \"" + name + "\""));
        }
        return layout.length().flatMap(length -> lengthFault(octets, length));
    }

    private static Optional<Malformed> lengthFault(ByteBuffer octets, Layout.Length length) {
        int sent = octets.capacity();
        return length.fold(
                exact -> sent == exact.octets()
                        ? Optional.empty()
                        : Optional.of(new Malformed(0, sent + " octets", exact.octets() + " octets")),
                least -> sent >= least.octets()
                        ? Optional.empty()
                        : Optional.of(new Malformed(0, sent + " octets", "at least " + least.octets() + " octets")),
                stated -> statedFault(octets, stated));
    }

    private static Optional<Malformed> statedFault(ByteBuffer octets, Layout.Length.Stated stated) {
        int sent = octets.capacity();
        int at = stated.field().at();
        if (at + stated.field().type().size() > sent) {
            return Optional.of(new Malformed(0, sent + " octets", "a length field at octet " + at));
        }
        long said = stated.field().type().readInteger(octets, at);
        return said == (long) sent - stated.countsFrom()
                ? Optional.empty()
                : Optional.of(new Malformed(at, "length " + said, "length " + (sent - stated.countsFrom())));
    }

    @Override
    public List<Reading> read(Datagram datagram, StateSink sink) {
        ByteBuffer octets = octets(datagram);
        Optional<Malformed> fault = fault(octets);
        if (fault.isPresent()) {
            sink.other(fault.get());
            return List.of();
        }
        Reading reading = new Reading();
        for (Value value : values) {
            if (value.index().isEmpty()) {
                take(value, octets, 0, reading);
            }
        }
        layout.records().ifPresent(records -> subRecords(records, octets, reading, sink));
        return List.of(reading);
    }

    private void subRecords(Layout.Records records, ByteBuffer octets, Reading reading, StateSink sink) {
        int room = Math.max(0, octets.capacity() - records.start()) / records.size();
        long said = records.count().in(octets, room);
        if (said < 0 || said > room) {
            int at = records.count().at(records.start());
            sink.other(new Malformed(at, said + " sub-records", "at most the " + room + " that there is room for"));
        }
        long count = Math.max(0, Math.min(said, room));
        for (int i = 0; i < count; i++) {
            int start = records.start() + i * records.size();
            long index = records.index()
                    .type()
                    .readInteger(octets, start + records.index().at());
            for (Value value : values) {
                if (value.index().isPresent() && value.index().getAsInt() == index) {
                    take(value, octets, start, reading);
                }
            }
        }
    }

    private static void take(Value value, ByteBuffer octets, int start, Reading reading) {
        NumberType type = value.type().orElse(NumberType.U8);
        int at = start + value.at();
        if (at + type.size() > octets.capacity()) {
            return;
        }
        double raw = value.bit().isPresent()
                ? (double) (type.readInteger(octets, at) >>> value.bit().getAsInt() & 1)
                : type.read(octets, at);
        reading.put(value.is(), value.read(raw));
    }
}
