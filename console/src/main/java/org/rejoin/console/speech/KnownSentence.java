package org.rejoin.console.speech;

import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * One sentence that a pilot says so that his voice is known: by which stretch of its spectrum it fits best, whether it drops the
 * r, and how well it then fits. Nothing else than the sentence is listened for, so a voice that fits badly is understood, too.
 */
record KnownSentence(Recogniser recogniser, Pronunciations pronunciations) {

    /** Said once by each pilot. */
    static final String WORDS =
            "turn left heading one two zero, join victor forty six, descend and maintain three thousand five hundred, then as filed";

    /** Vocal tracts differ by so much (the usual range of this method; L. Lee and R. Rose, 1998, from memory). */
    private static final List<Double> WARPS = List.of(0.88, 0.94, 1.0, 1.06, 1.12);

    /** A voice drops the r where its sound fits better so by this, per frame (found on the voices of the test). */
    private static final double BETTER = 0.5;

    /** Other sentences fit worse than this (the nearest of those tried: -28; the worst voice that said it: -15). */
    private static final double SAID = -22;

    /** What the sentence fits with of the voices that are heard well; a pilot's own difference from it moves the limits. */
    private static final double USUAL_FIT = -2;

    /** The limits are lowered by so much at most. */
    private static final double MOST_LOWER = 4;

    private static final Grammar GRAMMAR = new Grammar(
            List.of(Grammar.row(
                    Grammar.words("turn left heading one two zero join victor"),
                    Grammar.any("forty six", "four six"),
                    Grammar.words("descend and maintain"),
                    Grammar.any("three", "tree"),
                    Grammar.words("thousand"),
                    Grammar.any("five", "fife"),
                    Grammar.words("hundred then as filed"))),
            List.of(),
            List.of());

    /**
     * What is learnt of a voice.
     *
     * @param sound of {@link #WORDS}
     * @return empty where something else was said
     * @throws IOException if the program fails; one line
     */
    Optional<PilotVoice> learn(Sound sound) throws IOException {
        List<Recogniser.Segment> best = List.of();
        double warp = 1;
        for (double each : WARPS) {
            List<Recogniser.Segment> said = said(sound, each, true);
            if (!words(said).isEmpty() && (best.isEmpty() || likelihood(said) > likelihood(best))) {
                best = said;
                warp = each;
            }
        }
        if (best.isEmpty()) {
            return Optional.empty();
        }
        List<Recogniser.Segment> phones =
                recogniser.hear(sound, Recogniser.phoneGrammar(), Recogniser.phoneDictionary(), warp);
        List<Recogniser.Segment> withR = said(sound, warp, false);
        boolean drops = words(withR).isEmpty() || likelihood(best) - likelihood(withR) >= BETTER;
        double fit = Heard.fit(words(drops ? best : withR), phones);
        return fit < SAID
                ? Optional.empty()
                : Optional.of(new PilotVoice(Math.max(-MOST_LOWER, Math.min(0, fit - USUAL_FIT)), warp, drops));
    }

    private List<Recogniser.Segment> said(Sound sound, double warp, boolean dropsR) throws IOException {
        return recogniser.hear(sound, GRAMMAR.jsgf(), pronunciations.of(GRAMMAR.vocabulary(), Map.of(), dropsR), warp);
    }

    private static List<Recogniser.Segment> words(List<Recogniser.Segment> all) {
        return all.stream().filter(each -> !each.word().isEmpty()).toList();
    }

    /** Of all of it, pauses too, per frame. */
    private static double likelihood(List<Recogniser.Segment> all) {
        return all.stream().mapToDouble(Recogniser.Segment::score).sum()
                / Math.max(1, all.get(all.size() - 1).to());
    }
}
