package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

import org.rejoin.bridge.feed.MicroClock;
import org.rejoin.console.flight.FeedSetup;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.live.FlightView;
import org.rejoin.console.live.LiveFlight;
import org.rejoin.console.live.RecordingPlace;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.json.JsonFormat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/** What trouble at the start or in the middle of a flight leaves behind. */
@Timeout(value = 120, unit = TimeUnit.SECONDS)
class DiskTroubleTest {

    @TempDir
    private Path folder;

    private static int run(StringWriter err, String... args) {
        return Rejoin.run(new PrintWriter(new StringWriter()), new PrintWriter(err, true), args);
    }

    @Test
    @EnabledOnOs(OS.LINUX)
    void aLogThatCouldNotBeWrittenInFlightIsWrittenAtItsEnd() throws Exception {
        Path recording = folder.resolve("flight");
        Path link = Files.createSymbolicLink(folder.resolve("link"), Path.of("/dev/full"));
        Thread meddler = new Thread(() -> {
            while (!Files.exists(recording.resolve("flight.pcap"))) {
                Thread.onSpinWait();
            }
            try {
                Files.move(link, recording.resolve("log.jsonl"), StandardCopyOption.REPLACE_EXISTING);
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        });
        meddler.start();
        StringWriter err = new StringWriter();
        assertThat(run(err, "fly", "heading-to-airway", "--hz", "1", "--out", recording.toString()))
                .as(err.toString())
                .isZero();
        meddler.join();
        assertThat(recording.resolve("log.jsonl")).isRegularFile();
        assertThat(Files.isSymbolicLink(recording.resolve("log.jsonl"))).isFalse();
        assertThat(err.toString()).containsOnlyOnce("the log cannot be written any more: ");
        Path again = folder.resolve("again");
        assertThat(run(err, "debrief", recording.toString(), "--out", again.toString()))
                .isZero();
        assertThat(recording.resolve("log.jsonl")).hasSameTextualContentAs(again.resolve("log.jsonl"));
    }

    @Test
    @EnabledOnOs(OS.LINUX)
    void aFlightThatCouldNotBeginCanBeBegunInTheSamePlace() throws Exception {
        Path recording = Files.createDirectories(folder.resolve("flight"));
        // In the way of the chart, so that the lesson is written already when the beginning fails.
        Files.createDirectories(recording.resolve(".chart.part/full"));
        StringWriter err = new StringWriter();
        String[] fly = {"fly", "heading-to-airway", "--hz", "1", "--format", "json", "--out", recording.toString()};
        assertThat(run(err, fly)).isNotZero();
        assertThat(err.toString()).startsWith("rejoin: ").hasLineCount(1).doesNotContain("\tat ");
        Files.delete(recording.resolve(".chart.part/full"));
        Files.delete(recording.resolve(".chart.part"));
        try (Stream<Path> left = Files.list(recording)) {
            assertThat(left).isEmpty();
        }
        StringWriter second = new StringWriter();
        assertThat(run(second, fly)).as(second.toString()).isZero();
    }

    @Test
    void aResumedFlightThatFailsAtTheStartHoldsNothing() throws Exception {
        Path recording = KeptFlight.copied(KeptFlight.PLACE, folder.resolve("flight"));
        byte[] capture = Files.readAllBytes(recording.resolve("flight.pcap"));
        InetSocketAddress here = new InetSocketAddress(InetAddress.getLoopbackAddress(), RealProgram.freePort());
        StringWriter err = new StringWriter();
        try (FlightView view =
                new FlightView(new PrintWriter(new StringWriter()), new PrintWriter(err), true, false, false)) {
            RecordingPlace place = RecordingPlace.resumed(recording);
            assertThatThrownBy(() -> new LiveFlight(
                                    LessonReader.read("heading-to-airway"),
                                    new LiveFlight.Listening(here, Set.of()),
                                    MicroClock.steady(),
                                    List.of(new Broken()),
                                    FeedSetup.USUAL,
                                    place,
                                    view,
                                    Optional.empty(),
                                    Optional.empty())
                            .close())
                    .hasMessageContaining("a mistake in a decoder");
        }
        // Neither the port nor the threads of the recording are held, and the recording is as it was.
        new DatagramSocket(here).close();
        await().atMost(Duration.ofSeconds(10))
                .until(() -> Thread.getAllStackTraces().keySet().stream()
                        .noneMatch(thread -> thread.getName().equals("recorder")));
        assertThat(Files.readAllBytes(recording.resolve("flight.pcap"))).isEqualTo(capture);
    }

    /** Recognises what JSON is, and then breaks its promise never to throw. */
    private static final class Broken implements WireFormat {
        private final JsonFormat json = new JsonFormat();

        @Override
        public String name() {
            return json.name();
        }

        @Override
        public boolean recognises(Datagram datagram) {
            return json.recognises(datagram);
        }

        @Override
        public Decoder newDecoder() {
            return (datagram, sink) -> {
                throw new IllegalStateException("a mistake in a decoder");
            };
        }

        @Override
        public Encoder newEncoder() {
            return json.newEncoder();
        }
    }
}
