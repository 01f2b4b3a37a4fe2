package org.rejoin.protocol.nmea;

/** What an octet can be in a stream of sentences. */
final class Octets {

    static final byte ORDINARY = 0;
    static final byte COMMA = 1;
    static final byte STAR = 2;
    /** This and everything above ends a sentence. */
    static final byte LINE_END = 3;

    static final byte START = 4;

    private static final byte[] KINDS = new byte[256];

    static {
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

    /** The white space of {@link Character#isWhitespace(char)}. */
    static boolean isBlank(byte octet) {
        return octet == ' ' || (octet >= 9 && octet <= 13) || (octet >= 28 && octet <= 31);
    }

    /** Octet behind the last that is not blank, after {@code from}. */
    static int trimmedEnd(byte[] octets, int from, int to) {
        int end = to;
        while (end > from + 1 && isBlank(octets[end - 1])) {
            end--;
        }
        return end;
    }
}
