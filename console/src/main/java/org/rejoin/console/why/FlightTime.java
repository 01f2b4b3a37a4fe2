package org.rejoin.console.why;

import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A time of a flight as people write it: seconds, or a clock as in the log. */
public final class FlightTime {

    private static final Pattern FORM = Pattern.compile("(?:(?:(\\d{1,3}):)?(\\d{1,3}):)?(\\d{1,6}(?:\\.\\d{1,6})?)");

    private FlightTime() {}

    /**
     * Reads one.
     *
     * @param text "209", "209.02", "03:29.0" or "1:02:03"
     * @return seconds since the first sample, 0 or more; empty if it is none of these
     */
    public static OptionalDouble read(String text) {
        Matcher matcher = FORM.matcher(text.trim());
        if (!matcher.matches()) {
            return OptionalDouble.empty();
        }
        double seconds = Double.parseDouble(matcher.group(3));
        boolean clock = matcher.group(2) != null;
        if (clock && seconds >= 60) {
            return OptionalDouble.empty();
        }
        double minutes = clock ? Double.parseDouble(matcher.group(2)) : 0;
        double hours = matcher.group(1) == null ? 0 : Double.parseDouble(matcher.group(1));
        return OptionalDouble.of(hours * 3600 + minutes * 60 + seconds);
    }
}
