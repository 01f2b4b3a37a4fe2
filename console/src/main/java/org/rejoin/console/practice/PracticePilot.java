package org.rejoin.console.practice;

import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.Instruction.Until;
import org.rejoin.bridge.clearance.When;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicArc;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Offset;
import org.rejoin.bridge.geo.SlantRange;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Turn;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.ChangeOvers;
import org.rejoin.bridge.route.CrossingPlan;
import org.rejoin.bridge.route.HeadingPlan;
import org.rejoin.bridge.route.HeadingRange;
import org.rejoin.bridge.route.Holding;
import org.rejoin.bridge.route.Leg;

import org.jspecify.annotations.Nullable;

/**
 * Flies one amended route, well or with a {@link Habit}. Says at every instant how to bank; remembers only where in the
 * procedure it is. One per amendment.
 */
final class PracticePilot {

    /** From hearing the clearance to moving the controls, seconds. */
    private static final double REACTION_S = 5;

    /** On the reciprocal before noticing, seconds. */
    private static final double RECIPROCAL_S = 120;

    /** Past the line before noticing, seconds. */
    private static final double FLY_THROUGH_S = 40;

    /** Past the line before the first gentle turn, seconds. */
    private static final double LATE_S = 5;

    /** The late pilot takes up the course again this far past it, nautical miles. */
    private static final double LATE_NM = 0.6;

    /** The same on an arc, which is met within 1 NM. */
    private static final double LATE_ARC_NM = 1.2;

    /** The early pilot rolls out this far short, nautical miles: beyond half of the en-route scale. */
    private static final double EARLY_NM = 1.4;

    /** Parallel before noticing, seconds. */
    private static final double PARALLEL_S = 45;

    /** Chasing the needle for this long, seconds, with this swing, degrees, turning back this far past it, NM. */
    private static final double WEAVING_S = 200;

    private static final double WEAVING_DEG = 16;
    private static final double WEAVING_NM = 0.12;

    /** The wrong way before noticing, seconds. */
    private static final double WRONG_TURN_S = 40;

    /** How far the wrong way, degrees. */
    private static final double WRONG_TURN_DEG = 50;

    /** The flight goes on this long after the turn at the end of the intercepted leg has settled, seconds. */
    private static final double SETTLED_S = 60;

    /** And no longer than this after that end, settled or not, seconds. */
    private static final double LONGEST_AFTER_S = 600;

    /** Pointing at a fix to within this, wings level to within that, degrees. */
    private static final double AIMED_DEG = 2;

    private static final double LEVEL_DEG = 5;

    /** As near as this there is no turn to be made, degrees. */
    private static final double NO_TURN_DEG = 5;

    /** Past the fix to hold at before noticing, seconds. */
    private static final double NOT_ENTERED_S = 160;

    private enum Step {
        REACTING,
        ON_HEADING,
        HABIT,
        TRACKING,
        WRONG_TURN
    }

    private final AmendedRoute route;
    private final Habit habit;
    private final double heardS;
    private final TrueDirection headingBefore;

    private Step step = Step.REACTING;
    private int leg;
    private double sinceS = Double.NaN;
    private double onCourseS = Double.NaN;
    private double approachSide;
    private boolean habitDone;
    private double lateTrackDeg = Double.NaN;
    private double weaveSide;
    private double wrongTrackDeg;
    private double endPassedS = Double.NaN;
    private double holdPassedS = Double.NaN;
    private double settledS = Double.NaN;
    private @Nullable GeodesicLine aimed;
    private double alongNm = Double.NEGATIVE_INFINITY;
    private List<CrossingPlan> crossings;
    private @Nullable HoldPilot hold;
    private @Nullable TrueDirection departing;
    private boolean longWayRound;
    private boolean firstTurnBegun;

    PracticePilot(AmendedRoute route, Habit habit, PracticeAircraft now) {
        this.route = route;
        this.crossings = route.crossings();
        this.habit = habit;
        this.heardS = now.timeS();
        this.headingBefore = now.heading();
        this.leg = Math.max(route.courseLeg(), 0);
    }

    /** Whether there is nothing more to show: settled on the leg after the intercepted one, or out of route. */
    boolean done(PracticeAircraft now) {
        if (hold != null) {
            return hold.done(now);
        }
        if (route.endsInHold()) {
            return now.timeS() - holdPassedS > LONGEST_AFTER_S;
        }
        if (route.courseLeg() < 0) {
            return now.timeS() > heardS + LONGEST_AFTER_S;
        }
        if (route.departHeading().isPresent() && departing == null) {
            return false;
        }
        boolean there = leg >= lastNeeded();
        // A radial that is flown until ATC says more has no end to pass.
        boolean endless =
                route.departsOnRadial() && route.courseLeg() == route.legs().size() - 1;
        return there
                && (now.timeS() - settledS > SETTLED_S
                        || now.timeS() - endPassedS > LONGEST_AFTER_S
                        || (endless && now.timeS() - onCourseS > LONGEST_AFTER_S));
    }

    /** Whether the last of what is cleared is being flown, back on the filed route. */
    boolean flownToItsEnd() {
        boolean on = !Double.isNaN(leg > Math.max(route.courseLeg(), 0) ? settledS : onCourseS);
        return route.resumesAt() >= 0 && !route.endsInHold() && route.limit().isEmpty() && leg >= lastNeeded() && on;
    }

    /** How far what is cleared was flown. */
    Clearance.Reached reached() {
        if (route.courseLeg() < 0 || Double.isNaN(onCourseS)) {
            return Clearance.Reached.NOTHING;
        }
        return leg > route.courseLeg() ? Clearance.Reached.AIRWAY : Clearance.Reached.LINE;
    }

    /** A direct is a line from where the aircraft points at the fix, not from where the words were heard. */
    private Leg.@Nullable DirectToFix unaimed() {
        return leg < route.legs().size() && aimed == null && route.legs().get(leg) instanceof Leg.DirectToFix direct
                ? direct
                : null;
    }

    private double aim(PracticeAircraft now, Leg.DirectToFix direct) {
        TrueDirection toFix = now.position().to(direct.to().position()).initial();
        double off = Math.abs(now.ground().track().turnTo(toFix));
        if (off < AIMED_DEG && Math.abs(now.bankDeg()) < LEVEL_DEG) {
            aimed = GeodesicLine.between(now.position(), direct.to().position());
        }
        return byOrder(now, toFix) ? mostBank(now) : Guidance.bankForTrack(now, toFix);
    }

    /** Whether the turn that ATC ordered still leads the long way round to a direction. */
    private boolean byOrder(PracticeAircraft now, TrueDirection wanted) {
        double shortWay = now.heading().turnTo(wanted);
        boolean otherSide = shortWay * mostBank(now) < 0;
        if (!firstTurnBegun) {
            firstTurnBegun = true;
            longWayRound = otherSide && Math.abs(shortWay) > NO_TURN_DEG;
        }
        // The first half circle has led to where the short way is the one that was ordered.
        longWayRound &= otherSide || Math.abs(shortWay) > 90;
        return longWayRound;
    }

    /** To the side that ATC ordered; 0 where it ordered none. */
    private double mostBank(PracticeAircraft now) {
        return switch (departing == null ? route.orderedTurn() : route.orderedTurnAtDeparture()) {
            case LEFT -> -now.standardBankDeg();
            case RIGHT -> now.standardBankDeg();
            case SHORTEST -> 0;
        };
    }

    /** The leg on which all of the clearance is done. */
    private int lastNeeded() {
        int needed = Math.max(route.courseLeg(), route.resumesAt());
        for (CrossingPlan plan : crossings) {
            needed = Math.max(needed, Math.min(plan.leg() + 1, route.legs().size() - 1));
        }
        int joined = route.joinLegs().stream().findFirst().orElse(-1);
        int ends = route.departsOnRadial() || route.openEnd().isPresent()
                ? route.legs().size() - 1
                : -1;
        return Math.max(needed, Math.max(joined, ends));
    }

    private @Nullable GroundPath line(int index, PracticeAircraft now) {
        GroundPath flown = aimed;
        if (index == leg && flown != null && route.legs().get(index) instanceof Leg.DirectToFix) {
            return flown;
        }
        return index >= 0 && index < route.legs().size()
                ? byInstruments(route.legs().get(index), now.altitudeFt()).orElse(null)
                : null;
    }

    /**
     * The line over the ground that the instruments lead along, at an altitude above mean sea level: an arc by the DME,
     * whose slant range draws it inward with the height. Empty for a leg without a line.
     */
    private static Optional<GroundPath> byInstruments(Leg leg, double altitudeFt) {
        if (!(leg instanceof Leg.DmeArc arc)) {
            return leg.groundPath();
        }
        GeodesicArc path = arc.path();
        double groundNm =
                SlantRange.groundNm(arc.distanceNm(), altitudeFt - arc.station().elevationFt());
        return groundNm < path.radiusNm() / 2
                ? Optional.of(path)
                : Optional.of(new GeodesicArc(path.centre(), groundNm, path.startAzimuth(), path.sweepDeg()));
    }

    /** How to bank now, degrees, right positive. */
    double bank(PracticeAircraft now) {
        if (step == Step.REACTING) {
            if (now.timeS() < heardS + REACTION_S) {
                return Guidance.bankForHeading(now, headingBefore);
            }
            step = route.heading().isPresent() ? Step.ON_HEADING : Step.TRACKING;
        }
        HoldPilot inHold = hold;
        if (inHold != null) {
            double bank = inHold.bank(now);
            if (!inHold.flownOnce()) {
                return bank;
            }
            onAfterHold(now.timeS());
        }
        TrueDirection away = departing;
        if (away != null) {
            return departing(now, away);
        }
        Leg.@Nullable DirectToFix direct = unaimed();
        if (direct != null && step == Step.TRACKING) {
            return aim(now, direct);
        }
        GroundPath line = line(leg, now);
        if (line == null || route.courseLeg() < 0) {
            // Over the fix already: the hold is all there is to fly.
            return holdAhead() ? overFix(now) : onHeading(now);
        }
        Offset offset = line.offset(now.position());
        return switch (step) {
            case REACTING, ON_HEADING -> approach(now, offset);
            case HABIT -> habit(now, line, offset);
            case TRACKING -> track(now, line, offset);
            case WRONG_TURN -> wrongTurn(now);
        };
    }

    /** Whether the hold is still to be flown. */
    private boolean holdAhead() {
        return leg <= route.holdLeg();
    }

    /** From a hold that is flown once the route goes on. */
    private void onAfterHold(double timeS) {
        endPassedS = timeS;
        hold = null;
        leg = route.holdLeg() + 1;
        aimed = null;
        alongNm = Double.NEGATIVE_INFINITY;
        step = Step.TRACKING;
        settledS = Double.NaN;
        depart(
                leg + 1 == route.legs().size()
                        ? departHeadingFrom(route.holding().orElseThrow().fix())
                        : null);
    }

    /** The fix to hold at; who flies through notices it late. */
    private double overFix(PracticeAircraft now) {
        boolean late = habit == Habit.FLY_THROUGH && route.heading().isEmpty();
        if (late && now.timeS() < holdPassedS + NOT_ENTERED_S) {
            GroundPath line = line(leg, now);
            return line == null ? 0 : Guidance.bankForLine(now, line, 45);
        }
        Holding holding = route.holding().orElseThrow();
        HoldPilot begun = new HoldPilot(
                holding, route.situation().variationAt(holding.fix().position()), habit == Habit.WRONG_TURN, now);
        hold = begun;
        return begun.bank(now);
    }

    /** The heading from the fix just passed; null where the route does not end on one. */
    private @Nullable TrueDirection departHeading() {
        Optional<Waypoint> fix = route.legs().get(leg).endsAt();
        boolean last = leg + 2 == route.legs().size();
        return last && fix.isPresent() ? departHeadingFrom(fix.get()) : null;
    }

    private @Nullable TrueDirection departHeadingFrom(Waypoint fix) {
        return route.departHeading()
                .map(heading -> heading.toTrue(route.situation().variationAt(fix.position())))
                .orElse(null);
    }

    /** From a fix on: its turn begins here. */
    private void depart(@Nullable TrueDirection away) {
        departing = away;
        firstTurnBegun &= away == null;
    }

    private double departing(PracticeAircraft now, TrueDirection away) {
        if (Double.isNaN(settledS) && Math.abs(now.heading().turnTo(away)) < 5) {
            settledS = now.timeS();
        }
        return byOrder(now, away) ? mostBank(now) : Guidance.bankForHeading(now, away);
    }

    /**
     * The altitude to fly: that of the next place ahead that asks for one, else the one assigned by ATC, or flown when
     * the clearance was heard.
     */
    double altitudeFt(double assignedFt) {
        for (CrossingPlan plan : crossings) {
            if (isAhead(plan)) {
                return plan.said().nearestFt(assignedFt);
            }
        }
        return assignedFt;
    }

    private boolean isAhead(CrossingPlan plan) {
        double placeNm = plan.leg() < 0
                ? 0
                : route.legs()
                        .get(plan.leg())
                        .groundPath()
                        .map(path -> path.offset(plan.position()).alongTrackNm())
                        .orElse(0.0);
        return plan.leg() > leg || (plan.leg() == leg && alongNm < placeNm);
    }

    /** Whether the fix is passed, or the line joined, at which an altitude gives way to the next; other places are not known. */
    boolean isPassed(When when) {
        return when.fold(new When.Cases<Boolean>(
                at -> at.line()
                        .<Boolean>fold(
                                radial -> false,
                                distance -> false,
                                fix -> isBeyond(ChangeOvers.legTo(fix.fix(), route.legs())),
                                airway -> isOn(Optional.of(airway))),
                near -> false,
                time -> false,
                level -> false,
                established -> isOn(established.line()),
                advised -> false,
                beside -> crossings.stream()
                        .filter(plan -> plan.said().before().equals(Optional.of(beside.away()))
                                && plan.said().fix().equals(beside.fix()))
                        .findFirst()
                        .filter(plan -> !isAhead(plan))
                        .isPresent(),
                // No pilot flies speeds here.
                reached -> !reached.altitude()));
    }

    private boolean isBeyond(int legToIt) {
        return legToIt >= 0 && leg > legToIt;
    }

    private boolean isOn(Optional<Until> line) {
        List<Integer> on = ChangeOvers.onLegs(line, route.legs(), route.courseLeg());
        return !on.isEmpty() && leg >= on.get(0) && !Double.isNaN(onCourseS);
    }

    /** A further clearance that leaves the route as it is. */
    void further(AmendedRoute under) {
        crossings = under.crossings();
    }

    /** Whether a habit shows in what is cleared; false where it would be flown like the good pilot's. */
    static boolean shows(Habit habit, AmendedRoute route) {
        boolean line = route.courseLeg() >= 0 && !route.clearance().routeStays();
        boolean met = line && route.heading().isPresent();
        boolean goesOn = route.courseLeg() + 1 < route.legs().size();
        return switch (habit) {
            case GOOD -> true;
            case LATE, RECIPROCAL, EARLY -> met;
            case FLY_THROUGH -> met || route.holding().isPresent();
            case WEAVING -> line;
            case WRONG_TURN -> (line && goesOn) || route.holding().isPresent();
        };
    }

    private double onHeading(PracticeAircraft now) {
        Optional<HeadingPlan> plan = route.heading();
        boolean ownChoice = plan.filter(each -> each.origin() != HeadingPlan.Origin.ASSIGNED)
                .isPresent();
        if (ownChoice
                && route.intercept().isEmpty()
                && !route.headingsThatMeet().isEmpty()) {
            // Nobody assigned the heading that meets nothing: another one is flown.
            HeadingRange meets = route.headingsThatMeet().get(0);
            double half = Angles.circle(meets.to().deg() - meets.from().deg()) / 2;
            MagneticDirection chosen = new MagneticDirection(meets.from().deg() + half);
            return Guidance.bankForHeading(now, chosen.toTrue(route.situation().variation()));
        }
        return plan.map(each -> byOrder(now, each.headingTrue())
                        ? mostBank(now)
                        : Guidance.bankForHeading(now, each.headingTrue()))
                .orElseGet(() -> Guidance.bankForHeading(now, headingBefore));
    }

    private double approach(PracticeAircraft now, Offset offset) {
        double cross = offset.crossTrackNm();
        if (approachSide == 0) {
            approachSide = Math.signum(cross);
        }
        double angle = Math.abs(Guidance.trackErrorDeg(now, offset));
        boolean closing = Math.signum(Guidance.trackErrorDeg(now, offset)) != Math.signum(cross);
        boolean past = Math.signum(cross) != approachSide;
        boolean atLead = past || (closing && Guidance.closingDeg(now, Guidance.aheadNm(now, offset), 180) <= angle);
        boolean begin = switch (habit) {
            case GOOD, WEAVING, WRONG_TURN -> atLead;
            case LATE, FLY_THROUGH -> past;
            case RECIPROCAL ->
                past
                        || (closing
                                && Math.abs(cross)
                                        < Math.min(
                                                0.9, Guidance.radiusNm(now) * (1 + Math.cos(Math.toRadians(angle)))));
            case EARLY ->
                past
                        || (closing
                                && Math.abs(cross)
                                        < EARLY_NM + Guidance.radiusNm(now) * (1 - Math.cos(Math.toRadians(angle))));
        };
        if (!begin) {
            return onHeading(now);
        }
        sinceS = now.timeS();
        step = habit == Habit.GOOD || habit == Habit.WEAVING || habit == Habit.WRONG_TURN ? Step.TRACKING : Step.HABIT;
        return bank(now);
    }

    private double habit(PracticeAircraft now, GroundPath line, Offset offset) {
        double elapsed = now.timeS() - sinceS;
        double cross = offset.crossTrackNm();
        double course = offset.course().deg();
        switch (habit) {
            case LATE -> {
                if (Double.isNaN(lateTrackDeg)) {
                    lateTrackDeg = course + Guidance.trackErrorDeg(now, offset) / 2;
                }
                double lateNm = line instanceof GeodesicArc ? LATE_ARC_NM : LATE_NM;
                boolean farEnough = Math.signum(cross) != approachSide && Math.abs(cross) > lateNm;
                if (farEnough || elapsed > 120) {
                    step = Step.TRACKING;
                    return bank(now);
                }
                return elapsed < LATE_S ? onHeading(now) : Guidance.bankForTrack(now, new TrueDirection(lateTrackDeg));
            }
            case FLY_THROUGH -> {
                if (elapsed < FLY_THROUGH_S) {
                    return onHeading(now);
                }
            }
            case RECIPROCAL -> {
                if (elapsed < RECIPROCAL_S) {
                    return Guidance.bankForLine(now, line.reversed(), 45);
                }
            }
            case EARLY -> {
                if (elapsed < PARALLEL_S) {
                    return Guidance.bankForTrack(now, new TrueDirection(course));
                }
            }
            default -> {}
        }
        step = Step.TRACKING;
        return bank(now);
    }

    private double track(PracticeAircraft now, GroundPath line, Offset offset) {
        double error = Guidance.trackErrorDeg(now, offset);
        alongNm = offset.alongTrackNm();
        if (Double.isNaN(onCourseS) && Math.abs(offset.crossTrackNm()) < 0.1 && Math.abs(error) < 5) {
            onCourseS = now.timeS();
        }
        if (!Double.isNaN(endPassedS) && (Math.abs(offset.crossTrackNm()) > 0.2 || Math.abs(error) > 8)) {
            settledS = Double.NaN;
        } else if (!Double.isNaN(endPassedS) && Double.isNaN(settledS)) {
            settledS = now.timeS();
        }
        double togo = line.lengthNm() - offset.alongTrackNm();
        GroundPath next = line(leg + 1, now);
        if (next != null) {
            double turn = line.finalCourse().turnTo(next.courseAt(0));
            double lead = Turn.leadNm(Guidance.radiusNm(now) * 1.1, Math.min(Math.abs(turn), 140))
                    + (Math.abs(turn) > 3 ? now.ground().groundSpeedKt() / 3600 * 3 : 0);
            if (togo <= lead && Math.abs(offset.crossTrackNm()) < 4 && Math.abs(error) < 90) {
                return endOfLeg(now, line, turn);
            }
        } else if (togo < 0 && departHeading() != null) {
            endPassedS = now.timeS();
            settledS = Double.NaN;
            depart(departHeading());
        } else if (togo < 0 && holdAhead()) {
            holdPassedS = Double.isNaN(holdPassedS) ? now.timeS() : holdPassedS;
            return overFix(now);
        } else if (togo < 0 && Double.isNaN(endPassedS)) {
            endPassedS = now.timeS();
        }
        if (habit == Habit.WEAVING && leg == Math.max(route.courseLeg(), 0) && !habitDone && !Double.isNaN(onCourseS)) {
            return weave(now, offset);
        }
        return Guidance.bankForLine(now, line, 45);
    }

    private double endOfLeg(PracticeAircraft now, GroundPath line, double turn) {
        boolean ofIntercepted = leg == Math.max(route.courseLeg(), 0);
        if (ofIntercepted || leg < lastNeeded()) {
            endPassedS = now.timeS();
            settledS = Double.NaN;
        }
        leg++;
        aimed = null;
        alongNm = Double.NEGATIVE_INFINITY;
        if (ofIntercepted && habit == Habit.WRONG_TURN) {
            step = Step.WRONG_TURN;
            sinceS = now.timeS();
            double wrongWay = turn >= 0 ? -WRONG_TURN_DEG : WRONG_TURN_DEG;
            wrongTrackDeg = line.finalCourse().deg() + wrongWay;
        }
        return bank(now);
    }

    private double wrongTurn(PracticeAircraft now) {
        if (now.timeS() - sinceS > WRONG_TURN_S) {
            step = Step.TRACKING;
            return bank(now);
        }
        return Guidance.bankForTrack(now, new TrueDirection(Angles.circle(wrongTrackDeg)));
    }

    private double weave(PracticeAircraft now, Offset offset) {
        if (now.timeS() - onCourseS > WEAVING_S) {
            habitDone = true;
        }
        double cross = offset.crossTrackNm();
        if (weaveSide == 0 || Math.abs(cross) > WEAVING_NM) {
            weaveSide = cross == 0 ? 1 : Math.signum(cross);
        }
        return Guidance.bankForTrack(now, new TrueDirection(offset.course().deg() - weaveSide * WEAVING_DEG));
    }
}
