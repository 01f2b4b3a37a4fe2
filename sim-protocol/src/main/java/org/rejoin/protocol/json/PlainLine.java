package org.rejoin.protocol.json;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;

import org.rejoin.protocol.PlainDecimal;

/**
 * Reads the line that a sender usually sends, without making an object: one flat object, ASCII without escapes, numbers
 * without exponents, every value in its range. Any other line is left to the library, which reads all of JSON and says
 * what is wrong.
 */
final class PlainLine {

    private static final byte[] FORMAT = ascii("format");
    private static final byte[] CALLSIGN = ascii("callsign");
    private static final byte[] PAUSED = ascii("paused");
    private static final byte[] ON_GROUND = ascii("on_ground");
    private static final byte[] OUR_FORMAT = ascii(JsonState.FORMAT);
    private static final byte[] TRUE = ascii("true");
    private static final byte[] FALSE = ascii("false");
    private static final byte[] NULL = ascii("null");
    private static final int LONGEST_NAME = 64;

    /** What a string may be of, by octet. */
    private static final boolean[] OF_TEXT = new boolean[256];

    static {
        Arrays.fill(OF_TEXT, ' ', '~' + 1, true);
        OF_TEXT['"'] = false;
        OF_TEXT['\\'] = false;
    }

    private byte[] octets = new byte[0];
    private int at;
    private int end;
    /** The string read last, without its quotes. */
    private int textFrom;

    private int textTo;

    private static byte[] ascii(String text) {
        return text.getBytes(StandardCharsets.US_ASCII);
    }

    /**
     * Reads an object into a state that is clear, and says which octet comes behind it and blanks; -1 if it is no plain one,
     * and the state then is of no use.
     */
    int read(byte[] text, int from, int to, JsonState state) {
        octets = text;
        at = from;
        end = to;
        if (!take('{')) {
            return -1;
        }
        do {
            if (!member(state)) {
                return -1;
            }
        } while (take(','));
        boolean closed = take('}');
        skipBlanks();
        return closed ? at : -1;
    }

    private boolean member(JsonState state) {
        if (!text() || textTo - textFrom > LONGEST_NAME) {
            return false;
        }
        int from = textFrom;
        int to = textTo;
        if (!take(':')) {
            return false;
        }
        skipBlanks();
        JsonMember number = JsonMember.named(octets, from, to);
        if (number != null) {
            return number(number, state);
        }
        if (is(FORMAT, from, to)) {
            return text() && is(OUR_FORMAT, textFrom, textTo);
        }
        if (is(CALLSIGN, from, to)) {
            return text() && state.callsign(octets, textFrom, textTo);
        }
        if (is(PAUSED, from, to)) {
            return flag(state);
        }
        return is(ON_GROUND, from, to) ? literal(TRUE) || literal(FALSE) : anything();
    }

    private boolean number(JsonMember member, JsonState state) {
        if (literal(NULL)) {
            state.number(member, Double.NaN);
            return true;
        }
        double value = number();
        state.number(member, value);
        return member.allows(value);
    }

    private boolean flag(JsonState state) {
        if (literal(TRUE)) {
            state.paused(true);
            return true;
        }
        state.paused(false);
        return literal(FALSE);
    }

    private boolean anything() {
        return literal(TRUE) || literal(FALSE) || literal(NULL) || text() || !Double.isNaN(number());
    }

    /** A number as JSON writes it, but without an exponent; NaN if there is none. */
    private double number() {
        int from = at;
        while (at < end && octets[at] != ',' && octets[at] != '}' && octets[at] > ' ') {
            at++;
        }
        int first = from < at && octets[from] == '-' ? from + 1 : from;
        boolean zerosInFront = first + 1 < at && octets[first] == '0' && octets[first + 1] != '.';
        return first == at || octets[first] == '+' || octets[at - 1] == '.' || zerosInFront
                ? Double.NaN
                : PlainDecimal.value(octets, from, at);
    }

    /** A string of printable ASCII without escapes. */
    private boolean text() {
        skipBlanks();
        if (at == end || octets[at] != '"') {
            return false;
        }
        textFrom = ++at;
        while (at < end && OF_TEXT[octets[at] & 0xFF]) {
            at++;
        }
        textTo = at++;
        return textTo < end && octets[textTo] == '"';
    }

    private boolean literal(byte[] word) {
        boolean there = at + word.length <= end && octets[at] == word[0] && is(word, at, at + word.length);
        at += there ? word.length : 0;
        return there;
    }

    private boolean is(byte[] word, int from, int to) {
        return Arrays.equals(word, 0, word.length, octets, from, to);
    }

    private boolean take(char wanted) {
        skipBlanks();
        boolean there = at < end && octets[at] == wanted;
        at += there ? 1 : 0;
        return there;
    }

    private void skipBlanks() {
        while (at < end && (octets[at] == ' ' || octets[at] == '\t')) {
            at++;
        }
    }
}
