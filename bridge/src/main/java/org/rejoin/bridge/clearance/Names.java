package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
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

    /** A radial typed short, behind its station: AAA R066. */
    private static final Pattern RADIAL = Pattern.compile("r[0-3][0-9]{2}");

    /** Coordinated Universal Time, as it is typed. */
    private static final Pattern ZULU = Pattern.compile("[0-2][0-9][0-5][0-9]z");

    /** Said while looking for words. */
    private static final Pattern HESITATION = Pattern.compile("(?i)u[hm]+");

    /** "Till you intercept V40". */
    private static final Set<Integer> DONE_BY_YOU = Vocabulary.types("INTERCEPT JOIN CROSS REACH");

    /** Directions as they are typed short, on a chart that has no such ident. */
    private static final Map<String, String> DIRECTIONS =
            Map.of("ne", "northeast", "nw", "northwest", "se", "southeast", "sw", "southwest");

    /** Letters of airways as they sound: "J five thirty-three" (Aeronautical Information Manual 4-2-8 c). */
    private static final Map<String, String> LETTERS = Map.of("jay", "j", "cue", "q");

    /** What a number is of. */
    private static final Set<Integer> BEHIND_A_NUMBER =
            Vocabulary.types("MILE MINUTE KNOTS FEET DEGREES DME ARC BEFORE COMPASS");

    /** No part of a clearance ends with one of these. */
    private static final Set<Integer> NEVER_LAST =
            Vocabulary.types("HEADING MAINTAIN TO AT AND THE INTERCEPT JOIN VIA FLY TURN CLIMB DESCEND CROSS");

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
                .sorted((a, b) -> b.length() - a.length())
                .map(name -> List.of(name.split(" ", -1)))
                .toList();
        for (List<String> name : names) {
            join(tokens, name, hasOwnWord(String.join(" ", name)));
        }
        shortHeadings(tokens, chart);
        idents(tokens, chart);
        hesitations(tokens, chart);
        you(tokens, chart);
        saidTwice(tokens);
        asTyped(tokens, chart);
        Shorthand.spellOut(tokens, chart);
        Heard.mark(tokens);
        return tokens;
    }

    /** "Uh" and "um", with the commas about them where nothing could end before. */
    private static void hesitations(List<Token> tokens, Chart chart) {
        for (int i = tokens.size() - 1; i >= 0; i--) {
            Token token = tokens.get(i);
            if (!HESITATION.matcher(token.getText()).matches() || isOnChart(token, chart)) {
                continue;
            }
            tokens.remove(i);
            boolean between = i > 1
                    && tokens.get(i - 1).getType() == ClearanceLanguageLexer.COMMA
                    && tokens.get(i).getType() == ClearanceLanguageLexer.COMMA;
            if (between) {
                tokens.remove(i);
                if (NEVER_LAST.contains(tokens.get(i - 2).getType())) {
                    tokens.remove(i - 1);
                }
            }
        }
    }

    /** "When you are established", "when you're established", "till you intercept": the same without "you". */
    private static void you(List<Token> tokens, Chart chart) {
        for (int i = tokens.size() - 2; i > 0; i--) {
            if (!tokens.get(i).getText().equalsIgnoreCase("you") || isOnChart(tokens.get(i), chart)) {
                continue;
            }
            int before = tokens.get(i - 1).getType();
            boolean contracted = "'\u2019".contains(tokens.get(i + 1).getText())
                    && tokens.get(i + 2).getText().equalsIgnoreCase("re");
            if (contracted || tokens.get(i + 1).getText().equalsIgnoreCase("are")) {
                tokens.subList(i, contracted ? i + 3 : i + 2).clear();
            } else if ((before == ClearanceLanguageLexer.UNTIL || before == ClearanceLanguageLexer.WHEN)
                    && DONE_BY_YOU.contains(tokens.get(i + 1).getType())) {
                tokens.remove(i);
            }
        }
    }

    /** "One zero, ten thousand" is one altitude, said in both ways (FAA Order JO 7110.65, 2-4-17). */
    private static void saidTwice(List<Token> tokens) {
        for (int comma = tokens.size() - 2; comma > 0; comma--) {
            if (tokens.get(comma).getType() != ClearanceLanguageLexer.COMMA) {
                continue;
            }
            int first = comma;
            while (first > 0 && Vocabulary.isFigure(tokens.get(first - 1))) {
                first--;
            }
            int end = comma + 1;
            while (Vocabulary.isFigure(tokens.get(end))) {
                end++;
            }
            Optional<SpokenNumber> digits = number(tokens.subList(first, comma));
            Optional<SpokenNumber> group = number(tokens.subList(comma + 1, end));
            boolean twice = digits.isPresent()
                    && group.isPresent()
                    && tokens.get(end - 1).getType() == ClearanceLanguageLexer.THOUSAND
                    && digits.get().value() * 1000 == group.get().value();
            if (twice) {
                tokens.subList(first, comma + 1).clear();
                comma = first;
            }
        }
    }

    private static Optional<SpokenNumber> number(List<Token> figures) {
        return figures.isEmpty()
                ? Optional.empty()
                : SpokenNumber.of(figures.stream().map(Token::getText).toList());
    }

    /** "Hold NE of", "15:45", "1545z", "jay seven". */
    private static void asTyped(List<Token> tokens, Chart chart) {
        for (int i = 0; i + 1 < tokens.size(); i++) {
            Token token = tokens.get(i);
            String word = token.getText().toLowerCase(Locale.ROOT);
            int next = tokens.get(i + 1).getType();
            if (RADIAL.matcher(word).matches()
                    && i > 0
                    && isOnChart(tokens.get(i - 1), chart)
                    && chart.airways(word.toUpperCase(Locale.ROOT)).isEmpty()
                    && !isOnChart(token, chart)) {
                tokens.set(i, as(token, ClearanceLanguageLexer.R_RADIAL, "R-" + word.substring(1)));
            } else if (i > 0 && ZULU.matcher(word).matches() && !isOnChart(token, chart)) {
                tokens.set(i, as(token, ClearanceLanguageLexer.NUMBER, word.substring(0, word.length() - 1)));
            } else if (token.getType() == ClearanceLanguageLexer.NUMBER && word.indexOf(':') > 0) {
                tokens.set(i, as(token, ClearanceLanguageLexer.NUMBER, word.replace(":", "")));
            } else if (word.equals("a") && isArticle(tokens, i) && !isOnChart(token, chart)) {
                tokens.set(i, as(token, ClearanceLanguageLexer.AN, token.getText()));
            } else if (word.equals("expected")
                    && (next == ClearanceLanguageLexer.APPROACH || next == ClearanceLanguageLexer.FURTHER)) {
                tokens.set(i, as(token, ClearanceLanguageLexer.EXPECT, token.getText()));
            } else if (token.getType() == ClearanceLanguageLexer.WORD && !isOnChart(token, chart)) {
                String direction = DIRECTIONS.get(word);
                String letter = LETTERS.get(word);
                if (direction != null && (next == ClearanceLanguageLexer.OF || next == ClearanceLanguageLexer.ON)) {
                    tokens.set(i, as(token, ClearanceLanguageLexer.COMPASS, direction));
                } else if (letter != null && Vocabulary.NUMBERS.contains(next)) {
                    tokens.set(i, as(token, ClearanceLanguageLexer.LETTER, letter));
                }
            }
        }
    }

    /** "A revised clearance"; "I have a amendment": the article, and no letter of a callsign before it. */
    private static boolean isArticle(List<Token> tokens, int at) {
        Token next = tokens.get(at + 1);
        boolean begins = at == 0
                || tokens.get(at - 1).getType() == ClearanceLanguageLexer.COMMA
                || tokens.get(at - 1).getType() == ClearanceLanguageLexer.HAVE;
        return next.getText().equalsIgnoreCase("revised")
                || (begins
                        && (next.getType() == ClearanceLanguageLexer.AMENDED
                                || next.getType() == ClearanceLanguageLexer.AMENDMENT));
    }

    private static Token as(Token said, int type, String text) {
        CommonToken token = new CommonToken(said);
        token.setType(type);
        token.setText(text);
        return token;
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

    /**
     * "Two Five" would swallow figures, and "Ten Mile" a distance: a name without a word of its own is one only where a
     * place is named, and no more of a number follows.
     */
    private static boolean hasOwnWord(String name) {
        return tokens(name).stream().anyMatch(token -> token.getType() == ClearanceLanguageLexer.WORD);
    }

    private static void join(List<Token> tokens, List<String> name, boolean anywhere) {
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
            boolean place = anywhere
                    || (first > 0
                            && BEFORE_IDENT.contains(tokens.get(first - 1).getType())
                            && next < tokens.size()
                            && !BEHIND_A_NUMBER.contains(tokens.get(next).getType()));
            if (matched == name.size() && place) {
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
            boolean number = Vocabulary.isFigure(token)
                    && i + 1 < tokens.size()
                    && (Vocabulary.isFigure(tokens.get(i + 1))
                            || BEHIND_A_NUMBER.contains(tokens.get(i + 1).getType()));
            if (keyword
                    && !number
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
