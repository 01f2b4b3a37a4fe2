package org.rejoin.console.flight;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;

import org.rejoin.bridge.feed.AircraftKey;

import org.junit.jupiter.api.Test;

/** Names are made of what strangers send, and become directories. */
class AircraftNamesTest {

    private static AircraftKey key(int port, String aircraft) {
        return new AircraftKey(new InetSocketAddress(InetAddress.getLoopbackAddress(), port), aircraft);
    }

    @Test
    void aSeatIsCalledByItsMarkingElseByItsNameElseByItsAddress() {
        AircraftName.Names names = new AircraftName.Names();
        assertThat(names.next(key(1, "17:23:1"), "REJOIN 1").label()).isEqualTo("REJOIN 1");
        assertThat(names.next(key(1, "17:23:2"), "  ").label()).isEqualTo("17:23:2");
        assertThat(names.next(key(4711, ""), "").label()).isEqualTo("127.0.0.1:4711");
    }

    @Test
    void whatStrangersSendNeverLeavesTheDirectoryNorReachesTheTerminal() {
        AircraftName.Names names = new AircraftName.Names();
        Set<String> directories = new HashSet<>();
        Set<String> labels = new HashSet<>();
        for (String marking : List.of(
                "../../etc/x",
                "..",
                ".",
                "/",
                "\\\\host\\share",
                "C:\\x",
                "a\u0000b",
                "\u001b[31mred",
                "line\nbreak",
                "\u202Eright to left",
                "CON",
                "con",
                "nul",
                "<script>alert(1)</script>",
                "-rf",
                ".hidden",
                "x".repeat(500),
                "\uD83D\uDE00",
                "ABC",
                "abc",
                "ABC")) {
            AircraftName name = names.next(key(5000 + labels.size(), ""), marking);
            assertThat(name.directory()).as(marking).matches("[A-Za-z0-9][A-Za-z0-9_-]{0,60}");
            assertThat(name.directory().toLowerCase(Locale.ROOT)).isNotIn("con", "nul");
            assertThat(name.label()).as(marking).matches("[\\p{IsAlphabetic}\\p{IsDigit}.:_\\[\\] -]{1,60}");
            assertThat(directories.add(name.directory().toLowerCase(Locale.ROOT)))
                    .as(marking)
                    .isTrue();
            assertThat(labels.add(name.label().toLowerCase(Locale.ROOT)))
                    .as(marking)
                    .isTrue();
        }
    }

    @Test
    void oneNameGivenVeryOftenStaysCheapToTellApart() {
        AircraftName.Names names = new AircraftName.Names();
        Set<String> labels = new HashSet<>();
        for (int i = 0; i < 4096; i++) {
            labels.add(names.next(key(i + 1, ""), "SAME").label());
        }
        assertThat(labels).hasSize(4096).contains("SAME", "SAME 2", "SAME 4096");
    }
}
