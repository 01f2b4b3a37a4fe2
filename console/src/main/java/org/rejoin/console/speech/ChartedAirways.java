package org.rejoin.console.speech;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

import org.rejoin.bridge.chart.Chart;

/**
 * Breath after a number is easily heard as one more short figure: "victor forty eight" of "victor forty". Where the chart shows
 * no airway of the longer number but one of the shorter, and the sound is nearly as likely so, the shorter was said. Pure.
 */
final class ChartedAirways {

    /** What one more figure that was really said adds at least (found on the voices of the test: 150; of breath 110 at most). */
    private static final double FIGURE = 110;

    private ChartedAirways() {}

    static Listener.Decoded without(Listener.Decoded decoded, Chart chart) {
        Set<String> charted = chart.airways().stream()
                .map(airway -> airway.ident().replaceAll("\\D+", ""))
                .collect(Collectors.toSet());
        Listener.Decoded now = decoded;
        for (Rivals.Other other : decoded.others()) {
            int at = changed(decoded.heard(), other);
            if (at >= 0 && other.margin() < FIGURE && !other.twin()) {
                Heard.Clause clause = decoded.heard().clauses().get(at);
                Optional<String> heard = airway(clause.spoken());
                Optional<String> instead =
                        airway(List.of(other.clauses().get(at).split(" ", -1)));
                if (heard.isPresent()
                        && instead.isPresent()
                        && !charted.contains(heard.get())
                        && charted.contains(instead.get())
                        && other.clauses().get(at).length() < clause.text().length()) {
                    now = replaced(now, at, other);
                }
            }
        }
        return now;
    }

    /** Index of the clause in which it differs; -1 where in none. */
    private static int changed(Heard heard, Rivals.Other other) {
        for (int i = 0; i < heard.clauses().size(); i++) {
            if (!heard.clauses().get(i).text().equals(other.clauses().get(i))) {
                return i;
            }
        }
        return -1;
    }

    /** The figures of an airway that a clause ends with. */
    private static Optional<String> airway(List<String> words) {
        int from = words.size();
        while (from > 0 && SpokenFigures.isFigure(words.get(from - 1))) {
            from--;
        }
        boolean airway = from > 0
                && from < words.size()
                && Set.of("victor", "juliett", "tango", "quebec", "j", "q").contains(words.get(from - 1));
        return airway ? Optional.of(SpokenFigures.value(words.subList(from, words.size()))) : Optional.empty();
    }

    private static Listener.Decoded replaced(Listener.Decoded decoded, int at, Rivals.Other instead) {
        List<Heard.Clause> clauses = new ArrayList<>(decoded.heard().clauses());
        Heard.Clause old = clauses.get(at);
        String text = instead.clauses().get(at);
        Recogniser.Segment first = old.words().get(0);
        clauses.set(
                at,
                new Heard.Clause(
                        List.of(text.split(" ", -1)).stream()
                                .map(word -> new Recogniser.Segment(word, first.from(), first.to(), first.score()))
                                .toList(),
                        old.fit(),
                        old.worst()));
        List<Rivals.Other> others = new ArrayList<>();
        for (Rivals.Other each : decoded.others()) {
            if (!each.equals(instead)) {
                List<String> texts = new ArrayList<>(each.clauses());
                if (texts.get(at).equals(old.text())) {
                    texts.set(at, text);
                }
                others.add(new Rivals.Other(each.margin(), each.twin(), texts));
            }
        }
        return new Listener.Decoded(new Heard(clauses, decoded.heard().all()), others);
    }
}
