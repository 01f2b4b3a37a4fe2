package org.rejoin.bridge.route;

import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.chart.Airport;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.clearance.Phraseology;
import org.rejoin.bridge.geo.TrueDirection;

/** Where the clearance ends before the filed route does: a fix to depart on a heading, a limit, a hold, a fix not filed. */
final class RouteEnd {

    /** A point said by radial and distance is rounded: this close it is the computed fix, nautical miles (no source). */
    private static final double SAME_NM = 1;

    /** The aircraft is over a fix that is no farther than this, nautical miles (no source). */
    static final double OVER_NM = 0.1;

    private RouteEnd() {}

    static void work(Chart chart, AmendmentDraft draft) throws ClearanceException {
        Optional<Instruction.Depart> depart = draft.clearance.first(Instruction.Depart.class);
        depart = depart.filter(said -> !LineSequence.begins(draft.clearance.instructions(), said));
        if (depart.isPresent()) {
            depart(chart, draft, depart.get());
        }
        draft.clearance.last(Instruction.ClearedTo.class).ifPresent(cleared -> limit(draft, cleared.limit()));
        Optional<Instruction.Hold> hold = draft.clearance.first(Instruction.Hold.class);
        if (hold.isPresent() && !hold.get().once() && depart.isPresent()) {
            throw ClearanceException.cannotBeWorkedOut("the clearance ends in the hold at "
                    + hold.get().fix().ident() + ", and " + depart.get().fix().ident()
                    + " is departed besides: say the one, and the other when it is to begin");
        }
        if (hold.isPresent()) {
            hold(chart, draft, hold.get());
        }
        open(draft);
    }

    /** A route to a fix that was not filed ends there, unless more is said. */
    private static void open(AmendmentDraft draft) {
        draft.openEnd = draft.legs
                .get(draft.legs.size() - 1)
                .endsAt()
                .filter(end -> draft.limit.isEmpty() && !end.equals(draft.filed.destination()));
        draft.openEnd.ifPresent(end -> draft.warn(
                Warning.Code.ROUTE_ENDS_SHORT,
                "the clearance does not say how the route goes on from %s: ask before you reach it",
                end.ident()));
    }

    /**
     * Whether nothing is said of how the route goes on from the last line: no airway, fix, "as filed", limit or hold, but at
     * the line's own station.
     */
    static boolean saysNothingAfter(Instruction.StationLine line, List<Instruction> all) {
        return line.until().isEmpty()
                && all.stream()
                        .noneMatch(each -> each instanceof Instruction.Onto
                                || each instanceof Instruction.Onward
                                || each instanceof Instruction.Depart
                                || (each instanceof Instruction.StationLine other && !other.equals(line))
                                || (each instanceof Instruction.ClearedTo cleared
                                        && !cleared.limit().equals(line.station()))
                                || (each instanceof Instruction.Hold hold
                                        && !hold.fix().equals(line.station())));
    }

    /** "Intercept the AAA 250 radial" and no more, where it leads to the filed route: that is taken, and said. */
    static void noteTakenAsFiled(AmendmentDraft draft) {
        List<Instruction> all = draft.clearance.instructions();
        draft.clearance
                .first(Instruction.StationLine.class)
                .filter(line -> draft.resumesAt >= 0 && saysNothingAfter(line, all))
                .ifPresent(line -> draft.notes.add("nothing is said after \"" + Phraseology.say(line)
                        + "\": the filed route is taken from where it leads to it; ask if that is not meant"));
    }

    /** The leg that ends at a fix; -1 if none does. */
    static int legTo(AmendmentDraft draft, Waypoint fix) {
        return legTo(draft.legs, fix);
    }

    /** The same of any legs. */
    static int legTo(List<Leg> legs, Waypoint fix) {
        for (int i = 0; i < legs.size(); i++) {
            if (legs.get(i).endsAt(fix)) {
                return i;
            }
        }
        for (int i = 0; i < legs.size(); i++) {
            if (legs.get(i).endsAt().filter(at -> same(at, fix)).isPresent()) {
                return i;
            }
        }
        return -1;
    }

    /** Whether two are one place, also where it was worked out twice. */
    static boolean same(Waypoint at, Waypoint fix) {
        return at.ident().equals(fix.ident()) && at.position().distanceNm(fix.position()) < SAME_NM;
    }

    /** Whether a hold can begin at a fix as the route is drawn. */
    static boolean leadsTo(AmendmentDraft draft, Waypoint fix) {
        return legTo(draft, fix) >= 0 || over(draft, fix);
    }

    /** A hold on the radial that is flown before it, on the part of it that is not flown. */
    static ClearanceException behind(Instruction.Hold said) {
        return ClearanceException.cannotBeWorkedOut(said.fix().ident()
                + ", where to hold, lies behind where its radial is met: say \"inbound\" with the radial, or "
                + straightTo(said));
    }

    /** The same, where the way along the radial cannot be drawn at all. */
    static ClearanceException notReached(Instruction.Hold said, ClearanceException why) {
        return ClearanceException.cannotBeWorkedOut(said.fix().ident() + ", where to hold, is not reached so: "
                + why.getMessage() + "; say for example " + straightTo(said));
    }

    /** A clearance that leads to a hold from anywhere. */
    private static String straightTo(Instruction.Hold said) {
        return "in place of the way there \"direct " + said.fix().ident() + ", " + Phraseology.say(said) + "\"";
    }

    static boolean over(AmendmentDraft draft, Waypoint fix) {
        return draft.situation.position().distanceNm(fix.position()) < OVER_NM;
    }

    private static void depart(Chart chart, AmendmentDraft draft, Instruction.Depart said) throws ClearanceException {
        int leg = legTo(draft, said.fix());
        if (leg < 0 && !over(draft, said.fix())) {
            throw notOnRoute(said);
        }
        draft.endAfter(leg);
        if (said.heading().isPresent()) {
            TrueDirection headingTrue = said.heading()
                    .get()
                    .toTrue(draft.situation.variationAt(said.fix().position()));
            draft.legs.add(new Leg.HeadingOnly(said.heading().get(), headingTrue, Optional.of(said.fix())));
        } else {
            FlownLine line = FlownLine.of(said.line().orElseThrow(), chart, draft);
            draft.legs.add(line.<Leg>meet(
                    radial -> new Leg.CourseFrom(radial.station(), radial.radial(), radial.outbound()), arc -> {
                        throw noLineFrom(said);
                    }));
        }
    }

    static ClearanceException notOnRoute(Instruction.Depart said) {
        return ClearanceException.cannotBeWorkedOut(
                said.fix().ident() + " is not on the amended route, so it cannot be departed: say"
                        + " for example \"direct " + said.fix().ident() + ", depart ...\"");
    }

    static ClearanceException noLineFrom(Instruction.Depart said) {
        return ClearanceException.cannotBeWorkedOut(
                "no line leads from the " + (said.line().isPresent() ? "radial" : "heading") + " on which "
                        + said.fix().ident()
                        + " is departed to what is said after it: understood, but not flown by itself; give the second"
                        + " part when the aircraft is there");
    }

    /** Whether a way on is said after an instruction. */
    static boolean goesOn(List<Instruction> all, Instruction said) {
        return all.subList(all.indexOf(said) + 1, all.size()).stream()
                .anyMatch(each -> each instanceof Instruction.Onward || OneCourse.leads(each));
    }

    /** Whether an airway leads to a fix from the other side than as filed. */
    private static boolean isAgainst(FiledRoute filed, Leg.TrackToFix leg) {
        return leg.airway().isPresent()
                && filed.segments().stream()
                        .filter(segment -> segment.airway().equals(leg.airway()))
                        .filter(segment -> segment.to().equals(leg.to()))
                        .anyMatch(segment -> Math.abs(segment.from()
                                        .position()
                                        .to(leg.to().position())
                                        .onward()
                                        .turnTo(leg.path().courseAt(leg.path().lengthNm())))
                                > Intercepts.STEEP_DEG);
    }

    private static void limit(AmendmentDraft draft, Waypoint limit) {
        int leg = legTo(draft, limit);
        if (leg >= 0 && leg < draft.legs.size() - 1) {
            draft.endAfter(leg);
        } else if (leg < 0 && over(draft, limit)) {
            draft.limit = Optional.of(limit);
            return;
        } else if (leg < 0) {
            draft.choice(
                    "the clearance limit %s is not on the amended route: ask how you are to get there", limit.ident());
        }
        if (leg >= 0 && draft.legs.get(leg) instanceof Leg.TrackToFix back && isAgainst(draft.filed, back)) {
            draft.choice(
                    "%s is met beyond %s, the clearance limit, and flown back to it: ask if that is meant",
                    back.airway().orElseThrow(), limit.ident());
        }
        if (limit.equals(draft.filed.destination()) && limit instanceof Airport) {
            draft.notes.add("the clearance limit, " + limit.ident()
                    + ", is the end of the filed route: nothing of it is cut off");
            return;
        }
        // Over a fix nobody lands: also where the filed route ends there, the aircraft waits for more.
        draft.limit = Optional.of(limit);
    }

    private static void hold(Chart chart, AmendmentDraft draft, Instruction.Hold said) throws ClearanceException {
        int leg = legTo(draft, said.fix());
        if (leg < 0 && !over(draft, said.fix())) {
            throw ClearanceException.cannotBeWorkedOut(said.fix().ident()
                    + (draft.filed.points().contains(said.fix())
                            ? ", where to hold, is filed, and this way there joins the route beyond it: say how to get"
                                    + " there, for example "
                            : ", where to hold, is not on the amended route: say how to get there, for example ")
                    + straightTo(said));
        }
        Waypoint fix = leg < 0 ? said.fix() : draft.legs.get(leg).endsAt().orElseThrow();
        if (said.once()) {
            requireWayOn(draft, leg, fix);
        } else {
            draft.endAfter(leg);
        }
        TrueDirection arrival = leg < 0
                ? draft.heading
                        .map(plan -> plan.ground().track())
                        .or(() -> draft.situation.heading().map(heading -> heading.toTrue(draft.situation.variation())))
                        .orElseThrow(() -> ClearanceException.cannotBeWorkedOut("the aircraft is over " + fix.ident()
                                + " already: how to enter the hold depends on its heading, and that is not known"))
                : arrivalTrack(draft.legs.get(leg));
        Holding holding = new HoldPlan(chart, draft, said, fix, arrival).work();
        draft.holding = Optional.of(holding);
        if (said.once()) {
            draft.insert(leg + 1, new Leg.HoldAtFix(holding));
        } else {
            draft.limit = draft.limit.or(() -> Optional.of(fix));
            draft.legs.add(new Leg.HoldAtFix(holding));
            asFiledAfter(draft, said);
        }
        double altitude = draft.altitudeFt().orElse(Double.NaN);
        chart.holds(fix).stream()
                .filter(each -> holding.published()
                        && each.minimumAltitudeFt().isPresent()
                        && altitude < each.minimumAltitudeFt().getAsDouble() - 0.5)
                .findFirst()
                .ifPresent(each -> draft.warn(
                        Warning.Code.BELOW_MINIMUM_ALTITUDE,
                        "the hold at %s is flown %s; its minimum altitude is %.0f ft",
                        fix.ident(),
                        draft.atAltitude(),
                        each.minimumAltitudeFt().getAsDouble()));
    }

    /** "Hold ..., then as filed" says how it goes on when ATC clears the aircraft out of the hold. */
    private static void asFiledAfter(AmendmentDraft draft, Instruction.Hold hold) throws ClearanceException {
        List<Instruction> all = draft.clearance.instructions();
        Optional<Instruction.Onward> onward = all.subList(all.indexOf(hold), all.size()).stream()
                .filter(Instruction.Onward.class::isInstance)
                .map(Instruction.Onward.class::cast)
                .findFirst();
        if (onward.isEmpty()) {
            return;
        }
        String said = "\"" + Phraseology.say(onward.get()) + "\"";
        if (!draft.filed.points().contains(hold.fix())) {
            throw OnwardRoute.notFiled(hold.fix(), onward.get());
        }
        draft.notes.add(said + ": how the route goes on from the hold at "
                + hold.fix().ident() + "; it begins when ATC clears you out of the hold");
    }

    /** One circuit leads on along the route: a clearance that ends there is held until ATC says more. */
    private static void requireWayOn(AmendmentDraft draft, int leg, Waypoint fix) throws ClearanceException {
        if (leg + 1 >= draft.legs.size()) {
            throw ClearanceException.cannotBeWorkedOut(
                    "the route ends at " + fix.ident()
                            + ", so one circuit of the hold leads nowhere: say how it goes on, or hold until further clearance");
        }
    }

    static TrueDirection arrivalTrack(Leg leg) {
        return leg.groundPath().orElseThrow().finalCourse();
    }
}
