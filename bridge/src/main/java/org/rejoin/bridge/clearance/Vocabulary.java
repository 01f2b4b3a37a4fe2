package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

import org.rejoin.bridge.chart.Spelling;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser;

import org.antlr.v4.runtime.Token;

/** The words of the language for messages: what is expected, and where words that were not understood end. */
final class Vocabulary {

    static final String INSTRUCTION =
            "an instruction (fly heading, intercept, join, proceed direct, climb and maintain, hold, then as filed)";

    /** What is listed of what is expected, characters: one line is read, a page is not. */
    private static final int LISTED = 120;

    /** Words that no instruction begins with: they follow one another only in advance information. */
    private static final Set<Integer> ANY_WORD = types("UNCHANGED FURTHER MINUTE");

    /** The first words of instructions: where one may begin, all of these may. */
    private static final Set<Integer> BEGINNINGS =
            types("AMEND AFTER AMENDMENT AMENDED ANTICIPATE CORRECTION CRUISE DELAY_EXPECTED EFC OFFSET QNH AS "
                    + "DEPART FOLLOW HALT HASTE REJOIN REPORT REROUTED CANCEL CHANGE CLEARED CLIMB CONTINUE CROSS "
                    + "DESCEND DIRECT DISREGARD DO EXPECT FLIGHT FLY FOR HEADING HOLD INCREASE INTERCEPT JOIN LEFT "
                    + "MAINTAIN ON PROCEED REDUCE REST RESUME RIGHT SPEED STEER TO TURN VECTOR VIA WHEN");

    /** Where an instruction may begin these may too; elsewhere they mean something else. */
    private static final Set<Integer> ALSO_BEGIN = types(
            "QDM QDR RADIAL READ_BACK READY_TO_COPY ALTIMETER TIME ASIDE AT BE CLEARANCE DISTANCE LAST "
                    + "MAGNETIC NO OWN PILOTS FL FL_NUMBER NUMBER_FT ROUTE TRACK UNTIL FROM UPPER PRESENT ARC "
                    + "APPROVED ARE IN NAVIGATION NEGATIVE EAC EXCEPT NEW_ROUTE PASS_AT REQUEST ROLL_OUT SET_COURSE YOUR");

    /** Tokens with many words, by one of them. */
    private static final Map<Integer, String> EXAMPLES = Map.of(
            ClearanceLanguageParser.HASTE, "immediately",
            ClearanceLanguageParser.COMPASS, "north",
            ClearanceLanguageParser.COMPASS_BOUND, "northbound",
            ClearanceLanguageParser.EXTREME, "maximum",
            ClearanceLanguageParser.R_RADIAL, "R-066",
            ClearanceLanguageParser.PASS, "passing",
            ClearanceLanguageParser.CENTER, "center",
            ClearanceLanguageParser.DELAY_EXPECTED, "no delay expected",
            ClearanceLanguageParser.READ_BACK, "read back",
            ClearanceLanguageParser.READY_TO_COPY, "ready to copy");

    static final Set<Integer> NUMBERS = types("NUMBER DIGIT TEEN TENS HUNDRED THOUSAND");
    private static final Set<Integer> LEVELS = types("FL FLIGHT FL_NUMBER NUMBER_FT");
    private static final Set<Integer> NAMES = types("WORD LETTER NAME ALNUM HEARD");
    private static final Set<Integer> ABOUT_AIRWAYS = types("THE AIRWAY THEN");
    private static final Set<Integer> LINKS = types("COMMA STOP AND");

    /** For "did you mean": the longer words of the language; the short ones are like everything. */
    private static final List<String> WORDS =
            List.of(("amended amendment bearing clockwise cancel change clearance cleared climb continue course cross "
                            + "degrees depart descend discretion direct disregard correction established offset restrictions "
                            + "expect filed flight fly heading hold inbound increase intercept join knots left level maintain "
                            + "navigation outbound present proceed radial reduce resume right route runway speed then turn "
                            + "unchanged until vector vectors via")
                    .split(" ", -1));

    private static final Pattern LETTER_FOR_ZERO = Pattern.compile("(FL|[VJTQ])?(?=[0-9O]*[0-9])[0-9O]*O[0-9O]*");

    private Vocabulary() {}

    /** Token types by their names in the grammar. */
    static Set<Integer> types(String names) {
        Set<String> wanted = Set.of(names.split(" ", -1));
        Set<Integer> types = IntStream.rangeClosed(1, ClearanceLanguageParser.VOCABULARY.getMaxTokenType())
                .filter(type ->
                        wanted.contains(String.valueOf(ClearanceLanguageParser.VOCABULARY.getSymbolicName(type))))
                .boxed()
                .collect(Collectors.toUnmodifiableSet());
        if (types.size() < wanted.size()) {
            throw new IllegalStateException("the grammar has not all of " + names);
        }
        return types;
    }

    /**
     * What a word would be with figures for letters or letters for figures that look like them: "06O" is 060, "zer0" is
     * zero; the word that may be meant; empty where it has no such slip.
     */
    static Optional<String> lookAlike(String word) {
        String upper = word.toUpperCase(Locale.ROOT);
        if (LETTER_FOR_ZERO.matcher(upper).matches()) {
            return Optional.of(upper.replace('O', '0'));
        }
        String letters = word.toLowerCase(Locale.ROOT).replace('0', 'o').replace('1', 'l');
        boolean figures = word.matches("[A-Za-z]+[01][A-Za-z01]*") && !letters.equals(word.toLowerCase(Locale.ROOT));
        List<Token> tokens = Names.tokens(letters);
        return figures && tokens.size() == 2 && NUMBERS.contains(tokens.get(0).getType())
                ? Optional.of(letters)
                : Optional.empty();
    }

    static boolean isFigure(Token word) {
        return NUMBERS.contains(word.getType());
    }

    /** "; did you mean ...?" from the words of the language, or nothing. */
    static String didYouMean(Token word) {
        return word.getType() == ClearanceLanguageParser.WORD
                ? Spelling.didYouMean(word.getText().toLowerCase(Locale.ROOT), WORDS)
                : "";
    }

    /** Whether a word is a slip in a word of the language. */
    static boolean isSlip(String word) {
        return word.length() > 2
                && !Spelling.near(word.toLowerCase(Locale.ROOT), WORDS).isEmpty();
    }

    /** What would be understood, in words. */
    static String expected(BitSet types) {
        if (ANY_WORD.stream().allMatch(types::get)) {
            return "more of what to expect, or " + INSTRUCTION;
        }
        List<String> parts = new ArrayList<>();
        boolean instruction = types.get(ClearanceLanguageParser.CLIMB) && types.get(ClearanceLanguageParser.CROSS);
        boolean number = NUMBERS.stream().allMatch(types::get);
        boolean level = number && LEVELS.stream().allMatch(types::get);
        boolean name = types.get(ClearanceLanguageParser.WORD);
        boolean airway = types.get(ClearanceLanguageParser.AIRWAY_IDENT);
        if (instruction) {
            parts.add(INSTRUCTION);
        }
        if (level) {
            parts.add("an altitude");
        } else if (number && !instruction) {
            parts.add("a number");
        }
        if (name && !instruction) {
            parts.add("a name");
        }
        if (airway && !instruction) {
            parts.add("an airway");
        }
        for (int type = types.nextSetBit(1); type >= 0; type = types.nextSetBit(type + 1)) {
            boolean said = NUMBERS.contains(type)
                    || (LEVELS.contains(type) && (level || instruction))
                    || NAMES.contains(type)
                    || LINKS.contains(type)
                    || type == ClearanceLanguageParser.AIRWAY_IDENT
                    || (instruction
                            && (BEGINNINGS.contains(type)
                                    || ALSO_BEGIN.contains(type)
                                    || ABOUT_AIRWAYS.contains(type)));
            if (!said) {
                parts.add("\"" + word(type) + "\"");
            }
        }
        if (types.get(0)) {
            parts.add("the end");
        }
        int shown = 1;
        while (shown < parts.size()
                && String.join(", ", parts.subList(0, shown + 1)).length() <= LISTED) {
            shown++;
        }
        return shown < parts.size()
                ? String.join(", ", parts.subList(0, shown)) + ", or another word"
                : String.join(", ", parts);
    }

    /** A word of the language, as it is written. */
    static String word(int type) {
        String example = EXAMPLES.get(type);
        if (example != null) {
            return example;
        }
        return ClearanceLanguageParser.VOCABULARY
                .getDisplayName(type)
                .replace("'", "")
                .toLowerCase(Locale.ROOT);
    }

    /** Index of the last token of the words that start at one and were not understood: to a comma or a new instruction. */
    static int lastOf(List<Token> tokens, int first) {
        int last = first;
        while (last + 1 < tokens.size()) {
            int type = tokens.get(last + 1).getType();
            if (type == Token.EOF
                    || type == ClearanceLanguageParser.COMMA
                    || type == ClearanceLanguageParser.STOP
                    || type == ClearanceLanguageParser.THEN
                    || BEGINNINGS.contains(type)) {
                break;
            }
            last++;
        }
        return last;
    }
}
