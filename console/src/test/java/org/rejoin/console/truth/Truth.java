package org.rejoin.console.truth;

import java.util.OptionalDouble;

/**
 * What truly happened, measured on the true trajectory.
 *
 * <p>Definitions of the trade, as an examiner would take them: <em>established</em> is within half scale with the track
 * within 10 degrees of the course for 5 s, or within three quarters of the scale for 30 s going along it (ICAO Doc 8168 counts
 * half scale; the times are common practice, no source). Distances in nautical miles, times in seconds from the first sample.
 */
final class Truth {

    static final double HALF = Task.FULL_SCALE_NM / 2;
    static final double THREE_QUARTERS = Task.FULL_SCALE_NM * 0.75;

    final Flown flown;
    final Track track;

    /** From which side the line is come to: the sign of the cross-track. */
    final double side;

    /** Instants, as indices of {@link Track}; -1 where it did not come to that. */
    final int crossed;

    final int established;

    /** Established within half scale. */
    final int close;

    final int onSecond;
    final int abeam;

    /** First instant of the turn at the end of the leg, or the end of the flight. */
    final int endOfFirst;

    /** Angle between track and course at the crossing, degrees. */
    final double crossedAtDeg;

    /** How far the aircraft was carried past the line before it was settled. */
    final double carriedNm;

    /** Distance from the end of the leg as it was passed abeam; for a turn inside it the least distance. */
    final double fixMissedNm;

    Truth(Flown flown) {
        this.flown = flown;
        this.track = new Track(flown);
        int cleared = at(Task.CLEARED_S);
        double length = flown.task().first().lengthNm();
        this.side = Math.signum(track.crossNm[Math.min(cleared, track.size() - 1)]);
        int end = Double.isNaN(flown.turnS()) ? track.size() : Math.min(track.size(), at(flown.turnS()));
        this.endOfFirst = end;
        this.crossed =
                Track.firstHeld(cleared, end, 0.2, i -> side * track.crossNm[i] < 0 && track.alongNm[i] < length);
        this.crossedAtDeg = crossed < 0 ? Double.NaN : Math.abs(error(crossed));
        int from = Double.isNaN(flown.captureS()) ? track.size() : at(flown.captureS());
        this.close = Track.firstHeld(
                from, end, 5, i -> Math.abs(track.crossNm[i]) <= HALF && Math.abs(track.errorDeg(i)) < 10);
        this.established = established(from, end);
        this.onSecond = secondFrom(end);
        this.carriedNm = crossed < 0 ? 0 : carried();
        this.abeam = Track.firstHeld(Math.max(0, established), track.size(), 0.2, i -> track.alongNm[i] >= length);
        double least = Double.MAX_VALUE;
        for (int i = Math.max(0, established); i < track.size(); i++) {
            least = Math.min(least, Math.hypot(track.alongNm[i] - length, track.crossNm[i]));
        }
        this.fixMissedNm = least;
    }

    static int at(double timeS) {
        return (int) Math.round(timeS * Track.HZ);
    }

    static double seconds(int index) {
        return index / (double) Track.HZ;
    }

    private double error(int i) {
        return TrueLine.turn(track.trackDeg[i] - track.courseDeg[i]);
    }

    private int established(int from, int end) {
        int wide = Track.firstHeld(
                from, end, 30, i -> Math.abs(track.crossNm[i]) <= THREE_QUARTERS && Math.abs(track.errorDeg(i)) < 45);
        return close < 0 ? wide : wide < 0 ? close : Math.min(close, wide);
    }

    private int secondFrom(int end) {
        return Track.firstHeld(
                end,
                track.size(),
                5,
                i -> Math.abs(track.nextCrossNm[i]) <= HALF
                        && Math.abs(track.nextErrorDeg(i)) < 10
                        && track.nextAlongNm[i] > -0.5);
    }

    private double carried() {
        double most = 0;
        for (int i = crossed; i < endOfFirst; i++) {
            double beyond = -side * track.crossNm[i];
            most = Math.max(most, beyond);
            boolean settled = established >= 0 && i >= established && Math.abs(track.errorDeg(i)) < 10;
            if (settled || beyond < -0.05) {
                break;
            }
        }
        return most;
    }

    /** Seconds between the crossing and the moment the pilot set out to turn; negative for before it; empty if not crossed. */
    OptionalDouble turnAfterCrossingS() {
        if (crossed < 0) {
            return OptionalDouble.empty();
        }
        return OptionalDouble.of(
                Double.isNaN(flown.captureS()) ? Double.MAX_VALUE : flown.captureS() - seconds(crossed));
    }

    /** The longest time that the heading was off by more than a limit while it was to be held. */
    double headingOffS(double limitDeg, double graceS) {
        double assigned = flown.task().assignedDeg();
        double turn = Math.abs(TrueLine.turn(assigned - flown.task().headingBeforeDeg()));
        double rate = Math.min(
                3,
                1092.2 * Math.tan(Math.toRadians(25)) / flown.task().setting().speedKt());
        int from = at(Task.CLEARED_S + 10 + turn / rate + graceS);
        // Past the line the course is to be flown: holding the heading there is flying through, not a heading badly held.
        int met = crossed < 0 ? track.size() : crossed;
        int to = Double.isNaN(flown.captureS()) ? met : Math.min(met, at(flown.captureS()));
        return Track.longestS(
                from,
                Math.min(to, track.size()),
                i -> Math.abs(TrueLine.turn(track.headingDeg[i] - assigned)) > limitDeg);
    }

    /** The longest time beyond an altitude limit from the clearance until the graded part has surely ended. */
    double altitudeOffS(double limitFt) {
        int to = onSecond < 0 ? track.size() : Math.min(track.size(), onSecond + at(20));
        return Track.longestS(at(Task.CLEARED_S), to, i -> Math.abs(track.altitudeFt[i] - Task.ALTITUDE_FT) > limitFt);
    }

    /** The longest time parallel, short of the line, with the turn onto it begun. */
    double parallelShortS(double trackDeg, double beyondNm) {
        if (Double.isNaN(flown.captureS())) {
            return 0;
        }
        // Established within half scale first, whoever drifts out of it tracks beside the course: the scale judges that.
        int to = Math.min(crossed < 0 ? endOfFirst : crossed, close < 0 ? track.size() : close);
        return Track.longestS(
                at(flown.captureS()),
                to,
                i -> side * track.crossNm[i] > beyondNm && Math.abs(track.errorDeg(i)) < trackDeg);
    }

    /** The longest time established on the reciprocal. */
    double reciprocalS(double withinNm, double withinDeg, double rateDegPerS) {
        return Track.longestS(
                at(Task.CLEARED_S),
                track.size(),
                i -> Math.abs(track.crossNm[i]) < withinNm
                        && Math.abs(TrueLine.turn(error(i) - 180)) < withinDeg
                        && Math.abs(track.rateDegPerS(i)) < rateDegPerS);
    }

    /** Most crossings of the first leg within a time of which every swing between two was large enough. */
    int weavingCrossings(double withinS, double swingDeg, double peakNm) {
        if (established < 0) {
            return 0;
        }
        int most = 0;
        int count = 0;
        int last = -1;
        double[] times = new double[1000];
        for (int i = established; i < endOfFirst - 1; i++) {
            if (Math.signum(track.crossNm[i]) == Math.signum(track.crossNm[i + 1])) {
                continue;
            }
            boolean swung = last >= 0 && swing(last, i) > swingDeg && peak(last, i) > peakNm;
            if (!swung) {
                count = 0;
            }
            times[count++] = seconds(i);
            int first = 0;
            while (times[count - 1] - times[first] > withinS) {
                first++;
            }
            most = Math.max(most, count - first);
            last = i;
        }
        return most;
    }

    private double swing(int from, int to) {
        double least = 0;
        double most = 0;
        for (int i = from; i <= to; i++) {
            double turn = TrueLine.turn(track.headingDeg[i] - track.headingDeg[from]);
            least = Math.min(least, turn);
            most = Math.max(most, turn);
        }
        return most - least;
    }

    private double peak(int from, int to) {
        double most = 0;
        for (int i = from; i <= to; i++) {
            most = Math.max(most, Math.abs(track.crossNm[i]));
        }
        return most;
    }

    /** Largest cross-track on the first leg between being established and the turn at its end. */
    double crossAfterEstablishedNm() {
        double most = 0;
        for (int i = Math.max(0, established); established >= 0 && i < endOfFirst; i++) {
            most = Math.max(most, Math.abs(track.crossNm[i]));
        }
        return most;
    }

    /**
     * The longest time turned off the leg, once established, more than a distance before its end. Who comes back to the line
     * at an angle is not leaving it.
     */
    double offLegS(double trackDeg, double beforeNm, boolean alsoComingBack) {
        return Track.longestS(
                established,
                endOfLeg(),
                i -> beforeEnd(i, beforeNm)
                        && Math.abs(track.errorDeg(i)) > trackDeg
                        && (alsoComingBack || track.errorDeg(i) * track.crossNm[i] > 0));
    }

    /** Whether the aircraft, once established, was beyond a distance from the leg before its end. */
    boolean offLegNm(double crossNm, double beforeNm) {
        return Track.longestS(
                        established, endOfLeg(), i -> beforeEnd(i, beforeNm) && Math.abs(track.crossNm[i]) > crossNm)
                > 0;
    }

    private boolean beforeEnd(int i, double beforeNm) {
        return track.alongNm[i] < flown.task().first().lengthNm() - beforeNm;
    }

    /** Until when the first leg is to be flown: the turn at its end, or all of the flight where that came too early. */
    private int endOfLeg() {
        if (established < 0) {
            return 0;
        }
        boolean early = endOfFirst < track.size() && beforeEnd(endOfFirst, leadNm() * 1.2 + 0.6);
        return early ? onSecond < 0 ? track.size() : onSecond : endOfFirst;
    }

    /** How far before the end of the leg the turn at it was begun; negative past it. */
    double turnedBeforeEndNm() {
        return endOfFirst >= track.size() ? Double.NaN : flown.task().first().lengthNm() - track.alongNm[endOfFirst];
    }

    /** Distance from the line at which the turn onto the course was begun, beyond the lead that the turn needs. */
    double turnedBeforeLeadNm() {
        int i = Double.isNaN(flown.captureS()) ? track.size() : at(flown.captureS());
        if (i >= track.size()) {
            return Double.NEGATIVE_INFINITY;
        }
        double angle = Math.toRadians(Math.min(180, Math.abs(error(i))));
        return side * track.crossNm[i] - radiusNm(i) * (1 - Math.cos(angle));
    }

    private double radiusNm(int i) {
        double speed = flown.task().setting().speedKt();
        double rate = Math.toRadians(Math.min(3, 1092.2 * Math.tan(Math.toRadians(25)) / speed));
        return track.groundKt[i] / 3600 / rate;
    }

    /** How far the track turned against the turn of the route at the end of the leg, degrees. */
    double turnedAgainstDeg() {
        if (endOfFirst >= track.size()) {
            return 0;
        }
        double sense = Math.signum(flown.task().setting().turnDeg());
        double most = 0;
        double turned = 0;
        int to = onSecond < 0 ? track.size() : onSecond;
        for (int i = endOfFirst + 1; i < Math.min(to, endOfFirst + at(60)); i++) {
            turned += TrueLine.turn(track.headingDeg[i] - track.headingDeg[i - 1]);
            most = Math.max(most, -sense * turned);
        }
        return most;
    }

    /** Track against the old course so many seconds after passing abeam the end of the leg; NaN where not flown. */
    double oldCourseErrorDeg(double afterS) {
        int i = abeam < 0 ? track.size() : abeam + at(afterS);
        return i >= track.size() ? Double.NaN : Math.abs(error(i));
    }

    /** Lead of the turn at the end of the leg, by the tangent rule at the ground speed there. */
    double leadNm() {
        double turn = Math.min(120, Math.abs(flown.task().setting().turnDeg()));
        return radiusNm(Math.min(endOfFirst, track.size() - 1)) * Math.tan(Math.toRadians(turn) / 2);
    }
}
