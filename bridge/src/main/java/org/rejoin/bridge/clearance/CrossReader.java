package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Instruction.CrossAt.Bound;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.AirwayContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.AltitudeContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.AwayFromContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.BoundContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.CrossContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.CrossLimitContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.CrossPlaceContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.NotBoundContext;

import org.antlr.v4.runtime.ParserRuleContext;
import org.jspecify.annotations.Nullable;

/** Crossings: where, and at what altitude, time and speed (FAA Order JO 7110.65, 4-5-7, 5-7-2). */
record CrossReader(Source source, PlaceReader places, WhenReader whens, Quantities quantities) {

    /**
     * Everything that is said of one crossing, in the order said.
     *
     * @param it the fix that the words before it lead to
     */
    List<Instruction> cross(CrossContext spoken, Optional<Waypoint> it) throws ClearanceException {
        Place place = place(spoken, spoken.crossPlace(), it);
        List<Instruction> read = new ArrayList<>();
        if (spoken.altitude() != null) {
            level(place, spoken, spoken.altitude(), bound(spoken.bound(), null), spoken.MAINTAIN() != null, read);
        }
        for (CrossLimitContext limit : spoken.crossLimit()) {
            limit(place, limit, read);
        }
        possible(spoken, read);
        return read;
    }

    /** A fix with or without miles from it, or another place of the route. */
    private record Place(Optional<Waypoint> fix, Optional<Instruction.Away> away, Optional<When> other) {

        Instruction level(double feet, boolean flightLevel, Bound bound) {
            return fix.isPresent()
                    ? new Instruction.CrossAt(fix.get(), feet, flightLevel, bound, away)
                    : new Noted.CrossLevel(other.orElseThrow(), feet, flightLevel, bound);
        }
    }

    /** Where it is; the fix that is led to where that is not said, or is "it". */
    private Place place(CrossContext all, @Nullable CrossPlaceContext spoken, Optional<Waypoint> it)
            throws ClearanceException {
        if (spoken == null || spoken.IT() != null) {
            Waypoint fix =
                    it.orElseThrow(() -> source.notUnderstood(all, "no fix is said before it: name the one to cross"));
            return new Place(Optional.of(fix), Optional.empty(), Optional.empty());
        }
        Optional<When> other = whens.crossed(spoken);
        if (other.isPresent()) {
            return new Place(Optional.empty(), Optional.empty(), other);
        }
        if (spoken.awayFrom() != null) {
            return beside(spoken.awayFrom(), spoken.airway());
        }
        Waypoint fix =
                spoken.radialFix() != null ? places.radialFix(spoken.radialFix()) : places.waypoint(spoken.place());
        return new Place(Optional.of(fix), Optional.empty(), Optional.empty());
    }

    /** "Ten miles west of BBB", "V31, ten miles west of BBB", "ten miles west of BBB on V31". */
    private Place beside(AwayFromContext spoken, @Nullable AirwayContext before) throws ClearanceException {
        if (before != null && spoken.airway() != null) {
            throw source.notUnderstood(spoken, "which airway is crossed is said twice");
        }
        AirwayContext on = before == null ? spoken.airway() : before;
        Optional<String> airway = on == null ? Optional.empty() : Optional.of(places.airway(on));
        Waypoint fix =
                airway.isPresent() ? places.waypointOn(airway.get(), spoken.place()) : places.waypoint(spoken.place());
        Instruction.Away away = new Instruction.Away(
                quantities.distanceNm(spoken.number()), LineReader.compass(spoken.compass()), airway);
        return new Place(Optional.of(fix), Optional.of(away), Optional.empty());
    }

    /** The place for a time or a speed, which are not of a point beside the fix. */
    private When when(Place place, CrossLimitContext limit) throws ClearanceException {
        if (place.away().isPresent()) {
            throw source.notUnderstood(
                    limit, "a time or a speed is understood over a fix, or miles before or after it");
        }
        return place.other()
                .orElseGet(() ->
                        new When.AtLine(new Instruction.Until.AtFix(place.fix().orElseThrow())));
    }

    private void limit(Place place, CrossLimitContext limit, List<Instruction> into) throws ClearanceException {
        if (limit.KNOTS() != null) {
            into.add(new Noted.CrossSpeed(
                    when(place, limit), quantities.speedKt(limit.number()), Quantities.limit(limit.speedBound())));
        } else if (limit.number() != null) {
            boolean not = limit.NOT() != null || limit.NO() != null;
            boolean later = not ? limit.BEFORE() != null : limit.AFTER() != null;
            boolean earlier = not ? limit.AFTER() != null : limit.BEFORE() != null;
            into.add(new Noted.CrossTime(
                    when(place, limit),
                    quantities.time(limit.number()),
                    later
                            ? Noted.CrossTime.Bound.OR_LATER
                            : earlier ? Noted.CrossTime.Bound.OR_EARLIER : Noted.CrossTime.Bound.AT));
        } else if (limit.BETWEEN() != null) {
            double one = quantities.altitudeFt(limit.altitude(0));
            double other = quantities.altitudeFt(limit.altitude(1));
            boolean oneIsLevel = Quantities.isLevel(limit.altitude(0));
            boolean otherIsLevel = Quantities.isLevel(limit.altitude(1));
            boolean upward = one <= other;
            into.add(place.level(Math.min(one, other), upward ? oneIsLevel : otherIsLevel, Bound.AT_OR_ABOVE));
            into.add(place.level(Math.max(one, other), upward ? otherIsLevel : oneIsLevel, Bound.AT_OR_BELOW));
        } else {
            level(
                    place,
                    limit,
                    limit.altitude(0),
                    bound(limit.bound(), limit.notBound()),
                    !limit.MAINTAIN().isEmpty(),
                    into);
        }
    }

    private void level(
            Place place,
            ParserRuleContext all,
            AltitudeContext altitude,
            Bound bound,
            boolean maintain,
            List<Instruction> into)
            throws ClearanceException {
        if (bound != Bound.AT && maintain) {
            throw source.notUnderstood(all, "one limit only: at, at or above, at or below, or at and maintain");
        }
        double feet = quantities.altitudeFt(altitude);
        boolean plain = altitude.number() != null && altitude.getChildCount() == 1;
        if (plain && feet < 2400 && feet % 100 != 0 && feet % 100 < 60) {
            throw source.notUnderstood(altitude, "feet or a time? say feet behind it, or time before it");
        }
        into.add(place.level(feet, Quantities.isLevel(altitude), bound));
        if (maintain) {
            into.add(new Instruction.Maintain(feet, false).asLevel(Quantities.isLevel(altitude)));
        }
    }

    /** An altitude that meets all that is said of one crossing must exist. */
    private void possible(CrossContext spoken, List<Instruction> read) throws ClearanceException {
        double lowest = 0;
        double highest = Double.MAX_VALUE;
        for (Instruction each : read) {
            Bound bound;
            double feet;
            if (each instanceof Instruction.CrossAt cross) {
                bound = cross.bound();
                feet = cross.feet();
            } else if (each instanceof Noted.CrossLevel cross) {
                bound = cross.bound();
                feet = cross.feet();
            } else {
                continue;
            }
            lowest = bound == Bound.AT_OR_BELOW ? lowest : Math.max(lowest, feet);
            highest = bound == Bound.AT_OR_ABOVE ? highest : Math.min(highest, feet);
        }
        if (lowest > highest) {
            throw source.notUnderstood(spoken, "no altitude meets both limits");
        }
    }

    /** "Or above", or said the other way round: "not below"; at it where neither is said. */
    static Bound bound(@Nullable BoundContext or, @Nullable NotBoundContext not) {
        if (not != null) {
            return not.BELOW() != null ? Bound.AT_OR_ABOVE : Bound.AT_OR_BELOW;
        }
        if (or != null) {
            return or.ABOVE() != null ? Bound.AT_OR_ABOVE : Bound.AT_OR_BELOW;
        }
        return Bound.AT;
    }
}
