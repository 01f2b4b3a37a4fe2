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

    /** Who may do everything, as on a page without a token. */
    private static final PageRoom.Asker ANYBODY = new PageRoom.Asker(true, "");

    /** A month, as a session lasts. */
    private static final long COOKIE_S = 30L * 24 * 3_600;

    private final PageTalk talk;
    private final PageServer server;
    private final PageAccess access;

    /** Answers that a program is still working on: the connection is not idle. On the page's thread. */
    private int waiting;

    PageRequests(PageTalk talk) {
        this.talk = talk;
        this.server = talk.server();
        this.access = talk.access();
    }

    @Override
    protected void channelRead0(ChannelHandlerContext context, FullHttpRequest request) {
        RequestDeadline deadline = context.pipeline().get(RequestDeadline.class);
        if (deadline != null) {
            deadline.met();
        }
        Reply reply = new Reply(context, request);
        String host = request.headers().get(HttpHeaderNames.HOST, "");
        InetSocketAddress local = (InetSocketAddress) context.channel().localAddress();
        if (!request.decoderResult().isSuccess()) {
            reply.text(HttpResponseStatus.BAD_REQUEST, "not understood");
        } else if (request.headers().getAll(HttpHeaderNames.HOST).size() > 1) { // RFC 9112, section 3.2
            reply.text(HttpResponseStatus.BAD_REQUEST, "more than one Host");
        } else if (!PageAccess.isHost(host, local)) {
            reply.text(HttpResponseStatus.MISDIRECTED_REQUEST, "this is not the server of that name");
        } else if (request.method().equals(HttpMethod.GET)) {
            get(context, request, path(request), reply);
        } else if (request.method().equals(HttpMethod.POST)) {
            String type = request.headers().get(HttpHeaderNames.CONTENT_TYPE, "");
            boolean sound = SpeechDesk.takesSound(path(request));
            String needed = sound ? "audio/wav" : "application/json";
            if (!PageAccess.isOrigin(access.scheme(), request.headers().get(HttpHeaderNames.ORIGIN, ""), host, local)) {
                reply.text(HttpResponseStatus.FORBIDDEN, "orders come from a page of this server only");
            } else if (!type.equals(needed)) {
                reply.text(
                        HttpResponseStatus.UNSUPPORTED_MEDIA_TYPE,
                        needed + " is needed here" + (type.isEmpty() ? "" : ", not " + CleanText.of(type)));
            } else if (sound) {
                sound(context, request, path(request), reply);
            } else {
                post(context, request, path(request), reply);
            }
        } else {
            reply.text(HttpResponseStatus.METHOD_NOT_ALLOWED, "GET and POST only");
        }
    }

    private static String path(FullHttpRequest request) {
        String uri = request.uri();
        int query = uri.indexOf('?');
        return query < 0 ? uri : uri.substring(0, query);
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

    /** Whether a session is over that its sender shows. */
    private boolean isOut(List<String> cookies) {
        return talk.room().isPresent() && cookies.stream().anyMatch(talk.room().get()::over);
    }

    /** To whoever is not in. */
    private void notIn(List<String> cookies, Reply reply) {
        reply.text(
                HttpResponseStatus.UNAUTHORIZED,
                talk.room().isEmpty()
                        ? "a token is needed"
                        : isOut(cookies)
                                ? "this device is out: ask your instructor for a new code"
                                : "a code is needed: ask your instructor for one");
    }

    /** Whether its sender was let in, by its head alone. */
    boolean isKnown(ChannelHandlerContext context, HttpRequest head) {
        return asker(context, cookies(context, head)).isPresent();
    }

    private static Audience audience(PageRoom.Asker asker) {
        return asker.instructor() ? Audience.INSTRUCTOR : Audience.STUDENT;
    }

    /** Browsers send a cookie to every port of a host: the name says whose it is. */
    private static String cookieName(ChannelHandlerContext context) {
        return "page-" + ((InetSocketAddress) context.channel().localAddress()).getPort();
    }

    private void get(ChannelHandlerContext context, FullHttpRequest request, String path, Reply reply) {
        // Browsers say where a request comes from (Fetch Metadata); another site's page gets nothing.
        if (request.headers().get("Sec-Fetch-Site", "").equals("cross-site")
                && !request.headers().get("Sec-Fetch-Mode", "").equals("navigate")) {
            reply.text(HttpResponseStatus.FORBIDDEN, "not for pages of another site");
            return;
        }
        List<String> cookies = cookies(context, request);
        Optional<PageRoom.Asker> asker = asker(context, cookies);
        boolean stream = path.equals("/stream") || path.startsWith(STREAM);
        boolean speech = path.equals(SpeechDesk.PATH) || path.startsWith(SpeechDesk.PATH + "/");
        boolean question = path.startsWith(API) && talk.room().isPresent();
        if (stream || speech || question) {
            if (asker.isEmpty()) {
                notIn(cookies, reply);
            } else if (stream) {
                stream(context, cookies, asker.get(), path, reply);
            } else if (speech) {
                Map<String, String> query = query(request);
                speech(context, reply, () -> talk.speech().asked(asker.get(), path, query));
            } else {
                ask(context, request, asker.get(), path, Optional.empty(), reply);
            }
            return;
        }
        Optional<PageFiles.PageFile> file = talk.files().at(path);
        if (file.isEmpty()) {
            reply.text(HttpResponseStatus.NOT_FOUND, "no such page");
        } else if (asker.isEmpty() && !PageFiles.beforeEntry(path)) {
            reply.redirect(isOut(cookies) ? "/enter?out" : "/enter");
        } else if (file.get().instructor() && !asker.orElseThrow().instructor()) {
            reply.redirect(talk.room().isPresent() ? "/own" : "/student");
        } else {
            reply.file(file.get());
        }
    }

    private static Map<String, String> query(FullHttpRequest request) {
        Map<String, String> query = new HashMap<>();
        new QueryStringDecoder(request.uri()).parameters().forEach((name, values) -> query.put(name, values.get(0)));
        return query;
    }

    private void sound(ChannelHandlerContext context, FullHttpRequest request, String path, Reply reply) {
        List<String> cookies = cookies(context, request);
        Optional<PageRoom.Asker> asker = asker(context, cookies);
        if (asker.isEmpty()) {
            notIn(cookies, reply);
            return;
        }
        byte[] wav = new byte[request.content().readableBytes()];
        request.content().readBytes(wav);
        Map<String, String> query = query(request);
        speech(context, reply, () -> talk.speech().heard(asker.get(), path, query, wav));
    }

    /** On a thread that waits for programs; meanwhile the connection is not idle. */
    private void speech(ChannelHandlerContext context, Reply reply, Supplier<PageAnswer> work) {
        boolean taken = later(talk.speech().work(), context, HttpResponseStatus.INTERNAL_SERVER_ERROR, work, said -> {
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
    private void ask(
            ChannelHandlerContext context,
            FullHttpRequest request,
            PageRoom.Asker asker,
            String path,
            Optional<JsonNode> order,
            Reply reply) {
        PageRoom room = talk.room().orElseThrow();
        Map<String, String> query = query(request);
        boolean taken = later(
                talk.work(),
                context,
                HttpResponseStatus.CONFLICT,
                () -> PageAnswer.of(room.ask(asker, path.substring(API.length()), query, order)),
                reply::answer);
        if (!taken) {
            reply.text(HttpResponseStatus.SERVICE_UNAVAILABLE, "too much waits for an answer: try again");
        }
    }

    /** On another thread; the answer comes back on the page's. False where too much waits there already. */
    private static boolean later(
            PageWork work,
            ChannelHandlerContext context,
            HttpResponseStatus failed,
            Supplier<PageAnswer> question,
            Consumer<PageAnswer> answered) {
        return work.later(() -> {
            PageAnswer answer;
            try {
                answer = question.get();
            } catch (RuntimeException e) {
                LOG.debug("not answered", e);
                answer = PageAnswer.no(failed, "it did not work: " + e);
            }
            PageAnswer said = answer;
            onPage(context, () -> answered.accept(said));
        });
    }

    /** {@code /stream}, {@code /stream/student} of one flight; {@code /stream/room}, {@code /stream/NAME} of a room. */
    private void stream(
            ChannelHandlerContext context, List<String> cookies, PageRoom.Asker asker, String path, Reply reply) {
        String name = path.length() <= STREAM.length() ? "" : path.substring(STREAM.length());
        Audience audience = talk.room().isEmpty() && name.equals("student") ? Audience.STUDENT : audience(asker);
        if (talk.room().isEmpty()) {
            name = "";
        } else if (!maySee(asker, name)) {
            reply.text(HttpResponseStatus.FORBIDDEN, "not your seat");
            return;
        }
        if (!server.hasRoom(context.channel(), audience)) {
            reply.text(HttpResponseStatus.SERVICE_UNAVAILABLE, "too many pages are open: close one and reload this");
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
        String seen = name;
        server.join(new Viewers.Page(
                context.channel(),
                audience,
                name,
                asker,
                () -> asker(context, cookies).filter(asker::equals).isPresent() && maySee(asker, seen)));
    }

    private boolean maySee(PageRoom.Asker asker, String stream) {
        return talk.room().isEmpty()
                || stream.equals(PageServer.ROOM)
                || stream.equals(PageServer.MAP)
                || talk.room().get().maySee(asker, stream);
    }

    private void post(ChannelHandlerContext context, FullHttpRequest request, String path, Reply reply) {
        List<String> cookies = cookies(context, request);
        Optional<PageRoom.Asker> asker = asker(context, cookies);
        if (asker.isEmpty() && !path.equals("/enter")) { // before anything of a stranger's is read
            notIn(cookies, reply);
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
            enter(context, order.path("token").asText(""), reply);
        } else if (path.equals(SpeechDesk.PATH + "/again")) {
            pilots(context, asker.get(), "again", order, reply);
        } else if (path.startsWith(API) && talk.room().isPresent()) {
            ask(context, request, asker.get(), path, Optional.of(order), reply);
        } else if (path.equals("/measure")) {
            server.routesOf(order.path("show").asText(""))
                    .ifPresentOrElse(
                            plan -> measure(plan, order, reply),
                            () -> reply.json(Orders.refused("no lesson is flown there")));
        } else if (path.equals("/order")) {
            order(context, asker.get(), order, reply);
        } else {
            reply.text(HttpResponseStatus.NOT_FOUND, "no such order");
        }
    }

    private void enter(ChannelHandlerContext context, String token, Reply reply) {
        InetAddress from = ((InetSocketAddress) context.channel().remoteAddress()).getAddress();
        if (talk.room().isPresent()) {
            join(context, token, from, reply);
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
        reply.jsonWithCookie(
                "{\"to\":\"" + (holder.get() == Audience.INSTRUCTOR ? "/" : "/student") + "\"}",
                cookieName(context) + "=" + access.sessionOf(holder.get()) + "; HttpOnly; SameSite=Strict; Path=/");
    }

    private void join(ChannelHandlerContext context, String code, InetAddress from, Reply reply) {
        PageRoom.Joined joined = talk.room().orElseThrow().join(code, from);
        if (joined.cookie().isEmpty()) {
            reply.text(HttpResponseStatus.FORBIDDEN, joined.why());
            return;
        }
        reply.jsonWithCookie(
                "{\"to\":\"" + (joined.instructor() ? "/" : "/own") + "\"}",
                cookieName(context) + "=" + joined.cookie().get() + "; HttpOnly; SameSite=Strict; Path=/; Max-Age="
                        + COOKIE_S + (access.encrypted() ? "; Secure" : ""));
    }

    private static void measure(RoutePicture plan, JsonNode order, Reply reply) {
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
    private void pilots(ChannelHandlerContext context, PageRoom.Asker asker, String what, JsonNode order, Reply reply) {
        Optional<SpeechDesk.Place> place = talk.speech()
                .of(asker, order.path("show").asText(""), order.path("seat").asText(""));
        if (place.isEmpty()) {
            reply.text(HttpResponseStatus.FORBIDDEN, SpeechDesk.NOT_YOURS);
            return;
        }
        ObjectNode asked = order.isObject() ? order.deepCopy() : JSON.createObjectNode();
        asked.put("do", what);
        place.get().show().orders().carryOut(place.get().seat(), asked, text -> answer(context, reply, text));
    }

    private void order(ChannelHandlerContext context, PageRoom.Asker asker, JsonNode order, Reply reply) {
        String what = order.path("do").asText();
        Optional<PageShow> there = server.showOf(order.path("show").asText(""));
        if (!asker.instructor() && Orders.isForPilots(what)) {
            pilots(context, asker, what, order, reply);
        } else if (there.isEmpty()) {
            reply.json(Orders.refused("no lesson is flown there"));
        } else if (!asker.instructor()) {
            reply.text(HttpResponseStatus.FORBIDDEN, "the instructor's alone");
        } else {
            instructors(context, there.get(), what, order, reply);
        }
    }

    private void instructors(ChannelHandlerContext context, PageShow show, String what, JsonNode order, Reply reply) {
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
                topic.ifPresent(
                        shown -> server.show(show, shown, order.path("visible").asBoolean()));
                reply.json(topic.isPresent() ? done : Orders.refused("nothing of that name is shown"));
            }
            default -> {
                Optional<SeatPage> seat = show.seatOf(order.path("seat").asText());
                if (seat.isEmpty()) {
                    reply.json(Orders.refused("no aircraft has been heard yet"));
                    return;
                }
                show.orders().carryOut(seat.get(), order, text -> answer(context, reply, text));
            }
        }
    }

    /** From the flight's thread or the disk's. */
    private static void answer(ChannelHandlerContext context, Reply reply, String text) {
        onPage(context, () -> reply.json(text));
    }

    private static void onPage(ChannelHandlerContext context, Runnable answer) {
        try {
            context.executor().execute(answer);
        } catch (RejectedExecutionException e) {
            LOG.debug("an answer came when the page was closed already", e);
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
