package org.rejoin.console.flight;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;
import org.rejoin.console.recording.CaptureWriter;
import org.rejoin.console.recording.Said;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.json.JsonFormat;

import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** One port, several aircraft: each is flown, logged and graded as if it were alone. */
class SeveralAircraftTest {

    private static final InetSocketAddress HERE = new InetSocketAddress(InetAddress.getLoopbackAddress(), 3000);
    private static final List<WireFormat> FORMATS = List.of(new JsonFormat());
    private static final List<AircraftState> GOOD = new ArrayList<>();
    private static final List<AircraftState> LATE = new ArrayList<>();

    @TempDir
    private Path folder;

    private record Sender(int port, String callsign, List<AircraftState> states) {}

    @BeforeAll
    static void fly() throws Exception {
        LocalDate date = LocalDate.of(2026, 6, 1);
        new PracticeFlight(lesson(), date, Habit.GOOD).fly(1, GOOD::add);
        new PracticeFlight(lesson(), date, Habit.FLY_THROUGH).fly(1, LATE::add);
    }

    private static Lesson lesson() throws Exception {
        return LessonReader.read("heading-to-airway");
    }

    private Path capture(String name, List<Sender> senders, int samples) throws Exception {
        Path file = folder.resolve(name);
        List<WireFormat.Encoder> encoders =
                senders.stream().map(sender -> new JsonFormat().newEncoder()).toList();
        try (CaptureWriter writer = CaptureWriter.create(file, HERE)) {
            for (int i = 0; i < samples; i++) {
                for (int s = 0; s < senders.size(); s++) {
                    Sender sender = senders.get(s);
                    if (i >= sender.states().size()) {
                        continue;
                    }
                    for (byte[] payload : encoders.get(s).encode(sender.states().get(i))) {
                        String json = new String(payload, StandardCharsets.UTF_8);
                        String named = json.replaceFirst("\\{", "{\"callsign\":\"" + sender.callsign() + "\",");
                        writer.write(Datagram.of(
                                1_780_000_000_000_000L + i * 1_000_000L + s * 100L,
                                new InetSocketAddress(InetAddress.getLoopbackAddress(), sender.port()),
                                named.getBytes(StandardCharsets.UTF_8)));
                    }
                }
            }
        }
        return file;
    }

    private List<Debrief> debrief(Path capture, Following following) throws Exception {
        return Debrief.of(capture, lesson(), FORMATS, following, Said.NOTHING);
    }

    private static List<Sender> three() {
        return List.of(new Sender(4001, "AAA1", GOOD), new Sender(4002, "BBB2", LATE), new Sender(4003, "AAA1", GOOD));
    }

    @Test
    void everyAircraftHasTheLogAndTheGradeItHasAlone() throws Exception {
        List<Debrief> together = debrief(capture("all.pcap", three(), 10_000), Following.EVERY);
        assertThat(together).extracting(each -> each.aircraft().label()).containsExactly("AAA1", "BBB2", "AAA1 2");
        for (int i = 0; i < 3; i++) {
            Debrief alone = debrief(capture("alone" + i + ".pcap", List.of(three().get(i)), 10_000), Following.FIRST)
                    .get(0);
            assertThat(together.get(i).events()).isEqualTo(alone.events());
            assertThat(together.get(i).grade()).isEqualTo(alone.grade());
        }
        assertThat(together.get(0).grade().faults()).isEmpty();
        assertThat(together.get(1).events()).hasAtLeastOneElementOfType(FlightEvent.FlownThrough.class);
    }

    @Test
    void theFirstIsFollowedAndTheOthersAreSaid() throws Exception {
        List<Debrief> one = debrief(capture("first.pcap", three(), 200), Following.FIRST);
        assertThat(one).hasSize(1);
        assertThat(one.get(0).aircraft().label()).isEqualTo("AAA1");
        assertThat(one.get(0).notes())
                .filteredOn(note -> note.contains("second aircraft"))
                .hasSize(2);
    }

    @Test
    void eachNameIsOneAircraft() throws Exception {
        Path capture = capture("named.pcap", three(), 200);
        assertThat(debrief(capture, new Following(List.of("bbb2"), false)))
                .extracting(each -> each.aircraft().label())
                .containsExactly("BBB2");
        assertThat(debrief(capture, new Following(List.of("BBB2", "AAA1"), false)))
                .extracting(each -> each.aircraft().label())
                .containsExactly("AAA1", "BBB2");
    }

    @Test
    void aThousandAircraftAreFlown() throws Exception {
        List<Sender> thousand = IntStream.range(0, 1000)
                .mapToObj(i -> new Sender(10_000 + i, "T" + i, GOOD))
                .toList();
        List<Debrief> all = debrief(capture("thousand.pcap", thousand, 60), Following.EVERY);
        assertThat(all)
                .hasSize(1000)
                .allSatisfy(each ->
                        assertThat(each.events()).hasAtLeastOneElementOfType(FlightEvent.ClearanceIssued.class));
    }
}
