package org.rejoin.console.page;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;

import io.netty.buffer.ByteBuf;
import io.netty.buffer.Unpooled;
import io.netty.channel.Channel;
import io.netty.handler.codec.http.DefaultHttpContent;

/**
 * The open pages. One that stops reading is let go: it holds up neither the flight nor the others, and a browser that
 * comes back is told everything again. Confined to the page's thread.
 */
@SuppressWarnings("FutureReturnValueIgnored") // what is written to a browser that is gone is nothing to speak of
final class Viewers {

    /** So much may wait for a page beside the whole picture it was given at first, octets. */
    private static final long MOST_WAITING = 8L << 20;

    /** A page that has taken nothing for so long does not read, nanoseconds. */
    private static final long PATIENCE_NS = TimeUnit.SECONDS.toNanos(10);

    private static final int MOST_VIEWERS = 100;

    private static final class Viewer {
        private final Channel channel;
        private final Audience audience;
        private final long most;
        private long waiting;
        private long movedNs = System.nanoTime();

        Viewer(Channel channel, Audience audience, long whole) {
            this.most = whole + MOST_WAITING;
            this.channel = channel;
            this.audience = audience;
        }

        private long waiting() {
            var buffer = channel.unsafe().outboundBuffer();
            return buffer == null ? 0 : buffer.totalPendingWriteBytes();
        }

        boolean reads(long nowNs) {
            long before = waiting;
            waiting = waiting();
            if (waiting < before || channel.isWritable()) {
                movedNs = nowNs;
            }
            return waiting < most && nowNs - movedNs < PATIENCE_NS;
        }
    }

    private final List<Viewer> viewers = new ArrayList<>();
    private final AtomicLong dropped = new AtomicLong();

    /** Takes a page in, with all it needs to know. */
    boolean add(Channel channel, Audience audience, String whole) {
        if (viewers.size() >= MOST_VIEWERS) {
            return false;
        }
        ByteBuf octets = Unpooled.copiedBuffer(whole, StandardCharsets.UTF_8);
        viewers.add(new Viewer(channel, audience, octets.readableBytes()));
        channel.writeAndFlush(new DefaultHttpContent(octets));
        return true;
    }

    void remove(Channel channel) {
        viewers.removeIf(viewer -> viewer.channel == channel);
    }

    int size() {
        return viewers.size();
    }

    /** Pages let go because they did not read; may be asked from any thread. */
    long dropped() {
        return dropped.get();
    }

    /** Sends each audience its text; lets go who does not read. */
    void send(Audience audience, String text) {
        long now = System.nanoTime();
        ByteBuf octets = Unpooled.copiedBuffer(text, StandardCharsets.UTF_8);
        try {
            for (Viewer viewer : List.copyOf(viewers)) {
                if (viewer.audience != audience) {
                    continue;
                }
                if (!viewer.reads(now)) {
                    viewers.remove(viewer);
                    dropped.incrementAndGet();
                    viewer.channel.close();
                } else if (!text.isEmpty()) {
                    viewer.channel.writeAndFlush(new DefaultHttpContent(octets.retainedDuplicate()));
                }
            }
        } finally {
            octets.release();
        }
    }
}
