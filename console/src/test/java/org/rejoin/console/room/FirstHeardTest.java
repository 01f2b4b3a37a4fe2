package org.rejoin.console.room;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.InetAddress;
import java.net.InetSocketAddress;

import org.rejoin.bridge.feed.AircraftKey;

import org.junit.jupiter.api.Test;

/** Who has a seat in the room: whoever goes on from one port, and not each port of a sender that always takes another. */
class FirstHeardTest {

    private final FirstHeard first = new FirstHeard();

    private static AircraftKey at(int port) {
        return new AircraftKey(new InetSocketAddress(InetAddress.getLoopbackAddress(), port), "");
    }

    /** Three speak once from ports of their own: from here on a second state is waited for. */
    private void threeSpokeOnce(long nowMicros) {
        for (int port = 3000; port < 3003; port++) {
            assertThat(first.heard(at(port), "FRESH1", nowMicros)).isTrue();
            assertThat(first.spoke(at(port), nowMicros)).isEmpty();
        }
    }

    @Test
    void whoIsHeardHasASeatAtOnce() {
        for (int port = 4000; port < 4012; port++) {
            assertThat(first.heard(at(port), "REJOIN1", port)).isTrue();
            assertThat(first.spoke(at(port), port)).isEmpty();
            assertThat(first.spoke(at(port), port)).as("it has its seat").isEmpty();
        }
        assertThat(first.look(1_000_000)).isEmpty();
    }

    @Test
    void whereSeveralSpokeOnceTheSecondStateFromAPortMakesASeat() {
        threeSpokeOnce(0);
        assertThat(first.heard(at(4000), "REJOIN1", 0)).isFalse();
        assertThat(first.spoke(at(4000), 0)).isEmpty();
        assertThat(first.spoke(at(4000), 0)).contains("REJOIN1");
        assertThat(first.spoke(at(4000), 0)).as("it has its seat").isEmpty();
    }

    @Test
    void aSenderThatTakesAnotherPortForEachDatagramHasNoMoreThanThreeSeatsAndIsToldOnce() {
        int told = 0;
        int seats = 0;
        for (int i = 0; i < 300; i++) {
            long now = i * 200_000L;
            seats += first.heard(at(4000 + i), "FRESH1", now) ? 1 : 0;
            assertThat(first.spoke(at(4000 + i), now)).isEmpty();
            told += first.look(now).size();
        }
        assertThat(seats).isEqualTo(3);
        assertThat(told).isEqualTo(1);
        assertThat(first.standing())
                .singleElement()
                .asString()
                .startsWith("127.0.0.1 sends each datagram from another port")
                .endsWith("set it to send all from one port (one socket, kept open)");
        // It was set right: after a minute nothing is said any more.
        first.look(300 * 200_000L + 61_000_000);
        assertThat(first.standing()).isEmpty();
    }

    /** The next port is taken for the same aircraft that goes on: still no two states from one port. */
    @Test
    void norWhereTheNextPortIsTakenForTheSameAircraft() {
        threeSpokeOnce(0);
        first.heard(at(4000), "FRESH1", 0);
        assertThat(first.spoke(at(4000), 0)).isEmpty();
        for (int i = 0; i < 20; i++) {
            first.goesOn(at(4000));
            assertThat(first.spoke(at(4000), 0)).isEmpty();
        }
        assertThat(first.spoke(at(4000), 0)).as("two from one port").contains("FRESH1");
    }

    /** The system gives a port again after an hour; and a simulator may speak once while it is loaded, and fly much later. */
    @Test
    void aPortThatSpokeLongAgoIsHeardForTheFirstTimeAgain() {
        threeSpokeOnce(0);
        first.heard(at(4000), "REJOIN1", 0);
        first.spoke(at(4000), 0);
        first.look(61_000_000);
        assertThat(first.spoke(at(4000), 62_000_000)).isEmpty();
        assertThat(first.spoke(at(4000), 62_200_000)).contains("REJOIN1");
    }
}
