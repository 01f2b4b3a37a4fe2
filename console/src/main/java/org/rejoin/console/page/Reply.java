package org.rejoin.console.page;

import java.nio.charset.StandardCharsets;

import io.netty.buffer.Unpooled;
import io.netty.channel.ChannelFutureListener;
import io.netty.channel.ChannelHandlerContext;
import io.netty.handler.codec.http.DefaultFullHttpResponse;
import io.netty.handler.codec.http.FullHttpRequest;
import io.netty.handler.codec.http.HttpHeaderNames;
import io.netty.handler.codec.http.HttpHeaders;
import io.netty.handler.codec.http.HttpResponseStatus;
import io.netty.handler.codec.http.HttpUtil;
import io.netty.handler.codec.http.HttpVersion;

/** Answers one request; each answer forbids the browser what is not this server's. Needs nothing of the request later. */
@SuppressWarnings("FutureReturnValueIgnored") // what is written to a browser that is gone is nothing to speak of
final class Reply {

    /** Only files of this server; nothing inline, nothing framed (W3C, Content Security Policy Level 3). */
    private static final String POLICY = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self';"
            + " connect-src 'self';"
            + " base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

    /** Nothing of the device is given to a page (W3C, Permissions Policy); the microphone to those a pilot talks on. */
    private static final String NO_DEVICES = "camera=(), geolocation=(), display-capture=(), usb=(), serial=(), hid=(),"
            + " midi=(), payment=(), microphone=";

    private final ChannelHandlerContext context;
    private final boolean keepAlive;

    Reply(ChannelHandlerContext context, FullHttpRequest request) {
        this.context = context;
        this.keepAlive = HttpUtil.isKeepAlive(request);
    }

    void json(String text) {
        answer(PageRoom.Answer.json(text));
    }

    void text(HttpResponseStatus status, String text) {
        answer(PageRoom.Answer.not(status, text));
    }

    void redirect(String path) {
        DefaultFullHttpResponse response = response(HttpResponseStatus.SEE_OTHER, "text/plain", new byte[0]);
        response.headers().set(HttpHeaderNames.LOCATION, path);
        send(response);
    }

    void jsonWithCookie(String text, String cookie) {
        DefaultFullHttpResponse response =
                response(HttpResponseStatus.OK, "application/json", text.getBytes(StandardCharsets.UTF_8));
        response.headers().set(HttpHeaderNames.SET_COOKIE, cookie);
        send(response);
    }

    /** A report in HTML needs nothing but itself and brings its own policy, stricter than ours. */
    void answer(PageRoom.Answer answer) {
        DefaultFullHttpResponse response = response(answer.status(), answer.type(), answer.octets());
        if (answer.type().startsWith("text/html")) {
            response.headers()
                    .set("Content-Security-Policy", "frame-ancestors 'self'; base-uri 'none'; form-action 'none'");
        }
        send(response);
    }

    void file(PageFiles.PageFile file) {
        DefaultFullHttpResponse response = response(HttpResponseStatus.OK, file.type(), file.octets());
        if (file.microphone()) {
            response.headers().set("Permissions-Policy", NO_DEVICES + "(self)");
        }
        send(response);
    }

    private static DefaultFullHttpResponse response(HttpResponseStatus status, String type, byte[] octets) {
        DefaultFullHttpResponse response =
                new DefaultFullHttpResponse(HttpVersion.HTTP_1_1, status, Unpooled.wrappedBuffer(octets));
        secure(response.headers())
                .set(HttpHeaderNames.CONTENT_TYPE, type)
                .setInt(HttpHeaderNames.CONTENT_LENGTH, octets.length);
        return response;
    }

    /** The headers of every answer. */
    static HttpHeaders secure(HttpHeaders headers) {
        return headers.set("Content-Security-Policy", POLICY)
                .set("X-Content-Type-Options", "nosniff")
                .set("Permissions-Policy", NO_DEVICES + "()")
                .set("Referrer-Policy", "no-referrer")
                .set("Cross-Origin-Resource-Policy", "same-origin")
                .set("Cross-Origin-Opener-Policy", "same-origin")
                .set(HttpHeaderNames.CACHE_CONTROL, "no-store");
    }

    private void send(DefaultFullHttpResponse response) {
        boolean keep = keepAlive && response.status().code() < HttpResponseStatus.BAD_REQUEST.code();
        HttpUtil.setKeepAlive(response, keep);
        var sent = context.writeAndFlush(response);
        if (!keep) {
            sent.addListener(ChannelFutureListener.CLOSE);
        }
    }
}
