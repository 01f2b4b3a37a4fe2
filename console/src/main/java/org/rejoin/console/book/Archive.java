package org.rejoin.console.book;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;

/** Folders in one zip file, as they lie in the data folder. */
public final class Archive {

    /** The first day a zip file can name; the same folders give the same bytes. */
    private static final LocalDateTime NO_TIME = LocalDateTime.of(1980, 1, 1, 0, 0);

    private Archive() {}

    /**
     * Writes an archive; in place of nothing: a file that is there stays.
     *
     * @param archive to write
     * @param root names in the archive are relative to it
     * @param folders below the root, whole
     * @param more other files by their name
     * @throws IOException if it exists or cannot be written; one line
     */
    public static void write(Path archive, Path root, List<Path> folders, Map<String, byte[]> more) throws IOException {
        if (Files.exists(archive)) {
            throw new IOException(archive + " exists already; name another file, an archive is never overwritten");
        }
        Path beside = archive.resolveSibling("." + archive.getFileName() + ".part");
        try {
            try (OutputStream out = Files.newOutputStream(
                            beside,
                            StandardOpenOption.CREATE,
                            StandardOpenOption.TRUNCATE_EXISTING,
                            StandardOpenOption.WRITE);
                    ZipOutputStream zip = new ZipOutputStream(out)) {
                for (Map.Entry<String, byte[]> each : new TreeMap<>(more).entrySet()) {
                    zip.putNextEntry(entry(each.getKey()));
                    zip.write(each.getValue());
                    zip.closeEntry();
                }
                for (Path folder : folders) {
                    for (Path file : files(folder)) {
                        zip.putNextEntry(entry(root.relativize(file).toString().replace('\\', '/')));
                        Files.copy(file, zip);
                        zip.closeEntry();
                    }
                }
            }
            Files.move(beside, archive, StandardCopyOption.ATOMIC_MOVE);
        } catch (IOException e) {
            Files.deleteIfExists(beside);
            throw new IOException(archive + " cannot be written: " + Durable.why(e), e);
        }
    }

    private static List<Path> files(Path folder) throws IOException {
        try (Stream<Path> all = Files.walk(folder)) {
            return all.filter(Files::isRegularFile)
                    .filter(file -> !file.getFileName().toString().startsWith(".")) // locks
                    .sorted()
                    .toList();
        }
    }

    private static ZipEntry entry(String name) {
        ZipEntry entry = new ZipEntry(name);
        entry.setTimeLocal(NO_TIME);
        return entry;
    }
}
