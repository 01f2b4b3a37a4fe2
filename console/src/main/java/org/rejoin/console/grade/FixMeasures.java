package org.rejoin.console.grade;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.flight.CourseMeasure;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.bridge.geo.Turn;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Leg;

import org.jspecify.annotations.Nullable;

/** How the turn at the end of the course was flown, and whether the route was left before it. */
final class FixMeasures {

    /** How long a wrong turn goes on at most, seconds; common practice, no source. */
    private static final double WRONG_TURN_S = 90;

    /** Track this close to a course is along it, degrees. */
    private static final double ALONG_DEG = 10;

    /** Going away from the next course more steeply than this he leaves it, and at twice as much all; common practice, no source. */
    private static final double AWAY_DEG = 17.5;

    /** Going away from it by so much more than along it, how far off it he has come counts whole; common practice, no source. */
    private static final double DRIFTING_DEG = 25;

    /** Farther off the old course the turn has been made, degrees. */
    private static final double OLD_COURSE_DEG = 15;

    /** So much nearer to the old course, and so much farther from the next, none of it was; common practice, no source. */
    private static final double NOT_TURNED_DEG = 10;

    /** A missed turn is one from this long after passing abeam, seconds. */
    static final double MISSED_S = 30;

    /** Still on the old course after this long he does not know that he missed it, seconds; common practice, no source. */
    private static final double LOST_S = 300;

    /** From one and a half circles past the course from the fix on, it is gone on from late; common practice, no source. */
    private static final double LATE_FROM_DEG = 540;

    private static final Rule.RouteLeft LEFT = Rules.STANDARD.of(Rule.RouteLeft.class);

    private static final Rule.WrongTurn WRONG = Rules.STANDARD.of(Rule.WrongTurn.class);

    private static final Rule.FixSequenced PASSING = Rules.STANDARD.of(Rule.FixSequenced.class);

    /** Who keeps within this of the course and comes back has not left it. */
    private static final double KEPT_SCALE =
            Rules.STANDARD.of(Rule.CourseDeviation.class).ofScale();

    /** Turned off the route so far short of the turn at the end of the leg it weighs all, NM; common practice, no source. */
    private static final double LEFT_SHORT_NM = 1;

    /** Off the route for so long its distance weighs most, seconds, and so many times; common practice, no source. */
    private static final double LEFT_LONG_S = 60;

    private static final double LEFT_LONG_TIMES = 4;

    private static final double TURNING_SHARE =
            Rules.STANDARD.of(Rule.Rates.class).turningShare();

    /** Two courses at a fix, and the sound fly-by between them; an old course that is an arc turns on by itself. */
    private record Corner(String ident, boolean arc, double oldCourseDeg, double turnDeg, double flyByNm) {}

    private final AmendedRoute route;
    private FlightEvent.@Nullable FixSequenced passed;
    private @Nullable Corner corner;
    /** The corner at the fix at the end of the course. */
    private @Nullable Corner flyBy;

    /** Whether a turn at the fix has gone wrong, and what follows it was not joined since. */
    private boolean goesOnPast;

    /** Where it ends an arc: how far beside the arc it was passed, which is a matter of the arc, NM. */
    private double arcOffNm;

    private boolean seekingNext;
    private double passedFlownS = Double.NaN;
    private double notGoneOnS;
    private double besideSinceS = Double.NaN;
    private double besideScales = Double.POSITIVE_INFINITY;
    private double besideNextNm = Double.POSITIVE_INFINITY;

    /** How steeply he comes back to it, degrees; less than nothing where he goes away. */
    private double backDeg;

    /** How gravely he goes away from it: by how steeply, and by how far he has come. */
    private double goesAway;

    private double afterNm;
    private double afterAtS = Double.NaN;
    /** Along the old course, as the lead is worked out before the turn: the wind changes it in the turn. */
    private double speedKt;

    private int leadLeg = -1;
    private double leadTurnDeg;
    private double leadCourseDeg;
    private double wrongFromS = Double.NaN;
    private double wrongDeg;
    /** Off the old course, right positive, counted on past the reciprocal; NaN before the fix. */
    private double turnedDeg = Double.NaN;

    /** The farthest turned on past the next course, or to the other side of the old one, before that was flown, degrees. */
    private double pastDeg;

    private boolean roundAgain;

    private double wrongSide = Double.NaN;
    private boolean wrongGoesOn;
    private double missedFromS = Double.NaN;
    private double missedS;
    private double missedSeverity;
    private double lost;
    private double leftFromS = Double.NaN;
    private int leftLeg = -1;
    /** When the end of the leg that was left would have been reached, flown seconds; NaN where none was. */
    private double leftEndS = Double.NaN;

    private boolean wentOnElsewhere;

    /** Whether it was left to the inside of the turn at its end, and the leg after it joined. */
    private boolean leftInside;

    private boolean cutCorner;
    private double turnedOffS;
    private double turnedOffDegS;
    private double outsideS;
    private double outside;
    private boolean leftKept = true;
    /** How long he has flown back beside the leg that he left, flown seconds. */
    private double backS;

    private double leftSeverity;
    private double turnedShort;

    FixMeasures(AmendedRoute route) {
        this.route = route;
    }

    /** Takes an event; {@code last} is the point before it, null where there is none. */
    void event(double flownS, FlightEvent event, @Nullable Point last) {
        if (event instanceof FlightEvent.FixSequenced fix && passed == null) {
            passed = fix;
            passedFlownS = flownS;
            corner = corner(fix.ident(), last).orElse(null);
            flyBy = corner;
            arcOffNm = last != null && last.hasLine() && onArc(last, fix.ident()) ? Math.abs(last.crossTrackNm()) : 0;
            seekingNext = !holdsAt(fix.ident());
            turnedShort = last != null && last.hasLine() ? turnedShort(last, flownS, fix.lateralNm()) : 0;
            leftSeverity = Math.max(leftSeverity, turnedShort);
        } else if (event instanceof FlightEvent.FixSequenced fix && !seekingNext) {
            turnsAt(fix.ident(), last);
        } else if (event instanceof FlightEvent.WrongTurn wrong) {
            turnsAt(wrong.ident(), last);
            goesOnPast = true;
            wrongFromS = flownS;
        } else if (event instanceof FlightEvent.SequenceMissed) {
            missedFromS = flownS;
            missedS = MISSED_S;
        } else if (event instanceof FlightEvent.RouteLeft left) {
            leftFromS = flownS;
            leftLeg = -1;
            leftInside = false;
            leftEndS = Double.NaN;
            // At a limit or in a hold there is no leg to leave short of its end.
            if (last != null && last.hasLine() && beforeItsEnd(last)) {
                leftLeg = last.legIndex();
                // Beside the course on that side he is off it; turned to that side he cuts the corner.
                double turnDeg = turnAheadDeg(last);
                leftInside = Math.abs(last.trackErrorDeg()) > ALONG_DEG
                        && last.trackErrorDeg() * turnDeg > 0
                        && left.crossTrackNm() * turnDeg > 0;
                leftEndS = flownS + last.toGoNm() / last.groundSpeedKt() * 3600;
            }
        }
    }

    /** What is turned is measured at the latest fix; how the one at the end of the course was passed stays as it was. */
    private void turnsAt(String ident, @Nullable Point last) {
        Corner at = corner;
        if (at == null || !at.ident().equals(ident)) {
            corner = corner(ident, last).orElse(at);
            turnedDeg = Double.NaN;
            wrongSide = Double.NaN;
            wrongGoesOn = false;
            goesOnPast = false;
        }
    }

    void point(@Nullable Point before, Point now) {
        boolean along = now.hasLine() && Math.abs(now.trackErrorDeg()) <= ALONG_DEG;
        speedKt = speedKt == 0 || along ? now.groundSpeedKt() : speedKt;
        if (now.established()) {
            seekingNext = false;
            notGoneOnS = 0;
        } else if (seekingNext) {
            notGoneOnS = now.flownS() - passedFlownS;
        }
        if (seekingNext && now.phase().compareTo(Point.Phase.JOINING) >= 0 && now.hasLine()) {
            double off = beyondFlyByNm(now.crossTrackNm());
            afterAtS = off > afterNm ? now.timeS() : afterAtS;
            afterNm = Math.max(afterNm, off);
            beside(now);
            double towardDeg = -now.trackErrorDeg() * Math.signum(now.crossTrackNm());
            backDeg = towardDeg < 90 ? towardDeg : 0;
        }
        Corner at = corner;
        if (at != null) {
            double turned = Angles.turn(now.trackTrueDeg() - at.oldCourseDeg());
            turnedDeg = Double.isNaN(turnedDeg) ? turned : turnedDeg + Angles.turn(turned - turnedDeg);
            wrongWay(now, at.turnDeg());
            goesOnPast &= !now.established();
            if (seekingNext || goesOnPast) {
                pastDeg = Math.max(pastDeg, WRONG.beyondDeg(at.turnDeg(), turnedDeg));
                roundAgain |= Math.abs(turnedDeg) >= 360 - OLD_COURSE_DEG;
            }
            if (!Double.isNaN(missedFromS)) {
                if (Math.abs(turned) > OLD_COURSE_DEG) {
                    missedFromS = Double.NaN;
                } else {
                    missedS = MISSED_S + now.flownS() - missedFromS;
                    double notTurned = at.arc() ? 1 : notTurned(turned, at.turnDeg());
                    missedSeverity = Math.max(missedSeverity, notTurned * severity(missedS));
                    lost = Math.max(lost, notTurned * lost(missedS));
                }
            }
        }
        left(before, now);
        // Along the leg again he goes on beside it.
        leftInside &= now.legIndex() != leftLeg || !along;
        cutCorner |= leftInside && now.legIndex() > leftLeg;
        wentOnElsewhere |= leftLeg >= 0 && (now.flownS() >= leftEndS || now.legIndex() > leftLeg);
    }

    /**
     * How much nearer the old course is than the next: 0 where he has turned off it to its side, or nearly onto the next, 1 where
     * he flies on, or has turned the other way.
     */
    private static double notTurned(double turnedDeg, double turnDeg) {
        double fromNextDeg = Math.abs(Angles.turn(turnedDeg - turnDeg));
        double nearer =
                Math.min(OLD_COURSE_DEG - Math.max(0, turnedDeg * Math.signum(turnDeg)), fromNextDeg - ALONG_DEG);
        return Math.min(1, Math.max(0, nearer / NOT_TURNED_DEG));
    }

    /** Who goes along the next course is as far from it as he is now; who goes away from it is not along it. */
    private void beside(Point now) {
        CourseMeasure next = now.measure();
        double error = Math.abs(now.trackErrorDeg());
        double off = Math.abs(now.crossTrackNm());
        boolean onward = error <= 2 * AWAY_DEG && next != null && next.alongNm() > 0;
        boolean toward = now.trackErrorDeg() * now.crossTrackNm() < 0;
        besideSinceS = LineMeasures.since(besideSinceS, onward, now);
        if (now.flownS() - besideSinceS >= LineMeasures.FOLLOWING_S) {
            boolean nearer = error <= ALONG_DEG || off < besideNextNm;
            besideNextNm = nearer ? off : besideNextNm;
            besideScales = nearer ? off / now.fullScaleNm() : besideScales;
            goesAway = toward ? 0 : goesAway(now, error);
        } else if (!onward && !toward) {
            besideNextNm = Double.POSITIVE_INFINITY;
            besideScales = Double.POSITIVE_INFINITY;
        }
    }

    /** Who turned too little goes away a little, and is far beside it in the end; who turned past it has been on it. */
    private double goesAway(Point now, double errorDeg) {
        Corner at = flyBy;
        boolean turnedShort = at != null && now.trackErrorDeg() * at.turnDeg() < 0;
        double little = turnedShort ? Math.min(1, Math.max(0, errorDeg - ALONG_DEG) / DRIFTING_DEG) : 0;
        double scales = Math.abs(now.crossTrackNm()) / now.fullScaleNm();
        return Math.max(Fault.severity(errorDeg, AWAY_DEG), Math.min(little, Fault.severity(scales, LEFT.ofScale())));
    }

    /** Onto the heading from a fix: by how far short of it he turned, or how far beside it he passed. */
    private double turnedShort(Point last, double flownS, double besideNm) {
        if (!route.turnsOntoHeadingAfter(last.legIndex())) {
            return 0;
        }
        // A set may have a scale as wide as the reach: then nobody who passed it was off it.
        double roomNm = PASSING.reachNm() - last.fullScaleNm();
        double beside = roomNm > 0 ? (besideNm - last.fullScaleNm()) / roomNm : 0;
        double shortNm = shortNm(last) - StepOn.alongNm(last, flownS);
        return Math.min(1, Math.max(0, Math.max(shortNm / LEFT_SHORT_NM, beside)));
    }

    /** Whether it is the end of an arc that is being flown. */
    private boolean onArc(Point last, String ident) {
        Leg leg = route.legs().get(last.legIndex());
        return leg instanceof Leg.DmeArc
                && leg.endsAt().filter(fix -> fix.ident().equals(ident)).isPresent();
    }

    /** Inside the turn a sound fly-by has some distance from the new line; outside it has none. */
    private double beyondFlyByNm(double crossNm) {
        Corner at = flyBy;
        double insideNm = at != null && crossNm * at.turnDeg() > 0 ? at.flyByNm() : 0;
        return Math.max(0, Math.abs(crossNm) - insideNm);
    }

    /** Whether it is the turn at the end of the leg that leads off its course. */
    boolean turnsOff(Point now) {
        // Nearly every sample is along its course: the lead is worked out for those that are not.
        if (!now.hasLine() || Math.abs(now.trackErrorDeg()) <= ALONG_DEG) {
            return false;
        }
        double turn = turnAheadDeg(now);
        return now.crossTrackNm() * turn > 0
                && now.trackErrorDeg() * Math.signum(turn) > ALONG_DEG
                && now.toGoNm() <= leadNm(now);
    }

    /**
     * How gravely the route was left: by how far beyond full scale, more the longer it lasts, or by how long and how far it
     * was turned away from, how far short of the turn at the end of its leg, and how far beyond what a course is to be kept
     * within. What is flown once that turn is due is the turn.
     */
    private void left(@Nullable Point before, Point now) {
        double passedS = before == null || now.newPiece() ? 0 : now.flownS() - before.flownS();
        if (leftLeg < 0 && !Double.isNaN(leftFromS)) {
            // There is no line to be back on.
            double sinceS = now.flownS() - leftFromS + LEFT.turnedS();
            leftSeverity = Math.max(leftSeverity, Fault.severity(sinceS, LEFT.turnedS()));
        }
        if (!now.hasLine()) {
            return;
        }
        double scales = Math.abs(now.crossTrackNm()) / now.fullScaleNm();
        double beyond = scales / LEFT.ofScale() - 1;
        boolean sameLeg = before != null && before.legIndex() == now.legIndex();
        // Before being established the leg is not left, only not met yet.
        boolean turned = sameLeg && now.established() && turnedOff(now);
        turnedOffS = turned ? turnedOffS + passedS : 0;
        turnedOffDegS = turned ? turnedOffDegS + passedS * Math.abs(now.trackErrorDeg()) : 0;
        outsideS = sameLeg && beyond > 0 ? outsideS + passedS : 0;
        double lasting = shortNm(now) > 0 ? (longTimes(now) - 1) * Math.min(1, outsideS / LEFT_LONG_S) : 0;
        double far = beyond * (1 + lasting);
        if (far > outside && beforeItsEnd(now)) {
            outside = Math.min(1, far);
        }
        if (Double.isNaN(leftFromS) || now.legIndex() != leftLeg) {
            return;
        }
        backS += passedS * back(now);
        leftKept &= scales <= KEPT_SCALE && backS <= LineMeasures.RECIPROCAL_S;
        if (beforeItsEnd(now)) {
            leftSeverity = Math.max(leftSeverity, Fault.severity(backS, LineMeasures.RECIPROCAL_S));
            leftSeverity = Math.max(leftSeverity, Math.min(1, Math.max(far, away(scales, shortNm(now)))));
        }
    }

    /**
     * How much of the time counts as flown back beside the leg, which is no wander however near he keeps: none of it square to
     * it or turning, all of it along the reciprocal.
     */
    private static double back(Point now) {
        double turning = Math.abs(now.turnRateDegPerS()) / Turn.standardTurnRateDegPerS(now.groundSpeedKt());
        double backDeg = Math.abs(now.trackErrorDeg()) - 90;
        return turning > TURNING_SHARE ? 0 : Math.min(1, Math.max(0, backDeg / (90 - LineMeasures.RECIPROCAL_DEG)));
    }

    /** Turned off it he goes somewhere else; along it he is beside it, and no farther for the time it takes. */
    private static double longTimes(Point now) {
        double share = (Math.abs(now.trackErrorDeg()) - ALONG_DEG) / (LEFT.turnedDeg() - ALONG_DEG);
        return 1 + (LEFT_LONG_TIMES - 1) * Math.min(1, Math.max(0, share));
    }

    /** The least of them, so that none of them alone makes a wander a route left. */
    private double away(double scales, double shortNm) {
        if (turnedOffS <= 0) {
            return 0;
        }
        double turned = Math.min(
                Fault.severity(turnedOffS, LEFT.turnedS()),
                Fault.severity(turnedOffDegS / turnedOffS, LEFT.turnedDeg()));
        double aside = Fault.severity(scales, KEPT_SCALE);
        return Math.min(turned, Math.min(shortNm / LEFT_SHORT_NM, aside));
    }

    /** Turned off the leg and away from it: back toward it is a correction. */
    private static boolean turnedOff(Point now) {
        double towardNm = -now.crossTrackNm() * Math.signum(now.trackErrorDeg());
        return Math.abs(now.trackErrorDeg()) > LEFT.turnedDeg() && towardNm <= LEFT.backNm();
    }

    /** How far it is until the turn at the end of the leg is due. */
    private double shortNm(Point now) {
        return now.toGoNm() - LEFT.marginNm() - leadNm(now);
    }

    /** Before the turn at the end of the leg is due, or not turning and before its end still. */
    private boolean beforeItsEnd(Point now) {
        return shortNm(now) > 0 || (now.toGoNm() > 0 && Math.abs(now.trackErrorDeg()) <= LEFT.alongDeg());
    }

    private double leadNm(Point now) {
        return Turn.standardTurnLeadNm(now.groundSpeedKt(), turnAheadDeg(now));
    }

    /** Along a leg, the turn at its end; that of the plan is worked out once for each leg. */
    private double turnAheadDeg(Point now) {
        if (now.legIndex() != leadLeg) {
            leadLeg = now.legIndex();
            leadTurnDeg = turnAfterDeg(leadLeg);
            leadCourseDeg = finalCourseDeg(leadLeg);
        }
        return leadTurnDeg == 0 ? 0 : fromCourse(leadTurnDeg, leadCourseDeg, oldCourseDeg(now, leadCourseDeg));
    }

    private double turnAfterDeg(int leg) {
        List<Leg> legs = route.legs();
        return legs.size() <= leg + 1
                ? 0
                : turnDeg(legs.get(leg), legs.get(leg + 1)).orElse(0);
    }

    /** Planned course at the end of a leg, degrees true; 0 where it has no line. */
    private double finalCourseDeg(int leg) {
        return route.legs()
                .get(leg)
                .groundPath()
                .map(path -> path.finalCourse().deg())
                .orElse(0.0);
    }

    /** A direct leads to its fix by the course on which it was taken up, and not from where it was said. */
    private static double oldCourseDeg(Point now, double plannedDeg) {
        return now.direct() ? now.trackTrueDeg() - now.trackErrorDeg() : plannedDeg;
    }

    /** A turn that was planned from one course, made from another. */
    private static double fromCourse(double turnDeg, double plannedDeg, double oldCourseDeg) {
        return Angles.turn(turnDeg - (oldCourseDeg - plannedDeg));
    }

    private static OptionalDouble turnDeg(Leg leg, Leg next) {
        Optional<GroundPath> from = leg.groundPath();
        Optional<GroundPath> onto = next.groundPath();
        return from.isPresent() && onto.isPresent()
                ? OptionalDouble.of(Angles.turn(
                        onto.get().courseAt(0).deg() - from.get().finalCourse().deg()))
                : OptionalDouble.empty();
    }

    /** Where the route hardly turns, either way is wrong: then it is the one that was turned. Half a turn has no wrong way. */
    private void wrongWay(Point now, double turnDeg) {
        if (Double.isNaN(wrongFromS) || WRONG.halfTurn(turnDeg)) {
            return;
        }
        wrongSide = Double.isNaN(wrongSide) ? Math.signum(WRONG.eitherWay(turnDeg) ? turnedDeg : -turnDeg) : wrongSide;
        double wrong = wrongSide * turnedDeg;
        if (now.flownS() - wrongFromS <= WRONG_TURN_S) {
            wrongDeg = Math.max(wrongDeg, wrong);
            wrongGoesOn = wrong >= wrongDeg;
        } else if (wrongGoesOn) {
            wrongGoesOn = wrong > wrongDeg;
            wrongDeg = Math.max(wrongDeg, wrong);
        }
    }

    /**
     * The corner at the end of a leg, with a sound fly-by at the speed of the moment: R (sec(angle/2) - 1).
     */
    private Optional<Corner> corner(String ident, @Nullable Point last) {
        for (int i = 0; i + 1 < route.legs().size(); i++) {
            Leg leg = route.legs().get(i);
            OptionalDouble turn = turnDeg(leg, route.legs().get(i + 1));
            if (leg.endsAt().filter(fix -> fix.ident().equals(ident)).isPresent() && turn.isPresent()) {
                double planned = finalCourseDeg(i);
                double oldCourse =
                        last != null && last.hasLine() && last.legIndex() == i ? oldCourseDeg(last, planned) : planned;
                double turnDeg = fromCourse(turn.getAsDouble(), planned, oldCourse);
                return Optional.of(new Corner(ident, leg instanceof Leg.DmeArc, oldCourse, turnDeg, flyByNm(turnDeg)));
            }
        }
        return Optional.empty();
    }

    /** Whether the fix is where to hold: then no turn onto the next leg follows its passing. */
    private boolean holdsAt(String ident) {
        return route.holding().filter(hold -> hold.fix().ident().equals(ident)).isPresent();
    }

    private double flyByNm(double turnDeg) {
        double half = Math.toRadians(Math.min(Math.abs(turnDeg), Turn.SHARPEST_LED_DEG) / 2);
        return Turn.standardTurnRadiusNm(speedKt) * (1 / Math.cos(half) - 1);
    }

    /** The fix, once it was passed. */
    Optional<FlightEvent.FixSequenced> passed() {
        return Optional.ofNullable(passed);
    }

    /** Whether that is the one at the end of the course; of an airway that was to be met anywhere, any of it. */
    boolean ofCourse() {
        FlightEvent.FixSequenced fix = passed;
        return fix != null
                && (route.course().isEmpty()
                        || route.legs()
                                .get(route.courseLeg())
                                .endsAt()
                                .filter(end -> end.ident().equals(fix.ident()))
                                .isPresent());
    }

    /** Whether that is where to hold. */
    boolean holdsThere() {
        FlightEvent.FixSequenced fix = passed;
        return fix != null && holdsAt(fix.ident());
    }

    /** From the fix, or from the line after it until established there, beyond what a sound fly-by has anyway, NM. */
    double pastNm() {
        return Math.max(fixNm(), afterNm);
    }

    /** From the fix, beyond what a sound fly-by has anyway, NM. */
    private double fixNm() {
        FlightEvent.FixSequenced fix = passed;
        Corner at = flyBy;
        return fix == null ? 0 : Math.max(0, fix.lateralNm() - arcOffNm - (at == null ? 0 : at.flyByNm()));
    }

    /** When it was that far past, seconds since the first sample; NaN before the fix. */
    double pastAtS() {
        FlightEvent.FixSequenced fix = passed;
        return fix == null ? Double.NaN : afterNm > fixNm() ? afterAtS : fix.timeS();
    }

    /** How far a turn went the wrong way, or on past the course that was to be flown, degrees. */
    double wrongDeg() {
        return Math.max(wrongDeg, pastDeg >= WRONG.pastDeg() ? pastDeg : 0);
    }

    /** How grave that is: 0 at what makes it a fault, all at twice as much. */
    double wrongSeverity() {
        return Math.max(Fault.severity(wrongDeg, WRONG.wrongDeg()), Fault.severity(pastDeg, WRONG.pastDeg()));
    }

    /** Whether it was turned in the right way, and too far. */
    boolean turnedPast() {
        return pastDeg >= WRONG.pastDeg() && wrongDeg < WRONG.wrongDeg();
    }

    /** Whether a full circle was turned from the fix on, and what follows it not flown before. */
    boolean roundAgain() {
        return roundAgain;
    }

    /** How much of going on from the fix was lost in more circles than one: 0 in one and a half, 1 in three. */
    double circlesMore() {
        return roundAgain ? Math.min(1, Math.max(0, pastDeg - LATE_FROM_DEG) / LATE_FROM_DEG) : 0;
    }

    /** How long after the fix the old course was still flown, flown seconds. */
    double missedS() {
        return missedS;
    }

    /** Whether it still is flown: no turn at the fix was seen. */
    boolean neverTurned() {
        return !Double.isNaN(missedFromS);
    }

    /**
     * How grave that is: a turn half forgotten at first, and in the end the aircraft where nobody expects it; less where a part
     * of the turn was made.
     */
    double missedSeverity() {
        return missedSeverity;
    }

    /** The same of who passed the fix by another way than the course to it, and has not come onto what follows it since. */
    double notGoneOnSeverity() {
        return severity(notGoneOnS);
    }

    private static double severity(double pastS) {
        return (Fault.severity(pastS, MISSED_S) + lost(pastS)) / 2;
    }

    /**
     * How far from done what follows the fix is that was never joined: by how far beside it the aircraft went along it, 0 within
     * full scale, 1 from twice that on, no less than of who joined it and did not keep it; and by how steeply it goes away from
     * it and how far it has come; 1 where it did not go along it.
     */
    double neverJoined() {
        if (!seekingNext) {
            return 1;
        }
        double beside =
                Math.max(Fault.severity(besideScales, LEFT.ofScale()), Fault.severity(besideScales, KEPT_SCALE) / 2);
        return Math.max(beside, goesAway);
    }

    /** Whether the fix was passed, and what follows it never joined by who went along it. */
    boolean wentBesideNext() {
        return neverJoined() < 1;
    }

    /** How near he went along it, NM. */
    double besideNextNm() {
        return besideNextNm;
    }

    /** How far from coming back to what follows the fix he was last: 0 on his way to it, 1 along it or away. */
    double notComingBack() {
        return Math.min(1, Math.max(0, 1 - backDeg / ALONG_DEG));
    }

    /** How much of the course that follows the fix was lost on the old one: 0 to a minute past it, 1 from five on. */
    double lost() {
        return lost;
    }

    /** The same of who has not gone on from it. */
    double notGoneOn() {
        return lost(notGoneOnS);
    }

    private static double lost(double pastS) {
        return Math.min(1, Math.max(0, (pastS - 2 * MISSED_S) / (LOST_S - 2 * MISSED_S)));
    }

    /** How gravely a leg was left by distance, whether or not it was ever met: 0 within full scale, to 1. */
    double outside() {
        return outside;
    }

    /** Whether who turned off a leg stayed as near it as a course is to be kept, and on his way: a wander, and no route left. */
    boolean leftKept() {
        return leftLeg >= 0 && leftKept && turnedShort == 0;
    }

    /** Whether the leg was left, and not come back to by the time its end was due: its fix was not passed. */
    boolean missedByLeaving() {
        return passed == null && wentOnElsewhere && leftSeverity > 0;
    }

    /** How far short of the fix the turn to the heading from it was made: 0 about the fix, to 1 where it was another turn. */
    double turnedShort() {
        return turnedShort;
    }

    /** Whether the leg was left for the one after it, inside the turn between them. */
    boolean cutCorner() {
        return cutCorner;
    }

    /** How gravely the route was left: 0 at what makes it a fault, 1 where it was left for good. */
    double leftSeverity() {
        return leftSeverity;
    }
}
