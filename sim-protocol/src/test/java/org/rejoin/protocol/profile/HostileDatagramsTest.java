package org.rejoin.protocol.profile;

import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;

import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.Wire;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.detect.WireFormats;

import org.junit.jupiter.api.Test;

/** Non-regression: the largest datagrams do not make a decoder hang; damaged ones are in DecoderFuzzTest. */
class HostileDatagramsTest {

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
