package org.rejoin.console.speech;

import static org.rejoin.console.speech.Grammar.any;
import static org.rejoin.console.speech.Grammar.choice;
import static org.rejoin.console.speech.Grammar.maybe;
import static org.rejoin.console.speech.Grammar.named;
import static org.rejoin.console.speech.Grammar.row;
import static org.rejoin.console.speech.Grammar.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import java.util.stream.Stream;

import org.rejoin.bridge.clearance.Phraseology;
import org.rejoin.console.speech.Grammar.Pattern;

/** Figures as they are said on the radio (ICAO Annex 10, volume II, 5.2.1.4.3.1; AIM 4-2-7), and what else each could have been. */
final class SpokenFigures {

    /** Other ways to say a figure (ICAO Annex 10, volume II, 5.2.1.4.3.1), and those of everyday speech. */
    private static final Map<Integer, String> ALSO = Map.of(3, "tree", 4, "fower", 5, "fife", 9, "nine");

    /** Ways to say a figure, by the figure. */
    private static final List<List<String>> DIGITS = IntStream.range(0, 10)
            .mapToObj(i -> Stream.of(Optional.of(Phraseology.grouped(i)), Optional.ofNullable(ALSO.get(i)))
                    .flatMap(Optional::stream)
                    .toList())
            .toList();

    private static final List<String> TEENS =
            IntStream.range(10, 20).mapToObj(Phraseology::grouped).toList();

    /** From twenty. */
    private static final List<String> TENS =
            IntStream.range(2, 10).mapToObj(i -> Phraseology.grouped(10 * i)).toList();

    /** The first figure of a heading or a radial is 3 at most. */
    private static final int MOST_HUNDREDS = 3;

    static final Pattern DIGIT = named("digit", any(digits(0, 9)));
    static final Pattern TEEN = named("teen", any(TEENS.toArray(new String[0])));
    static final Pattern TEN = named("tens", any(TENS.toArray(new String[0])));
    static final Pattern UNIT = named("unit", any(digits(1, 9)));
    static final Pattern UP_TO_99 = named("group", choice(TEEN, row(TEN, maybe(UNIT))));

    /** 001 to 360: figures one by one, or the first and a group. */
    static final Pattern DIRECTION = named(
            "three",
            choice(
                    row(any(digits(0, 2)), choice(row(DIGIT, DIGIT), UP_TO_99)),
                    row(
                            any(digits(3, 3)),
                            choice(
                                    row(any(digits(0, 5)), DIGIT),
                                    TEEN,
                                    row(any(TENS.subList(0, 4).toArray(new String[0])), maybe(UNIT)),
                                    words("six zero"),
                                    words("sixty")))));

    static final Pattern TIME = named("time", row(DIGIT, DIGIT, DIGIT, DIGIT));

    private SpokenFigures() {}

    /**
     * An altitude or a flight level.
     *
     * @param high whether thousands from twenty on are said: a short "two" is heard easily where nobody said it, and most
     *     altitudes so high are flight levels
     */
    static Pattern altitude(boolean high) {
        return named(
                "altitude",
                choice(
                        row(
                                choice(row(high ? any("one", "two") : words("one"), DIGIT), TEEN, UNIT),
                                words("thousand"),
                                maybe(row(DIGIT, words("hundred")))),
                        row(
                                words("flight level"),
                                choice(
                                        row(words("one"), any(digits(8, 9)), DIGIT),
                                        row(any(digits(2, 5)), DIGIT, DIGIT)))));
    }

    /** Every way to say one of these figures. */
    static String[] digits(int first, int last) {
        return DIGITS.subList(first, last + 1).stream().flatMap(List::stream).toArray(String[]::new);
    }

    static boolean isFigure(String word) {
        return digit(word) >= 0 || TEENS.contains(word) || TENS.contains(word);
    }

    private static int digit(String word) {
        for (int i = 0; i < DIGITS.size(); i++) {
            if (DIGITS.get(i).contains(word)) {
                return i;
            }
        }
        return -1;
    }

    /**
     * Other values that could have been said for a number.
     *
     * @param said its words, figures, teens and tens
     * @param large whether "thousand" or "hundred" follows
     * @param direction whether it is one of three figures
     * @return patterns, each of another value
     */
    static List<Pattern> others(List<String> said, boolean large, boolean direction) {
        List<Pattern> others = new ArrayList<>();
        for (int i = 0; i < said.size(); i++) {
            int most = direction && i == 0 ? MOST_HUNDREDS : 9;
            for (Pattern each : others(said.get(i), most, i + 1 == said.size())) {
                others.add(replaced(said, i, 1, each));
            }
            int digit = digit(said.get(i));
            int next = i + 1 < said.size() ? digit(said.get(i + 1)) : -1;
            if (digit > 1 && next >= 0) {
                others.add(replaced(said, i, 2, words(TEENS.get(digit))));
                if (next > 0) {
                    others.add(replaced(said, i, 2, words(TENS.get(digit - 2))));
                }
            }
            if (TENS.contains(said.get(i)) && next > 0) {
                others.add(replaced(said, i, 2, any(said.get(i), TEENS.get(TENS.indexOf(said.get(i)) + 2))));
            }
        }
        if (large && said.size() == 1 && digit(said.get(0)) >= 0) {
            others.add(row(words("one"), words(said.get(0))));
        } else if (large && said.size() == 2 && digit(said.get(1)) > 0) {
            others.add(words(said.get(1)));
        }
        return others;
    }

    private static List<Pattern> others(String word, int most, boolean last) {
        int digit = digit(word);
        if (digit >= 0) {
            String[] rest = Stream.of(digits(0, most))
                    .filter(each -> digit(each) != digit)
                    .toArray(String[]::new);
            return List.of(any(rest));
        }
        List<Pattern> others = new ArrayList<>();
        if (TEENS.contains(word)) {
            int ones = TEENS.indexOf(word);
            others.add(any(without(TEENS, word)));
            if (ones > 1) {
                others.add(words(TENS.get(ones - 2)));
            }
        } else {
            int tens = TENS.indexOf(word) + 2;
            others.add(any(without(TENS, word)));
            if (last) {
                others.add(words(TEENS.get(tens)));
                others.add(row(words(word), any(digits(1, 9))));
                others.add(row(any(DIGITS.get(tens).toArray(new String[0])), any(digits(1, 9))));
            }
        }
        return others;
    }

    private static String[] without(List<String> all, String word) {
        return all.stream().filter(each -> !each.equals(word)).toArray(String[]::new);
    }

    private static Pattern replaced(List<String> said, int at, int count, Pattern other) {
        List<Pattern> parts = new ArrayList<>();
        said.subList(0, at).forEach(word -> parts.add(words(word)));
        parts.add(other);
        said.subList(at + count, said.size()).forEach(word -> parts.add(words(word)));
        return parts.size() == 1 ? choice(parts) : row(parts.toArray(new Pattern[0]));
    }

    /** "Forty" and "fourteen" are said alike. */
    static boolean areTwins(List<String> one, List<String> other) {
        return one.stream().anyMatch(word -> TENS.contains(word) && other.contains(TEENS.get(TENS.indexOf(word) + 2)))
                || other.stream()
                        .anyMatch(word -> TENS.contains(word) && one.contains(TEENS.get(TENS.indexOf(word) + 2)));
    }

    /** Figures one after another, whichever way they are said: "four zero" of "forty". */
    static String value(List<String> said) {
        StringBuilder figures = new StringBuilder();
        for (int i = 0; i < said.size(); i++) {
            String word = said.get(i);
            int digit = digit(word);
            int tens = TENS.indexOf(word) + 2;
            if (digit >= 0) {
                figures.append(digit);
            } else if (TEENS.contains(word)) {
                figures.append(TEENS.indexOf(word) + 10);
            } else if (i + 1 < said.size() && digit(said.get(i + 1)) > 0) {
                figures.append(tens);
            } else {
                figures.append(tens * 10);
            }
        }
        return figures.toString();
    }

    /** Each number in a row of words, and where two of its figures can be said in one, so too. */
    static List<List<String>> numbers(List<String> words) {
        List<List<String>> numbers = new ArrayList<>();
        for (int at = 0; at < words.size(); at++) {
            int end = at;
            while (end < words.size() && isFigure(words.get(end))) {
                end++;
            }
            if (end > at) {
                List<String> number = List.copyOf(words.subList(at, end));
                numbers.add(number);
                inGroups(number).ifPresent(numbers::add);
                at = end;
            }
        }
        return numbers.stream().distinct().toList();
    }

    private static Optional<List<String>> inGroups(List<String> number) {
        int count = number.size();
        int tens = count < 2 ? -1 : digit(number.get(count - 2));
        int ones = count < 2 ? -1 : digit(number.get(count - 1));
        if (tens < 1 || ones < 0) {
            return Optional.empty();
        }
        List<String> groups = new ArrayList<>(number.subList(0, count - 2));
        if (tens == 1) {
            groups.add(TEENS.get(ones));
        } else {
            groups.add(TENS.get(tens - 2));
            if (ones > 0) {
                groups.add(number.get(count - 1));
            }
        }
        return Optional.of(List.copyOf(groups));
    }
}
