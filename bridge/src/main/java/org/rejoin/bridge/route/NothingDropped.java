package org.rejoin.bridge.route;

import java.util.Optional;
import java.util.stream.Stream;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.clearance.Phraseology;

/** What leads along the route, and is said, must be found in the route: else the clearance is refused, whatever its shape. */
record NothingDropped(Chart chart, AmendmentDraft draft) {

    /**
     * Checks a route that is worked out.
     *
     * @throws ClearanceException if something said has no part in it
     */
    static void check(Chart chart, AmendmentDraft draft) throws ClearanceException {
        NothingDropped check = new NothingDropped(chart, draft);
        for (Instruction each : draft.clearance.instructions()) {
            if (!check.isFlown(each)) {
                throw ClearanceException.cannotBeWorkedOut("\"" + Phraseology.say(each)
                        + "\" is said, and " + check.endsBefore()
                        + ": say the clearance without one of the two, or the rest of it when it is to begin");
            }
        }
        check.asFiled();
    }

    private boolean isFlown(Instruction said) {
        if (said instanceof Instruction.Depart depart) {
            return depart.asSaidNext() || draft.legs.stream().anyMatch(leg -> leg.beginsAt(depart.fix()));
        }
        return !(said instanceof Instruction.Onto onto)
                || onto.onto(
                        intercept -> along(intercept.airway()),
                        join -> along(join.airway())
                                && Stream.of(join.at().filter(at -> join.away().isEmpty()), join.to())
                                        .flatMap(Optional::stream)
                                        .allMatch(this::over),
                        direct -> over(direct.away()
                                .<Waypoint>map(away -> RadialDistance.beside(direct.to(), away, draft.situation))
                                .orElse(direct.to())));
    }

    /** "Resume own navigation, direct BBB" ends the vectors, and says nothing of what follows BBB. */
    private void asFiled() throws ClearanceException {
        Optional<Instruction.Onward> last = Optional.empty();
        for (Instruction each : draft.clearance.instructions()) {
            if (each instanceof Instruction.Onward onward) {
                last = Optional.of(onward);
            } else if (each instanceof Instruction.Onto) {
                last = Optional.empty();
            }
        }
        Optional<Waypoint> end = draft.legs
                .get(draft.legs.size() - 1)
                .endsAt()
                .filter(at -> draft.limit.isEmpty() && !draft.filed.points().contains(at));
        if (last.isPresent() && end.isPresent()) {
            throw OnwardRoute.notFiled(end.get(), last.get());
        }
    }

    private String endsBefore() {
        return draft.limit
                .map(limit -> "the clearance ends at " + limit.ident() + " before it comes to that")
                .orElse("the rest of the clearance does not lead there");
    }

    /** Flown, or joined where it ends: inbound to a station that is its last fix. */
    private boolean along(String airway) {
        return draft.legs.stream().anyMatch(leg -> leg.isOn(airway))
                || draft.course.stream()
                        .anyMatch(course ->
                                chart.airways(airway).stream().anyMatch(each -> each.passes(course.station())));
    }

    /** Passed, or begun at. */
    private boolean over(Waypoint fix) {
        return RouteEnd.legTo(draft, fix) >= 0
                || RouteEnd.over(draft, fix)
                || draft.legs.stream().anyMatch(leg -> leg.beginsAt(fix));
    }
}
