package org.rejoin.bridge.feed;

import java.io.IOException;
import java.net.BindException;
import java.net.Inet4Address;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.SocketException;
import java.util.Set;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;

import org.rejoin.protocol.Datagram;

import io.netty.bootstrap.Bootstrap;
import io.netty.buffer.ByteBuf;
import io.netty.buffer.Unpooled;
import io.netty.channel.Channel;
import io.netty.channel.ChannelFuture;
import io.netty.channel.ChannelHandlerContext;
import io.netty.channel.ChannelOption;
import io.netty.channel.EventLoopGroup;
import io.netty.channel.FixedRecvByteBufAllocator;
import io.netty.channel.MultiThreadIoEventLoopGroup;
import io.netty.channel.SimpleChannelInboundHandler;
import io.netty.channel.nio.NioIoHandler;
import io.netty.channel.socket.DatagramPacket;
import io.netty.channel.socket.SocketProtocolFamily;
import io.netty.channel.socket.nio.NioDatagramChannel;
import io.netty.util.concurrent.DefaultThreadFactory;
import io.netty.util.concurrent.Future;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A UDP socket that hands whole datagrams, up to the largest there are, to one sink on one thread. Everything that must
 * not run at the same time as the sink is given to {@link #execute}.
 *
 * <p>Anyone who reaches the socket can fly the aircraft: UDP tells nothing about who sends. So beyond loopback only
 * listed senders are heard.
 */
public final class UdpFeed implements AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(UdpFeed.class);
    /** Room in the system for the datagrams of a second or more while this program is held up; systems may give less. */
    private static final int SOCKET_BUFFER = 4 << 20;

    /** Read before anything else gets its turn: more than comes in while a slice of the backlog is worked on. */
    private static final int MOST_AT_ONCE = 1024;

    private static final long TICK_MILLIS = 50;

    private final EventLoopGroup group;
    private final Channel channel;
    private final InetSocketAddress localAddress;
    private final Future<?> ticking;
    private final AtomicLong refused;
    private final Backlog backlog;

    private UdpFeed(EventLoopGroup group, Channel channel, Future<?> ticking, AtomicLong refused, Backlog backlog) {
        this.group = group;
        this.channel = channel;
        this.localAddress = (InetSocketAddress) channel.localAddress(); // a closed channel has none
        this.ticking = ticking;
        this.refused = refused;
        this.backlog = backlog;
    }

    /**
     * Opens the socket and begins to listen.
     *
     * @param bind address and port; port 0 takes a free one
     * @param senders the only addresses that are heard; empty hears all, which is allowed on loopback only
     * @param clock gives the time of receipt; asked on the feed's thread
     * @param sink called on the feed's thread; what it throws is logged and costs that datagram only
     * @return the open feed; close it
     * @throws IOException if the address cannot be listened on; one line that says why and what to do
     */
    public static UdpFeed open(InetSocketAddress bind, Set<InetAddress> senders, MicroClock clock, DatagramSink sink)
            throws IOException {
        InetAddress address = bind.getAddress();
        if (address == null) {
            throw new IOException("there is no address by the name of " + bind.getHostString());
        }
        if (!address.isLoopbackAddress() && senders.isEmpty()) {
            throw new IOException("listening on " + address.getHostAddress() + " lets others on the network send;"
                    + " name the addresses that may, or listen on 127.0.0.1");
        }
        AtomicLong refused = new AtomicLong();
        SocketProtocolFamily family =
                address instanceof Inet4Address ? SocketProtocolFamily.INET : SocketProtocolFamily.INET6;
        EventLoopGroup group =
                new MultiThreadIoEventLoopGroup(1, new DefaultThreadFactory("feed", true), NioIoHandler.newFactory());
        Failures failures = new Failures();
        Backlog backlog = new Backlog(group.next(), failures::failed);
        Receiver receiver = new Receiver(Set.copyOf(senders), refused, clock, sink, backlog, failures);
        ChannelFuture bound = new Bootstrap()
                .group(group)
                .channelFactory(() -> new NioDatagramChannel(family))
                .option(ChannelOption.SO_RCVBUF, SOCKET_BUFFER)
                // Netty's default cuts datagrams off at 2,048 octets without a word.
                .option(
                        ChannelOption.RECVBUF_ALLOCATOR,
                        new FixedRecvByteBufAllocator(Datagram.MAX_LENGTH).maxMessagesPerRead(MOST_AT_ONCE))
                .handler(receiver)
                .bind(bind)
                .awaitUninterruptibly();
        Throwable cause = bound.cause();
        if (cause != null) {
            group.shutdownGracefully(0, 1, TimeUnit.SECONDS).awaitUninterruptibly(2, TimeUnit.SECONDS);
            throw new IOException(why(bind, cause), cause);
        }
        Channel channel = bound.channel();
        Future<?> ticking = channel.eventLoop()
                .scheduleWithFixedDelay(receiver::tick, TICK_MILLIS, TICK_MILLIS, TimeUnit.MILLISECONDS);
        return new UdpFeed(group, channel, ticking, refused, backlog);
    }

    /**
     * Where the feed listens.
     *
     * @return address and port, the port that was found where 0 was asked for
     */
    public InetSocketAddress localAddress() {
        return localAddress;
    }

    /**
     * Sends the same octets again and again, from the port that listens, until this is closed.
     *
     * @param to whom
     * @param octets at most what fits into a datagram
     * @param everyMillis from one to the next, above 0
     */
    public void ask(InetSocketAddress to, byte[] octets, long everyMillis) {
        byte[] sent = octets.clone();
        channel.eventLoop()
                .scheduleAtFixedRate(
                        () -> channel.writeAndFlush(new DatagramPacket(Unpooled.wrappedBuffer(sent), to)),
                        0,
                        everyMillis,
                        TimeUnit.MILLISECONDS);
    }

    /**
     * Datagrams dropped because their sender is not listed.
     *
     * @return 0 or more
     */
    public long refused() {
        return refused.get();
    }

    /**
     * Datagrams dropped because more came than could be worked on, by a quarter of the memory. The sink was told of their
     * arrival.
     *
     * @return 0 or more
     */
    public long dropped() {
        return backlog.dropped();
    }

    /**
     * Runs something on the thread of the sink, between datagrams, after those that came before.
     *
     * @param work what to run; what it throws is logged
     * @return false if the feed is closed and it will not run
     */
    public boolean execute(Runnable work) {
        try {
            channel.eventLoop().execute(() -> backlog.take(work));
            return true;
        } catch (RejectedExecutionException e) {
            return false;
        }
    }

    /**
     * Stops listening. The sink is not called any more once this returns, unless it is called from the sink itself. May
     * be called again.
     */
    @Override
    public void close() {
        boolean inside = channel.eventLoop().inEventLoop();
        ticking.cancel(false);
        backlog.close();
        ChannelFuture closed = channel.close();
        var ended = group.shutdownGracefully(0, 2, TimeUnit.SECONDS);
        if (!inside) {
            closed.awaitUninterruptibly();
            ended.awaitUninterruptibly(5, TimeUnit.SECONDS);
        }
    }

    private static String why(InetSocketAddress bind, Throwable cause) {
        String where = "UDP port " + bind.getPort() + " of " + bind.getAddress().getHostAddress();
        String message = String.valueOf(cause.getMessage());
        if (message.contains("in use")) {
            return where + " is in use by another program; close that one, or choose another port";
        }
        if (cause instanceof BindException && message.contains("assign")) {
            return bind.getAddress().getHostAddress() + " is not an address of this machine; listen on one that is, or"
                    + " on 127.0.0.1";
        }
        if (cause instanceof SocketException && message.contains("ermission")) {
            return where + " is kept for the system; choose a port from 1024 up";
        }
        return where + " cannot be listened on: " + message;
    }

    /** Unwraps datagrams. */
    private static final class Receiver extends SimpleChannelInboundHandler<DatagramPacket> {
        private final Set<InetAddress> senders;
        private final AtomicLong refused;
        private final MicroClock clock;
        private final DatagramSink sink;
        private final Backlog backlog;
        private final Failures failures;

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

        @Override
        protected void channelRead0(ChannelHandlerContext context, DatagramPacket packet) {
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
                backlog.take(datagram, sink);
            }
        }

        @Override
        public void channelReadComplete(ChannelHandlerContext context) {
            backlog.endOfReading();
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
    }

    /** Said once aloud: a sender must not be able to fill the log. */
    private static final class Failures {
        private long count;

        void failed(Throwable cause) {
            if (count++ == 0) {
                LOG.warn("a datagram could not be taken: {}; more of this is logged at debug", cause.toString());
            }
            LOG.debug("a datagram could not be taken ({} so far)", count, cause);
        }
    }
}
