package org.rejoin.console.recording;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.protocol.Datagram;

/**
 * A whole capture in memory.
 *
 * @param datagrams in the order of the file
 * @param tear where reading had to stop early; empty if the file is whole
 * @param skipped one line on packets that were skipped; empty if none were
 */
public record Captured(List<Datagram> datagrams, Optional<String> tear, Optional<String> skipped) {

    /** Reads it to its end. */
    public static Captured in(Path file) throws IOException {
        return in(Capture.open(file));
    }

    /** Reads one that is open to its end, and closes it. */
    static Captured in(Capture open) throws IOException {
        try (Capture capture = open) {
            List<Datagram> all = new ArrayList<>();
            for (Optional<Datagram> next = capture.next(); next.isPresent(); next = capture.next()) {
                all.add(next.get());
            }
            return new Captured(all, capture.tear(), capture.skipped());
        }
    }
}
