package org.rejoin.protocol.nmea;

/** What an octet can be in a stream of sentences. */
final class Octets {

    static final byte ORDINARY = 0;
    static final byte COMMA = 1;
    static final byte STAR = 2;
    /** The white space of {@link Character#isWhitespace(char)} that ends no line. */
    static final byte BLANK = 3;
    /** This and everything above ends a sentence. */
    static final byte LINE_END = 4;

    static final byte START = 5;

    private static final byte[] KINDS = new byte[256];

    static {
        for (int octet = 0; octet <= ' '; octet++) {
            KINDS[octet] = Character.isWhitespace(octet) ? BLANK : ORDINARY;
        }
        KINDS[','] = COMMA;
        KINDS['*'] = STAR;
        KINDS['\r'] = LINE_END;
        KINDS['\n'] = LINE_END;
        KINDS[0] = LINE_END;
        KINDS['$'] = START;
        KINDS['!'] = START;
        KINDS['\\'] = START;
    }

    private Octets() {}

    static byte kind(byte octet) {
        return KINDS[octet & 0xFF];
    }

    /** Octet behind the last that is not blank, after {@code from}. */
    static int trimmedEnd(byte[] octets, int from, int to) {
        int end = to;
        while (end > from + 1 && kind(octets[end - 1]) == BLANK) {
            end--;
        }
        return end;
    }
}
