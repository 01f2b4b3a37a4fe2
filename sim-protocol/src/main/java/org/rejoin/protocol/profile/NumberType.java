package org.rejoin.protocol.profile;

import java.nio.ByteBuffer;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** How a number stands in a binary record. */
public enum NumberType {
    /** Unsigned, 1 octet. */
    U8(1),
    /** Signed, 1 octet. */
    I8(1),
    /** Unsigned, 2 octets. */
    U16(2),
    /** Signed, 2 octets. */
    I16(2),
    /** Unsigned, 4 octets. */
    U32(4),
    /** Signed, 4 octets. */
    I32(4),
    /** Signed, 8 octets. */
    I64(8),
    /** IEEE 754 single precision. */
    F32(4),
    /** IEEE 754 double precision. */
    F64(8);

    private final int size;

    NumberType(int size) {
        this.size = size;
    }

    /** Octets taken; 1, 2, 4 or 8. */
    public int size() {
        return size;
    }

    /** {@return name in a profile, for example "u16"} */
    public String text() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** {@return whether it is a whole number; false for f32 and f64} */
    public boolean isInteger() {
        return this != F32 && this != F64;
    }

    /** The type of a name; empty if there is none. */
    public static Optional<NumberType> named(String text) {
        return Arrays.stream(values()).filter(type -> type.text().equals(text)).findFirst();
    }

    /** Reads a number; the buffer has the byte order of the record and enough octets. */
    public double read(ByteBuffer octets, int at) {
        return switch (this) {
            case F32 -> octets.getFloat(at);
            case F64 -> octets.getDouble(at);
            default -> (double) readInteger(octets, at);
        };
    }

    /** Reads a whole number; 0 for f32 and f64. */
    long readInteger(ByteBuffer octets, int at) {
        return switch (this) {
            case U8 -> octets.get(at) & 0xFFL;
            case I8 -> octets.get(at);
            case U16 -> octets.getShort(at) & 0xFFFFL;
            case I16 -> octets.getShort(at);
            case U32 -> octets.getInt(at) & 0xFFFF_FFFFL;
            case I32 -> octets.getInt(at);
            case I64 -> octets.getLong(at);
            case F32, F64 -> 0;
        };
    }

    /** Writes a number, rounded and cut to the range of the type. */
    void write(ByteBuffer octets, int at, double value) {
        switch (this) {
            case F32 -> octets.putFloat(at, (float) value);
            case F64 -> octets.putDouble(at, value);
            default -> writeInteger(octets, at, Math.round(Math.max(lowest(), Math.min(highest(), value))));
        }
    }

    /** Writes the low octets of a whole number; nothing for f32 and f64. */
    void writeInteger(ByteBuffer octets, int at, long value) {
        switch (size) {
            case 1 -> octets.put(at, (byte) value);
            case 2 -> octets.putShort(at, (short) value);
            case 4 -> {
                if (this != F32) {
                    octets.putInt(at, (int) value);
                }
            }
            default -> {
                if (this != F64) {
                    octets.putLong(at, value);
                }
            }
        }
    }

    private double lowest() {
        return this == U8 || this == U16 || this == U32 ? 0 : -Math.pow(2, 8.0 * size - 1);
    }

    private double highest() {
        return this == U8 || this == U16 || this == U32 ? Math.pow(2, 8.0 * size) - 1 : Math.pow(2, 8.0 * size - 1) - 1;
    }
}
