package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser;

import org.antlr.v4.runtime.Token;

/**
 * Words that are kept as they were typed (what to expect, to report, to hear), as a controller says them: idents by name,
 * airways in group form, altitudes in thousands, a frequency with its point (FAA Order JO 7110.65, 2-4-17),
 * an altimeter setting in digits (2-7-1).
 */
final class FreeWords {

    /** From this figure on no four figures are a time of day. */
    private static final int NO_TIME_FROM = 2400;

    /** Figures of an altitude in feet, at most. */
    private static final int LONGEST_ALTITUDE = 5;

    private FreeWords() {}

    static String said(String words, Chart chart) {
        List<Token> tokens = Names.tokens(words, chart);
        List<String> said = new ArrayList<>();
        for (int i = 0; i + 1 < tokens.size(); i++) {
            int before = i == 0 ? Token.EOF : tokens.get(i - 1).getType();
            boolean setting = before == ClearanceLanguageParser.ALTIMETER || before == ClearanceLanguageParser.QNH;
            String figures = tokens.get(i).getText().replaceAll("[^0-9]", "");
            said.add(
                    setting && !figures.isEmpty()
                            ? SpokenWords.digits(figures)
                            : one(tokens.get(i), tokens.get(i + 1), chart));
        }
        return String.join(" ", said).replaceAll(" (?=[,;:.])", "").replaceAll("\\.$", "");
    }

    private static String one(Token token, Token next, Chart chart) {
        String typed = token.getText();
        String ident = typed.toUpperCase(Locale.ROOT);
        return switch (token.getType()) {
            case ClearanceLanguageParser.WORD, ClearanceLanguageParser.ALNUM, ClearanceLanguageParser.AIRWAY_IDENT -> {
                List<? extends Waypoint> points = chart.waypoints(ident);
                yield points.isEmpty()
                        ? chart.airways(ident).isEmpty() ? typed : Phraseology.airway(ident)
                        : Phraseology.place(points.get(0));
            }
            case ClearanceLanguageParser.NUMBER -> number(typed.replaceAll("[^0-9]", ""), next);
            case ClearanceLanguageParser.NUMBER_FT -> feet(typed.replaceAll("[^0-9]", "")) + " feet";
            case ClearanceLanguageParser.FEET -> ident.equals("FT") ? "feet" : typed;
            case ClearanceLanguageParser.FL_NUMBER ->
                "flight level " + SpokenWords.digits(typed.replaceAll("[^0-9]", ""));
            case ClearanceLanguageParser.DECIMAL ->
                SpokenWords.digits(typed.substring(0, typed.indexOf('.'))) + " point "
                        + SpokenWords.digits(typed.substring(typed.indexOf('.') + 1));
            default -> typed;
        };
    }

    /** In thousands, also where it is high enough to be a level. */
    private static String feet(String figures) {
        return figures.length() > LONGEST_ALTITUDE
                ? SpokenWords.digits(figures)
                : SpokenWords.thousands(Integer.parseInt(figures)).replaceFirst(" feet$", "");
    }

    private static String number(String figures, Token next) {
        if (next.getType() == ClearanceLanguageParser.FEET) {
            return feet(figures);
        }
        boolean clock = next.getType() == ClearanceLanguageParser.OCLOCK && figures.length() <= 2;
        boolean thousands = figures.matches("[1-9][0-9]{1,2}00") && Integer.parseInt(figures) >= NO_TIME_FROM;
        return clock
                ? SpokenWords.grouped(figures)
                : thousands ? SpokenWords.altitude(Integer.parseInt(figures)) : SpokenWords.digits(figures);
    }
}
