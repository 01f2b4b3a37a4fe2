package org.rejoin.bridge.feed.learn;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Random;
import java.util.function.ToDoubleFunction;

import org.rejoin.protocol.profile.Layout;
import org.rejoin.protocol.profile.NumberType;
import org.rejoin.protocol.profile.Profile;
import org.rejoin.protocol.profile.Quantity;
import org.rejoin.protocol.profile.Unit;
import org.rejoin.protocol.profile.Value;

/** An invented layout: fields of random kinds, types, units and order among decoys; and how a sender would fill it. */
final class RandomLayout {

    private static final List<String> WORDS = List.of(
            "a", "b7", "x_pos", "qq", "val", "k12", "zeta", "m", "n0", "lane", "u", "speedy", "tick", "w", "delta",
            "p1", "p2", "p3", "r", "s", "t9", "omega", "phi", "c", "dd", "e5", "gg", "h", "ij", "yy");

    /** A field, known to the profile or a decoy, and its raw value at a moment. */
    private record Cell(
            Quantity is, Unit unit, Optional<NumberType> type, double scale, ToDoubleFunction<FlownScript.Moment> raw) {
        int size() {
            return type.map(NumberType::size).orElse(1);
        }
    }

    /** How fields are laid out. */
    enum Kind {
        /** Fixed offsets. */
        BINARY,
        /** Sub-records with an index octet. */
        RECORDS,
        /** Fields by number. */
        TEXT,
        /** KEY=VALUE. */
        KEYED,
        /** JSON with other names. */
        JSON
    }

    private final Random random;
    private final Kind kind;
    private final List<Cell> cells = new ArrayList<>();
    private final boolean littleEndian;
    private final byte[] magic;
    private final List<Integer> places = new ArrayList<>();
    private int length;
    private final String separator;
    private final char decimal;
    private final String prefix;
    private final double[] walks = new double[64];
    private int counter;

    RandomLayout(Random random, Kind kind) {
        this.random = random;
        this.kind = kind;
        this.littleEndian = random.nextBoolean();
        this.magic = new byte[List.of(0, 2, 3, 4).get(random.nextInt(4)) + (kind == Kind.RECORDS ? 2 : 0)];
        random.nextBytes(magic);
        this.decimal = kind != Kind.JSON && random.nextInt(4) == 0 ? ',' : '.';
        List<String> separators = decimal == ','
                ? List.of(";", "|", "\t", Layout.Text.BLANK)
                : List.of(",", ";", "|", "\t", "/", "::", Layout.Text.BLANK);
        this.separator = kind == Kind.JSON ? "," : separators.get(random.nextInt(separators.size()));
        this.prefix = random.nextBoolean() && kind == Kind.TEXT ? "QX" + (char) ('A' + random.nextInt(26)) : "";
        fields();
        place();
    }

    private boolean binary() {
        return kind == Kind.BINARY || kind == Kind.RECORDS;
    }

    private void fields() {
        List<Cell> position = position();
        List<Cell> others = new ArrayList<>();
        others.add(altitude());
        int headings = random.nextInt(5);
        if (headings != 1) {
            others.add(angle(Quantity.TRUE_HEADING, FlownScript.Moment::heading));
        }
        if (headings <= 1) {
            others.add(angle(Quantity.MAGNETIC_HEADING, FlownScript.Moment::magneticHeading));
        }
        if (random.nextInt(10) < 6) {
            others.add(angle(Quantity.TRUE_TRACK, FlownScript.Moment::track));
        }
        others.add(speed());
        boolean pitch = random.nextInt(10) < 8;
        if (pitch) {
            others.add(angle(Quantity.PITCH, FlownScript.Moment::pitch));
        }
        if (!pitch || random.nextInt(10) < 7) {
            others.add(verticalSpeed(!pitch));
        }
        if (random.nextInt(10) < 8) {
            double sign = random.nextInt(5) == 0 ? -1 : 1;
            Cell roll = angle(Quantity.ROLL, m -> sign * m.roll());
            others.add(new Cell(roll.is, roll.unit, roll.type, sign * roll.scale, roll.raw));
        }
        for (int i = random.nextInt(12); i > 0; i--) {
            others.add(decoy(i));
        }
        Collections.shuffle(others, random);
        if (random.nextInt(5) > 0) {
            int at = random.nextInt(others.size() + 1);
            others.addAll(at, position);
        } else {
            others.add(random.nextInt(others.size()), position.get(0));
            others.add(random.nextInt(others.size()), position.get(1));
        }
        cells.addAll(others);
    }

    private Cell cell(
            Quantity is, Unit unit, NumberType type, double scale, ToDoubleFunction<FlownScript.Moment> value) {
        return new Cell(
                is,
                unit,
                binary() ? Optional.of(type) : Optional.empty(),
                scale,
                m -> unit.from(is.unit(), value.applyAsDouble(m)) / scale);
    }

    private List<Cell> position() {
        Cell[] pair = new Cell[2];
        int choice = random.nextInt(binary() ? 5 : 3);
        for (int i = 0; i < 2; i++) {
            Quantity is = i == 0 ? Quantity.LATITUDE : Quantity.LONGITUDE;
            ToDoubleFunction<FlownScript.Moment> value =
                    i == 0 ? FlownScript.Moment::latitude : FlownScript.Moment::longitude;
            pair[i] = switch (choice) {
                case 0 -> cell(is, Unit.DEG, NumberType.F64, 1, value);
                case 1 -> cell(is, Unit.RAD, NumberType.F64, 1, value);
                case 2 -> cell(is, Unit.DEG, NumberType.F32, 1, value);
                case 3 -> cell(is, Unit.DEG, NumberType.I32, 1e-7, value);
                default -> cell(is, Unit.BAM32, NumberType.I32, 1, value);
            };
        }
        return List.of(pair);
    }

    private NumberType real() {
        return random.nextInt(3) == 0 ? NumberType.F64 : NumberType.F32;
    }

    private Cell altitude() {
        Unit unit = random.nextBoolean() ? Unit.FT : Unit.M;
        return switch (binary() ? random.nextInt(5) : 0) {
            case 3 -> cell(Quantity.ALTITUDE_MSL, Unit.M, NumberType.I32, 0.001, FlownScript.Moment::altitude);
            case 4 -> cell(Quantity.ALTITUDE_MSL, unit, NumberType.I32, 1, FlownScript.Moment::altitude);
            default -> cell(Quantity.ALTITUDE_MSL, unit, real(), 1, FlownScript.Moment::altitude);
        };
    }

    private Cell angle(Quantity is, ToDoubleFunction<FlownScript.Moment> value) {
        boolean direction = is == Quantity.TRUE_HEADING || is == Quantity.MAGNETIC_HEADING || is == Quantity.TRUE_TRACK;
        return switch (random.nextInt(binary() ? 6 : 3)) {
            case 0, 1 -> cell(is, Unit.DEG, real(), 1, value);
            case 2, 3 -> cell(is, Unit.RAD, real(), 1, value);
            case 4 -> cell(is, Unit.DEG, direction ? NumberType.U16 : NumberType.I16, 0.01, value);
            default -> cell(is, Unit.BAM16, direction ? NumberType.U16 : NumberType.I16, 1, value);
        };
    }

    private Cell speed() {
        Unit unit = List.of(Unit.KT, Unit.KT, Unit.M_PER_S, Unit.KM_PER_H).get(random.nextInt(4));
        return random.nextInt(4) == 0
                ? cell(Quantity.GROUND_SPEED, unit, NumberType.U16, binary() ? 0.1 : 1, FlownScript.Moment::groundSpeed)
                : cell(Quantity.GROUND_SPEED, unit, real(), 1, FlownScript.Moment::groundSpeed);
    }

    /** Without pitch, a slope in the altitude's own unit cannot be told from the other unit by anyone. */
    private Cell verticalSpeed(boolean settles) {
        Unit unit = settles
                ? Unit.FT_PER_MIN
                : List.of(Unit.FT_PER_MIN, Unit.M_PER_S, Unit.FT_PER_S).get(random.nextInt(3));
        return unit == Unit.FT_PER_MIN && random.nextInt(3) == 0
                ? cell(Quantity.VERTICAL_SPEED, unit, NumberType.I16, 1, FlownScript.Moment::verticalSpeed)
                : cell(Quantity.VERTICAL_SPEED, unit, real(), 1, FlownScript.Moment::verticalSpeed);
    }

    private Cell decoy(int n) {
        ToDoubleFunction<FlownScript.Moment> raw = switch (random.nextInt(9)) {
            case 0 -> m -> counter;
            case 1 -> m -> 180 - 0.004 * m.timeS();
            case 2 -> m -> walks[n] += 0.02 * random.nextGaussian();
            case 3 -> m -> 12.5 + n;
            case 4 -> m -> random.nextInt(1_000_000);
            case 5 -> m -> 0.92 * m.airspeed();
            case 6 -> m -> 15 - 0.00198 * m.altitude() + 0.05 * random.nextGaussian();
            case 7 -> m -> 2300 + 4 * random.nextGaussian() + (m.verticalSpeed() > 200 ? 200 : 0);
            default -> m -> m.timeS() * 1000;
        };
        NumberType type = List.of(NumberType.F32, NumberType.F64, NumberType.I32, NumberType.U16)
                .get(random.nextInt(4));
        return new Cell(Quantity.ON_GROUND, Unit.NONE, binary() ? Optional.of(type) : Optional.empty(), 1, raw);
    }

    private void place() {
        int alignment = List.of(1, 1, 4, 8).get(random.nextInt(4));
        length = magic.length;
        for (Cell cell : cells) {
            int aligned = Math.min(alignment, cell.size());
            length = (length + aligned - 1) / aligned * aligned;
            places.add(length);
            length += cell.size();
        }
    }

    /** What a perfect learner finds. */
    Profile truth() {
        List<Value> values = new ArrayList<>();
        for (int i = 0; i < cells.size(); i++) {
            Cell cell = cells.get(i);
            if (cell.is != Quantity.ON_GROUND) {
                boolean keyed = kind == Kind.KEYED || kind == Kind.JSON;
                int at =
                        kind == Kind.BINARY ? places.get(i) : kind == Kind.RECORDS ? 1 : i + (prefix.isEmpty() ? 0 : 1);
                values.add(new Value(
                        cell.is,
                        keyed ? 0 : at,
                        keyed ? WORDS.get(i) : "",
                        cell.unit,
                        cell.type,
                        cell.scale,
                        0,
                        OptionalDouble.empty(),
                        OptionalInt.empty(),
                        Optional.empty(),
                        kind == Kind.RECORDS ? OptionalInt.of(i * 3 + 1) : OptionalInt.empty()));
            }
        }
        return new Profile("truth", OptionalDouble.empty(), layout(), values);
    }

    private Layout layout() {
        String hex = HexFormat.of().formatHex(magic);
        return switch (kind) {
            case BINARY -> new Layout.Binary(littleEndian, hex, Optional.empty(), Optional.empty());
            case RECORDS ->
                new Layout.Binary(
                        littleEndian,
                        hex,
                        Optional.empty(),
                        Optional.of(new Layout.Records(
                                magic.length, 9, new Layout.IntegerField(0, NumberType.U8), new Layout.Count.ToEnd())));
            case TEXT -> new Layout.Text(prefix, separator, "", decimal, OptionalInt.empty());
            case KEYED -> new Layout.Text("", separator, "=", decimal, OptionalInt.empty());
            case JSON -> new Layout.Text("", ",", Layout.Text.JSON, '.', OptionalInt.empty());
        };
    }

    byte[] send(FlownScript.Moment moment) {
        counter++;
        return binary() ? octets(moment) : line(moment).getBytes(StandardCharsets.UTF_8);
    }

    private byte[] octets(FlownScript.Moment moment) {
        if (kind == Kind.BINARY) {
            ByteBuffer out =
                    ByteBuffer.allocate(length).order(littleEndian ? ByteOrder.LITTLE_ENDIAN : ByteOrder.BIG_ENDIAN);
            out.put(0, magic);
            for (int i = 0; i < cells.size(); i++) {
                write(cells.get(i), out, places.get(i), moment);
            }
            return out.array();
        }
        List<Integer> order = new ArrayList<>();
        for (int i = 0; i < cells.size(); i++) {
            boolean position = cells.get(i).is.isPosition();
            if (position || random.nextInt(8) > 0) {
                order.add(i);
            }
        }
        ByteBuffer out = ByteBuffer.allocate(magic.length + 9 * order.size())
                .order(littleEndian ? ByteOrder.LITTLE_ENDIAN : ByteOrder.BIG_ENDIAN);
        out.put(0, magic);
        for (int k = 0; k < order.size(); k++) {
            out.put(magic.length + 9 * k, (byte) (order.get(k) * 3 + 1));
            write(cells.get(order.get(k)), out, magic.length + 9 * k + 1, moment);
        }
        return out.array();
    }

    private static void write(Cell cell, ByteBuffer out, int at, FlownScript.Moment moment) {
        double raw = cell.raw.applyAsDouble(moment);
        switch (cell.type.orElseThrow()) {
            case F32 -> out.putFloat(at, (float) raw);
            case F64 -> out.putDouble(at, raw);
            case I64 -> out.putLong(at, Math.round(raw));
            case I32, U32 -> out.putInt(at, (int) Math.round(raw));
            case I16, U16 -> out.putShort(at, (short) Math.round(raw));
            case I8, U8 -> out.put(at, (byte) Math.round(raw));
        }
    }

    private String line(FlownScript.Moment moment) {
        List<String> parts = new ArrayList<>();
        if (!prefix.isEmpty()) {
            parts.add(prefix);
        }
        for (int i = 0; i < cells.size(); i++) {
            Cell cell = cells.get(i);
            int digits = cell.is.isPosition() ? 8 : cell.unit == Unit.RAD ? 5 : 2;
            String number = String.format(Locale.ROOT, "%." + digits + "f", cell.raw.applyAsDouble(moment))
                    .replace('.', decimal);
            parts.add(
                    switch (kind) {
                        case KEYED -> WORDS.get(i) + "=" + number;
                        case JSON -> '"' + WORDS.get(i) + "\":" + number;
                        default -> number;
                    });
        }
        String line = String.join(separator.equals(Layout.Text.BLANK) ? " " : separator, parts);
        return kind == Kind.JSON ? "{" + line + "}" : line + "\r\n";
    }
}
