package org.rejoin.console.grade;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;

import org.rejoin.bridge.clearance.Noted;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.CrossingPlan;

/** The altitudes at the places where one is to be had. */
final class CrossingMeasures {

    /** Off by more than this is a fault, whatever the set allows, feet. */
    static final double FAULT_FT =
            Rules.STANDARD.of(Rule.AltitudeAtCrossing.class).limitFt();

    /** So far off he is at the altitude of somebody else, feet: vertical separation, FAA Order JO 7110.65, 4-5-1 (from memory). */
    private static final double SEPARATION_FT = 1000;

    private final List<String> wanted = new ArrayList<>();
    private final List<FlightEvent.Crossing> crossed = new ArrayList<>();

    void wanted(AmendedRoute route) {
        if (!route.clearance().all(Noted.Lifted.class).isEmpty()) {
            wanted.retainAll(route.crossings().stream().map(CrossingPlan::place).toList());
        }
        route.crossings().stream()
                .filter(plan -> plan.leg() >= 0)
                .map(CrossingPlan::place)
                .filter(place -> !wanted.contains(place))
                .forEach(wanted::add);
    }

    void event(FlightEvent event) {
        if (event instanceof FlightEvent.Crossing at) {
            crossed.add(at);
        }
    }

    /** Half of it from the limit to twice as much, the other half to where the next aircraft may be. */
    static double severity(double offFt) {
        double beyond = Math.max(0, offFt - 2 * FAULT_FT) / (SEPARATION_FT - 2 * FAULT_FT);
        return (Fault.severity(offFt, FAULT_FT) + Math.min(1, beyond)) / 2;
    }

    /**
     * What can be graded of them.
     *
     * @param notes takes what is not judged because it was not due
     * @param over whether nothing more can come
     * @param allPassed whether every place was passed, seen or not
     * @param altitudeSeen whether the feed carries an altitude
     */
    void grade(
            List<Criterion> criteria,
            List<String> notes,
            boolean over,
            boolean allPassed,
            boolean altitudeSeen,
            double limitFt,
            Span span) {
        String source = "100 ft (FAA-S-ACS-8C, IR.V.B.S7)";
        if (!crossed.isEmpty()) {
            FlightEvent.Crossing worst =
                    Collections.max(crossed, Comparator.comparingDouble(at -> Math.abs(at.errorFt())));
            Span passed = Span.of(
                    crossed.get(0).timeS(), crossed.get(crossed.size() - 1).timeS());
            criteria.add(new Criterion.Asked(Criterion.Kind.CROSSING, limitFt, passed, source)
                    .measured(Math.abs(worst.errorFt()))
                    .at(worst.timeS()));
        }
        for (String place : wanted) {
            if (!over || crossed.stream().anyMatch(at -> at.ident().equals(place))) {
                continue;
            }
            boolean noAltitude = !altitudeSeen && crossed.isEmpty();
            String why = noAltitude
                    ? "the feed carries no altitude"
                    : "the altitude at " + place + " is not judged: it was not seen to be passed";
            if (!noAltitude) {
                notes.add(why);
            }
            boolean seenOff = crossed.stream().anyMatch(at -> Math.abs(at.errorFt()) > limitFt);
            if (noAltitude || (allPassed && !seenOff)) {
                criteria.removeIf(criterion -> criterion.kind() == Criterion.Kind.CROSSING);
                criteria.add(new Criterion.Asked(Criterion.Kind.CROSSING, limitFt, span, source).notJudged(why));
            }
        }
    }
}
