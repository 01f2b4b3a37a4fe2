package org.rejoin.console.drill;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.function.DoublePredicate;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.bridge.route.Warning;
import org.rejoin.console.skill.Shape;

/**
 * One draw of a line to a filed route on a chart, and what it should be like.
 *
 * @param turnsRight at the end of the line, where that can be chosen
 * @param flaw that it is to have; empty for one that can be flown
 * @param tally told why a draw gives nothing
 */
record LineDraw(
        DrillChart chart,
        FiledAirway way,
        DrillRequest request,
        Wind wind,
        boolean turnsRight,
        Optional<Flaw> flaw,
        Random random,
        Tally tally) {

    /** By a turn no larger nobody can turn the wrong way, degrees; judgement. */
    private static final double LEAST_TURN_DEG = 15;

    /** So flat a crossing is hardly one, degrees; only one that is to be too flat for a fix comes near. */
    private static final double FLATTEST_DEG = 8;

    /** A larger turn is no way to join an airway, degrees (ICAO Doc 8168: fly-by turns up to 120 degrees). */
    static final double MOST_TURN_DEG = 120;

    /** No filed turn nearer to the intercept, nautical miles; judgement. */
    static final double CLEAR_OF_TURNS_NM = 5;

    /** From here on flight levels and other rules. */
    private static final double LOW_AIRSPACE_FT = 18_000;

    private static final double LOWEST_FT = 3000;

    /** The line; empty where this draw gives none, or one whose turn at the end nobody could get wrong or fly. */
    Optional<LineToMeet> line(Shape shape) {
        Optional<LineToMeet> line = switch (shape) {
            case A -> AirwayLines.leg(this);
            case B -> RadialLines.inbound(this);
            case C -> RadialLines.outbound(this);
            case RADIALS -> RadialLines.untilRadial(this);
            case ARC -> DmeArcLine.draw(this);
            case HOLD -> AirwayLines.hold(this);
        };
        return line.isEmpty() || isFair(line.get().turnAtEndDeg()) ? line : nothing(Tally.Why.TURN);
    }

    private boolean isFair(OptionalDouble turnAtEndDeg) {
        if (turnAtEndDeg.isEmpty()) {
            return true;
        }
        double turn = Math.abs(turnAtEndDeg.getAsDouble());
        double least = flaw.equals(Optional.of(Flaw.FLAT_CROSSING)) ? FLATTEST_DEG : LEAST_TURN_DEG;
        return turn > least && turn <= MOST_TURN_DEG;
    }

    /** Counts why this draw is thrown away, and gives nothing for it. */
    <T> Optional<T> nothing(Tally.Why why) {
        return tally.nothing(why);
    }

    <T> T oneOf(List<T> all) {
        return all.get(random.nextInt(all.size()));
    }

    /** A leg of the filed airway. */
    FiledRoute.Segment leg() {
        return oneOf(way.legs());
    }

    Optional<StationLines> lines(Station station) {
        return StationLines.of(station, request.date());
    }

    /** Whether the names of these, and that of the airway, each mean one thing around. */
    boolean areClear(Waypoint... points) {
        return List.of(points).stream().allMatch(chart::isOnlyOneOfItsName) && chart.isOnlyOneOfItsName(way);
    }

    /**
     * An altitude as it is assigned: thousands, odd toward 0 to 179 degrees magnetic, even toward 180 to 359 (14 CFR
     * 91.179, from memory), at or above the airway's minimum, the lower ones more often.
     *
     * @param course of the airway where it is joined, true
     * @param at a point of it, for the variation
     * @param usable whether the station can be used there
     * @return feet above mean sea level; empty where none is usable
     */
    OptionalDouble altitude(TrueDirection course, Waypoint at, DoublePredicate usable) {
        double lowest = Math.max(way.minimumFt(), LOWEST_FT);
        boolean odd = course.toMagnetic(MagneticModel.WMM2025.variation(at.position(), lowest, request.date()))
                        .deg()
                < 180;
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
