package org.rejoin.console.page;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.function.Consumer;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.netty.buffer.Unpooled;
import io.netty.channel.ChannelFutureListener;
import io.netty.channel.ChannelHandlerContext;
import io.netty.channel.SimpleChannelInboundHandler;
import io.netty.handler.codec.http.DefaultFullHttpResponse;
import io.netty.handler.codec.http.DefaultHttpResponse;
import io.netty.handler.codec.http.FullHttpRequest;
import io.netty.handler.codec.http.HttpHeaderNames;
import io.netty.handler.codec.http.HttpHeaders;
import io.netty.handler.codec.http.HttpMethod;
import io.netty.handler.codec.http.HttpResponseStatus;
import io.netty.handler.codec.http.HttpUtil;
import io.netty.handler.codec.http.HttpVersion;
import io.netty.handler.codec.http.cookie.Cookie;
import io.netty.handler.codec.http.cookie.ServerCookieDecoder;
import io.netty.handler.timeout.IdleStateEvent;
import io.netty.handler.timeout.IdleStateHandler;

/**
 * One browser's connection. Every request is checked first: that it names this server, that it comes from a page of this
 * server, that its sender may. GET changes nothing; POST takes JSON of this server's own pages only.
 */
@SuppressWarnings("FutureReturnValueIgnored") // what is written to a browser that is gone is nothing to speak of
final class PageRequests extends SimpleChannelInboundHandler<FullHttpRequest> {

    /** Only files of this server; nothing inline, nothing framed (W3C, Content Security Policy Level 3). */
    static final String POLICY = "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self';"
            + " base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

    private static final String COOKIE = "page";
    private static final ObjectMapper JSON = new ObjectMapper();

    private final PageServer server;
    private final PageAccess access;
    private final PageFiles files;
    private final Orders orders;
    private final PageActions actions;

    PageRequests(PageServer server, PageAccess access, PageFiles files, Orders orders, PageActions actions) {
        this.server = server;
        this.access = access;
        this.files = files;
        this.orders = orders;
        this.actions = actions;
    }

    @Override
    protected void channelRead0(ChannelHandlerContext context, FullHttpRequest request) {
        String host = request.headers().get(HttpHeaderNames.HOST, "");
        if (!request.decoderResult().isSuccess()) {
            text(context, request, HttpResponseStatus.BAD_REQUEST, "not understood");
        } else if (!PageAccess.isHost(
                host, (InetSocketAddress) context.channel().localAddress())) {
            text(context, request, HttpResponseStatus.MISDIRECTED_REQUEST, "this is not the server of that name");
        } else if (request.method().equals(HttpMethod.GET)) {
            get(context, request, path(request));
        } else if (request.method().equals(HttpMethod.POST)) {
            String type = request.headers().get(HttpHeaderNames.CONTENT_TYPE, "");
            if (!PageAccess.isOrigin(request.headers().get(HttpHeaderNames.ORIGIN, ""), host)) {
                text(context, request, HttpResponseStatus.FORBIDDEN, "orders come from a page of this server only");
            } else if (!type.equals("application/json")) {
                text(context, request, HttpResponseStatus.UNSUPPORTED_MEDIA_TYPE, "application/json is needed");
            } else {
                post(context, request, path(request));
            }
        } else {
            text(context, request, HttpResponseStatus.METHOD_NOT_ALLOWED, "GET and POST only");
        }
    }

    private static String path(FullHttpRequest request) {
        String uri = request.uri();
        int query = uri.indexOf('?');
        return query < 0 ? uri : uri.substring(0, query);
    }

    private Optional<Audience> holder(FullHttpRequest request) {
        if (access.open()) {
            return Optional.of(Audience.INSTRUCTOR);
        }
        for (Cookie cookie : ServerCookieDecoder.STRICT.decode(request.headers().get(HttpHeaderNames.COOKIE, ""))) {
            if (cookie.name().equals(COOKIE)) {
                return access.holder(cookie.value());
            }
        }
        return Optional.empty();
    }

    private void get(ChannelHandlerContext context, FullHttpRequest request, String path) {
        // Browsers say where a request comes from (Fetch Metadata); another site's page gets nothing.
        if (request.headers().get("Sec-Fetch-Site", "").equals("cross-site")
                && !request.headers().get("Sec-Fetch-Mode", "").equals("navigate")) {
            text(context, request, HttpResponseStatus.FORBIDDEN, "not for pages of another site");
            return;
        }
        Optional<Audience> holder = holder(request);
        if (path.equals("/stream") || path.equals("/stream/student")) {
            if (holder.isEmpty()) {
                text(context, request, HttpResponseStatus.UNAUTHORIZED, "a token is needed");
            } else {
                stream(context, path.equals("/stream") ? holder.get() : Audience.STUDENT);
            }
            return;
        }
        Optional<PageFiles.PageFile> file = files.at(path);
        if (file.isEmpty()) {
            text(context, request, HttpResponseStatus.NOT_FOUND, "no such page");
        } else if (holder.isEmpty() && !PageFiles.beforeEntry(path)) {
            redirect(context, request, "/enter");
        } else if (file.get().instructor() && holder.orElseThrow() != Audience.INSTRUCTOR) {
            redirect(context, request, "/student");
        } else {
            respond(
                    context,
                    request,
                    HttpResponseStatus.OK,
                    file.get().type(),
                    file.get().octets());
        }
    }

    private void stream(ChannelHandlerContext context, Audience audience) {
        DefaultHttpResponse head = new DefaultHttpResponse(HttpVersion.HTTP_1_1, HttpResponseStatus.OK);
        secure(head.headers()).set(HttpHeaderNames.CONTENT_TYPE, "text/event-stream; charset=utf-8");
        HttpUtil.setTransferEncodingChunked(head, true);
        context.pipeline().remove(IdleStateHandler.class);
        context.channel().closeFuture().addListener(closed -> server.leave(context.channel()));
        context.writeAndFlush(head);
        if (!server.join(context.channel(), audience)) {
            context.close();
        }
    }

    private void post(ChannelHandlerContext context, FullHttpRequest request, String path) {
        JsonNode order;
        try {
            order = JSON.readTree(request.content().toString(StandardCharsets.UTF_8));
        } catch (IOException e) {
            text(context, request, HttpResponseStatus.BAD_REQUEST, "not JSON");
            return;
        }
        if (path.equals("/enter")) {
            enter(context, request, order.path("token").asText(""));
            return;
        }
        Optional<Audience> holder = holder(request);
        if (holder.isEmpty()) {
            text(context, request, HttpResponseStatus.UNAUTHORIZED, "a token is needed");
        } else if (path.equals("/measure")) {
            measure(context, request, order);
        } else if (!path.equals("/order")) {
            text(context, request, HttpResponseStatus.NOT_FOUND, "no such order");
        } else if (holder.get() != Audience.INSTRUCTOR) {
            text(context, request, HttpResponseStatus.FORBIDDEN, "the instructor's alone");
        } else {
            order(context, request, order);
        }
    }

    private void enter(ChannelHandlerContext context, FullHttpRequest request, String token) {
        Optional<Audience> holder = access.holder(token);
        if (holder.isEmpty() || !token.matches(PageAccess.TOKEN_CHARACTERS)) {
            text(context, request, HttpResponseStatus.FORBIDDEN, "that is not the token");
            return;
        }
        DefaultFullHttpResponse response = response(
                HttpResponseStatus.OK,
                "application/json",
                ("{\"to\":\"" + (holder.get() == Audience.INSTRUCTOR ? "/" : "/student") + "\"}")
                        .getBytes(StandardCharsets.UTF_8));
        response.headers()
                .set(HttpHeaderNames.SET_COOKIE, COOKIE + "=" + token + "; HttpOnly; SameSite=Strict; Path=/");
        send(context, request, response);
    }

    private void measure(ChannelHandlerContext context, FullHttpRequest request, JsonNode order) {
        double[] at = new double[4];
        for (int i = 0; i < 4; i++) {
            at[i] = order.path("at").path(i).asDouble(Double.NaN);
            if (!(Math.abs(at[i]) < 5_000)) {
                text(context, request, HttpResponseStatus.BAD_REQUEST, "four numbers are needed, nautical miles");
                return;
            }
        }
        String said = server.routes().measured(at[0], at[1], at[2], at[3]);
        json(context, request, JsonText.object("measured", json -> json.writeStringField("text", said)));
    }

    private void order(ChannelHandlerContext context, FullHttpRequest request, JsonNode order) {
        String done = JsonText.object("done", json -> {});
        switch (order.path("do").asText()) {
            case "start" -> {
                actions.start();
                json(context, request, done);
            }
            case "stop" -> {
                actions.stop();
                json(context, request, done);
            }
            case "show" -> {
                Optional<Topic> topic = topic(order.path("what").asText());
                topic.ifPresent(
                        shown -> server.show(shown, order.path("visible").asBoolean()));
                json(context, request, topic.isPresent() ? done : Orders.refused("nothing of that name is shown"));
            }
            default -> {
                Optional<SeatPage> seat = server.seatOf(order.path("seat").asText());
                if (seat.isEmpty()) {
                    json(context, request, Orders.refused("no aircraft has been heard yet"));
                    return;
                }
                FullHttpRequest kept = request.retain();
                Consumer<String> answer = text -> context.executor().execute(() -> {
                    json(context, kept, text);
                    kept.release();
                });
                orders.carryOut(seat.get(), order, answer);
            }
        }
    }

    private static Optional<Topic> topic(String what) {
        return switch (what) {
            case "next" -> Optional.of(Topic.NEXT);
            case "route" -> Optional.of(Topic.ROUTE);
            case "grade" -> Optional.of(Topic.GRADE);
            default -> Optional.empty();
        };
    }

    private void json(ChannelHandlerContext context, FullHttpRequest request, String text) {
        respond(context, request, HttpResponseStatus.OK, "application/json", text.getBytes(StandardCharsets.UTF_8));
    }

    private void text(ChannelHandlerContext context, FullHttpRequest request, HttpResponseStatus status, String text) {
        respond(context, request, status, "text/plain; charset=utf-8", text.getBytes(StandardCharsets.UTF_8));
    }

    private void redirect(ChannelHandlerContext context, FullHttpRequest request, String path) {
        DefaultFullHttpResponse response = response(HttpResponseStatus.SEE_OTHER, "text/plain", new byte[0]);
        response.headers().set(HttpHeaderNames.LOCATION, path);
        send(context, request, response);
    }

    private void respond(
            ChannelHandlerContext context,
            FullHttpRequest request,
            HttpResponseStatus status,
            String type,
            byte[] octets) {
        send(context, request, response(status, type, octets));
    }

    private static DefaultFullHttpResponse response(HttpResponseStatus status, String type, byte[] octets) {
        DefaultFullHttpResponse response =
                new DefaultFullHttpResponse(HttpVersion.HTTP_1_1, status, Unpooled.wrappedBuffer(octets));
        secure(response.headers())
                .set(HttpHeaderNames.CONTENT_TYPE, type)
                .setInt(HttpHeaderNames.CONTENT_LENGTH, octets.length);
        return response;
    }

    private static HttpHeaders secure(HttpHeaders headers) {
        return headers.set("Content-Security-Policy", POLICY)
                .set("X-Content-Type-Options", "nosniff")
                .set("Referrer-Policy", "no-referrer")
                .set("Cross-Origin-Resource-Policy", "same-origin")
                .set("Cross-Origin-Opener-Policy", "same-origin")
                .set(HttpHeaderNames.CACHE_CONTROL, "no-store");
    }

    private static void send(ChannelHandlerContext context, FullHttpRequest request, DefaultFullHttpResponse response) {
        boolean keep =
                HttpUtil.isKeepAlive(request) && response.status().code() < HttpResponseStatus.BAD_REQUEST.code();
        HttpUtil.setKeepAlive(response, keep);
        var sent = context.writeAndFlush(response);
        if (!keep) {
            sent.addListener(ChannelFutureListener.CLOSE);
        }
    }

    @Override
    public void userEventTriggered(ChannelHandlerContext context, Object event) {
        if (event instanceof IdleStateEvent) {
            context.close();
        }
    }

    /** A browser that goes away in the middle of something is nothing to speak of. */
    @Override
    public void exceptionCaught(ChannelHandlerContext context, Throwable cause) {
        context.close();
    }
}
