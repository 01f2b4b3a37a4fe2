package org.rejoin.console.page;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.time.LocalDate;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Supplier;

import org.rejoin.console.grade.Grade;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.Lesson;

import io.netty.bootstrap.ServerBootstrap;
import io.netty.channel.Channel;
import io.netty.channel.ChannelFuture;
import io.netty.channel.ChannelOption;
import io.netty.channel.EventLoopGroup;
import io.netty.channel.MultiThreadIoEventLoopGroup;
import io.netty.channel.WriteBufferWaterMark;
import io.netty.channel.nio.NioIoHandler;
import io.netty.channel.socket.nio.NioServerSocketChannel;
import io.netty.util.concurrent.DefaultThreadFactory;
import io.netty.util.concurrent.Future;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Serves the live page of one lesson: fixed files, one stream of server-sent events for each open page, and orders of the
 * instructor by POST. Runs on one thread of its own; seats hand their pieces over through bounded queues.
 */
public final class PageServer implements AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(PageServer.class);

    private static final long TICK_MS = 50;
    private static final long STATUS_EVERY_TICKS = 20;

    /**
     * What the page is of.
     *
     * @param lesson flown
     * @param set graded against
     * @param date for the magnetic model; may change until the first sample
     * @param caution for the foot of the page
     * @param waits whether the lesson waits for the instructor's start
     */
    public record Setting(Lesson lesson, ToleranceSet set, Supplier<LocalDate> date, String caution, boolean waits) {}

    private final Setting setting;
    private final PageAccess access;
    private final PageActions actions;
    private final RoutePicture routes;
    private final EventLoopGroup group;
    private final Channel channel;
    private final Future<?> ticking;
    private final Map<String, SeatPage> seats = new ConcurrentHashMap<>();
    private final Picture picture;
    private final Viewers viewers;
    private final PageConnections connections;
    private long ticks;

    private PageServer(
            InetSocketAddress bind, Optional<String> token, Setting setting, PageActions actions, PageLimits limits)
            throws IOException {
        this.setting = setting;
        this.viewers = new Viewers(limits);
        this.access = new PageAccess(token);
        this.actions = actions;
        this.routes = new RoutePicture(setting.lesson(), setting.date());
        this.picture = new Picture(
                setting.lesson(),
                setting.set(),
                setting.caution(),
                routes,
                setting.waits() ? Picture.Stage.WAITING : Picture.Stage.FLYING);
        PageFiles files = new PageFiles();
        Guesses guesses = new Guesses(System::nanoTime);
        Orders orders = new Orders(actions, setting.lesson(), routes);
        this.connections =
                new PageConnections(limits, () -> new PageRequests(this, access, guesses, files, orders, actions));
        this.group =
                new MultiThreadIoEventLoopGroup(1, new DefaultThreadFactory("page", true), NioIoHandler.newFactory());
        ChannelFuture bound = new ServerBootstrap()
                .group(group)
                .channel(NioServerSocketChannel.class)
                .option(ChannelOption.SO_BACKLOG, 64)
                .childOption(ChannelOption.TCP_NODELAY, true)
                .childOption(ChannelOption.WRITE_BUFFER_WATER_MARK, new WriteBufferWaterMark(64 << 10, 256 << 10))
                .childHandler(connections)
                .bind(bind)
                .awaitUninterruptibly();
        if (bound.cause() != null) {
            group.shutdownGracefully(0, 1, TimeUnit.SECONDS).awaitUninterruptibly(2, TimeUnit.SECONDS);
            throw new IOException(
                    "the page cannot be served on port " + bind.getPort() + " of " + bind.getHostString() + ": "
                            + bound.cause().getMessage() + "; choose another with --page PORT",
                    bound.cause());
        }
        this.channel = bound.channel();
        this.ticking = group.next().scheduleWithFixedDelay(this::tick, TICK_MS, TICK_MS, TimeUnit.MILLISECONDS);
    }

    /**
     * Opens the page.
     *
     * @param bind address and port; port 0 takes a free one
     * @param token that lets the instructor in; empty lets everyone, which is allowed on loopback only
     * @param setting what the page is of
     * @param actions what the instructor can do
     * @return the open page; close it
     * @throws IOException if the address cannot be served on, or needs a token; one line
     */
    public static PageServer open(InetSocketAddress bind, Optional<String> token, Setting setting, PageActions actions)
            throws IOException {
        return open(bind, token, setting, actions, PageLimits.USUAL);
    }

    static PageServer open(
            InetSocketAddress bind, Optional<String> token, Setting setting, PageActions actions, PageLimits limits)
            throws IOException {
        PageAccess.check(bind, token);
        return new PageServer(bind, token, setting, actions, limits);
    }

    /**
     * Where the page is served.
     *
     * @return address and port, the port that was found where 0 was asked for
     */
    public InetSocketAddress localAddress() {
        return (InetSocketAddress) channel.localAddress();
    }

    /**
     * What lets a student in and no further.
     *
     * @return a random one of its own, new at every start; empty without one for the instructor
     */
    public Optional<String> studentToken() {
        return access.studentToken();
    }

    /**
     * Shows one more seat.
     *
     * @param id what the actions know it by
     * @param label for people
     * @param grade so far; asked on the flight's thread
     * @return the watcher that shows it; called on the flight's thread
     */
    public SeatPage seat(String id, String label, Supplier<Grade> grade) {
        return seats.computeIfAbsent(
                id, name -> new SeatPage(name, label, routes, setting.set().limits(), grade));
    }

    /**
     * Pages let go because they did not read.
     *
     * @return 0 or more
     */
    public long dropped() {
        return viewers.dropped();
    }

    /**
     * How the flight keeps up with what is sent.
     *
     * @param behindS following is so much behind, seconds
     * @param lost datagrams that the system dropped before they could be taken
     */
    public void load(double behindS, long lost) {
        picture.load(behindS, lost);
    }

    /** The lesson has begun. */
    public void began() {
        onThread(() -> picture.stage(Picture.Stage.FLYING));
    }

    /** The lesson is over: shows the last of it. */
    public void over() {
        CountDownLatch told = new CountDownLatch(1);
        boolean willRun = onThread(() -> {
            picture.stage(Picture.Stage.OVER);
            ticks = 0;
            tick();
            told.countDown();
        });
        try {
            if (willRun) {
                told.await(2, TimeUnit.SECONDS);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /**
     * How many pages are open.
     *
     * @return asked on the page's thread; waits for it 2 s at most
     */
    public int open() {
        try {
            return group.next().submit(viewers::size).get(2, TimeUnit.SECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return 0;
        } catch (RejectedExecutionException | ExecutionException | TimeoutException e) {
            return 0;
        }
    }

    private boolean onThread(Runnable work) {
        try {
            group.next().execute(work);
            return true;
        } catch (RejectedExecutionException e) {
            return false;
        }
    }

    Optional<SeatPage> seatOf(String id) {
        return Optional.ofNullable(seats.get(id));
    }

    RoutePicture routes() {
        return routes;
    }

    /** Whose connection it is has been shown. On the page's thread. */
    void known(Channel connection, Audience audience) {
        connections.known(connection, audience);
    }

    /** Whether one more page may be opened. On the page's thread. */
    boolean hasRoom(Channel page, Audience audience) {
        return viewers.hasRoom(page, audience);
    }

    /** A page was opened. On the page's thread. */
    void join(Channel page, Audience audience) {
        tick();
        viewers.add(page, audience, picture.whole(audience, viewers.size() + 1, viewers.dropped()));
    }

    /** A page was closed. On the page's thread. */
    void leave(Channel page) {
        viewers.remove(page);
    }

    /** Shows students something or hides it; all they were told is told again. On the page's thread. */
    void show(Topic topic, boolean visible) {
        tick();
        picture.show(topic, visible);
        viewers.send(Audience.STUDENT, picture.whole(Audience.STUDENT, viewers.size(), viewers.dropped()));
        ticks = 0;
    }

    private void tick() {
        try {
            tellNews();
        } catch (RuntimeException e) { // would end the ticking
            LOG.warn("an open page could not be told the news: {}", e.toString());
            LOG.debug("why", e);
        }
    }

    private void tellNews() {
        Picture.Texts texts = new Picture.Texts();
        for (SeatPage seat : seats.values()) {
            picture.add(seat, texts);
            if (seat.stale()) {
                actions.execute(seat::refresh, () -> {});
            } else if (seat.silent()) {
                actions.execute(seat::goOn, () -> {});
            }
        }
        picture.update(texts);
        boolean status = ticks++ % STATUS_EVERY_TICKS == 0;
        for (Audience audience : Audience.values()) {
            StringBuilder text = new StringBuilder(texts.of(audience));
            if (status) {
                Picture.line(text, picture.status(viewers.size(), viewers.dropped()));
            }
            viewers.send(audience, text.toString());
        }
    }

    @Override
    public void close() {
        ticking.cancel(false);
        channel.close().awaitUninterruptibly();
        onThread(connections::closeAll);
        group.shutdownGracefully(0, 2, TimeUnit.SECONDS).awaitUninterruptibly(5, TimeUnit.SECONDS);
    }
}
