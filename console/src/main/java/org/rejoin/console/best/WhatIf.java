package org.rejoin.console.best;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Turn;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.protocol.AircraftState;

/**
 * A flight as it would have gone, had a turn begun elsewhere, with another bank, or in another wind. Until the first thing
 * that is different the aircraft goes where it went; in another wind it holds its headings from where the clearance was
 * heard, and is carried elsewhere. From there on it flies as the best path does: level turns at the bank, carried along by
 * the wind. Where a turn does not roll out on its line, it closes on it again at 30 degrees (common practice, no source) and
 * rolls out on it. Later turns begin where they roll out on the next line. Pure.
 */
public final class WhatIf {

    private final BestPath best;
    private final List<Point> flown;
    private final double untilS;
    private final List<FlownTurns.Found> found;

    private WhatIf(BestPath best, List<Point> flown, double untilS) {
        this.best = best;
        this.flown = flown;
        this.untilS = untilS;
        this.found = FlownTurns.of(best, flown);
    }

    /**
     * A turn that can be moved.
     *
     * @param heardS when its clearance was heard, seconds since the first sample
     * @param leg index of the leg it leads onto, in the amended route
     * @param onto that leg, in words
     * @param line of that leg
     * @param near side of the line that it is begun on: 1 right of course, -1 left
     * @param bestBeforeNm where the best path begins it, square to the line, nautical miles
     * @param flownBeforeNm where the flight began it, likewise, negative past the line; empty where it never turned that way
     * @param trueAirspeedKt there, knots
     * @param bankDeg of the best path's turn, degrees
     */
    public record Movable(
            double heardS,
            int leg,
            String onto,
            GroundPath line,
            double near,
            double bestBeforeNm,
            OptionalDouble flownBeforeNm,
            double trueAirspeedKt,
            double bankDeg) {}

    /**
     * What is to be different.
     *
     * @param leg index of the leg that the turn leads onto
     * @param beforeNm where it begins, square to the line, nautical miles, negative past the line
     * @param bankDeg in it and in all turns after it, degrees, [5, 45]
     * @param wind from where the clearance was heard
     */
    public record Choice(int leg, double beforeNm, double bankDeg, Wind wind) {
        /**
         * Checks the range.
         *
         * @throws IllegalArgumentException if a value is out of range; one line
         */
        public Choice {
            if (!(beforeNm >= -20 && beforeNm <= 20)) {
                throw new IllegalArgumentException("a turn begins 20 NM or less from its line");
            }
            if (!(bankDeg >= 5 && bankDeg <= 45)) {
                throw new IllegalArgumentException("the bank is 5 to 45 degrees");
            }
        }
    }

    /**
     * The flight as it would have gone.
     *
     * @param states of it from the first sample on, seconds since the first; as recorded until something is different
     * @param differsS where it leaves the recorded flight, seconds since the first sample
     * @param begins where the turn begins
     * @param beginsS when, seconds since the first sample
     * @param radiusNm of its turns through the air, nautical miles
     */
    public record Flight(
            List<AircraftState> states, double differsS, Position begins, double beginsS, double radiusNm) {
        public Flight {
            states = List.copyOf(states);
        }

        /** As far as the next clearance, which is another story. */
        Flight until(double endS) {
            return new Flight(
                    states.stream().filter(state -> state.timeS() < endS).toList(),
                    differsS,
                    begins,
                    beginsS,
                    radiusNm);
        }
    }

    /**
     * What can be asked of each clearance of a flight whose record has its points, in order of time; a clearance
     * without a best path is left out.
     */
    public static List<WhatIf> all(FlightRecord record) {
        List<Entry.Issued> issued = record.amendments();
        List<Point> points = Comparison.thinned(record, issued);
        List<WhatIf> all = new ArrayList<>();
        for (int i = 0; i < issued.size(); i++) {
            double fromS = issued.get(i).timeS();
            double toS = i + 1 < issued.size() ? issued.get(i + 1).timeS() : Double.POSITIVE_INFINITY;
            List<Point> until = points.stream().filter(at -> at.timeS() < toS).toList();
            AmendedRoute route = issued.get(i).route();
            until.stream()
                    .filter(at -> at.timeS() >= fromS)
                    .findFirst()
                    .flatMap(at -> BestPath.of(route, fromS, route.situation().position(), Recorded.ground(at)))
                    .map(best -> new WhatIf(best, until, toS))
                    .filter(each -> !each.found.isEmpty())
                    .ifPresent(all::add);
        }
        return all;
    }

    /** {@return when the clearance was heard, seconds since the first sample} */
    public double heardS() {
        return best.heardS();
    }

    /** Whether the route ends in a hold: that is not flown otherwise, only the way to it. */
    public boolean endsInHold() {
        return best.route().endsInHold();
    }

    /** {@return the wind that the clearance was worked out with, of the lesson} */
    public Wind wind() {
        return best.route().situation().wind();
    }

    /** {@return its turns; in the order flown, one or more} */
    public List<Movable> turns() {
        return found.stream()
                .map(each -> {
                    Recorded recorded = recorded(each, wind());
                    double speed =
                            recorded.at(each.flownS().orElse(each.fromS())).trueAirspeedKt();
                    return new Movable(
                            best.heardS(),
                            each.leg(),
                            each.onto(),
                            each.line(),
                            each.near(),
                            each.bestBeforeNm(),
                            flownBeforeNm(each, recorded),
                            speed,
                            Turn.bankDeg(speed, Turn.STANDARD_RATE_DEG_PER_S));
                })
                .toList();
    }

    private static OptionalDouble flownBeforeNm(FlownTurns.Found turn, Recorded recorded) {
        return turn.flownS().isEmpty()
                ? OptionalDouble.empty()
                : OptionalDouble.of(turn.near()
                        * turn.line()
                                .offset(recorded.at(turn.flownS().getAsDouble()).position())
                                .crossTrackNm());
    }

    /**
     * The flight with something different.
     *
     * @return empty where the aircraft does not get onto its lines that way: a leg is too short to come back to, the wind too
     *     strong to make the course good, or the turn's line is never met
     */
    public Optional<Flight> flight(Choice choice) {
        FlownTurns.Found chosen = found.stream()
                .filter(each -> each.leg() == choice.leg())
                .findFirst()
                .orElse(found.get(0));
        // In another wind everything from the first turn on is different.
        FlownTurns.Found first = choice.wind().equals(wind()) ? chosen : found.get(0);
        double beforeNm = first.leg() == choice.leg()
                ? choice.beforeNm()
                : flownBeforeNm(first, recorded(first, wind())).orElse(first.bestBeforeNm());
        Recorded recorded = recorded(first, choice.wind());
        return recorded.beginS(first, beforeNm)
                .flatMap(beginS -> new OtherPath(best.route(), choice, recorded, beginS).fly(first, chosen))
                .map(flight -> flight.until(untilS));
    }

    private Recorded recorded(FlownTurns.Found turn, Wind other) {
        return new Recorded(flown, turn.flownS(), best.heardS(), wind(), other);
    }
}
