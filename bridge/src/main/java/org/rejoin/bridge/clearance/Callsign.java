package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser;

import org.antlr.v4.runtime.Token;

/** Callsigns, however they are said. */
final class Callsign {

    private static final Set<Integer> FIGURES = Set.of(
            ClearanceLanguageParser.DIGIT,
            ClearanceLanguageParser.TEEN,
            ClearanceLanguageParser.TENS,
            ClearanceLanguageParser.HUNDRED,
            ClearanceLanguageParser.THOUSAND,
            ClearanceLanguageParser.NUMBER);

    private static final Pattern WORD_THEN_FIGURE = Pattern.compile("([A-Z]+)(\\d.*)");

    private Callsign() {}

    /** Whether words say a callsign as it is {@linkplain #plain spelled}: of ALPHA1 "alpha one" is the name, and not the letter A. */
    static boolean says(String words, String own) {
        String said = plain(words);
        Matcher parts = WORD_THEN_FIGURE.matcher(own);
        return said.equals(own) || (parts.matches() && said.equals(plain(parts.group(1)) + parts.group(2)));
    }

    /** One spelling of a callsign: "Oceanic five twelve" and "Oceanic 512" are both OCEANIC512. */
    static String plain(String words) {
        StringBuilder plain = new StringBuilder();
        List<String> figures = new ArrayList<>();
        for (Token token : Names.tokens(words)) {
            if (FIGURES.contains(token.getType())) {
                figures.add(token.getText());
                continue;
            }
            plain.append(SpokenNumber.of(figures).map(SpokenNumber::digits).orElse(String.join("", figures)));
            figures.clear();
            if (token.getType() == ClearanceLanguageParser.LETTER) {
                plain.append(Alphabet.letter(token.getText()));
            } else if (token.getType() != Token.EOF) {
                plain.append(token.getText().toUpperCase(Locale.ROOT));
            }
        }
        return plain.toString();
    }
}
