package org.rejoin.console.recording;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The mark of a gap in a recording: an IPv4 packet in the place of the datagrams that are missing, of protocol 253, which
 * RFC 3692 keeps for experiments. Packet tools show it as such and go on; its text says how many there were.
 */
final class GapMark {

    static final int PROTOCOL = 253;

    private static final int HEADER = 20;
    private static final int MOST_TEXT = 64;
    private static final Pattern TEXT = Pattern.compile("datagrams missing here: (\\d{1,18})");

    private GapMark() {}

    /** The whole packet, big-endian, to be written as it is. */
    static byte[] packet(long datagrams) {
        byte[] text = ("datagrams missing here: " + datagrams).getBytes(StandardCharsets.US_ASCII);
        ByteBuffer packet = ByteBuffer.allocate(HEADER + text.length).order(ByteOrder.BIG_ENDIAN);
        packet.putShort((short) 0x4500).putShort((short) packet.capacity()).putInt(0x4000);
        packet.put((byte) 1).put((byte) PROTOCOL).putShort((short) 0);
        packet.putInt(0x7F000001).putInt(0x7F000001); // from this machine to itself
        packet.putShort(10, (short) ~PacketHeaders.sum(packet, 0, HEADER, 0));
        return packet.put(text).array();
    }

    /** What stands in such a packet; another one where it is none of ours. */
    static UdpPacket read(ByteBuffer frame, int at) {
        int length = frame.limit() - at;
        if (length <= 0 || length > MOST_TEXT) {
            return UdpPacket.Skipped.OTHER;
        }
        byte[] text = new byte[length];
        frame.get(at, text);
        Matcher found = TEXT.matcher(new String(text, StandardCharsets.US_ASCII));
        return found.matches() ? new UdpPacket.Missing(Long.parseLong(found.group(1))) : UdpPacket.Skipped.OTHER;
    }
}
