package org.rejoin.bridge.clearance;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

import org.antlr.v4.runtime.tree.ParseTree;

/**
 * Numbers in words (Aeronautical Information Manual 4-2-8 to 4-2-10), and letters as spoken (4-2-7; ICAO Annex 10, volume
 * II, 5.2.1.3).
 */
final class SpokenWords {

    private static final List<String> DIGITS =
            List.of("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "niner");
    private static final List<String> TEENS =
            List.of("ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen".split(" ", -1));
    private static final List<String> TENS =
            List.of("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety");

    /** At and above this altitude, feet, levels are flight levels (AIM 4-2-9: altitudes below 18 000). */
    private static final long FLIGHT_LEVELS_FROM_FT = 18_000;

    private static final List<String> LETTERS =
            List.of(("alfa bravo charlie delta echo foxtrot golf hotel india juliett kilo lima mike november oscar "
                            + "papa quebec romeo sierra tango uniform victor whiskey x-ray yankee zulu")
                    .split(" ", -1));

    private SpokenWords() {}

    /** Digit by digit: "two five zero". */
    static String digits(String figures) {
        return figures.chars().mapToObj(c -> DIGITS.get(c - '0')).collect(Collectors.joining(" "));
    }

    /** Heading, radial or course in three digits, north as 360. */
    static String direction(double deg) {
        long whole = Math.floorMod(Math.round(deg), 360);
        return digits(String.format(Locale.ROOT, "%03d", whole == 0 ? 360 : whole));
    }

    /** Altitude: "six thousand", "one two thousand five hundred", "flight level one niner zero". */
    static String altitude(double feet) {
        return isFlightLevel(feet) ? flightLevel(feet) : thousands(feet);
    }

    /** The same, as a level where it was said as one. */
    static String altitude(double feet, boolean level) {
        return level ? flightLevel(feet) : altitude(feet);
    }

    /** Whether it is always said as a level. */
    static boolean isFlightLevel(double feet) {
        long whole = Math.round(feet);
        return whole >= FLIGHT_LEVELS_FROM_FT && whole % 100 == 0;
    }

    /** As a level: "flight level one niner zero". */
    static String flightLevel(double feet) {
        return "flight level " + digits(String.format(Locale.ROOT, "%03d", Math.round(feet) / 100));
    }

    /** As an altitude: "one two thousand five hundred". */
    static String thousands(double feet) {
        long whole = Math.round(feet);
        if (whole % 100 != 0 || whole == 0) {
            return digits(String.valueOf(whole)) + " feet";
        }
        String thousands = whole >= 1000 ? digits(String.valueOf(whole / 1000)) + " thousand" : "";
        String hundreds = whole % 1000 == 0 ? "" : digits(String.valueOf(whole % 1000 / 100)) + " hundred";
        return (thousands + " " + hundreds).trim();
    }

    /** Group form of an airway number: 7 "seven", 31 "thirty-one", 455 "four fifty-five", 210 "two ten". */
    static String grouped(String figures) {
        if (figures.length() > 3 || figures.startsWith("0")) {
            return digits(figures);
        }
        if (figures.length() < 3) {
            return upTo99(Integer.parseInt(figures));
        }
        String hundred = digits(figures.substring(0, 1));
        int rest = Integer.parseInt(figures.substring(1));
        if (rest == 0) {
            return hundred + " hundred";
        }
        return hundred + " " + (rest < 10 ? digits(figures.substring(1)) : upTo99(rest));
    }

    private static String upTo99(int number) {
        if (number < 10) {
            return DIGITS.get(number);
        }
        if (number < 20) {
            return TEENS.get(number - 10);
        }
        String tens = TENS.get(number / 10 - 2);
        return number % 10 == 0 ? tens : tens + "-" + DIGITS.get(number % 10);
    }

    /** The letter that a word of the alphabet stands for, upper case: always its first. */
    static String letter(String word) {
        return word.substring(0, 1).toUpperCase(Locale.ROOT);
    }

    static String letter(ParseTree word) {
        return letter(word.getText());
    }

    /** Spells an ident, a word for each letter and digit, blanks between. */
    static String spelled(String ident) {
        return ident.toUpperCase(Locale.ROOT)
                .chars()
                .mapToObj(c -> c >= 'A' && c <= 'Z' ? LETTERS.get(c - 'A') : digits(String.valueOf((char) c)))
                .collect(Collectors.joining(" "));
    }
}
