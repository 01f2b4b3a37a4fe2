package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;

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

    private Callsign() {}

    /** Whether words say a callsign. One whose name is a word of the alphabet, as ALPHA1, is not told from A1 by ear. */
    static boolean isSaid(String callsign, String words) {
        String said = plain(words);
        return said.equals(callsign) || said.equals(plain(callsign.replaceFirst("^([A-Za-z]+)(?=\\d)", "$1 ")));
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
