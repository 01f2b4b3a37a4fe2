package org.rejoin.console.page;

import java.nio.charset.StandardCharsets;
import java.util.function.BiPredicate;

import io.netty.buffer.Unpooled;
import io.netty.channel.ChannelFutureListener;
import io.netty.channel.ChannelHandlerContext;
import io.netty.channel.ChannelInboundHandlerAdapter;
import io.netty.handler.codec.http.DefaultFullHttpResponse;
import io.netty.handler.codec.http.HttpContent;
import io.netty.handler.codec.http.HttpHeaderNames;
import io.netty.handler.codec.http.HttpRequest;
import io.netty.handler.codec.http.HttpResponseStatus;
import io.netty.handler.codec.http.HttpUtil;
import io.netty.handler.codec.http.HttpVersion;
import io.netty.util.ReferenceCountUtil;

/**
 * Lets no request grow beyond what its path may have: sound where sound is taken and from whoever was let in, a few hundred
 * characters elsewhere.
 */
@SuppressWarnings("FutureReturnValueIgnored") // what is written to a browser that is refused is nothing to speak of
final class BodyLimit extends ChannelInboundHandlerAdapter {

    private final int most;
    private final int mostSound;
    private final BiPredicate<ChannelHandlerContext, HttpRequest> known;
    private int allowed;
    private long left;
    private boolean refused;

    /**
     * A limit.
     *
     * @param most octets of a body
     * @param mostSound octets of a body of sound
     * @param known whether whoever asks may do anything here; a stranger sends no sound
     */
    BodyLimit(int most, int mostSound, BiPredicate<ChannelHandlerContext, HttpRequest> known) {
        this.known = known;
        this.most = most;
        this.mostSound = mostSound;
    }

    @Override
    public void channelRead(ChannelHandlerContext context, Object message) {
        if (refused) {
            ReferenceCountUtil.release(message);
            return;
        }
        if (message instanceof HttpRequest request) {
            String path = request.uri().replaceFirst("\\?.*", "");
            allowed =
                    mostSound > most && SpeechDesk.takesSound(path) && known.test(context, request) ? mostSound : most;
            left = allowed;
            if (HttpUtil.getContentLength(request, 0L) > allowed) {
                refuse(context, message);
                return;
            }
        }
        if (message instanceof HttpContent content) {
            left -= content.content().readableBytes();
            if (left < 0) {
                refuse(context, message);
                return;
            }
        }
        context.fireChannelRead(message);
    }

    private void refuse(ChannelHandlerContext context, Object message) {
        refused = true;
        ReferenceCountUtil.release(message);
        DefaultFullHttpResponse response = new DefaultFullHttpResponse(
                HttpVersion.HTTP_1_1,
                HttpResponseStatus.REQUEST_ENTITY_TOO_LARGE,
                Unpooled.wrappedBuffer(("too large: a request here may have " + allowed + " octets")
                        .getBytes(StandardCharsets.US_ASCII)));
        Reply.secure(response.headers()).set(HttpHeaderNames.CONNECTION, "close");
        context.writeAndFlush(response).addListener(ChannelFutureListener.CLOSE);
    }
}
