package org.rejoin.console.recording;

import java.nio.ByteBuffer;
import java.util.Arrays;
import java.util.Optional;
import java.util.stream.Collectors;

/** The link layers whose frames are read; numbers from the registry at tcpdump.org/linktypes.html. */
enum LinkType {
    NULL("null/loopback (0)"),
    ETHERNET("Ethernet (1)"),
    /** 12 and 14 are how some systems write raw IP into files; 228 and 229 name the IP version. */
    RAW("raw IP (12, 14, 101, 228, 229)"),
    LOOP("OpenBSD loopback (108)"),
    LINUX_COOKED("Linux cooked (113)"),
    LINUX_COOKED_2("Linux cooked v2 (276)");

    static final int NOT_IP = -1;
    private static final int ETHERTYPE_IPV4 = 0x0800;
    private static final int ETHERTYPE_IPV6 = 0x86DD;

    private final String text;

    LinkType(String text) {
        this.text = text;
    }

    /** Where the IP packet begins in a big-endian frame, or {@link #NOT_IP}. */
    int packetOffset(ByteBuffer frame) {
        return switch (this) {
            case NULL, LOOP -> afterFamily(frame);
            case ETHERNET -> afterTags(frame);
            case RAW -> 0;
            case LINUX_COOKED -> frame.limit() >= 16 && isIp(u16(frame, 14)) ? 16 : NOT_IP;
            case LINUX_COOKED_2 -> frame.limit() >= 20 && isIp(u16(frame, 0)) ? 20 : NOT_IP;
        };
    }

    static Optional<LinkType> of(int number) {
        return switch (number) {
            case 0 -> Optional.of(NULL);
            case 1 -> Optional.of(ETHERNET);
            case 12, 14, 101, 228, 229 -> Optional.of(RAW);
            case 108 -> Optional.of(LOOP);
            case 113 -> Optional.of(LINUX_COOKED);
            case 276 -> Optional.of(LINUX_COOKED_2);
            default -> Optional.empty();
        };
    }

    /** All that can be read, for messages. */
    static String known() {
        return Arrays.stream(values()).map(type -> type.text).collect(Collectors.joining(", "));
    }

    /** The address family stands in the byte order of the machine that captured, which the file does not name. */
    private static int afterFamily(ByteBuffer frame) {
        if (frame.limit() < 4) {
            return NOT_IP;
        }
        int family = frame.getInt(0);
        int either = (family & 0xFFFF_FF00) == 0 ? family : Integer.reverseBytes(family);
        return switch (either) {
            case 2, 10, 23, 24, 28, 30 -> 4; // 2 is IPv4 everywhere, the others are IPv6 on one system each
            default -> NOT_IP;
        };
    }

    private static int afterTags(ByteBuffer frame) {
        for (int at = 12; at + 2 <= frame.limit(); at += 4) {
            int type = u16(frame, at);
            if (isIp(type)) {
                return at + 2;
            }
            if (type != 0x8100 && type != 0x88A8 && type != 0x9100) {
                return NOT_IP;
            }
        }
        return NOT_IP;
    }

    private static boolean isIp(int etherType) {
        return etherType == ETHERTYPE_IPV4 || etherType == ETHERTYPE_IPV6;
    }

    static int u16(ByteBuffer buffer, int at) {
        return Short.toUnsignedInt(buffer.getShort(at));
    }
}
