package org.rejoin.console.page;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;
import javax.net.ssl.KeyManagerFactory;

import io.netty.channel.Channel;
import io.netty.channel.ChannelHandlerContext;
import io.netty.channel.ChannelInboundHandlerAdapter;
import io.netty.channel.ChannelInitializer;
import io.netty.handler.codec.http.HttpObjectAggregator;
import io.netty.handler.codec.http.HttpServerCodec;
import io.netty.handler.ssl.SslContext;
import io.netty.handler.ssl.SslContextBuilder;
import io.netty.handler.timeout.IdleStateHandler;
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
                .addLast(new Deadline(limits.requestMs()))
                .addLast(new HttpServerCodec(2_048, 8_192, 8_192))
                .addLast(new BodyLimit(mostBody, hears ? SpeechDesk.MOST_SOUND : mostBody, answers::isKnown))
                .addLast(new HttpObjectAggregator(hears ? SpeechDesk.MOST_SOUND : mostBody))
                .addLast(new IdleStateHandler(0, 0, limits.idleS()))
                .addLast(answers);
    }

    /**
     * Closes a connection whose request takes too long from its first octet to its last: one that sends an octet now and
     * then is never idle, and would hold its place for ever.
     */
    static final class Deadline extends ChannelInboundHandlerAdapter {

        private final long requestMs;
        private @Nullable Future<?> closing;

        Deadline(long requestMs) {
            this.requestMs = requestMs;
        }

        @Override
        public void channelRead(ChannelHandlerContext context, Object message) {
            if (closing == null) {
                closing = context.executor().schedule((Runnable) context::close, requestMs, TimeUnit.MILLISECONDS);
            }
            context.fireChannelRead(message);
        }

        /** The request is whole. */
        void met() {
            if (closing != null) {
                closing.cancel(false);
                closing = null;
            }
        }

        @Override
        public void channelInactive(ChannelHandlerContext context) {
            met();
            context.fireChannelInactive();
        }
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
}
