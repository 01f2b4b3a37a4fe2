package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A word of a text, upper case, and the column where it stands, 0 the first. */
record Word(String text, int column) {

    private static final Pattern WORD = Pattern.compile("\\S+");

    /** The words between blanks. */
    static List<Word> split(String text) {
        List<Word> words = new ArrayList<>();
        Matcher matcher = WORD.matcher(text);
        while (matcher.find()) {
            words.add(new Word(matcher.group().toUpperCase(Locale.ROOT), matcher.start()));
        }
        return words;
    }

    /** A reason that points at this word. */
    ClearanceException refuse(ClearanceException.Code code, String message) {
        return new ClearanceException(code, message, column, text.length());
    }

    /** A reason why this word does not belong into a route. */
    ClearanceException notValid(String message) {
        return refuse(ClearanceException.Code.ROUTE_NOT_VALID, message);
    }
}
