package org.rejoin.console.cli;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;

import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;

/** Tests of the practice room, the real program: its data folder, its ports, and what it keeps. */
abstract class RealRoom {

    @TempDir
    Path folder = Path.of("");

    Path home = Path.of("");
    int feed;
    int page;

    @BeforeEach
    void freePorts() throws Exception {
        home = folder.resolve("home");
        feed = RealProgram.freePort();
        page = RealProgram.freePagePort();
    }

    /** Open. */
    final RealProgram room(String... more) throws Exception {
        return RealProgram.room(folder, home, feed, page, List.of(), more);
    }

    final String address() {
        return "http://127.0.0.1:" + page;
    }

    /** {@return the files of this name in the attempts, oldest first} */
    final List<Path> attempts(String file) throws IOException {
        if (!Files.isDirectory(home.resolve("attempts"))) {
            return List.of();
        }
        try (Stream<Path> found = Files.walk(home.resolve("attempts"))) {
            return found.filter(each -> each.endsWith(file)).sorted().toList();
        }
    }

    /** The same flight under another identifier; its place. */
    static Path copied(Path attempt, String other) throws IOException {
        Path to = KeptFlight.copied(attempt, attempt.resolveSibling(other));
        Path json = to.resolve("attempt.json");
        Files.writeString(
                json, Files.readString(json).replace(attempt.getFileName().toString(), other));
        return to;
    }

    /** As many copies as there are to be more, by the places under their identifiers. */
    static Map<String, Path> copies(Path attempt, int more) throws IOException {
        String id = attempt.getFileName().toString();
        Map<String, Path> copies = new TreeMap<>();
        for (int i = 1; i <= more; i++) {
            String other = id.substring(0, id.length() - 2) + String.format(Locale.ROOT, "%02d", i);
            copies.put(other, copied(attempt, other));
        }
        return copies;
    }

    static boolean installed(String program) {
        return Stream.of(System.getenv().getOrDefault("PATH", "").split(File.pathSeparator))
                .anyMatch(each -> Files.isExecutable(Path.of(each.isEmpty() ? "/nowhere" : each, program)));
    }
}
