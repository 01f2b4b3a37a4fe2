package org.rejoin.protocol;

/** Exact factors between the units of the wire and this project's units (ISO 80000-3; the knot by ICAO Annex 5). */
public final class Units {
    /** Metres in a foot. */
    public static final double M_PER_FT = 0.3048;

    /** Metres in an international nautical mile. */
    public static final double M_PER_NM = 1852.0;

    /** Metres per second in a knot. */
    public static final double MPS_PER_KT = M_PER_NM / 3600.0;

    /** Metres per second in a foot per minute. */
    public static final double MPS_PER_FPM = M_PER_FT / 60.0;

    private Units() {}
}
