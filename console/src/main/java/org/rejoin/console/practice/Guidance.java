package org.rejoin.console.practice;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.Offset;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Turn;

/**
 * How to bank for a heading or a line. The capture law is the turn itself: at a distance x from the line the track may
 * still differ from the course by acos(1 - |x| / R), for then a turn of radius R ends on it.
 */
final class Guidance {

    /** A little wider than the turn. */
    private static final double MARGIN = 1.1;

    /** The time the roll takes, seconds: the law looks this far ahead. */
    private static final double AHEAD_S = 2.5;

    /** Close to the line the law is linear, degrees a nautical mile. */
    private static final double CLOSE_GAIN = 180;

    private Guidance() {}

    /** Bank for a heading, the short way. */
    static double bankForHeading(PracticeAircraft now, TrueDirection wanted) {
        return bankForTurn(now, now.heading().turnTo(wanted));
    }

    /** Bank for a heading, one way round until it is near. */
    static double bankForHeading(PracticeAircraft now, TrueDirection wanted, boolean right) {
        double turn = now.heading().turnTo(wanted);
        double round = right ? Angles.circle(turn) : -Angles.circle(-turn);
        return bankForTurn(now, Math.abs(round) > 330 ? turn : round);
    }

    /** Bank for a track over the ground. */
    static double bankForTrack(PracticeAircraft now, TrueDirection wanted) {
        return GroundVector.forCourse(wanted, now.trueAirspeedKt(), now.wind())
                .map(wind -> bankForHeading(now, wind.heading()))
                .orElseGet(() -> bankForHeading(now, wanted));
    }

    static double bankForTurn(PracticeAircraft now, double turnDeg) {
        double rate = Math.max(-Turn.STANDARD_RATE_DEG_PER_S, Math.min(Turn.STANDARD_RATE_DEG_PER_S, turnDeg * 0.4));
        double bank = Turn.bankDeg(now.trueAirspeedKt(), rate);
        double most = now.standardBankDeg();
        return Math.max(-most, Math.min(most, bank));
    }

    /** Radius of the turn the aircraft can make, nautical miles. */
    static double radiusNm(PracticeAircraft now) {
        double rate = Turn.rateDegPerS(now.trueAirspeedKt(), now.standardBankDeg());
        return Turn.radiusNm(now.ground().groundSpeedKt(), rate);
    }

    /** The angle toward the line that the capture law allows at a distance from it, degrees. */
    static double closingDeg(PracticeAircraft now, double crossTrackNm, double mostDeg) {
        double share = Math.abs(crossTrackNm) / (radiusNm(now) * MARGIN);
        double arc = share >= 2 ? 180 : Math.toDegrees(Math.acos(1 - share));
        return Math.min(mostDeg, Math.min(arc, Math.abs(crossTrackNm) * CLOSE_GAIN));
    }

    /** Bank to capture and track a line, straight or an arc. */
    static double bankForLine(PracticeAircraft now, GroundPath line, double mostDeg) {
        Offset offset = line.offset(now.position());
        double ahead = aheadNm(now, offset);
        double wanted = offset.course().deg() - Math.signum(ahead) * closingDeg(now, ahead, mostDeg);
        return bankForTrack(now, new TrueDirection(wanted));
    }

    /** Cross-track a moment from now, on the present track. */
    static double aheadNm(PracticeAircraft now, Offset offset) {
        double rate = now.ground().groundSpeedKt() / 3600 * Math.sin(Math.toRadians(trackErrorDeg(now, offset)));
        return offset.crossTrackNm() + rate * AHEAD_S;
    }

    /** Track less course, degrees. */
    static double trackErrorDeg(PracticeAircraft now, Offset offset) {
        return Angles.turn(now.ground().track().deg() - offset.course().deg());
    }
}
