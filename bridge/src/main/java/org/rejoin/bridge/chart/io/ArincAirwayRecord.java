package org.rejoin.bridge.chart.io;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.UnaryOperator;

import org.rejoin.bridge.chart.Airway;

/**
 * One fix of an airway and the leg that leaves it (ARINC 424-18, 4.1.6; paragraph number from memory).
 *
 * @param area three letters
 * @param key of the fix, as {@link ArincPoints#key}
 * @param last whether the continuous piece ends here
 * @param distanceNm of the leg; empty where the file has none
 */
record ArincAirwayRecord(
        int line,
        String route,
        String area,
        int sequence,
        String ident,
        String key,
        boolean last,
        OptionalDouble distanceNm,
        Airway.Segment leg) {

    /** Up to the distance; a line that ends before has lost what the airway cannot do without. */
    private static final int NEEDED = 78;

    /**
     * Reads a primary record.
     *
     * @param shared gives back one string for equal ones, as most stand in the file many times
     * @throws BadField if it is cut off, or its route, sequence number or fix cannot be read
     */
    static ArincAirwayRecord read(ArincRecord record, UnaryOperator<String> shared, Problems problems) throws BadField {
        record.requireLength(NEEDED, "an airway");
        String route = record.ident(14, 19);
        int sequence = record.digits(26, 29);
        if (sequence < 0) {
            throw new BadField(
                    "sequence number \"" + record.raw(26, 29) + "\" of airway " + route + " is not four digits");
        }
        String ident = record.ident(30, 34);
        String label = "airway " + route + " at " + ident;
        OptionalDouble forward = record.orAbsent(problems, label, () -> record.altitudeFt(84));
        OptionalDouble backward =
                record.blank(89, 93) ? forward : record.orAbsent(problems, label, () -> record.altitudeFt(89));
        return new ArincAirwayRecord(
                record.line(),
                shared.apply(route),
                shared.apply(record.raw(2, 4)),
                sequence,
                shared.apply(ident),
                shared.apply(ArincPoints.key(record.raw(37, 38), ident, record.raw(35, 36))),
                record.at(41) == 'E',
                record.orAbsent(problems, label, () -> record.fixedPoint(75, 78, 10, "distance")),
                new Airway.Segment(
                        forward,
                        direction(record, problems, label),
                        backward,
                        record.orAbsent(problems, label, () -> record.altitudeFt(94)),
                        OptionalDouble.empty(),
                        unknown(record, forward, backward)));
    }

    /** UNKNN and NESTB say that there is a minimum and not which (5.30); what cannot be read says no more. */
    private static Optional<Airway.Direction> unknown(
            ArincRecord record, OptionalDouble forward, OptionalDouble backward) {
        boolean ahead = forward.isEmpty() && !record.blank(84, 88);
        boolean back = record.blank(89, 93) ? ahead : backward.isEmpty();
        if (ahead && back) {
            return Optional.of(Airway.Direction.BOTH);
        }
        return ahead
                ? Optional.of(Airway.Direction.FORWARD)
                : back ? Optional.of(Airway.Direction.BACKWARD) : Optional.empty();
    }

    /** The same fix, coded once in each of two areas: what only one of them has is taken from that one. */
    ArincAirwayRecord mergedWith(ArincAirwayRecord twin) {
        ArincAirwayRecord leaving = distanceNm.isPresent() ? this : twin;
        return new ArincAirwayRecord(
                line, route, area, sequence, ident, key, last && twin.last, leaving.distanceNm, leaving.leg);
    }

    private static Airway.Direction direction(ArincRecord record, Problems problems, String label) {
        return switch (record.at(47)) {
            case 'F' -> Airway.Direction.FORWARD;
            case 'B' -> Airway.Direction.BACKWARD;
            case ' ' -> Airway.Direction.BOTH;
            default -> {
                problems.noted(
                        record.line(),
                        label + ": direction restriction '" + record.at(47)
                                + "' in column 47 is not F, B or blank; taken as blank, both ways");
                yield Airway.Direction.BOTH;
            }
        };
    }
}
