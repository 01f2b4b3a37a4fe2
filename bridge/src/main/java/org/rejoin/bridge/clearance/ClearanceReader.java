package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.ClearanceContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.InstructionContext;

import org.antlr.v4.runtime.BailErrorStrategy;
import org.antlr.v4.runtime.CommonTokenStream;
import org.antlr.v4.runtime.ListTokenSource;
import org.antlr.v4.runtime.Token;
import org.antlr.v4.runtime.atn.PredictionMode;
import org.antlr.v4.runtime.misc.ParseCancellationException;

/**
 * Reads a clearance in ATC's words against a chart and a filed route. The language is the grammar
 * {@code ClearanceLanguage.g4}; FAA Order JO 7110.65 and ICAO Doc 4444.
 */
public final class ClearanceReader {

    /** Longer than any clearance; keeps a hostile text from costing time. */
    private static final int LONGEST = 1000;

    private ClearanceReader() {}

    /**
     * Reads a clearance. Nothing is ignored: words that are not understood are refused, and what was taken for granted is
     * in the notes.
     *
     * @param text as said or typed, any case
     * @param chart where its stations, fixes and airways are looked up
     * @param filed the filed route; of several stations of one ident the nearest to it is meant
     * @return the clearance
     * @throws ClearanceException if some words are not understood or not on the chart; it points at them
     */
    public static Clearance read(String text, Chart chart, FiledRoute filed) throws ClearanceException {
        List<Token> tokens = tokens(text, chart);
        lookAlikes(text, tokens, chart);
        fullCircle(text, tokens);
        ClearanceContext clearance = parse(tokens, ClearanceLanguageParser::clearance)
                .orElseThrow(() -> notUnderstood(new Source(text), tokens, chart));
        Source source = new Source(text);
        List<String> notes = new ArrayList<>(Shorthand.notes(tokens, source));
        if (clearance.callsign() != null) {
            Callsign.check(source, clearance.callsign(), chart);
        }
        altimeterOf(clearance, source);
        if (clearance.NEGATIVE() != null) {
            notes.add("\"negative\": what was read back or asked for is not so; heard, nothing to fly");
        }
        InstructionReader reader = new InstructionReader(source, chart, filed, notes, false);
        List<InstructionContext> said =
                Replaced.without(notTakenBack(clearance.instruction(), source, notes), source, notes);
        for (InstructionContext instruction : said) {
            int at = clearance.children.indexOf(instruction);
            reader.add(instruction, Pause.before(clearance.children, at), Pause.behind(clearance.children, at));
        }
        boolean changed = said.stream().anyMatch(part -> part.change() != null || part.except() != null);
        List<Instruction> instructions = reader.finished(changed);
        Optional<String> callsign = clearance.callsign() == null
                ? Optional.empty()
                : Optional.of(Callsign.of(source, clearance.callsign(), instructions, notes));
        return new Clearance(
                text,
                callsign,
                instructions,
                notes.stream().distinct().toList(),
                OptionalDouble.empty(),
                reader.heard());
    }

    /** "Join V40, Skua altimeter 2992": is the name the end of the airway, or whose altimeter it is? */
    private static void altimeterOf(ClearanceContext clearance, Source source) throws ClearanceException {
        for (int i = 1; i < clearance.getChildCount(); i++) {
            if (clearance.getChild(i) instanceof InstructionContext said
                    && said.filler() != null
                    && said.getStart().getType() == ClearanceLanguageParser.ALTIMETER
                    && clearance.getChild(i - 1) instanceof InstructionContext before
                    && isName(before.getStop())) {
                throw source.notUnderstood(
                        said,
                        "whose? say \"the " + before.getStop().getText()
                                + " altimeter\", or a comma before \"altimeter\"");
            }
        }
    }

    /** "Fly heading 120, disregard, fly heading 020": in one breath it takes back what stands before it. */
    private static List<InstructionContext> notTakenBack(
            List<InstructionContext> said, Source source, List<String> notes) {
        for (int i = said.size() - 2; i > 0; i--) {
            if (said.get(i).cancel() != null && said.get(i).getText().equalsIgnoreCase("disregard")) {
                notes.add("\""
                        + source.words(said.get(0).getStart(), said.get(i - 1).getStop())
                        + "\": taken back by \"disregard\"");
                return said.subList(i + 1, said.size());
            }
        }
        return said;
    }

    /** The letter O for a zero: what stands there is nothing else, and is not guessed. */
    private static void lookAlikes(String text, List<Token> tokens, Chart chart) throws ClearanceException {
        Source source = new Source(text);
        for (Token token : tokens) {
            if (token.getType() != ClearanceLanguageParser.ALNUM) {
                continue;
            }
            String word = token.getText().toUpperCase(Locale.ROOT);
            Optional<String> meant = Vocabulary.lookAlike(token.getText());
            if (meant.isPresent()
                    && chart.waypoints(word).isEmpty()
                    && chart.airways(word).isEmpty()) {
                throw source.refuse(
                        token,
                        token,
                        ClearanceException.Code.NOT_UNDERSTOOD,
                        "not understood: \"" + token.getText() + "\"; did you mean " + meant.get() + "?");
            }
        }
    }

    /** "Make a right 360": right heading 360 is something else. */
    private static void fullCircle(String text, List<Token> tokens) throws ClearanceException {
        for (int i = 0; i + 1 < tokens.size(); i++) {
            if (!tokens.get(i).getText().toLowerCase(Locale.ROOT).matches("make|do")) {
                continue;
            }
            int next = i + 1;
            while (tokens.get(next).getText().toLowerCase(Locale.ROOT).matches("an?|left|right")) {
                next++;
            }
            int end = next;
            while (Vocabulary.isFigure(tokens.get(end))) {
                end++;
            }
            List<String> figures =
                    tokens.subList(next, end).stream().map(Token::getText).toList();
            if (SpokenNumber.of(figures).filter(turn -> turn.value() == 360).isPresent()) {
                throw new Source(text)
                        .refuse(
                                tokens.get(i),
                                tokens.get(end - 1),
                                ClearanceException.Code.NOT_UNDERSTOOD,
                                "a full circle is understood, and not flown here: say the heading to fly, and what is to be"
                                        + " joined when it is flown; for time to be lost, a hold");
            }
        }
    }

    /** The words of a text, refused if there are too many to be a clearance. */
    static List<Token> tokens(String text, Chart chart) throws ClearanceException {
        if (text.length() > LONGEST) {
            throw new ClearanceException(
                    ClearanceException.Code.NOT_UNDERSTOOD,
                    "the clearance has " + text.length() + " characters; up to " + LONGEST + " are read");
        }
        return Names.tokens(text, chart);
    }

    /**
     * Parses by one rule; empty at the first word that cannot be placed. The quick strategy of prediction is tried first:
     * what it accepts, the full one accepts in the same way.
     */
    static <T> Optional<T> parse(List<Token> tokens, Function<ClearanceLanguageParser, T> rule) {
        for (PredictionMode mode : List.of(PredictionMode.SLL, PredictionMode.LL)) {
            ClearanceLanguageParser parser =
                    new ClearanceLanguageParser(new CommonTokenStream(new ListTokenSource(tokens)));
            parser.removeErrorListeners();
            parser.setErrorHandler(new BailErrorStrategy());
            parser.getInterpreter().setPredictionMode(mode);
            try {
                return Optional.of(rule.apply(parser));
            } catch (ParseCancellationException e) {
                // Next strategy, or none.
            }
        }
        return Optional.empty();
    }

    private static ClearanceException notUnderstood(Source source, List<Token> tokens, Chart chart) {
        int reached = ViablePrefix.of(ClearanceLanguageParser._ATN, ClearanceLanguageParser.RULE_clearance, tokens)
                .index();
        // A name may begin a radial that is said without a verb; one that does not is itself what is not understood.
        ViablePrefix viable = ViablePrefix.of(
                ClearanceLanguageParser._ATN,
                ClearanceLanguageParser.RULE_clearance,
                tokens,
                beforeNames(tokens, reached));
        int index = viable.index();
        String expected = Vocabulary.expected(viable.expected());
        boolean onlyNames = tokens.subList(0, index).stream().allMatch(ClearanceReader::isName);
        if (onlyNames && index > 0) {
            // "Fyl heading 100": the name in front is no callsign, so it is the name that is wrong.
            index = 0;
            expected = Vocabulary.INSTRUCTION + ", or a callsign with a number before it";
        }
        Token first = tokens.get(index);
        int slip = slip(tokens, index, chart);
        if (slip >= 0) {
            index = slip;
            first = tokens.get(slip);
        }
        String after = index == 0
                ? ""
                : " after \"" + source.words(tokens.get(Math.max(0, index - 4)), tokens.get(index - 1)) + "\"";
        String understood = "; expected here: " + expected;
        int unknown = unknownBefore(tokens, index, chart);
        if (unknown >= 0 && (first.getType() == Token.EOF || first.getType() == ClearanceLanguageParser.COMMA)) {
            // Nothing is missing behind a word that nobody knows.
            Token last = tokens.get(index - 1);
            String slipped = Vocabulary.didYouMean(tokens.get(unknown));
            return source.refuse(
                    tokens.get(unknown),
                    last,
                    ClearanceException.Code.NOT_UNDERSTOOD,
                    "not understood: \"" + source.words(tokens.get(unknown), last) + "\""
                            + (slipped.isEmpty() ? "; say " + meant(tokens.subList(unknown, index)) : slipped));
        }
        if (first.getType() == Token.EOF || first.getType() == ClearanceLanguageParser.COMMA) {
            String missing = tokens.size() == 1 ? "nothing was said" : "something is missing" + after;
            int column = first.getType() == Token.EOF ? source.text().length() : source.column(first);
            return new ClearanceException(ClearanceException.Code.NOT_UNDERSTOOD, missing + understood, column, 0);
        }
        Token last = tokens.get(Vocabulary.lastOf(tokens, index));
        String meant = Vocabulary.didYouMean(first);
        return source.refuse(
                first,
                last,
                ClearanceException.Code.NOT_UNDERSTOOD,
                "not understood: \"" + source.words(first, last) + "\"" + after
                        + (meant.isEmpty() ? understood : meant));
    }

    /** What a number alone would be said as; of other words, what is expected there. */
    private static String meant(List<Token> words) {
        return SpokenNumber.of(words.stream().map(Token::getText).toList())
                .map(number ->
                        Callsign.meant(number.digits().length() > 2 ? number.digits() : String.valueOf(number.value())))
                .orElse(Vocabulary.INSTRUCTION);
    }

    /** The first of the words right before a token that the chart does not show, a number behind them; -1 for none. */
    private static int unknownBefore(List<Token> tokens, int index, Chart chart) {
        int i = index - 1;
        while (i > 0 && Vocabulary.isFigure(tokens.get(i))) {
            i--;
        }
        int unknown = -1;
        while (i > 0
                && tokens.get(i).getType() == ClearanceLanguageParser.WORD
                && !Names.isOnChart(tokens.get(i), chart)) {
            unknown = i;
            i--;
        }
        boolean bare = i < index - 1 && unknown < 0 && tokens.get(i).getType() == ClearanceLanguageParser.COMMA;
        return bare ? i + 1 : unknown;
    }

    /** A slip in a word of the language among the names that stand right before a token, or that token; -1 for none. */
    private static int slip(List<Token> tokens, int index, Chart chart) {
        for (int i = index; i >= 0 && (i == index || isName(tokens.get(i))); i--) {
            if (!Vocabulary.didYouMean(tokens.get(i)).isEmpty() && !Names.isOnChart(tokens.get(i), chart)) {
                return i;
            }
        }
        return -1;
    }

    /** Where names begin that stand behind a link and before a token; that token where there are none. */
    private static int beforeNames(List<Token> tokens, int index) {
        int first = index;
        while (first > 0 && isName(tokens.get(first - 1))) {
            first--;
        }
        boolean link = first > 0
                && switch (tokens.get(first - 1).getType()) {
                    case ClearanceLanguageParser.COMMA,
                            ClearanceLanguageParser.STOP,
                            ClearanceLanguageParser.THEN,
                            ClearanceLanguageParser.AND -> true;
                    default -> false;
                };
        return link ? first : index;
    }

    private static boolean isName(Token token) {
        return token.getType() == ClearanceLanguageParser.WORD
                || token.getType() == ClearanceLanguageParser.LETTER
                || token.getType() == ClearanceLanguageParser.NAME;
    }
}
