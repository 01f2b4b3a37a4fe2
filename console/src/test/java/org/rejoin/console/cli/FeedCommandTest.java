package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.rejoin.console.cli.Ran.run;

import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HexFormat;
import java.util.Locale;
import java.util.Objects;
import java.util.Random;

import org.rejoin.console.recording.CaptureWriter;
import org.rejoin.console.watch.WatchBoard;
import org.rejoin.protocol.Datagram;

import com.fasterxml.jackson.databind.JsonNode;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** {@code feed check}, {@code feed watch} and {@code feed learn} from outside. */
class FeedCommandTest {

    private static final InetSocketAddress PORT = new InetSocketAddress(InetAddress.getLoopbackAddress(), 3000);

    @TempDir
    Path directory;

    private Path file(String name, String text) throws IOException {
        return Files.writeString(directory.resolve(name), text);
    }

    /** Six layouts of invented senders, one for each way of laying out a datagram. */
    @ParameterizedTest
    @CsvSource({"p1,magnetic", "p2,true", "p3,true", "p4,true", "p5,true", "p6,magnetic"})
    void exampleProfilesDecode(String name, String north) throws IOException {
        Path profile = file(name + ".yaml", resource(name + ".yaml"));
        String sample = resource(name + ".txt");
        byte[] octets = sample.startsWith("hex")
                ? HexFormat.of().parseHex(sample.substring(3).replaceAll("\\s", ""))
                : sample.getBytes(StandardCharsets.UTF_8);
        Ran ended = Ran.fed(octets, "feed", "check", profile.toString(), "--json");
        assertThat(ended.exit()).as(ended.err()).isZero();
        JsonNode state = ended.json();
        near(state, "time_s", 0, 0);
        near(state, "latitude_deg", 30.5, 1e-6);
        near(state, "longitude_deg", -145.25, 1e-6);
        near(state, "altitude_ft", 6000, 0.01);
        near(state, "heading_" + north + "_deg", north.equals("true") ? 270 : 256.8, 0.001);
        near(state, "true_track_deg", 262, 0.003);
        near(state, "ground_speed_kt", 118, 0.001);
        near(state, "vertical_speed_fpm", -700, 0.1);
        near(state, "roll_deg", -20, 0.001);
        assertThat(state.has("heading_" + (north.equals("true") ? "magnetic" : "true") + "_deg"))
                .isFalse();
    }

    private static void near(JsonNode state, String name, double expected, double tolerance) {
        assertThat(state.path(name).isNumber()).as(name).isTrue();
        assertThat(Math.abs(state.get(name).asDouble() - expected)).as(name).isLessThanOrEqualTo(tolerance);
    }

    private static String resource(String name) throws IOException {
        try (InputStream in = FeedCommandTest.class.getResourceAsStream("profiles/" + name)) {
            return new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    @Test
    void aCaptureCountsItsSecondsFromTheFirstSample() throws IOException {
        Path capture = directory.resolve("flight.pcap");
        try (CaptureWriter writer = CaptureWriter.create(capture, PORT)) {
            for (int i = 0; i < 5; i++) {
                String line = String.format(
                        Locale.ROOT, "{\"t\":%d,\"pos\":[%.3f,-30.5],\"h\":12.5}", 5000 + 400 * i, 41 + i * 0.001);
                writer.write(Datagram.of(1_000_000L + 500_000L * i, PORT, line.getBytes(StandardCharsets.UTF_8)));
            }
            writer.write(Datagram.of(9_000_000L, PORT, "noise".getBytes(StandardCharsets.UTF_8)));
        }
        Path profile = file("j.yaml", """
                text: {key_value: json}
                values:
                  - {is: time, at: t, unit: ms}
                  - {is: latitude, at: pos.0, unit: deg}
                  - {is: longitude, at: pos.1, unit: deg}
                  - {is: true_heading, at: h, unit: deg}
                """);
        Ran ended = run("feed", "check", profile.toString(), "--capture", capture.toString(), "--json");
        assertThat(ended.exit()).as(ended.err()).isZero();
        assertThat(ended.out().lines()).hasSize(5);
        JsonNode last = Ran.json(ended.out().lines().toList().get(4));
        near(last, "time_s", 1.6, 1e-9);
        near(last, "latitude_deg", 41.004, 1e-9);
        assertThat(ended.err()).contains("1 not ours");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "feed check nowhere.yaml",
                "feed check dis --capture nowhere.pcap",
                "feed check DIR/bad.yaml",
                "feed check nmea",
                "feed check dis --capture DIR/bad.yaml",
                "feed check",
                "feed learn",
                "feed learn --capture nowhere.pcap --out DIR/x.yaml",
                "feed learn --capture DIR/bad.yaml --out DIR/x.yaml",
                "feed learn --capture DIR/bad.yaml --out DIR",
                "feed learn --capture DIR/bad.yaml --out DIR/none/x.yaml",
                "feed learn --capture DIR/bad.yaml --port 3000 --out DIR/x.yaml",
                "feed learn --capture DIR/bad.yaml --out DIR/x.yaml --variation 400",
                "feed learn --port 70000 --out DIR/x.yaml",
                "feed watch --port 70000",
                "feed watch --bind 0.0.0.0 --seconds 1",
                "feed watch --seconds -1",
                "feed watch --profile DIR/bad.yaml --seconds 1",
                "feed nonsense"
            })
    void badInputIsOneLineAndTwo(String line) throws IOException {
        file("bad.yaml", "text: {separator: \"\"}\nvalues: 3\n");
        Ran ended = Ran.fed(
                "hello".getBytes(StandardCharsets.UTF_8),
                line.replace("DIR", directory.toString()).split(" "));
        assertThat(ended.exit()).as(ended.err()).isEqualTo(2);
        assertThat(ended.err().lines().filter(l -> !l.isBlank()))
                .as(ended.err())
                .hasSize(1);
        assertThat(ended.err()).startsWith("rejoin: ").doesNotContain("Exception");
    }

    @Test
    void watchEndsByItselfAndSaysThatNothingCame() {
        Ran ended = run("feed", "watch", "--port", "0", "--seconds", "0.1");
        assertThat(ended.exit()).as(ended.err()).isZero();
        assertThat(ended.out()).contains("nothing has arrived");
    }

    @Test
    void watchSaysWhatIsMissing() {
        WatchBoard board = new WatchBoard("127.0.0.1:3000", Formats.builtIn());
        InetSocketAddress other = new InetSocketAddress(InetAddress.getLoopbackAddress(), 4000);
        Random random = new Random(1);
        for (int i = 0; i < 30; i++) {
            long micros = 200_000L * i;
            board.accept(Datagram.of(
                    micros,
                    PORT,
                    "$GPGLL,3030.0000,N,14515.0000,W,120000.00,A,A*7F\r\n".getBytes(StandardCharsets.UTF_8)));
            byte[] noise = new byte[random.nextInt(80)];
            random.nextBytes(noise);
            board.accept(Datagram.of(micros, other, noise));
        }
        String picture = String.join("\n", board.picture(6_000_000, 3));
        assertThat(picture)
                .contains("5.0 a second")
                .contains("octets:")
                .contains("feed learn")
                .contains("2 senders");
        assertThat(board.json(6_000_000))
                .hasSize(2)
                .allSatisfy(o -> assertThat(o).contains("\"missing\""));
        assertThat(board.plain(6_000_000)).hasSize(2);
    }

    @Test
    void watchShowsEachAircraftOfASender() {
        WatchBoard board = new WatchBoard("127.0.0.1:3000", Formats.builtIn());
        for (int i = 0; i < 5; i++) {
            String both = aircraft("WAVE1", 30 + 0.001 * i) + aircraft("WAVE2", 31 + 0.001 * i);
            board.accept(Datagram.of(200_000L * i, PORT, both.getBytes(StandardCharsets.UTF_8)));
        }
        assertThat(String.join("\n", board.picture(1_000_000, 0)))
                .contains("WAVE1  latitude 30.004", "WAVE2  latitude 31.004", "1 sender, 2 aircraft");
        assertThat(board.plain(1_000_000)).hasSize(2);
        assertThat(board.json(1_000_000)).singleElement().asString().contains("\"name\":\"WAVE2\"");
    }

    private static String aircraft(String name, double latitudeDeg) {
        return "{\"callsign\":\"" + name + "\",\"latitude_deg\":" + latitudeDeg + ",\"longitude_deg\":-145}\n";
    }

    @Test
    void learningFromTooLittleAsksForMoreAndEndsWithThree() throws IOException {
        Path capture = directory.resolve("short.pcap");
        try (CaptureWriter writer = CaptureWriter.create(capture, PORT)) {
            writer.write(Datagram.of(1_000_000L, PORT, "1 2 3".getBytes(StandardCharsets.UTF_8)));
        }
        Path out = directory.resolve("x.yaml");
        Ran ended = run("feed", "learn", "--capture", capture.toString(), "--out", out.toString(), "--json");
        assertThat(ended.exit()).as(ended.err()).isEqualTo(3);
        JsonNode object = ended.json();
        assertThat(object.path("complete").asBoolean(true)).isFalse();
        assertThat(object.path("questions")).isNotEmpty();
        assertThat(Files.readString(out)).contains("three minutes");
    }

    @Test
    void watchTellsWhatIsSentWronglyFromWhatIsNotSent() {
        WatchBoard board = new WatchBoard("127.0.0.1:3000", Formats.builtIn());
        for (int i = 0; i < 30; i++) {
            board.accept(Datagram.of(
                    200_000L * i,
                    PORT,
                    String.format(
                                    Locale.ROOT,
                                    "{\"format\":\"rejoin-state\",\"version\":1,\"time_s\":%d,\"latitude_deg\":30.5,"
                                            + "\"longitude_deg\":-145.2,\"altitude_ft\":\"60%02d\",\"true_heading_deg\":500}",
                                    i,
                                    i)
                            .getBytes(StandardCharsets.UTF_8)));
        }
        String picture = String.join("\n", board.picture(6_000_000, 0));
        assertThat(picture)
                .contains("no altitude that can be read: found altitude_ft \"6000\", expected a number from")
                .contains("without quotes")
                .contains("no heading that can be read: found true_heading_deg 500")
                .contains("no ground speed: add it")
                .doesNotContain("add the altitude", "add the true or magnetic heading", "\"6001\"");
    }

    @Test
    void checkSaysEachKindOfFaultOnce() throws IOException {
        Path capture = directory.resolve("faults.pcap");
        try (CaptureWriter writer = CaptureWriter.create(capture, PORT)) {
            for (int i = 0; i < 20; i++) {
                writer.write(Datagram.of(
                        1_700_000_000_000_000L + 200_000L * i,
                        PORT,
                        ("{\"latitude_deg\":30.5,\"longitude_deg\":-145.2,\"altitude_ft\":\"60" + (10 + i) + "\"}")
                                .getBytes(StandardCharsets.UTF_8)));
            }
        }
        Ran ended = run("feed", "check", "json", "--capture", capture.toString());
        assertThat(ended.exit()).as(ended.err()).isZero();
        assertThat(ended.err().lines().filter(line -> line.contains("altitude_ft")))
                .containsExactly("rejoin: found altitude_ft \"6010\", expected a number from -2000 to 100000 without"
                        + " quotes");
    }

    @Test
    void watchNamesThePortThatItListensOn() {
        Ran ended = run("feed", "watch", "--port", "0", "--seconds", "0.1");
        String port = ended.err().replaceAll("(?s).*listening on ([0-9.:]+);.*", "$1");
        assertThat(port).doesNotEndWith(":0");
        assertThat(ended.out()).contains("nothing has arrived on " + port);
    }
}
