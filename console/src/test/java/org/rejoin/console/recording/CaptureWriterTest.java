package org.rejoin.console.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;

import org.rejoin.protocol.Datagram;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class CaptureWriterTest {

    private static final InetSocketAddress HERE = Packets.address("7f000001", 3000);
    private static final InetSocketAddress SENDER = Packets.address("7f000001", 40_000);
    private static final InetSocketAddress SENDER6 = Packets.address("20010db8 00000000 00000000 00000007", 65_535);

    @TempDir
    private Path folder;

    @Test
    void whatIsWrittenIsReadBack() throws IOException {
        SplittableRandom random = new SplittableRandom(1);
        List<Datagram> written = new ArrayList<>();
        for (int length : new int[] {0, 1, 2, 143, 144, 1472, 5000, 65_506, 65_507}) {
            written.add(datagram(random, 1_780_348_474_000_000L + written.size(), SENDER, length));
            written.add(datagram(random, 4_000_000_000_999_999L, SENDER6, length));
        }
        written.add(datagram(random, 1, SENDER6, 65_527));
        Path file = folder.resolve("flight.pcap");
        try (CaptureWriter writer = CaptureWriter.create(file, HERE)) {
            for (Datagram datagram : written) {
                writer.write(datagram);
            }
        }
        Captured contents = Captured.in(file);
        assertThat(contents.datagrams()).isEqualTo(written);
        assertThat(contents.tear()).isEmpty();
        assertThat(contents.skipped()).isEmpty();
    }

    @Test
    void refusesWhatNoPacketCanHold() throws IOException {
        try (CaptureWriter writer = CaptureWriter.create(folder.resolve("a"), HERE)) {
            assertThatThrownBy(() -> writer.write(Datagram.of(0, SENDER, new byte[65_508])))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessageContaining("65508 octets; at most 65507");
        }
    }

    /** Literal packet, checksums worked out by hand with RFC 1071: one datagram "A" from 127.0.0.1:40000. */
    @Test
    void headersAreThoseOfTheStandards() throws IOException {
        Path file = folder.resolve("flight.pcap");
        try (CaptureWriter writer = CaptureWriter.create(file, HERE)) {
            writer.write(Datagram.of(1_000_002, SENDER, new byte[] {'A'}));
        }
        byte[] expected = Packets.join(
                Packets.hex("d4c3b2a1 0200 0400 00000000 00000000 00000400 65000000"),
                Packets.hex("01000000 02000000 1d000000 1d000000"),
                Packets.hex("4500 001d 0000 4000 40 11 3cce 7f000001 7f000001"),
                Packets.hex("9c40 0bb8 0009 18e1 41"));
        assertThat(Files.readAllBytes(file)).isEqualTo(expected);
    }

    @Test
    void everyChecksumAddsUpToAllOnes() throws IOException {
        SplittableRandom random = new SplittableRandom(2);
        PacketHeaders headers = new PacketHeaders(HERE);
        for (int i = 0; i < 500; i++) {
            boolean v6 = random.nextBoolean();
            Datagram datagram = datagram(random, 0, v6 ? SENDER6 : SENDER, random.nextInt(70));
            ByteBuffer packet = ByteBuffer.allocate(headers.length(datagram)).order(ByteOrder.LITTLE_ENDIAN);
            headers.put(packet, datagram);
            assertThat(packet.hasRemaining()).isFalse();
            packet.order(ByteOrder.BIG_ENDIAN);
            int udp = v6 ? 40 : 20;
            int length = packet.limit() - udp;
            if (!v6) {
                assertThat(PacketHeaders.sum(packet, 0, 20, 0)).isEqualTo(0xFFFF);
            }
            int addresses = v6 ? 32 : 8;
            int pseudo = PacketHeaders.sum(packet, udp - addresses, addresses, 17 + length);
            assertThat(PacketHeaders.sum(packet, udp, length, pseudo)).isEqualTo(0xFFFF);
        }
    }

    @Test
    void neverOverwritesARecording() throws IOException {
        Path file = Files.writeString(folder.resolve("flight.pcap"), "precious");
        assertThatThrownBy(() -> CaptureWriter.create(file, HERE)).hasMessageContaining("exists already");
        assertThatThrownBy(() -> CaptureWriter.append(file, HERE)).hasMessageContaining("is not a capture");
        assertThat(file).hasContent("precious");
        byte[] foreign = new Packets.FileOf(ByteOrder.BIG_ENDIAN, true, 1).octets();
        Files.write(file, foreign);
        assertThatThrownBy(() -> CaptureWriter.append(file, HERE)).hasMessageContaining("another program");
        assertThat(file).hasBinaryContent(foreign);
    }

    @Test
    void goesOnAfterATearAtAnyOctet() throws IOException {
        Path file = folder.resolve("flight.pcap");
        Datagram first = Datagram.of(1, SENDER, new byte[] {1, 2, 3});
        Datagram second = Datagram.of(2, SENDER, new byte[] {4});
        Datagram third = Datagram.of(3, SENDER, new byte[] {5, 6});
        try (CaptureWriter writer = CaptureWriter.create(file, HERE)) {
            writer.write(first);
            writer.write(second);
        }
        byte[] whole = Files.readAllBytes(file);
        int afterFirst = 24 + 16 + 28 + 3;
        for (int length = 0; length <= whole.length; length++) {
            Files.write(file, Arrays.copyOf(whole, length));
            try (CaptureWriter writer = CaptureWriter.append(file, HERE)) {
                writer.write(third);
            }
            List<Datagram> expected = new ArrayList<>(List.of(third));
            if (length == whole.length) {
                expected.add(0, second);
            }
            if (length >= afterFirst) {
                expected.add(0, first);
            }
            Captured contents = Captured.in(file);
            assertThat(contents.datagrams()).as("torn at %d", length).isEqualTo(expected);
            assertThat(contents.tear()).isEmpty();
        }
    }

    @Test
    void aPacketToolOpensIt() throws Exception {
        assumeTrue(runs("tcpdump", "--version"), "tcpdump is not installed");
        Path file = folder.resolve("flight.pcap");
        try (CaptureWriter writer = CaptureWriter.create(file, HERE)) {
            writer.write(Datagram.of(1_000_002, SENDER, "hello".getBytes(StandardCharsets.US_ASCII)));
        }
        Process tool = new ProcessBuilder("tcpdump", "-nn", "-vv", "-r", file.toString())
                .redirectErrorStream(true)
                .start();
        String said = new String(tool.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(tool.waitFor(10, TimeUnit.SECONDS)).isTrue();
        assertThat(said)
                .contains("127.0.0.1.40000 > 127.0.0.1.3000")
                .contains("[udp sum ok]")
                .contains("length 5");
    }

    private static boolean runs(String... command) throws InterruptedException {
        try {
            return new ProcessBuilder(command)
                            .redirectErrorStream(true)
                            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                            .start()
                            .waitFor()
                    == 0;
        } catch (IOException e) {
            return false;
        }
    }

    private static Datagram datagram(SplittableRandom random, long micros, InetSocketAddress sender, int length) {
        byte[] octets = new byte[length];
        random.nextBytes(octets);
        return Datagram.of(micros, sender, octets);
    }
}
