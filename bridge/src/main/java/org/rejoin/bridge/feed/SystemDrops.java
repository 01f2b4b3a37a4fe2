package org.rejoin.bridge.feed;

import java.io.IOException;
import java.net.Inet6Address;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.OptionalLong;

/**
 * Datagrams that the system took for a socket and dropped, because the program did not fetch them in time. Linux tells it
 * in {@code /proc/net/udp} (proc_net_udp(5): local address in hexadecimal, the count in the last column); where there is no
 * such file nothing is known.
 */
final class SystemDrops {

    private static final int COLUMNS = 13;

    private final Path table;
    private final String address;

    SystemDrops(InetSocketAddress local) {
        this(Path.of("/proc/net/" + (local.getAddress() instanceof Inet6Address ? "udp6" : "udp")), local);
    }

    SystemDrops(Path table, InetSocketAddress local) {
        this.table = table;
        this.address = hex(local);
    }

    /** Since the socket was opened; empty where the system does not say. */
    OptionalLong count() {
        try {
            return Files.isReadable(table) ? in(Files.readAllLines(table)) : OptionalLong.empty();
        } catch (IOException e) {
            return OptionalLong.empty();
        }
    }

    private OptionalLong in(List<String> lines) {
        for (String line : lines) {
            String[] columns = line.strip().split("\\s+", -1);
            if (columns.length >= COLUMNS && columns[1].equals(address) && columns[12].matches("\\d{1,18}")) {
                return OptionalLong.of(Long.parseLong(columns[12]));
            }
        }
        return OptionalLong.empty();
    }

    /** Words of four octets in the machine's own order, as the system keeps them, and the port. */
    private static String hex(InetSocketAddress local) {
        InetAddress address = local.getAddress();
        ByteBuffer octets = ByteBuffer.wrap(address.getAddress()).order(ByteOrder.nativeOrder());
        StringBuilder text = new StringBuilder();
        while (octets.hasRemaining()) {
            text.append(String.format(Locale.ROOT, "%08X", octets.getInt()));
        }
        return text + String.format(Locale.ROOT, ":%04X", local.getPort());
    }
}
