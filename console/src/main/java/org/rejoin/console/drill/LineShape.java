package org.rejoin.console.drill;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.function.DoublePredicate;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.bridge.route.Warning;
import org.rejoin.console.skill.Shape;

/** One kind of line: finds one on a chart. A new kind is one class of this. */
interface LineShape {

    /** A larger turn is no way to join an airway, degrees (ICAO Doc 8168: fly-by turns up to 120 degrees). */
    double MOST_TURN_DEG = 120;

    /** No filed turn nearer to the intercept, nautical miles; judgement. */
    double CLEAR_OF_TURNS_NM = 5;

    /** Draws a line to a filed route on the chart; empty where this draw gives none, and the tally is told why. */
    Optional<LineToMeet> draw(DrillChart chart, FiledAirway way, Ask ask, Random random, Tally tally);

    /**
     * What a line should be like.
     *
     * @param turnsRight at its end, where that can be chosen
     * @param flaw that it is to have; empty for one that can be flown
     */
    record Ask(boolean turnsRight, DrillRequest request, Wind wind, Optional<Flaw> flaw) {

        /** From here on flight levels and other rules. */
        private static final double LOW_AIRSPACE_FT = 18_000;

        private static final double LOWEST_FT = 3000;

        /**
         * An altitude as it is assigned: thousands, odd toward 0 to 179 degrees magnetic, even toward 180 to 359 (14 CFR
         * 91.179, from memory), at or above the airway's minimum, the lower ones more often.
         *
         * @param course of the airway where it is joined, true
         * @param at a point of it, for the variation
         * @param usable whether the station can be used there
         * @return feet above mean sea level; empty where none is usable
         */
        OptionalDouble altitude(
                FiledAirway way, TrueDirection course, Waypoint at, Random random, DoublePredicate usable) {
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

    /**
     * A line to be met, before the aircraft is placed.
     *
     * @param way filed, on which the route goes on
     * @param then instructions that follow the heading
     * @param line in the direction flown, ending where the next course begins
     * @param leastAlongNm nearest to its start where it may be met, nautical miles
     * @param left how far before its end it may be met, nautical miles
     * @param turnAtEndDeg onto the next course, degrees, right positive; empty where the route ends there
     * @param altitudeFt to fly at, feet above mean sea level
     * @param station that gives the course; empty on an airway
     */
    record LineToMeet(
            Shape shape,
            FiledAirway way,
            List<Instruction> then,
            GroundPath line,
            double leastAlongNm,
            Band left,
            OptionalDouble turnAtEndDeg,
            double altitudeFt,
            Optional<Station> station) {

        public LineToMeet {
            then = List.copyOf(then);
        }

        /** The same line at another altitude, feet. */
        LineToMeet at(double otherFt) {
            return new LineToMeet(shape, way, then, line, leastAlongNm, left, turnAtEndDeg, otherFt, station);
        }
    }

    /** Why a clearance of a paper drill cannot be flown as given. */
    enum Flaw {
        /** The heading leads away from the line. */
        DOES_NOT_REACH(Warning.Code.HEADING_DOES_NOT_REACH_COURSE),
        /** Radial and airway cross at too flat an angle for a fix. */
        FLAT_CROSSING(Warning.Code.WEAK_FIX_GEOMETRY),
        /** The radial is used outside of its station's service volume. */
        OUT_OF_RANGE(Warning.Code.OUT_OF_SERVICE_VOLUME);

        private final Warning.Code warning;

        Flaw(Warning.Code warning) {
            this.warning = warning;
        }

        /** Whether the program warns of what is wanted: of nothing, or of the flaw and at most of the range besides. */
        static boolean isAsWanted(Optional<Flaw> flaw, List<Warning.Code> said) {
            return flaw.map(wanted -> said.contains(wanted.warning)
                            && said.stream().allMatch(code -> code == wanted.warning || code == OUT_OF_RANGE.warning))
                    .orElse(said.isEmpty());
        }
    }
}
