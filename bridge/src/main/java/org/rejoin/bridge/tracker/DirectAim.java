package org.rejoin.bridge.tracker;

import java.util.OptionalDouble;

import org.rejoin.bridge.flight.FlightInstant;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Turn;

import org.jspecify.annotations.Nullable;

/**
 * "Direct to a fix": the course is not the line from where the words were heard, but from where the turn to the fix is
 * done. Until the aircraft points at the fix, or had time to, there is no line to be off.
 */
final class DirectAim {

    private final Position fix;
    private final Dwell aimed = new Dwell(0);
    private final Rule.Direct rule;
    private final double turningShare;
    private final @Nullable OrderedTurn ordered;
    private double dueS = Double.NaN;
    private double toGoNm = Double.NaN;
    private double toTurnDeg = Double.NaN;

    /** Zero or less while pointing at the fix, wings level; NaN where it was not seen. */
    private double off = Double.NaN;

    private final double limitNm;
    private final Dwell late;
    /** The course that began because it was due; null before, and where the aircraft pointed at the fix in time. */
    private @Nullable Aimed dueFrom;

    private boolean over;

    /** An aim at a fix; {@code ordered} is the turn to it, null where the pilot may turn either way. */
    DirectAim(Position fix, @Nullable OrderedTurn ordered, Rules rules) {
        this.ordered = ordered;
        this.fix = fix;
        this.rule = rules.of(Rule.Direct.class);
        this.turningShare = rules.of(Rule.Rates.class).turningShare();
        this.limitNm = rules.of(Rule.Overshoot.class).limitNm();
        this.late = new Dwell(rule.lateS());
    }

    /** A line from the aircraft to the fix, and the instant it starts at. */
    record Aimed(GeodesicLine line, FlightInstant from) {}

    /**
     * Takes a step.
     *
     * @param onHeading whether an assigned heading is flown until the direct is begun: there is time until it is left
     * @return the line, once there is one
     */
    @Nullable
    Aimed step(@Nullable FlightInstant before, FlightInstant now, boolean onHeading) {
        Geodesics.Inverse way = Geodesics.between(now.normal(), fix.normal());
        double errorDeg = Angles.turn(now.trackDeg() - way.initial().deg());
        toGoNm = way.distanceNm();
        toTurnDeg = -errorDeg;
        if (Double.isNaN(dueS) || onHeading) {
            double toMakeDeg = ordered == null ? errorDeg : ordered.roundDeg();
            dueS = now.flownS() + 2 * rule.reactionS() + Turn.standardTurnS(now.groundSpeedKt(), toMakeDeg);
        }
        double begunByS = ordered == null ? dueS : ordered.dueS(dueS);
        double offBefore = off;
        off = Math.max(Math.abs(errorDeg) / rule.aimedDeg(), now.turning() / turningShare) - 1;
        if (before == null || Double.isNaN(offBefore)) {
            return null;
        }
        if (dueFrom != null) {
            return late(before, offBefore, now, way);
        }
        OptionalDouble at = aimed.step(before.flownS(), offBefore, now.flownS(), off);
        if (at.isEmpty() && now.flownS() < begunByS && way.distanceNm() > rule.closeNm()) {
            return null;
        }
        double atS = at.orElse(Math.min(now.flownS(), Math.max(before.flownS(), begunByS)));
        FlightInstant from = FlightInstant.between(
                before, now, (atS - before.flownS()) / Math.max(now.flownS() - before.flownS(), 1e-9));
        Aimed begun = aimedFrom(from);
        dueFrom = at.isEmpty() ? begun : null;
        over = begun != null && at.isPresent();
        return begun;
    }

    private @Nullable Aimed aimedFrom(FlightInstant from) {
        return from.position().distanceNm(fix) < 1e-3
                ? null
                : new Aimed(GeodesicLine.between(from.position(), fix), from);
    }

    /** Whether there is nothing more to look for: it was aimed at in time, or late. */
    boolean over() {
        return over;
    }

    /** Begun late: pointing at the fix for some time, and the way leads to it rather than along the course from before. */
    private @Nullable Aimed late(FlightInstant before, double offBefore, FlightInstant now, Geodesics.Inverse way) {
        late.step(before.flownS(), offBefore, now.flownS(), off);
        Aimed begun = dueFrom;
        if (begun == null || !late.lasting()) {
            return null;
        }
        double offDeg = Math.abs(Angles.turn(now.meanTrackDeg() - way.initial().deg()));
        double besideNm = Math.abs(begun.line().offset(now.position()).crossTrackNm());
        double missNm = way.distanceNm() * Math.sin(Math.toRadians(offDeg));
        if (missNm > Math.max(limitNm, rule.lateShare() * besideNm)) {
            return null;
        }
        over = true;
        return aimedFrom(now);
    }

    /** Distance to the fix from where the aircraft was last seen, nautical miles; NaN where it was not. */
    double toGoNm() {
        return toGoNm;
    }

    /** The turn that is left until the aircraft points at the fix, degrees, right positive; NaN where it was not seen. */
    double toTurnDeg() {
        return toTurnDeg;
    }

    void breakOff() {
        off = Double.NaN;
        toGoNm = Double.NaN;
        toTurnDeg = Double.NaN;
        aimed.reset();
        late.reset();
    }
}
