package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.DatagramPacket;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.atomic.AtomicBoolean;

import org.rejoin.bridge.feed.MicroClock;
import org.rejoin.console.book.HomeFolder;
import org.rejoin.console.book.RecordBook;
import org.rejoin.console.door.Sessions;
import org.rejoin.console.page.PageRoom.Answer;
import org.rejoin.console.page.PageRoom.Asker;
import org.rejoin.console.page.PageServer;
import org.rejoin.console.room.Room;
import org.rejoin.console.room.RoomDesk;
import org.rejoin.console.room.RoomLessons;
import org.rejoin.console.room.RoomRecords;
import org.rejoin.console.speech.Speech;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine.Model.CommandSpec;

/** A practice room within the test, and aircraft that are heard in it; its clock runs ten times as fast. */
abstract class RoomWithin {

    static final ObjectMapper JSON = new ObjectMapper();

    static final Asker INSTRUCTOR = new Asker(true, "");

    private static final int FASTER = 10;

    /** Of 100 kt at 38 degrees north, about. */
    static final double EAST_DEG_PER_S = 5.9e-4;

    @TempDir
    Path folder;

    @SuppressWarnings("NullAway.Init") // opened before each test
    RecordBook book;

    @SuppressWarnings("NullAway.Init")
    RoomDesk desk;

    @SuppressWarnings("NullAway.Init")
    PageServer server;

    @SuppressWarnings("NullAway.Init")
    Room room;

    @BeforeEach
    void open() throws Exception {
        HomeFolder home = HomeFolder.open(folder.resolve("home"));
        book = new RecordBook(home, note -> {});
        RoomRecords records = new RoomRecords(
                book, new BookEntry(CommandSpec.create().version("rejoin test"), book), "rejoin test", note -> {});
        RoomLessons lessons = new RoomLessons(home, Optional.empty());
        desk = new RoomDesk(records, lessons, Sessions.of(home.secret(), home.place()), "", Map.of());
        InetSocketAddress any = new InetSocketAddress(InetAddress.getLoopbackAddress(), 0);
        server = PageServer.open(any, Optional.empty(), desk, Speech.NONE, note -> {});
        room = new Room(
                any,
                Set.of(),
                clock(),
                new Room.Setting(Formats.builtIn(), List.of(), lessons, records, Optional.empty(), note -> {}),
                server);
        desk.open(room, "");
    }

    /** Of the room; another test may set its own by hand. */
    MicroClock clock() {
        MicroClock steady = MicroClock.steady();
        long startMicros = steady.micros();
        return () -> startMicros + FASTER * (steady.micros() - startMicros);
    }

    @AfterEach
    void close() throws Exception {
        room.close();
        server.close();
        book.close();
    }

    /** A sample of an aircraft that flies east, with a callsign or an empty one, which is not sent. */
    void send(DatagramSocket from, String callsign, double timeS, double northDeg, double eastDeg) throws IOException {
        byte[] payload = String.format(
                        Locale.ROOT,
                        "{\"time_s\":%.2f,\"latitude_deg\":%f,\"longitude_deg\":%f,\"altitude_ft\":5000,"
                                + "\"true_heading_deg\":90,\"true_track_deg\":90,\"ground_speed_kt\":100%s}",
                        timeS,
                        northDeg,
                        eastDeg,
                        callsign.isEmpty() ? "" : ",\"callsign\":\"" + callsign + "\"")
                .getBytes(StandardCharsets.US_ASCII);
        from.send(new DatagramPacket(
                payload,
                payload.length,
                InetAddress.getLoopbackAddress(),
                room.localAddress().getPort()));
    }

    /**
     * A simulator that flies east until it is closed. It sends so many samples in a second of the room's clock, and its
     * callsign with them if that is not empty.
     */
    final class Aircraft implements AutoCloseable {
        final AtomicBoolean closed = new AtomicBoolean();
        private volatile DatagramSocket socket = new DatagramSocket(0, InetAddress.getLoopbackAddress());
        private final String name;
        private final double northDeg;

        Aircraft(String name, double northDeg, double hertz) throws Exception {
            this.name = name;
            this.northDeg = northDeg;
            Thread thread = new Thread(() -> fly(hertz), name);
            thread.setDaemon(true);
            thread.start();
        }

        private void fly(double hertz) {
            try {
                for (double timeS = 0; !closed.get(); timeS += 1 / hertz) {
                    send(socket, name, timeS, northDeg, -49.9 + timeS * EAST_DEG_PER_S);
                    Thread.sleep(Math.round(1000 / hertz / FASTER));
                }
            } catch (Exception e) {
                if (!closed.get()) {
                    throw new AssertionError(e);
                }
            }
        }

        /** Its simulator is started again: another port, no silence. */
        void speaksFromAnotherPort() throws Exception {
            socket = new DatagramSocket(0, InetAddress.getLoopbackAddress());
        }

        @Override
        public void close() {
            closed.set(true);
            socket.close();
        }
    }

    Answer order(String what, String json) throws Exception {
        return desk.ask(INSTRUCTOR, what, Map.of(), Optional.of(JSON.readTree(json)));
    }

    JsonNode seat(String label) throws Exception {
        for (JsonNode each : JSON.readTree(desk.board(INSTRUCTOR)).path("seats")) {
            if (each.path("label").asText().equals(label)) {
                return each;
            }
        }
        return JSON.missingNode();
    }

    interface Fact {
        boolean holds() throws Exception;
    }

    static void until(Fact fact) throws Exception {
        while (!fact.holds()) {
            Thread.sleep(20);
        }
    }

    void begins(String label, String pilot) throws Exception {
        until(() -> !seat(label).isMissingNode());
        assertThat(order(
                                "assign",
                                "{\"seat\":\"" + seat(label).path("id").asText() + "\",\"pilot\":\"" + pilot
                                        + "\",\"lesson\":\"heading-to-airway\"}")
                        .ok())
                .isTrue();
        until(() -> seat(label).path("stage").asText().equals("flying"));
        // A simulator that went before its first datagram was kept would have flown nothing, and the attempt be
        // discarded.
        String attempt = seat(label).path("attempt").asText();
        until(() -> book.attempt(attempt).isRecorded());
    }

    String address() {
        return "http://127.0.0.1:" + server.localAddress().getPort();
    }
}
