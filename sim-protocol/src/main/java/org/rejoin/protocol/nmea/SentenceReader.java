package org.rejoin.protocol.nmea;

import org.rejoin.protocol.Decoded.Malformed;
import org.rejoin.protocol.PlainText;
import org.rejoin.protocol.StateRange;
import org.rejoin.protocol.Units;

import org.jspecify.annotations.Nullable;

/** What each sentence adds to an epoch; NMEA 0183 version 4, field numbers from 1. */
final class SentenceReader {

    private static final String MODES_WITH_POSITION = "ADEFMPRS";

    private static final String TURN = "0 to 360 degrees";

    private @Nullable Malformed slip;
    private double latitudeDeg = Double.NaN;
    private double longitudeDeg = Double.NaN;

    static boolean knows(int formatter) {
        return fullFields(formatter) > 0;
    }

    /** Fields of a whole sentence; one without a checksum must have them all, lest a cut passes for it. */
    private static int fullFields(int formatter) {
        return switch (formatter) {
            case Sentence.RMC -> 11;
            case Sentence.GGA -> 14;
            case Sentence.GLL -> 6;
            case Sentence.VTG -> 8;
            case Sentence.HDG -> 5;
            case Sentence.XDR -> 4;
            case Sentence.HDT, Sentence.HDM, Sentence.THS -> 2;
            default -> 0;
        };
    }

    static boolean isWhole(Sentence sentence) {
        int fields = sentence.fields();
        boolean whole = fields >= fullFields(sentence.formatter());
        return sentence.formatter() == Sentence.XDR ? whole && fields % 4 == 0 : whole;
    }

    /** Which field holds the UTC; 0 for a sentence that has none. */
    static int utcField(int formatter) {
        return switch (formatter) {
            case Sentence.RMC, Sentence.GGA -> 1;
            case Sentence.GLL -> 5;
            default -> 0;
        };
    }

    private static int coordinateField(int formatter) {
        return switch (formatter) {
            case Sentence.RMC -> 3;
            case Sentence.GGA -> 2;
            case Sentence.GLL -> 1;
            default -> 0;
        };
    }

    /**
     * {@return the first field of the sentence read last that was sent and is no value of its kind, the rest being good; null
     * where there was none}
     */
    @Nullable
    Malformed slip() {
        return slip;
    }

    /** A field that may be empty, and otherwise must be a number within bounds; NaN where it is not. */
    private double number(Sentence sentence, int field, double low, double high, String what, String expected) {
        double value = sentence.number(field, low, high);
        if (Double.isNaN(value) && !sentence.isEmpty(field) && slip == null) {
            slip = new Malformed(
                    sentence.offset(),
                    sentence.formatterText() + " " + what + " \"" + PlainText.of(sentence.field(field), 16) + '"',
                    expected);
        }
        return value;
    }

    /** Reads the coordinates, if it has any, before anything else, so that a spoilt sentence opens no epoch. */
    void coordinates(Sentence sentence) throws Sentence.Fault {
        slip = null;
        int at = coordinateField(sentence.formatter());
        latitudeDeg = at > 0 ? Fields.latitude(sentence, at) : Double.NaN;
        longitudeDeg = at > 0 ? Fields.longitude(sentence, at + 2) : Double.NaN;
    }

    /** Adds a sentence, whose {@link #coordinates} were read, to the epoch; false if it says that it has nothing to say. */
    boolean read(Sentence sentence, Epoch epoch) {
        slip = null;
        return switch (sentence.formatter()) {
            case Sentence.RMC -> rmc(sentence, epoch);
            case Sentence.GGA -> gga(sentence, epoch);
            case Sentence.GLL -> gll(sentence, epoch);
            case Sentence.VTG -> vtg(sentence, epoch);
            case Sentence.HDT -> hdt(sentence, epoch);
            case Sentence.THS -> sentence.letter(2) != 'V' && hdt(sentence, epoch);
            case Sentence.HDM -> hdm(sentence, epoch);
            case Sentence.HDG -> hdg(sentence, epoch);
            case Sentence.XDR -> xdr(sentence, epoch);
            default -> false;
        };
    }

    // A simulator that keeps to the standard sends status V with mode S: the mode decides where there is one. Field
    // 13, the navigational status, is V with most perfect fixes and is not looked at.
    private static boolean usable(char status, char mode) {
        return mode != 'N' && (status == 'A' || MODES_WITH_POSITION.indexOf(mode) >= 0);
    }

    private boolean position(Epoch epoch, Epoch.PositionSource source) {
        if (Double.isNaN(latitudeDeg) || Double.isNaN(longitudeDeg)) {
            return false;
        }
        epoch.position(source, latitudeDeg, longitudeDeg);
        return true;
    }

    private boolean rmc(Sentence sentence, Epoch epoch) {
        if (!usable(sentence.letter(2), sentence.letter(12)) || !position(epoch, Epoch.PositionSource.RMC)) {
            return false;
        }
        epoch.motion(knots(sentence, 7), number(sentence, 8, 0, 360, "track", TURN));
        epoch.variation(Fields.eastPositive(sentence, 10));
        return true;
    }

    private boolean gga(Sentence sentence, Epoch epoch) {
        double quality = sentence.number(6, 1, 8);
        if (Double.isNaN(quality) || !position(epoch, Epoch.PositionSource.GGA)) {
            return false;
        }
        if (sentence.letter(10) == 'M') {
            double metres =
                    number(sentence, 9, -Double.MAX_VALUE, Double.MAX_VALUE, "altitude", "metres above mean sea level");
            epoch.state().set(StateRange.ALTITUDE_MSL_FT, metres / Units.M_PER_FT);
        }
        return true;
    }

    private boolean gll(Sentence sentence, Epoch epoch) {
        return usable(sentence.letter(6), sentence.letter(7)) && position(epoch, Epoch.PositionSource.GLL);
    }

    // The very old form had four bare values and no letters.
    private boolean vtg(Sentence sentence, Epoch epoch) {
        if (sentence.letter(2) != 'T' || sentence.letter(9) == 'N') {
            return false;
        }
        epoch.motion(knots(sentence, 5), number(sentence, 1, 0, 360, "track", TURN));
        return true;
    }

    private double knots(Sentence sentence, int field) {
        return number(sentence, field, 0, Double.MAX_VALUE, "ground speed", "knots, 0 or more");
    }

    private double heading(Sentence sentence) {
        return number(sentence, 1, 0, 360, "heading", TURN);
    }

    private boolean hdt(Sentence sentence, Epoch epoch) {
        epoch.state().set(StateRange.HEADING_TRUE_DEG, heading(sentence));
        return true;
    }

    private boolean hdm(Sentence sentence, Epoch epoch) {
        epoch.state().set(StateRange.HEADING_MAGNETIC_DEG, heading(sentence));
        return true;
    }

    private boolean hdg(Sentence sentence, Epoch epoch) {
        double deviation = Fields.eastPositive(sentence, 2);
        epoch.state()
                .set(StateRange.HEADING_MAGNETIC_DEG, heading(sentence) + (Double.isNaN(deviation) ? 0 : deviation));
        epoch.variation(Fields.eastPositive(sentence, 4));
        return true;
    }

    private static boolean xdr(Sentence sentence, Epoch epoch) {
        boolean any = false;
        for (int type = 1; type + 3 <= sentence.fields(); type += 4) {
            if (sentence.letter(type) == 'A' && sentence.letter(type + 2) == 'D') {
                if (sentence.is(type + 3, "PTCH") || sentence.is(type + 3, "PITCH")) {
                    epoch.state().set(StateRange.PITCH_DEG, sentence.number(type + 1));
                    any = true;
                } else if (sentence.is(type + 3, "ROLL")) {
                    epoch.state().set(StateRange.ROLL_DEG, sentence.number(type + 1));
                    any = true;
                }
            }
        }
        return any;
    }
}
