package org.rejoin.bridge.tracker;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.flight.Assigned;
import org.rejoin.bridge.flight.FeedQuality;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightInstant;
import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.VariationMap;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.protocol.AircraftState;

import org.jspecify.annotations.Nullable;

/**
 * Compares one attempt with the amended route. Samples in, events out; no clock, no I/O. Confined to one thread. The
 * same samples and clearances give the same events, whenever and wherever they are given.
 */
public final class Tracker {

    private final Limits limits;
    private final Rules rules;
    private final double feedTimeoutS;
    private final FlightPath path;
    private final StandingStill standing;
    private final Assignments assigned;
    private Consequences consequences = new Consequences();
    private final List<FlightEvent> told = new ArrayList<>();
    private final FlightPath.Steps step = this::step;

    private @Nullable AircraftState last;
    private double pausedTotalS;
    private boolean paused;
    private double pausedSinceS;
    private @Nullable AmendmentWatch amendment;
    private @Nullable SetAside aside;
    /** The heading of the amendment that was taken back last; null where it had none. */
    private @Nullable HeadingWatch turnTakenBack;

    private double lastEventS;
    private double silentS;
    private boolean newPiece = true;
    private boolean begun;
    /** Whether the aircraft was seen to come to where it is. */
    private boolean cameHere;

    /**
     * An amendment that another has taken the place of, while nobody has had to act on that one yet.
     *
     * @param sinceS flown seconds
     * @param assigned when it was set aside
     * @param seen what happened to it meanwhile, not told yet
     */
    private record SetAside(
            AmendmentWatch watch,
            Consequences consequences,
            double sinceS,
            Assigned assigned,
            List<FlightEvent> seen) {}

    /**
     * A tracker.
     *
     * @param feedTimeoutS without a sample for this long the feed counts as lost, seconds; 12 for DIS, whose senders
     *     may stay silent for 5 (IEEE 1278.1 heartbeat times 2.4)
     * @param quality of the feed as far as it is known; kept by the caller
     */
    public Tracker(Limits limits, Rules rules, double feedTimeoutS, FeedQuality quality, VariationMap variation) {
        this.limits = limits;
        this.rules = rules;
        this.feedTimeoutS = feedTimeoutS;
        this.path = new FlightPath(rules.of(Rule.Rates.class), quality, variation);
        this.standing = new StandingStill(rules.of(Rule.StandingStill.class));
        this.assigned = new Assignments(rules);
    }

    /** The next attempt of the same flight: nothing is remembered but the time that was paused and what is assigned. */
    public void goOnAfter(Tracker before, Assigned inForce) {
        pausedTotalS = before.pausedTotalS
                + (before.paused && before.last != null ? before.last.timeS() - before.pausedSinceS : 0);
        lastEventS = before.lastEventS;
        begun = true;
        assigned.carry(inForce);
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
        cameHere = goesOnTo(state);
        last = state;
        double silent = silentS;
        silentS = 0;
        if (before != null) {
            interruptions(before, state, silent);
        } else {
            if (!begun) {
                told.add(new FlightEvent.FlightBegan(state.timeS()));
            }
            if (state.paused()) {
                pause(state.timeS(), FlightEvent.SimPaused.Reason.FLAG);
            }
        }
        if (!paused) {
            path.to(state, pausedTotalS, step);
        }
        return inOrder();
    }

    /**
     * Nothing was heard before the next sample for longer than its time says, so many seconds of receipt: the simulator
     * stood, was started again, or nobody listened. The flight goes on where the times of the samples say so.
     */
    public void silence(double receiptS) {
        silentS = receiptS;
    }

    /**
     * Whether the flight may be interpolated between the last sample and the next; false across a gap in the feed, and
     * before the first sample.
     */
    public boolean goesOnTo(AircraftState next) {
        AircraftState before = last;
        return before != null && next.timeS() - before.timeS() <= feedTimeoutS;
    }

    private void step(@Nullable FlightInstant before, FlightInstant now) {
        assigned.step(now, told);
        SetAside kept = aside;
        if (kept != null
                && now.flownS() > kept.sinceS() + rules.of(Rule.Heading.class).reactionS()) {
            aside = null;
        } else if (kept != null) {
            kept.watch().step(before, now, kept.seen());
        }
        if (amendment != null) {
            amendment.step(before, now, told);
        } else {
            assigned.changeOver(before, now, null, told);
        }
    }

    /** Gaps and pauses: nothing about the flying is concluded from the step across one. */
    private void interruptions(AircraftState before, AircraftState state, double silent) {
        double gapS = state.timeS() - before.timeS();
        boolean still = standing.step(before, state);
        if ((state.paused() || still) && !paused) {
            pause(
                    Double.isNaN(standing.sinceS()) ? state.timeS() : standing.sinceS(),
                    state.paused() ? FlightEvent.SimPaused.Reason.FLAG : FlightEvent.SimPaused.Reason.STANDING_STILL);
        } else if (!state.paused() && !still && paused) {
            double stoodFromS = flownAt(pausedSinceS);
            double goesOnFromS = path.goesOnAsBefore(state) ? stoodFromS : Double.NaN;
            path.stood(stoodFromS);
            paused = false;
            pausedTotalS += before.timeS() - pausedSinceS;
            told.add(new FlightEvent.SimResumed(Math.max(before.timeS(), lastEventS)));
            newPiece(goesOnFromS);
        }
        gap(before, state, silent);
        if (gapS > feedTimeoutS) {
            path.breakOff();
            newPiece(Double.NaN);
        }
    }

    private void gap(AircraftState before, AircraftState state, double silent) {
        double unheardS = Math.max(state.timeS() - before.timeS(), silent);
        // A simulation that stands has nothing to send.
        boolean stood = before.paused() && state.paused();
        if (unheardS > feedTimeoutS && !stood) {
            told.add(new FlightEvent.FeedLost(Math.min(before.timeS() + feedTimeoutS, state.timeS()), unheardS));
            told.add(new FlightEvent.FeedResumed(state.timeS(), unheardS));
        }
    }

    /**
     * Heard again where the next attempt begins, perhaps after nothing was heard for some time; the gap before it, if
     * there was one.
     */
    public List<FlightEvent> heardElsewhere(AircraftState state) {
        AircraftState before = last;
        if (before != null) {
            gap(before, state, silentS);
        }
        return inOrder();
    }

    private void pause(double sinceS, FlightEvent.SimPaused.Reason reason) {
        paused = true;
        pausedSinceS = sinceS;
        told.add(new FlightEvent.SimPaused(Math.max(sinceS, lastEventS), reason));
    }

    /** From when on the flight goes on as before, flown seconds, where the simulation stood; NaN where nobody saw it. */
    private void newPiece(double goesOnFromS) {
        newPiece = true;
        assigned.breakOff();
        if (amendment != null) {
            amendment.breakOff(goesOnFromS);
        }
        if (aside != null) {
            aside.watch().breakOff(goesOnFromS);
        }
    }

    /**
     * A clearance comes into force now, at the time of the last sample.
     *
     * @param route worked out for it
     * @param stations that may be mistaken for the cleared one; may contain it
     * @param airways that may be joined in place of what was cleared
     * @param asBefore whether it stands again and is not spoken
     * @return what was abandoned, and the clearance itself
     * @throws IllegalStateException if there has been no sample yet
     */
    public List<FlightEvent> issue(
            AmendedRoute route, List<NearStation> stations, List<NearAirway> airways, boolean asBefore) {
        AircraftState now = last;
        if (now == null) {
            throw new IllegalStateException("a clearance needs an aircraft: no sample yet");
        }
        FlightInstant here = path.last();
        Clearance clearance = route.clearance();
        boolean routeStays = amendment != null && clearance.routeStays();
        AmendmentWatch before = amendment;
        if (before != null && routeStays) {
            before.further(route, flownAt(now.timeS()));
        } else if (before != null && before.setAside(here, now.timeS(), told)) {
            aside = new SetAside(before, consequences, flownAt(now.timeS()), assigned.inForce(), new ArrayList<>());
            consequences = new Consequences();
        } else {
            aside = null;
            if (before != null) {
                before.finish(AmendmentWatch.End.REPLACED, now.timeS(), path.seen(), told);
            }
        }
        if (!routeStays) {
            assigned.nextAmendment();
        }
        assigned.assign(clearance, route, here, now.timeS(), flownAt(now.timeS()), told);
        told.add(
                asBefore
                        ? new FlightEvent.ClearanceAsBefore(now.timeS(), clearance.text(), clearance.besideFt())
                        : new FlightEvent.ClearanceIssued(now.timeS(), clearance.text(), clearance.besideFt()));
        if (!routeStays) {
            consequences.reset();
            HeadingWatch headingBefore = before == null ? turnTakenBack : before.heading();
            turnTakenBack = null;
            HeadingWatch turnBefore =
                    headingBefore != null && here != null && headingBefore.turnGoesOn(here) ? headingBefore : null;
            amendment = new AmendmentWatch(
                    route,
                    assigned,
                    stations,
                    airways,
                    limits,
                    rules,
                    asBefore,
                    turnBefore,
                    cameHere,
                    flownAt(now.timeS()));
            if (here != null) {
                amendment.step(null, here, told);
            }
        }
        return inOrder();
    }

    /**
     * The controller takes the amendment in force back, at the time of the last sample: the flight goes on as filed and
     * nothing of the amendment is asked for any more, its altitude and speed included.
     *
     * @param clearance that says so; an altitude or speed in it is in force from now on
     * @param before what was assigned before the amendment and stays so, to be reached anew
     * @return the words, and what was not done; empty if there is no amendment in force
     */
    public List<FlightEvent> cancel(Clearance clearance, Assigned before) {
        AmendmentWatch cancelled = amendment;
        AircraftState now = last;
        if (cancelled == null || now == null) {
            return List.of();
        }
        amendment = null;
        turnTakenBack = cancelled.heading();
        consequences.reset();
        assigned.clear(now.timeS(), told);
        assigned.carry(before);
        cancelled.finish(AmendmentWatch.End.CANCELLED, now.timeS(), path.seen(), told);
        assigned.assign(clearance, null, path.last(), now.timeS(), flownAt(now.timeS()), told);
        told.add(new FlightEvent.ClearanceIssued(now.timeS(), clearance.text(), clearance.besideFt()));
        return inOrder();
    }

    /**
     * Whether the amendment before the one in force would go on as if that had never been said: nobody has had to act on it
     * yet.
     */
    public boolean goesOnBefore() {
        return aside != null && amendment != null;
    }

    /**
     * The controller takes the amendment in force back before anybody had to act on it: the one before goes on, and so does
     * what was assigned with it; {@link #goOn} tells what happened to it meanwhile.
     *
     * @param clearance that says so
     * @param stands the clearances that stand again, in the order issued
     * @param route in force again
     * @return the words, and what was not done; empty where {@link #goesOnBefore} says no
     */
    public List<FlightEvent> cancelForBefore(Clearance clearance, List<Clearance> stands, AmendedRoute route) {
        AmendmentWatch cancelled = amendment;
        AircraftState now = last;
        SetAside kept = aside;
        if (cancelled == null || now == null || kept == null) {
            return List.of();
        }
        amendment = null;
        consequences.reset();
        cancelled.finish(AmendmentWatch.End.CANCELLED, now.timeS(), path.seen(), told);
        assigned.restore(kept.assigned(), stands, route, now.timeS(), flownAt(now.timeS()), told);
        told.add(new FlightEvent.ClearanceIssued(now.timeS(), clearance.text(), clearance.besideFt()));
        return inOrder();
    }

    /**
     * The amendment before the one that was taken back goes on.
     *
     * @param stands the clearances that stand again, in the order issued
     * @return that they do, and what happened meanwhile, at its own times
     */
    public List<FlightEvent> goOn(List<Clearance> stands) {
        AircraftState now = last;
        SetAside kept = aside;
        if (now == null || kept == null) {
            return List.of();
        }
        aside = null;
        amendment = kept.watch();
        consequences = kept.consequences();
        kept.watch().goOn(path.last());
        stands.forEach(each -> told.add(new FlightEvent.ClearanceAsBefore(now.timeS(), each.text(), each.besideFt())));
        told.addAll(kept.seen());
        return inOrder();
    }

    /**
     * The controller takes back what left the route as it was: an altitude or a speed alone. The route goes on being flown,
     * and what was assigned before is to be reached anew.
     *
     * @param clearance that says so; an altitude or speed in it is in force from now on
     * @param before what was assigned before
     * @param stands the clearances that stand, in the order issued
     * @param route in force, with the crossings that stand
     * @param routeS when the last of what stands was issued, flown seconds
     * @return the words, and what stands
     */
    public List<FlightEvent> restore(
            Clearance clearance, Assigned before, List<Clearance> stands, AmendedRoute route, double routeS) {
        AircraftState now = last;
        AmendmentWatch flown = amendment;
        if (now == null || flown == null) {
            return List.of();
        }
        double flownS = flownAt(now.timeS());
        assigned.restore(before, stands, route, now.timeS(), flownS, told);
        flown.under(route, routeS);
        assigned.assign(clearance, route, path.last(), now.timeS(), flownS, told);
        told.add(new FlightEvent.ClearanceIssued(now.timeS(), clearance.text(), clearance.besideFt()));
        stands.forEach(each -> told.add(new FlightEvent.ClearanceAsBefore(now.timeS(), each.text(), each.besideFt())));
        return inOrder();
    }

    /** The attempt is over: what was due and not done is told, what was not due is not judged. */
    public List<FlightEvent> close() {
        AircraftState end = last;
        if (end == null) {
            return List.of();
        }
        end(end.timeS());
        amendment = null;
        return inOrder();
    }

    /** The flight is over. */
    public List<FlightEvent> finish() {
        AircraftState end = last;
        if (end == null) {
            return List.of();
        }
        end(end.timeS());
        told.add(new FlightEvent.FlightEnded(end.timeS()));
        return inOrder();
    }

    private void end(double timeS) {
        assigned.finish(timeS, told);
        if (amendment != null) {
            amendment.finish(AmendmentWatch.End.OVER, timeS, path.seen(), told);
        }
    }

    /**
     * {@return where the flight stands, at the last sample; null before the first sample and while the simulation stands
     * still}
     */
    public @Nullable Point point() {
        FlightInstant here = path.last();
        if (here == null || paused) {
            return null;
        }
        boolean piece = newPiece;
        newPiece = false;
        return amendment == null
                ? Point.asFiled(here, assigned.altitudeErrorFt(), assigned.speedErrorKt(), piece)
                : amendment.point(here, piece);
    }

    /** {@return what is assigned beside the route, in force now} */
    public Assigned assigned() {
        return assigned.inForce();
    }

    /** Whether an event given last follows from a mistake told before. */
    public boolean follows(FlightEvent event) {
        return consequences.follows(event);
    }

    /** A time of the log as time flown; the same without the seconds in which the simulation stood still. */
    public double flownAt(double timeS) {
        return (paused ? Math.min(timeS, pausedSinceS) : timeS) - pausedTotalS;
    }

    /** {@return whether the amendment in force is complete; false too when there is none} */
    public boolean complete() {
        return amendment != null && amendment.complete();
    }

    /**
     * Whether the amendment in force was flown to its end: all of it is done, and nothing of it goes on until ATC says
     * more, as a hold, a wait at a limit or a heading does; false too when there is none.
     */
    public boolean flownToItsEnd() {
        return amendment != null && amendment.flownToItsEnd();
    }

    /** Detectors find their events independently; the log is in order of time. */
    private List<FlightEvent> inOrder() {
        AmendmentWatch flown = amendment;
        boolean holding = flown != null && flown.holding();
        if (told.isEmpty()) {
            consequences.step(told, holding);
            return List.of();
        }
        told.sort(Comparator.comparingDouble(FlightEvent::timeS));
        List<FlightEvent> events = List.copyOf(told);
        told.clear();
        lastEventS = Math.max(lastEventS, events.get(events.size() - 1).timeS());
        consequences.step(events, holding);
        return events;
    }
}
