package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.SplittableRandom;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * What a user, a crash or somebody else may leave in a file, or say: read, or refused in one line, and nothing else leaves a
 * reader. Seeded; each reader has a fixed share of a second, or {@code -Drejoin.fuzz.seconds=N} by hand.
 */
class ReadersFuzzTest {

    private static final int LEAST_ROUNDS = 40;
    private static final long SHARE_NANOS =
            (long) (1e9 * Double.parseDouble(System.getProperty("rejoin.fuzz.seconds", "0.1")));

    /** What makes a reader of YAML, JSON, words or records stumble. */
    private static final List<String> PIECES = List.of(
            "\n",
            ": ",
            "- ",
            "[",
            "]",
            "{",
            "}",
            "&a ",
            "*a",
            "!!x ",
            "\"",
            "\u0000",
            "\u00e9",
            "\ud83d",
            "1e999",
            "-1",
            "null",
            "true",
            "9999999999999999999999",
            "\t",
            "? ",
            "| ",
            "> ",
            "#",
            "%",
            "<<: *a",
            "../",
            ",",
            " ",
            "0",
            "heading",
            "V40",
            "DCT",
            "intercept",
            "\r",
            "\u2028");

    private static byte[] damaged(List<byte[]> seeds, SplittableRandom random) {
        byte[] octets = seeds.get(random.nextInt(seeds.size())).clone();
        for (int i = random.nextInt(4); i > 0 && octets.length > 0; i--) {
            int at = random.nextInt(octets.length);
            switch (random.nextInt(6)) {
                case 0 -> octets[at] = (byte) random.nextInt(256);
                case 1 -> octets[at] ^= (byte) (1 << random.nextInt(8));
                case 2 -> octets = Arrays.copyOf(octets, at);
                case 3 -> octets = joined(octets, at, PIECES.get(random.nextInt(PIECES.size())), at);
                case 4 -> octets = joined(octets, at, "", Math.min(octets.length, at + random.nextInt(40)));
                default -> { // a part again
                    String part = new String(
                            octets, at, Math.min(octets.length - at, random.nextInt(80)), StandardCharsets.ISO_8859_1);
                    octets = joined(octets, at, part, at);
                }
            }
        }
        return octets;
    }

    private static byte[] joined(byte[] octets, int to, String piece, int from) {
        byte[] between = piece.getBytes(StandardCharsets.UTF_8);
        byte[] all = new byte[to + between.length + octets.length - from];
        System.arraycopy(octets, 0, all, 0, to);
        System.arraycopy(between, 0, all, to, between.length);
        System.arraycopy(octets, from, all, to + between.length, octets.length - from);
        return all;
    }

    @ParameterizedTest
    @EnumSource
    void whateverIsInItIsReadOrRefusedInOneLine(ReaderFuzzTarget.Reader reader) throws IOException {
        List<byte[]> seeds = reader.seeds();
        for (byte[] seed : seeds) {
            assertThat(ReaderFuzzTarget.refused(reader, seed))
                    .as("sound input is read")
                    .isFalse();
        }
        SplittableRandom random = new SplittableRandom(2026);
        int refused = 0;
        int rounds = 0;
        long began = System.nanoTime();
        for (; rounds < LEAST_ROUNDS || System.nanoTime() - began < SHARE_NANOS; rounds++) {
            byte[] octets = damaged(seeds, random);
            try {
                refused += ReaderFuzzTarget.refused(reader, octets) ? 1 : 0;
            } catch (RuntimeException | Error e) {
                throw new AssertionError(
                        reader + ", round " + rounds + ": " + HexFormat.of().formatHex(octets), e);
            }
        }
        assertThat(refused).as("of " + rounds + " rounds").isLessThan(rounds);
    }
}
