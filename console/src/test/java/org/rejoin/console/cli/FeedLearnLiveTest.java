package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.net.DatagramPacket;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.concurrent.atomic.AtomicLong;

import org.rejoin.protocol.profile.Profile;
import org.rejoin.protocol.profile.Quantity;
import org.rejoin.protocol.profile.Unit;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/** {@code feed learn --port N} hears a real socket; only the clock is wound on, so that three minutes pass in seconds. */
@Timeout(60)
class FeedLearnLiveTest {

    private static final int HZ = 5;

    @TempDir
    Path directory;

    /** Seconds of a flight by the script of the help, in a wind of 18 kt. */
    private static List<String> flight(double climbsIn) {
        SplittableRandom random = new SplittableRandom(11);
        List<String> lines = new ArrayList<>();
        double latitude = 30;
        double longitude = -145;
        double altitude = 4000;
        double heading = 40;
        double speed = 110;
        double bank = 0;
        double climb = 0;
        double step = 1.0 / HZ;
        for (double t = 0; t < 190; t += step) {
            boolean turning = t > 10 && t < 115;
            boolean back = t > 158 && t < 172;
            bank += limited((turning ? 20 : back ? -20 : 0) - bank, 6 * step);
            climb += limited((t > 120 && t < 150 ? 900 : t > 172 ? -600 : 0) - climb, 150 * step);
            speed += limited((t > 152 ? 128 : 110) - speed, 1.5 * step);
            heading += Math.toDegrees(19.0626 * Math.tan(Math.toRadians(bank)) / speed) * step; // g in kt/s
            double north = speed * Math.cos(Math.toRadians(heading)) + 18;
            double east = speed * Math.sin(Math.toRadians(heading));
            latitude += north * step / 3600 / 60;
            longitude += east * step / 3600 / 60 / Math.cos(Math.toRadians(latitude));
            altitude += climb / 60 * step;
            lines.add(String.format(
                    Locale.ROOT,
                    "%.2f;%.2f;%.7f;%.7f;%.1f;%.1f;%.3f\n",
                    noisy(bank, 0.3, random),
                    (noisy(heading, 0.2, random) + 360) % 360,
                    noisy(latitude, 7e-6, random),
                    noisy(longitude, 8e-6, random),
                    noisy(Math.hypot(north, east) * 1852 / 3600, 0.15, random),
                    noisy(altitude, 2, random),
                    noisy(climb, 20, random) / climbsIn));
        }
        return lines;
    }

    private static double limited(double value, double limit) {
        return Math.max(-limit, Math.min(limit, value));
    }

    private static double noisy(double value, double spread, SplittableRandom random) {
        return value + spread * (random.nextDouble() + random.nextDouble() + random.nextDouble() - 1.5) * 2;
    }

    private String mine() {
        return directory.resolve("mine.pcap").toString();
    }

    /** Learns from a feed while it is flown; the exit code. */
    private static int learn(Path out, StringWriter said, double climbsIn) throws Exception {
        AtomicLong nowMicros = new AtomicLong(1_780_348_474_000_000L);
        AtomicLong asked = new AtomicLong();
        int port = RealProgram.freePort();
        Thread sender = new Thread(() -> send(port, nowMicros, asked, climbsIn), "sender");
        sender.start();
        int code = new CommandLine(new FeedLearn(() -> {
                    asked.incrementAndGet();
                    return nowMicros.get();
                }))
                .setOut(new PrintWriter(said))
                .setErr(new PrintWriter(said))
                .execute("--port", String.valueOf(port), "--out", out.toString());
        sender.interrupt();
        sender.join(10_000);
        return code;
    }

    @Test
    void aFeedIsLearntWhileItIsFlown() throws Exception {
        Path out = directory.resolve("mine.yaml");
        StringWriter said = new StringWriter();
        int code = learn(out, said, 1);
        assertThat(code).as(said.toString()).isZero();
        // What was flown is kept, and learnt from without flying again.
        Ran.well(
                "feed",
                "learn",
                "--capture",
                mine(),
                "--out",
                directory.resolve("again.yaml").toString());
        assertThat(directory.resolve("again.yaml")).content().contains("altitude_msl");
        Profile profile = Profile.parse(Files.readString(out));
        assertThat(profile.value(Quantity.ROLL).orElseThrow().at()).isZero();
        assertThat(profile.value(Quantity.TRUE_HEADING).orElseThrow().at()).isEqualTo(1);
        assertThat(profile.value(Quantity.LATITUDE).orElseThrow().at()).isEqualTo(2);
        assertThat(profile.value(Quantity.LONGITUDE).orElseThrow().at()).isEqualTo(3);
        assertThat(profile.value(Quantity.GROUND_SPEED).orElseThrow().at()).isEqualTo(4);
        assertThat(profile.value(Quantity.GROUND_SPEED).orElseThrow().unit()).isEqualTo(Unit.M_PER_S);
        assertThat(profile.value(Quantity.ALTITUDE_MSL).orElseThrow().at()).isEqualTo(5);
        assertThat(profile.value(Quantity.ALTITUDE_MSL).orElseThrow().unit()).isEqualTo(Unit.FT);
        assertThat(profile.value(Quantity.VERTICAL_SPEED).orElseThrow().at()).isEqualTo(6);
    }

    /** Each line when the one before was taken in. */
    private static void send(int port, AtomicLong nowMicros, AtomicLong asked, double climbsIn) {
        try (DatagramSocket socket = new DatagramSocket()) {
            InetSocketAddress target = new InetSocketAddress(InetAddress.getLoopbackAddress(), port);
            Thread.sleep(1000); // until the port is open; what is sent before is lost, as with any simulator
            for (String line : flight(climbsIn)) {
                byte[] octets = line.getBytes(StandardCharsets.US_ASCII);
                nowMicros.addAndGet(1_000_000 / HZ);
                long before = asked.get();
                socket.send(new DatagramPacket(octets, octets.length, target));
                for (int wait = 0; wait < 20 && asked.get() == before; wait++) {
                    Thread.sleep(1);
                }
            }
        } catch (IOException | InterruptedException e) {
            Thread.currentThread().interrupt(); // the command has ended
        }
    }

    /** Feet and feet a second fit as well as metres and metres a second: nothing that is flown settles that. */
    @Test
    void whenOnlyThePilotKnowsTheRestTheListeningEndsAndHisAnswerNeedsNoSecondFlight() throws Exception {
        Path out = directory.resolve("mine.yaml");
        StringWriter said = new StringWriter();
        int code = learn(out, said, 60);
        assertThat(code).as(said.toString()).isEqualTo(FeedLearn.UNSURE);
        assertThat(said.toString()).contains("Not settled: altitude", "--capture " + directory.resolve("mine.pcap"));
        for (String altimeter : List.of("4400", "9000")) {
            Ran again =
                    Ran.run("feed", "learn", "--capture", mine(), "--altimeter", altimeter, "--out", out.toString());
            assertThat(again.exit()).as(again.err()).isEqualTo(altimeter.equals("4400") ? 0 : FeedLearn.UNSURE);
        }
    }

    /** Ctrl-C and TERM end it with its report, and with the code that says whether all was found. */
    @Test
    @DisabledOnOs(OS.WINDOWS)
    void whoEndsItHasTheReportAndTheFlight() throws Exception {
        Path out = directory.resolve("mine.yaml");
        int port = RealProgram.freePort();
        try (RealProgram program = RealProgram.start(
                directory,
                port,
                List.of(),
                Map.of(),
                List.of("feed", "learn", "--port", String.valueOf(port), "--out", out.toString()))) {
            program.awaitSaid("listening on");
            for (int i = 0; i < 20; i++) {
                program.send(flight(1).get(i).getBytes(StandardCharsets.US_ASCII));
            }
            Thread.sleep(200);
            program.process().destroy();
            assertThat(program.awaitEnd()).as(program.said()).isEqualTo(FeedLearn.UNSURE);
            assertThat(program.said()).contains("Not settled", "the flight is kept in");
        }
        assertThat(directory.resolve("mine.pcap")).isNotEmptyFile();
        assertThat(out).isNotEmptyFile();
    }

    @Test
    void aPortWhereNothingComesIsSaid() {
        Ran ran = Ran.run(
                "feed",
                "learn",
                "--port",
                "0",
                "--seconds",
                "0.3",
                "--out",
                directory.resolve("none.yaml").toString());
        assertThat(ran.exit()).isEqualTo(1); // the command was right, the simulator silent
        assertThat(ran.err()).contains("nothing arrived");
    }
}
