package org.rejoin.bridge.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.clearance.Noted;
import org.rejoin.bridge.clearance.Phraseology;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.MagneticDirection;

/**
 * Works an amended clearance out: from the filed route, the clearance and the situation to the {@link AmendedRoute}.
 *
 * <p>Which shape it is follows from the words: a radial or bearing to intercept ({@link RadialAmendment}), an airway to
 * intercept or join on a heading ({@link AirwayAmendment}), a direct or an airway via fixes, or a bare heading.
 */
public final class RouteAmender {

    /** Farther out nobody is on the heading of a runway any more (common practice, no source), nautical miles. */
    private static final double RUNWAY_NEAR_NM = 10;

    /** A turn by so many degrees and a heading said with it are one this near to each other, degrees (no source). */
    private static final double SAME_HEADING_DEG = 5;

    private RouteAmender() {}

    /**
     * Works out a clearance.
     *
     * @param chart on which everything is found
     * @param filed the route before the amendment
     * @param clearance as read
     * @param situation of the aircraft
     * @return the amended route with its warnings and working
     * @throws ClearanceException if it cannot be worked out at all; the code and the message say why
     */
    public static AmendedRoute amend(Chart chart, FiledRoute filed, Clearance clearance, Situation situation)
            throws ClearanceException {
        followed(clearance);
        runway(chart, clearance, situation);
        OneCourse.check(SaidTogether.asOne(oneHeading(clearance, situation)));
        departure(clearance);
        AirwayPlaces places = AirwayPlaces.of(chart, filed, clearance, situation);
        List<Instruction> instructions =
                SaidTogether.alongToLimit(places.chart(), SaidTogether.asOne(places.instructions()));
        AmendmentDraft draft = drawn(places.chart(), begun(filed, clearance, situation), instructions);
        RouteEnd.work(places.chart(), draft);
        RouteEnd.noteTakenAsFiled(draft);
        leftOut(draft);
        JoinedWithin.check(places.chart(), draft);
        NothingDropped.check(places.chart(), draft);
        TurnToHeading.work(draft);
        TurnsOnto.check(draft);
        CrossingPlans.work(chart, draft);
        return draft.finish(places.chart());
    }

    private static AmendmentDraft begun(FiledRoute filed, Clearance clearance, Situation situation)
            throws ClearanceException {
        AmendmentDraft draft = new AmendmentDraft(filed, clearance, situation);
        draft.heading = assigned(clearance, situation);
        draft.describeHeading();
        if (draft.heading.isPresent()
                && draft.heading.get().ground().groundSpeedKt() < HeadingPlan.LEAST_GROUND_SPEED_KT) {
            throw AmendmentDraft.refused(
                    "on heading %s the wind leaves a ground speed of %.1f kt: the aircraft gets nowhere",
                    Angles.figures(draft.heading.get().magnetic().deg()),
                    draft.heading.get().ground().groundSpeedKt());
        }
        return draft;
    }

    /** The lines of a clearance; a radial leads to what it crosses, or to the hold that is kept on it. */
    private static AmendmentDraft drawn(Chart chart, AmendmentDraft draft, List<Instruction> instructions)
            throws ClearanceException {
        Optional<List<Instruction>> toHold = SaidTogether.followedToHold(instructions);
        if (toHold.isEmpty()) {
            return drawnToLimit(chart, draft, instructions);
        }
        Instruction.Hold hold = draft.clearance.first(Instruction.Hold.class).orElseThrow();
        try {
            lines(chart, draft, instructions);
            // A hold at the crossing that the radial leads to is said by rounded miles.
            if (RouteEnd.leadsTo(draft, hold.fix())) {
                return draft;
            }
        } catch (ClearanceException e) {
            if (e.code() != ClearanceException.Code.RADIAL_DOES_NOT_CROSS_AIRWAY) {
                throw e;
            }
        }
        AmendmentDraft followed = begun(draft.filed, draft.clearance, draft.situation);
        try {
            lines(chart, followed, toHold.get());
        } catch (ClearanceException e) {
            throw RouteEnd.notReached(hold, e);
        }
        if (followed.warnings.stream().anyMatch(each -> each.code() == Warning.Code.CROSSING_BEHIND)
                || RouteChecks.crossedBehindNm(followed).isPresent()) {
            throw RouteEnd.behind(hold);
        }
        return followed;
    }

    /** "Cleared to BBB via the AAA 078 radial", where BBB lies on that radial: it is followed to BBB (7110.65 4-4-1). */
    private static AmendmentDraft drawnToLimit(Chart chart, AmendmentDraft draft, List<Instruction> instructions)
            throws ClearanceException {
        Optional<List<Instruction>> toLimit = SaidTogether.followedToLimit(instructions);
        Optional<ClearanceException> refused = Optional.empty();
        try {
            lines(chart, draft, instructions);
        } catch (ClearanceException e) {
            if (toLimit.isEmpty() || e.code() != ClearanceException.Code.RADIAL_DOES_NOT_CROSS_AIRWAY) {
                throw e;
            }
            refused = Optional.of(e);
        }
        boolean leadsThere = draft.clearance
                .last(Instruction.ClearedTo.class)
                .filter(cleared -> !RouteEnd.leadsTo(draft, cleared.limit()))
                .isEmpty();
        if (toLimit.isEmpty() || (refused.isEmpty() && leadsThere)) {
            return draft;
        }
        AmendmentDraft followed = begun(draft.filed, draft.clearance, draft.situation);
        try {
            lines(chart, followed, toLimit.get());
            return followed;
        } catch (ClearanceException e) {
            // The limit does not lie on the radial.
            if (refused.isPresent()) {
                throw refused.get();
            }
            return draft;
        }
    }

    /** What leads elsewhere later, or beside the route, is not drawn here: better nothing than half of it. */
    private static void followed(Clearance clearance) throws ClearanceException {
        for (Instruction each : clearance.instructions()) {
            if (leadsElsewhere(each)) {
                throw ClearanceException.cannotBeWorkedOut("\"" + Phraseology.say(each)
                        + "\": understood, but the route for it is not worked out here"
                        + beside(each));
            }
            if (each instanceof Noted.Lifted lifted
                    && lifted.what() == Noted.Lifted.Kind.HOLD
                    && clearance.instructions().stream()
                            .noneMatch(said -> said instanceof Instruction.Onward || OneCourse.leads(said))) {
                throw ClearanceException.cannotBeWorkedOut("\"" + Phraseology.say(each)
                        + "\": how the route goes on is not said with it: say \"then as filed\" or \"proceed direct\" and a"
                        + " fix behind it, or \"disregard\" to take the whole clearance back");
            }
            boolean until = each instanceof Noted.HoldUntil || each instanceof Noted.LeaveHold;
            if (until && RouteEnd.goesOn(clearance.instructions(), each)) {
                throw ClearanceException.cannotBeWorkedOut("what follows at "
                        + AmendedRoute.further(each).orElseThrow()
                        + " is not begun by itself: clear the hold until then, and the rest when it is time");
            }
        }
    }

    private static String beside(Instruction said) {
        if (said instanceof Noted.Deviation) {
            return ", and nothing beside the course could be judged: say it outside the exercise, and clear the way back"
                    + " (\"proceed direct\" and a fix, or a heading) when it is flown";
        }
        return said instanceof Noted.Offset ? "" : "; give the second part when the aircraft is there";
    }

    /** "Delete BBB, direct CCC": BBB is in the route, or was misheard; the way that is said does not pass it. */
    private static void leftOut(AmendmentDraft draft) throws ClearanceException {
        List<Waypoint> points = draft.filed.points();
        for (Noted.LeftOut each : draft.clearance.all(Noted.LeftOut.class)) {
            if (!points.contains(each.fix())) {
                throw AmendmentDraft.refused(
                        "\"%s\": %s is not in the filed route, which has %s: ask which fix is meant",
                        each.words(),
                        each.fix().ident(),
                        points.stream().map(Waypoint::ident).collect(Collectors.joining(", ")));
            }
            if (RouteEnd.legTo(draft, each.fix()) >= 0) {
                throw AmendmentDraft.refused(
                        "\"%s\": how the route goes on without it is not said: say \"direct\" and the fix that comes next",
                        each.words());
            }
        }
    }

    /** "Turn left 20 degrees, heading 075": one heading said in two ways, which must agree. */
    private static List<Instruction> oneHeading(Clearance clearance, Situation situation) throws ClearanceException {
        List<Instruction> said = new ArrayList<>(clearance.instructions());
        said.removeIf(Noted.JoinedWithin.class::isInstance);
        for (int i = 0; i + 1 < said.size(); i++) {
            if (!(said.get(i) instanceof Instruction.TurnBy by)
                    || !(said.get(i + 1) instanceof Instruction.FlyHeading fly)
                    || fly.direction() != Instruction.TurnDirection.SHORTEST) {
                continue;
            }
            Optional<MagneticDirection> ends = by.heading(situation.heading());
            if (ends.isEmpty()) {
                continue;
            }
            if (Math.abs(Angles.turn(ends.get().deg() - fly.heading().deg())) > SAME_HEADING_DEG) {
                throw AmendmentDraft.refused(
                        "\"%s\" from here leads to heading %s, not %s: ask which is meant",
                        Phraseology.say(by),
                        Angles.figures(ends.get().deg()),
                        Angles.figures(fly.heading().deg()));
            }
            said.remove(i + 1);
        }
        return said;
    }

    /** A heading from a fix far ahead meets what follows it by the wind and the place of then. */
    private static void departure(Clearance clearance) throws ClearanceException {
        Optional<Instruction.Depart> depart = clearance.first(Instruction.Depart.class);
        if (depart.filter(said -> said.heading().isPresent() && RouteEnd.goesOn(clearance.instructions(), said))
                .isPresent()) {
            throw RouteEnd.noLineFrom(depart.get());
        }
    }

    /** Runway heading is that of a runway (P/CG), and no chart here shows one: near an airport it is the heading flown. */
    private static void runway(Chart chart, Clearance clearance, Situation situation) throws ClearanceException {
        boolean near = chart.airports().stream()
                .anyMatch(airport -> situation.position().distanceNm(airport.position()) <= RUNWAY_NEAR_NM);
        if (clearance.first(Instruction.FlyRunwayHeading.class).isPresent() && !near) {
            throw AmendmentDraft.refused(
                    "\"fly runway heading\": no airport of the chart is within %.0f NM, so no runway is known; say \"fly"
                            + " present heading\", or the heading in three figures",
                    RUNWAY_NEAR_NM);
        }
    }

    private static boolean leadsElsewhere(Instruction said) {
        if (said instanceof Noted.After after) {
            return after.then().stream()
                    .anyMatch(then -> leadsElsewhere(then)
                            || then instanceof Noted.LeftOut
                            || !(then instanceof Instruction.Assignment || then instanceof Instruction.Expect));
        }
        return said instanceof Noted.Offset || said instanceof Noted.Deviation;
    }

    private static void lines(Chart chart, AmendmentDraft draft, List<Instruction> instructions)
            throws ClearanceException {
        Clearance clearance = draft.clearance;
        Optional<Instruction.InterceptRadial> radial = clearance.first(Instruction.InterceptRadial.class);
        Optional<Instruction.InterceptBearing> bearing = clearance.first(Instruction.InterceptBearing.class);
        List<Instruction> lateral = lateral(instructions);
        Optional<Waypoint> leavesFiled = FixAmendment.leavesFiled(chart, draft, instructions);
        if (LineSequence.applies(instructions)) {
            new LineSequence(chart, draft).work(instructions);
        } else if (radial.isPresent()) {
            new RadialAmendment(chart, draft, joinPath(chart, draft.filed, lateral)).radial(radial.get());
        } else if (bearing.isPresent()) {
            new RadialAmendment(chart, draft, joinPath(chart, draft.filed, lateral)).bearing(bearing.get());
        } else if (leavesFiled.isPresent()) {
            FixAmendment.afterFix(chart, draft, leavesFiled.get(), lateral);
        } else if (!lateral.isEmpty() && startsAtFix(lateral.get(0))) {
            FixAmendment.viaFixes(chart, draft, lateral);
        } else if (!lateral.isEmpty()) {
            AirwayAmendment.of(chart, draft, joinPath(chart, draft.filed, lateral))
                    .work();
        } else if (draft.heading.isPresent() && draft.heading.get().origin() == HeadingPlan.Origin.ASSIGNED) {
            HeadingPlan plan = draft.heading.get();
            draft.legs.add(new Leg.HeadingOnly(plan.magnetic(), plan.headingTrue(), Optional.empty()));
            clearance
                    .first(Instruction.Onward.class)
                    .ifPresent(onward -> draft.choice(
                            "%s; the way back to the filed route is not said: ask for a course to intercept or a fix to go"
                                    + " direct to",
                            headingEnds(clearance)
                                    .map(until -> "the heading is to be flown " + until
                                            + ", and here it is flown on from there")
                                    .orElse("the heading is flown until ATC says more")));
        } else {
            FixAmendment.asFiled(draft);
        }
    }

    /** Where the heading ends, in ATC's words; empty where that is not said. */
    private static Optional<String> headingEnds(Clearance clearance) {
        return clearance.all(Noted.Until.class).stream()
                .filter(until -> until.what() == Noted.Until.What.HEADING)
                .map(Noted.Until::words)
                .findFirst();
    }

    /** What leads along the route; "intercept V12 at F" is joined at F. */
    private static List<Instruction> lateral(List<Instruction> instructions) {
        List<Instruction> lateral = new ArrayList<>(
                instructions.stream().filter(Instruction.Onto.class::isInstance).toList());
        boolean joinedAt = lateral.size() > 1
                && lateral.get(0) instanceof Instruction.InterceptAirway intercept
                && lateral.get(1) instanceof Instruction.JoinAirway join
                && join.airway().equals(intercept.airway())
                && join.at().isPresent();
        return joinedAt ? lateral.subList(1, lateral.size()) : lateral;
    }

    private static boolean startsAtFix(Instruction first) {
        return first instanceof Instruction.Direct
                || (first instanceof Instruction.JoinAirway join && join.at().isPresent());
    }

    /**
     * Whether a clearance means something only together with the heading flown now: "fly present heading", "fly runway
     * heading", "turn N degrees left".
     */
    public static boolean needsPresentHeading(Clearance clearance) {
        return clearance.all(Instruction.Heading.class).stream()
                .anyMatch(said -> said.heading(Optional.empty()).isEmpty());
    }

    /** The airway to join; where none is named, any leg of the filed route. */
    private static AirwayPath joinPath(Chart chart, FiledRoute filed, List<Instruction> lateral)
            throws ClearanceException {
        for (int i = 0; i < lateral.size(); i++) {
            List<Instruction> rest = lateral.subList(i + 1, lateral.size());
            if (lateral.get(i) instanceof Instruction.JoinAirway join) {
                return AirwayPath.of(chart, filed, join, rest);
            }
            if (lateral.get(i) instanceof Instruction.InterceptAirway airway) {
                // "Intercept V31, join V31 to F" names one airway twice.
                boolean again = !rest.isEmpty()
                        && rest.get(0) instanceof Instruction.JoinAirway join
                        && join.airway().equals(airway.airway());
                if (!again) {
                    return AirwayPath.of(chart, filed, airway.joined(), rest);
                }
            }
        }
        return AirwayPath.ofFiledRoute(filed);
    }

    private static Optional<HeadingPlan> assigned(Clearance clearance, Situation situation) throws ClearanceException {
        Optional<Instruction.Heading> said = clearance.first(Instruction.Heading.class);
        if (said.isEmpty()) {
            return situation.heading().map(present -> HeadingPlan.of(HeadingPlan.Origin.PRESENT, present, situation));
        }
        MagneticDirection heading = said.get()
                .heading(situation.heading())
                .orElseThrow(() -> ClearanceException.cannotBeWorkedOut("\"" + Phraseology.say(said.get())
                        + "\" needs the heading flown now, and it is not known (give it with --heading)"));
        return Optional.of(HeadingPlan.of(HeadingPlan.Origin.ASSIGNED, heading, situation));
    }
}
