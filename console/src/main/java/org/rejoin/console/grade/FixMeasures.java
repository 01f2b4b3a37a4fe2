package org.rejoin.console.grade;

import java.util.Optional;

import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Point;
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

    /** Farther off the old course the turn has been made, degrees. */
    private static final double OLD_COURSE_DEG = 15;

    /** A missed turn is one from this long after passing abeam, seconds. */
    static final double MISSED_S = 30;

    /** Off the route by track for this long is having left it, seconds. */
    static final double LEFT_S = 20;

    private static final double LEFT_DEG = 30;

    /** Two courses, and the sound fly-by between them. */
    private record Corner(double oldCourseDeg, double turnDeg, double flyByNm) {}

    private final AmendedRoute route;
    private FlightEvent.@Nullable FixSequenced passed;
    private @Nullable Corner corner;
    private boolean seekingNext;
    private double afterNm;
    private double afterAtS = Double.NaN;
    private double speedKt;
    private double wrongFromS = Double.NaN;
    private double wrongDeg;
    private double wrongNowDeg = Double.NaN;
    private boolean wrongGoesOn;
    private double missedFromS = Double.NaN;
    private double missedS;
    private double leftFromS = Double.NaN;
    private double leftS;
    private double leftScales;

    FixMeasures(AmendedRoute route) {
        this.route = route;
    }

    void event(double flownS, FlightEvent event) {
        if (event instanceof FlightEvent.FixSequenced fix && passed == null) {
            passed = fix;
            corner = corner(fix.ident()).orElse(null);
            seekingNext = !holdsAt(fix.ident());
        } else if (event instanceof FlightEvent.WrongTurn wrong) {
            corner = corner == null ? corner(wrong.ident()).orElse(null) : corner;
            wrongFromS = flownS;
        } else if (event instanceof FlightEvent.SequenceMissed) {
            missedFromS = flownS;
            missedS = MISSED_S;
        } else if (event instanceof FlightEvent.RouteLeft) {
            leftFromS = flownS;
        }
    }

    void point(Point now) {
        speedKt = now.groundSpeedKt();
        if (now.established()) {
            seekingNext = false;
        } else if (seekingNext && now.phase() == Point.Phase.JOINING && now.hasLine()) {
            double off = Math.abs(now.crossTrackNm());
            afterAtS = off > afterNm ? now.timeS() : afterAtS;
            afterNm = Math.max(afterNm, off);
        }
        Corner at = corner;
        if (at != null) {
            double turned = Angles.turn(now.trackTrueDeg() - at.oldCourseDeg());
            wrongWay(now, turned * -Math.signum(at.turnDeg()));
            if (!Double.isNaN(missedFromS)) {
                if (Math.abs(turned) > OLD_COURSE_DEG) {
                    missedFromS = Double.NaN;
                } else {
                    missedS = MISSED_S + now.flownS() - missedFromS;
                }
            }
        }
        if (!Double.isNaN(leftFromS) && now.hasLine()) {
            double scales = Math.abs(now.crossTrackNm()) / now.fullScaleNm();
            leftScales = Math.max(leftScales, scales);
            leftS = now.flownS() - leftFromS;
            if (scales <= 1 && Math.abs(now.trackErrorDeg()) <= LEFT_DEG) {
                leftFromS = Double.NaN;
            }
        } else if (!Double.isNaN(leftFromS)) {
            // Past a hold or a limit there is no line to be back on.
            leftS = now.flownS() - leftFromS;
        }
    }

    /** A turn the wrong way may go on past the reciprocal: it is counted on, not by the shorter way. */
    private void wrongWay(Point now, double fromOldDeg) {
        double wrong = Double.isNaN(wrongNowDeg) ? fromOldDeg : wrongNowDeg + Angles.turn(fromOldDeg - wrongNowDeg);
        wrongNowDeg = wrong;
        if (now.flownS() - wrongFromS <= WRONG_TURN_S) {
            wrongDeg = Math.max(wrongDeg, wrong);
            wrongGoesOn = wrong >= wrongDeg;
        } else if (wrongGoesOn) {
            wrongGoesOn = wrong > wrongDeg;
            wrongDeg = Math.max(wrongDeg, wrong);
        }
    }

    /** The corner at the end of a leg, with a sound fly-by at the speed of the moment: R (sec(angle/2) - 1). */
    private Optional<Corner> corner(String ident) {
        for (int i = 0; i + 1 < route.legs().size(); i++) {
            Leg leg = route.legs().get(i);
            Optional<GroundPath> from = leg.groundPath();
            Optional<GroundPath> onto = route.legs().get(i + 1).groundPath();
            if (leg.endsAt().filter(fix -> fix.ident().equals(ident)).isPresent()
                    && from.isPresent()
                    && onto.isPresent()) {
                double oldCourse = from.get().finalCourse().deg();
                double turn = Angles.turn(onto.get().courseAt(0).deg() - oldCourse);
                return Optional.of(new Corner(oldCourse, turn, flyByNm(turn)));
            }
        }
        return Optional.empty();
    }

    /** Whether the fix is where to hold: then no turn onto the next leg follows its passing. */
    private boolean holdsAt(String ident) {
        return route.holding().filter(hold -> hold.fix().ident().equals(ident)).isPresent();
    }

    private double flyByNm(double turnDeg) {
        double half = Math.toRadians(Math.min(Math.abs(turnDeg), 150) / 2);
        return Turn.standardRadiusNm(speedKt) * (1 / Math.cos(half) - 1);
    }

    /** The fix, once it was passed. */
    Optional<FlightEvent.FixSequenced> passed() {
        return Optional.ofNullable(passed);
    }

    /** Whether that is where to hold. */
    boolean holdsThere() {
        FlightEvent.FixSequenced fix = passed;
        return fix != null && holdsAt(fix.ident());
    }

    /** From the fix, or from the line after it until established there, beyond what a sound fly-by has anyway, NM. */
    double pastNm() {
        FlightEvent.FixSequenced fix = passed;
        Corner at = corner;
        return fix == null ? 0 : Math.max(0, Math.max(fix.lateralNm(), afterNm) - (at == null ? 0 : at.flyByNm()));
    }

    /** When it was that far past, seconds since the first sample; NaN before the fix. */
    double pastAtS() {
        FlightEvent.FixSequenced fix = passed;
        return fix == null ? Double.NaN : afterNm > fix.lateralNm() ? afterAtS : fix.timeS();
    }

    /** How far a turn went the wrong way, degrees. */
    double wrongDeg() {
        return wrongDeg;
    }

    /** How long after the fix the old course was still flown, flown seconds. */
    double missedS() {
        return missedS;
    }

    /** How far the route was left, as a multiple of what makes it a fault; 1 at that. */
    double left() {
        return Math.max(leftScales, (LEFT_S + leftS) / LEFT_S);
    }
}
