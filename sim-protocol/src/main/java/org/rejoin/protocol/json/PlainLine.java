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

    private byte[] octets = new byte[0];
    private int at;
    private int end;
    /** The string read last, without its quotes. */
    private int textFrom;

    private int textTo;

    private static byte[] ascii(String text) {
        return text.getBytes(StandardCharsets.US_ASCII);
    }

    /** Reads the octets into a state that is clear; false if they are no plain line, and the state then is of no use. */
    boolean read(byte[] text, int from, int to, JsonState state) {
        octets = text;
        at = from;
        end = to;
        if (!take('{')) {
            return false;
        }
        do {
            if (!member(state)) {
                return false;
            }
        } while (take(','));
        boolean closed = take('}');
        skipBlanks();
        return closed && at == end;
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
        int from = at;
        if (!number()) {
            return false;
        }
        double value = PlainDecimal.value(octets, from, at);
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
        return literal(TRUE) || literal(FALSE) || literal(NULL) || text() || number();
    }

    /** A number as JSON writes it, but without an exponent. */
    private boolean number() {
        if (at < end && octets[at] == '-') {
            at++;
        }
        int first = at;
        skipDigits();
        if (at == first || (octets[first] == '0' && at > first + 1)) {
            return false;
        }
        if (at < end && octets[at] == '.') {
            int point = at++;
            skipDigits();
            if (at == point + 1) {
                return false;
            }
        }
        return at < end && octets[at] != 'e' && octets[at] != 'E';
    }

    private void skipDigits() {
        while (at < end && octets[at] >= '0' && octets[at] <= '9') {
            at++;
        }
    }

    /** A string of printable ASCII without escapes. */
    private boolean text() {
        skipBlanks();
        if (at == end || octets[at] != '"') {
            return false;
        }
        textFrom = ++at;
        while (at < end && octets[at] != '"') {
            byte octet = octets[at];
            if (octet < ' ' || octet > '~' || octet == '\\') {
                return false;
            }
            at++;
        }
        textTo = at++;
        return textTo < end;
    }

    private boolean literal(byte[] word) {
        boolean there = at + word.length <= end && is(word, at, at + word.length);
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
