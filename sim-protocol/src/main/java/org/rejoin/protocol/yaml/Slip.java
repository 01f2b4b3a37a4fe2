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
            int edits = edits(lower, word.toLowerCase(Locale.ROOT));
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

    /** Insertions, deletions and replacements that turn one word into the other (Levenshtein distance). */
    private static int edits(String from, String to) {
        int[] previous = new int[to.length() + 1];
        for (int j = 0; j <= to.length(); j++) {
            previous[j] = j;
        }
        for (int i = 1; i <= from.length(); i++) {
            int[] current = new int[to.length() + 1];
            current[0] = i;
            for (int j = 1; j <= to.length(); j++) {
                int replaced = previous[j - 1] + (from.charAt(i - 1) == to.charAt(j - 1) ? 0 : 1);
                current[j] = Math.min(replaced, 1 + Math.min(previous[j], current[j - 1]));
            }
            previous = current;
        }
        return previous[to.length()];
    }
}
