package org.rejoin.console.cost;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.util.concurrent.Callable;

import io.netty.bootstrap.Bootstrap;
import io.netty.channel.ChannelHandlerContext;
import io.netty.channel.MultiThreadIoEventLoopGroup;
import io.netty.channel.SimpleChannelInboundHandler;
import io.netty.channel.nio.NioIoHandler;
import io.netty.channel.socket.DatagramPacket;
import io.netty.channel.socket.nio.NioDatagramChannel;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/**
 * The least that a program with these libraries can do: read an option, log a line, open a UDP socket, say "ready", end.
 * What {@link StartCost} compares with.
 */
@Command(name = "trivial", mixinStandardHelpOptions = true)
public final class TrivialStart implements Callable<Integer> {

    private static final Logger LOG = LoggerFactory.getLogger(TrivialStart.class);

    @Option(names = "--port", description = "UDP port.")
    private int port;

    /**
     * Runs it.
     *
     * @param args see the option
     */
    public static void main(String[] args) {
        System.exit(new CommandLine(new TrivialStart()).execute(args));
    }

    @Override
    public Integer call() throws Exception {
        LOG.info("starting");
        var group = new MultiThreadIoEventLoopGroup(1, NioIoHandler.newFactory());
        new Bootstrap()
                .group(group)
                .channel(NioDatagramChannel.class)
                .handler(new SimpleChannelInboundHandler<DatagramPacket>() {
                    @Override
                    protected void channelRead0(ChannelHandlerContext context, DatagramPacket packet) {}
                })
                .bind(new InetSocketAddress(InetAddress.getLoopbackAddress(), port))
                .sync();
        System.out.println("ready");
        System.out.flush();
        return 0;
    }
}
