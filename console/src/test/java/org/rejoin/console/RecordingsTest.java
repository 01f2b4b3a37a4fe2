package org.rejoin.console;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;

import org.rejoin.console.flight.Debrief;
import org.rejoin.console.flight.Following;
import org.rejoin.console.flight.Recording;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.log.EventJson;
import org.rejoin.console.recording.Said;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.dis.DisFormat;
import org.rejoin.protocol.json.JsonFormat;
import org.rejoin.protocol.nmea.NmeaFormat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Non-regression: the recordings of the repository still give the log and the grade that stand beside them. After a
 * change on purpose, {@code -Drejoin.write-recordings=true} writes both anew from the same datagrams.
 */
class RecordingsTest {

    private static final List<WireFormat> FORMATS = List.of(new DisFormat(), new NmeaFormat(), new JsonFormat());

    static Stream<Path> recordings() throws IOException {
        try (Stream<Path> all = Files.list(Path.of("..", "recordings"))) {
            return all.filter(Files::isDirectory).sorted().toList().stream();
        }
    }

    @Test
    void everyShapeIsThereFlownWellAndBadly() throws IOException {
        assertThat(recordings().map(path -> path.getFileName().toString()))
                .contains("outbound-good", "inbound-good", "airway-good", "outbound-fly-through", "inbound-reciprocal");
    }

    @ParameterizedTest
    @MethodSource("recordings")
    void aRecordingGivesItsLogAndItsGradeByteForByte(Path recording) throws Exception {
        Debrief debrief = Debrief.of(
                        recording.resolve("flight.pcap"),
                        LessonReader.readFile(recording.resolve("lesson.yaml")),
                        FORMATS,
                        Following.FIRST,
                        Said.NOTHING)
                .get(0);
        if (Boolean.getBoolean("rejoin.write-recordings")) {
            Files.write(
                    recording.resolve("log.jsonl"),
                    debrief.events().stream()
                            .map(event -> EventJson.line(event) + "\n")
                            .collect(Collectors.joining())
                            .getBytes(UTF_8));
            Files.writeString(recording.resolve("grade.json"), Recording.gradeJson(debrief.grade()));
        }
        assertThat(debrief.events().stream().map(EventJson::line))
                .containsExactlyElementsOf(Files.readAllLines(recording.resolve("log.jsonl")));
        assertThat(Recording.gradeJson(debrief.grade())).isEqualTo(Files.readString(recording.resolve("grade.json")));
    }
}
