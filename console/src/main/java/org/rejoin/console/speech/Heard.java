package org.rejoin.console.speech;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * What a recogniser heard, clause by clause, with how well each fits its words against bare phones. Pure.
 *
 * @param clauses in the order said; none where nothing was understood
 */
record Heard(List<Clause> clauses) {

    /** Said before or after a readback, and no part of it. */
    private static final Set<String> COURTESY = Set.of("roger", "wilco");

    Heard {
        clauses = List.copyOf(clauses);
    }

    /**
     * One clause.
     *
     * @param text its words
     * @param fit how much likelier its sound is as these words than as bare phones, per frame of 10 ms, in the recogniser's
     *     unit; negative where bare phones fit better
     * @param worst the same of the word that fits worst
     */
    record Clause(String text, double fit, double worst) {}

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
            String text = part.stream().map(Recogniser.Segment::word).collect(Collectors.joining(" "));
            if (!COURTESY.contains(text)) {
                clauses.add(new Clause(text, fit(part, phones), worst(part, phones)));
            }
            from = to;
        }
        return new Heard(clauses);
    }

    private static double fit(List<Recogniser.Segment> part, List<Recogniser.Segment> phones) {
        double score = 0;
        double bare = 0;
        int frames = 0;
        for (Recogniser.Segment each : part) {
            score += each.score();
            bare += bare(phones, each.from(), each.to());
            frames += each.to() - each.from();
        }
        return (score - bare) / Math.max(1, frames);
    }

    private static double worst(List<Recogniser.Segment> part, List<Recogniser.Segment> phones) {
        double worst = Double.POSITIVE_INFINITY;
        for (Recogniser.Segment each : part) {
            int frames = each.to() - each.from();
            double fit = (each.score() - bare(phones, each.from(), each.to())) / Math.max(SHORT, frames);
            worst = Math.min(worst, fit);
        }
        return worst;
    }

    /** The score of bare phones over some frames. */
    private static double bare(List<Recogniser.Segment> phones, int from, int to) {
        double score = 0;
        for (Recogniser.Segment each : phones) {
            int shared = Math.min(to, each.to()) - Math.max(from, each.from());
            if (shared > 0) {
                score += each.score() * shared / Math.max(1, each.to() - each.from());
            }
        }
        return score;
    }

    /** All of it in words, a comma after each clause. */
    String words() {
        return clauses.stream().map(Clause::text).collect(Collectors.joining(", "));
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
