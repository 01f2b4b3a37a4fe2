package org.rejoin.bridge.route;

import org.rejoin.bridge.chart.Station;

/**
 * Standard service volumes (Aeronautical Information Manual 1-1-8, table 1-1-1; the legacy classes T, L, H and the
 * current VL, VH). They bind off published routes only.
 */
public final class ServiceVolume {

    private ServiceVolume() {}

    /**
     * How far a station of a class may be used so many feet above it, nautical miles; 0 outside the heights of the
     * class.
     */
    public static double radiusNm(Station.ServiceClass serviceClass, double heightFt) {
        if (heightFt < 1000) {
            return 0;
        }
        return switch (serviceClass) {
            case T -> heightFt <= 12_000 ? 25 : 0;
            case L -> heightFt <= 18_000 ? 40 : 0;
            case VL -> heightFt < 5_000 ? 40 : heightFt < 18_000 ? 70 : 0;
            case H -> high(heightFt, 40);
            case VH -> heightFt < 5_000 ? 40 : high(heightFt, 70);
        };
    }

    private static double high(double heightFt, double belowNm) {
        if (heightFt < 14_500) {
            return belowNm;
        }
        if (heightFt >= 18_000 && heightFt <= 45_000) {
            return 130;
        }
        // At 14 500 itself the table gives both rows; the pilot gets the larger.
        return heightFt <= 60_000 ? 100 : 0;
    }

    /** The largest distance of a class at any height, for when the height is unknown, nautical miles. */
    public static double largestRadiusNm(Station.ServiceClass serviceClass) {
        return switch (serviceClass) {
            case T -> 25;
            case L -> 40;
            case VL -> 70;
            case H, VH -> 130;
        };
    }
}
