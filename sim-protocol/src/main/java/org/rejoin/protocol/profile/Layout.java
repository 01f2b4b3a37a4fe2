package org.rejoin.protocol.profile;

import java.nio.ByteBuffer;
import java.util.HexFormat;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.Function;

/** How a record is laid out, before anything is said of its values. */
public sealed interface Layout {

    /** Reads whichever it is. */
    <R> R fold(Function<Text, R> text, Function<Binary, R> binary);

    /**
     * A line of text.
     *
     * @param startsWith literal in front; empty text for none
     * @param separator between fields; {@link #BLANK} for any run of blanks, {@link #NUMBERS} where the numbers themselves
     *     are the fields, whatever stands around them
     * @param keyValue between key and value of each field, or {@link #JSON}; empty text where fields go by number
     * @param decimal '.' or ','
     * @param fields exact number of fields, the one with {@code startsWith} included; empty for any
     */
    record Text(String startsWith, String separator, String keyValue, char decimal, OptionalInt fields)
            implements Layout {
        /** The separator that stands for any run of spaces and tabs. */
        public static final String BLANK = "blank";

        /**
         * The separator that makes fields of the numbers of a whole datagram, in their order: {@code <pos lat="38.2"/>} and
         * {@code ALT 2100ft} have one each. A letter N, S, E or W that is no part of a word is a field, too.
         */
        public static final String NUMBERS = "numbers";

        /** The {@code keyValue} that stands for a JSON object; inner names are joined by dots. */
        public static final String JSON = "json";

        /** {@return whether the numbers of a datagram are its fields; false where something parts them} */
        public boolean numbers() {
            return separator.equals(NUMBERS);
        }

        /** {@return whether fields are found by key; false where they go by number} */
        public boolean keyed() {
            return !keyValue.isEmpty();
        }

        /**
         * {@return whether the record is a JSON object, addressed by the names of its members; false for separated fields}
         */
        public boolean json() {
            return keyValue.equals(JSON);
        }

        @Override
        public <R> R fold(Function<Text, R> text, Function<Binary, R> binary) {
            return text.apply(this);
        }
    }

    /**
     * A binary record.
     *
     * @param littleEndian byte order of every number in it
     * @param magic octets at offset 0, as hexadecimal pairs; empty text for none
     * @param length what its length must be; empty for any
     * @param records sub-records; empty for none
     */
    record Binary(boolean littleEndian, String magic, Optional<Length> length, Optional<Records> records)
            implements Layout {
        /** {@return the octets at offset 0; a new array, empty for none} */
        public byte[] magicOctets() {
            return HexFormat.of().parseHex(magic.replace(" ", ""));
        }

        @Override
        public <R> R fold(Function<Text, R> text, Function<Binary, R> binary) {
            return binary.apply(this);
        }
    }

    /** A number somewhere in a record. */
    record IntegerField(int at, NumberType type) {}

    /** What the length of a record must be. */
    sealed interface Length {
        /** Reads whichever it is. */
        <R> R fold(Function<Exact, R> exact, Function<AtLeast, R> least, Function<Stated, R> stated);

        /** One length only. */
        record Exact(int octets) implements Length {
            @Override
            public <R> R fold(Function<Exact, R> exact, Function<AtLeast, R> least, Function<Stated, R> stated) {
                return exact.apply(this);
            }
        }

        /** A least length. */
        record AtLeast(int octets) implements Length {
            @Override
            public <R> R fold(Function<Exact, R> exact, Function<AtLeast, R> least, Function<Stated, R> stated) {
                return least.apply(this);
            }
        }

        /**
         * A length that the record states.
         *
         * @param countsFrom octets not counted by it, 0 or more
         */
        record Stated(IntegerField field, int countsFrom) implements Length {
            @Override
            public <R> R fold(Function<Exact, R> exact, Function<AtLeast, R> least, Function<Stated, R> stated) {
                return stated.apply(this);
            }
        }
    }

    /**
     * Sub-records of one size, each with an index that says what it holds.
     *
     * @param index where in a sub-record its index stands
     */
    record Records(int start, int size, IntegerField index, Count count) {}

    /** How many sub-records there are. */
    sealed interface Count {
        /** Reads whichever it is. */
        <R> R fold(Function<Fixed, R> fixed, Function<Told, R> told, Function<ToEnd, R> toEnd);

        /** How many a record says it has, where there is room for so many; -1 where the number itself is not there. */
        long in(ByteBuffer octets, int room);

        /** Offset in the record at which it is said how many, octets. */
        default int at(int start) {
            return start;
        }

        /** Always as many. */
        record Fixed(int number) implements Count {
            @Override
            public <R> R fold(Function<Fixed, R> fixed, Function<Told, R> told, Function<ToEnd, R> toEnd) {
                return fixed.apply(this);
            }

            @Override
            public long in(ByteBuffer octets, int room) {
                return number;
            }
        }

        /** As many as the record states. */
        record Told(IntegerField field) implements Count {
            @Override
            public <R> R fold(Function<Fixed, R> fixed, Function<Told, R> told, Function<ToEnd, R> toEnd) {
                return told.apply(this);
            }

            @Override
            public long in(ByteBuffer octets, int room) {
                return field.at() + field.type().size() <= octets.capacity()
                        ? field.type().readInteger(octets, field.at())
                        : -1;
            }

            @Override
            public int at(int start) {
                return field.at();
            }
        }

        /** As many as there are octets for. */
        record ToEnd() implements Count {
            @Override
            public <R> R fold(Function<Fixed, R> fixed, Function<Told, R> told, Function<ToEnd, R> toEnd) {
                return toEnd.apply(this);
            }

            @Override
            public long in(ByteBuffer octets, int room) {
                return room;
            }
        }
    }
}
