package org.rejoin.console.drill;

import java.util.OptionalDouble;
import java.util.Random;
import java.util.function.DoublePredicate;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.TrueDirection;

/** Which altitude a drill is flown at, and the limits that all shapes share. */
final class Altitudes {

    /** A larger turn is no way to join an airway, degrees (ICAO Doc 8168: fly-by turns up to 120 degrees). */
    static final double MOST_TURN_DEG = 120;

    /** Nobody can turn the wrong way by less, degrees; judgement. */
    static final double LEAST_TURN_DEG = 15;

    /** No filed turn nearer to the intercept, nautical miles; judgement. */
    static final double CLEAR_OF_TURNS_NM = 5;

    /** From here on flight levels and other rules. */
    private static final double LOW_AIRSPACE_FT = 18_000;

    private static final double LOWEST_FT = 3000;

    private Altitudes() {}

    /**
     * An altitude as it is assigned: thousands, odd toward 0 to 179 degrees magnetic, even toward 180 to 359 (14 CFR
     * 91.179, from memory), at or above the airway's minimum, the lower ones more often.
     *
     * @param course of the airway where it is joined, true
     * @param at a point of it, for the variation
     * @param usable whether the station can be used there
     * @return feet above mean sea level; empty where none is usable
     */
    static OptionalDouble choose(
            FiledAirway way,
            TrueDirection course,
            Waypoint at,
            DrillRequest request,
            Random random,
            DoublePredicate usable) {
        double magnetic = course.toMagnetic(MagneticModel.WMM2025.variation(
                        at.position(), Math.max(way.minimumFt(), LOWEST_FT), request.date()))
                .deg();
        boolean odd = magnetic < 180;
        double lowest = Math.max(way.minimumFt(), LOWEST_FT);
        double first = Math.ceil(lowest / 1000) * 1000;
        if (Math.floorMod((long) (first / 1000), 2) != (odd ? 1 : 0)) {
            first += 1000;
        }
        double most = Math.min(way.maximumFt(), Math.max(LOW_AIRSPACE_FT - 1, first));
        double wanted = first + 2000 * random.nextInt(3);
        for (double feet : new double[] {wanted, first, first + 2000, first + 4000, first + 6000, first + 8000}) {
            if (feet <= most && usable.test(feet)) {
                return OptionalDouble.of(feet);
            }
        }
        return OptionalDouble.empty();
    }
}
