package org.rejoin.bridge.cost;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.LongConsumer;

import org.rejoin.bridge.Amendment;
import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.io.ChartReader;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.FiledRouteReader;
import org.rejoin.bridge.feed.AircraftChoice;
import org.rejoin.bridge.feed.AircraftKey;
import org.rejoin.bridge.feed.AircraftSink;
import org.rejoin.bridge.feed.AircraftSorter;
import org.rejoin.bridge.feed.DatagramSink;
import org.rejoin.bridge.feed.MicroClock;
import org.rejoin.bridge.feed.UdpFeed;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.dis.DisFormat;
import org.rejoin.protocol.json.JsonFormat;
import org.rejoin.protocol.nmea.NmeaFormat;

import io.netty.bootstrap.Bootstrap;
import io.netty.channel.Channel;
import io.netty.channel.ChannelHandlerContext;
import io.netty.channel.ChannelOption;
import io.netty.channel.EventLoopGroup;
import io.netty.channel.FixedRecvByteBufAllocator;
import io.netty.channel.MultiThreadIoEventLoopGroup;
import io.netty.channel.SimpleChannelInboundHandler;
import io.netty.channel.nio.NioIoHandler;
import io.netty.channel.socket.DatagramPacket;
import io.netty.channel.socket.nio.NioDatagramChannel;

/** The two things compared: a bare receiver that discards, and the whole way from socket to event. */
final class Receivers {

    private static final String CHART = """
            name: invented
            stations:
              - {ident: AAA, name: Alpha, kind: VORTAC, class: H, frequency_mhz: 113.4, latitude_deg: 30.0, longitude_deg: -45.0, declination_deg: -12.0, elevation_ft: 0}
            fixes:
              - {ident: NORTH, latitude_deg: 30.9, longitude_deg: -44.2}
              - {ident: SOUTH, latitude_deg: 29.2, longitude_deg: -44.2}
            airways:
              - {ident: V40, points: [NORTH, SOUTH], minimum_altitude_ft: 3000}
            """;

    private Receivers() {}

    /** A receiver; {@code taken} is told each datagram's number once it is done with. */
    interface Receiver extends AutoCloseable {
        int port();

        @Override
        void close();
    }

    static Receiver bare(LongConsumer taken) throws InterruptedException {
        EventLoopGroup group = new MultiThreadIoEventLoopGroup(1, NioIoHandler.newFactory());
        Channel channel = new Bootstrap()
                .group(group)
                .channel(NioDatagramChannel.class)
                .option(ChannelOption.SO_RCVBUF, 4 << 20)
                .option(ChannelOption.RECVBUF_ALLOCATOR, new FixedRecvByteBufAllocator(Datagram.MAX_LENGTH))
                .handler(new SimpleChannelInboundHandler<DatagramPacket>() {
                    private long count;

                    @Override
                    protected void channelRead0(ChannelHandlerContext context, DatagramPacket packet) {
                        taken.accept(count++);
                    }
                })
                .bind(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0))
                .sync()
                .channel();
        return new Receiver() {
            @Override
            public int port() {
                return ((InetSocketAddress) channel.localAddress()).getPort();
            }

            @Override
            public void close() {
                channel.close().awaitUninterruptibly();
                group.shutdownGracefully().awaitUninterruptibly();
            }
        };
    }

    /** Decoder, clock, seat and tracker of each aircraft, all on a clearance. */
    static AircraftSorter pipeline() throws IOException, ClearanceException {
        Chart chart = ChartReader.read(new ByteArrayInputStream(CHART.getBytes(StandardCharsets.UTF_8)), "chart")
                .chart();
        FlightSession.Setting setting = new FlightSession.Setting(
                chart,
                FiledRouteReader.read("NORTH V40 SOUTH", chart),
                List.of(new Amendment(
                        new Amendment.When.ElapsedS(1),
                        "fly heading 100, intercept the AAA 102 radial, join V40, then as filed",
                        OptionalDouble.of(6000))),
                LocalDate.of(2026, 6, 1),
                Wind.CALM,
                Limits.INSTRUMENT_RATING,
                12);
        Map<AircraftKey, FlightSession> flying = new HashMap<>();
        return new AircraftSorter(
                List.of(new DisFormat(), new NmeaFormat(), new JsonFormat()), AircraftChoice.all(), new AircraftSink() {
                    @Override
                    public void state(AircraftKey key, AircraftState state) {
                        flying.computeIfAbsent(key, k -> new FlightSession(setting, FlightRecord.withoutPoints()))
                                .accept(state);
                    }
                });
    }

    /** The same behind a feed. */
    static Receiver whole(LongConsumer taken) throws IOException, ClearanceException {
        long[] count = {0};
        AircraftSorter seats = pipeline();
        UdpFeed feed = UdpFeed.open(
                new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                Set.of(),
                MicroClock.steady(),
                new DatagramSink() {
                    @Override
                    public void accept(Datagram datagram) {
                        seats.accept(datagram);
                        taken.accept(count[0]++);
                    }

                    @Override
                    public void advanceTo(long nowMicros) {
                        seats.advanceTo(nowMicros);
                    }
                });
        return new Receiver() {
            @Override
            public int port() {
                return feed.localAddress().getPort();
            }

            @Override
            public void close() {
                feed.close();
            }
        };
    }
}
