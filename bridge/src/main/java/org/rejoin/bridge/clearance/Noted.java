package org.rejoin.bridge.clearance;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;

import org.rejoin.bridge.chart.Waypoint;

/**
 * What is understood, read back and shown, and not followed by route, tracker or debrief, but for the times of a hold and
 * what no longer holds: a note of the clearance says so.
 */
public sealed interface Noted extends Instruction.Assignment {

    /**
     * In ATC's words, such that reading them again gives the same; for example "maintain block six thousand through
     * eight thousand".
     */
    String words();

    /** {@return what a readback of it is compared as; for example "rate", "crossing time"} */
    String kind();

    @Override
    default <R> R fold(Visitor<R> visitor) {
        return visitor.noted(this);
    }

    /** Until when to hold: followed where a hold is in force. */
    sealed interface ForHold extends Noted {}

    /** {@return when the approach is to be expected: "1545", or "in 20 minutes"; empty where that is not what it says} */
    default Optional<String> approach() {
        return Optional.empty();
    }

    /** A time of day until which to hold, or at which to ask for more. */
    sealed interface HoldTime extends ForHold permits HoldUntil, LeaveHold, FurtherClearance, ApproachClearance {

        /** {@return the time of day, four digits} */
        String time();
    }

    /** A time from now at which to ask for more. */
    sealed interface HoldIn extends ForHold permits FurtherClearanceIn, ApproachClearanceIn {

        /** {@return minutes from when it was said; 1 to 600} */
        int minutes();
    }

    /**
     * "After PRION, ...", "at 1530, ...", "..., then ...": what begins later.
     *
     * @param order whether "then" is all that is said of it: it begins where what stands before it is done
     */
    record After(When when, List<Instruction> then, boolean order) implements Noted {
        public After {
            then = List.copyOf(then);
        }

        @Override
        public String kind() {
            return "after";
        }

        @Override
        public String words() {
            if (order) {
                return "then " + begun();
            }
            return when.begins() + ", " + begun();
        }

        /** {@return what begins, in ATC's words} */
        public String begun() {
            return String.join(
                    ", ",
                    Phraseology.saidOnce(then).stream().map(Phraseology::say).toList());
        }
    }

    /** "... until PRION": where what was said last ends. */
    record Until(What what, When when) implements Noted {
        /** What ends there. */
        public enum What {
            /** A heading. */
            HEADING,
            /** An altitude. */
            ALTITUDE,
            /** A speed. */
            SPEED,
            /** An offset. */
            OFFSET
        }

        @Override
        public String kind() {
            return "until";
        }

        @Override
        public String words() {
            return "until " + when.words();
        }
    }

    /** "... established on V40": of which line an altitude speaks. */
    record EstablishedOn(Instruction.Until line) implements Noted {
        @Override
        public String kind() {
            return "until";
        }

        @Override
        public String words() {
            return "on "
                    + line.<String>fold(
                            radial -> Phraseology.until(radial),
                            distance -> Phraseology.until(distance),
                            fix -> Phraseology.until(fix),
                            at -> Phraseology.airway(at.airway()));
        }
    }

    /**
     * "Turn left onto V40", "turn left on course": which way to turn onto what is said next. The route follows the line; a
     * turn that is the other way there is warned about.
     *
     * @param side left or right
     */
    record TurnOnto(Instruction.TurnDirection side) implements Noted {
        @Override
        public String kind() {
            return "turn";
        }

        @Override
        public String words() {
            return "turn " + Phraseology.turn(side) + " onto it";
        }
    }

    /** "... to be level by 1530", "level 10 miles before FUL". */
    record LevelBy(When when) implements Noted {
        @Override
        public String kind() {
            return "level by";
        }

        @Override
        public String words() {
            return "to be level " + when.latest();
        }
    }

    /**
     * "... at 500 feet per minute or greater".
     *
     * @param feetPerMinute rate of climb or descent, [100, 10 000]
     */
    record Rate(double feetPerMinute, Instruction.MaintainSpeed.Limit bound) implements Noted {
        @Override
        public String kind() {
            return "rate";
        }

        @Override
        public String words() {
            return "at " + Phraseology.count(feetPerMinute) + " feet per minute" + Phraseology.limit(bound);
        }
    }

    /**
     * "Maintain at least FL90", "maintain at or below 7000".
     *
     * @param bound at or above, or at or below
     */
    record Bounded(double feet, boolean flightLevel, Instruction.CrossAt.Bound bound) implements Noted {
        @Override
        public String kind() {
            return "altitude";
        }

        @Override
        public String words() {
            boolean lowest = bound == Instruction.CrossAt.Bound.AT_OR_ABOVE;
            return "maintain " + (lowest ? "at least" : "at or below") + " " + SpokenWords.altitude(feet, flightLevel);
        }
    }

    /** "Maintain block 6000 through 8000". */
    record Block(
            double lowestFt,
            boolean lowestIsLevel,
            double highestFt,
            boolean highestIsLevel,
            Instruction.Maintain.Vertical vertical)
            implements Noted {
        @Override
        public String kind() {
            return "block";
        }

        @Override
        public String words() {
            String verb = switch (vertical) {
                case UNSAID -> "maintain";
                case CLIMB -> "climb and maintain";
                case DESCEND -> "descend and maintain";
            };
            return verb + " block " + SpokenWords.altitude(lowestFt, lowestIsLevel) + " through "
                    + SpokenWords.altitude(highestFt, highestIsLevel);
        }
    }

    /**
     * "Cruise 7000": any altitude from the lowest one of the route up to it (FAA Order JO 7110.65, 4-5-7, from memory).
     */
    record Cruise(double feet, boolean flightLevel) implements Noted {
        @Override
        public String kind() {
            return "altitude";
        }

        @Override
        public String words() {
            return "cruise " + SpokenWords.altitude(feet, flightLevel);
        }
    }

    /** "Cross 15 miles before FUL at FL80 or below", "cross the PTL 040 radial at 5000". */
    record CrossLevel(When where, double feet, boolean flightLevel, Instruction.CrossAt.Bound bound) implements Noted {
        @Override
        public String kind() {
            return "crossing";
        }

        @Override
        public String words() {
            return "cross " + where.words() + " " + Phraseology.bound(bound) + " "
                    + SpokenWords.altitude(feet, flightLevel);
        }
    }

    /** "Cross FUL at or after 1530". */
    record CrossTime(When where, String time, Bound bound) implements Noted {
        /** How a time limits. */
        public enum Bound {
            /** At that time. */
            AT,
            /** Not earlier. */
            OR_LATER,
            /** Not later. */
            OR_EARLIER
        }

        @Override
        public String kind() {
            return "crossing time";
        }

        @Override
        public String words() {
            String how = switch (bound) {
                case AT -> " at time ";
                case OR_LATER -> " at or after ";
                case OR_EARLIER -> " at or before ";
            };
            return "cross " + where.words() + how + SpokenWords.digits(time);
        }
    }

    /**
     * "Cross FUL at 120 knots".
     *
     * @param knots indicated airspeed, knots, [40, 600]
     */
    record CrossSpeed(When where, double knots, Instruction.MaintainSpeed.Limit bound) implements Noted {
        @Override
        public String kind() {
            return "crossing speed";
        }

        @Override
        public String words() {
            return "cross " + where.words() + " at " + Phraseology.count(knots) + " knots" + Phraseology.limit(bound);
        }
    }

    /**
     * "Reduce speed by 20 knots".
     *
     * @param knots to add, or to take off where negative; 1 to 100 either way
     */
    record SpeedChange(double knots) implements Noted {
        @Override
        public String kind() {
            return "speed";
        }

        @Override
        public String words() {
            return (knots < 0 ? "reduce" : "increase") + " speed by " + Phraseology.count(Math.abs(knots)) + " knots";
        }
    }

    /** "Maintain maximum forward speed", "reduce to minimum clean speed". */
    record ExtremeSpeed(boolean fastest) implements Noted {
        @Override
        public String kind() {
            return "speed";
        }

        @Override
        public String words() {
            return fastest ? "maintain maximum forward speed" : "maintain slowest practical speed";
        }
    }

    /**
     * "Offset 8 miles right of V40".
     *
     * @param airway ident; empty for the route
     * @param distanceNm nautical miles, [1, 200]
     */
    record Offset(Optional<String> airway, Instruction.TurnDirection side, double distanceNm) implements Noted {
        @Override
        public String kind() {
            return "offset";
        }

        @Override
        public String words() {
            return "offset " + Phraseology.count(distanceNm) + " miles " + Phraseology.turn(side) + " of "
                    + airway.map(Phraseology::airway).orElse("route");
        }
    }

    /**
     * "Deviation 20 miles right of V40 approved": how far from the course the pilot may go around weather (FAA Order JO
     * 7110.65, 2-6-4, from memory).
     *
     * @param side left or right; empty for both
     * @param far nautical miles, [1, 200], or degrees, [1, 359]; empty for as far as needed
     * @param airway ident; empty for the course flown
     */
    record Deviation(Optional<TurnDirection> side, OptionalDouble far, boolean degrees, Optional<String> airway)
            implements Noted {
        @Override
        public String kind() {
            return "deviation";
        }

        @Override
        public String words() {
            return "deviation"
                    + far.stream()
                            .mapToObj(many -> " " + Phraseology.count(many) + (degrees ? " degrees" : " miles"))
                            .collect(Collectors.joining())
                    + side.map(way -> " " + Phraseology.turn(way)).orElse(" left and right") + " of "
                    + airway.map(Phraseology::airway).orElse("course") + " approved";
        }
    }

    /**
     * "Delete speed restrictions", "cancel hold": what no longer holds.
     *
     * @param at where it was to be kept; empty where that is not said
     */
    record Lifted(Kind what, Optional<Waypoint> at) implements Noted {
        /** What no longer holds, wherever it was. */
        public Lifted(Kind what) {
            this(what, Optional.empty());
        }

        /** What no longer holds. */
        public enum Kind {
            /** Speeds. */
            SPEED,
            /** Altitudes at crossings. */
            ALTITUDE,
            /** An offset. */
            OFFSET,
            /** A hold. */
            HOLD
        }

        /** Whether it is taken out of what is in force; a speed at a crossing and an offset never were. */
        public boolean isFollowed() {
            return switch (what) {
                case SPEED -> at.isEmpty();
                case ALTITUDE, HOLD -> true;
                case OFFSET -> false;
            };
        }

        /** Whether the altitude at a place named by a fix need not be kept any more. */
        public boolean lifts(Waypoint fix) {
            return what == Kind.ALTITUDE && (at.isEmpty() || at.get().equals(fix));
        }

        @Override
        public String kind() {
            return "cancel";
        }

        @Override
        public String words() {
            String lifted = switch (what) {
                case SPEED -> "cancel speed restrictions";
                case ALTITUDE -> "cancel altitude restrictions";
                case OFFSET -> "cancel offset";
                case HOLD -> "cancel hold";
            };
            return lifted + at.map(fix -> " at " + Phraseology.place(fix)).orElse("");
        }
    }

    /** "Delete PRION", "skip PRION": the way on is said with it, and must not pass there. */
    record LeftOut(Waypoint fix) implements Noted {
        @Override
        public String kind() {
            return "left out";
        }

        @Override
        public String words() {
            return "delete " + Phraseology.place(fix);
        }
    }

    /**
     * "... at or before PRION", "... at or south of PRION": as far as where the airway said before it is joined. The route is
     * worked out so, or warned about; in flight it is not followed.
     *
     * @param airway ident
     * @param side "before" or "after" along the airway, or a point of the compass
     */
    record JoinedWithin(String airway, String side, Waypoint fix) implements Noted {
        @Override
        public String kind() {
            return "joined within";
        }

        @Override
        public String words() {
            boolean along = side.equals("before") || side.equals("after");
            return "at or " + side + (along ? " " : " of ") + Phraseology.place(fix);
        }
    }

    /** "Rejoin route by PRION", "by 1520": as filed, and on it there or then at the latest; a time is not followed. */
    record RouteBy(When when) implements Noted {
        @Override
        public String kind() {
            return "route by";
        }

        @Override
        public String words() {
            return "rejoin route " + when.latest();
        }
    }

    /** "Hold ... until 1530". */
    record HoldUntil(String time) implements HoldTime {
        @Override
        public String kind() {
            return "hold until";
        }

        @Override
        public String words() {
            return "until " + SpokenWords.digits(time);
        }
    }

    /**
     * "Depart WEKIT at 1530", "leave the hold at 1530".
     *
     * @param fix where it is held; empty for the hold in force
     */
    record LeaveHold(Optional<Waypoint> fix, String time) implements HoldTime {
        @Override
        public String kind() {
            return "hold until";
        }

        @Override
        public String words() {
            return fix.map(at -> "depart " + Phraseology.place(at)).orElse("leave the hold") + " at "
                    + SpokenWords.digits(time);
        }
    }

    /** "Expect further clearance 1530", with no hold to say it of. */
    record FurtherClearance(String time) implements HoldTime {
        @Override
        public String kind() {
            return "further clearance";
        }

        @Override
        public String words() {
            return "expect further clearance " + SpokenWords.digits(time);
        }
    }

    /** "Expect approach clearance 1545": when the hold is left for the approach (ICAO Doc 4444, from memory). */
    record ApproachClearance(String time) implements HoldTime {
        @Override
        public String kind() {
            return "approach clearance";
        }

        @Override
        public String words() {
            return "expect approach clearance " + SpokenWords.digits(time);
        }

        @Override
        public Optional<String> approach() {
            return Optional.of(time);
        }
    }

    /** "Expect approach clearance in 20 minutes"; minutes from now, 1 to 600. */
    record ApproachClearanceIn(int minutes) implements HoldIn {
        @Override
        public String kind() {
            return "approach clearance";
        }

        @Override
        public String words() {
            return "expect approach clearance in " + Phraseology.count(minutes) + " minutes";
        }

        @Override
        public Optional<String> approach() {
            return Optional.of("in " + minutes + (minutes == 1 ? " minute" : " minutes"));
        }
    }

    /**
     * "Expect further clearance in 20 minutes".
     *
     * @param minutes from now, 1 to 600
     */
    record FurtherClearanceIn(int minutes) implements HoldIn {
        @Override
        public String kind() {
            return "further clearance";
        }

        @Override
        public String words() {
            return "expect further clearance in " + Phraseology.count(minutes) + " minutes";
        }
    }
}
