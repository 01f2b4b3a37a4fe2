package org.rejoin.protocol.yaml;

import java.util.Collection;
import java.util.Locale;
import java.util.Optional;

/** The key that a slip of the finger stands for. Only ever offered in a message, never used in place of what was written. */
public final class Slip {

    private static final int LONGEST = 40;

    private Slip() {}

    /**
     * The closest of the words, if it is close enough to be a slip of the finger: a third of its letters; empty if
     * nothing is close.
     */
    public static Optional<String> closest(String written, Collection<String> words) {
        if (written.length() > LONGEST) {
            return Optional.empty();
        }
        String lower = written.toLowerCase(Locale.ROOT);
        String best = "";
        int fewest = Integer.MAX_VALUE;
        for (String word : words) {
            int edits = edits(lower, word.toLowerCase(Locale.ROOT), false);
            // A word begun and not finished, as latitude for latitude_deg, is a slip too.
            if (word.length() > 3 && (word.startsWith(lower + "_") || lower.startsWith(word + "_"))) {
                edits = 1;
            }
            if (edits < fewest && edits <= Math.max(1, word.length() / 3)) {
                best = word;
                fewest = edits;
            }
        }
        return best.isEmpty() ? Optional.empty() : Optional.of(best);
    }

    /**
     * Insertions, deletions and replacements that turn one word into the other (Levenshtein distance).
     *
     * @param swaps whether a swap of two neighbours counts as one of them (optimal string alignment distance)
     */
    public static int edits(String from, String to, boolean swaps) {
        int[][] edits = new int[from.length() + 1][to.length() + 1];
        for (int i = 0; i <= from.length(); i++) {
            for (int j = 0; j <= to.length(); j++) {
                if (i == 0 || j == 0) {
                    edits[i][j] = i + j;
                    continue;
                }
                int replaced = edits[i - 1][j - 1] + (from.charAt(i - 1) == to.charAt(j - 1) ? 0 : 1);
                edits[i][j] = Math.min(replaced, 1 + Math.min(edits[i - 1][j], edits[i][j - 1]));
                boolean swapped = swaps
                        && i > 1
                        && j > 1
                        && from.charAt(i - 1) == to.charAt(j - 2)
                        && from.charAt(i - 2) == to.charAt(j - 1);
                if (swapped) {
                    edits[i][j] = Math.min(edits[i][j], edits[i - 2][j - 2] + 1);
                }
            }
        }
        return edits[from.length()][to.length()];
    }
}
