package org.rejoin.bridge.route;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;

import org.rejoin.bridge.chart.Airport;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.InTurn;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.clearance.Phraseology;
import org.rejoin.bridge.geo.Angles;

/** What is being written while a clearance is worked out; becomes the immutable route at the end. */
final class AmendmentDraft {
    /** A leg joined this close to its start passes its first fix, nautical miles (common practice, no source). */
    private static final double PASSED_NM = 0.1;

    final FiledRoute filed;
    final Clearance clearance;
    final Situation situation;
    final List<Leg> legs = new ArrayList<>();
    final List<Warning> warnings = new ArrayList<>();
    final List<AmendedRoute.WorkingStep> working = new ArrayList<>();
    final List<Integer> joinLegs = new ArrayList<>();
    Optional<HeadingPlan> heading = Optional.empty();
    Optional<Course> course = Optional.empty();
    Optional<Intercept> intercept = Optional.empty();
    Optional<ComputedFix> computedFix = Optional.empty();
    List<HeadingRange> headingsThatMeet = List.of();
    final List<String> notes = new ArrayList<>();
    List<CrossingPlan> crossings = List.of();
    Optional<TurnToHeading> turn = Optional.empty();
    Optional<Holding> holding = Optional.empty();
    Optional<Waypoint> limit = Optional.empty();
    Optional<Waypoint> openEnd = Optional.empty();
    Optional<List<Waypoint>> skippedBefore = Optional.empty();
    /** Whether the first leg begins where the aircraft is: else the way to it is not known. */
    boolean beginsHere = true;

    int courseLeg = -1;
    int resumesAt = -1;

    AmendmentDraft(FiledRoute filed, Clearance clearance, Situation situation) {
        this.filed = filed;
        this.clearance = clearance;
        this.situation = situation;
    }

    /** The altitude flown first, feet: as assigned, else as it is now; empty where neither is known. */
    OptionalDouble altitudeFt() {
        return situation.flownFt(clearance.altitudeFt());
    }

    /** The altitude assigned for a leg: the one of several that is in force there; empty where none is. */
    Optional<Instruction.Maintain> assigned(int leg) {
        Optional<Instruction.Maintain> assigned = Optional.empty();
        for (InTurn<Instruction.Maintain> each : clearance.altitudes()) {
            if (each.from()
                    .filter(when -> leg < ChangeOvers.firstLeg(when, legs, courseLeg))
                    .isEmpty()) {
                assigned = Optional.of(each.said());
            }
        }
        return assigned;
    }

    /** The altitude flown first, and which it is: "at the assigned 6000 ft", "at 5000 ft, the present altitude". */
    String atAltitude() {
        return atAltitude(InTurn.atOnce(clearance.altitudes()));
    }

    /** The altitude flown where one is assigned, or the present one. */
    String atAltitude(Optional<Instruction.Maintain> assigned) {
        if (assigned.isPresent()) {
            return "at the assigned " + assigned.get().figures();
        }
        return situation.altitudeFt().isPresent()
                ? String.format(
                        Locale.ROOT,
                        "at %.0f ft, the present altitude",
                        situation.altitudeFt().getAsDouble())
                : "at any altitude";
    }

    /** The altitude of a leg, as the subject of a sentence. */
    String altitude(Optional<Instruction.Maintain> assigned) {
        if (assigned.isPresent()) {
            return assigned.get().figures();
        }
        return situation.altitudeFt().isPresent()
                ? Phraseology.figures(situation.altitudeFt().getAsDouble(), false)
                : "an altitude";
    }

    void warn(Warning.Code code, String format, Object... values) {
        warnings.add(new Warning(code, String.format(Locale.ROOT, format, values)));
    }

    /** Which way it was taken where the words left a choice, and what to ask. */
    void choice(String format, Object... values) {
        warn(Warning.Code.CHOICE_MADE, format, values);
    }

    /** What was taken for granted, or is good to know. */
    void note(String format, Object... values) {
        notes.add(String.format(Locale.ROOT, format, values));
    }

    /** Why a clearance cannot be worked out, with numbers. */
    static ClearanceException refused(String format, Object... values) {
        return ClearanceException.cannotBeWorkedOut(String.format(Locale.ROOT, format, values));
    }

    void step(String what, String formula, String format, Object... values) {
        working.add(new AmendedRoute.WorkingStep(what, formula, String.format(Locale.ROOT, format, values)));
    }

    void describeHeading() {
        heading.ifPresent(plan -> {
            step(
                    "heading from true north",
                    "true = magnetic + variation (east positive; World Magnetic Model 2025 at the aircraft)",
                    "%s heading %05.1f %s = %08.4f true",
                    plan.origin().name().toLowerCase(Locale.ROOT),
                    plan.magnetic().deg(),
                    Angles.signed(situation.variation().eastDeg(), 4),
                    plan.headingTrue().deg());
            step(
                    "track in the wind",
                    "north = TAS cos H - W cos(from), east = TAS sin H - W sin(from); track = atan2(east, north), GS ="
                            + " sqrt(north^2 + east^2)",
                    "TAS %.1f kt, H %08.4f, W %.1f kt from %05.1f: track %08.4f true, GS %.4f kt",
                    situation.trueAirspeedKt(),
                    plan.headingTrue().deg(),
                    situation.wind().speedKt(),
                    situation.wind().from().deg(),
                    plan.ground().track().deg(),
                    plan.ground().groundSpeedKt());
        });
    }

    /** A heading with a direct holds until the direct is begun; the direct is drawn from here. */
    void assignedHeadingWhileDirect(Waypoint to) {
        assignedHeadingUntil("direct %s is begun; the direct", to);
    }

    /** And so it does with a route as filed, which is drawn from here too. */
    void assignedHeadingUntilGoingOn(Waypoint to) {
        assignedHeadingUntil("you are told to go on to %s; the way there", to);
    }

    private void assignedHeadingUntil(String onward, Waypoint to) {
        heading.filter(plan -> plan.origin() == HeadingPlan.Origin.ASSIGNED)
                .ifPresent(plan -> choice(
                        "heading %s is flown until " + onward + " is worked out from here, as if begun at once",
                        Angles.figures(plan.magnetic().deg()),
                        to.ident()));
    }

    /** Goes on along segments of a route, joining what the instructions join. */
    void append(List<FiledRoute.Segment> segments, List<Instruction> joins) {
        int begins = legs.size();
        segments.forEach(segment -> legs.add(Leg.TrackToFix.along(segment)));
        markFirstJoin(begins, joins);
        markResume(begins);
    }

    /** Marks the legs on the first airway that the instructions join. */
    private void markFirstJoin(int from, List<Instruction> instructions) {
        for (Instruction instruction : instructions) {
            if (instruction instanceof Instruction.JoinAirway join) {
                int begins = from;
                while (begins < legs.size() && !legs.get(begins).isOn(join.airway())) {
                    begins++;
                }
                markJoin(begins, join.airway());
                return;
            }
        }
    }

    /** Goes on along an airway, or along the filed route. */
    void append(List<Leg> onward, AirwayPath path) {
        int begins = legs.size();
        legs.addAll(onward);
        markJoin(begins, path.ident());
        markResume(begins);
    }

    private void markJoin(int from, String airway) {
        for (int i = from; i < legs.size() && legs.get(i).isOn(airway); i++) {
            joinLegs.add(i);
        }
    }

    /** The first leg from an index on from where all is as filed, to the end of the filed route. */
    private void markResume(int from) {
        int first = legs.size();
        while (first > from && isFiled(legs.get(first - 1))) {
            first--;
        }
        boolean toTheEnd = first < legs.size() && legs.get(legs.size() - 1).endsAt(filed.destination());
        resumesAt = toTheEnd ? first : -1;
    }

    /** Whether the filed route has a leg too, or has one that it lies on. */
    private boolean isFiled(Leg leg) {
        return filed.segments().stream()
                .filter(segment -> leg.endsAt(segment.to()) && segment.airway().equals(leg.airway()))
                .anyMatch(segment -> segment.airway().isPresent()
                        || leg.from()
                                .filter(from -> OnSegments.isOn(segment, from.position()))
                                .isPresent());
    }

    AmendedRoute finish(Chart chart) {
        RouteChecks.check(chart, this);
        List<Waypoint> skipped = skippedBefore.orElseGet(this::skipped);
        return new AmendedRoute(
                clearance,
                filed,
                situation,
                heading,
                course,
                intercept,
                computedFix,
                legs,
                courseLeg,
                joinLegs,
                resumesAt,
                skipped,
                warnings,
                headingsThatMeet,
                working,
                turn,
                crossings,
                holding,
                limit,
                notes,
                openEnd);
    }

    /** Points of the filed route that no leg ends at or starts from; where the flight began is behind anyway. */
    private List<Waypoint> skipped() {
        if (resumesAt < 0 && !endsForGood()) {
            return List.of();
        }
        Set<Waypoint> flown = new HashSet<>();
        for (Leg leg : legs) {
            leg.endsAt().ifPresent(flown::add);
            boolean fromStart = leg instanceof Leg.TrackToFix || leg instanceof Leg.FixOutbound;
            if (fromStart && leg.joinedAtNm() < PASSED_NM) {
                leg.from().filter(from -> met(leg)).ifPresent(flown::add);
            }
        }
        Set<Waypoint> behind = behind();
        List<Waypoint> skipped = new ArrayList<>();
        for (Waypoint point : filed.points()) {
            boolean departure = point.equals(filed.points().get(0)) && point instanceof Airport;
            if (!departure && !behind.contains(point) && !flown.contains(point) && !skipped.contains(point)) {
                skipped.add(point);
            }
        }
        return skipped;
    }

    /** What is flown already where the aircraft is on a leg of the filed route, and does not come again. */
    private Set<Waypoint> behind() {
        List<FiledRoute.Segment> segments = filed.segments();
        Set<Waypoint> behind = new HashSet<>();
        OnSegments.on(segments, situation.position())
                .filter(on -> on.alongNm() > PASSED_NM)
                .ifPresent(on -> {
                    segments.subList(0, on.index() + 1).forEach(flown -> behind.add(flown.from()));
                    segments.subList(on.index(), segments.size()).forEach(next -> behind.remove(next.to()));
                });
        return behind;
    }

    /** At the destination, or at another airport, which is another destination: nothing of the filed route comes after it. */
    private boolean endsForGood() {
        return limit.or(() -> legs.get(legs.size() - 1).endsAt())
                .filter(end -> end.equals(filed.destination())
                        || (end instanceof Airport && !filed.points().contains(end)))
                .isPresent();
    }

    /** Puts a leg between two others; what counts legs counts on. */
    void insert(int at, Leg leg) {
        legs.add(at, leg);
        joinLegs.replaceAll(index -> index >= at ? index + 1 : index);
        resumesAt += resumesAt >= at ? 1 : 0;
        courseLeg += courseLeg >= at ? 1 : 0;
    }

    /** Cuts the route after a leg: ATC has not said how it goes on. Legs beyond are not skipped, they are to come. */
    void endAfter(int leg) {
        if (skippedBefore.isEmpty()) {
            skippedBefore = Optional.of(skipped());
        }
        cutAfter(leg);
    }

    /** Cuts the route after a leg, where other legs are to follow. */
    void cutAfter(int leg) {
        while (legs.size() > leg + 1) {
            legs.remove(legs.size() - 1);
        }
        joinLegs.removeIf(index -> index >= legs.size());
        if (resumesAt >= legs.size()) {
            resumesAt = -1;
        }
        if (courseLeg >= legs.size()) {
            courseLeg = legs.size() - 1;
        }
    }

    /** A leg after a heading that meets nothing is drawn whole, and yet its start is not flown over. */
    private boolean met(Leg leg) {
        return intercept.isPresent() || courseLeg == 0 || legs.indexOf(leg) > courseLeg;
    }
}
