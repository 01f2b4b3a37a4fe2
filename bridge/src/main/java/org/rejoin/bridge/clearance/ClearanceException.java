package org.rejoin.bridge.clearance;

import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Pattern;

/** A clearance or a route that cannot be worked out, with a code for machines and a sentence for people. */
public final class ClearanceException extends Exception {

    private static final long serialVersionUID = 1L;

    private static final Pattern FIRST_LETTERS = Pattern.compile("(?<!\\S)\\S");

    /** Why not. */
    public enum Code {
        /** Words that the grammar does not know. */
        NOT_UNDERSTOOD,
        /** A station that the chart does not show. */
        UNKNOWN_STATION,
        /** A fix that the chart does not show. */
        UNKNOWN_FIX,
        /** An airway that the chart does not show. */
        UNKNOWN_AIRWAY,
        /** An airway that the filed route does not use, so that nobody can say which way along it. */
        AIRWAY_NOT_IN_ROUTE,
        /** A radial that does not meet the airway it is to lead to. */
        RADIAL_DOES_NOT_CROSS_AIRWAY,
        /** A filed route that does not hold together. */
        ROUTE_NOT_VALID,
        /** Understood, but not something that can be worked out from here; the sentence says what is missing. */
        CANNOT_BE_WORKED_OUT
    }

    private final Code code;
    private final int column;
    private final int length;

    /** A reason: a code for machines, and one line that says what, where, and what would be right. */
    public ClearanceException(Code code, String message) {
        this(code, message, -1, 0);
    }

    /**
     * The same with the words it is about: where they start in the text that was read, 0 the first and -1 where no
     * words are meant, and how many characters they are.
     */
    public ClearanceException(Code code, String message, int column, int length) {
        super(message);
        this.code = code;
        this.column = column;
        this.length = length;
    }

    /** Understood, but not something that can be worked out from here. */
    public static ClearanceException cannotBeWorkedOut(String why) {
        return new ClearanceException(Code.CANNOT_BE_WORKED_OUT, why);
    }

    /**
     * {@return the same reason, with its place in the text before it: "in the filed route, word 2: ..."; unchanged where no
     * words are meant}
     *
     * @param name what the text is, for example "in the filed route"
     * @param text the text that was read
     */
    public ClearanceException in(String name, String text) {
        if (column < 0) {
            return this;
        }
        long word = FIRST_LETTERS
                .matcher(text)
                .results()
                .filter(letter -> letter.start() <= column)
                .count();
        String where = word == 0 ? "" : (length == 0 ? ", after word " : ", word ") + word;
        return new ClearanceException(code, name + where + ": " + getMessage(), column, length);
    }

    /** {@return the code} */
    public Code code() {
        return code;
    }

    /**
     * {@return where the words that are meant start; characters from the start of the text that was read, 0 the first; empty
     * where no words are meant}
     */
    public OptionalInt column() {
        return column < 0 ? OptionalInt.empty() : OptionalInt.of(column);
    }

    /**
     * How long the words that are meant are, characters, 0 where no words are meant or something is missing at {@link
     * #column()}.
     */
    public int length() {
        return length;
    }

    /**
     * {@return a line to print under the text, in a font of fixed width; blanks, then carets under the words, one or more;
     * empty where no words are meant}
     */
    public Optional<String> caretLine() {
        return column < 0 ? Optional.empty() : Optional.of(" ".repeat(column) + "^".repeat(Math.max(1, length)));
    }
}
