package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.net.DatagramSocket;
import java.net.InetAddress;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import java.util.stream.Stream;

import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;
import org.rejoin.console.recording.Captured;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.json.JsonFormat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * The real program killed in flight and resumed minutes later: same lesson, same track, same events, and a feed lost and
 * resumed where it was down. Nobody waits the minutes: the capture is made so much older.
 */
@Timeout(value = 5, unit = TimeUnit.MINUTES)
class ResumedFlightTest {

    private static final ObjectMapper JSON = new ObjectMapper();
    private static final int KILLED_AT = 200;
    private static final int DOWN_S = 742;

    @TempDir
    private Path folder;

    private final List<AircraftState> flight = new ArrayList<>();
    private Path lesson = Path.of("");

    /** The built-in lesson with a second clearance, which must not come early because of the minutes that nobody flew. */
    @BeforeEach
    void fly() throws Exception {
        for (String name : new String[] {"heading-to-airway.yaml", "open-ocean.yaml"}) {
            try (var resource = LessonReader.class.getResourceAsStream(name)) {
                Files.write(folder.resolve(name), resource.readAllBytes());
            }
        }
        lesson = folder.resolve("lesson.yaml");
        Files.writeString(
                lesson,
                Files.readString(folder.resolve("heading-to-airway.yaml"))
                        .replace(
                                "\nstandard:",
                                "\n  - {when: {elapsed_s: 400}, say: \"maintain 6000\", altitude_ft: 6000}\nstandard:"));
        assertThat(Files.readString(lesson)).contains("elapsed_s: 400");
        new PracticeFlight(LessonReader.read(lesson.toString()), LocalDate.of(2026, 6, 1), Habit.GOOD)
                .fly(1, flight::add);
        assertThat(flight.size()).isBetween(450, 1500);
    }

    /** Sends a stretch of the flight, a sample each millisecond, by a clock that is so much behind the flight's. */
    private void send(DatagramSocket socket, RealProgram to, int from, int until, double behindS) throws Exception {
        WireFormat.Encoder encoder = new JsonFormat().newEncoder();
        for (AircraftState state : flight.subList(from, until)) {
            for (byte[] payload : encoder.encode(state.withTimeS(state.timeS() - behindS))) {
                to.send(socket, payload);
            }
            LockSupport.parkNanos(1_000_000);
        }
    }

    private static void kill(RealProgram listening, Path recording, int datagrams) throws Exception {
        while (Captured.in(recording.resolve("flight.pcap")).datagrams().size() < datagrams) {
            assertThat(listening.process().isAlive()).as(listening.said()).isTrue();
            Thread.sleep(50);
        }
        listening.kill();
    }

    /** Sets the times of a classic pcap back: its records' heads are seconds, fraction, length, length. */
    private static void age(Path capture, int seconds) throws Exception {
        ByteBuffer octets = ByteBuffer.wrap(Files.readAllBytes(capture));
        octets.order(octets.get(0) == (byte) 0xA1 ? ByteOrder.BIG_ENDIAN : ByteOrder.LITTLE_ENDIAN);
        for (int at = 24; at + 16 <= octets.capacity(); at += 16 + octets.getInt(at + 8)) {
            octets.putInt(at, octets.getInt(at) - seconds);
        }
        Files.write(capture, octets.array());
    }

    private static List<JsonNode> log(Path recording) throws Exception {
        return Files.readAllLines(recording.resolve("log.jsonl")).stream()
                .map(Ran::json)
                .toList();
    }

    private static List<JsonNode> named(List<JsonNode> log, String name) {
        return log.stream()
                .filter(event -> event.get("event").asText().equals(name))
                .toList();
    }

    private static List<String> names(List<JsonNode> log) {
        return log.stream()
                .map(event -> event.get("event").asText())
                .filter(name -> !name.startsWith("feed_"))
                .toList();
    }

    private List<JsonNode> uninterrupted() throws Exception {
        Path whole = folder.resolve("whole");
        RealProgram listening = RealProgram.listen(folder, lesson.toString(), "--out", whole.toString(), "--idle", "2");
        try (DatagramSocket socket = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            send(socket, listening, 0, flight.size(), 0);
        }
        listening.awaitEnd();
        return log(whole);
    }

    private static void assertDebriefGivesTheSame(Path recording) throws Exception {
        Path again = recording.resolveSibling("again");
        Ran.well("debrief", recording.toString(), "--out", again.toString());
        assertThat(again.resolve("log.jsonl")).hasSameBinaryContentAs(recording.resolve("log.jsonl"));
        assertThat(again.resolve("grade.json")).hasSameBinaryContentAs(recording.resolve("grade.json"));
    }

    private static void assertNoFault(Path recording) throws Exception {
        assertThat(JSON.readTree(Files.readString(recording.resolve("grade.json")))
                        .get("faults"))
                .isEmpty();
    }

    private void resume(Path recording, Sending sending) throws Exception {
        RealProgram second = RealProgram.listen(folder, "--resume", recording.toString(), "--idle", "2");
        sending.to(second);
        assertThat(second.awaitEnd()).as(second.said()).isZero();
        assertThat(second.said()).contains("datagrams of the recording were flown again", "SCORE");
    }

    private interface Sending {
        void to(RealProgram program) throws Exception;
    }

    private Path killedRecording(DatagramSocket socket) throws Exception {
        Path recording = folder.resolve("flight");
        RealProgram first = RealProgram.listen(folder, lesson.toString(), "--out", recording.toString());
        send(socket, first, 0, KILLED_AT, 0);
        kill(first, recording, KILLED_AT);
        return recording;
    }

    /** The sender flew on by its own clock: what it flew unseen is time of the flight. */
    @Test
    void theSenderWentOnMeanwhile() throws Exception {
        int unseen = 60;
        try (DatagramSocket socket = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            Path recording = killedRecording(socket);
            age(recording.resolve("flight.pcap"), unseen);
            resume(recording, program -> send(socket, program, KILLED_AT + unseen, flight.size(), 0));
            List<JsonNode> log = log(recording);
            assertThat(named(log, "feed_lost"))
                    .singleElement()
                    .satisfies(lost ->
                            assertThat(lost.get("time_s").asDouble()).isCloseTo(KILLED_AT - 1 + 5, within(0.01)));
            assertThat(named(log, "feed_resumed")).singleElement().satisfies(again -> {
                assertThat(again.get("time_s").asDouble()).isCloseTo(KILLED_AT + unseen, within(0.01));
                assertThat(again.get("gap_s").asDouble()).isBetween(unseen - 1.0, unseen + 15.0);
            });
            assertThat(named(log, "flight_ended").get(0).get("time_s").asDouble())
                    .isCloseTo(flight.size() - 1, within(0.5));
            assertNoFault(recording);
            assertDebriefGivesTheSame(recording);
        }
    }

    /** The simulator was started again, from another port, its clock at 0, and the aircraft where it had been. */
    @Test
    void theSenderWasStartedAgainMeanwhile() throws Exception {
        List<JsonNode> whole = uninterrupted();
        Path recording;
        try (DatagramSocket socket = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            recording = killedRecording(socket);
        }
        age(recording.resolve("flight.pcap"), DOWN_S);
        try (DatagramSocket socket = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            resume(recording, program -> send(socket, program, KILLED_AT, flight.size(), KILLED_AT));
        }
        List<JsonNode> log = log(recording);
        assertThat(names(log)).isEqualTo(names(whole));
        assertThat(named(log, "feed_lost")).hasSize(1);
        assertThat(named(log, "feed_resumed"))
                .singleElement()
                .satisfies(again -> assertThat(again.get("gap_s").asDouble()).isBetween(DOWN_S - 1.0, DOWN_S + 15.0));
        // 12 s, after which a feed is lost, are all that the minutes count.
        assertThat(named(log, "flight_ended").get(0).get("time_s").asDouble())
                .isCloseTo(flight.size() - 1 + 11, within(1.0));
        assertThat(named(log, "clearance_issued").get(1).get("time_s").asDouble())
                .isCloseTo(400, within(0.01));
        assertNoFault(recording);
        assertDebriefGivesTheSame(recording);
    }

    /** What the instructor typed before the crash is in the flight that goes on, once, and where it was said. */
    @Test
    void whatTheInstructorSaidBeforeIsSaidStill() throws Exception {
        Path recording = folder.resolve("flight");
        String words = "turn left heading 160, intercept V40, resume own navigation";
        double saidS;
        try (DatagramSocket socket = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            RealProgram first =
                    RealProgram.listen(folder, lesson.toString(), "--out", recording.toString(), "--page", "0");
            send(socket, first, 0, KILLED_AT, 0);
            first.awaitSaid("on the assigned heading");
            issue(first, "127.0.0.1:" + socket.getLocalPort(), words);
            saidS = JSON.readTree(Files.readString(recording.resolve("spoken.jsonl")))
                    .get("elapsed_s")
                    .asDouble();
            kill(first, recording, KILLED_AT);
            age(recording.resolve("flight.pcap"), DOWN_S);
            resume(recording, program -> send(socket, program, KILLED_AT, flight.size(), KILLED_AT));
        }
        List<JsonNode> said = named(log(recording), "clearance_issued").stream()
                .filter(event -> event.get("text").asText().equals(words))
                .toList();
        assertThat(said)
                .singleElement()
                .satisfies(event -> assertThat(event.get("time_s").asDouble()).isCloseTo(saidS, within(0.01)));
        assertThat(named(log(recording), "feed_resumed")).hasSize(1);
        assertDebriefGivesTheSame(recording);
        try (Stream<String> lines = Files.lines(recording.resolve("spoken.jsonl"))) {
            assertThat(lines).hasSize(1);
        }
    }

    private static void issue(RealProgram listening, String seat, String words) throws Exception {
        String page = listening.page();
        HttpResponse<String> answer = HttpClient.newHttpClient()
                .send(
                        HttpRequest.newBuilder(URI.create(page + "/order"))
                                .header("Origin", page)
                                .header("Content-Type", "application/json")
                                .POST(HttpRequest.BodyPublishers.ofString(JSON.createObjectNode()
                                        .put("do", "issue")
                                        .put("seat", seat)
                                        .put("text", words)
                                        .toString()))
                                .build(),
                        HttpResponse.BodyHandlers.ofString());
        assertThat(answer.body()).contains("issued");
    }
}
