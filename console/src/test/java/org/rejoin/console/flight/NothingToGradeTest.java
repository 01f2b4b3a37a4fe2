package org.rejoin.console.flight;

import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;

import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.recording.CaptureWriter;
import org.rejoin.console.recording.Said;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.detect.WireFormats;

import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A recording in which no aircraft is found says what stands there instead. */
class NothingToGradeTest {

    @TempDir
    private Path folder;

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "{\"latitude_deg\":\"38.2\",\"longitude_deg\":-49.9}|found latitude_deg \"38.2\", expected a number",
                "{\"format\":\"other\",\"latitude_deg\":38,\"longitude_deg\":-49}|found format \"other\"",
                "$gprmc,100000.00,a,3812.0,n,04955.2,w,1,2,010626,,*00|expected checksum"
            })
    void theReasonIsGiven(String sent, String reason) throws Exception {
        InetSocketAddress here = new InetSocketAddress(InetAddress.getLoopbackAddress(), 3000);
        Path file = folder.resolve("flight.pcap");
        try (CaptureWriter writer = CaptureWriter.create(file, here)) {
            for (int i = 0; i < 30; i++) {
                writer.write(Datagram.of(
                        1_780_000_000_000_000L + i * 1_000_000L,
                        new InetSocketAddress(InetAddress.getLoopbackAddress(), 4001),
                        (sent + "\r\n").getBytes(StandardCharsets.UTF_8)));
            }
        }
        assertThatThrownBy(() -> Debrief.of(
                        file,
                        LessonReader.read("radial-outbound"),
                        new WireFormats().all(),
                        Following.FIRST,
                        Said.NOTHING))
                .isInstanceOf(IOException.class)
                .hasMessageContaining(reason);
    }
}
