package org.rejoin.console.speech;

import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What was learnt of a pilot's voice from one known sentence. His own sound is not in it. Pure.
 *
 * @param lower by how much the limits of the hearing are moved for it, 0 or less, in the recogniser's unit
 * @param warp by how much its spectrum is stretched before it is heard, as for a longer or shorter throat (vocal tract length
 *     normalisation); 1 for not at all
 * @param dropsR whether it says "four" and "turn" as in England, without the r
 */
public record PilotVoice(double lower, double warp, boolean dropsR) {

    /** Of whom nothing was learnt. */
    public static final PilotVoice STRANGER = new PilotVoice(0, 1, false);

    private static final Pattern TEXT = Pattern.compile("(-?\\d{1,2}\\.\\d\\d) ([01]\\.\\d\\d) (with|without) r");

    /** For a file, as "-3.20 0.94 without r". */
    public String text() {
        return String.format(Locale.ROOT, "%.2f %.2f %s r", lower, warp, dropsR ? "without" : "with");
    }

    /** From a file, as {@link #text} writes it; empty where it is none. */
    public static Optional<PilotVoice> of(String text) {
        Matcher parts = TEXT.matcher(text);
        return parts.matches()
                ? Optional.of(new PilotVoice(
                        Double.parseDouble(parts.group(1)),
                        Double.parseDouble(parts.group(2)),
                        parts.group(3).equals("without")))
                : Optional.empty();
    }
}
