package org.rejoin.protocol.nmea;

import java.util.Locale;

/** Exclusive or of characters, as two hexadecimal digits. */
final class Checksum {

    private Checksum() {}

    static int of(CharSequence characters) {
        int sum = 0;
        for (int i = 0; i < characters.length(); i++) {
            sum ^= characters.charAt(i);
        }
        return sum & 0xFF;
    }

    static String text(CharSequence characters) {
        return String.format(Locale.ROOT, "%02X", of(characters));
    }

    /** The checksum written at {@code index}, in either case; -1 if two hexadecimal digits do not stand there. */
    static int written(CharSequence text, int index) {
        if (index + 2 > text.length()) {
            return -1;
        }
        int high = hexadecimal(text.charAt(index));
        int low = hexadecimal(text.charAt(index + 1));
        return high < 0 || low < 0 ? -1 : high * 16 + low;
    }

    private static int hexadecimal(char c) {
        return c < 128 ? Character.digit(c, 16) : -1;
    }
}
