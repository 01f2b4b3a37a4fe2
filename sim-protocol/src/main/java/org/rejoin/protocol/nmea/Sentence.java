package org.rejoin.protocol.nmea;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;

import org.rejoin.protocol.PlainDecimal;
import org.rejoin.protocol.PlainText;

/**
 * One sentence, read where its octets stand: a single pass finds its commas, its end and its checksum. Used again for each
 * sentence.
 */
final class Sentence {

    static final int RMC = 'R' << 16 | 'M' << 8 | 'C';
    static final int GGA = 'G' << 16 | 'G' << 8 | 'A';
    static final int GLL = 'G' << 16 | 'L' << 8 | 'L';
    static final int VTG = 'V' << 16 | 'T' << 8 | 'G';
    static final int HDT = 'H' << 16 | 'D' << 8 | 'T';
    static final int HDM = 'H' << 16 | 'D' << 8 | 'M';
    static final int HDG = 'H' << 16 | 'D' << 8 | 'G';
    static final int THS = 'T' << 16 | 'H' << 8 | 'S';
    static final int XDR = 'X' << 16 | 'D' << 8 | 'R';
    static final int DTM = 'D' << 16 | 'T' << 8 | 'M';

    /** Nominally 82 characters; real senders exceed it. */
    static final int LONGEST = 512;

    private static final int ADDRESS_LENGTH = 5;
    private static final int LEAST_PROPRIETARY = 4;
    private static final int LAST_THREE = 0xFF_FFFF;
    private static final int NONE = -1;

    private final int[] commas = new int[LONGEST + 1];
    private byte[] octets = new byte[0];
    private int start;
    private int stop;
    private int end;
    private int star;
    /** Of what stands before the star, if there is one. */
    private int sum;

    /** Whether there are any, so that fields need be trimmed. */
    private boolean blanks;

    private int fields;

    /** Its octets in a row, the last in the lowest bits. */
    private long address;

    private int offset;
    private boolean terminated;

    /**
     * Goes to a sentence from its start character on, and says where it stops: at a line end, the next start character,
     * or the limit.
     */
    int scan(byte[] text, int from, int limit) {
        octets = text;
        start = from;
        star = NONE;
        blanks = false;
        int found = 0;
        int xor = 0;
        int at = from + 1;
        for (; at < limit; at++) {
            byte octet = text[at];
            byte kind = Octets.kind(octet);
            if (kind > Octets.COMMA) {
                if (kind >= Octets.LINE_END) {
                    break;
                }
                blanks |= kind == Octets.BLANK;
                if (star == NONE && kind == Octets.STAR) {
                    star = at;
                    sum = xor & 0xFF;
                    fields = found;
                }
            }
            xor ^= octet;
            // Stays only if it is a comma: a branch at each would be guessed wrong at each.
            commas[found] = at;
            found += kind == Octets.COMMA && found < LONGEST ? 1 : 0;
        }
        if (star == NONE) {
            fields = found;
        }
        stop = at;
        end = blanks ? Octets.trimmedEnd(text, from, at) : at;
        address = bits(0, 0);
        return at;
    }

    /** Says where in the datagram it began, and whether a line end followed. */
    void place(int offsetInDatagram, boolean endOfLine) {
        offset = offsetInDatagram;
        terminated = endOfLine;
    }

    /** Octet of the datagram; 0 if it began in the one before. */
    int offset() {
        return offset;
    }

    /** Whether nothing is missing at its end, if nothing more comes. */
    boolean isComplete() {
        return star != NONE && star + 2 < stop;
    }

    boolean isEncapsulation() {
        return octets[start] == '!';
    }

    /** Checks length, checksum and address. */
    void check() throws Fault {
        if (end - start > LONGEST) {
            throw new Fault("a sentence of " + (end - start) + " characters", "at most " + LONGEST);
        }
        if (star != NONE) {
            if (Checksum.written(octets, star + 1, end) != sum) {
                throw new Fault("checksum " + PlainText.of(text(star, end), 8), "checksum *" + Checksum.text(sum));
            }
        } else if (!terminated) {
            throw new Fault("a sentence cut short: " + PlainText.of(text(start, end), 40), "a checksum or a line end");
        }
        if (fields == 0 || !hasAddress()) {
            throw new Fault("not a sentence: " + PlainText.of(text(start, end), 40), "an address and fields");
        }
    }

    private boolean hasAddress() {
        int from = from(0);
        int to = to(0);
        if (to - from != ADDRESS_LENGTH && !(to - from >= LEAST_PROPRIETARY && octets[from] == 'P')) {
            return false;
        }
        for (int i = from; i < to; i++) {
            if (!((octets[i] >= 'A' && octets[i] <= 'Z') || (octets[i] >= '0' && octets[i] <= '9'))) {
                return false;
            }
        }
        return true;
    }

    /** Whether a checksum was sent; {@link #check} says whether it is right. */
    boolean checked() {
        return star != NONE;
    }

    boolean proprietary() {
        return octets[from(0)] == 'P';
    }

    /** What kind of sentence, whoever sent it: one of the constants, or another; 0 for a proprietary one. */
    int formatter() {
        return proprietary() ? 0 : (int) address & LAST_THREE;
    }

    String formatterText() {
        return text(from(0) + 2, to(0));
    }

    /** Two sentences of one key cannot belong to one epoch: talker and formatter, for XDR with the names in it. */
    long key() {
        long key = address;
        if (formatter() == XDR) {
            for (int name = 4; name <= fields; name += 4) {
                key = bits(name, key * 31);
            }
        }
        return key;
    }

    private long bits(int number, long before) {
        long bits = before;
        for (int i = from(number); i < to(number); i++) {
            bits = bits << 8 ^ bits >>> 56 ^ octets[i];
        }
        return bits;
    }

    /** Number of fields behind the address. */
    int fields() {
        return fields;
    }

    /** A field by its number in the standard, from 1; empty if it was not sent. */
    String field(int number) {
        return number <= fields ? text(from(number), to(number)) : "";
    }

    boolean isEmpty(int number) {
        return number > fields || from(number) >= to(number);
    }

    /** The only character of a field; 0 if it has none or more. */
    char letter(int number) {
        return number <= fields && to(number) - from(number) == 1 ? (char) (octets[from(number)] & 0xFF) : 0;
    }

    boolean is(int number, String text) {
        if (number > fields || to(number) - from(number) != text.length()) {
            return false;
        }
        for (int i = 0; i < text.length(); i++) {
            if (octets[from(number) + i] != text.charAt(i)) {
                return false;
            }
        }
        return true;
    }

    /** A field that must be one number; NaN if it is empty or not. */
    double number(int number) {
        return number <= fields ? PlainDecimal.value(octets, from(number), to(number)) : Double.NaN;
    }

    /** A number within bounds, or NaN. */
    double number(int number, double low, double high) {
        double value = number(number);
        return value >= low && value <= high ? value : Double.NaN;
    }

    byte[] octets() {
        return octets;
    }

    /** First octet of a field that was sent, blanks left out; the address is number 0. */
    int from(int number) {
        int at = number == 0 ? start + 1 : commas[number - 1] + 1;
        if (blanks) {
            int fieldEnd = fieldEnd(number);
            while (at < fieldEnd && Octets.kind(octets[at]) == Octets.BLANK) {
                at++;
            }
        }
        return at;
    }

    /** Octet behind the last of a field that was sent, blanks left out. */
    int to(int number) {
        int fieldEnd = fieldEnd(number);
        return blanks ? Octets.trimmedEnd(octets, number == 0 ? start : commas[number - 1], fieldEnd) : fieldEnd;
    }

    private int fieldEnd(int number) {
        return number < fields ? commas[number] : bodyEnd();
    }

    private int bodyEnd() {
        return star != NONE ? star : end;
    }

    /** Copies it, from its start character to its end, and says how many octets that are. */
    int copyTo(byte[] other) {
        int length = end - start;
        System.arraycopy(octets, start, other, 0, length);
        return length;
    }

    /** Whether these octets are a {@link #copyTo copy} of it. */
    boolean isCopiedAt(byte[] other, int length) {
        return Arrays.equals(octets, start, end, other, 0, length);
    }

    private String text(int from, int to) {
        return new String(octets, from, Math.max(0, to - from), StandardCharsets.ISO_8859_1);
    }

    /** A field that spoils its whole sentence. Never leaves this package. */
    static final class Fault extends Exception {

        private final String found;
        private final String expected;

        Fault(String found, String expected) {
            super(found, null, false, false);
            this.found = found;
            this.expected = expected;
        }

        String found() {
            return found;
        }

        String expected() {
            return expected;
        }
    }
}
