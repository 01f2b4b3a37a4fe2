package org.rejoin.protocol.dis;

import java.util.LinkedHashMap;
import java.util.Map;

import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.Decoded.Control;

import org.jspecify.annotations.Nullable;

/**
 * What must be remembered of each entity between PDUs. Forgets the entity longest unheard, so that a sender that makes
 * up ever new identifiers costs no memory.
 */
final class Entities {

    private static final int MOST = 4096;

    private final Map<Key, Memory> memories = new LinkedHashMap<>(16, 0.75f, true) {
        @Override
        protected boolean removeEldestEntry(Map.Entry<Key, Memory> eldest) {
            return size() > MOST;
        }
    };

    /** Used for looking up only, so that no key is made for an entity that is known. */
    private final Key asked = new Key(0);

    /** The one heard last: most senders have but one. */
    private @Nullable Memory latest;

    /** In which this sender was heard first: its entities need no more than their identifiers. */
    private int firstExercise = Decoded.NO_EXERCISE;

    private static final class Key {
        private long bits;

        Key(long bits) {
            this.bits = bits;
        }

        @Override
        public boolean equals(@Nullable Object other) {
            return other instanceof Key that && bits == that.bits;
        }

        @Override
        public int hashCode() {
            return Long.hashCode(bits);
        }
    }

    /** Takes in what a PDU says, and gives all that is then known of the entity. */
    Memory hear(EntityState heard, long receivedMicros) {
        long bits = heard.idBits();
        Memory memory = latest != null && latest.bits == bits ? latest : memory(bits, heard);
        latest = memory;
        memory.hear(heard, receivedMicros);
        return memory;
    }

    private Memory memory(long bits, EntityState heard) {
        asked.bits = bits;
        Memory known = memories.get(asked);
        if (known != null) {
            return known;
        }
        int exercise = heard.exercise();
        firstExercise = firstExercise == Decoded.NO_EXERCISE ? exercise : firstExercise;
        String id = heard.id().text();
        Memory fresh = new Memory(bits, exercise == firstExercise ? id : Control.inExercise(id, exercise), exercise);
        memories.put(new Key(bits), fresh);
        return fresh;
    }

    /** Forgets those who were taken out. */
    void forget(Control removed) {
        memories.values().removeIf(each -> removed.concerns(each.name, each.exercise));
        latest = null;
    }

    /** What is known of one entity. */
    static final class Memory {

        /** A location sent again and again is a pause only when it lasts; senders faster than their model repeat too. */
        private static final long STANDSTILL_MICROS = 1_000_000;

        private static final int STANDSTILL_REPEATS = 2;

        private final long bits;
        /** The identifier as text, with the exercise where it is not the first of this sender. */
        final String name;

        final int exercise;
        final VelocityCheck check = new VelocityCheck();
        /** Of dead reckoning, in the last full Entity State; 0 before one was heard. */
        int algorithm;

        /** Whether the last full Entity State was of an aircraft; true before one was heard. */
        boolean aircraft = true;

        /** From the last full Entity State; empty before one was heard. */
        String marking = "";

        private long markingBegin;
        private int markingEnd;
        private double x = Double.NaN;
        private double y = Double.NaN;
        private double z = Double.NaN;
        private long sinceMicros;
        private int repeats;

        private Memory(long bits, String name, int exercise) {
            this.bits = bits;
            this.name = name;
            this.exercise = exercise;
        }

        private void hear(EntityState heard, long receivedMicros) {
            if (heard.isFull()) {
                algorithm = heard.algorithm();
                aircraft = heard.aircraft();
                mark(heard);
            }
            boolean again = x == heard.locationX() && y == heard.locationY() && z == heard.locationZ();
            repeats = again ? repeats + 1 : 0;
            sinceMicros = again ? sinceMicros : receivedMicros;
            x = heard.locationX();
            y = heard.locationY();
            z = heard.locationZ();
        }

        private void mark(EntityState heard) {
            if (markingBegin != heard.markingBegin() || markingEnd != heard.markingEnd()) {
                markingBegin = heard.markingBegin();
                markingEnd = heard.markingEnd();
                marking = heard.marking();
            }
        }

        /** Whether the location has not changed for so long that a moving aircraft must be paused. */
        boolean standsStillAt(long nowMicros) {
            return repeats >= STANDSTILL_REPEATS && nowMicros - sinceMicros >= STANDSTILL_MICROS;
        }
    }
}
