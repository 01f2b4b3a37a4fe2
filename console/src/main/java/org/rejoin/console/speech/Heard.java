package org.rejoin.console.speech;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * What a recogniser heard, clause by clause, with how well each fits its words against bare phones. Pure.
 *
 * @param clauses in the order said; none where nothing was understood
 * @param all pieces of the sound, silence too
 */
record Heard(List<Clause> clauses, List<Recogniser.Segment> all) {

    /** Said before or after a readback, and no part of it. */
    private static final Set<String> COURTESY = Set.of("roger", "wilco");

    Heard {
        clauses = List.copyOf(clauses);
        all = List.copyOf(all);
    }

    /**
     * One clause.
     *
     * @param words each with its place in the sound
     * @param fit how much likelier its sound is as these words than as bare phones, per frame of 10 ms, in the recogniser's
     *     unit; negative where bare phones fit better
     * @param worst the same of the word that fits worst
     */
    record Clause(List<Recogniser.Segment> words, double fit, double worst) {
        Clause {
            words = List.copyOf(words);
        }

        /** Its words. */
        List<String> spoken() {
            return words.stream().map(Recogniser.Segment::word).toList();
        }

        /** The same with blanks between. */
        String text() {
            return String.join(" ", spoken());
        }
    }

    /** A pause between two words, frames (judgement). */
    private static final int PAUSE = 5;

    /** So short a word says little by itself, frames. */
    private static final int SHORT = 12;

    /** Heard with a grammar, and again with bare phones. */
    static Heard of(List<Recogniser.Segment> words, List<Recogniser.Segment> phones, Grammar grammar) {
        List<Recogniser.Segment> said =
                words.stream().filter(each -> !each.word().isEmpty()).toList();
        Set<Integer> pauses = new HashSet<>();
        for (int i = 1; i < said.size(); i++) {
            if (said.get(i).from() - said.get(i - 1).to() >= PAUSE) {
                pauses.add(i);
            }
        }
        Optional<List<Integer>> ends =
                grammar.clauses(said.stream().map(Recogniser.Segment::word).toList(), pauses);
        List<Clause> clauses = new ArrayList<>();
        int from = 0;
        for (int to : ends.orElse(List.of())) {
            List<Recogniser.Segment> part = said.subList(from, to);
            Clause clause = new Clause(part, fit(part, phones), worst(part, phones));
            if (!COURTESY.contains(clause.text())) {
                clauses.add(clause);
            }
            from = to;
        }
        return new Heard(clauses, words);
    }

    /** How much likelier these words are than bare phones, per frame. */
    static double fit(List<Recogniser.Segment> part, List<Recogniser.Segment> phones) {
        double score = 0;
        double bare = 0;
        int frames = 0;
        for (Recogniser.Segment each : part) {
            score += each.score();
            bare += score(phones, each.from(), each.to());
            frames += each.to() - each.from();
        }
        return (score - bare) / Math.max(1, frames);
    }

    private static double worst(List<Recogniser.Segment> part, List<Recogniser.Segment> phones) {
        double worst = Double.POSITIVE_INFINITY;
        for (Recogniser.Segment each : part) {
            int frames = each.to() - each.from();
            double fit = (each.score() - score(phones, each.from(), each.to())) / Math.max(SHORT, frames);
            worst = Math.min(worst, fit);
        }
        return worst;
    }

    /** The score of some frames. */
    static double score(List<Recogniser.Segment> pieces, int from, int to) {
        double score = 0;
        for (Recogniser.Segment each : pieces) {
            int shared = Math.min(to, each.to()) - Math.max(from, each.from());
            if (shared > 0) {
                score += each.score() * shared / Math.max(1, each.to() - each.from());
            }
        }
        return score;
    }

    /** Some frames, and as many more on either side until both decodes have a word begin there: only then they compare. */
    static int[] span(List<Recogniser.Segment> one, List<Recogniser.Segment> other, int from, int to) {
        Set<Integer> both = ends(one);
        both.retainAll(ends(other));
        int first =
                both.stream().filter(each -> each <= from).reduce((a, b) -> b).orElse(from);
        int last = both.stream().filter(each -> each >= to).findFirst().orElse(to);
        return new int[] {first, last};
    }

    private static Set<Integer> ends(List<Recogniser.Segment> pieces) {
        return pieces.stream()
                .flatMap(each -> Stream.of(each.from(), each.to()))
                .collect(Collectors.toCollection(TreeSet::new));
    }

    /** The fit of the whole. */
    double fit() {
        double sum = 0;
        int length = 0;
        for (Clause each : clauses) {
            sum += each.fit() * each.text().length();
            length += each.text().length();
        }
        return length == 0 ? Double.NEGATIVE_INFINITY : sum / length;
    }
}
