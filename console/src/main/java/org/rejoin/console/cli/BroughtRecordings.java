package org.rejoin.console.cli;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;

import org.rejoin.console.book.Archive;

import org.jspecify.annotations.Nullable;

/** Recordings that somebody brings: one folder, a folder of several, or a .zip file; unpacked for as long as this is open. */
final class BroughtRecordings implements AutoCloseable {

    /** Year, month and attempt of a data folder, and two more. */
    private static final int DEEPEST = 6;

    private final List<Path> folders;
    private final Path named;
    private final @Nullable Path unpacked;

    private BroughtRecordings(List<Path> folders, Path named, @Nullable Path unpacked) {
        this.folders = List.copyOf(folders);
        this.named = named;
        this.unpacked = unpacked;
    }

    /**
     * Looks what there is.
     *
     * @throws BadInput if there is no recording in it
     */
    static BroughtRecordings of(Path named) throws BadInput, IOException {
        boolean zip = Files.isRegularFile(named)
                && named.toString().toLowerCase(Locale.ROOT).endsWith(".zip");
        if (!zip) {
            List<Path> found = Files.isDirectory(named) ? recordings(named) : List.of();
            // What is no recording is refused in the words of whoever reads one.
            return new BroughtRecordings(found.isEmpty() ? List.of(named) : found, named, null);
        }
        Path into = Files.createTempDirectory("rejoin-brought").toRealPath();
        BroughtRecordings brought = null;
        try {
            BadInput.in(() -> {
                Archive.unpack(named, into);
                return into;
            });
            List<Path> found = recordings(into);
            if (found.isEmpty()) {
                throw new BadInput(
                        named + " holds no folder with flight.pcap and lesson.yaml; fly each drill with --out"
                                + " FOLDER and pack the folders");
            }
            brought = new BroughtRecordings(found, named, into);
            return brought;
        } finally {
            if (brought == null) {
                remove(into);
            }
        }
    }

    private static List<Path> recordings(Path root) throws IOException {
        try (Stream<Path> walk = Files.walk(root, DEEPEST)) {
            return walk.filter(file -> String.valueOf(file.getFileName()).equals("flight.pcap"))
                    .map(file -> file.resolveSibling(""))
                    .sorted()
                    .toList();
        }
    }

    List<Path> folders() {
        return folders;
    }

    /** A message with the archive and its member in place of where it lies unpacked, which is gone when it is read. */
    String asBrought(String message) {
        return unpacked == null
                ? message
                : message.replace(unpacked + File.separator, named + ": ")
                        .replace(unpacked.toString(), named.toString());
    }

    boolean several() {
        return folders.size() > 1;
    }

    @Override
    public void close() throws IOException {
        if (unpacked != null) {
            remove(unpacked);
        }
    }

    private static void remove(Path root) throws IOException {
        try (Stream<Path> walk = Files.walk(root)) {
            for (Path file : walk.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(file);
            }
        }
    }
}
