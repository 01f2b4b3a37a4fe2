package org.rejoin.console.page;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.function.BiPredicate;
import java.util.function.Supplier;
import javax.net.ssl.KeyManagerFactory;

import org.rejoin.console.page.Message.Audience;
import org.rejoin.console.page.Viewers.PageLimits;

import io.netty.buffer.Unpooled;
import io.netty.channel.Channel;
import io.netty.channel.ChannelFutureListener;
import io.netty.channel.ChannelHandlerContext;
import io.netty.channel.ChannelInboundHandlerAdapter;
import io.netty.channel.ChannelInitializer;
import io.netty.handler.codec.http.DefaultFullHttpResponse;
import io.netty.handler.codec.http.HttpContent;
import io.netty.handler.codec.http.HttpHeaderNames;
import io.netty.handler.codec.http.HttpObjectAggregator;
import io.netty.handler.codec.http.HttpRequest;
import io.netty.handler.codec.http.HttpResponseStatus;
import io.netty.handler.codec.http.HttpServerCodec;
import io.netty.handler.codec.http.HttpVersion;
import io.netty.handler.ssl.SslContext;
import io.netty.handler.ssl.SslContextBuilder;
import io.netty.handler.timeout.IdleStateHandler;
import io.netty.util.ReferenceCountUtil;
import io.netty.util.concurrent.Future;
import org.jspecify.annotations.Nullable;

/**
 * The open connections. A new one is let in even where there are too many, at the cost of another: first of those that have
 * shown no token, then of students', of the address that holds most, the oldest. An instructor's is never closed for another,
 * so nobody can lock the instructor out. Confined to the page's thread.
 */
@SuppressWarnings("FutureReturnValueIgnored") // a connection that is being closed is nothing to speak of
final class PageConnections extends ChannelInitializer<Channel> {

    /** An order is a few hundred characters. */
    private static final int MOST_BODY = 8_192;

    /** How far a connection is known; lower goes first. */
    private enum Standing {
        STRANGER,
        STUDENT,
        INSTRUCTOR
    }

    private record Holder(Channel channel, Optional<InetAddress> address, Standing standing) {}

    /** A lesson is a page of text. */
    private static final int MOST_BODY_OF_A_ROOM = 65_536;

    private final PageLimits limits;
    private final Optional<SslContext> tls;
    private final int mostBody;
    private final boolean hears;
    private final Supplier<PageRequests> requests;
    private final Map<Channel, Holder> open = new LinkedHashMap<>();

    /**
     * None is open.
     *
     * @param tls key and certificate, where the page is encrypted
     * @param room whether lessons are sent here too
     * @param hears whether sound is sent here too
     * @param requests makes what answers one connection
     * @throws IOException if the key cannot be used
     */
    PageConnections(
            PageLimits limits,
            Optional<KeyManagerFactory> tls,
            boolean room,
            boolean hears,
            Supplier<PageRequests> requests)
            throws IOException {
        this.hears = hears;
        this.limits = limits;
        this.tls = tls.isEmpty()
                ? Optional.empty()
                : Optional.of(SslContextBuilder.forServer(tls.get()).build());
        this.mostBody = room ? MOST_BODY_OF_A_ROOM : MOST_BODY;
        this.requests = requests;
    }

    @Override
    protected void initChannel(Channel channel) {
        if (open.size() >= limits.connections() && !madeRoom()) {
            channel.close();
            return;
        }
        Optional<InetAddress> address = channel.remoteAddress() instanceof InetSocketAddress from
                ? Optional.ofNullable(from.getAddress())
                : Optional.empty();
        open.put(channel, new Holder(channel, address, Standing.STRANGER));
        channel.closeFuture().addListener(closed -> open.remove(channel));
        PageRequests answers = requests.get();
        tls.ifPresent(encrypted -> channel.pipeline().addLast(encrypted.newHandler(channel.alloc())));
        channel.pipeline()
                .addLast(new RequestDeadline(limits.requestMs()))
                .addLast(new HttpServerCodec(2_048, 8_192, 8_192))
                .addLast(new BodyLimit(mostBody, hears ? SpeechDesk.MOST_SOUND : mostBody, answers::isKnown))
                .addLast(new HttpObjectAggregator(hears ? SpeechDesk.MOST_SOUND : mostBody))
                .addLast(new IdleStateHandler(0, 0, limits.idleS()))
                .addLast(answers);
    }

    /** Whose connection it is has been shown. */
    void known(Channel channel, Audience audience) {
        Standing shown = audience == Audience.INSTRUCTOR ? Standing.INSTRUCTOR : Standing.STUDENT;
        open.computeIfPresent(
                channel,
                (same, holder) ->
                        shown.compareTo(holder.standing()) > 0 ? new Holder(channel, holder.address(), shown) : holder);
    }

    /** Ends them all; the thread that ends would leave them open and never answer. */
    void closeAll() {
        List.copyOf(open.keySet()).forEach(Channel::close);
    }

    private boolean madeRoom() {
        Map<Optional<InetAddress>, Integer> counts = new HashMap<>();
        open.values().forEach(holder -> counts.merge(holder.address(), 1, Integer::sum));
        List<Holder> oldestFirst = new ArrayList<>(open.values());
        Optional<Holder> victim = oldestFirst.stream()
                .filter(holder -> holder.standing() != Standing.INSTRUCTOR)
                .min(Comparator.comparing(Holder::standing)
                        .thenComparing(holder -> -counts.getOrDefault(holder.address(), 0)));
        victim.ifPresent(holder -> {
            open.remove(holder.channel());
            holder.channel().close();
        });
        return victim.isPresent();
    }

    /**
     * Closes a connection whose request takes too long from its first octet to its last: one that sends an octet now and then is
     * never idle, and would hold its place for ever.
     */
    @SuppressWarnings("FutureReturnValueIgnored") // a connection that is being closed is nothing to speak of
    static final class RequestDeadline extends ChannelInboundHandlerAdapter {

        private final long requestMs;
        private @Nullable Future<?> deadline;

        RequestDeadline(long requestMs) {
            this.requestMs = requestMs;
        }

        @Override
        public void channelRead(ChannelHandlerContext context, Object message) {
            if (deadline == null) {
                deadline = context.executor().schedule((Runnable) context::close, requestMs, TimeUnit.MILLISECONDS);
            }
            context.fireChannelRead(message);
        }

        /** The request is whole. */
        void met() {
            if (deadline != null) {
                deadline.cancel(false);
                deadline = null;
            }
        }

        @Override
        public void channelInactive(ChannelHandlerContext context) {
            met();
            context.fireChannelInactive();
        }
    }

    /**
     * Lets no request grow beyond what its path may have: sound where sound is taken and from whoever was let in, a few hundred
     * characters elsewhere.
     */
    @SuppressWarnings("FutureReturnValueIgnored") // what is written to a browser that is refused is nothing to speak of
    static final class BodyLimit extends ChannelInboundHandlerAdapter {

        private final int most;
        private final int mostSound;
        private final BiPredicate<ChannelHandlerContext, HttpRequest> known;
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
                left = mostSound > most && SpeechDesk.takesSound(path) && known.test(context, request)
                        ? mostSound
                        : most;
            }
            if (message instanceof HttpContent content) {
                left -= content.content().readableBytes();
                if (left < 0) {
                    refused = true;
                    ReferenceCountUtil.release(message);
                    DefaultFullHttpResponse response = new DefaultFullHttpResponse(
                            HttpVersion.HTTP_1_1,
                            HttpResponseStatus.REQUEST_ENTITY_TOO_LARGE,
                            Unpooled.wrappedBuffer("too large".getBytes(StandardCharsets.US_ASCII)));
                    Reply.secure(response.headers()).set(HttpHeaderNames.CONNECTION, "close");
                    context.writeAndFlush(response).addListener(ChannelFutureListener.CLOSE);
                    return;
                }
            }
            context.fireChannelRead(message);
        }
    }
}
