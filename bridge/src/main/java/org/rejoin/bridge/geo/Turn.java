package org.rejoin.bridge.geo;

/** Radius, lead and time of level coordinated turns. */
public final class Turn {

    /** Standard rate: 360 degrees in two minutes (Instrument Flying Handbook, FAA-H-8083-15B, chapter 5). */
    public static final double STANDARD_RATE_DEG_PER_S = 3;

    /** Bank of a standard turn that would need more at 3 degrees a second (ICAO Doc 8168, from memory). */
    public static final double STANDARD_BANK_DEG = 25;

    /** A sharper turn is led as one of this many degrees: tan(90) has no end; common practice, no source. */
    public static final double SHARPEST_LED_DEG = 150;

    /** Far above any speed, also of a sample that jumped; keeps infinities out. */
    static final double MAX_SPEED_KT = 1e9;

    /** Lowest bank and rate that still make a circle of finite size. */
    private static final double LEAST = 1e-6;

    private static final double MAX_RATE_DEG_PER_S = 360;

    /** Nobody turns faster on instruments, degrees a second: twice the standard rate; common practice, no source. */
    private static final double FASTEST_DEG_PER_S = 2 * STANDARD_RATE_DEG_PER_S;

    /** And so much on top, for a wind that turns the track and for noise, degrees; common practice, no source. */
    private static final double FASTEST_PLUS_DEG = 10;

    private static final double HALF_CIRCLE_DEG = 180;
    private static final double MAX_BANK_DEG = 89.9;

    /** Standard acceleration of free fall, m/s2 (3rd CGPM, 1901). */
    public static final double GRAVITY_MPS2 = 9.80665;

    /** Sideways acceleration of the turn at {@link #STANDARD_BANK_DEG}, m/s2. */
    private static final double STANDARD_PULL_MPS2 = GRAVITY_MPS2 * Math.tan(Math.toRadians(STANDARD_BANK_DEG));

    private Turn() {}

    /**
     * Radius of a turn at a rate: R = V / omega.
     *
     * @param groundSpeedKt knots, [0, 1e9]
     * @param rateDegPerS degrees a second, [0.000001, 360]
     * @return nautical miles
     * @throws IllegalArgumentException if a value is out of range or not a number
     */
    public static double radiusNm(double groundSpeedKt, double rateDegPerS) {
        speed("ground speed", groundSpeedKt);
        Range.check("rate of turn", rateDegPerS, LEAST, MAX_RATE_DEG_PER_S, "degrees a second");
        return groundSpeedKt / 3600 / Math.toRadians(rateDegPerS);
    }

    /**
     * Radius of a standard-rate turn: GS / (60 pi) NM.
     *
     * @param groundSpeedKt knots, [0, 1e9]
     * @return nautical miles
     * @throws IllegalArgumentException if the speed is out of range or not a number
     */
    public static double standardRadiusNm(double groundSpeedKt) {
        return radiusNm(groundSpeedKt, STANDARD_RATE_DEG_PER_S);
    }

    /**
     * Rate of the standard turn: 3 degrees a second or 25 degrees of bank, whichever needs less bank (ICAO Doc 8168,
     * from memory). The two meet near 170 kt.
     *
     * @param speedKt knots, [0, 1e9]; the ground speed where the airspeed is not known
     * @return degrees a second, (0, 3]
     * @throws IllegalArgumentException if the speed is out of range or not a number
     */
    public static double standardTurnRateDegPerS(double speedKt) {
        speed("speed", speedKt);
        // As rateDegPerS, without the tangent: this is asked several times a sample.
        double atBank = Math.toDegrees(STANDARD_PULL_MPS2 / (speedKt * Geodesics.METRES_PER_NM / 3600));
        return speedKt < 1 ? STANDARD_RATE_DEG_PER_S : Math.max(LEAST, Math.min(STANDARD_RATE_DEG_PER_S, atBank));
    }

    /**
     * Time of the standard turn.
     *
     * @param speedKt see {@link #standardTurnRateDegPerS}
     * @param angleDeg to be turned, degrees; its sign makes no difference
     * @return seconds
     * @throws IllegalArgumentException if the speed is out of range or not a number
     */
    public static double standardTurnS(double speedKt, double angleDeg) {
        return Math.abs(angleDeg) / standardTurnRateDegPerS(speedKt);
    }

    /**
     * Whether the turn between two directions is known although nobody saw it: at twice the standard rate it is less than
     * a half circle in that time, so that there is one way round, and no more than that rate allows.
     *
     * @param angleDeg from the first direction to the second the short way, degrees; its sign makes no difference
     * @param seconds between them, 0 or more
     * @return false after 30 s, and where the aircraft was set to another direction
     */
    public static boolean knownFromItsEnds(double angleDeg, double seconds) {
        double most = FASTEST_DEG_PER_S * seconds;
        return most < HALF_CIRCLE_DEG && Math.abs(angleDeg) <= most + FASTEST_PLUS_DEG;
    }

    /**
     * Radius of the standard turn over the ground.
     *
     * @param groundSpeedKt knots, [0, 1e9]
     * @return nautical miles
     * @throws IllegalArgumentException if the speed is out of range or not a number
     */
    public static double standardTurnRadiusNm(double groundSpeedKt) {
        return radiusNm(groundSpeedKt, standardTurnRateDegPerS(groundSpeedKt));
    }

    /**
     * Lead of the standard turn, along the present track; sharper turns are led as one of 150 degrees.
     *
     * @param groundSpeedKt knots, [0, 1e9]
     * @param angleDeg course change, degrees, [-180, 180]; its sign makes no difference
     * @return nautical miles
     * @throws IllegalArgumentException if a value is out of range or not a number
     */
    public static double standardTurnLeadNm(double groundSpeedKt, double angleDeg) {
        return standardTurnRadiusNm(groundSpeedKt) * leadOfRadius(angleDeg);
    }

    /**
     * The same for each mile of the radius, for what turns by one angle at many speeds.
     *
     * @param angleDeg course change, degrees; its sign makes no difference
     * @return no unit, 0 or more
     * @throws IllegalArgumentException if it is not a number
     */
    public static double leadOfRadius(double angleDeg) {
        return leadNm(1, Math.min(Math.abs(angleDeg), SHARPEST_LED_DEG));
    }

    /**
     * The lead of the standard turn, where it is longer than that of a turn at standard rate.
     *
     * @param leadNm of the turn at standard rate, nautical miles
     * @param groundSpeedKt knots, [0, 1e9]
     * @return nautical miles; that lead where 3 degrees a second need no more than 25 degrees of bank
     * @throws IllegalArgumentException if a value is out of range or not a number
     */
    public static double longerLeadNm(double leadNm, double groundSpeedKt) {
        double share = STANDARD_RATE_DEG_PER_S / standardTurnRateDegPerS(groundSpeedKt);
        return share > 1 ? leadNm * share : leadNm;
    }

    /**
     * Radius of a turn at a bank angle: R = V^2 / (g tan(bank)) (Pilot's Handbook of Aeronautical Knowledge, chapter 5,
     * with exact constants in place of its rounded 11.26).
     *
     * @param speedKt true airspeed, knots, [0, 1e9]
     * @param bankDeg degrees, [0.000001, 89.9]
     * @return nautical miles
     * @throws IllegalArgumentException if a value is out of range or not a number
     */
    public static double radiusAtBankNm(double speedKt, double bankDeg) {
        speed("true airspeed", speedKt);
        Range.check("bank", bankDeg, LEAST, MAX_BANK_DEG, "degrees");
        double mps = speedKt * Geodesics.METRES_PER_NM / 3600;
        return mps * mps / (GRAVITY_MPS2 * Math.tan(Math.toRadians(bankDeg))) / Geodesics.METRES_PER_NM;
    }

    /**
     * Rate of a turn at a bank angle: omega = g tan(bank) / V.
     *
     * @param speedKt true airspeed, knots, [0.000001, 1e9]
     * @param bankDeg degrees, [-89.9, 89.9], right positive
     * @return degrees a second, right positive
     * @throws IllegalArgumentException if a value is out of range or not a number
     */
    public static double rateDegPerS(double speedKt, double bankDeg) {
        Range.check("true airspeed", speedKt, LEAST, MAX_SPEED_KT, "knots");
        Range.check("bank", bankDeg, -MAX_BANK_DEG, MAX_BANK_DEG, "degrees");
        double mps = speedKt * Geodesics.METRES_PER_NM / 3600;
        return Math.toDegrees(GRAVITY_MPS2 * Math.tan(Math.toRadians(bankDeg)) / mps);
    }

    /**
     * Bank for a rate of turn: tan(bank) = omega V / g.
     *
     * @param speedKt true airspeed, knots, [0, 1e9]
     * @param rateDegPerS degrees a second, [-360, 360], right positive
     * @return degrees, right positive, (-90, 90)
     * @throws IllegalArgumentException if a value is out of range or not a number
     */
    public static double bankDeg(double speedKt, double rateDegPerS) {
        speed("true airspeed", speedKt);
        Range.check("rate of turn", rateDegPerS, -MAX_RATE_DEG_PER_S, MAX_RATE_DEG_PER_S, "degrees a second");
        double mps = speedKt * Geodesics.METRES_PER_NM / 3600;
        return Math.toDegrees(Math.atan(Math.toRadians(rateDegPerS) * mps / GRAVITY_MPS2));
    }

    /**
     * Distance before a course, along the present track, at which the turn onto it starts: R tan(angle / 2).
     *
     * @param radiusNm nautical miles, 0 or more
     * @param angleDeg course change, degrees, [-180, 180]; its sign makes no difference
     * @return nautical miles; grows without bound toward 180, where it is huge but finite
     * @throws IllegalArgumentException if a value is out of range or not a number
     */
    public static double leadNm(double radiusNm, double angleDeg) {
        Range.check("turn radius", radiusNm, 0, Double.MAX_VALUE, "nautical miles");
        Range.check("course change", angleDeg, -180, 180, "degrees");
        return radiusNm * Math.tan(Math.toRadians(Math.abs(angleDeg)) / 2);
    }

    private static void speed(String name, double speedKt) {
        Range.check(name, speedKt, 0, MAX_SPEED_KT, "knots");
    }
}
