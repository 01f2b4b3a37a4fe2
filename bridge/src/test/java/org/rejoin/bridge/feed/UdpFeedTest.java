package org.rejoin.bridge.feed;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.net.DatagramPacket;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.ByteBuffer;
import java.time.Duration;
import java.util.List;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.locks.LockSupport;
import java.util.stream.IntStream;

import org.rejoin.protocol.Datagram;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(30)
class UdpFeedTest {

    private static final InetAddress LOOPBACK = InetAddress.getLoopbackAddress();
    private static final InetSocketAddress ANY_PORT = new InetSocketAddress(LOOPBACK, 0);

    private final List<Datagram> received = new CopyOnWriteArrayList<>();

    private UdpFeed feed() throws IOException {
        return UdpFeed.open(ANY_PORT, Set.of(), MicroClock.steady(), received::add);
    }

    private static void send(DatagramSocket socket, UdpFeed feed, byte[] octets) throws IOException {
        socket.send(new DatagramPacket(octets, octets.length, feed.localAddress()));
    }

    private void awaitReceived(int count) {
        await().atMost(Duration.ofSeconds(10)).until(() -> received.size() >= count);
    }

    @Test
    void datagramsOfEverySizeArriveWholeAndInOrder() throws IOException {
        int[] sizes = {0, 1, 144, 1472, 2048, 2049, 5000, 65_507};
        long before = MicroClock.steady().micros();
        try (UdpFeed feed = feed();
                DatagramSocket socket = new DatagramSocket(0, LOOPBACK)) {
            SplittableRandom random = new SplittableRandom(1);
            for (int i = 0; i < sizes.length; i++) {
                byte[] octets = new byte[sizes[i]];
                random.nextBytes(octets);
                send(socket, feed, octets);
                awaitReceived(i + 1);
                Datagram datagram = received.get(i);
                assertThat(datagram).isEqualTo(Datagram.of(datagram.receivedMicros(), datagram.sender(), octets));
                assertThat(datagram.sender()).isEqualTo(socket.getLocalSocketAddress());
                assertThat(datagram.receivedMicros()).isBetween(before, before + 30_000_000);
            }
        }
        assertThat(received).extracting(Datagram::receivedMicros).isSorted();
    }

    @Test
    void garbageAndAFailingSinkDoNotHurt() throws IOException {
        AtomicInteger count = new AtomicInteger();
        DatagramSink failing = datagram -> {
            if (count.incrementAndGet() % 2 == 0) {
                throw new IllegalStateException("as intended by this test");
            }
        };
        try (UdpFeed feed = UdpFeed.open(ANY_PORT, Set.of(), MicroClock.steady(), failing);
                DatagramSocket socket = new DatagramSocket(0, LOOPBACK)) {
            SplittableRandom random = new SplittableRandom(2);
            for (int i = 0; i < 100; i++) {
                byte[] octets = new byte[random.nextInt(300)];
                random.nextBytes(octets);
                send(socket, feed, octets);
            }
            await().atMost(Duration.ofSeconds(10)).until(() -> count.get() == 100);
        }
    }

    @Test
    void aPortInUseIsSaidInOneLine() throws IOException {
        try (DatagramSocket taken = new DatagramSocket(0, LOOPBACK)) {
            InetSocketAddress address = new InetSocketAddress(LOOPBACK, taken.getLocalPort());
            assertThatThrownBy(() -> UdpFeed.open(address, Set.of(), MicroClock.steady(), received::add))
                    .isInstanceOf(IOException.class)
                    .hasMessage("UDP port " + taken.getLocalPort() + " of " + LOOPBACK.getHostAddress()
                            + " is in use by another program; close that one, or choose another port");
        }
    }

    @Test
    void addressesOfOthersAreRefused() throws IOException {
        InetAddress documentation = InetAddress.getByAddress(new byte[] {(byte) 192, 0, 2, 1}); // RFC 5737
        InetSocketAddress bind = new InetSocketAddress(documentation, 0);
        assertThatThrownBy(() -> UdpFeed.open(bind, Set.of(LOOPBACK), MicroClock.steady(), received::add))
                .isInstanceOf(IOException.class)
                .hasMessage("192.0.2.1 is not an address of this machine; listen on one that is, or on 127.0.0.1");
        assertThatThrownBy(() -> UdpFeed.open(bind, Set.of(), MicroClock.steady(), received::add))
                .isInstanceOf(IOException.class)
                .hasMessageContaining("name the addresses that may");
        InetSocketAddress nobody = InetSocketAddress.createUnresolved("nobody.invalid", 3000);
        assertThatThrownBy(() -> UdpFeed.open(nobody, Set.of(), MicroClock.steady(), received::add))
                .hasMessage("there is no address by the name of nobody.invalid");
    }

    @Test
    void sendersNotListedAreCountedAndDropped() throws IOException {
        InetAddress other = InetAddress.getByAddress(new byte[] {127, 0, 0, 9});
        try (UdpFeed feed = UdpFeed.open(ANY_PORT, Set.of(other), MicroClock.steady(), received::add);
                DatagramSocket socket = new DatagramSocket(0, LOOPBACK)) {
            send(socket, feed, new byte[] {1});
            await().atMost(Duration.ofSeconds(10)).until(() -> feed.refused() == 1);
        }
        assertThat(received).isEmpty();
    }

    @Test
    void timePassesWithoutDatagramsOnTheSinksThread() throws Exception {
        AtomicLong time = new AtomicLong(1_000_000);
        List<Long> ticks = new CopyOnWriteArrayList<>();
        List<Thread> threads = new CopyOnWriteArrayList<>();
        DatagramSink sink = new DatagramSink() {
            @Override
            public void accept(Datagram datagram) {
                threads.add(Thread.currentThread());
                received.add(datagram);
            }

            @Override
            public void advanceTo(long nowMicros) {
                ticks.add(nowMicros);
                threads.add(Thread.currentThread());
                throw new IllegalStateException("as intended by this test: ticking must go on");
            }
        };
        UdpFeed feed = UdpFeed.open(ANY_PORT, Set.of(), () -> time.addAndGet(10), sink);
        try (feed;
                DatagramSocket socket = new DatagramSocket(0, LOOPBACK)) {
            assertThat(feed.execute(() -> threads.add(Thread.currentThread()))).isTrue();
            send(socket, feed, new byte[] {1});
            await().atMost(Duration.ofSeconds(10)).until(() -> ticks.size() >= 3 && received.size() == 1);
        }
        assertThat(ticks).isSorted();
        assertThat(Set.copyOf(threads)).hasSize(1);
        assertThat(feed.execute(() -> {})).isFalse();
        int ended = ticks.size();
        Thread.sleep(150);
        assertThat(ticks).hasSize(ended);
        feed.close();
        try (DatagramSocket again = new DatagramSocket(feed.localAddress().getPort(), LOOPBACK)) {
            assertThat(again.isBound()).isTrue();
        }
    }

    /** A system that has such a count (Linux): what was sent is what arrived and what it says it dropped. */
    @Test
    void whatTheSystemDroppedIsTold() throws Exception {
        CountDownLatch held = new CountDownLatch(1);
        DatagramSink busy = new DatagramSink() {
            @Override
            public boolean arrived(Datagram datagram) {
                try {
                    held.await();
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                }
                return true;
            }

            @Override
            public void accept(Datagram datagram) {
                received.add(datagram);
            }
        };
        try (UdpFeed feed = UdpFeed.open(ANY_PORT, Set.of(), MicroClock.steady(), busy);
                DatagramSocket socket = new DatagramSocket(0, LOOPBACK)) {
            assumeTrue(feed.droppedBySystem().isPresent(), "this system does not say what it dropped");
            assertThat(feed.droppedBySystem()).hasValue(0);
            int all = 20_000;
            for (int i = 0; i < all; i++) {
                send(socket, feed, new byte[1_400]);
            }
            long dropped = feed.droppedBySystem().orElseThrow();
            assertThat(dropped).isPositive();
            held.countDown();
            await().atMost(Duration.ofSeconds(10)).until(() -> received.size() + dropped == all);
        }
    }

    @Test
    void aSocketThatIsLostIsOpenedAgainAndItIsSaid() throws Exception {
        List<String> said = new CopyOnWriteArrayList<>();
        DatagramSink sink = new DatagramSink() {
            @Override
            public void accept(Datagram datagram) {
                received.add(datagram);
            }

            @Override
            public void trouble(String text) {
                said.add(text);
            }
        };
        try (UdpFeed feed = UdpFeed.open(ANY_PORT, Set.of(), MicroClock.steady(), sink);
                DatagramSocket socket = new DatagramSocket(0, LOOPBACK)) {
            send(socket, feed, new byte[] {1});
            awaitReceived(1);
            feed.channel().close().sync();
            await().atMost(Duration.ofSeconds(10)).until(() -> said.size() == 2);
            String where = "127.0.0.1:" + feed.localAddress().getPort();
            assertThat(said)
                    .containsExactly(
                            "the socket on " + where + " was lost; it is opened again",
                            "listening on " + where + " again");
            send(socket, feed, new byte[] {2});
            awaitReceived(2);
        }
        assertThat(said).hasSize(2); // closing is no loss
    }

    /** What has come while nothing ran is found before silence is taken for the end. */
    @Test
    void whatWaitsInTheSocketIsSeenBeforeAnythingIsDecided() throws Exception {
        CountDownLatch held = new CountDownLatch(1);
        try (UdpFeed feed = feed();
                DatagramSocket socket = new DatagramSocket(0, LOOPBACK)) {
            feed.execute(() -> {
                try {
                    held.await();
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                }
            });
            send(socket, feed, new byte[] {1});
            assertThat(feed.lookAgain(100)).isFalse();
            held.countDown();
            assertThat(feed.lookAgain(10_000)).isTrue();
            assertThat(received).hasSize(1);
        }
    }

    /** Work that takes long delays what follows; it loses nothing, changes no order and makes it no later for the sink. */
    @Test
    void whatComesDuringLongWorkWaitsItsTurn() throws Exception {
        int all = 1_000;
        List<Integer> arrived = new CopyOnWriteArrayList<>();
        List<Integer> taken = new CopyOnWriteArrayList<>();
        List<Integer> seenByErrand = new CopyOnWriteArrayList<>();
        AtomicLong waited = new AtomicLong();
        double behindS = 0;
        AtomicLong latest = new AtomicLong();
        AtomicInteger tooLate = new AtomicInteger();
        DatagramSink slow = new DatagramSink() {
            @Override
            public boolean arrived(Datagram datagram) {
                arrived.add(datagram.payload().getInt(0));
                return datagram.payload().getInt(0) % 10 != 9;
            }

            @Override
            public void accept(Datagram datagram) {
                int number = datagram.payload().getInt(0);
                tooLate.addAndGet(latest.get() > datagram.receivedMicros() ? 1 : 0);
                waited.accumulateAndGet(arrived.size() - 1 - number, Math::max);
                taken.add(number);
                if (number % 40 == 0) {
                    LockSupport.parkNanos(30_000_000);
                }
            }

            @Override
            public void advanceTo(long nowMicros) {
                latest.set(nowMicros);
            }
        };
        try (UdpFeed feed = UdpFeed.open(ANY_PORT, Set.of(), MicroClock.steady(), slow);
                DatagramSocket socket = new DatagramSocket(0, LOOPBACK)) {
            for (int i = 0; i < all; i++) {
                send(socket, feed, ByteBuffer.allocate(4).putInt(i).array());
                LockSupport.parkNanos(200_000);
                behindS = Math.max(behindS, feed.behindS());
            }
            await().atMost(Duration.ofSeconds(10)).until(() -> arrived.size() == all);
            feed.execute(() -> seenByErrand.add(taken.size()));
            await().atMost(Duration.ofSeconds(20)).until(() -> !seenByErrand.isEmpty());
            assertThat(feed.dropped()).isZero();
            assertThat(feed.behindS()).isZero();
        }
        assertThat(behindS).isPositive();
        assertThat(taken)
                .isEqualTo(
                        IntStream.range(0, all).filter(i -> i % 10 != 9).boxed().toList());
        assertThat(seenByErrand).containsExactly(taken.size());
        assertThat(waited.get())
                .as("datagrams that came in while others waited")
                .isGreaterThan(20);
        assertThat(tooLate).hasValue(0);
    }
}
