package org.rejoin.protocol.profile;

import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;

import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Wire;
import org.rejoin.protocol.WireFormat;

import org.junit.jupiter.api.Test;

/** Non-regression: the largest datagrams do not make a decoder hang; damaged ones are in DecoderFuzzTest. */
class HostileDatagramsTest {

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
        for (WireFormat format : ExampleProfiles.everyFormat()) {
            for (byte[] octets : worst) {
                assertTimeoutPreemptively(Duration.ofSeconds(20), () -> {
                    WireFormat.Decoder decoder = format.newDecoder();
                    for (int i = 0; i < 3; i++) {
                        Wire.requirePlainFaults(decoder.decode(Wire.datagram(octets)));
                    }
                });
            }
        }
    }
}
