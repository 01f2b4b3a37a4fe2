package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.rejoin.console.cli.Ran.run;

import java.io.IOException;
import java.net.DatagramPacket;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.net.SocketTimeoutException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;

import org.rejoin.protocol.profile.Asking;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A simulator that only answers requests is asked, at the address that the user gives and nowhere else. */
@Timeout(60)
class FeedPortAskTest {

    private static final String PROFILE = """
            profile: 1
            name: asked
            ask: {text: "state?", every_s: 0.2}
            text: {fields: 2}
            values:
              - {is: latitude, at: 0, unit: deg}
              - {is: longitude, at: 1, unit: deg}
            """;

    @TempDir
    Path folder = Path.of("");

    /** Answers as many requests as come until it is closed. */
    private static void answer(DatagramSocket simulator) {
        byte[] answer = "38.2,-49.9".getBytes(StandardCharsets.US_ASCII);
        try {
            simulator.setSoTimeout(10_000);
            for (int i = 0; i < 100; i++) {
                DatagramPacket request = new DatagramPacket(new byte[100], 100);
                simulator.receive(request);
                String asked = new String(request.getData(), 0, request.getLength(), StandardCharsets.US_ASCII);
                if (asked.equals("state?")) {
                    simulator.send(new DatagramPacket(answer, answer.length, request.getSocketAddress()));
                }
            }
        } catch (SocketTimeoutException e) {
            simulator.close();
        } catch (IOException e) {
            assertThat(simulator.isClosed()).isTrue();
        }
    }

    @Test
    void theAnswersComeToThePortThatListens() throws Exception {
        Path profile = Files.writeString(folder.resolve("asked.yaml"), PROFILE);
        try (DatagramSocket simulator = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            Thread thread = new Thread(() -> answer(simulator), "simulator");
            thread.start();
            Ran said = run(
                    "feed",
                    "watch",
                    "--port",
                    "0",
                    "--profile",
                    profile.toString(),
                    "--ask",
                    "127.0.0.1:" + simulator.getLocalPort(),
                    "--seconds",
                    "3");
            assertThat(said.exit()).as(said.err()).isZero();
            assertThat(said.err()).contains("asking 127.0.0.1:", "every 0.2 s with 6 octets: \"state?\"");
            assertThat(said.out()).contains("38.2");
        }
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "192.0.2.1:5000 | beyond this machine: allow its answers",
                "127.0.0.1 | is not HOST:PORT",
                "127.0.0.1:0 | is not HOST:PORT",
                "'' | sends only when it is asked: say where it is with --ask",
            })
    void whomMayNotBeAskedIsSaid(String address, String why) throws IOException {
        Path profile = Files.writeString(folder.resolve("asked.yaml"), PROFILE);
        Ran said = address.isEmpty()
                ? run("feed", "watch", "--port", "0", "--profile", profile.toString(), "--seconds", "0")
                : run(
                        "feed",
                        "watch",
                        "--port",
                        "0",
                        "--profile",
                        profile.toString(),
                        "--ask",
                        address,
                        "--seconds",
                        "0");
        assertThat(said.exit()).isEqualTo(2);
        assertThat(said.err()).contains(why);
    }

    /** Of a feed that must be asked for, a layout that nobody knows is learnt as any other. */
    @Test
    void anUnknownFeedIsAskedForWhileItIsLearnt() throws Exception {
        Path out = folder.resolve("mine.yaml");
        try (DatagramSocket simulator = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            Thread thread = new Thread(() -> answer(simulator), "simulator");
            thread.start();
            String address = "127.0.0.1:" + simulator.getLocalPort();
            Ran said = run(
                    "feed",
                    "learn",
                    "--port",
                    "0",
                    "--ask",
                    address,
                    "--request",
                    "state?",
                    "--every",
                    "0.1",
                    "--seconds",
                    "2",
                    "--out",
                    out.toString());
            assertThat(said.exit()).as(said.err()).isEqualTo(FeedLearn.UNSURE);
            assertThat(said.err()).contains("asking " + address + " every 0.1 s with 6 octets: \"state?\"");
            assertThat(said.out()).contains("datagrams in 2 s");
        }
        for (String half : new String[] {"--ask 127.0.0.1:5000", "--request state?"}) {
            Ran said = run(("feed learn --port 0 --out " + out + " " + half).split(" "));
            assertThat(said.exit()).isEqualTo(2);
            assertThat(said.err()).contains("belong together");
        }
        Ran said = run("feed", "learn", "--out", out.toString(), "--ask", "192.0.2.1:5000", "--request", "state?");
        assertThat(said.exit()).isEqualTo(2);
        assertThat(said.err()).contains("beyond this machine");
    }

    @Test
    void whatIsTypedIsWhatTheProfileSaysAfterwards() throws Exception {
        Asking typed = Asking.typed("say \"it\" \\n", 0.5);
        assertThat(typed.octets()).isEqualTo("say \"it\" \n".getBytes(StandardCharsets.US_ASCII));
        String profile = PROFILE.replaceAll("(?m)^ask:.*\\R", "");
        assertThat(Asking.of(profile)).isEmpty();
        assertThat(Asking.of(profile + typed.yaml() + "\n")).contains(typed);
        assertThatThrownBy(() -> Asking.typed("", 1)).hasMessageContaining("1 to 1024 octets");
        assertThatThrownBy(() -> Asking.typed("x", 0)).hasMessageContaining("every_s");
    }

    @Test
    void nobodyIsAskedWithoutAProfileThatSaysWhat() {
        Ran said = run("feed", "watch", "--port", "0", "--ask", "127.0.0.1:5000", "--seconds", "0");
        assertThat(said.exit()).isEqualTo(2);
        assertThat(said.err()).contains("no profile says what to send");
    }
}
