package org.rejoin.bridge.clearance;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * A number as said: digit by digit, in groups, or in hundreds and thousands (Aeronautical Information Manual 4-2-8 to
 * 4-2-10).
 *
 * @param digits as they would be written, leading zeros kept: "zero five" is 05, "four fifty-five" is 455
 */
public record SpokenNumber(String digits, int value) {

    private static final int MOST_DIGITS = 6;

    private static final Map<String, Integer> WORDS = Stream.of(
                    ("zero=0 oh=0 one=1 wun=1 two=2 too=2 three=3 tree=3 four=4 fower=4 five=5 fife=5 six=6 "
                                    + "seven=7 eight=8 ait=8 nine=9 niner=9 ten=10 eleven=11 twelve=12 thirteen=13 fourteen=14 "
                                    + "fifteen=15 sixteen=16 seventeen=17 eighteen=18 nineteen=19 twenty=20 thirty=30 forty=40 "
                                    + "fifty=50 sixty=60 seventy=70 eighty=80 ninety=90 hundred=100 thousand=1000 tousand=1000")
                            .split(" ", -1))
            .map(each -> each.split("=", 2))
            .collect(Collectors.toUnmodifiableMap(each -> each[0], each -> Integer.valueOf(each[1])));

    /**
     * Reads the words of a number, figures or words of the grammar's rule "number"; empty if they do not make one, or
     * one of more than six digits.
     */
    public static Optional<SpokenNumber> of(List<String> words) {
        List<String> lower =
                words.stream().map(word -> word.toLowerCase(Locale.ROOT)).toList();
        boolean scaled = lower.stream().anyMatch(word -> scale(word) > 0);
        Optional<String> digits = scaled ? scaled(lower, 1000).map(String::valueOf) : digits(lower);
        return digits.filter(text -> text.length() <= MOST_DIGITS)
                .map(text -> new SpokenNumber(text, Integer.parseInt(text)));
    }

    /** Whether it is a word of numbers: "five", "niner", "thousand". */
    static boolean isWord(String word) {
        return WORDS.containsKey(word.toLowerCase(Locale.ROOT));
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
