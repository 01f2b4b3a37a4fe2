package org.rejoin.console.speech;

import static org.rejoin.console.speech.Grammar.any;
import static org.rejoin.console.speech.Grammar.choice;
import static org.rejoin.console.speech.Grammar.maybe;
import static org.rejoin.console.speech.Grammar.row;
import static org.rejoin.console.speech.Grammar.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

import org.rejoin.console.speech.Grammar.Pattern;

/**
 * The nearest other value of each number, name and side that was heard: "fourteen" for "forty". The sound is decoded once more
 * with a sentence that has another value in each of these places, and how much worse that fits tells how sure each is. Pure.
 */
final class Rivals {

    /** Between a word and the place it stands at: no word of a grammar has it. */
    private static final char AT = '_';

    private static final List<String> LARGE = List.of("thousand", "hundred");

    /**
     * A place of what was heard.
     *
     * @param clause index of its clause
     * @param from index of its first word in the clause
     * @param to index after its last word; as from where a name could have been said and was not
     * @param others what else could have been said there
     */
    private record Place(int clause, int from, int to, Pattern others) {}

    /**
     * What else could have been heard at one place.
     *
     * @param margin how much likelier the sound is as what was heard, in the recogniser's unit; negative where the other is
     *     likelier
     * @param twin whether the two are said alike, as "forty" and "fourteen"
     * @param clauses all that was heard with the other value at this place
     */
    record Other(double margin, boolean twin, List<String> clauses) {
        Other {
            clauses = List.copyOf(clauses);
        }
    }

    private final Heard heard;
    private final List<List<String>> expected;
    private final List<Place> places = new ArrayList<>();

    /**
     * Of what was heard.
     *
     * @param heard in words
     * @param names each place of the chart with all its spoken names, lower case
     * @param expected what was to be said, in words
     */
    Rivals(Heard heard, List<Set<String>> names, String expected) {
        this.heard = heard;
        this.expected =
                SpokenFigures.numbers(List.of(expected.toLowerCase(Locale.ROOT).split("[^a-z]+", -1)));
        for (int c = 0; c < heard.clauses().size(); c++) {
            of(c, heard.clauses().get(c).spoken(), names);
        }
    }

    private void of(int clause, List<String> words, List<Set<String>> names) {
        boolean named = false;
        for (int at = 0; at < words.size(); at++) {
            String word = words.get(at);
            int name = nameAt(words, at, names);
            if (name > 0) {
                String text = String.join(" ", words.subList(at, at + name));
                int count = name;
                List<Pattern> others = names.stream()
                        .filter(each -> !each.contains(text))
                        .flatMap(Set::stream)
                        .filter(each -> each.split(" ", -1).length == count)
                        .map(Grammar::words)
                        .toList();
                if (!others.isEmpty()) {
                    places.add(new Place(clause, at, at + name, choice(others)));
                }
                named = true;
                at += name - 1;
            } else if (word.equals("left") || word.equals("right")) {
                places.add(new Place(clause, at, at + 1, words(word.equals("left") ? "right" : "left")));
            } else if (SpokenFigures.isFigure(word)) {
                int end = at;
                while (end < words.size() && SpokenFigures.isFigure(words.get(end))) {
                    end++;
                }
                if (!named
                        && words.contains("radial")
                        && names.stream().flatMap(Set::stream).anyMatch(each -> !each.contains(" "))) {
                    places.add(new Place(
                            clause,
                            at,
                            at,
                            choice(names.stream()
                                    .flatMap(Set::stream)
                                    .filter(each -> !each.contains(" "))
                                    .map(Grammar::words)
                                    .toList())));
                }
                boolean large = end < words.size() && LARGE.contains(words.get(end));
                boolean direction = end - at == 3 && (words.contains("heading") || words.contains("radial"));
                List<String> said = words.subList(at, end);
                List<Pattern> others = new ArrayList<>(SpokenFigures.others(said, large, direction));
                expected.stream()
                        .filter(each -> !SpokenFigures.value(each).equals(SpokenFigures.value(said)))
                        .forEach(each -> others.add(words(String.join(" ", each))));
                places.add(new Place(clause, at, end, choice(others)));
                at = end - 1;
            }
        }
    }

    /** How many words of the longest name begin here; 0 where none does. */
    private static int nameAt(List<String> words, int at, List<Set<String>> names) {
        int longest = 0;
        for (Set<String> each : names) {
            for (String name : each) {
                List<String> parts = List.of(name.split(" ", -1));
                if (parts.size() > longest
                        && at + parts.size() <= words.size()
                        && words.subList(at, at + parts.size()).equals(parts)) {
                    longest = parts.size();
                }
            }
        }
        return longest;
    }

    /** Whether there is anything to be compared. */
    boolean isEmpty() {
        return places.isEmpty();
    }

    /** The sentence that was heard, with another value at each place; each word there has the place's number behind it. */
    Grammar grammar() {
        List<Pattern> parts = new ArrayList<>();
        parts.add(maybe(any("roger", "wilco")));
        int next = 0;
        for (int c = 0; c < heard.clauses().size(); c++) {
            List<String> words = heard.clauses().get(c).spoken();
            int at = 0;
            while (next < places.size() && places.get(next).clause() == c) {
                Place place = places.get(next);
                words.subList(at, place.from()).forEach(word -> parts.add(words(word)));
                parts.add(Grammar.marked(place.others(), "" + AT + next));
                at = place.to();
                next++;
            }
            words.subList(at, words.size()).forEach(word -> parts.add(words(word)));
        }
        return new Grammar(List.of(row(parts.toArray(new Pattern[0]))), List.of(), List.of());
    }

    /** A word of the grammar as it is in dictionaries. */
    static String plain(String word) {
        int at = word.indexOf(AT);
        return at < 0 ? word : word.substring(0, at);
    }

    /** What else could have been heard, for each place where it was found in segments heard with {@link #grammar()}. */
    List<Other> others(List<Recogniser.Segment> segments) {
        Map<Integer, List<Recogniser.Segment>> found = new TreeMap<>();
        for (Recogniser.Segment each : segments) {
            int at = each.word().indexOf(AT);
            if (at >= 0) {
                found.computeIfAbsent(Integer.parseInt(each.word().substring(at + 1)), unseen -> new ArrayList<>())
                        .add(each);
            }
        }
        List<Recogniser.Segment> all = heard.all();
        List<Other> others = new ArrayList<>();
        found.forEach((number, said) -> {
            Place place = places.get(number);
            List<Recogniser.Segment> mine =
                    heard.clauses().get(place.clause()).words().subList(place.from(), place.to());
            int from = Math.min(
                    said.get(0).from(),
                    mine.isEmpty() ? Integer.MAX_VALUE : mine.get(0).from());
            int to = Math.max(
                    said.get(said.size() - 1).to(),
                    mine.isEmpty() ? 0 : mine.get(mine.size() - 1).to());
            int[] span = Heard.span(all, segments, from, to);
            // Not over another place, which would be counted, too.
            boolean alone = segments.stream()
                    .noneMatch(each -> each.word().indexOf(AT) >= 0
                            && !said.contains(each)
                            && each.from() < span[1]
                            && each.to() > span[0]);
            int first = alone ? span[0] : from;
            int last = alone ? span[1] : to;
            double margin = Heard.score(all, first, last) - Heard.score(segments, first, last);
            List<String> clauses = new ArrayList<>(
                    heard.clauses().stream().map(Heard.Clause::text).toList());
            List<String> words =
                    new ArrayList<>(heard.clauses().get(place.clause()).spoken());
            List<String> instead = said.stream().map(each -> plain(each.word())).toList();
            boolean twin = SpokenFigures.areTwins(words.subList(place.from(), place.to()), instead);
            words.subList(place.from(), place.to()).clear();
            words.addAll(place.from(), instead);
            clauses.set(place.clause(), String.join(" ", words));
            others.add(new Other(margin, twin, clauses));
        });
        return others;
    }
}
