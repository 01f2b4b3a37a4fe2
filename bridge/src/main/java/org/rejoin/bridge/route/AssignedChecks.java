package org.rejoin.bridge.route;

import java.time.LocalTime;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;

import org.rejoin.bridge.clearance.InTurn;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.clearance.Instruction.CrossAt;
import org.rejoin.bridge.clearance.Instruction.Maintain;
import org.rejoin.bridge.clearance.Instruction.MaintainSpeed;
import org.rejoin.bridge.clearance.Noted;
import org.rejoin.bridge.clearance.Phraseology;
import org.rejoin.bridge.geo.StandardAtmosphere;

/** Whether the altitudes of a clearance go together, and whether its speed can be flown. */
final class AssignedChecks {

    /** The speed limit of 14 CFR 91.117 (a), indicated, knots, and the altitude below which it holds, feet. */
    private static final double LIMIT_KT = 250;

    private static final double LIMIT_BELOW_FT = 10_000;

    /** Much faster or slower than it flies now an aircraft of one kind cannot go (common practice, no source). */
    private static final double FASTEST = 1.4;

    private static final double SLOWEST = 0.6;

    private AssignedChecks() {}

    static void check(AmendmentDraft draft) {
        List<InTurn<Maintain>> altitudes = draft.clearance.altitudes();
        OptionalDouble from = draft.situation.altitudeFt();
        for (InTurn<Maintain> each : altitudes) {
            vertical(draft, each.said(), begins(draft, each, from));
            from = OptionalDouble.of(each.said().feet());
        }
        crossings(draft, altitudes);
        if (altitudes.size() < 2) {
            altitudes(draft);
        }
        unfollowed(draft, "altitude", altitudes);
        unfollowed(draft, "speed", draft.clearance.speeds());
        draft.situation.utc().ifPresent(now -> times(draft, now));
        reports(draft);
        draft.clearance.speed().ifPresent(speed -> speed(draft, speed, draft.altitudeFt()));
        OptionalDouble crossed = crossedAtFt(draft);
        draft.clearance
                .all(Noted.CrossSpeed.class)
                .forEach(cross -> speed(draft, new MaintainSpeed(cross.knots(), cross.bound()), crossed));
    }

    /** A speed at a crossing is held at the altitude of the crossing, where one is said. */
    private static OptionalDouble crossedAtFt(AmendmentDraft draft) {
        return draft.clearance
                .first(CrossAt.class)
                .map(cross -> OptionalDouble.of(cross.feet()))
                .orElseGet(draft::altitudeFt);
    }

    /** Where it cannot be told which of two is in force, neither is judged. */
    private static void unfollowed(AmendmentDraft draft, String what, List<? extends InTurn<?>> inTurn) {
        inTurn.stream()
                .flatMap(each -> each.from().stream())
                .filter(when -> !ChangeOvers.isFollowed(when, draft.legs, draft.courseLeg, draft.situation))
                .findFirst()
                .ifPresent(when -> draft.warn(
                        Warning.Code.NOT_FOLLOWED,
                        "the change of %s (%s) cannot be followed on this route: no %s of this clearance is judged",
                        what,
                        when.passed(),
                        what));
    }

    /** "Report KESTO, direct DVR": a report for which the fix is never passed. */
    private static void reports(AmendmentDraft draft) {
        for (Instruction.Report report : draft.clearance.all(Instruction.Report.class)) {
            String words = " " + report.what().toUpperCase(Locale.ROOT).replaceAll("[^\\p{L}0-9]+", " ") + " ";
            draft.filed.points().stream()
                    .filter(point -> words.contains(" " + point.ident() + " ")
                            || words.contains(" " + Phraseology.place(point).toUpperCase(Locale.ROOT) + " "))
                    .filter(point -> RouteEnd.legTo(draft, point) < 0 && !RouteEnd.over(draft, point))
                    .forEach(point -> draft.warn(
                            Warning.Code.REPORT_NOT_ON_ROUTE,
                            "\"report %s\": %s lies behind or is left out on the amended route: ask",
                            report.what(),
                            point.ident()));
        }
    }

    /** Behind a crossing a climb or descent begins at its altitude, where it leaves more than one at the one that suits best. */
    private static OptionalDouble begins(AmendmentDraft draft, InTurn<Maintain> said, OptionalDouble before) {
        return crossedBefore(draft, said)
                .map(crossed -> OptionalDouble.of(crossed.nearestFt(said.said().feet())))
                .orElse(before);
    }

    /** The crossing behind which an altitude is in force. */
    private static Optional<InTurn.Crossed> crossedBefore(AmendmentDraft draft, InTurn<Maintain> said) {
        return draft.clearance.instructions().stream()
                .flatMap(each -> InTurn.crossed(each).stream())
                .filter(crossed -> said.from().equals(Optional.of(crossed.where())))
                .reduce((first, second) -> second);
    }

    private static void vertical(AmendmentDraft draft, Maintain said, OptionalDouble now) {
        if (now.isEmpty()) {
            return;
        }
        double change = said.feet() - now.getAsDouble();
        boolean climbsDown = said.vertical() == Maintain.Vertical.CLIMB && change < -0.5;
        boolean descendsUp = said.vertical() == Maintain.Vertical.DESCEND && change > 0.5;
        if (climbsDown || descendsUp) {
            draft.warn(
                    Warning.Code.ALTITUDES_CONFLICT,
                    "\"%s\" to %s leads %s from %s%.0f ft: ask",
                    climbsDown ? "climb" : "descend",
                    said.figures(),
                    climbsDown ? "down" : "up",
                    now.equals(draft.situation.altitudeFt()) ? "the present " : "",
                    now.getAsDouble());
        }
    }

    /** Of two altitudes the last counts; which of them is meant only ATC can say. */
    private static void altitudes(AmendmentDraft draft) {
        List<Maintain> all = draft.clearance.all(Maintain.class);
        boolean different = all.stream().mapToDouble(Maintain::feet).distinct().count() > 1;
        boolean further = all.size() == 2 && all.get(1).goesOnFrom(all.get(0));
        if (different && !further) {
            draft.warn(
                    Warning.Code.ALTITUDES_CONFLICT,
                    "the clearance assigns %s; the last is taken, %s: ask",
                    all.stream().map(Maintain::figures).distinct().collect(Collectors.joining(" and ")),
                    all.get(all.size() - 1).figures());
        }
    }

    private static void times(AmendmentDraft draft, LocalTime now) {
        for (Instruction each : draft.clearance.instructions()) {
            AmendedRoute.further(each).ifPresent(time -> time(draft, now, time));
        }
    }

    private static void time(AmendmentDraft draft, LocalTime now, String time) {
        long ago = (long) Math.floor(-draft.situation.secondsUntil(time).orElseThrow() / 60);
        if (ago > 0) {
            draft.warn(
                    Warning.Code.TIME_IN_THE_PAST,
                    "%s was %d minutes ago, it is %02d%02d UTC: ask for another time",
                    time,
                    ago,
                    now.getHour(),
                    now.getMinute());
        }
    }

    /** A crossing must lie between the altitude flown and the one assigned: beyond them nobody is cleared. */
    private static void crossings(AmendmentDraft draft, List<InTurn<Maintain>> altitudes) {
        List<CrossAt> crossings = draft.clearance.all(CrossAt.class);
        Optional<InTurn.Crossed> left = altitudes.stream()
                .findFirst()
                .filter(first ->
                        first.said().vertical() != Maintain.Vertical.UNSAID || saidInOrder(draft, first.said()))
                .flatMap(first -> crossedBefore(draft, first));
        for (CrossAt cross : crossings) {
            if (left.isPresent()) {
                // No altitude is assigned before it is crossed.
                left = left.filter(last -> !isOf(cross, last));
                continue;
            }
            altitudes.stream()
                    .reduce((first, second) -> second)
                    .map(InTurn::said)
                    .filter(said -> altitudes.stream()
                            .noneMatch(each -> possible(cross, each.said(), before(draft, cross, each))))
                    .ifPresent(said -> draft.warn(
                            Warning.Code.ALTITUDES_CONFLICT,
                            "\"cross %s %s %s\" and \"maintain %s\" contradict each other: ask",
                            cross.fix().ident(),
                            Phraseology.bound(cross.bound()),
                            cross.figures(),
                            said.figures()));
        }
        for (int i = 0; i < crossings.size(); i++) {
            for (int j = i + 1; j < crossings.size(); j++) {
                CrossAt first = crossings.get(i);
                CrossAt second = crossings.get(j);
                boolean samePlace =
                        first.fix().equals(second.fix()) && first.before().equals(second.before());
                if (samePlace && (low(first) > high(second) || low(second) > high(first))) {
                    draft.warn(
                            Warning.Code.ALTITUDES_CONFLICT,
                            "%s cannot be crossed both %s %s and %s %s: ask",
                            first.fix().ident(),
                            Phraseology.bound(first.bound()),
                            first.figures(),
                            Phraseology.bound(second.bound()),
                            second.figures());
                }
            }
        }
    }

    /** "Then maintain 9000": from wherever one comes to the crossing, the order says what is flown behind it. */
    private static boolean saidInOrder(AmendmentDraft draft, Maintain said) {
        return draft.clearance.all(Noted.After.class).stream()
                .anyMatch(after -> after.then().contains(said));
    }

    /** From where the way to an altitude leads to a crossing; to the one behind which it is in force from here. */
    private static OptionalDouble before(AmendmentDraft draft, CrossAt cross, InTurn<Maintain> said) {
        OptionalDouble now = draft.situation.altitudeFt();
        boolean fromThere =
                crossedBefore(draft, said).filter(last -> isOf(cross, last)).isPresent();
        return fromThere ? now : begins(draft, said, now);
    }

    private static boolean isOf(CrossAt cross, InTurn.Crossed crossed) {
        return InTurn.crossed(cross).filter(crossed::equals).isPresent();
    }

    private static boolean possible(CrossAt cross, Maintain said, OptionalDouble now) {
        double low = said.feet();
        double high = said.feet();
        if (now.isPresent()) {
            low = Math.min(low, now.getAsDouble());
            high = Math.max(high, now.getAsDouble());
        } else if (said.vertical() == Maintain.Vertical.CLIMB) {
            low = Double.NEGATIVE_INFINITY;
        } else if (said.vertical() == Maintain.Vertical.DESCEND) {
            high = Double.POSITIVE_INFINITY;
        }
        return low(cross) <= high + 0.5 && high(cross) >= low - 0.5;
    }

    private static double low(CrossAt cross) {
        return cross.bound() == CrossAt.Bound.AT_OR_BELOW ? Double.NEGATIVE_INFINITY : cross.feet();
    }

    private static double high(CrossAt cross) {
        return cross.bound() == CrossAt.Bound.AT_OR_ABOVE ? Double.POSITIVE_INFINITY : cross.feet();
    }

    private static void speed(AmendmentDraft draft, MaintainSpeed said, OptionalDouble altitude) {
        boolean atLeast = said.bound() != MaintainSpeed.Limit.OR_LESS;
        boolean atMost = said.bound() != MaintainSpeed.Limit.OR_GREATER;
        if (atLeast && said.knots() > LIMIT_KT && altitude.orElse(LIMIT_BELOW_FT) < LIMIT_BELOW_FT) {
            draft.warn(
                    Warning.Code.SPEED_NOT_POSSIBLE,
                    "%.0f knots are assigned; below 10,000 ft the limit is %.0f (14 CFR 91.117)",
                    said.knots(),
                    LIMIT_KT);
        }
        double indicated = draft.situation.trueAirspeedKt()
                * StandardAtmosphere.rootOfDensity(draft.altitudeFt().orElse(0));
        boolean tooFast = atLeast && said.knots() > FASTEST * indicated;
        boolean tooSlow = atMost && said.knots() < SLOWEST * indicated;
        if (tooFast || tooSlow) {
            draft.warn(
                    Warning.Code.SPEED_NOT_POSSIBLE,
                    "%.0f knots are assigned and you fly about %.0f by the indicator: if the aircraft cannot do it, say so",
                    said.knots(),
                    indicated);
        }
        draft.holding
                .filter(hold -> atLeast && said.knots() > hold.maximumSpeedKt())
                .ifPresent(hold -> draft.warn(
                        Warning.Code.SPEED_NOT_POSSIBLE,
                        "%.0f knots are assigned; in the hold at %s the limit is %.0f",
                        said.knots(),
                        hold.fix().ident(),
                        hold.maximumSpeedKt()));
    }
}
