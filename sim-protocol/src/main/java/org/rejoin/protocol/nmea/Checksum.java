package org.rejoin.protocol.nmea;

import java.util.Locale;

/** Exclusive or of characters, as two hexadecimal digits. */
final class Checksum {

    private Checksum() {}

    /** The checksum of characters, as it is written. */
    static String text(CharSequence characters) {
        int sum = 0;
        for (int i = 0; i < characters.length(); i++) {
            sum ^= characters.charAt(i);
        }
        return text(sum & 0xFF);
    }

    static String text(int sum) {
        return String.format(Locale.ROOT, "%02X", sum);
    }

    static int of(byte[] octets, int from, int to) {
        int sum = 0;
        for (int i = from; i < to; i++) {
            sum ^= octets[i];
        }
        return sum & 0xFF;
    }

    /** The checksum written at {@code from}, in either case; -1 if two hexadecimal digits do not stand there. */
    static int written(byte[] octets, int from, int to) {
        if (from + 2 > to) {
            return -1;
        }
        int high = hexadecimal(octets[from]);
        int low = hexadecimal(octets[from + 1]);
        return high < 0 || low < 0 ? -1 : high * 16 + low;
    }

    private static int hexadecimal(byte octet) {
        return octet >= 0 ? Character.digit(octet, 16) : -1;
    }
}
