package org.rejoin.console.flight;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.recording.RecordingFolder;
import org.rejoin.protocol.Datagram;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/** A flight that cannot begin leaves a place where it can be begun again. */
class RecordingTroubleTest {

    private static final InetSocketAddress HERE = new InetSocketAddress(InetAddress.getLoopbackAddress(), 3000);

    @TempDir
    private Path folder;

    private final List<String> warnings = new ArrayList<>();

    private Recording start(Path place) throws Exception {
        return Recording.start(
                RecordingFolder.create(place),
                LessonReader.read("heading-to-airway"),
                new FeedSetup(Following.EVERY, List.of("json")),
                HERE,
                warnings::add);
    }

    @Test
    void whatWasBegunAndGivenUpCanBeBegunAgain() throws Exception {
        Path place = folder.resolve("flight");
        start(place).abandon();
        assertThat(place.resolve("flight.pcap")).doesNotExist();
        start(place).close();
        // That one was not given up.
        assertThatThrownBy(() -> start(place)).hasMessageContaining("already holds a recording");
        assertThat(warnings).isEmpty();
    }

    @Test
    void anOldRecordingThatIsGivenUpStays() throws Exception {
        Path place = folder.resolve("flight");
        Recording first = start(place);
        first.record(Datagram.of(1_780_000_000_000_000L, HERE, new byte[] {1, 2, 3}));
        first.close();
        byte[] capture = Files.readAllBytes(place.resolve("flight.pcap"));
        RecordingFolder again = RecordingFolder.open(place);
        Recording.resume(again, FeedSetup.kept(again), HERE, warnings::add).abandon();
        assertThat(Files.readAllBytes(place.resolve("flight.pcap"))).isEqualTo(capture);
        assertThat(FeedSetup.kept(again).following()).isEqualTo(Following.EVERY);
        assertThat(warnings).isEmpty();
    }

    @Test
    @EnabledOnOs(OS.LINUX)
    void aCaptureThatCannotBeMadeLeavesNothingInTheWay() throws Exception {
        Path place = Files.createDirectories(folder.resolve("flight"));
        // Leads nowhere: nothing is written to where it leads.
        Path link = Files.createSymbolicLink(place.resolve("flight.pcap"), folder.resolve("nowhere/flight.pcap"));
        assertThatThrownBy(() -> start(place)).hasMessageContaining("already holds a recording");
        assertThat(Files.isSymbolicLink(link)).isTrue();
        Files.delete(link);
        start(place).close();
    }
}
