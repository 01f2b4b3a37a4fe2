package org.rejoin.bridge.chart;

import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

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
                .filter(candidate -> slips(typed, candidate.toUpperCase(Locale.ROOT)) <= allowed)
                .sorted(Comparator.<String>comparingInt(candidate -> slips(typed, candidate.toUpperCase(Locale.ROOT)))
                        .thenComparing(Comparator.naturalOrder()))
                .limit(MOST)
                .toList();
    }

    /** A question to end a message with, "; did you mean A or B?"; empty where nothing is close. */
    public static String didYouMean(String word, Collection<String> known) {
        List<String> near = near(word, known);
        return near.isEmpty() ? "" : near.stream().collect(Collectors.joining(" or ", "; did you mean ", "?"));
    }

    /** Letters to insert, drop, replace or swap with a neighbour (optimal string alignment distance). */
    static int slips(String a, String b) {
        int[][] d = new int[a.length() + 1][b.length() + 1];
        for (int i = 0; i <= a.length(); i++) {
            d[i][0] = i;
        }
        for (int j = 0; j <= b.length(); j++) {
            d[0][j] = j;
        }
        for (int i = 1; i <= a.length(); i++) {
            for (int j = 1; j <= b.length(); j++) {
                int replaced = d[i - 1][j - 1] + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
                d[i][j] = Math.min(replaced, Math.min(d[i - 1][j], d[i][j - 1]) + 1);
                boolean swapped =
                        i > 1 && j > 1 && a.charAt(i - 1) == b.charAt(j - 2) && a.charAt(i - 2) == b.charAt(j - 1);
                if (swapped) {
                    d[i][j] = Math.min(d[i][j], d[i - 2][j - 2] + 1);
                }
            }
        }
        return d[a.length()][b.length()];
    }
}
