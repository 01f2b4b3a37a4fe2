package org.rejoin.bridge.learn;

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

import org.rejoin.bridge.geo.StandardAtmosphere;
import org.rejoin.protocol.earth.Geodetic;
import org.rejoin.protocol.earth.LocalAxes;
import org.rejoin.protocol.earth.Vector3;
import org.rejoin.protocol.profile.Layout;
import org.rejoin.protocol.profile.Message;
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
        /** Fields by number, the position as magnitudes with hemisphere letters behind them. */
        LETTERED,
        /** JSON with other names. */
        JSON,
        /** The same with objects and lists inside. */
        NESTED,
        /** The same, one object over several lines. */
        LINES,
        /** Sub-records with an index of two or four octets. */
        WIDE
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
    private final NumberType indexType;
    private final List<String> keys = new ArrayList<>();
    private final List<Integer> columns = new ArrayList<>();
    private final double[] walks = new double[64];
    private int counter;

    RandomLayout(Random random, Kind kind) {
        this.random = random;
        this.kind = kind;
        this.littleEndian = random.nextBoolean();
        this.magic = new byte[List.of(0, 2, 3, 4).get(random.nextInt(4)) + (inRecords() ? 2 : 0)];
        random.nextBytes(magic);
        this.decimal = !json() && random.nextInt(4) == 0 ? ',' : '.';
        List<String> separators = decimal == ','
                ? List.of(";", "|", "\t", Layout.Text.BLANK)
                : List.of(",", ";", "|", "\t", "/", "::", Layout.Text.BLANK);
        this.separator = json() ? "," : separators.get(random.nextInt(separators.size()));
        this.prefix = random.nextBoolean() && byNumber() ? "QX" + (char) ('A' + random.nextInt(26)) : "";
        this.indexType =
                kind == Kind.WIDE ? List.of(NumberType.U16, NumberType.I32).get(random.nextInt(2)) : NumberType.U8;
        fields();
        place();
    }

    private boolean binary() {
        return kind == Kind.BINARY || inRecords();
    }

    private boolean inRecords() {
        return kind == Kind.RECORDS || kind == Kind.WIDE;
    }

    private boolean json() {
        return kind == Kind.JSON || kind == Kind.NESTED || kind == Kind.LINES;
    }

    private boolean byNumber() {
        return kind == Kind.TEXT || kind == Kind.LETTERED;
    }

    private void fields() {
        boolean geocentric = kind != Kind.LETTERED && random.nextInt(10) == 0;
        int velocity = random.nextInt(10);
        boolean components = geocentric ? velocity < 7 : velocity < 2;
        List<Cell> position = geocentric ? geocentric() : position();
        List<Cell> others = new ArrayList<>();
        if (!geocentric || random.nextBoolean()) {
            others.add(altitude());
        }
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
        if (!components || velocity == 0) {
            others.add(speed());
        }
        boolean pitch = (geocentric && components) || random.nextInt(10) < 8;
        if (pitch) {
            others.add(angle(Quantity.PITCH, FlownScript.Moment::pitch));
        }
        // Components bring the vertical one along.
        if (!components && (!pitch || random.nextInt(10) < 7)) {
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
        if (components) {
            others.addAll(
                    random.nextInt(others.size() + 1),
                    geocentric && random.nextBoolean() ? geocentricVelocity() : velocity());
        }
        if (random.nextInt(5) > 0) {
            int at = random.nextInt(others.size() + 1);
            others.addAll(at, position);
        } else {
            for (Cell part : position) {
                others.add(random.nextInt(others.size()), part);
            }
        }
        cells.addAll(others);
    }

    private List<Cell> geocentric() {
        int choice = random.nextInt(binary() ? 3 : 1);
        List<Cell> cells = new ArrayList<>();
        for (int i = 0; i < 3; i++) {
            int axis = i;
            Quantity is =
                    List.of(Quantity.ECEF_X, Quantity.ECEF_Y, Quantity.ECEF_Z).get(i);
            ToDoubleFunction<FlownScript.Moment> value = m -> {
                Vector3 place = place(m).toGeocentric();
                return axis == 0 ? place.x() : axis == 1 ? place.y() : place.z();
            };
            cells.add(
                    switch (choice) {
                        case 0 -> cell(is, Unit.M, NumberType.F64, 1, value);
                        case 1 -> cell(is, Unit.M, NumberType.F32, 1, value);
                        default -> cell(is, Unit.M, NumberType.I32, 0.01, value);
                    });
        }
        return cells;
    }

    private static Geodetic place(FlownScript.Moment m) {
        return new Geodetic(m.latitude(), m.longitude(), m.altitude() * 0.3048);
    }

    private List<Cell> geocentricVelocity() {
        List<Cell> cells = new ArrayList<>();
        for (int i = 0; i < 3; i++) {
            int axis = i;
            Quantity is = List.of(Quantity.ECEF_VELOCITY_X, Quantity.ECEF_VELOCITY_Y, Quantity.ECEF_VELOCITY_Z)
                    .get(i);
            cells.add(cell(is, Unit.M_PER_S, NumberType.F32, 1, m -> {
                double mps = m.groundSpeed() * 1852 / 3600;
                double track = Math.toRadians(m.track());
                Vector3 v = LocalAxes.at(place(m))
                        .toGeocentric(mps * Math.cos(track), mps * Math.sin(track), -m.verticalSpeed() * 0.3048 / 60);
                return axis == 0 ? v.x() : axis == 1 ? v.y() : v.z();
            }));
        }
        return cells;
    }

    /** North, east and down. */
    private List<Cell> velocity() {
        Unit unit = List.of(Unit.M_PER_S, Unit.M_PER_S, Unit.KT, Unit.FT_PER_S).get(random.nextInt(4));
        boolean small = binary() && unit == Unit.M_PER_S && random.nextInt(3) == 0;
        NumberType type = small ? NumberType.I16 : real();
        double scale = small ? 0.01 : 1;
        double mps = 1852 / 3600.0;
        return List.of(
                cell(
                        Quantity.VELOCITY_NORTH,
                        unit,
                        type,
                        scale,
                        m -> mps * m.groundSpeed() * Math.cos(Math.toRadians(m.track()))),
                cell(
                        Quantity.VELOCITY_EAST,
                        unit,
                        type,
                        scale,
                        m -> mps * m.groundSpeed() * Math.sin(Math.toRadians(m.track()))),
                cell(Quantity.VELOCITY_DOWN, unit, type, scale, m -> -m.verticalSpeed() * 0.3048 / 60));
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
        if (kind == Kind.LETTERED) {
            Unit unit = random.nextInt(3) == 0 ? Unit.DEG : Unit.DEG_MIN;
            return List.of(
                    cell(Quantity.LATITUDE, unit, NumberType.F64, 1, FlownScript.Moment::latitude),
                    cell(Quantity.LONGITUDE, unit, NumberType.F64, 1, FlownScript.Moment::longitude));
        }
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
            case 5 -> m -> StandardAtmosphere.rootOfDensity(m.altitude()) * m.airspeed();
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
        int column = prefix.isEmpty() ? 0 : 1;
        for (int i = 0; i < cells.size(); ) {
            int together = kind == Kind.NESTED ? 1 + random.nextInt(3) : 1;
            boolean list = random.nextBoolean();
            for (int k = 0; k < together && i < cells.size(); k++, i++) {
                String name = WORDS.get(i);
                keys.add(together == 1 ? name : "o" + (i - k) + "." + (list ? String.valueOf(k) : name));
                columns.add(column);
                column += lettered(cells.get(i)) ? 2 : 1;
            }
        }
    }

    private boolean lettered(Cell cell) {
        return kind == Kind.LETTERED && cell.is.isPosition();
    }

    /** What a perfect learner finds. */
    Profile truth() {
        List<Value> values = new ArrayList<>();
        for (int i = 0; i < cells.size(); i++) {
            Cell cell = cells.get(i);
            if (cell.is != Quantity.ON_GROUND) {
                boolean keyed = kind == Kind.KEYED || json();
                int at = kind == Kind.BINARY ? places.get(i) : inRecords() ? indexType.size() : columns.get(i);
                Optional<Value.Hemisphere> letter = lettered(cell)
                        ? Optional.of(
                                new Value.Hemisphere(at + 1, "", List.of(cell.is == Quantity.LATITUDE ? "S" : "W")))
                        : Optional.empty();
                values.add(new Value(
                        cell.is,
                        keyed ? 0 : at,
                        keyed ? keys.get(i) : "",
                        cell.unit,
                        cell.type,
                        cell.scale,
                        0,
                        OptionalDouble.empty(),
                        OptionalInt.empty(),
                        letter,
                        inRecords() ? OptionalInt.of(index(i)) : OptionalInt.empty(),
                        OptionalInt.empty()));
            }
        }
        return new Profile("truth", OptionalDouble.empty(), List.of(new Message(layout(), values)));
    }

    private Layout layout() {
        String hex = HexFormat.of().formatHex(magic);
        return switch (kind) {
            case BINARY -> new Layout.Binary(littleEndian, hex, Optional.empty(), Optional.empty());
            case RECORDS, WIDE ->
                new Layout.Binary(
                        littleEndian,
                        hex,
                        Optional.empty(),
                        Optional.of(new Layout.Records(
                                magic.length,
                                indexType.size() + 8,
                                new Layout.IntegerField(0, indexType),
                                new Layout.Count.ToEnd())));
            case TEXT, LETTERED -> new Layout.Text(prefix, separator, "", decimal, OptionalInt.empty());
            case KEYED -> new Layout.Text("", separator, "=", decimal, OptionalInt.empty());
            case JSON, NESTED, LINES -> new Layout.Text("", ",", Layout.Text.JSON, '.', OptionalInt.empty());
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
        int size = indexType.size() + 8;
        ByteBuffer out = ByteBuffer.allocate(magic.length + size * order.size())
                .order(littleEndian ? ByteOrder.LITTLE_ENDIAN : ByteOrder.BIG_ENDIAN);
        out.put(0, magic);
        for (int k = 0; k < order.size(); k++) {
            int from = magic.length + size * k;
            put(out, from, indexType, index(order.get(k)));
            write(cells.get(order.get(k)), out, from + indexType.size(), moment);
        }
        return out.array();
    }

    private int index(int cell) {
        return kind == Kind.WIDE ? cell * 37 + 5 : cell * 3 + 1;
    }

    private static void write(Cell cell, ByteBuffer out, int at, FlownScript.Moment moment) {
        put(out, at, cell.type.orElseThrow(), cell.raw.applyAsDouble(moment));
    }

    private static void put(ByteBuffer out, int at, NumberType type, double raw) {
        switch (type) {
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
        List<String> numbers = new ArrayList<>();
        for (Cell cell : cells) {
            int digits = cell.is.isPosition() ? 8 : cell.unit == Unit.RAD ? 5 : 2;
            double raw = cell.raw.applyAsDouble(moment);
            String number = String.format(Locale.ROOT, "%." + digits + "f", lettered(cell) ? Math.abs(raw) : raw)
                    .replace('.', decimal);
            numbers.add(number);
            if (kind == Kind.KEYED) {
                parts.add(WORDS.get(numbers.size() - 1) + "=" + number);
            } else {
                parts.add(number);
            }
            if (lettered(cell)) {
                boolean latitude = cell.is == Quantity.LATITUDE;
                parts.add(latitude ? raw < 0 ? "S" : "N" : raw < 0 ? "W" : "E");
            }
        }
        return json()
                ? object(numbers)
                : String.join(separator.equals(Layout.Text.BLANK) ? " " : separator, parts) + "\r\n";
    }

    private String object(List<String> numbers) {
        List<String> members = new ArrayList<>();
        for (int i = 0; i < numbers.size(); ) {
            String outer = outer(i);
            if (outer.isEmpty()) {
                members.add('"' + keys.get(i) + "\":" + numbers.get(i++));
                continue;
            }
            List<String> inside = new ArrayList<>();
            boolean list = false;
            for (int from = i; i < numbers.size() && outer(i).equals(outer); i++) {
                String name = keys.get(i).substring(outer.length() + 1);
                list |= i == from && name.equals("0");
                inside.add((list ? "" : '"' + name + "\":") + numbers.get(i));
            }
            String joined = String.join(",", inside);
            members.add('"' + outer + "\":" + (list ? '[' + joined + ']' : '{' + joined + '}'));
        }
        return kind == Kind.LINES
                ? "{\n  " + String.join(",\n  ", members) + "\n}\n"
                : '{' + String.join(",", members) + '}';
    }

    private String outer(int i) {
        int dot = keys.get(i).indexOf('.');
        return dot < 0 ? "" : keys.get(i).substring(0, dot);
    }
}
