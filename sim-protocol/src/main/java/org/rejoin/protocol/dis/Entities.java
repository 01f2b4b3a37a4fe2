package org.rejoin.protocol.dis;

import java.util.LinkedHashMap;
import java.util.Map;

import org.rejoin.protocol.earth.Vector3;

import org.jspecify.annotations.Nullable;

/**
 * What must be remembered of each entity between PDUs. Forgets the entity longest unheard, so that a sender that makes
 * up ever new identifiers costs no memory.
 */
final class Entities {

    private static final int MOST = 4096;

    /** A location sent again and again is a pause only when it lasts; senders faster than their model repeat too. */
    private static final long STANDSTILL_MICROS = 1_000_000;

    private static final int STANDSTILL_REPEATS = 2;

    private final Map<EntityId, Memory> memories = new LinkedHashMap<>(16, 0.75f, true) {
        @Override
        protected boolean removeEldestEntry(Map.Entry<EntityId, Memory> eldest) {
            return size() > MOST;
        }
    };

    /**
     * What is known of one entity.
     *
     * @param name the identifier as text, made once
     * @param algorithm of dead reckoning in the last full Entity State; 0 before one was heard
     * @param aircraft whether the last full Entity State was of an aircraft; true before one was heard
     * @param marking from the last full Entity State; empty before one was heard
     * @param location last location, m
     * @param sinceMicros when the location was first that, time of receipt
     * @param repeats how often it was sent again since
     * @param check of its velocities
     */
    record Memory(
            String name,
            int algorithm,
            boolean aircraft,
            String marking,
            Vector3 location,
            long sinceMicros,
            int repeats,
            VelocityCheck check) {

        /** Whether the location has not changed for so long that a moving aircraft must be paused. */
        boolean standsStillAt(long nowMicros) {
            return repeats >= STANDSTILL_REPEATS && nowMicros - sinceMicros >= STANDSTILL_MICROS;
        }
    }

    /** Takes in what a PDU says, and gives all that is then known of the entity. */
    Memory hear(EntityState heard, long receivedMicros) {
        Memory now = after(memories.get(heard.id()), heard, receivedMicros);
        memories.put(heard.id(), now);
        return now;
    }

    private static Memory after(@Nullable Memory before, EntityState heard, long receivedMicros) {
        if (before == null) {
            return new Memory(
                    heard.id().text(),
                    heard.algorithm().orElse(0),
                    heard.aircraft(),
                    heard.marking(),
                    heard.location(),
                    receivedMicros,
                    0,
                    new VelocityCheck());
        }
        boolean again = before.location.equals(heard.location());
        boolean tells = heard.algorithm().isPresent();
        return new Memory(
                before.name,
                tells ? heard.algorithm().orElse(0) : before.algorithm,
                tells ? heard.aircraft() : before.aircraft,
                tells ? heard.marking() : before.marking,
                heard.location(),
                again ? before.sinceMicros : receivedMicros,
                again ? before.repeats + 1 : 0,
                before.check);
    }

    void forget(EntityId id) {
        memories.remove(id);
    }

    void forgetAll() {
        memories.clear();
    }
}
