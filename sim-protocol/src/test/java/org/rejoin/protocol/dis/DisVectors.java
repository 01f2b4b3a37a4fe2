package org.rejoin.protocol.dis;

import org.rejoin.protocol.Wire;

/** Byte vectors written by an independent DIS library (Open-DIS) for the reference state. */
final class DisVectors {
    static final byte[] ES_1 = Wire.hex("""
            07 01 01 01 35 a7 40 db 00 90 00 00 00 11 00 17
            03 e9 03 00 01 02 00 00 39 00 00 00 00 00 00 00
            00 00 00 00 c2 0d 14 bd 42 42 c7 3d c1 11 58 f3
            c1 51 3e ac b1 fe e3 47 c1 47 ed 23 31 76 7b f7
            41 48 8f 77 5d ac c7 54 40 0e 3c 30 bc d9 a0 2a
            3f e0 71 42 00 40 00 00 04 00 00 00 00 00 00 00
            00 00 00 00 00 00 00 00 3d cc cc cd be 4c cc cd
            3d 4c cc cd 00 00 00 00 00 00 00 00 bd 56 a1 62
            01 52 45 4a 4f 49 4e 31 00 00 00 00 00 00 00 00""");

    static final byte[] ESU_1 = Wire.hex("""
            07 01 43 01 35 a7 40 db 00 48 00 00 00 11 00 17
            03 e9 00 00 c2 0d 14 bd 42 42 c7 3d c1 11 58 f3
            c1 51 3e ac b1 fe e3 47 c1 47 ed 23 31 76 7b f7
            41 48 8f 77 5d ac c7 54 40 0e 3c 30 bc d9 a0 2a
            3f e0 71 42 00 60 00 00""");

    static final byte[] SF_1 = Wire.hex("""
            07 01 0e 05 35 a7 40 db 00 28 00 00 00 11 00 17
            00 00 ff ff ff ff ff ff 00 07 a1 20 35 a7 40 db
            01 00 00 00 00 00 00 07""");

    static final byte[] REMOVE =
            Wire.hex("07 01 0c 05 35 a7 40 db 00 1c 00 00 00 11 00 17 03 e9 ff ff ff ff ff ff 00 00 00 09");

    static final byte[] ARTICULATED = Wire.hex("00 03 00 00 00 00 10 0b 3f c0 00 00 00 00 00 00");

    private DisVectors() {}

    static byte[] es2() {
        byte[] pdu = Wire.join(ES_1, ARTICULATED);
        pdu[9] = (byte) 0xa0;
        pdu[0x13] = 1;
        return pdu;
    }

    static byte[] changed(byte[] pdu, int offset, int... octets) {
        byte[] copy = pdu.clone();
        for (int i = 0; i < octets.length; i++) {
            copy[offset + i] = (byte) octets[i];
        }
        return copy;
    }
}
