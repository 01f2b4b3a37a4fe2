package org.rejoin.bridge.clearance;

import org.antlr.v4.runtime.ParserRuleContext;
import org.antlr.v4.runtime.Token;

/** The text of a clearance, to say where in it something stands. */
record Source(String text) {

    /** Where a token starts, in characters. */
    int column(Token token) {
        return offset(token.getStartIndex());
    }

    /** Where a token ends, in characters, exclusive. */
    int end(Token token) {
        return offset(token.getStopIndex() + 1);
    }

    /** The words of a part as they stand in the text, on one line. */
    String words(ParserRuleContext part) {
        return words(part.getStart(), part.getStop());
    }

    /** The words from one token to another, inclusive, on one line. */
    String words(Token first, Token last) {
        return text.substring(column(first), Math.max(column(first), end(last)))
                .trim()
                .replaceAll("\\s+", " ");
    }

    /** Whether a part follows what stands before it with nothing between: no comma, no "then". */
    boolean follows(ParserRuleContext part) {
        return text.substring(0, column(part.getStart()))
                .matches("(?is).*[\\p{L}0-9]\\s+(?<!\\b(then|thence|thereafter|after that|and)\\s{1,9})");
    }

    /** A reason that points at a part. */
    ClearanceException refuse(ParserRuleContext part, ClearanceException.Code code, String message) {
        return refuse(part.getStart(), part.getStop(), code, message);
    }

    /** A reason that points at the tokens from one to another, inclusive. */
    ClearanceException refuse(Token first, Token last, ClearanceException.Code code, String message) {
        return new ClearanceException(code, message, column(first), Math.max(0, end(last) - column(first)));
    }

    /** A reason that points at a part whose words make no sense there. */
    ClearanceException notUnderstood(ParserRuleContext part, String message) {
        return refuse(part, ClearanceException.Code.NOT_UNDERSTOOD, "\"" + words(part) + "\": " + message);
    }

    // The lexer counts code points.
    private int offset(int codePoints) {
        return text.offsetByCodePoints(0, Math.min(codePoints, text.codePointCount(0, text.length())));
    }
}
