package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.DatagramPacket;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.stream.Stream;

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
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine.Model.CommandSpec;

/** Who sits at which seat of a room, and whose datagrams are whose; its clock runs ten times as fast. */
@Timeout(60)
class SeatsOfARoomTest {

    private static final ObjectMapper JSON = new ObjectMapper();

    private static final Asker INSTRUCTOR = new Asker(true, "");

    private static final int FASTER = 10;

    @TempDir
    private Path folder;

    @SuppressWarnings("NullAway.Init") // opened before each test
    private RecordBook book;

    @SuppressWarnings("NullAway.Init")
    private RoomDesk desk;

    @SuppressWarnings("NullAway.Init")
    private PageServer server;

    @SuppressWarnings("NullAway.Init")
    private Room room;

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
        MicroClock steady = MicroClock.steady();
        long startMicros = steady.micros();
        room = new Room(
                any,
                Set.of(),
                () -> startMicros + FASTER * (steady.micros() - startMicros),
                new Room.Setting(Formats.builtIn(), List.of(), lessons, records, Optional.empty(), note -> {}),
                server);
        desk.open(room, "");
    }

    @AfterEach
    void close() throws Exception {
        room.close();
        server.close();
        book.close();
    }

    /** A simulator that flies east, so many samples a second of the clock, until it is closed. */
    private final class Aircraft implements AutoCloseable {
        private final AtomicBoolean closed = new AtomicBoolean();
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
                    byte[] payload = String.format(
                                    Locale.ROOT,
                                    "{\"time_s\":%.2f,\"latitude_deg\":%f,\"longitude_deg\":%f,\"altitude_ft\":5000,"
                                            + "\"true_heading_deg\":90,\"true_track_deg\":90,\"ground_speed_kt\":100,"
                                            + "\"callsign\":\"%s\"}",
                                    timeS,
                                    northDeg,
                                    -49.9 + timeS * 5.9e-4,
                                    name)
                            .getBytes(StandardCharsets.US_ASCII);
                    socket.send(new DatagramPacket(
                            payload,
                            payload.length,
                            InetAddress.getLoopbackAddress(),
                            room.localAddress().getPort()));
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

    private Answer order(String what, String json) throws Exception {
        return desk.ask(INSTRUCTOR, what, Map.of(), Optional.of(JSON.readTree(json)));
    }

    private JsonNode seat(String label) throws Exception {
        for (JsonNode each : JSON.readTree(desk.board(INSTRUCTOR)).path("seats")) {
            if (each.path("label").asText().equals(label)) {
                return each;
            }
        }
        return JSON.missingNode();
    }

    private interface Fact {
        boolean holds() throws Exception;
    }

    private static void until(Fact fact) throws Exception {
        while (!fact.holds()) {
            Thread.sleep(20);
        }
    }

    private void begins(String label, String pilot) throws Exception {
        until(() -> !seat(label).isMissingNode());
        assertThat(order(
                                "assign",
                                "{\"seat\":\"" + seat(label).path("id").asText() + "\",\"pilot\":\"" + pilot
                                        + "\",\"lesson\":\"heading-to-airway\"}")
                        .ok())
                .isTrue();
        until(() -> seat(label).path("stage").asText().equals("flying"));
    }

    private Path only(String file, String aircraft) throws Exception {
        try (Stream<Path> found = Files.walk(folder)) {
            for (Path each : found.filter(path -> path.endsWith(file)).toList()) {
                if (Files.readString(each.resolveSibling("attempt.json")).contains("\"" + aircraft + "\"")) {
                    return each;
                }
            }
        }
        throw new AssertionError("no " + file + " of " + aircraft);
    }

    @Test
    void aSimulatorStartedAgainAtAnotherPortGoesOnAtItsOwnSeatAndStandsInNoOtherRecording() throws Exception {
        try (Aircraft bravo = new Aircraft("BRAVO2", 38.2, 5);
                Aircraft slow = new Aircraft("SLOW1", 38.4, 0.9)) {
            begins("BRAVO2", "Bo");
            begins("SLOW1", "Anna");
            Thread.sleep(1000);
            bravo.speaksFromAnotherPort();
            Thread.sleep(1800); // eighteen seconds of the clock
            assertThat(JSON.readTree(desk.board(INSTRUCTOR)).path("seats")).hasSize(2);
            for (String each : List.of("BRAVO2", "SLOW1")) {
                order("end", "{\"seat\":\"" + seat(each).path("id").asText() + "\"}");
                until(() -> seat(each).path("stage").asText().equals("ended"));
            }
            assertThat(slow.closed).isFalse();
        }
        room.close();
        assertThat(new String(Files.readAllBytes(only("flight.pcap", "SLOW1")), StandardCharsets.ISO_8859_1))
                .contains("SLOW1")
                .doesNotContain("BRAVO2");
        assertThat(Files.readString(only("log.jsonl", "SLOW1"))).doesNotContain("a second aircraft");
        String flown = new String(Files.readAllBytes(only("flight.pcap", "BRAVO2")), StandardCharsets.ISO_8859_1);
        // 27 s at 5 a second, less what the timers of a busy machine are late; without the silent part it would be 85.
        assertThat(flown.split("BRAVO2", -1).length).isGreaterThan(95);
        assertThat(times(flown))
                .as("none is lost where the port changed")
                .isSorted()
                .doesNotHaveDuplicates();
        List<Double> times = times(flown);
        for (int i = 1; i < times.size(); i++) {
            assertThat(times.get(i) - times.get(i - 1))
                    .as("after %s", times.get(i - 1))
                    .isLessThan(0.3);
        }
    }

    private static List<Double> times(String flown) {
        return Stream.of(flown.split("\"time_s\":", -1))
                .skip(1)
                .map(each -> Double.valueOf(each.substring(0, each.indexOf(','))))
                .toList();
    }

    @Test
    void aDrillFromHereIsFlownByWhoIsNamed() throws Exception {
        try (Aircraft bravo = new Aircraft("BRAVO2", 38.2, 5)) {
            begins("BRAVO2", "Bo");
            String seat = "{\"seat\":\"" + seat("BRAVO2").path("id").asText() + "\"";
            order("end", seat + "}");
            until(() -> seat("BRAVO2").path("stage").asText().equals("ended"));
            assertThat(order("here", seat + ",\"pilot\":\"Zoe New\"}").ok()).isTrue();
            until(() -> seat("BRAVO2").path("stage").asText().equals("flying"));
            assertThat(seat("BRAVO2").path("pilot").asText()).isEqualTo("Zoe New");
            assertThat(bravo.closed).isFalse();
        }
    }

    @Test
    void whoFliesAtAnotherSeatIsGivenNoDrillAtThisOne() throws Exception {
        try (Aircraft alfa = new Aircraft("ALFA1", 38.4, 5);
                Aircraft bravo = new Aircraft("BRAVO2", 38.2, 5)) {
            begins("ALFA1", "Anna");
            until(() -> !seat("BRAVO2").isMissingNode());
            String seat = "{\"seat\":\"" + seat("BRAVO2").path("id").asText() + "\"";
            assertThat(order("here", seat + ",\"pilot\":\"anna\"}").text()).startsWith("Anna flies at ALFA1");
            assertThat(order("here", seat + ",\"pilot\":\"" + "x".repeat(81) + "\"}")
                            .text())
                    .contains("1 to 80 characters");
            assertThat(seat("BRAVO2").path("from_here").asText()).isEmpty();
            assertThat(alfa.closed.get() || bravo.closed.get()).isFalse();
        }
    }

    @Test
    void aDrillThatWaitsIsNotWantedAnyMoreInTheNextAttempt() throws Exception {
        try (Aircraft bravo = new Aircraft("BRAVO2", 38.2, 5)) {
            begins("BRAVO2", "Bo");
            String seat = "{\"seat\":\"" + seat("BRAVO2").path("id").asText() + "\"";
            order("here", seat + "}");
            until(() -> seat("BRAVO2").path("from_here").asText().contains("not complete yet"));
            String before = seat("BRAVO2").path("attempt").asText();
            order("again", seat + ",\"next\":true}");
            until(() -> !seat("BRAVO2").path("attempt").asText().equals(before));
            Thread.sleep(2500); // longer than between two looks
            assertThat(seat("BRAVO2").path("from_here").asText()).isEmpty();
            assertThat(bravo.closed).isFalse();
        }
    }
}
