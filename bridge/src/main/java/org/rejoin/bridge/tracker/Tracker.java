package org.rejoin.bridge.tracker;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.ToDoubleBiFunction;

import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.flight.Assigned;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.protocol.AircraftState;

import org.jspecify.annotations.Nullable;

/**
 * Compares a flight with the amended route. Samples in, events out; no clock, no I/O. One per seat, confined to one
 * thread. The same samples and clearances give the same events, whenever and wherever they are given.
 */
public final class Tracker {

    /** An aircraft is not taken to be slower than this when a jump is judged, knots. */
    private static final double JUMP_FLOOR_KT = 200;

    /** A jump is at least this long ..., nautical miles; common practice, no source. */
    private static final double JUMP_NM = 0.5;

    /** ... and this many times as far as the aircraft flies; common practice, no source. */
    private static final double JUMP_TIMES = 3;

    /** Not moving for this long although a speed is reported: the simulation stands still, seconds. */
    private static final double STILL_S = 2;

    /** Two millimetres: the same position sent again, nautical miles. */
    private static final double FROZEN_NM = 1e-6;

    /** Slower than this an aircraft may stand still by itself, knots; common practice, no source. */
    private static final double FLYING_KT = 30;

    private static final double NM_PER_DEG = 60;

    private final Limits limits;
    private final double feedTimeoutS;
    private final FlightPath path;

    private @Nullable AircraftState last;
    private double pausedTotalS;
    private boolean paused;
    private double pausedSinceS;
    private double stillSinceS = Double.NaN;
    private double movingKt;
    private final Assignments assigned = new Assignments();
    private @Nullable AmendmentWatch amendment;
    private double lastEventS;
    private double silentS;
    private boolean newPiece = true;

    /**
     * A tracker.
     *
     * @param limits in force
     * @param feedTimeoutS without a sample for this long the feed counts as lost, seconds; 12 for DIS, whose senders
     *     may stay silent for 5 (IEEE 1278.1 heartbeat times 2.4)
     * @param variationEastDeg today's variation, degrees east, at a place and an altitude in feet
     */
    public Tracker(Limits limits, double feedTimeoutS, ToDoubleBiFunction<Position, Double> variationEastDeg) {
        this.limits = limits;
        this.feedTimeoutS = feedTimeoutS;
        this.path = new FlightPath(variationEastDeg);
    }

    /**
     * Takes the next sample and says what happened since the last.
     *
     * @param state later than the last
     * @return events in order of time
     * @throws IllegalArgumentException if {@code state} is not later than the last; the message gives both times
     */
    public List<FlightEvent> accept(AircraftState state) {
        AircraftState before = last;
        if (before != null && !(state.timeS() > before.timeS())) {
            throw new IllegalArgumentException(
                    "sample at " + state.timeS() + " s is not later than the last, at " + before.timeS() + " s");
        }
        last = state;
        double silent = silentS;
        silentS = 0;
        List<FlightEvent> events = new ArrayList<>();
        if (before == null) {
            events.add(new FlightEvent.FlightBegan(state.timeS()));
            fly(state, events);
            return inOrder(events);
        }
        interruptions(before, state, silent, events);
        if (!paused) {
            fly(state, events);
        }
        return inOrder(events);
    }

    /**
     * Nothing was heard before the next sample for longer than its time says: the simulator stood, was started again, or
     * nobody listened. The flight goes on where the times of the samples say so.
     *
     * @param receiptS time of receipt that passed since the last sample, seconds
     */
    public void silence(double receiptS) {
        silentS = receiptS;
    }

    /**
     * Whether the flight may be interpolated between the last sample and the next.
     *
     * @param next later than the last
     * @return false across a gap in the feed or a jump no aircraft can make, and before the first sample
     */
    public boolean goesOnTo(AircraftState next) {
        AircraftState before = last;
        return before != null
                && next.timeS() - before.timeS() <= feedTimeoutS
                && jumpNm(before, next).isEmpty();
    }

    /** How far the aircraft was set elsewhere; empty if it may have flown there. */
    private static OptionalDouble jumpNm(AircraftState before, AircraftState state) {
        double roughlyNm = roughlyMovedNm(before, state);
        double speedKt = Math.max(
                Math.max(before.groundSpeedKt().orElse(0), state.groundSpeedKt().orElse(0)), JUMP_FLOOR_KT);
        double reachNm = JUMP_NM + JUMP_TIMES * speedKt * (state.timeS() - before.timeS()) / 3600;
        return roughlyNm > reachNm
                ? OptionalDouble.of(new Position(before.latitudeDeg(), before.longitudeDeg())
                        .distanceNm(new Position(state.latitudeDeg(), state.longitudeDeg())))
                : OptionalDouble.empty();
    }

    /** Between two samples, on a plane: to a percent, which is enough to tell a jump or a standstill, NM. */
    private static double roughlyMovedNm(AircraftState before, AircraftState state) {
        double north = state.latitudeDeg() - before.latitudeDeg();
        double east = Angles.turn(state.longitudeDeg() - before.longitudeDeg())
                * Math.cos(Math.toRadians((state.latitudeDeg() + before.latitudeDeg()) / 2));
        return NM_PER_DEG * Math.sqrt(north * north + east * east);
    }

    private void fly(AircraftState state, List<FlightEvent> events) {
        for (Moment moment : path.to(state, pausedTotalS)) {
            events.addAll(assigned.step(moment));
            if (amendment != null) {
                events.addAll(amendment.step(moment));
            }
        }
    }

    /** Gaps, pauses and jumps: nothing about the flying is concluded from the step across one. */
    private void interruptions(AircraftState before, AircraftState state, double silent, List<FlightEvent> events) {
        double gapS = state.timeS() - before.timeS();
        double movedNm = roughlyMovedNm(before, state);
        boolean standing = state.paused() || standingStill(before, state, movedNm);
        if (standing && !paused) {
            paused = true;
            pausedSinceS = Double.isNaN(stillSinceS) ? state.timeS() : stillSinceS;
            events.add(new FlightEvent.SimPaused(Math.max(pausedSinceS, lastEventS), state.paused() ? FlightEvent.SimPaused.Reason.FLAG : FlightEvent.SimPaused.Reason.STANDING_STILL));
        } else if (!standing && paused) {
            paused = false;
            pausedTotalS += before.timeS() - pausedSinceS;
            stillSinceS = Double.NaN;
            events.add(new FlightEvent.SimResumed(Math.max(before.timeS(), lastEventS)));
            breakOff(events);
        }
        double unheardS = Math.max(gapS, silent);
        if (unheardS > feedTimeoutS) {
            events.add(new FlightEvent.FeedLost(Math.min(before.timeS() + feedTimeoutS, state.timeS()), unheardS));
            events.add(new FlightEvent.FeedResumed(state.timeS(), unheardS));
        }
        if (gapS > feedTimeoutS) {
            breakOff(events);
        }
        OptionalDouble jumpNm = jumpNm(before, state);
        if (jumpNm.isPresent()) {
            breakOff(events);
            events.addAll(assigned.reposition());
            if (amendment != null) {
                events.addAll(amendment.reposition(before.timeS()));
            }
            events.add(new FlightEvent.Repositioned(state.timeS(), jumpNm.getAsDouble()));
        }
    }

    /** Positions frozen although the aircraft was flying. What speed the sender reports meanwhile does not matter. */
    private boolean standingStill(AircraftState before, AircraftState state, double movedNm) {
        if (movedNm >= FROZEN_NM) {
            movingKt = movedNm / (state.timeS() - before.timeS()) * 3600;
            stillSinceS = Double.NaN;
            return false;
        }
        if (Math.max(movingKt, state.groundSpeedKt().orElse(0)) < FLYING_KT) {
            return false;
        }
        if (Double.isNaN(stillSinceS)) {
            stillSinceS = before.timeS();
        }
        return state.timeS() - stillSinceS >= STILL_S;
    }

    private void breakOff(List<FlightEvent> events) {
        newPiece = true;
        path.breakOff();
        events.addAll(assigned.breakOff());
        if (amendment != null) {
            events.addAll(amendment.breakOff());
        }
    }

    /**
     * A clearance is spoken now, at the time of the last sample.
     *
     * @param route worked out for it
     * @param stations that may be mistaken for the cleared one; may contain it
     * @return what was abandoned, and the clearance itself
     * @throws IllegalStateException if there has been no sample yet
     */
    public List<FlightEvent> issue(AmendedRoute route, List<NearStation> stations) {
        AircraftState now = last;
        if (now == null) {
            throw new IllegalStateException("a clearance needs an aircraft: no sample yet");
        }
        List<FlightEvent> events = new ArrayList<>();
        if (amendment != null && route.clearance().routeStays()) {
            events.addAll(assigned.assign(route.clearance(), path.last()));
            events.add(new FlightEvent.ClearanceIssued(
                    now.timeS(), route.clearance().text()));
            return inOrder(events);
        }
        AmendmentWatch replaced = amendment;
        AmendmentWatch watch = new AmendmentWatch(route, assigned, stations, limits);
        if (replaced != null) {
            events.addAll(replaced.replaced(now.timeS()));
        }
        events.addAll(assigned.assign(route.clearance(), path.last()));
        events.add(
                new FlightEvent.ClearanceIssued(now.timeS(), route.clearance().text()));
        amendment = watch;
        Moment here = path.last();
        if (here != null) {
            events.addAll(watch.step(here));
        }
        return inOrder(events);
    }

    /**
     * The controller takes the amendment in force back, at the time of the last sample: the flight goes on as filed and
     * nothing of the amendment is asked for any more, its altitude and speed included.
     *
     * @param clearance that says so; an altitude or speed in it is in force from now on
     * @return the words, and what was not done; empty if there is no amendment in force
     */
    public List<FlightEvent> cancel(Clearance clearance) {
        AmendmentWatch cancelled = amendment;
        AircraftState now = last;
        if (cancelled == null || now == null) {
            return List.of();
        }
        amendment = null;
        List<FlightEvent> events = new ArrayList<>(assigned.clear());
        events.addAll(cancelled.replaced(now.timeS()));
        events.addAll(assigned.assign(clearance, path.last()));
        events.add(new FlightEvent.ClearanceIssued(now.timeS(), clearance.text()));
        return inOrder(events);
    }

    /**
     * The flight is over.
     *
     * @return the last events
     */
    public List<FlightEvent> finish() {
        AircraftState end = last;
        if (end == null) {
            return List.of();
        }
        List<FlightEvent> events = new ArrayList<>(assigned.breakOff());
        if (amendment != null) {
            events.addAll(amendment.finish(end.timeS()));
        }
        events.add(new FlightEvent.FlightEnded(end.timeS()));
        return inOrder(events);
    }

    /**
     * Where the flight stands, at the last sample.
     *
     * @return empty before the first sample and while the simulation stands still
     */
    public Optional<Point> point() {
        Moment here = path.last();
        AircraftState state = last;
        if (here == null || state == null || paused) {
            return Optional.empty();
        }
        boolean piece = newPiece;
        newPiece = false;
        return Optional.of(
                amendment == null ? here.point(state, assigned, piece) : amendment.point(here, state, piece));
    }

    /**
     * What is assigned beside the route.
     *
     * @return in force now
     */
    public Assigned assigned() {
        return assigned.inForce();
    }

    /**
     * A time of the log as time flown.
     *
     * @param timeS seconds since the first sample, not before the last sample but one
     * @return the same without the seconds in which the simulation stood still
     */
    public double flownAt(double timeS) {
        return (paused ? Math.min(timeS, pausedSinceS) : timeS) - pausedTotalS;
    }

    /**
     * Whether the amendment in force is complete.
     *
     * @return false too when there is none
     */
    public boolean complete() {
        return amendment != null && amendment.complete();
    }

    /** Detectors find their events independently; the log is in order of time. */
    private List<FlightEvent> inOrder(List<FlightEvent> events) {
        events.sort(Comparator.comparingDouble(FlightEvent::timeS));
        if (!events.isEmpty()) {
            lastEventS = Math.max(lastEventS, events.get(events.size() - 1).timeS());
        }
        return events;
    }
}
