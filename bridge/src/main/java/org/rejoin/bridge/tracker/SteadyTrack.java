package org.rejoin.bridge.tracker;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.OptionalDouble;

import org.rejoin.bridge.flight.FlightInstant;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.protocol.earth.Normal;

/**
 * Whether a line has been tracked for a minute: along it all the time, and from where the minute began to here within a
 * few degrees of it, so that small corrections do not hide it and a shallow crossing does not pass for it; from the middle of
 * the minute too: who turned from away to beside another line has on the whole gone along it, and does not. Asked once a second.
 */
final class SteadyTrack {

    private final double alongDeg;
    private final int lastsS;
    private final Dwell along;
    private final Deque<Normal> earlier = new ArrayDeque<>();
    private final Deque<Normal> later = new ArrayDeque<>();
    private double lastS = Double.NaN;
    private double lastOff;
    private double lastUnsteady = Double.NaN;
    private double trackedAtS = Double.NaN;

    SteadyTrack(Rule.OtherCourse rule) {
        this.alongDeg = rule.alongDeg();
        this.lastsS = (int) Math.round(rule.heldS());
        this.along = new Dwell(rule.heldS());
    }

    /**
     * Takes the next second.
     *
     * @param at the flight
     * @param off zero or less while the line is there to be tracked
     * @param courseDeg of the line here, true, either way
     * @param steadyDeg how far the minute's way may lie from it, degrees
     * @return whether the line is being flown along
     */
    boolean step(FlightInstant at, double off, double courseDeg, double steadyDeg) {
        double now = Math.max(off, Angles.acute(at.trackDeg() - courseDeg) / alongDeg - 1);
        trackedAtS = Double.NaN;
        if (Double.isNaN(lastS) || at.flownS() - lastS > 1.5) {
            reset();
        } else {
            OptionalDouble held = along.step(lastS, lastOff, at.flownS(), now);
            steady(at, now, courseDeg, steadyDeg, held);
        }
        lastS = at.flownS();
        lastOff = now;
        return now <= 0;
    }

    private void steady(FlightInstant at, double now, double courseDeg, double steadyDeg, OptionalDouble held) {
        if (now > 0) {
            forget();
            return;
        }
        later.addLast(at.normal());
        if (later.size() > lastsS / 2) {
            earlier.addLast(later.removeFirst());
        }
        if (earlier.size() + later.size() <= lastsS) {
            return;
        }
        double whole = besideDeg(earlier.removeFirst(), at, courseDeg);
        double unsteady = Math.max(whole, besideDeg(later.getFirst(), at, courseDeg)) - steadyDeg;
        boolean first = Double.isNaN(lastUnsteady);
        if (unsteady <= 0 && (first || lastUnsteady > 0)) {
            trackedAtS =
                    first ? held.orElse(at.flownS()) : Dwell.root(at.flownS() - 1, lastUnsteady, at.flownS(), unsteady);
        }
        lastUnsteady = unsteady;
    }

    private static double besideDeg(Normal from, FlightInstant at, double courseDeg) {
        return Angles.acute(Geodesics.between(from, at.normal()).onward().deg() - courseDeg);
    }

    private void forget() {
        earlier.clear();
        later.clear();
        lastUnsteady = Double.NaN;
    }

    /** When the line had been tracked long enough, flown seconds; NaN but in the step in which it had. */
    double trackedAtS() {
        return trackedAtS;
    }

    void reset() {
        along.reset();
        forget();
        lastS = Double.NaN;
        trackedAtS = Double.NaN;
    }
}
