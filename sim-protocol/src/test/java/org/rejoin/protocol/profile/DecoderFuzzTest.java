package org.rejoin.protocol.profile;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.SplittableRandom;

import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.Wire;
import org.rejoin.protocol.WireFormat;

import com.sun.management.ThreadMXBean;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Every decoder on damaged copies of a corpus of datagrams: no exception leaves it, its faults can be shown, and what it
 * takes of memory goes by the octets received, never by a length or count written in them. Seeded; each decoder has a
 * fixed share of a second for each corpus, or {@code -Drejoin.fuzz.seconds=N} by hand.
 */
class DecoderFuzzTest {

    /** So many, however slow the machine: the corpus and more. */
    private static final int LEAST_ROUNDS = 300;

    private static final long SHARE_NANOS =
            (long) (1e9 * Double.parseDouble(System.getProperty("rejoin.fuzz.seconds", "0.1")));
    /** One datagram of a few octets may bring an exception with its trace, a class not yet loaded, a table for names. */
    private static final long OCTETS_AT_LEAST = 1_000_000;

    private static final long OCTETS_FOR_EACH = 2_000;
    private static final ThreadMXBean THREADS = (ThreadMXBean) ManagementFactory.getThreadMXBean();

    private static List<byte[]> corpus(String name) throws IOException {
        try (InputStream in =
                Objects.requireNonNull(DecoderFuzzTest.class.getResourceAsStream("corpus/" + name + ".txt"), name)) {
            return new String(in.readAllBytes(), StandardCharsets.US_ASCII)
                    .lines()
                    .filter(line -> !line.startsWith("#"))
                    .map(Wire::hex)
                    .toList();
        }
    }

    private static byte[] damaged(List<byte[]> corpus, SplittableRandom random) {
        byte[] octets = corpus.get(random.nextInt(corpus.size())).clone();
        for (int change = random.nextInt(5); change > 0 && octets.length > 0; change--) {
            int at = random.nextInt(octets.length);
            switch (random.nextInt(7)) {
                case 0 -> octets[at] ^= (byte) (1 << random.nextInt(8));
                case 1 -> octets[at] = (byte) random.nextInt(256);
                case 2 -> octets = Arrays.copyOf(octets, at);
                case 3 -> { // a length or a count that lies
                    int width = 1 << random.nextInt(4);
                    byte extreme = List.of((byte) 0, (byte) 0xFF, (byte) 0x7F, (byte) 0x80)
                            .get(random.nextInt(4));
                    Arrays.fill(octets, at, Math.min(octets.length, at + width), extreme);
                }
                case 4 -> octets = Wire.join(octets, corpus.get(random.nextInt(corpus.size())));
                case 5 -> { // a part again
                    byte[] part = Arrays.copyOfRange(octets, at, Math.min(octets.length, at + 1 + random.nextInt(40)));
                    octets = Wire.join(
                            Arrays.copyOf(octets, at), part, part, Arrays.copyOfRange(octets, at, octets.length));
                }
                default -> {
                    byte[] nasty = "$\\*,{}[]\":=;\r\n\0-+.eE9".getBytes(StandardCharsets.US_ASCII);
                    octets[at] = nasty[random.nextInt(nasty.length)];
                }
            }
        }
        return octets.length > 4000 ? Arrays.copyOf(octets, 4000) : octets;
    }

    @ParameterizedTest
    @ValueSource(strings = {"dis", "nmea", "json", "profile-text", "profile-binary"})
    void nothingThatIsSentHurtsADecoder(String name) throws IOException {
        List<byte[]> corpus = corpus(name);
        long thread = Thread.currentThread().getId();
        int samples = 0;
        for (WireFormat format : ExampleProfiles.everyFormat()) {
            WireFormat.Decoder decoder = format.newDecoder();
            SplittableRandom random = new SplittableRandom(2026);
            long began = System.nanoTime();
            for (int i = 0; i < LEAST_ROUNDS || System.nanoTime() - began < SHARE_NANOS; i++) {
                byte[] octets = i < corpus.size() ? corpus.get(i) : damaged(corpus, random);
                long micros = Wire.T0 + i * 30_000L - random.nextInt(40_000);
                long before = THREADS.getThreadAllocatedBytes(thread);
                List<Decoded> found = DecoderFuzzTarget.decode(format, decoder, micros, octets);
                long taken = THREADS.getThreadAllocatedBytes(thread) - before;
                boolean measured = i >= corpus.size(); // the first round loads the classes
                if (measured && taken > OCTETS_AT_LEAST + OCTETS_FOR_EACH * octets.length) {
                    throw new AssertionError(format.name() + " takes " + taken + " octets of memory for "
                            + octets.length + ", round " + i);
                }
                samples += Wire.samples(found).size();
            }
        }
        assertThat(samples).as("the corpus is understood").isGreaterThan(corpus.size());
    }
}
