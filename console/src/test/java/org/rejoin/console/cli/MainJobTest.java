package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.rejoin.console.cli.Ran.run;

import java.net.DatagramPacket;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import java.util.stream.Stream;

import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.dis.DisFormat;
import org.rejoin.protocol.json.JsonFormat;

import com.fasterxml.jackson.databind.JsonNode;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The main job from the command line: flown over a real loopback socket, logged, graded, graded again. */
@Timeout(value = 120, unit = TimeUnit.SECONDS)
class MainJobTest {

    @TempDir
    Path folder = Path.of("");

    @ParameterizedTest
    @CsvSource({"radial-outbound,dis", "radial-inbound,nmea", "heading-to-airway,json"})
    void aLessonIsFlownOverASocketLoggedGradedAndGradedAgainTheSame(String lesson, String format) throws Exception {
        Path recording = folder.resolve("flight");
        Ran flown = run("fly", lesson, "--format", format, "--hz", "2", "--json", "--out", recording.toString());
        assertThat(flown.exit()).as(flown.err()).isZero();
        assertThat(flown.events())
                .contains("flight_began", "clearance_issued", "heading_established", "intercept_achieved")
                .containsSubsequence("airway_joined", "route_resumed", "amendment_complete", "flight_ended");
        for (String file : List.of("flight.pcap", "lesson.yaml", "chart", "log.jsonl", "grade.json")) {
            assertThat(recording.resolve(file)).isRegularFile();
        }

        Ran once = run("debrief", recording.toString(), "--json");
        Ran twice = run("debrief", recording.toString(), "--json");
        assertThat(once.exit()).as(once.err()).isZero();
        assertThat(once.out()).isEqualTo(twice.out());
        JsonNode debrief = Ran.json(once.out());
        assertThat(debrief.get("events")).hasSize(flown.events().size());
        assertThat(debrief.get("grade").get("met").asBoolean()).isTrue();
        assertThat(debrief.get("faults")).isEmpty();

        Path again = folder.resolve("again");
        run("debrief", recording.toString(), "--out", again.toString());
        assertThat(Files.readString(again.resolve("log.jsonl")))
                .isEqualTo(Files.readString(recording.resolve("log.jsonl")));
        assertThat(Files.readString(again.resolve("grade.json")))
                .isEqualTo(Files.readString(recording.resolve("grade.json")));
    }

    /** It is recording when this returns. */
    private static Future<Ran> listening(ExecutorService pool, int port, Path recording, String option)
            throws InterruptedException {
        Future<Ran> listening = pool.submit(() -> run(
                "listen",
                "heading-to-airway",
                "--port",
                String.valueOf(port),
                "--idle",
                "2",
                option,
                "--out",
                recording.toString()));
        while (!Files.exists(recording.resolve("flight.pcap"))) {
            Thread.sleep(20);
        }
        return listening;
    }

    @Test
    void theUsersOwnSimulatorIsFollowedThroughGarbageOnThePort() throws Exception {
        Lesson lesson = LessonReader.read("heading-to-airway");
        int port = RealProgram.freePort();
        Path recording = folder.resolve("listened");
        var pool = Executors.newSingleThreadExecutor();
        try (DatagramSocket sender = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            Future<Ran> listening = listening(pool, port, recording, "--json");
            WireFormat.Encoder encoder = new DisFormat().newEncoder();
            send(sender, port, new byte[5000]);
            send(sender, port, "not a datagram of any format".getBytes(StandardCharsets.UTF_8));
            new PracticeFlight(lesson, LocalDate.of(2026, 6, 1), Habit.GOOD).fly(1, state -> {
                encoder.encode(state).forEach(payload -> send(sender, port, payload));
                try {
                    Thread.sleep(1);
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                }
            });
            Ran heard = listening.get(60, TimeUnit.SECONDS);
            assertThat(heard.exit()).as(heard.err()).isZero();
            assertThat(heard.events()).contains("intercept_achieved", "amendment_complete", "flight_ended");
            assertThat(heard.err()).contains("2 datagrams were in no known format and left out");
            Ran again = run("debrief", recording.toString());
            assertThat(again.out()).contains("note: 2 datagrams were in no known format and left out");
        } finally {
            pool.shutdownNow();
        }
    }

    @Test
    void everyAircraftOfALabHasItsOwnLogAndGradeAndTheSameAgainFromTheRecording() throws Exception {
        Lesson lesson = LessonReader.read("heading-to-airway");
        int port = RealProgram.freePort();
        Path recording = folder.resolve("lab");
        var pool = Executors.newSingleThreadExecutor();
        try (DatagramSocket first = new DatagramSocket(0, InetAddress.getLoopbackAddress());
                DatagramSocket second = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            Future<Ran> listening = listening(pool, port, recording, "--every-aircraft");
            WireFormat.Encoder encoder = new JsonFormat().newEncoder();
            new PracticeFlight(lesson, LocalDate.of(2026, 6, 1), Habit.GOOD)
                    .fly(
                            1,
                            state -> encoder.encode(state).forEach(payload -> {
                                send(first, port, named(payload, "ONE"));
                                send(second, port, named(payload, "../../TWO"));
                                LockSupport.parkNanos(1_000_000);
                            }));
            Ran heard = listening.get(60, TimeUnit.SECONDS);
            assertThat(heard.exit()).as(heard.err()).isZero();
            assertThat(heard.out().lines())
                    .anyMatch(line -> line.startsWith("ONE  ") && line.contains("amendment complete"))
                    .anyMatch(line -> line.startsWith(".. .. TWO  ") && line.contains("amendment complete"));
        } finally {
            pool.shutdownNow();
        }
        Path again = folder.resolve("again");
        Ran debrief = run("debrief", recording.toString(), "--every-aircraft", "--json", "--out", again.toString());
        assertThat(debrief.exit()).as(debrief.err()).isZero();
        assertThat(Ran.json(debrief.out()).get("seats")).hasSize(2);
        for (String file : List.of("ONE/log.jsonl", "ONE/grade.json", "TWO/log.jsonl", "TWO/grade.json")) {
            assertThat(Files.readString(again.resolve("seats").resolve(file)))
                    .isEqualTo(Files.readString(recording.resolve("seats").resolve(file)));
        }
        Ran one = run("debrief", recording.toString(), "--aircraft", "one", "--json");
        assertThat(Ran.json(one.out()).get("grade"))
                .isEqualTo(Ran.json(debrief.out()).get("seats").get(0).get("grade"));
    }

    private static byte[] named(byte[] json, String callsign) {
        return new String(json, StandardCharsets.UTF_8)
                .replaceFirst("\\{", "{\"callsign\":\"" + callsign + "\",")
                .getBytes(StandardCharsets.UTF_8);
    }

    private static void send(DatagramSocket socket, int port, byte[] payload) {
        try {
            socket.send(new DatagramPacket(payload, payload.length, InetAddress.getLoopbackAddress(), port));
        } catch (java.io.IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    @Test
    void withoutArgumentsTheHelpIsPrinted() {
        Ran ran = run();
        assertThat(ran.exit()).isZero();
        assertThat(ran.out().replaceAll("\\s+", " ")).contains("fly", "listen", "brief", "debrief", Rejoin.CAUTION);
    }

    @ParameterizedTest
    @ValueSource(strings = {"fly", "listen", "brief", "debrief"})
    void everyHelpCarriesTheCaution(String command) {
        Ran ran = run(command, "--help");
        assertThat(ran.exit()).isZero();
        assertThat(ran.out().replaceAll("\\s+", " ")).contains(Rejoin.CAUTION);
    }

    @Test
    void theBuiltInLessonsAreListed() {
        Ran ran = run("fly", "--list");
        assertThat(ran.out()).contains("radial-outbound", "radial-inbound", "heading-to-airway");
    }

    @Test
    void badInputEndsWithOneLineAndExitCode2() throws Exception {
        Path empty = Files.createFile(folder.resolve("empty.pcap"));
        Path text = Files.writeString(folder.resolve("text.pcap"), "this is no capture at all, but it is long enough");
        Path lesson =
                Files.writeString(folder.resolve("lesson.yaml"), "title: x\nchart: nowhere.yaml\nfiled: A DCT B\n");
        Path wrongKey = Files.writeString(folder.resolve("key.yaml"), "title: x\ncharts: nowhere.yaml\n");
        Stream.of(
                        new String[] {"fly", "no-such-lesson"},
                        new String[] {"fly", lesson.toString()},
                        new String[] {"fly", wrongKey.toString()},
                        new String[] {"fly", "--pilot", "sleepy"},
                        new String[] {"fly", "--hz", "0"},
                        new String[] {"fly", "--format", "telepathy"},
                        new String[] {"fly", "--frobnicate"},
                        new String[] {"listen", "radial-outbound", "--port", "70000"},
                        new String[] {"listen", "radial-outbound", "--bind", "0.0.0.0"},
                        new String[] {"debrief", folder.resolve("nothing").toString()},
                        new String[] {"debrief", empty.toString(), "--lesson", "radial-outbound"},
                        new String[] {"debrief", text.toString(), "--lesson", "radial-outbound"},
                        new String[] {"debrief", text.toString()},
                        new String[] {"no-such-command"})
                .forEach(args -> {
                    Ran ran = run(args);
                    assertThat(ran.exit()).as(String.join(" ", args)).isEqualTo(2);
                    assertThat(ran.err().lines().filter(line -> !line.isBlank()))
                            .as(String.join(" ", args))
                            .hasSize(1);
                    assertThat(ran.err()).doesNotContain("\tat ").startsWith("rejoin: ");
                });
    }

    /** One line that says what, where and what would be right, and no parser's or language's own words. */
    @Test
    void aWrongFileAndAWrongNumberAreSaidInTheUsersWords() throws Exception {
        Path readme = Files.writeString(
                folder.resolve("README.md"),
                "# A title\n\nSome *text*: with **bold** words\n\n- a list: of\n  things\n");
        Path recording = KeptFlight.PLACE;
        for (String[] args : new String[][] {
            {"fly", readme.toString()},
            {"listen", readme.toString()},
            {"debrief", recording.toString(), "--lesson", readme.toString()}
        }) {
            Ran ran = run(args);
            assertThat(ran.exit()).isEqualTo(2);
            assertThat(ran.err())
                    .isEqualTo("rejoin: " + readme + ": not YAML, so no lesson; one has title, chart, filed and"
                            + " amendments, each \"name: value\" on a line of its own\n");
        }
        for (String[] args : new String[][] {
            {"fly", "--format", readme.toString()},
            {"listen", "heading-to-airway", "--profile", readme.toString()},
            {"debrief", recording.toString(), "--profile", readme.toString()},
            {
                "feed",
                "check",
                readme.toString(),
                "--capture",
                recording.resolve("flight.pcap").toString()
            }
        }) {
            Ran ran = run(args);
            assertThat(ran.exit()).isEqualTo(2);
            assertThat(ran.err())
                    .isEqualTo("rejoin: " + readme + ": line 1, column 1: not YAML, so no profile; one begins with"
                            + " \"profile: 1\", and feed learn writes one\n");
        }
        assertThat(run("fly", "--hz", "abc").err())
                .startsWith("rejoin: --hz abc is not a number; write for example 12.5 (");
        assertThat(run("listen", "heading-to-airway", "--idle", "x").err())
                .startsWith("rejoin: --idle x is not a number; write for example 12.5 (");
        assertThat(run("listen", "heading-to-airway", "--port", "x").err())
                .startsWith("rejoin: --port x is not a whole number; write for example 12 (");
        assertThat(run("fly", "--hz", "abc").exit()).isEqualTo(2);
        Path torn = Files.writeString(folder.resolve("torn.yaml"), "title: x\nfiled: [\nchart: y\n");
        assertThat(run("fly", torn.toString()).err())
                .startsWith("rejoin: " + torn + ":")
                .contains("not YAML from here or a little before")
                .hasLineCount(1);
        Path latin = Files.write(folder.resolve("latin.yaml"), new byte[] {'p', ':', ' ', (byte) 0xE9});
        assertThat(run("fly", "--format", latin.toString()).err())
                .isEqualTo("rejoin: " + latin + ": line 1, column 4: byte 0xE9 is not UTF-8; save the file as UTF-8\n");
    }

    @Test
    void aPortInUseIsSaidPlainly() throws Exception {
        try (DatagramSocket taken = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            Ran ran = run("listen", "radial-outbound", "--port", String.valueOf(taken.getLocalPort()));
            assertThat(ran.exit()).isEqualTo(2);
            assertThat(ran.err()).contains(String.valueOf(taken.getLocalPort()));
        }
    }

    @Test
    void aTornCaptureIsGradedUpToTheTear() throws Exception {
        byte[] whole = Files.readAllBytes(KeptFlight.PLACE.resolve("flight.pcap"));
        Path torn = Files.write(folder.resolve("torn.pcap"), java.util.Arrays.copyOf(whole, whole.length - 37));
        Ran ran = run("debrief", torn.toString(), "--lesson", "heading-to-airway");
        assertThat(ran.exit()).as(ran.err()).isZero();
        assertThat(ran.out()).contains("torn").contains("SCORE");
    }
}
