package org.rejoin.console.speech;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * What a recogniser listens for: some clauses, each a pattern of words, in any order. Written for a recogniser as JSGF (Java
 * Speech Grammar Format, W3C Note, 2000), and able to tell where in a row of words one clause ends and the next begins. Immutable.
 */
final class Grammar {

    /** A pattern of words. */
    sealed interface Pattern {}

    /** One word, lower case. */
    private record Word(String text) implements Pattern {}

    private record Row(List<Pattern> parts) implements Pattern {}

    private record Choice(List<Pattern> parts) implements Pattern {}

    private record Maybe(Pattern part) implements Pattern {}

    /** A pattern that is written once and named, to keep the grammar small. */
    private record Named(String name, Pattern part) implements Pattern {}

    private final List<Pattern> clauses;
    private final List<Pattern> ends;
    private final List<Pattern> first;

    /**
     * Clauses in any order.
     *
     * @param clauses one or more of these are said
     * @param ends said before or after them, or not
     * @param first said before all else, or not
     */
    Grammar(List<Pattern> clauses, List<Pattern> ends, List<Pattern> first) {
        this.first = List.copyOf(first);
        this.clauses = List.copyOf(clauses);
        this.ends = List.copyOf(ends);
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
        if (pattern instanceof Row row) {
            return new Row(row.parts().stream().map(each -> marked(each, mark)).toList());
        }
        if (pattern instanceof Choice choice) {
            return new Choice(
                    choice.parts().stream().map(each -> marked(each, mark)).toList());
        }
        if (pattern instanceof Maybe maybe) {
            return new Maybe(marked(maybe.part(), mark));
        }
        Named named = (Named) pattern;
        return new Named(named.name() + mark, marked(named.part(), mark));
    }

    /** Every word in it. */
    Set<String> vocabulary() {
        Set<String> words = new LinkedHashSet<>();
        Stream.of(clauses, ends, first).flatMap(List::stream).forEach(each -> collect(each, words));
        return words;
    }

    private static void collect(Pattern pattern, Set<String> words) {
        if (pattern instanceof Word word) {
            words.add(word.text());
        } else if (pattern instanceof Row row) {
            row.parts().forEach(each -> collect(each, words));
        } else if (pattern instanceof Choice choice) {
            choice.parts().forEach(each -> collect(each, words));
        } else if (pattern instanceof Maybe maybe) {
            collect(maybe.part(), words);
        } else if (pattern instanceof Named named) {
            collect(named.part(), words);
        }
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
        if (pattern instanceof Row row) {
            return "(" + row.parts().stream().map(each -> text(each, rules)).collect(Collectors.joining(" ")) + ")";
        }
        if (pattern instanceof Choice choice) {
            return "("
                    + choice.parts().stream().map(each -> text(each, rules)).collect(Collectors.joining(" | "))
                    + ")";
        }
        if (pattern instanceof Maybe maybe) {
            return "[" + text(maybe.part(), rules) + "]";
        }
        Named named = (Named) pattern;
        if (!rules.containsKey(named.name())) {
            rules.put(named.name(), "");
            rules.put(named.name(), text(named.part(), rules));
        }
        return "<" + named.name() + ">";
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
            for (Pattern clause : clauses) {
                next.addAll(after(clause, words, at));
            }
            for (Pattern end : ends) {
                next.addAll(after(end, words, at));
            }
            if (at == 0) {
                first.forEach(each -> next.addAll(after(each, words, 0)));
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

    /** A sentence of this grammar, drawn: its words, clause by clause. */
    List<String> drawn(Random random) {
        List<String> sentence = new ArrayList<>();
        int count = 1 + random.nextInt(3);
        for (int i = 0; i < count; i++) {
            sentence.add(drawn(clauses.get(random.nextInt(clauses.size())), random));
        }
        return sentence;
    }

    private static String drawn(Pattern pattern, Random random) {
        if (pattern instanceof Word word) {
            return word.text();
        }
        if (pattern instanceof Row row) {
            return row.parts().stream()
                    .map(each -> drawn(each, random))
                    .filter(text -> !text.isEmpty())
                    .collect(Collectors.joining(" "));
        }
        if (pattern instanceof Choice choice) {
            return drawn(choice.parts().get(random.nextInt(choice.parts().size())), random);
        }
        if (pattern instanceof Maybe maybe) {
            return random.nextBoolean() ? drawn(maybe.part(), random) : "";
        }
        return drawn(((Named) pattern).part(), random);
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
        if (pattern instanceof Choice choice) {
            choice.parts().forEach(part -> reached.addAll(after(part, words, at)));
        } else if (pattern instanceof Maybe maybe) {
            reached.add(at);
            reached.addAll(after(maybe.part(), words, at));
        } else if (pattern instanceof Named named) {
            reached.addAll(after(named.part(), words, at));
        }
        return reached;
    }
}
