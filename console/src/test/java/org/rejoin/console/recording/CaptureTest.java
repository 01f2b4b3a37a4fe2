package org.rejoin.console.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;

import org.rejoin.protocol.Datagram;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CaptureTest {

    private static final byte[] PAYLOAD = "{\"latitude_deg\":30.5}".getBytes(StandardCharsets.US_ASCII);
    private static final byte[] IPV4 = Packets.ipv4(0, 17, Packets.udp(PAYLOAD));
    private static final byte[] IPV6 = Packets.ipv6(17, Packets.udp(PAYLOAD));
    private static final String MACS = "020000000001 020000000002 ";

    @ParameterizedTest
    @CsvSource({
        "0, 02000000, 4",
        "0, 00000002, 4",
        "0, 1e000000, 6",
        "0, 18000000, 6",
        "1, 020000000001 020000000002 0800, 4",
        "1, 020000000001 020000000002 86dd, 6",
        "1, 020000000001 020000000002 8100 0007 0800, 4",
        "1, 020000000001 020000000002 88a8 0007 8100 0009 86dd, 6",
        "12, '', 4",
        "101, '', 4",
        "101, '', 6",
        "228, '', 4",
        "229, '', 6",
        "108, 00000002, 4",
        "108, 0000001c, 6",
        "113, 0000 0304 0006 000000000000 0000 0800, 4",
        "113, 0000 0304 0006 000000000000 0000 86dd, 6",
        "276, 0800 0000 00000001 0304 00 06 0000000000000000, 4",
    })
    void readsEveryLinkLayerInBothByteOrdersAndResolutions(int link, String linkHeader, int version)
            throws IOException {
        byte[] frame = Packets.join(Packets.hex(linkHeader), version == 4 ? IPV4 : IPV6);
        String sender = version == 4 ? "c0000207" : "20010db8 00000000 00000000 00000007";
        for (ByteOrder order : List.of(ByteOrder.BIG_ENDIAN, ByteOrder.LITTLE_ENDIAN)) {
            for (boolean nanoseconds : new boolean[] {false, true}) {
                byte[] file = new Packets.FileOf(order, nanoseconds, link)
                        .packet(1_780_348_474, nanoseconds ? 500_001_999 : 500_001, frame)
                        .packet(0xF0000000, 1, frame) // after 2038: unsigned
                        .octets();
                Captured read = read(file);
                assertThat(read.datagrams()).hasSize(2);
                assertThat(read.tear()).isEmpty();
                assertThat(read.skipped()).isEmpty();
                Datagram first = read.datagrams().get(0);
                assertThat(first.receivedMicros()).isEqualTo(1_780_348_474_500_001L);
                assertThat(first.sender()).isEqualTo(Packets.address(sender, 5004));
                assertThat(octets(first)).isEqualTo(PAYLOAD);
                assertThat(read.datagrams().get(1).receivedMicros()).isGreaterThan(4_026_000_000_000_000L);
            }
        }
    }

    @Test
    void leavesOutThePaddingOfShortEthernetFrames() throws IOException {
        byte[] one = Packets.ipv4(0, 17, Packets.udp(new byte[] {'x'}));
        byte[] frame = Packets.join(Packets.hex(MACS + "0800"), one, new byte[17]);
        Captured read = read(ethernet().packet(1, 0, frame).octets());
        assertThat(octets(read.datagrams().get(0))).containsExactly('x');
    }

    @Test
    void readsAcrossIpv6ExtensionHeadersAndIpv4Options() throws IOException {
        byte[] hopByHop = Packets.join(Packets.hex("3c00 0104 00000000"), Packets.hex("1100 0104 00000000"));
        byte[] v6 = Packets.ipv6(0, Packets.join(hopByHop, Packets.udp(PAYLOAD)));
        byte[] whole = Packets.ipv6(44, Packets.join(Packets.hex("1100 0000 00000001"), Packets.udp(PAYLOAD)));
        byte[] plain = Packets.ipv4(0, 17, Packets.udp(PAYLOAD));
        byte[] options =
                Packets.join(new byte[] {0x46}, Arrays.copyOfRange(plain, 1, 20), new byte[4], Packets.udp(PAYLOAD));
        byte[] file = new Packets.FileOf(ByteOrder.BIG_ENDIAN, false, 101)
                .packet(1, 0, v6)
                .packet(2, 0, whole)
                .packet(3, 0, options)
                .octets();
        Captured read = read(file);
        assertThat(read.datagrams())
                .hasSize(3)
                .allSatisfy(d -> assertThat(octets(d)).isEqualTo(PAYLOAD));
    }

    @Test
    void skipsAndCountsWhatIsNotAWholeDatagram() throws IOException {
        byte[] ether4 = Packets.hex(MACS + "0800");
        byte[] ether6 = Packets.hex(MACS + "86dd");
        byte[] file = ethernet()
                .packet(1, 0, Packets.hex(MACS + "0806 0001"))
                .packet(1, 1, Packets.join(ether4, Packets.ipv4(0, 6, new byte[20])))
                .packet(1, 2, Packets.join(ether4, Packets.ipv4(0x2000, 17, Packets.udp(PAYLOAD))))
                .packet(1, 3, Packets.join(ether4, Packets.ipv4(0x00B9, 17, new byte[8])))
                .packet(
                        1,
                        4,
                        Packets.join(ether6, Packets.ipv6(44, Packets.hex("1100 0001 00000001 138c0bb8 0bb8 0000"))))
                .packet(1, 5, Arrays.copyOf(Packets.join(ether4, IPV4), 50), 14 + IPV4.length)
                .packet(1, 6, Packets.join(ether4, IPV4))
                .packet(1, 7, Packets.hex("ff"))
                .octets();
        Captured read = read(file);
        assertThat(read.datagrams()).hasSize(1);
        assertThat(read.skipped().orElseThrow())
                .isEqualTo("skipped beside 1 datagrams: 3 fragments of larger datagrams, 1 cut short by the capturing"
                        + " program (let it keep whole packets), 3 that are not UDP");
    }

    @Test
    void readsUpToTheTearWhereverItIs() throws IOException {
        byte[] file = ethernet()
                .packet(1, 0, Packets.join(Packets.hex(MACS + "0800"), IPV4))
                .packet(2, 0, Packets.join(Packets.hex(MACS + "86dd"), IPV6))
                .octets();
        int first = 24 + 16 + 14 + IPV4.length;
        for (int length = 24; length <= file.length; length++) {
            Captured read = read(Arrays.copyOf(file, length));
            int whole = length == file.length ? 2 : length >= first ? 1 : 0;
            assertThat(read.datagrams()).as("of %d octets", length).hasSize(whole);
            if (length == 24 || length == first || length == file.length) {
                assertThat(read.tear()).as("of %d octets", length).isEmpty();
            } else {
                long at = length < first ? 24 : first;
                assertThat(read.tear().orElseThrow()).startsWith("torn at octet " + at + ": ");
            }
        }
        for (int length = 4; length < 24; length++) {
            byte[] cut = Arrays.copyOf(file, length);
            assertThatThrownBy(() -> read(cut))
                    .isInstanceOf(IOException.class)
                    .hasMessageContaining("ends after " + cut.length + " octets");
        }
    }

    /** A program that keeps the first so many octets of a packet may keep none; the record says how long it was. */
    @Test
    void goesOnAfterARecordOfWhichNothingWasKept() throws IOException {
        Packets.FileOf file = ethernet();
        for (int i = 0; i < 3; i++) {
            file.packet(10 + i, 0, new byte[0], 60);
            file.packet(10 + i, 1, Packets.join(Packets.hex(MACS + "0800"), IPV4));
        }
        try (Capture capture = Capture.read(new ByteArrayInputStream(file.octets()), "x")) {
            for (int i = 0; i < 3; i++) {
                assertThat(capture.next()).isPresent();
            }
            assertThat(capture.next()).isEmpty();
            assertThat(capture.tear()).isEmpty();
            assertThat(capture.skipped().orElseThrow()).contains("3 cut short");
        }
    }

    @Test
    void stopsAtZerosAndAtAbsurdLengths() throws IOException {
        byte[] good = ethernet()
                .packet(1, 0, Packets.join(Packets.hex(MACS + "0800"), IPV4))
                .octets();
        for (byte[] tail : List.of(new byte[64], Packets.hex("00000001 00000000 7fffffff 7fffffff"))) {
            Captured read = read(Packets.join(good, tail));
            assertThat(read.datagrams()).hasSize(1);
            assertThat(read.tear().orElseThrow()).startsWith("torn at octet " + good.length + ": ");
        }
    }

    @Test
    void saysWhatAFileIsThatIsNoCapture(@TempDir Path folder) throws IOException {
        assertThatThrownBy(() -> read(new byte[0]))
                .hasMessage("x is empty; a capture (classic pcap) begins with a header of 24 octets");
        assertThatThrownBy(() -> read("{\"format\"".getBytes(StandardCharsets.US_ASCII)))
                .isInstanceOf(IOException.class)
                .hasMessageContaining("x is not a capture: it begins with 7b 22 66 6f");
        assertThatThrownBy(() -> read(new byte[] {1, 2})).hasMessageContaining("it begins with 01 02");
        assertThatThrownBy(() -> read(Packets.hex("0a0d0d0a 1c000000"))).hasMessageContaining("pcapng");
        assertThatThrownBy(() -> read(Packets.hex("1f8b0800 00000000"))).hasMessageContaining("gzip");
        assertThatThrownBy(() -> read(new Packets.FileOf(ByteOrder.BIG_ENDIAN, false, 105).octets()))
                .hasMessageContaining("link type 105; these are read: null/loopback (0), Ethernet (1), raw IP (12,");
        assertThatThrownBy(() -> Capture.open(folder.resolve("none.pcap"))).hasMessageContaining("there is no file");
        assertThatThrownBy(() -> Capture.open(folder)).hasMessageContaining("is a directory");
        Path empty = Files.createFile(folder.resolve("empty.pcap"));
        assertThatThrownBy(() -> Captured.in(empty)).hasMessageContaining("empty.pcap is empty");
    }

    @Test
    void isNotHurtByWhateverFollowsTheHeader() throws IOException {
        SplittableRandom random = new SplittableRandom(5);
        for (int link : new int[] {0, 1, 101, 108, 113, 276}) {
            for (int i = 0; i < 2000; i++) {
                Packets.FileOf file = new Packets.FileOf(ByteOrder.LITTLE_ENDIAN, false, link);
                for (int n = 0; n < 3; n++) {
                    byte[] frame = link == 1 ? Packets.join(Packets.hex(MACS + "0800"), IPV4) : IPV4.clone();
                    for (int k = random.nextInt(4); k > 0; k--) {
                        frame[random.nextInt(frame.length)] = (byte) random.nextInt();
                    }
                    file.packet(n, 0, Arrays.copyOf(frame, 1 + random.nextInt(frame.length)), frame.length);
                }
                byte[] octets = file.octets();
                if (random.nextBoolean()) {
                    octets[24 + random.nextInt(octets.length - 24)] = (byte) random.nextInt();
                }
                assertThat(read(octets).datagrams()).hasSizeLessThanOrEqualTo(3);
            }
        }
    }

    private static Captured read(byte[] file) throws IOException {
        return Captured.in(Capture.read(new ByteArrayInputStream(file), "x"));
    }

    private static Packets.FileOf ethernet() {
        return new Packets.FileOf(ByteOrder.LITTLE_ENDIAN, false, 1);
    }

    static byte[] octets(Datagram datagram) {
        byte[] octets = new byte[datagram.length()];
        datagram.payload().duplicate().get(octets);
        return octets;
    }
}
