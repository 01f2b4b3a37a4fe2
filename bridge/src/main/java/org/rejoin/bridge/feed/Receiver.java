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
import io.netty.util.concurrent.Future;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Unwraps datagrams. Shared, because a socket that was lost has a successor; there is one at a time. */
@ChannelHandler.Sharable
final class Receiver extends SimpleChannelInboundHandler<DatagramPacket> {
    private static final Logger LOG = LoggerFactory.getLogger(UdpFeed.class);

    private final Set<InetAddress> senders;
    private final AtomicLong refused;
    private final MicroClock clock;
    private final DatagramSink sink;
    private final Backlog backlog;
    private final Failures failures;
    private final Pace pace = new Pace();

    Receiver(
            Set<InetAddress> senders,
            AtomicLong refused,
            MicroClock clock,
            DatagramSink sink,
            Backlog backlog,
            Failures failures) {
        this.senders = senders;
        this.refused = refused;
        this.clock = clock;
        this.sink = sink;
        this.backlog = backlog;
        this.failures = failures;
    }

    DatagramSink sink() {
        return sink;
    }

    /** Datagrams whose sender is not listed. */
    AtomicLong refused() {
        return refused;
    }

    Backlog backlog() {
        return backlog;
    }

    Failures failures() {
        return failures;
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
            Future<?> unused = context.executor()
                    .schedule(() -> socket.setAutoRead(true), Pace.PAUSE_MICROS, TimeUnit.MICROSECONDS);
        }
    }

    void tick() {
        if (!backlog.isEmpty()) {
            return; // for the sink it is not yet so late
        }
        try {
            sink.advanceTo(clock.micros());
        } catch (RuntimeException e) { // would end the ticking
            failures.failed(e);
        }
    }

    @Override
    public void exceptionCaught(ChannelHandlerContext context, Throwable cause) {
        failures.failed(cause);
    }

    /** Said once aloud: a sender must not be able to fill the log. */
    static final class Failures {
        private long count;
        private volatile @Nullable Throwable latest;

        /** Why a socket may have been lost; for the end of what is said. */
        String latest() {
            Throwable cause = latest;
            return cause instanceof OutOfMemoryError ? " for want of memory" : "";
        }

        void failed(Throwable cause) {
            latest = cause;
            if (count++ == 0) {
                LOG.warn("a datagram could not be taken: {}; more of this is logged at debug", cause.toString());
            }
            LOG.debug("a datagram could not be taken ({} so far)", count, cause);
        }
    }
}
