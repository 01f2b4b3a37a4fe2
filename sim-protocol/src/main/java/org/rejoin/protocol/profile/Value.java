package org.rejoin.protocol.profile;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;

/**
 * One value of a record: raw times {@code scale} plus {@code offset} is in {@code unit}.
 *
 * @param is what it is
 * @param at text field number from 0, or octet offset (inside the sub-record where there is an index); 0 where keyed
 * @param key text field key; empty text where fields go by number
 * @param unit a unit that {@code is} accepts
 * @param type binary only
 * @param scale not 0
 * @param offset added after scaling
 * @param missing raw value that means absent
 * @param bit which bit of a whole number, for flags
 * @param hemisphere text only: a letter that carries the sign
 * @param index which sub-record
 * @param minutes text only: number of the field that holds the minutes of arc of whole degrees in {@code at}
 */
public record Value(
        Quantity is,
        int at,
        String key,
        Unit unit,
        Optional<NumberType> type,
        double scale,
        double offset,
        OptionalDouble missing,
        OptionalInt bit,
        Optional<Hemisphere> hemisphere,
        OptionalInt index,
        OptionalInt minutes) {

    /**
     * A letter that carries the sign.
     *
     * @param at field number, 0 where keyed
     * @param key field key, empty text where fields go by number
     * @param negative letters that make the value negative
     */
    public record Hemisphere(int at, String key, List<String> negative) {
        /** Keeps its own copy. */
        public Hemisphere {
            negative = List.copyOf(negative);
        }
    }

    /** A value in the unit of its quantity; the value, not a number where {@code raw} means absent. */
    public double read(double raw) {
        if (missing.isPresent() && missing.getAsDouble() == raw) {
            return Double.NaN;
        }
        double scaled = raw * scale + offset;
        return unit == Unit.NONE ? scaled : unit.to(is.unit(), scaled);
    }

    /** The raw form of a value. */
    public double write(double value) {
        double inUnit = unit == Unit.NONE ? value : unit.from(is.unit(), value);
        return (inUnit - offset) / scale;
    }
}
