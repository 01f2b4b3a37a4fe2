package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.DatagramSocket;
import java.net.InetAddress;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicLong;

import org.rejoin.bridge.feed.MicroClock;
import org.rejoin.bridge.feed.UdpFeed;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** Whose seat a simulator without a callsign gets, by a clock that is set by hand: how fast the machine is plays no part. */
@Timeout(60)
class SeatTakenBackTest extends RoomWithin {

    private static final long SECOND = 1_000_000;

    private final AtomicLong hand = new AtomicLong(1_000 * SECOND);
    private int sent;

    @Override
    MicroClock clock() {
        return hand::get;
    }

    private final class Simulator implements AutoCloseable {
        private final DatagramSocket socket = new DatagramSocket(0, InetAddress.getLoopbackAddress());
        private final double northDeg;

        Simulator(double northDeg) throws Exception {
            this.northDeg = northDeg;
        }

        void sends() throws Exception {
            double timeS = hand.get() * 1e-6;
            send(socket, "", timeS, northDeg, -50.5 + (timeS - 1_000) * EAST_DEG_PER_S);
            sent++;
            isTakenIn();
        }

        @Override
        public void close() {
            socket.close();
        }
    }

    /** Sets the clock on, and everybody in the list sends. */
    private void after(double seconds, Simulator... sending) throws Exception {
        hand.addAndGet(Math.round(seconds * SECOND));
        for (Simulator each : sending) {
            each.sends();
        }
        isTakenIn();
    }

    /** The same, each second. */
    private void eachSecond(int seconds, Simulator sending) throws Exception {
        for (int s = 0; s < seconds; s++) {
            after(1, sending);
        }
    }

    private UdpFeed feed() throws Exception {
        CompletableFuture<UdpFeed> asked = new CompletableFuture<>();
        room.ask(asked::complete);
        return asked.get();
    }

    /** What is ordered while the feed's thread is at work is done after it, and after the look that follows. */
    private void orderedMeanwhile(double seconds, String what, String json) throws Exception {
        CountDownLatch ordered = new CountDownLatch(1);
        feed().execute(() -> {
            try {
                ordered.await();
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
            room.advanceTo(hand.addAndGet(Math.round(seconds * SECOND)));
        });
        assertThat(order(what, json).ok()).isTrue();
        ordered.countDown();
    }

    /** All that was sent is read, and the room has looked at its seats since. */
    private void isTakenIn() throws Exception {
        UdpFeed feed = feed();
        until(() -> feed.taken() >= sent);
        CountDownLatch looked = new CountDownLatch(1);
        feed.execute(() -> {
            room.advanceTo(hand.get());
            looked.countDown();
        });
        looked.await();
    }

    private int seats() throws Exception {
        return JSON.readTree(desk.board(INSTRUCTOR)).path("seats").size();
    }

    @Test
    void aSimulatorThatSendsKeepsItsSeatWhenAnotherBegins() throws Exception {
        try (Simulator anna = new Simulator(38.2);
                Simulator bo = new Simulator(40.2)) {
            after(0, anna);
            after(13, anna);
            after(0.1, bo);
            after(1, bo);
            assertThat(seats()).as("she sent a moment before he began").isEqualTo(2);
        }
    }

    @Test
    void aSimulatorThatSentWhenTheOtherBeganKeepsItsSeatHoweverLongItIsSilent() throws Exception {
        try (Simulator anna = new Simulator(38.2);
                Simulator bo = new Simulator(40.2)) {
            after(0, anna);
            after(1, bo);
            after(1, anna, bo);
            eachSecond(40, bo);
            assertThat(seats()).isEqualTo(2);
        }
    }

    @Test
    void aSimulatorThatWasSilentLongEnoughHasGoneOnAsTheOneThatBeganSince() throws Exception {
        try (Simulator before = new Simulator(38.2);
                Simulator again = new Simulator(40.2)) {
            after(0, before);
            after(5, again);
            assertThat(seats()).as("silent for five seconds: nobody knows yet").isEqualTo(2);
            eachSecond(8, again);
            assertThat(seats()).isEqualTo(1);
        }
    }

    @Test
    void aLessonThatIsAssignedWhileTheSeatGoesWithTheOneBeforeBeginsThere() throws Exception {
        try (Simulator before = new Simulator(38.2);
                Simulator again = new Simulator(40.2)) {
            after(0, before);
            after(5, again);
            eachSecond(6, again);
            assertThat(seats()).isEqualTo(2);
            orderedMeanwhile(2, "assign", "{\"seat\":\"s2\",\"pilot\":\"Bo\",\"lesson\":\"heading-to-airway\"}");
            until(() -> seat("Seat 1").path("stage").asText().equals("flying"));
            assertThat(seat("Seat 1").path("pilot").asText()).isEqualTo("Bo");
            assertThat(seats()).isEqualTo(1);
        }
    }

    @Test
    void aSeatThatTheInstructorNamedStays() throws Exception {
        try (Simulator before = new Simulator(38.2);
                Simulator again = new Simulator(40.2)) {
            after(0, before);
            after(5, again);
            assertThat(order("name", "{\"seat\":\"s2\",\"label\":\"By the window\"}")
                            .ok())
                    .isTrue();
            eachSecond(12, again);
            assertThat(seats()).isEqualTo(2);
            assertThat(seat("By the window").path("id").asText()).isEqualTo("s2");
        }
    }

    @Test
    void ofTwoThatAreSilentNobodyKnowsWhichBeganAgain() throws Exception {
        try (Simulator anna = new Simulator(38.2);
                Simulator bo = new Simulator(40.2);
                Simulator third = new Simulator(42.2)) {
            after(0, anna, bo);
            after(1, anna, bo);
            after(20, third);
            after(1, third);
            assertThat(seats()).isEqualTo(3);
        }
    }
}
