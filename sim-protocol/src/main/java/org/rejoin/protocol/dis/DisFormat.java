package org.rejoin.protocol.dis;

import java.nio.ByteBuffer;

import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.WireFormat;

/**
 * DIS, IEEE 1278.1-1995, 1278.1a-1998 and 1278.1-2012.
 *
 * <p>A DIS location is a height above the ellipsoid by the standard, but most home simulators know no geoid and put
 * altitude above mean sea level there. So by default the height is taken as altitude above mean sea level; for a sender
 * that keeps to the standard, give the geoid's height at the place of the exercise.
 *
 * @param geoidHeightM height of mean sea level above the ellipsoid, metres, subtracted when decoding and added when
 *     encoding; 0 takes heights as altitudes; [-110, 90]
 */
public record DisFormat(double geoidHeightM) implements WireFormat {

    /**
     * Checks the geoid height.
     *
     * @throws IllegalArgumentException if it is not in [-110, 90], which no geoid leaves
     */
    public DisFormat {
        if (!(geoidHeightM >= -110 && geoidHeightM <= 90)) {
            throw new IllegalArgumentException("geoidHeightM " + geoidHeightM + " is not in [-110, 90]");
        }
    }

    /** The usual case: heights on the wire are altitudes above mean sea level. */
    public DisFormat() {
        this(0);
    }

    @Override
    public String name() {
        return "dis";
    }

    @Override
    public boolean recognises(Datagram datagram) {
        ByteBuffer octets = datagram.payload();
        if (!PduHeader.isGood(octets, 0) || PduHeader.type(octets, 0) == 0 || PduHeader.family(octets, 0) == 0) {
            return false;
        }
        int records = PduHeader.length(octets, 0) - EntityState.FIXED_LENGTH;
        return PduHeader.type(octets, 0) != PduType.ENTITY_STATE
                || (records >= 0 && records % EntityState.RECORD_LENGTH == 0);
    }

    @Override
    public Decoder newDecoder() {
        return new DisDecoder(geoidHeightM);
    }

    @Override
    public Encoder newEncoder() {
        return new DisEncoder(geoidHeightM);
    }
}
