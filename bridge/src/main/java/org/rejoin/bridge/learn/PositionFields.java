package org.rejoin.bridge.learn;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

import org.rejoin.protocol.profile.NumberType;
import org.rejoin.protocol.profile.Quantity;

/**
 * Fields that are a position together.
 *
 * @param spots latitude and longitude, or earth-centred X, Y and Z
 * @param scale their unit
 */
record PositionFields(List<Spot> spots, Scale scale) {

    PositionFields {
        spots = List.copyOf(spots);
    }

    /** What each of the fields is. */
    List<Quantity> quantities() {
        return geocentric()
                ? List.of(Quantity.ECEF_X, Quantity.ECEF_Y, Quantity.ECEF_Z)
                : List.of(Quantity.LATITUDE, Quantity.LONGITUDE);
    }

    boolean geocentric() {
        return spots.size() == 3;
    }

    boolean overlaps(Spot spot) {
        return spots.stream().anyMatch(spot::overlaps);
    }

    /** The last of its fields stands directly before another. */
    boolean precedes(Spot spot) {
        return spots.get(spots.size() - 1).precedes(spot);
    }

    Optional<NumberType> type() {
        return spots.get(0).type();
    }

    boolean lettered() {
        return spots.get(0).hemisphere().isPresent();
    }

    /** Places in words. */
    String words() {
        return spots.stream().map(Spot::words).collect(Collectors.joining(", ")) + " in " + scale.words();
    }

    /** How usual their order is: one behind the other, in the order of their names or against it. */
    double order() {
        boolean forward = true;
        boolean backward = true;
        for (int i = 1; i < spots.size(); i++) {
            forward &= spots.get(i - 1).precedes(spots.get(i));
            backward &= spots.get(i).precedes(spots.get(i - 1));
        }
        // Nobody writes Y before X: the two exchanged are the same flight, mirrored.
        return forward ? (geocentric() ? 3 : 0.9) : backward && !geocentric() ? 0.6 : 0;
    }
}
