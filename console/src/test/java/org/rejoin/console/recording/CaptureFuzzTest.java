package org.rejoin.console.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Objects;
import java.util.SplittableRandom;

import com.sun.management.ThreadMXBean;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/**
 * The reader of captures on a corpus of its own, whole, cut at each octet and damaged: no exception leaves it but that of
 * a header that cannot be read, and what it takes of memory goes by the octets there are, never by a length written in
 * them. Seeded; a longer run by {@code -Drejoin.fuzz.rounds=N}.
 */
class CaptureFuzzTest {

    private static final int ROUNDS = Integer.getInteger("rejoin.fuzz.rounds", 1000) * 20;
    /** A packet of the greatest length that is believed, a class not yet loaded, an exception with its trace. */
    private static final long OCTETS_AT_LEAST = 1_000_000;

    private static final long OCTETS_FOR_EACH = 200;
    private static final ThreadMXBean THREADS = (ThreadMXBean) ManagementFactory.getThreadMXBean();
    private static final List<Seed> CORPUS = new ArrayList<>();

    private record Seed(String name, String expected, byte[] octets) {
        boolean refused() {
            return expected.startsWith("refused");
        }
    }

    private record Read(int datagrams, long payload, boolean torn, long offset) {}

    @BeforeAll
    static void corpus() throws IOException {
        try (InputStream in = Objects.requireNonNull(CaptureFuzzTest.class.getResourceAsStream("captures.txt"))) {
            for (String line : new String(in.readAllBytes(), StandardCharsets.US_ASCII)
                    .lines()
                    .toList()) {
                if (!line.startsWith("#")) {
                    String[] fields = line.split("; ?", -1);
                    CORPUS.add(new Seed(fields[0], fields[1], HexFormat.of().parseHex(fields[2])));
                }
            }
        }
        assertThat(CORPUS).hasSizeGreaterThan(30);
    }

    private static Read read(byte[] octets) throws IOException {
        try (Capture capture = Capture.read(new ByteArrayInputStream(octets), "x")) {
            int count = 0;
            long payload = 0;
            for (var next = capture.next(); next.isPresent(); next = capture.next()) {
                count++;
                payload += next.get().length();
                assertThat(next.get().sender().getPort()).isBetween(0, 65_535);
            }
            assertThat(capture.next()).isEmpty();
            return new Read(count, payload, capture.tear().isPresent(), capture.offset());
        }
    }

    @Test
    void theCorpusIsReadAsItSays() throws IOException {
        for (Seed seed : CORPUS) {
            if (seed.refused()) {
                assertThatThrownBy(() -> read(seed.octets))
                        .as(seed.name)
                        .isInstanceOf(IOException.class)
                        .hasMessageContaining(seed.expected.substring("refused ".length()))
                        .hasMessageMatching("x [^\n]*");
                continue;
            }
            Read read = read(seed.octets);
            assertThat(read.datagrams + (read.torn ? " torn" : ""))
                    .as(seed.name)
                    .isEqualTo(seed.expected);
        }
    }

    /** Cut anywhere, a capture gives what is whole before the cut, and says that it is torn unless the cut is between. */
    @Test
    void cutAtEachOctet() throws IOException {
        for (Seed seed : CORPUS) {
            if (seed.refused()) {
                continue;
            }
            int before = 0;
            for (int length = CaptureHeader.LENGTH; length <= seed.octets.length; length++) {
                Read read = read(Arrays.copyOf(seed.octets, length));
                assertThat(read.datagrams)
                        .as("%s, %d octets", seed.name, length)
                        .isBetween(before, before + 1);
                before = read.datagrams;
                assertThat(read.torn).as("%s, %d octets", seed.name, length).isEqualTo(read.offset != length);
            }
            for (int length = 0; length < CaptureHeader.LENGTH; length++) {
                byte[] cut = Arrays.copyOf(seed.octets, length);
                assertThatThrownBy(() -> read(cut)).isInstanceOf(IOException.class);
            }
        }
    }

    @Test
    void nothingThatIsInAFileHurtsTheReader() {
        SplittableRandom random = new SplittableRandom(2026);
        long thread = Thread.currentThread().getId();
        int readable = 0;
        int datagrams = 0;
        for (int i = 0; i < ROUNDS; i++) {
            byte[] octets = damaged(random);
            long before = THREADS.getThreadAllocatedBytes(thread);
            try {
                Read read = read(octets);
                readable++;
                datagrams += read.datagrams;
                assertThat(read.payload).isLessThanOrEqualTo(octets.length);
                assertThat(read.offset).isLessThanOrEqualTo(octets.length);
            } catch (IOException refused) {
                assertThat(refused.getMessage()).startsWith("x ").doesNotContain("\n");
            }
            long taken = THREADS.getThreadAllocatedBytes(thread) - before;
            if (i > 50 && taken > OCTETS_AT_LEAST + OCTETS_FOR_EACH * octets.length) { // the first load the classes
                throw new AssertionError(taken + " octets of memory for " + octets.length + ", round " + i);
            }
        }
        assertThat(readable).isGreaterThan(ROUNDS / 3);
        assertThat(datagrams).isGreaterThan(ROUNDS / 10);
    }

    private static byte[] damaged(SplittableRandom random) {
        byte[] octets = CORPUS.get(random.nextInt(CORPUS.size())).octets.clone();
        for (int change = random.nextInt(5); change > 0 && octets.length > 0; change--) {
            int at = random.nextInt(octets.length);
            switch (random.nextInt(6)) {
                case 0 -> octets[at] ^= (byte) (1 << random.nextInt(8));
                case 1 -> octets[at] = (byte) random.nextInt(256);
                case 2 -> octets = Arrays.copyOf(octets, at);
                case 3 -> { // a length that lies
                    byte extreme = List.of((byte) 0, (byte) 0xFF, (byte) 0x7F, (byte) 0x80)
                            .get(random.nextInt(4));
                    Arrays.fill(octets, at, Math.min(octets.length, at + (1 << random.nextInt(4))), extreme);
                }
                case 4 -> // packets of another file, perhaps of the other byte order
                    octets = Packets.join(octets, tail(CORPUS.get(random.nextInt(CORPUS.size())).octets));
                default -> { // a part again
                    byte[] part = Arrays.copyOfRange(octets, at, Math.min(octets.length, at + 1 + random.nextInt(80)));
                    octets = Packets.join(
                            Arrays.copyOf(octets, at), part, part, Arrays.copyOfRange(octets, at, octets.length));
                }
            }
        }
        return octets;
    }

    private static byte[] tail(byte[] file) {
        return Arrays.copyOfRange(file, Math.min(file.length, CaptureHeader.LENGTH), file.length);
    }
}
