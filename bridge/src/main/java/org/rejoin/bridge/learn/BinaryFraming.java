package org.rejoin.bridge.learn;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.TreeMap;
import java.util.stream.Collectors;

import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.profile.Layout;
import org.rejoin.protocol.profile.NumberType;

/** Takes binary records apart: every offset, every type, both byte orders. */
final class BinaryFraming {

    static final List<NumberType> TYPES = List.of(
            NumberType.F64,
            NumberType.F32,
            NumberType.I32,
            NumberType.U32,
            NumberType.U16,
            NumberType.I16,
            NumberType.I64);

    private static final int MOST_LENGTHS = 3;
    private static final int LONGEST = 2048;
    private static final double LARGEST = 1e10;
    private static final double LARGEST_I64 = 4e11;
    private static final double SMALLEST = 1e-30;

    private BinaryFraming() {}

    /** Every way that is worth a try, the likeliest first. */
    static List<Frame> frames(List<Datagram> datagrams) {
        Map<Integer, List<Datagram>> byLength = new LinkedHashMap<>();
        for (Datagram datagram : datagrams) {
            byLength.computeIfAbsent(datagram.length(), k -> new ArrayList<>()).add(datagram);
        }
        List<Frame> frames = new ArrayList<>();
        byLength.entrySet().stream()
                .filter(e -> e.getKey() >= 8 && e.getKey() <= LONGEST)
                .sorted(Comparator.comparingInt((Map.Entry<Integer, List<Datagram>> e) ->
                                e.getValue().size())
                        .reversed())
                .limit(MOST_LENGTHS)
                .filter(e -> e.getValue().size() > datagrams.size() / 10)
                .forEach(e -> {
                    int sign = sign(e.getValue());
                    if (sign >= 0) {
                        e.getValue().stream()
                                .collect(Collectors.groupingBy(
                                        datagram -> datagram.payload().get(sign), TreeMap::new, Collectors.toList()))
                                .values()
                                .forEach(kind ->
                                        add(frames, kind, datagrams.get(0).receivedS(), sign + 1));
                    }
                    add(frames, e.getValue(), datagrams.get(0).receivedS(), 0);
                });
        return frames;
    }

    private static void add(List<Frame> frames, List<Datagram> kind, double startS, int signs) {
        double[] timeS = times(kind, startS);
        frames.add(plain(kind, timeS, signs, true));
        frames.add(plain(kind, timeS, signs, false));
    }

    /** The octet that says what kind of datagram each of one length is: it has few values, and they take turns; -1 for none. */
    private static int sign(List<Datagram> datagrams) {
        int length = datagrams.get(0).length();
        for (int at = 0; at < Math.min(Frame.MOST_BEGINNING, length); at++) {
            Map<Byte, Integer> counts = new HashMap<>();
            int changes = 0;
            for (int i = 0; i < datagrams.size(); i++) {
                byte octet = datagrams.get(i).payload().get(at);
                counts.merge(octet, 1, Integer::sum);
                changes += i > 0 && octet != datagrams.get(i - 1).payload().get(at) ? 1 : 0;
            }
            boolean few = counts.size() > 1 && counts.size() <= MOST_LENGTHS;
            if (few
                    && changes > datagrams.size() / 4
                    && counts.values().stream().allMatch(count -> count > datagrams.size() / 10)) {
                return at;
            }
            if (counts.size() > 1) {
                return -1; // numbers begin here
            }
        }
        return -1;
    }

    /** Sub-records with an index, for feeds that no fixed offsets explain. */
    static List<Frame> inParts(List<Datagram> datagrams) {
        List<Frame> frames = new ArrayList<>();
        for (SubRecords.Likely likely : SubRecords.likely(datagrams)) {
            frames.add(subRecords(datagrams, likely.records(), likely.littleEndian()));
            if (likely.records().index().type().size() == 1) {
                frames.add(subRecords(datagrams, likely.records(), !likely.littleEndian()));
            }
        }
        return frames;
    }

    private static Frame plain(List<Datagram> datagrams, double[] timeS, int signs, boolean littleEndian) {
        int length = datagrams.get(0).length();
        List<Column> columns = new ArrayList<>();
        for (int at = 0; at < length; at++) {
            for (NumberType type : TYPES) {
                if (at + type.size() <= length) {
                    column(datagrams, timeS, at, type, littleEndian).ifPresent(columns::add);
                }
            }
        }
        Layout layout =
                new Layout.Binary(littleEndian, "", Optional.of(new Layout.Length.Exact(length)), Optional.empty());
        return new Frame(
                layout,
                timeS,
                List.copyOf(columns),
                beginning(datagrams),
                signs,
                "binary, " + length + " octets, " + (littleEndian ? "little" : "big") + "-endian",
                List.of());
    }

    private static Optional<Column> column(
            List<Datagram> datagrams, double[] timeS, int at, NumberType type, boolean littleEndian) {
        double[] raw = new double[datagrams.size()];
        boolean changes = false;
        boolean wide = type != NumberType.I64;
        for (int i = 0; i < raw.length; i++) {
            raw[i] = read(datagrams.get(i).payload(), at, type, littleEndian);
            if (!usable(raw[i], type)) {
                return Optional.empty();
            }
            changes |= raw[i] != raw[0];
            wide |= isWide(raw[i]);
        }
        return changes && wide
                ? Optional.of(new Column(Spot.binary(at, type, OptionalInt.empty()), timeS, raw))
                : Optional.empty();
    }

    /** One whose upper half never counts is a number of 32 bits with its neighbour. */
    private static boolean isWide(double raw) {
        return raw < Integer.MIN_VALUE || raw > 0xFFFF_FFFFL;
    }

    private static boolean usable(double raw, NumberType type) {
        if (!type.isInteger()) {
            double size = Math.abs(raw);
            return size == 0 || (size >= SMALLEST && size <= LARGEST);
        }
        return type != NumberType.I64 || Math.abs(raw) <= LARGEST_I64;
    }

    private static Frame subRecords(List<Datagram> datagrams, Layout.Records records, boolean littleEndian) {
        Map<Spot, List<double[]>> values = new LinkedHashMap<>();
        double start = datagrams.get(0).receivedS();
        for (Datagram datagram : datagrams) {
            ByteBuffer octets = datagram.payload();
            int count = (octets.capacity() - records.start()) / records.size();
            for (int k = 0; k < count; k++) {
                int from = records.start() + k * records.size();
                int index = (int) read(octets, from, records.index().type(), littleEndian);
                for (int at = records.index().type().size(); at < records.size(); at++) {
                    for (NumberType type : TYPES) {
                        if (at + type.size() <= records.size()) {
                            double raw = read(octets, from + at, type, littleEndian);
                            values.computeIfAbsent(Spot.binary(at, type, OptionalInt.of(index)), s -> new ArrayList<>())
                                    .add(new double[] {datagram.receivedS() - start, raw});
                        }
                    }
                }
            }
        }
        List<Column> columns = new ArrayList<>();
        values.forEach((spot, samples) -> {
            double first = samples.get(0)[1];
            if (samples.size() > datagrams.size() / 10
                    && samples.stream().anyMatch(s -> s[1] != first)
                    && (spot.type().orElseThrow() != NumberType.I64
                            || samples.stream().anyMatch(s -> isWide(s[1])))
                    && samples.stream().allMatch(s -> usable(s[1], spot.type().orElseThrow()))) {
                columns.add(Column.of(spot, samples));
            }
        });
        Layout layout = new Layout.Binary(
                littleEndian,
                "",
                Optional.of(new Layout.Length.AtLeast(records.start() + records.size())),
                Optional.of(records));
        return new Frame(
                layout,
                times(datagrams, start),
                List.copyOf(columns),
                beginning(datagrams),
                "binary, sub-records of " + records.size() + " octets from octet " + records.start() + ", "
                        + (littleEndian ? "little" : "big") + "-endian");
    }

    static double read(ByteBuffer octets, int at, NumberType type, boolean littleEndian) {
        ByteBuffer ordered = octets.duplicate().order(littleEndian ? ByteOrder.LITTLE_ENDIAN : ByteOrder.BIG_ENDIAN);
        return type.read(ordered, at);
    }

    private static double[] times(List<Datagram> datagrams, double start) {
        return datagrams.stream().mapToDouble(d -> d.receivedS() - start).toArray();
    }

    private static byte[] beginning(List<Datagram> datagrams) {
        ByteBuffer first = datagrams.get(0).payload();
        int same = Math.min(Frame.MOST_BEGINNING, first.capacity());
        for (Datagram datagram : datagrams) {
            ByteBuffer octets = datagram.payload();
            int n = 0;
            while (n < Math.min(same, octets.capacity()) && octets.get(n) == first.get(n)) {
                n++;
            }
            same = n;
        }
        byte[] beginning = new byte[same];
        first.get(0, beginning);
        return beginning;
    }
}
