package org.rejoin.bridge.learn;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

import org.rejoin.protocol.profile.Quantity;

/** What was found and what must be asked. */
final class Findings {

    private final List<Learned.Finding> findings = new ArrayList<>();
    private final List<String> questions = new ArrayList<>();
    private final List<Spot> claimed = new ArrayList<>();

    /** A field that is known, or nearly. */
    void add(Quantity is, Spot spot, Scale scale, boolean sure, double confidence, String evidence) {
        claimed.add(spot);
        double kept = sure ? confidence : Math.min(0.85, confidence);
        findings.add(new Learned.Finding(
                spot.value(is, scale.unit(), scale.scale()),
                spot.message(),
                sure,
                kept,
                spot.words(),
                spot.words() + ", " + scale.words() + ": " + evidence));
    }

    boolean isClaimed(Spot spot) {
        return claimed.stream().anyMatch(spot::overlaps);
    }

    void ask(String question) {
        questions.add(question);
    }

    /** Fields that are something already. */
    List<Spot> claimed() {
        return List.copyOf(claimed);
    }

    /** Sure ones first. */
    List<Learned.Finding> findings() {
        return findings.stream().sorted(Comparator.comparing(f -> !f.sure())).toList();
    }

    /** Only what a needed field waits for. */
    List<String> questions(Learned draft) {
        if (draft.complete()) {
            return List.of();
        }
        if (questions.isEmpty()) {
            questions.add("not found: " + String.join(", ", draft.missing())
                    + "; let the simulator send it, and fly the whole script again");
        }
        return questions.stream().distinct().toList();
    }
}
