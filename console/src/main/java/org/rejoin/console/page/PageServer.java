package org.rejoin.console.page;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.NetworkInterface;
import java.net.SocketException;
import java.security.SecureRandom;
import java.time.LocalDate;
import java.util.Collection;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Consumer;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import javax.net.ssl.KeyManagerFactory;

import org.rejoin.console.grade.Grade;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.speech.Speech;

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
 * Serves the live page of one lesson or of a practice room: fixed files, one stream of server-sent events for each open page, and orders of the
 * instructor by POST. Runs on one thread of its own; seats hand their pieces over through bounded queues.
 */
public final class PageServer implements AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(PageServer.class);

    private static final long TICK_MS = 50;

    /** Questions and orders that wait for a disk. */
    private static final int MOST_WAITING = 200;

    private static final long STATUS_EVERY_TICKS = 20;
    private static final long AGES_EVERY_TICKS = 10;

    /**
     * What the page is of.
     *
     * @param date for the magnetic model; may change until the first sample
     * @param caution for the foot of the page
     * @param waits whether the lesson waits for the instructor's start
     */
    public record Setting(Lesson lesson, ToleranceSet set, Supplier<LocalDate> date, String caution, boolean waits) {}

    /** The show of a page that has one only. */
    private static final String ONLY = "";

    /** The stream of the room. */
    static final String ROOM = "room";

    /** A browser that lost the stream asks again after a second. */
    static final String RETRY = "retry: 1000\n\n";

    /** The stream of the map of the room. */
    static final String MAP = "map";

    private final PageAccess access;
    private final Optional<PageRoom> room;
    private final RoomMap map = new RoomMap();
    private final EventLoopGroup group;
    private final Channel channel;
    private final Future<?> ticking;
    private final Map<String, PageShow> shows = new ConcurrentHashMap<>();
    private final Viewers viewers;
    private final PageConnections connections;
    private final PageRequests.Shared talk;
    private long ticks;
    private long takenBack;

    private PageServer(
            InetSocketAddress bind,
            Optional<String> token,
            Optional<KeyManagerFactory> tls,
            Optional<PageShow> only,
            Optional<PageRoom> room,
            Speech speech,
            Consumer<String> warned,
            PageLimits limits)
            throws IOException {
        this.viewers = new Viewers(limits);
        this.room = room;
        this.access = new PageAccess(token, tls.isPresent());
        only.ifPresent(show -> shows.put(ONLY, show));
        this.talk = new PageRequests.Shared(
                this,
                access,
                new Guesses(System::nanoTime),
                new PageFiles(room.isPresent()),
                room,
                new SpeechDesk(speech, this, room),
                new PageWork("page-work", 1, MOST_WAITING),
                warned);
        this.connections = new PageConnections(
                limits, tls, room.isPresent(), speech.listener().isPresent(), () -> new PageRequests(talk));
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
            talk.close();
            group.shutdownGracefully(0, 1, TimeUnit.SECONDS).awaitUninterruptibly(2, TimeUnit.SECONDS);
            throw new IOException(notServed(bind, bound.cause()), bound.cause());
        }
        this.channel = bound.channel();
        this.ticking = group.next().scheduleWithFixedDelay(this::tick, TICK_MS, TICK_MS, TimeUnit.MILLISECONDS);
    }

    /** Another port helps only where the address is one of this machine's. */
    private static String notServed(InetSocketAddress bind, Throwable cause) {
        try {
            if (!bind.getAddress().isAnyLocalAddress()
                    && NetworkInterface.getByInetAddress(bind.getAddress()) == null) {
                return bind.getAddress().getHostAddress() + " is no address of this machine; --page-bind takes one of: "
                        + NetworkInterface.networkInterfaces()
                                .flatMap(NetworkInterface::inetAddresses)
                                .filter(each -> !each.isLinkLocalAddress())
                                .map(InetAddress::getHostAddress)
                                .collect(Collectors.joining(", "));
            }
        } catch (SocketException e) {
            LOG.debug("addresses of this machine", e);
        }
        return "the page cannot be served on port " + bind.getPort() + " of " + bind.getHostString() + ": "
                + cause.getMessage() + "; choose another with --page PORT";
    }

    /**
     * Opens the page.
     *
     * @param bind address and port; port 0 takes a free one
     * @param token that lets the instructor in; empty lets everyone, which is allowed on loopback only
     * @return the open page; close it
     * @throws IOException if the address cannot be served on, or needs a token; one line
     */
    public static PageServer open(
            InetSocketAddress bind, Optional<String> token, Setting setting, PageActions actions, Speech speech)
            throws IOException {
        return open(bind, token, setting, actions, speech, PageLimits.USUAL);
    }

    static PageServer open(
            InetSocketAddress bind,
            Optional<String> token,
            Setting setting,
            PageActions actions,
            Speech speech,
            PageLimits limits)
            throws IOException {
        PageAccess.check(bind, token);
        Optional<PageShow> only = Optional.of(new PageShow(ONLY, setting, actions));
        return new PageServer(bind, token, Optional.empty(), only, Optional.empty(), speech, actions::warned, limits);
    }

    /**
     * Opens the page of a practice room.
     *
     * @param bind address and port; port 0 takes a free one
     * @param tls key and certificate for an encrypted page; empty for one that is not
     * @param warned takes one line for whoever runs the program
     * @return the open page; close it
     * @throws IOException if the address cannot be served on; one line
     */
    public static PageServer open(
            InetSocketAddress bind,
            Optional<KeyManagerFactory> tls,
            PageRoom room,
            Speech speech,
            Consumer<String> warned)
            throws IOException {
        if (bind.getAddress() == null) {
            throw new IOException("there is no address by the name of " + bind.getHostString());
        }
        return new PageServer(
                bind, Optional.empty(), tls, Optional.empty(), Optional.of(room), speech, warned, PageLimits.USUAL);
    }

    /** {@return where the page is served; address and port, the port that was found where 0 was asked for} */
    public InetSocketAddress localAddress() {
        return (InetSocketAddress) channel.localAddress();
    }

    /**
     * {@return a new token, 128 bits as 32 hexadecimal digits} Each comes from the system's random source and from nothing
     * else, so that one tells nothing of another.
     */
    public static String newToken() {
        byte[] octets = new byte[16];
        new SecureRandom().nextBytes(octets);
        return HexFormat.of().formatHex(octets);
    }

    /**
     * {@return what lets a student in and no further; a random one of its own, new at every start; empty without one for the
     * instructor}
     */
    public Optional<String> studentToken() {
        return access.studentToken();
    }

    /** Shows one more seat of the only show, whose label is its marking, as {@link PageShow#seat} does. */
    public SeatPage seat(String id, String label, Supplier<Grade> grade) {
        return only().seat(id, label, label, grade);
    }

    private PageShow only() {
        return Objects.requireNonNull(shows.get(ONLY));
    }

    /** Begins a show named by letters and digits, in place of one of the same name. Open pages are told all of it. */
    public PageShow show(String name, Setting setting, PageActions actions) {
        PageShow show = new PageShow(name, setting, actions);
        shows.put(name, show);
        onThread(() -> {
            if (shows.get(name) == show) {
                for (Audience audience : Audience.values()) {
                    tellAll(show, audience);
                }
            }
        });
        return show;
    }

    private void tellAll(PageShow show, Audience audience) {
        viewers.send(show.name(), audience, show.picture().whole(audience, viewers.of(show.name()), viewers.dropped()));
    }

    /** A show is over: its last picture stays until the next. */
    public void over(PageShow show) {
        onThread(() -> {
            show.picture().stage(Picture.Stage.OVER);
            ticks = 0;
            tick();
        });
    }

    /** Takes a show away with all it showed; pages that are open on it are told that there is none. */
    public void remove(String name) {
        shows.remove(name);
        onThread(() -> {
            for (Audience audience : Audience.values()) {
                viewers.send(name, audience, Picture.NOTHING);
            }
        });
    }

    /** How many pages were let go because they did not read. */
    public long dropped() {
        return viewers.dropped();
    }

    /** How the flight keeps up with what is sent; lost are datagrams that the system dropped. */
    public void load(double behindS, long lost) {
        shows.values().forEach(show -> show.picture().load(behindS, lost));
    }

    /** What arrives and cannot be flown by, a line for each sender; empty where all is understood. */
    public void unread(List<String> lines) {
        shows.values().forEach(show -> show.picture().unread(lines));
    }

    /** Why nothing is recorded just now; empty where all is. */
    public void notRecorded(String why) {
        shows.values().forEach(show -> show.picture().notRecorded(why));
    }

    /** The lesson has begun. */
    public void began() {
        onThread(() -> only().picture().stage(Picture.Stage.FLYING));
    }

    /** The lesson is over: shows the last of it. */
    public void over() {
        CountDownLatch told = new CountDownLatch(1);
        boolean willRun = onThread(() -> {
            shows.values().forEach(show -> show.picture().stage(Picture.Stage.OVER));
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

    /** {@return how many pages are open; it is asked on the page's thread, 2 s at most} */
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
            LOG.debug("not told: the page is closed");
            return false;
        }
    }

    Optional<PageShow> showOf(String name) {
        return Optional.ofNullable(shows.get(name));
    }

    Collection<PageShow> shows() {
        return shows.values();
    }

    /** Whose connection it is has been shown. On the page's thread. */
    void known(Channel connection, Audience audience) {
        connections.known(connection, audience);
    }

    /** Whether one more page may be opened. On the page's thread. */
    boolean hasRoom(Channel page, Audience audience) {
        return viewers.hasRoom(page, audience);
    }

    /** A page was opened; it is told the news for as long as it may be. On the page's thread. */
    void join(Viewers.Page page) {
        tick();
        viewers.add(page, whole(page));
    }

    private String whole(Viewers.Page page) {
        if (page.show().equals(ROOM)) {
            return RETRY
                    + room.map(known -> Picture.line(known.board(page.asker()))).orElse("");
        }
        if (page.show().equals(MAP)) {
            return RETRY
                    + room.map(known -> map.whole(seat -> isOnMap(known, page.asker(), seat)))
                            .orElse("");
        }
        PageShow show = shows.get(page.show());
        return show == null
                ? RETRY + Picture.NOTHING
                : show.picture().whole(page.audience(), viewers.of(show.name()) + 1, viewers.dropped());
    }

    /** A page was closed. On the page's thread. */
    void leave(Channel page) {
        viewers.remove(page);
    }

    /** Shows students something or hides it; all they were told is told again. On the page's thread. */
    void show(PageShow show, Topic topic, boolean visible) {
        tick();
        show.picture().show(topic, visible);
        tellAll(show, Audience.STUDENT);
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
        boolean status = ticks % STATUS_EVERY_TICKS == 0;
        boolean ages = ticks % AGES_EVERY_TICKS == 0;
        ticks++;
        long taken = room.map(PageRoom::takenBack).orElse(0L);
        if (room.isPresent() && (status || taken != takenBack)) {
            takenBack = taken;
            viewers.letGo();
        }
        for (PageShow show : shows.values()) {
            Picture.Texts texts = new Picture.Texts();
            show.news(texts);
            if (ages) {
                show.ages(texts);
            }
            for (Audience audience : Audience.values()) {
                String now =
                        status ? Picture.line(show.picture().status(viewers.of(show.name()), viewers.dropped())) : "";
                viewers.send(show.name(), audience, texts.of(audience) + now);
            }
        }
        if (ages) {
            room.ifPresent(known -> {
                viewers.tell(ROOM, asker -> Picture.line(known.board(asker)));
                tellMap(known);
            });
        }
    }

    private void tellMap(PageRoom known) {
        boolean other = map.update(known.seen(), seat -> showOf(seat).map(PageShow::routes), System.nanoTime() / 1e9);
        viewers.tell(
                MAP,
                asker -> other
                        ? map.whole(seat -> isOnMap(known, asker, seat))
                        : map.news(seat -> isOnMap(known, asker, seat)));
    }

    /** A pilot sees those whom he may see, and whose place is not hidden from pilots. */
    private boolean isOnMap(PageRoom known, PageRoom.Asker asker, String seat) {
        return known.maySee(asker, seat)
                && (asker.instructor()
                        || showOf(seat)
                                .map(show -> show.picture().sees(Audience.STUDENT, Topic.POSITION))
                                .orElse(true));
    }

    /** Of a show or the room's map: distance and directions between two points. On the page's thread. */
    Optional<RoutePicture> routesOf(String name) {
        return name.equals(MAP) && room.isPresent()
                ? map.routes()
                : showOf(name).map(PageShow::routes);
    }

    @Override
    public void close() {
        ticking.cancel(false);
        channel.close().awaitUninterruptibly();
        onThread(connections::closeAll);
        talk.close();
        group.shutdownGracefully(0, 2, TimeUnit.SECONDS).awaitUninterruptibly(5, TimeUnit.SECONDS);
    }
}
