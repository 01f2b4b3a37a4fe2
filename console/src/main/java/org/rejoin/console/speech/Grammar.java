package org.rejoin.console.speech;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * What a recogniser listens for: some clauses, each a pattern of words, in any order. Written for a recogniser as JSGF (Java
 * Speech Grammar Format, W3C Note, 2000), and able to tell where in a row of words one clause ends and the next begins. Immutable.
 *
 * @param clauses one or more of these are said, in any order
 * @param ends said before or after them, or not
 * @param first said before all else, or not
 */
record Grammar(List<Pattern> clauses, List<Pattern> ends, List<Pattern> first) {

    /** A pattern of words. */
    sealed interface Pattern {
        /** Those that it is made of; none of a word. */
        List<Pattern> parts();
    }

    /** One word, lower case. */
    record Word(String text) implements Pattern {
        @Override
        public List<Pattern> parts() {
            return List.of();
        }
    }

    record Row(List<Pattern> parts) implements Pattern {}

    record Choice(List<Pattern> parts) implements Pattern {}

    record Maybe(Pattern part) implements Pattern {
        @Override
        public List<Pattern> parts() {
            return List.of(part);
        }
    }

    /** A pattern that is written once and named, to keep the grammar small. */
    record Named(String name, Pattern part) implements Pattern {
        @Override
        public List<Pattern> parts() {
            return List.of(part);
        }
    }

    Grammar {
        clauses = List.copyOf(clauses);
        ends = List.copyOf(ends);
        first = List.copyOf(first);
    }

    /** Words one after another, as they are spelled: letters, apostrophes; blanks and hyphens between. */
    static Pattern words(String text) {
        List<Pattern> words = Stream.of(text.toLowerCase(Locale.ROOT).split("[ -]+", -1))
                .filter(word -> !word.isEmpty())
                .<Pattern>map(Word::new)
                .toList();
        return words.size() == 1 ? words.get(0) : new Row(words);
    }

    static Pattern row(Pattern... parts) {
        return new Row(List.of(parts));
    }

    static Pattern choice(List<Pattern> parts) {
        return parts.size() == 1 ? parts.get(0) : new Choice(List.copyOf(parts));
    }

    static Pattern choice(Pattern... parts) {
        return choice(List.of(parts));
    }

    /** Any of these, each one or more words. */
    static Pattern any(String... texts) {
        return choice(Stream.of(texts).map(Grammar::words).toList());
    }

    static Pattern maybe(Pattern part) {
        return new Maybe(part);
    }

    static Pattern maybe(String... texts) {
        return new Maybe(any(texts));
    }

    /** A pattern with a name of letters, the same for the same pattern only. */
    static Pattern named(String name, Pattern part) {
        return new Named(name, part);
    }

    /** The same with a mark behind each word. */
    static Pattern marked(Pattern pattern, String mark) {
        if (pattern instanceof Word word) {
            return new Word(word.text() + mark);
        }
        List<Pattern> parts =
                pattern.parts().stream().map(each -> marked(each, mark)).toList();
        if (pattern instanceof Row) {
            return new Row(parts);
        }
        if (pattern instanceof Choice) {
            return new Choice(parts);
        }
        return pattern instanceof Named named ? new Named(named.name() + mark, parts.get(0)) : new Maybe(parts.get(0));
    }

    /** Every word in it. */
    Set<String> vocabulary() {
        return Stream.of(clauses, ends, first)
                .flatMap(List::stream)
                .flatMap(Grammar::wordsOf)
                .collect(Collectors.toCollection(LinkedHashSet::new));
    }

    private static Stream<String> wordsOf(Pattern pattern) {
        return pattern instanceof Word word
                ? Stream.of(word.text())
                : pattern.parts().stream().flatMap(Grammar::wordsOf);
    }

    /** For a recogniser. */
    String jsgf() {
        Map<String, String> rules = new LinkedHashMap<>();
        String clause = clauses.stream().map(each -> text(each, rules)).collect(Collectors.joining(" | "));
        StringBuilder out = new StringBuilder("#JSGF V1.0;\ngrammar readback;\n");
        String end = ends.stream().map(each -> text(each, rules)).collect(Collectors.joining(" | "));
        String before = first.stream().map(each -> text(each, rules)).collect(Collectors.joining(" | "));
        out.append("public <readback> = ")
                .append(before.isEmpty() ? "" : "[" + before + "] ")
                .append(end.isEmpty() ? "<clause>+" : "[<end>] <clause>+ [<end>]")
                .append(";\n");
        if (!end.isEmpty()) {
            out.append("<end> = ").append(end).append(";\n");
        }
        out.append("<clause> = ").append(clause).append(";\n");
        rules.forEach((name, text) ->
                out.append('<').append(name).append("> = ").append(text).append(";\n"));
        return out.toString();
    }

    private static String text(Pattern pattern, Map<String, String> rules) {
        if (pattern instanceof Word word) {
            return word.text();
        }
        if (pattern instanceof Named named) {
            if (!rules.containsKey(named.name())) {
                rules.put(named.name(), "");
                rules.put(named.name(), text(named.part(), rules));
            }
            return "<" + named.name() + ">";
        }
        if (pattern instanceof Maybe maybe) {
            return "[" + text(maybe.part(), rules) + "]";
        }
        return pattern.parts().stream()
                .map(each -> text(each, rules))
                .collect(Collectors.joining(pattern instanceof Row ? " " : " | ", "(", ")"));
    }

    /**
     * Where the clauses of a row of words end.
     *
     * @param words lower case
     * @param pauses indices of words before which the speaker paused: a clause rather begins there
     * @return index after the last word of each clause, the ends too; empty where the words are none of this grammar
     */
    Optional<List<Integer>> clauses(List<String> words, Set<Integer> pauses) {
        boolean[] reached = new boolean[words.size() + 1];
        int[] cameFrom = new int[words.size() + 1];
        reached[0] = true;
        // Of several readings the one with the fewest clauses that do not begin at a pause; of these the longest first
        // clause.
        int[] cost = new int[words.size() + 1];
        for (int at = 0; at < words.size(); at++) {
            if (!reached[at]) {
                continue;
            }
            Set<Integer> next = new LinkedHashSet<>();
            for (List<Pattern> begin : List.of(clauses, ends, at == 0 ? first : List.<Pattern>of())) {
                for (Pattern each : begin) {
                    next.addAll(after(each, words, at));
                }
            }
            for (int to : next) {
                int now = cost[at] + (pauses.contains(at) ? 1 : 2);
                if (to > at && (!reached[to] || now <= cost[to])) {
                    reached[to] = true;
                    cost[to] = now;
                    cameFrom[to] = at;
                }
            }
        }
        if (!reached[words.size()] || words.isEmpty()) {
            return Optional.empty();
        }
        List<Integer> ends = new ArrayList<>();
        for (int at = words.size(); at > 0; at = cameFrom[at]) {
            ends.add(0, at);
        }
        return Optional.of(ends);
    }

    /** Everywhere a pattern may end that begins here. */
    private static Set<Integer> after(Pattern pattern, List<String> words, int at) {
        if (pattern instanceof Word word) {
            return at < words.size() && words.get(at).equals(word.text()) ? Set.of(at + 1) : Set.of();
        }
        if (pattern instanceof Row row) {
            Set<Integer> reached = Set.of(at);
            for (Pattern part : row.parts()) {
                Set<Integer> next = new LinkedHashSet<>();
                reached.forEach(from -> next.addAll(after(part, words, from)));
                reached = next;
            }
            return reached;
        }
        Set<Integer> reached = new LinkedHashSet<>();
        if (pattern instanceof Maybe) {
            reached.add(at);
        }
        pattern.parts().forEach(part -> reached.addAll(after(part, words, at)));
        return reached;
    }
}
