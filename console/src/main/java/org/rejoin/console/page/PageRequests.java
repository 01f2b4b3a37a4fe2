package org.rejoin.console.page;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.RejectedExecutionException;
import java.util.function.Consumer;
import java.util.function.Supplier;

import org.rejoin.console.words.CleanText;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.netty.channel.ChannelHandlerContext;
import io.netty.channel.SimpleChannelInboundHandler;
import io.netty.handler.codec.http.DefaultHttpResponse;
import io.netty.handler.codec.http.FullHttpRequest;
import io.netty.handler.codec.http.HttpHeaderNames;
import io.netty.handler.codec.http.HttpMethod;
import io.netty.handler.codec.http.HttpRequest;
import io.netty.handler.codec.http.HttpResponseStatus;
import io.netty.handler.codec.http.HttpUtil;
import io.netty.handler.codec.http.HttpVersion;
import io.netty.handler.codec.http.QueryStringDecoder;
import io.netty.handler.codec.http.cookie.Cookie;
import io.netty.handler.codec.http.cookie.ServerCookieDecoder;
import io.netty.handler.timeout.IdleStateEvent;
import io.netty.handler.timeout.IdleStateHandler;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * One browser's connection. Every request is checked first: that it names this server, that it comes from a page of this
 * server, that its sender may. GET changes nothing; POST takes JSON of this server's own pages only.
 */
@SuppressWarnings("FutureReturnValueIgnored") // what is written to a browser that is gone is nothing to speak of
final class PageRequests extends SimpleChannelInboundHandler<FullHttpRequest> {

    private static final Logger LOG = LoggerFactory.getLogger(PageRequests.class);
    private static final ObjectMapper JSON = new ObjectMapper();
    private static final String API = "/api/";
    private static final String STREAM = "/stream/";
    private static final String CODE = "/code.svg";

    /** The address of a page with a code in it is shorter, characters. */
    private static final int MOST_CODE = 300;

    /**
     * What all connections to a page share.
     *
     * @param work where what may wait for a disk is answered
     * @param warned takes one line for whoever runs the program
     */
    record Shared(
            PageServer server,
            PageAccess access,
            Guesses guesses,
            PageFiles files,
            Optional<PageRoom> room,
            SpeechDesk speech,
            PageWork work,
            Consumer<String> warned)
            implements AutoCloseable {

        @Override
        public void close() {
            work.close();
            speech.close();
        }
    }

    /** Who may do everything, as on a page without a token. */
    private static final PageRoom.Asker ANYBODY = new PageRoom.Asker(true, "");

    /** A month, as a session lasts. */
    private static final long COOKIE_S = 30L * 24 * 3_600;

    private final Shared talk;
    private final PageServer server;
    private final PageAccess access;

    /** Answers that a program is still working on: the connection is not idle. On the page's thread. */
    private int waiting;

    PageRequests(Shared talk) {
        this.talk = talk;
        this.server = talk.server();
        this.access = talk.access();
    }

    @Override
    protected void channelRead0(ChannelHandlerContext context, FullHttpRequest request) {
        PageConnections.Deadline deadline = context.pipeline().get(PageConnections.Deadline.class);
        if (deadline != null) {
            deadline.met();
        }
        new Exchange(context, request).answer();
    }

    /** Whether its sender was let in, by its head alone. */
    boolean isKnown(ChannelHandlerContext context, HttpRequest head) {
        return asker(context, cookies(context, head)).isPresent();
    }

    /** Who asks; of a room, this machine's own user is the instructor unless he joined as somebody, and stays out if that is over. */
    private Optional<PageRoom.Asker> asker(ChannelHandlerContext context, List<String> cookies) {
        if (talk.room().isEmpty() && access.open()) {
            return Optional.of(ANYBODY);
        }
        for (String cookie : cookies) {
            Optional<PageRoom.Asker> holder = talk.room().isPresent()
                    ? talk.room().get().session(cookie)
                    : access.session(cookie).map(audience -> new PageRoom.Asker(audience == Audience.INSTRUCTOR, ""));
            if (holder.isPresent()) {
                server.known(context.channel(), audience(holder.get()));
                return holder;
            }
        }
        boolean own = talk.room().isPresent()
                && !isOut(cookies)
                && PageAccess.isOwn((InetSocketAddress) context.channel().remoteAddress(), (InetSocketAddress)
                        context.channel().localAddress());
        return own ? Optional.of(ANYBODY) : Optional.empty();
    }

    /** What its sender shows for a session of this server. */
    private static List<String> cookies(ChannelHandlerContext context, HttpRequest request) {
        String name = cookieName(context);
        return ServerCookieDecoder.STRICT.decode(request.headers().get(HttpHeaderNames.COOKIE, "")).stream()
                .filter(cookie -> cookie.name().equals(name))
                .map(Cookie::value)
                .toList();
    }

    /** Browsers send a cookie to every port of a host: the name says whose it is. */
    private static String cookieName(ChannelHandlerContext context) {
        return "page-" + ((InetSocketAddress) context.channel().localAddress()).getPort();
    }

    /** Whether a session is over that its sender shows. */
    private boolean isOut(List<String> cookies) {
        return talk.room().isPresent() && cookies.stream().anyMatch(talk.room().get()::over);
    }

    private static Audience audience(PageRoom.Asker asker) {
        return asker.instructor() ? Audience.INSTRUCTOR : Audience.STUDENT;
    }

    private boolean maySee(PageRoom.Asker asker, String stream) {
        return talk.room().isEmpty()
                || stream.equals(PageServer.ROOM)
                || stream.equals(PageServer.MAP)
                || talk.room().get().maySee(asker, stream);
    }

    /** One request and its answer. Its content is read at once; the answer may come later. */
    private final class Exchange {

        private final ChannelHandlerContext context;
        private final FullHttpRequest request;
        private final Reply reply;
        private final String path;
        private final List<String> cookies;

        Exchange(ChannelHandlerContext context, FullHttpRequest request) {
            this.context = context;
            this.request = request;
            this.reply = new Reply(context, request);
            this.path = request.uri().replaceFirst("\\?.*", "");
            this.cookies = cookies(context, request);
        }

        void answer() {
            String host = header(HttpHeaderNames.HOST);
            InetSocketAddress local = (InetSocketAddress) context.channel().localAddress();
            if (!request.decoderResult().isSuccess()) {
                reply.text(HttpResponseStatus.BAD_REQUEST, "not understood");
            } else if (request.headers().getAll(HttpHeaderNames.HOST).size() > 1) { // RFC 9112, section 3.2
                reply.text(HttpResponseStatus.BAD_REQUEST, "more than one Host");
            } else if (!PageAccess.isHost(host, local)) {
                reply.text(HttpResponseStatus.MISDIRECTED_REQUEST, "this is not the server of that name");
            } else if (request.method().equals(HttpMethod.GET)) {
                get();
            } else if (!request.method().equals(HttpMethod.POST)) {
                reply.text(HttpResponseStatus.METHOD_NOT_ALLOWED, "GET and POST only");
            } else if (!PageAccess.isOrigin(access.scheme(), header(HttpHeaderNames.ORIGIN), host, local)) {
                reply.text(HttpResponseStatus.FORBIDDEN, "orders come from a page of this server only");
            } else {
                boolean sound = SpeechDesk.takesSound(path);
                String type = header(HttpHeaderNames.CONTENT_TYPE);
                String needed = sound ? "audio/wav" : "application/json";
                if (!type.equals(needed)) {
                    reply.text(
                            HttpResponseStatus.UNSUPPORTED_MEDIA_TYPE,
                            needed + " is needed here" + (type.isEmpty() ? "" : ", not " + CleanText.of(type)));
                } else if (sound) {
                    sound();
                } else {
                    post();
                }
            }
        }

        private String header(CharSequence name) {
            return request.headers().get(name, "");
        }

        private Optional<PageRoom.Asker> asker() {
            return PageRequests.this.asker(context, cookies);
        }

        /** To whoever is not in. */
        private void notIn() {
            reply.text(
                    HttpResponseStatus.UNAUTHORIZED,
                    talk.room().isEmpty()
                            ? "a token is needed"
                            : isOut(cookies)
                                    ? "this device is out: ask your instructor for a new code"
                                    : "a code is needed: ask your instructor for one");
        }

        private void get() {
            // Browsers say where a request comes from (Fetch Metadata); another site's page gets nothing.
            if (header("Sec-Fetch-Site").equals("cross-site")
                    && !header("Sec-Fetch-Mode").equals("navigate")) {
                reply.text(HttpResponseStatus.FORBIDDEN, "not for pages of another site");
                return;
            }
            Optional<PageRoom.Asker> asker = asker();
            boolean stream = path.equals("/stream") || path.startsWith(STREAM);
            boolean speech = path.equals(SpeechDesk.PATH) || path.startsWith(SpeechDesk.PATH + "/");
            boolean question = path.startsWith(API) && talk.room().isPresent();
            boolean code = path.equals(CODE) && talk.room().isPresent();
            if (stream || speech || question || code) {
                if (asker.isEmpty()) {
                    notIn();
                } else if (stream) {
                    stream(asker.get());
                } else if (code) {
                    code(query().getOrDefault("text", ""));
                } else if (speech) {
                    Map<String, String> query = query();
                    speech(() -> talk.speech().asked(asker.get(), path, query));
                } else {
                    ask(asker.get(), Optional.empty());
                }
                return;
            }
            Optional<PageFiles.PageFile> file = talk.files().at(path);
            if (file.isEmpty()) {
                reply.text(HttpResponseStatus.NOT_FOUND, "There is no such page. Begin at / of this address.");
            } else if (asker.isEmpty() && !PageFiles.beforeEntry(path)) {
                reply.redirect(isOut(cookies) ? "/enter?out" : "/enter");
            } else if (file.get().instructor() && !asker.orElseThrow().instructor()) {
                reply.redirect(talk.room().isPresent() ? "/own" : "/student");
            } else {
                reply.file(file.get());
            }
        }

        private void code(String text) {
            reply.answer(
                    text.length() <= MOST_CODE
                            ? PageRoom.Answer.of("image/svg+xml", ScanCode.svg(text))
                            : PageRoom.Answer.bad("a code has " + MOST_CODE + " characters at most"));
        }

        private Map<String, String> query() {
            Map<String, String> query = new HashMap<>();
            new QueryStringDecoder(request.uri()).parameters().forEach((name, all) -> query.put(name, all.get(0)));
            return query;
        }

        private void sound() {
            Optional<PageRoom.Asker> asker = asker();
            if (asker.isEmpty()) {
                notIn();
                return;
            }
            byte[] wav = new byte[request.content().readableBytes()];
            request.content().readBytes(wav);
            Map<String, String> query = query();
            speech(() -> talk.speech().heard(asker.get(), path, query, wav));
        }

        /** On a thread that waits for programs; meanwhile the connection is not idle. */
        private void speech(Supplier<PageRoom.Answer> work) {
            boolean taken = later(talk.speech().work(), HttpResponseStatus.INTERNAL_SERVER_ERROR, work, said -> {
                waiting--;
                reply.answer(said);
            });
            if (taken) {
                waiting++;
            } else {
                reply.text(HttpResponseStatus.SERVICE_UNAVAILABLE, "too much waits to be said: try again");
            }
        }

        /** On a thread that may wait for a disk. */
        private void ask(PageRoom.Asker asker, Optional<JsonNode> order) {
            PageRoom room = talk.room().orElseThrow();
            Map<String, String> query = query();
            boolean taken = later(
                    talk.work(),
                    HttpResponseStatus.CONFLICT,
                    () -> room.ask(asker, path.substring(API.length()), query, order),
                    reply::answer);
            if (!taken) {
                reply.text(HttpResponseStatus.SERVICE_UNAVAILABLE, "too much waits for an answer: try again");
            }
        }

        /** On another thread; the answer comes back on the page's. False where too much waits there already. */
        private boolean later(
                PageWork work,
                HttpResponseStatus failed,
                Supplier<PageRoom.Answer> question,
                Consumer<PageRoom.Answer> told) {
            return work.later(() -> {
                PageRoom.Answer answer;
                try {
                    answer = question.get();
                } catch (RuntimeException e) {
                    LOG.debug("not answered", e);
                    answer = PageRoom.Answer.not(failed, "it did not work: " + e);
                }
                PageRoom.Answer said = answer;
                onPage(() -> told.accept(said));
            });
        }

        private void onPage(Runnable answer) {
            try {
                context.executor().execute(answer);
            } catch (RejectedExecutionException e) {
                LOG.debug("an answer came when the page was closed already", e);
            }
        }

        /** {@code /stream}, {@code /stream/student} of one flight; {@code /stream/room}, {@code /stream/NAME} of a room. */
        private void stream(PageRoom.Asker asker) {
            String asked = path.length() <= STREAM.length() ? "" : path.substring(STREAM.length());
            boolean student = talk.room().isEmpty() && asked.equals("student");
            Audience audience = student ? Audience.STUDENT : audience(asker);
            String name = talk.room().isEmpty() ? "" : asked;
            if (!maySee(asker, name)) {
                reply.text(HttpResponseStatus.FORBIDDEN, "not your seat");
                return;
            }
            if (!server.hasRoom(context.channel(), audience)) {
                reply.text(
                        HttpResponseStatus.SERVICE_UNAVAILABLE, "too many pages are open: close one and reload this");
                return;
            }
            server.known(context.channel(), audience);
            DefaultHttpResponse head = new DefaultHttpResponse(HttpVersion.HTTP_1_1, HttpResponseStatus.OK);
            Reply.secure(head.headers()).set(HttpHeaderNames.CONTENT_TYPE, "text/event-stream; charset=utf-8");
            HttpUtil.setTransferEncodingChunked(head, true);
            if (context.pipeline().get(IdleStateHandler.class) != null) {
                context.pipeline().remove(IdleStateHandler.class);
            }
            context.channel().closeFuture().addListener(closed -> server.leave(context.channel()));
            context.writeAndFlush(head);
            server.join(new Viewers.Page(
                    context.channel(),
                    audience,
                    name,
                    asker,
                    () -> asker().filter(asker::equals).isPresent() && maySee(asker, name)));
        }

        private void post() {
            Optional<PageRoom.Asker> asker = asker();
            if (asker.isEmpty() && !path.equals("/enter")) { // before anything of a stranger's is read
                notIn();
                return;
            }
            JsonNode order;
            try {
                order = JSON.readTree(request.content().toString(StandardCharsets.UTF_8));
            } catch (IOException e) {
                reply.text(HttpResponseStatus.BAD_REQUEST, "not JSON");
                return;
            }
            if (path.equals("/enter") || asker.isEmpty()) {
                enter(order.path("token").asText(""));
            } else if (path.equals(SpeechDesk.PATH + "/again")) {
                pilots(asker.get(), "again", order);
            } else if (path.startsWith(API) && talk.room().isPresent()) {
                ask(asker.get(), Optional.of(order));
            } else if (path.equals("/measure")) {
                server.routesOf(order.path("show").asText(""))
                        .ifPresentOrElse(
                                plan -> measure(plan, order),
                                () -> reply.json(Orders.refused("no lesson is flown there")));
            } else if (path.equals("/order")) {
                order(asker.get(), order);
            } else {
                reply.text(HttpResponseStatus.NOT_FOUND, "no such order");
            }
        }

        private void enter(String token) {
            InetAddress from = ((InetSocketAddress) context.channel().remoteAddress()).getAddress();
            if (talk.room().isPresent()) {
                join(talk.room().get().join(token, from));
                return;
            }
            Guesses guesses = talk.guesses();
            long waitS = guesses.waitS(from);
            if (waitS > 0) {
                reply.text(
                        HttpResponseStatus.TOO_MANY_REQUESTS,
                        "too many wrong tokens came from your address: wait " + waitS + " s and try again");
                return;
            }
            Optional<Audience> holder = access.holder(token);
            if (holder.isEmpty()) {
                if (guesses.wrong(from)) {
                    talk.warned()
                            .accept("somebody at " + from.getHostAddress() + " showed " + Guesses.MOST
                                    + " wrong tokens to the page and must wait a minute");
                }
                reply.text(HttpResponseStatus.FORBIDDEN, "that is not the token");
                return;
            }
            letIn(holder.get() == Audience.INSTRUCTOR ? "/" : "/student", access.sessionOf(holder.get()), "");
        }

        private void join(PageRoom.Joined joined) {
            if (joined.cookie().isEmpty()) {
                reply.text(HttpResponseStatus.FORBIDDEN, joined.why());
                return;
            }
            letIn(
                    joined.instructor() ? "/" : "/own",
                    joined.cookie().get(),
                    "; Max-Age=" + COOKIE_S + (access.encrypted() ? "; Secure" : ""));
        }

        private void letIn(String to, String session, String kept) {
            reply.jsonWithCookie(
                    "{\"to\":\"" + to + "\"}",
                    cookieName(context) + "=" + session + "; HttpOnly; SameSite=Strict; Path=/" + kept);
        }

        private void measure(RoutePicture plan, JsonNode order) {
            double[] at = new double[4];
            for (int i = 0; i < 4; i++) {
                at[i] = order.path("at").path(i).asDouble(Double.NaN);
                if (!(Math.abs(at[i]) < 5_000)) {
                    reply.text(HttpResponseStatus.BAD_REQUEST, "four numbers are needed, nautical miles");
                    return;
                }
            }
            String said = plan.measured(at[0], at[1], at[2], at[3]);
            reply.json(Message.json("measured", json -> json.writeStringField("text", said)));
        }

        /** What a pilot may order at his own seat, as an instructor may at any. */
        private void pilots(PageRoom.Asker asker, String what, JsonNode order) {
            Optional<SpeechDesk.Place> place = talk.speech()
                    .of(asker, order.path("show").asText(""), order.path("seat").asText(""));
            if (place.isEmpty()) {
                reply.text(HttpResponseStatus.FORBIDDEN, SpeechDesk.NOT_YOURS);
                return;
            }
            ObjectNode asked = order.isObject() ? order.deepCopy() : JSON.createObjectNode();
            asked.put("do", what);
            carryOut(place.get().show(), place.get().seat(), asked);
        }

        /** The answer comes from the flight's thread or the disk's. */
        private void carryOut(PageShow show, SeatPage seat, JsonNode order) {
            show.orders().carryOut(seat, order, text -> onPage(() -> reply.json(text)));
        }

        private void order(PageRoom.Asker asker, JsonNode order) {
            String what = order.path("do").asText();
            Optional<PageShow> there = server.showOf(order.path("show").asText(""));
            if (!asker.instructor() && Orders.isForPilots(what)) {
                pilots(asker, what, order);
            } else if (there.isEmpty()) {
                reply.json(Orders.refused("no lesson is flown there"));
            } else if (!asker.instructor()) {
                reply.text(HttpResponseStatus.FORBIDDEN, "the instructor's alone");
            } else {
                instructors(there.get(), what, order);
            }
        }

        private void instructors(PageShow show, String what, JsonNode order) {
            String done = Message.json("done", json -> {});
            switch (what) {
                case "start" -> {
                    show.actions().start();
                    reply.json(done);
                }
                case "stop" -> {
                    show.actions().stop();
                    reply.json(done);
                }
                case "show" -> {
                    Optional<Topic> topic = Topic.shown(order.path("what").asText());
                    topic.ifPresent(shown ->
                            server.show(show, shown, order.path("visible").asBoolean()));
                    reply.json(topic.isPresent() ? done : Orders.refused("nothing of that name is shown"));
                }
                default ->
                    show.seatOf(order.path("seat").asText())
                            .ifPresentOrElse(
                                    seat -> carryOut(show, seat, order),
                                    () -> reply.json(Orders.refused("no aircraft has been heard yet")));
            }
        }
    }

    @Override
    public void userEventTriggered(ChannelHandlerContext context, Object event) {
        if (event instanceof IdleStateEvent && waiting == 0) {
            context.close();
        }
    }

    /** A browser that goes away in the middle of something is nothing to speak of. */
    @Override
    public void exceptionCaught(ChannelHandlerContext context, Throwable cause) {
        context.close();
    }
}
