package org.rejoin.console.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;

/** Recordings as inputs of tests. */
final class KeptFlight {

    /** A heading to an airway, flown well in the invented ocean. */
    static final Path PLACE = Path.of("..", "recordings", "airway-good");

    private KeptFlight() {}

    /** The files of a recording copied into a folder, which is made; that folder. */
    static Path copied(Path recording, Path into) throws IOException {
        Files.createDirectories(into);
        try (Stream<Path> files = Files.list(recording)) {
            for (Path file : files.filter(Files::isRegularFile).toList()) {
                Files.copy(file, into.resolve(file.getFileName()));
            }
        }
        return into;
    }
}
