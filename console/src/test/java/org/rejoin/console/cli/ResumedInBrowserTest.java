package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.DatagramSocket;
import java.net.InetAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;

import org.rejoin.console.Browser;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;
import org.rejoin.console.recording.Captured;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.json.JsonFormat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * The real program killed while its page is open in a real browser and the pilot is 300 ft low: started again with
 * {@code --resume}, the page finds its way back by itself, and the low altitude is one fault.
 */
@Timeout(value = 4, unit = TimeUnit.MINUTES)
class ResumedInBrowserTest {

    private static final ObjectMapper JSON = new ObjectMapper();
    /** Low from the one to the other, killed between them; seconds of the flight, a sample each. */
    private static final int LOW_FROM = 100;

    private static final int KILLED_AT = 140;
    private static final int LOW_TO = 180;

    @TempDir
    private Path folder;

    private final List<byte[]> flight = new ArrayList<>();

    @BeforeEach
    void fly() throws Exception {
        Assumptions.assumeTrue(Browser.installed().isPresent(), "no Chromium on this machine");
        WireFormat.Encoder encoder = new JsonFormat().newEncoder();
        new PracticeFlight(LessonReader.read("radial-outbound"), LocalDate.of(2026, 6, 1), Habit.GOOD)
                .fly(1, state -> flight.addAll(encoder.encode(low(state))));
    }

    private static AircraftState low(AircraftState state) {
        boolean is = state.timeS() >= LOW_FROM && state.timeS() < LOW_TO;
        return is
                ? SecondSenderTest.moved(state, 0, 5700 - state.altitudeMslFt().orElseThrow())
                : state;
    }

    private void send(RealProgram to, DatagramSocket from, int first, int last) throws Exception {
        for (byte[] payload : flight.subList(first, last)) {
            to.send(from, payload);
            LockSupport.parkNanos(1_000_000);
        }
    }

    private RealProgram listen(int page, String... more) throws Exception {
        List<String> args = new ArrayList<>(List.of(more));
        args.addAll(List.of("--page", String.valueOf(page)));
        return RealProgram.listen(folder, args.toArray(String[]::new));
    }

    private static int times(Browser browser, String what) throws Exception {
        return browser.text("#log").split(what, -1).length - 1;
    }

    @Test
    void thePageFindsItsWayBackAndOneDeviationIsOneFault() throws Exception {
        int page = RealProgram.freePagePort();
        Path recording = folder.resolve("flight");
        try (DatagramSocket simulator = new DatagramSocket(0, InetAddress.getLoopbackAddress());
                Browser desk = new Browser(folder, 1280, 720)) {
            try (RealProgram first = listen(page, "radial-outbound", "--out", recording.toString())) {
                send(first, simulator, 0, 80);
                desk.open("http://127.0.0.1:" + page + "/");
                desk.untilText("#log", "on the assigned heading");
                desk.type("#remark", "scan is slow");
                desk.key("Enter");
                desk.untilText("#log", "Remark: scan is slow");
                send(first, simulator, 80, KILLED_AT);
                desk.untilText("#log", "off the assigned altitude");
                while (Captured.in(recording.resolve("flight.pcap")).datagrams().size() < KILLED_AT) {
                    Thread.sleep(20);
                }
                first.process().destroyForcibly();
                first.awaitEnd();
                desk.until("document.body.innerText.includes('connection lost; trying again')");
            }
            try (RealProgram again = listen(page, "--resume", recording.toString(), "--page-linger", "1")) {
                // Nobody loads the page anew.
                desk.until("document.getElementById('clock').textContent === '02:19'");
                desk.untilText("#log", "Remark: scan is slow");
                // The clock and the log stood as they were: only this says that the page is back.
                desk.until("!document.body.innerText.includes('connection lost')");
                assertThat(desk.text("body")).doesNotContain("connection lost");
                send(again, simulator, KILLED_AT, flight.size());
                desk.untilText("#log", "back at the assigned altitude");
                for (String once : List.of(
                        "flight began",
                        "ATC:",
                        "Remark: scan is slow",
                        "off the assigned altitude",
                        "back at the assigned altitude")) {
                    assertThat(times(desk, once)).as(once).isEqualTo(1);
                }
                desk.picture("resumed-1280x720");
                again.process().destroy(); // SIGTERM
                desk.untilText("#log", "flight ended");
                assertThat(again.awaitEnd()).as(again.said()).isZero();
                assertThat(desk.complaints()).allMatch(each -> each.contains("net::ERR_"));
            }
        }
        assertThat(Captured.in(recording.resolve("flight.pcap")).datagrams()).hasSize(flight.size());
        assertThat(Files.readAllLines(recording.resolve("remarks.jsonl"))).hasSize(1);
        List<JsonNode> log = Files.readAllLines(recording.resolve("log.jsonl")).stream()
                .map(Ran::json)
                .toList();
        for (String once :
                List.of("flight_began", "clearance_issued", "altitude_deviation_began", "altitude_deviation_ended")) {
            assertThat(log.stream().filter(event -> event.path("event").asText().equals(once)))
                    .as(once)
                    .hasSize(1);
        }
        JsonNode faults =
                JSON.readTree(Files.readString(recording.resolve("grade.json"))).get("faults");
        assertThat(faults).hasSize(1);
        assertThat(faults.get(0).path("code").asText()).isEqualTo("ALTITUDE_NOT_HELD");
    }
}
