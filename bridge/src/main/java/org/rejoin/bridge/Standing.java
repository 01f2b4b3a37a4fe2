package org.rejoin.bridge;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;

import org.rejoin.bridge.clearance.Clearance;

/**
 * Which clearances stand, and which stand again when the last is taken back. "Disregard" and "cancel" annul what was
 * transmitted last (ICAO Annex 10, volume II, from memory): the one before stands again, unless that was flown to its end. A
 * clearance that was flown to its end leaves no way to go back to: taken back, it leaves the flight as filed, and nothing
 * older comes back either. A hold, a wait at a limit and a heading that go on until ATC says more are not flown to their
 * end. Read by the flight that is judged and by the practice pilot alike.
 *
 * @param <C> a clearance, however the caller keeps it
 */
public final class Standing<C> {

    private final List<C> inForce = new ArrayList<>();

    /** Whether the last of those leaves the route of the one before it as it is. */
    private boolean lastBeside;

    /** What stood before, the last first. */
    private final Deque<Again<C>> replaced = new ArrayDeque<>();

    /**
     * What stands again.
     *
     * @param <C> a clearance
     * @param each in the order issued; empty for as filed
     * @param reached how far the first of them was flown when it was replaced
     */
    public record Again<C>(List<C> each, Clearance.Reached reached) {

        public Again {
            each = List.copyOf(each);
        }
    }

    /** A clearance is issued. */
    public void issued(C clearance, boolean routeStays, boolean flown, Clearance.Reached reached) {
        if (!routeStays) {
            if (flown) {
                replaced.clear();
            } else if (!inForce.isEmpty()) {
                replaced.push(new Again<>(inForce, reached));
            }
            inForce.clear();
        }
        lastBeside = routeStays;
        inForce.add(clearance);
    }

    /**
     * The last clearance is taken back where it stands beside another whose route it left as it was: an altitude alone. That
     * one goes on as it is, and nothing is worked out anew.
     *
     * @param asFiled whether it is said with it that the flight goes on as filed: then all is taken back
     * @return what stands, in the order issued; empty where the last stands alone: nothing is taken back then
     */
    public List<C> besideTakenBack(boolean asFiled) {
        if (asFiled || !lastBeside || inForce.size() < 2) {
            return List.of();
        }
        inForce.remove(inForce.size() - 1);
        // Of those that are left all but the first were said beside it.
        return List.copyOf(inForce);
    }

    /**
     * What stands again once the last clearance is taken back; nothing is taken back yet.
     *
     * @param asFiled whether it is said with it that the flight goes on as filed
     * @param flown whether the last one was flown to its end
     * @return nothing for as filed
     */
    public Again<C> standsAgain(boolean asFiled, boolean flown) {
        return asFiled || flown || replaced.isEmpty()
                ? new Again<>(List.of(), Clearance.Reached.NOTHING)
                : replaced.element();
    }

    /**
     * The last clearance is taken back.
     *
     * @param asFiled whether it is said with it that the flight goes on as filed
     * @param flown whether the last one was flown to its end
     * @return what stands again, to be worked out from here and issued anew, in this order; nothing for as filed
     */
    public Again<C> takenBack(boolean asFiled, boolean flown) {
        Again<C> again = standsAgain(asFiled, flown);
        inForce.clear();
        if (again.each().isEmpty()) {
            replaced.clear();
        } else {
            replaced.pop();
        }
        return again;
    }

    /** All that stands is to be worked out anew; what stood, in the order issued. */
    public List<C> again() {
        List<C> before = List.copyOf(inForce);
        inForce.clear();
        return before;
    }

    /** Nothing was ever issued. */
    public void forget() {
        inForce.clear();
        replaced.clear();
    }
}
