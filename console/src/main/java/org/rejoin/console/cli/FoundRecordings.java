package org.rejoin.console.cli;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.FileVisitOption;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;

import org.jspecify.annotations.Nullable;

/**
 * The recordings below a directory.
 *
 * @param recordings directories, sorted
 * @param unreadable what could not be looked into and why, a line each, sorted
 */
record FoundRecordings(List<Path> recordings, List<String> unreadable) {

    private static final String CAPTURE = "flight.pcap";
    private static final int DEPTH = 4;

    /**
     * Looks four levels deep.
     *
     * @return nothing if the path is a recording itself or a file
     */
    static FoundRecordings under(Path path) throws IOException {
        if (!Files.isDirectory(path) || Files.exists(path.resolve(CAPTURE))) {
            return new FoundRecordings(List.of(), List.of());
        }
        Search search = new Search();
        Files.walkFileTree(path, EnumSet.noneOf(FileVisitOption.class), DEPTH, search);
        return search.found();
    }

    /** Goes on past what cannot be read. */
    static final class Search extends SimpleFileVisitor<Path> {

        private final List<Path> recordings = new ArrayList<>();
        private final List<String> unreadable = new ArrayList<>();

        FoundRecordings found() {
            return new FoundRecordings(
                    recordings.stream().sorted().toList(),
                    unreadable.stream().sorted().toList());
        }

        @Override
        public FileVisitResult visitFile(Path file, BasicFileAttributes attributes) {
            if (file.endsWith(CAPTURE) && !attributes.isDirectory()) {
                recordings.add(file.resolveSibling(""));
            }
            return FileVisitResult.CONTINUE;
        }

        @Override
        public FileVisitResult visitFileFailed(Path file, IOException why) {
            String said = why instanceof FileSystemException system ? system.getReason() : why.getMessage();
            unreadable.add(file + " cannot be looked into: "
                    + (why instanceof AccessDeniedException
                            ? "no permission"
                            : said == null ? why.getClass().getSimpleName() : said)
                    + "; recordings in it are left out");
            return FileVisitResult.CONTINUE;
        }

        @Override
        public FileVisitResult postVisitDirectory(Path directory, @Nullable IOException why) {
            return why == null ? FileVisitResult.CONTINUE : visitFileFailed(directory, why);
        }
    }
}
