package org.rejoin.console.room;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.util.Optional;

import org.rejoin.bridge.feed.AircraftKey;

import org.junit.jupiter.api.Test;

/** One seat of the room. */
class RoomSeatTest {

    @Test
    void aSeatThatSentNoStateYetCountsAsHeardSinceItCame() {
        InetSocketAddress sender = new InetSocketAddress(InetAddress.getLoopbackAddress(), 4_000);
        RoomSeat seat = new RoomSeat("s1", new AircraftKey(sender, ""), "", "Seat 1", Optional.empty(), 7_000_000);
        assertThat(seat.heardMicros()).isEqualTo(7_000_000);
    }
}
