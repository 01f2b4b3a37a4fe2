package org.rejoin.console.recording;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.UnknownHostException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What an IP packet of a capture turned out to be. Checksums are not verified: a machine that captures its own traffic
 * sees packets whose checksum the network card has yet to fill in.
 */
sealed interface UdpPacket {

    record Whole(InetSocketAddress sender, ByteBuffer payload) implements UdpPacket {}

    /** What holds no datagram for us. */
    enum Skipped implements UdpPacket {
        /** Part of a datagram; parts are not put together. */
        FRAGMENT,

        /** A datagram of which the capturing program kept only the beginning. */
        CUT,

        /** Anything else. */
        OTHER
    }

    /**
     * Our own mark of a gap in a recording: so many datagrams arrived here that the disk could not take. An IPv4 packet in
     * their place, of protocol 253, which RFC 3692 keeps for experiments: packet tools show it as such and go on; its text
     * says how many there were.
     */
    record Missing(long datagrams) implements UdpPacket {

        private static final int PROTOCOL = 253;

        private static final int HEADER = 20;
        private static final int MOST_TEXT = 64;
        private static final Pattern TEXT = Pattern.compile("datagrams missing here: (\\d{1,18})");

        /** The whole packet, big-endian, to be written as it is. */
        byte[] packet() {
            byte[] text = ("datagrams missing here: " + datagrams).getBytes(StandardCharsets.US_ASCII);
            ByteBuffer packet = ByteBuffer.allocate(HEADER + text.length).order(ByteOrder.BIG_ENDIAN);
            packet.putShort((short) 0x4500).putShort((short) packet.capacity()).putInt(0x4000);
            packet.put((byte) 1).put((byte) PROTOCOL).putShort((short) 0);
            packet.putInt(0x7F000001).putInt(0x7F000001); // from this machine to itself
            packet.putShort(10, (short) ~PacketHeaders.sum(packet, 0, HEADER, 0));
            return packet.put(text).array();
        }

        /** What stands in such a packet; another one where it is none of ours. */
        private static UdpPacket read(ByteBuffer frame, int at) {
            int length = frame.limit() - at;
            if (length <= 0 || length > MOST_TEXT) {
                return Skipped.OTHER;
            }
            byte[] text = new byte[length];
            frame.get(at, text);
            Matcher found = TEXT.matcher(new String(text, StandardCharsets.US_ASCII));
            return found.matches() ? new Missing(Long.parseLong(found.group(1))) : Skipped.OTHER;
        }
    }

    int UDP = 17;
    int UDP_HEADER = 8;

    /**
     * Reads one frame.
     *
     * @param frame big-endian, from index 0 to the limit; position is not used
     * @param link the link layer it came over
     */
    static UdpPacket of(ByteBuffer frame, LinkType link) {
        int at = link.packetOffset(frame);
        if (at == LinkType.NOT_IP || at >= frame.limit()) {
            return Skipped.OTHER;
        }
        return switch (frame.get(at) >>> 4 & 0xF) {
            case 4 -> ipv4(frame, at);
            case 6 -> ipv6(frame, at);
            default -> Skipped.OTHER;
        };
    }

    private static UdpPacket ipv4(ByteBuffer frame, int at) {
        if (frame.limit() - at < 20) {
            return Skipped.OTHER;
        }
        int headerLength = (frame.get(at) & 0xF) * 4;
        if (headerLength == 20 && (frame.get(at + 9) & 0xFF) == Missing.PROTOCOL) {
            return Missing.read(frame, at + headerLength);
        }
        if (headerLength < 20 || (frame.get(at + 9) & 0xFF) != UDP) {
            return Skipped.OTHER;
        }
        if ((LinkType.u16(frame, at + 6) & 0x3FFF) != 0) { // more fragments to come, or not the first
            return Skipped.FRAGMENT;
        }
        return udp(frame, at + headerLength, address(frame, at + 12, 4));
    }

    private static UdpPacket ipv6(ByteBuffer frame, int at) {
        if (frame.limit() - at < 40) {
            return Skipped.OTHER;
        }
        InetAddress source = address(frame, at + 8, 16);
        int next = frame.get(at + 6) & 0xFF;
        int payload = at + 40;
        while (next != UDP) {
            if (frame.limit() - payload < 8) {
                return Skipped.OTHER;
            }
            int after = frame.get(payload) & 0xFF;
            int length = frame.get(payload + 1) & 0xFF;
            switch (next) {
                case 0, 43, 60 -> payload += 8 * (length + 1); // hop-by-hop, routing, destination options
                case 51 -> payload += 4 * (length + 2); // authentication
                case 44 -> {
                    if ((LinkType.u16(frame, payload + 2) & 0xFFF9) != 0) {
                        return after == UDP ? Skipped.FRAGMENT : Skipped.OTHER;
                    }
                    payload += 8;
                }
                default -> {
                    return Skipped.OTHER;
                }
            }
            next = after;
        }
        return udp(frame, payload, source);
    }

    private static UdpPacket udp(ByteBuffer frame, int at, InetAddress source) {
        if (frame.limit() - at < UDP_HEADER) {
            return Skipped.CUT;
        }
        int length = LinkType.u16(frame, at + 4);
        if (length < UDP_HEADER) {
            return Skipped.OTHER;
        }
        if (length > frame.limit() - at) {
            return Skipped.CUT;
        }
        // The UDP length, not the end of the frame: short Ethernet frames are padded.
        byte[] payload = new byte[length - UDP_HEADER];
        frame.get(at + UDP_HEADER, payload);
        return new Whole(new InetSocketAddress(source, LinkType.u16(frame, at)), ByteBuffer.wrap(payload));
    }

    private static InetAddress address(ByteBuffer frame, int at, int length) {
        byte[] octets = new byte[length];
        frame.get(at, octets);
        try {
            return InetAddress.getByAddress(octets);
        } catch (UnknownHostException e) {
            throw new IllegalStateException("an address of " + length + " octets", e);
        }
    }
}
