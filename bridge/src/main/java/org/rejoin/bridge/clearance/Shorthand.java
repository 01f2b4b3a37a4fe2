package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageLexer;

import org.antlr.v4.runtime.CommonToken;
import org.antlr.v4.runtime.Token;

/** How pilots write a clearance down: FH 040, TL 040, DM 60 (common practice, no source). */
final class Shorthand {

    /** Before figures. */
    private static final Map<String, List<Integer>> WORDS = Map.ofEntries(
            Map.entry("fh", List.of(ClearanceLanguageLexer.FLY, ClearanceLanguageLexer.HEADING)),
            Map.entry("tl", List.of(ClearanceLanguageLexer.TURN, ClearanceLanguageLexer.LEFT)),
            Map.entry("lt", List.of(ClearanceLanguageLexer.TURN, ClearanceLanguageLexer.LEFT)),
            Map.entry("tr", List.of(ClearanceLanguageLexer.TURN, ClearanceLanguageLexer.RIGHT)),
            Map.entry("rt", List.of(ClearanceLanguageLexer.TURN, ClearanceLanguageLexer.RIGHT)),
            Map.entry("rgt", List.of(ClearanceLanguageLexer.TURN, ClearanceLanguageLexer.RIGHT)),
            Map.entry("dm", List.of(ClearanceLanguageLexer.DESCEND, ClearanceLanguageLexer.MAINTAIN)),
            Map.entry("desc", List.of(ClearanceLanguageLexer.DESCEND, ClearanceLanguageLexer.MAINTAIN)),
            Map.entry("dsnd", List.of(ClearanceLanguageLexer.DESCEND, ClearanceLanguageLexer.MAINTAIN)),
            Map.entry("cm", List.of(ClearanceLanguageLexer.CLIMB, ClearanceLanguageLexer.MAINTAIN)),
            Map.entry("clb", List.of(ClearanceLanguageLexer.CLIMB, ClearanceLanguageLexer.MAINTAIN)),
            Map.entry("m", List.of(ClearanceLanguageLexer.MAINTAIN)),
            Map.entry("mtn", List.of(ClearanceLanguageLexer.MAINTAIN)),
            Map.entry("mntn", List.of(ClearanceLanguageLexer.MAINTAIN)),
            Map.entry("maint", List.of(ClearanceLanguageLexer.MAINTAIN)),
            Map.entry("spd", List.of(ClearanceLanguageLexer.SPEED)),
            Map.entry("ias", List.of(ClearanceLanguageLexer.SPEED)),
            Map.entry("int", List.of(ClearanceLanguageLexer.INTERCEPT)),
            Map.entry("i", List.of(ClearanceLanguageLexer.INTERCEPT)),
            Map.entry("dct", List.of(ClearanceLanguageLexer.DIRECT)));

    private static final Pattern RUN_TOGETHER = Pattern.compile("(?i)(fh|tl|tr|dm|cm|mtn|maint)([0-9]{2,5})");

    private static final Set<Integer> LINKS = Vocabulary.types("COMMA STOP THEN AND");

    private static final Set<Integer> SIDES = Vocabulary.types("LEFT RIGHT");

    private Shorthand() {}

    /** Puts the words of the language in the place of the abbreviations; names of the chart are left alone. */
    static void spellOut(List<Token> tokens, Chart chart) {
        for (int i = 0; i + 1 < tokens.size(); i++) {
            parted(tokens, i, chart);
            joined(tokens, i);
            Token token = tokens.get(i);
            List<Integer> meant = WORDS.get(token.getText().toLowerCase(Locale.ROOT));
            if (meant != null && isShort(token) && !Names.isOnChart(token, chart) && stands(tokens, i, meant)) {
                tokens.remove(i);
                tokens.addAll(i, meant.stream().map(type -> as(token, type)).toList());
                i += meant.size() - 1;
                if (meant.get(meant.size() - 1) == ClearanceLanguageLexer.MAINTAIN) {
                    hundreds(tokens, i + 1);
                }
            } else if (token.getText().equalsIgnoreCase("make") && isLeftTurn(tokens, i + 1)) {
                int turn = SIDES.contains(tokens.get(i + 1).getType()) ? i + 2 : i + 3;
                tokens.set(turn, as(tokens.get(turn), ClearanceLanguageLexer.TURN));
                tokens.subList(i, SIDES.contains(tokens.get(i + 1).getType()) ? i + 1 : i + 2)
                        .clear();
            }
        }
    }

    /** "Dm60" is "dm 60". */
    private static void parted(List<Token> tokens, int at, Chart chart) {
        Token typed = tokens.get(at);
        Matcher parts = RUN_TOGETHER.matcher(typed.getText());
        if (typed.getType() != ClearanceLanguageLexer.ALNUM || !parts.matches() || Names.isOnChart(typed, chart)) {
            return;
        }
        CommonToken word = new CommonToken(typed);
        word.setType(ClearanceLanguageLexer.WORD);
        word.setText(parts.group(1));
        word.setStopIndex(typed.getStartIndex() + parts.end(1) - 1);
        CommonToken figures = new CommonToken(typed);
        figures.setType(ClearanceLanguageLexer.NUMBER);
        figures.setText(parts.group(2));
        figures.setStartIndex(typed.getStartIndex() + parts.start(2));
        tokens.set(at, word);
        tokens.add(at + 1, figures);
    }

    /** "T l 040" and "T/L 040" are "tl 040". */
    private static void joined(List<Token> tokens, int at) {
        boolean begins = at == 0 || LINKS.contains(tokens.get(at - 1).getType());
        if (!begins || !tokens.get(at).getText().equalsIgnoreCase("t")) {
            return;
        }
        int side = tokens.get(at + 1).getText().equals("/") ? at + 2 : at + 1;
        if (side + 1 < tokens.size()
                && tokens.get(side).getText().matches("(?i)[lr]")
                && tokens.get(side + 1).getType() == ClearanceLanguageLexer.NUMBER) {
            CommonToken word = new CommonToken(tokens.get(at));
            word.setType(ClearanceLanguageLexer.WORD);
            word.setText("t" + tokens.get(side).getText());
            word.setStopIndex(tokens.get(side).getStopIndex());
            tokens.subList(at, side + 1).clear();
            tokens.add(at, word);
        }
    }

    private static boolean isShort(Token token) {
        return token.getType() == ClearanceLanguageLexer.WORD || token.getType() == ClearanceLanguageLexer.LETTER;
    }

    /** Whether what follows is what the abbreviation is written before. */
    private static boolean stands(List<Token> tokens, int at, List<Integer> meant) {
        int next = tokens.get(at + 1).getType();
        int before = at == 0 ? ClearanceLanguageLexer.COMMA : tokens.get(at - 1).getType();
        boolean letter = tokens.get(at).getType() == ClearanceLanguageLexer.LETTER;
        if (letter && !LINKS.contains(before) && before != ClearanceLanguageLexer.NUMBER) {
            return false;
        }
        int last = meant.get(meant.size() - 1);
        if (last == ClearanceLanguageLexer.INTERCEPT) {
            return !letter || next == ClearanceLanguageLexer.AIRWAY_IDENT;
        }
        if (last == ClearanceLanguageLexer.DIRECT) {
            return next == ClearanceLanguageLexer.WORD || next == ClearanceLanguageLexer.ALNUM;
        }
        boolean level = last == ClearanceLanguageLexer.MAINTAIN
                && (next == ClearanceLanguageLexer.FL
                        || next == ClearanceLanguageLexer.FL_NUMBER
                        || next == ClearanceLanguageLexer.NUMBER_FT);
        return next == ClearanceLanguageLexer.NUMBER || level;
    }

    /** "60" behind "dm" is 6000. */
    private static void hundreds(List<Token> tokens, int at) {
        if (tokens.get(at).getText().matches("[0-9]{2,3}")) {
            CommonToken feet = new CommonToken(tokens.get(at));
            feet.setText(feet.getText().replaceFirst("^0+", "") + "00");
            tokens.set(at, feet);
        }
    }

    /** How each abbreviation was read, and what was typed in hundreds of feet. */
    static List<String> notes(List<Token> tokens, Source source) {
        List<String> notes = new ArrayList<>();
        for (Token token : tokens) {
            List<Integer> meant = WORDS.get(token.getText().toLowerCase(Locale.ROOT));
            if (meant != null && token.getType() == meant.get(0)) {
                boolean up =
                        meant.get(0) == ClearanceLanguageLexer.CLIMB || meant.get(0) == ClearanceLanguageLexer.DESCEND;
                notes.add("\"" + source.words(token, token) + "\": read as \""
                        + meant.stream().map(Vocabulary::word).collect(Collectors.joining(up ? " and " : " ")) + "\"");
            }
        }
        for (int i = 1; i < tokens.size(); i++) {
            Token token = tokens.get(i);
            boolean level = tokens.get(i - 1).getType() == ClearanceLanguageLexer.MAINTAIN
                    && token.getType() == ClearanceLanguageLexer.NUMBER;
            if (level
                    && source.words(token, token).matches("[0-9]{2,3}")
                    && !source.words(token, token).equals(token.getText())) {
                notes.add("\"" + source.words(tokens.get(i - 1), token) + "\": read as " + token.getText() + " feet");
            }
        }
        return notes;
    }

    /** "(A) left turn to heading 040", "left turns to heading 040", behind "make". */
    private static boolean isLeftTurn(List<Token> tokens, int at) {
        int side = tokens.get(at).getText().equalsIgnoreCase("a") ? at + 1 : at;
        return side + 1 < tokens.size()
                && SIDES.contains(tokens.get(side).getType())
                && (tokens.get(side + 1).getType() == ClearanceLanguageLexer.TURN
                        || tokens.get(side + 1).getType() == ClearanceLanguageLexer.TURNS);
    }

    private static Token as(Token typed, int type) {
        CommonToken token = new CommonToken(typed);
        token.setType(type);
        return token;
    }
}
