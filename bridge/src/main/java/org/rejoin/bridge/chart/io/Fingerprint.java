package org.rejoin.bridge.chart.io;

import java.io.IOException;
import java.io.InputStream;
import java.util.zip.CRC32;
import java.util.zip.CRC32C;

/**
 * What tells one content of a file from another: its length and two checksums of all its octets. Against chance, not
 * against somebody who means to deceive.
 *
 * @param octets length
 * @param crc32 of ISO 3309
 * @param crc32c of RFC 3720
 */
record Fingerprint(long octets, long crc32, long crc32c) {

    private static final int PIECE = 1 << 16;

    /** Reads a stream to its end. */
    static Fingerprint of(InputStream in) throws IOException {
        Taking taking = new Taking(in);
        taking.toEnd();
        return taking.fingerprint();
    }

    /** A stream that takes the fingerprint of what is read from it. */
    static final class Taking extends InputStream {

        private final InputStream in;
        private final CRC32 crc32 = new CRC32();
        private final CRC32C crc32c = new CRC32C();
        private long octets;

        Taking(InputStream in) {
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

        Fingerprint fingerprint() {
            return new Fingerprint(octets, crc32.getValue(), crc32c.getValue());
        }
    }
}
