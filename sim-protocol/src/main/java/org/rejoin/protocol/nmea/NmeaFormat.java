package org.rejoin.protocol.nmea;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Units;
import org.rejoin.protocol.WireFormat;

/**
 * NMEA 0183, versions 2.0 to 4.x. Sentences of one UTC make one state; it is given out when the next UTC arrives or
 * 80 ms after its last sentence. NMEA has no indicated airspeed, no vertical speed and no pause.
 */
public final class NmeaFormat implements WireFormat {

    @Override
    public String name() {
        return "nmea";
    }

    @Override
    public boolean recognises(Datagram datagram) {
        ByteBuffer octets = datagram.payload();
        if (Framing.headerLength(octets) > 0 || Framing.isImageTransfer(octets)) {
            return true;
        }
        byte first = datagram.firstVisible(0);
        return first == '$' || first == '!' || first == '\\';
    }

    @Override
    public boolean tellsUtc() {
        return true; // hhmmss.ss of GGA, RMC and GLL
    }

    @Override
    public Decoder newDecoder() {
        return new NmeaDecoder();
    }

    @Override
    public Encoder newEncoder() {
        return new Writer();
    }

    /**
     * Sends a state as one datagram of sentences: RMC and GGA in simulator mode, then heading and attitude where they are
     * known. UTC is {@code timeS} modulo a day; the date, which nothing here depends on, is left empty.
     */
    private static final class Writer implements Encoder {

        private static final long DAY_MILLIS = 86_400_000;

        /** Five decimals of a minute, 2 cm. */
        private static final long UNITS_PER_MINUTE = 100_000;

        @Override
        public List<byte[]> encode(AircraftState state) {
            String utc = utc(state.timeS());
            String position = coordinate(state.latitudeDeg(), 2)
                    + (state.latitudeDeg() < 0 ? ",S," : ",N,")
                    + coordinate(state.longitudeDeg(), 3)
                    + (state.longitudeDeg() < 0 ? ",W" : ",E");
            OptionalDouble variation = state.variationDeg();
            StringBuilder out = new StringBuilder(320);
            sentence(
                    out,
                    "GPRMC," + utc + ",A," + position + "," + optional(state.groundSpeedKt()) + ","
                            + direction(state.trackTrueDeg()) + ",," + eastOrWest(variation) + ",S");
            OptionalDouble altitude = state.altitudeMslFt();
            String metres = altitude.isPresent() ? fixed(altitude.getAsDouble() * Units.M_PER_FT) : "";
            sentence(out, "GPGGA," + utc + "," + position + ",8,10,0.9," + metres + ",M,,M,,");
            if (state.headingTrueDeg().isPresent()) {
                sentence(out, "HEHDT," + direction(state.headingTrueDeg()) + ",T");
            }
            if (state.headingMagneticDeg().isPresent()) {
                sentence(out, "HCHDG," + direction(state.headingMagneticDeg()) + ",,," + eastOrWest(variation));
            }
            String attitude = angle(state.pitchDeg(), "PTCH") + angle(state.rollDeg(), "ROLL");
            if (!attitude.isEmpty()) {
                sentence(out, "YXXDR" + attitude);
            }
            return List.of(out.toString().getBytes(StandardCharsets.US_ASCII));
        }

        private static void sentence(StringBuilder out, String body) {
            out.append('$').append(body).append('*').append(Checksum.text(body)).append("\r\n");
        }

        private static String utc(double timeS) {
            // In whole milliseconds, so that 59.9999 s becomes the next minute and not 60.000.
            long millis = Math.floorMod(Math.round(timeS * 1000), DAY_MILLIS);
            return String.format(
                    Locale.ROOT,
                    "%02d%02d%02d.%03d",
                    millis / 3_600_000,
                    millis / 60_000 % 60,
                    millis / 1000 % 60,
                    millis % 1000);
        }

        private static String coordinate(double degrees, int digits) {
            long units = Math.round(Math.abs(degrees) * 60 * UNITS_PER_MINUTE);
            long minutes = units / UNITS_PER_MINUTE;
            return String.format(
                    Locale.ROOT, "%0" + digits + "d%02d.%05d", minutes / 60, minutes % 60, units % UNITS_PER_MINUTE);
        }

        private static String eastOrWest(OptionalDouble variation) {
            if (variation.isEmpty()) {
                return ",";
            }
            double east = variation.getAsDouble();
            return fixed(Math.abs(east)) + (east < 0 ? ",W" : ",E");
        }

        private static String angle(OptionalDouble degrees, String name) {
            return degrees.isEmpty() ? "" : ",A," + fixed(degrees.getAsDouble()) + ",D," + name;
        }

        private static String direction(OptionalDouble degrees) {
            if (degrees.isEmpty()) {
                return "";
            }
            String text = fixed(degrees.getAsDouble());
            return text.equals("360.00") ? "0.00" : text;
        }

        private static String optional(OptionalDouble value) {
            return value.isEmpty() ? "" : fixed(value.getAsDouble());
        }

        private static String fixed(double value) {
            String text = String.format(Locale.ROOT, "%.2f", value);
            return text.equals("-0.00") ? "0.00" : text;
        }
    }
}
