package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

import org.rejoin.bridge.chart.Airport;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Fix;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageLexer;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser;

import org.antlr.v4.runtime.CharStreams;
import org.antlr.v4.runtime.CommonToken;
import org.antlr.v4.runtime.Token;

/**
 * Spoken names of a chart's stations and airports. A name of several words may hold words of the language ("Cross
 * Swell"), so such names are joined to one token before the grammar sees them.
 */
final class Names {

    /** After these words an ident is expected, so a word of the language that is an ident on the chart is that ident. */
    private static final Set<Integer> BEFORE_IDENT =
            Vocabulary.types("DIRECT CROSS OF TO AT FROM UNTIL PASS BEFORE AFTER");

    /** Words said around a clearance that a chart may have as a name: there they are that name. */
    private static final Set<Integer> MAY_BE_NAMES = Vocabulary.types("CONTACT MY POINT ROGER TRUE");

    /** A heading typed short: H060, HDG060. */
    private static final Pattern SHORT_HEADING = Pattern.compile("(?i)(h|hdg)([0-3][0-9]{2})");

    /** Said while looking for words. */
    private static final Pattern HESITATION = Pattern.compile("(?i)u[hm]+");

    private Names() {}

    /** Stations and airports. */
    static Stream<Waypoint> named(Chart chart) {
        return Stream.concat(chart.stations().stream(), chart.airports().stream());
    }

    /** The spoken name; of a fix its ident. */
    static String of(Waypoint point) {
        return point.fold(Station::name, Fix::ident, Airport::name);
    }

    /** A name with nothing in it that a tongue would not say: upper case, single blanks. */
    static String plain(String name) {
        return name.toUpperCase(Locale.ROOT).replaceAll("[^\\p{L}0-9]+", " ").trim();
    }

    /** The words of a text, with the end of the text last. */
    static List<Token> tokens(String text) {
        ClearanceLanguageLexer lexer = new ClearanceLanguageLexer(CharStreams.fromString(text));
        lexer.removeErrorListeners();
        List<Token> tokens = new ArrayList<>(lexer.getAllTokens());
        tokens.add(lexer.emitEOF());
        return tokens;
    }

    /** The words of a text, names of the chart joined to one token each, the longest first. */
    static List<Token> tokens(String text, Chart chart) {
        List<Token> tokens = tokens(text);
        String plain = " " + plain(text) + " ";
        List<List<String>> names = named(chart)
                .map(point -> plain(of(point)))
                .distinct()
                .filter(name -> name.indexOf(' ') > 0 && plain.contains(" " + name + " "))
                .filter(Names::hasOwnWord)
                .sorted((a, b) -> b.length() - a.length())
                .map(name -> List.of(name.split(" ", -1)))
                .toList();
        for (List<String> name : names) {
            join(tokens, name);
        }
        shortHeadings(tokens, chart);
        idents(tokens, chart);
        tokens.removeIf(token -> HESITATION.matcher(token.getText()).matches() && !isOnChart(token, chart));
        return tokens;
    }

    /** "H060" is heading 060, unless the chart has an airway or a point of that name. */
    private static void shortHeadings(List<Token> tokens, Chart chart) {
        for (int i = tokens.size() - 1; i >= 0; i--) {
            Token typed = tokens.get(i);
            Matcher heading = SHORT_HEADING.matcher(typed.getText());
            String ident = typed.getText().toUpperCase(Locale.ROOT);
            if (typed.getType() != ClearanceLanguageLexer.ALNUM
                    || !heading.matches()
                    || !chart.airways(ident).isEmpty()
                    || !chart.waypoints(ident).isEmpty()) {
                continue;
            }
            int figures = typed.getStartIndex() + heading.start(2);
            CommonToken word = new CommonToken(typed);
            word.setType(ClearanceLanguageLexer.HEADING);
            word.setText(heading.group(1));
            word.setStopIndex(figures - 1);
            CommonToken number = new CommonToken(typed);
            number.setType(ClearanceLanguageLexer.NUMBER);
            number.setText(heading.group(2));
            number.setStartIndex(figures);
            tokens.set(i, word);
            tokens.add(i + 1, number);
        }
    }

    /** "Two Five" would swallow figures: a name needs a word that the language does not have. */
    private static boolean hasOwnWord(String name) {
        return tokens(name).stream().anyMatch(token -> token.getType() == ClearanceLanguageLexer.WORD);
    }

    private static void join(List<Token> tokens, List<String> name) {
        for (int first = 0; first < tokens.size(); first++) {
            int matched = 0;
            int next = first;
            while (next < tokens.size() && matched < name.size()) {
                Token token = tokens.get(next);
                if (token.getType() == ClearanceLanguageLexer.STOP && matched > 0) {
                    next++; // "St. Petrel"
                } else if (token.getType() != ClearanceLanguageParser.NAME
                        && plain(token.getText()).equals(name.get(matched))) {
                    matched++;
                    next++;
                } else {
                    break;
                }
            }
            if (matched == name.size()) {
                CommonToken joined = new CommonToken(tokens.get(first));
                joined.setType(ClearanceLanguageParser.NAME);
                joined.setStopIndex(tokens.get(next - 1).getStopIndex());
                joined.setText(String.join(" ", name));
                tokens.subList(first, next).clear();
                tokens.add(first, joined);
            }
        }
    }

    /** Whether a word is the ident or the spoken name of something. */
    static boolean isOnChart(Token token, Chart chart) {
        String word = plain(token.getText());
        return !chart.waypoints(word).isEmpty()
                || named(chart).anyMatch(point -> plain(of(point)).equals(word));
    }

    private static void idents(List<Token> tokens, Chart chart) {
        for (int i = 0; i < tokens.size(); i++) {
            Token token = tokens.get(i);
            boolean mayBeName =
                    MAY_BE_NAMES.contains(token.getType()) || token.getText().equalsIgnoreCase("hdg");
            if (mayBeName && isOnChart(token, chart)) {
                CommonToken name = new CommonToken(token);
                name.setType(ClearanceLanguageLexer.WORD);
                tokens.set(i, name);
                continue;
            }
            if (i == 0) {
                continue;
            }
            boolean keyword = token.getType() > 0 && token.getType() < ClearanceLanguageLexer.LETTER;
            if (keyword
                    && BEFORE_IDENT.contains(tokens.get(i - 1).getType())
                    && !chart.waypoints(token.getText().toUpperCase(Locale.ROOT))
                            .isEmpty()) {
                CommonToken ident = new CommonToken(token);
                ident.setType(ClearanceLanguageLexer.WORD);
                tokens.set(i, ident);
            }
        }
    }
}
