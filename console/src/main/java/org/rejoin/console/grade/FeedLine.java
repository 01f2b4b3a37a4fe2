package org.rejoin.console.grade;

import java.util.ArrayList;
import java.util.List;

import org.rejoin.bridge.flight.FeedQuality;
import org.rejoin.console.words.Words;

/**
 * What the simulator sent, as far as it bears on the grade.
 *
 * @param rateHz samples a second
 * @param resolutionNm smallest step of the positions, NM; 0 where it is too fine to matter
 * @param lost samples that did not come
 * @param strays samples that lay off the way flown and were left out
 * @param gaps times in which nothing came for long
 * @param silentS of them together, seconds
 * @param judgesTrack whether tracks and turns can be judged
 * @param advice what to set in the simulator, one sentence each
 */
public record FeedLine(
        double rateHz,
        double resolutionNm,
        long lost,
        long strays,
        int gaps,
        double silentS,
        boolean judgesTrack,
        List<String> advice) {

    /** Positions finer than this show every turn, NM; common practice, no source. */
    private static final double FINE_NM = 0.001;

    /** Fewer samples a second show a turn late; common practice, no source. */
    private static final double LEAST_HZ = 0.9;

    public FeedLine {
        advice = List.copyOf(advice);
    }

    static FeedLine of(FeedQuality quality) {
        List<String> advice = new ArrayList<>();
        if (!quality.canJudgeTrack()) {
            advice.add("send track and ground speed, or positions with more digits");
        }
        if (quality.rateHz() < LEAST_HZ) {
            advice.add("send at least one sample a second");
        }
        if (!quality.hasHeading()) {
            advice.add("send the heading");
        }
        if (!quality.hasAltitude()) {
            advice.add("send the altitude");
        }
        double fine = quality.resolutionNm() < FINE_NM ? 0 : quality.resolutionNm();
        return new FeedLine(
                quality.rateHz(),
                fine,
                quality.lost(),
                quality.strays(),
                quality.gaps(),
                quality.gapTotalS(),
                quality.canJudgeTrack(),
                advice);
    }

    /** {@return one line for a card} */
    public String text() {
        StringBuilder text = new StringBuilder(
                Double.isNaN(rateHz) ? "too few samples for a rate" : Words.say("%.1f samples a second", rateHz));
        if (resolutionNm > 0) {
            text.append(Words.say(", positions in steps of %.3f NM", resolutionNm));
        }
        if (lost > 0) {
            text.append(Words.say(", %d lost", lost));
        }
        if (strays > 0) {
            text.append(Words.say(", %d off the way flown and left out", strays));
        }
        if (gaps > 0) {
            text.append(Words.say(", nothing for %.0f s in %d gap%s", silentS, gaps, gaps == 1 ? "" : "s"));
        }
        if (!judgesTrack) {
            text.append(", too coarse to judge tracks and turns");
        }
        advice.forEach(each -> text.append("; ").append(each));
        return text.toString();
    }
}
