package org.rejoin.bridge.learn;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;

import org.rejoin.protocol.profile.NumberType;
import org.rejoin.protocol.profile.Quantity;
import org.rejoin.protocol.profile.Unit;
import org.rejoin.protocol.profile.Value;

/**
 * Where in a record a number stands.
 *
 * @param at text field number or octet offset; of a text field with a key, how manieth it is
 * @param key text field key; empty text where fields go by number
 * @param type binary only
 * @param index which sub-record
 * @param hemisphere text only: a letter beside the number that carries the sign
 * @param minutes text only: whether the number is whole degrees, and the next field its minutes
 * @param message which kind of datagram; 0 for the one with the position
 */
record Spot(
        int at,
        String key,
        Optional<NumberType> type,
        OptionalInt index,
        Optional<Value.Hemisphere> hemisphere,
        boolean minutes,
        int message) {

    static Spot binary(int at, NumberType type, OptionalInt index) {
        return new Spot(at, "", Optional.of(type), index, Optional.empty(), false, 0);
    }

    static Spot text(int at, String key) {
        return new Spot(at, key, Optional.empty(), OptionalInt.empty(), Optional.empty(), false, 0);
    }

    Spot with(Value.Hemisphere letter) {
        return new Spot(at, key, type, index, Optional.of(letter), minutes, message);
    }

    Spot withMinutes() {
        return new Spot(at, key, type, index, hemisphere, true, message);
    }

    Spot in(int anotherMessage) {
        return new Spot(at, key, type, index, hemisphere, minutes, anotherMessage);
    }

    /** Whether it can be nothing but a latitude or a longitude. */
    boolean coordinate() {
        return minutes || hemisphere.isPresent();
    }

    int size() {
        return type.map(NumberType::size).orElse(minutes ? 2 : 1);
    }

    boolean isInteger() {
        return type.isPresent() && type.get().isInteger();
    }

    /** An angle that goes both ways is not sent so. */
    boolean unsigned() {
        return type.isPresent() && (type.get() == NumberType.U16 || type.get() == NumberType.U32);
    }

    boolean overlaps(Spot other) {
        return message == other.message
                && key.equals(other.key)
                && index.equals(other.index)
                && at < other.at + other.size()
                && other.at < at + size();
    }

    /** Shares octets with the other, and is not the same number. */
    boolean isOtherReadingOf(Spot other) {
        return overlaps(other) && (at != other.at || !type.equals(other.type));
    }

    /** Of fewer octets, or a whole number where the other is none. */
    boolean isLessThan(Spot other) {
        return size() < other.size() || (isInteger() && !other.isInteger());
    }

    /** Directly before the other. */
    boolean precedes(Spot other) {
        if (message != other.message) {
            return false;
        }
        if (index.isPresent() && other.index.isPresent()) {
            return index.getAsInt() + 1 == other.index.getAsInt();
        }
        int gap = other.at - at - size();
        return gap == 0 || (hemisphere.isPresent() && gap == 1);
    }

    Value value(Quantity is, Unit unit, double scale) {
        return new Value(
                is,
                key.isEmpty() ? at : 0,
                key,
                unit,
                type,
                scale,
                0,
                OptionalDouble.empty(),
                OptionalInt.empty(),
                hemisphere,
                index,
                minutes ? OptionalInt.of(at + 1) : OptionalInt.empty());
    }

    /** Where it stands, in words. */
    String words() {
        return message == 0 ? place() : place() + " of message " + (message + 1);
    }

    private String place() {
        if (!key.isEmpty()) {
            return "\"" + key + "\"";
        }
        return type.map(t -> (index.isPresent() ? "sub-record " + index.getAsInt() + ", " : "") + "octet " + at + " ("
                        + t.text() + ")")
                .orElse(minutes ? "fields " + at + " and " + (at + 1) : "field " + at);
    }
}
