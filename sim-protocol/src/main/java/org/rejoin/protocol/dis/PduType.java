package org.rejoin.protocol.dis;

import java.util.List;

/** PDU types by number, IEEE 1278.1-2012 and SISO-REF-010. */
final class PduType {
    static final int ENTITY_STATE = 1;
    static final int REMOVE_ENTITY = 12;
    static final int START_RESUME = 13;
    static final int STOP_FREEZE = 14;
    static final int ENTITY_STATE_UPDATE = 67;

    private static final List<String> NAMES =
            List.of(("Other, Entity State, Fire, Detonation, Collision, Service Request, Resupply Offer, "
                            + "Resupply Received, Resupply Cancel, Repair Complete, Repair Response, Create Entity, "
                            + "Remove Entity, Start/Resume, Stop/Freeze, Acknowledge, Action Request, Action Response, "
                            + "Data Query, Set Data, Data, Event Report, Comment, Electromagnetic Emission, Designator, "
                            + "Transmitter, Signal, Receiver, IFF")
                    .split(", ", -1));

    private PduType() {}

    /** Name of the type, or its number where the name is of no use here. */
    static String name(int type) {
        return type < NAMES.size() ? NAMES.get(type) : "PDU type " + type;
    }
}
