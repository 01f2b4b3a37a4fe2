package org.rejoin.bridge.tracker;

import java.util.OptionalDouble;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.Position;

import org.jspecify.annotations.Nullable;

/**
 * "Direct to a fix": the course is not the line from where the words were heard, but from where the turn to the fix is
 * done. Until the aircraft points at the fix, or had time to, there is no line to be off.
 */
final class DirectAim {

    /** Pointing at the fix to within this, degrees; common practice, no source. */
    private static final double AIMED_DEG = 5;

    /** Time to react, and again to settle after the turn, seconds (the first is fixed by the project's contract). */
    private static final double REACTION_S = 10;

    /** Standard rate, degrees a second. */
    private static final double RATE_DEG_PER_S = 3;

    /** This close to the fix its bearing swings too fast to aim, nautical miles; common practice, no source. */
    private static final double CLOSE_NM = 0.5;

    private final Position fix;
    private final Hold aimed = new Hold(0);
    private @Nullable Moment last;
    private double dueS = Double.NaN;

    DirectAim(Position fix) {
        this.fix = fix;
    }

    /** The same fix, to be aimed at anew. */
    DirectAim again() {
        return new DirectAim(fix);
    }

    /** A line from the aircraft to the fix, and the moment it starts at. */
    record Aimed(GeodesicLine line, Moment from) {}

    /** Takes a step; the line, once there is one. */
    @Nullable
    Aimed step(Moment now) {
        Moment before = last;
        last = now;
        if (Double.isNaN(dueS)) {
            dueS = now.flownS() + 2 * REACTION_S + Math.abs(errorDeg(now)) / RATE_DEG_PER_S;
        }
        double distanceNm = now.position().distanceNm(fix);
        if (before == null) {
            return null;
        }
        OptionalDouble at = aimed.step(before.flownS(), off(before), now.flownS(), off(now));
        if (at.isEmpty() && now.flownS() < dueS && distanceNm > CLOSE_NM) {
            return null;
        }
        double atS = at.orElse(Math.min(now.flownS(), Math.max(before.flownS(), dueS)));
        Moment from =
                Moment.between(before, now, (atS - before.flownS()) / Math.max(now.flownS() - before.flownS(), 1e-9));
        return from.position().distanceNm(fix) < 1e-3
                ? null
                : new Aimed(GeodesicLine.between(from.position(), fix), from);
    }

    /** Zero or less while pointing at the fix, wings level. */
    private double off(Moment m) {
        return Math.max(Math.abs(errorDeg(m)) / AIMED_DEG, Math.abs(m.turnRateDegPerS()) / CourseWatch.STEADY_DEG_PER_S)
                - 1;
    }

    private double errorDeg(Moment m) {
        Geodesics.Inverse way = m.position().to(fix);
        return Angles.turn(m.trackDeg() - way.initial().deg());
    }

    /** Distance to the fix from where the aircraft was last seen, nautical miles. */
    OptionalDouble toGoNm() {
        Moment here = last;
        return here == null
                ? OptionalDouble.empty()
                : OptionalDouble.of(here.position().distanceNm(fix));
    }

    void breakOff() {
        last = null;
        aimed.reset();
    }
}
