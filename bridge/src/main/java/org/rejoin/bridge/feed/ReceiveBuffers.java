package org.rejoin.bridge.feed;

import org.rejoin.protocol.Datagram;

import io.netty.buffer.ByteBuf;
import io.netty.buffer.ByteBufAllocator;
import io.netty.buffer.Unpooled;
import io.netty.channel.ChannelConfig;
import io.netty.channel.FixedRecvByteBufAllocator;
import io.netty.channel.RecvByteBufAllocator;
import io.netty.util.UncheckedBooleanSupplier;

/**
 * Room for what one look at the socket gives. Each datagram may be the largest there is, but takes only as much as it is long:
 * the next one is written behind it. All are copied and given back before the next look, which begins at the start again. So
 * one piece of memory, taken when the socket is opened, serves for good. For one socket at a time.
 */
@SuppressWarnings("deprecation") // the older of two kinds of handle, which this interface still speaks of
final class ReceiveBuffers implements RecvByteBufAllocator {

    /** More than comes in while a slice of the backlog is worked on. */
    private static final int MOST_AT_ONCE = 1024;

    /** Of the largest datagrams so many fit. */
    private static final int LEAST_AT_ONCE = 8;

    private final FixedRecvByteBufAllocator usual = new FixedRecvByteBufAllocator(Datagram.MAX_LENGTH);
    private final ByteBuf room = Unpooled.directBuffer(LEAST_AT_ONCE * Datagram.MAX_LENGTH);

    ReceiveBuffers() {
        usual.maxMessagesPerRead(MOST_AT_ONCE);
        room.writerIndex(room.capacity());
    }

    @Override
    public Handle newHandle() {
        return new OneBehindTheOther(usual.newHandle());
    }

    private final class OneBehindTheOther extends DelegatingHandle implements ExtendedHandle {
        private final Handle usual;
        private int taken;

        OneBehindTheOther(Handle usual) {
            super(usual);
            this.usual = usual;
        }

        @Override
        public void reset(ChannelConfig config) {
            taken = 0;
            super.reset(config);
        }

        @Override
        public ByteBuf allocate(ByteBufAllocator allocator) {
            return room.retainedSlice(taken, Datagram.MAX_LENGTH).clear();
        }

        @Override
        public void lastBytesRead(int octets) {
            taken += Math.max(0, octets);
            super.lastBytesRead(octets);
        }

        private boolean full() {
            return taken + Datagram.MAX_LENGTH > room.capacity();
        }

        @Override
        public boolean continueReading() {
            return !full() && super.continueReading();
        }

        /** This one is asked for datagrams, which never fill their buffer. */
        @Override
        public boolean continueReading(UncheckedBooleanSupplier maybeMore) {
            return !full()
                    && (usual instanceof ExtendedHandle extended
                            ? extended.continueReading(maybeMore)
                            : usual.continueReading());
        }
    }
}
