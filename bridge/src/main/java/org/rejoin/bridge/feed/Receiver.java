package org.rejoin.bridge.feed;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;

import org.rejoin.protocol.Datagram;

import io.netty.buffer.ByteBuf;
import io.netty.channel.ChannelConfig;
import io.netty.channel.ChannelHandler;
import io.netty.channel.ChannelHandlerContext;
import io.netty.channel.SimpleChannelInboundHandler;
import io.netty.channel.socket.DatagramPacket;
import io.netty.util.concurrent.EventExecutor;
import io.netty.util.concurrent.Future;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Unwraps datagrams. Shared, because a socket that was lost has a successor; there is one at a time. */
@ChannelHandler.Sharable
final class Receiver extends SimpleChannelInboundHandler<DatagramPacket> {
    private static final Logger LOG = LoggerFactory.getLogger(UdpFeed.class);

    /** How long it waits before it looks at the socket again where very much comes in. */
    static final long PAUSE_MICROS = 1_000;

    private final Set<InetAddress> senders;
    private final MicroClock clock;
    private final DatagramSink sink;
    private final Backlog backlog;
    private final AtomicLong refused = new AtomicLong();
    private final Pace pace = new Pace();
    private long failures;
    private volatile @Nullable Throwable latestFailure;

    /** For the thread that reads the socket. */
    Receiver(Set<InetAddress> senders, MicroClock clock, DatagramSink sink, EventExecutor thread) {
        this.senders = Set.copyOf(senders);
        this.clock = clock;
        this.sink = sink;
        this.backlog = new Backlog(thread, this::failed);
    }

    DatagramSink sink() {
        return sink;
    }

    /** Datagrams whose sender is not listed. */
    long refused() {
        return refused.get();
    }

    Backlog backlog() {
        return backlog;
    }

    @Override
    protected void channelRead0(ChannelHandlerContext context, DatagramPacket packet) {
        pace.taken();
        long now = clock.micros();
        InetSocketAddress sender = packet.sender();
        if (!senders.isEmpty() && !senders.contains(sender.getAddress())) {
            refused.incrementAndGet();
            return;
        }
        // Copied, because recorder and tracker keep it longer than Netty lends it.
        ByteBuf content = packet.content();
        byte[] octets = new byte[content.readableBytes()];
        content.readBytes(octets);
        Datagram datagram = Datagram.of(now, sender, octets);
        if (sink.arrived(datagram)) {
            backlog.take(datagram, sink.reader());
        }
    }

    @Override
    public void channelReadComplete(ChannelHandlerContext context) {
        backlog.endOfReading();
        if (pace.pauses(System.nanoTime())) {
            ChannelConfig socket = context.channel().config();
            socket.setAutoRead(false);
            Future<?> unused =
                    context.executor().schedule(() -> socket.setAutoRead(true), PAUSE_MICROS, TimeUnit.MICROSECONDS);
        }
    }

    void tick() {
        if (!backlog.isEmpty()) {
            return; // for the sink it is not yet so late
        }
        try {
            sink.advanceTo(clock.micros());
        } catch (RuntimeException e) { // would end the ticking
            failed(e);
        }
    }

    @Override
    public void exceptionCaught(ChannelHandlerContext context, Throwable cause) {
        failed(cause);
    }

    /** Why a socket may have been lost; for the end of what is said. */
    String latestFailure() {
        return latestFailure instanceof OutOfMemoryError ? " for want of memory" : "";
    }

    /** Said once aloud: a sender must not be able to fill the log. */
    private void failed(Throwable cause) {
        latestFailure = cause;
        if (failures++ == 0) {
            LOG.warn("a datagram could not be taken: {}; more of this is logged at debug", cause.toString());
        }
        LOG.debug("a datagram could not be taken ({} so far)", failures, cause);
    }

    /**
     * When to look at the socket again. With a few seats at once, so that nothing waits. With hundreds a millisecond later: most
     * of the price of a datagram is waking up for it, and one look then takes many.
     */
    private static final class Pace {

        /** Up to so many a second each is taken as it comes: some 250 seats at 20 Hz. */
        private static final long EACH_PER_S = 5_000;

        /** How long the rate is counted before it is believed. */
        private static final long COUNTED_NANOS = TimeUnit.MILLISECONDS.toNanos(20);

        private long countedSinceNanos = System.nanoTime();
        private long counted;
        private boolean many;

        /** One more was taken. */
        void taken() {
            counted++;
        }

        /** Whether to wait for {@link #PAUSE_MICROS} before the next look. */
        boolean pauses(long nowNanos) {
            long passed = nowNanos - countedSinceNanos;
            if (passed >= COUNTED_NANOS) {
                many = counted * TimeUnit.SECONDS.toNanos(1) > EACH_PER_S * passed;
                counted = 0;
                countedSinceNanos = nowNanos;
            }
            return many;
        }
    }
}
