package org.rejoin.bridge.clearance;

import java.util.regex.Pattern;

/** Speed and level groups of a filed route (ICAO Doc 4444, Appendix 2, item 15 a, b and c 4). */
final class SpeedLevel {

    static final String FORM = "speed and level are joined, for example N0120A060, M082F330 or K0841S1130";

    private static final String SPEED = "(K\\d{4}|N\\d{4}|M\\d{3})";
    private static final String LEVEL = "(F\\d{3}|A\\d{3}|S\\d{4}|M\\d{4})";
    private static final Pattern GROUP = Pattern.compile(SPEED + "(" + LEVEL + "|VFR)");
    private static final Pattern CLIMB = Pattern.compile(SPEED + LEVEL + "(" + LEVEL + "|PLUS)");
    private static final Pattern ATTEMPT = Pattern.compile("([KNM]\\d{2,6})([/FASMV].*)?|[FA]L?\\d{2,4}");

    private SpeedLevel() {}

    /** Whether a word is a speed (K + 4, N + 4, M + 3 figures) and a level (F + 3, A + 3, S + 4, M + 4, VFR). */
    static boolean isGroup(String word) {
        return GROUP.matcher(word).matches();
    }

    /** Whether a word is the speed and the two levels of a cruise climb. */
    static boolean isClimb(String word) {
        return CLIMB.matcher(word).matches();
    }

    /** Whether a word that nothing else explains was likely meant as a group. */
    static boolean looksMeant(String word) {
        return ATTEMPT.matcher(word).matches();
    }
}
