package org.rejoin.protocol.nmea;

import java.nio.ByteBuffer;

import org.rejoin.protocol.Datagram;
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
        for (int i = 0; i < octets.capacity(); i++) {
            char c = (char) (octets.get(i) & 0xFF);
            if (c != ' ' && c != '\t' && c != '\r' && c != '\n') {
                return c == '$' || c == '!' || c == '\\';
            }
        }
        return false;
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
        return new NmeaEncoder();
    }
}
