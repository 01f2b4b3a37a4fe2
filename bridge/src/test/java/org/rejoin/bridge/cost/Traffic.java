package org.rejoin.bridge.cost;

import java.nio.ByteBuffer;
import java.util.OptionalDouble;

import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.dis.DisFormat;

/** Datagrams of many aircraft, each flying its own straight line over open ocean, as Entity State PDUs. */
final class Traffic {

    private static final int ENTITY_OFFSET = 16;
    private static final OptionalDouble NONE = OptionalDouble.empty();

    private final WireFormat.Encoder encoder = new DisFormat().newEncoder();

    /** The datagram of one aircraft at one time. */
    byte[] at(int aircraft, double timeS) {
        double track = 80 + aircraft % 40;
        Position start = new Position(30.02 + 0.0005 * (aircraft % 100), -44.98);
        Position here = timeS <= 0 ? start : start.destination(new TrueDirection(track), 120 * timeS / 3600);
        AircraftState state = new AircraftState(
                timeS,
                here.latitudeDeg(),
                here.longitudeDeg(),
                OptionalDouble.of(6000),
                OptionalDouble.of(track),
                NONE,
                OptionalDouble.of(track),
                OptionalDouble.of(120),
                OptionalDouble.of(0),
                OptionalDouble.of(0),
                OptionalDouble.of(0),
                NONE,
                false);
        byte[] octets = encoder.encode(state).get(0);
        ByteBuffer.wrap(octets).putShort(ENTITY_OFFSET, (short) (aircraft + 1));
        return octets;
    }
}
