package org.rejoin.protocol.dis;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.Optional;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.PlainText;
import org.rejoin.protocol.Reckoning;
import org.rejoin.protocol.earth.BodyAxes;
import org.rejoin.protocol.earth.Vector3;

/**
 * The octets of an Entity State PDU (IEEE 1278.1-2012, 7.2.2) or an Entity State Update PDU (7.2.6), read where they
 * stand, most of them when asked for; nothing is checked. Used again for each PDU.
 */
final class EntityState {

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

    /** In both PDUs velocity, location, orientation and appearance follow one another. */
    private static final int VELOCITY = 36;

    private static final int UPDATE_VELOCITY = 20;
    private static final int LOCATION_AFTER = 12;
    private static final int ORIENTATION_AFTER = 36;
    private static final int APPEARANCE_AFTER = 48;
    private static final int ALGORITHM = 88;
    private static final int ACCELERATION = 104;
    private static final int TURNING = 116;
    private static final int MARKING = 129;

    private static final int UNSPECIFIED = 0;
    private static final Vector3 NOTHING = new Vector3(0, 0, 0);
    private static final ByteBuffer NONE = ByteBuffer.allocate(0);

    private ByteBuffer octets = NONE;
    private int start;
    private int velocity;
    private boolean full;
    private double velocityX;
    private double velocityY;
    private double velocityZ;
    private double locationX;
    private double locationY;
    private double locationZ;

    /** Goes to an Entity State of at least {@link #FIXED_LENGTH} octets. */
    void full(ByteBuffer datagram, int offset) {
        full = true;
        go(datagram, offset, offset + VELOCITY);
    }

    /** Goes to an Entity State Update of at least {@link #UPDATE_FIXED_LENGTH} octets. */
    void update(ByteBuffer datagram, int offset) {
        full = false;
        go(datagram, offset, offset + UPDATE_VELOCITY);
    }

    private void go(ByteBuffer datagram, int offset, int velocityOffset) {
        octets = datagram;
        start = offset;
        velocity = velocityOffset;
        velocityX = datagram.getFloat(velocity);
        velocityY = datagram.getFloat(velocity + 4);
        velocityZ = datagram.getFloat(velocity + 8);
        locationX = datagram.getDouble(velocity + LOCATION_AFTER);
        locationY = datagram.getDouble(velocity + LOCATION_AFTER + 8);
        locationZ = datagram.getDouble(velocity + LOCATION_AFTER + 16);
    }

    /** How this PDU goes on, by an algorithm of 2 to 9; holds the octets of the datagram, which never change. */
    Reckoning reckoning(int algorithm) {
        return new Kept(octets, start, full, algorithm);
    }

    /** Where a PDU stands, for whoever asks later how it goes on. */
    private record Kept(ByteBuffer octets, int start, boolean full, int algorithm) implements Reckoning {

        @Override
        public Optional<AircraftState> after(AircraftState sample, double seconds) {
            EntityState heard = new EntityState();
            if (full) {
                heard.full(octets, start);
            } else {
                heard.update(octets, start);
            }
            return DeadReckoning.of(heard, algorithm).after(sample, seconds);
        }
    }

    /** Whether it says algorithm, type and marking, which an update leaves out. */
    boolean isFull() {
        return full;
    }

    Id id() {
        return Id.at(octets, start + 12);
    }

    /** Exercise, 8 bits; site, application and entity, 16 bits each. */
    long idBits() {
        return (long) PduHeader.exercise(octets, start) << 48 | octets.getLong(start + 12) >>> 16;
    }

    int exercise() {
        return PduHeader.exercise(octets, start);
    }

    /** Some simulators leave the type at zeros; what says that it is something else is something else. */
    boolean aircraft() {
        int kind = octets.get(start + 20) & 0xFF;
        int domain = octets.get(start + 21) & 0xFF;
        return (kind == KIND_PLATFORM || kind == UNSPECIFIED) && (domain == DOMAIN_AIR || domain == UNSPECIFIED);
    }

    /** Of dead reckoning. */
    int algorithm() {
        return octets.get(start + ALGORITHM) & 0xFF;
    }

    /** m/s, in axes that the dead-reckoning algorithm decides. */
    double velocityX() {
        return velocityX;
    }

    double velocityY() {
        return velocityY;
    }

    double velocityZ() {
        return velocityZ;
    }

    Vector3 velocity() {
        return new Vector3(velocityX(), velocityY(), velocityZ());
    }

    /** Earth-centred, metres. */
    double locationX() {
        return locationX;
    }

    double locationY() {
        return locationY;
    }

    double locationZ() {
        return locationZ;
    }

    Vector3 location() {
        return new Vector3(locationX(), locationY(), locationZ());
    }

    /** From the earth-centred frame to the body, radians. */
    double psi() {
        return octets.getFloat(velocity + ORIENTATION_AFTER);
    }

    double theta() {
        return octets.getFloat(velocity + ORIENTATION_AFTER + 4);
    }

    double phi() {
        return octets.getFloat(velocity + ORIENTATION_AFTER + 8);
    }

    BodyAxes.Euler orientation() {
        return new BodyAxes.Euler(psi(), theta(), phi());
    }

    /** m/s^2, in the same axes as the velocity; zeros where it is no number or not sent. */
    Vector3 acceleration() {
        return full ? finite(start + ACCELERATION) : NOTHING;
    }

    /** rad/s about the body's axes; zeros where it is no number or not sent. */
    Vector3 turning() {
        return full ? finite(start + TURNING) : NOTHING;
    }

    private Vector3 finite(int offset) {
        Vector3 sent = new Vector3(octets.getFloat(offset), octets.getFloat(offset + 4), octets.getFloat(offset + 8));
        return sent.isFinite() ? sent : NOTHING;
    }

    boolean frozen() {
        return (appearance() & FROZEN) != 0;
    }

    boolean deactivated() {
        return (appearance() & DEACTIVATED) != 0;
    }

    private int appearance() {
        return octets.getInt(velocity + APPEARANCE_AFTER);
    }

    /** The first eight octets of the marking; with {@link #markingEnd} all of it. */
    long markingBegin() {
        return octets.getLong(start + MARKING);
    }

    int markingEnd() {
        return octets.getInt(start + MARKING + MARKING_LENGTH - 4);
    }

    /** The marking as text. Ends at the first NUL, if there is one, else fills all its octets; some pad with blanks. */
    String marking() {
        byte[] sent = new byte[MARKING_LENGTH];
        int length = 0;
        while (length < MARKING_LENGTH && octets.get(start + MARKING + length) != 0) {
            sent[length] = octets.get(start + MARKING + length);
            length++;
        }
        String text = new String(sent, 0, length, StandardCharsets.ISO_8859_1);
        return PlainText.of(text, MARKING_LENGTH).strip();
    }

    /** Who an entity is in an exercise, each number [0, 65535]. */
    record Id(int site, int application, int entity) {

        private static final int ALL = 0xFFFF;

        static Id at(ByteBuffer octets, int offset) {
            return new Id(
                    octets.getShort(offset) & 0xFFFF,
                    octets.getShort(offset + 2) & 0xFFFF,
                    octets.getShort(offset + 4) & 0xFFFF);
        }

        /** Whether this addresses more than one entity: a part that means all, or an application instead of an entity. */
        boolean addressesMany() {
            return site == ALL || application == ALL || entity == ALL || entity == 0;
        }

        /** "site:application:entity". */
        String text() {
            return site + ":" + application + ":" + entity;
        }
    }
}
