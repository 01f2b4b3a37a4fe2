package org.rejoin.console.why;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.flight.Point;
import org.rejoin.console.words.Words;

/** Finds in the record of a flight what explains the events near one time. */
public final class Explainer {

    /** An event farther from the time asked for than this is another one, seconds. */
    public static final double NEAR_S = 5;

    /** Points shown before and after an event, seconds from it. */
    private static final double[] SHOWN_S = {-20, -10, -5, -2, 0, 2, 5, 10};

    /** Events that follow from the same instant are explained together, seconds. */
    private static final double TOGETHER_S = 0.05;

    private static final Pattern TIME = Pattern.compile("(?:(?:(\\d{1,3}):)?(\\d{1,3}):)?(\\d{1,6}(?:\\.\\d{1,6})?)");

    private Explainer() {}

    /** There is nothing to explain at that time; the message names the nearest event. */
    public static final class NothingNearException extends Exception {

        private static final long serialVersionUID = 1L;

        NothingNearException(String message) {
            super(message);
        }
    }

    /**
     * Reads a time of a flight as people write it: seconds, or a clock as in the log.
     *
     * @param text "209", "209.02", "03:29.0" or "1:02:03"
     * @return seconds since the first sample, 0 or more; empty if it is none of these
     */
    public static OptionalDouble timeS(String text) {
        Matcher matcher = TIME.matcher(text.trim());
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

    /**
     * What is near a time.
     *
     * @param record of the flight, with its points
     * @param askedS the time asked about, seconds since the first sample
     * @return the nearest event, and those of the same instant
     * @throws NothingNearException if there is none within {@link #NEAR_S}; the message names the nearest
     */
    public static List<Explanation> explanations(FlightRecord record, double askedS, Limits limits)
            throws NothingNearException {
        FlightEvent nearest = record.events().stream()
                .min(Comparator.comparingDouble(event -> Math.abs(event.timeS() - askedS)))
                .orElseThrow(() -> new NothingNearException("the flight has no event"));
        if (Math.abs(nearest.timeS() - askedS) > NEAR_S) {
            throw new NothingNearException(Words.say(
                    "no event within %.0f s of %s; the nearest is %s at %s (--why %.2f)",
                    NEAR_S,
                    Words.clock(Math.max(0, askedS)),
                    nearest.name(),
                    Words.clock(nearest.timeS()),
                    nearest.timeS()));
        }
        return record.events().stream()
                .filter(event -> Math.abs(event.timeS() - nearest.timeS()) <= TOGETHER_S)
                .map(event -> new Explanation(
                        event, record.inForce(event.timeS()).route(), around(record, event.timeS()), limits))
                .toList();
    }

    /** For a terminal: each event with its rules, and one table of the flight around them. */
    public static List<String> lines(List<Explanation> together) {
        List<String> lines = new ArrayList<>();
        together.forEach(each -> lines.addAll(each.reasons()));
        together.stream().findFirst().ifPresent(first -> lines.addAll(first.table()));
        return lines;
    }

    /** The points nearest to the times that are shown, each once. */
    private static List<Point> around(FlightRecord record, double timeS) {
        List<Point> near = record.points()
                .filter(point -> Math.abs(point.timeS() - timeS) <= 25)
                .toList();
        List<Point> around = new ArrayList<>();
        for (double offset : SHOWN_S) {
            near.stream()
                    .min(Comparator.comparingDouble(at -> Math.abs(at.timeS() - timeS - offset)))
                    .filter(at -> !around.contains(at))
                    .ifPresent(around::add);
        }
        return around;
    }
}
