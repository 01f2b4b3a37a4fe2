package org.rejoin.bridge.route;

import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.InTurn;
import org.rejoin.bridge.clearance.Instruction.Until;
import org.rejoin.bridge.clearance.When;

/** Where on a route an assigned altitude or speed gives way to the next one. */
public final class ChangeOvers {

    private ChangeOvers() {}

    /**
     * Whether it can be told when each of several altitudes or speeds comes into force: not where one begins when ATC
     * says so, at a place that the route does not come to, or at a time and the time of day is not known.
     */
    public static boolean followed(List<? extends InTurn<?>> inTurn, AmendedRoute route) {
        return inTurn.stream()
                .flatMap(each -> each.from().stream())
                .allMatch(when -> isFollowed(when, route.legs(), route.courseLeg(), route.situation()));
    }

    static boolean isFollowed(When when, List<Leg> legs, int courseLeg, Situation situation) {
        return when.fold(new When.Cases<Boolean>(
                at -> at.line()
                        .<Boolean>fold(
                                radial -> radial.station().declination().isPresent(),
                                distance -> true,
                                fix -> legTo(fix.fix(), legs) >= 0,
                                airway -> !onLegs(Optional.of(airway), legs, courseLeg)
                                        .isEmpty()),
                near -> legTo(near.fix(), legs) >= 0,
                at -> situation.secondsUntil(at.time()).orElse(-1) >= 0,
                level -> true,
                established -> !onLegs(established.line(), legs, courseLeg).isEmpty(),
                advised -> false,
                beside -> true,
                reached -> true));
    }

    /** The first leg beyond it, of a fix and of being established; one past the last where that is not known. */
    static int firstLeg(When when, List<Leg> legs, int courseLeg) {
        if (when instanceof When.AtLine at && at.line() instanceof Until.AtFix fix) {
            int to = legTo(fix.fix(), legs);
            return to < 0 ? legs.size() : to + 1;
        }
        return when instanceof When.Established established
                ? onLegs(established.line(), legs, courseLeg).stream()
                        .findFirst()
                        .orElse(legs.size())
                : legs.size();
    }

    /**
     * The legs on which an aircraft is established that is established on a line.
     *
     * @param line a radial or an airway; empty for the line of the clearance: that of a direct is none, it leads to one
     * @param legs of the route
     * @param courseLeg the first leg along a line; -1 where there is none
     * @return indices, ascending; empty where the route has no such leg
     */
    public static List<Integer> onLegs(Optional<Until> line, List<Leg> legs, int courseLeg) {
        if (line.orElse(null) instanceof Until.AtAirway at) {
            return IntStream.range(0, legs.size())
                    .filter(i -> legs.get(i).isOn(at.airway()))
                    .boxed()
                    .toList();
        }
        boolean direct =
                courseLeg >= 0 && courseLeg + 1 < legs.size() && legs.get(courseLeg) instanceof Leg.DirectToFix;
        return courseLeg < 0 ? List.of() : List.of(direct ? courseLeg + 1 : courseLeg);
    }

    /**
     * The leg that ends at a fix; of the fix of a hold the one that leads to it; index of the first; -1 where none
     * does.
     */
    public static int legTo(Waypoint fix, List<Leg> legs) {
        int ends = RouteEnd.legTo(legs, fix);
        if (ends >= 0) {
            return ends;
        }
        for (int i = 1; i < legs.size(); i++) {
            if (legs.get(i) instanceof Leg.HoldAtFix held
                    && RouteEnd.same(held.holding().fix(), fix)) {
                return i - 1;
            }
        }
        return -1;
    }
}
