package org.rejoin.protocol.nmea;

import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import java.util.Locale;

/** Exclusive or of characters, as two hexadecimal digits. */
final class Checksum {

    private Checksum() {}

    /** The checksum of a sentence's body, as it is written. */
    static String text(String body) {
        byte[] octets = body.getBytes(StandardCharsets.ISO_8859_1);
        return text(of(octets, 0, octets.length));
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
        return from + 2 <= to && HexFormat.isHexDigit(octets[from]) && HexFormat.isHexDigit(octets[from + 1])
                ? HexFormat.fromHexDigit(octets[from]) * 16 + HexFormat.fromHexDigit(octets[from + 1])
                : -1;
    }
}
