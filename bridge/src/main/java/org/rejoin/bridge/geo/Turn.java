package org.rejoin.bridge.geo;

/** Radius, lead and time of level coordinated turns. */
public final class Turn {

    /** Standard rate: 360 degrees in two minutes (Instrument Flying Handbook, FAA-H-8083-15B, chapter 5). */
    public static final double STANDARD_RATE_DEG_PER_S = 3;

    /** Standard acceleration of free fall, m/s2 (3rd CGPM, 1901). */
    static final double GRAVITY_MPS2 = 9.80665;

    private Turn() {}

    /**
     * Radius of a turn at a rate: R = V / omega.
     *
     * @param groundSpeedKt knots, 0 or more
     * @param rateDegPerS degrees a second, above 0
     * @return nautical miles
     */
    public static double radiusNm(double groundSpeedKt, double rateDegPerS) {
        return groundSpeedKt / 3600 / Math.toRadians(rateDegPerS);
    }

    /**
     * Radius of a standard-rate turn: GS / (60 pi) NM.
     *
     * @param groundSpeedKt knots, 0 or more
     * @return nautical miles
     */
    public static double standardRadiusNm(double groundSpeedKt) {
        return radiusNm(groundSpeedKt, STANDARD_RATE_DEG_PER_S);
    }

    /**
     * Radius of a turn at a bank angle: R = V^2 / (g tan(bank)) (Pilot's Handbook of Aeronautical Knowledge, chapter 5,
     * with exact constants in place of its rounded 11.26).
     *
     * @param speedKt true airspeed, knots, 0 or more
     * @param bankDeg degrees, (0, 90)
     * @return nautical miles
     */
    public static double radiusAtBankNm(double speedKt, double bankDeg) {
        double mps = speedKt * Geodesics.METRES_PER_NM / 3600;
        return mps * mps / (GRAVITY_MPS2 * Math.tan(Math.toRadians(bankDeg))) / Geodesics.METRES_PER_NM;
    }

    /**
     * Rate of a turn at a bank angle: omega = g tan(bank) / V.
     *
     * @param speedKt true airspeed, knots, above 0
     * @param bankDeg degrees, (-90, 90), right positive
     * @return degrees a second, right positive
     */
    public static double rateDegPerS(double speedKt, double bankDeg) {
        double mps = speedKt * Geodesics.METRES_PER_NM / 3600;
        return Math.toDegrees(GRAVITY_MPS2 * Math.tan(Math.toRadians(bankDeg)) / mps);
    }

    /**
     * Bank for a rate of turn: tan(bank) = omega V / g.
     *
     * @param speedKt true airspeed, knots, 0 or more
     * @param rateDegPerS degrees a second, right positive
     * @return degrees, right positive, (-90, 90)
     */
    public static double bankDeg(double speedKt, double rateDegPerS) {
        double mps = speedKt * Geodesics.METRES_PER_NM / 3600;
        return Math.toDegrees(Math.atan(Math.toRadians(rateDegPerS) * mps / GRAVITY_MPS2));
    }

    /**
     * Distance before a course, along the present track, at which the turn onto it starts: R tan(angle / 2).
     *
     * @param radiusNm nautical miles, 0 or more
     * @param angleDeg course change, degrees, [0, 180)
     * @return nautical miles; grows without bound toward 180
     */
    public static double leadNm(double radiusNm, double angleDeg) {
        return radiusNm * Math.tan(Math.toRadians(Math.abs(angleDeg)) / 2);
    }

    /**
     * How far a turn begun on the course carries past it: R (1 - cos(angle)).
     *
     * @param radiusNm nautical miles, 0 or more
     * @param angleDeg course change, degrees, [0, 180]
     * @return nautical miles
     */
    public static double carryNm(double radiusNm, double angleDeg) {
        return radiusNm * (1 - Math.cos(Math.toRadians(angleDeg)));
    }
}
