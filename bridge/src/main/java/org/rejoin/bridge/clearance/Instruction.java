package org.rejoin.bridge.clearance;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Radial;

/** One instruction of a clearance, in the vocabulary of FAA Order JO 7110.65 and ICAO Doc 4444. */
public sealed interface Instruction {

    /**
     * What each kind of instruction means to a reader of clearances. A new kind is a new method here, so the compiler finds
     * each place where it must be heard.
     */
    interface Visitor<R> {
        R flyHeading(FlyHeading said);

        R turnBy(TurnBy said);

        R flyPresentHeading(FlyPresentHeading said);

        R flyRunwayHeading(FlyRunwayHeading said);

        R interceptAirway(InterceptAirway said);

        R interceptRadial(InterceptRadial said);

        R interceptBearing(InterceptBearing said);

        R interceptArc(InterceptArc said);

        R joinAirway(JoinAirway said);

        R direct(Direct said);

        R depart(Depart said);

        R clearedTo(ClearedTo said);

        R onward(Onward said);

        R maintain(Maintain said);

        R crossAt(CrossAt said);

        R hold(Hold said);

        R report(Report said);

        R expect(Expect said);

        R maintainSpeed(MaintainSpeed said);

        R maintainPresentSpeed(MaintainPresentSpeed said);

        R resumeNormalSpeed(ResumeNormalSpeed said);

        R cancel(Cancel said);

        R noted(Noted said);
    }

    /** Lets a reader hear this instruction. */
    <R> R fold(Visitor<R> visitor);

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

    /** A heading to fly. */
    sealed interface Heading extends Instruction permits FlyHeading, TurnBy, FlyPresentHeading, FlyRunwayHeading {

        /** {@return which way to turn to it; left or right; SHORTEST where unsaid} */
        TurnDirection direction();

        /**
         * The heading to fly, by today's variation; empty where it follows from the present one and that is not known.
         */
        Optional<MagneticDirection> heading(Optional<MagneticDirection> present);
    }

    /** A line of a station to intercept. */
    sealed interface StationLine extends Instruction permits InterceptRadial, InterceptBearing, InterceptArc {

        /** {@return the station whose line it is} */
        Station station();

        /** {@return which way it is flown, as said; unsaid for an arc} */
        Sense sense();

        /** {@return where the line is left; empty where it is not said} */
        Optional<Until> until();

        /** The same line, left at a place. */
        StationLine leftAt(Until until);

        /** The same line, flown a way; an arc as it is, which leads neither to its station nor from it. */
        StationLine flown(Sense sense);

        /** Meets it as what it is, so that no kind is forgotten. */
        <R> R line(
                Function<InterceptRadial, R> radial,
                Function<InterceptBearing, R> bearing,
                Function<InterceptArc, R> arc);
    }

    /** An airway or a fix that the route goes on by. */
    sealed interface Onto extends Instruction permits InterceptAirway, JoinAirway, Direct {

        /** Meets it as what it is, so that no kind is forgotten. */
        <R> R onto(Function<InterceptAirway, R> intercept, Function<JoinAirway, R> join, Function<Direct, R> direct);
    }

    /**
     * What is held, or kept to, on whatever route there is, and says nothing of the route: an altitude, a speed, a crossing,
     * a report.
     */
    sealed interface Assignment extends Instruction permits Maintain, CrossAt, Report, Speed, Noted {}

    /** The speed to hold, or that none is assigned any more. */
    sealed interface Speed extends Assignment permits MaintainSpeed, MaintainPresentSpeed, ResumeNormalSpeed {

        /**
         * What is assigned from now on; empty where no speed is, or the present one is and that is not known, knots.
         */
        Optional<MaintainSpeed> assigned(OptionalDouble presentKt);
    }

    /** Where a radial or an arc is left. */
    sealed interface Until {

        /** Meets it as what it is, so that no kind is forgotten. */
        <R> R fold(
                Function<AtRadial, R> atRadial,
                Function<AtDistance, R> atDistance,
                Function<AtFix, R> atFix,
                Function<AtAirway, R> atAirway);

        /** At a radial. */
        record AtRadial(Station station, Radial radial) implements Until {
            @Override
            public <R> R fold(
                    Function<AtRadial, R> atRadial,
                    Function<AtDistance, R> atDistance,
                    Function<AtFix, R> atFix,
                    Function<AtAirway, R> atAirway) {
                return atRadial.apply(this);
            }
        }

        /** At a distance. */
        record AtDistance(Station station, double distanceNm) implements Until {
            @Override
            public <R> R fold(
                    Function<AtRadial, R> atRadial,
                    Function<AtDistance, R> atDistance,
                    Function<AtFix, R> atFix,
                    Function<AtAirway, R> atAirway) {
                return atDistance.apply(this);
            }
        }

        /** At a fix. */
        record AtFix(Waypoint fix) implements Until {
            @Override
            public <R> R fold(
                    Function<AtRadial, R> atRadial,
                    Function<AtDistance, R> atDistance,
                    Function<AtFix, R> atFix,
                    Function<AtAirway, R> atAirway) {
                return atFix.apply(this);
            }
        }

        /** At an airway. */
        record AtAirway(String airway) implements Until {
            @Override
            public <R> R fold(
                    Function<AtRadial, R> atRadial,
                    Function<AtDistance, R> atDistance,
                    Function<AtFix, R> atFix,
                    Function<AtAirway, R> atAirway) {
                return atAirway.apply(this);
            }
        }
    }

    /** Which way round its station an arc is flown. */
    enum ArcDirection {
        /** Not said. */
        UNSAID,
        /** The radials grow. */
        CLOCKWISE,
        /** The radials fall. */
        COUNTERCLOCKWISE
    }

    /** "Turn left/right, fly heading H". */
    record FlyHeading(MagneticDirection heading, TurnDirection direction) implements Heading {
        @Override
        public Optional<MagneticDirection> heading(Optional<MagneticDirection> present) {
            return Optional.of(heading);
        }

        @Override
        public <R> R fold(Visitor<R> visitor) {
            return visitor.flyHeading(this);
        }
    }

    /** "Turn N degrees left/right". */
    record TurnBy(double degrees, TurnDirection direction) implements Heading {
        @Override
        public Optional<MagneticDirection> heading(Optional<MagneticDirection> present) {
            double right = direction == TurnDirection.LEFT ? -degrees : degrees;
            return present.map(from -> new MagneticDirection(from.deg() + right));
        }

        @Override
        public <R> R fold(Visitor<R> visitor) {
            return visitor.turnBy(this);
        }
    }

    /** "Fly present heading". */
    record FlyPresentHeading() implements Heading {
        @Override
        public TurnDirection direction() {
            return TurnDirection.SHORTEST;
        }

        @Override
        public Optional<MagneticDirection> heading(Optional<MagneticDirection> present) {
            return present;
        }

        @Override
        public <R> R fold(Visitor<R> visitor) {
            return visitor.flyPresentHeading(this);
        }
    }

    /** "Fly runway heading". */
    record FlyRunwayHeading() implements Heading {
        @Override
        public TurnDirection direction() {
            return TurnDirection.SHORTEST;
        }

        @Override
        public Optional<MagneticDirection> heading(Optional<MagneticDirection> present) {
            return present;
        }

        @Override
        public <R> R fold(Visitor<R> visitor) {
            return visitor.flyRunwayHeading(this);
        }
    }

    /**
     * "Intercept V31 (southbound)".
     *
     * @param bound the way it leads in words of the compass ("south" of "southbound"); empty where unsaid
     */
    record InterceptAirway(String airway, Optional<String> bound) implements Onto {

        /** An airway, whichever way it leads. */
        public InterceptAirway(String airway) {
            this(airway, Optional.empty());
        }

        /** {@return the same airway as one to join, anywhere} */
        public JoinAirway joined() {
            return new JoinAirway(airway, Optional.empty(), Optional.empty(), Optional.empty(), bound);
        }

        @Override
        public <R> R onto(
                Function<InterceptAirway, R> intercept, Function<JoinAirway, R> join, Function<Direct, R> direct) {
            return intercept.apply(this);
        }

        @Override
        public <R> R fold(Visitor<R> visitor) {
            return visitor.interceptAirway(this);
        }
    }

    /** "Intercept the AAA 078 radial (inbound|outbound)". */
    record InterceptRadial(Station station, Radial radial, Sense sense, Optional<Until> until) implements StationLine {
        @Override
        public <R> R line(
                Function<InterceptRadial, R> onRadial,
                Function<InterceptBearing, R> onBearing,
                Function<InterceptArc, R> onArc) {
            return onRadial.apply(this);
        }

        @Override
        public InterceptRadial leftAt(Until place) {
            return new InterceptRadial(station, radial, sense, Optional.of(place));
        }

        @Override
        public InterceptRadial flown(Sense way) {
            return new InterceptRadial(station, radial, way, until);
        }

        /** A radial without a word on where it is left. */
        public InterceptRadial(Station station, Radial radial, Sense sense) {
            this(station, radial, sense, Optional.empty());
        }

        @Override
        public <R> R fold(Visitor<R> visitor) {
            return visitor.interceptRadial(this);
        }
    }

    /**
     * "Intercept the 250 bearing from (to) AAA": a bearing on an NDB, by today's variation.
     *
     * @param bearing FROM the station, magnetic; a bearing TO is turned round by the reader
     */
    record InterceptBearing(Station station, MagneticDirection bearing, Sense sense, Optional<Until> until)
            implements StationLine {
        @Override
        public <R> R line(
                Function<InterceptRadial, R> onRadial,
                Function<InterceptBearing, R> onBearing,
                Function<InterceptArc, R> onArc) {
            return onBearing.apply(this);
        }

        @Override
        public InterceptBearing leftAt(Until place) {
            return new InterceptBearing(station, bearing, sense, Optional.of(place));
        }

        @Override
        public InterceptBearing flown(Sense way) {
            return new InterceptBearing(station, bearing, way, until);
        }

        /** A bearing without a word on where it is left. */
        public InterceptBearing(Station station, MagneticDirection bearing, Sense sense) {
            this(station, bearing, sense, Optional.empty());
        }

        @Override
        public <R> R fold(Visitor<R> visitor) {
            return visitor.interceptBearing(this);
        }
    }

    /**
     * "Intercept the AAA 15 mile arc, clockwise to the AAA 070 radial".
     *
     * @param distanceNm by that DME, nautical miles, [1, 200]
     * @param bound the way it leads in words of the compass ("northwest" of "northwest bound"); empty where unsaid
     * @param side of the station on which it lies, in words of the compass; empty where unsaid
     */
    record InterceptArc(
            Station station,
            double distanceNm,
            ArcDirection direction,
            Optional<String> bound,
            Optional<String> side,
            Optional<Until> until)
            implements StationLine {
        @Override
        public <R> R line(
                Function<InterceptRadial, R> onRadial,
                Function<InterceptBearing, R> onBearing,
                Function<InterceptArc, R> onArc) {
            return onArc.apply(this);
        }

        @Override
        public Sense sense() {
            return Sense.UNSAID;
        }

        @Override
        public InterceptArc leftAt(Until place) {
            return new InterceptArc(station, distanceNm, direction, bound, side, Optional.of(place));
        }

        @Override
        public InterceptArc flown(Sense way) {
            return this;
        }

        @Override
        public <R> R fold(Visitor<R> visitor) {
            return visitor.interceptArc(this);
        }
    }

    /**
     * "Join V31 (southbound)", "join V31 at FIX", "via V31 to FIX".
     *
     * @param at where it is joined, or the fix that the place is named by; empty where unsaid
     * @param away how far along the airway from the fix it is joined; empty for the fix itself
     * @param bound the way it leads in words of the compass ("south" of "southbound"); empty where unsaid
     */
    record JoinAirway(
            String airway, Optional<Waypoint> at, Optional<Waypoint> to, Optional<Away> away, Optional<String> bound)
            implements Onto {
        @Override
        public <R> R onto(
                Function<InterceptAirway, R> intercept, Function<JoinAirway, R> join, Function<Direct, R> direct) {
            return join.apply(this);
        }

        /** An airway joined at a fix, or anywhere. */
        public JoinAirway(String airway, Optional<Waypoint> at, Optional<Waypoint> to) {
            this(airway, at, to, Optional.empty(), Optional.empty());
        }

        /** The same airway, left at a fix. */
        public JoinAirway leftAt(Waypoint fix) {
            return new JoinAirway(airway, at, Optional.of(fix), away, bound);
        }

        /**
         * Whether the way from one place on the airway to another is the one said: it leads to within 90 degrees of
         * that, by true north. True too where no way is said.
         */
        public boolean leads(Position from, Position to) {
            if (bound.isEmpty()) {
                return true;
            }
            String said = bound.get();
            double course = Math.toRadians(from.to(to).initial().deg());
            double north = said.startsWith("north") ? 1 : said.startsWith("south") ? -1 : 0;
            double east = said.endsWith("east") ? 1 : said.endsWith("west") ? -1 : 0;
            return north * Math.cos(course) + east * Math.sin(course) > 0;
        }

        @Override
        public <R> R fold(Visitor<R> visitor) {
            return visitor.joinAirway(this);
        }
    }

    /**
     * "(When able,) proceed direct FIX", "direct five miles east of FIX".
     *
     * @param to the fix, or the one that the place is named by
     * @param away how far from the fix, and to which side of it by magnetic north; empty for the fix itself
     */
    record Direct(Waypoint to, boolean whenAble, TurnDirection turn, Optional<Away> away) implements Onto {

        /** A direct to a fix itself. */
        public Direct(Waypoint to, boolean whenAble, TurnDirection turn) {
            this(to, whenAble, turn, Optional.empty());
        }

        @Override
        public <R> R onto(
                Function<InterceptAirway, R> intercept, Function<JoinAirway, R> join, Function<Direct, R> direct) {
            return direct.apply(this);
        }

        /** A direct by the short way round. */
        public Direct(Waypoint to, boolean whenAble) {
            this(to, whenAble, TurnDirection.SHORTEST);
        }

        @Override
        public <R> R fold(Visitor<R> visitor) {
            return visitor.direct(this);
        }
    }

    /**
     * "Depart FIX heading H", "depart AAA on the R radial", "after FIX, direct ...": how the route goes on after a fix.
     *
     * @param heading by today's variation; empty where none was said
     * @param line outbound from that fix, a station: its radial, or of an NDB the bearing from it; empty where none was
     *     said; with no heading either, the instructions after it say the way on
     */
    record Depart(Waypoint fix, Optional<MagneticDirection> heading, Optional<StationLine> line, TurnDirection turn)
            implements Instruction {

        /** A fix from which the way on is that of the instructions after it. */
        public Depart(Waypoint fix) {
            this(fix, Optional.empty(), Optional.empty(), TurnDirection.SHORTEST);
        }

        /** A station left on a line of its own. */
        public Depart(Station station, StationLine line) {
            this(station, Optional.empty(), Optional.of(line), TurnDirection.SHORTEST);
        }

        /**
         * {@return whether the way on is that of the instructions after it; true where neither heading nor line was said}
         */
        public boolean asSaidNext() {
            return heading.isEmpty() && line.isEmpty();
        }

        @Override
        public <R> R fold(Visitor<R> visitor) {
            return visitor.depart(this);
        }
    }

    /** "Cleared to LIMIT". */
    record ClearedTo(Waypoint limit) implements Instruction {
        @Override
        public <R> R fold(Visitor<R> visitor) {
            return visitor.clearedTo(this);
        }
    }

    /** How the route goes on. */
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

        @Override
        public <R> R fold(Visitor<R> visitor) {
            return visitor.onward(this);
        }
    }

    /**
     * "Climb (descend) and maintain A", "maintain A (until established)".
     *
     * @param feet above mean sea level; a flight level times 100
     * @param flightLevel whether it was said as one, or is so high that it always is
     * @param levelBy where it is to be reached; empty where unsaid
     */
    record Maintain(
            double feet,
            boolean flightLevel,
            boolean untilEstablished,
            Vertical vertical,
            Begin when,
            Optional<Waypoint> levelBy)
            implements Assignment {

        public Maintain {
            flightLevel = flightLevel || SpokenWords.isFlightLevel(feet);
        }

        /** An altitude, not said as a flight level. */
        public Maintain(
                double feet, boolean untilEstablished, Vertical vertical, Begin when, Optional<Waypoint> levelBy) {
            this(feet, false, untilEstablished, vertical, when, levelBy);
        }

        /** {@return the altitude in figures, as it was said: "FL110", "11000 ft"} */
        public String figures() {
            return Phraseology.figures(feet, flightLevel);
        }

        /** The same, said as a flight level or not. */
        public Maintain asLevel(boolean level) {
            return new Maintain(feet, level, untilEstablished, vertical, when, levelBy);
        }

        /** The same, until established on the course of the clearance. */
        Maintain untilItsCourse() {
            return new Maintain(feet, flightLevel, true, vertical, when, levelBy);
        }

        /** The same, begun then. */
        Maintain begun(Begin begin) {
            return new Maintain(feet, flightLevel, untilEstablished, vertical, begin, levelBy);
        }

        /** The same, of another altitude. */
        Maintain at(double otherFt, boolean level) {
            return new Maintain(otherFt, level, untilEstablished, vertical, when, levelBy);
        }

        /** Up or down. */
        public enum Vertical {
            /** Not said. */
            UNSAID,
            /** "Climb". */
            CLIMB,
            /** "Descend". */
            DESCEND
        }

        /** When to leave the present altitude. */
        public enum Begin {
            /** Now. */
            NOW,
            /** "At pilot's discretion". */
            PILOTS_DISCRETION,
            /** "When ready". */
            WHEN_READY
        }

        /** "Maintain A": at once, which way is not said. */
        public Maintain(double feet, boolean untilEstablished) {
            this(feet, untilEstablished, Vertical.UNSAID, Begin.NOW, Optional.empty());
        }

        /**
         * Whether this one is begun later and leads on the same way: "descend now to 5000, then descend at pilot's
         * discretion, maintain 4000" (7110.65 4-5-7) do not contradict each other.
         */
        public boolean goesOnFrom(Maintain before) {
            boolean on = vertical == Vertical.CLIMB ? feet > before.feet : feet < before.feet;
            return when != Begin.NOW && vertical != Vertical.UNSAID && vertical == before.vertical && on;
        }

        @Override
        public <R> R fold(Visitor<R> visitor) {
            return visitor.maintain(this);
        }
    }

    /**
     * "Cross FIX at (or above, or below) A", "cross 10 miles west of FIX at A".
     *
     * @param fix where, or the fix that the place is named by
     * @param feet above mean sea level; a flight level times 100
     * @param flightLevel whether it was said as one, or is so high that it always is
     * @param before how far from the fix; empty for the fix itself
     */
    record CrossAt(Waypoint fix, double feet, boolean flightLevel, Bound bound, Optional<Away> before)
            implements Assignment {

        public CrossAt {
            flightLevel = flightLevel || SpokenWords.isFlightLevel(feet);
        }

        /** A crossing at an altitude, not said as a flight level. */
        public CrossAt(Waypoint fix, double feet, Bound bound, Optional<Away> before) {
            this(fix, feet, false, bound, before);
        }

        /** {@return the altitude in figures, as it was said: "FL110", "11000 ft"} */
        public String figures() {
            return Phraseology.figures(feet, flightLevel);
        }

        /** A crossing of the fix itself. */
        public CrossAt(Waypoint fix, double feet, Bound bound) {
            this(fix, feet, bound, Optional.empty());
        }

        /** How the altitude limits. */
        public enum Bound {
            /** Exactly. */
            AT,
            /** Not lower. */
            AT_OR_ABOVE,
            /** Not higher. */
            AT_OR_BELOW;

            /** The altitude that keeps it and is nearest to another; feet, as {@code limitFt}. */
            double nearestFt(double limitFt, double altitudeFt) {
                return switch (this) {
                    case AT -> limitFt;
                    case AT_OR_ABOVE -> Math.max(altitudeFt, limitFt);
                    case AT_OR_BELOW -> Math.min(altitudeFt, limitFt);
                };
            }
        }

        /** The altitude that keeps it and is nearest to another, feet above mean sea level; that one where it keeps it. */
        public double nearestFt(double altitudeFt) {
            return bound.nearestFt(feet, altitudeFt);
        }

        @Override
        public <R> R fold(Visitor<R> visitor) {
            return visitor.crossAt(this);
        }
    }

    /**
     * A distance and a direction from a point, in words of the compass, for example "northwest".
     *
     * @param airway on which the place is, ident; empty where none is said
     */
    record Away(double distanceNm, String compass, Optional<String> airway) {

        /** A place on no airway, or on one that is said elsewhere. */
        public Away(double distanceNm, String compass) {
            this(distanceNm, compass, Optional.empty());
        }
    }

    /** On which line a hold is kept. */
    sealed interface HoldLine {

        /** Meets it as what it is, so that no kind is forgotten. */
        <R> R fold(
                Function<OnRadial, R> onRadial,
                Function<OnBearing, R> onBearing,
                Function<OnCourse, R> onCourse,
                Function<OnAirway, R> onAirway);

        /** On a radial. */
        record OnRadial(Station station, Radial radial) implements HoldLine {
            @Override
            public <R> R fold(
                    Function<OnRadial, R> onRadial,
                    Function<OnBearing, R> onBearing,
                    Function<OnCourse, R> onCourse,
                    Function<OnAirway, R> onAirway) {
                return onRadial.apply(this);
            }
        }

        /** On a bearing of an NDB. */
        record OnBearing(Station station, MagneticDirection bearing) implements HoldLine {
            @Override
            public <R> R fold(
                    Function<OnRadial, R> onRadial,
                    Function<OnBearing, R> onBearing,
                    Function<OnCourse, R> onCourse,
                    Function<OnAirway, R> onAirway) {
                return onBearing.apply(this);
            }
        }

        /**
         * With an inbound course.
         *
         * @param inbound toward the fix, magnetic: by the station where the fix is one, else by today's variation
         */
        record OnCourse(MagneticDirection inbound) implements HoldLine {
            @Override
            public <R> R fold(
                    Function<OnRadial, R> onRadial,
                    Function<OnBearing, R> onBearing,
                    Function<OnCourse, R> onCourse,
                    Function<OnAirway, R> onAirway) {
                return onCourse.apply(this);
            }
        }

        /** On an airway. */
        record OnAirway(String airway) implements HoldLine {
            @Override
            public <R> R fold(
                    Function<OnRadial, R> onRadial,
                    Function<OnBearing, R> onBearing,
                    Function<OnCourse, R> onCourse,
                    Function<OnAirway, R> onAirway) {
                return onAirway.apply(this);
            }
        }
    }

    /**
     * "Hold DIRECTION of FIX, ...".
     *
     * @param compass in words of the compass, for example "northwest"; empty where unsaid
     * @param turns left or right; SHORTEST where unsaid: right, the standard
     * @param expectFurtherClearance time as said, four digits; empty where unsaid
     * @param once whether one circuit is flown, or only the course reversed, and the route goes on by itself; false
     *     where it is held until further clearance
     */
    record Hold(
            Waypoint fix,
            Optional<String> compass,
            Optional<HoldLine> line,
            OptionalDouble legMinutes,
            OptionalDouble legNm,
            TurnDirection turns,
            Optional<String> expectFurtherClearance,
            boolean asPublished,
            boolean once)
            implements Instruction {

        /** The same hold, on another side of its fix. */
        Hold toward(String direction) {
            return new Hold(
                    fix,
                    Optional.of(direction),
                    line,
                    legMinutes,
                    legNm,
                    turns,
                    expectFurtherClearance,
                    asPublished,
                    once);
        }

        /** The same hold, with its turns to a side. */
        Hold turning(TurnDirection side) {
            return new Hold(fix, compass, line, legMinutes, legNm, side, expectFurtherClearance, asPublished, once);
        }

        /** The same hold, with the time said after it. */
        Hold withFurtherClearance(String time) {
            return new Hold(fix, compass, line, legMinutes, legNm, turns, Optional.of(time), asPublished, once);
        }

        @Override
        public <R> R fold(Visitor<R> visitor) {
            return visitor.hold(this);
        }
    }

    /** "Report ...": a report to make, nothing to fly. */
    record Report(String what) implements Assignment {
        @Override
        public <R> R fold(Visitor<R> visitor) {
            return visitor.report(this);
        }
    }

    /** "Expect ...": advance information, nothing to fly. */
    record Expect(String what) implements Instruction {
        @Override
        public <R> R fold(Visitor<R> visitor) {
            return visitor.expect(this);
        }
    }

    /**
     * "Maintain S knots (or greater)", "reduce speed to S", "do not exceed S knots" (FAA Order JO 7110.65, 5-7-2).
     *
     * @param knots indicated airspeed, knots, [40, 600]
     */
    record MaintainSpeed(double knots, Limit bound) implements Speed {
        /** How the speed limits. */
        public enum Limit {
            /** Exactly. */
            EXACTLY,
            /** Not slower. */
            OR_GREATER,
            /** Not faster. */
            OR_LESS
        }

        @Override
        public Optional<MaintainSpeed> assigned(OptionalDouble presentKt) {
            return Optional.of(this);
        }

        @Override
        public <R> R fold(Visitor<R> visitor) {
            return visitor.maintainSpeed(this);
        }
    }

    /** "Maintain present speed". */
    record MaintainPresentSpeed() implements Speed {
        @Override
        public Optional<MaintainSpeed> assigned(OptionalDouble presentKt) {
            return presentKt.stream()
                    .mapToObj(knots -> new MaintainSpeed(knots, MaintainSpeed.Limit.EXACTLY))
                    .findFirst();
        }

        @Override
        public <R> R fold(Visitor<R> visitor) {
            return visitor.maintainPresentSpeed(this);
        }
    }

    /** "Resume normal speed": no speed is assigned any more. */
    record ResumeNormalSpeed() implements Speed {
        @Override
        public Optional<MaintainSpeed> assigned(OptionalDouble presentKt) {
            return Optional.empty();
        }

        @Override
        public <R> R fold(Visitor<R> visitor) {
            return visitor.resumeNormalSpeed(this);
        }
    }

    /** "Cancel (amended clearance)", "disregard (the amendment)": the amendment in force is taken back. */
    record Cancel() implements Instruction {
        @Override
        public <R> R fold(Visitor<R> visitor) {
            return visitor.cancel(this);
        }
    }
}
