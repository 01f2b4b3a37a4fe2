package org.rejoin.bridge.feed;

import java.nio.ByteBuffer;

import org.rejoin.protocol.Datagram;

import io.netty.buffer.ByteBuf;
import io.netty.buffer.ByteBufAllocator;
import io.netty.buffer.Unpooled;
import io.netty.channel.ChannelConfig;
import io.netty.channel.FixedRecvByteBufAllocator;
import io.netty.channel.RecvByteBufAllocator;
import io.netty.util.UncheckedBooleanSupplier;

/**
 * Buffers for what one look at the socket gives: each has room for the largest datagram, so a thousand take 64 MB of the
 * memory outside Java's heap. Where there is less, fewer are read at a time; one buffer is kept for the case that there is
 * none, because a read that fails would cost the socket.
 */
@SuppressWarnings("deprecation") // the older of two kinds of handle, which this interface still speaks of
final class ReceiveBuffers implements RecvByteBufAllocator {

    /** More than comes in while a slice of the backlog is worked on. */
    private static final int MOST_AT_ONCE = 1024;

    private static final int LEAST_AT_ONCE = 16;
    /** Of what Java gives outside its heap, usually as much as the heap; others need some, too. */
    private static final int SHARE = 4;

    private final FixedRecvByteBufAllocator usual = new FixedRecvByteBufAllocator(Datagram.MAX_LENGTH);
    private final ByteBuf kept = Unpooled.wrappedBuffer(ByteBuffer.allocateDirect(Datagram.MAX_LENGTH));

    ReceiveBuffers() {
        long room = Runtime.getRuntime().maxMemory() / SHARE / Datagram.MAX_LENGTH;
        usual.maxMessagesPerRead((int) Math.max(LEAST_AT_ONCE, Math.min(MOST_AT_ONCE, room)));
    }

    @Override
    public Handle newHandle() {
        return new Careful(usual.newHandle());
    }

    private final class Careful extends DelegatingHandle implements ExtendedHandle {
        private final Handle usual;
        private boolean last;

        Careful(Handle usual) {
            super(usual);
            this.usual = usual;
        }

        @Override
        public void reset(ChannelConfig config) {
            last = false;
            super.reset(config);
        }

        @Override
        public ByteBuf allocate(ByteBufAllocator allocator) {
            try {
                return super.allocate(allocator);
            } catch (OutOfMemoryError e) {
                last = true; // it is copied and given back before the next look
                return kept.retainedDuplicate().clear();
            }
        }

        @Override
        public boolean continueReading() {
            return !last && super.continueReading();
        }

        /** This one is asked for datagrams, which never fill their buffer. */
        @Override
        public boolean continueReading(UncheckedBooleanSupplier maybeMore) {
            return !last
                    && (usual instanceof ExtendedHandle extended
                            ? extended.continueReading(maybeMore)
                            : usual.continueReading());
        }
    }
}
