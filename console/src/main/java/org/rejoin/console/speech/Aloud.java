package org.rejoin.console.speech;

import java.text.Normalizer;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.rejoin.bridge.chart.Airport;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.Phraseology;

/**
 * What a controller's tongue makes of a clearance: words only, no figure left, digits as published (ZE-RO, WUN, TOO, TREE,
 * FOW-ER, FIFE, SIX, SEV-en, AIT, NIN-er: ICAO Annex 10, volume II, 5.2.1.4.3.1; Aeronautical Information Manual 4-2-7).
 * Which number is said digit by digit and which in groups is decided by {@link Phraseology}.
 */
public final class Aloud {

    /** Words that a speech program says as published only when they are written so. */
    private static final Map<String, String> AS_PUBLISHED =
            Map.of("three", "tree", "four", "fower", "five", "fife", "nine", "niner", "alfa", "alpha");

    /** Said letter by letter. */
    private static final Set<String> SPELLED = Set.of("VOR", "DME", "NDB", "EFC", "QNH", "QDM", "QDR", "ATC");

    /** An ident that was not said by its name. */
    private static final Pattern IDENT = Pattern.compile("[A-Z]{2,3}");

    private static final Pattern LETTERS_ALONE = Pattern.compile("[A-Za-z]+");

    private static final Pattern PIECE = Pattern.compile("[A-Za-z]+|[0-9]+|[^A-Za-z0-9]+");

    /** So many letters or fewer are spelled, more are a word. */
    private static final int MOST_SPELLED = 3;

    private Aloud() {}

    /**
     * A clearance with the callsign it is meant for; {@code own} is said where it was typed without one, empty where it
     * is not known.
     */
    public static String of(Clearance clearance, Optional<String> own) {
        return of(clearance, own, Phraseology.say(clearance));
    }

    private static String of(Clearance clearance, Optional<String> own, String said) {
        Optional<String> first = clearance.callsign().isPresent() ? Optional.empty() : own;
        return words(first.map(callsign -> callsign + ", " + said).orElse(said));
    }

    /**
     * The same with what is only heard behind it (a frequency, traffic), on a chart that has the names, and says how some of
     * them sound.
     */
    public static String of(Clearance clearance, Optional<String> own, Chart chart) {
        String words = of(clearance, own, Phraseology.say(clearance, chart));
        for (Map.Entry<String, String> each : chart.says().entrySet()) {
            if (!Pronunciations.isPhones(each.getValue())) {
                for (String name : names(chart, each.getKey())) {
                    words = words.replaceAll(
                            "(?i)\\b" + Pattern.quote(words(name)) + "\\b",
                            Matcher.quoteReplacement(words(each.getValue())));
                }
            }
        }
        return words;
    }

    /** What the points of an ident are called. */
    static List<String> names(Chart chart, String ident) {
        return chart.waypoints().stream()
                .filter(point -> point.ident().equals(ident))
                .map(Aloud::name)
                .distinct()
                .toList();
    }

    static String name(Waypoint point) {
        return point instanceof Station station
                ? station.name()
                : point instanceof Airport airport ? airport.name() : point.ident();
    }

    /** A text without figures and signs: letters, blanks, commas, hyphens and apostrophes. */
    public static String words(String text) {
        StringBuilder out = new StringBuilder();
        String plain = Normalizer.normalize(text.replace('\u2019', '\''), Normalizer.Form.NFD)
                .replaceAll("\\p{M}+", "");
        for (String clause : plain.split("[,;.:]+", -1)) {
            String words = clause(clause);
            if (!words.isEmpty()) {
                out.append(out.length() == 0 ? "" : ", ").append(words);
            }
        }
        return out.toString();
    }

    private static String clause(String clause) {
        List<String> words = new ArrayList<>();
        for (String word : clause.strip().split("\\s+", -1)) {
            if (!word.isEmpty()) {
                words.add(word(word));
            }
        }
        return String.join(" ", words).replaceAll("\\s+", " ").strip();
    }

    private static String word(String word) {
        boolean figures = word.chars().anyMatch(Character::isDigit);
        if (!figures && word.matches("[A-Za-z]([A-Za-z'-]*[A-Za-z])?")) {
            if (SPELLED.contains(word.toUpperCase(Locale.ROOT))) {
                return String.join(" ", word.toUpperCase(Locale.ROOT).split("", -1))
                        .strip();
            }
            return IDENT.matcher(word).matches() ? aloud(Phraseology.spelled(word)) : aloud(word);
        }
        List<String> pieces = new ArrayList<>();
        Matcher piece = PIECE.matcher(word);
        while (piece.find()) {
            String each = piece.group();
            if (Character.isDigit(each.charAt(0))) {
                pieces.add(aloud(Phraseology.spelled(each)));
            } else if (each.matches("[A-Za-z]+")) {
                pieces.add(each.length() <= MOST_SPELLED && figures ? aloud(Phraseology.spelled(each)) : each);
            }
        }
        return String.join(" ", pieces);
    }

    /** Each word as a speech program needs it; all capitals would be spelled by some. */
    private static String aloud(String words) {
        StringBuilder out = new StringBuilder();
        Matcher piece = LETTERS_ALONE.matcher(words);
        while (piece.find()) {
            String word = piece.group();
            String lower = word.length() > 1 ? word.toLowerCase(Locale.ROOT) : word;
            piece.appendReplacement(out, AS_PUBLISHED.getOrDefault(lower, lower));
        }
        return piece.appendTail(out).toString();
    }
}
