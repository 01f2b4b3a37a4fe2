package org.rejoin.console.page;

import java.util.concurrent.TimeUnit;

import io.netty.channel.ChannelHandlerContext;
import io.netty.channel.ChannelInboundHandlerAdapter;
import io.netty.util.concurrent.Future;
import org.jspecify.annotations.Nullable;

/**
 * Closes a connection whose request takes too long from its first octet to its last: one that sends an octet now and then is
 * never idle, and would hold its place for ever.
 */
@SuppressWarnings("FutureReturnValueIgnored") // a connection that is being closed is nothing to speak of
final class RequestDeadline extends ChannelInboundHandlerAdapter {

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
