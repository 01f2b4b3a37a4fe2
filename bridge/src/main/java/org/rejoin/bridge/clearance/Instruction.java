package org.rejoin.bridge.clearance;

import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Radial;

/** One instruction of a clearance, in the vocabulary of FAA Order JO 7110.65 and ICAO Doc 4444. */
public sealed interface Instruction {

    /** Which way to turn. */
    enum TurnDirection {
        /** Not said: the short way. */
        SHORTEST,
        /** Left. */
        LEFT,
        /** Right. */
        RIGHT
    }

    /** Which way a radial or bearing is flown. */
    enum Sense {
        /** Not said: for the route to decide. */
        UNSAID,
        /** Toward the station. */
        INBOUND,
        /** Away from the station. */
        OUTBOUND
    }

    /** An altitude or a speed: it is held on whatever route there is, and says nothing of the route. */
    sealed interface Assignment extends Instruction {}

    /**
     * "Turn left/right, fly heading H".
     *
     * @param heading by today's variation
     * @param direction of the turn
     */
    record FlyHeading(MagneticDirection heading, TurnDirection direction) implements Instruction {}

    /**
     * "Turn N degrees left/right".
     *
     * @param degrees (0, 360)
     * @param direction left or right
     */
    record TurnBy(double degrees, TurnDirection direction) implements Instruction {}

    /** "Fly present heading". */
    record FlyPresentHeading() implements Instruction {}

    /** "Fly runway heading". */
    record FlyRunwayHeading() implements Instruction {}

    /**
     * "Intercept V31".
     *
     * @param airway ident, shown by the chart
     */
    record InterceptAirway(String airway) implements Instruction {}

    /**
     * "Intercept the AAA 078 radial (inbound|outbound)".
     *
     * @param station that transmits radials
     * @param radial in the station's reference
     * @param sense as said
     */
    record InterceptRadial(Station station, Radial radial, Sense sense) implements Instruction {}

    /**
     * "Intercept the 250 bearing from (to) AAA": a bearing on an NDB, by today's variation.
     *
     * @param station the NDB
     * @param bearing FROM the station, magnetic; a bearing TO is turned round by the reader
     * @param sense as said: "to" is inbound, "from" is outbound
     */
    record InterceptBearing(Station station, MagneticDirection bearing, Sense sense) implements Instruction {}

    /**
     * "Join V31", "join V31 at FIX", "via V31 to FIX".
     *
     * @param airway ident, shown by the chart
     * @param at where it is joined; empty where unsaid
     * @param to where it is left; empty where unsaid
     */
    record JoinAirway(String airway, Optional<Waypoint> at, Optional<Waypoint> to) implements Instruction {}

    /**
     * "(When able,) proceed direct FIX".
     *
     * @param to the fix
     * @param whenAble whether "when able" was said
     */
    record Direct(Waypoint to, boolean whenAble) implements Instruction {}

    /**
     * "Cleared to LIMIT".
     *
     * @param limit the clearance limit
     */
    record ClearedTo(Waypoint limit) implements Instruction {}

    /**
     * How the route goes on.
     *
     * @param how in which words
     */
    record Onward(How how) implements Instruction {
        /** The words, and their name in machine output. */
        public enum How {
            /** "Then as filed". */
            AS_FILED,
            /** "Resume own navigation". */
            RESUME_OWN_NAVIGATION,
            /** "Rest of route unchanged". */
            REST_OF_ROUTE_UNCHANGED,
            /** "On course". */
            ON_COURSE
        }
    }

    /**
     * "Climb (descend) and maintain A", "maintain A (until established)".
     *
     * @param feet above mean sea level; a flight level times 100
     * @param untilEstablished whether "until established" was said
     */
    record Maintain(double feet, boolean untilEstablished) implements Assignment {}

    /**
     * "Cross FIX at (or above, or below) A".
     *
     * @param fix where
     * @param feet above mean sea level
     * @param bound at, at or above, at or below
     */
    record CrossAt(Waypoint fix, double feet, Bound bound) implements Instruction {
        /** How the altitude limits. */
        public enum Bound {
            /** Exactly. */
            AT,
            /** Not lower. */
            AT_OR_ABOVE,
            /** Not higher. */
            AT_OR_BELOW
        }
    }

    /**
     * "Hold DIRECTION of FIX, ...".
     *
     * @param fix where
     * @param compass in words of the compass, for example "northwest"; empty where unsaid
     * @param inboundRadial radial or course on which to hold; empty where unsaid
     * @param legMinutes length of the legs, minutes; empty where unsaid
     * @param legNm length of the legs, nautical miles; empty where unsaid
     * @param turns left or right; SHORTEST where unsaid: right, the standard
     * @param expectFurtherClearance time as said, four digits; empty where unsaid
     */
    record Hold(
            Waypoint fix,
            Optional<String> compass,
            Optional<Radial> inboundRadial,
            OptionalDouble legMinutes,
            OptionalDouble legNm,
            TurnDirection turns,
            Optional<String> expectFurtherClearance)
            implements Instruction {}

    /**
     * "Expect ...": advance information, nothing to fly.
     *
     * @param what in the words as said
     */
    record Expect(String what) implements Instruction {}

    /**
     * "Maintain S knots (or greater)", "reduce speed to S", "do not exceed S knots" (FAA Order JO 7110.65, 5-7-2).
     *
     * @param knots indicated airspeed, knots, [40, 600]
     * @param bound exactly, or not slower, or not faster
     */
    record MaintainSpeed(double knots, Limit bound) implements Assignment {
        /** How the speed limits. */
        public enum Limit {
            /** Exactly. */
            EXACTLY,
            /** Not slower. */
            OR_GREATER,
            /** Not faster. */
            OR_LESS
        }
    }

    /** "Maintain present speed". */
    record MaintainPresentSpeed() implements Assignment {}

    /** "Resume normal speed": no speed is assigned any more. */
    record ResumeNormalSpeed() implements Assignment {}

    /** "Cancel (amended clearance)", "disregard (the amendment)": the amendment in force is taken back. */
    record Cancel() implements Instruction {}
}
