package org.rejoin.console.recording;

import java.io.ByteArrayOutputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.UnknownHostException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.HexFormat;

/** Captures put together by hand, octet by octet, as other programs would write them. */
final class Packets {

    private Packets() {}

    /** A capture file of one link type: header and records in the given order and resolution. */
    static final class FileOf {
        private final ByteArrayOutputStream out = new ByteArrayOutputStream();
        private final ByteOrder order;

        FileOf(ByteOrder order, boolean nanoseconds, int link) {
            this.order = order;
            ByteBuffer fields = ByteBuffer.wrap(new byte[24]).order(order);
            write(fields.putInt(nanoseconds ? 0xA1B23C4D : 0xA1B2C3D4)
                    .putShort((short) 2)
                    .putShort((short) 4)
                    .putInt(0)
                    .putInt(0)
                    .putInt(65_535)
                    .putInt(link));
        }

        FileOf packet(int seconds, int fraction, byte[] frame) {
            return packet(seconds, fraction, frame, frame.length);
        }

        FileOf packet(int seconds, int fraction, byte[] frame, int original) {
            ByteBuffer fields = ByteBuffer.wrap(new byte[16]).order(order);
            write(fields.putInt(seconds).putInt(fraction).putInt(frame.length).putInt(original));
            out.writeBytes(frame);
            return this;
        }

        byte[] octets() {
            return out.toByteArray();
        }

        private void write(ByteBuffer fields) {
            byte[] octets = new byte[fields.flip().remaining()];
            fields.get(octets);
            out.writeBytes(octets);
        }
    }

    /** An address written in hexadecimal, 8 digits for IPv4, 32 for IPv6. */
    static InetSocketAddress address(String hex, int port) {
        try {
            return new InetSocketAddress(InetAddress.getByAddress(hex(hex)), port);
        } catch (UnknownHostException e) {
            throw new IllegalArgumentException(e);
        }
    }

    static byte[] hex(String text) {
        return HexFormat.of().parseHex(text.replaceAll("\\s", ""));
    }

    static byte[] join(byte[]... parts) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        for (byte[] part : parts) {
            out.writeBytes(part);
        }
        return out.toByteArray();
    }

    /** UDP from port 5004 (0x138c) to 3000 (0x0bb8); checksum left at 0, "none". */
    static byte[] udp(byte[] payload) {
        int length = 8 + payload.length;
        return join(hex("138c 0bb8"), new byte[] {(byte) (length >>> 8), (byte) length, 0, 0}, payload);
    }

    /** IPv4 from 192.0.2.7 to 192.0.2.9 (RFC 5737); header checksum left at 0 as a card that fills it in would see. */
    static byte[] ipv4(int flagsAndOffset, int protocol, byte[] body) {
        int length = 20 + body.length;
        return join(
                new byte[] {
                    0x45,
                    0,
                    (byte) (length >>> 8),
                    (byte) length,
                    0,
                    1,
                    (byte) (flagsAndOffset >>> 8),
                    (byte) flagsAndOffset,
                    64,
                    (byte) protocol,
                    0,
                    0
                },
                hex("c0000207 c0000209"),
                body);
    }

    /** IPv6 from 2001:db8::7 to 2001:db8::9 (RFC 3849). */
    static byte[] ipv6(int next, byte[] body) {
        return join(
                new byte[] {0x60, 0, 0, 0, (byte) (body.length >>> 8), (byte) body.length, (byte) next, 64},
                hex("20010db8 00000000 00000000 00000007 20010db8 00000000 00000000 00000009"),
                body);
    }
}
