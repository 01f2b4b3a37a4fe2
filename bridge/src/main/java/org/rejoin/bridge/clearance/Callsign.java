package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.CallsignContext;

import org.antlr.v4.runtime.Token;

/** Callsigns, however they are said. */
final class Callsign {

    /** Everyday words and abbreviations (ICAO Doc 8400) with which an instruction is typed; no name of an operator. */
    private static final Set<String> NO_NAMES = Set.of(
            ("ALT BRG CRS DCT DIST DES LVL RAD RDL SPD TRK KT KTS HD HEAD VEC CLB CM DESC DM DSND FH I IAS INT LT M MACH"
                            + " MAINT MNTN MTN RGT RT SQ SQK T TL TR XPDR "
                            + "ADJUST AIM ALTER ASCEND ASSIGNED BACK BANK BEAR BEGIN BREAK CIRCLE COME CORRECT DEVIATE DIAL"
                            + " DIVERT DROP EASE GAIN GET GIVE GO JUST KEEP LETS LOSE MAKE MOVE NAVIGATE NEED NEW ORBIT PLEASE"
                            + " PULL PUSH RAISE REVERSE ROLL ROTATE RUN SELECT SET SHIFT SINK SLIDE STAND START STAY STRAIGHT"
                            + " SWING TAKE TRY USE WANT YOU")
                    .split(" ", -1));

    /** One letter and figures, as levels, headings, radials and distances are typed short. */
    private static final Pattern SHORT = Pattern.compile("(?!N[1-9])[A-Z][0-9]+");

    private static final Pattern NAME_AND_NUMBER = Pattern.compile("(\\p{L}*)([0-9]+)");

    /** An operator's flight number has no more (ICAO Doc 4444, Appendix 2, item 7: seven characters with the designator). */
    private static final int MOST_FIGURES = 5;

    private static final Pattern WORD_THEN_FIGURE = Pattern.compile("([A-Z]+)(\\d.*)");

    private static final String LEAVE_IT_OUT = ", or leave the callsign out";

    private Callsign() {}

    /** A callsign must not hide an instruction that was mistyped, nor an airway, nor a second number. */
    static void check(Source source, CallsignContext spoken, Chart chart) throws ClearanceException {
        String plain = plain(source.words(spoken));
        if (chart.airway(plain).isPresent()) {
            throw source.notUnderstood(spoken, "a callsign or airway " + plain + "? say \"join\" or \"via\" before it");
        }
        for (Token word : Names.tokens(source.words(spoken))) {
            String name = word.getText().replaceFirst("[0-9]+$", "");
            if (Vocabulary.isSlip(name) && word.getType() == ClearanceLanguageParser.WORD) {
                throw source.refuse(
                        spoken,
                        ClearanceException.Code.NOT_UNDERSTOOD,
                        "not understood: \"" + source.words(spoken) + "\"" + Vocabulary.didYouMean(word));
            }
            if (NO_NAMES.contains(name.toUpperCase(Locale.ROOT))) {
                throw source.notUnderstood(
                        spoken,
                        "no callsign, and no instruction here; "
                                + right(name.toUpperCase(Locale.ROOT), lastNumber(source.words(spoken))));
            }
        }
        boolean article = spoken.namedCallsign() != null
                && spoken.namedCallsign().callsignWord().stream()
                        .skip(1)
                        .anyMatch(word -> word.getText().equalsIgnoreCase("a"));
        boolean shortForm = SHORT.matcher(plain).matches();
        if (article || shortForm || numbers(source.words(spoken)) > 1 || longest(plain) > MOST_FIGURES) {
            throw source.notUnderstood(
                    spoken,
                    "not understood as a callsign; say " + meant(lastNumber(source.words(spoken))) + LEAVE_IT_OUT);
        }
    }

    /**
     * The callsign in front of a clearance. A number alone that could be a heading or an altitude is none; with a name that
     * the language does not have it is one. A note says what was taken for it, and how that heading or altitude is said where the clearance leaves it open.
     */
    static String of(Source source, CallsignContext spoken, List<Instruction> instructions, List<String> notes)
            throws ClearanceException {
        String words = source.words(spoken);
        Matcher named = NAME_AND_NUMBER.matcher(plain(words));
        if (!named.matches() || spoken.getStart().getType() == ClearanceLanguageParser.ALNUM) {
            notes.add(taken(words));
            return words;
        }
        String figures = named.group(2);
        boolean heading = isHeading(figures);
        if (!heading && !isAltitude(figures)) {
            notes.add(taken(words));
            return words;
        }
        if (named.group(1).isEmpty()) {
            throw source.notUnderstood(
                    spoken,
                    "a callsign, or " + (heading ? "a heading" : "an altitude") + "? say " + meant(figures)
                            + ", or the callsign with its name");
        }
        boolean open = heading
                ? instructions.stream().anyMatch(Callsign::isMet)
                        && instructions.stream().noneMatch(Instruction.Heading.class::isInstance)
                : instructions.stream().noneMatch(Instruction.Maintain.class::isInstance);
        notes.add(
                taken(words) + (open ? "; " + (heading ? "a heading" : "an altitude") + " is " + meant(figures) : ""));
        return words;
    }

    private static String taken(String words) {
        return "\"" + words + "\": taken for the callsign";
    }

    /** Whether a heading leads to it. */
    private static boolean isMet(Instruction said) {
        return said instanceof Instruction.InterceptAirway
                || said instanceof Instruction.JoinAirway
                || said instanceof Instruction.StationLine;
    }

    private static boolean isHeading(String figures) {
        return figures.length() == 3 && Integer.parseInt(figures) <= 360;
    }

    private static boolean isAltitude(String figures) {
        return (figures.length() == 4 || figures.length() == 5)
                && figures.endsWith("00")
                && Quantities.isAltitude(Integer.parseInt(figures));
    }

    /** As typed, else as spoken. */
    private static String lastNumber(String words) {
        String typed = words.replaceFirst(".*?([0-9]*)$", "$1");
        return typed.isEmpty() ? plain(words).replaceFirst(".*?([0-9]*)$", "$1") : typed;
    }

    /** What to say for an abbreviation and its figures. */
    private static String right(String name, String figures) {
        return switch (name) {
            case "SQ", "SQK", "XPDR" -> "leave it out: a transponder code has nothing to fly in it";
            case "MACH" -> "say the speed in knots: \"maintain 140 knots\"";
            case "ALT", "LVL" ->
                "say " + meant(figures.matches("[0-9]{2,3}") ? figures.replaceFirst("^0+", "") + "00" : figures);
            default -> "say " + meant(figures);
        };
    }

    /** How the figures would be said as what they look like. */
    static String meant(String figures) {
        if (isHeading(figures)) {
            return "\"fly heading " + figures + "\" or \"turn left " + Integer.parseInt(figures) + " degrees\"";
        }
        return isAltitude(figures) ? "\"maintain " + figures + "\"" : Vocabulary.INSTRUCTION;
    }

    /** How many numbers of two figures or more were typed; "1 2 3" is one that was spelled. */
    private static long numbers(String words) {
        return Names.tokens(words).stream()
                .filter(token -> token.getText().matches("\\p{L}*[0-9]{2,}\\p{L}*"))
                .count();
    }

    private static int longest(String plain) {
        return Stream.of(plain.split("[^0-9]+", -1))
                .mapToInt(String::length)
                .max()
                .orElse(0);
    }

    /** Whether words say a callsign as it is {@linkplain #plain spelled}: of ALPHA1 "alpha one" is the name, and not the letter A. */
    static boolean says(String words, String own) {
        String said = plain(words);
        Matcher parts = WORD_THEN_FIGURE.matcher(own);
        return said.equals(own) || (parts.matches() && said.equals(plain(parts.group(1)) + parts.group(2)));
    }

    /** One spelling of a callsign: "Oceanic five twelve" and "Oceanic 512" are both OCEANIC512. */
    static String plain(String words) {
        StringBuilder plain = new StringBuilder();
        List<String> figures = new ArrayList<>();
        for (Token token : Names.tokens(words)) {
            if (Vocabulary.isFigure(token)) {
                figures.add(token.getText());
                continue;
            }
            plain.append(SpokenNumber.of(figures).map(SpokenNumber::digits).orElse(String.join("", figures)));
            figures.clear();
            if (token.getType() == ClearanceLanguageParser.LETTER) {
                plain.append(SpokenWords.letter(token.getText()));
            } else if (token.getType() != Token.EOF && token.getType() != ClearanceLanguageParser.HEAVY) {
                plain.append(token.getText().toUpperCase(Locale.ROOT));
            }
        }
        return plain.toString();
    }
}
