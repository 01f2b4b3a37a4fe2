package org.rejoin.console.live;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.nio.file.Path;
import java.util.Optional;
import java.util.function.Consumer;

import org.rejoin.bridge.feed.MicroClock;
import org.rejoin.console.flight.FeedSetup;
import org.rejoin.console.flight.Recording;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.recording.Capture;
import org.rejoin.console.recording.CaptureWriter;
import org.rejoin.console.recording.RecordingFolder;
import org.rejoin.console.recording.Said;
import org.rejoin.protocol.Datagram;

/** Where a flight is recorded, and whether there is one in it, to go on with. */
public record RecordingPlace(RecordingFolder folder, boolean resumed) {

    public static RecordingPlace fresh(Path directory) throws IOException {
        return new RecordingPlace(RecordingFolder.create(directory), false);
    }

    public static RecordingPlace resumed(Path directory) throws IOException {
        return new RecordingPlace(RecordingFolder.open(directory), true);
    }

    /** A clock that goes on after the recording, should this machine's have been set back since. */
    public MicroClock clock() throws IOException {
        MicroClock steady = MicroClock.steady();
        long[] last = {Long.MIN_VALUE};
        if (replay(datagram -> last[0] = Math.max(last[0], datagram.receivedMicros())) == 0) {
            return steady;
        }
        long behind = Math.max(0, last[0] + 1 - steady.micros());
        return () -> steady.micros() + behind;
    }

    Recording start(Lesson lesson, FeedSetup setup, InetSocketAddress listening, Consumer<String> warnings)
            throws IOException {
        return resumed
                ? Recording.resume(folder, setup, listening, warnings)
                : Recording.start(folder, lesson, setup, listening, warnings);
    }

    /** Gives out what is recorded already; how many datagrams. */
    long replay(Consumer<Datagram> sink) throws IOException {
        if (!resumed || CaptureWriter.beginsOurHeader(folder.capture())) {
            return 0;
        }
        long count = 0;
        try (Capture capture = Capture.open(folder.capture())) {
            for (Optional<Datagram> next = capture.next(); next.isPresent(); next = capture.next()) {
                sink.accept(next.get());
                count++;
            }
        }
        return count;
    }

    Said said() throws IOException {
        return folder.said();
    }
}
