package org.rejoin.console.grade;

import java.util.function.ToDoubleFunction;

import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Turn;

import org.jspecify.annotations.Nullable;

/** How the line of one amendment was met and followed, measured from point to point. */
final class LineMeasures {

    /** Track this close to the course is along it, degrees. */
    private static final double ALONG_DEG = 10;

    /** Whoever goes along the line for this long is following it, however far off, seconds; common practice, no source. */
    static final double FOLLOWING_S = 30;

    /** Farther off than this many full scales it is another line that is followed; common practice, no source. */
    private static final double FOLLOWED_SCALES = 2;

    /** Abeam the end of the leg so many full scales off it is not this line that was flown; common practice, no source. */
    private static final double BESIDE_SCALES = 1.5;

    /** Across a pause no more than this is flown unseen, and across a gap more, seconds; common practice, no source. */
    private static final double STOOD_S = 3;

    /** Crossings of the line after which the pilot is following it, however badly; common practice, no source. */
    private static final int CROSSINGS_TO_FOLLOW = 2;

    /** The way to the line counts as closest where it was kept for so long, seconds; common practice, no source. */
    private static final double CLOSEST_HELD_S = 5;

    /** Where the way direct is pointed along is a mean over so long, seconds; as established on it. */
    private static final double AIMED_MEAN_S =
            Rules.STANDARD.of(Rule.Established.class).heldS();

    /** A track this close to the course is no longer a way across it, degrees; common practice, no source. */
    static final double GOING_ALONG_DEG = 30;

    /** A turn has begun when the nose has come this much closer to the course, degrees; common practice, no source. */
    private static final double TURN_BEGUN_DEG = 5;

    /** Crossed more steeply the line is not followed, degrees; as for weaving. */
    private static final double FOLLOWED_DEG = 60;

    /** Reciprocal to within this, degrees. */
    static final double RECIPROCAL_DEG = 30;

    /** Flown for so long it is a fault, seconds. */
    static final double RECIPROCAL_S = 15;

    /** Parallel, short of the line, for so long it is a fault, seconds. */
    static final double PARALLEL_S = 15;

    private static final double REACH_NM =
            Rules.STANDARD.of(Rule.FixSequenced.class).reachNm();

    private static final Rule.Direct DIRECT = Rules.STANDARD.of(Rule.Direct.class);

    private static final Rule.OtherCourse OTHER = Rules.STANDARD.of(Rule.OtherCourse.class);

    private static final Rule.Arc ARC = Rules.STANDARD.of(Rule.Arc.class);

    /** Whoever has not crossed an arc is short of it by as near as he comes in this time, seconds; common practice, no source. */
    private static final double SETTLED_S = 30;

    /** ... and from this on, as past a line, NM. */
    private static final double TOLD_NM =
            Rules.STANDARD.of(Rule.Overshoot.class).loggedNm();

    private final ToleranceSet set;
    private boolean direct;
    private final boolean arc;
    private final boolean toStation;
    private double besideOtherNm;
    private final Span course = Span.nothing();
    private @Nullable Point measuredLast;
    private double side;
    private int crossings;
    private int followed;
    private double farNm;
    private double farAtS = Double.NaN;
    private double shortNm;
    private double shortAtS = Double.NaN;
    private double scaleNm;
    private double offNm;
    private double offAtS = Double.NaN;
    private double limitNm = Double.NaN;
    private double alongSinceS = Double.NaN;
    private double goingAlongSinceS = Double.NaN;
    private double closestNm = Double.POSITIVE_INFINITY;
    private double crossedS = Double.NaN;
    private double noseAtCrossingDeg = Double.NaN;
    private double crossedSide;
    private double turnedAfterS = Double.POSITIVE_INFINITY;
    private double reciprocalSinceS = Double.NaN;
    private double reciprocalS;
    private double parallelSinceS = Double.NaN;
    private double parallelS;
    private boolean metUnseen;
    private double unseenPastNm;
    private double dueS = Double.NaN;
    private double astrayUntilS = Double.NaN;
    private double ignored;
    private double notAimed;
    private boolean passedBeside;
    private boolean takenUp;
    /** Whether what was measured of the course before counts no more once there is more of it. */
    private boolean afresh;

    private double offDirectDeg = Double.NaN;
    private double offDirectAtS;
    private double nearestDirectDeg = Double.POSITIVE_INFINITY;
    private boolean followedIt;
    private double besideNm;
    private boolean left;
    private double nearestNm = Double.POSITIVE_INFINITY;
    private int followedLeg = -1;
    private int beyondLeg = -1;
    private boolean joining;
    private double settledFromS = Double.NaN;
    private double settledNm = Double.POSITIVE_INFINITY;
    private double settledAtS = Double.NaN;
    private double besideAlongNm;
    private double alongArcS;
    private double alongArcRightNmS;
    private double nearestOnNm = Double.POSITIVE_INFINITY;
    private boolean tracksOther;
    private double backAtS = Double.NaN;
    private double driftNm;
    private double homedNm;
    private double homesSinceS = Double.NaN;
    private double driftFromNm = Double.POSITIVE_INFINITY;
    private final WeaveMeasures weave = new WeaveMeasures();

    /**
     * Nothing of it flown yet.
     *
     * @param direct whether the line is the way direct to a fix, which starts with the aircraft
     * @param arc whether it is an arc about a DME, met within its limit
     * @param toStation whether it leads to its station, where every radial comes to it
     */
    LineMeasures(ToleranceSet set, boolean direct, boolean arc, boolean toStation) {
        this.set = set;
        this.toStation = toStation;
        this.direct = direct;
        this.arc = arc;
        this.scaleNm = set.limits().fullScaleAtNm(Double.POSITIVE_INFINITY);
    }

    void event(double flownS, FlightEvent event) {
        if (event instanceof FlightEvent.FixSequenced && measuredLast != null) {
            // The leg ends between two samples, and who goes away from it is farthest off it there.
            measure(Math.abs(StepOn.crossTrackNm(measuredLast, flownS)), measuredLast.fullScaleNm(), event.timeS());
            measuredLast = null;
        } else if (event instanceof FlightEvent.CourseCrossed && Double.isNaN(crossedS)) {
            crossedS = flownS;
        } else if (event instanceof FlightEvent.WrongDirection) {
            reciprocalSinceS = flownS - RECIPROCAL_S;
            reciprocalS = Math.max(reciprocalS, RECIPROCAL_S);
        } else if (event instanceof FlightEvent.TurnedEarly early) {
            parallelSinceS = flownS - PARALLEL_S;
            parallelS = Math.max(parallelS, PARALLEL_S);
            double missed = Math.abs(early.crossTrackNm()) - (arc ? 0 : earlyNm());
            shortAtS = missed > shortNm ? early.timeS() : shortAtS;
            shortNm = Math.max(shortNm, missed);
        } else if (event instanceof FlightEvent.RouteLeft) {
            left = true;
        } else if (event instanceof FlightEvent.TrackedInstead) {
            tracksOther = true;
            backAtS = Double.NaN;
        } else if (event instanceof FlightEvent.Weaving weaving) {
            weave.event(flownS, weaving);
        } else if (event instanceof FlightEvent.Overshoot over) {
            farAtS = Double.isNaN(farAtS) ? over.timeS() : farAtS;
            farNm = Math.max(farNm, over.maxCrossTrackNm());
        } else if (event instanceof FlightEvent.FlownThrough through) {
            double past = Math.abs(through.crossTrackNm());
            farAtS = past > farNm ? through.timeS() : farAtS;
            farNm = Math.max(farNm, past);
        }
    }

    /** How the needle was chased. */
    WeaveMeasures weave() {
        return weave;
    }

    /**
     * Takes a point.
     *
     * @param before it; null where there is none
     * @param turnsOff whether the turn at the end of the leg has begun: it leaves the course
     * @param outside how gravely it was left by distance, 0 to 1
     */
    void point(@Nullable Point before, Point now, boolean turnsOff, double outside) {
        weave.point(now);
        measuredLast = null;
        if (now.newPiece()) {
            if (before != null) {
                course.unseen(now.flownS() - before.flownS(), before.established());
            }
            unseenPastNm = before == null ? unseenPastNm : Math.max(unseenPastNm, unseenPastNm(before, now));
            if (before == null || !stood(before, now)) {
                metUnseen |= before != null
                        && before.phase() == Point.Phase.CLOSING
                        && (now.phase().compareTo(Point.Phase.CLOSING) > 0 || otherSide(now));
                side = 0;
            }
            alongSinceS = Double.NaN;
            goingAlongSinceS = Double.NaN;
            reciprocalSinceS = Double.NaN;
        }
        if (!now.hasLine()) {
            return;
        }
        double off = Math.abs(now.crossTrackNm());
        if (now.phase().compareTo(Point.Phase.ON_COURSE) <= 0) {
            besideNm = now.toGoNm() > 0 ? off : besideNm;
            nearestOnNm = now.established() ? Math.min(nearestOnNm, off) : nearestOnNm;
            boolean along = Math.abs(now.trackErrorDeg()) <= GOING_ALONG_DEG;
            besideAlongNm = along && now.toGoNm() > 0 ? off : besideAlongNm;
            if (arc
                    && before != null
                    && !now.newPiece()
                    && Math.abs(now.trackErrorDeg()) <= ALONG_DEG
                    && now.toGoNm() > 0) {
                double passedS = now.flownS() - before.flownS();
                alongArcS += passedS;
                alongArcRightNmS += passedS * now.crossTrackNm();
            }
            boolean backNow = along && off <= earlyNm(now.fullScaleNm()) && !merges(now, off);
            backAtS = Double.isNaN(backAtS) && backNow ? now.timeS() : backAtS;
            besideOtherNm = toStation && leftForAnother() ? Math.max(besideOtherNm, off) : besideOtherNm;
        }
        if (direct && !now.direct() && now.phase().compareTo(Point.Phase.ON_COURSE) <= 0) {
            joinInstead();
        }
        reciprocal(before, now);
        parallel(before, now);
        if (now.established()) {
            takenUpAfterAll(now);
            follow(now, off, turnsOff);
            return;
        }
        if (now.phase() == Point.Phase.CLOSING) {
            closing(now, off, turnsOff, outside);
        } else if (now.phase() != Point.Phase.HOLDING) {
            beyond(now, off, turnsOff);
        }
    }

    /** Past a fix, and not established on what follows it: who goes along it is following it, however far beside. */
    private void beyond(Point now, double off, boolean turnsOff) {
        boolean along = Math.abs(now.trackErrorDeg()) <= ALONG_DEG && off <= FOLLOWED_SCALES * now.fullScaleNm();
        alongSinceS = since(now.legIndex() == beyondLeg ? alongSinceS : Double.NaN, along, now);
        beyondLeg = now.legIndex();
        if (now.flownS() - alongSinceS >= FOLLOWING_S) {
            follow(now, off, turnsOff);
        }
    }

    /** Whether it is near the line only because the radials of the station come together there. */
    private boolean merges(Point now, double off) {
        return toStation
                && (now.toGoNm() <= OTHER.closeNm()
                        || Math.toDegrees(Math.atan2(off, now.toGoNm())) > OTHER.apartDeg() / 2);
    }

    /** How far off the line toward its station another one was tracked to it, NM; 0 where none was. */
    double besideOtherNm() {
        return leftForAnother() ? besideOtherNm : 0;
    }

    /** The filed leg is joined and not the way direct: what was beside that way counts no more. */
    private void joinInstead() {
        direct = false;
        side = 0;
        farNm = 0;
        farAtS = Double.NaN;
        closestNm = Double.POSITIVE_INFINITY;
    }

    /** Whether the line is the way direct to a fix. */
    boolean direct() {
        return direct;
    }

    /** Whether the simulation only stood between two points, and what was flown is known from both its ends. */
    private static boolean stood(Point before, Point now) {
        double flownS = Math.max(0, now.flownS() - before.flownS());
        return flownS <= STOOD_S
                && Turn.knownFromItsEnds(Angles.turn(now.trackTrueDeg() - before.trackTrueDeg()), flownS);
    }

    /**
     * How far past the line at most who was seen last going away from it, and again coming back: no farther than the two ways meet
     * that he was seen on, NM; 0 where he was not seen so.
     */
    private double unseenPastNm(Point before, Point now) {
        double awayNm = awayNm(before);
        double backNm = -awayNm(now);
        boolean past = !direct && crossings % 2 == 1 && before.phase() == Point.Phase.CLOSING && before.hasLine();
        if (!past || !now.hasLine() || otherSide(now) || !(awayNm > 0 && backNm > 0)) {
            return 0;
        }
        double from = Math.abs(before.crossTrackNm());
        double to = Math.abs(now.crossTrackNm());
        double seconds = now.flownS() - before.flownS();
        double awayS = Math.min(seconds, Math.max(0, (to - from + backNm * seconds) / (awayNm + backNm)));
        return from + awayNm * awayS;
    }

    /** Away from the line in a second, NM; negative toward it. */
    private static double awayNm(Point at) {
        double awayDeg = Math.signum(at.crossTrackNm()) * Angles.turn(at.trackErrorDeg());
        return at.groundSpeedKt() / 3600 * Math.sin(Math.toRadians(awayDeg));
    }

    private boolean otherSide(Point now) {
        return now.hasLine() && side != 0 && side * now.crossTrackNm() < 0;
    }

    private void closing(Point now, double off, boolean turnsOff, double outside) {
        scaleNm = now.fullScaleNm();
        if (otherSide(now)) {
            crossings++;
            followed += Math.abs(now.trackErrorDeg()) <= FOLLOWED_DEG ? 1 : 0;
        }
        side = now.crossTrackNm() == 0 ? side : Math.signum(now.crossTrackNm());
        if (direct) {
            dueS = Double.isNaN(dueS) ? now.flownS() : dueS;
            aim(now, off);
        }
        // The way direct to a fix starts with the aircraft: beside it is past where it was to be taken up.
        passedBeside |= direct && now.toGoNm() <= 0;
        double farNow = direct ? offDirectNm(off) : crossings % 2 == 1 ? off : 0;
        farAtS = farNow > farNm ? now.timeS() : farAtS;
        farNm = Math.max(farNm, farNow);
        if (direct) {
            astrayUntilS = Double.isNaN(astrayUntilS) || !goesToFix(now, off) ? now.flownS() : astrayUntilS;
            // Pointed at for a while it is seen to be taken up.
            double takenUpS = Math.min(now.flownS(), astrayUntilS + DIRECT.lateS() + AIMED_MEAN_S);
            double late = Fault.severity(takenUpS - dueS, DIRECT.ignoredS());
            double notGone = Math.min(late, beside(off));
            double aimedOff = Fault.severity(nearestDirectDeg, ALONG_DEG);
            // As grave as a course that was not kept, or left, would be.
            double notKept = Fault.severity(off, scaleNm * set.limits().courseScale()) / 2;
            notAimed = Math.max(notAimed, Math.min(notGone, aimedOff));
            ignored = Math.max(ignored, Math.min(notGone, Math.max(aimedOff, Math.max(outside, notKept))));
        }
        double error = Math.abs(now.trackErrorDeg());
        turned(now);
        goingAlongSinceS = since(goingAlongSinceS, error <= GOING_ALONG_DEG, now);
        if (now.flownS() - goingAlongSinceS >= CLOSEST_HELD_S) {
            closestNm = Math.min(closestNm, off);
        }
        boolean onHeading = Math.abs(now.headingErrorDeg()) <= ALONG_DEG;
        // Until it counts as not gone to at all, a direct is followed, however badly.
        boolean along = error <= (direct ? 2 : 1) * ALONG_DEG
                && (off <= FOLLOWED_SCALES * scaleNm || !Double.isNaN(alongSinceS));
        alongSinceS = since(alongSinceS, along && !onHeading, now);
        if (followed >= CROSSINGS_TO_FOLLOW || now.flownS() - alongSinceS >= FOLLOWING_S) {
            follow(now, off, turnsOff);
        }
    }

    /** A direct that was taken up begins there: how far beside it was until then is a matter of that. */
    private void takenUpAfterAll(Point now) {
        if (direct && !takenUp && now.direct()) {
            takenUp = true;
            afresh = true;
        }
    }

    /**
     * How much of the distance beside a direct counts as not gone to the fix, NM: none of it while the track points along it,
     * all of it from twice the angle on. Between the two it costs all of its points at most.
     */
    private double offDirectNm(double off) {
        double share = passedBeside ? 0 : Fault.severity(nearestDirectDeg, ALONG_DEG);
        return share * (share < 1 ? Math.min(off, 2 * pastLimitNm()) : off);
    }

    /** Whether the fix of a direct that was not taken up was passed, however far beside. */
    boolean passedBeside() {
        return passedBeside;
    }

    /** Whether the track leads to the fix of a direct, or back to the course to it, by the measure by which it is taken up late. */
    private boolean goesToFix(Point now, double off) {
        double fixDeg = Math.toDegrees(Math.atan2(off, now.toGoNm()));
        double outwardDeg = fixDeg + Angles.turn(now.trackErrorDeg()) * Math.signum(now.crossTrackNm());
        double missNm = Math.hypot(off, now.toGoNm()) * Math.sin(Math.toRadians(outwardDeg));
        return Math.abs(outwardDeg) < 90 && missNm <= Math.max(pastLimitNm(), DIRECT.lateShare() * off);
    }

    /** Until when a direct that is not taken up was not gone to, flown seconds; NaN where it never was due. */
    double astrayUntilS() {
        return astrayUntilS;
    }

    /** How nearly the way direct was pointed along, as a mean, while it could still be taken up. */
    private void aim(Point now, double off) {
        double error = Math.abs(now.trackErrorDeg());
        double share = Math.min(1, (now.flownS() - offDirectAtS) / AIMED_MEAN_S);
        offDirectDeg = Double.isNaN(offDirectDeg) ? error : offDirectDeg + share * (error - offDirectDeg);
        offDirectAtS = now.flownS();
        if (off <= pastLimitNm()) {
            nearestDirectDeg = Math.min(nearestDirectDeg, offDirectDeg);
        }
    }

    /** How long the reciprocal goes on, once it is a fault. */
    private void reciprocal(@Nullable Point before, Point now) {
        if (!Double.isNaN(reciprocalSinceS)) {
            reciprocalS = Math.max(reciprocalS, untilS(before, now, LineMeasures::offReciprocal) - reciprocalSinceS);
            reciprocalSinceS = offReciprocal(now) > 0 ? Double.NaN : reciprocalSinceS;
        }
    }

    /** Zero or less while on the line, flying the reciprocal. */
    private static double offReciprocal(Point at) {
        return Math.max(
                (180 - Math.abs(at.trackErrorDeg())) / RECIPROCAL_DEG - 1,
                Math.abs(at.crossTrackNm()) / (at.fullScaleNm() / 2) - 1);
    }

    /** Until when a condition held that is given as zero or less: to now, or to where it ended since the point before. */
    private static double untilS(@Nullable Point before, Point now, ToDoubleFunction<Point> off) {
        double to = off.applyAsDouble(now);
        if (to <= 0) {
            return now.flownS();
        }
        double from = before == null || now.newPiece() || !before.hasLine() ? 1 : off.applyAsDouble(before);
        if (before == null || from > 0) {
            return Double.NEGATIVE_INFINITY;
        }
        return before.flownS() + (now.flownS() - before.flownS()) * -from / (to - from);
    }

    /** How long it stays parallel, short of the line, once that is a fault. */
    private void parallel(@Nullable Point before, Point now) {
        if (!Double.isNaN(parallelSinceS)) {
            parallelS = Math.max(parallelS, untilS(before, now, this::offParallel) - parallelSinceS);
            parallelSinceS = offParallel(now) > 0 ? Double.NaN : parallelSinceS;
        }
    }

    /** Zero or less while parallel to the course, too far off it to be on it. */
    private double offParallel(Point at) {
        return Math.max(
                Math.abs(at.trackErrorDeg()) / ALONG_DEG - 1,
                1 - Math.abs(at.crossTrackNm()) / earlyNm(at.fullScaleNm()));
    }

    /** Farther short of the line than this nobody is on it: half scale, on an arc its limit. */
    private double earlyNm(double fullScaleNm) {
        return arc ? ARC.limitNm() : fullScaleNm / 2;
    }

    /** Farther short of the line than this is a fault, NM. */
    double earlyNm() {
        return earlyNm(scaleNm);
    }

    /** The turn toward the course after it was crossed, dated back to where a standard turn began. */
    private void turned(Point now) {
        if (Double.isNaN(crossedS) || !Double.isInfinite(turnedAfterS)) {
            return;
        }
        double nose = Double.isNaN(now.headingMagneticDeg()) ? now.trackTrueDeg() : now.headingMagneticDeg();
        if (Double.isNaN(noseAtCrossingDeg)) {
            noseAtCrossingDeg = nose;
            crossedSide = Math.signum(now.trackErrorDeg());
        }
        if (-crossedSide * Angles.turn(nose - noseAtCrossingDeg) >= TURN_BEGUN_DEG) {
            double turningS = TURN_BEGUN_DEG / Turn.standardTurnRateDegPerS(now.groundSpeedKt());
            turnedAfterS = Math.max(0, now.flownS() - crossedS - turningS);
        }
    }

    /** Since when a condition has held, flown seconds; NaN while it does not. */
    static double since(double beganS, boolean holds, Point now) {
        return !holds ? Double.NaN : Double.isNaN(beganS) ? now.flownS() : beganS;
    }

    private void follow(Point now, double off, boolean turnsOff) {
        followedIt |= now.phase() == Point.Phase.CLOSING || now.phase() == Point.Phase.ON_COURSE;
        nearestNm = left ? nearestNm : Math.min(nearestNm, off);
        settle(now, off);
        drift(now, off);
        home(now, off);
        if (joins(now) || turnsOff) {
            return;
        }
        measure(off, now.fullScaleNm(), now.timeS());
        measuredLast = now;
        course.add(now.timeS());
    }

    private void measure(double off, double fullScaleNm, double timeS) {
        double limit = fullScaleNm * set.limits().courseScale();
        if (afresh || Double.isNaN(limitNm) || off / limit > offNm / limitNm) {
            afresh = false;
            offNm = off;
            offAtS = timeS;
            limitNm = limit;
        }
    }

    /** On an arc, on the near side still: as far short of it as it stays. */
    private void settle(Point now, double off) {
        if (!arc || crossings > 0 || !Double.isNaN(crossedS) || now.phase() != Point.Phase.ON_COURSE) {
            return;
        }
        settledFromS = Double.isNaN(settledFromS) ? now.flownS() : settledFromS;
        if (now.flownS() - settledFromS <= SETTLED_S) {
            settledNm = otherSide(now) ? 0 : Math.min(settledNm, off);
            settledAtS = now.timeS();
        }
    }

    /** After the turn at a fix, on the way to the next line still: that is a matter of the turn. */
    private boolean joins(Point now) {
        if (now.legIndex() != followedLeg) {
            joining = followedLeg >= 0;
            followedLeg = now.legIndex();
        }
        joining &= Math.abs(now.trackErrorDeg()) > ALONG_DEG && now.trackErrorDeg() * now.crossTrackNm() < 0;
        return joining;
    }

    /** Carried off the course by the wind, with the heading along it. */
    private void drift(Point now, double off) {
        double noseDeg = noseErrorDeg(now);
        boolean away = now.trackErrorDeg() * now.crossTrackNm() > 0;
        // A course that is flown wrong is not the wind: more of the way off has to be the drift.
        boolean along = Math.abs(noseDeg) <= ALONG_DEG && Math.abs(noseDeg) <= Math.abs(now.trackErrorDeg()) / 2;
        driftFromNm = along && away && !now.newPiece() ? Math.min(driftFromNm, off) : Double.POSITIVE_INFINITY;
        driftNm = Math.max(driftNm, off - driftFromNm);
    }

    /** The nose on the fix and the track beside it: the wind carries the aircraft off the course, and round to the fix. */
    private void home(Point now, double off) {
        if (!direct || !(now.toGoNm() > 0)) {
            return;
        }
        double fixDeg = Math.toDegrees(Math.atan2(-now.crossTrackNm(), now.toGoNm()));
        double noseOffDeg = Math.abs(noseErrorDeg(now) - fixDeg);
        boolean homes = noseOffDeg <= DIRECT.aimedDeg() && noseOffDeg <= Math.abs(now.trackErrorDeg() - fixDeg) / 2;
        // In a turn through the fix the nose is on it for a moment.
        homesSinceS = since(now.newPiece() ? Double.NaN : homesSinceS, homes, now);
        homedNm = now.flownS() - homesSinceS >= FOLLOWING_S ? Math.max(homedNm, off) : homedNm;
    }

    /** From the course to the nose, degrees, right positive; NaN where the feed has no heading. */
    private static double noseErrorDeg(Point now) {
        return Angles.turn(now.state().headingTrueDegOrNaN() - now.trackTrueDeg() + now.trackErrorDeg());
    }

    /** How far off the course to a fix the aircraft was while the wind carried it and its nose was on the fix, NM. */
    double homedNm() {
        return homedNm;
    }

    /** How far the wind carried the aircraft off the course while the heading was along it, NM. */
    double driftNm() {
        return driftNm;
    }

    /** Whether the course itself was followed, however badly, and not only what comes after it. */
    boolean followedIt() {
        return followedIt;
    }

    /** From when to when the line was followed. */
    Span course() {
        return course;
    }

    /** The largest part of its limit, NM. */
    double offNm() {
        return offNm;
    }

    /** How far off the line the aircraft was that never met it, where the leg ended or it gave up, NM. */
    double besideNm() {
        return besideNm;
    }

    /** When it was that far off, seconds since the first sample; NaN while the line was not followed. */
    double offAtS() {
        return offAtS;
    }

    /** That limit, NM. */
    double limitNm() {
        return limitNm;
    }

    /**
     * Past the line, seen from where it was first met, or parallel to it beyond half scale, NM; of an arc by all that it is
     * short, because both sides of it are alike.
     */
    double missedNm() {
        return Math.max(farNm, shortNm());
    }

    /** Whether it was followed from so far beside, until the route was left, that nobody was on it. */
    boolean besideAllTheWay() {
        return nearestNm > earlyNm() / 2;
    }

    /** Whether the course was near where another one leads away from it, which was tracked, and was not crossed. */
    boolean besideForAnother() {
        return leftForAnother() && neverMetNm() > farNm;
    }

    /** Whether another course was tracked, and the cleared one not come back to as far as its end. */
    boolean leftForAnother() {
        return tracksOther && Double.isNaN(backAtS);
    }

    /** When it was come back to after another was tracked, seconds since the first sample; NaN where it was not. */
    double backAtS() {
        return tracksOther ? backAtS : Double.NaN;
    }

    /** How far past the line, or short of it, it was not met, NM. */
    double missedByNm() {
        return fellShort() ? shortNm() + (arc ? 0 : earlyNm()) : farNm;
    }

    /** How far off the line another course was that was tracked in its place, NM. */
    double offForAnotherNm() {
        return Math.max(missedByNm(), offNm);
    }

    private double shortNm() {
        boolean stayed = !Double.isInfinite(settledNm) && settledNm > TOLD_NM;
        return shortNm > 0 || !stayed ? shortNm : settledNm;
    }

    /**
     * The same of a line that was never met: as near as the aircraft went along it, or as it fell short, NM. Who tracked
     * another course did not roll out short of this one where he came along it farther out.
     */
    double neverMetNm() {
        double nearNm = Math.max(besideOtherNm(), Math.min(closestNm, nearestOnNm)) - (arc ? 0 : earlyNm());
        return Math.max(leftForAnother() ? farNm : missedNm(), Math.max(0, nearNm));
    }

    /** When it was missed by that much, seconds since the first sample; NaN where it was not. */
    double missedAtS() {
        return !fellShort() ? farAtS : shortNm > 0 ? shortAtS : settledAtS;
    }

    /** Whether it was missed on the near side. */
    boolean fellShort() {
        return shortNm() > farNm;
    }

    /** Whether it is an arc about a DME. */
    boolean arc() {
        return arc;
    }

    double farNm() {
        return farNm;
    }

    /**
     * Past the line by more than this is a fault there: the set's limit, or three quarters of the scale if less; on an arc the
     * limit of the arc, NM.
     */
    double pastLimitNm() {
        return arc ? ARC.fullScaleNm() * set.limits().courseScale() : Math.min(set.overshootNm(), 0.75 * scaleNm);
    }

    /** How far from done a line is that was never joined, by how near it the aircraft went: 0 to 1. */
    double missed() {
        if (Double.isInfinite(closestNm)) {
            return 1;
        }
        if (!direct) {
            return Math.max(Fault.severity(closestNm, scaleNm), Fault.severity(besideNm, BESIDE_SCALES * scaleNm));
        }
        return beside(closestNm);
    }

    /** How far beside the arc the aircraft went along it, as a mean, right positive, NM; 0 where it did not. */
    double alongArcRightNm() {
        return alongArcS > 0 ? alongArcRightNmS / alongArcS : 0;
    }

    /** The same of who was near it and left it for another course: by how far off it he was at its end. */
    double missedForAnother() {
        return leftForAnother() ? Fault.severity(besideAlongNm, BESIDE_SCALES * scaleNm) : 0;
    }

    /**
     * Of who left it for another course, how much the turn at its end was still the one that was cleared: all within full
     * scale of it, nothing where its fix could not be passed any more.
     */
    double turnedAtItsEnd() {
        return leftForAnother()
                ? 1 - Math.min(1, Math.max(0, besideAlongNm - scaleNm) / Math.max(1e-9, REACH_NM - scaleNm))
                : 1;
    }

    /** Beside a direct, from where it would have been taken up, 0, to where nobody is on it any more, 1. */
    private double beside(double nm) {
        double share = (nm - pastLimitNm()) / (scaleNm * set.limits().courseScale() - pastLimitNm());
        return Math.min(1, Math.max(0, share));
    }

    /** How far a direct was not gone to: how long, how far beside it and how many degrees off it, 0 to 1. */
    double notAimed() {
        return notAimed;
    }

    /** How grave that is: also by how far off the course to the fix it led, 0 to 1. */
    double ignored() {
        return ignored;
    }

    /** Full scale where the line was last closed on, NM. */
    double scaleNm() {
        return scaleNm;
    }

    /** How near the aircraft went along the line for some seconds; infinite where it only crossed it, NM. */
    double closestNm() {
        return closestNm;
    }

    /** From the first crossing to the begin of a turn toward the course, flown seconds; infinite without one. */
    double turnedAfterS() {
        return turnedAfterS;
    }

    /** When the line was first crossed, flown seconds; NaN where it was not. */
    double crossedS() {
        return crossedS;
    }

    /** Longest time parallel, short of the line, flown seconds. */
    double parallelS() {
        return parallelS;
    }

    /** Longest time on the reciprocal, flown seconds. */
    double reciprocalS() {
        return reciprocalS;
    }

    /** Whether it was left by more than its limit, for all that was seen of it, where nothing was received. */
    boolean farthestUnseen() {
        return unseenPastNm > pastLimitNm() && farNm <= pastLimitNm();
    }

    /** Whether the line was met while nothing was received. */
    boolean metUnseen() {
        return metUnseen;
    }
}
