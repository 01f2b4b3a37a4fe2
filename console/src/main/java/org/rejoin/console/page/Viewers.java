package org.rejoin.console.page;

import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.BooleanSupplier;
import java.util.function.Function;

import io.netty.buffer.ByteBuf;
import io.netty.buffer.Unpooled;
import io.netty.channel.Channel;
import io.netty.handler.codec.http.DefaultHttpContent;
import io.netty.handler.codec.http.LastHttpContent;

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

    /**
     * A page that is opened.
     *
     * @param show whose stream it gets
     * @param mayStay whether who looks at it may still see it
     */
    record Page(Channel channel, Audience audience, String show, PageRoom.Asker asker, BooleanSupplier mayStay) {}

    private static final class Viewer {
        private final Page page;
        private final long most;
        private long waiting;
        private long movedNs = System.nanoTime();

        Viewer(Page page, long whole) {
            this.page = page;
            this.most = whole + MOST_WAITING;
        }

        private long waiting() {
            var buffer = page.channel().unsafe().outboundBuffer();
            return buffer == null ? 0 : buffer.totalPendingWriteBytes();
        }

        boolean reads(long nowNs) {
            long before = waiting;
            waiting = waiting();
            if (waiting < before || page.channel().isWritable()) {
                movedNs = nowNs;
            }
            return waiting < most && nowNs - movedNs < PATIENCE_NS;
        }
    }

    private final PageLimits limits;
    private final List<Viewer> viewers = new ArrayList<>();
    private final AtomicLong dropped = new AtomicLong();

    Viewers(PageLimits limits) {
        this.limits = limits;
    }

    /** Whether one more may come: students never take an instructor's place, nor all of them those of other addresses. */
    boolean hasRoom(Channel channel, Audience audience) {
        if (audience == Audience.INSTRUCTOR) {
            return count(audience) < limits.instructors();
        }
        String address = address(channel);
        return count(audience) < limits.students()
                && viewers.stream()
                                .filter(viewer -> viewer.page.audience() == audience
                                        && address(viewer.page.channel()).equals(address))
                                .count()
                        < limits.studentsAnAddress();
    }

    private long count(Audience audience) {
        return viewers.stream()
                .filter(viewer -> viewer.page.audience() == audience)
                .count();
    }

    private static String address(Channel channel) {
        return channel.remoteAddress() instanceof InetSocketAddress from ? from.getHostString() : "";
    }

    /** Takes a page in, with all it needs to know. */
    void add(Page page, String whole) {
        ByteBuf octets = event(whole);
        viewers.add(new Viewer(page, octets.readableBytes()));
        page.channel().writeAndFlush(new DefaultHttpContent(octets));
    }

    void remove(Channel channel) {
        viewers.removeIf(viewer -> viewer.page.channel() == channel);
    }

    /** Ends the pages of those who may not see any more what they see. */
    void letGo() {
        for (Viewer viewer : List.copyOf(viewers)) {
            if (!viewer.page.mayStay().getAsBoolean()) {
                viewers.remove(viewer);
                viewer.page.channel().writeAndFlush(LastHttpContent.EMPTY_LAST_CONTENT);
                viewer.page.channel().close();
            }
        }
    }

    int size() {
        return viewers.size();
    }

    /** How many look at a show; a page of a practice room has a stream of the room beside it. */
    int of(String show) {
        return Math.toIntExact(viewers.stream()
                .filter(viewer -> viewer.page.show().equals(show))
                .count());
    }

    /** Pages let go because they did not read; may be asked from any thread. */
    long dropped() {
        return dropped.get();
    }

    /** Sends an audience of a show its text; lets go who does not read. */
    void send(String show, Audience audience, String text) {
        ByteBuf octets = event(text);
        try {
            for (Viewer viewer : List.copyOf(viewers)) {
                if (viewer.page.audience() == audience
                        && viewer.page.show().equals(show)
                        && stays(viewer)
                        && !text.isEmpty()) {
                    viewer.page.channel().writeAndFlush(new DefaultHttpContent(octets.retainedDuplicate()));
                }
            }
        } finally {
            octets.release();
        }
    }

    /** Tells each viewer of a show what is for him. */
    void tell(String show, Function<PageRoom.Asker, String> text) {
        for (Viewer viewer : List.copyOf(viewers)) {
            if (viewer.page.show().equals(show) && stays(viewer)) {
                viewer.page.channel().writeAndFlush(new DefaultHttpContent(event(text.apply(viewer.page.asker()))));
            }
        }
    }

    /** Lines of an event, with the empty one that ends it. */
    private static ByteBuf event(String lines) {
        return Unpooled.copiedBuffer(lines + "\n", StandardCharsets.UTF_8);
    }

    private boolean stays(Viewer viewer) {
        if (viewer.reads(System.nanoTime())) {
            return true;
        }
        viewers.remove(viewer);
        dropped.incrementAndGet();
        viewer.page.channel().close();
        return false;
    }
}
