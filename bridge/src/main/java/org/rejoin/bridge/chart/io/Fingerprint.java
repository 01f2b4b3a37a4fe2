package org.rejoin.bridge.chart.io;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.util.zip.CRC32;
import java.util.zip.CRC32C;

/**
 * Tells one content of a file from another while it is read: by its length and two checksums of all its octets. Against
 * chance, not against somebody who means to deceive.
 */
final class Fingerprint extends InputStream {

    private static final int PIECE = 1 << 16;

    private final InputStream in;
    private final CRC32 crc32 = new CRC32();
    private final CRC32C crc32c = new CRC32C();
    private long octets;

    Fingerprint(InputStream in) {
        this.in = in;
    }

    @Override
    public int read() throws IOException {
        byte[] one = new byte[1];
        return read(one, 0, 1) < 0 ? -1 : one[0] & 0xFF;
    }

    @Override
    public int read(byte[] into, int offset, int length) throws IOException {
        int read = in.read(into, offset, length);
        if (read > 0) {
            crc32.update(into, offset, read);
            crc32c.update(into, offset, read);
            octets += read;
        }
        return read;
    }

    /** Reads what is left. */
    void toEnd() throws IOException {
        byte[] piece = new byte[PIECE];
        while (read(piece, 0, PIECE) >= 0) {
            // counted in read
        }
    }

    /** Puts it where a kept chart has it: length, checksum of ISO 3309, checksum of RFC 3720. */
    void putInto(ByteBuffer head) {
        head.putLong(octets).putLong(crc32.getValue()).putLong(crc32c.getValue());
    }
}
