package org.rejoin.console.flight;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.Optional;

import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.recording.CaptureWriter;
import org.rejoin.console.recording.Said;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.json.JsonFormat;
import org.rejoin.protocol.nmea.NmeaFormat;

import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A flight across midnight has one day, live and in a debrief. */
class FlightDayTest {

    private static final InetSocketAddress HERE = new InetSocketAddress(InetAddress.getLoopbackAddress(), 5001);
    private static final long BEFORE_MIDNIGHT =
            Instant.parse("2026-12-31T23:59:59.500Z").toEpochMilli() * 1000;

    @TempDir
    private Path folder = Path.of("");

    private Lesson dateless;

    @BeforeEach
    void lesson() throws Exception {
        for (String name : new String[] {"heading-to-airway.yaml", "open-ocean.yaml"}) {
            try (var resource = LessonReader.class.getResourceAsStream(name)) {
                Files.writeString(
                        folder.resolve(name),
                        new String(resource.readAllBytes(), java.nio.charset.StandardCharsets.UTF_8)
                                .replace("date: 2026-06-01\n", ""));
            }
        }
        dateless = LessonReader.readFile(folder.resolve("heading-to-airway.yaml"));
        assertThat(dateless.date()).isEmpty();
    }

    private static Datagram sample(int second) {
        byte[] octets = new JsonFormat()
                .newEncoder()
                .encode(AircraftState.at(second, 38.66 + second / 3600.0, -49.62))
                .get(0);
        return Datagram.of(BEFORE_MIDNIGHT + second * 1_000_000L, HERE, octets);
    }

    @Test
    void theFirstDatagramSaysTheDay() {
        FlightDay day = new FlightDay(dateless);
        for (int second = 0; second < 5; second++) {
            day.heard(sample(second));
        }
        assertThat(day.get()).isEqualTo(LocalDate.of(2026, 12, 31));
    }

    @Test
    void theLessonsDayGoesBeforeThat() throws Exception {
        FlightDay day = new FlightDay(LessonReader.read("heading-to-airway"));
        day.heard(sample(0));
        assertThat(day.get()).isEqualTo(LocalDate.of(2026, 6, 1));
    }

    /** The lesson's time goes before the feed's, that before the computer's; a day that is named is not the computer's. */
    @ParameterizedTest
    @CsvSource({
        "nmea, 1500, 2026-06-01, 15:00",
        "nmea,     , 2026-06-01, 08:20",
        "json, 1500,           , 15:00",
        "json,     ,           , 23:59:59.500",
        "json,     , 2026-06-01, ''",
    })
    void theTimeOfDay(String format, String lessonTime, String date, String expected) throws Exception {
        Path file = folder.resolve("heading-to-airway.yaml");
        Files.writeString(
                file,
                (date == null ? "" : "date: " + date + "\n")
                        + (lessonTime == null ? "" : "time_utc: " + lessonTime + "\n")
                        + Files.readString(file).replace("elapsed_s: 30", "elapsed_s: 0"));
        WireFormat wire = format.equals("nmea") ? new NmeaFormat() : new JsonFormat();
        Path capture = folder.resolve("flight.pcap");
        try (CaptureWriter writer = CaptureWriter.create(capture, HERE)) {
            WireFormat.Encoder encoder = wire.newEncoder();
            for (int second = 0; second < 5; second++) {
                AircraftState state = AircraftState.at(30_000 + second, 38.66 + second / 3600.0, -49.62);
                for (byte[] octets : encoder.encode(state)) {
                    writer.write(Datagram.of(BEFORE_MIDNIGHT + second * 1_000_000L, HERE, octets));
                }
            }
        }
        Debrief debrief = Debrief.of(capture, LessonReader.readFile(file), List.of(wire), Following.FIRST, Said.NOTHING)
                .get(0);
        assertThat(debrief.record().issued().get(0).route().situation().utc().map(LocalTime::toString))
                .isEqualTo(Optional.of(expected).filter(time -> !time.isEmpty()));
    }

    @Test
    void aDebriefTakesTheSameDay() throws Exception {
        Path capture = folder.resolve("flight.pcap");
        try (CaptureWriter writer = CaptureWriter.create(capture, HERE)) {
            for (int second = 0; second < 5; second++) {
                writer.write(sample(second));
            }
        }
        List<Debrief> debriefs =
                Debrief.of(capture, dateless, List.of(new JsonFormat()), Following.FIRST, Said.NOTHING);
        assertThat(debriefs)
                .singleElement()
                .satisfies(debrief -> assertThat(debrief.date()).isEqualTo(LocalDate.of(2026, 12, 31)));
    }
}
