package org.rejoin.bridge.flight;

import java.util.List;
import java.util.Locale;
import java.util.Optional;

import org.jspecify.annotations.Nullable;

/** The table of what can happen in a flight. */
public enum EventKind {
    FLIGHT_BEGAN("the first sample", List.of()),
    CLEARANCE_ISSUED("a clearance was spoken", List.of()),
    CLEARANCE_AS_BEFORE("a clearance stands as before: the one after it was taken back", List.of()),
    CLEARANCE_NOT_ISSUED("a clearance was due and could not be issued", List.of()),
    SAID_AGAIN("the pilot asked to hear the clearance again", Nature.RADIO, List.of()),
    READ_BACK("the pilot read the clearance back", Nature.RADIO, List.of()),
    TURNED_OTHER_WAY("turned to the other side than ordered", FaultCode.WRONG_TURN, List.of(Rule.WrongTurn.class)),
    HEADING_ESTABLISHED("the assigned heading was taken up", List.of(Rule.HeadingTakenUp.class)),
    HEADING_DEVIATION_BEGAN(
            "off the assigned heading",
            FaultCode.HEADING_NOT_HELD,
            List.of(Rule.Heading.class, Rule.TurnOntoCourse.class, Rule.StandardTurn.class)),
    HEADING_DEVIATION_ENDED(
            "back on the assigned heading, or it is not judged any more",
            List.of(Rule.Heading.class, Rule.TurnOntoCourse.class)),
    INTERCEPT_ACHIEVED(
            "established on the course to intercept",
            List.of(Rule.Established.class, Rule.Direct.class, Rule.FullScale.class, Rule.Arc.class, Rule.Rates.class)),
    DIRECT_NOT_TAKEN_UP(
            "cleared direct to a fix and not going there",
            Nature.FLIGHT,
            FaultCode.NOT_ACHIEVED,
            List.of(Rule.Direct.class, Rule.Overshoot.class, Rule.StandardTurn.class)),
    COURSE_CROSSED("crossed the course", List.of(Rule.CrossingLogged.class)),
    OVERSHOOT("carried past the line", FaultCode.OVERSHOOT, List.of(Rule.Overshoot.class, Rule.Established.class)),
    FLOWN_THROUGH(
            "crossed the line and flew on",
            FaultCode.FLOWN_THROUGH,
            List.of(Rule.FlownThrough.class, Rule.Overshoot.class, Rule.Rates.class)),
    COURSE_DEVIATION_BEGAN(
            "outside the course limit",
            FaultCode.COURSE_NOT_HELD,
            List.of(Rule.CourseDeviation.class, Rule.FullScale.class, Rule.Arc.class)),
    COURSE_DEVIATION_ENDED(
            "inside the course limit again", List.of(Rule.CourseDeviation.class, Rule.FullScale.class, Rule.Arc.class)),
    ROUTE_LEFT(
            "left the cleared route",
            FaultCode.ROUTE_LEFT,
            List.of(Rule.RouteLeft.class, Rule.FullScale.class, Rule.ClearanceLimit.class, Rule.HoldLeft.class)),
    TURNED_EARLY(
            "rolled out short of the line",
            FaultCode.TURNED_EARLY,
            List.of(Rule.TurnedEarly.class, Rule.FullScale.class, Rule.Rates.class)),
    WRONG_DIRECTION(
            "flew the reciprocal",
            FaultCode.WRONG_DIRECTION,
            List.of(Rule.WrongDirection.class, Rule.FullScale.class, Rule.Rates.class)),
    OTHER_COURSE_TRACKED("tracked a course that was not cleared", List.of(Rule.OtherCourse.class)),
    OTHER_AIRWAY_JOINED("joined an airway that was not cleared", List.of(Rule.OtherCourse.class, Rule.FullScale.class)),
    WRONG_TURN("turned the wrong way at the fix", FaultCode.WRONG_TURN, List.of(Rule.WrongTurn.class)),
    SEQUENCE_MISSED(
            "flew past the fix on the old course", FaultCode.SEQUENCE_MISSED, List.of(Rule.SequenceMissed.class)),
    WEAVING("chased the needle", FaultCode.WEAVING, List.of(Rule.Weaving.class, Rule.FullScale.class)),
    ALTITUDE_DEVIATION_BEGAN("off the assigned altitude", FaultCode.ALTITUDE_NOT_HELD, List.of(Rule.Altitude.class)),
    ALTITUDE_DEVIATION_ENDED("back at the assigned altitude", List.of(Rule.Altitude.class)),
    SPEED_DEVIATION_BEGAN("off the assigned speed", FaultCode.SPEED_NOT_HELD, List.of(Rule.Speed.class)),
    SPEED_DEVIATION_ENDED("back at the assigned speed", List.of(Rule.Speed.class)),
    FIX_SEQUENCED("passed a fix", List.of(Rule.FixSequenced.class)),
    TURN_AT_FIX(
            "the turn at a fix is over",
            List.of(Rule.TurnAtFix.class, Rule.FixSequenced.class, Rule.FullScale.class, Rule.StandardTurn.class)),
    HOLD_ENTERED("entered the hold", List.of(Rule.HoldEntered.class)),
    HOLD_INBOUND("flew an inbound leg of the hold", List.of(Rule.HoldInbound.class, Rule.HoldOutbound.class)),
    HOLD_WRONG_SIDE(
            "turned to the wrong side of the hold", FaultCode.HOLD_WRONG_SIDE, List.of(Rule.HoldWrongSide.class)),
    HOLD_NOT_ENTERED("flew on past the fix to hold at", FaultCode.HOLD_NOT_ENTERED, List.of(Rule.HoldNotEntered.class)),
    HOLD_LEFT("left the hold", List.of(Rule.HoldLeft.class)),
    CROSSING(
            "passed a place with an altitude to have there",
            FaultCode.CROSSING_MISSED,
            List.of(Rule.AltitudeAtCrossing.class)),
    CHANGE_OVER(
            "another altitude or speed of the clearance is in force from here",
            Nature.FLIGHT,
            null,
            List.of(Rule.ChangeOver.class, Rule.Established.class, Rule.FixSequenced.class)),
    AIRWAY_JOINED("joined the airway", List.of(Rule.Established.class, Rule.FullScale.class)),
    ROUTE_RESUMED("back on the filed route", List.of(Rule.Established.class, Rule.FullScale.class)),
    AMENDMENT_COMPLETE("all of the amendment is done", List.of(Rule.Established.class, Rule.FullScale.class)),
    AMENDMENT_REPLACED("the next clearance came before all was done", List.of()),
    AMENDMENT_NOT_ACHIEVED(
            "the amendment was not done when it was due", FaultCode.NOT_ACHIEVED, List.of(Rule.Due.class)),
    AMENDMENT_CANCELLED("the amendment was taken back before all was done", List.of()),
    AMENDMENT_NOT_DUE("ended before all of the amendment could have been done", List.of(Rule.Due.class)),
    GRADED_PART_ENDED("the exercise is over", List.of(Rule.GradedPart.class)),
    FEED_LOST("no more samples", Nature.FEED, List.of(Rule.FeedLost.class)),
    FEED_RESUMED("samples again", Nature.FEED, List.of(Rule.FeedLost.class)),
    SIM_PAUSED(
            "the simulation stands still", Nature.SIMULATION, List.of(Rule.PauseFlag.class, Rule.StandingStill.class)),
    SIM_RESUMED("the simulation goes on", Nature.SIMULATION, List.of(Rule.PauseFlag.class, Rule.StandingStill.class)),
    REPOSITIONED("moved elsewhere", Nature.SIMULATION, List.of(Rule.Moved.class)),
    FLIGHT_ENDED("the last sample", List.of());

    /** What an event speaks of. */
    public enum Nature {
        /** How the aircraft was flown. */
        FLIGHT,
        /** What the pilot said on the radio. */
        RADIO,
        /** What came, or did not come, from the simulator. */
        FEED,
        /** What was done to the simulation. */
        SIMULATION
    }

    private final String words;
    private final Nature nature;
    private final @Nullable FaultCode fault;

    // List.of is immutable; its type does not say so.
    @SuppressWarnings("ImmutableEnumChecker")
    private final List<Class<? extends Rule>> rules;

    /** Of the flight, and no fault. */
    EventKind(String words, List<Class<? extends Rule>> rules) {
        this(words, Nature.FLIGHT, null, rules);
    }

    /** A fault of the flight. */
    EventKind(String words, FaultCode fault, List<Class<? extends Rule>> rules) {
        this(words, Nature.FLIGHT, fault, rules);
    }

    /** Of something else than the flight, and so no fault. */
    EventKind(String words, Nature nature, List<Class<? extends Rule>> rules) {
        this(words, nature, null, rules);
    }

    EventKind(String words, Nature nature, @Nullable FaultCode fault, List<Class<? extends Rule>> rules) {
        this.rules = rules;
        this.words = words;
        this.nature = nature;
        this.fault = fault;
    }

    /** {@return name in the log, lower case with underscores} */
    public String logName() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** {@return what it is, in a few words, without a full stop} */
    public String words() {
        return words;
    }

    /** {@return what it speaks of; flight, radio, feed or simulation} */
    public Nature nature() {
        return nature;
    }

    /**
     * The rules that decide an event of this kind, the deciding one first; none of the begin and the end of a flight, a
     * clearance, a readback.
     */
    public List<Rule> rules(Rules among) {
        return rules.stream().<Rule>map(among::of).toList();
    }

    /**
     * {@return the fault that an event of this kind is, or may be where it is large or long enough; empty where it is none}
     */
    public Optional<FaultCode> fault() {
        return Optional.ofNullable(fault);
    }
}
