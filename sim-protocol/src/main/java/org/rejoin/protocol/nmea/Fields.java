package org.rejoin.protocol.nmea;

import org.rejoin.protocol.PlainDecimal;
import org.rejoin.protocol.PlainText;

/** Fields of NMEA 0183 that are more than a number. An empty field means not available; it is never zero. */
final class Fields {

    private static final int MOST_DEGREE_DIGITS = 9;

    private Fields() {}

    /** Milliseconds of the UTC day from hhmmss.sss; -1 if the field is no time of day. */
    static long utcMillis(Sentence sentence, int number) {
        if (sentence.isEmpty(number)) {
            return -1;
        }
        byte[] octets = sentence.octets();
        int from = sentence.from(number);
        int to = sentence.to(number);
        if (point(octets, from, to) - from != 6) {
            return -1;
        }
        int hours = digits(octets, from, from + 2);
        int minutes = digits(octets, from + 2, from + 4);
        double seconds = PlainDecimal.unsigned(octets, from + 4, to);
        if (hours < 0 || hours > 23 || minutes < 0 || minutes > 59 || !(seconds < 61)) {
            return -1;
        }
        return Math.round((hours * 3600 + minutes * 60 + seconds) * 1000);
    }

    /** Degrees from ddmm.mmmm and, in the next field, N or S; NaN if both fields are empty. */
    static double latitude(Sentence sentence, int number) throws Sentence.Fault {
        return coordinate("latitude", sentence, number, 'N', 'S', 3, 90);
    }

    /** Degrees from dddmm.mmmm and, in the next field, E or W; NaN if both fields are empty. */
    static double longitude(Sentence sentence, int number) throws Sentence.Fault {
        return coordinate("longitude", sentence, number, 'E', 'W', 4, 180);
    }

    private static double coordinate(
            String what, Sentence sentence, int number, char positive, char negative, int leastDigits, double largest)
            throws Sentence.Fault {
        boolean empty = sentence.isEmpty(number);
        if (empty && sentence.isEmpty(number + 1)) {
            return Double.NaN;
        }
        byte[] octets = sentence.octets();
        int from = empty ? 0 : sentence.from(number);
        int to = empty ? 0 : sentence.to(number);
        int digits = point(octets, from, to) - from;
        int ofDegrees = Math.max(0, digits - 2);
        int wholeDegrees = digits(octets, from, from + ofDegrees);
        double minutes = PlainDecimal.unsigned(octets, from + ofDegrees, to);
        if (digits > MOST_DEGREE_DIGITS || wholeDegrees < 0 || Double.isNaN(minutes)) {
            throw new Sentence.Fault(what + " " + shown(sentence, number), "degrees and minutes");
        }
        char hemisphere = sentence.letter(number + 1);
        if (hemisphere != positive && hemisphere != negative) {
            throw new Sentence.Fault(
                    what + " hemisphere " + shown(sentence, number + 1),
                    positive + " or " + negative
                            + (sentence.field(number + 1).matches("[0-9]+")
                                    ? "; is the sender writing a decimal comma?"
                                    : ""));
        }
        if (digits < leastDigits) {
            throw new Sentence.Fault(
                    what + " " + shown(sentence, number),
                    "degrees and two digits of minutes; this looks like decimal degrees");
        }
        if (minutes >= 60) {
            throw new Sentence.Fault(what + " minutes out of range: " + shown(sentence, number), "minutes below 60");
        }
        double degrees = wholeDegrees + minutes / 60;
        if (degrees > largest) {
            throw new Sentence.Fault(
                    what + " out of range: " + shown(sentence, number), "at most " + (int) largest + " degrees");
        }
        return hemisphere == positive ? degrees : -degrees;
    }

    /** East positive degrees from a magnitude and, in the next field, E or W; NaN if either is missing. */
    static double eastPositive(Sentence sentence, int number) {
        double magnitude = sentence.number(number, 0, 180);
        char letter = sentence.letter(number + 1);
        return letter == 'E' ? magnitude : letter == 'W' ? -magnitude : Double.NaN;
    }

    private static String shown(Sentence sentence, int number) {
        return PlainText.of(sentence.field(number), 20);
    }

    /** Where the decimal point stands; the end if there is none. */
    private static int point(byte[] octets, int from, int to) {
        int at = from;
        while (at < to && octets[at] != '.') {
            at++;
        }
        return at;
    }

    /** A whole number of few octets; -1 if one of them is no digit. */
    private static int digits(byte[] octets, int from, int to) {
        int value = 0;
        for (int i = from; i < to; i++) {
            int digit = octets[i] - '0';
            if (digit < 0 || digit > 9) {
                return -1;
            }
            value = value * 10 + digit;
        }
        return value;
    }
}
