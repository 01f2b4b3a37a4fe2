package org.rejoin.protocol.profile;

import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.Wire;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.detect.WireFormats;

import org.junit.jupiter.api.Test;

/** Non-regression: no datagram makes a decoder throw, hang, or give out what no aircraft state can hold. Seeded. */
class HostileDatagramsTest {

    private static final int ROUNDS = 3000;

    private static List<WireFormat> formats() {
        List<ProfileFormat> profiles = new ArrayList<>();
        for (String yaml : List.of(
                ExampleProfiles.P1,
                ExampleProfiles.P2,
                ExampleProfiles.P3,
                ExampleProfiles.P4,
                ExampleProfiles.P5,
                ExampleProfiles.P6)) {
            profiles.add(ExampleProfiles.format(yaml));
        }
        WireFormats formats = new WireFormats(profiles);
        List<WireFormat> all = new ArrayList<>(formats.all());
        all.add(formats.auto());
        return all;
    }

    private static byte[] mutated(byte[] good, SplittableRandom random) {
        byte[] bad = new byte[random.nextInt(8) == 0 ? random.nextInt(good.length + 1) : good.length];
        System.arraycopy(good, 0, bad, 0, bad.length);
        for (int change = random.nextInt(6); change > 0 && bad.length > 0; change--) {
            byte[] nasty = {0, -1, 127, -128, '$', '\\', '*', ',', '{', '"', '\r', '\n'};
            int at = random.nextInt(bad.length);
            bad[at] = random.nextBoolean() ? (byte) random.nextInt(256) : nasty[random.nextInt(nasty.length)];
        }
        return random.nextInt(5) == 0 ? Wire.join(bad, good) : bad;
    }

    @Test
    void damagedAndRandomDatagramsAreSurvived() {
        List<WireFormat> formats = formats();
        List<byte[]> good = new ArrayList<>();
        for (WireFormat format : formats) {
            good.addAll(format.newEncoder().encode(Wire.referenceState(754.5)));
        }
        good.add(Wire.join(good.get(0), good.get(0)));
        assertTimeoutPreemptively(Duration.ofSeconds(60), () -> {
            for (WireFormat format : formats) {
                SplittableRandom random = new SplittableRandom(2026);
                WireFormat.Decoder decoder = format.newDecoder();
                for (int i = 0; i < ROUNDS; i++) {
                    byte[] octets = random.nextInt(4) == 0
                            ? random(random)
                            : mutated(good.get(random.nextInt(good.size())), random);
                    Datagram datagram = Wire.datagram(Wire.T0 + i * 30_000L - random.nextInt(40_000), octets);
                    format.recognises(datagram);
                    check(decoder.decode(datagram));
                    check(decoder.advanceTo(datagram.receivedMicros() + random.nextInt(200_000)));
                }
            }
        });
    }

    private static byte[] random(SplittableRandom random) {
        byte[] octets = new byte[random.nextInt(200)];
        random.nextBytes(octets);
        return octets;
    }

    private static void check(List<Decoded> decoded) {
        for (Decoded.Malformed fault : Wire.faults(decoded)) {
            // Plain conditions: a describing assertion for each of so many costs more than the decoding.
            boolean printable = fault.found().chars().allMatch(c -> c >= ' ' && c <= '~');
            boolean concise = fault.found().length() + fault.expected().length() < 400;
            if (fault.offset() < 0 || !printable || !concise) {
                throw new AssertionError(fault.toString());
            }
        }
    }

    @Test
    void theLargestDatagramsOfTheWorstKindAreQuick() {
        List<byte[]> worst = List.of(
                "$".repeat(Datagram.MAX_LENGTH).getBytes(StandardCharsets.US_ASCII),
                "\\".repeat(Datagram.MAX_LENGTH).getBytes(StandardCharsets.US_ASCII),
                ",".repeat(Datagram.MAX_LENGTH).getBytes(StandardCharsets.US_ASCII),
                "\n".repeat(Datagram.MAX_LENGTH).getBytes(StandardCharsets.US_ASCII),
                "{".repeat(8192).getBytes(StandardCharsets.US_ASCII),
                "{}".repeat(4096).getBytes(StandardCharsets.US_ASCII),
                "lat=".repeat(16_000).getBytes(StandardCharsets.US_ASCII),
                "7".repeat(Datagram.MAX_LENGTH).getBytes(StandardCharsets.US_ASCII),
                Wire.hex("07 01 45 01 00 00 00 00 00 0c 00 00".repeat(5461)));
        for (WireFormat format : formats()) {
            for (byte[] octets : worst) {
                assertTimeoutPreemptively(Duration.ofSeconds(20), () -> {
                    WireFormat.Decoder decoder = format.newDecoder();
                    for (int i = 0; i < 3; i++) {
                        check(decoder.decode(Wire.datagram(octets)));
                    }
                });
            }
        }
    }
}
