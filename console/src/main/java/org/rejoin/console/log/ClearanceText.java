package org.rejoin.console.log;

import java.util.Locale;

import org.rejoin.bridge.route.Intercept;

/** What a clearance came to, in the words of a log line. */
public final class ClearanceText {

    private ClearanceText() {}

    /**
     * Where the line is met.
     *
     * @param met as worked out when the clearance was heard
     * @return one line
     */
    public static String intercept(Intercept met) {
        return String.format(
                Locale.ROOT,
                "meets the line in %.1f NM, %.1f min, at %.0f degrees; turn %s, lead %.2f NM",
                met.distanceNm(),
                met.minutes(),
                met.angleDeg(),
                met.turnsRight() ? "right" : "left",
                met.leadNm());
    }
}
