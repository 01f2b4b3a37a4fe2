package org.rejoin.bridge.route;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;

import org.rejoin.bridge.geo.Crossing;

/**
 * The heading that is proposed where ATC assigned none: in whole fives, as a controller would say it, and chosen by the
 * angle at which it meets the course after that rounding.
 */
record ProposedHeading(HeadingPlan plan, Crossing met) {

    /** As near to a wanted angle as headings in fives allow, degrees. */
    private static final double NEAR_DEG = 5;

    /** Angles of everyday intercepts, a heading in fives round 45 degrees included (common practice, no source). */
    private static final double USUAL_FROM_DEG = 30;

    private static final double USUAL_TO_DEG = 47.5;

    /** Rather than a right angle, degrees (common practice, no source). */
    private static final double BRISK_DEG = 60;

    /**
     * The heading that meets the course soonest at 30 to 45 degrees; where none does, at 20 to 60, then at up to 90; and
     * only where the course cannot be met so, at the angle least outside.
     *
     * @param meets where a heading meets the course in a place where it may still be joined
     */
    static Optional<HeadingPlan> soonest(Situation situation, Function<HeadingPlan, Optional<Crossing>> meets) {
        List<ProposedHeading> all = thatMeet(situation, meets);
        return soonest(all)
                .or(() -> all.stream()
                        .min(Comparator.comparingDouble(ProposedHeading::outsideDeg))
                        .map(ProposedHeading::plan));
    }

    /** The heading that meets the course as nearly as may be at an angle; else the soonest; never at under 20 or over 90 degrees. */
    static Optional<HeadingPlan> at(
            double angleDeg, Situation situation, Function<HeadingPlan, Optional<Crossing>> meets) {
        List<ProposedHeading> all = thatMeet(situation, meets);
        return all.stream()
                .filter(each -> !each.isOnCourse() && each.isAt(Intercepts.SHALLOW_DEG, Intercepts.STEEP_DEG))
                .filter(each -> Math.abs(each.angleDeg() - angleDeg) < NEAR_DEG)
                .min(Comparator.comparingDouble(each -> Math.abs(each.angleDeg() - angleDeg)))
                .map(ProposedHeading::plan)
                .or(() -> soonest(all));
    }

    private static List<ProposedHeading> thatMeet(
            Situation situation, Function<HeadingPlan, Optional<Crossing>> meets) {
        return HeadingRange.inFives()
                .map(heading -> HeadingPlan.of(HeadingPlan.Origin.PROPOSED, heading, situation))
                .filter(plan -> plan.ground().groundSpeedKt() >= HeadingPlan.LEAST_GROUND_SPEED_KT)
                .flatMap(plan -> meets.apply(plan).map(met -> new ProposedHeading(plan, met)).stream())
                .toList();
    }

    private static Optional<HeadingPlan> soonest(List<ProposedHeading> all) {
        return Stream.<Optional<ProposedHeading>>of(
                        all.stream()
                                .filter(ProposedHeading::isOnCourse)
                                .min(Comparator.comparingDouble(ProposedHeading::angleDeg)),
                        soonest(all, USUAL_FROM_DEG, USUAL_TO_DEG),
                        soonest(all, Intercepts.SHALLOW_DEG, BRISK_DEG),
                        soonest(all, Intercepts.SHALLOW_DEG, Intercepts.STEEP_DEG))
                .flatMap(Optional::stream)
                .findFirst()
                .map(ProposedHeading::plan);
    }

    private static Optional<ProposedHeading> soonest(List<ProposedHeading> all, double fromDeg, double toDeg) {
        return all.stream()
                .filter(each -> each.isAt(fromDeg, toDeg))
                .min(Comparator.comparingDouble(
                        each -> each.met.alongFirstNm() / each.plan.ground().groundSpeedKt()));
    }

    /** Who is on the course already turns onto it here. */
    private boolean isOnCourse() {
        return met.alongFirstNm() <= 0;
    }

    private double angleDeg() {
        return Math.abs(met.turnDeg());
    }

    private boolean isAt(double fromDeg, double toDeg) {
        return angleDeg() >= fromDeg && angleDeg() <= toDeg;
    }

    private double outsideDeg() {
        return Math.max(Intercepts.SHALLOW_DEG - angleDeg(), angleDeg() - Intercepts.STEEP_DEG);
    }
}
