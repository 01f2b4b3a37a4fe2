package org.rejoin.protocol.nmea;

import java.util.Map;

import org.rejoin.protocol.Units;

/** What each sentence adds to an epoch; NMEA 0183 version 4, field numbers from 1. */
final class SentenceReader {

    /** Fields of a whole sentence; one without a checksum must have them all, lest a cut passes for it. */
    private static final Map<String, Integer> FULL =
            Map.of("RMC", 11, "GGA", 14, "GLL", 6, "VTG", 8, "HDT", 2, "HDM", 2, "THS", 2, "HDG", 5, "XDR", 4);

    private static final String MODES_WITH_POSITION = "ADEFMPRS";

    private SentenceReader() {}

    static boolean knows(String formatter) {
        return FULL.containsKey(formatter);
    }

    static boolean isWhole(Sentence sentence) {
        int fields = sentence.fields().size();
        boolean whole = fields >= FULL.getOrDefault(sentence.formatter(), 1);
        return sentence.formatter().equals("XDR") ? whole && fields % 4 == 0 : whole;
    }

    /** Which field holds the UTC; 0 for a sentence that has none. */
    static int utcField(String formatter) {
        return switch (formatter) {
            case "RMC", "GGA" -> 1;
            case "GLL" -> 5;
            default -> 0;
        };
    }

    /** Two sentences of one key cannot belong to one epoch. */
    static String key(Sentence sentence) {
        if (!sentence.formatter().equals("XDR")) {
            return sentence.address();
        }
        StringBuilder key = new StringBuilder(sentence.address());
        for (int name = 4; name <= sentence.fields().size(); name += 4) {
            key.append(':').append(sentence.field(name));
        }
        return key.toString();
    }

    /** Checks coordinates without using them, so that a spoilt sentence opens no epoch. */
    static void check(Sentence sentence) throws FieldFault {
        int at = coordinateField(sentence.formatter());
        if (at > 0) {
            Fields.latitude(sentence.field(at), sentence.field(at + 1));
            Fields.longitude(sentence.field(at + 2), sentence.field(at + 3));
        }
    }

    private static int coordinateField(String formatter) {
        return switch (formatter) {
            case "RMC" -> 3;
            case "GGA" -> 2;
            case "GLL" -> 1;
            default -> 0;
        };
    }

    /** Adds the sentence to the epoch; false if it says that it has nothing to say. */
    static boolean read(Sentence sentence, Epoch epoch) throws FieldFault {
        return switch (sentence.formatter()) {
            case "RMC" -> rmc(sentence, epoch);
            case "GGA" -> gga(sentence, epoch);
            case "GLL" -> gll(sentence, epoch);
            case "VTG" -> vtg(sentence, epoch);
            case "HDT" -> hdt(sentence, epoch);
            case "THS" -> !sentence.field(2).equals("V") && hdt(sentence, epoch);
            case "HDM" -> hdm(sentence, epoch);
            case "HDG" -> hdg(sentence, epoch);
            case "XDR" -> xdr(sentence, epoch);
            default -> false;
        };
    }

    // A simulator that keeps to the standard sends status V with mode S: the mode decides where there is one. Field
    // 13, the navigational status, is V with most perfect fixes and is not looked at.
    private static boolean usable(String status, String mode) {
        if (mode.equals("N")) {
            return false;
        }
        return status.equals("A") || (mode.length() == 1 && MODES_WITH_POSITION.contains(mode));
    }

    private static boolean position(Sentence sentence, Epoch epoch, Epoch.PositionSource source) throws FieldFault {
        int at = coordinateField(sentence.formatter());
        double latitude = Fields.latitude(sentence.field(at), sentence.field(at + 1));
        double longitude = Fields.longitude(sentence.field(at + 2), sentence.field(at + 3));
        if (Double.isNaN(latitude) || Double.isNaN(longitude)) {
            return false;
        }
        epoch.position(source, latitude, longitude);
        return true;
    }

    private static boolean rmc(Sentence sentence, Epoch epoch) throws FieldFault {
        if (!usable(sentence.field(2), sentence.field(12)) || !position(sentence, epoch, Epoch.PositionSource.RMC)) {
            return false;
        }
        epoch.motion(Fields.number(sentence.field(7), 0, Double.MAX_VALUE), Fields.number(sentence.field(8), 0, 360));
        epoch.variation(Fields.eastPositive(sentence.field(10), sentence.field(11)));
        return true;
    }

    private static boolean gga(Sentence sentence, Epoch epoch) throws FieldFault {
        double quality = Fields.number(sentence.field(6), 1, 8);
        if (Double.isNaN(quality) || !position(sentence, epoch, Epoch.PositionSource.GGA)) {
            return false;
        }
        if (sentence.field(10).equals("M")) {
            epoch.altitudeFt(sentence.number(9) / Units.M_PER_FT);
        }
        return true;
    }

    private static boolean gll(Sentence sentence, Epoch epoch) throws FieldFault {
        return usable(sentence.field(6), sentence.field(7)) && position(sentence, epoch, Epoch.PositionSource.GLL);
    }

    // The very old form had four bare values and no letters.
    private static boolean vtg(Sentence sentence, Epoch epoch) {
        if (!sentence.field(2).equals("T") || sentence.field(9).equals("N")) {
            return false;
        }
        epoch.motion(Fields.number(sentence.field(5), 0, Double.MAX_VALUE), Fields.number(sentence.field(1), 0, 360));
        return true;
    }

    private static boolean hdt(Sentence sentence, Epoch epoch) {
        epoch.headingTrue(Fields.number(sentence.field(1), 0, 360));
        return true;
    }

    private static boolean hdm(Sentence sentence, Epoch epoch) {
        epoch.headingMagnetic(Fields.number(sentence.field(1), 0, 360));
        return true;
    }

    private static boolean hdg(Sentence sentence, Epoch epoch) {
        double deviation = Fields.eastPositive(sentence.field(2), sentence.field(3));
        epoch.headingMagnetic(Fields.number(sentence.field(1), 0, 360) + (Double.isNaN(deviation) ? 0 : deviation));
        epoch.variation(Fields.eastPositive(sentence.field(4), sentence.field(5)));
        return true;
    }

    private static boolean xdr(Sentence sentence, Epoch epoch) {
        boolean any = false;
        for (int type = 1; type + 3 <= sentence.fields().size(); type += 4) {
            if (sentence.field(type).equals("A") && sentence.field(type + 2).equals("D")) {
                switch (sentence.field(type + 3)) {
                    case "PTCH", "PITCH" -> epoch.pitch(sentence.number(type + 1));
                    case "ROLL" -> epoch.roll(sentence.number(type + 1));
                    default -> {
                        continue;
                    }
                }
                any = true;
            }
        }
        return any;
    }
}
