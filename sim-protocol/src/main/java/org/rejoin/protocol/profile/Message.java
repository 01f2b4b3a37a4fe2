package org.rejoin.protocol.profile;

import java.util.List;

/**
 * One kind of datagram that a simulator sends.
 *
 * @param layout the record
 * @param values what is in it
 */
public record Message(Layout layout, List<Value> values) {

    /** Keeps its own copy of the values. */
    public Message {
        values = List.copyOf(values);
    }

    /** Whether it has a position by itself. */
    boolean hasPosition() {
        return has(Quantity.LATITUDE, Quantity.LONGITUDE) || has(Quantity.ECEF_X, Quantity.ECEF_Y, Quantity.ECEF_Z);
    }

    private boolean has(Quantity... quantities) {
        return List.of(quantities).stream()
                .allMatch(quantity -> values.stream().anyMatch(value -> value.is() == quantity));
    }
}
