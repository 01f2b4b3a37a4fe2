package org.rejoin.bridge.route;

import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.Offset;
import org.rejoin.bridge.geo.Position;

/**
 * An altitude to have at a place on the route, and what it takes from here.
 *
 * @param said the instruction; of "to be level by FIX" the crossing that it comes to
 * @param place its name: the fix, or "10 NM west of" it
 * @param leg index in the legs of the route of the one that it is on
 * @param distanceNm along the route from here, nautical miles; empty where it is not known how the route is met
 * @param minutes at the ground speed of each leg; empty where the distance is, or the wind does not let a leg be flown
 * @param ftPerNm feet a mile that are needed, 0 or more; empty where the present altitude or the distance is not known
 * @param ftPerMin feet a minute that are needed, 0 or more; empty where those or the time are not known
 * @param climb whether up; false for down, and for nothing to do
 */
public record CrossingPlan(
        Instruction.CrossAt said,
        String place,
        Position position,
        int leg,
        OptionalDouble distanceNm,
        OptionalDouble minutes,
        OptionalDouble ftPerNm,
        OptionalDouble ftPerMin,
        boolean climb) {

    /** A place this far off a leg is not on it, nautical miles; common practice, no source. */
    private static final double ON_LEG_NM = 0.1;

    /**
     * The same place on other legs, those of the route in force: on the leg that ends there, or passes it; -1 where
     * none does.
     */
    CrossingPlan onto(List<Leg> legs) {
        int found = -1;
        for (int i = legs.size() - 1; i >= 0; i--) {
            Leg each = legs.get(i);
            boolean ends = said.before().isEmpty()
                    && each.endsAt()
                            .filter(fix -> fix.ident().equals(said.fix().ident()))
                            .isPresent();
            boolean passes = each.endsAt().isPresent()
                    && each.groundPath()
                            .filter(path -> {
                                Offset offset = path.offset(position);
                                return Math.abs(offset.crossTrackNm()) < ON_LEG_NM
                                        && offset.alongTrackNm() > each.joinedAtNm()
                                        && offset.alongTrackNm() < path.lengthNm();
                            })
                            .isPresent();
            found = ends || passes ? i : found;
        }
        return new CrossingPlan(said, place, position, found, distanceNm, minutes, ftPerNm, ftPerMin, climb);
    }
}
