package org.rejoin.bridge.chart.io;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Optional;
import java.util.zip.CRC32;
import java.util.zip.CRC32C;

/**
 * A large chart as it was read before, kept in a file beside it. Where there is any doubt (another content of the chart,
 * another version of this program, a damaged file) it is as if there were none; where none can be written, too.
 */
final class ChartCache {

    /** Smaller charts are read as quickly. */
    private static final long WORTH_OCTETS = 1_000_000;

    private static final int MARK = 0x524A4331;

    /** Raised with each change of what is read from a chart, or of how it is kept. */
    private static final int LAYOUT = 3;

    private ChartCache() {}

    /** The file beside a chart. */
    static Path beside(Path chart) {
        return chart.resolveSibling("." + chart.getFileName() + ".rejoin");
    }

    /** Reads a chart, from the file beside it where that can be. */
    static ChartReader.Result read(Path chart, Reading reading) throws IOException {
        if (Files.size(chart) < WORTH_OCTETS) {
            try (InputStream in = Files.newInputStream(chart)) {
                return reading.read(in);
            }
        }
        Optional<ChartReader.Result> kept = kept(chart);
        if (kept.isPresent()) {
            return kept.get();
        }
        try (InputStream in = Files.newInputStream(chart)) {
            Fingerprint fingerprint = new Fingerprint(in);
            ChartReader.Result result = reading.read(fingerprint);
            fingerprint.toEnd();
            keep(chart, fingerprint, result);
            return result;
        }
    }

    /** How a chart is read from its own file. */
    interface Reading {
        ChartReader.Result read(InputStream in) throws IOException;
    }

    /** What is kept of a chart; empty where it cannot be believed. */
    static Optional<ChartReader.Result> kept(Path chart) throws IOException {
        byte[] octets;
        try {
            octets = Files.readAllBytes(beside(chart));
        } catch (IOException e) {
            return Optional.empty();
        }
        ByteBuffer head;
        try (InputStream in = Files.newInputStream(chart)) {
            Fingerprint fingerprint = new Fingerprint(in);
            fingerprint.toEnd();
            head = head(chart, fingerprint);
        }
        ByteBuffer all = ByteBuffer.wrap(octets);
        boolean known = all.remaining() > head.remaining() + Long.BYTES
                && all.slice(0, head.remaining()).equals(head)
                && all.getLong(head.remaining())
                        == checksum(all.slice(
                                head.remaining() + Long.BYTES, all.remaining() - head.remaining() - Long.BYTES));
        return known ? Optional.of(KeptChart.read(all.position(head.remaining() + Long.BYTES))) : Optional.empty();
    }

    private static void keep(Path chart, Fingerprint fingerprint, ChartReader.Result result) {
        ByteBuffer body = ByteBuffer.wrap(KeptChart.octets(result));
        ByteBuffer head = head(chart, fingerprint);
        ByteBuffer all = ByteBuffer.allocate(head.remaining() + Long.BYTES + body.remaining());
        all.put(head).putLong(checksum(body.duplicate())).put(body);
        try {
            Path fresh = Files.createTempFile(chart.toAbsolutePath().getParent(), ".", ".rejoin");
            try {
                Files.write(fresh, all.array());
                Files.move(fresh, beside(chart), StandardCopyOption.ATOMIC_MOVE);
            } finally {
                Files.deleteIfExists(fresh);
            }
        } catch (IOException e) {
            // A folder that cannot be written to: the chart is read anew the next time.
        }
    }

    /** What must be the same: the program, and name and content of the chart. */
    private static ByteBuffer head(Path chart, Fingerprint of) {
        String version = String.valueOf(ChartCache.class.getPackage().getImplementationVersion());
        return ByteBuffer.allocate(5 * Long.BYTES)
                .putInt(MARK)
                .putInt(LAYOUT)
                .putInt(version.hashCode())
                .putInt(chart.toString().hashCode())
                .putLong(of.octets)
                .putLong(of.crc32.getValue())
                .putLong(of.crc32c.getValue())
                .flip();
    }

    private static long checksum(ByteBuffer octets) {
        CRC32C checksum = new CRC32C();
        checksum.update(octets);
        return checksum.getValue();
    }

    /**
     * Tells one content of a file from another while it is read: by its length and two checksums of all its octets. Against
     * chance, not against somebody who means to deceive.
     */
    private static final class Fingerprint extends InputStream {

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
    }
}
