package org.rejoin.bridge.chart;

import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

import org.rejoin.protocol.yaml.Slip;

/** Finds what a mistyped word may have meant. It only ever suggests: a guess is for a person to confirm. */
public final class Spelling {

    private static final int MOST = 3;

    private Spelling() {}

    /** At most three words close to a word, the closest first: one slip in up to five letters, two in longer words. */
    public static List<String> near(String word, Collection<String> known) {
        String typed = word.toUpperCase(Locale.ROOT);
        int allowed = typed.length() <= 5 ? 1 : 2;
        return known.stream()
                .distinct()
                .filter(candidate -> Math.abs(candidate.length() - typed.length()) <= allowed)
                .filter(candidate -> slips(typed, candidate) <= allowed)
                .sorted(Comparator.<String>comparingInt(candidate -> slips(typed, candidate))
                        .thenComparing(Comparator.naturalOrder()))
                .limit(MOST)
                .toList();
    }

    /** A question to end a message with, "; did you mean A or B?"; empty where nothing is close. */
    public static String didYouMean(String word, Collection<String> known) {
        List<String> near = near(word, known);
        return near.isEmpty() ? "" : near.stream().collect(Collectors.joining(" or ", "; did you mean ", "?"));
    }

    /** Letters to insert, drop, replace or swap with a neighbour. */
    private static int slips(String typed, String candidate) {
        return Slip.edits(typed, candidate.toUpperCase(Locale.ROOT), true);
    }
}
