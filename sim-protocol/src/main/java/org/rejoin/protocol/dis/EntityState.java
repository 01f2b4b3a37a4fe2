package org.rejoin.protocol.dis;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.OptionalInt;

import org.rejoin.protocol.PlainText;
import org.rejoin.protocol.earth.BodyAxes;
import org.rejoin.protocol.earth.Vector3;

/**
 * What is read from an Entity State PDU (IEEE 1278.1-2012, 7.2.2) or an Entity State Update PDU (7.2.6).
 *
 * @param id who
 * @param velocity m/s, in axes that the dead-reckoning algorithm decides; not checked
 * @param location earth-centred, metres; not checked
 * @param orientation from the earth-centred frame to the body, radians; not checked
 * @param acceleration m/s^2, in the same axes as the velocity; zeros in an update; not checked
 * @param turning rad/s about the body's axes; zeros in an update; not checked
 * @param appearance bits of an air platform
 * @param algorithm of dead reckoning; empty in an update
 * @param aircraft whether the entity type can be an aircraft; true in an update, which does not say
 * @param marking as sent; empty text in an update
 */
record EntityState(
        EntityId id,
        Vector3 velocity,
        Vector3 location,
        BodyAxes.Euler orientation,
        Vector3 acceleration,
        Vector3 turning,
        int appearance,
        OptionalInt algorithm,
        boolean aircraft,
        String marking) {

    /** Octets of an Entity State before its parameter records. */
    static final int FIXED_LENGTH = 144;

    /** Octets of an Entity State Update before its parameter records. */
    static final int UPDATE_FIXED_LENGTH = 72;

    /** Octets of a parameter record, whatever its type. */
    static final int RECORD_LENGTH = 16;

    static final int FROZEN = 1 << 21;
    static final int POWER_PLANT_ON = 1 << 22;
    static final int DEACTIVATED = 1 << 23;

    static final int KIND_PLATFORM = 1;
    static final int DOMAIN_AIR = 2;
    static final int MARKING_LENGTH = 11;

    private static final int UNSPECIFIED = 0;
    private static final Vector3 NOTHING = new Vector3(0, 0, 0);

    /** Reads an Entity State of at least {@link #FIXED_LENGTH} octets. */
    static EntityState full(ByteBuffer octets, int offset) {
        int kind = octets.get(offset + 20) & 0xFF;
        int domain = octets.get(offset + 21) & 0xFF;
        // Some simulators leave the type at zeros; what says that it is something else is something else.
        boolean aircraft =
                (kind == KIND_PLATFORM || kind == UNSPECIFIED) && (domain == DOMAIN_AIR || domain == UNSPECIFIED);
        return new EntityState(
                EntityId.at(octets, offset + 12),
                floats(octets, offset + 36),
                doubles(octets, offset + 48),
                angles(octets, offset + 72),
                floats(octets, offset + 104),
                floats(octets, offset + 116),
                octets.getInt(offset + 84),
                OptionalInt.of(octets.get(offset + 88) & 0xFF),
                aircraft,
                marking(octets, offset + 129));
    }

    /** Reads an Entity State Update of at least {@link #UPDATE_FIXED_LENGTH} octets. */
    static EntityState update(ByteBuffer octets, int offset) {
        return new EntityState(
                EntityId.at(octets, offset + 12),
                floats(octets, offset + 20),
                doubles(octets, offset + 32),
                angles(octets, offset + 56),
                NOTHING,
                NOTHING,
                octets.getInt(offset + 68),
                OptionalInt.empty(),
                true,
                "");
    }

    boolean frozen() {
        return (appearance & FROZEN) != 0;
    }

    boolean deactivated() {
        return (appearance & DEACTIVATED) != 0;
    }

    private static Vector3 floats(ByteBuffer octets, int offset) {
        return new Vector3(octets.getFloat(offset), octets.getFloat(offset + 4), octets.getFloat(offset + 8));
    }

    private static Vector3 doubles(ByteBuffer octets, int offset) {
        return new Vector3(octets.getDouble(offset), octets.getDouble(offset + 8), octets.getDouble(offset + 16));
    }

    private static BodyAxes.Euler angles(ByteBuffer octets, int offset) {
        return new BodyAxes.Euler(octets.getFloat(offset), octets.getFloat(offset + 4), octets.getFloat(offset + 8));
    }

    // Ends at the first NUL, if there is one, else it fills all its octets; some senders pad with blanks.
    private static String marking(ByteBuffer octets, int offset) {
        byte[] sent = new byte[MARKING_LENGTH];
        int length = 0;
        while (length < MARKING_LENGTH && octets.get(offset + length) != 0) {
            sent[length] = octets.get(offset + length);
            length++;
        }
        String text = new String(sent, 0, length, StandardCharsets.ISO_8859_1);
        return PlainText.of(text, MARKING_LENGTH).strip();
    }
}
