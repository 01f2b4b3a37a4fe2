package org.rejoin.console.speech;

import static org.rejoin.console.speech.Grammar.any;
import static org.rejoin.console.speech.Grammar.choice;
import static org.rejoin.console.speech.Grammar.maybe;
import static org.rejoin.console.speech.Grammar.named;
import static org.rejoin.console.speech.Grammar.row;
import static org.rejoin.console.speech.Grammar.words;
import static org.rejoin.console.speech.SpokenFigures.DIGIT;
import static org.rejoin.console.speech.SpokenFigures.DIRECTION;
import static org.rejoin.console.speech.SpokenFigures.TEEN;
import static org.rejoin.console.speech.SpokenFigures.TEN;
import static org.rejoin.console.speech.SpokenFigures.TIME;
import static org.rejoin.console.speech.SpokenFigures.UP_TO_99;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.stream.Stream;

import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.Phraseology;
import org.rejoin.bridge.geo.Position;
import org.rejoin.console.speech.Grammar.Pattern;

/**
 * The grammar of readbacks on a chart: every short form that {@code bridge.clearance.Readback} accepts of headings, radials,
 * airways, fixes, altitudes, with every value, right or wrong; rarer kinds of instruction only where the clearance has one, so
 * that little can be mistaken for something else. Numbers digit by digit or in groups, "tree", "fife", "niner" (AIM 4-2-7 to
 * 4-2-10; ICAO Annex 10, volume II, 5.2.1.4).
 */
final class ReadbackGrammar {

    /** Of each kind of point so many are listened for, the nearest to the filed route first (judgement). */
    private static final int MOST_POINTS = 40;

    private static final java.util.regex.Pattern AIRWAY_IDENT =
            java.util.regex.Pattern.compile("([A-Z]{1,2})(\\d{1,4})");
    private static final java.util.regex.Pattern LETTERS_THEN_FIGURES =
            java.util.regex.Pattern.compile("([A-Z ]*[A-Z])[ -]?(\\d+)([A-Z0-9]*)");

    private static final Pattern CARDINAL =
            named("compass", any("north", "northeast", "east", "southeast", "south", "southwest", "west", "northwest"));

    private final List<Pattern> clauses = new ArrayList<>();
    private final List<Pattern> ends = new ArrayList<>();
    private final Pattern altitude;

    /** For one clearance, in its words. */
    private ReadbackGrammar(String said) {
        this.altitude = SpokenFigures.altitude(said.matches(".*\\btwo \\w+ thousand.*"));
    }

    /**
     * The grammar for one clearance.
     *
     * @param chart with names and airways
     * @param filed the route; what lies near it is listened for
     * @param own callsign of the aircraft; empty where it is not known
     */
    static Grammar of(Chart chart, FiledRoute filed, Clearance clearance, Optional<String> own) {
        String said = Phraseology.say(clearance);
        ReadbackGrammar grammar = new ReadbackGrammar(said);
        List<Station> radials = nearest(
                chart.stations().stream()
                        .filter(each -> each.kind().hasRadials())
                        .toList(),
                filed);
        Pattern stations = named("station", names(radials));
        Pattern spoken = named("spokenStation", names(radials, false));
        Pattern places = named("place", names(points(chart, filed)));
        grammar.usual(stations, spoken, places, airways(chart, filed));
        Pattern any = named("anyStation", names(nearest(chart.stations(), filed)));
        grammar.rarer(said, any, places, airways(chart, filed));
        Stream.concat(clearance.callsign().stream(), own.stream()).forEach(grammar::callsign);
        // At the beginning alone: at the end "five twelve" was heard as "five two, wilco".
        return new Grammar(grammar.clauses, grammar.ends, List.of(any("roger", "wilco")));
    }

    private static <T extends Waypoint> List<T> nearest(List<T> points, FiledRoute filed) {
        return points.stream()
                .sorted(Comparator.comparingDouble(point -> distanceNm(point.position(), filed)))
                .limit(MOST_POINTS)
                .toList();
    }

    private static double distanceNm(Position place, FiledRoute filed) {
        return filed.points().stream()
                .mapToDouble(point -> point.position().distanceNm(place))
                .min()
                .orElse(0);
    }

    /** By the spoken name, spelled, and an ident that can be said as a word. */
    private static Pattern names(List<? extends Waypoint> points) {
        return names(points, true);
    }

    private static Pattern names(List<? extends Waypoint> points, boolean alsoSpelled) {
        Set<String> texts = new LinkedHashSet<>();
        points.forEach(point -> texts.addAll(names(point, alsoSpelled)));
        // A chart without any: a word that nobody says.
        return texts.isEmpty()
                ? words("nowhere")
                : choice(texts.stream().map(Grammar::words).toList());
    }

    private static Set<String> names(Waypoint point, boolean alsoSpelled) {
        Set<String> texts = new LinkedHashSet<>();
        if (alsoSpelled) {
            texts.add(plain(Phraseology.place(point)));
        }
        String name = plain(Aloud.name(point));
        if (name.length() > 3) {
            texts.add(name);
        }
        if (alsoSpelled && point.ident().matches("[A-Za-z]{2,5}")) {
            texts.add(plain(Phraseology.spelled(point.ident())));
        }
        texts.remove("");
        return texts;
    }

    /** How words of names sound that the chart says: names of one word alone. */
    static Map<String, String> says(Chart chart) {
        Map<String, String> says = new TreeMap<>();
        chart.says()
                .forEach((ident, sounds) -> Aloud.names(chart, ident).stream()
                        .map(ReadbackGrammar::plain)
                        .filter(name -> !name.isEmpty() && !name.contains(" "))
                        .forEach(name -> says.put(name, sounds)));
        return says;
    }

    /** Each place that is listened for, with all its names. */
    static List<Set<String>> names(Chart chart, FiledRoute filed) {
        return points(chart, filed).stream()
                .map(point -> names(point, true))
                .filter(each -> !each.isEmpty())
                .toList();
    }

    private static List<Waypoint> points(Chart chart, FiledRoute filed) {
        List<Waypoint> points = new ArrayList<>(filed.points());
        points.addAll(nearest(chart.fixes(), filed));
        points.addAll(nearest(chart.airports(), filed));
        points.addAll(nearest(chart.stations(), filed));
        return points.stream().distinct().toList();
    }

    /** Letters and single blanks, lower case; empty where something else is in it. */
    private static String plain(String name) {
        return Aloud.words(name)
                .toLowerCase(Locale.ROOT)
                .replace("x-ray", "xray")
                .replaceAll("[^a-z' ]+", " ")
                .replaceAll(" +", " ")
                .strip();
    }

    private static Pattern airways(Chart chart, FiledRoute filed) {
        List<String> idents = chart.airways().stream()
                .sorted(Comparator.comparingDouble(airway -> airway.points().stream()
                        .mapToDouble(point -> distanceNm(point.position(), filed))
                        .min()
                        .orElse(0)))
                .limit(MOST_POINTS)
                .map(Airway::ident)
                .toList();
        List<Pattern> letters = idents.stream()
                .map(AIRWAY_IDENT::matcher)
                .filter(Matcher::matches)
                .map(parts -> letter(parts.group(1)))
                .distinct()
                .toList();
        // Any number: an airway that was not cleared must be heard as what it is.
        Pattern number = named(
                "airwayNumber",
                choice(row(DIGIT, maybe(choice(DIGIT, UP_TO_99, row(DIGIT, DIGIT), words("hundred")))), UP_TO_99));
        return letters.isEmpty() ? words("victor forty") : named("airway", row(choice(letters), number));
    }

    private static Pattern letter(String letters) {
        return choice(Phraseology.airwayLetters(letters).stream()
                .map(said -> words(plain(said)))
                .toList());
    }

    private void usual(Pattern stations, Pattern spoken, Pattern places, Pattern airways) {
        Pattern side = any("left", "right");
        clauses.add(row(
                maybe(choice(
                        any("fly", "flying", "continue"), row(maybe("turn", "turning"), side, maybe("to", "fly")))),
                words("heading"),
                DIRECTION,
                maybe("degrees")));
        clauses.add(row(
                any("turn", "turning"), choice(row(TEN, words("degrees"), side), row(side, TEN, words("degrees")))));
        clauses.add(row(any("fly", "flying", "maintain", "continue"), any("present", "runway"), words("heading")));
        Pattern to = choice(row(maybe("to", "and"), any("intercept", "intercepting", "join", "joining")), words("via"));
        Pattern sense = any("inbound", "outbound", "track inbound", "track outbound");
        Pattern meet = choice(row(maybe("to", "and"), any("intercept", "intercepting")), any("join", "joining", "via"));
        Pattern radial = named(
                "radial",
                choice(
                        row(maybe("the"), stations, DIRECTION, words("radial")),
                        row(maybe("the"), stations, words("radial"), DIRECTION),
                        row(maybe("the"), DIRECTION, words("radial"), any("of", "from"), maybe("the"), stations),
                        row(maybe("the"), words("radial"), DIRECTION, any("of", "from"), stations)));
        clauses.add(row(maybe(any("intercept", "join")), maybe("the"), DIRECTION, words("radial")));
        clauses.add(row(maybe(meet), radial, maybe(sense)));
        clauses.add(row(maybe("to", "and"), any("intercept", "intercepting"), maybe("the"), spoken, DIRECTION));
        clauses.add(row(
                maybe(choice(to, words("cleared via"))),
                airways,
                maybe(row(words("at"), places)),
                maybe(row(words("to"), places))));
        clauses.add(row(
                maybe("when able"),
                maybe(row(maybe("turn"), side)),
                maybe("proceed", "cleared"),
                words("direct"),
                maybe("to"),
                places));
        clauses.add(any(
                "then as filed",
                "as filed",
                "and then as filed",
                "resume own navigation",
                "rest of route unchanged",
                "rest of the route unchanged",
                "on course"));
        clauses.add(row(
                maybe("at pilot's discretion", "when ready"),
                choice(
                        row(
                                any("climb", "climbing", "descend", "descending"),
                                choice(words("and maintain"), words("to"), maybe("maintain"))),
                        any("maintain", "maintaining")),
                altitude,
                maybe("until established")));
        clauses.add(altitude);
    }

    /**
     * What only a clearance that has such a thing is read back with: crossings, holds, arcs, speeds, departures, bearings.
     */
    private void rarer(String said, Pattern stations, Pattern places, Pattern airways) {
        if (said.contains("cross ")) {
            clauses.add(row(
                    any("cross", "crossing"),
                    maybe(row(DIGIT, maybe(DIGIT), any("mile", "miles"), CARDINAL, words("of"))),
                    places,
                    any("at", "at or above", "at or below"),
                    maybe("and maintain"),
                    altitude));
        }
        if (said.contains("hold ") || said.contains("expect further")) {
            clauses.add(row(
                    any("hold", "holding"),
                    choice(row(CARDINAL, maybe(any("of", "at"))), words("at"), maybe("over")),
                    places,
                    maybe(row(
                            words("on"),
                            choice(row(maybe("the"), maybe(stations), DIRECTION, words("radial")), airways)))));
            clauses.add(row(choice(DIGIT, row(DIGIT, DIGIT), TEEN), any("minute", "mile"), words("legs")));
            clauses.add(row(any("left", "right"), words("turns")));
            clauses.add(words("as published"));
            clauses.add(row(any("expect further clearance", "expect further clearance at", "e f c"), TIME));
        }
        if (said.contains(" arc")) {
            Pattern miles = choice(row(DIGIT, maybe(DIGIT)), TEEN);
            Pattern dme = any("mile", "d m e", "mile d m e");
            clauses.add(row(
                    maybe(row(any("intercept", "intercepting", "join", "joining"))),
                    maybe("the"),
                    choice(
                            row(stations, miles, dme, words("arc")),
                            row(miles, dme, words("arc"), maybe(CARDINAL), words("of"), stations)),
                    maybe("clockwise", "counterclockwise", "counter clockwise"),
                    maybe(row(
                            any("to", "until"),
                            choice(row(maybe("the"), maybe(stations), DIRECTION, words("radial")), airways, places)))));
        }
        if (said.contains(" knots") || said.contains("speed")) {
            Pattern speed = choice(row(DIGIT, DIGIT, maybe(DIGIT)), row(DIGIT, UP_TO_99));
            clauses.add(row(
                    any("maintain", "maintaining", "do not exceed", "reduce speed to", "increase speed to", "speed"),
                    speed,
                    maybe("knots"),
                    maybe("or greater", "or less")));
            clauses.add(any("maintain present speed", "resume normal speed"));
        }
        if (said.contains("depart ")) {
            clauses.add(row(
                    any("depart", "departing"),
                    places,
                    choice(
                            row(maybe(row(maybe("turn"), any("left", "right"))), words("heading"), DIRECTION),
                            row(words("on the"), DIRECTION, any("radial", "bearing")))));
        }
        if (said.contains("cleared to ")) {
            clauses.add(row(any("cleared to"), maybe("the"), places, maybe("airport")));
        }
        if (said.contains(" bearing ")) {
            clauses.add(row(
                    maybe("to", "intercept", "intercepting"),
                    maybe("the"),
                    DIRECTION,
                    any("bearing to", "bearing from"),
                    maybe("the"),
                    stations));
        }
        if (said.contains("disregard")) {
            clauses.add(any("disregard", "disregard the amendment"));
        }
    }

    /** The callsign, its figures one by one or in groups; with other figures it is another's, and heard as that. */
    private void callsign(String callsign) {
        Matcher parts = LETTERS_THEN_FIGURES.matcher(callsign.strip().toUpperCase(Locale.ROOT));
        if (!parts.matches()) {
            return;
        }
        String letters = parts.group(1).strip();
        Pattern name = words(plain(letters.length() <= 3 ? Phraseology.spelled(letters) : letters));
        int figures = parts.group(2).length();
        Pattern single = row(Collections.nCopies(figures, DIGIT).toArray(new Pattern[0]));
        Pattern number = switch (figures) {
            case 2 -> choice(single, UP_TO_99);
            case 3 -> choice(single, row(DIGIT, UP_TO_99));
            case 4 -> choice(single, row(UP_TO_99, UP_TO_99));
            default -> single;
        };
        String tail = parts.group(3);
        ends.add(tail.isEmpty() ? row(name, number) : row(name, number, words(plain(Phraseology.spelled(tail)))));
    }
}
