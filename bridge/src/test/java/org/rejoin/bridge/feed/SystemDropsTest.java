package org.rejoin.bridge.feed;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The table of Linux, as proc_net_udp(5) describes it; on a little-endian machine, where words stand backwards. */
class SystemDropsTest {

    private static final String HEAD =
            "   sl  local_address rem_address   st tx_queue rx_queue tr tm->when retrnsmt   uid"
                    + "  timeout inode ref pointer drops\n";

    @TempDir
    private Path folder;

    private static InetSocketAddress address(String digits, int port) throws Exception {
        return new InetSocketAddress(InetAddress.getByName(digits), port);
    }

    @Test
    void theCountStandsInTheLastColumnOfTheSocketsOwnLine() throws Exception {
        assumeTrue(ByteOrder.nativeOrder() == ByteOrder.LITTLE_ENDIAN);
        Path table = Files.writeString(
                folder.resolve("udp"),
                HEAD
                        + "  114: 0100007F:9BA9 00000000:0000 07 00000000:00033C00 00:00000000 00000000     0        0 399"
                        + " 2 0000000000000000 4908 \n"
                        + "  115: 0200007F:0BB8 00000000:0000 07 00000000:00000000 00:00000000 00000000     0        0 400"
                        + " 2 0000000000000000 7 \n");
        assertThat(new SystemDrops(table, address("127.0.0.1", 0x9BA9)).count()).hasValue(4908);
        assertThat(new SystemDrops(table, address("127.0.0.2", 3000)).count()).hasValue(7);
        assertThat(new SystemDrops(table, address("127.0.0.1", 3000)).count()).isEmpty();
        Path table6 = Files.writeString(
                folder.resolve("udp6"),
                HEAD + "  9: 00000000000000000000000001000000:0BB8 00000000000000000000000000000000:0000 07"
                        + " 00000000:00000000 00:00000000 00000000     0        0 401 2 0000000000000000 3\n");
        assertThat(new SystemDrops(table6, address("::1", 3000)).count()).hasValue(3);
    }

    @Test
    void whereThereIsNoTableOrAnotherOneNothingIsKnown() throws Exception {
        InetSocketAddress here = address("127.0.0.1", 3000);
        assertThat(new SystemDrops(folder.resolve("none"), here).count()).isEmpty();
        Path other = Files.writeString(folder.resolve("other"), "0100007F:0BB8\n  1: 0100007F:0BB8 x\n");
        assertThat(new SystemDrops(other, here).count()).isEmpty();
    }
}
