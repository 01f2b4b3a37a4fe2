package org.rejoin.protocol.dis;

import java.nio.ByteBuffer;

/** Who an entity is in an exercise, each number [0, 65535]. */
record EntityId(int site, int application, int entity) {

    private static final int ALL = 0xFFFF;

    static EntityId at(ByteBuffer octets, int offset) {
        return new EntityId(
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
