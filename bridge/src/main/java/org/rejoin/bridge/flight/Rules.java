package org.rejoin.bridge.flight;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;

import org.rejoin.bridge.geo.Turn;

/** The rules that decide what is told of a flight: the one home of each threshold. */
public final class Rules {

    /** The rules with the scale of the usual instrument-rating standard. */
    public static final Rules STANDARD = of(Limits.INSTRUMENT_RATING);

    private final Map<Class<? extends Rule>, Rule> rules;

    private Rules(Map<Class<? extends Rule>, Rule> rules) {
        this.rules = rules;
    }

    /** The rules with the scale of a standard. */
    public static Rules of(Limits limits) {
        Map<Class<? extends Rule>, Rule> all = new LinkedHashMap<>();
        for (Rule rule : List.of(
                new Rule.StandardTurn(Turn.STANDARD_RATE_DEG_PER_S, Turn.STANDARD_BANK_DEG),
                new Rule.Rates(6, 0.5, FeedQuality.LONGEST_BASE_S),
                new Rule.FullScale(limits.fullScaleNm(), limits.fullScaleDeg(), Limits.CLOSEST_NM),
                new Rule.Established(0.5, 10, 5, 0.75, 30, 30, 2, 0.1, 60),
                new Rule.CourseDeviation(limits.courseScale()),
                new Rule.RouteLeft(1, 30, 20, 0.5, 0.1, 10),
                new Rule.Heading(10, 10, 10),
                new Rule.TurnOntoCourse(0.5, 0.5, 1, 10, 30),
                new Rule.HeadingTakenUp(5, 3),
                new Rule.Altitude(100, 5, 10, 10, 500, 6, 3),
                new Rule.Speed(10, 10, 10, 0.5, 6, 3),
                new Rule.ChangeOver(30, 1, 5, 100, 0.5, 30),
                new Rule.CrossingLogged(5, 0.01),
                new Rule.FlownThrough(15, 20, 10, 5, 8, 60, 10),
                new Rule.Overshoot(0.1, 0.5, 0.75),
                new Rule.TurnedEarly(12, 10, 0.5, 15),
                new Rule.WrongDirection(30, 0.5, 15, 10),
                new Rule.OtherCourse(4, 60, 3, 10, 10, 15, 2, 130),
                new Rule.Weaving(3, 180, 10, 0.05, 60),
                new Rule.FixSequenced(10, 4),
                new Rule.TurnAtFix(20, Turn.SHARPEST_LED_DEG, 0.25, 0.6, 10, 3, 1),
                new Rule.WrongTurn(30, 0.7, 90, 20, 5, 10, 180),
                new Rule.SequenceMissed(15, 30),
                new Rule.Direct(5, 10, 0.5, 90, 15, 0.75),
                new Rule.Arc(1),
                new Rule.HoldEntered(60, 10, 55, 15),
                new Rule.HoldNotEntered(10, 270, 30),
                new Rule.HoldWrongSide(90, 135),
                new Rule.HoldInbound(45, 10, 2),
                new Rule.HoldOutbound(1),
                new Rule.HoldLeft(2, 4, 60),
                new Rule.AltitudeAtCrossing(100),
                new Rule.ClearanceLimit(4),
                new Rule.Due(60, 1.5, 120),
                new Rule.GradedPart(30, 10),
                Rule.FeedLost.OTHER,
                new Rule.PauseFlag(),
                new Rule.StandingStill(2, 30, 1e-6),
                new Rule.Moved(1, 1.5, 100, 200, 0.25, 3, 5, 200, 45))) {
            all.put(rule.getClass(), rule);
        }
        return new Rules(all);
    }

    /** A rule. */
    public <R extends Rule> R of(Class<R> kind) {
        return kind.cast(Objects.requireNonNull(rules.get(kind)));
    }

    /** The same rules but for one. */
    public Rules with(Rule changed) {
        Map<Class<? extends Rule>, Rule> all = new LinkedHashMap<>(rules);
        all.put(changed.getClass(), changed);
        return new Rules(all);
    }

    /**
     * {@return the same on an arc about a DME: it is met within its limit on either side, where a straight course is met
     * within half scale}
     */
    public Rules onArc() {
        Rule.Arc arc = of(Rule.Arc.class);
        return with(of(Rule.Established.class).within(arc.ofScale()))
                .with(of(Rule.TurnedEarly.class).beyond(arc.ofScale()))
                .with(of(Rule.Overshoot.class).beyond(arc.limitNm(), arc.ofScale()));
    }

    /** {@return all of them, in the order of the page} */
    public List<Rule> all() {
        return List.copyOf(rules.values());
    }

    /** The rules that decided an event. */
    public List<Rule> deciding(FlightEvent event) {
        if (event instanceof FlightEvent.SimPaused paused) {
            return List.of(
                    switch (paused.reason()) {
                        case FLAG -> of(Rule.PauseFlag.class);
                        case STANDING_STILL -> of(Rule.StandingStill.class);
                    });
        }
        return event.kind().rules(this);
    }
}
