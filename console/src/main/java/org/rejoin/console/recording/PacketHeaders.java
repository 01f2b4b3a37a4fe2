package org.rejoin.console.recording;

import java.net.Inet4Address;
import java.net.Inet6Address;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;

import org.rejoin.protocol.Datagram;

import org.jspecify.annotations.Nullable;

/** The IP packet that a datagram arrived in, built again: IPv4 of RFC 791, IPv6 of RFC 8200, UDP of RFC 768. */
record PacketHeaders(InetSocketAddress destination) {

    private static final int IPV4 = 20;
    private static final int IPV6 = 40;
    private static final int HOPS = 64;

    /** Octets of the packet; a datagram that does not fit into one of its sender's family is refused. */
    int length(Datagram datagram) {
        boolean v6 = datagram.sender().getAddress() instanceof Inet6Address;
        int udp = UdpPacket.UDP_HEADER + datagram.length();
        int most = v6 ? 0xFFFF : 0xFFFF - IPV4;
        if (udp > most) {
            throw new IllegalArgumentException("a datagram of " + datagram.length() + " octets; at most "
                    + (most - UdpPacket.UDP_HEADER) + " fit into a packet");
        }
        return (v6 ? IPV6 : IPV4) + udp;
    }

    /** Writes the packet at the buffer's position; headers are big-endian whatever the buffer's order. */
    void put(ByteBuffer buffer, Datagram datagram) {
        ByteOrder order = buffer.order();
        buffer.order(ByteOrder.BIG_ENDIAN);
        int udpLength = UdpPacket.UDP_HEADER + datagram.length();
        boolean v6 = datagram.sender().getAddress() instanceof Inet6Address;
        byte[] from = octets(datagram.sender().getAddress(), v6);
        byte[] to = octets(destination.getAddress(), v6);
        int start = buffer.position();
        if (v6) {
            buffer.putInt(6 << 28)
                    .putShort((short) udpLength)
                    .put((byte) UdpPacket.UDP)
                    .put((byte) HOPS);
            buffer.put(from).put(to);
        } else {
            buffer.putShort((short) 0x4500).putShort((short) (IPV4 + udpLength));
            buffer.putInt(0x4000); // no identification, do not fragment
            buffer.put((byte) HOPS).put((byte) UdpPacket.UDP).putShort((short) 0);
            buffer.put(from).put(to);
            buffer.putShort(start + 10, (short) ~sum(buffer, start, IPV4, 0));
        }
        int udp = buffer.position();
        buffer.putShort((short) datagram.sender().getPort()).putShort((short) destination.getPort());
        buffer.putShort((short) udpLength).putShort((short) 0);
        buffer.put(datagram.payload().duplicate());
        int addresses = sum(buffer, udp - 2 * from.length, 2 * from.length, UdpPacket.UDP + udpLength);
        int checksum = ~sum(buffer, udp, udpLength, addresses) & 0xFFFF;
        buffer.putShort(udp + 6, (short) (checksum == 0 ? 0xFFFF : checksum)); // 0 would mean "none"
        buffer.order(order);
    }

    /** One's complement sum of RFC 1071, going on from {@code sum}. */
    static int sum(ByteBuffer buffer, int at, int length, int sum) {
        long total = sum;
        int even = length & ~1;
        for (int i = 0; i < even; i += 2) {
            total += Short.toUnsignedInt(buffer.getShort(at + i));
        }
        if (even < length) {
            total += (buffer.get(at + even) & 0xFF) << 8;
        }
        while (total >>> 16 != 0) {
            total = (total & 0xFFFF) + (total >>> 16);
        }
        return (int) total;
    }

    /** The address in the packet's family; an address of the other family, or none, becomes that family's loopback. */
    private static byte[] octets(@Nullable InetAddress address, boolean v6) {
        if (v6) {
            byte[] loopback = new byte[16];
            loopback[15] = 1;
            return address instanceof Inet6Address ? address.getAddress() : loopback;
        }
        return address instanceof Inet4Address ? address.getAddress() : new byte[] {127, 0, 0, 1};
    }
}
