package org.rejoin.bridge.clearance;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

import org.antlr.v4.runtime.tree.ParseTree;

/** The letters as spoken (Aeronautical Information Manual 4-2-7; ICAO Annex 10, volume II, 5.2.1.3). */
final class Alphabet {

    private static final List<String> LETTERS =
            List.of(("alfa bravo charlie delta echo foxtrot golf hotel india juliett kilo lima mike november oscar "
                            + "papa quebec romeo sierra tango uniform victor whiskey x-ray yankee zulu")
                    .split(" ", -1));

    private Alphabet() {}

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
                .mapToObj(
                        c -> c >= 'A' && c <= 'Z' ? LETTERS.get(c - 'A') : SpokenWords.digits(String.valueOf((char) c)))
                .collect(Collectors.joining(" "));
    }
}
