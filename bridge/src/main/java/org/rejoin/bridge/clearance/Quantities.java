package org.rejoin.bridge.clearance;

import java.util.List;

import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.AfterContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.AltitudeContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.DegreesContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.LengthContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.NumberContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.PlainLevelContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.SpeedBoundContext;
import org.rejoin.bridge.geo.Angles;

import org.antlr.v4.runtime.ParserRuleContext;
import org.antlr.v4.runtime.tree.ParseTree;
import org.antlr.v4.runtime.tree.TerminalNode;
import org.jspecify.annotations.Nullable;

/** Numbers of a clearance as headings, altitudes, distances and times, each with its range. */
record Quantities(Source source, List<String> notes) {

    /** Longer holding legs are a slip of the tongue (common practice, no source). */
    private static final int LONGEST_LEG_MIN = 10;

    private static final int LONGEST_LEG_NM = 99;
    private static final int SLOWEST_KT = 40;
    private static final int FASTEST_KT = 600;

    /** Any number. */
    SpokenNumber number(NumberContext spoken) throws ClearanceException {
        List<String> words = spoken.children.stream().map(ParseTree::getText).toList();
        return SpokenNumber.of(words)
                .orElseThrow(() -> source.notUnderstood(
                        spoken, "not one number; say it digit by digit, or in hundreds and thousands"));
    }

    /** A direction in three figures, 000 to 360, as degrees [0, 360]; what it is of stands in the message. */
    int degrees(NumberContext spoken, String what) throws ClearanceException {
        SpokenNumber number = number(spoken);
        if (number.digits().length() > 3 || number.value() > 360) {
            throw source.notUnderstood(spoken, "a " + what + " has three figures, 001 to 360");
        }
        if (number.digits().length() == 2 && number.value() > 0 && number.value() < 10) {
            throw source.notUnderstood(
                    spoken,
                    "a " + what + " has three figures: " + Angles.figures(number.value()) + " or "
                            + Angles.figures(10 * number.value()) + "?");
        }
        if (number.digits().length() < 3) {
            notes.add(what + " " + source.words(spoken) + " read as " + Angles.figures(number.value()));
        }
        return number.value();
    }

    /** The same, of three figures: "turn left 040" is a heading, "turn left 40" may be a turn by 40 degrees. */
    int figures(NumberContext spoken, String what) throws ClearanceException {
        if (number(spoken).digits().length() < 3) {
            throw source.notUnderstood(
                    spoken, "a " + what + " in three figures, or a turn by so many degrees? say \"degrees\" behind it");
        }
        return degrees(spoken, what);
    }

    /** By the compass: what is said to be true is none. */
    int heading(DegreesContext spoken) throws ClearanceException {
        if (spoken.TRUE() != null) {
            throw source.notUnderstood(
                    spoken,
                    "headings are magnetic (FAA Order JO 7110.65, 5-6-2): give the magnetic one, without \"true\"");
        }
        return degrees(spoken.number(), "heading");
    }

    /** The same of figures: "R-066". */
    int degrees(ParserRuleContext spoken, String figures, String what) throws ClearanceException {
        if (figures.length() != 3 || Integer.parseInt(figures) > 360) {
            throw source.notUnderstood(spoken, "a " + what + " has three figures, 001 to 360");
        }
        return Integer.parseInt(figures);
    }

    /** Degrees to turn by, (0, 360). */
    int turn(NumberContext spoken) throws ClearanceException {
        int degrees = number(spoken).value();
        if (degrees < 1 || degrees > 359) {
            throw source.notUnderstood(spoken, "a turn is by 1 to 359 degrees");
        }
        return degrees;
    }

    /** Whether it is said as a flight level. */
    static boolean isLevel(AltitudeContext spoken) {
        return spoken.FL() != null || spoken.FLIGHT() != null || spoken.FL_NUMBER() != null;
    }

    /** The same, of a level that can be nothing else. */
    static boolean isLevel(PlainLevelContext spoken) {
        return spoken.NUMBER_FT() == null && spoken.FEET() == null;
    }

    /** To be maintained, as a flight level where it is said as one. */
    Instruction.Maintain maintain(AltitudeContext spoken) throws ClearanceException {
        return new Instruction.Maintain(altitudeFt(spoken), false).asLevel(isLevel(spoken));
    }

    /** The same, of a level that can be nothing else. */
    Instruction.Maintain maintain(PlainLevelContext spoken) throws ClearanceException {
        return new Instruction.Maintain(altitudeFt(spoken), false).asLevel(isLevel(spoken));
    }

    /** Feet above mean sea level, within what is assigned; a flight level times 100. */
    double altitudeFt(AltitudeContext spoken) throws ClearanceException {
        return altitudeFt(spoken, spoken.FL_NUMBER(), spoken.NUMBER_FT(), spoken.number(), isLevel(spoken));
    }

    /** The same, of a level that can be nothing else. */
    double altitudeFt(PlainLevelContext spoken) throws ClearanceException {
        return altitudeFt(spoken, spoken.FL_NUMBER(), spoken.NUMBER_FT(), spoken.number(), isLevel(spoken));
    }

    /** The same, of a number that can be nothing else. */
    double altitudeFt(NumberContext spoken) throws ClearanceException {
        return feet(spoken, number(spoken).value());
    }

    private double altitudeFt(
            ParserRuleContext spoken,
            @Nullable TerminalNode levelFigures,
            @Nullable TerminalNode feetFigures,
            NumberContext said,
            boolean isLevel)
            throws ClearanceException {
        if (levelFigures != null) {
            return level(spoken, levelFigures.getText().replaceAll("[^0-9]", ""));
        }
        if (feetFigures != null) {
            String figures = feetFigures.getText().replaceAll("[^0-9]", "");
            return feet(spoken, figures.length() > 6 ? Integer.MAX_VALUE : Integer.parseInt(figures));
        }
        SpokenNumber number = number(said);
        if (!isLevel && number.digits().matches("0\\d{3}")) {
            throw source.notUnderstood(spoken, "an altitude has no zero in front; a time is said with \"time\"");
        }
        return isLevel ? level(spoken, number.digits()) : feet(spoken, number.value());
    }

    /** "Or greater", "or less", or neither. */
    static Instruction.MaintainSpeed.Limit limit(@Nullable SpeedBoundContext spoken) {
        if (spoken == null) {
            return Instruction.MaintainSpeed.Limit.EXACTLY;
        }
        return spoken.GREATER() != null
                ? Instruction.MaintainSpeed.Limit.OR_GREATER
                : Instruction.MaintainSpeed.Limit.OR_LESS;
    }

    private double level(ParserRuleContext spoken, String digits) throws ClearanceException {
        if (digits.length() < 2 || digits.length() > 3 || Integer.parseInt(digits) * 100 > Clearance.HIGHEST_FT) {
            throw source.notUnderstood(spoken, "a flight level has three figures, up to 600, for example 190");
        }
        return feet(spoken, Integer.parseInt(digits) * 100);
    }

    static boolean isAltitude(int feet) {
        return feet >= Clearance.LOWEST_FT && feet <= Clearance.HIGHEST_FT;
    }

    private double feet(ParserRuleContext spoken, int feet) throws ClearanceException {
        if (!isAltitude(feet)) {
            throw source.notUnderstood(
                    spoken,
                    "an altitude is " + Clearance.LOWEST_FT + " to " + Clearance.HIGHEST_FT
                            + " feet, for example 6000 or six thousand; above, say flight level");
        }
        return feet;
    }

    /** An indicated airspeed, knots, [40, 600]. */
    double speedKt(NumberContext spoken) throws ClearanceException {
        int knots = number(spoken).value();
        if (knots < SLOWEST_KT || knots > FASTEST_KT) {
            throw source.notUnderstood(
                    spoken, "a speed is " + SLOWEST_KT + " to " + FASTEST_KT + " knots, for example 140");
        }
        return knots;
    }

    /** A distance from a station or along a line, nautical miles, [1, 200]. */
    double distanceNm(NumberContext spoken) throws ClearanceException {
        int miles = number(spoken).value();
        if (miles < 1 || miles > 200) {
            throw source.notUnderstood(spoken, "a distance is 1 to 200 miles");
        }
        return miles;
    }

    /** A length of a holding leg, minutes or nautical miles; in tenths, or with a half. */
    double length(LengthContext spoken, boolean minutes) throws ClearanceException {
        double length = spoken.DECIMAL() != null
                ? Double.parseDouble(spoken.DECIMAL().getText())
                : number(spoken.number()).value() + (spoken.HALF() != null ? 0.5 : 0);
        if (!(length >= 0.5 && length <= (minutes ? LONGEST_LEG_MIN : LONGEST_LEG_NM))) {
            throw source.notUnderstood(
                    spoken,
                    "a holding leg is 0.5 to " + LONGEST_LEG_MIN + " minutes, or 0.5 to " + LONGEST_LEG_NM + " miles");
        }
        return length;
    }

    /** A time of day, four figures. */
    String time(NumberContext spoken) throws ClearanceException {
        String digits = number(spoken).digits();
        if (digits.length() != 4 || !digits.matches("([01]\\d|2[0-3])[0-5]\\d")) {
            boolean altitude = spoken.getParent() instanceof AfterContext
                    && isAltitude(number(spoken).value());
            throw source.notUnderstood(
                    spoken,
                    "a time has four figures, 0000 to 2359"
                            + (altitude
                                    ? "; of an altitude say \"passing\" or \"maintain\", or \"cross\" a fix \"at\" it"
                                    : ""));
        }
        return digits;
    }
}
