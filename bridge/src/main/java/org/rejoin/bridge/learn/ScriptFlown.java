package org.rejoin.bridge.learn;

import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * What of the script was flown so far, as the feed shows it.
 *
 * @param seconds since the first datagram, 0 or more
 * @param position whether a position was found; without one nothing else can be seen
 * @param turned whether there was a full turn
 * @param wind whether the turn showed a wind that tells heading from track
 * @param climbed whether there was a climb of 300 ft
 * @param faster whether the airspeed changed by 8 kt
 * @param turnedBack whether there was a turn the other way
 */
public record ScriptFlown(
        double seconds,
        boolean position,
        boolean turned,
        boolean wind,
        boolean climbed,
        boolean faster,
        boolean turnedBack) {

    /** Shorter flights show nothing, seconds. */
    static final double SHORTEST_S = 60;

    static ScriptFlown nothingIn(double seconds) {
        return new ScriptFlown(seconds, false, false, false, false, false, false);
    }

    /**
     * Whether the whole script was flown: what is not known by then does not come; false as long as there is something
     * to fly next.
     */
    public boolean whole() {
        return next().isEmpty();
    }

    /** {@return what was seen, for example "64 s: a full turn seen"} */
    public String seen() {
        String seen = Stream.of(
                        turned ? "a full turn" : "",
                        climbed ? "a climb" : "",
                        faster ? "a change of speed" : "",
                        turnedBack ? "a turn the other way" : "")
                .filter(each -> !each.isEmpty())
                .collect(Collectors.joining(", "));
        String what = position ? seen.isEmpty() ? "the position found" : seen + " seen" : "no position found yet";
        return String.format(Locale.ROOT, "%.0f s: %s", seconds, what);
    }

    /** {@return what to fly next; an order, empty when all of it was flown} */
    public Optional<String> next() {
        if (seconds < SHORTEST_S) {
            return Optional.of("level for 10 s, then one full turn at 15 to 25 degrees of bank");
        }
        if (!position) {
            return Optional.of("fly on with the simulation running, and turn: no two fields move like a position yet");
        }
        if (!turned) {
            return Optional.of("one full turn at 15 to 25 degrees of bank, at constant speed");
        }
        if (!wind) {
            return Optional.of("set a wind of 10 to 25 kt and fly one more full turn");
        }
        if (!climbed) {
            return Optional.of("level for a few seconds, then climb 500 ft at a steady rate");
        }
        if (!faster) {
            return Optional.of("level, then 15 kt faster");
        }
        return turnedBack ? Optional.empty() : Optional.of("a short turn the other way, then descend");
    }
}
