package org.rejoin.console.truth;

import java.util.List;

import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.console.practice.PracticeAircraft;
import org.rejoin.console.truth.TrueLine.Offset;
import org.rejoin.console.truth.TrueLine.Place;

/** A flight five times a second in the terms of its two legs. Arrays are indexed by fifths of a second from the start. */
final class Track {

    static final int HZ = 5;

    final double[] crossNm;
    final double[] alongNm;
    final double[] courseDeg;
    final double[] trackDeg;
    final double[] headingDeg;
    final double[] altitudeFt;
    final double[] groundKt;
    final double[] nextCrossNm;
    final double[] nextAlongNm;
    final double[] nextCourseDeg;

    Track(Flown flown) {
        int step = Flown.HZ / HZ;
        List<PracticeAircraft> states = flown.states();
        int n = (states.size() + step - 1) / step;
        crossNm = new double[n];
        alongNm = new double[n];
        courseDeg = new double[n];
        trackDeg = new double[n];
        headingDeg = new double[n];
        altitudeFt = new double[n];
        groundKt = new double[n];
        nextCrossNm = new double[n];
        nextAlongNm = new double[n];
        nextCourseDeg = new double[n];
        double first = flown.task().first().lengthNm() - flown.task().setting().legNm();
        double second = -flown.task().setting().legNm();
        for (int i = 0; i < n; i++) {
            PracticeAircraft now = states.get(i * step);
            Place place = new Place(now.position().latitudeDeg(), now.position().longitudeDeg());
            Offset at = flown.task().first().offset(place, first);
            Offset next = flown.task().second().offset(place, second);
            // Where it will be next, so that one step along the line is enough.
            first = 2 * at.alongNm() - (i > 0 ? alongNm[i - 1] : at.alongNm());
            second = 2 * next.alongNm() - (i > 0 ? nextAlongNm[i - 1] : next.alongNm());
            GroundVector ground = now.ground();
            crossNm[i] = at.crossNm();
            alongNm[i] = at.alongNm();
            courseDeg[i] = at.courseDeg();
            trackDeg[i] = ground.track().deg();
            groundKt[i] = ground.groundSpeedKt();
            headingDeg[i] = now.heading().deg();
            altitudeFt[i] = now.altitudeFt();
            nextCrossNm[i] = next.crossNm();
            nextAlongNm[i] = next.alongNm();
            nextCourseDeg[i] = next.courseDeg();
        }
    }

    int size() {
        return crossNm.length;
    }

    /** Track less course of the first leg, mean over the last six seconds. */
    double errorDeg(int i) {
        return meanTurn(trackDeg, courseDeg, i);
    }

    double nextErrorDeg(int i) {
        return meanTurn(trackDeg, nextCourseDeg, i);
    }

    private static double meanTurn(double[] track, double[] course, int i) {
        int from = Math.max(0, i - 6 * HZ);
        double base = TrueLine.turn(track[i] - course[i]);
        double sum = 0;
        for (int j = from; j <= i; j++) {
            sum += TrueLine.turn(TrueLine.turn(track[j] - course[j]) - base);
        }
        return TrueLine.turn(base + sum / (i - from + 1));
    }

    /** Rate of turn, mean over eight seconds around, degrees a second. */
    double rateDegPerS(int i) {
        int from = Math.max(0, i - 4 * HZ);
        int to = Math.min(size() - 1, i + 4 * HZ);
        double sum = 0;
        for (int j = from; j < to; j++) {
            sum += TrueLine.turn(headingDeg[j + 1] - headingDeg[j]);
        }
        return sum * HZ / Math.max(1, to - from);
    }

    /** What holds at an instant. */
    interface Holds {
        boolean at(int i);
    }

    /** The longest time that something held without a break between two instants, seconds. */
    static double longestS(int from, int to, Holds holds) {
        int longest = 0;
        int run = 0;
        for (int i = Math.max(0, from); i < to; i++) {
            run = holds.at(i) ? run + 1 : 0;
            longest = Math.max(longest, run);
        }
        return longest / (double) HZ;
    }

    /** The first instant at which something has held for a time; -1 if never. */
    static int firstHeld(int from, int to, double seconds, Holds holds) {
        int run = 0;
        for (int i = Math.max(0, from); i < to; i++) {
            run = holds.at(i) ? run + 1 : 0;
            if (run >= seconds * HZ) {
                return i;
            }
        }
        return -1;
    }
}
