package org.rejoin.bridge.clearance;

import java.util.List;
import java.util.Locale;
import java.util.Set;

import org.rejoin.bridge.clearance.grammar.ClearanceLanguageLexer;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser;

import org.antlr.v4.runtime.CommonToken;
import org.antlr.v4.runtime.Token;

/**
 * What other traffic does (FAA Order JO 7110.65, 2-1-21) and what is to be reported sound like instructions ("descending to
 * 6000") and are none. A participle is of the traffic or of the report; the next instruction begins with its imperative.
 */
final class Heard {

    /** Words of the language that begin an instruction where they are no participle. */
    private static final Set<Integer> IMPERATIVES = Vocabulary.types(
            "FLY TURN CLIMB DESCEND MAINTAIN CROSS INTERCEPT JOIN HOLD DEPART REDUCE INCREASE STEER ARC "
                    + "DIRECT PROCEED CLEARED RESUME REST CHANGE CANCEL DISREGARD EXPECT AS WHEN AFTER AMEND REPORT "
                    + "REROUTED REJOIN HALT OFFSET CORRECTION CRUISE ANTICIPATE QNH ALTIMETER RADAR_CONTACT RADAR_ENDED "
                    + "ROGER WAKE CONTACT DELAY_EXPECTED ASIDE DEVIATE READY_TO_COPY READ_BACK SAY_AGAIN IF_ABLE NOT_OURS "
                    + "STRANGE EFC VECTOR FOLLOW CONTINUE REASON PILOTS THEN DO ADVISED "
                    + "SET_COURSE ROLL_OUT");

    /** A report ends where one of these begins; what is behind a participle or "to" is of the report. */
    private static final Set<Integer> OF_A_REPORT = Vocabulary.types("SPEED HEADING");

    /** "Turning left heading 040" goes on behind these. */
    private static final Set<Integer> GOES_ON = Vocabulary.types("HEARD TO ON LEFT RIGHT");

    /** Between "traffic" and the clock. */
    private static final Set<Integer> CLOCK_LEAD = Vocabulary.types("COMMA AT YOUR");

    private Heard() {}

    /** Makes such words one kind of word, that no instruction has. */
    static void mark(List<Token> tokens) {
        for (int i = 0; i < tokens.size(); i++) {
            Token token = tokens.get(i);
            if (token.getType() == ClearanceLanguageLexer.REPORT) {
                report(tokens, i + 1);
            } else if (token.getType() == ClearanceLanguageLexer.REASON
                    && token.getText().equalsIgnoreCase("traffic")) {
                traffic(tokens, i + 1);
            }
        }
    }

    private static void report(List<Token> tokens, int first) {
        for (int i = first; !ends(tokens.get(i)); i++) {
            int type = tokens.get(i).getType();
            // "Entering the hold".
            int before = tokens.get(i - 1).getType() == ClearanceLanguageLexer.THE ? i - 2 : i - 1;
            boolean behind =
                    before >= first && GOES_ON.contains(tokens.get(before).getType());
            // "Report crossing V40 heading 110": a report gives no heading.
            boolean given = i > first && OF_A_REPORT.contains(type);
            boolean ofIt = given || (behind && IMPERATIVES.contains(type));
            if (isParticiple(tokens.get(i)) || ofIt) {
                hear(tokens, i);
            } else if (i > first && IMPERATIVES.contains(type)) {
                return;
            }
        }
    }

    private static void traffic(List<Token> tokens, int behind) {
        int clock = clock(tokens, behind);
        int first = clock > 0 ? clock : behind;
        if (clock < 0 && !isParticiple(tokens.get(behind))) {
            return;
        }
        int end = first;
        while (!begins(tokens, end, first)
                && (clock > 0 || tokens.get(end).getType() != ClearanceLanguageLexer.COMMA)) {
            end++;
        }
        while (end > first
                && (tokens.get(end - 1).getType() == ClearanceLanguageLexer.COMMA
                        || tokens.get(end - 1).getType() == ClearanceLanguageLexer.AND)) {
            end--;
        }
        for (int i = first; i < end; i++) {
            hear(tokens, i);
        }
    }

    /** Behind "12 o'clock"; -1 where no such place is said. */
    private static int clock(List<Token> tokens, int behind) {
        int i = behind;
        while (Vocabulary.isFigure(tokens.get(i))
                || CLOCK_LEAD.contains(tokens.get(i).getType())) {
            i++;
        }
        return tokens.get(i).getType() == ClearanceLanguageLexer.OCLOCK ? i + 1 : -1;
    }

    /** Whether something else begins than what the traffic does. */
    private static boolean begins(List<Token> tokens, int at, int first) {
        Token token = tokens.get(at);
        if (token.getType() == Token.EOF || token.getType() == ClearanceLanguageLexer.STOP) {
            return true;
        }
        int before = at > first ? tokens.get(at - 1).getType() : ClearanceLanguageLexer.OCLOCK;
        if (token.getType() == ClearanceLanguageLexer.AT) {
            return !Vocabulary.isFigure(tokens.get(at + 1)) || isTime(tokens, at + 1);
        }
        if (token.getType() == ClearanceLanguageLexer.VIA) {
            return before == ClearanceLanguageLexer.COMMA;
        }
        if (token.getType() == ClearanceLanguageLexer.HASTE) {
            return token.getText().toLowerCase(Locale.ROOT).startsWith("expedit")
                    && before == ClearanceLanguageLexer.COMMA;
        }
        boolean going = at > first && isGoingOn(tokens.get(at - 1));
        boolean way = token.getType() == ClearanceLanguageLexer.DIRECT && going;
        boolean compass =
                token.getText().equalsIgnoreCase("up") || token.getText().equalsIgnoreCase("down");
        return IMPERATIVES.contains(token.getType()) && !isParticiple(token) && !way && !compass;
    }

    /** Four figures that are no full hundred: "traffic at 7000" has an altitude, "at 1530" begins something. */
    private static boolean isTime(List<Token> tokens, int at) {
        return tokens.get(at).getText().matches("[0-9]{4}")
                && !tokens.get(at).getText().endsWith("00");
    }

    private static boolean isParticiple(Token token) {
        return (IMPERATIVES.contains(token.getType()) || token.getType() == ClearanceLanguageLexer.PASS)
                && isGoingOn(token);
    }

    /** "Climbing", "turning": what is done already, and no order. */
    static boolean isGoingOn(Token token) {
        return token.getText().toLowerCase(Locale.ROOT).endsWith("ing");
    }

    private static boolean ends(Token token) {
        return switch (token.getType()) {
            case Token.EOF, ClearanceLanguageLexer.COMMA, ClearanceLanguageLexer.STOP, ClearanceLanguageLexer.THEN ->
                true;
            default -> false;
        };
    }

    private static void hear(List<Token> tokens, int at) {
        CommonToken heard = new CommonToken(tokens.get(at));
        heard.setType(ClearanceLanguageParser.HEARD);
        tokens.set(at, heard);
    }
}
