package org.rejoin.bridge.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import java.util.stream.Stream;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.clearance.Noted;
import org.rejoin.bridge.geo.MagneticDirection;

/**
 * The route after the amendment, worked out.
 *
 * @param clearance it follows from
 * @param filed the route before
 * @param situation of the aircraft when the clearance was heard; its time of day is that of the words in force
 * @param heading that is to meet the course; empty when the clearance needs none
 * @param course of the radial to intercept; empty when none was cleared
 * @param intercept where heading and course meet; empty when they do not
 * @param computedFix where the radial meets the airway; empty when the fix is published or there is none
 * @param legs in the order flown, one or more
 * @param courseLeg index in {@code legs} of the course to intercept (or of the first leg with a line); -1 if none
 * @param joinLegs indices in {@code legs} that are on the airway to join; empty when none was named
 * @param resumesAt index in {@code legs} of the first leg of the filed route; -1 if the amendment never goes back to it
 * @param skipped points of the filed route no longer flown
 * @param warnings in order of weight to the flight
 * @param headingsThatMeet what would meet the course at a sensible angle, where the heading does not; else empty
 * @param working step by step
 * @param turn that begins it, where the present heading is known; empty where it is not, or no heading begins it
 * @param crossings altitudes to have at places of the route, in the order said
 * @param holding the hold it ends in, or that is flown once on its way; empty where there is none
 * @param limit where the clearance ends short of the filed destination; empty where it does not
 * @param notes what was taken for granted in working it out, one sentence each
 * @param openEnd the fix at which the cleared route ends, and from where it has to be asked for; empty where it leads to the end
 *     of the filed route, to a limit or into a hold, and where its last leg leads to no fix
 */
public record AmendedRoute(
        Clearance clearance,
        FiledRoute filed,
        Situation situation,
        Optional<HeadingPlan> heading,
        Optional<Course> course,
        Optional<Intercept> intercept,
        Optional<ComputedFix> computedFix,
        List<Leg> legs,
        int courseLeg,
        List<Integer> joinLegs,
        int resumesAt,
        List<Waypoint> skipped,
        List<Warning> warnings,
        List<HeadingRange> headingsThatMeet,
        List<WorkingStep> working,
        Optional<TurnToHeading> turn,
        List<CrossingPlan> crossings,
        Optional<Holding> holding,
        Optional<Waypoint> limit,
        List<String> notes,
        Optional<Waypoint> openEnd) {

    /** One line of the working. */
    public record WorkingStep(String what, String formula, String values) {}

    public AmendedRoute {
        legs = List.copyOf(legs);
        joinLegs = List.copyOf(joinLegs);
        skipped = List.copyOf(skipped);
        warnings = List.copyOf(warnings);
        headingsThatMeet = List.copyOf(headingsThatMeet);
        working = List.copyOf(working);
        crossings = List.copyOf(crossings);
        notes = List.copyOf(notes);
    }

    /** The same route under a further clearance, which leaves it as it is; its words and warnings count from now on. */
    public AmendedRoute keptUnder(AmendedRoute further) {
        List<CrossingPlan> here = new ArrayList<>();
        further.crossings.forEach(plan -> here.add(plan.onto(legs)));
        List<Noted.Lifted> lifted = further.clearance.all(Noted.Lifted.class);
        for (CrossingPlan before : crossings) {
            boolean holds =
                    lifted.stream().noneMatch(each -> each.lifts(before.said().fix()));
            if (holds && here.stream().noneMatch(plan -> plan.place().equals(before.place()))) {
                here.add(before);
            }
        }
        boolean all = here.stream().allMatch(plan -> plan.leg() >= 0);
        // Which route it was worked out along is no choice any more: it is this one.
        List<Warning> said = further.warnings.stream()
                .filter(warning -> warning.code() != Warning.Code.CHOICE_MADE)
                .filter(warning -> !all || warning.code() != Warning.Code.CROSSING_NOT_ON_ROUTE)
                .toList();
        return new AmendedRoute(
                further.clearance,
                filed,
                situation.withUtc(further.situation.utc()),
                heading,
                course,
                intercept,
                computedFix,
                legs,
                courseLeg,
                joinLegs,
                resumesAt,
                skipped,
                said,
                headingsThatMeet,
                working,
                turn,
                here,
                holding,
                limit,
                further.notes,
                openEnd);
    }

    /** {@return whether a warning of this code was given} */
    public boolean warnsOf(Warning.Code code) {
        return warnings.stream().anyMatch(warning -> warning.code() == code);
    }

    /** {@return the heading ATC assigned; empty when none was assigned} */
    public Optional<HeadingPlan> assignedHeading() {
        return heading.filter(plan -> plan.origin() == HeadingPlan.Origin.ASSIGNED);
    }

    /** {@return which way ATC ordered the turn onto the assigned heading, or to the fix that it leads direct to} */
    public Instruction.TurnDirection orderedTurn() {
        if (assignedHeading().isPresent()) {
            return clearance
                    .first(Instruction.Heading.class)
                    .map(Instruction.Heading::direction)
                    .orElse(Instruction.TurnDirection.SHORTEST);
        }
        return !legs.isEmpty() && legs.get(0) instanceof Leg.DirectToFix direct
                ? TurnToHeading.said(clearance, direct)
                : Instruction.TurnDirection.SHORTEST;
    }

    /** {@return which way ATC ordered the turn onto the heading on which a fix is departed} */
    public Instruction.TurnDirection orderedTurnAtDeparture() {
        return departHeading()
                .flatMap(heading -> clearance.first(Instruction.Depart.class))
                .map(Instruction.Depart::turn)
                .orElse(Instruction.TurnDirection.SHORTEST);
    }

    /** {@return the leg that is flown first along a line; empty where the route has none, as on a heading alone} */
    public Optional<Leg> firstLine() {
        return courseLeg < 0 ? Optional.empty() : Optional.of(legs.get(courseLeg));
    }

    /**
     * {@return the course of the leg that is flown first along a line; empty where none was cleared, and where the route
     * leads to its line first: direct, or as filed to its station}
     */
    public Optional<Course> firstCourse() {
        return course.filter(set -> {
            Leg first = legs.get(Math.max(courseLeg, 0));
            boolean toStation = first.endsAt(set.station());
            return !(first instanceof Leg.DirectToFix) && !(toStation && set.direction() == Course.Direction.FROM);
        });
    }

    /**
     * The course by which the line flown first is tracked with the needle: the one that was cleared, or on an airway the radial
     * of the station at an end of its leg, of the nearer one where there are two.
     *
     * @return empty where no station gives it
     */
    public Optional<Course> trackedCourse() {
        if (course.isPresent() || courseLeg < 0) {
            return firstCourse();
        }
        return legs.get(courseLeg) instanceof Leg.TrackToFix track
                        && track.airway().isPresent()
                ? Course.along(track)
                : Optional.empty();
    }

    /**
     * {@return that course in words: "the AAA 078 radial", or "V40, the AAA 078 radial", or "V40" of an airway that no station
     * gives; empty text where there is none}
     */
    public String trackedCourseName() {
        Optional<String> airway = course.isPresent() ? Optional.empty() : joinedAirway();
        Optional<String> radial = trackedCourse().map(set -> "the " + set.name());
        return Stream.concat(airway.stream(), radial.stream()).collect(Collectors.joining(", "));
    }

    /**
     * {@return the heading on which a fix is departed, where the route ends so; by the compass; empty where it ends
     * otherwise}
     */
    public Optional<MagneticDirection> departHeading() {
        return legs.isEmpty()
                ? Optional.empty()
                : Optional.of(legs.get(legs.size() - 1))
                        .filter(Leg.HeadingOnly.class::isInstance)
                        .map(Leg.HeadingOnly.class::cast)
                        .filter(leg -> leg.after().isPresent())
                        .map(Leg.HeadingOnly::heading);
    }

    /** Whether a fix is departed on a heading, and a leg is the one that ends there. */
    public boolean turnsOntoHeadingAfter(int leg) {
        return leg + 2 == legs.size() && departHeading().isPresent();
    }

    /** {@return whether a fix is departed on a radial, as the last of the route; false where it ends otherwise} */
    public boolean departsOnRadial() {
        return !legs.isEmpty() && legs.get(legs.size() - 1) instanceof Leg.CourseFrom;
    }

    /** The leg that is the hold; index in {@link #legs}; -1 where there is none. */
    public int holdLeg() {
        for (int i = 0; i < legs.size(); i++) {
            if (legs.get(i) instanceof Leg.HoldAtFix) {
                return i;
            }
        }
        return -1;
    }

    /**
     * {@return whether the route ends in a hold, which is left by the next clearance; false too where it is held once on the
     * way}
     */
    public boolean endsInHold() {
        return holding.filter(hold -> !hold.once()).isPresent();
    }

    /**
     * The computed fix, where the route turns onto the airway there: a hold or a limit at it is no turn; empty too
     * where there is no computed fix.
     */
    public Optional<ComputedFix> turnAtComputedFix() {
        for (int i = 0; i + 1 < legs.size(); i++) {
            Optional<Waypoint> end = legs.get(i).endsAt();
            if (end.filter(at -> computedFix.filter(fix -> fix.fix().equals(at)).isPresent())
                            .isPresent()
                    && !(legs.get(i + 1) instanceof Leg.HoldAtFix)) {
                return computedFix;
            }
        }
        return Optional.empty();
    }

    /**
     * {@return how long it is until the time at which further clearance is expected, or until which to hold, from when the
     * words in force were heard; where none is said, until the approach is to be expected; seconds, negative where that is
     * past; empty where no time is said, or the time of day is not known}
     */
    public OptionalDouble furtherClearanceS() {
        List<Instruction> times = clearance.instructions().stream()
                .filter(said -> said instanceof Noted.HoldIn || further(said).isPresent())
                .toList();
        return times.stream()
                .filter(said -> !isOfTheApproach(said))
                .reduce((first, last) -> last)
                .or(() -> times.stream().reduce((first, last) -> last))
                .map(said -> said instanceof Noted.HoldIn in
                        ? OptionalDouble.of(in.minutes() * 60.0)
                        : situation.secondsUntil(further(said).orElseThrow()))
                .orElse(OptionalDouble.empty());
    }

    private static boolean isOfTheApproach(Instruction said) {
        return said instanceof Noted noted && noted.approach().isPresent();
    }

    /** The time that an instruction names for it. */
    static Optional<String> further(Instruction said) {
        if (said instanceof Instruction.Hold hold) {
            return hold.expectFurtherClearance();
        }
        return said instanceof Noted.HoldTime at ? Optional.of(at.time()) : Optional.empty();
    }

    /** {@return the way direct to a fix that is flown first; empty where the first course is another} */
    public Optional<Leg.DirectToFix> direct() {
        return firstLine().filter(Leg.DirectToFix.class::isInstance).map(Leg.DirectToFix.class::cast);
    }

    /**
     * {@return the filed leg that leads to the fix which is flown to direct, where how to come back to the filed route was left
     * to the pilot: he may as well join it on that leg; empty where the way was said}
     */
    public Optional<Leg.TrackToFix> filedLegInstead() {
        boolean said = resumesAt != courseLeg
                || clearance.first(Instruction.Direct.class).isPresent();
        return direct().filter(direct -> !said)
                .flatMap(direct -> filed.segments().stream()
                        .filter(segment -> segment.to().equals(direct.to()))
                        .map(Leg.TrackToFix::along)
                        .reduce((before, last) -> last));
    }

    /** {@return the arcs about a DME; in the order flown} */
    public List<Leg.DmeArc> arcs() {
        return legs.stream()
                .filter(Leg.DmeArc.class::isInstance)
                .map(Leg.DmeArc.class::cast)
                .toList();
    }

    /** {@return the airway to join; ident; empty when none was named} */
    public Optional<String> joinedAirway() {
        return joinLegs.isEmpty() ? Optional.empty() : legs.get(joinLegs.get(0)).airway();
    }
}
