package org.rejoin.bridge.clearance;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * A number as said: digit by digit, in groups, or in hundreds and thousands (Aeronautical Information Manual 4-2-8 to
 * 4-2-10).
 *
 * @param digits as they would be written, leading zeros kept: "zero five" is 05, "four fifty-five" is 455
 * @param value 0 or more
 */
public record SpokenNumber(String digits, int value) {

    private static final int MOST_DIGITS = 6;

    private static final Map<String, Integer> WORDS = Map.ofEntries(
            Map.entry("zero", 0),
            Map.entry("oh", 0),
            Map.entry("one", 1),
            Map.entry("wun", 1),
            Map.entry("two", 2),
            Map.entry("too", 2),
            Map.entry("three", 3),
            Map.entry("tree", 3),
            Map.entry("four", 4),
            Map.entry("fower", 4),
            Map.entry("five", 5),
            Map.entry("fife", 5),
            Map.entry("six", 6),
            Map.entry("seven", 7),
            Map.entry("eight", 8),
            Map.entry("ait", 8),
            Map.entry("nine", 9),
            Map.entry("niner", 9),
            Map.entry("ten", 10),
            Map.entry("eleven", 11),
            Map.entry("twelve", 12),
            Map.entry("thirteen", 13),
            Map.entry("fourteen", 14),
            Map.entry("fifteen", 15),
            Map.entry("sixteen", 16),
            Map.entry("seventeen", 17),
            Map.entry("eighteen", 18),
            Map.entry("nineteen", 19),
            Map.entry("twenty", 20),
            Map.entry("thirty", 30),
            Map.entry("forty", 40),
            Map.entry("fifty", 50),
            Map.entry("sixty", 60),
            Map.entry("seventy", 70),
            Map.entry("eighty", 80),
            Map.entry("ninety", 90),
            Map.entry("hundred", 100),
            Map.entry("thousand", 1000),
            Map.entry("tousand", 1000));

    /**
     * Reads the words of a number.
     *
     * @param words one or more, figures or words of the grammar's rule "number", any case
     * @return the number; empty if the words do not make one, or one of more than six digits
     */
    public static Optional<SpokenNumber> of(List<String> words) {
        List<String> lower =
                words.stream().map(word -> word.toLowerCase(Locale.ROOT)).toList();
        boolean scaled = lower.stream().anyMatch(word -> scale(word) > 0);
        Optional<String> digits = scaled ? scaled(lower, 1000).map(String::valueOf) : digits(lower);
        return digits.filter(text -> text.length() <= MOST_DIGITS)
                .map(text -> new SpokenNumber(text, Integer.parseInt(text)));
    }

    private static int scale(String word) {
        int value = WORDS.getOrDefault(word, 0);
        return value >= 100 ? value : 0;
    }

    /** "Four hundred fifty-five", "one two thousand five hundred": what stands before the scale word, times it, and the rest. */
    private static Optional<Integer> scaled(List<String> words, int scale) {
        int at = -1;
        for (int i = 0; i < words.size(); i++) {
            if (scale(words.get(i)) == scale) {
                if (at >= 0) {
                    return Optional.empty();
                }
                at = i;
            }
        }
        if (at < 0) {
            return scale == 1000 ? scaled(words, 100) : digits(words).map(Integer::valueOf);
        }
        Optional<Integer> before = digits(words.subList(0, at)).map(Integer::valueOf);
        List<String> rest = words.subList(at + 1, words.size());
        if (before.isEmpty() || rest.isEmpty()) {
            return before.map(count -> count * scale);
        }
        // "Six thousand five" may mean 6005 or 6500: the rest must fill its places.
        boolean fills = rest.stream().anyMatch(word -> scale(word) == 100)
                || digits(rest)
                        .filter(text -> text.length() == (scale == 1000 ? 3 : 2))
                        .isPresent();
        Optional<Integer> after =
                scale == 1000 ? scaled(rest, 100) : digits(rest).map(Integer::valueOf);
        return fills && after.isPresent() && after.get() < scale
                ? Optional.of(before.get() * scale + after.get())
                : Optional.empty();
    }

    /** Digits and groups side by side; empty if there are none, too many, or a scale word. */
    private static Optional<String> digits(List<String> words) {
        StringBuilder digits = new StringBuilder();
        boolean tens = false;
        for (String word : words) {
            Integer value = WORDS.get(word);
            if (value == null) {
                digits.append(word.replace(",", ""));
            } else if (value >= 100) {
                return Optional.empty();
            } else if (tens && value > 0 && value < 10) {
                digits.setCharAt(digits.length() - 1, Character.forDigit(value, 10));
            } else {
                digits.append(value);
            }
            tens = value != null && value >= 20;
        }
        boolean figures = digits.chars().allMatch(c -> c >= '0' && c <= '9');
        return digits.length() == 0 || digits.length() > MOST_DIGITS || !figures
                ? Optional.empty()
                : Optional.of(digits.toString());
    }
}
