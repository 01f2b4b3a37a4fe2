package org.rejoin.protocol.dis;

import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.Decoded.Control;
import org.rejoin.protocol.Decoded.Malformed;
import org.rejoin.protocol.Decoded.NotAPosition;
import org.rejoin.protocol.StateDraft;
import org.rejoin.protocol.Units;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.earth.BodyAxes;
import org.rejoin.protocol.earth.Geodetic;
import org.rejoin.protocol.earth.LocalAxes;
import org.rejoin.protocol.earth.Vector3;

/** Walks through the PDUs of a datagram by their length fields. Every step moves forward by at least a header. */
final class DisDecoder implements WireFormat.Decoder {

    private static final int OLDEST_KNOWN_LAYOUT = 4;
    private static final int FIRST_BODY_AXES_ALGORITHM = 6;
    private static final int LAST_BODY_AXES_ALGORITHM = 9;

    /** Below this a direction of motion is noise. Knots. */
    private static final double STANDING_STILL_KT = 1;

    /** What single precision may add to a full turn. */
    private static final double LARGEST_ANGLE = 2 * Math.PI + 1e-3;

    // Nobody flies outside this shell; all zeros are common before a flight is loaded. Metres from the Earth's centre.
    private static final double SHELL_INSIDE_M = 6_300_000;
    private static final double SHELL_OUTSIDE_M = 6_500_000;

    private final double geoidHeightM;
    private final Entities entities = new Entities();
    private boolean oldVersionReported;
    private boolean anglesReported;

    DisDecoder(double geoidHeightM) {
        this.geoidHeightM = geoidHeightM;
    }

    @Override
    public List<Decoded> decode(Datagram datagram) {
        ByteBuffer octets = datagram.payload();
        List<Decoded> out = new ArrayList<>(2);
        int offset = 0;
        do {
            Optional<Malformed> fault = PduHeader.fault(octets, offset);
            if (fault.isPresent()) {
                out.add(fault.get());
                return out;
            }
            PduHeader header = PduHeader.at(octets, offset);
            readPdu(datagram, offset, header, out);
            offset = next(octets, offset + header.length());
        } while (octets.capacity() - offset >= PduHeader.LENGTH);
        return out;
    }

    // Some senders fill up to a multiple of 8 octets between PDUs and do not count the filling.
    private static int next(ByteBuffer octets, int unpadded) {
        int padded = (unpadded + 7) / 8 * 8;
        boolean onlyPadded = unpadded < octets.capacity()
                && PduHeader.fault(octets, unpadded).isPresent()
                && PduHeader.fault(octets, padded).isEmpty();
        return onlyPadded ? padded : unpadded;
    }

    private void readPdu(Datagram datagram, int offset, PduHeader header, List<Decoded> out) {
        if (header.version() < OLDEST_KNOWN_LAYOUT && !oldVersionReported) {
            oldVersionReported = true;
            out.add(new Malformed(offset, "protocol version " + header.version(), "protocol version 4 to 7"));
        }
        switch (header.type()) {
            case PduType.ENTITY_STATE -> {
                if (longEnough(header, EntityState.FIXED_LENGTH, offset, out)) {
                    entity(datagram, offset, header, EntityState.full(datagram.payload(), offset), out);
                }
            }
            case PduType.ENTITY_STATE_UPDATE -> {
                if (longEnough(header, EntityState.UPDATE_FIXED_LENGTH, offset, out)) {
                    entity(datagram, offset, header, EntityState.update(datagram.payload(), offset), out);
                }
            }
            case PduType.STOP_FREEZE -> control(datagram, offset, header, 40, Control.What.PAUSED, out);
            case PduType.START_RESUME -> control(datagram, offset, header, 44, Control.What.RESUMED, out);
            case PduType.REMOVE_ENTITY -> control(datagram, offset, header, 28, Control.What.REMOVED, out);
            default -> out.add(new NotAPosition(PduType.name(header.type())));
        }
    }

    private static boolean longEnough(PduHeader header, int least, int offset, List<Decoded> out) {
        if (header.length() >= least) {
            return true;
        }
        out.add(new Malformed(
                offset + 8,
                PduType.name(header.type()) + " of " + header.length() + " octets",
                "at least " + least + " octets"));
        return false;
    }

    private void control(
            Datagram datagram, int offset, PduHeader header, int least, Control.What what, List<Decoded> out) {
        if (!longEnough(header, least, offset, out)) {
            return;
        }
        EntityId receiver = EntityId.at(datagram.payload(), offset + 18);
        boolean many = receiver.addressesMany();
        if (what == Control.What.REMOVED) {
            if (many) {
                entities.forgetAll();
            } else {
                entities.forget(receiver);
            }
        }
        out.add(new Control(what, many ? "" : receiver.text()));
    }

    private void entity(Datagram datagram, int offset, PduHeader header, EntityState heard, List<Decoded> out) {
        Entities.Memory memory = entities.hear(heard, datagram.receivedMicros());
        if (!memory.aircraft()) {
            out.add(new NotAPosition(PduType.name(header.type()) + " of no aircraft"));
            return;
        }
        if (heard.deactivated()) {
            entities.forget(heard.id());
            out.add(new Control(Control.What.REMOVED, heard.id().text()));
            return;
        }
        Vector3 location = heard.location();
        if (!location.isFinite()) {
            out.add(new Malformed(offset, "a location that is not a number", "X, Y and Z in metres"));
            return;
        }
        if (!nearTheSurface(location)) {
            out.add(new NotAPosition(PduType.name(header.type()) + " without a location near the Earth's surface"));
            return;
        }
        Geodetic place = Geodetic.fromGeocentric(location);
        LocalAxes local = LocalAxes.at(place);
        StateDraft draft = new StateDraft()
                .position(place.latitudeDeg(), place.longitudeDeg())
                .altitudeMslFt((place.heightM() - geoidHeightM) / Units.M_PER_FT);
        Optional<BodyAxes> axes = axes(heard.orientation(), offset, out);
        axes.map(a -> a.attitudeIn(local))
                .ifPresent(a -> draft.headingTrueDeg(a.headingTrueDeg())
                        .pitchDeg(a.pitchDeg())
                        .rollDeg(a.rollDeg()));
        Optional<Vector3> velocity = velocity(heard.velocity(), memory.algorithm(), axes);
        velocity.flatMap(stated -> checked(stated, heard, memory, axes, header, datagram.receivedS(), offset, out))
                .ifPresent(v -> {
                    motion(v, local, draft);
                    draft.reckoning(DeadReckoning.of(
                            heard, memory.algorithm(), memory.check().use(), axes));
                });
        boolean moving = velocity.isPresent() && velocity.get().length() > Units.MPS_PER_KT;
        draft.paused(heard.frozen() || (moving && memory.standsStillAt(datagram.receivedMicros())));
        AircraftState state = draft.state(datagram.receivedS()).orElseThrow();
        out.add(new Decoded.Sample(state, Optional.of(header.time()), memory.name(), memory.marking()));
    }

    private Optional<BodyAxes> axes(BodyAxes.Euler angles, int offset, List<Decoded> out) {
        double largest = Math.max(Math.abs(angles.psi()), Math.max(Math.abs(angles.theta()), Math.abs(angles.phi())));
        if (largest <= LARGEST_ANGLE) {
            return Optional.of(BodyAxes.of(angles));
        }
        if (!anglesReported) {
            anglesReported = true;
            out.add(new Malformed(
                    offset,
                    "an orientation that is not in radians within a turn",
                    "psi, theta and phi from -2 pi to 2 pi; is it sent in degrees?"));
        }
        return Optional.empty();
    }

    /** The velocity in earth-centred axes; algorithms 6 to 9 send it along the body's. */
    private static Optional<Vector3> velocity(Vector3 sent, int algorithm, Optional<BodyAxes> axes) {
        if (!sent.isFinite()) {
            return Optional.empty();
        }
        return alongBody(algorithm) ? axes.map(a -> a.toGeocentric(sent)) : Optional.of(sent);
    }

    private static boolean alongBody(int algorithm) {
        return algorithm >= FIRST_BODY_AXES_ALGORITHM && algorithm <= LAST_BODY_AXES_ALGORITHM;
    }

    /** The velocity in the axes that the locations bear out; empty where they bear out none. */
    private static Optional<Vector3> checked(
            Vector3 stated,
            EntityState heard,
            Entities.Memory memory,
            Optional<BodyAxes> axes,
            PduHeader header,
            double receivedS,
            int offset,
            List<Decoded> out) {
        Optional<Vector3> other = alongBody(memory.algorithm())
                ? Optional.of(heard.velocity())
                : axes.map(a -> a.toGeocentric(heard.velocity()));
        memory.check()
                .hear(new VelocityCheck.Heard(heard.location(), stated, other, header.time(), receivedS))
                .ifPresent(text -> out.add(new Malformed(
                        offset,
                        text,
                        "m/s in earth-centred axes for dead-reckoning algorithms 0 to 5, along the body for 6 to 9")));
        return switch (memory.check().use()) {
            case AS_STATED -> Optional.of(stated);
            case OTHER_AXES -> other;
            case NONE -> Optional.empty();
        };
    }

    /** False too for what is no number. */
    static boolean nearTheSurface(Vector3 location) {
        double length = location.length();
        return length >= SHELL_INSIDE_M && length <= SHELL_OUTSIDE_M;
    }

    static void motion(Vector3 velocity, LocalAxes local, StateDraft draft) {
        double north = velocity.dot(local.north());
        double east = velocity.dot(local.east());
        double knots = Math.sqrt(north * north + east * east) / Units.MPS_PER_KT;
        draft.groundSpeedKt(knots).verticalSpeedFpm(-velocity.dot(local.down()) / Units.MPS_PER_FPM);
        if (knots >= STANDING_STILL_KT) {
            draft.trackTrueDeg(Math.toDegrees(Math.atan2(east, north)));
        }
    }
}
