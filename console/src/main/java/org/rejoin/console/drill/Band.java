package org.rejoin.console.drill;

import java.util.Random;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.rejoin.console.words.Words;
import org.rejoin.protocol.yaml.YamlMembers;

/** A range, its lower end first, that a feature of a drill is to lie in. */
public record Band(double low, double high) {

    private static final Pattern TEXT = Pattern.compile("\\s*(\\d+(?:\\.\\d+)?)(?:\\s*-\\s*(\\d+(?:\\.\\d+)?))?\\s*");

    /**
     * Checks the order.
     *
     * @throws IllegalArgumentException if the ends are out of order or not numbers
     */
    public Band {
        if (!(low <= high)) {
            throw new IllegalArgumentException(
                    Words.say("%s-%s: the lower end comes first", YamlMembers.plain(low), YamlMembers.plain(high)));
        }
    }

    /**
     * Reads "30-45", or "30" for exactly that.
     *
     * @param least that makes sense
     * @param most that makes sense
     * @throws IllegalArgumentException if it is neither, or out of range; one line
     */
    public static Band of(String text, double least, double most, String unit) {
        Matcher matcher = TEXT.matcher(text);
        if (!matcher.matches()) {
            throw new IllegalArgumentException("\"" + text + "\" is not LOW-HIGH in " + unit + ", for example "
                    + YamlMembers.plain(least) + "-" + YamlMembers.plain(most));
        }
        double low = Double.parseDouble(matcher.group(1));
        Band band = new Band(low, matcher.group(2) == null ? low : Double.parseDouble(matcher.group(2)));
        if (band.low < least || band.high > most) {
            throw new IllegalArgumentException(text.trim() + " is not within " + YamlMembers.plain(least) + " to "
                    + YamlMembers.plain(most) + " " + unit);
        }
        return band;
    }

    double draw(Random random) {
        return low + (high - low) * random.nextDouble();
    }

    /** Whether a value lies in the band, or no farther outside than this. */
    boolean holds(double value, double tolerance) {
        return value >= low - tolerance && value <= high + tolerance;
    }

    @Override
    public String toString() {
        return YamlMembers.plain(low) + "-" + YamlMembers.plain(high);
    }
}
