package org.rejoin.protocol.dis;

import java.nio.ByteBuffer;
import java.util.Locale;
import java.util.Optional;

import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Decoded.Control;
import org.rejoin.protocol.Decoded.Malformed;
import org.rejoin.protocol.Decoded.NotAPosition;
import org.rejoin.protocol.Decoded.Remark;
import org.rejoin.protocol.StateSink;
import org.rejoin.protocol.Units;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.earth.Geodetic;

/** Walks through the PDUs of a datagram by their length fields. Every step moves forward by at least a header. */
final class DisDecoder implements WireFormat.Decoder {

    private static final int OLDEST_KNOWN_LAYOUT = 4;
    private static final int STOP_FREEZE_LENGTH = 40;
    private static final int START_RESUME_LENGTH = 44;
    private static final int REMOVE_ENTITY_LENGTH = 28;

    private final Entities entities = new Entities();
    private final EntityState heard = new EntityState();
    private final DisState state;
    private boolean oldVersionReported;
    private boolean anglesReported;

    DisDecoder(double geoidHeightM) {
        state = new DisState(geoidHeightM, heard);
    }

    @Override
    public void decode(Datagram datagram, StateSink sink) {
        ByteBuffer octets = datagram.payload();
        int offset = 0;
        do {
            if (!PduHeader.isGood(octets, offset)) {
                PduHeader.fault(octets, offset).ifPresent(sink::other);
                return;
            }
            readPdu(datagram, offset, sink);
            offset = next(octets, offset + PduHeader.length(octets, offset));
        } while (octets.capacity() - offset >= PduHeader.LENGTH);
    }

    // Some senders fill up to a multiple of 8 octets between PDUs and do not count the filling.
    private static int next(ByteBuffer octets, int unpadded) {
        int padded = (unpadded + 7) / 8 * 8;
        boolean onlyPadded =
                unpadded < octets.capacity() && !PduHeader.isGood(octets, unpadded) && PduHeader.isGood(octets, padded);
        return onlyPadded ? padded : unpadded;
    }

    private void readPdu(Datagram datagram, int offset, StateSink sink) {
        ByteBuffer octets = datagram.payload();
        int version = PduHeader.version(octets, offset);
        if (version < OLDEST_KNOWN_LAYOUT && !oldVersionReported) {
            oldVersionReported = true;
            sink.other(new Malformed(offset, "protocol version " + version, "protocol version 4 to 7"));
        }
        int type = PduHeader.type(octets, offset);
        switch (type) {
            case PduHeader.ENTITY_STATE -> {
                if (longEnough(octets, EntityState.FIXED_LENGTH, offset, sink)) {
                    heard.full(octets, offset);
                    entity(datagram, offset, sink);
                }
            }
            case PduHeader.ENTITY_STATE_UPDATE -> {
                if (longEnough(octets, EntityState.UPDATE_FIXED_LENGTH, offset, sink)) {
                    heard.update(octets, offset);
                    entity(datagram, offset, sink);
                }
            }
            case PduHeader.STOP_FREEZE -> control(octets, offset, STOP_FREEZE_LENGTH, Control.What.PAUSED, sink);
            case PduHeader.START_RESUME -> control(octets, offset, START_RESUME_LENGTH, Control.What.RESUMED, sink);
            case PduHeader.REMOVE_ENTITY -> control(octets, offset, REMOVE_ENTITY_LENGTH, Control.What.REMOVED, sink);
            default -> sink.other(new NotAPosition(PduHeader.typeName(type)));
        }
    }

    private static boolean longEnough(ByteBuffer octets, int least, int offset, StateSink sink) {
        int length = PduHeader.length(octets, offset);
        if (length >= least) {
            return true;
        }
        sink.other(new Malformed(
                offset + 8, typeName(octets, offset) + " of " + length + " octets", "at least " + least + " octets"));
        return false;
    }

    private static String typeName(ByteBuffer octets, int offset) {
        return PduHeader.typeName(PduHeader.type(octets, offset));
    }

    private void control(ByteBuffer octets, int offset, int least, Control.What what, StateSink sink) {
        if (!longEnough(octets, least, offset, sink)) {
            return;
        }
        EntityState.Id receiver = EntityState.Id.at(octets, offset + 18);
        Control control =
                new Control(what, receiver.addressesMany() ? "" : receiver.text(), PduHeader.exercise(octets, offset));
        if (what == Control.What.REMOVED) {
            entities.forget(control);
        }
        sink.other(control);
    }

    private void entity(Datagram datagram, int offset, StateSink sink) {
        Entities.Memory memory = entities.hear(heard, datagram.receivedMicros());
        if (!memory.aircraft) {
            sink.other(new NotAPosition(typeName(datagram.payload(), offset) + " of no aircraft"));
            return;
        }
        if (heard.deactivated()) {
            Control gone = new Control(Control.What.REMOVED, memory.name, memory.exercise);
            entities.forget(gone);
            sink.other(gone);
            return;
        }
        if (!Geodetic.isNearTheSurface(heard.locationX(), heard.locationY(), heard.locationZ())) {
            sink.other(
                    heard.location().isFinite()
                            ? new NotAPosition(typeName(datagram.payload(), offset)
                                    + " without a location near the Earth's surface")
                            : new Malformed(offset, "a location that is not a number", "X, Y and Z in metres"));
            return;
        }
        double sentS = PduHeader.timeS(datagram.payload(), offset);
        state.take(memory, sentS, datagram.receivedS());
        if (!state.hasAttitude()) {
            reportAngles(offset, sink);
        }
        boolean moving = motion(memory, sentS, datagram.receivedS(), sink);
        state.pause(heard.frozen() || (moving && memory.standsStillAt(datagram.receivedMicros())));
        sink.sample(state);
    }

    private void reportAngles(int offset, StateSink sink) {
        if (!anglesReported) {
            anglesReported = true;
            sink.other(new Malformed(
                    offset,
                    String.format(
                            Locale.ROOT,
                            "an orientation of psi %.4g, theta %.4g, phi %.4g, which is not in radians within a turn",
                            heard.psi(),
                            heard.theta(),
                            heard.phi()),
                    "psi, theta and phi from -2 pi to 2 pi; is it sent in degrees?"));
        }
    }

    /** Takes the velocity in the axes that the locations bear out, if they bear out any; whether one of motion was sent. */
    private boolean motion(Entities.Memory memory, double sentS, double receivedS, StateSink sink) {
        boolean alongBody = DeadReckoning.alongBody(memory.algorithm);
        double squared = heard.velocityX() * heard.velocityX()
                + heard.velocityY() * heard.velocityY()
                + heard.velocityZ() * heard.velocityZ();
        if (!Double.isFinite(squared) || (alongBody && !state.hasAttitude())) {
            return false;
        }
        Optional<String> change = memory.check.hear(heard, memory.algorithm, sentS, receivedS);
        if (change.isPresent()) {
            sink.other(new Remark(memory.name, change.get()));
        }
        switch (memory.check.use()) {
            case AS_STATED -> state.move(alongBody);
            case OTHER_AXES -> {
                if (alongBody || state.hasAttitude()) {
                    state.move(!alongBody);
                }
            }
            case NONE -> {}
        }
        return squared > Units.MPS_PER_KT * Units.MPS_PER_KT;
    }
}
