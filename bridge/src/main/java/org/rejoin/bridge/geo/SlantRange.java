package org.rejoin.bridge.geo;

/** A DME measures along the straight line to its antenna, not along the ground (Instrument Flying Handbook, chapter 9). */
public final class SlantRange {

    private SlantRange() {}

    /**
     * Distance over the ground of a DME indication so many feet above the antenna, nautical miles; 0 where the
     * indication is no more than the height.
     */
    public static double groundNm(double slantNm, double heightFt) {
        double heightNm = heightFt / Geodesics.FEET_PER_NM;
        return Math.sqrt(Math.max(0, slantNm * slantNm - heightNm * heightNm));
    }

    /** What a DME shows so many feet above the antenna, nautical miles. */
    public static double slantNm(double groundNm, double heightFt) {
        return Math.hypot(groundNm, heightFt / Geodesics.FEET_PER_NM);
    }
}
