package org.rejoin.bridge.feed;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;

import org.rejoin.protocol.Datagram;

import io.netty.buffer.ByteBuf;
import io.netty.buffer.UnpooledByteBufAllocator;
import io.netty.channel.RecvByteBufAllocator;
import io.netty.channel.embedded.EmbeddedChannel;
import org.junit.jupiter.api.Test;

@SuppressWarnings("deprecation") // the older of two kinds of handle, as in what is tested
class ReceiveBuffersTest {

    private final EmbeddedChannel socket = new EmbeddedChannel();
    private final RecvByteBufAllocator.ExtendedHandle handle =
            (RecvByteBufAllocator.ExtendedHandle) new ReceiveBuffers().newHandle();

    /** One look: each datagram filled with its own number; how many there was room for. */
    private List<ByteBuf> look(int length, int most) {
        handle.reset(socket.config());
        List<ByteBuf> read = new ArrayList<>();
        do {
            ByteBuf one = handle.allocate(UnpooledByteBufAllocator.DEFAULT);
            assertThat(one.writableBytes()).isGreaterThanOrEqualTo(Datagram.MAX_LENGTH);
            for (int i = 0; i < length; i++) {
                one.writeByte(read.size());
            }
            handle.lastBytesRead(length);
            handle.incMessagesRead(1);
            read.add(one);
        } while (handle.continueReading(() -> true) && read.size() < most);
        return read;
    }

    @Test
    void no_datagram_of_a_look_is_written_over_by_the_next() {
        for (int length : new int[] {0, 1, 200, 9_000, Datagram.MAX_LENGTH}) {
            List<ByteBuf> read = look(length, 200);
            for (int i = 0; i < read.size(); i++) {
                assertThat(read.get(i).readableBytes()).isEqualTo(length);
                for (int k = 0; k < length; k += 97) {
                    assertThat(read.get(i).getByte(k)).isEqualTo((byte) i);
                }
                read.get(i).release();
            }
        }
    }

    @Test
    void a_look_ends_where_the_largest_datagram_would_not_fit_any_more_and_the_next_begins_anew() {
        for (int times = 0; times < 3; times++) {
            List<ByteBuf> read = look(Datagram.MAX_LENGTH, 1_000);
            assertThat(read).hasSize(8);
            read.forEach(ByteBuf::release);
        }
        assertThat(look(200, 1_000)).hasSize(1_000);
    }
}
