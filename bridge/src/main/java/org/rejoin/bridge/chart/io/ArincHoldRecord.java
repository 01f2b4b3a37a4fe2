package org.rejoin.bridge.chart.io;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;

import org.rejoin.bridge.chart.PublishedHold;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.Radial;

/**
 * One holding pattern as an ARINC 424 file has it, record EP of supplement 18, 4.1.5: fix in columns 30 to 38,
 * continuation 39, inbound course 40 to 43, turns 44, leg length 45 to 47 (tenths of a mile), leg time 48 to 49 (tenths
 * of a minute), altitudes 50 to 59, speed 60 to 62. Two open-source parsers of the format, made apart from one another,
 * place all of these alike: {@code jack-laverty/arinc424} ({@code src/arinc424/definitions/HoldingPattern.py}, and the
 * standard's sample records under {@code tests/example_data/424-18}) and {@code malstraem/arinc424.net} ({@code
 * Routing/HoldingPattern.cs}). The public file of the United States has no such record. A pattern that gives no inbound
 * course or no turns, as some of the sample do, says where the fix of one is and not how it is flown.
 *
 * @param key of the fix, as {@link ArincPoints#key}
 */
record ArincHoldRecord(
        int line,
        String ident,
        String key,
        double courseDeg,
        boolean isTrue,
        boolean right,
        OptionalDouble legNm,
        OptionalDouble legMinutes,
        OptionalDouble minimumFt,
        OptionalDouble maximumFt,
        OptionalDouble speedKt) {

    static ArincHoldRecord read(ArincRecord record) throws BadField {
        record.requireLength(44, "a holding pattern");
        String ident = record.ident(30, 34);
        if (record.blank(40, 43) || record.at(44) == ' ') {
            throw new BadField("the holding pattern at " + ident + " has no "
                    + (record.blank(40, 43) ? "inbound course" : "turn direction")
                    + ": it cannot be held as published");
        }
        // "343T" is whole degrees true (5.62).
        boolean isTrue = record.at(43) == 'T';
        int course = isTrue ? record.digits(40, 42) * 10 : record.digits(40, 43);
        if (course < 0 || course > 3600) {
            throw new BadField("inbound course \"" + record.raw(40, 43) + "\" is not tenths of a degree up to 3600");
        }
        char turns = record.at(44);
        if (turns != 'L' && turns != 'R') {
            throw new BadField("turn direction '" + turns + "' in column 44 is not L or R");
        }
        return new ArincHoldRecord(
                record.line(),
                ident,
                ArincPoints.key(record.raw(37, 38), ident, record.raw(35, 36)),
                course / 10.0,
                isTrue,
                turns == 'R',
                positive(record.fixedPoint(45, 47, 10, "leg length")),
                positive(record.fixedPoint(48, 49, 10, "leg time")),
                record.altitudeFt(50),
                record.altitudeFt(55),
                positive(record.fixedPoint(60, 62, 1, "holding speed")));
    }

    private static OptionalDouble positive(OptionalDouble number) {
        return number.isPresent() && number.getAsDouble() > 0 ? number : OptionalDouble.empty();
    }

    /** With its fix; empty where the file does not have it. */
    Optional<PublishedHold> at(Function<String, List<Waypoint>> points) {
        return points.apply(key).stream()
                .findFirst()
                .map(fix -> new PublishedHold(
                        fix,
                        new Radial(courseDeg),
                        isTrue ? OptionalDouble.of(courseDeg) : OptionalDouble.empty(),
                        right,
                        legNm.isPresent() ? OptionalDouble.empty() : legMinutes,
                        legNm,
                        minimumFt,
                        maximumFt,
                        speedKt));
    }
}
