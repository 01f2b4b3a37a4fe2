package org.rejoin.bridge.feed;

import java.io.IOException;
import java.net.BindException;
import java.net.Inet4Address;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.SocketException;
import java.util.OptionalLong;
import java.util.Set;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;

import io.netty.bootstrap.Bootstrap;
import io.netty.buffer.Unpooled;
import io.netty.channel.Channel;
import io.netty.channel.ChannelFuture;
import io.netty.channel.ChannelOption;
import io.netty.channel.EventLoop;
import io.netty.channel.EventLoopGroup;
import io.netty.channel.MultiThreadIoEventLoopGroup;
import io.netty.channel.nio.NioIoHandler;
import io.netty.channel.socket.DatagramPacket;
import io.netty.channel.socket.SocketProtocolFamily;
import io.netty.channel.socket.nio.NioDatagramChannel;
import io.netty.util.concurrent.DefaultThreadFactory;
import io.netty.util.concurrent.Future;

/**
 * A UDP socket that hands whole datagrams, up to the largest there are, to one sink on one thread. Everything that must
 * not run at the same time as the sink is given to {@link #execute}.
 *
 * <p>Anyone who reaches the socket can fly the aircraft: UDP tells nothing about who sends. So beyond loopback only
 * listed senders are heard.
 */
public final class UdpFeed implements AutoCloseable {

    /** Room in the system for the datagrams of a second or more while this program is held up; systems may give less. */
    private static final int SOCKET_BUFFER = 4 << 20;

    /** A socket that was lost is opened again so often, milliseconds. */
    private static final long REOPEN_MILLIS = 1_000;

    private static final long TICK_MILLIS = 50;

    private final EventLoopGroup group;
    private final EventLoop loop;
    private final Bootstrap bootstrap;
    private final Receiver receiver;
    private final InetSocketAddress localAddress;
    private final Future<?> ticking;
    private volatile Channel channel;
    private final SystemDrops drops;
    private final AtomicLong dropsBefore = new AtomicLong();
    private volatile long dropsNow;
    private volatile boolean closed;

    private UdpFeed(EventLoopGroup group, Bootstrap bootstrap, Channel channel, Receiver receiver) {
        this.group = group;
        this.loop = channel.eventLoop();
        this.bootstrap = bootstrap;
        this.receiver = receiver;
        this.channel = channel;
        this.localAddress = (InetSocketAddress) channel.localAddress(); // a closed channel has none
        this.drops = new SystemDrops(localAddress);
        this.ticking = loop.scheduleWithFixedDelay(receiver::tick, TICK_MILLIS, TICK_MILLIS, TimeUnit.MILLISECONDS);
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
        SocketProtocolFamily family =
                address instanceof Inet4Address ? SocketProtocolFamily.INET : SocketProtocolFamily.INET6;
        EventLoopGroup group =
                new MultiThreadIoEventLoopGroup(1, new DefaultThreadFactory("feed", true), NioIoHandler.newFactory());
        Receiver receiver = new Receiver(senders, clock, sink, group.next());
        Bootstrap bootstrap = new Bootstrap()
                .group(group)
                .channelFactory(() -> new NioDatagramChannel(family))
                .option(ChannelOption.SO_RCVBUF, SOCKET_BUFFER)
                // Netty's default cuts datagrams off at 2,048 octets without a word.
                .option(ChannelOption.RECVBUF_ALLOCATOR, new ReceiveBuffers())
                .handler(receiver);
        ChannelFuture bound = bootstrap.bind(bind).awaitUninterruptibly();
        Throwable cause = bound.cause();
        if (cause != null) {
            group.shutdownGracefully(0, 1, TimeUnit.SECONDS).awaitUninterruptibly(2, TimeUnit.SECONDS);
            throw new IOException(why(bind, cause), cause);
        }
        UdpFeed feed = new UdpFeed(group, bootstrap, bound.channel(), receiver);
        feed.watch(bound.channel());
        return feed;
    }

    /** A socket that goes without our doing is opened again: the flight is not over. */
    private void watch(Channel open) {
        open.closeFuture().addListener(gone -> {
            if (!closed) {
                receiver.sink()
                        .trouble("the socket on " + where() + " was lost" + receiver.latestFailure()
                                + "; it is opened again");
                reopen();
            }
        });
    }

    private void reopen() {
        if (closed) {
            return;
        }
        dropsBefore.addAndGet(dropsNow); // of a socket that is gone nothing can be asked
        dropsNow = 0;
        bootstrap.bind(localAddress).addListener((ChannelFuture bound) -> {
            if (closed) {
                ChannelFuture unused = bound.channel().close();
            } else if (bound.isSuccess()) {
                channel = bound.channel();
                receiver.sink().trouble("listening on " + where() + " again");
                watch(bound.channel());
            } else {
                Future<?> unused = loop.schedule(this::reopen, REOPEN_MILLIS, TimeUnit.MILLISECONDS);
            }
        });
    }

    private String where() {
        return localAddress.getAddress().getHostAddress() + ":" + localAddress.getPort();
    }

    /** {@return where the feed listens; address and port, the port that was found where 0 was asked for} */
    public InetSocketAddress localAddress() {
        return localAddress;
    }

    /** Sends the same octets again and again, from the port that listens, until this is closed. */
    public void ask(InetSocketAddress to, byte[] octets, long everyMillis) {
        byte[] sent = octets.clone();
        // What was not sent is asked for again; closing the loop ends it.
        var unused = channel.eventLoop()
                .scheduleAtFixedRate(
                        () -> {
                            var ignored = channel.writeAndFlush(new DatagramPacket(Unpooled.wrappedBuffer(sent), to));
                        },
                        0,
                        everyMillis,
                        TimeUnit.MILLISECONDS);
    }

    /** Datagrams dropped because their sender is not listed. */
    public long refused() {
        return receiver.refused();
    }

    /** Datagrams that the sink has taken; 0 or more; also from other threads. */
    public long taken() {
        return receiver.backlog().taken();
    }

    /**
     * Datagrams dropped because more came than could be worked on, by a quarter of the memory. The sink was told of
     * their arrival.
     */
    public long dropped() {
        return receiver.backlog().dropped();
    }

    /**
     * Datagrams that the system dropped before this program could take them. The sink was not told of them; 0 or more;
     * empty where the system does not say.
     */
    public OptionalLong droppedBySystem() {
        OptionalLong now = drops.count();
        now.ifPresent(count -> dropsNow = count);
        return now.isPresent() ? OptionalLong.of(dropsBefore.get() + now.getAsLong()) : now;
    }

    /** {@return how far the sink is behind what has arrived; seconds; 0 while nothing waits} */
    public double behindS() {
        return receiver.backlog().behindS();
    }

    /**
     * Waits until the socket has been looked at once more. A program that was stopped for a while, or a machine that slept,
     * finds there what came meanwhile.
     *
     * @param mostMillis not longer
     * @return false if it has not been in that time
     * @throws InterruptedException if this thread is interrupted
     */
    public boolean lookAgain(long mostMillis) throws InterruptedException {
        CountDownLatch looked = new CountDownLatch(1);
        try {
            // What is scheduled on the loop's own thread after the longest pause runs after its next look at the
            // socket;
            // what comes due on the way from another thread would run before it. What was read may still wait its turn:
            // the answer waits behind it.
            loop.execute(() -> {
                Future<?> unused = loop.schedule(
                        () -> receiver.backlog().take(looked::countDown),
                        2 * Receiver.PAUSE_MICROS,
                        TimeUnit.MICROSECONDS);
            });
        } catch (RejectedExecutionException e) {
            return true; // closed: nothing comes any more
        }
        return looked.await(mostMillis, TimeUnit.MILLISECONDS);
    }

    /**
     * Runs something on the thread of the sink, between datagrams, after those that came before; what it throws is
     * logged. False if the feed is closed and it will not run.
     */
    public boolean execute(Runnable work) {
        try {
            loop.execute(() -> receiver.backlog().take(work));
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
        closed = true;
        boolean inside = loop.inEventLoop();
        ticking.cancel(false);
        receiver.backlog().close();
        ChannelFuture closed = channel.close();
        var ended = group.shutdownGracefully(0, 2, TimeUnit.SECONDS);
        if (!inside) {
            closed.awaitUninterruptibly();
            ended.awaitUninterruptibly(5, TimeUnit.SECONDS);
        }
    }

    /** The socket, for a test that takes it away. */
    Channel channel() {
        return channel;
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
}
